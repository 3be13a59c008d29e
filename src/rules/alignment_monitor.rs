//! Belt alignment is watched.
//!
//! OSHA 29 CFR 1910.272(q)(6), read in state copies: a belt alignment monitor with alarm, or means to
//! keep the belt tracking. Good practice elsewhere.

use super::finding::unless;
use super::{Case, Finding, Rule};
use crate::say;
use crate::tables::grain_handling;

/// Alignment monitor.
pub const RULE: Rule = Rule {
    id: "alignment-monitor",
    title: "Alignment monitor",
    what: "Whether belt alignment is watched in the foot.",
    why: "A belt that rubs on the casing is a hot spot in the dust and wears through within hours.",
    remedy: "Fit alignment sensors behind the panels, with an alarm.",
    source: grain_handling::ALIGNMENT,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let watched = case.spec.monitoring.alignment.value;
    let message = if watched { say!("belt alignment is watched") } else { say!("belt alignment is not watched") };
    vec![
        RULE.finds(unless(watched, case.warn_or_fail_for_dust()), "monitoring.alignment", message)
            .after(case.grain_law(RULE.source))
            .change("monitoring.alignment", &true),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Verdict;
    use crate::rules::trial::worst;

    #[test]
    fn watched_or_not() {
        let off = ("monitoring.alignment", "false");
        assert_eq!(worst(&RULE, &[("monitoring.alignment", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[off, ("product.combustible", "false")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[off, ("product.combustible", "true")]), Some(Verdict::Fail));
    }
}
