//! Insert bearings of the 200 series, and of the 300 series where that ends: bore, outer ring, ratings and inch bores.
//!
//! In: a series number (`208`) or a bore in mm. Out: sizes in mm, ratings in kN. The ratings are the
//! textbook values of the deep groove bearing with the same bore number; published ratings of one
//! size differ by about ±10 %, so a job should enter its own.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Ratings and boundary sizes.
pub const SOURCE: Source = Source::book("Shigley, Mechanical Engineering Design, Table 11-2").remark("insert bearings carry about the same").from_memory();
/// Width of the inner ring of an insert bearing.
pub const INNER_RING: Source = Source::standard("JIS B 1558 type UC 200, UC 300").from_memory();
/// Inch bores of the same outer size.
pub const INCH_BORES: Source = Source::practice("inch bores offered in the same insert size");

/// One insert bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// Series number, e.g. 208 or 320.
    pub number: u16,
    /// Bore, mm.
    pub bore_mm: f64,
    /// Outer diameter of the ring, mm.
    pub outer_mm: f64,
    /// Width of the inner ring, mm.
    pub inner_ring_mm: f64,
    /// Dynamic rating C, kN.
    pub dynamic_kn: f64,
    /// Static rating C0, kN.
    pub static_kn: f64,
    /// Inch bores that go into the same size, in sixteenths of an inch.
    pub inch_bores_16: &'static [u16],
}

impl Bearing {
    /// The inch bores in mm.
    pub fn inch_bores_mm(&self) -> impl Iterator<Item = f64> + '_ {
        self.inch_bores_16.iter().map(|&s| f64::from(s) / 16.0 * MM_PER_INCH)
    }
}

/// The bearing with this series number.
pub fn by_number(number: u16) -> Option<&'static Bearing> {
    ALL.iter().find(|b| b.number == number)
}

/// The bearing with this metric bore (within 0.01 mm).
pub fn by_bore_mm(bore_mm: f64) -> Option<&'static Bearing> {
    ALL.iter().find(|b| (b.bore_mm - bore_mm).abs() < 0.01)
}

/// The smallest bearing that can have this inch bore (given in mm, within 0.01 mm).
pub fn by_inch_bore_mm(bore_mm: f64) -> Option<&'static Bearing> {
    ALL.iter().find(|b| b.inch_bores_mm().any(|i| (i - bore_mm).abs() < 0.01))
}

const fn b(number: u16, bore: f64, outer: f64, ring: f64, c: f64, c0: f64, inch: &'static [u16]) -> Bearing {
    Bearing { number, bore_mm: bore, outer_mm: outer, inner_ring_mm: ring, dynamic_kn: c, static_kn: c0, inch_bores_16: inch }
}

/// All sizes by rising bore. Above 90 mm inserts are made in the 300 series; their ratings are those of the deep groove bearings 63xx.
pub const ALL: &[Bearing] = &[
    b(205, 25.0, 52.0, 34.1, 14.0, 6.95, &[14, 15, 16]),
    b(206, 30.0, 62.0, 38.1, 19.5, 10.0, &[18, 19, 20]),
    b(207, 35.0, 72.0, 42.9, 25.5, 13.7, &[20, 22, 23]),
    b(208, 40.0, 80.0, 49.2, 30.7, 16.6, &[24]),
    b(209, 45.0, 85.0, 49.2, 33.2, 18.6, &[27, 28]),
    b(210, 50.0, 90.0, 51.6, 35.1, 19.6, &[30, 31, 32]),
    b(211, 55.0, 100.0, 55.6, 43.6, 25.0, &[32, 34, 35]),
    b(212, 60.0, 110.0, 65.1, 47.5, 28.0, &[36, 38, 39]),
    b(213, 65.0, 120.0, 65.1, 55.9, 34.0, &[40]),
    b(214, 70.0, 125.0, 74.6, 61.8, 37.5, &[44]),
    b(215, 75.0, 130.0, 77.8, 66.3, 40.5, &[47, 48]),
    b(216, 80.0, 140.0, 82.6, 70.2, 45.0, &[50]),
    b(217, 85.0, 150.0, 85.7, 83.2, 53.0, &[52]),
    b(218, 90.0, 160.0, 96.0, 95.6, 62.0, &[56]),
    b(320, 100.0, 215.0, 108.0, 173.0, 141.0, &[63, 64]),
    b(322, 110.0, 240.0, 117.0, 205.0, 180.0, &[71]),
    b(324, 120.0, 260.0, 126.0, 207.0, 185.0, &[79]),
    b(326, 130.0, 280.0, 135.0, 229.0, 214.0, &[]),
    b(328, 140.0, 300.0, 145.0, 253.0, 246.0, &[87]),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// Shigley Table 11-2, rows corroborated in found copies.
    #[test]
    fn shigley_rows() {
        for (bore, c) in [(25.0, 14.0), (30.0, 19.5), (35.0, 25.5), (40.0, 30.7), (65.0, 55.9), (70.0, 61.8), (80.0, 70.2)] {
            assert_eq!(by_bore_mm(bore).unwrap().dynamic_kn, c);
        }
        assert_eq!(by_bore_mm(80.0).unwrap().static_kn, 45.0);
        assert_eq!(by_bore_mm(70.0).unwrap().static_kn, 37.5);
    }

    /// Bore number × 5 = bore; ISO 15 outer diameters of diameter series 2 and 3.
    #[test]
    fn sizes_follow_the_number() {
        for b in ALL {
            assert_eq!(f64::from(b.number % 100) * 5.0, b.bore_mm);
            assert!(b.static_kn < b.dynamic_kn && b.inner_ring_mm > 25.0);
            for inch in b.inch_bores_mm() {
                assert!((inch - b.bore_mm).abs() < 5.5, "{}: {inch}", b.number);
            }
        }
        assert!(ALL.windows(2).all(|w| w[0].dynamic_kn < w[1].dynamic_kn && w[0].outer_mm < w[1].outer_mm));
    }

    #[test]
    fn lookups() {
        assert_eq!(by_number(208).unwrap().bore_mm, 40.0);
        assert!(by_number(219).is_none() && by_number(320).is_some_and(|b| b.bore_mm == 100.0));
        assert!(by_bore_mm(42.0).is_none());
        assert_eq!(by_inch_bore_mm(2.4375 * 25.4).unwrap().number, 212);
        assert_eq!(by_inch_bore_mm(50.8).unwrap().number, 210);
        assert!(by_inch_bore_mm(10.0).is_none());
    }
}
