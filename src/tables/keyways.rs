//! Parallel keys by shaft diameter: metric ones, and square inch ones for US jobs.
//!
//! In: shaft diameter in mm. Out: width × height of the key and depths of the keyways, mm. A foot pulley needs a key
//! only to keep its hub from turning on the shaft; the foot shaft carries no drive torque.

use super::fits::{Fit, Limits};
use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Key sections.
pub const SOURCE: Source = Source::standard("DIN 6885-1, ISO 773").from_memory();
/// Square keys by shaft diameter; the keyway is half the key deep in shaft and hub.
pub const INCH: Source = Source::standard("ASME B17.1").remark("square keys").from_memory();
/// Room over an inch key in the hub, in; ASME B17.1 from memory.
const INCH_ROOM: f64 = 0.005;

/// Tolerances of inch keyways: widths of class 1, depths.
pub const INCH_TOLERANCES: Source = Source::standard("ASME B17.1").remark("keyseat tolerances, class 1").from_memory();
/// Lengths of parallel keys.
pub const LENGTHS: Source = Source::standard("DIN 6885-1").remark("lengths").from_memory();

/// Which standard a key follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standard {
    /// DIN 6885-1.
    Din6885,
    /// ASME B17.1, square.
    AsmeB171,
}

impl Standard {
    /// As written on a parts list.
    pub const fn name(self) -> &'static str {
        match self {
            Standard::Din6885 => "DIN 6885-1",
            Standard::AsmeB171 => "ASME B17.1",
        }
    }
}

/// One key section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Key {
    /// Standard.
    pub standard: Standard,
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

impl Key {
    /// Depths of the keyway below the shaft's circle and over the bore's on a shaft of this diameter, mm. DIN measures them
    /// there; ASME B17.1 measures half the key from where the keyway's sides meet the circle.
    pub fn depths_mm(&self, diameter_mm: f64) -> [f64; 2] {
        if self.standard == Standard::Din6885 {
            return [self.shaft_depth_mm, self.hub_depth_mm];
        }
        let below = (diameter_mm - (diameter_mm * diameter_mm - self.width_mm * self.width_mm).max(0.0).sqrt()) / 2.0;
        [self.shaft_depth_mm + below, self.hub_depth_mm - below]
    }

    /// Limits of a keyway's width, in shaft and hub alike, mm: P9, so that the key sits fast; `None` beyond the tables.
    pub fn width_limits(&self) -> Option<Limits> {
        match self.standard {
            Standard::Din6885 => Fit::KeywayP9.limits(self.width_mm),
            Standard::AsmeB171 => {
                let inches = self.width_mm / MM_PER_INCH;
                let upper = if inches <= 0.5001 {
                    0.002
                } else if inches <= 1.0001 {
                    0.003
                } else {
                    0.004
                };
                Some(Limits { upper: upper * MM_PER_INCH, lower: 0.0 })
            }
        }
    }

    /// Limits of d − t1, measured from the floor of the shaft's keyway to the far side of the shaft, mm. DIN: t1 +0.2 from 8
    /// to 32 mm width; ASME: +0/−0.015 in.
    pub fn floor_limits(&self) -> Limits {
        let deeper = if self.standard == Standard::Din6885 { 0.2 } else { 0.015 * MM_PER_INCH };
        Limits { upper: 0.0, lower: -deeper }
    }

    /// Limits of d + t2, measured from the floor of the hub's keyway to the far side of the bore, mm. DIN: +0.2; ASME: +0.010 in.
    pub fn roof_limits(&self) -> Limits {
        let deeper = if self.standard == Standard::Din6885 { 0.2 } else { 0.010 * MM_PER_INCH };
        Limits { upper: deeper, lower: 0.0 }
    }
}

/// Standard lengths of parallel keys, mm.
const LENGTHS_MM: &[f64] = &[
    22.0, 25.0, 28.0, 32.0, 36.0, 40.0, 45.0, 50.0, 56.0, 63.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0, 140.0, 160.0, 180.0, 200.0, 220.0, 250.0, 280.0, 320.0,
];

