//! One person can turn the take-up rods, and the spanner lets him tighten the belt, no more.
//!
//! Torque with thread and collar friction (Shigley, ch. 8). 200 N·m is about 400 N on a spanner of half a
//! metre: common practice, no source.

use super::finding::{reaches, unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::screw::{self, BY_HAND_NM, LET_GO_STEP_NM, OVERTIGHTENED};
use crate::say;
use crate::say::{amount, mm, name};
use crate::units::{Torque, Unit};

/// Torque by hand.
pub const RULE: Rule = Rule {
    id: "screw-torque",
    title: "Torque on the take-up rods",
    what: "Torque to tighten one rod against 200 N·m, what a person turns with a spanner of half a metre, and against the torque at which the spanner lets go.",
    why: "A rod that cannot be turned by hand is turned with a pipe on the spanner, and nobody feels when it is too much.",
    remedy: "A longer spanner or a geared nut, a greased thread, or a gravity take-up; a spanner that lets go above what tightening takes.",
    source: screw::TORQUE,
    check,
};

/// Length of a spanner, m; common practice.
const SPANNER: f64 = 0.5;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(rod) = &case.results.screw else { return Vec::new() };
    let turned = name(&case.spec.take_up.rod.value);
    let nm = |torque| amount(torque, Unit::Nm, 0);
    let lets_go = case.spec.take_up.torque.value();
    let mut all = vec![
        RULE.finds(
            unless(within(rod.torque_nm, BY_HAND_NM), Verdict::Warn),
            "take_up.rod",
            say!(
                "tightening one {rod} takes {torque}, {force} on a spanner of {spanner}; a person turns {limit}",
                rod = turned.clone(),
                torque = nm(rod.torque_nm),
                force = amount(rod.torque_nm / SPANNER, Unit::N, 0),
                spanner = mm(SPANNER * 1000.0),
                limit = nm(BY_HAND_NM)
            ),
        )
        .value(rod.torque_nm, Unit::Nm)
        .limit(BY_HAND_NM, Unit::Nm),
    ];
    if let Some(over) = case.results.cases.overtightened() {
        // A tenth of a newton metre more or less is not felt.
        let takes = up_to(rod.tighten_nm, 0.1);
        all.push(
            RULE.finds(
                unless(reaches(lets_go, takes), Verdict::Warn),
                "take_up.torque",
                say!(
                    "the spanner for the {rod} lets go at {limit}, tightening takes {torque}; on greased threads it puts {load} on each rod and {pull} on the foot shaft, with which rods, shaft, bearings and belt are checked",
                    rod = turned,
                    limit = nm(lets_go),
                    torque = amount(takes, Unit::Nm, 1),
                    load = amount(over.rod_n / 1000.0, Unit::Kn, 1),
                    pull = amount(over.shaft_n / 1000.0, Unit::Kn, 1)
                ),
            )
            .value(lets_go, Unit::Nm)
            .limit(takes, Unit::Nm)
            .after(OVERTIGHTENED)
            .change("take_up.torque", &Torque::nm(up_to(takes, LET_GO_STEP_NM))),
        );
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, measured, mended, worst};

    #[test]
    fn by_hand() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("take_up.kind", "\"gravity\"")]), None);
        let mut seen = [false, false];
        for tension in 4..30 {
            let load = format!("\"{tension} N/mm\"");
            let all = [("belt.tracking_tension", load.as_str()), ("belt.width", "\"1200 mm\""), ("take_up.friction", "0.3"), ("take_up.kind", "\"screw\"")];
            let (torque, limit) = measured(&RULE, &all);
            assert_eq!(limit, 200.0);
            assert_eq!(worst(&RULE, &all), Some(if torque <= 200.0 { Verdict::Pass } else { Verdict::Warn }));
            seen[usize::from(torque <= 200.0)] = true;
        }
        assert_eq!(seen, [true, true]);
    }

    /// The spanner gives what tightening takes, and the sentence tells what it does on a greased thread.
    #[test]
    fn the_spanner_lets_go() {
        let torque = findings_of(&RULE, SMALL, &[])[1].limit.unwrap().value;
        for (lets_go, verdict) in [(torque + 0.01, Verdict::Pass), (torque - 0.01, Verdict::Warn)] {
            let found = findings_of(&RULE, SMALL, &[("take_up.torque", &format!("\"{lets_go} N·m\""))]);
            assert_eq!(found[1].verdict, verdict, "{found:#?}");
        }
        mended(&RULE, SMALL, &[("take_up.torque", "\"2 N·m\"")]);
        let found = findings_of(&RULE, SMALL, &[("take_up.torque", "\"2 N·m\"")]);
        assert_eq!(found[1].would_pass[0].line(), format!("take_up.torque = \"{} N·m\"", (torque / 5.0).ceil() * 5.0));
        assert!(found[1].message.plainly().contains("lets go at 2 N·m"), "{found:#?}");
    }
}
