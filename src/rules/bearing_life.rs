//! The foot bearings live as long as the spec wants.
//!
//! L10h = 10⁶/(60·n)·(C/P)³, ISO 281:2007 (from memory). 40,000 h unless the spec says otherwise.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::bearing_life::LIFE;
use crate::say;
use crate::say::amount;
use crate::units::{Force, Unit};

/// Life of the bearings.
pub const RULE: Rule = Rule {
    id: "bearing-life",
    title: "Life of the foot bearings",
    what: "Basic rating life L10h of the foot bearings against the wanted one.",
    why: "A foot bearing sits where nobody looks, in dust; when it fails the shaft wanders and the belt rubs.",
    remedy: "A bearing with a higher rating, or less tension.",
    source: LIFE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let bearing = &case.results.bearing;
    vec![
        RULE.finds(
            unless(reaches(bearing.life_h, bearing.wanted_h), Verdict::Warn),
            "bearings.rating",
            say!(
                "{load} on a bearing of C = {rating}: {life}, wanted are {wanted}; that takes C = {needed}",
                load = amount(bearing.load_n / 1000.0, Unit::Kn, 2),
                rating = amount(bearing.rating_n / 1000.0, Unit::Kn, 1),
                life = amount(bearing.life_h, Unit::H, 0),
                wanted = amount(bearing.wanted_h, Unit::H, 0),
                needed = amount(bearing.rating_needed_n / 1000.0, Unit::Kn, 1),
            ),
        )
        .value(bearing.life_h, Unit::H)
        .limit(bearing.wanted_h, Unit::H)
        .change("bearings.rating", &Force::n(up_to(bearing.rating_needed_n, 100.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, worst};

    #[test]
    fn life_against_wish() {
        assert_eq!(worst(&RULE, &[("bearings.rating", "\"500 kN\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("bearings.rating", "\"2 kN\"")]), Some(Verdict::Warn));
        let proposal = findings_of(&RULE, SMALL, &[("bearings.rating", "\"2 kN\"")])[0].would_pass[0].value.clone();
        let newton: f64 = proposal.trim_matches('"').trim_end_matches(" N").parse().unwrap();
        assert_eq!(worst(&RULE, &[("bearings.rating", &proposal)]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("bearings.rating", &format!("\"{} N\"", newton - 101.0))]), Some(Verdict::Warn));
    }
}
