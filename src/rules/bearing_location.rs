//! Where dust can explode the foot bearings sit outside the casing, or are monitored.
//!
//! OSHA 29 CFR 1910.272(q)(4), read in state copies: bearings external to the leg casing, or
//! vibration, temperature or other monitoring.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::tables::grain_handling;

/// Bearings outside the casing.
pub const RULE: Rule = Rule {
    id: "bearing-location",
    title: "Bearings outside the casing",
    what: "Whether the foot bearings with their inner seals sit outside the casing, or are monitored.",
    why: "A bearing inside runs in dust and its failure is a hot spot in the middle of it.",
    remedy: "Mount the bearings outside on the sliding plate, or watch their temperature or vibration (monitoring.bearings).",
    source: grain_handling::BEARINGS,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (outside, watched) = (case.spec.bearings.outside.value, case.spec.monitoring.bearings.value);
    let otherwise = if case.combustible() { Verdict::Fail } else { Verdict::Note };
    let message = match (outside, watched, case.combustible()) {
        (true, _, _) => say!("the foot bearings sit outside the casing"),
        (false, true, _) => say!("the foot bearings sit inside the casing; their temperature or vibration is watched"),
        (false, false, true) => say!("the foot bearings sit inside the casing and the dust can explode: outside, or monitored by temperature or vibration"),
        (false, false, false) => say!("the foot bearings sit inside the casing, in the dust"),
    };
    vec![RULE.finds(unless(outside || watched, otherwise), "bearings.outside", message).after(case.grain_law(RULE.source)).change("bearings.outside", &true)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn dust_decides() {
        assert_eq!(worst(&RULE, &[("bearings.outside", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("bearings.outside", "false"), ("product.combustible", "true")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("bearings.outside", "false"), ("product.combustible", "false")]), Some(Verdict::Note));
        assert_eq!(worst(&RULE, &[("bearings.outside", "false"), ("monitoring.bearings", "true"), ("product.combustible", "true")]), Some(Verdict::Pass));
    }
}
