//! The floor leads water to the sump and is still a floor to stand on.
//!
//! 1 in 100 at least, 1 in 20 at most where people work; common practice, no source.

use super::finding::{reaches, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, mm, n};
use crate::sources::Source;
use crate::tables::access::FLOOR_FALL;
use crate::units::{Ratio, Unit};

/// Fall of the floor.
pub const RULE: Rule = Rule {
    id: "pit-floor-fall",
    title: "Fall of the pit floor",
    what: "Fall of the floor from the foot to the sump.",
    why: "Wash water that stands makes mud of spilt product; a steep floor is slid on.",
    remedy: "Let the floor fall 1 in 100 to the sump, level under the foot itself.",
    source: Source::practice("1 in 100 to 1 in 20"),
    check,
};

const LEAST: f64 = FLOOR_FALL[0];
const MOST: f64 = FLOOR_FALL[1];

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(fall) = case.foot.pit.as_ref().and_then(|p| p.fittings.fall) else { return Vec::new() };
    let good = reaches(fall.share, LEAST) && within(fall.share, MOST);
    vec![
        RULE.finds(
            unless(good, Verdict::Warn),
            "pit.floor_fall",
            say!(
                "the floor falls {fall} to the sump, {drop} lower at its edge; {least} to {most} drain and can be stood on",
                fall = amount(fall.share * 100.0, Unit::Percent, 2),
                drop = mm(fall.drop),
                least = n(LEAST * 100.0, 0),
                most = amount(MOST * 100.0, Unit::Percent, 0)
            ),
        )
        .value(fall.share * 100.0, Unit::Percent)
        .limit(if fall.share < LEAST { LEAST } else { MOST } * 100.0, Unit::Percent)
        .change("pit.floor_fall", &Ratio::of_one(LEAST)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn falls() {
        let base = [("pit.fitted", "true"), ("pit.sump", "\"400 mm\""), ("pit.sump_depth", "\"400 mm\"")];
        let with = |fall: &str| worst(&RULE, &[&base[..], &[("pit.floor_fall", fall)]].concat());
        assert_eq!(with("0.01"), Some(Verdict::Pass));
        assert_eq!(with("0.009"), Some(Verdict::Warn));
        assert_eq!(with("0.05"), Some(Verdict::Pass));
        assert_eq!(with("0.051"), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.sump", "\"0 mm\"")]), None);
    }
}
