//! Largest usual belt speeds by what is carried.
//!
//! Out: m/s. Speed breaks fragile products at scooping and discharge, aerates meal, and wears belt and buckets.

use crate::sources::Source;

/// Belt speeds of bucket elevators.
pub const SOURCE: Source = Source::practice("2.2 m/s fragile, 2.5 mineral, 2.8 meal, 3.8 grain");

/// What breaks, m/s.
pub const FRAGILE: f64 = 2.2;
/// What is abrasive or lumpy, m/s.
pub const MINERAL: f64 = 2.5;
/// Meal and pellets, m/s.
pub const MEAL: f64 = 2.8;
/// Whole grain, m/s.
pub const GRAIN: f64 = 3.8;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_source_says_the_figures() {
        let said: Vec<f64> = SOURCE.cite.split(|c: char| !c.is_ascii_digit() && c != '.').filter_map(|w| w.parse().ok()).collect();
        assert_eq!(said, [FRAGILE, MINERAL, MEAL, GRAIN]);
    }
}
