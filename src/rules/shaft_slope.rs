//! The foot shaft does not bend too much at the hubs.
//!
//! tan α = R·A(B − 2A)/(4EI) at most 0.0023 (8 arc minutes) for welded pulleys, ANSI/CEMA B105.1 (read).

use super::finding::{unless, within};
use super::shaft_stress::thicker;
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::shaft::{HUB_SLOPE, LARGEST_HUB_SLOPE_RAD};
use crate::say;
use crate::say::n;
use crate::units::{Length, Unit};

/// Slope at the hub.
pub const RULE: Rule = Rule {
    id: "shaft-slope",
    title: "Slope of the foot shaft at the hub",
    what: "Slope of the bent shaft at the pulley's hub against 0.0023.",
    why: "The hub follows the shaft once every turn and works the end disc; its weld cracks.",
    remedy: "A thicker shaft, bearings closer to the hubs, or hubs farther apart.",
    source: HUB_SLOPE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let shaft = &case.results.shaft;
    vec![
        RULE.finds(
            unless(within(shaft.hub_slope_rad, LARGEST_HUB_SLOPE_RAD), Verdict::Warn),
            "shaft.diameter",
            say!("the foot shaft slopes {slope} at the hubs, {allowed} is allowed", slope = n(shaft.hub_slope_rad, 5), allowed = n(LARGEST_HUB_SLOPE_RAD, 4)),
        )
        .value(shaft.hub_slope_rad, Unit::One)
        .limit(LARGEST_HUB_SLOPE_RAD, Unit::One)
        .change("shaft.diameter", &Length::mm(thicker(case, shaft.diameter_for_slope_mm))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn slope_at_the_hub() {
        let load = ("belt.tracking_tension", "\"30 N/mm\"");
        let with = |d: f64| worst(&RULE, &[load, ("shaft.diameter", &format!("\"{d} mm\""))]);
        assert_eq!(with(120.0), Some(Verdict::Pass));
        assert_eq!(with(30.0), Some(Verdict::Warn));
        let (mut thin, mut thick) = (30.0f64, 120.0f64);
        while thick - thin > 0.02 {
            let middle = (thin + thick) / 2.0;
            if with(middle) == Some(Verdict::Pass) { thick = middle } else { thin = middle }
        }
        let (slope, _) = measured(&RULE, &[load, ("shaft.diameter", &format!("\"{thick} mm\""))]);
        assert!(slope <= 0.002_300_01 && slope > 0.00228, "{slope}");
    }
}
