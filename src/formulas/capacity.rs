//! What a bucket elevator carries, and the inverses: fill, speed and spacing that a duty needs.
//!
//! In: bucket volume in l, spacing in mm, belt speed in m/s, bulk density in t/m³, fill factor.
//! Out: t/h, m³/h, kg/m. Bucket volume is the water-level volume unless the caller means otherwise;
//! the fill factor must stand on the same basis.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Mass capacity Q = 3.6·(V/a)·v·ρ·φ.
pub const CAPACITY: Source = Source::book("Spivakovsky, Dyachkov, Conveying Machines").remark("by volume, as in handbooks of cement works").from_memory();
/// Line load q = Q/(3.6·v).
pub const LINE_LOAD: Source = Source::physics("mass flow divided by speed");
/// Number of buckets on a belt.
pub const BUCKETS: Source = Source::physics("belt length divided by spacing, rounded to whole buckets");

/// Mass capacity in t/h.
///
/// Q = 3.6·(V/a)·v·ρ·φ with V bucket volume (l), `rows` rows side by side, a spacing (mm), v belt
/// speed (m/s), ρ bulk density (t/m³), φ fill factor (share of V). All positive. Source: [`CAPACITY`].
///
/// ```
/// let q = footwell::formulas::capacity::capacity_t_per_h(2.5, 1, 320.0, 2.0, 0.75, 0.75);
/// assert!((q - 31.6406).abs() < 1e-4);
/// ```
pub fn capacity_t_per_h(volume_l: f64, rows: u32, spacing_mm: f64, speed_m_per_s: f64, density_t_per_m3: f64, fill: f64) -> f64 {
    volume_flow_m3_per_h(volume_l, rows, spacing_mm, speed_m_per_s, fill) * density_t_per_m3
}

/// Volume flow in m³/h: L = 3.6·(V/a)·v·φ with a in m. Source: [`CAPACITY`].
pub fn volume_flow_m3_per_h(volume_l: f64, rows: u32, spacing_mm: f64, speed_m_per_s: f64, fill: f64) -> f64 {
    3.6 * volume_l * f64::from(rows) / (spacing_mm / 1000.0) * speed_m_per_s * fill
}

/// Fill factor that a duty of `capacity_t_per_h` needs; above 1 means that it cannot be reached.
pub fn fill_needed(capacity_t_per_h: f64, volume_l: f64, rows: u32, spacing_mm: f64, speed_m_per_s: f64, density_t_per_m3: f64) -> f64 {
    capacity_t_per_h / self::capacity_t_per_h(volume_l, rows, spacing_mm, speed_m_per_s, density_t_per_m3, 1.0)
}

/// Belt speed in m/s that a duty needs at a given fill.
pub fn speed_needed_m_per_s(capacity_t_per_h: f64, volume_l: f64, rows: u32, spacing_mm: f64, density_t_per_m3: f64, fill: f64) -> f64 {
    capacity_t_per_h / self::capacity_t_per_h(volume_l, rows, spacing_mm, 1.0, density_t_per_m3, fill)
}

/// Largest bucket spacing in mm at which a duty is still met.
pub fn spacing_needed_mm(capacity_t_per_h: f64, volume_l: f64, rows: u32, speed_m_per_s: f64, density_t_per_m3: f64, fill: f64) -> f64 {
    self::capacity_t_per_h(volume_l, rows, 1.0, speed_m_per_s, density_t_per_m3, fill) / capacity_t_per_h
}

/// Bucket volume in l (per bucket) that a duty needs.
pub fn volume_needed_l(capacity_t_per_h: f64, rows: u32, spacing_mm: f64, speed_m_per_s: f64, density_t_per_m3: f64, fill: f64) -> f64 {
    capacity_t_per_h / self::capacity_t_per_h(1.0, rows, spacing_mm, speed_m_per_s, density_t_per_m3, fill)
}

/// Product mass per metre of the up run in kg/m: q = Q/(3.6·v). Source: [`LINE_LOAD`].
///
/// ```
/// // 32.4 t/h at 3 m/s is 3 kg/m
/// assert!((footwell::formulas::capacity::line_load_kg_per_m(32.4, 3.0) - 3.0).abs() < 1e-12);
/// ```
pub fn line_load_kg_per_m(capacity_t_per_h: f64, speed_m_per_s: f64) -> f64 {
    capacity_t_per_h / (3.6 * speed_m_per_s)
}

