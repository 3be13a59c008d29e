//! A pit has a sump: wash water and ground water collect somewhere.
//!
//! Common practice, no source; needed when the groundwater stands above the pit floor.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::tables::access::SUMP_MM;
use crate::units::Length;

/// Sump present.
pub const RULE: Rule = Rule {
    id: "pit-sump",
    title: "Sump",
    what: "Whether the pit has a sump for a pump.",
    why: "Water in the pit turns spilt product into mud and mould, and corrodes the foot from below.",
    remedy: "Give the pit a sump of about 400 by 400, 400 deep, with the floor falling to it.",
    source: Source::practice("sump of about 400 by 400 by 400"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let wet = case.spec.pit.groundwater.value.is_some_and(|w| w.value() < pit.depth);
    let message = match (pit.sump, wet) {
        (Some(s), _) => say!("the sump is {size} square and {depth} deep", size = mm(s.x.size()), depth = mm(s.depth)),
        (None, true) => say!("there is no sump, and the groundwater stands above the pit floor"),
        (None, false) => say!("there is no sump"),
    };
    vec![
        RULE.finds(unless(pit.sump.is_some(), if wet { Verdict::Warn } else { Verdict::Note }), "pit.sump", message)
            .change("pit.sump", &Length::mm(SUMP_MM))
            .change("pit.sump_depth", &Length::mm(SUMP_MM)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn sump_and_water() {
        let pit = ("pit.fitted", "true");
        let none = ("pit.sump", "\"0 mm\"");
        let deep = ("pit.depth", "\"2 m\"");
        assert_eq!(worst(&RULE, &[pit, deep, ("pit.sump", "\"400 mm\""), ("pit.sump_depth", "\"400 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[pit, deep, none, ("pit.groundwater", "\"2 m\"")]), Some(Verdict::Note));
        assert_eq!(worst(&RULE, &[pit, deep, none, ("pit.groundwater", "\"1.9 m\"")]), Some(Verdict::Warn));
    }
}
