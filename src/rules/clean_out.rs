//! Clean-out doors low at both ends, so that the foot can be emptied from either side.
//!
//! Common practice, no source. One end only is noted, none at all is for `boot-access` too.

use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::sources::Source;

/// Clean-out at both ends.
pub const RULE: Rule = Rule {
    id: "clean-out",
    title: "Clean-out doors",
    what: "Whether there is a clean-out door at the bottom of both end plates.",
    why: "Behind the pulley the residue cannot be reached from the other end; old product spoils the new batch and plugs the foot.",
    remedy: "Fit a slide or door over the full width at the bottom of both ends.",
    source: Source::practice("clean-out over the full width at both ends"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (up, down) = (case.spec.clean_out.up.value, case.spec.clean_out.down.value);
    let (verdict, path, message) = match (up, down) {
        (true, true) => (Verdict::Pass, "clean_out.up", say!("the foot can be cleaned out at both ends")),
        (true, false) => (Verdict::Note, "clean_out.down", say!("the foot can be cleaned out at the up side only")),
        (false, true) => (Verdict::Note, "clean_out.up", say!("the foot can be cleaned out at the down side only")),
        (false, false) => (Verdict::Warn, "clean_out.up", say!("the foot has no clean-out door")),
    };
    let mut finding = RULE.finds(verdict, path, message);
    for (key, fitted) in [("clean_out.up", up), ("clean_out.down", down)] {
        if !fitted {
            finding = finding.change(key, &true);
        }
    }
    vec![finding]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn ends() {
        for (up, down, verdict) in
            [("true", "true", Verdict::Pass), ("true", "false", Verdict::Note), ("false", "true", Verdict::Note), ("false", "false", Verdict::Warn)]
        {
            assert_eq!(worst(&RULE, &[("clean_out.up", up), ("clean_out.down", down)]), Some(verdict));
        }
    }
}
