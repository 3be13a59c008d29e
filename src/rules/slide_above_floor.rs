//! The sliding plate ends above the pit floor with the take-up at its lowest.
//!
//! It covers the shaft slot in every position, so a long travel makes it long; on a small foot pulley with low feet
//! it would meet the floor. Geometry of the model.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::{SLIDE_ABOVE_FLOOR, SLIDING_PLATE};
use crate::say;
use crate::say::mm;
use crate::units::{Length, Unit};

/// Sliding plate over the floor.
pub const RULE: Rule = Rule {
    id: "slide-above-floor",
    title: "Sliding plate above the floor",
    what: "Height of the sliding plate's lower edge above the underside of the base, take-up at its lowest.",
    why: "A plate that reaches the floor stands on it before the take-up is at its lowest, and cannot be built into the pit.",
    remedy: "Higher feet, or less travel with a belt that stretches less.",
    source: SLIDING_PLATE,
    check,
};

/// Least height over the floor, mm.
const LEAST: f64 = 5.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let low = case.foot.rotating.sliding_plate.z.low;
    let feet = up_to(case.spec.casing.feet.value() + SLIDE_ABOVE_FLOOR - low, 5.0);
    let message = if low < 0.0 {
        say!(
            "the sliding plate ends {below} below the underside of the base with the take-up at its lowest, at least {least} above it",
            below = mm(-low),
            least = mm(LEAST)
        )
    } else {
        say!(
            "the sliding plate ends {above} above the underside of the base with the take-up at its lowest, at least {least}",
            above = mm(low),
            least = mm(LEAST)
        )
    };
    vec![
        RULE.finds(unless(reaches(low, LEAST), Verdict::Fail), "take_up.travel", message)
            .value(low, Unit::Mm)
            .limit(LEAST, Unit::Mm)
            .change("casing.feet", &Length::mm(feet)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::SMALL;
    use crate::rules::trial::findings_of;

    #[test]
    fn long_travel_needs_high_feet() {
        let mut seen = [false, false];
        for travel in (200..900).step_by(20) {
            let travel = format!("\"{travel} mm\"");
            for finding in findings_of(&RULE, SMALL, &[("casing.feet", "\"100 mm\""), ("take_up.travel", travel.as_str())]) {
                let low = finding.value.unwrap().value;
                assert_eq!(finding.verdict, if low < 5.0 { Verdict::Fail } else { Verdict::Pass }, "{travel}");
                seen[usize::from(low < 5.0)] = true;
                for change in &finding.would_pass {
                    let higher = findings_of(&RULE, SMALL, &[("casing.feet", change.value.as_str()), ("take_up.travel", travel.as_str())]);
                    assert!(higher.iter().all(|f| f.verdict == Verdict::Pass), "{travel}: {change:?}");
                }
            }
        }
        assert_eq!(seen, [true, true]);
    }

    /// Left to itself the program chooses feet that are high enough.
    #[test]
    fn default_feet_are_high_enough() {
        let found = findings_of(&RULE, SMALL, &[("take_up.travel", "\"700 mm\"")]);
        assert!(!found.is_empty() && found.iter().all(|f| f.verdict == Verdict::Pass));
    }
}
