//! The tension that keeps the belt on the foot pulley, and what the foot has to give.
//!
//! Tracking minimum 1 to 2 N per mm of width and ply (common practice, no source). What grip at the head
//! needs beyond it follows from the tension chain; a tall elevator's own weight may give all of that.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::tension::CHAIN;
use crate::say;
use crate::say::{Statement, amount};
use crate::sources::Source;
use crate::spec::belt::Carcass;
use crate::units::{LineForce, Unit};

/// Tension in the foot.
pub const RULE: Rule = Rule {
    id: "foot-tension",
    title: "Tension in the foot",
    what: "Tracking minimum of the spec against 1 N per mm of width and ply; and what tension the foot has to give.",
    why: "A slack belt wanders on the foot pulley and slips at the head; a tight one wears shaft, bearings and splice for nothing.",
    remedy: "Take the belt maker's tracking tension, at least 1 N per mm of width and ply.",
    source: Source::practice("1 to 2 N per mm of belt width and ply"),
    check,
};

/// Tracking tension of a steel cord belt, N/mm: like four plies; common practice.
const CORD: f64 = 4.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let belt = &case.spec.belt;
    let tension = &case.results.tension;
    let limit = if belt.carcass.value == Carcass::Fabric { f64::from(belt.plies.value) } else { CORD };
    let tracking = belt.tracking_tension.value();
    let grip = &tension.chain;
    let (force, share) = (amount(grip.foot_down_n / 1000.0, Unit::Kn, 2), amount(grip.own_weight_share * 100.0, Unit::Percent, 0));
    let message = if tension.tracking_governs() {
        say!(
            "each run needs {force} in the foot: tracking decides, grip at the head asks for less; the down run's own weight gives {share} of the slack tension that the head needs",
            force = force,
            share = share,
        )
    } else if grip.starting_asks_more {
        say!(
            "each run needs {force} in the foot: grip at the head in starting with full buckets decides; the down run's own weight gives {share} of the slack tension that the head needs",
            force = force,
            share = share,
        )
    } else {
        say!(
            "each run needs {force} in the foot: grip at the head decides; the down run's own weight gives {share} of the slack tension that the head needs",
            force = force,
            share = share,
        )
    };
    let customary = tension.tracking_governs() && !belt.tracking_tension.is_given();
    let message = if customary {
        let who = "the tracking tension is a customary one, not the belt maker's, and sets shaft, bearings and take-up";
        Statement::all(vec![message, who.into()])
    } else {
        message
    };
    vec![
        RULE.finds(
            unless(reaches(tracking, limit), Verdict::Warn),
            "belt.tracking_tension",
            say!(
                "the belt is tracked with {tracking}, usual is {limit} or more",
                tracking = amount(tracking, Unit::NPerMm, 2),
                limit = amount(limit, Unit::NPerMm, 2),
            ),
        )
        .value(tracking, Unit::NPerMm)
        .limit(limit, Unit::NPerMm)
        .change("belt.tracking_tension", &LineForce::n_per_mm(limit)),
        RULE.finds(Verdict::Pass, "take_up.kind", message).value(grip.foot_down_n, Unit::N).after(CHAIN),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, turns, worst};

    #[test]
    fn newton_per_width_and_ply() {
        let plies = ("belt.plies", "4");
        assert_eq!(worst(&RULE, &[plies, ("belt.tracking_tension", "\"6 N/mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[plies, ("belt.tracking_tension", "\"3.9 N/mm\"")]), Some(Verdict::Warn));
        turns(&RULE, "belt.tracking_tension", &[plies], -0.01);
        let customary = |changes: &[(&str, &str)]| findings_of(&RULE, SMALL, changes)[1].message.plainly().contains("not the belt maker's");
        assert_eq!([customary(&[]), customary(&[("belt.tracking_tension", "\"6 N/mm\"")])], [true, false]);
    }
}
