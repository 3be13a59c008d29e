//! Spaced buckets on a belt discharge by centrifugal force, or at least mixed.
//!
//! Pole distance h = g/ω² at the head against the radii of bucket back and tip (Spivakovsky and
//! Dyachkov, from memory). Under gravity alone product falls onto the next bucket and down the leg.

use super::finding::{unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::pole::{DISCHARGE, Discharge};
use crate::say;
use crate::say::{amount, mm};
use crate::units::{Speed, Unit};

/// Discharge at the head.
pub const RULE: Rule = Rule {
    id: "discharge-kind",
    title: "Discharge at the head",
    what: "Pole distance at the head pulley against the radii of bucket back and bucket tip.",
    why: "With gravity discharge the product falls out late, onto the bucket ahead and back down the leg: it comes to the foot a second time.",
    remedy: "Run faster, or take a smaller head pulley.",
    source: DISCHARGE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let d = &case.results.discharge;
    let speed = case.spec.duty.belt_speed.value();
    let kind = match d.kind {
        Discharge::Centrifugal => "centrifugal discharge",
        Discharge::Mixed => "mixed discharge",
        Discharge::Gravity => "gravity discharge",
    };
    vec![
        RULE.finds(
            unless(d.kind != Discharge::Gravity, Verdict::Warn),
            "duty.belt_speed",
            say!(
                "at {speed} the pole lies {pole} above the head shaft, bucket backs at {backs}, tips at {tips}: {kind} (centrifugal from {centrifugal}, gravity below {gravity})",
                speed = amount(speed, Unit::MPerS, 2),
                pole = mm(d.head_pole_mm),
                backs = mm(d.head_inner_mm),
                tips = mm(d.head_tip_mm),
                kind = kind,
                centrifugal = amount(d.centrifugal_above_m_per_s, Unit::MPerS, 2),
                gravity = amount(d.gravity_below_m_per_s, Unit::MPerS, 2),
            ),
        )
        .value(speed, Unit::MPerS)
        .limit(d.gravity_below_m_per_s, Unit::MPerS)
        .change("duty.belt_speed", &Speed::m_per_s(up_to(d.gravity_below_m_per_s + 0.01, 0.05))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn gravity_is_too_slow() {
        assert_eq!(worst(&RULE, &[("duty.belt_speed", "\"2.5 m/s\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("duty.belt_speed", "\"1.0 m/s\"")]), Some(Verdict::Warn));
        let (_, limit) = measured(&RULE, &[]);
        assert_eq!(worst(&RULE, &[("duty.belt_speed", &format!("\"{} m/s\"", limit + 0.001))]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("duty.belt_speed", &format!("\"{} m/s\"", limit - 0.001))]), Some(Verdict::Warn));
    }
}
