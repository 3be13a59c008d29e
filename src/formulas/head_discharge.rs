//! What buckets carry past the head instead of throwing it into the spout: it falls back down the leg.
//!
//! In: the bucket's section, the head pulley with its speed, the product's angle of internal friction. Out: a share of the water-level fill.
//! The same pole construction as in the foot, over the head pulley; product at rest in the bucket, so that what slides and bounces leaves
//! sooner: an upper bound. Air, the hood and the cut-off plate are not covered.

use super::retained_fill::{BucketSection, Position, Wheel, retained_share};
use crate::sources::Source;
use std::f64::consts::PI;

/// What is carried past the head.
pub const PAST_HEAD: Source =
    Source::physics("pole construction over the head pulley: what can still stay in a bucket level with the shaft on the down side falls back down the leg");
/// How much of it is usual.
pub const BACK_LEGGING: Source = Source::practice("up to a tenth of the load falls back down the leg where a gentle belt lifts a product that sticks");
/// Share of the load that falls back unnoticed. Source: [`BACK_LEGGING`].
pub const USUAL_BACK: f64 = 0.1;
/// Share from which it is trouble, although less sticks in a moving bucket than at rest. Source: [`BACK_LEGGING`].
pub const MUCH_BACK: f64 = 0.35;

/// Throwing too early.
pub const TOO_FAST: Source =
    Source::practice("over about one and a half times the speed at which discharge is centrifugal, product leaves before the top and strikes the hood");
/// Belt speed over the one at which the pole reaches the buckets' backs, from which product is thrown too early. Source: [`TOO_FAST`].
pub const FASTEST_OVER_CENTRIFUGAL: f64 = 1.6;

/// Level with the shaft on the down side, from straight down over the up side, rad.
const DOWN_SIDE: f64 = 1.5 * PI;

/// Share of the water-level fill that can still be in a bucket level with the head shaft on the down side. Source: [`PAST_HEAD`].
///
/// ```
/// use footwell::formulas::{head_discharge::past_head, retained_fill::{BucketSection, Wheel}};
/// use kurbo::Point;
/// // Without friction, and fast enough that the pole lies within the buckets' backs, nothing stays.
/// let bucket = BucketSection::new(vec![Point::new(150.0, 100.0), Point::new(150.0, 0.0), Point::new(0.0, 0.0), Point::new(0.0, 100.0)]).unwrap();
/// assert_eq!(past_head(&bucket, &Wheel { radius_mm: 400.0, omega_rad_per_s: 6.0 }, 0.0), 0.0);
/// ```
pub fn past_head(section: &BucketSection, wheel: &Wheel, friction_rad: f64) -> f64 {
    retained_share(section, wheel, friction_rad, Position::OnPulley(DOWN_SIDE))
}

/// Share of what the buckets carry that falls back, from the share of the water-level fill that stays and their fill.
///
/// ```
/// use footwell::formulas::head_discharge::back_share;
/// assert_eq!([(0.15, 0.75), (0.0, 0.7), (0.9, 0.75)].map(|(stays, fill)| (back_share(stays, fill) * 100.0).round()), [20.0, 0.0, 100.0]);
/// ```
pub fn back_share(stays: f64, fill: f64) -> f64 {
    (stays / fill).min(1.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::units::GRAVITY;
    use kurbo::Point;

    fn bucket() -> BucketSection {
        BucketSection::new([(165.0, 36.0), (132.0, -45.0), (74.25, -90.0), (16.5, -90.0), (0.0, -68.4), (0.0, 90.0)].map(Point::from).to_vec()).unwrap()
    }

    /// A wheel of 409 mm to the buckets' backs whose belt runs at k·g·R.
    fn wheel(k: f64) -> Wheel {
        Wheel { radius_mm: 409.0, omega_rad_per_s: (k * GRAVITY * 1000.0 / 400.0).sqrt() * 400.0 / 404.5 }
    }

    /// Cells of a grid of 700 by 700 over the section counted outside of the program, each kept where it lies beyond both limit surfaces
    /// in the field of apparent weight.
    #[test]
    fn counted_cells() {
        for (k, friction_deg, share) in
            [(0.5, 30.0, 0.1932), (0.5, 42.0, 0.3348), (0.8, 30.0, 0.0761), (0.8, 42.0, 0.2312), (1.0, 35.0, 0.0694), (1.1, 35.0, 0.0377), (1.4, 42.0, 0.0577)]
        {
            let got = past_head(&bucket(), &wheel(k), f64::to_radians(friction_deg));
            assert!((got - share).abs() < 0.001, "k {k}, {friction_deg}°: {got} against {share}");
        }
    }

    /// Faster throws more out; what sticks more stays more.
    #[test]
    fn directions() {
        let at = |k: f64, deg: f64| past_head(&bucket(), &wheel(k), deg.to_radians());
        assert!(at(0.5, 35.0) > at(0.8, 35.0) && at(0.8, 35.0) > at(1.1, 35.0) && at(1.1, 35.0) >= at(1.7, 35.0));
        assert!(at(0.8, 42.0) > at(0.8, 30.0) && at(0.8, 30.0) >= at(0.8, 0.0));
        assert_eq!(at(1.7, 28.0), 0.0);
    }
}
