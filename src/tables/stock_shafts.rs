//! Stock shaft diameters.
//!
//! In: least diameter in mm. Out: the next stock diameter in mm, metric or inch.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Stock bright shafting.
pub const SOURCE: Source = Source::practice("usual stock shaft diameters that fit insert bearings");

/// Metric stock diameters, mm.
pub const METRIC_MM: &[f64] = &[25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 75.0, 80.0, 85.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0];
/// Inch stock diameters, sixteenths of an inch.
pub const INCH_16: &[u16] = &[16, 19, 23, 24, 27, 28, 31, 32, 35, 36, 39, 40, 44, 47, 48, 52, 55, 56, 63, 64, 71, 79, 87];

/// The smallest metric stock shaft of at least this diameter, mm.
pub fn metric_at_least_mm(diameter_mm: f64) -> Option<f64> {
    METRIC_MM.iter().copied().find(|d| *d >= diameter_mm - 1e-9)
}

/// The smallest inch stock shaft of at least this diameter, both in mm.
pub fn inch_at_least_mm(diameter_mm: f64) -> Option<f64> {
    INCH_16.iter().map(|s| f64::from(*s) / 16.0 * MM_PER_INCH).find(|d| *d >= diameter_mm - 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_one_up() {
        assert_eq!(metric_at_least_mm(63.2), Some(65.0));
        assert_eq!(metric_at_least_mm(65.0), Some(65.0));
        assert_eq!((metric_at_least_mm(121.0), metric_at_least_mm(141.0)), (Some(130.0), None));
        assert!(inch_at_least_mm(60.0).is_some_and(|d| (d - 2.4375 * 25.4).abs() < 1e-9));
        assert_eq!(inch_at_least_mm(139.0), None);
        assert!(METRIC_MM.windows(2).all(|w| w[0] < w[1]) && INCH_16.windows(2).all(|w| w[0] < w[1]));
    }

    /// Every stock shaft has an insert bearing, but for inch ones that are turned down to it.
    #[test]
    fn bearings_fit() {
        for d in METRIC_MM {
            assert!(crate::tables::bearings::by_bore_mm(*d).is_some(), "{d}");
        }
    }
}
