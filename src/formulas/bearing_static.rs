//! Static safety of a rolling bearing: what it stands at rest, or in one turn, without lasting dents.
//!
//! In: N. Out: a ratio. Radial loads on ball bearings only.

use crate::sources::Source;

/// Static safety.
pub const STATIC: Source = Source::standard("ISO 76:2006").remark("static safety C0 over P0").from_memory();
/// Wanted static safety.
pub const LEAST: Source = Source::practice("static safety of ball bearings: 1 for quiet running afterwards, 0.5 where dents may be heard");

/// Static safety that leaves a ball bearing running quietly. Source: [`LEAST`].
pub const QUIET: f64 = 1.0;
/// Static safety under which it is spoiled. Source: [`LEAST`].
pub const SPOILED: f64 = 0.5;

/// Equivalent static load of a deep groove ball bearing, N: the larger of 0.6·F_r + 0.5·F_a and F_r. Source: [`STATIC`].
///
/// ```
/// use footwell::formulas::bearing_static::equivalent_n;
/// assert_eq!((equivalent_n(5000.0, 2000.0), equivalent_n(5000.0, 5000.0)), (5000.0, 5500.0));
/// ```
pub fn equivalent_n(radial_n: f64, axial_n: f64) -> f64 {
    (0.6 * radial_n + 0.5 * axial_n).max(radial_n)
}

/// Static safety s0 = C0/P0 under a radial load. Source: [`STATIC`].
pub fn safety(rating_n: f64, radial_n: f64) -> f64 {
    rating_n / equivalent_n(radial_n, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A 6210 (C0 19.6 kN, Shigley Table 11-2) under 14 kN radial: 1.4.
    #[test]
    fn textbook_rating() {
        assert!((safety(19_600.0, 14_000.0) - 1.4).abs() < 1e-12);
        assert!(equivalent_n(1000.0, 800.0) - 1000.0 == 0.0 && equivalent_n(1000.0, 801.0) > 1000.0);
    }
}
