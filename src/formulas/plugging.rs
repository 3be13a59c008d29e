//! Time from a stopped belt to a plugged foot.
//!
//! In: sizes of the foot in mm, free volume in l, bulk density in t/m³, feed in t/h, delays in s. Out: l, s. The feed is taken as
//! constant. What counts is what still fits under the heap that grows from the sill at the angle of repose, beyond what
//! lies in the foot while it runs.

use crate::sources::Source;

/// What lies in the foot while it runs.
pub const LYING: Source = Source::practice(
    "with up-side feed half of what fits below the sill; with down-side feed the foot fills before the buckets do: four fifths of what fits below shaft or sill; of a heap at most four fifths, since buckets keep digging in it",
);
/// Wanted time over reaction.
pub const RESERVE: Source = Source::practice("one and a half times the time from a stopped belt to a stopped feed");
/// Free volume under a straight surface.
pub const FREE: Source = Source::physics("area below a straight surface less the circle's segment of the pulley, times their widths");

/// Share of the volume below the up-side sill that product fills in running. Source: [`LYING`].
pub const POOL_UP: f64 = 0.5;
/// Share of the volume below shaft or down-side sill, whichever is higher, that product fills in running. Source: [`LYING`].
pub const POOL_DOWN: f64 = 0.8;
/// Most of a heap that can be there before the belt stops. Source: [`LYING`].
pub const LYING_MOST: f64 = 0.8;
/// Wanted time to plug over reaction. Source: [`RESERVE`].
pub const OVER_REACTION: f64 = 1.5;

/// Product that lies in the foot while it runs, l: from the level volume below the up-side sill and from that below shaft or
/// down-side sill, 0 where there is no such inlet. A second inlet never makes it less. Source: [`LYING`].
pub fn lying_l(up_level_l: f64, down_level_l: f64) -> f64 {
    (POOL_UP * up_level_l).max(POOL_DOWN * down_level_l)
}

/// What a heap of this volume still takes when so much lies in the foot, l. Source: [`LYING`].
pub fn left_l(heaped_l: f64, lying_l: f64) -> f64 {
    heaped_l - lying_l.min(LYING_MOST * heaped_l)
}

/// A foot as a box with its pulley, mm: before there is a model of it. On the light side where it has corners or runs that it counts out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Box {
    /// Inner faces of the end plates from the shaft, down side negative.
    pub ends: [f64; 2],
    /// Inner face of the bottom.
    pub bottom: f64,
    /// Width between the side plates.
    pub width: f64,
    /// Foot shaft.
    pub shaft: f64,
    /// Pulley: radius and face.
    pub pulley: [f64; 2],
    /// What else is not free: rolled corners, belt and buckets, mm³.
    pub solid_mm3: f64,
}

impl Box {
    /// Free volume below a surface that passes `at` (x, z) and rises by `rise` per run toward +x, l. Source: [`FREE`].
    pub fn free_l(&self, at: [f64; 2], rise: f64) -> f64 {
        let depth = |x: f64| at[1] + rise * (x - at[0]) - self.bottom;
        let (a, b, run) = (depth(self.ends[0]), depth(self.ends[1]), self.ends[1] - self.ends[0]);
        let area = match (a > 0.0, b > 0.0) {
            (true, true) => (a + b) / 2.0 * run,
            (false, false) => 0.0,
            (true, false) => a * a / (a - b) / 2.0 * run,
            (false, true) => b * b / (b - a) / 2.0 * run,
        };
        let [radius, face] = self.pulley;
        // Of the pulley's centre below the surface, square to it.
        let under = ((depth(0.0) + self.bottom - self.shaft) / rise.hypot(1.0)).clamp(-radius, radius);
        let segment = radius * radius * (std::f64::consts::PI - (under / radius).acos()) + under * (radius * radius - under * under).sqrt();
        ((area * self.width - segment * face - self.solid_mm3) / 1e6).max(0.0)
    }
}

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

    /// The box in thin strips, level and heaped, dry and drowned.
    #[test]
    fn a_box_in_strips() {
        let foot = Box { ends: [-560.0, 640.0], bottom: 110.0, width: 480.0, shaft: 620.0, pulley: [400.0, 430.0], solid_mm3: 2e6 };
        for (at, rise) in
            [([640.0, 900.0], 0.0), ([640.0, 900.0], 0.58), ([640.0, 500.0], 0.7), ([-560.0, 450.0], -0.5), ([640.0, 1500.0], 0.4), ([640.0, 100.0], 0.0)]
        {
            let strips = 400_000;
            let step = 1200.0 / f64::from(strips);
            let free: f64 = (0..strips)
                .map(|i| -560.0 + (f64::from(i) + 0.5) * step)
                .map(|x| {
                    let top = at[1] + rise * (x - at[0]);
                    let half = (400.0f64 * 400.0 - x * x).max(0.0).sqrt();
                    let pulley = (top.min(620.0 + half) - (620.0 - half)).max(0.0);
                    ((top - 110.0).max(0.0) * 480.0 - pulley * 430.0) * step
                })
                .sum();
            let wanted = ((free - 2e6) / 1e6).max(0.0);
            assert!((foot.free_l(at, rise) - wanted).abs() < 1e-3, "{at:?} {rise}: {wanted}");
        }
    }

    #[test]
    fn what_lies_and_what_is_left() {
        assert_eq!([lying_l(400.0, 0.0), lying_l(400.0, 300.0), lying_l(0.0, 300.0), lying_l(800.0, 300.0)], [200.0, 240.0, 240.0, 400.0]);
        assert_eq!(left_l(300.0, 100.0), 200.0);
        assert!((left_l(300.0, 290.0) - 60.0).abs() < 1e-12);
    }

    #[test]
    fn the_two_are_inverse() {
        let v = run_on_volume_l(0.65, 80.0, 3.0, 4.0);
        assert!((time_to_plug_s(v, 0.65, 80.0) - 7.0).abs() < 1e-12);
        assert!(time_to_plug_s(100.0, 0.65, 0.0).is_infinite());
        // mass balance by hand: 1 m³ at 1 t/m³, 36 t/h = 10 kg/s: 100 s
        assert!((time_to_plug_s(1000.0, 1.0, 36.0) - 100.0).abs() < 1e-12);
    }
}
