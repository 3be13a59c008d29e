//! Time from a stopped belt to a plugged foot.
//!
//! In: free volume in l, bulk density in t/m³, feed in t/h, delays in s. Out: s. The feed is taken as
//! constant, the volume as filled evenly; a real heap plugs the sooner of the two.

use crate::sources::Source;

/// Filling time.
pub const TIME_TO_PLUG: Source = Source::physics("free volume times bulk density over feed rate");

/// Seconds until the free volume below the inlets is full. Infinite without feed. Source: [`TIME_TO_PLUG`].
///
/// ```
/// // 300 l of wheat at 120 t/h: 6.9 s
/// let t = footwell::formulas::plugging::time_to_plug_s(300.0, 0.77, 120.0);
/// assert!((t - 6.93).abs() < 1e-9);
/// ```
pub fn time_to_plug_s(free_volume_l: f64, density_t_per_m3: f64, feed_t_per_h: f64) -> f64 {
    free_volume_l / 1000.0 * density_t_per_m3 * 3600.0 / feed_t_per_h
}

/// Volume in l that runs in while the sensor waits and the feeder runs on.
pub fn run_on_volume_l(density_t_per_m3: f64, feed_t_per_h: f64, sensor_delay_s: f64, feeder_run_on_s: f64) -> f64 {
    feed_t_per_h / 3600.0 / density_t_per_m3 * (sensor_delay_s + feeder_run_on_s) * 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_are_inverse() {
        let v = run_on_volume_l(0.65, 80.0, 3.0, 4.0);
        assert!((time_to_plug_s(v, 0.65, 80.0) - 7.0).abs() < 1e-12);
        assert!(time_to_plug_s(100.0, 0.65, 0.0).is_infinite());
        // mass balance by hand: 1 m³ at 1 t/m³, 36 t/h = 10 kg/s: 100 s
        assert!((time_to_plug_s(1000.0, 1.0, 36.0) - 100.0).abs() < 1e-12);
    }
}
