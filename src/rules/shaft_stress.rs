//! The foot shaft holds the bending that the belt puts on it in every load case.
//!
//! Beam with two equal loads; allowed stress by ANSI/CEMA B105.1 (fatigue strength over 1.5, rotating
//! shaft, keyway in the hub) where it turns for years, yield strength over 1.1 where the foot is blocked.

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::shaft::ALLOWED;
use crate::say;
use crate::say::{amount, name};
use crate::tables::stock_shafts;
use crate::units::{Length, Unit};

/// Stress in the hubs.
pub const RULE: Rule = Rule {
    id: "shaft-stress",
    title: "Bending stress of the foot shaft",
    what: "Bending stress at the hubs in the worst load case against the allowed one for steel and diameter: fatigue while it turns, yield when the foot blocks.",
    why: "The shaft turns under load, so every turn bends it to and fro: it breaks by fatigue at the hub, without warning; a foot that blocks bends it for good.",
    remedy: "A thicker shaft, a stronger steel, or bearings closer to the hubs.",
    source: ALLOWED,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let shaft = &case.results.shaft;
    let worst = &shaft.worst;
    vec![
        RULE.finds(
            unless(within(worst.value, worst.limit), Verdict::Fail),
            "shaft.diameter",
            say!(
                "{case}: {load} on the foot shaft bend it with {stress} at the hubs, {allowed} are allowed for {steel}",
                case = worst.case.name,
                load = amount(worst.case.shaft_n / 1000.0, Unit::Kn, 1),
                stress = amount(worst.value, Unit::Mpa, 1),
                allowed = amount(worst.limit, Unit::Mpa, 1),
                steel = name(&case.spec.shaft.steel.value)
            ),
        )
        .value(worst.value, Unit::Mpa)
        .limit(worst.limit, Unit::Mpa)
        .change("shaft.diameter", &Length::mm(thicker(case, shaft.diameter_for_stress_mm))),
    ]
}

/// What a shaft that is proposed has in hand: it is heavier, and its larger bearings stand further out.
const IN_HAND: f64 = 1.05;

/// The next stock diameter with something in hand. Beyond stock, whole tens.
pub(super) fn thicker(case: &Case<'_>, needed_mm: f64) -> f64 {
    let least = needed_mm * IN_HAND;
    let stock = if case.us() { stock_shafts::inch_at_least_mm(least) } else { stock_shafts::metric_at_least_mm(least) };
    stock.unwrap_or_else(|| up_to(least, 10.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Wanted;
    use crate::rules::trial::{SMALL, findings_of, job, mended, worst};

    #[test]
    fn thick_and_thin() {
        let load = ("belt.tracking_tension", "\"30 N/mm\"");
        assert_eq!(worst(&RULE, &[load, ("shaft.diameter", "\"120 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[load, ("shaft.diameter", "\"40 mm\"")]), Some(Verdict::Fail));
        mended(&RULE, SMALL, &[load, ("shaft.diameter", "\"40 mm\"")]);
        // The next stock size over 1.05 times what the stress needs; whole tens beyond stock.
        let job = job(SMALL, &[load]);
        let case = Case { spec: job.spec(), foot: job.foot(), results: job.results(), parts: job.parts(), wanted: Wanted::Changes };
        assert_eq!([38.0, 38.2, 57.1, 57.2].map(|d| thicker(&case, d)), [40.0, 45.0, 60.0, 65.0]);
        assert_eq!(thicker(&case, 190.0), 200.0);
        assert_eq!(thicker(&case, 191.0), 210.0);
    }

    /// Which case decides: a taut belt bends the shaft every turn, a slack one with a drive that grips only when the foot blocks.
    #[test]
    fn the_worst_case_is_named() {
        let said = |changes: &[(&str, &str)]| findings_of(&RULE, SMALL, changes)[0].message.plainly();
        assert!(said(&[]).starts_with("foot blocked, up run empty: ") || said(&[]).starts_with("running with full buckets: "), "{}", said(&[]));
        assert!(said(&[("belt.tracking_tension", "\"30 N/mm\""), ("head_pulley.friction", "0.05")]).starts_with("running with full buckets: "));
        let blocked = [("belt.tracking_tension", "\"1 N/mm\""), ("duty.lift", "\"80 m\""), ("shaft.diameter", "\"32 mm\"")];
        assert!(said(&blocked).starts_with("foot blocked, up run empty: "), "{}", said(&blocked));
        mended(&RULE, SMALL, &blocked);
    }

    #[test]
    fn the_needed_diameter_is_the_boundary() {
        let load = ("belt.tracking_tension", "\"30 N/mm\"");
        // Bisection for the diameter at which the verdict turns; it agrees with stress = allowed to 0.1 mm.
        let (mut thin, mut thick) = (40.0f64, 120.0f64);
        while thick - thin > 0.05 {
            let middle = (thin + thick) / 2.0;
            if worst(&RULE, &[load, ("shaft.diameter", &format!("\"{middle} mm\""))]) == Some(Verdict::Pass) { thick = middle } else { thin = middle }
        }
        let (stress, limit) = crate::rules::trial::measured(&RULE, &[load, ("shaft.diameter", &format!("\"{thick} mm\""))]);
        assert!(stress <= limit && stress > 0.99 * limit, "{stress} {limit}");
    }
}
