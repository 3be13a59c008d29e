//! Pit depth, feed level, spout and sill agree.
//!
//! Feed level less the spout's fall is the level of the inlet flange's floor; that floor's height above
//! the base, below it, is the pit floor. Geometry. 50 mm (2 in) are left for rounding the depth up.

use super::finding::unless;
use super::{Case, Finding, Rule, Verdict};
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Depth against feed.
pub const RULE: Rule = Rule {
    id: "pit-depth-from-feed",
    title: "Pit depth and feed",
    what: "Level of the inlet flange's floor, reckoned from the feed (level, distance, slope) and from the pit (depth, sill, throat).",
    why: "If the two differ the spout does not fit, and concrete is the dearest thing to correct.",
    remedy: "Give the feed's level and distance and leave the depth out, or correct the depth.",
    source: Source::physics("feed level − distance × tan slope = flange floor above base − pit depth"),
    check,
};

/// What rounding the depth up may leave, mm (50 mm or 2 in).
pub(super) const ROUNDING: f64 = 51.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let Some(inlet) = case.foot.inlet(FeedSide::Up).or_else(|| case.foot.inlet(FeedSide::Down)) else { return Vec::new() };
    let spec = &case.spec.pit;
    let fall = spec.feed_distance.value() * spec.feed_slope.value().to_radians().tan();
    let by_feed = spec.feed_level.value() - fall;
    let by_pit = pit.level(inlet.flange_sill);
    let off = by_pit - by_feed;
    let depth = inlet.flange_sill - by_feed;
    let message = say!(
        "the flange floor lies at {by_feed} by the feed and at {by_pit} by the pit depth of {depth}, {off} apart; the feed asks for a depth of {wanted}",
        by_feed = mm(by_feed),
        by_pit = mm(by_pit),
        depth = mm(pit.depth),
        off = mm(off.abs()),
        wanted = mm(depth)
    );
    vec![
        RULE.finds(unless(off.abs() <= ROUNDING + 1e-6, Verdict::Fail), "pit.depth", message)
            .value(pit.depth, Unit::Mm)
            .limit(depth, Unit::Mm)
            .change("pit.depth", &Length::mm((depth.max(0.0) * 10.0).round() / 10.0)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn depth_and_feed_agree() {
        // Flange floor 1200 + 400·tan 45° = 1600 above the base; feed at −400 falling 500: −900 = 1600 − 2500.
        let base = [
            ("inlet.up.sill", "\"1200 mm\""),
            ("inlet.up.reach", "\"400 mm\""),
            ("inlet.up.slope", "\"45 deg\""),
            ("pit.feed_level", "\"-400 mm\""),
            ("pit.feed_distance", "\"500 mm\""),
            ("pit.feed_slope", "\"45 deg\""),
            ("pit.fitted", "true"),
        ];
        for (depth, verdict) in
            [("\"2500 mm\"", Verdict::Pass), ("\"2551 mm\"", Verdict::Pass), ("\"2551.1 mm\"", Verdict::Fail), ("\"2448.9 mm\"", Verdict::Fail)]
        {
            assert_eq!(worst(&RULE, &[&base[..], &[("pit.depth", depth)]].concat()), Some(verdict), "{depth}");
        }
    }
}
