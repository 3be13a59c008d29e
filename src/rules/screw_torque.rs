//! One person can turn the take-up rods.
//!
//! Torque with thread and collar friction (Shigley, ch. 8). 200 N·m is about 400 N on a spanner of half a
//! metre: common practice, no source.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::screw::{self, BY_HAND_NM};
use crate::say;
use crate::say::{amount, mm, name};
use crate::units::Unit;

/// Torque by hand.
pub const RULE: Rule = Rule {
    id: "screw-torque",
    title: "Torque on the take-up rods",
    what: "Torque to tighten one rod against 200 N·m, what a person turns with a spanner of half a metre.",
    why: "A rod that cannot be turned by hand is turned with a pipe on the spanner, and nobody feels when it is too much.",
    remedy: "A longer spanner or a geared nut, a greased thread, or a gravity take-up.",
    source: screw::TORQUE,
    check,
};

/// Length of a spanner, m; common practice.
const SPANNER: f64 = 0.5;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(rod) = &case.results.screw else { return Vec::new() };
    vec![
        RULE.finds(
            unless(within(rod.torque_nm, BY_HAND_NM), Verdict::Warn),
            "take_up.rod",
            say!(
                "tightening one {rod} takes {torque}, {force} on a spanner of {spanner}; a person turns {limit}",
                rod = name(&case.spec.take_up.rod.value),
                torque = amount(rod.torque_nm, Unit::Nm, 0),
                force = amount(rod.torque_nm / SPANNER, Unit::N, 0),
                spanner = mm(SPANNER * 1000.0),
                limit = amount(BY_HAND_NM, Unit::Nm, 0)
            ),
        )
        .value(rod.torque_nm, Unit::Nm)
        .limit(BY_HAND_NM, Unit::Nm),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn by_hand() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("take_up.kind", "\"gravity\"")]), None);
        let mut seen = [false, false];
        for tension in 4..30 {
            let load = format!("\"{tension} N/mm\"");
            let all = [("belt.tracking_tension", load.as_str()), ("belt.width", "\"1200 mm\""), ("take_up.friction", "0.3"), ("take_up.kind", "\"screw\"")];
            let (torque, limit) = measured(&RULE, &all);
            assert_eq!(limit, 200.0);
            assert_eq!(worst(&RULE, &all), Some(if torque <= 200.0 { Verdict::Pass } else { Verdict::Warn }));
            seen[usize::from(torque <= 200.0)] = true;
        }
        assert_eq!(seen, [true, true]);
    }
}
