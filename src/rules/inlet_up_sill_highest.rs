//! The up-side sill should clear the foot shaft even with the take-up at its highest.
//!
//! A new belt is short: the shaft then stands high, and a sill below it costs fill until the belt has
//! stretched. The share lost comes from the retained-fill curve. Physics (pole construction).

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::{amount, mm};
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Sill against the highest shaft.
pub const RULE: Rule = Rule {
    id: "inlet-up-sill-highest",
    title: "Up-side sill, highest take-up",
    what: "Height of the up-side sill against the foot shaft's centreline with the take-up at its highest position, and the share of the bucket fill that a lower sill costs.",
    why: "With a new, short belt the shaft stands high; buckets that pass a sill below the shaft cannot hold what they get until the belt has stretched.",
    remedy: "Raise the sill to the highest shaft centreline if the pit allows, or shorten the take-up travel.",
    source: Source::physics("retained fill by the pole construction on the foot pulley"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(inlet) = case.foot.inlet(FeedSide::Up) else { return Vec::new() };
    let (sill, shaft) = (inlet.sill, case.foot.shaft_highest);
    let good = reaches(sill, shaft);
    let message = if good {
        say!("the up-side sill at {sill} clears the shaft at the highest take-up ({shaft})", sill = mm(sill), shaft = mm(shaft))
    } else {
        let lost = case.results.retained.sill_highest.as_ref();
        let (share, tonnes, most) = lost.map_or((0.0, 0.0, 0.0), |s| (s.share.clamp(0.0, 1.0), s.lost_t_per_h, s.most_lost_t_per_h));
        say!(
            "the up-side sill at {sill} is {below} below the foot shaft at the highest take-up ({shaft}): buckets at the sill then hold {share} of the water-level fill, which costs about {lost}, at most {most}, until the belt has stretched",
            sill = mm(sill),
            below = mm(shaft - sill),
            shaft = mm(shaft),
            share = amount(share * 100.0, Unit::Percent, 0),
            lost = amount(tonnes, Unit::TPerH, 1),
            most = amount(most, Unit::TPerH, 1),
        )
    };
    vec![
        RULE.finds(unless(good, Verdict::Warn), "inlet.up.sill", message)
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
    fn sill_against_the_highest_shaft() {
        assert_eq!(worst(&RULE, &[("inlet.up.sill", "\"2000 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("inlet.up.sill", "\"300 mm\"")]), Some(Verdict::Warn));
        turns(&RULE, "inlet.up.sill", &[], -0.1);
    }
}
