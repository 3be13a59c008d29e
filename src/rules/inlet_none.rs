//! A foot that nothing can be fed into is not a foot.
//!
//! Looks at the two inlets. Common practice, no source.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::sources::Source;
use crate::units::Unit;

/// At least one inlet.
pub const RULE: Rule = Rule {
    id: "inlet-none",
    title: "An inlet",
    what: "Whether the foot has an inlet on the up side or on the down side.",
    why: "Without an inlet no material gets to the buckets; the shovel pocket alone is for spill.",
    remedy: "Fit the up-side inlet.",
    source: Source::practice(""),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let count = case.foot.inlets.len();
    let message = match count {
        0 => say!("the foot has no inlet"),
        1 => say!("the foot has one inlet"),
        _ => say!("the foot has an inlet on each side"),
    };
    vec![
        RULE.finds(unless(count > 0, Verdict::Fail), "inlet.up.fitted", message)
            .value(count as f64, Unit::One)
            .limit(1.0, Unit::One)
            .change("inlet.up.fitted", &true),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, worst};

    #[test]
    fn one_inlet_is_enough() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("inlet.up.fitted", "false"), ("inlet.down.fitted", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("inlet.up.fitted", "false"), ("inlet.down.fitted", "false")]), Some(Verdict::Fail));
        for (up, down, says) in [("false", "false", "no inlet"), ("true", "false", "one inlet"), ("true", "true", "each side")] {
            let found = findings_of(&RULE, SMALL, &[("inlet.up.fitted", up), ("inlet.down.fitted", down)]);
            assert!(found[0].message.plainly().contains(says), "{found:#?}");
        }
    }
}
