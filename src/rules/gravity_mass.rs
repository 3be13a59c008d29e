//! The weights of a gravity take-up give the tension that is needed, and not much more.
//!
//! Equilibrium of the hanging pulley (physics). More than one and a half times the needed pull is noted:
//! it only loads shaft, bearings and belt; common practice.

use super::finding::{reaches, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::gravity_take_up;
use crate::say;
use crate::say::amount;
use crate::units::{GRAVITY, Mass, Unit};

/// Weights against need.
pub const RULE: Rule = Rule {
    id: "gravity-mass",
    title: "Weights of the gravity take-up",
    what: "Mass of the weights against what the belt pull in the foot needs beyond pulley, shaft, bearings and frame.",
    why: "Too little lets the belt slip and wander; too much wears bearings and splice.",
    remedy: "Put in the mass needed.",
    source: gravity_take_up::MASS,
    check,
};

/// Pull against the needed pull from which the weights are too much; common practice.
const EXCESS: f64 = 1.5;

/// What is never too much: where friction in the guides asks for nearly all that is allowed, weights still come in whole plates (estimate).
const BAND: f64 = 1.05;

/// What is proposed over what is needed, as a share of all that hangs: other sizes follow the weights (estimate).
const IN_HAND: f64 = 0.02;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(gravity) = &case.results.gravity else { return Vec::new() };
    let needed = gravity.needed_kg.max(0.0);
    let most = (needed * BAND).max(EXCESS * gravity.pull_needed_n / GRAVITY - gravity.own_kg);
    let verdict = if !reaches(gravity.given_kg, needed) {
        Verdict::Fail
    } else if within(gravity.given_kg, most) {
        Verdict::Pass
    } else {
        Verdict::Warn
    };
    let kg = |mass| amount(mass, Unit::Kg, 0);
    let (given, own, pull) = (kg(gravity.given_kg), kg(gravity.own_kg), amount(gravity.pull_needed_n / 1000.0, Unit::Kn, 2));
    let message = if gravity.needed_kg < 0.0 {
        say!(
            "{given} of weights; the belt needs {pull} of pull, {own} hang already and pull harder than needed, so {needed} to {most} are right",
            given = given,
            pull = pull,
            own = own,
            needed = kg(needed),
            most = kg(most),
        )
    } else {
        say!(
            "{given} of weights; the belt needs {pull} of pull, {own} hang already, so {needed} to {most} are right",
            given = given,
            pull = pull,
            own = own,
            needed = kg(needed),
            most = kg(most),
        )
    };
    // A whole 10 kg where that stays within the band, with a little in hand: webs and rods follow the weights.
    let eased = needed + IN_HAND * (gravity.own_kg + needed);
    let wish = [up_to(eased, 10.0), up_to(f64::midpoint(needed, most), 0.1)].into_iter().find(|kg| *kg <= most).unwrap_or(up_to(needed, 0.1));
    let finding = RULE
        .finds(verdict, "take_up.weights", message)
        .value(gravity.given_kg, Unit::Kg)
        .limit(if verdict == Verdict::Warn { most } else { needed }, Unit::Kg)
        .change("take_up.weights", &Mass::kg(wish));
    vec![with_these_boxes(case, finding)]
}

/// Holds the sizes of the boxes where they would follow the weights: what was reckoned is reckoned with the mass of these.
fn with_these_boxes(case: &Case<'_>, finding: Finding) -> Finding {
    let t = &case.spec.take_up;
    let sizes = [("take_up.box_length", &t.box_length), ("take_up.box_width", &t.box_width), ("take_up.box_height", &t.box_height)];
    let follow = sizes.into_iter().filter(|(_, size)| t.frame_mass.value.is_none() && !size.is_given());
    follow.fold(finding, |finding, (path, size)| finding.change(path, &size.value))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, machine, measured, proposed, worst};

    #[test]
    fn weights() {
        // The drawn box grows with the weights in it; a given mass of the frame keeps the need still.
        let gravity = [("take_up.kind", "\"gravity\""), ("belt.tracking_tension", "\"20 N/mm\""), ("take_up.frame_mass", "\"60 kg\"")];
        let with = |kg: f64| {
            let kg = format!("\"{kg} kg\"");
            worst(&RULE, &[&gravity[..], &[("take_up.weights", kg.as_str())]].concat())
        };
        assert_eq!(worst(&RULE, &[]), None);
        assert_eq!(with(0.0), Some(Verdict::Fail));
        assert_eq!(with(19_000.0), Some(Verdict::Warn));
        let (_, needed) = measured(&RULE, &[&gravity[..], &[("take_up.weights", "\"0 kg\"")]].concat());
        assert_eq!(with(needed + 0.1), Some(Verdict::Pass));
        assert_eq!(with(needed - 0.1), Some(Verdict::Fail));
        // Whole tens of kilograms, a little more than needed.
        let light = [&gravity[..], &[("take_up.weights", "\"0 kg\"")]].concat();
        let wish = proposed(&RULE, SMALL, &light);
        let kg: f64 = wish[0].split('"').nth(1).unwrap().trim_end_matches(" kg").parse().unwrap();
        assert!(kg >= needed && kg % 10.0 == 0.0 && kg < 1.1 * needed + 20.0, "{wish:?} for {needed}");
        let heavy = [&gravity[..], &[("take_up.weights", "\"19000 kg\"")]].concat();
        let g = machine(SMALL, &heavy).2.gravity.unwrap();
        let most = (1.05 * g.needed_kg).max(1.5 * g.pull_needed_n / 9.806_65 - g.own_kg);
        assert!((measured(&RULE, &heavy).1 - most).abs() < 1e-6);
    }
}
