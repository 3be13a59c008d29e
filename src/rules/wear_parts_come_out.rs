//! Bearings, buckets and the bend pulley come off without cutting steel, each by straight moves inside the pit.
//!
//! Sizes against openings and against the room in the pit. The foot pulley and its shaft have rules of their own. That every body passes
//! on its way is shown by the proof of removal; rule and proof are held together by a test.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::removal::LEAST;
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// What wears.
pub const RULE: Rule = Rule {
    id: "wear-parts-come-out",
    title: "Wear parts come out",
    what: "Whether a bearing can be drawn off each end of the shaft inside the pit, and whether a bucket and the bend pulley pass the removal panel.",
    why: "What cannot be taken out is worn until it breaks, and then cut out where dust can burn.",
    remedy: "More room in the pit beside the shaft's ends; a panel as high as the bend pulley.",
    source: Source::practice("a bearing's depth and a hand beyond the shaft's end; what goes through a panel with a finger's room all round"),
    check,
};

/// Beyond a bearing that is drawn off its shaft, mm: a hand or a puller (common practice, no source).
const HAND: f64 = 100.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let mut all = bearings(case);
    all.extend(through_panel(case));
    all
}

/// Room beyond both ends of the shaft.
fn bearings(case: &Case<'_>) -> Vec<Finding> {
    let (foot, r) = (case.foot, &case.foot.rotating);
    let limit = r.unit.depth + HAND;
    let said = |side: &'static str, clear: f64, path: &'static str, space: f64| {
        let words = say!(
            "beyond the shaft's end on the {side} {clear} are clear; a bearing of {depth} drawn off it needs {limit}",
            side = side,
            clear = mm(clear),
            depth = mm(r.unit.depth),
            limit = mm(limit)
        );
        let finding = RULE.finds(unless(reaches(clear, limit), Verdict::Warn), path, words).value(clear, Unit::Mm).limit(limit, Unit::Mm);
        finding.change(path, &Length::mm(up_to(space + limit - clear, 10.0)))
    };
    let Some(pit) = &foot.pit else { return Vec::new() };
    let row = f64::from(pit.elevators.saturating_sub(1)) * pit.pitch;
    let mut all = vec![
        said("near side", pit.y.high - r.shaft_ends.high, "pit.near_space", pit.spaces[2]),
        said("far side", r.shaft_ends.low - row - pit.y.low, "pit.far_space", pit.spaces[3]),
    ];
    if pit.elevators > 1 {
        let between = pit.pitch - r.shaft_ends.size();
        all.push(said("side of the next elevator", between, "pit.pitch", pit.pitch));
    }
    all
}

/// What goes through the removal panel after its cover.
fn through_panel(case: &Case<'_>) -> Vec<Finding> {
    let foot = case.foot;
    let Some(panel) = foot.openings.iter().find(|o| o.kind == OpeningKind::Removal) else { return Vec::new() };
    let mut all = Vec::new();
    let mut passes = |path: &'static str, what: &'static str, [wide, high]: [f64; 2]| {
        let room = ((panel.across.size() - wide) / 2.0).min((panel.up.size() - high) / 2.0);
        let words = say!(
            "{what} of {wide} × {high} has {room} round it in the removal panel of {width} × {height}, at least {least}",
            what = what,
            wide = mm(wide),
            high = mm(high),
            room = mm(room),
            width = mm(panel.across.size()),
            height = mm(panel.up.size()),
            least = mm(LEAST)
        );
        all.push(RULE.finds(unless(reaches(room, LEAST), Verdict::Warn), path, words).value(room, Unit::Mm).limit(LEAST, Unit::Mm));
    };
    passes("bucket.length", "a bucket", [foot.bucket.overall_length, case.spec.bucket.height.value()]);
    if let Some(bend) = &foot.pulleys.bend {
        passes("bend_pulley.diameter", "the bend pulley", [bend.face, bend.diameter]);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, worst, worst_of};

    #[test]
    fn bearings_in_the_pit() {
        assert_eq!(worst(&RULE, &[("pit.fitted", "true")]), Some(Verdict::Pass));
        // The shaft is drawn to the near side; on the far side the bearing has no room.
        let narrow = [("pit.fitted", "true"), ("pit.shaft_pull", "\"near\""), ("pit.far_space", "\"50 mm\"")];
        assert_eq!(worst(&RULE, &narrow), Some(Verdict::Warn));
        mended(&RULE, SMALL, &narrow);
        let two = [("pit.fitted", "true"), ("pit.elevators", "2"), ("pit.pitch", "\"700 mm\"")];
        assert_eq!(worst(&RULE, &two), Some(Verdict::Warn));
        mended(&RULE, SMALL, &two);
    }

    #[test]
    fn bucket_and_bend_pulley_pass() {
        assert_eq!(worst_of(&RULE, LARGE, &[]), Some(Verdict::Pass));
        assert!(findings_of(&RULE, LARGE, &[]).iter().any(|f| f.path == "bend_pulley.diameter"));
        assert_eq!(worst_of(&RULE, LARGE, &[("removal.height", "\"600 mm\"")]), Some(Verdict::Warn));
        assert!(findings_of(&RULE, SMALL, &[("removal.on", "\"none\"")]).iter().all(|f| f.path != "bucket.length"));
    }
}
