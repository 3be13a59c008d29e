//! The feed passes the wall below plant floor without leaving a sliver of concrete above or none below.
//!
//! A strip of concrete under 200 mm over an opening cannot be built well; common practice, no source.

use super::finding::{reaches, up_to};
use super::pit_depth_from_feed::ROUNDING;
use super::{Case, Finding, Rule, Verdict, Wanted};
use crate::model::inlets::FeedSide;
use crate::model::pit::PitBody;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Angle, Length, Unit};

/// Opening for the feed.
pub const RULE: Rule = Rule {
    id: "pit-feed-opening",
    title: "Opening for the feed",
    what: "Where the incoming spout or conveyor crosses a pit wall below plant floor: concrete left above and below the opening.",
    why: "A thin strip over the opening breaks out; an opening that cuts the floor joins the wall's worst place.",
    remedy: "Carry the opening up to plant floor and close it with the cover, or move the feed.",
    source: Source::practice("at least 200 mm of concrete over an opening"),
    check,
};

const STRIP: f64 = 200.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    if pit.feed_openings.is_empty() {
        return vec![RULE.finds(Verdict::Pass, "pit.feed_level", "the feed crosses no pit wall below plant floor")];
    }
    let judged: Vec<(Finding, bool)> = pit
        .feed_openings
        .iter()
        .map(|o| {
            let above = pit.depth - o.z.high;
            let (side, low, high) = (o.side.noun(), mm(o.z.low), mm(o.z.high.min(pit.depth)));
            let (verdict, message) = if !reaches(o.z.low, 0.0) {
                let message = say!(
                    "the feed on the {side} crosses the wall {low} to {high} above the pit floor: it cuts {cut} into the slab",
                    side = side,
                    low = low,
                    high = high,
                    cut = mm(-o.z.low)
                );
                (Verdict::Warn, message)
            } else if above <= 0.0 {
                let message = say!(
                    "the feed on the {side} crosses the wall {low} to {high} above the pit floor: it is open to plant floor",
                    side = side,
                    low = low,
                    high = high
                );
                (Verdict::Pass, message)
            } else if reaches(above, STRIP) {
                let message = say!(
                    "the feed on the {side} crosses the wall {low} to {high} above the pit floor: {above} of concrete stay above it, at least {least}",
                    side = side,
                    low = low,
                    high = high,
                    above = mm(above),
                    least = mm(STRIP)
                );
                (Verdict::Pass, message)
            } else {
                let message = say!(
                    "the feed on the {side} crosses the wall {low} to {high} above the pit floor: only {above} of concrete stay above it, at least {least}",
                    side = side,
                    low = low,
                    high = high,
                    above = mm(above),
                    least = mm(STRIP)
                );
                (Verdict::Warn, message)
            };
            let finding = RULE.finds(verdict, "pit.feed_level", message).value(above.max(0.0), Unit::Mm);
            // Open to plant floor, or cut into the slab: there is no strip to be measured.
            let finding = if above > 0.0 && reaches(o.z.low, 0.0) { finding.limit(STRIP, Unit::Mm) } else { finding };
            (finding, verdict == Verdict::Warn && reaches(o.z.low, 0.0))
        })
        .collect();
    let change = if case.wanted == Wanted::Changes && judged.iter().any(|j| j.1) { open_to_floor(case, pit) } else { None };
    judged
        .into_iter()
        .map(|(finding, thin)| match (&change, thin) {
            (Some(Mend::Level(level)), true) => finding.change("pit.feed_level", level),
            (Some(Mend::Slope(slope)), true) => finding.change("pit.feed_slope", slope),
            _ => finding,
        })
        .collect()
}

/// What opens every thin strip up to plant floor.
enum Mend {
    /// A higher feed, and with it a shallower pit.
    Level(Length),
    /// A steeper spout, where the pit's depth is given.
    Slope(Angle),
}

