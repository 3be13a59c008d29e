//! Nothing touches the bucket path at any take-up position: bottom, end plates, side plates.
//!
//! The gaps come from sweeping the corners of the bucket's section along the belt path, at all take-up positions. Under
//! 10 mm counts as touching (weld distortion, belt wander); 25 mm is the least for trouble-free
//! running. Both are common practice, no source.

use super::finding::{reaches, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{Statement, mm};
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Buckets against casing.
pub const RULE: Rule = Rule {
    id: "bucket-clearance",
    title: "Clearance of the buckets",
    what: "Least distance of buckets, belt and pulley from bottom, end plates and side plates at every take-up position.",
    why: "Buckets that touch tear loose, make sparks and fines, and stop the elevator.",
    remedy: "Give each side at least 25 mm; usual are 40 mm at the bottom, 60 mm at the ends, 50 mm at the sides.",
    source: Source::practice("25 mm at least, under 10 mm counts as touching"),
    check,
};

const LEAST: f64 = 25.0;
const TOUCH: f64 = 10.0;

/// What buckets can touch.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wall {
    Bottom,
    UpEnd,
    DownEnd,
    Sides,
}

impl Wall {
    const fn path(self) -> &'static str {
        match self {
            Self::Bottom => "casing.bottom_clearance",
            Self::UpEnd => "casing.up_clearance",
            Self::DownEnd => "casing.down_clearance",
            Self::Sides => "casing.side_clearance",
        }
    }

    /// The gap in mm, negative where something is cut.
    fn message(self, gap: f64) -> Statement {
        if gap < 0.0 {
            let (depth, least) = (mm(-gap), mm(LEAST));
            return match self {
                Self::Bottom => say!(
                    "buckets, belt or pulley cut {depth} into the bottom (take-up at its lowest), at least {least} must be clear",
                    depth = depth,
                    least = least
                ),
                Self::UpEnd => {
                    say!("buckets, belt or pulley cut {depth} into the up-side end plate, at least {least} must be clear", depth = depth, least = least)
                }
                Self::DownEnd => {
                    say!("buckets, belt or pulley cut {depth} into the down-side end plate, at least {least} must be clear", depth = depth, least = least)
                }
                Self::Sides => say!("buckets, belt or pulley cut {depth} into the side plates, at least {least} must be clear", depth = depth, least = least),
            };
        }
        let (gap, least) = (mm(gap), mm(LEAST));
        match self {
            Self::Bottom => say!("buckets, belt and pulley clear the bottom (take-up at its lowest) by {gap}, at least {least}", gap = gap, least = least),
            Self::UpEnd => say!("buckets, belt and pulley clear the up-side end plate by {gap}, at least {least}", gap = gap, least = least),
            Self::DownEnd => say!("buckets, belt and pulley clear the down-side end plate by {gap}, at least {least}", gap = gap, least = least),
            Self::Sides => say!("buckets, belt and pulley clear the side plates by {gap}, at least {least}", gap = gap, least = least),
        }
    }
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let casing = &case.spec.casing;
    let gaps = &case.results.clearances;
    let curved = case.foot.casing.bottom_radius.is_some();
    // A wider end lets a curved bottom rise higher beside the pulley, toward the inclined run; it goes down by as much.
    let ends = if curved { (LEAST - gaps.least.up_mm).max(0.0) + (LEAST - gaps.least.down_mm).max(0.0) } else { 0.0 };
    let lower = Length::mm(up_to(casing.bottom_clearance.value() + (LEAST - gaps.least.bottom_mm).max(0.0) + ends, 5.0));
    [
        (Wall::Bottom, gaps.least.bottom_mm, casing.bottom_clearance.value()),
        (Wall::UpEnd, gaps.least.up_mm, casing.up_clearance.value()),
        (Wall::DownEnd, gaps.least.down_mm, casing.down_clearance.value()),
        (Wall::Sides, gaps.side_mm, casing.side_clearance.value()),
    ]
    .into_iter()
    // A curved bottom that rises over the top flange leaves no end plate to touch.
    .filter(|(_, gap, _)| gap.is_finite())
    .map(|(wall, gap, given)| {
        let path = wall.path();
        let verdict = if reaches(gap, LEAST) {
            Verdict::Pass
        } else if reaches(gap, TOUCH) {
            case.warn_or_fail_for_dust()
        } else {
            Verdict::Fail
        };
        let finding = RULE.finds(verdict, path, wall.message(gap)).value(gap, Unit::Mm).limit(LEAST, Unit::Mm);
        if wall == Wall::Bottom {
            return finding.change(path, &lower);
        }
        // What the key must grow by is at most what is missing: the gap follows the key one to one or better.
        let finding = finding.change(path, &Length::mm(up_to(given + LEAST - gap, 5.0)));
        if curved && wall != Wall::Sides { finding.change("casing.bottom_clearance", &lower) } else { finding }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, proposed, worst};

    /// What is missing to 25 mm is added to the key; over a curved bottom a wider end also lowers the bottom by as much.
    #[test]
    fn what_is_missing_is_added() {
        assert_eq!(proposed(&RULE, SMALL, &[("casing.bottom_clearance", "\"10 mm\"")]), ["casing.bottom_clearance = \"25 mm\""]);
        assert_eq!(proposed(&RULE, SMALL, &[("casing.up_clearance", "\"5 mm\"")]), ["casing.up_clearance = \"25 mm\""]);
        let curved = ("casing.bottom", "\"curved\"");
        let narrow = [curved, ("casing.up_clearance", "\"5 mm\""), ("casing.down_clearance", "\"15 mm\"")];
        assert_eq!(
            proposed(&RULE, SMALL, &narrow),
            [
                "casing.up_clearance = \"25 mm\"",
                // 40 given, and 20 + 10 for the two ends
                "casing.bottom_clearance = \"70 mm\"",
                "casing.down_clearance = \"25 mm\"",
                "casing.bottom_clearance = \"70 mm\"",
            ]
        );
        assert_eq!(proposed(&RULE, SMALL, &[curved, ("casing.side_clearance", "\"5 mm\"")]), ["casing.side_clearance = \"25 mm\""]);
        let said = |gap: &str| {
            findings_of(&RULE, SMALL, &[("casing.side_clearance", gap)]).into_iter().find(|f| f.path == "casing.side_clearance").unwrap().message.plainly()
        };
        assert_eq!(said("\"-20 mm\""), "buckets, belt or pulley cut 20 mm into the side plates, at least 25 mm must be clear");
        assert_eq!(said("\"0 mm\""), "buckets, belt and pulley clear the side plates by 0 mm, at least 25 mm");
    }

    #[test]
    fn each_side() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        let no_dust = ("product.combustible", "false");
        for key in ["casing.bottom_clearance", "casing.up_clearance", "casing.side_clearance"] {
            assert_eq!(worst(&RULE, &[(key, "\"25 mm\"")]), Some(Verdict::Pass), "{key}");
            assert_eq!(worst(&RULE, &[(key, "\"24.9 mm\""), no_dust]), Some(Verdict::Warn), "{key}");
            assert_eq!(worst(&RULE, &[(key, "\"24.9 mm\""), ("product.combustible", "true")]), Some(Verdict::Fail), "{key}");
            assert_eq!(worst(&RULE, &[(key, "\"9.9 mm\""), no_dust]), Some(Verdict::Fail), "{key}");
            assert_eq!(worst(&RULE, &[(key, "\"-20 mm\""), no_dust]), Some(Verdict::Fail), "{key}");
        }
        assert_eq!(worst(&RULE, &[("casing.down_clearance", "\"0 mm\""), no_dust]), Some(Verdict::Fail));
    }
}