/// The longest key that is no longer than a hub, mm; inch keys are cut to the hub's length.
pub fn length_in(us: bool, hub_mm: f64) -> f64 {
    let standard = LENGTHS_MM.iter().rfind(|l| **l <= hub_mm + 1e-6);
    if us { hub_mm } else { standard.copied().unwrap_or(hub_mm) }
}

/// Limits of a keyway's length, mm (DIN 6885-1): +0.2 up to 28, +0.3 up to 80, +0.5 beyond; inch ones are cut to the general tolerance.
pub fn length_limits(us: bool, length_mm: f64) -> Option<Limits> {
    let upper = if length_mm <= 28.0 {
        0.2
    } else if length_mm <= 80.0 {
        0.3
    } else {
        0.5
    };
    (!us).then_some(Limits { upper, lower: 0.0 })
}

/// The metric key for a shaft (mm): over 22 up to 150.
pub fn for_shaft_mm(diameter_mm: f64) -> Option<&'static Key> {
    fitting(ALL, diameter_mm)
}

/// The inch key for a shaft (mm): over 9/16 up to 5 1/2 in.
pub fn inch_for_shaft_mm(diameter_mm: f64) -> Option<&'static Key> {
    fitting(INCH_ALL, diameter_mm)
}

/// The key of a job for a shaft (mm).
pub fn of_job(us: bool, diameter_mm: f64) -> Option<&'static Key> {
    if us { inch_for_shaft_mm(diameter_mm) } else { for_shaft_mm(diameter_mm) }
}

