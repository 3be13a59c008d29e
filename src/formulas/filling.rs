//! What stays in the buckets of a stream that enters over the height of an opening, where they cannot hold everything yet.
//!
//! In: fill in service, heights in mm over the shaft, the share of the water-level fill that can stay at a height. Out: a share of the
//! stream. The stream is taken as spread evenly over the opening's height; what a bucket cannot hold where it gets it is flung back.

use crate::sources::Source;

/// What stays over the height of an opening.
pub const FILLING: Source = Source::physics("mean over the opening's height of min(1, share that can stay there over fill)");

/// Strips below the shaft.
const STRIPS: usize = 24;

/// Share of the stream through an opening from `low_mm` to `high_mm` above the shaft (negative below it) that stays in the buckets, when
/// `stays` says which share of the water-level fill can stay at a height below the shaft; above it everything stays. Source: [`FILLING`].
///
/// ```
/// // Nothing stays below the shaft, a quarter of the opening lies above it.
/// let kept = footwell::formulas::filling::kept(0.8, [-150.0, 50.0], |_| 0.0);
/// assert!((kept - 0.25).abs() < 1e-12);
/// ```
pub fn kept(fill: f64, [low_mm, high_mm]: [f64; 2], stays: impl Fn(f64) -> f64) -> f64 {
    if low_mm >= 0.0 || high_mm <= low_mm {
        return 1.0;
    }
    let below = high_mm.min(0.0) - low_mm;
    let strip = below / STRIPS as f64;
    let held: f64 = (0..STRIPS).map(|i| (stays(low_mm + (i as f64 + 0.5) * strip) / fill).clamp(0.0, 1.0) * strip).sum();
    (held + high_mm.max(0.0)) / (high_mm - low_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Grain by grain: entered at random heights (a fixed sequence), each stays with the chance of its height.
    #[test]
    fn grain_by_grain() {
        let curves: [fn(f64) -> f64; 4] = [|_| 0.0, |z| (1.0 + z / 300.0).max(0.0), |z| (1.0 + z / 300.0).max(0.0).powi(3), |z| 0.3 + 0.3 * (z / 90.0).sin()];
        for (fill, low, high) in [(0.75, -220.0, 80.0), (0.9, -120.0, -20.0), (0.6, -50.0, 400.0), (0.75, 10.0, 200.0)] {
            for stays in curves {
                let grains = 200_000u32;
                // Heights by the golden ratio: evenly spread without being a grid of strips.
                let height = |i: u32| low + (high - low) * (f64::from(i) * 0.618_033_988_749_895).fract();
                let stayed: f64 = (0..grains).map(height).map(|z| if z < 0.0 { (stays(z) / fill).clamp(0.0, 1.0) } else { 1.0 }).sum();
                let got = kept(fill, [low, high], stays);
                assert!((got - stayed / f64::from(grains)).abs() < 1e-3, "{fill} {low} {high}: {got} {}", stayed / f64::from(grains));
            }
        }
        assert_eq!([kept(0.7, [0.0, 100.0], |_| 0.0), kept(0.7, [-50.0, -50.0], |_| 0.0)], [1.0; 2]);
    }
}
