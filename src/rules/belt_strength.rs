//! The belt holds its largest tension in every load case.
//!
//! Tight side at the head over the belt's width against the allowed working tension of the spec; half as much again in starting and
//! where somebody has tightened the belt too hard. A blocked foot is not asked for: the drive's stall stays far under the breaking strength.

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::cases::BeltCase;
use crate::analysis::tension::BELT_LOAD;
use crate::formulas::tension::BRIEF_BELT_PULL;
use crate::say;
use crate::say::amount;
use crate::units::{LineForce, Unit};

/// Tension against strength.
pub const RULE: Rule = Rule {
    id: "belt-strength",
    title: "Strength of the belt",
    what: "Largest belt tension of the worst load case, per width, against the allowed working tension, half as much again in starting and when overtightened.",
    why: "A belt that is loaded beyond its working tension stretches, its splice creeps, and it parts with all its buckets.",
    remedy: "A stronger belt, less weight on it, or a spanner that lets go sooner.",
    source: BELT_LOAD,
    check,
};

/// How many times the working tension a case may bring.
const fn times(case: &BeltCase) -> f64 {
    if case.rare { BRIEF_BELT_PULL } else { 1.0 }
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (strength, width) = (case.spec.belt.strength.value(), case.spec.belt.width.value());
    let worst = case.results.cases.worst(|c| (c.belt_n.unwrap_or(0.0) / width, strength * times(c)));
    vec![
        RULE.finds(
            unless(within(worst.value, worst.limit), Verdict::Fail),
            "belt.strength",
            say!(
                "{case}: the belt is pulled with {tension} ({force}), {allowed} are allowed then",
                case = worst.case.name,
                tension = amount(worst.value, Unit::NPerMm, 1),
                force = amount(worst.value * width / 1000.0, Unit::Kn, 1),
                allowed = amount(worst.limit, Unit::NPerMm, 1),
            ),
        )
        .value(worst.value, Unit::NPerMm)
        .limit(worst.limit, Unit::NPerMm)
        .change("belt.strength", &LineForce::n_per_mm(up_to(worst.value / times(&worst.case), 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, measured, mended, worst};

    #[test]
    fn tension_against_strength() {
        let (tension, _) = measured(&RULE, &[]);
        assert_eq!(worst(&RULE, &[("belt.strength", "\"500 N/mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("belt.strength", &format!("\"{} N/mm\"", tension + 0.01))]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("belt.strength", &format!("\"{} N/mm\"", tension - 0.01))]), Some(Verdict::Fail));
    }

    /// A spanner that lets go late pulls the belt apart, half above its working tension at the most; the sentence names the case.
    #[test]
    fn tightened_too_hard() {
        let hard = [("take_up.torque", "\"400 N·m\""), ("belt.strength", "\"40 N/mm\"")];
        let found = findings_of(&RULE, SMALL, &hard);
        assert!(found[0].verdict == Verdict::Fail && found[0].message.plainly().starts_with("overtightened by hand: "), "{found:#?}");
        assert_eq!(found[0].limit.map(|l| l.value), Some(60.0));
        mended(&RULE, SMALL, &hard);
        let running = findings_of(&RULE, SMALL, &[]);
        assert!(running[0].message.plainly().starts_with("running with full buckets: "), "{running:#?}");
    }
}