/// Mass of belt and empty buckets per metre in kg/m: belt mass per metre + rows·bucket mass/spacing.
///
/// ```
/// // belt 4.6 kg/m, buckets 4 kg at 300 mm: 17.933 kg/m (published student calculation)
/// let q = footwell::formulas::capacity::empty_line_mass_kg_per_m(4.6, 4.0, 1, 300.0);
/// assert!((q - 17.9333).abs() < 1e-4);
/// ```
pub fn empty_line_mass_kg_per_m(belt_kg_per_m: f64, bucket_kg: f64, rows: u32, spacing_mm: f64) -> f64 {
    belt_kg_per_m + bucket_kg * f64::from(rows) / (spacing_mm / 1000.0)
}

/// Weight of a hanging run in N: g·(line masses)·height, mass per metre in kg/m, height in m.
pub fn run_weight_n(line_mass_kg_per_m: f64, height_m: f64) -> f64 {
    GRAVITY * line_mass_kg_per_m * height_m
}

/// Whole buckets in one row on a belt: the belt length over the spacing, rounded down, so that the
/// spacing that results is not smaller than wished. Source: [`BUCKETS`]. Zero for senseless input.
pub fn buckets_per_row(belt_length_mm: f64, spacing_mm: f64) -> u32 {
    let count = (belt_length_mm / spacing_mm + 1e-9).floor();
    // A cast of a float stops at the ends of the range, 0 and the largest count.
    if count.is_finite() { count as u32 } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed example of the volume form: 2.5 l at 0.32 m, 2 m/s, 0.75 t/m³, fill 0.75.
    #[test]
    fn capacity_example() {
        assert!((volume_flow_m3_per_h(2.5, 1, 320.0, 2.0, 0.75) - 42.1875).abs() < 1e-9);
        assert!((capacity_t_per_h(2.5, 1, 320.0, 2.0, 0.75, 0.75) - 31.640_625).abs() < 1e-9);
        assert!((capacity_t_per_h(2.5, 2, 320.0, 2.0, 0.75, 0.75) - 63.281_25).abs() < 1e-9);
    }

    /// Published student calculation: buckets 1.5 l, 4 kg, 0.3 m, belt 4.6 kg/m, q 3 kg/m, 50 m, g 9.81.
    #[test]
    fn student_calculation() {
        let empty = empty_line_mass_kg_per_m(4.6, 4.0, 1, 300.0);
        assert!((empty_line_mass_kg_per_m(4.6, 4.0, 2, 300.0) - (4.6 + 26.6667)).abs() < 1e-4);
        let g = 9.81 / GRAVITY;
        assert!((run_weight_n(empty + 3.0, 50.0) * g - 10_267.8).abs() < 0.1);
        assert!((run_weight_n(empty, 50.0) * g - 8_796.3).abs() < 0.1);
        assert!((line_load_kg_per_m(32.4, 3.0) - 3.0).abs() < 1e-12);
    }

    #[test]
    fn inverses_meet_the_duty() {
        let (v, rows, a, speed, rho, fill) = (3.3, 2, 280.0, 2.9, 0.72, 0.71);
        let q = capacity_t_per_h(v, rows, a, speed, rho, fill);
        assert!((fill_needed(q, v, rows, a, speed, rho) - fill).abs() < 1e-12);
        assert!((speed_needed_m_per_s(q, v, rows, a, rho, fill) - speed).abs() < 1e-12);
        assert!((spacing_needed_mm(q, v, rows, speed, rho, fill) - a).abs() < 1e-9);
        assert!((volume_needed_l(q, rows, a, speed, rho, fill) - v).abs() < 1e-12);
    }

    #[test]
    fn whole_buckets() {
        assert_eq!(buckets_per_row(60_000.0, 300.0), 200);
        assert_eq!(buckets_per_row(59_999.0, 300.0), 199);
        assert_eq!(buckets_per_row(60_000.0, 0.0), 0);
        assert_eq!(buckets_per_row(-5.0, 300.0), 0);
        assert_eq!(buckets_per_row(f64::NAN, 300.0), 0);
    }
}
