//! The bend pulley is at least what the belt allows at small wrap, and half of the foot pulley.
//!
//! The belt's minimum comes from the spec; half the foot pulley is common practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Bend pulley diameter.
pub const RULE: Rule = Rule {
    id: "bend-pulley-diameter",
    title: "Bend pulley diameter",
    what: "Diameter of the bend pulley against the belt's minimum at small wrap and against half of the foot pulley.",
    why: "A small bend pulley creases the belt twice every turn and runs at high speed in its bearings.",
    remedy: "Take a bend pulley of at least belt.min_bend_pulley and half the foot pulley's diameter.",
    source: Source::spec("belt.min_bend_pulley"),
    check,
};

const HALF_FOOT: Source = Source::practice("bend pulley at least half of the foot pulley");

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(bend) = &case.foot.pulleys.bend else { return Vec::new() };
    let least = case.spec.belt.min_bend_pulley.value();
    let half = case.foot.pulleys.foot.diameter / 2.0;
    let wish = Length::mm(up_to(least.max(half), 10.0));
    let path = "bend_pulley.diameter";
    vec![
        RULE.finds(
            unless(reaches(bend.diameter, least), Verdict::Fail),
            path,
            say!("the bend pulley is {diameter} in diameter, the belt allows {least} at small wrap", diameter = mm(bend.diameter), least = mm(least)),
        )
        .value(bend.diameter, Unit::Mm)
        .limit(least, Unit::Mm)
        .change(path, &wish),
        RULE.finds(
            unless(reaches(bend.diameter, half), Verdict::Warn),
            path,
            say!("the bend pulley is {diameter} in diameter, half of the foot pulley is {half}", diameter = mm(bend.diameter), half = mm(half)),
        )
        .value(bend.diameter, Unit::Mm)
        .limit(half, Unit::Mm)
        .after(HALF_FOOT)
        .change(path, &wish),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, worst_of};

    #[test]
    fn belt_and_foot_pulley() {
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.fitted", "false")]), None);
        let foot = ("foot_pulley.diameter", "\"1200 mm\"");
        let belt = ("belt.min_bend_pulley", "\"600 mm\"");
        assert_eq!(worst_of(&RULE, LARGE, &[foot, belt, ("bend_pulley.diameter", "\"600 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst_of(&RULE, LARGE, &[foot, belt, ("bend_pulley.diameter", "\"599 mm\"")]), Some(Verdict::Fail));
        let soft = ("belt.min_bend_pulley", "\"400 mm\"");
        assert_eq!(worst_of(&RULE, LARGE, &[foot, soft, ("bend_pulley.diameter", "\"599 mm\"")]), Some(Verdict::Warn));
    }
}
