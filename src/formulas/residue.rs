//! What lies under the bucket tips: product that the buckets do not reach.
//!
//! In: mm, the angle of repose in rad, the floor as a height over the machine's length. Out: an area in the main elevation, mm². The
//! buckets keep their circle about the foot shaft free; product beside it lies up to its angle of repose against the end plates. Belt
//! runs above the shaft are not covered.

use super::rolled_bottom::rise;
use crate::sources::Source;

/// Product under the buckets.
pub const RESIDUE: Source =
    Source::physics("between the floor and the circle of the bucket tips, beside it a slope at the angle of repose; times the casing's width");
/// Where a clean-out lets it out.
pub const RAKED: Source = Source::practice("a rake reaches over an edge of a hand's breadth; what lies in a trough below it is drawn off from above");

/// Height of an edge over the floor that a rake still reaches over, mm. Source: [`RAKED`].
pub const HAND_BREADTH_MM: f64 = 100.0;

/// Strips along the machine.
const STRIPS: u32 = 2000;

/// Circle of the bucket tips, and how steep product lies beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnderTips {
    /// Height of the foot shaft, mm.
    pub shaft: f64,
    /// Radius of the tips, mm.
    pub tip_radius: f64,
    /// Angle of repose, rad.
    pub repose: f64,
}

impl UnderTips {
    /// Height of the product's surface at a distance from the shaft along the machine, mm.
    pub fn surface(&self, x: f64) -> f64 {
        self.shaft - self.tip_radius + rise(self.tip_radius, self.repose, x.abs())
    }

    /// Area between a floor and the surface from one x to another, below `most` as far as that counts, mm². Source: [`RESIDUE`].
    ///
    /// ```
    /// use footwell::formulas::residue::UnderTips;
    /// // Tips of 300 mm whose lowest point is 100 mm over a flat floor, 10 mm to each side: 100 mm and an x²/600 more, over 20 mm.
    /// let under = UnderTips { shaft: 400.0, tip_radius: 300.0, repose: 0.5 };
    /// assert!((under.area_mm2([-10.0, 10.0], f64::INFINITY, |_| 0.0) - (2000.0 + 2.0 * 1000.0 / 1800.0)).abs() < 0.01);
    /// ```
    pub fn area_mm2(&self, [from, to]: [f64; 2], most: f64, floor: impl Fn(f64) -> f64) -> f64 {
        let strip = (to - from) / f64::from(STRIPS);
        (0..STRIPS).map(|i| from + strip * (f64::from(i) + 0.5)).map(|x| (self.surface(x).min(most) - floor(x)).max(0.0) * strip).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_4;

    const UNDER: UnderTips = UnderTips { shaft: 500.0, tip_radius: 400.0, repose: FRAC_PI_4 };

    /// A flat floor to both sides of tips of 400 mm, 100 mm over it, in closed form: box less circle's part, and a triangle on a box beside it.
    #[test]
    fn closed_form() {
        let half = 400.0 * FRAC_PI_4.sin();
        // ∫ √(R² − x²) from −R sin 45° to R sin 45° is R²·(π/4 + 1/2).
        let below = 2.0 * half * 500.0 - 160_000.0 * (FRAC_PI_4 + 0.5);
        assert!((UNDER.area_mm2([-half, half], f64::INFINITY, |_| 0.0) - below).abs() < 0.1);
        let foot = 500.0 - half;
        let beside = 60.0 * foot + 60.0 * 60.0 / 2.0;
        assert!((UNDER.area_mm2([half, half + 60.0], f64::INFINITY, |_| 0.0) - beside).abs() < 0.1);
        assert!((UNDER.area_mm2([-half - 60.0, -half], f64::INFINITY, |_| 0.0) - beside).abs() < 0.1);
        // Below a level that the surface passes nowhere, all of the box counts; above the tips nothing more.
        assert!((UNDER.area_mm2([-50.0, 50.0], 80.0, |_| 0.0) - 8000.0).abs() < 1e-6);
        // A rolled floor about the same shaft: a ring of 100 mm.
        let ring = UNDER.area_mm2([-half, half], f64::INFINITY, |x| 500.0 - (500.0f64 * 500.0 - x * x).sqrt());
        let segment = |r: f64| r * r * (half / r).asin() + half * (r * r - half * half).sqrt();
        assert!((ring - (segment(500.0) - segment(400.0))).abs() < 0.1, "{ring}");
    }

    /// Higher tips and steeper product leave more, a higher floor less.
    #[test]
    fn directions() {
        let area = |u: UnderTips, floor: f64| u.area_mm2([-450.0, 450.0], f64::INFINITY, |_| floor);
        assert!(area(UnderTips { shaft: 600.0, ..UNDER }, 0.0) - area(UNDER, 0.0) > 89_999.0);
        assert!(area(UnderTips { repose: 1.0, ..UNDER }, 0.0) > area(UNDER, 0.0) && area(UNDER, 20.0) < area(UNDER, 0.0));
        assert_eq!(area(UnderTips { shaft: 0.0, ..UNDER }, 600.0), 0.0);
    }
}
