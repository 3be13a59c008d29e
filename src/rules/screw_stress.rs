//! The take-up rods hold, and their threads do not seize.
//!
//! Equivalent stress of pull and twist at most half the yield strength while a rod is turned, at most the yield strength over 1.1 when it
//! is turned until the spanner lets go, and stress in the core at most that when the foot blocks; flank pressure at most 10 MPa for a
//! greased bronze or cast iron nut that is turned seldom. The limits are common practice, no source.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::cases::{BeltCase, turned_in};
use crate::analysis::screw::Screw;
use crate::formulas::screw::{self, core_stress_mpa};
use crate::formulas::strength::RARE;
use crate::say;
use crate::say::{amount, name};
use crate::sources::Source;
use crate::tables::power_threads::{self, PowerThread};
use crate::units::Unit;

/// Stress and flank pressure.
pub const RULE: Rule = Rule {
    id: "screw-stress",
    title: "Take-up rods",
    what: "Stress in the core of a rod in the worst load case, against half its yield strength while it is turned and its yield strength with a reserve when the foot blocks or the spanner lets go, and pressure on the flanks against 10 MPa.",
    why: "A rod that breaks or seizes while the belt is tightened lets one side go, and the belt runs off.",
    remedy: "A thicker rod.",
    source: screw::TORQUE,
    check,
};

const PRESSURE: f64 = 10.0;
const PRACTICE: Source = Source::practice("flank pressure at most 10 MPa, greased, seldom turned");

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(rod) = &case.results.screw else { return Vec::new() };
    let wish = thicker(case, rod);
    let with = |finding: Finding| match wish {
        Some(row) => finding.change("take_up.rod", &row.name.to_string()),
        None => finding,
    };
    let thread = &case.spec.take_up.rod.value;
    let worst = &rod.worst;
    let (load, stress, allowed) = (amount(worst.case.rod_n / 1000.0, Unit::Kn, 2), amount(worst.value, Unit::Mpa, 1), amount(worst.limit, Unit::Mpa, 1));
    let message = if worst.case.overtightened() {
        say!(
            "{case}: {rod} under {load} bears {stress} when the spanner lets go, {allowed} are allowed (yield strength with a reserve)",
            case = worst.case.name,
            rod = name(thread),
            load = load,
            stress = stress,
            allowed = allowed
        )
    } else if worst.case.rare {
        say!(
            "{case}: {rod} under {load} bears {stress} in the core, {allowed} are allowed (yield strength with a reserve)",
            case = worst.case.name,
            rod = name(thread),
            load = load,
            stress = stress,
            allowed = allowed
        )
    } else {
        say!(
            "{case}: {rod} under {load} bears {stress} while it is turned, {allowed} are allowed (half the yield strength)",
            case = worst.case.name,
            rod = name(thread),
            load = load,
            stress = stress,
            allowed = allowed
        )
    };
    vec![
        with(
            RULE.finds(unless(within(worst.value, worst.limit), Verdict::Fail), "take_up.rod", message)
                .value(worst.value, Unit::Mpa)
                .limit(worst.limit, Unit::Mpa),
        ),
        with(
            RULE.finds(
                unless(within(rod.pressure_mpa, PRESSURE), Verdict::Warn),
                "take_up.rod",
                say!(
                    "{rod} presses its nut with {pressure}, usual is {limit} at most",
                    rod = name(thread),
                    pressure = amount(rod.pressure_mpa, Unit::Mpa, 1),
                    limit = amount(PRESSURE, Unit::Mpa, 0)
                ),
            )
            .value(rod.pressure_mpa, Unit::Mpa)
            .limit(PRESSURE, Unit::Mpa)
            .after(PRACTICE),
        ),
    ]
}

