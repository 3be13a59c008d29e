//! The foot pulley must not be smaller than the belt's carcass allows at full wrap.
//!
//! The minimum comes from the belt's maker through the spec, or from the settled default.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Foot pulley against the belt's minimum.
pub const RULE: Rule = Rule {
    id: "foot-pulley-minimum",
    title: "Foot pulley and belt",
    what: "Diameter of the foot pulley against the smallest pulley that the belt allows at full wrap.",
    why: "On a smaller pulley the carcass is bent too sharply: plies part, cords break, bucket bolts pull out.",
    remedy: "Take a larger foot pulley or a more flexible belt.",
    source: Source::spec("belt.min_pulley"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (diameter, least) = (case.foot.pulleys.foot.diameter, case.spec.belt.min_pulley.value());
    vec![
        RULE.finds(
            unless(reaches(diameter, least), Verdict::Fail),
            "foot_pulley.diameter",
            say!("the foot pulley is {diameter} in diameter, the belt allows {least} at full wrap", diameter = mm(diameter), least = mm(least)),
        )
        .value(diameter, Unit::Mm)
        .limit(least, Unit::Mm)
        .change("foot_pulley.diameter", &Length::mm(least)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn pulley_against_belt() {
        let belt = ("belt.min_pulley", "\"500 mm\"");
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.diameter", "\"600 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.diameter", "\"450 mm\"")]), Some(Verdict::Fail));
        turns(&RULE, "foot_pulley.diameter", &[belt], -0.1);
    }
}
