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
    what: "Height under the beams of a pit's cover against the headroom that people need.",
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
            unless(reaches(pit.headroom(), limit.value), Verdict::Note),
            "pit.depth",
            say!(
                "the covered pit is {depth} deep and leaves {clear} under the beams of its cover; people need {headroom} to stand: the cover has to come off for work where it is less",
                depth = mm(pit.depth),
                clear = mm(pit.headroom()),
                headroom = mm(limit.value)
            ),
        )
        .value(pit.headroom(), Unit::Mm)
        .limit(limit.value, Unit::Mm)
        .after(limit.source),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn iso_and_us() {
        let pit = [("pit.fitted", "true"), ("pit.cover", "true")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&pit[..], more].concat());
        let iso = ("project.jurisdiction", "\"iso\"");
        let us = ("project.jurisdiction", "\"us\"");
        // Beams and plate take their part of the depth: the limit lies above 2100 mm, or 7 ft 6 in, by as much.
        for (law, least) in [(iso, 2100.0), (us, 2286.0)] {
            assert_eq!(with(&[law, ("pit.depth", &format!("\"{least} mm\""))]), Some(Verdict::Note));
            let depths = (0..60).map(|k| least + 10.0 * f64::from(k));
            let (clear, depth) = depths
                .map(|d| (measured(&RULE, &[&pit[..], &[law, ("pit.depth", &format!("\"{d} mm\""))]].concat()), d))
                .find(|((clear, limit), _)| clear >= limit)
                .unwrap();
            assert!(clear.1 == least && clear.0 < least + 10.0 && depth > least + 150.0, "{clear:?} {depth}");
        }
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.cover", "false")]), None);
    }
}
