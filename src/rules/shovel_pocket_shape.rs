//! The pocket's lip stands at shovelling height and its floor is steep enough for the product.
//!
//! Lip 700 to 900 mm above the pit floor, floor as steep as the product's chute slope and 45° at
//! least. Common practice, no source.

use super::finding::{reaches, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::pocket_place::{FLATTEST_DEG, LIP, SHAPE};
use crate::say;
use crate::say::{amount, mm, name};
use crate::units::{Angle, Length, Unit};

/// Lip and floor.
pub const RULE: Rule = Rule {
    id: "shovel-pocket-shape",
    title: "Shovel pocket, lip and floor",
    what: "Height of the pocket's lip above the pit floor, and slope of its floor.",
    why: "A high lip means lifting every shovel to the chest; on a flat floor the spill stays in the pocket.",
    remedy: "Lip 700 to 900 mm above the pit floor, floor at least 45° and as steep as product.chute_slope.",
    source: SHAPE,
    check,
};

const LIP_LOW: f64 = LIP[0];
const LIP_HIGH: f64 = LIP[1];

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pocket) = &case.foot.pocket else { return Vec::new() };
    let low = !reaches(pocket.lip, LIP_LOW);
    let limit = if low { LIP_LOW } else { LIP_HIGH };
    let good = !low && within(pocket.lip, LIP_HIGH);
    let lip = RULE
        .finds(
            unless(good, Verdict::Warn),
            "shovel_pocket.lip",
            say!(
                "the lip of the shovel pocket is {lip} above the pit floor (usual {low} to {high})",
                lip = mm(pocket.lip),
                low = mm(LIP_LOW),
                high = mm(LIP_HIGH)
            ),
        )
        .value(pocket.lip, Unit::Mm)
        .limit(limit, Unit::Mm)
        .change("shovel_pocket.lip", &Length::mm(limit));
    let least = case.spec.product.chute_slope.value().max(FLATTEST_DEG);
    let floor = RULE
        .finds(
            unless(reaches(pocket.slope_deg, least), Verdict::Warn),
            "shovel_pocket.slope",
            say!(
                "the floor of the shovel pocket slopes {slope}, {product} needs {least}",
                slope = amount(pocket.slope_deg, Unit::Degree, 1),
                product = name(&case.spec.product.name.value),
                least = amount(least, Unit::Degree, 1)
            ),
        )
        .value(pocket.slope_deg, Unit::Degree)
        .limit(least, Unit::Degree)
        .change("shovel_pocket.slope", &Angle::deg(least.ceil().min(80.0)));
    vec![lip, floor]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn lip_and_floor() {
        let slope = ("shovel_pocket.slope", "\"60 deg\"");
        assert_eq!(worst(&RULE, &[("shovel_pocket.fitted", "false")]), None);
        for (lip, verdict) in [("\"699 mm\"", Verdict::Warn), ("\"700 mm\"", Verdict::Pass), ("\"900 mm\"", Verdict::Pass), ("\"901 mm\"", Verdict::Warn)] {
            assert_eq!(worst(&RULE, &[("shovel_pocket.fitted", "true"), slope, ("shovel_pocket.lip", lip)]), Some(verdict), "{lip}");
        }
        assert_eq!(worst(&RULE, &[("shovel_pocket.fitted", "true"), ("shovel_pocket.slope", "\"44 deg\"")]), Some(Verdict::Warn));
    }
}
