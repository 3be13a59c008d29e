//! The guard rail is high enough and lets nobody through.
//!
//! ISO 14122-3: 1100 mm, clear gaps 500 (from memory; 1100 and 500 seen on a drawing note that cites it);
//! OSHA 29 CFR 1910.29(b): 42 in less or more 3 in (read), gaps 19 in (from memory).

use super::finding::{reaches, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::tables::access;
use crate::units::{Length, Unit};

/// Height and gaps.
pub const RULE: Rule = Rule {
    id: "pit-rail-height",
    title: "Height of the guard rail",
    what: "Height of the top rail above plant floor and the clear gaps between toe board, knee rail and top rail.",
    why: "Over a low rail one topples, through a wide gap one slides.",
    remedy: "Give the top rail the height that the texts name; a second knee rail closes gaps of a higher one.",
    source: Source::standard("ISO 14122-3").from_memory(),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(rail) = case.foot.pit.as_ref().and_then(|p| p.fittings.rail) else { return Vec::new() };
    let limits = case.access();
    let (least, most, gap) = (limits.rail_height_min_mm, limits.rail_height_max_mm, limits.rail_gap_mm);
    let good = reaches(rail.height, least.value) && within(rail.height, most.value);
    let wide = rail.lower_gap.max(rail.upper_gap);
    vec![
        RULE.finds(
            unless(good && within(wide, gap.value), Verdict::Fail),
            "pit.rail_height",
            if most.value.is_finite() {
                say!(
                    "the top rail stands {height} above plant floor, at least {least} and at most {most}; the widest gap is {gap}, at most {widest}",
                    height = mm(rail.height),
                    least = mm(least.value),
                    most = mm(most.value),
                    gap = mm(wide),
                    widest = mm(gap.value)
                )
            } else {
                say!(
                    "the top rail stands {height} above plant floor, at least {least}; the widest gap is {gap}, at most {widest}",
                    height = mm(rail.height),
                    least = mm(least.value),
                    gap = mm(wide),
                    widest = mm(gap.value)
                )
            },
        )
        .value(rail.height, Unit::Mm)
        .limit(if reaches(rail.height, least.value) && most.value.is_finite() { most.value } else { least.value }, Unit::Mm)
        .after(least.source)
        .change("pit.rail_height", &Length::mm(if case.us() { access::RAIL_HEIGHT_OSHA_MM.value } else { access::ISO.rail_height_min_mm.value })),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn heights() {
        let base = [("pit.fitted", "true"), ("pit.rail", "true"), ("pit.depth", "\"2 m\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        let (iso, us) = (("project.jurisdiction", "\"iso\""), ("project.jurisdiction", "\"us\""));
        for (place, height, verdict) in [
            (iso, "\"1100 mm\"", Verdict::Pass),
            (iso, "\"1099 mm\"", Verdict::Fail),
            // Toe board 100 with 10 under it, tubes 33.7 and 42.4: gaps of 500 end at 1186.
            (iso, "\"1186 mm\"", Verdict::Pass),
            (iso, "\"1187 mm\"", Verdict::Fail),
            (us, "\"42 in\"", Verdict::Pass),
            (us, "\"38.9 in\"", Verdict::Fail),
            (us, "\"45.1 in\"", Verdict::Fail),
        ] {
            assert_eq!(with(&[place, ("pit.rail_height", height)]), Some(verdict), "{height}");
        }
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.rail", "false")]), None);
    }
}
