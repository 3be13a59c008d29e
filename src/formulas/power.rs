//! Power at the head shaft and at the motor: lift, dredging in the foot, losses.
//!
//! In: t/h, m, kg/m. Out: kW, N. Dredging is expressed as an extra lift in foot pulley diameters, a
//! handbook habit; the figures by feed side are open to the user. Starting torque is not covered.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Lifting power.
pub const LIFT: Source = Source::physics("weight flow times height: P = Q·g·H");
/// Dredging as equivalent lift.
pub const DREDGING: Source =
    Source::practice("dredging as an extra lift of 6 (up-side feed) or 12 (down-side feed) foot pulley diameters, from memory of handbook habit");
/// Losses.
pub const LOSSES: Source = Source::practice("drive efficiency and bearing, belt bending and air losses as one ratio");

/// Losses at the head shaft.
pub const LOSSES_SHARE: Source = Source::practice("allowance on the power at the head shaft");
/// Bearing, belt bending and air losses as a share of lift and dredging. Source: [`LOSSES_SHARE`].
pub const LOSSES_AT_SHAFT: f64 = 0.10;

/// Where the product is fed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FeedSide {
    /// Onto the rising belt, straight into the buckets.
    Up,
    /// Against the sinking belt; the buckets dredge.
    Down,
}

impl FeedSide {
    /// Extra lift in foot pulley diameters that stands for dredging. Source: [`DREDGING`].
    pub const fn dredging_diameters(self) -> f64 {
        match self {
            FeedSide::Up => 6.0,
            FeedSide::Down => 12.0,
        }
    }
}

/// Lifting power in kW: Q in t/h, height in m. P = Q·g·H/3600. Source: [`LIFT`].
///
/// ```
/// // 120 t/h through 30 m: 9.81 kW
/// assert!((footwell::formulas::power::lift_kw(120.0, 30.0) - 9.80665).abs() < 1e-9);
/// ```
pub fn lift_kw(capacity_t_per_h: f64, height_m: f64) -> f64 {
    capacity_t_per_h * GRAVITY * height_m / 3600.0
}

/// Extra lift in m that stands for dredging: diameters of the foot pulley (mm) by feed side. Source: [`DREDGING`].
pub fn dredging_lift_m(side: FeedSide, foot_diameter_mm: f64) -> f64 {
    side.dredging_diameters() * foot_diameter_mm / 1000.0
}

/// Force on the belt from dredging, N: line load (kg/m) times g times the extra lift (m).
pub fn dredging_force_n(line_load_kg_per_m: f64, dredging_lift_m: f64) -> f64 {
    line_load_kg_per_m * GRAVITY * dredging_lift_m
}

/// Power in kW of a force (N) at a speed (m/s).
pub fn force_power_kw(force_n: f64, speed_m_per_s: f64) -> f64 {
    force_n * speed_m_per_s / 1000.0
}

/// Power at the motor in kW: power at the head shaft over the efficiency of everything between
/// (above 0, at most 1). Source: [`LOSSES`].
pub fn motor_kw(shaft_kw: f64, efficiency: f64) -> f64 {
    shaft_kw / efficiency
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::formulas::capacity::line_load_kg_per_m;

    /// Identity: lifting power is the weight of the load on the up run times the belt speed.
    #[test]
    fn lift_is_force_times_speed() {
        let (q, h, v) = (96.0, 24.5, 2.6);
        let force = dredging_force_n(line_load_kg_per_m(q, v), h);
        assert!((force_power_kw(force, v) - lift_kw(q, h)).abs() < 1e-9);
    }

    /// Published student calculation: 32.4 t/h (3 kg/m at 3 m/s) through 50 m: 3·9.81·50·3 W = 4.41 kW.
    #[test]
    fn student_calculation() {
        assert!((lift_kw(32.4, 50.0) * 9.81 / GRAVITY - 4.4145).abs() < 1e-4);
    }

    #[test]
    fn down_side_feed_costs_twice_the_dredging() {
        let up = dredging_lift_m(FeedSide::Up, 630.0);
        assert!((up - 3.78).abs() < 1e-12);
        assert!((dredging_lift_m(FeedSide::Down, 630.0) - 2.0 * up).abs() < 1e-12);
        assert!((motor_kw(9.0, 0.9) - 10.0).abs() < 1e-12);
    }
}
