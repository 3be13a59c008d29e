//! Buckets must not stand closer than they are high.
//!
//! Geometry: at a smaller spacing one bucket would sit in the next one. Physics.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Spacing against height.
pub const RULE: Rule = Rule {
    id: "bucket-spacing",
    title: "Bucket spacing",
    what: "Distance from bucket to bucket along the belt against the height of a bucket.",
    why: "Buckets closer than they are high do not fit on the belt.",
    remedy: "Space the buckets at least their height apart.",
    source: Source::physics("buckets of one row do not overlap"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let bucket = &case.foot.bucket;
    vec![
        RULE.finds(
            unless(reaches(bucket.spacing, bucket.height), Verdict::Fail),
            "bucket.spacing",
            say!("buckets {height} high stand {spacing} apart", height = mm(bucket.height), spacing = mm(bucket.spacing)),
        )
        .value(bucket.spacing, Unit::Mm)
        .limit(bucket.height, Unit::Mm)
        .change("bucket.spacing", &Length::mm(up_to(bucket.height, 5.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn spacing_against_height() {
        assert_eq!(worst(&RULE, &[("bucket.spacing", "\"300 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("bucket.spacing", "\"100 mm\"")]), Some(Verdict::Fail));
        turns(&RULE, "bucket.spacing", &[], -0.1);
    }
}
