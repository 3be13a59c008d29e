//! What the buckets lift leaves them at the head, instead of falling back down the leg.
//!
//! Pole construction over the head pulley with the product's internal friction, at most. Up to a tenth is usual with gentle belts, a third and
//! more is trouble (common practice, no source).

use super::finding::{down_to, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::discharge::back;
use crate::formulas::head_discharge::{FASTEST_OVER_CENTRIFUGAL, MUCH_BACK, PAST_HEAD, USUAL_BACK};
use crate::say;
use crate::say::amount;
use crate::units::{Speed, Unit};

/// Product that falls back.
pub const RULE: Rule = Rule {
    id: "back-legging",
    title: "Product that falls back at the head",
    what: "Share of the load that can still be in the buckets where they pass the head shaft on the down side, against a tenth and 35 %.",
    why: "What falls back down the leg is lifted again: it takes capacity and power, breaks product, and fills the foot from the down side.",
    remedy: "A faster belt, a smaller head pulley, or buckets that open wider.",
    source: PAST_HEAD,
    check,
};

/// Step of a belt speed that is proposed, m/s.
pub(super) const STEP: f64 = 0.05;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (d, net) = (&case.results.discharge, &case.results.net);
    let speed = case.spec.duty.belt_speed.value();
    let worse = if within(d.back_share, MUCH_BACK) { Verdict::Note } else { Verdict::Warn };
    let percent = |share: f64| amount(share * 100.0, Unit::Percent, 0);
    let finding = RULE
        .finds(
            unless(within(d.back_share, USUAL_BACK), worse),
            "duty.belt_speed",
            say!(
                "at {speed} up to {share} of the load is still in the buckets where they pass the head shaft and falls back down the leg, {usual} is usual; the head throws out no less than {thrown}",
                speed = amount(speed, Unit::MPerS, 2),
                share = percent(d.back_share),
                usual = percent(USUAL_BACK),
                thrown = amount(net.past_head_t_per_h, Unit::TPerH, 1),
            ),
        )
        .value(d.back_share, Unit::One)
        .limit(if worse == Verdict::Warn { MUCH_BACK } else { USUAL_BACK }, Unit::One);
    // What is only noted asks for nothing.
    if finding.verdict < Verdict::Warn {
        return vec![finding];
    }
    vec![case.mend(finding, |finding| match faster(case, |v| back(case.spec, case.foot, v) <= USUAL_BACK) {
        Some(v) => finding.change("duty.belt_speed", &Speed::m_per_s(v)),
        None => finding,
    })]
}

/// The next belt speed, m/s, at which something holds, as far as the head throws well.
pub(super) fn faster(case: &Case<'_>, holds: impl Fn(f64) -> bool) -> Option<f64> {
    let now = down_to(case.spec.duty.belt_speed.value(), STEP);
    let most = (FASTEST_OVER_CENTRIFUGAL * case.results.discharge.centrifugal_above_m_per_s).min(6.0);
    (1..).map(|i| down_to(now + STEP * f64::from(i) + 1e-9, STEP)).take_while(|v| *v <= most).find(|v| holds(*v))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, measured, mended, worst};

    #[test]
    fn gentle_belts_leave_product_in_the_buckets() {
        fn at(speed: &str) -> [(&str, &str); 2] {
            [("product.internal_friction", "\"42 deg\""), ("duty.belt_speed", speed)]
        }
        assert_eq!([worst(&RULE, &at("\"2.6 m/s\"")), worst(&RULE, &at("\"1.2 m/s\""))], [Some(Verdict::Pass), Some(Verdict::Warn)]);
        let (share, limit) = measured(&RULE, &at("\"1.2 m/s\""));
        assert!(share > limit && limit == MUCH_BACK, "{share}");
        mended(&RULE, SMALL, &at("\"1.2 m/s\""));
        // In between it is noted.
        let noted = (0..80).map(|i| format!("\"{} m/s\"", 1.4 + 0.02 * f64::from(i))).find(|v| worst(&RULE, &at(v)) == Some(Verdict::Note)).unwrap();
        let found = &findings_of(&RULE, SMALL, &at(&noted))[0];
        assert!(found.value.unwrap().value > USUAL_BACK && found.value.unwrap().value <= MUCH_BACK && found.limit.unwrap().value == USUAL_BACK);
    }
}
