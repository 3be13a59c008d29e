//! Preferred pulley diameters.
//!
//! In: least diameter in mm. Out: the next preferred diameter in mm. A series of habit, after
//! preferred numbers; any diameter may be made.

use crate::sources::Source;

/// Metric series.
pub const SOURCE: Source = Source::practice("preferred pulley diameters after the R10 and R20 series of ISO 3");

/// Preferred diameters, mm.
pub const ALL_MM: &[f64] = &[
    200.0, 250.0, 315.0, 400.0, 500.0, 560.0, 630.0, 710.0, 800.0, 900.0, 1000.0, 1120.0, 1250.0, 1400.0, 1600.0, 1800.0, 2000.0, 2120.0, 2240.0, 2500.0,
    2800.0,
];

/// The smallest preferred diameter of at least this, mm.
pub fn at_least_mm(diameter_mm: f64) -> Option<f64> {
    ALL_MM.iter().copied().find(|d| *d >= diameter_mm - 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 3: every member lies within 2 % of a member of R40 (10^(i/40)).
    #[test]
    fn preferred_numbers() {
        for d in ALL_MM {
            let i = (d.log10() * 40.0).round();
            assert!((d / 10f64.powf(i / 40.0) - 1.0).abs() < 0.02, "{d}");
        }
        assert!(ALL_MM.windows(2).all(|w| w[0] < w[1]));
        assert_eq!((at_least_mm(600.0), at_least_mm(630.0), at_least_mm(3000.0)), (Some(630.0), Some(630.0), None));
    }
}
