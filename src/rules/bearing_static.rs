//! The foot bearings survive the worst load case without dents.
//!
//! C0/P0 after ISO 76 (from memory). How much is wanted is common practice: 1 leaves a ball bearing running quietly, under 0.5 it is spoiled.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::bearing_static::{LEAST, QUIET, SPOILED};
use crate::say;
use crate::say::{amount, n};
use crate::units::{Force, Unit};

/// Static safety of the bearings.
pub const RULE: Rule = Rule {
    id: "bearing-static",
    title: "Static safety of the foot bearings",
    what: "Basic static rating C0 of the foot bearings over the largest load of all load cases, against 1.",
    why: "A foot that blocks while the drive pulls presses dents into races that turn for years afterwards.",
    remedy: "A bearing with a higher static rating, or a drive that slips or switches off sooner.",
    source: LEAST,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let bearing = &case.results.bearing;
    let (safety, worst) = (bearing.static_safety, &bearing.worst);
    let short = if reaches(safety, SPOILED) { Verdict::Warn } else { Verdict::Fail };
    vec![
        RULE.finds(
            unless(reaches(safety, QUIET), short),
            "bearings.static_rating",
            say!(
                "{case}: {load} on a bearing of C0 = {rating}, a static safety of {safety}; {wanted} is wanted",
                case = worst.case.name,
                load = amount(worst.value / 1000.0, Unit::Kn, 1),
                rating = amount(worst.limit / 1000.0, Unit::Kn, 1),
                safety = n(safety, 2),
                wanted = n(QUIET, 1)
            ),
        )
        .value(safety, Unit::One)
        .limit(QUIET, Unit::One)
        .change("bearings.static_rating", &Force::n(up_to(worst.value * QUIET, 100.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, machine, mended, worst};

    #[test]
    fn rating_against_the_blocked_foot() {
        let (_, _, results) = machine(SMALL, &[]);
        let load = results.cases.blocked_empty().shaft_n / 2.0;
        let with = |newton: f64| worst(&RULE, &[("bearings.static_rating", &format!("\"{newton} N\""))]);
        assert_eq!(
            [with(load + 1.0), with(load - 1.0), with(load / 2.0 + 1.0), with(load / 2.0 - 1.0)].map(Option::unwrap),
            [Verdict::Pass, Verdict::Warn, Verdict::Warn, Verdict::Fail]
        );
        mended(&RULE, SMALL, &[("bearings.static_rating", "\"1 kN\"")]);
        let found = findings_of(&RULE, SMALL, &[]);
        assert!(found[0].message.plainly().starts_with("foot blocked, up run empty: "), "{found:?}");
    }
}
