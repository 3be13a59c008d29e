//! A motion sensor looks at the foot shaft.
//!
//! OSHA 29 CFR 1910.272(q)(5), read in state copies: a motion detection device. The foot shaft is
//! where a slipping or stopped belt shows first: the drive may still turn.

use super::finding::unless;
use super::{Case, Finding, Rule};
use crate::tables::grain_handling;

/// Motion sensor.
pub const RULE: Rule = Rule {
    id: "motion-sensor",
    title: "Motion sensor",
    what: "Whether a motion sensor looks at the foot shaft.",
    why: "A belt that slips at the head burns through while the drive turns on, and the stopped foot fills within seconds.",
    remedy: "Fit a motion sensor at the tapped shaft end that stops drive and feed.",
    source: grain_handling::MOTION,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let fitted = case.spec.monitoring.motion.value;
    let message = if fitted { "a motion sensor looks at the foot shaft" } else { "no motion sensor looks at the foot shaft" };
    vec![
        RULE.finds(unless(fitted, case.warn_or_fail_for_dust()), "monitoring.motion", message)
            .after(case.grain_law(RULE.source))
            .change("monitoring.motion", &true),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Verdict;
    use crate::rules::trial::worst;

    #[test]
    fn fitted_or_not() {
        let off = ("monitoring.motion", "false");
        assert_eq!(worst(&RULE, &[("monitoring.motion", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[off, ("product.combustible", "false")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[off, ("product.combustible", "true")]), Some(Verdict::Fail));
    }
}
