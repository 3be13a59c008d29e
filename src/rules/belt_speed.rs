//! The belt runs no faster than the product bears.
//!
//! Common practice, no source: about 2 m/s for what breaks and for abrasive or lumpy material, 2.8 m/s
//! for meal, 3.8 m/s for grain. Only noted.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, name};
use crate::tables::belt_speeds;
use crate::units::{Speed, Unit};

/// Speed against product.
pub const RULE: Rule = Rule {
    id: "belt-speed",
    title: "Belt speed",
    what: "Belt speed against what is usual for the product.",
    why: "Speed breaks fragile products at scooping and discharge, aerates meal, and wears belt and buckets.",
    remedy: "Run slower with closer or larger buckets.",
    source: belt_speeds::SOURCE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (speed, limit) = (case.spec.duty.belt_speed.value(), case.spec.product.usual_speed());
    vec![
        RULE.finds(
            unless(within(speed, limit), Verdict::Warn),
            "duty.belt_speed",
            say!(
                "the belt runs {speed}, usual for {product} is {limit} or less",
                speed = amount(speed, Unit::MPerS, 2),
                product = name(&case.spec.product.name.value),
                limit = amount(limit, Unit::MPerS, 1),
            ),
        )
        .value(speed, Unit::MPerS)
        .limit(limit, Unit::MPerS)
        .change("duty.belt_speed", &Speed::m_per_s(limit)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn speed_by_product() {
        assert_eq!(worst(&RULE, &[("duty.belt_speed", "\"2 m/s\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("duty.belt_speed", "\"5 m/s\"")]), Some(Verdict::Warn));
        for kind in ["\"grain\"", "\"meal\"", "\"mineral\""] {
            turns(&RULE, "duty.belt_speed", &[("product.kind", kind), ("product.fragile", "false")], 0.01);
        }
        turns(&RULE, "duty.belt_speed", &[("product.fragile", "true")], 0.01);
    }
}
