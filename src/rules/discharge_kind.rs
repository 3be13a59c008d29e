//! Spaced buckets on a belt discharge by centrifugal force, or at least mixed.
//!
//! Pole distance h = g/ω² at the head against the radii of bucket back and tip (Spivakovsky and
//! Dyachkov, from memory). Under gravity alone product falls onto the next bucket and down the leg; far over the centrifugal limit it leaves
//! before the top and strikes the hood (common practice, no source).

use super::finding::{down_to, unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::head_discharge::{FASTEST_OVER_CENTRIFUGAL, TOO_FAST};
use crate::formulas::pole::{DISCHARGE, Discharge};
use crate::say;
use crate::say::{amount, mm, n};
use crate::units::{Speed, Unit};

/// Discharge at the head.
pub const RULE: Rule = Rule {
    id: "discharge-kind",
    title: "Discharge at the head",
    what: "Pole distance at the head pulley against the radii of bucket back and bucket tip, and belt speed against 1.6 times the one from which discharge is centrifugal.",
    why: "With gravity discharge the product falls out late, onto the bucket ahead and back down the leg: it comes to the foot a second time.",
    remedy: "Run faster, or take a smaller head pulley; where it is thrown before the top, run slower or take a larger one.",
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
    let fastest = FASTEST_OVER_CENTRIFUGAL * d.centrifugal_above_m_per_s;
    vec![
        RULE.finds(
            unless(within(speed, fastest), Verdict::Warn),
            "duty.belt_speed",
            say!(
                "at {speed} the belt runs {times} times as fast as where discharge begins to be centrifugal; over {limit} product leaves before the top, strikes the hood and falls back",
                speed = amount(speed, Unit::MPerS, 2),
                times = n(speed / d.centrifugal_above_m_per_s, 2),
                limit = amount(fastest, Unit::MPerS, 2),
            ),
        )
        .value(speed, Unit::MPerS)
        .limit(fastest, Unit::MPerS)
        .after(TOO_FAST)
        .change("duty.belt_speed", &Speed::m_per_s(down_to(fastest, 0.01))),
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
    use crate::rules::trial::{SMALL, findings_of, mended, worst};

    #[test]
    fn gravity_is_too_slow() {
        assert_eq!(worst(&RULE, &[("duty.belt_speed", "\"2.5 m/s\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("duty.belt_speed", "\"1.0 m/s\"")]), Some(Verdict::Warn));
        let limit = findings_of(&RULE, SMALL, &[])[1].limit.unwrap().value;
        assert_eq!(worst(&RULE, &[("duty.belt_speed", &format!("\"{} m/s\"", limit + 0.001))]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("duty.belt_speed", &format!("\"{} m/s\"", limit - 0.001))]), Some(Verdict::Warn));
    }

    /// Centrifugal from √(g·R) on at the belt's outer face: 800 mm of pulley and 9 mm of belt, 1.99 m/s at the neutral line. Twice that does
    /// not pass.
    #[test]
    fn twice_the_centrifugal_limit_is_too_fast() {
        let belt = ("belt.thickness", "\"9 mm\"");
        let centrifugal = (9.806_65f64 / 0.409).sqrt() * 0.4045;
        let at = |times: f64| worst(&RULE, &[belt, ("duty.belt_speed", &format!("\"{} m/s\"", times * centrifugal))]);
        assert_eq!([at(2.0), at(1.6005), at(1.5995)], [Some(Verdict::Warn), Some(Verdict::Warn), Some(Verdict::Pass)]);
        mended(&RULE, SMALL, &[belt, ("duty.belt_speed", "\"4 m/s\"")]);
    }
}
