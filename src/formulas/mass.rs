//! Masses of plates, drums, discs and shafts.
//!
//! In: mm, mm², density in kg/m³. Out: kg. Welds, paint and rolling tolerance are left out.

use crate::sources::Source;
use std::f64::consts::PI;

/// Mass from volume.
pub const MASS: Source = Source::physics("volume times density");
/// Density of steel, 7850 kg/m³.
pub const STEEL: Source = Source::standard("EN 1991-1-1 Table A.4").remark("steel").from_memory();

/// Density of steel, kg/m³. Source: [`STEEL`].
pub const STEEL_KG_PER_M3: f64 = 7850.0;

/// Mass of a plate in kg from its net area (mm²) and thickness (mm). Source: [`MASS`].
///
/// ```
/// // 1 m × 2 m × 4 mm of steel: 62.80 kg
/// let m = footwell::formulas::mass::plate_kg(2e6, 4.0, footwell::formulas::mass::STEEL_KG_PER_M3);
/// assert!((m - 62.80).abs() < 1e-9);
/// ```
pub fn plate_kg(area_mm2: f64, thickness_mm: f64, density_kg_per_m3: f64) -> f64 {
    area_mm2 * thickness_mm * density_kg_per_m3 * 1e-9
}

/// Mass of a round bar or disc in kg: diameter and length (mm).
pub fn round_kg(diameter_mm: f64, length_mm: f64, density_kg_per_m3: f64) -> f64 {
    plate_kg(PI / 4.0 * diameter_mm * diameter_mm, length_mm, density_kg_per_m3)
}

/// Mass of a tube, drum shell or ring in kg: outer and inner diameter and length (mm).
pub fn tube_kg(outer_mm: f64, inner_mm: f64, length_mm: f64, density_kg_per_m3: f64) -> f64 {
    round_kg(outer_mm, length_mm, density_kg_per_m3) - round_kg(inner_mm, length_mm, density_kg_per_m3)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed: 1 × 2 m × 4 mm = 62.80 kg; 7.85 kg per m² and mm; round bar 100 mm: 61.65 kg/m.
    #[test]
    fn steel() {
        assert!((plate_kg(2e6, 4.0, STEEL_KG_PER_M3) - 62.80).abs() < 1e-9);
        assert!((plate_kg(1e6, 1.0, STEEL_KG_PER_M3) - 7.85).abs() < 1e-12);
        assert!((round_kg(100.0, 1000.0, STEEL_KG_PER_M3) - 61.654).abs() < 1e-3);
        assert!((tube_kg(100.0, 80.0, 1000.0, STEEL_KG_PER_M3) - 61.654 * 0.36).abs() < 1e-3);
    }
}
