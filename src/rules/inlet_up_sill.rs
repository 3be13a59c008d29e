//! The up-side sill must not lie below the foot shaft with the take-up at its lowest.
//!
//! Below the shaft the buckets are still on the pulley: they cannot hold material, they fling it
//! back, and the rated capacity stays out of reach. Common practice of the trade; the pole
//! construction of the retained fill gives the same answer.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::{amount, mm};
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Sill against the lowest shaft.
pub const RULE: Rule = Rule {
    id: "inlet-up-sill",
    title: "Up-side sill, lowest take-up",
    what: "Height of the up-side sill against the foot shaft's centreline with the take-up at its lowest position.",
    why: "Below the shaft the buckets are still on the pulley, cannot hold material and fling it back: rated capacity stays out of reach.",
    remedy: "Raise the sill to the lowest shaft centreline or higher, or lower the shaft.",
    source: Source::practice("up-side sill not below the foot shaft at the lowest take-up"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(inlet) = case.foot.inlet(FeedSide::Up) else { return Vec::new() };
    let (sill, shaft) = (inlet.sill, case.foot.shaft_lowest);
    let message = if reaches(sill, shaft) {
        say!(
            "the up-side sill at {sill} is {over} above the lowest shaft centre ({shaft})",
            sill = mm(sill),
            over = mm((sill - shaft).max(0.0)),
            shaft = mm(shaft)
        )
    } else {
        let (lost, most) = case.results.retained.sill_lowest.as_ref().map_or((0.0, 0.0), |s| (s.lost_t_per_h, s.most_lost_t_per_h));
        say!(
            "the up-side sill at {sill} is {below} below the foot shaft at the lowest take-up ({shaft}): it costs about {lost}, at most {most}",
            sill = mm(sill),
            below = mm(shaft - sill),
            shaft = mm(shaft),
            lost = amount(lost, Unit::TPerH, 1),
            most = amount(most, Unit::TPerH, 1),
        )
    };
    vec![
        RULE.finds(unless(reaches(sill, shaft), Verdict::Fail), "inlet.up.sill", message)
            .value(sill, Unit::Mm)
            .limit(shaft, Unit::Mm)
            .change("inlet.up.sill", &Length::mm(up_to(shaft, 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn sill_against_the_lowest_shaft() {
        assert_eq!(worst(&RULE, &[("inlet.up.sill", "\"1600 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("inlet.up.sill", "\"300 mm\"")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("inlet.up.fitted", "false"), ("inlet.down.fitted", "true")]), None);
        turns(&RULE, "inlet.up.sill", &[], -0.1);
    }
}
