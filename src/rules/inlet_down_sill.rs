//! The down-side sill may sit low, but not where the heap under it would stand in the bucket path.
//!
//! Its height is not critical; 100 mm above the lowest point of the bucket path keeps the throat from
//! standing full of material. Common practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::ABOVE_BUCKET_PATH;
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Sill above the bucket path's bottom.
pub const RULE: Rule = Rule {
    id: "inlet-down-sill",
    title: "Down-side sill",
    what: "Height of the down-side sill above the lowest point of the bucket path, take-up at its lowest.",
    why: "The foot fills before the buckets do; a sill at the very bottom lets the material stand in the throat and plug it.",
    remedy: "Keep the sill at least 100 mm above the lowest point of the bucket path.",
    source: Source::practice("down-side sill at least 100 mm above the bucket path's bottom"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(inlet) = case.foot.inlet(FeedSide::Down) else { return Vec::new() };
    let bottom = case.foot.shaft_lowest - case.foot.tip_radius;
    let limit = bottom + ABOVE_BUCKET_PATH;
    let good = reaches(inlet.sill, limit);
    let (sill, path) = (mm(inlet.sill), mm(bottom));
    let message = if inlet.sill >= bottom {
        say!(
            "the down-side sill at {sill} is {above} above the lowest point of the bucket path ({path}), at least at {limit}",
            sill = sill,
            above = mm(inlet.sill - bottom),
            path = path,
            limit = mm(limit)
        )
    } else {
        say!(
            "the down-side sill at {sill} is {below} below the lowest point of the bucket path ({path}), at least at {limit}",
            sill = sill,
            below = mm(bottom - inlet.sill),
            path = path,
            limit = mm(limit)
        )
    };
    vec![
        RULE.finds(unless(good, Verdict::Warn), "inlet.down.sill", message)
            .value(inlet.sill, Unit::Mm)
            .limit(limit, Unit::Mm)
            .change("inlet.down.sill", &Length::mm(up_to(limit, 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn sill_above_the_path() {
        let down = ("inlet.down.fitted", "true");
        assert_eq!(worst(&RULE, &[]), None);
        assert_eq!(worst(&RULE, &[down, ("inlet.down.sill", "\"600 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[down, ("inlet.down.sill", "\"10 mm\"")]), Some(Verdict::Warn));
        turns(&RULE, "inlet.down.sill", &[down], -0.1);
    }
}
