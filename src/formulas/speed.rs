//! Speed of the foot shaft and what a motion sensor on it must watch.
//!
//! In: belt speed in m/s, radius to the neutral line in mm, slip as a share. Out: rev/min, pulses per
//! minute. Belt speed holds at the neutral line.

use crate::sources::Source;
use std::f64::consts::PI;

/// Shaft speed.
pub const SHAFT_SPEED: Source = Source::physics("n = 60·v/(2π·R), R to the belt's neutral line");
/// Stop at a belt speed reduced by no more than 20 % (read in the wording of WAC 296-99-085).
pub const STOP: Source = Source::law("OSHA 29 CFR 1910.272(q)(5)").remark("law for elevators inside grain elevators, by (b)(2)");
/// Alarm before the stop.
pub const ALARM: Source = Source::practice("alarm at 10 % slip");

/// Largest loss of speed before the drive must stop, share. Source: [`STOP`].
pub const STOP_SLIP: f64 = 0.20;
/// Loss of speed for the alarm, share. Source: [`ALARM`].
pub const ALARM_SLIP: f64 = 0.10;

/// Shaft speed in rev/min. Source: [`SHAFT_SPEED`].
///
/// ```
/// // 2.5 m/s at 0.315 m: 75.79 rev/min
/// assert!((footwell::formulas::speed::rpm(2.5, 315.0) - 75.788).abs() < 1e-3);
/// ```
pub fn rpm(speed_m_per_s: f64, neutral_radius_mm: f64) -> f64 {
    30_000.0 * speed_m_per_s / (PI * neutral_radius_mm)
}

/// A speed after a loss by slip (share of one), in the unit of the speed.
pub fn slipped(normal: f64, slip: f64) -> f64 {
    normal * (1.0 - slip)
}

/// Pulses per minute from a number of targets on the shaft end.
pub fn pulses_per_minute(rpm: f64, targets: u32) -> f64 {
    rpm * f64::from(targets)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed examples: 2.5 m/s at 0.315 m: 75.788; 1.2 m/s: 36.378 rev/min.
    #[test]
    fn shaft_speed() {
        assert!((rpm(2.5, 315.0) - 75.788).abs() < 1e-3);
        assert!((rpm(1.2, 315.0) - 36.378).abs() < 1e-3);
        assert_eq!(pulses_per_minute(75.0, 2), 150.0);
    }

    /// 29 CFR 1910.272(q)(5): nominal 2.50 m/s must have stopped at 2.00.
    #[test]
    fn stop() {
        assert!((slipped(2.5, STOP_SLIP) - 2.0).abs() < 1e-12);
        assert!((slipped(2.5, ALARM_SLIP) - 2.25).abs() < 1e-12);
    }
}