/// What a case brings along a rod of another thread, N: a spanner that lets go at a given torque presses a thicker rod less; one that is
/// left out follows the rod, and presses it alike.
pub(super) fn rod_load(case: &Case<'_>, of: &BeltCase, thread: &PowerThread) -> f64 {
    let take_up = &case.spec.take_up;
    if !of.overtightened() || !take_up.torque.is_given() {
        return of.rod_n;
    }
    turned_in(thread, take_up).greased().force_n(take_up.torque.value() * 1000.0)
}

/// The thinnest rod of the same profile that holds all limits, by the areas that carry them.
fn thicker(case: &Case<'_>, rod: &Screw) -> Option<&'static PowerThread> {
    let now = power_threads::find(&case.spec.take_up.rod.value)?;
    let strong = case.spec.take_up.rod_yield.value();
    let rare = case.results.cases.most_rare(|c| if c.overtightened() { 0.0 } else { c.rod_n });
    let too_hard = |t: &PowerThread| {
        let over = case.results.cases.overtightened().map_or(0.0, |c| rod_load(case, c, t));
        turned_in(t, &case.spec.take_up).greased().turned_mpa(over, t.root_mm()) * RARE
    };
    // Nut length goes with the diameter, so the pressed area grows with d·d2·H1/P, H1/P being one half.
    let pressed = |t: &PowerThread| t.diameter_mm * t.pitch_diameter_mm();
    now.and_thicker().find(|t| {
        // Pull goes with the core's area; twist with force × diameter over its cube, never faster than the area times a tenth.
        let stress = rod.equivalent_mpa * now.core_area_mm2() / t.core_area_mm2() * 1.1;
        let pressure = rod.pressure_mpa * pressed(now) / pressed(t) * 1.01;
        stress <= strong / screw::TURNED_SAFETY && core_stress_mpa(rare, t.root_mm()) * RARE <= strong && too_hard(t) <= strong && pressure <= PRESSURE
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, measured, mended, proposed, worst};

    #[test]
    fn rods() {
        let load = ("belt.tracking_tension", "\"30 N/mm\"");
        assert_eq!(worst(&RULE, &[("take_up.rod", "\"Tr52x8\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[load, ("take_up.rod", "\"Tr16x4\""), ("take_up.rod_yield", "\"150 MPa\"")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("take_up.kind", "\"gravity\"")]), None);
        // A thicker rod, the next that does; the nut's pressure may ask for one that the core does not need.
        for (weak, rod) in [("\"150 MPa\"", "\"Tr16x4\""), ("\"355 MPa\"", "\"Tr16x4\""), ("\"150 MPa\"", "\"Acme 5/8-8\"")] {
            let thin = [("belt.tracking_tension", "\"30 N/mm\""), ("take_up.rod", rod), ("take_up.rod_yield", weak)];
            mended(&RULE, SMALL, &thin);
            let wish = proposed(&RULE, SMALL, &thin)[0].clone();
            let row = crate::tables::power_threads::ALL.iter().position(|t| wish.contains(&format!("\"{}\"", t.name))).unwrap();
            assert!(wish.contains(&rod[1..3]), "{wish}");
            let before = format!("\"{}\"", crate::tables::power_threads::ALL[row - 1].name);
            assert_ne!(worst(&RULE, &[thin[0], thin[2], ("take_up.rod", before.as_str())]), Some(Verdict::Pass), "{before} would do: {wish}");
        }
    }

    #[test]
    fn half_the_yield_strength() {
        let rod = [("belt.tracking_tension", "\"30 N/mm\""), ("take_up.rod", "\"Tr16x4\"")];
        let (stress, _) = measured(&RULE, &rod);
        assert!(2.0 * stress > 150.0, "{stress}");
        let fails = |strength: f64| {
            let yield_at = format!("\"{strength} MPa\"");
            worst(&RULE, &[&rod[..], &[("take_up.rod_yield", &yield_at)]].concat()) == Some(Verdict::Fail)
        };
        assert!(!fails(2.0 * stress + 0.01) && fails(2.0 * stress - 0.01));
    }
}
