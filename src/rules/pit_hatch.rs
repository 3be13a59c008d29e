//! The hatch in the cover lets a person through with tools and a rescuer after them.
//!
//! A person in any posture needs 400 by 600 mm at the least (EN 547-1, weak memory); 600 by 600 for a ladder below is
//! common practice, and so is 24 in for a US job: OSHA 29 CFR 1910.23(d)(4) asks 24 to 30 in clear through a ladder (read), not of hatches.

use super::finding::{reaches, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, mm};
use crate::tables::access::{LADDER_CLEAR_MM, LADDER_CLEAR_OSHA_MM, Limit, MANHOLE_LENGTH_MM, MANHOLE_WIDTH_MM};
use crate::units::{Length, Unit};

/// Size of the hatch.
pub const RULE: Rule = Rule {
    id: "pit-hatch",
    title: "Hatch over the way down",
    what: "Clear size of the hatch in the cover over the ladder or stair.",
    why: "Who is hurt in the pit must come up through it, with somebody beside.",
    remedy: "Make the hatch 700 by 900 mm or larger, or take the whole cover off for work.",
    source: LADDER_CLEAR_MM.source,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(hatch) = case.foot.pit.as_ref().and_then(|p| p.fittings.hatch) else { return Vec::new() };
    let (long, wide) = (case.spec.pit.hatch_length.value(), case.spec.pit.hatch_width.value());
    let Limit { value: least, source } = if case.us() { LADDER_CLEAR_OSHA_MM } else { LADDER_CLEAR_MM };
    let small = !reaches(wide.min(long), MANHOLE_WIDTH_MM.value) || !reaches(wide.max(long), MANHOLE_LENGTH_MM.value);
    let short = !reaches(wide.min(long), least);
    let verdict = match (small, short) {
        (true, _) => Verdict::Fail,
        (false, true) => Verdict::Warn,
        (false, false) => Verdict::Pass,
    };
    let source = if small { MANHOLE_WIDTH_MM.source } else { source };
    let area = hatch.x.size() * hatch.y.size() * 1e-6;
    vec![
        RULE.finds(
            verdict,
            "pit.hatch_width",
            say!(
                "the hatch is {length} by {width} ({area}); {least} by {least} is asked for",
                length = mm(long),
                width = mm(wide),
                area = amount(area, Unit::M2, 2),
                least = mm(least)
            ),
        )
        .value(wide.min(long), Unit::Mm)
        .limit(if small { MANHOLE_WIDTH_MM.value } else { least }, Unit::Mm)
        .after(source)
        .change("pit.hatch_width", &Length::mm(up_to(wide.max(least), 10.0)))
        .change("pit.hatch_length", &Length::mm(up_to(long.max(least), 10.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn sizes() {
        let base = [("pit.fitted", "true"), ("pit.cover", "true"), ("pit.access", "\"ladder\""), ("pit.hatch_length", "\"600 mm\"")];
        let with = |width: &str| worst(&RULE, &[&base[..], &[("pit.hatch_width", width)]].concat());
        assert_eq!(with("\"600 mm\""), Some(Verdict::Pass));
        let us =
            [("pit.fitted", "true"), ("pit.cover", "true"), ("pit.access", "\"ladder\""), ("project.jurisdiction", "\"us\""), ("pit.hatch_length", "\"3 ft\"")];
        for (width, verdict) in [("\"24 in\"", Verdict::Pass), ("\"23.9 in\"", Verdict::Warn)] {
            assert_eq!(worst(&RULE, &[&us[..], &[("pit.hatch_width", width)]].concat()), Some(verdict), "{width}");
        }
        assert_eq!(with("\"599 mm\""), Some(Verdict::Warn));
        assert_eq!(with("\"400 mm\""), Some(Verdict::Warn));
        assert_eq!(with("\"399 mm\""), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.cover", "false")]), None);
    }
}
