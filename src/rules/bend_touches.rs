//! The belt must lie on the bend pulley at every take-up position.
//!
//! Geometry of the closed path (convex hull of the circles). A wrap under 3° counts as not touching:
//! belt sag and build tolerances take it away; common practice.

use super::bend_angle::height_for;
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::belt_path::{BELT_PATH, Bend};
use crate::say;
use crate::say::{amount, mm};
use crate::units::{Angle, Length, Unit};

/// Contact of the bend pulley.
pub const RULE: Rule = Rule {
    id: "bend-touches",
    title: "Belt on the bend pulley",
    what: "Whether the belt lies on the bend pulley with the take-up at its lowest, in the middle and at its highest.",
    why: "A bend pulley that the belt leaves does not guide it: the run swings, strikes the casing, and the pulley stands still and wears flat.",
    remedy: "Set the bend pulley so that the belt turns at least 3° on it: a larger bend_pulley.angle.",
    source: BELT_PATH,
    check,
};

const LEAST_WRAP: f64 = 3.0;
const WISH: f64 = 15.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(bend) = &case.foot.pulleys.bend else { return Vec::new() };
    let belt = &case.foot.belt;
    [("lowest", &belt.lowest), ("middle", &belt.middle), ("highest", &belt.highest)]
        .into_iter()
        .map(|(position, path)| {
            let (wrap, clear) = match path.bend {
                Bend::Touched { wrap_rad } => (wrap_rad.to_degrees(), None),
                Bend::Clear { gap_mm } => (0.0, Some(gap_mm)),
                Bend::None => (0.0, None),
            };
            let verdict = if clear.is_some() {
                Verdict::Fail
            } else if wrap < LEAST_WRAP {
                Verdict::Warn
            } else {
                Verdict::Pass
            };
            let least = amount(LEAST_WRAP, Unit::Degree, 0);
            let message = match clear {
                None => say!(
                    "with the take-up {position} the belt turns {wrap} on the bend pulley, at least {least}",
                    position = position,
                    wrap = amount(wrap, Unit::Degree, 1),
                    least = least
                ),
                Some(gap) => say!(
                    "with the take-up {position} the belt passes the bend pulley at a distance of {gap} and should turn {least} on it at least",
                    position = position,
                    gap = mm(gap),
                    least = least
                ),
            };
            let finding = RULE.finds(verdict, "bend_pulley.height", message).value(wrap, Unit::Degree).limit(LEAST_WRAP, Unit::Degree);
            if case.spec.bend_pulley.height.is_given() {
                finding.change("bend_pulley.height", &Length::mm(height_for(case, bend, WISH).round()))
            } else {
                finding.change("bend_pulley.angle", &Angle::deg(WISH))
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, findings_of, worst_of};

    #[test]
    fn wrap_on_the_bend_pulley() {
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.angle", "\"20 deg\"")]), Some(Verdict::Pass));
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.fitted", "false")]), None);
    }

    #[test]
    fn three_degrees_at_every_position() {
        let mut seen = [false, false];
        for tenths in 30..80 {
            let angle = format!("\"{} deg\"", f64::from(tenths) / 10.0);
            for finding in findings_of(&RULE, LARGE, &[("bend_pulley.angle", angle.as_str())]) {
                let wrap = finding.value.unwrap().value;
                let expected = if wrap <= 0.0 {
                    Verdict::Fail
                } else if wrap < 3.0 {
                    Verdict::Warn
                } else {
                    Verdict::Pass
                };
                assert_eq!(finding.verdict, expected, "{angle} {finding:?}");
                seen[usize::from(finding.verdict == Verdict::Pass)] = true;
            }
        }
        assert_eq!(seen, [true, true]);
    }
}
