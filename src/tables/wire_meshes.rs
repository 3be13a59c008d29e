//! Square meshes of wire that are sold.
//!
//! Out: clear openings in mm, coarse first.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Woven wire of the trade.
pub const SOURCE: Source = Source::practice("square wire meshes that are sold");

/// Metric meshes, clear opening, mm.
pub const METRIC_MM: [f64; 8] = [20.0, 16.0, 12.5, 10.0, 8.0, 6.0, 5.0, 4.0];
/// Meshes of US shops, clear opening, mm: 1/2, 3/8, 5/16, 1/4, 3/16 in.
pub const US_MM: [f64; 5] = [0.5 * MM_PER_INCH, 0.375 * MM_PER_INCH, 0.3125 * MM_PER_INCH, 0.25 * MM_PER_INCH, 0.1875 * MM_PER_INCH];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coarse_first() {
        assert!(METRIC_MM.is_sorted_by(|a, b| a > b) && US_MM.is_sorted_by(|a, b| a > b));
    }
}
