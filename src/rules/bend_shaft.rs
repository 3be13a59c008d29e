//! The bend pulley's shaft does not bend too much at the hubs.
//!
//! Resultant 2·T·sin(β/2) on the shaft; slope at most 0.0023 for welded pulleys, ANSI/CEMA B105.1 (read).

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::shaft::{HUB_SLOPE, LARGEST_HUB_SLOPE_RAD, diameter_scaled_for_slope_mm};
use crate::say;
use crate::say::{amount, mm, n};
use crate::units::{Length, Unit};

/// Slope of the bend pulley's shaft.
pub const RULE: Rule = Rule {
    id: "bend-shaft",
    title: "Shaft of the bend pulley",
    what: "Slope of the bend pulley's shaft at the hub under the belt's resultant, against 0.0023.",
    why: "The hub follows the shaft once every turn and works the end disc; its weld cracks.",
    remedy: "A thicker shaft for the bend pulley, or a smaller belt angle.",
    source: HUB_SLOPE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(bend) = &case.results.bend else { return Vec::new() };
    let shaft = case.spec.bend_pulley.shaft.value();
    let needed = up_to(diameter_scaled_for_slope_mm(shaft, bend.hub_slope_rad, LARGEST_HUB_SLOPE_RAD) * 1.01, 5.0);
    let finding = RULE
        .finds(
            unless(within(bend.hub_slope_rad, LARGEST_HUB_SLOPE_RAD), Verdict::Warn),
            "bend_pulley.shaft",
            say!(
                "the belt pulls the bend pulley with {pull}; its shaft of {shaft} slopes {slope} at the hubs, {allowed} is allowed",
                pull = amount(bend.resultant_n / 1000.0, Unit::Kn, 1),
                shaft = mm(shaft),
                slope = n(bend.hub_slope_rad, 5),
                allowed = n(LARGEST_HUB_SLOPE_RAD, 4),
            ),
        )
        .value(bend.hub_slope_rad, Unit::One)
        .limit(LARGEST_HUB_SLOPE_RAD, Unit::One);
    vec![if needed <= 300.0 { finding.change("bend_pulley.shaft", &Length::mm(needed)) } else { finding }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, findings_of, proposed, worst, worst_of};

    #[test]
    fn slope_of_the_bend_shaft() {
        assert_eq!(worst(&RULE, &[]), None);
        let with = |d: f64| worst_of(&RULE, LARGE, &[("bend_pulley.shaft", &format!("\"{d} mm\""))]);
        assert_eq!(with(200.0), Some(Verdict::Pass));
        assert_eq!(with(20.0), Some(Verdict::Warn));
        // Slope falls with d⁴: one per cent over the size that just holds, in steps of 5 mm.
        let thin = [("bend_pulley.shaft", "\"50 mm\"")];
        let slope = findings_of(&RULE, LARGE, &thin)[0].value.unwrap().value;
        let holds = 50.0 * (slope / 0.0023).powf(0.25);
        assert_eq!(proposed(&RULE, LARGE, &thin), [format!("bend_pulley.shaft = \"{} mm\"", (holds * 1.01 / 5.0).ceil() * 5.0)]);
        let (mut thin, mut thick) = (20.0f64, 200.0f64);
        while thick - thin > 0.02 {
            let middle = (thin + thick) / 2.0;
            if with(middle) == Some(Verdict::Pass) { thick = middle } else { thin = middle }
        }
        let slope = findings_of(&RULE, LARGE, &[("bend_pulley.shaft", &format!("\"{thick} mm\""))])[0].value.unwrap().value;
        assert!(slope <= 0.002_300_01 && slope > 0.00228, "{slope}");
    }
}
