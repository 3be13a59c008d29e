//! A pit is a confined space: entry needs a permit system, air, light and a way out.
//!
//! A caution, never a pass. OSHA 29 CFR 1910.146(b) names pits (read).

use super::{Case, Finding, Rule, Verdict};
use crate::tables::cautions::CONFINED_SPACE;

/// Confined space caution.
pub const RULE: Rule = Rule {
    id: "pit-confined-space",
    title: "Confined space",
    what: "Whether the foot stands in a pit.",
    why: "Dust, lack of air, engulfment by product and a single way out: pits kill those who go in and those who follow to help.",
    remedy: "Assess entry on site: permit, ventilation, gas test, lighting, lock-out of drive and feed, rescue. Local codes govern.",
    source: CONFINED_SPACE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    if case.foot.pit.is_none() {
        return Vec::new();
    }
    vec![RULE.finds(
        Verdict::Note,
        "pit.fitted",
        "the pit counts as a confined space until somebody has assessed it: ventilation, lighting, lock-out of drive and feed, entry permit and rescue are the plant's to arrange",
    )]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn caution_for_pits() {
        assert_eq!(worst(&RULE, &[("pit.fitted", "true")]), Some(Verdict::Note));
        assert_eq!(worst(&RULE, &[("pit.fitted", "false")]), None);
    }
}
