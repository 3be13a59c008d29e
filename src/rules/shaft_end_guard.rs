//! A shaft end that stands out more than half its diameter is guarded.
//!
//! OSHA 29 CFR 1910.219(c)(4)(i) (a state twin was read): projecting ends smooth and at most half the
//! shaft diameter, unless covered by a non-rotating cap or sleeve. Reckoned from the bearing's inner ring. Elsewhere the same is good practice.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::tables::bearings;
use crate::units::{Length, Unit};

/// Projecting shaft end.
pub const RULE: Rule = Rule {
    id: "shaft-end-guard",
    title: "Projecting shaft end",
    what: "How far the foot shaft stands out beyond the inner ring of its bearing, against half its diameter.",
    why: "A turning shaft end catches clothing; a longer one needs a fixed cap, the sensor's target too.",
    remedy: "Shorten the end, or cover it with a cap that does not turn.",
    source: Source::law("OSHA 29 CFR 1910.219(c)(4)(i)"),
    check,
};

/// The same where the law does not reach.
const ELSEWHERE: Source = Source::practice("what US law asks of shaft ends (OSHA 29 CFR 1910.219(c)(4)(i))");

fn check(case: &Case<'_>) -> Vec<Finding> {
    let rotating = &case.foot.rotating;
    // Larger than the table: the ring of an insert bearing is about 0.7 of its bore wide.
    let ring = bearings::by_number(rotating.unit.number).map_or(0.7 * rotating.journal, |b| b.inner_ring_mm);
    let beyond = case.spec.shaft.projection.value() - ring / 2.0;
    let limit = rotating.journal / 2.0;
    vec![
        RULE.finds(
            unless(within(beyond, limit), Verdict::Warn),
            "shaft.projection",
            say!(
                "the shaft end stands {beyond} out of the bearing, half its diameter is {limit}: cover it with a fixed cap if it is longer",
                beyond = mm(beyond.max(0.0)),
                limit = mm(limit)
            ),
        )
        .value(beyond.max(0.0), Unit::Mm)
        .limit(limit, Unit::Mm)
        .after(if case.us() { RULE.source } else { ELSEWHERE })
        .change("shaft.projection", &Length::mm((ring / 2.0 + limit).floor())),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

    #[test]
    fn half_a_diameter() {
        let shaft = [("shaft.diameter", "\"60 mm\""), ("shaft.journal", "\"60 mm\"")];
        // UC 212: inner ring 65.1 mm wide, so 32.55 + 30 = 62.55 mm.
        assert_eq!(worst(&RULE, &[shaft[0], shaft[1], ("shaft.projection", "\"62.5 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[shaft[0], shaft[1], ("shaft.projection", "\"62.7 mm\"")]), Some(Verdict::Warn));
        // Standing out of the inner ring, and half the diameter.
        let (out, half) = measured(&RULE, &[shaft[0], shaft[1], ("shaft.projection", "\"62.7 mm\"")]);
        assert!((out - (62.7 - 32.55)).abs() < 1e-6 && half == 30.0, "{out} {half}");
    }
}
