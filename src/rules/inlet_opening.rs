//! An inlet's opening must lie in its end plate, between the bottom and the top flange.
//!
//! Geometry: opening and throat flange need metal round them. 30 mm of plate all round is common
//! practice, no source.

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Opening within the end plate.
pub const RULE: Rule = Rule {
    id: "inlet-opening",
    title: "Inlet within the end plate",
    what: "Upper edge of each inlet opening against the casing's top flange, with 30 mm of plate left.",
    why: "An opening that cuts the flange leaves nothing to bolt the trunking to.",
    remedy: "Make the casing higher or the opening lower.",
    source: Source::practice("30 mm of plate between an opening and a flange"),
    check,
};

/// Plate left above the opening, mm.
const PLATE_LEFT: f64 = 30.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let top = case.foot.casing.top;
    let limit = top - PLATE_LEFT;
    case.foot
        .inlets
        .iter()
        .map(|inlet| {
            let high = inlet.opening.high;
            let message = match inlet.side {
                FeedSide::Up => {
                    say!(
                        "the up-side opening reaches up to {high}, at most {limit} under the top flange at {top}",
                        high = mm(high),
                        limit = mm(limit),
                        top = mm(top)
                    )
                }
                FeedSide::Down => {
                    say!(
                        "the down-side opening reaches up to {high}, at most {limit} under the top flange at {top}",
                        high = mm(high),
                        limit = mm(limit),
                        top = mm(top)
                    )
                }
            };
            RULE.finds(unless(within(high, limit), Verdict::Fail), format!("inlet.{}.height", inlet.side.key()), message)
                .value(high, Unit::Mm)
                .limit(limit, Unit::Mm)
                .change("casing.height", &Length::mm(up_to(high + PLATE_LEFT, 10.0)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, measured, proposed, worst};

    #[test]
    fn opening_below_the_flange() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("casing.height", "\"1000 mm\"")]), Some(Verdict::Fail));
        let (high, _) = measured(&RULE, &[]);
        assert_eq!(proposed(&RULE, SMALL, &[("casing.height", "\"1000 mm\"")]), [format!("casing.height = \"{} mm\"", ((high + 30.0) / 10.0).ceil() * 10.0)]);
        let at = format!("\"{} mm\"", high + PLATE_LEFT);
        let below = format!("\"{} mm\"", high + PLATE_LEFT - 1.0);
        assert_eq!(worst(&RULE, &[("casing.height", &at)]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("casing.height", &below)]), Some(Verdict::Fail));
    }
}
