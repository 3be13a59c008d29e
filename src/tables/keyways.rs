//! Parallel keys by shaft diameter.
//!
//! In: shaft diameter in mm. Out: width × height of the key and depths of the keyways, mm. A foot pulley needs a key
//! only to keep its hub from turning on the shaft; the foot shaft carries no drive torque.

use crate::sources::Source;

/// Key sections.
pub const SOURCE: Source = Source::standard("DIN 6885-1, ISO 773").from_memory();

/// One key section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Key {
    /// Shafts over this diameter, mm.
    pub over_mm: f64,
    /// Shafts up to this diameter, mm.
    pub up_to_mm: f64,
    /// Width b, mm.
    pub width_mm: f64,
    /// Height h, mm.
    pub height_mm: f64,
    /// Depth of the keyway in the shaft t1, mm.
    pub shaft_depth_mm: f64,
    /// Depth of the keyway in the hub t2, mm.
    pub hub_depth_mm: f64,
}

/// The key for a shaft (mm): over 30 up to 110.
pub fn for_shaft_mm(diameter_mm: f64) -> Option<&'static Key> {
    ALL.iter().find(|k| diameter_mm > k.over_mm && diameter_mm <= k.up_to_mm)
}

/// Length of a key and its keyway in a hub on a shaft (mm): 1.2 shaft diameters in steps of 5 mm; common practice, no source.
pub fn length_mm(diameter_mm: f64) -> f64 {
    (1.2 * diameter_mm / 5.0).ceil() * 5.0
}

const fn k(over: f64, up_to: f64, b: f64, h: f64, t1: f64, t2: f64) -> Key {
    Key { over_mm: over, up_to_mm: up_to, width_mm: b, height_mm: h, shaft_depth_mm: t1, hub_depth_mm: t2 }
}

/// All rows by rising diameter.
pub const ALL: &[Key] = &[
    k(30.0, 38.0, 10.0, 8.0, 5.0, 3.3),
    k(38.0, 44.0, 12.0, 8.0, 5.0, 3.3),
    k(44.0, 50.0, 14.0, 9.0, 5.5, 3.8),
    k(50.0, 58.0, 16.0, 10.0, 6.0, 4.3),
    k(58.0, 65.0, 18.0, 11.0, 7.0, 4.4),
    k(65.0, 75.0, 20.0, 12.0, 7.5, 4.9),
    k(75.0, 85.0, 22.0, 14.0, 9.0, 5.4),
    k(85.0, 95.0, 25.0, 14.0, 9.0, 5.4),
    k(95.0, 110.0, 28.0, 16.0, 10.0, 6.4),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// DIN 6885 sections; t1 + t2 leaves 0.3 to 0.4 mm over the key.
    #[test]
    fn sections() {
        for (d, b, h) in [
            (31.0, 10.0, 8.0),
            (38.0, 10.0, 8.0),
            (40.0, 12.0, 8.0),
            (50.0, 14.0, 9.0),
            (55.0, 16.0, 10.0),
            (60.0, 18.0, 11.0),
            (70.0, 20.0, 12.0),
            (80.0, 22.0, 14.0),
            (90.0, 25.0, 14.0),
            (110.0, 28.0, 16.0),
        ] {
            let key = for_shaft_mm(d).unwrap();
            assert_eq!((key.width_mm, key.height_mm), (b, h), "{d}");
        }
        assert!(for_shaft_mm(30.0).is_none() && for_shaft_mm(111.0).is_none());
        for key in ALL {
            let gap = key.shaft_depth_mm + key.hub_depth_mm - key.height_mm;
            assert!((0.25..0.45).contains(&gap), "{}", key.width_mm);
        }
    }
}
