//! Neither foot nor head pulley may be smaller than the belt's carcass allows at full wrap.
//!
//! The minimum comes from the belt's maker through the spec, or from the settled default, which is common practice and said to be.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::reader::Origin;
use crate::units::{Length, Unit};

/// Foot pulley against the belt's minimum.
pub const RULE: Rule = Rule {
    id: "foot-pulley-minimum",
    title: "Foot pulley, head pulley and belt",
    what: "Diameters of foot and head pulley against the smallest pulley that the belt allows at full wrap.",
    why: "On a smaller pulley the carcass is bent too sharply: plies part, cords break, bucket bolts pull out.",
    remedy: "Take a larger pulley or a more flexible belt.",
    source: Source::spec("belt.min_pulley"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (pulleys, least) = (&case.foot.pulleys, case.spec.belt.min_pulley.value());
    let source = match &case.spec.belt.min_pulley.origin {
        Origin::Default { source, .. } => *source,
        _ => RULE.source,
    };
    [("foot_pulley.diameter", "foot pulley", pulleys.foot.diameter), ("head_pulley.diameter", "head pulley", pulleys.head.diameter)]
        .into_iter()
        .map(|(key, pulley, diameter)| {
            RULE.finds(
                unless(reaches(diameter, least), Verdict::Fail),
                key,
                say!(
                    "the {pulley} is {diameter} in diameter, the belt allows {least} at full wrap",
                    pulley = pulley,
                    diameter = mm(diameter),
                    least = mm(least)
                ),
            )
            .value(diameter, Unit::Mm)
            .limit(least, Unit::Mm)
            .after(source)
            .change(key, &Length::mm(least))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, turns, worst};
    use crate::sources::Authority;

    #[test]
    fn pulley_against_belt() {
        let belt = ("belt.min_pulley", "\"500 mm\"");
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.diameter", "\"600 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.diameter", "\"450 mm\"")]), Some(Verdict::Fail));
        turns(&RULE, "foot_pulley.diameter", &[belt], -0.1);
        // The head pulley bends it as much, and a customary minimum is not the belt maker's.
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.diameter", "\"600 mm\""), ("head_pulley.diameter", "\"450 mm\"")]), Some(Verdict::Fail));
        let authority = |changes: &[(&str, &str)]| findings_of(&RULE, SMALL, changes)[0].source.authority;
        assert_eq!([authority(&[]), authority(&[belt])], [Authority::Practice, Authority::Spec]);
    }
}
