//! The foot pulley has the head pulley's diameter, unless a bend pulley leads the belt to a smaller one.
//!
//! Common practice: with unlike pulleys and no bend pulley the down run hangs inclined, and the
//! trunking has to be as wide as the run leans.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, mm};
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Foot pulley against head pulley.
pub const RULE: Rule = Rule {
    id: "foot-pulley-size",
    title: "Foot and head pulley",
    what: "Whether the foot pulley has the head pulley's diameter where there is no bend pulley.",
    why: "With unlike pulleys and no bend pulley the down run hangs inclined over the whole height; trunking and buckets meet.",
    remedy: "Give the foot pulley the head pulley's diameter, or fit a bend pulley.",
    source: Source::practice("foot pulley as large as the head pulley"),
    check,
};

/// Difference that is within the tolerance of lagging and bought pulleys; common practice.
const SAME_WITHIN: f64 = 30.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let pulleys = &case.foot.pulleys;
    if pulleys.bend.is_some() {
        return Vec::new();
    }
    let (foot, head) = (pulleys.foot.diameter, pulleys.head.diameter);
    let same = (foot - head).abs() <= SAME_WITHIN;
    let lean = case.foot.belt.lowest.foot_run_angle_rad().to_degrees();
    vec![
        RULE.finds(
            unless(same, Verdict::Warn),
            "foot_pulley.diameter",
            say!(
                "foot pulley {foot}, head pulley {head}, no bend pulley: the down run hangs {lean} out of plumb",
                foot = mm(foot),
                head = mm(head),
                lean = amount(lean.abs(), Unit::Degree, 2),
            ),
        )
        .value(foot, Unit::Mm)
        .limit(head, Unit::Mm)
        .change("foot_pulley.diameter", &Length::mm(head)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn same_or_bend() {
        let head = ("head_pulley.diameter", "\"800 mm\"");
        assert_eq!(worst(&RULE, &[head, ("foot_pulley.diameter", "\"800 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[head, ("foot_pulley.diameter", "\"770 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[head, ("foot_pulley.diameter", "\"769 mm\"")]), Some(Verdict::Warn));
    }
}
