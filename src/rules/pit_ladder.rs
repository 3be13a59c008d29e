//! A ladder's rungs and width are those that people can climb.
//!
//! ISO 14122-4: rungs 225 to 300 mm apart, 400 mm clear; OSHA 29 CFR 1910.23(b): 10 to 14 in, 16 in (all from memory).

use super::finding::{down_to, reaches, unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::pit::Access;
use crate::units::{Length, Unit};

/// Rungs and width.
pub const RULE: Rule = Rule {
    id: "pit-ladder",
    title: "Rungs of the ladder",
    what: "Distance of the ladder's rungs, which divide the pit's depth evenly, and the clear width between its sides.",
    why: "A foot that does not find the next rung, or does not fit beside another, slips.",
    remedy: "Choose a rung pitch that divides the depth within the limits; in a pit too shallow for one use a stair.",
    source: Source::standard("ISO 14122-4").from_memory(),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = case.foot.pit.as_ref().filter(|p| p.access == Access::Ladder) else { return Vec::new() };
    let limits = case.access();
    let (least, most) = (limits.rung_pitch_min_mm, limits.rung_pitch_max_mm);
    let rise = pit.way.rise;
    let shallow = pit.depth < limits.rail_from_fall_mm.value;
    let good = shallow || reaches(rise, least.value) && within(rise, most.value);
    let message = say!(
        "{rungs} rungs {pitch} apart up to plant floor; {least} to {most} is asked for",
        rungs = pit.way.steps,
        pitch = mm(rise),
        least = mm(least.value),
        most = mm(most.value)
    );
    let rungs = RULE
        .finds(unless(good, Verdict::Warn), "pit.rung_pitch", message)
        .value(rise, Unit::Mm)
        .limit(if within(rise, most.value) { least.value } else { most.value }, Unit::Mm)
        .after(most.source);
    // The widest pitch gives the largest even rungs; where even they are too small no ladder has even rungs.
    let best = pit.depth / (pit.depth / most.value - 1e-9).ceil().max(1.0);
    let rungs = if reaches(best, least.value) {
        rungs.change("pit.rung_pitch", &Length::mm(down_to(most.value, 0.1)))
    } else {
        rungs.change("pit.access", &Access::Stair)
    };
    let width = limits.ladder_width_min_mm;
    vec![
        rungs,
        RULE.finds(
            unless(reaches(pit.way.clear_width, width.value), Verdict::Warn),
            "pit.ladder_width",
            say!("the ladder is {width} wide between its sides, at least {least}", width = mm(pit.way.clear_width), least = mm(width.value)),
        )
        .value(pit.way.clear_width, Unit::Mm)
        .limit(width.value, Unit::Mm)
        .after(width.source)
        .change("pit.ladder_width", &Length::mm(up_to(width.value, 10.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, mended, proposed, turns, worst};

    #[test]
    fn rungs_and_width() {
        let base = [("pit.fitted", "true"), ("pit.access", "\"ladder\""), ("project.jurisdiction", "\"iso\""), ("pit.depth", "\"2400 mm\"")];
        let with = |more: (&str, &str)| worst(&RULE, &[&base[..], &[more]].concat());
        // 2400 in 8 rungs of 300 and in 7 of 342.9.
        assert_eq!(with(("pit.rung_pitch", "\"300 mm\"")), Some(Verdict::Pass));
        assert_eq!(with(("pit.rung_pitch", "\"343 mm\"")), Some(Verdict::Warn));
        assert_eq!(with(("pit.rung_pitch", "\"220 mm\"")), Some(Verdict::Warn));
        turns(&RULE, "pit.ladder_width", &base, -0.1);
        // The widest pitch makes even rungs of 2400 / 8 = 300; 500 mm deep only 250 or 500 are even; 370 mm none, so a stair.
        let wish = |depth: &str| proposed(&RULE, SMALL, &[&base[..], &[("pit.depth", depth), ("pit.rung_pitch", "\"200 mm\"")]].concat());
        assert_eq!(wish("\"2400 mm\""), ["pit.rung_pitch = \"300 mm\""]);
        mended(&RULE, SMALL, &[&base[..], &[("pit.depth", "\"2500 mm\""), ("pit.rung_pitch", "\"200 mm\"")]].concat());
        // Under a fall of 500 mm the rungs are not judged; from there they are.
        let rungs = |depth: &str| findings_of(&RULE, SMALL, &[&base[..], &[("pit.depth", depth), ("pit.rung_pitch", "\"200 mm\"")]].concat())[0].verdict;
        assert_eq!((rungs("\"499 mm\""), rungs("\"500 mm\"")), (Verdict::Pass, Verdict::Warn));
        assert_eq!(worst(&RULE, &[("pit.fitted", "true"), ("pit.access", "\"stair\"")]), None);
    }
}
