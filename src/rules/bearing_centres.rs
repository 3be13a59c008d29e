//! Bearings outside the casing stand outside its side plates.
//!
//! Geometry: bearing centres against inside width, plates and sliding plates.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Bearing planes against side plates.
pub const RULE: Rule = Rule {
    id: "bearing-centres",
    title: "Bearing centres",
    what: "Distance of the bearing centres against the width of the casing over its side and sliding plates.",
    why: "Bearings closer together than the casing is wide would sit inside it, in the dust.",
    remedy: "Move the bearing centres apart.",
    source: Source::physics("casing width, side plates and sliding plates between the bearings"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    if !case.spec.bearings.outside.value {
        return Vec::new();
    }
    let casing = &case.foot.casing;
    let limit = casing.width.size() + 2.0 * casing.plate + 2.0 * case.foot.rotating.sliding_plate.thickness;
    let centres = case.foot.rotating.bearing_planes.size();
    vec![
        RULE.finds(
            unless(reaches(centres, limit), Verdict::Fail),
            "shaft.bearing_centres",
            say!("bearing centres {apart} apart, casing {width} over side and sliding plates", apart = mm(centres), width = mm(limit)),
        )
        .value(centres, Unit::Mm)
        .limit(limit, Unit::Mm)
        .change("shaft.bearing_centres", &Length::mm(up_to(limit, 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, measured, proposed, turns, worst};

    #[test]
    fn outside_means_outside() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("shaft.bearing_centres", "\"300 mm\"")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("bearings.outside", "false")]), None);
        turns(&RULE, "shaft.bearing_centres", &[], -0.1);
        // Casing 480 inside, side plates 2 × 5 and sliding plates 2 × 15 of the default foot.
        let machine = [("casing.plate", "\"5 mm\""), ("shaft.bearing_centres", "\"300 mm\"")];
        assert_eq!(measured(&RULE, &machine), (300.0, 480.0 + 10.0 + 30.0));
        assert_eq!(proposed(&RULE, SMALL, &machine), ["shaft.bearing_centres = \"520 mm\""]);
    }
}
