//! Under a closed cover people can stand upright, or the cover is opened for work.
//!
//! 2100 mm after ISO 14122-2 (2001 digest read), 7 ft 6 in as OSHA 1910.36(g) asks of exit routes (common practice for a pit).

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::tables::access;
use crate::units::Unit;

/// Headroom under the cover.
pub const RULE: Rule = Rule {
    id: "pit-headroom",
    title: "Headroom under the cover",
    what: "Depth of a covered pit against the headroom that people need.",
    why: "Work under a low cover is done bent, in the dark, with one way out.",
    remedy: "Make the cover removable over the whole working space and open it before work, or deepen the pit.",
    source: access::SOURCE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    if !case.spec.pit.cover.value {
        return Vec::new();
    }
    let limit = case.access().headroom_mm;
    vec![
        RULE.finds(
            unless(reaches(pit.depth, limit.value), Verdict::Note),
            "pit.depth",
            say!(
                "the covered pit is {depth} deep, people need {headroom} to stand: the cover has to come off for work where it is less",
                depth = mm(pit.depth),
                headroom = mm(limit.value)
            ),
        )
        .value(pit.depth, Unit::Mm)
        .limit(limit.value, Unit::Mm)
        .after(limit.source),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn iso_and_us() {
        let pit = [("pit.fitted", "true"), ("pit.cover", "true")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&pit[..], more].concat());
        let iso = ("project.jurisdiction", "\"iso\"");
        let us = ("project.jurisdiction", "\"us\"");
        assert_eq!(with(&[iso, ("pit.depth", "\"2100 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[iso, ("pit.depth", "\"2099 mm\"")]), Some(Verdict::Note));
        assert_eq!(with(&[us, ("pit.depth", "\"7 ft 6 in\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[us, ("pit.depth", "\"7 ft 5 in\"")]), Some(Verdict::Note));
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.cover", "false")]), None);
    }
}
