//! The drive stops when the belt has lost 20 % of its speed at the latest, and the alarm comes before.
//!
//! OSHA 29 CFR 1910.272(q)(5), read in state copies: shut down when belt speed is reduced by no more
//! than 20 % of normal. The alarm before it is common practice.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::speed::{ALARM_SLIP, STOP_SLIP};
use crate::say;
use crate::say::amount;
use crate::sources::Source;
use crate::tables::grain_handling;
use crate::units::{Ratio, Unit};

/// Stop and alarm.
pub const RULE: Rule = Rule {
    id: "motion-slip",
    title: "Alarm and stop on slip",
    what: "Speed loss at which the motion sensor raises the alarm and stops the drive.",
    why: "A slipping belt heats at the head pulley; the later the stop, the nearer to fire and the fuller the foot.",
    remedy: "Stop at 20 % slip or less, alarm at about half of it.",
    source: grain_handling::MOTION,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let monitoring = &case.spec.monitoring;
    if !monitoring.motion.value {
        return Vec::new();
    }
    let (alarm, stop) = (monitoring.alarm_slip.value(), monitoring.stop_slip.value());
    let percent = |share: f64| amount(share * 100.0, Unit::Percent, 1);
    let early = alarm < stop.min(STOP_SLIP) - 1e-9;
    let earlier = Ratio::of_one(ALARM_SLIP.min(stop / 2.0));
    let sooner = RULE
        .finds(
            unless(within(stop, STOP_SLIP), case.warn_or_fail_for_dust()),
            "monitoring.stop_slip",
            say!("the drive stops at {stop} slip (at most {limit})", stop = percent(stop), limit = percent(STOP_SLIP)),
        )
        .value(stop * 100.0, Unit::Percent)
        .limit(STOP_SLIP * 100.0, Unit::Percent)
        .after(case.grain_law(RULE.source))
        .change("monitoring.stop_slip", &Ratio::of_one(STOP_SLIP));
    vec![
        // An alarm after the new stop would contradict it.
        if early { sooner } else { sooner.change("monitoring.alarm_slip", &earlier) },
        RULE.finds(
            unless(early, Verdict::Warn),
            "monitoring.alarm_slip",
            say!("the alarm comes at {alarm} slip, the stop at {stop}", alarm = percent(alarm), stop = percent(stop)),
        )
        .value(alarm * 100.0, Unit::Percent)
        .limit(stop * 100.0, Unit::Percent)
        .after(Source::practice("alarm before the stop"))
        .change("monitoring.alarm_slip", &earlier),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    /// Nominal 2.50 m/s: the device must have acted by 2.00 m/s, that is 20 % slip.
    #[test]
    fn twenty_percent() {
        let dust = ("product.combustible", "true");
        let alarm = ("monitoring.alarm_slip", "0.1");
        assert_eq!(worst(&RULE, &[dust, alarm, ("monitoring.stop_slip", "0.20")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[dust, alarm, ("monitoring.stop_slip", "0.204")]), Some(Verdict::Fail));
        assert_eq!(worst(&RULE, &[("product.combustible", "false"), alarm, ("monitoring.stop_slip", "0.3")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("monitoring.alarm_slip", "0.2"), ("monitoring.stop_slip", "0.2")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("monitoring.motion", "false")]), None);
    }
}
