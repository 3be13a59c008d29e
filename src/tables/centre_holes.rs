//! Threaded centre holes in shaft ends: what the motion sensor's target is screwed into.
//!
//! In: finished diameter of the shaft end in mm. Out: thread, depths and diameters in mm. The largest two
//! rows are weak memory in their last columns. There is no direct US equivalent.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Form D, DR, DS.
pub const SOURCE: Source = Source::standard("DIN 332-2").from_memory();
/// How deep the pilot bore is.
pub const PILOTS: Source = Source::standard("DIN 332-2, t4").remark("weak memory").from_memory();
/// Plain centre holes of ends that are not tapped.
pub const PLAIN: Source = Source::standard("ISO 6411, ISO 866 type A").from_memory();
/// Plain centre holes of US jobs.
pub const INCH_PLAIN: Source = Source::standard("ASME B94.11M").remark("combined drills and countersinks").from_memory();
/// In US jobs, which have no such standard.
pub const INCH: Source = Source::practice("inch thread of a quarter to a third of the shaft end, usable for two diameters, for one and a half at the least");

/// Pilot bore and countersink of such a hole.
pub const INCH_PILOTS: Source = Source::practice("pilot bore 1/32 in over the thread, countersunk to a third more than the thread");

/// One centre hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CentreHole {
    /// Shaft ends over this diameter, mm.
    pub over_mm: f64,
    /// Shaft ends up to this diameter, mm.
    pub up_to_mm: f64,
    /// Thread.
    pub thread: &'static str,
    /// Core drill d2, mm.
    pub core_mm: f64,
    /// Pilot bore d3, mm.
    pub pilot_mm: f64,
    /// Depth of countersink and pilot bore t4, mm.
    pub pilot_depth_mm: f64,
    /// Usable thread t1, mm (least).
    pub thread_depth_mm: f64,
    /// Depth of the threaded bore t2, mm.
    pub bore_depth_mm: f64,
    /// Depth of the drill t3, mm.
    pub drill_depth_mm: f64,
    /// Countersink d4, mm.
    pub countersink_mm: f64,
    /// Protective countersink d5 (form DS), mm.
    pub protective_mm: f64,
}

/// The row of a thread.
pub fn by_thread(name: &str) -> Option<&'static CentreHole> {
    ALL.iter().find(|c| c.thread.eq_ignore_ascii_case(name))
}

/// Pilot bore, its depth with the countersink and the countersink for an inch thread of this diameter, mm.
pub fn inch_pilot_mm(thread_mm: f64) -> (f64, f64, f64) {
    (thread_mm + MM_PER_INCH / 32.0, 0.6 * thread_mm, 1.35 * thread_mm)
}

/// A plain centre hole that may remain on the finished part: pilot and countersink, mm, and the drill that makes it in US jobs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plain {
    /// Shafts up to this diameter, mm (common practice, no source).
    pub up_to_mm: f64,
    /// Pilot, mm.
    pub pilot_mm: f64,
    /// Countersink, mm.
    pub sink_mm: f64,
    /// Number of the inch drill that comes nearest.
    pub drill: u32,
}

/// The plain centre hole for a shaft (mm).
pub fn plain_for_mm(diameter_mm: f64) -> Option<&'static Plain> {
    PLAIN_ALL.iter().find(|c| diameter_mm <= c.up_to_mm)
}

/// Plain ones by rising size.
const PLAIN_ALL: &[Plain] = &[
    Plain { up_to_mm: 30.0, pilot_mm: 2.5, sink_mm: 5.3, drill: 3 },
    Plain { up_to_mm: 60.0, pilot_mm: 4.0, sink_mm: 8.5, drill: 4 },
    Plain { up_to_mm: 100.0, pilot_mm: 5.0, sink_mm: 10.6, drill: 5 },
    Plain { up_to_mm: 320.0, pilot_mm: 6.3, sink_mm: 13.2, drill: 7 },
];

/// The centre hole for a shaft end (mm): over 7 up to 320.
pub fn for_shaft_mm(diameter_mm: f64) -> Option<&'static CentreHole> {
    ALL.iter().find(|c| diameter_mm > c.over_mm && diameter_mm <= c.up_to_mm)
}