fn open_to_floor(case: &Case<'_>, pit: &PitBody) -> Option<Mend> {
    let spec = &case.spec.pit;
    // All openings, so that one that passes now does not become thin.
    let lowest = pit.feed_openings.iter().map(|o| o.z.high).fold(f64::INFINITY, f64::min);
    if !spec.depth.is_given() {
        // The depth follows from the feed and is rounded up, which must not lead past the opening's top.
        let now = pit.depth - lowest;
        let level = spec.feed_level.value() + now + ROUNDING;
        return (level <= 10_000.0).then(|| Mend::Level(Length::mm(up_to(level, 10.0))));
    }
    let slopes = pit.feed_openings.iter().filter_map(|o| {
        let inlet = case.foot.inlet(o.side)?;
        let to_wall = match o.side {
            FeedSide::Up => pit.x.high - inlet.flange_face,
            FeedSide::Down => inlet.flange_face - pit.x.low,
        };
        // The same reckoning as in the model, without the clear space above: what is left of it is a margin.
        Some((pit.depth - inlet.flange_sill - inlet.opening.size()).atan2(to_wall + pit.wall).to_degrees())
    });
    let slope = slopes.fold(spec.feed_slope.value(), f64::max).ceil();
    (slope <= 85.0).then_some(Mend::Slope(Angle::deg(slope)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::findings_of;

    /// A feed that comes in through the wall: raising the pit's depth under one feed leaves more concrete above.
    #[test]
    fn strip_above() {
        let base = [
            ("pit.fitted", "true"),
            ("pit.access_side", "\"near\""),
            ("inlet.up.sill", "\"900 mm\""),
            ("inlet.up.height", "\"300 mm\""),
            ("inlet.up.reach", "\"400 mm\""),
            ("inlet.up.slope", "\"45 deg\""),
            ("pit.feed_level", "\"-500 mm\""),
            ("pit.feed_distance", "\"2 m\""),
            ("pit.feed_slope", "\"45 deg\""),
            ("pit.up_space", "\"800 mm\""),
            ("pit.wall", "\"250 mm\""),
        ];
        // Flange floor 1300, at the wall 2100: the opening goes from 2000 to 2100 + 250 + 300 + 100 = 2750.
        for (depth, verdict) in [("\"2950 mm\"", Verdict::Pass), ("\"2949 mm\"", Verdict::Warn), ("\"2751 mm\"", Verdict::Warn), ("\"2750 mm\"", Verdict::Pass)]
        {
            let found = findings_of(&RULE, crate::rules::trial::SMALL, &[&base[..], &[("pit.depth", depth)]].concat());
            assert_eq!(found.iter().map(|f| f.verdict).max(), Some(verdict), "{depth}: {found:#?}");
        }
    }

    /// Both ways of mending a thin strip: with the depth given a steeper spout, else a higher feed.
    #[test]
    fn proposals_open_the_strip() {
        let base = [
            ("pit.fitted", "true"),
            ("pit.access_side", "\"near\""),
            ("inlet.up.sill", "\"900 mm\""),
            ("inlet.up.height", "\"300 mm\""),
            ("inlet.up.reach", "\"400 mm\""),
            ("inlet.up.slope", "\"45 deg\""),
            ("pit.feed_slope", "\"45 deg\""),
            ("pit.up_space", "\"800 mm\""),
            ("pit.wall", "\"250 mm\""),
        ];
        // The opening ends 2750 above the floor; the depth of 2800 is given, or follows from 1300 + 2000 + 500.
        let given = [("pit.feed_level", "\"-500 mm\""), ("pit.feed_distance", "\"2 m\""), ("pit.depth", "\"2800 mm\"")];
        let follows = [("pit.feed_level", "\"500 mm\""), ("pit.feed_distance", "\"2 m\"")];
        for (case, key) in [(&given[..], "pit.feed_slope"), (&follows[..], "pit.feed_level")] {
            let found = findings_of(&RULE, crate::rules::trial::SMALL, &[&base[..], case].concat());
            let [finding] = &found[..] else { panic!("{found:#?}") };
            assert_eq!(finding.verdict, Verdict::Warn, "{finding:#?}");
            let [change] = &finding.would_pass[..] else { panic!("{finding:#?}") };
            assert_eq!(change.path, key);
            let kept: Vec<_> = base.iter().chain(case).copied().filter(|(k, _)| *k != key).chain([(key, change.value.as_str())]).collect();
            let after = findings_of(&RULE, crate::rules::trial::SMALL, &kept);
            assert!(after.iter().all(|f| f.verdict == Verdict::Pass), "{change:?}: {after:#?}");
        }
    }
}
