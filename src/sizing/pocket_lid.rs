//! How far the lid of a shovel pocket stands over the plane that its frame lies in, with the heads of its bolts.
//!
//! In: wall thickness, the job's stock. Out: mm. Asked when a place for the pocket is looked for and when it is built, so that sensor
//! panels above it keep clear of heads, and not of plates alone.

use super::frame;
use crate::tables::plates::Stock;
use crate::tables::threads::{Thread, of_job};

/// Gasket under a lid, mm.
const GASKET: f64 = 3.0;
/// Between the heads of a lid and what stands above it, mm: paint and a spanner's edge.
pub const AIR: f64 = 6.0;

/// How far a spanner with its ring stands over a lid, mm: washer, ring and handle of the largest usual bolts.
pub const SPANNER: f64 = 26.0;

/// The bolts of a lid.
pub fn bolt(stock: Stock) -> Option<&'static Thread> {
    of_job("M8", stock == Stock::Us)
}

/// Frame, gasket, lid, washer and head, mm.
pub fn stack(wall: f64, stock: Stock) -> f64 {
    frame::thickness(wall, stock) + stock.fine_mm(GASKET) + wall + bolt(stock).map_or(0.0, |b| b.washer_mm() + b.head_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// M8 by ISO 4014: head 5.3, washer 1.6; on a wall of 6: 8 + 3 + 6 + 6.9; on one of 10: 10 + 3 + 10 + 6.9.
    #[test]
    fn by_hand() {
        assert!((stack(6.0, Stock::Metric) - 23.9).abs() < 1e-9);
        assert!((stack(10.0, Stock::Metric) - 29.9).abs() < 1e-9);
    }
}
