//! A fragile product meets the bucket gently.
//!
//! Relative speed of stream and bucket from their two velocities (physics). 4 m/s is common practice,
//! no source; it is only noted.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::throat::Throat;
use crate::formulas::impact::{self, GENTLE};
use crate::model::inlets::{FeedSide, InletBody};
use crate::say;
use crate::say::{amount, mm, name};
use crate::units::{Length, Unit};

/// Impact on the bucket.
pub const RULE: Rule = Rule {
    id: "throat-impact",
    title: "Impact on the bucket",
    what: "Speed at which the stream of a fragile product and the bucket meet.",
    why: "Pellets break where they are hit; every break is fines and dust.",
    remedy: "Less free fall before the throat, a shorter or flatter throat, or a slower belt.",
    source: impact::IMPACT,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    if !case.spec.product.fragile.value {
        return Vec::new();
    }
    case.foot
        .inlets
        .iter()
        .zip(&case.results.throats)
        .map(|(inlet, throat)| {
            let path = format!("inlet.{}.drop", inlet.side.key());
            let hit = throat.impact_m_per_s;
            let drop = drop_of(case, inlet.side);
            let finding = RULE
                .finds(
                    unless(within(hit, GENTLE), Verdict::Warn),
                    &path,
                    say!(
                        "{product} hits the bucket at {speed} on the {side} after a free fall of {drop}, at most {most} are gentle",
                        product = name(&case.spec.product.name.value),
                        speed = amount(hit, Unit::MPerS, 1),
                        side = inlet.side.noun(),
                        drop = mm(drop),
                        most = amount(GENTLE, Unit::MPerS, 1)
                    ),
                )
                .value(hit, Unit::MPerS)
                .limit(GENTLE, Unit::MPerS);
            case.mend(finding, |finding| match gentler(case, inlet, drop) {
                Some(less) => finding.change(path, &Length::mm(less)),
                None => finding,
            })
        })
        .collect()
}

fn drop_of(case: &Case<'_>, side: FeedSide) -> f64 {
    match side {
        FeedSide::Up => case.spec.inlet_up.drop.value(),
        FeedSide::Down => case.spec.inlet_down.drop.value(),
    }
}

/// The largest free fall, in steps of 50 mm, at which the impact stays within bounds.
fn gentler(case: &Case<'_>, inlet: &InletBody, drop: f64) -> Option<f64> {
    let mut falls = (0..(drop / 50.0).ceil() as u32).rev().map(|i| f64::from(i) * 50.0);
    falls.find(|less| within(Throat::after_fall(case.spec, case.foot, inlet, *less).impact_m_per_s, GENTLE))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn only_fragile_products() {
        let slow = ("duty.belt_speed", "\"1.5 m/s\"");
        let fragile = ("product.fragile", "true");
        assert_eq!(worst(&RULE, &[slow, ("product.fragile", "false"), ("inlet.up.drop", "\"5 m\"")]), None);
        assert_eq!(worst(&RULE, &[slow, fragile, ("inlet.up.drop", "\"0 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[slow, fragile, ("inlet.up.drop", "\"5 m\"")]), Some(Verdict::Warn));
    }

    #[test]
    fn the_proposal_is_the_largest_step_that_passes() {
        let base = [("duty.belt_speed", "\"1.5 m/s\""), ("product.fragile", "true")];
        let found = crate::rules::trial::findings_of(&RULE, crate::rules::trial::SMALL, &[&base[..], &[("inlet.up.drop", "\"5 m\"")]].concat());
        let wish = found[0].would_pass[0].value.clone();
        let number: f64 = wish.trim_matches('"').trim_end_matches(" mm").parse().unwrap();
        assert_eq!(worst(&RULE, &[&base[..], &[("inlet.up.drop", &wish)]].concat()), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[&base[..], &[("inlet.up.drop", &format!("\"{} mm\"", number + 50.0))]].concat()), Some(Verdict::Warn));
    }
}
