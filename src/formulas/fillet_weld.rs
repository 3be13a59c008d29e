//! Size of a fillet weld: throat a (ISO) and leg z (US).
//!
//! In: throat in mm. Out: leg in mm. Equal legs, flat face, right-angled joint; strength is not calculated.

use crate::sources::Source;
use std::f64::consts::SQRT_2;

/// Equal legs.
pub const LEG: Source = Source::physics("right-angled isosceles triangle: leg = throat x square root of 2");

/// US shops state legs in steps of 1/16 in, mm (common practice).
const STEP_MM: f64 = 25.4 / 16.0;

/// How far a step may fall short of the leg, as a share of it: 1/4 in for 6.364 mm.
const SHORT: f64 = 0.005;

/// Thickest part that a throat follows, mm: 10.5 in both corners carries what thicker plates carry here, a larger one only warps them
/// (common practice; the stress in it is checked where a load is known).
const THICKEST_MM: f64 = 15.0;

/// Throat that is asked for between parts the thinner of which is `thin_mm` thick, mm: 0.7 of it, in half millimetres (common practice).
///
/// ```
/// assert_eq!([5.0, 15.0, 30.0].map(footwell::formulas::fillet_weld::throat_mm), [3.5, 10.5, 10.5]);
/// ```
pub fn throat_mm(thin_mm: f64) -> f64 {
    (0.7 * thin_mm.min(THICKEST_MM) * 2.0).round() / 2.0
}

/// Leg of an equal-legged fillet weld with the throat `throat_mm`, mm.
///
/// ```
/// assert!((footwell::formulas::fillet_weld::leg_mm(5.0) - 7.071).abs() < 1e-3);
/// ```
pub fn leg_mm(throat_mm: f64) -> f64 {
    throat_mm * SQRT_2
}

/// The leg that a US shop is told, mm: the next sixteenth of an inch that is not noticeably smaller.
pub fn shop_leg_mm(throat_mm: f64) -> f64 {
    (leg_mm(throat_mm) * (1.0 - SHORT) / STEP_MM).ceil().max(1.0) * STEP_MM
}

#[cfg(test)]
mod tests {
    use super::*;

    /// AWS D1.1 and Shigley, ch. 9: throat = leg over the square root of 2, so the throats of 1/8, 3/16, 1/4, 5/16 in legs are
    /// 2.24, 3.37, 4.49, 5.61 mm; each asks for its own leg again, and a little more for the next.
    #[test]
    fn sixteenths() {
        for sixteenths in 1..=12 {
            let leg = f64::from(sixteenths) * STEP_MM;
            assert!((shop_leg_mm(leg / SQRT_2) - leg).abs() < 1e-9, "{sixteenths}");
            assert!((shop_leg_mm(leg / SQRT_2 * 1.01) - leg - STEP_MM).abs() < 1e-9, "{sixteenths}");
        }
        assert!((shop_leg_mm(0.1) - STEP_MM).abs() < 1e-9);
        // 4.5 mm from 1/4 in plate.
        assert!((shop_leg_mm(4.5) - 6.35).abs() < 1e-9);
    }
}
