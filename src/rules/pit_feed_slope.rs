//! The incoming spout is steeper than the slope at which the product still slides.
//!
//! Slopes on smooth steel by product: common practice.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, name};
use crate::sources::Source;
use crate::units::{Angle, Unit};

/// Slope of the feed.
pub const RULE: Rule = Rule {
    id: "pit-feed-slope",
    title: "Slope of the incoming spout",
    what: "Slope of the spout between feed outlet and inlet flange against the product's smallest chute slope.",
    why: "A spout that is too flat plugs above the pit, where nobody can reach it; making it steeper later lowers the pit floor.",
    remedy: "Make the spout at least as steep as product.chute_slope.",
    source: Source::practice("minimum chute slope by product on smooth steel"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let pit = &case.spec.pit;
    if case.foot.pit.is_none() || pit.feed_distance.value() <= 0.0 {
        return Vec::new();
    }
    let (slope, least) = (pit.feed_slope.value(), case.spec.product.chute_slope.value());
    vec![
        RULE.finds(
            unless(reaches(slope, least), Verdict::Warn),
            "pit.feed_slope",
            say!(
                "the incoming spout slopes {slope}, {product} needs {least}",
                slope = amount(slope, Unit::Degree, 1),
                product = name(&case.spec.product.name.value),
                least = amount(least, Unit::Degree, 1)
            ),
        )
        .value(slope, Unit::Degree)
        .limit(least, Unit::Degree)
        .change("pit.feed_slope", &Angle::deg(least.ceil())),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn slope_of_the_spout() {
        let pit = ("pit.fitted", "true");
        assert_eq!(worst(&RULE, &[pit, ("pit.feed_slope", "\"60 deg\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[pit, ("pit.feed_slope", "\"20 deg\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[pit, ("pit.feed_distance", "\"0 mm\"")]), None);
        turns(&RULE, "pit.feed_slope", &[pit], -0.1);
    }
}
