//! Bolts: sizes that fit a flange, rows and rings of equal pitch, standard lengths, masses.
//!
//! In: lengths in mm. Out: hole centres in mm, bolt lengths in mm. Both halves of a joint take their
//! holes from one [`ring`] or [`row`], so that they coincide.

use super::flat::Xy;
use super::shape::Shape;
use crate::formulas::mass::STEEL_KG_PER_M3;
use crate::model::frame::Extent;
use crate::tables::plates::Stock;
use crate::tables::threads::{self, Fit, Series, Thread};
use std::f64::consts::PI;

/// Widest pitch of a dust-tight row, mm.
pub const PITCH: f64 = 120.0;

/// Lengths of ISO 4014/4017 bolts up to 200 mm (from memory).
const METRIC_LENGTHS: &[f64] = &[
    10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 80.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0, 150.0, 160.0, 180.0,
    200.0,
];

/// The bolt, metric or its inch counterpart.
pub fn bolt(metric: &str, us: bool) -> Option<&'static Thread> {
    threads::of_job(metric, us)
}

/// Clearance hole of a bolt, ISO 273 medium or the inch normal fit, mm.
pub fn hole(thread: &Thread) -> f64 {
    thread.hole_mm(Fit::Medium)
}

/// How many more pitches than needed a row takes so that one whole pitch fills it, as a share.
const MORE: f64 = 0.2;

/// Positions from `low` to `high`, both ends included, at pitches not over `limit`: one whole pitch where few more holes give
/// it, else whole pitches from both ends and what is left in the middle.
pub fn row(span: Extent, limit: f64, stock: Stock) -> Vec<f64> {
    let (least, step) = ((span.size() / limit - 1e-9).ceil().max(1.0), stock.step_mm());
    let whole = |n: &f64| ((span.size() / n / step).round() * step * n - span.size()).abs() < 1e-6;
    if let Some(n) = (0..=(MORE * least) as u32).map(|more| least + f64::from(more)).find(whole) {
        return (0..=n as usize).map(|i| span.low + span.size() * i as f64 / n).collect();
    }
    // Alike from both ends, so that it may be turned round.
    let pitch = |n: f64| (span.size() / n / step - 1e-9).ceil() * step;
    let n = if pitch(least) <= limit { least } else { least + 1.0 };
    let half = (n as usize).div_ceil(2);
    let from_low = (0..half).map(|i| span.low + pitch(n) * i as f64);
    let middle = (n as usize).is_multiple_of(2).then_some(span.low + span.size() / 2.0);
    from_low.chain(middle).chain((0..half).rev().map(|i| span.high - pitch(n) * i as f64)).collect()
}

/// Hole centres round a rectangle: its corners, and a [`row`] between them, counter-clockwise from the lower left.
pub fn ring(x: Extent, y: Extent, limit: f64, stock: Stock) -> Vec<Xy> {
    let (xs, ys) = (row(x, limit, stock), row(y, limit, stock));
    let mut out = Vec::new();
    out.extend(xs.iter().map(|&a| [a, y.low]));
    out.extend(ys.iter().skip(1).map(|&b| [x.high, b]));
    out.extend(xs.iter().rev().skip(1).map(|&a| [a, y.high]));
    out.extend(ys.iter().rev().skip(1).take(ys.len().saturating_sub(2)).map(|&b| [x.low, b]));
    out
}

/// How a bolt is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Held {
    /// By a nut, with a washer under head and nut.
    Nut,
    /// By a nut that is welded to the last plate, washer under the head.
    WeldNut,
    /// In a tapped plate, washer under the head; it may not stick out at the back.
    Tapped,
    /// Countersunk, in a tapped plate.
    Countersunk,
}

/// A plain washer: twice the bolt across (ISO 7089, from memory), its hole a twentieth wider than the bolt.
pub fn washer_ring(thread: &Thread) -> Shape {
    Shape::Ring { diameter: 2.0 * thread.diameter_mm, bore: WASHER_HOLE * thread.diameter_mm, length: thread.washer_mm() }
}

/// Hole of a washer over its bolt's diameter.
const WASHER_HOLE: f64 = 1.05;

