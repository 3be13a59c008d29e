//! Bolted flanges are wide enough for a bolt, its washer and a spanner.
//!
//! 40 mm for M12 with about 1.5 diameters of edge and room for the head beside the plate: common
//! practice, no source.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Flange width.
pub const RULE: Rule = Rule {
    id: "casing-flange",
    title: "Flange width",
    what: "Width of the bolted flanges of casing and inlets against 40 mm.",
    why: "On a narrow flange the bolt sits at the edge or under the plate, and the joint is not dust-tight.",
    remedy: "Use flanges of 40 mm or wider.",
    source: Source::practice("flange at least 40 mm wide for M12"),
    check,
};

const LEAST: f64 = 40.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (of_casing, width) = (case.foot.casing.flange, mm(case.foot.casing.flange));
    let casing = std::iter::once((
        "casing.flange".to_string(),
        of_casing,
        say!("the casing flange is {width} wide, at least {least}", width = width, least = mm(LEAST)),
    ));
    let inlets = case.foot.inlets.iter().map(|i| {
        (
            format!("inlet.{}.flange", i.side.key()),
            i.flange,
            say!("the inlet flange is {width} wide, at least {least}", width = mm(i.flange), least = mm(LEAST)),
        )
    });
    casing
        .chain(inlets)
        .map(|(path, width, message)| {
            RULE.finds(unless(reaches(width, LEAST), Verdict::Warn), &path, message)
                .value(width, Unit::Mm)
                .limit(LEAST, Unit::Mm)
                .change(path, &Length::mm(LEAST))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn wide_enough_for_a_bolt() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("casing.flange", "\"30 mm\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("inlet.up.flange", "\"30 mm\"")]), Some(Verdict::Warn));
        turns(&RULE, "casing.flange", &[], -0.1);
    }
}
