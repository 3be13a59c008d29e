//! Flat lengths of bent plates.
//!
//! In: thickness and inner radius in mm, opening angle in rad, a K-factor if the shop has its own.
//! Out: mm along the neutral fibre. For cold bending of
//! steel; tables of a shop's own press brake go before this.

use crate::sources::Source;
use std::f64::consts::PI;

/// Correction value and neutral fibre.
pub const DIN_6935: Source = Source::standard("DIN 6935:2011").from_memory();
/// K-factor.
pub const K_FACTOR: Source = Source::physics("arc length of the neutral fibre at K·s from the inner face");

/// Share k of half the thickness at which the neutral fibre lies: 0.65 + 0.5·lg(r/s), at most 1. Source: [`DIN_6935`].
pub fn neutral_fibre_k(radius_mm: f64, thickness_mm: f64) -> f64 {
    let ratio = radius_mm / thickness_mm;
    if ratio > 5.0 { 1.0 } else { (0.65 + 0.5 * ratio.log10()).clamp(0.0, 1.0) }
}

/// K-factor of [`neutral_fibre_k`]: k/2, share of the full thickness.
pub fn k_factor(radius_mm: f64, thickness_mm: f64) -> f64 {
    neutral_fibre_k(radius_mm, thickness_mm) / 2.0
}

/// Length in mm of the neutral fibre in a bend: turn·(r + K·s). The turn is π − opening angle. Source: [`K_FACTOR`].
pub fn arc_length_mm(radius_mm: f64, thickness_mm: f64, opening_rad: f64, k_factor: f64) -> f64 {
    (PI - opening_rad) * (radius_mm + k_factor * thickness_mm)
}

/// Shortest flange in mm that a press brake can hold: about 4·s + r. Common practice, no source.
pub fn shortest_flange_mm(radius_mm: f64, thickness_mm: f64) -> f64 {
    4.0 * thickness_mm + radius_mm
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DIN 6935: correction v in mm, flat length = leg a + leg b + v with legs to the outer tangent corner.
    fn v(r: f64, s: f64, degrees: f64) -> f64 {
        let opening = degrees.to_radians();
        let to_corner = if degrees <= 90.0 { 1.0 } else { ((PI - opening) / 2.0).tan() };
        arc_length_mm(r, s, opening, k_factor(r, s)) - 2.0 * (r + s) * to_corner
    }

    /// DIN 6935 factor k by r/s, and K = k/2.
    #[test]
    fn factor_table() {
        for (ratio, k, half) in [
            (0.5, 0.4995, 0.2497),
            (0.8, 0.6015, 0.3008),
            (1.0, 0.6500, 0.3250),
            (1.5, 0.7380, 0.3690),
            (2.0, 0.8005, 0.4003),
            (3.0, 0.8886, 0.4443),
            (4.0, 0.9510, 0.4755),
            (5.0, 0.9995, 0.4997),
        ] {
            assert!((neutral_fibre_k(ratio * 3.0, 3.0) - k).abs() < 6e-5, "{ratio}");
            assert!((k_factor(ratio * 3.0, 3.0) - half).abs() < 6e-5, "{ratio}");
        }
        assert_eq!(neutral_fibre_k(18.0, 3.0), 1.0);
        assert_eq!(neutral_fibre_k(0.0, 3.0), 0.0);
    }

    /// Computed corrections for 90° and one for 135°.
    #[test]
    fn corrections() {
        for (s, want) in [(1.0, -1.9187), (2.0, -3.8374), (2.5, -4.7967), (3.0, -5.7561), (4.0, -7.6748), (6.0, -11.5122)] {
            assert!((v(s, s, 90.0) - want).abs() < 1e-4, "{s}");
        }
        assert!((v(5.0, 4.0, 90.0) + 7.9518).abs() < 1e-4);
        assert!((v(16.0, 3.0, 90.0) + 10.5111).abs() < 1e-4);
        assert!((v(3.0, 3.0, 135.0) + 1.8486).abs() < 1e-4);
        // 60°: the arc of 120° less both tangents to the corner, and 165°, the last angle that is corrected: 15° of arc
        assert!((v(3.0, 3.0, 60.0) - (120f64.to_radians() * 3.975 - 12.0)).abs() < 1e-9);
        assert!((v(3.0, 3.0, 165.0) - (15f64.to_radians() * 3.975 - 12.0 * 7.5f64.to_radians().tan())).abs() < 1e-9);
    }

    /// L-bracket 50 × 50 outside, s = r = 3: 94.244; the same by straight parts and arc: 44 + 44 + π/2·(3 + 0.975).
    #[test]
    fn bracket() {
        let flat = 50.0 + 50.0 + v(3.0, 3.0, 90.0);
        assert!((flat - 94.244).abs() < 1e-3);
        assert!((44.0 + 44.0 + arc_length_mm(3.0, 3.0, PI / 2.0, 0.325) - flat).abs() < 1e-9);
        assert_eq!(shortest_flange_mm(3.0, 3.0), 15.0);
    }
}
