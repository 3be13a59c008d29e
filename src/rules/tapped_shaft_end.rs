//! One end of the foot shaft is drilled and tapped for the speed sensor's target.
//!
//! Metric: DIN 332-2 form D by shaft end diameter (thread, least usable depth, drilled depth; from
//! memory). Inch: a thread of a quarter to a third of the shaft, one and a half diameters deep; common practice.

use super::finding::reaches;
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::{mm, name};
use crate::spec::rotating::TappedEnd;
use crate::tables::centre_holes;
use crate::tables::threads::{self, Series};
use crate::units::{Length, Unit};

/// Tapped end.
pub const RULE: Rule = Rule {
    id: "tapped-shaft-end",
    title: "Tapped shaft end",
    what: "Whether a foot shaft end is drilled and tapped, with the thread for its diameter and deep enough.",
    why: "The target of the motion sensor is screwed into the shaft end; drilling it later means taking the shaft out.",
    remedy: "Drill and tap one end to DIN 332-2 form D, or in inches a thread of a quarter to a third of the shaft.",
    source: centre_holes::SOURCE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let shaft = &case.spec.shaft;
    if shaft.tapped_end.value == TappedEnd::None {
        let verdict = if case.spec.monitoring.motion.value { case.warn_or_fail_for_dust() } else { Verdict::Warn };
        return vec![
            RULE.finds(verdict, "shaft.tapped_end", "no end of the foot shaft is tapped: a speed target cannot be fixed")
                .change("shaft.tapped_end", &TappedEnd::Near),
        ];
    }
    let end = case.foot.rotating.journal;
    let thread = shaft.thread.value.as_str();
    let (usable, drilled) = (shaft.thread_depth.value(), shaft.drill_depth.value());
    let found = threads::find(thread);
    if found.is_some_and(|t| t.series == Series::Unc) {
        let size = found.map_or(0.0, |t| t.diameter_mm);
        let limit = 1.5 * size;
        let depth = RULE
            .finds(
                if reaches(usable, limit) { Verdict::Pass } else { Verdict::Warn },
                "shaft.thread_depth",
                say!(
                    "{thread} in the shaft end of {end}, {usable} usable (1.5 diameters are {least})",
                    thread = name(thread),
                    end = mm(end),
                    usable = mm(usable),
                    least = mm(limit)
                ),
            )
            .value(usable, Unit::Mm)
            .limit(limit, Unit::Mm)
            .after(centre_holes::INCH)
            .change("shaft.thread_depth", &Length::mm(limit.ceil()))
            .change("shaft.drill_depth", &Length::mm(drilled.max((limit + size / 2.0).ceil())));
        return vec![depth];
    }
    let Some(hole) = centre_holes::for_shaft_mm(end) else { return Vec::new() };
    let (wanted, t1, t3) = (hole.thread, hole.thread_depth_mm, hole.drill_depth_mm);
    let thread_right = thread.eq_ignore_ascii_case(wanted);
    let kind = RULE
        .finds(
            if thread_right { Verdict::Pass } else { Verdict::Warn },
            "shaft.thread",
            say!("{thread} in a shaft end of {end}, DIN 332-2 gives {wanted}", thread = name(thread), end = mm(end), wanted = name(wanted)),
        )
        .change("shaft.thread", &wanted.to_string());
    let least = if thread_right { t1 } else { found.map_or(t1, |t| (2.0 * t.diameter_mm).min(t1)) };
    let deep = reaches(usable, least);
    let drilled_enough = reaches(drilled, usable);
    let depth = RULE
        .finds(
            if deep && drilled_enough { Verdict::Pass } else { Verdict::Warn },
            "shaft.thread_depth",
            say!("thread usable for {usable} (at least {least}), drilled {drilled} deep", usable = mm(usable), least = mm(least), drilled = mm(drilled)),
        )
        .value(usable, Unit::Mm)
        .limit(least, Unit::Mm)
        .change("shaft.thread_depth", &Length::mm(usable.max(t1)))
        .change("shaft.drill_depth", &Length::mm(drilled.max(t3).max(usable)));
    // The changed thread needs its own depth, so both go together.
    vec![
        if thread_right {
            kind
        } else {
            kind.change("shaft.thread_depth", &Length::mm(usable.max(t1))).change("shaft.drill_depth", &Length::mm(drilled.max(t3)))
        },
        depth,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, mended, proposed, worst};

    #[test]
    fn din_332() {
        let end = [("shaft.diameter", "\"60 mm\""), ("shaft.journal", "\"60 mm\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&end[..], more].concat());
        assert_eq!(with(&[("shaft.thread", "\"M20\""), ("shaft.thread_depth", "\"42 mm\""), ("shaft.drill_depth", "\"59 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[("shaft.thread", "\"M20\""), ("shaft.thread_depth", "\"41 mm\""), ("shaft.drill_depth", "\"59 mm\"")]), Some(Verdict::Warn));
        assert_eq!(with(&[("shaft.thread", "\"M16\""), ("shaft.thread_depth", "\"42 mm\""), ("shaft.drill_depth", "\"59 mm\"")]), Some(Verdict::Warn));
        assert_eq!(with(&[("shaft.tapped_end", "\"none\""), ("product.combustible", "true")]), Some(Verdict::Fail));
        assert_eq!(with(&[("shaft.tapped_end", "\"none\""), ("product.combustible", "false")]), Some(Verdict::Warn));
        mended(&RULE, SMALL, &[&end[..], &[("shaft.thread", "\"M16\""), ("shaft.thread_depth", "\"20 mm\""), ("shaft.drill_depth", "\"30 mm\"")]].concat());
        mended(&RULE, SMALL, &[&end[..], &[("shaft.tapped_end", "\"none\"")]].concat());
        // Another thread than the standard's needs two diameters, at most the standard's depth.
        let other = |depth: &str| with(&[("shaft.thread", "\"M16\""), ("shaft.thread_depth", depth), ("shaft.drill_depth", "\"59 mm\"")]);
        assert_eq!((other("\"32 mm\""), other("\"31 mm\"")), (Some(Verdict::Warn), Some(Verdict::Warn)));
    }

    #[test]
    fn inch_thread() {
        let thread = ("shaft.thread", "\"3/4-10\"");
        let drill = ("shaft.drill_depth", "\"60 mm\"");
        assert_eq!(worst(&RULE, &[thread, drill, ("shaft.thread_depth", "\"28.6 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[thread, drill, ("shaft.thread_depth", "\"28 mm\"")]), Some(Verdict::Warn));
        // 1.5 × 19.05 = 28.58 usable; drilled half a diameter deeper, 38.1.
        let shallow = [thread, ("shaft.drill_depth", "\"30 mm\""), ("shaft.thread_depth", "\"20 mm\"")];
        assert_eq!(proposed(&RULE, SMALL, &shallow), ["shaft.thread_depth = \"29 mm\"", "shaft.drill_depth = \"39 mm\""]);
    }
}
