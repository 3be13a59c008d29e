//! The belt is wider than the buckets are long, so that its edges stay free of bolts and knocks.
//!
//! 25 to 50 mm wider is common practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Belt against bucket.
pub const RULE: Rule = Rule {
    id: "belt-width",
    title: "Belt width",
    what: "Width of the belt against the length of the bucket rows, 25 mm more.",
    why: "On a belt no wider than the buckets the edge tears at the bolts, and the bucket ends strike first when the belt wanders.",
    remedy: "Take a belt 25 to 50 mm wider than the buckets are long.",
    source: Source::practice("belt 25 to 50 mm wider than the buckets"),
    check,
};

const WIDER: f64 = 25.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (belt, bucket) = (case.foot.belt.width, case.foot.bucket.overall_length);
    let limit = bucket + WIDER;
    let verdict = unless(reaches(belt, limit), Verdict::Warn);
    vec![
        RULE.finds(
            verdict,
            "belt.width",
            say!("the belt is {belt} wide, the buckets take {buckets}; {least} or more is asked for", belt = mm(belt), buckets = mm(bucket), least = mm(limit)),
        )
        .value(belt, Unit::Mm)
        .limit(limit, Unit::Mm)
        .change("belt.width", &Length::mm(up_to(limit, 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn belt_against_bucket() {
        assert_eq!(worst(&RULE, &[("bucket.length", "\"280 mm\""), ("belt.width", "\"305 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("bucket.length", "\"280 mm\""), ("belt.width", "\"280 mm\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("bucket.length", "\"280 mm\""), ("belt.width", "\"279 mm\"")]), Some(Verdict::Warn));
        turns(&RULE, "belt.width", &[], -0.1);
    }
}
