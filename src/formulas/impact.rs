//! How hard product and bucket meet, by feed side: the measure of breakage.
//!
//! In: stream and belt speeds in m/s, chute slope in rad. Out: relative speeds in m/s. A point mass
//! meets a bucket; bounces, other particles and the filled foot are not covered.

use crate::sources::Source;

/// Relative speed of stream and bucket.
pub const IMPACT: Source = Source::physics("difference of the velocity vectors of stream and bucket");

/// Relative speed in m/s of a stream that comes down a chute on the up side (slope in rad to the
/// horizontal) and meets buckets rising at belt speed. Source: [`IMPACT`].
///
/// ```
/// // 2.5 m/s at 45° against 2.8 m/s upwards: √(1.77² + 4.57²)
/// let v = footwell::formulas::impact::up_side_m_per_s(2.5, 45f64.to_radians(), 2.8);
/// assert!((v - 4.898).abs() < 1e-3);
/// ```
pub fn up_side_m_per_s(stream_m_per_s: f64, slope_rad: f64, belt_m_per_s: f64) -> f64 {
    (stream_m_per_s * slope_rad.cos()).hypot(stream_m_per_s * slope_rad.sin() + belt_m_per_s)
}

/// Relative speed in m/s of the first hit on the down side: the stream meets the backs of buckets that
/// sink at belt speed.
pub fn down_side_first_m_per_s(stream_m_per_s: f64, slope_rad: f64, belt_m_per_s: f64) -> f64 {
    (stream_m_per_s * slope_rad.cos()).hypot(stream_m_per_s * slope_rad.sin() - belt_m_per_s)
}

/// Speed in m/s of the bucket's lip through product that rests in the foot: belt speed times tip radius
/// over the neutral radius (mm). With down-side feed every particle is dug through like that, many times.
pub fn digging_m_per_s(belt_m_per_s: f64, neutral_radius_mm: f64, tip_radius_mm: f64) -> f64 {
    belt_m_per_s * tip_radius_mm / neutral_radius_mm
}

/// Impact speed that fragile products bear, m/s (common practice, no source).
pub const GENTLE: f64 = 4.0;

/// The belt speed in m/s at which such a stream on the up side meets the buckets at `most` m/s, 0 where it is faster than that by itself: the
/// inverse of [`up_side_m_per_s`]. Source: [`IMPACT`].
///
/// ```
/// let v = footwell::formulas::impact::belt_for_up_side_m_per_s(4.898, 2.5, 45f64.to_radians());
/// assert!((v - 2.8).abs() < 1e-3);
/// ```
pub fn belt_for_up_side_m_per_s(most_m_per_s: f64, stream_m_per_s: f64, slope_rad: f64) -> f64 {
    let across = stream_m_per_s * slope_rad.cos();
    ((most_m_per_s * most_m_per_s - across * across).max(0.0).sqrt() - stream_m_per_s * slope_rad.sin()).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_2;

    #[test]
    fn vectors() {
        // straight down against the rising bucket: the speeds add; against the sinking one they subtract
        assert!((up_side_m_per_s(2.0, FRAC_PI_2, 3.0) - 5.0).abs() < 1e-12);
        assert!((down_side_first_m_per_s(2.0, FRAC_PI_2, 3.0) - 1.0).abs() < 1e-12);
        // flat stream: 3-4-5
        assert!((up_side_m_per_s(3.0, 0.0, 4.0) - 5.0).abs() < 1e-12);
        assert!((down_side_first_m_per_s(3.0, 0.0, 4.0) - 5.0).abs() < 1e-12);
        assert!((digging_m_per_s(2.8, 320.0, 480.0) - 4.2).abs() < 1e-12);
    }
}
