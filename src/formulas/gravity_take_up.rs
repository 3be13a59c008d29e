//! Gravity take-up: the mass in the weight boxes and the room that it needs.
//!
//! In: forces in N, masses in kg, densities in kg/m³. Out: kg, mm³. Friction in the guides is left out:
//! it eats part of the weight on the way down, so a job with stiff guides needs more.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Mass for a wanted tension.
pub const MASS: Source = Source::physics("equilibrium of the hanging pulley: resultant of the belt = weight of everything that hangs");

/// Weight boxes: one on each side (common practice).
pub const BOXES: f64 = 2.0;

/// Weights in a box.
pub const PACKED: Source = Source::practice("cast iron 7200 kg/m³ with about 30 % gaps");
/// Density of cast weights packed in a box, kg/m³. Source: [`PACKED`].
pub const PACKED_KG_PER_M3: f64 = 5000.0;

/// Mass in kg to put into the weight box: (vertical resultant wanted)/g − own mass of pulley, shaft,
/// bearings, frame and empty box. Negative when these alone pull harder than wanted. Source: [`MASS`].
///
/// ```
/// let m = footwell::formulas::gravity_take_up::mass_needed_kg(6000.0, 260.0);
/// assert!((m - 351.8).abs() < 0.1);
/// ```
pub fn mass_needed_kg(vertical_resultant_n: f64, own_mass_kg: f64) -> f64 {
    vertical_resultant_n / GRAVITY - own_mass_kg
}

/// Vertical resultant in N that a mass in the box gives: the inverse of [`mass_needed_kg`].
pub fn vertical_resultant_n(box_mass_kg: f64, own_mass_kg: f64) -> f64 {
    (box_mass_kg + own_mass_kg) * GRAVITY
}

/// Pull of the two belt runs on the foot pulley upwards in N: up run vertical, down run leaning by an
/// angle to the vertical (rad, 0 for a vertical run).
pub fn belt_pull_up_n(up_run_n: f64, down_run_n: f64, down_run_lean_rad: f64) -> f64 {
    up_run_n + down_run_n * down_run_lean_rad.cos()
}

/// Volume in mm³ of a mass of weights (kg) at the density of the filling (kg/m³, with its gaps).
pub fn volume_mm3(mass_kg: f64, filling_kg_per_m3: f64) -> f64 {
    mass_kg / filling_kg_per_m3 * 1e9
}

/// Height in mm that the filling takes in a box of a given inner length and width (mm).
pub fn filling_height_mm(mass_kg: f64, filling_kg_per_m3: f64, length_mm: f64, width_mm: f64) -> f64 {
    volume_mm3(mass_kg, filling_kg_per_m3) / (length_mm * width_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equilibrium() {
        let m = mass_needed_kg(6000.0, 260.0);
        assert!((vertical_resultant_n(m, 260.0) - 6000.0).abs() < 1e-9);
        assert!(mass_needed_kg(1000.0, 260.0) < 0.0);
        assert!((belt_pull_up_n(3000.0, 2500.0, 0.0) - 5500.0).abs() < 1e-12);
        assert!((belt_pull_up_n(3000.0, 2500.0, 60f64.to_radians()) - 4250.0).abs() < 1e-9);
    }

    #[test]
    fn the_box() {
        // 785 kg of steel is 0.1 m³
        assert!((volume_mm3(785.0, 7850.0) - 1e8).abs() < 1e-3);
        assert!((filling_height_mm(785.0, 7850.0, 1000.0, 500.0) - 200.0).abs() < 1e-9);
    }
}
