//! The sliding plates of a gravity take-up are guided over a length on which they do not jam.
//!
//! Common practice: 1.5 times the distance between the guides, in every position of the take-up.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::gravity_take_up::{GUIDED, LEAST_GUIDED};
use crate::say;
use crate::say::{amount, mm};
use crate::units::{Length, Unit};

/// Guided length against the distance of the guides.
pub const RULE: Rule = Rule {
    id: "gravity-guides",
    title: "Guides of the gravity take-up",
    what: "Least length over which a sliding plate is guided against the distance between its guides; and the band that friction leaves of the tension.",
    why: "A short slide tilts under weights that are laid unevenly and jams; the belt then goes slack though the boxes are full.",
    remedy: "More travel makes the sliding plates longer.",
    source: GUIDED,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(gravity) = &case.results.gravity else { return Vec::new() };
    let least = LEAST_GUIDED * gravity.apart_mm;
    let [low, high] = gravity.band_n.map(|n| amount(n / 1000.0, Unit::Kn, 2));
    let finding = RULE
        .finds(
            unless(reaches(gravity.guided_mm, least), Verdict::Fail),
            "take_up.travel",
            say!(
                "the sliding plates are guided over {guided} at least, {least} are wanted at {apart} between the guides; friction in them leaves {low} to {high} of pull",
                guided = mm(gravity.guided_mm),
                least = mm(least),
                apart = mm(gravity.apart_mm),
                low = low,
                high = high,
            ),
        )
        .value(gravity.guided_mm, Unit::Mm)
        .limit(least, Unit::Mm);
    // A plate is longer by twice what the travel is longer, of which the lower half may hang below its guides.
    let more = case.foot.rotating.travel + (least - gravity.guided_mm).max(0.0);
    vec![finding.change("take_up.travel", &Length::mm(up_to(more, 10.0)))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, mended, worst};

    #[test]
    fn a_short_travel_jams() {
        let gravity = [("take_up.kind", "\"gravity\"")];
        assert_eq!(worst(&RULE, &[]), None);
        assert_eq!(worst(&RULE, &gravity), Some(Verdict::Pass));
        let short = [&gravity[..], &[("take_up.travel", "\"40 mm\""), ("shaft.journal", "\"90 mm\""), ("shaft.diameter", "\"90 mm\"")]].concat();
        assert_eq!(worst(&RULE, &short), Some(Verdict::Fail));
        mended(&RULE, SMALL, &short);
    }
}
