//! Product in chutes, throats and orifices: speeds, areas, slopes.
//!
//! In: mm, m/s, t/h, t/m³, rad. Out: m/s, mm², t/h, rad. Particles slide as a block with one friction
//! coefficient; the orifice formulas hold for free-flowing product only, and say where they end.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Speed in a chute.
pub const CHUTE_SPEED: Source = Source::physics("sliding block: v² = v0² + 2·g·s·(sin α − μ·cos α)");
/// Throat area by continuity.
pub const THROAT: Source = Source::physics("continuity: A = Q/(ρ·v·filling)");
/// Filling of a gravity spout.
pub const SPOUT_FILLING: Source = Source::practice("a gravity spout runs at most half full; throat at least three times the largest lump");
/// Flow through a slot.
pub const SLOT: Source = Source::book("Nedderman, Statics and Kinematics of Granular Materials").remark("flow through a slot after Beverloo").from_memory();

/// Largest filling of a gravity spout, share of its area. Source: [`SPOUT_FILLING`].
pub const LARGEST_FILLING: f64 = 0.5;
/// Width of a throat for what breaks or dusts, of the buckets' length (common practice).
pub const NARROW_THROAT: f64 = 0.8;
/// Usual Beverloo coefficient k (1.4 for spheres, up to about 2.9 for sand).
pub const BEVERLOO_K: f64 = 1.4;

/// Speed in m/s after a free fall of `drop_mm` from a downward speed of `start_m_per_s`.
pub fn fall_speed_m_per_s(start_m_per_s: f64, drop_mm: f64) -> f64 {
    (start_m_per_s * start_m_per_s + 2.0 * GRAVITY * drop_mm / 1000.0).max(0.0).sqrt()
}

/// Speed along a chute floor, m/s, of a stream that falls onto it vertically: the part along the floor
/// stays, v·sin α; the part across is lost in the impact. Slope in rad to the horizontal.
pub fn speed_onto_chute_m_per_s(falling_m_per_s: f64, slope_rad: f64) -> f64 {
    falling_m_per_s * slope_rad.sin()
}

/// Speed in m/s after sliding `length_mm` down a slope (rad) with friction μ. Source: [`CHUTE_SPEED`].
/// Zero when the product comes to rest on the way.
///
/// ```
/// // 1 m at 45° with μ = 0.38 from rest: 2.93 m/s
/// let v = footwell::formulas::flow::chute_speed_m_per_s(0.0, 1000.0, 45f64.to_radians(), 0.38);
/// assert!((v - 2.932).abs() < 1e-3);
/// ```
pub fn chute_speed_m_per_s(start_m_per_s: f64, length_mm: f64, slope_rad: f64, friction: f64) -> f64 {
    (start_m_per_s * start_m_per_s + 2.0 * GRAVITY * length_mm / 1000.0 * (slope_rad.sin() - friction * slope_rad.cos())).max(0.0).sqrt()
}

/// Slope in rad at which product just slides: atan μ.
pub fn sliding_slope_rad(friction: f64) -> f64 {
    friction.atan()
}

/// Throat area in mm²: Q (t/h), ρ (t/m³), v (m/s), filling (share of the area). Source: [`THROAT`].
pub fn throat_area_mm2(capacity_t_per_h: f64, density_t_per_m3: f64, speed_m_per_s: f64, filling: f64) -> f64 {
    capacity_t_per_h / (3600.0 * density_t_per_m3 * speed_m_per_s * filling) * 1e6
}

/// Capacity in t/h of a throat: the inverse of [`throat_area_mm2`].
pub fn throat_capacity_t_per_h(area_mm2: f64, density_t_per_m3: f64, speed_m_per_s: f64, filling: f64) -> f64 {
    area_mm2 * 1e-6 * 3600.0 * density_t_per_m3 * speed_m_per_s * filling
}

/// Flow in t/h out of a flooded slot `length` × `width`: 1.03·ρ·√g·(L − kd)(B − kd)^{3/2}. Source: [`SLOT`].
/// `None` outside its range: narrow side not above 6 particle sizes, or particles under 0.5 mm.
pub fn slot_t_per_h(density_t_per_m3: f64, length_mm: f64, width_mm: f64, particle_mm: f64, k: f64) -> Option<f64> {
    let (long, narrow) = (length_mm.max(width_mm), length_mm.min(width_mm));
    orifice_valid(narrow, particle_mm)
        .then(|| 3600.0 * 1.03 * density_t_per_m3 * GRAVITY.sqrt() * (long - k * particle_mm) / 1000.0 * ((narrow - k * particle_mm) / 1000.0).powf(1.5))
}

fn orifice_valid(opening_mm: f64, particle_mm: f64) -> bool {
    particle_mm >= 0.5 && opening_mm > 6.0 * particle_mm
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::f64::consts::PI;

    /// Computed slot case, k 1.4, g 9.81: wheat 780 kg/m³, 4 mm, 400 × 150: 54.457 kg/s.
    #[test]
    fn slot() {
        let slot = slot_t_per_h(0.780, 400.0, 150.0, 4.0, BEVERLOO_K).unwrap();
        assert!((slot / 3.6 / 54.457 - 1.0).abs() < 5e-4);
        assert_eq!(slot_t_per_h(0.780, 150.0, 400.0, 4.0, BEVERLOO_K).unwrap(), slot);
        let passes = |narrow: f64, particle: f64| slot_t_per_h(0.6, 400.0, narrow, particle, BEVERLOO_K).is_some();
        assert!(!passes(200.0, 0.05) && !passes(48.0, 8.0) && passes(48.1, 8.0) && !passes(20.0, 4.0));
    }

    /// Energy: without friction the speed is that of the fall; at the sliding slope it stays.
    #[test]
    fn speeds() {
        let slope = 50f64.to_radians();
        assert!((chute_speed_m_per_s(1.2, 800.0, slope, 0.0) - fall_speed_m_per_s(1.2, 800.0 * slope.sin())).abs() < 1e-12);
        assert!((chute_speed_m_per_s(1.2, 800.0, sliding_slope_rad(0.4), 0.4) - 1.2).abs() < 1e-12);
        assert_eq!(chute_speed_m_per_s(0.5, 5000.0, 0.1, 0.6), 0.0);
        assert!((fall_speed_m_per_s(0.0, 1000.0) - 4.4287).abs() < 1e-4);
        assert!((speed_onto_chute_m_per_s(4.0, PI / 6.0) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn throat() {
        // 120 t/h at 0.75 t/m³, 2.5 m/s, half full: 0.03556 m²
        let a = throat_area_mm2(120.0, 0.75, 2.5, LARGEST_FILLING);
        assert!((a - 35_555.6).abs() < 0.1);
        assert!((throat_capacity_t_per_h(a, 0.75, 2.5, LARGEST_FILLING) - 120.0).abs() < 1e-9);
    }
}
