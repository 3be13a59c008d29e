//! A pushed take-up rod does not buckle.
//!
//! Euler or Johnson column, pinned ends, at least three times the rod's load (common practice). A pulled rod
//! cannot buckle and is preferred.

use super::finding::{mm, n, reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::screw;
use crate::spec::rotating::RodAction;

/// Buckling of a pushed rod.
pub const RULE: Rule = Rule {
    id: "screw-buckling",
    title: "Buckling of the take-up rods",
    what: "Critical load of a pushed rod at its longest against three times its load.",
    why: "A slender rod that pushes bends aside, tilts the bearing plate and lets the shaft run askew.",
    remedy: "Pull instead of push, or take a thicker rod.",
    source: screw::COLUMN,
    check,
};

const SAFETY: f64 = 3.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some((rod, safety)) = case.results.screw.as_ref().and_then(|r| r.buckling_safety.map(|s| (r, s))) else { return Vec::new() };
    vec![
        RULE.finds(
            unless(reaches(safety, SAFETY), Verdict::Fail),
            "take_up.action",
            format!("a pushed {} {} long under {} kN has a safety of {} against buckling, {} is wanted", case.spec.take_up.rod.value, mm(rod.free_length_mm), n(rod.rod_n / 1000.0, 2), n(safety, 1), n(SAFETY, 0)),
        )
        .value(safety, "")
        .limit(SAFETY, "")
        .change("take_up.action", &RodAction::Pull),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn pushed_rods() {
        let push = ("take_up.action", "\"push\"");
        let load = ("belt.tracking_tension", "\"30 N/mm\"");
        assert_eq!(worst(&RULE, &[("take_up.action", "\"pull\"")]), None);
        assert_eq!(worst(&RULE, &[push, ("take_up.rod", "\"Tr52x8\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[push, load, ("take_up.rod", "\"Tr16x4\""), ("take_up.travel", "\"900 mm\"")]), Some(Verdict::Fail));
    }

    #[test]
    fn three_times_the_load() {
        // The safety falls with the travel; the verdict turns where it passes 3.
        let base = [("take_up.action", "\"push\""), ("belt.tracking_tension", "\"20 N/mm\""), ("take_up.rod", "\"Tr20x4\"")];
        let at = |travel: f64| {
            let travel = format!("\"{travel} mm\"");
            let all = [&base[..], &[("take_up.travel", travel.as_str())]].concat();
            (measured(&RULE, &all).0, worst(&RULE, &all))
        };
        let mut seen = [false, false];
        for travel in (100..3000).step_by(50) {
            let (safety, verdict) = at(f64::from(travel));
            assert_eq!(verdict, Some(if safety >= 3.0 { Verdict::Pass } else { Verdict::Fail }), "{travel}: {safety}");
            seen[usize::from(safety >= 3.0)] = true;
        }
        assert_eq!(seen, [true, true]);
    }
}
