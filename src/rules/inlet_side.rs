//! Fragile products are fed on the up side only; meal should be; grain may come from the down side.
//!
//! On the down side the material meets the backs of the buckets, is churned, and the whole foot fills
//! before the buckets fill: it costs power, stirs the product and makes fines. Common practice.

use super::{Case, Finding, Rule, Verdict};
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::{amount, name};
use crate::sources::Source;
use crate::spec::product::ProductKind;
use crate::units::Unit;

/// Product against feed side.
pub const RULE: Rule = Rule {
    id: "inlet-side",
    title: "Feed side for the product",
    what: "Whether the product may be fed on the down side.",
    why: "Material fed on the down side meets the backs of the buckets and is churned through the whole foot: power, dust and fines.",
    remedy: "Feed on the up side with a narrowed throat; leave the down-side inlet out.",
    source: Source::practice("fragile products and meal are fed on the up side"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    if case.foot.inlets.is_empty() {
        return Vec::new();
    }
    let product = &case.spec.product;
    let called = name(&product.name.value);
    if case.foot.inlet(FeedSide::Down).is_none() {
        return vec![RULE.finds(Verdict::Pass, "inlet.down.fitted", say!("{product} is fed on the up side", product = called))];
    }
    let (verdict, message) = if product.fragile.value {
        (Verdict::Fail, say!("{product} breaks when it is churned and has a down-side inlet", product = called))
    } else if product.kind.value == ProductKind::Meal {
        (
            Verdict::Warn,
            say!("{product} has a down-side inlet: as all that is sluggish like meal it is stirred up, aerated and fills the buckets badly", product = called),
        )
    } else {
        let power = &case.results.power;
        (
            Verdict::Note,
            say!(
                "{product} may be fed on the down side; dredging then takes about {down} against {up} with up-side feed",
                product = called,
                down = amount(power.down_side_kw, Unit::Kw, 1),
                up = amount(power.up_side_kw, Unit::Kw, 1),
            ),
        )
    };
    let finding = RULE.finds(verdict, "inlet.down.fitted", message).change("inlet.down.fitted", &false);
    vec![if case.foot.inlet(FeedSide::Up).is_none() { finding.change("inlet.up.fitted", &true) } else { finding }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn product_decides() {
        let down = ("inlet.down.fitted", "true");
        assert_eq!(worst(&RULE, &[("product.fragile", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[down, ("product.fragile", "true")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[down, ("product.fragile", "false"), ("product.kind", "\"meal\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[down, ("product.fragile", "false"), ("product.kind", "\"grain\"")]), Some(Verdict::Note));
    }
}
