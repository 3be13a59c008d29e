//! The sliding plates cover their slots and stay in their guides at both ends of the take-up's travel.
//!
//! Geometry of model and parts. That nothing is met on the way is shown by the proof of travel; rule and proof are held together by a test.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::model::frame::Extent;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Slots and guides.
pub const RULE: Rule = Rule {
    id: "take-up-covers",
    title: "Sliding plates over their travel",
    what: "Whether the sliding plates cover the shaft slots with a lap, and how long the guides hold them, with the take-up at its lowest and at its highest.",
    why: "A slot that opens at one end of the travel lets dust and product out on the shaft; a plate that leaves its guides tilts and jams, and the belt runs off.",
    remedy: "A higher casing, so that the guides reach further up, or less travel.",
    source: Source::practice("a lap over the slot all round; guided at least as long as the guides are apart"),
    check,
};

/// Least lap over the slot, mm.
const LAP: f64 = 10.0;

/// The guides along z; none where there are none.
fn guides(case: &Case<'_>) -> Option<Extent> {
    let bar = case.parts.part("guide.retainer")?;
    let (low, high) = bar.flat.as_ref()?.outer.bounds();
    let foot = bar.placements.first()?.origin[2];
    Some(Extent::new(foot + low[1], foot + high[1]))
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let r = &case.foot.rotating;
    let Some(guides) = guides(case) else { return Vec::new() };
    let at = |up: f64| Extent::new(r.sliding_plate.z.low + up, r.sliding_plate.z.high + up);
    let ends = [at(0.0), at(r.travel)];
    let across = (r.sliding_plate.x.size() - r.slot_width) / 2.0;
    let lap = ends.iter().map(|p| (r.slot.low - p.low).min(p.high - r.slot.high)).fold(across, f64::min);
    let slot = RULE.finds(
        unless(reaches(lap, LAP), Verdict::Fail),
        "take_up.travel",
        say!("the sliding plates lap {lap} over the slots where they lap least, at least {least}", lap = mm(lap), least = mm(LAP)),
    );
    let held = ends.iter().map(|p| (p.high.min(guides.high) - p.low.max(guides.low)).max(0.0)).fold(f64::INFINITY, f64::min);
    let least = r.sliding_plate.x.size();
    let guided = RULE.finds(
        unless(reaches(held, least), Verdict::Warn),
        "casing.height",
        say!("the guides hold the sliding plates over {held} at least, which are {least} wide: as much is needed", held = mm(held), least = mm(least)),
    );
    // Guides end under the top flange.
    let higher = up_to(case.foot.casing.top + least - held, 10.0);
    vec![slot.value(lap, Unit::Mm).limit(LAP, Unit::Mm), guided.value(held, Unit::Mm).limit(least, Unit::Mm).change("casing.height", &Length::mm(higher))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, mended, worst, worst_of};

    #[test]
    fn covered_and_guided() {
        assert_eq!([worst(&RULE, &[]), worst_of(&RULE, LARGE, &[])], [Some(Verdict::Pass); 2]);
        // A casing that ends over the middle of the plate at its highest.
        let heights: Vec<String> = (60..95).rev().map(|i| format!("\"{} mm\"", 10 * i)).collect();
        let at = |height: &'static str| [("casing.height", height), ("take_up.travel", "\"400 mm\"")];
        let low = heights.into_iter().map(|h| at(h.leak())).find(|low| worst(&RULE, low) == Some(Verdict::Warn)).unwrap();
        mended(&RULE, SMALL, &low);
    }
}
