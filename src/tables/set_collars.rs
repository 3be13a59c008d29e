//! Set collars: rings clamped on a shaft by a set screw, which hold along the axis what sits beside them.
//!
//! In: shaft in mm. Out: mm, thread. Inch shafts take the collar of the next larger metric row, bored to their size.

use crate::sources::Source;

/// Sizes.
pub const SOURCE: Source = Source::standard("DIN 705 form A").from_memory();
/// Set collars on inch shafts.
pub const INCH: Source = Source::practice("inch collars about as large as metric ones");

/// A set collar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetCollar {
    /// Shafts up to this diameter, mm.
    pub shaft_mm: f64,
    /// Outside, mm.
    pub outside_mm: f64,
    /// Width, mm.
    pub width_mm: f64,
    /// Set screw with cone point.
    pub screw: &'static str,
}

/// Shaft, outside, width, mm; set screw.
const ROWS: [(f64, f64, f64, &str); 19] = [
    (16.0, 28.0, 12.0, "M6"),
    (20.0, 32.0, 14.0, "M6"),
    (25.0, 40.0, 16.0, "M8"),
    (30.0, 45.0, 16.0, "M8"),
    (35.0, 56.0, 16.0, "M8"),
    (40.0, 63.0, 18.0, "M10"),
    (45.0, 70.0, 18.0, "M10"),
    (50.0, 80.0, 18.0, "M10"),
    (55.0, 80.0, 18.0, "M10"),
    (60.0, 90.0, 20.0, "M10"),
    (65.0, 100.0, 20.0, "M10"),
    (70.0, 100.0, 20.0, "M10"),
    (75.0, 110.0, 22.0, "M12"),
    (80.0, 110.0, 22.0, "M12"),
    (90.0, 125.0, 22.0, "M12"),
    (100.0, 140.0, 25.0, "M12"),
    (110.0, 160.0, 25.0, "M12"),
    (120.0, 160.0, 25.0, "M12"),
    (150.0, 200.0, 28.0, "M12"),
];

/// The collar for a shaft; `None` above the table.
///
/// ```
/// let collar = footwell::tables::set_collars::for_shaft(60.0).unwrap();
/// assert_eq!((collar.outside_mm, collar.width_mm, collar.screw), (90.0, 20.0, "M10"));
/// assert!(footwell::tables::set_collars::for_shaft(151.0).is_none());
/// ```
pub fn for_shaft(shaft_mm: f64) -> Option<SetCollar> {
    let row = ROWS.iter().find(|row| shaft_mm <= row.0 + 1e-6)?;
    Some(SetCollar { shaft_mm: row.0, outside_mm: row.1, width_mm: row.2, screw: row.3 })
}
