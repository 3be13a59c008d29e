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

/// What keeps a plate from what moves inside: a clearance, which is kept at least where the shop sets out the plate's outer
/// face in whole steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Clearance, mm.
    pub clearance: f64,
    /// Thickness of the plate across the gap, mm.
    pub plate: f64,
    /// Step of the outer face's distance from the middle, mm; `None` where the clearance is kept exactly.
    pub step: Option<f64>,
}

impl Gap {
    /// Distance from the middle of the plate's inner face, mm, when what moves reaches out so far.
    ///
    /// ```
    /// use footwell::formulas::foot_widths::Gap;
    /// let gap = Gap { clearance: 60.0, plate: 5.0, step: Some(5.0) };
    /// // 557.2 and the plate are 562.2: the outer face stands at 565.
    /// assert!((gap.face(497.2) - 560.0).abs() < 1e-9);
    /// assert!((Gap { step: None, ..gap }.face(497.2) - 557.2).abs() < 1e-9);
    /// ```
    pub fn face(self, reach_mm: f64) -> f64 {
        let face = reach_mm + self.clearance;
        self.step.map_or(face, |step| ((face + self.plate) / step - 1e-6).ceil() * step - self.plate)
    }
}

/// Width between the side plates, mm.
///
/// ```
/// assert_eq!(footwell::formulas::foot_widths::inner_width(&[330.0, 380.0, 280.0], 50.0), 480.0);
/// ```
pub fn inner_width(moving_mm: &[f64], side_clearance_mm: f64) -> f64 {
    widest(moving_mm) + 2.0 * side_clearance_mm
}

/// The widest of what moves between the side plates, mm.
pub fn widest(moving_mm: &[f64]) -> f64 {
    moving_mm.iter().copied().fold(0.0, f64::max)
}
