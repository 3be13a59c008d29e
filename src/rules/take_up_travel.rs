//! The take-up takes out one closing step of the belt, and is not shorter than 225 mm; how often a belt that stretches more is shortened
//! is told.
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
    what: "Travel of the foot shaft against one closing step of the belt and against 225 mm; how often the belt is shortened while it stretches.",
    why: "A belt is closed in whole bucket spacings: with less travel than one of them a shortened belt cannot be put on again, and slips.",
    remedy: "More travel, or a splice that closes in smaller steps.",
    source: stretch::LEAST,
    check,
};

const GUIDE: f64 = stretch::LEAST_TRAVEL;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let stretch = &case.results.stretch;
    let travel = stretch.travel_mm;
    let closing = stretch.travel_for_splice_mm;
    let verdict = if stretch.shortenings.is_none() || !reaches(travel, closing) {
        Verdict::Fail
    } else if !reaches(travel, GUIDE) {
        Verdict::Warn
    } else {
        Verdict::Pass
    };
    let (limit, source) = if closing >= GUIDE { (closing, TRAVEL) } else { (GUIDE, RULE.source) };
    // A longer travel lengthens the belt a little and changes a bend pulley's angle, so some is added.
    let more = if case.foot.pulleys.bend.is_some() { 0.15 } else { 0.05 };
    let wish = if travel < closing { closing + (more * (closing - travel)).max(0.01 * closing) } else { closing };
    let message = match stretch.shortenings {
        None => say!(
            "travel {travel}: one closing step of the belt needs {closing}, so that a shortened belt cannot be put on again; guide value {guide}",
            travel = mm(travel),
            closing = mm(closing),
            guide = mm(GUIDE)
        ),
        Some(0) => say!(
            "travel {travel}: one closing step of the belt needs {closing}, all of its stretch {stretch}; guide value {guide}",
            travel = mm(travel),
            closing = mm(closing),
            stretch = mm(stretch.travel_for_stretch_mm),
            guide = mm(GUIDE)
        ),
        Some(times) => say!(
            "travel {travel}: one closing step of the belt needs {closing}; all of its stretch would need {stretch}: shortened {times} × in its life; guide value {guide}",
            travel = mm(travel),
            closing = mm(closing),
            stretch = mm(stretch.travel_for_stretch_mm),
            times = times,
            guide = mm(GUIDE)
        ),
    };
    vec![
        RULE.finds(verdict, "take_up.travel", message)
            .value(travel, Unit::Mm)
            .limit(limit, Unit::Mm)
            .after(source)
            .change("take_up.travel", &Length::mm(up_to(wish.max(GUIDE), 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, measured, mended, proposed, worst};

    #[test]
    fn closing_step_and_guide() {
        let stiff = [("belt.stretch", "0.001"), ("take_up.splice", "\"0 mm\"")];
        let with = |travel: &str| worst(&RULE, &[&stiff[..], &[("take_up.travel", travel)]].concat());
        assert_eq!([with("\"225 mm\""), with("\"224 mm\"")], [Verdict::Pass, Verdict::Warn].map(Some));
        assert_eq!(proposed(&RULE, SMALL, &[&stiff[..], &[("take_up.travel", "\"26 mm\"")]].concat()), ["take_up.travel = \"225 mm\""]);
        // Runs that hang upright: half of a step of 500 mm.
        let coarse = |travel: &'static str| [("take_up.splice", "\"500 mm\""), ("take_up.travel", travel)];
        assert_eq!([worst(&RULE, &coarse("\"251 mm\"")), worst(&RULE, &coarse("\"249 mm\""))], [Verdict::Pass, Verdict::Fail].map(Some));
        assert!((measured(&RULE, &coarse("\"249 mm\"")).1 - 250.0).abs() < 0.5);
        mended(&RULE, SMALL, &coarse("\"249 mm\""));
        mended(&RULE, LARGE, &[("take_up.splice", "\"900 mm\""), ("take_up.travel", "\"400 mm\"")]);
    }

    /// 52.6 m and 2 %: 1052 mm; 800 mm are taken out by 400 mm of travel, in steps of 230 mm three at a time: once more.
    #[test]
    fn shortened_in_its_life() {
        let said = |stretch: &'static str| {
            let found = findings_of(&RULE, SMALL, &[("belt.stretch", stretch), ("take_up.travel", "\"400 mm\""), ("take_up.splice", "\"230 mm\"")]);
            assert_eq!(found[0].verdict, Verdict::Pass);
            found[0].message.plainly()
        };
        assert!(said("0.02").contains("shortened 1 ×"), "{}", said("0.02"));
        assert!(said("0.05").contains("shortened 3 ×"), "{}", said("0.05"));
        assert!(said("0.01").contains("all of its stretch"));
    }
}
