//! A bucket holds no more than there is room in it.
//!
//! Geometry: its volume against the area of its section, closed by a straight line from lip to back, times its length; and against the box
//! round it. Physics.

use super::finding::{down_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::section::ring_area;
use crate::say;
use crate::say::amount;
use crate::sources::Source;
use crate::units::{Unit, Volume};

/// Volume against section and box.
pub const RULE: Rule = Rule {
    id: "bucket-volume",
    title: "Volume of the bucket",
    what: "Volume of a bucket against its section, filled level from the lip to the back, times its length, and against projection by height by length.",
    why: "Capacity is reckoned from the volume: a bucket that is said to hold more than fits into it reaches its capacity on paper only.",
    remedy: "Give the volume of the maker's list, or the outline of the bucket that holds so much.",
    source: Source::physics("area of the section times length"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let bucket = &case.foot.bucket;
    let volume = case.spec.bucket.volume.value();
    let litres = |mm2: f64| mm2 * bucket.length / 1e6;
    let room = litres(ring_area(&bucket.section));
    let around = litres(bucket.projection * bucket.height);
    let verdict = match (within(volume, room), within(volume, around)) {
        (true, _) => Verdict::Pass,
        (false, true) => Verdict::Warn,
        (false, false) => Verdict::Fail,
    };
    let l = |litres: f64| amount(litres, Unit::L, 2);
    let message = say!(
        "a bucket is reckoned with {volume}; its section has room for {room}, the box round it for {around}",
        volume = l(volume),
        room = l(room),
        around = l(around)
    );
    let least = Volume::l(down_to(room, 0.01));
    vec![RULE.finds(verdict, "bucket.volume", message).value(volume, Unit::L).limit(room, Unit::L).change("bucket.volume", &least)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, turns, worst};

    /// A box of 280 × 165 × 180 holds 8.316 l; the plain section has corners at back and lip.
    #[test]
    fn section_and_box() {
        let with = |litres: &str| worst(&RULE, &[("bucket.volume", litres)]);
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
        assert_eq!(
            [with("\"4 l\""), with("\"8 l\""), with("\"8.3 l\""), with("\"8.4 l\"")],
            [Verdict::Pass, Verdict::Warn, Verdict::Warn, Verdict::Fail].map(Some)
        );
        turns(&RULE, "bucket.volume", &[], 0.01);
        // A triangle of 165 by 180 over 280 mm: half the box.
        let triangle = [("bucket.outline", "[[\"0 mm\", \"180 mm\"], [\"0 mm\", \"0 mm\"], [\"165 mm\", \"180 mm\"]]"), ("bucket.volume", "\"4 l\"")];
        assert!((measured(&RULE, &triangle).1 - 4.158).abs() < 1e-9);
    }
}
