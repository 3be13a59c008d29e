//! The throat must pass the largest lump: three times its size at least.
//!
//! Lumps bridge in a smaller opening. Three times for even lumps, five to six for mixed ones; common
//! practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::flow::THROAT_LUMPS as LUMPS;
use crate::say;
use crate::say::{amount, mm};
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Throat against lump.
pub const RULE: Rule = Rule {
    id: "throat-lump",
    title: "Throat and largest lump",
    what: "Smaller clear size of each throat (width, height square to the floor) against three times the largest lump.",
    why: "Lumps arch across an opening that is too small for them, and the throat plugs.",
    remedy: "Make the throat at least three lumps wide and high.",
    source: Source::practice("throat at least three times the largest lump"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let limit = LUMPS * case.spec.product.lump.value();
    case.foot
        .inlets
        .iter()
        .map(|inlet| {
            let key = inlet.side.key();
            let cos = inlet.slope_deg.to_radians().cos();
            let square = inlet.opening.size() * cos;
            let width = inlet.width.size();
            let least = square.min(width);
            let mut finding = RULE
                .finds(
                    unless(reaches(least, limit), Verdict::Warn),
                    if width <= square { format!("inlet.{key}.width") } else { format!("inlet.{key}.height") },
                    say!(
                        "the {side} throat is {width} by {height} clear, lumps of {lump} need {needed}",
                        side = inlet.side.adjective(),
                        width = mm(width),
                        height = mm(square),
                        lump = amount(limit / LUMPS, Unit::Mm, 2),
                        needed = amount(limit, Unit::Mm, 2)
                    ),
                )
                .value(least, Unit::Mm)
                .limit(limit, Unit::Mm);
            if !reaches(width, limit) {
                finding = finding.change(format!("inlet.{key}.width"), &Length::mm(up_to(limit, 5.0)));
            }
            if !reaches(square, limit) {
                finding = finding.change(format!("inlet.{key}.height"), &Length::mm(up_to(limit / cos, 5.0)));
            }
            finding
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    /// Lumps of 100 mm want 300 mm of width, and 300 / cos 45° = 424.3 mm of height; what is wide enough is left alone.
    #[test]
    fn only_what_is_too_small_grows() {
        let throat = |width: &str, height: &str| {
            let spec = [("product.lump", "\"100 mm\""), ("inlet.up.slope", "\"45 deg\""), ("inlet.up.width", width), ("inlet.up.height", height)];
            crate::rules::trial::proposed(&RULE, crate::rules::trial::SMALL, &spec)
        };
        assert_eq!(throat("\"250 mm\"", "\"600 mm\""), ["inlet.up.width = \"300 mm\""]);
        assert_eq!(throat("\"350 mm\"", "\"300 mm\""), ["inlet.up.height = \"425 mm\""]);
        assert!(throat("\"350 mm\"", "\"600 mm\"").is_empty());
    }

    #[test]
    fn three_lumps() {
        let width = ("inlet.up.width", "\"240 mm\"");
        let height = ("inlet.up.height", "\"900 mm\"");
        let flat = ("inlet.up.slope", "\"45 deg\"");
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[width, height, flat, ("product.lump", "\"80 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[width, height, flat, ("product.lump", "\"80.1 mm\"")]), Some(Verdict::Warn));
    }
}
