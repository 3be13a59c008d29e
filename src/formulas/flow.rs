//! Product in chutes, throats and orifices: speeds, areas, slopes.
//!
//! In: mm, m/s, t/h, t/m³, rad. Out: m/s, mm², t/h, rad. Particles slide as a block with one friction
//! coefficient; the orifice formulas hold for free-flowing product only, and say where they end.

use crate::sources::Source;
use crate::units::GRAVITY;
use std::f64::consts::PI;

/// Speed in a chute.
pub const CHUTE_SPEED: Source = Source::physics("sliding block: v² = v0² + 2·g·s·(sin α − μ·cos α)");
/// Throat area by continuity.
pub const THROAT: Source = Source::physics("continuity: A = Q/(ρ·v·filling)");
/// Filling of a gravity spout.
pub const SPOUT_FILLING: Source = Source::practice("a gravity spout runs at most half full; throat at least three times the largest lump");
/// Flow through an opening.
pub const ORIFICE: Source = Source::book("Beverloo 1961: W = C·ρ·√g·(D − k·d)^{5/2}");
/// Flow through a slot.
pub const SLOT: Source = Source::book("Nedderman, Statics and Kinematics of Granular Materials: slot form of Beverloo").from_memory();
/// Flow of powders through an opening.
pub const POWDER: Source = Source::book("food engineering text: W = Cd·ρ·(π/4)·√(g/(2·tan β))·D^2.5").from_memory();
/// Valley angle.
pub const VALLEY: Source = Source::physics("line of intersection of two planes square in plan: cot²ν = cot²α + cot²β");

/// Largest filling of a gravity spout, share of its area. Source: [`SPOUT_FILLING`].
pub const LARGEST_FILLING: f64 = 0.5;
/// Width of a throat for what breaks or dusts, of the buckets' length (common practice).
pub const NARROW_THROAT: f64 = 0.8;
/// Usual Beverloo coefficient C.
pub const BEVERLOO_C: f64 = 0.58;
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

/// Flow in t/h out of a flooded round opening. Source: [`ORIFICE`]. `None` outside its range: opening
/// not above 6 particle sizes, or particles under 0.5 mm.
///
/// ```
/// // wheat, 780 kg/m³, 200 mm, 4 mm: 85.0 t/h
/// let q = footwell::formulas::flow::orifice_t_per_h(0.78, 200.0, 4.0, 0.58, 1.4).unwrap();
/// assert!((q - 85.0).abs() < 0.05);
/// ```
pub fn orifice_t_per_h(density_t_per_m3: f64, diameter_mm: f64, particle_mm: f64, c: f64, k: f64) -> Option<f64> {
    orifice_valid(diameter_mm, particle_mm).then(|| 3600.0 * c * density_t_per_m3 * GRAVITY.sqrt() * ((diameter_mm - k * particle_mm) / 1000.0).powf(2.5))
}

/// Flow in t/h out of a flooded slot `length` × `width`: 1.03·ρ·√g·(L − kd)(B − kd)^{3/2}. Source: [`SLOT`].
/// The range is that of [`orifice_t_per_h`], for the narrow side.
pub fn slot_t_per_h(density_t_per_m3: f64, length_mm: f64, width_mm: f64, particle_mm: f64, k: f64) -> Option<f64> {
    let (long, narrow) = (length_mm.max(width_mm), length_mm.min(width_mm));
    orifice_valid(narrow, particle_mm)
        .then(|| 3600.0 * 1.03 * density_t_per_m3 * GRAVITY.sqrt() * (long - k * particle_mm) / 1000.0 * ((narrow - k * particle_mm) / 1000.0).powf(1.5))
}

fn orifice_valid(opening_mm: f64, particle_mm: f64) -> bool {
    particle_mm >= 0.5 && opening_mm > 6.0 * particle_mm
}

/// Diameter in mm of an opening that lets a powder flow of `flow_kg_per_s` pass; β is the angle of the
/// hopper wall in rad. Source: [`POWDER`].
pub fn powder_diameter_mm(flow_kg_per_s: f64, density_kg_per_m3: f64, coefficient: f64, wall_rad: f64) -> f64 {
    1000.0 * (flow_kg_per_s / (coefficient * density_kg_per_m3 * PI / 4.0 * (GRAVITY / (2.0 * wall_rad.tan())).sqrt())).powf(0.4)
}

/// Slope in rad of the valley where two chute walls meet whose plans are square to each other; slopes
/// of the walls in rad. Source: [`VALLEY`].
///
/// ```
/// let v = footwell::formulas::flow::valley_rad(60f64.to_radians(), 60f64.to_radians());
/// assert!((v.to_degrees() - 50.768).abs() < 1e-3);
/// ```
pub fn valley_rad(one_rad: f64, other_rad: f64) -> f64 {
    (1.0 / (1.0 / one_rad.tan()).hypot(1.0 / other_rad.tan())).atan()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// Computed Beverloo cases, C 0.58, k 1.4, g 9.81: kg/s.
    #[test]
    fn beverloo() {
        for (rho, d, p, w) in
            [(0.780, 200.0, 4.0, 23.610), (0.780, 250.0, 4.0, 41.842), (0.720, 200.0, 8.0, 20.258), (0.650, 200.0, 8.0, 18.289), (1.500, 100.0, 0.5, 8.467)]
        {
            let got = orifice_t_per_h(rho, d, p, BEVERLOO_C, BEVERLOO_K).unwrap() / 3.6;
            assert!((got / w - 1.0).abs() < 5e-4, "{d} {p}: {got}");
        }
        let slot = slot_t_per_h(0.780, 400.0, 150.0, 4.0, 1.4).unwrap();
        assert!((slot / 3.6 / 54.457 - 1.0).abs() < 5e-4);
        assert_eq!(slot_t_per_h(0.780, 150.0, 400.0, 4.0, 1.4).unwrap(), slot);
        assert!(orifice_t_per_h(0.6, 200.0, 0.05, 0.58, 1.4).is_none());
        assert!(orifice_t_per_h(0.6, 48.0, 8.0, 0.58, 1.4).is_none());
        assert!(orifice_t_per_h(0.6, 48.1, 8.0, 0.58, 1.4).is_some());
        assert!(slot_t_per_h(0.6, 400.0, 20.0, 4.0, 1.4).is_none());
    }

    /// Food engineering text, problem data: 650 kg/m³, 5 kg/min, β 55°, Cd 0.6: 29.3 mm (computed).
    #[test]
    fn powder() {
        assert!((powder_diameter_mm(5.0 / 60.0, 650.0, 0.6, 55f64.to_radians()) - 29.3).abs() < 0.05);
    }

    /// Computed valley angles.
    #[test]
    fn valleys() {
        for (a, b, v) in [
            (45.0f64, 45.0f64, 35.264),
            (50.0, 50.0, 40.121),
            (55.0, 55.0, 45.281),
            (60.0, 60.0, 50.768),
            (65.0, 65.0, 56.597),
            (60.0, 70.0, 55.686),
            (60.0, 90.0, 60.0),
        ] {
            assert!((valley_rad(a.to_radians(), b.to_radians()).to_degrees() - v).abs() < 1e-3, "{a}/{b}");
        }
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