fn fitting(rows: &'static [Key], diameter_mm: f64) -> Option<&'static Key> {
    rows.iter().find(|k| diameter_mm > k.over_mm + 1e-6 && diameter_mm <= k.up_to_mm + 1e-6)
}

const fn k(over: f64, up_to: f64, b: f64, h: f64, t1: f64, t2: f64) -> Key {
    Key { standard: Standard::Din6885, over_mm: over, up_to_mm: up_to, width_mm: b, height_mm: h, shaft_depth_mm: t1, hub_depth_mm: t2 }
}

/// A square inch key: shafts over, up to, side; in.
const fn s(over: f64, up_to: f64, side: f64) -> Key {
    Key {
        standard: Standard::AsmeB171,
        over_mm: over * MM_PER_INCH,
        up_to_mm: up_to * MM_PER_INCH,
        width_mm: side * MM_PER_INCH,
        height_mm: side * MM_PER_INCH,
        shaft_depth_mm: side / 2.0 * MM_PER_INCH,
        hub_depth_mm: (side / 2.0 + INCH_ROOM) * MM_PER_INCH,
    }
}

/// Inch rows by rising diameter.
pub const INCH_ALL: &[Key] = &[
    s(0.5625, 0.875, 0.1875),
    s(0.875, 1.25, 0.25),
    s(1.25, 1.375, 0.3125),
    s(1.375, 1.75, 0.375),
    s(1.75, 2.25, 0.5),
    s(2.25, 2.75, 0.625),
    s(2.75, 3.25, 0.75),
    s(3.25, 3.75, 0.875),
    s(3.75, 4.5, 1.0),
    s(4.5, 5.5, 1.25),
];

/// All rows by rising diameter.
pub const ALL: &[Key] = &[
    k(22.0, 30.0, 8.0, 7.0, 4.0, 3.3),
    k(30.0, 38.0, 10.0, 8.0, 5.0, 3.3),
    k(38.0, 44.0, 12.0, 8.0, 5.0, 3.3),
    k(44.0, 50.0, 14.0, 9.0, 5.5, 3.8),
    k(50.0, 58.0, 16.0, 10.0, 6.0, 4.3),
    k(58.0, 65.0, 18.0, 11.0, 7.0, 4.4),
    k(65.0, 75.0, 20.0, 12.0, 7.5, 4.9),
    k(75.0, 85.0, 22.0, 14.0, 9.0, 5.4),
    k(85.0, 95.0, 25.0, 14.0, 9.0, 5.4),
    k(95.0, 110.0, 28.0, 16.0, 10.0, 6.4),
    k(110.0, 130.0, 32.0, 18.0, 11.0, 7.4),
    k(130.0, 150.0, 36.0, 20.0, 12.0, 8.4),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// DIN 6885 sections; t1 + t2 leaves 0.3 to 0.4 mm over the key.
    #[test]
    fn sections() {
        for (d, b, h) in [
            (25.0, 8.0, 7.0),
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
            (120.0, 32.0, 18.0),
            (140.0, 36.0, 20.0),
        ] {
            let key = for_shaft_mm(d).unwrap();
            assert_eq!((key.width_mm, key.height_mm), (b, h), "{d}");
        }
        assert!(for_shaft_mm(22.0).is_none() && for_shaft_mm(151.0).is_none());
        for key in ALL {
            let gap = key.shaft_depth_mm + key.hub_depth_mm - key.height_mm;
            assert!((0.25..0.45).contains(&gap), "{}", key.width_mm);
        }
    }

    /// DIN 6885-1 from memory: shaft 60: b 18 P9, t1 7 +0.2, lengths 56, 63, 70, 80; ASME B17.1: 5/8 key, depths −0.015/+0.010.
    #[test]
    fn tolerances() {
        let key = for_shaft_mm(60.0).unwrap();
        let width = key.width_limits().unwrap();
        assert!((width.upper + 0.018).abs() < 1e-9 && (width.lower + 0.061).abs() < 1e-9);
        assert_eq!((key.floor_limits().lower, key.roof_limits().upper), (-0.2, 0.2));
        assert_eq!((length_in(false, 75.0), length_in(true, 75.0), length_in(false, 90.0)), (70.0, 75.0, 90.0));
        assert_eq!(length_limits(false, 70.0).map(|l| l.upper), Some(0.3));
        let inch = inch_for_shaft_mm(2.4375 * MM_PER_INCH).unwrap();
        assert!((inch.width_limits().unwrap().upper / MM_PER_INCH - 0.003).abs() < 1e-9);
        assert!((inch.floor_limits().lower / MM_PER_INCH + 0.015).abs() < 1e-9 && (inch.roof_limits().upper / MM_PER_INCH - 0.010).abs() < 1e-9);
        assert!(length_limits(true, 70.0).is_none());
        // Machinery's Handbook (from memory): shaft 2 7/16 in with a 5/8 in key: S = 2.084, T = 2.714 in.
        let [shaft, hub] = inch.depths_mm(2.4375 * MM_PER_INCH);
        assert!((2.4375 - shaft / MM_PER_INCH - 2.084).abs() < 6e-4 && (2.4375 + hub / MM_PER_INCH - 2.714).abs() < 6e-4);
    }

    /// Square keys and keyway depths, in: Shigley, Mechanical Engineering Design, Table 7-6 (from memory), up to 3 1/4.
    #[test]
    fn inch_sections() {
        for (shaft, side, depth) in [
            (0.75, 3.0 / 16.0, 3.0 / 32.0),
            (1.0, 0.25, 0.125),
            (1.25, 0.25, 0.125),
            (1.375, 5.0 / 16.0, 5.0 / 32.0),
            (1.5, 0.375, 3.0 / 16.0),
            (1.9375, 0.5, 0.25),
            (2.25, 0.5, 0.25),
            (2.4375, 0.625, 5.0 / 16.0),
            (3.0, 0.75, 0.375),
        ] {
            let key = inch_for_shaft_mm(shaft * MM_PER_INCH).unwrap();
            for (got, want) in [(key.width_mm, side), (key.height_mm, side), (key.shaft_depth_mm, depth)] {
                assert!((got / MM_PER_INCH - want).abs() < 1e-9, "{shaft}: {got}");
            }
            assert!((key.shaft_depth_mm + key.hub_depth_mm - key.height_mm - 0.127).abs() < 1e-9);
            assert_eq!(of_job(true, shaft * MM_PER_INCH), Some(key));
        }
        assert!(inch_for_shaft_mm(14.0).is_none() && inch_for_shaft_mm(140.0).is_none());
        assert_eq!(of_job(false, 60.0), for_shaft_mm(60.0));
        // A key is about a quarter of its shaft.
        assert!(INCH_ALL.iter().all(|k| k.width_mm < k.up_to_mm / 2.9 && k.width_mm > k.up_to_mm / 5.5));
        assert!(INCH_ALL.windows(2).all(|w| w[0].up_to_mm == w[1].over_mm));
    }
}
