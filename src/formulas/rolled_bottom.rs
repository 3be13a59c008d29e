//! A rolled bottom: an arc about the lowest shaft centre that goes on tangentially to the end plates.
//!
//! In: lengths in mm, angles in rad from straight down. Out: where the arc ends, and how far the bottom
//! has risen at a distance from the shaft. Used when places are decided and when the model is built.

use crate::sources::Source;

/// Shape of a rolled bottom.
pub const ROLLED_BOTTOM: Source = Source::practice("arc about the shaft, then 60° up to the end plate, so that nothing lies on a ledge");

/// Steepest slope at which a rolled bottom goes on to the end plate, degrees (common practice).
const STEEP_DEG: f64 = 60.0;

/// Where the arc ends (rad) and at what height above the base the bottom meets an end plate `out` mm from the shaft.
///
/// A bottom wider than the foot meets the plate with its arc. A narrower one goes on tangentially at 60°,
/// or less steeply when the plate's upright part ends at `limit`.
///
/// ```
/// // R 400 about a shaft at 500, end plate 300 out: √(400² − 300²) = 264.6 below the shaft.
/// let (_, z) = footwell::formulas::rolled_bottom::end(500.0, 400.0, 300.0, f64::INFINITY);
/// assert!((z - (500.0 - 264.575)).abs() < 0.001);
/// ```
pub fn end(shaft: f64, radius: f64, out: f64, limit: f64) -> (f64, f64) {
    let steep = STEEP_DEG.to_radians();
    if radius * steep.sin() >= out {
        let angle = (out / radius).clamp(-1.0, 1.0).asin();
        return (angle, shaft - radius * angle.cos());
    }
    let along = (out - radius * steep.sin()) / steep.cos();
    let z = shaft - radius * steep.cos() + along * steep.sin();
    let far = out.hypot(shaft - limit);
    if z <= limit || far <= radius {
        return (steep, z);
    }
    (out.atan2(shaft - limit) - (radius / far).acos(), limit)
}

/// How far the bottom has risen above its lowest line `out` mm from the shaft, for an arc that ends at `angle`.
pub fn rise(radius: f64, angle: f64, out: f64) -> f64 {
    let last = radius * angle.sin();
    if out <= last { radius - (radius * radius - out * out).max(0.0).sqrt() } else { radius - radius * angle.cos() + (out - last) * angle.tan() }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At its end the bottom has risen to the height that `end` gives, whichever way it gets there.
    #[test]
    fn arc_and_tangent_agree() {
        for (radius, out, limit) in [(400.0, 300.0, f64::INFINITY), (400.0, 480.0, f64::INFINITY), (400.0, 480.0, 380.0)] {
            let (angle, z) = end(500.0, radius, out, limit);
            assert!((500.0 - radius + rise(radius, angle, out) - z).abs() < 1e-9, "{radius} {out} {limit}");
        }
    }
}
