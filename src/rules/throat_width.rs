//! The throat may not be wider than the casing, and for fragile products and meal not wider than the bucket is long.
//!
//! A narrowed throat sends the stream straight into the buckets instead of past their ends. Common
//! practice, no source; the casing's width is geometry.

use super::finding::{down_to, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::flow::NARROW_THROAT;
use crate::say;
use crate::say::{mm, name};
use crate::sources::Source;
use crate::spec::product::ProductKind;
use crate::units::{Length, Unit};

/// Throat against bucket and casing.
pub const RULE: Rule = Rule {
    id: "throat-width",
    title: "Throat width",
    what: "Clear width of each throat against the length of the buckets (fragile product, meal) and the inside width of the casing.",
    why: "A stream wider than the buckets runs past their ends, is crushed against the side plates and fills the foot; a throat wider than the casing cannot be built.",
    remedy: "Narrow the throat: about 0.8 of the bucket length for fragile products and meal.",
    source: Source::practice("throat narrower than the bucket is long for fragile products and meal"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let casing = case.foot.casing.width.size();
    let bucket = case.foot.bucket.overall_length;
    let product = &case.spec.product;
    let narrow = product.fragile.value || product.kind.value == ProductKind::Meal;
    case.foot
        .inlets
        .iter()
        .map(|inlet| {
            let (side, path) = (inlet.side.adjective(), format!("inlet.{}.width", inlet.side.key()));
            let width = inlet.width.size();
            if !within(width, casing) {
                let wish = if narrow { down_to(NARROW_THROAT * bucket, 5.0) } else { down_to(bucket.min(casing), 5.0) };
                return RULE
                    .finds(
                        Verdict::Fail,
                        &path,
                        say!("the {side} throat is {width} wide, the casing only {casing} inside", side = side, width = mm(width), casing = mm(casing)),
                    )
                    .value(width, Unit::Mm)
                    .limit(casing, Unit::Mm)
                    .change(path, &Length::mm(wish));
            }
            if !narrow {
                return RULE
                    .finds(
                        Verdict::Pass,
                        path,
                        say!("the {side} throat is {width} wide, the casing {casing} inside", side = side, width = mm(width), casing = mm(casing)),
                    )
                    .value(width, Unit::Mm)
                    .limit(casing, Unit::Mm);
            }
            let otherwise = if product.fragile.value { Verdict::Fail } else { Verdict::Warn };
            RULE.finds(
                unless(within(width, bucket), otherwise),
                &path,
                say!(
                    "the {side} throat is {width} wide, the buckets are {bucket} long: {product} needs a throat narrower than the bucket",
                    side = side,
                    width = mm(width),
                    bucket = mm(bucket),
                    product = name(&product.name.value)
                ),
            )
            .value(width, Unit::Mm)
            .limit(bucket, Unit::Mm)
            .change(path, &Length::mm(down_to(NARROW_THROAT * bucket, 5.0)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, proposed, turns, worst};

    #[test]
    fn narrow_for_fragile_and_meal() {
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        let fragile = ("product.fragile", "true");
        assert_eq!(worst(&RULE, &[fragile, ("inlet.up.width", "\"200 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[fragile, ("inlet.up.width", "\"300 mm\"")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("product.kind", "\"meal\""), ("product.fragile", "false"), ("inlet.up.width", "\"300 mm\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("inlet.up.width", "\"2000 mm\"")]), Some(Verdict::Fail));
        // 0.8 of buckets of 280 in steps of 5 down, or the buckets themselves for grain.
        let wish = |more: &[(&str, &str)]| proposed(&RULE, SMALL, more);
        for wide in ["\"300 mm\"", "\"2000 mm\""] {
            assert_eq!(wish(&[fragile, ("inlet.up.width", wide)]), ["inlet.up.width = \"220 mm\""]);
        }
        assert_eq!(wish(&[("inlet.up.width", "\"2000 mm\"")]), ["inlet.up.width = \"280 mm\""]);
        turns(&RULE, "inlet.up.width", &[fragile], 0.1);
        turns(&RULE, "inlet.up.width", &[], 0.1);
    }
}
