//! The stop of a gravity take-up: a nut on the rod over the bracket's shelf, with a ring of polyurethane and a steel disc between them.
//!
//! In: ring, rod, gap, the job's stock. Out: mm, N. The nut is set a gap over the disc; when the belt parts, what hangs falls by the gap
//! and presses the ring. The same nut and the one under the shelf lock the take-up when both are turned against the shelf.

use crate::formulas::gravity_take_up::{BUFFER_MPA, MOST_PRESSED, catch_n, ring_n_per_mm};
use crate::tables::plates::Stock;

/// Outer diameters of rings that are tried, mm, in metric stock.
const RINGS: [f64; 7] = [60.0, 80.0, 100.0, 120.0, 140.0, 160.0, 200.0];
/// Thickness of a ring over its diameter.
const THICK: f64 = 0.4;
/// Gaps that are tried, mm, in metric stock: the belt stretches by as much before the nut is set anew.
const GAPS: [f64; 4] = [20.0, 15.0, 10.0, 5.0];

/// Sizes of a stop, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// Outer diameter of the ring.
    pub ring: f64,
    /// Its bore: the rod passes freely.
    pub bore: f64,
    /// Its thickness.
    pub thick: f64,
    /// Thickness of the disc on it.
    pub disc: f64,
    /// From the disc to the nut.
    pub gap: f64,
}

impl Stop {
    /// With a ring and a gap on a rod so thick, mm.
    pub fn new(ring: f64, gap: f64, rod: f64, stock: Stock) -> Self {
        Self { ring, bore: rod + stock.fine_mm(2.0), thick: stock.width_mm(THICK * ring).max(stock.step_mm()), disc: stock.plate_mm(10.0), gap }
    }
    /// Rings and gaps that a job's shop may take, mm: wide gaps first.
    pub fn tried(rod: f64, stock: Stock) -> impl Iterator<Item = Self> {
        let rings = move |gap: f64| RINGS.into_iter().map(move |ring| Self::new(stock.width_mm(ring), stock.fine_mm(gap), rod, stock));
        GAPS.into_iter().flat_map(rings).filter(move |s| s.ring >= 2.0 * rod)
    }
    /// From the shelf to the nut, mm.
    pub fn under_nut(&self) -> f64 {
        self.thick + self.disc + self.gap
    }
    /// Stiffness of the ring, N/mm.
    pub fn stiffness(&self) -> f64 {
        ring_n_per_mm(self.ring, self.bore.min(0.9 * self.ring), self.thick, BUFFER_MPA)
    }
    /// Force with which it catches a weight, N.
    pub fn catch(&self, weight: f64) -> f64 {
        catch_n(weight, self.gap, self.stiffness())
    }
    /// Share of its thickness by which the ring is pressed then.
    pub fn pressed(&self, weight: f64) -> f64 {
        self.catch(weight) / self.stiffness() / self.thick
    }
    /// Whether the ring bears it.
    pub fn bears(&self, weight: f64) -> bool {
        self.pressed(weight) <= MOST_PRESSED
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wider_ring_is_pressed_less_and_a_smaller_gap_catches_less() {
        let stop = Stop::new(80.0, 20.0, 24.0, Stock::Metric);
        assert_eq!((stop.bore, stop.thick, stop.disc, stop.under_nut()), (26.0, 32.0, 10.0, 62.0));
        let (wide, near) = (Stop::new(120.0, 20.0, 24.0, Stock::Metric), Stop::new(80.0, 5.0, 24.0, Stock::Metric));
        assert!(wide.pressed(3000.0) < stop.pressed(3000.0) && near.catch(3000.0) < stop.catch(3000.0) && stop.catch(3000.0) > 6000.0);
        assert!(Stop::tried(24.0, Stock::Metric).all(|s| s.ring >= 48.0) && Stop::tried(60.0, Stock::Us).next().is_some());
    }
}
