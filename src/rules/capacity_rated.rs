//! The buckets carry the capacity that is asked for.
//!
//! Q = 3.6·(V/a)·v·ρ·φ, Spivakovsky and Dyachkov (from memory).

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::capacity;
use crate::say;
use crate::say::{amount, n};
use crate::units::{Speed, Unit};

/// Rated against required.
pub const RULE: Rule = Rule {
    id: "capacity-rated",
    title: "Capacity",
    what: "Capacity of the bucket line at the spec's fill and speed against the capacity asked for.",
    why: "What the buckets cannot carry stays in the foot and plugs it.",
    remedy: "Closer or larger buckets, a faster belt, or a second row.",
    source: capacity::CAPACITY,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let capacity = &case.results.capacity;
    let speed = case.spec.duty.belt_speed.value();
    let needed = up_to(capacity.speed_needed_m_per_s, 0.05);
    let message = say!(
        "the buckets carry {rated} at {speed} and fill {fill}, asked for are {asked}; that takes {speed_needed}, a spacing of {spacing_needed} or a fill of {fill_needed}",
        rated = amount(capacity.rated_t_per_h, Unit::TPerH, 1),
        speed = amount(speed, Unit::MPerS, 2),
        fill = n(case.spec.duty.fill.value(), 2),
        asked = amount(capacity.required_t_per_h, Unit::TPerH, 1),
        speed_needed = amount(capacity.speed_needed_m_per_s, Unit::MPerS, 2),
        spacing_needed = amount(capacity.spacing_needed_mm, Unit::Mm, 0),
        fill_needed = n(capacity.fill_needed, 2),
    );
    let good = reaches(capacity.rated_t_per_h, capacity.required_t_per_h);
    let finding = RULE
        .finds(unless(good, Verdict::Fail), "duty.belt_speed", message)
        .value(capacity.rated_t_per_h, Unit::TPerH)
        .limit(capacity.required_t_per_h, Unit::TPerH);
    if needed > 6.0 {
        return vec![finding];
    }
    let finding = finding.change("duty.belt_speed", &Speed::m_per_s(needed));
    // A spacing that is left out is settled from the speed; it is pinned where it stands.
    let pinned = !case.spec.bucket.spacing.is_given();
    vec![if pinned { finding.change("bucket.spacing", &case.spec.bucket.spacing.value) } else { finding }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, proposed, worst};

    /// 2.5 l, 320 mm, 2.0 m/s, 0.75 t/m³, 0.75: 31.6406 t/h.
    #[test]
    fn rated_against_required() {
        let base = [
            ("bucket.volume", "\"2.5 l\""),
            ("bucket.spacing", "\"320 mm\""),
            ("bucket.rows", "1"),
            ("duty.belt_speed", "\"2.0 m/s\""),
            ("duty.fill", "0.75"),
            ("product.density", "\"0.75 t/m3\""),
        ];
        let wish = |asked: &str| proposed(&RULE, SMALL, &[&base[..], &[("duty.capacity", asked)]].concat());
        // 2.0006 m/s in steps of 0.05; up to 6 m/s and no more
        assert_eq!(wish("\"31.65 t/h\""), ["duty.belt_speed = \"2.05 m/s\""]);
        assert_eq!(wish("\"94.92 t/h\""), ["duty.belt_speed = \"6 m/s\""]);
        assert!(wish("\"95.2 t/h\"").is_empty());
        for (asked, verdict) in [("\"31.64 t/h\"", Verdict::Pass), ("\"31.65 t/h\"", Verdict::Fail)] {
            assert_eq!(worst(&RULE, &[&base[..], &[("duty.capacity", asked)]].concat()), Some(verdict), "{asked}");
        }
    }
}
