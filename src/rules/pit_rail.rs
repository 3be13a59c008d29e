//! Nobody falls into the pit: a guard rail, and a cover.
//!
//! Rail from 500 mm of fall (ISO 14122-3, from memory) or 4 ft (OSHA 29 CFR 1910.28(b)(1)(i), read).
//! With a cover alone the rail is missing only while it is open.

use super::finding::within;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::Unit;

/// Rail round the opening.
pub const RULE: Rule = Rule {
    id: "pit-rail",
    title: "Guard rail at the pit",
    what: "Whether a pit deep enough to be hurt in has a guard rail or at least a cover.",
    why: "An open pit beside a walkway is fallen into.",
    remedy: "Fit a guard rail with knee rail and toe board, self-closing gate at the ladder.",
    source: Source::standard("ISO 14122-3").from_memory(),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let limits = case.access();
    let from = limits.rail_from_fall_mm;
    let (rail, cover) = (case.spec.pit.rail.value, case.spec.pit.cover.value);
    let shallow = pit.depth < from.value && within(pit.depth, from.value);
    let verdict = match (rail || shallow, cover) {
        (true, _) => Verdict::Pass,
        (false, true) => Verdict::Warn,
        (false, false) => Verdict::Fail,
    };
    let message = match (rail, shallow, cover) {
        (true, _, _) => {
            say!(
                "the pit of {depth} has a guard rail (top rail {height} or higher); one is asked for from a fall of {limit} on",
                depth = mm(pit.depth),
                height = mm(limits.rail_height_min_mm.value),
                limit = mm(from.value)
            )
        }
        (false, true, _) => say!("the fall of {depth} is under {limit}: no rail is asked for", depth = mm(pit.depth), limit = mm(from.value)),
        (false, false, true) => say!(
            "the pit of {depth} has a cover but no guard rail for when it is open; one is asked for from a fall of {limit} on",
            depth = mm(pit.depth),
            limit = mm(from.value)
        ),
        (false, false, false) => say!(
            "the pit of {depth} has neither cover nor guard rail; a rail is asked for from a fall of {limit} on",
            depth = mm(pit.depth),
            limit = mm(from.value)
        ),
    };
    vec![RULE.finds(verdict, "pit.rail", message).value(pit.depth, Unit::Mm).limit(from.value, Unit::Mm).after(from.source).change("pit.rail", &true)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn fall_height() {
        let base = [("pit.fitted", "true"), ("pit.rail", "false"), ("project.jurisdiction", "\"iso\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        let open = ("pit.cover", "false");
        assert_eq!(with(&[open, ("pit.depth", "\"499 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[open, ("pit.depth", "\"500 mm\"")]), Some(Verdict::Fail));
        assert_eq!(with(&[("pit.cover", "true"), ("pit.depth", "\"2 m\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.rail", "true"), ("pit.depth", "\"2 m\"")]), Some(Verdict::Pass));
        assert_eq!(
            worst(&RULE, &[("pit.fitted", "true"), ("pit.rail", "false"), open, ("project.jurisdiction", "\"us\""), ("pit.depth", "\"3 ft 11 in\"")]),
            Some(Verdict::Pass)
        );
    }
}
