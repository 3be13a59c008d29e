//! The fill that the capacity rests on is one that buckets reach.
//!
//! 0.75 to 0.85 for grain, less for meal and lumps; above 0.9 only heaped buckets, slowly filled.
//! Common practice, no source.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, name};
use crate::spec::product::ProductKind;
use crate::tables::products;
use crate::units::{Ratio, Unit};

/// Fill plausible.
pub const RULE: Rule = Rule {
    id: "capacity-fill",
    title: "Bucket fill",
    what: "Fill of the buckets that the capacity is reckoned with, against what the kind of product reaches.",
    why: "A capacity that rests on brimming buckets is not reached in service.",
    remedy: "Reckon with the usual fill and make up for it by spacing, bucket size or speed.",
    source: products::FILL,
    check,
};

/// Fill that buckets reach in service by kind of product.
const fn most(kind: ProductKind) -> f64 {
    match kind {
        ProductKind::Grain => 0.90,
        ProductKind::Meal | ProductKind::Pellets | ProductKind::Mineral => 0.85,
    }
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (fill, limit) = (case.spec.duty.fill.value(), most(case.spec.product.kind.value));
    vec![
        RULE.finds(
            unless(within(fill, limit), Verdict::Warn),
            "duty.fill",
            say!(
                "the capacity rests on buckets {fill} full, {product} reaches about {most} at best",
                fill = amount(fill * 100.0, Unit::Percent, 0),
                product = name(&case.spec.product.name.value),
                most = amount(limit * 100.0, Unit::Percent, 0),
            ),
        )
        .value(fill, Unit::One)
        .limit(limit, Unit::One)
        .change("duty.fill", &Ratio::of_one(0.75)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn fill_by_kind() {
        assert_eq!(worst(&RULE, &[("duty.fill", "0.75")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("duty.fill", "0.95")]), Some(Verdict::Warn));
        turns(&RULE, "duty.fill", &[("product.kind", "\"grain\"")], 0.001);
        turns(&RULE, "duty.fill", &[("product.kind", "\"meal\"")], 0.001);
    }
}
