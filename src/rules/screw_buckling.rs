//! A pushed take-up rod does not buckle.
//!
//! Euler or Johnson column, pinned ends, at least three times the rod's load in the worst load case (common practice). A pulled rod cannot
//! buckle, but has its bracket below the sliding plate; parts and sheets have it above.

use super::finding::{reaches, unless};
use super::screw_stress::rod_load;
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::assumed::STEEL_MODULUS;
use crate::analysis::screw::Screw;
use crate::formulas::screw::{self, BUCKLING_SAFETY as SAFETY, Ends};
use crate::say;
use crate::say::{amount, mm, n, name};
use crate::sources::Source;
use crate::spec::rotating::RodAction;
use crate::tables::power_threads::{self, PowerThread};
use crate::units::Unit;

/// Buckling of a pushed rod.
pub const RULE: Rule = Rule {
    id: "screw-buckling",
    title: "Buckling of the take-up rods",
    what: "Critical load of a pushed rod at its longest against three times its load in the worst load case.",
    why: "A slender rod that pushes bends aside, tilts the bearing plate and lets the shaft run askew.",
    remedy: "Take a thicker rod or a shorter travel.",
    source: screw::COLUMN,
    check,
};

/// The bracket that is drawn.
const ABOVE: Source = Source::practice("bracket above the sliding plate: the belt's pull presses the rod");

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(rod) = case.results.screw.as_ref() else { return Vec::new() };
    let (Some(safety), Some(worst)) = (rod.buckling_safety, &rod.worst_buckling) else {
        let message = "a rod that pulls has its bracket below the sliding plate; parts and sheets have it above, where the rod pushes";
        let finding = RULE.finds(Verdict::Warn, "take_up.action", message).after(ABOVE).change("take_up.action", &RodAction::Push);
        return vec![case.mend(finding, |finding| with_rod(case, rod, finding))];
    };
    let finding = RULE
        .finds(
            unless(reaches(safety, SAFETY), Verdict::Fail),
            "take_up.rod",
            say!(
                "{case}: a pushed {rod} {length} long under {load} has a safety of {safety} against buckling, {wanted} is wanted",
                case = worst.case.name,
                rod = name(&case.spec.take_up.rod.value),
                length = mm(rod.free_length_mm),
                load = amount(worst.value / 1000.0, Unit::Kn, 2),
                safety = n(safety, 1),
                wanted = n(SAFETY, 0)
            ),
        )
        .value(safety, Unit::One)
        .limit(SAFETY, Unit::One);
    vec![case.mend(finding, |finding| with_rod(case, rod, finding))]
}

/// Proposes the thinnest rod, not thinner than the present one, that does not buckle.
fn with_rod(case: &Case<'_>, rod: &Screw, finding: Finding) -> Finding {
    let Some(now) = power_threads::find(&case.spec.take_up.rod.value) else { return finding };
    let critical = |t: &PowerThread| {
        screw::critical_load_n(t.root_mm(), rod.free_length_mm, Ends::PinnedPinned.design(), STEEL_MODULUS.value, case.spec.take_up.rod_yield.value())
    };
    let hardest = |t: &PowerThread| case.results.cases.iter().map(|c| rod_load(case, c, t)).fold(0.0, f64::max);
    match now.and_thicker().find(|t| reaches(critical(t), IN_HAND * SAFETY * hardest(t))) {
        Some(row) if row.name != now.name => finding.change("take_up.rod", &row.name.to_string()),
        _ => finding,
    }
}

/// Kept in hand by the rod that is proposed: what holds it grows with it, and the rod with that.
const IN_HAND: f64 = 1.03;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, measured, mended, proposed, worst};

    #[test]
    fn pushed_rods() {
        let push = ("take_up.action", "\"push\"");
        let load = ("belt.tracking_tension", "\"30 N/mm\"");
        assert_eq!(worst(&RULE, &[("take_up.kind", "\"gravity\"")]), None);
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[push, ("take_up.rod", "\"Tr52x8\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[push, load, ("take_up.rod", "\"Tr16x4\""), ("take_up.travel", "\"900 mm\"")]), Some(Verdict::Fail));
    }

    /// A rod that shall pull is told to push, and one that is too slender to be thicker: the next size that does.
    #[test]
    fn the_next_rod() {
        let pull = ("take_up.action", "\"pull\"");
        assert_eq!(proposed(&RULE, SMALL, &[pull]), ["take_up.action = \"push\""]);
        let thin = [("belt.tracking_tension", "\"30 N/mm\""), ("take_up.rod", "\"Tr16x4\""), ("take_up.travel", "\"900 mm\"")];
        for action in [pull, ("take_up.action", "\"push\"")] {
            let base = [&thin[..], &[action]].concat();
            mended(&RULE, SMALL, &base);
            let wish = proposed(&RULE, SMALL, &base).pop().unwrap();
            let row = power_threads::ALL.iter().position(|t| wish.contains(&format!("\"{}\"", t.name))).unwrap();
            let before = format!("\"{}\"", power_threads::ALL[row - 1].name);
            let push = ("take_up.action", "\"push\"");
            assert_eq!(worst(&RULE, &[thin[0], thin[2], push, ("take_up.rod", before.as_str())]), Some(Verdict::Fail), "{before} would do: {wish}");
        }
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
