//! A very large foot pulley makes a deep foot and a deep pit; a small one with a bend pulley is noted.
//!
//! From head pulleys of about 2.1 m (7 ft) on, a smaller foot pulley with a bend pulley on the down
//! side is worth comparing. Common practice, no source.

use super::finding::{unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::{LARGE, LARGE_HEAD};
use crate::say;
use crate::say::mm;
use crate::units::Unit;

/// Bend pulley worth comparing.
pub const RULE: Rule = Rule {
    id: "foot-pulley-deep-pit",
    title: "Large foot pulley, deep pit",
    what: "Whether a head pulley of 2.1 m or more comes with an equally large foot pulley.",
    why: "The shaft, the sill and the pit floor go down with the pulley's radius; concrete below ground is the dearest part of the foot.",
    remedy: "Compare with a smaller foot pulley and a bend pulley on the down side.",
    source: LARGE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let pulleys = &case.foot.pulleys;
    let (foot, head) = (pulleys.foot.diameter, pulleys.head.diameter);
    if head < LARGE_HEAD || (pulleys.bend.is_some() && foot < head) {
        return Vec::new();
    }
    let small = up_to((head / 2.0).max(case.spec.belt.min_pulley.value()), 50.0).min(head);
    let message = say!(
        "head pulley {head} and foot pulley {foot}: a foot pulley of {small} with a bend pulley would bring shaft and pit floor about {higher} higher",
        head = mm(head),
        foot = mm(foot),
        small = mm(small),
        higher = mm((foot - small) / 2.0),
    );
    let finding = RULE.finds(unless(foot <= small, Verdict::Note), "foot_pulley.diameter", message).value(foot, Unit::Mm).limit(small, Unit::Mm);
    vec![finding]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, measured, proposed, worst};

    #[test]
    fn only_for_large_heads() {
        assert_eq!(worst(&RULE, &[]), None);
        let foot = ("foot_pulley.diameter", "\"2100 mm\"");
        assert_eq!(worst(&RULE, &[("head_pulley.diameter", "\"2099 mm\""), ("foot_pulley.diameter", "\"2099 mm\""), ("bend_pulley.fitted", "false")]), None);
        assert_eq!(worst(&RULE, &[("head_pulley.diameter", "\"2100 mm\""), foot, ("bend_pulley.fitted", "false")]), Some(Verdict::Note));
        // Half the head pulley in steps of 50: 1050 passes, 1051 does not; with a bend pulley but no smaller foot it is said as well.
        let head = ("head_pulley.diameter", "\"2100 mm\"");
        let without = ("bend_pulley.fitted", "false");
        assert_eq!(measured(&RULE, &[head, foot, without]), (2100.0, 1050.0));
        assert_eq!(worst(&RULE, &[head, without, ("foot_pulley.diameter", "\"1050 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[head, without, ("foot_pulley.diameter", "\"1051 mm\"")]), Some(Verdict::Note));
        assert_eq!(worst(&RULE, &[head, foot, ("bend_pulley.fitted", "true")]), Some(Verdict::Note));
        // A choice, so that nothing is proposed.
        assert!(proposed(&RULE, SMALL, &[head, foot, without]).is_empty());
        let said = findings_of(&RULE, SMALL, &[head, foot, without])[0].message.plainly();
        assert!(said.ends_with("bring shaft and pit floor about 525 mm higher"), "{said}");
        let small = ("foot_pulley.diameter", "\"1100 mm\"");
        assert_eq!(worst(&RULE, &[("head_pulley.diameter", "\"2100 mm\""), small, ("bend_pulley.fitted", "true")]), None);
    }
}