/// Standard length for a joint of `clamped` mm (for a tapped joint the tapped plate included), mm.
pub fn length(thread: &Thread, clamped: f64, held: Held) -> f64 {
    let step = |wanted: f64, up: bool| -> f64 {
        if thread.series == Series::Unc {
            // By eighths up to an inch, then by quarters (ASME B18.2.1, from memory).
            let stepped = |parts: f64| {
                let steps = wanted / (threads_inch() / parts);
                (if up { (steps - 1e-9).ceil() } else { (steps + 1e-9).floor() }).max(parts / 2.0) * threads_inch() / parts
            };
            let eighths = stepped(8.0);
            return if eighths <= threads_inch() + 1e-9 { eighths } else { stepped(4.0) };
        }
        let fits = METRIC_LENGTHS.iter().copied();
        if up {
            fits.clone().find(|l| *l + 1e-9 >= wanted).unwrap_or((wanted / 20.0).ceil() * 20.0)
        } else {
            fits.rev().find(|l| *l <= wanted + 1e-9).unwrap_or(10.0)
        }
    };
    match held {
        // Two threads stand out of the nut.
        Held::Nut => step(clamped + 2.0 * thread.washer_mm() + thread.nut_mm + 2.0 * thread.pitch_mm, true),
        Held::WeldNut => step(clamped + thread.washer_mm() + thread.nut_mm + 2.0 * thread.pitch_mm, true),
        Held::Tapped => step(clamped + thread.washer_mm(), false),
        Held::Countersunk => step(clamped, false),
    }
}

const fn threads_inch() -> f64 {
    crate::units::MM_PER_INCH
}

/// Mass of a bolt with its nut and washers where it has them, kg: cylinder, hexagons and rings by volume.
pub fn mass(thread: &Thread, length: f64, held: Held) -> f64 {
    let (d, s) = (thread.diameter_mm, thread.across_flats_mm);
    let hexagon = 3.0_f64.sqrt() / 2.0 * s * s;
    let shank = PI / 4.0 * d * d;
    let ring = PI / 4.0 * (4.0 - WASHER_HOLE * WASHER_HOLE) * d * d * thread.washer_mm();
    let volume = match held {
        Held::Nut => shank * length + hexagon * thread.head_mm + (hexagon - shank) * thread.nut_mm + 2.0 * ring,
        Held::WeldNut => shank * length + hexagon * thread.head_mm + (hexagon - shank) * thread.nut_mm + ring,
        Held::Tapped => shank * length + hexagon * thread.head_mm + ring,
        Held::Countersunk => shank * length + shank * thread.head_mm,
    };
    volume * STEEL_KG_PER_M3 * 1e-9
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn rows_and_rings_keep_the_pitch() {
        let r = row(Extent::new(0.0, 1100.0), 120.0, Stock::Metric);
        assert_eq!(r.len(), 11);
        assert!((r[1] - 110.0).abs() < 1e-9);
        let ring = ring(Extent::new(-300.0, 300.0), Extent::new(0.0, 250.0), 120.0, Stock::Metric);
        assert_eq!(ring.len(), 2 * 5 + 2 * 3);
        let mut sorted: Vec<_> = ring.iter().map(|p| format!("{p:?}")).collect();
        sorted.sort();
        sorted.dedup();
        assert_eq!(sorted.len(), ring.len());
        let gaps = |size: f64, stock| row(Extent::new(0.0, size), 120.0, stock).windows(2).map(|w| w[1] - w[0]).collect::<Vec<_>>();
        // 1,103 is a prime: whole pitches, and the rest in the middle.
        assert_eq!(gaps(1103.0, Stock::Metric), [111.0, 111.0, 111.0, 111.0, 107.5, 107.5, 111.0, 111.0, 111.0, 111.0]);
        assert_eq!(gaps(1155.0, Stock::Metric), [105.0; 11]);
        assert_eq!(gaps(250.0, Stock::Metric), [84.0, 82.0, 84.0]);
        assert_eq!(gaps(7.0, Stock::Metric), [7.0]);
        for size in 1..2000 {
            let size = f64::from(size);
            for stock in [Stock::Metric, Stock::Us] {
                let found = gaps(size, stock);
                assert!((found.iter().sum::<f64>() - size).abs() < 1e-6 && found.iter().all(|g| *g > 0.0 && *g < 120.0 + 1e-6), "{size}: {found:?}");
            }
        }
    }

    /// M10 through 8 + 8 + gasket 3: 19 + 2 × 2 + 8.4 + 3 = 34.4 → 35 (ISO 4017 lengths).
    #[test]
    fn lengths() {
        let m10 = bolt("M10", false).unwrap();
        assert_eq!(length(m10, 19.0, Held::Nut), 35.0);
        assert_eq!(length(m10, 16.0, Held::Tapped), 16.0);
        let inch = bolt("M10", true).unwrap();
        let quarters = length(inch, 19.0, Held::Nut) / 6.35;
        assert!((quarters - quarters.round()).abs() < 1e-9 && quarters > 5.0);
    }
}