#[expect(clippy::too_many_arguments, reason = "one argument a column of the table")]
const fn h(over: f64, up_to: f64, thread: &'static str, d2: f64, d3: f64, t: [f64; 4], d4: f64, d5: f64) -> CentreHole {
    CentreHole {
        over_mm: over,
        up_to_mm: up_to,
        thread,
        core_mm: d2,
        pilot_mm: d3,
        pilot_depth_mm: t[3],
        thread_depth_mm: t[0],
        bore_depth_mm: t[1],
        drill_depth_mm: t[2],
        countersink_mm: d4,
        protective_mm: d5,
    }
}

/// All rows by rising diameter.
pub const ALL: &[CentreHole] = &[
    h(7.0, 10.0, "M3", 2.5, 3.2, [9.0, 12.0, 13.0, 2.6], 5.3, 5.8),
    h(10.0, 13.0, "M4", 3.3, 4.3, [10.0, 14.0, 16.0, 3.2], 6.7, 7.4),
    h(13.0, 16.0, "M5", 4.2, 5.3, [12.5, 17.0, 19.0, 4.0], 8.1, 8.8),
    h(16.0, 21.0, "M6", 5.0, 6.4, [16.0, 21.0, 23.0, 5.0], 9.6, 10.5),
    h(21.0, 24.0, "M8", 6.8, 8.4, [19.0, 25.0, 28.0, 6.0], 12.2, 13.2),
    h(24.0, 30.0, "M10", 8.5, 10.5, [22.0, 30.0, 34.0, 7.5], 14.9, 16.3),
    h(30.0, 38.0, "M12", 10.2, 13.0, [28.0, 37.0, 42.0, 9.5], 18.1, 19.8),
    h(38.0, 50.0, "M16", 14.0, 17.0, [36.0, 45.0, 50.0, 12.0], 23.0, 25.3),
    h(50.0, 85.0, "M20", 17.5, 21.0, [42.0, 53.0, 59.0, 15.0], 28.4, 31.3),
    h(85.0, 130.0, "M24", 21.0, 25.0, [50.0, 63.0, 68.0, 18.0], 34.2, 38.0),
    h(130.0, 225.0, "M30", 26.5, 31.0, [60.0, 77.0, 83.0, 17.0], 44.0, 48.0),
    h(225.0, 320.0, "M36", 32.0, 37.0, [74.0, 93.0, 99.0, 22.0], 55.0, 60.0),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::tables::threads;
    use std::f64::consts::PI;

    /// DIN 332-2 rows; the core drill is the tap drill of the thread.
    #[test]
    fn rows() {
        let c = for_shaft_mm(50.0).unwrap();
        assert_eq!((c.thread, c.thread_depth_mm, c.bore_depth_mm, c.drill_depth_mm), ("M16", 36.0, 45.0, 50.0));
        assert_eq!(for_shaft_mm(50.1).unwrap().thread, "M20");
        assert_eq!(for_shaft_mm(70.0).unwrap().thread, "M20");
        assert!(for_shaft_mm(7.0).is_none() && for_shaft_mm(321.0).is_none() && for_shaft_mm(f64::NAN).is_none());
        for c in ALL {
            assert!((c.countersink_mm - c.pilot_mm) / 2.0 / (PI / 6.0).tan() < c.pilot_depth_mm && c.pilot_depth_mm < c.thread_depth_mm, "{}", c.thread);
            assert!(c.thread_depth_mm < c.bore_depth_mm && c.bore_depth_mm < c.drill_depth_mm);
            assert!(c.core_mm < c.pilot_mm && c.pilot_mm < c.countersink_mm && c.countersink_mm < c.protective_mm && c.protective_mm < c.over_mm);
            if let Some(t) = threads::find(c.thread) {
                assert_eq!(t.tap_drill_mm, c.core_mm, "{}", c.thread);
            }
        }
        assert!(ALL.windows(2).all(|w| w[0].up_to_mm == w[1].over_mm));
    }
}
