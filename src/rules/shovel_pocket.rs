//! A shovel pocket: when a plugged elevator was emptied into the pit, the spill has to get back in.
//!
//! A third, hand-fed inlet on the side of the foot. Its absence is only noted. Common practice.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::sources::Source;

/// Pocket present.
pub const RULE: Rule = Rule {
    id: "shovel-pocket",
    title: "Shovel pocket",
    what: "Whether the foot has a hand-fed inlet on its side.",
    why: "After a plug the foot is emptied into the pit; with a pocket the spill is shovelled back in, without one it is carried up by bucket.",
    remedy: "Fit a shovel pocket with a dust-tight cover.",
    source: Source::practice("shovel pocket on the side of the foot"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let fitted = case.foot.pocket.is_some();
    let message =
        if fitted { "spill can be shovelled back in through the pocket" } else { "there is no shovel pocket: spill from the pit cannot be shovelled back in" };
    vec![RULE.finds(unless(fitted, Verdict::Note), "shovel_pocket.fitted", message)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn pocket_or_note() {
        assert_eq!(worst(&RULE, &[("shovel_pocket.fitted", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("shovel_pocket.fitted", "false")]), Some(Verdict::Note));
    }
}
