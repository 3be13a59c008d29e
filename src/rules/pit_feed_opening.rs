//! The feed passes the wall below plant floor without leaving a sliver of concrete above or none below.
//!
//! A strip of concrete under 200 mm over an opening cannot be built well; common practice, no source.

use super::finding::{mm, reaches};
use super::{Case, Finding, Rule, Verdict};
use crate::sources::Source;

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
    pit.feed_openings
        .iter()
        .map(|o| {
            let above = pit.depth - o.z.high;
            let (verdict, words) = if !reaches(o.z.low, 0.0) {
                (Verdict::Warn, format!("it cuts {} into the slab", mm(-o.z.low)))
            } else if above <= 0.0 {
                (Verdict::Pass, "it is open to plant floor".to_string())
            } else if reaches(above, STRIP) {
                (Verdict::Pass, format!("{} of concrete stay above it", mm(above)))
            } else {
                (Verdict::Warn, format!("only {} of concrete stay above it", mm(above)))
            };
            RULE.finds(verdict, "pit.feed_level", format!("the feed on the {} side crosses the wall {} to {} above the pit floor: {words}", o.side.key(), mm(o.z.low), mm(o.z.high.min(pit.depth))))
                .value(above.max(0.0), "mm")
                .limit(STRIP, "mm")
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::findings_of;

    /// A feed that comes in through the wall: raising the pit's depth under one feed leaves more concrete above.
    #[test]
    fn strip_above() {
        let base = [
            ("pit.fitted", "true"), ("pit.access_side", "\"near\""), ("inlet.up.sill", "\"900 mm\""), ("inlet.up.height", "\"300 mm\""), ("inlet.up.reach", "\"400 mm\""), ("inlet.up.slope", "\"45 deg\""),
            ("pit.feed_level", "\"-500 mm\""), ("pit.feed_distance", "\"2 m\""), ("pit.feed_slope", "\"45 deg\""), ("pit.up_space", "\"800 mm\""), ("pit.wall", "\"250 mm\""),
        ];
        // Flange floor 1300, at the wall 2100: the opening goes from 2000 to 2100 + 250 + 300 + 100 = 2750.
        for (depth, verdict) in [("\"2950 mm\"", Verdict::Pass), ("\"2949 mm\"", Verdict::Warn), ("\"2751 mm\"", Verdict::Warn), ("\"2750 mm\"", Verdict::Pass)] {
            let found = findings_of(&RULE, crate::rules::trial::SMALL, &[&base[..], &[("pit.depth", depth)]].concat());
            assert_eq!(found.iter().map(|f| f.verdict).max(), Some(verdict), "{depth}: {found:#?}");
        }
    }
}
