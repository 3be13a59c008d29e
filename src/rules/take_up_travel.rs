//! The take-up takes out the belt's stretch and one new splice, and is not shorter than 225 mm.
//!
//! Travel from the path's length as a function of the foot pulley's level (physics); 225 mm (9 in) from a
//! US government guide specification (read).

use super::finding::{reaches, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::stretch::{self, TRAVEL};
use crate::say;
use crate::say::mm;
use crate::units::{Length, Unit};

/// Travel against stretch.
pub const RULE: Rule = Rule {
    id: "take-up-travel",
    title: "Take-up travel",
    what: "Travel of the foot shaft against what stretch and one new splice need, and against 225 mm.",
    why: "When the travel is used up the belt has to be shortened in the pit; when it cannot be, it slips.",
    remedy: "More travel, or a belt that stretches less.",
    source: stretch::LEAST,
    check,
};

const GUIDE: f64 = stretch::LEAST_TRAVEL;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let stretch = &case.results.stretch;
    let travel = stretch.travel_mm;
    let needed = stretch.travel_needed_mm;
    let verdict = if !reaches(travel, stretch.travel_for_stretch_mm) {
        Verdict::Fail
    } else if !reaches(travel, needed) || !reaches(travel, GUIDE) {
        Verdict::Warn
    } else {
        Verdict::Pass
    };
    let by_stretch = needed >= GUIDE || !reaches(travel, needed);
    let (limit, source) = if by_stretch { (needed, TRAVEL) } else { (GUIDE, RULE.source) };
    // A longer travel lengthens the belt a little and changes a bend pulley's angle, so some is added.
    let more = if case.foot.pulleys.bend.is_some() { 0.15 } else { 0.05 };
    let wish = if travel < needed { needed + (more * (needed - travel)).max(0.01 * needed) } else { needed };
    vec![
        RULE.finds(
            verdict,
            "take_up.travel",
            say!(
                "travel {travel}: the stretch needs {stretch}, with a new splice {needed}; guide value {guide}",
                travel = mm(travel),
                stretch = mm(stretch.travel_for_stretch_mm),
                needed = mm(needed),
                guide = mm(GUIDE)
            ),
        )
        .value(travel, Unit::Mm)
        .limit(limit, Unit::Mm)
        .after(source)
        .change("take_up.travel", &Length::mm(up_to(wish.max(GUIDE), 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, measured, mended, proposed, worst};

    #[test]
    fn stretch_and_guide() {
        let stiff = [("belt.stretch", "0.001"), ("take_up.splice", "\"0 mm\"")];
        let with = |travel: &str| worst(&RULE, &[&stiff[..], &[("take_up.travel", travel)]].concat());
        assert_eq!(with("\"225 mm\""), Some(Verdict::Pass));
        assert_eq!(with("\"224 mm\""), Some(Verdict::Warn));
        // 50 m and pulleys of 800 mm: 0.001 × 52.6 m / 2 = 26 mm.
        assert_eq!(with("\"27 mm\""), Some(Verdict::Warn));
        assert_eq!(with("\"26 mm\""), Some(Verdict::Fail));
        assert_eq!(proposed(&RULE, SMALL, &[&stiff[..], &[("take_up.travel", "\"26 mm\"")]].concat()), ["take_up.travel = \"225 mm\""]);
        // The guide value is the limit shown until the stretch needs more.
        assert_eq!(measured(&RULE, &[&stiff[..], &[("take_up.travel", "\"224 mm\"")]].concat()).1, 225.0);
        let long = [("belt.stretch", "0.02"), ("take_up.travel", "\"400 mm\"")];
        let (travel, needed) = measured(&RULE, &long);
        assert!(needed > 500.0 && travel < 400.001);
        // A twentieth of what is missing on top, in steps of 5 mm.
        let wish = needed + (0.05 * (needed - travel)).max(0.01 * needed);
        assert_eq!(proposed(&RULE, SMALL, &long), [format!("take_up.travel = \"{} mm\"", (wish / 5.0).ceil() * 5.0)]);
        mended(&RULE, SMALL, &long);
        let bent = [("belt.stretch", "0.02"), ("take_up.travel", "\"400 mm\"")];
        mended(&RULE, LARGE, &bent);
        assert_eq!(worst(&RULE, &[("belt.stretch", "0.02"), ("take_up.travel", "\"500 mm\"")]), Some(Verdict::Fail));
    }
}
