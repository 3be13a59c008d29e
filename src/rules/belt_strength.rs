//! The belt holds its largest tension.
//!
//! Tight side at the head over the belt's width against the allowed working tension of the spec.

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::tension::BELT_LOAD;
use crate::say;
use crate::say::amount;
use crate::units::{LineForce, Unit};

/// Tension against strength.
pub const RULE: Rule = Rule {
    id: "belt-strength",
    title: "Strength of the belt",
    what: "Largest belt tension in running with full buckets, per width, against the allowed working tension.",
    why: "A belt that is loaded beyond its working tension stretches, its splice creeps, and it parts with all its buckets.",
    remedy: "A stronger belt, or less weight on it.",
    source: BELT_LOAD,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (tension, strength) = (case.results.tension.largest_n_per_mm, case.spec.belt.strength.value());
    vec![
        RULE.finds(
            unless(within(tension, strength), Verdict::Fail),
            "belt.strength",
            say!(
                "the belt is pulled with {tension} ({force}), {allowed} are allowed",
                tension = amount(tension, Unit::NPerMm, 1),
                force = amount(case.results.tension.largest_n / 1000.0, Unit::Kn, 1),
                allowed = amount(strength, Unit::NPerMm, 1),
            ),
        )
        .value(tension, Unit::NPerMm)
        .limit(strength, Unit::NPerMm)
        .change("belt.strength", &LineForce::n_per_mm(up_to(tension, 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn tension_against_strength() {
        let (tension, _) = measured(&RULE, &[]);
        assert_eq!(worst(&RULE, &[("belt.strength", "\"500 N/mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("belt.strength", &format!("\"{} N/mm\"", tension + 0.01))]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("belt.strength", &format!("\"{} N/mm\"", tension - 0.01))]), Some(Verdict::Fail));
    }
}
