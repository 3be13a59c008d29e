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
/// Least clear size of a throat in lumps of the largest size: even lumps do not arch across it. Source: [`SPOUT_FILLING`].
pub const THROAT_LUMPS: f64 = 3.0;
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

/// A stream that falls onto a throat's floor and slides to the sill, m/s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slide {
    /// Along the floor where it lands.
    pub entry_m_per_s: f64,
    /// At the sill; 0 when it comes to rest on the way.
    pub sill_m_per_s: f64,
    /// What the throat's area is judged by: where the stream is slowest. One that lands with hardly any speed is taken where it
    /// has begun to slide, [`BEGUN`], or half way down if it is slower there.
    pub slowest_m_per_s: f64,
}

/// Speed of material that has just begun to slide, m/s (common practice).
pub const BEGUN: f64 = 1.0;

/// The stream after a free fall of `drop_mm` on a floor `length_mm` long. Source: [`CHUTE_SPEED`].
///
/// ```
/// // 500 mm onto 45°, μ 0.38: lands with 2.21 m/s and gains speed
/// let s = footwell::formulas::flow::slide(500.0, 600.0, 45f64.to_radians(), 0.38);
/// assert!((s.entry_m_per_s - 2.214).abs() < 1e-3 && s.sill_m_per_s > s.entry_m_per_s && s.slowest_m_per_s == s.entry_m_per_s);
/// ```
pub fn slide(drop_mm: f64, length_mm: f64, slope_rad: f64, friction: f64) -> Slide {
    let entry_m_per_s = speed_onto_chute_m_per_s(fall_speed_m_per_s(0.0, drop_mm), slope_rad);
    let after = |length: f64| chute_speed_m_per_s(entry_m_per_s, length, slope_rad, friction);
    let sill_m_per_s = after(length_mm);
    let slowest_m_per_s = if sill_m_per_s < entry_m_per_s { sill_m_per_s } else { entry_m_per_s.max(after(length_mm / 2.0).min(BEGUN)) };
    Slide { entry_m_per_s, sill_m_per_s, slowest_m_per_s }
}

/// What a throat passes, t/h: half full where the stream is slowest, and never more than flows out of the flooded slot. Nothing is sure to
/// pass a floor on which the stream comes to rest.
pub fn throat_passes_t_per_h(stream_t_per_h: f64, flooded_t_per_h: Option<f64>) -> f64 {
    stream_t_per_h.min(flooded_t_per_h.unwrap_or(f64::INFINITY))
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

    /// The slide in small steps of time: m·v' = g·(sin α − μ·cos α), from where it lands to the sill.
    #[test]
    fn slides_followed_in_time() {
        for (drop, length, degrees, mu) in [(500.0, 600.0, 45.0f64, 0.38), (300.0, 900.0, 20.0, 0.5), (800.0, 2000.0, 10.0, 0.4), (0.0, 700.0, 50.0, 0.4)] {
            let slope = degrees.to_radians();
            let s = slide(drop, length, slope, mu);
            let (mut v, mut way, dt) = ((2.0 * GRAVITY * drop / 1000.0).sqrt() * slope.sin(), 0.0, 1e-5);
            let mut slowest = v;
            while way < length / 1000.0 && (v > 0.0 || slope.tan() > mu) {
                v = (v + GRAVITY * (slope.sin() - mu * slope.cos()) * dt).max(0.0);
                way += v * dt;
                slowest = slowest.min(v);
            }
            let rests = way < length / 1000.0;
            assert!((s.sill_m_per_s - if rests { 0.0 } else { v }).abs() < 1e-3, "{degrees}: {s:?} {v}");
            assert!(
                (s.slowest_m_per_s - if rests { 0.0 } else { slowest.max(if drop == 0.0 { BEGUN } else { 0.0 }) }).abs() < 1e-3,
                "{degrees}: {s:?} {slowest}"
            );
        }
        assert_eq!([throat_passes_t_per_h(60.0, Some(40.0)), throat_passes_t_per_h(60.0, None), throat_passes_t_per_h(0.0, Some(40.0))], [40.0, 60.0, 0.0]);
    }

    #[test]
    fn throat() {
        // 120 t/h at 0.75 t/m³, 2.5 m/s, half full: 0.03556 m²
        let a = throat_area_mm2(120.0, 0.75, 2.5, LARGEST_FILLING);
        assert!((a - 35_555.6).abs() < 0.1);
        assert!((throat_capacity_t_per_h(a, 0.75, 2.5, LARGEST_FILLING) - 120.0).abs() < 1e-9);
    }
}
