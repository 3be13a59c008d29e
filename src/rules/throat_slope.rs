//! The throat's floor must be steeper than the slope at which the product still slides.
//!
//! Slopes on smooth steel by product: common practice. Where two sloping floors meet, the valley
//! between them is flatter than either: cot² ν = cot² α + cot² β.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{amount, name};
use crate::sources::Source;
use crate::units::{Angle, Unit};

/// Slope against the product's flow slope.
pub const RULE: Rule = Rule {
    id: "throat-slope",
    title: "Slope of the throat",
    what: "Slope of each throat's floor against the smallest slope at which the product still slides on it.",
    why: "On a floor that is too flat the stream slows down, builds up and plugs the throat.",
    remedy: "Make the floor at least as steep as product.chute_slope, steeper for wet or cohesive material.",
    source: Source::practice("minimum chute slope by product on smooth steel"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let least = case.spec.product.chute_slope.value();
    case.foot
        .inlets
        .iter()
        .map(|inlet| {
            let path = format!("inlet.{}.slope", inlet.side.key());
            let valley = (inlet.slope_deg.to_radians().tan() / std::f64::consts::SQRT_2).atan().to_degrees();
            RULE.finds(
                unless(reaches(inlet.slope_deg, least), Verdict::Warn),
                &path,
                say!(
                    "the {side} floor slopes {slope}, {product} needs {least}; a valley between two such floors would slope only {valley}",
                    side = inlet.side.adjective(),
                    slope = amount(inlet.slope_deg, Unit::Degree, 1),
                    product = name(&case.spec.product.name.value),
                    least = amount(least, Unit::Degree, 1),
                    valley = amount(valley, Unit::Degree, 1)
                ),
            )
            .value(inlet.slope_deg, Unit::Degree)
            .limit(least, Unit::Degree)
            .change(path, &Angle::deg(least.ceil()))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn slope_against_the_product() {
        assert_eq!(worst(&RULE, &[("inlet.up.slope", "\"60 deg\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("inlet.up.slope", "\"30 deg\"")]), Some(Verdict::Warn));
        turns(&RULE, "inlet.up.slope", &[], -0.1);
    }
}
