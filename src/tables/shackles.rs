//! Bow shackles: working load limit, pin and jaw.
//!
//! In: a mass in kg that hangs on one shackle. Out: mm. The limits are those of metric tons; inch jobs buy the same sizes.

use crate::sources::Source;

/// Sizes and limits.
pub const SOURCE: Source = Source::standard("ISO 2415").remark("forged bow shackles of grade 6, screw pin").from_memory();

/// A bow shackle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shackle {
    /// Working load limit, kg.
    pub limit_kg: f64,
    /// Diameter of the pin, mm.
    pub pin_mm: f64,
    /// Clear width between its eyes, mm.
    pub jaw_mm: f64,
    /// Outside of its eyes round the pin, mm.
    pub eye_mm: f64,
}

/// The strongest of the table.
pub const GREATEST: Shackle = Shackle { limit_kg: 25_000.0, pin_mm: 50.0, jaw_mm: 73.0, eye_mm: 110.0 };

/// Limit in kg; pin, jaw, eye in mm.
const ROWS: [[f64; 4]; 13] = [
    [500.0, 8.0, 12.0, 17.0],
    [750.0, 10.0, 13.5, 20.0],
    [1000.0, 11.0, 17.0, 23.0],
    [1500.0, 13.0, 19.0, 27.0],
    [2000.0, 16.0, 21.0, 33.0],
    [3250.0, 19.0, 27.0, 40.0],
    [4750.0, 22.0, 32.0, 47.0],
    [6500.0, 25.0, 36.5, 53.0],
    [8500.0, 28.0, 43.0, 60.0],
    [9500.0, 32.0, 46.0, 67.0],
    [12_000.0, 35.0, 51.5, 74.0],
    [13_500.0, 38.0, 57.0, 80.0],
    [17_000.0, 42.0, 60.0, 89.0],
];
/// A limit that was written in other units is met this nearly, share.
const ROUNDED: f64 = 0.01;

/// All of them, the smallest first.
pub fn all() -> impl Iterator<Item = Shackle> {
    let row = |[limit_kg, pin_mm, jaw_mm, eye_mm]: [f64; 4]| Shackle { limit_kg, pin_mm, jaw_mm, eye_mm };
    ROWS.into_iter().map(row).chain([GREATEST])
}

/// The smallest with at least this working load limit in kg; `None` above the table.
///
/// ```
/// let shackle = footwell::tables::shackles::of_limit(1800.0).unwrap();
/// assert_eq!((shackle.limit_kg, shackle.pin_mm, shackle.jaw_mm), (2000.0, 16.0, 21.0));
/// assert!(footwell::tables::shackles::of_limit(26_000.0).is_none());
/// ```
pub fn of_limit(kg: f64) -> Option<Shackle> {
    all().find(|s| s.limit_kg * (1.0 + ROUNDED) >= kg)
}
