//! Nothing touches the bucket path at any take-up position: bottom, end plates, side plates.
//!
//! The tip radius is that of a bucket whose back is tangent at mid-height. On the down side the tips
//! run along the belt, round a bend pulley too; the path is sampled at five take-up positions. Under
//! 10 mm counts as touching (weld distortion, belt wander); 25 mm is the least for trouble-free
//! running. Both are common practice, no source.

use super::finding::{mm, reaches, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::model::Foot;
use crate::sources::Source;
use crate::units::Length;

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
const POSITIONS: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (foot, casing) = (case.foot, &case.spec.casing);
    let down = down_side(foot);
    let side = case.foot.casing.width.size() / 2.0 - widest(foot) / 2.0;
    let bottom = foot.shaft_lowest - foot.tip_radius - foot.casing.bottom_face;
    [
        ("casing.bottom_clearance", "the bottom (take-up at its lowest)", bottom, casing.bottom_clearance.value()),
        ("casing.up_clearance", "the up-side end plate", foot.casing.up_face - foot.tip_radius, casing.up_clearance.value()),
        ("casing.down_clearance", "the down-side end plate", down, casing.down_clearance.value()),
        ("casing.side_clearance", "the side plates", side, casing.side_clearance.value()),
    ]
    .into_iter()
    .map(|(path, place, gap, given)| {
        let verdict = if reaches(gap, LEAST) {
            Verdict::Pass
        } else if reaches(gap, TOUCH) {
            case.warn_or_fail_for_dust()
        } else {
            Verdict::Fail
        };
        let message = if gap < 0.0 { format!("buckets, belt or pulley cut {} into {place}", mm(-gap)) } else { format!("buckets, belt and pulley clear {place} by {}", mm(gap)) };
        // What the key must grow by is at most what is missing: the gap follows the key one to one or better.
        RULE.finds(verdict, path, message).value(gap, "mm").limit(LEAST, "mm").change(path, &Length::mm(up_to(given + LEAST - gap, 5.0)))
    })
    .collect()
}

fn widest(foot: &Foot) -> f64 {
    foot.belt.width.max(foot.pulleys.foot.face).max(foot.bucket.overall_length).max(foot.pulleys.bend.map_or(0.0, |b| b.face))
}

/// Least distance, square to the plate, of any bucket corner from the down-side end plate, below the top flange.
fn down_side(foot: &Foot) -> f64 {
    let casing = &foot.casing;
    let mut least = f64::INFINITY;
    for share in POSITIONS {
        let Ok(path) = foot.belt.at_travel(share) else { continue };
        // From the top flange down to the bottom of the path, every 20 mm along the belt.
        let mut distance = 0.0;
        while distance < path.length_mm {
            if let Some(place) = foot.belt.place(&path, distance)
                && place.at[0] < 0.0
                && place.at[1] < casing.top
            {
                for corner in foot.bucket.placed(place.at, place.out, place.travel) {
                    if corner[1] < casing.top {
                        least = least.min(distance_inside(&casing.down_face, corner));
                    }
                }
                distance += 20.0;
            } else {
                distance += 100.0;
            }
        }
    }
    least
}

/// Signed distance of a point from a polyline that runs upward, positive on its +x side.
fn distance_inside(face: &[[f64; 2]], point: [f64; 2]) -> f64 {
    let mut nearest = (f64::INFINITY, 1.0);
    for pair in face.windows(2) {
        let [from, to] = pair else { continue };
        let along = [to[0] - from[0], to[1] - from[1]];
        let length2 = along[0] * along[0] + along[1] * along[1];
        if length2 < 1e-12 {
            continue;
        }
        let rel = [point[0] - from[0], point[1] - from[1]];
        let share = ((rel[0] * along[0] + rel[1] * along[1]) / length2).clamp(0.0, 1.0);
        let gap = (rel[0] - share * along[0]).hypot(rel[1] - share * along[1]);
        if gap < nearest.0 {
            let side = along[1] * rel[0] - along[0] * rel[1];
            nearest = (gap, if side >= 0.0 { 1.0 } else { -1.0 });
        }
    }
    nearest.0 * nearest.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

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

    #[test]
    fn distance_has_a_sign() {
        let face = [[-500.0, 0.0], [-500.0, 1000.0], [-900.0, 2000.0]];
        assert!((distance_inside(&face, [-460.0, 500.0]) - 40.0).abs() < 1e-9);
        assert!((distance_inside(&face, [-530.0, 500.0]) + 30.0).abs() < 1e-9);
    }
}
