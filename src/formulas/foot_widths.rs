//! Widths in the foot that follow from belt, pulleys and buckets: all rows of buckets, the casing over the widest of them.
//!
//! In: sizes in mm. Out: mm across the machine. Used when defaults are decided and when the model is
//! built, so that both agree. Not promised: that the bearings span it.

use crate::sources::Source;

/// Inner width of the casing.
pub const INNER_WIDTH: Source = Source::physics("the widest of belt, pulleys and bucket rows with the side clearance on both sides");

/// Length across the belt of all rows of buckets with the gaps between them, mm.
///
/// ```
/// assert_eq!(footwell::formulas::foot_widths::rows_length(2, 280.0, 50.0), 610.0);
/// ```
pub fn rows_length(rows: u32, bucket_length_mm: f64, row_gap_mm: f64) -> f64 {
    f64::from(rows) * bucket_length_mm + f64::from(rows.saturating_sub(1)) * row_gap_mm
}

/// Width between the side plates, mm.
///
/// ```
/// assert_eq!(footwell::formulas::foot_widths::inner_width(&[330.0, 380.0, 280.0], 50.0), 480.0);
/// ```
pub fn inner_width(moving_mm: &[f64], side_clearance_mm: f64) -> f64 {
    moving_mm.iter().copied().fold(0.0, f64::max) + 2.0 * side_clearance_mm
}
