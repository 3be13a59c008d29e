//! Heights in the foot that follow from the bucket path: where the foot shaft must stand.
//!
//! Used when defaults are decided and when the model is built, so that both agree.

use crate::sources::Source;

/// Height of the shaft from the space that the buckets sweep.
pub const SHAFT_HEIGHT: Source = Source::physics("tip radius of a bucket whose back is tangent at mid-height, plus clearance, plate and feet");

/// Height of the foot shaft above the underside of the base, take-up at its lowest, mm.
///
/// Feet, bottom plate, clearance and the radius swept by the bucket's outer corners:
/// h + t_b + c + √((D/2 + t + p)² + (b/2)²). Physics (the bucket's back is tangent at mid-height).
pub fn shaft_height_lowest(
    feet_mm: f64,
    bottom_plate_mm: f64,
    bottom_clearance_mm: f64,
    foot_diameter_mm: f64,
    belt_thickness_mm: f64,
    bucket_projection_mm: f64,
    bucket_height_mm: f64,
) -> f64 {
    feet_mm + bottom_plate_mm + bottom_clearance_mm + (foot_diameter_mm / 2.0 + belt_thickness_mm + bucket_projection_mm).hypot(bucket_height_mm / 2.0)
}
