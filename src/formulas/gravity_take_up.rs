//! Gravity take-up: the mass in the weight boxes, the room that it needs, what the guides' friction takes of it, what its stop
//! catches.
//!
//! In: forces in N, masses in kg, densities in kg/m³, mm. Out: kg, mm³, N. The guides are pressed by the boxes, which hang beside
//! the bearings; that the belt's pull presses them as well is left to how evenly it runs.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Mass for a wanted tension.
pub const MASS: Source = Source::physics("equilibrium of the hanging pulley: resultant of the belt = weight of everything that hangs");

/// Weight boxes: one on each side (common practice).
pub const BOXES: f64 = 2.0;

/// Weights in a box.
pub const PACKED: Source = Source::practice("steel plates with hand holes and gaps round them");
/// Density of weights packed in a box, kg/m³, as boxes are sized by. Source: [`PACKED`].
pub const PACKED_KG_PER_M3: f64 = 5000.0;

/// Friction in the guides.
pub const GUIDE_FRICTION: Source =
    Source::physics("couple of a box that hangs beside the bearing, taken by both ends of the guided length, times the coefficient of friction");
/// Weights that are not laid in the middle.
pub const UNEVEN: Source = Source::practice("weights laid a tenth of the box's length off its middle");
/// How far off the middle of a box its weights lie along the machine, as a share of its length. Source: [`UNEVEN`].
pub const OFF_MIDDLE: f64 = 0.1;
/// Guided length of what slides.
pub const GUIDED: Source = Source::practice("a slide that does not jam is guided over 1.5 times the distance between its guides");
/// Guided length over the distance between the guides, at least. Source: [`GUIDED`].
pub const LEAST_GUIDED: f64 = 1.5;

/// What the stop catches.
pub const CATCH: Source = Source::physics("energy of the fall taken by an elastic buffer: F = W·(1 + √(1 + 2·k·h/W))");
/// Stiffness of a rubber-like ring that is pressed.
pub const RING: Source = Source::book("Gent, Engineering with Rubber").remark("k = E·(1 + 2·S²)·A/t, S pressed over free surface").from_memory();
/// Polyurethane of 80 Shore A.
pub const BUFFER_MODULUS: Source = Source::practice("modulus of polyurethane of 80 Shore A");
/// Modulus of the buffers, MPa. Source: [`BUFFER_MODULUS`].
pub const BUFFER_MPA: f64 = 30.0;
/// How far a buffer is pressed.
pub const PRESSED: Source = Source::practice("polyurethane is pressed by no more than three tenths of its thickness now and then");
/// Share of its thickness by which a buffer is pressed at most. Source: [`PRESSED`].
pub const MOST_PRESSED: f64 = 0.3;

/// Friction in N of both sides against moving, over the weight (N) of boxes and weights: they hang `out_mm` beside the bearings and
/// `along_mm` off the middle, guided over `guided_mm` by guides with this coefficient. Source: [`GUIDE_FRICTION`].
///
/// ```
/// // 1000 N hang 200 mm out: 400 N press either end of 500 mm, 0.3 of both is 240 N.
/// let share = footwell::formulas::gravity_take_up::friction_share(200.0, 0.0, 500.0, 0.3);
/// assert!((1000.0 * share - 240.0).abs() < 1e-9);
/// ```
pub fn friction_share(out_mm: f64, along_mm: f64, guided_mm: f64, coefficient: f64) -> f64 {
    2.0 * coefficient * (out_mm.abs() + along_mm) / guided_mm
}

/// Mass in kg of weights so that, with what the guides' friction holds back of boxes and weights (share, see [`friction_share`]), the
/// wanted vertical resultant (N) is still there. `own_kg` hangs besides, the empty boxes of `boxes_kg` in it. Source: [`GUIDE_FRICTION`].
///
/// ```
/// use footwell::formulas::gravity_take_up::{mass_needed_kg, mass_with_friction_kg};
/// assert_eq!(mass_with_friction_kg(6000.0, 260.0, 60.0, 0.0), mass_needed_kg(6000.0, 260.0));
/// // 0.2 of m + 60 held back: 0.8 m = 351.8 + 12
/// assert!((mass_with_friction_kg(6000.0, 260.0, 60.0, 0.2) - 454.8).abs() < 0.1);
/// ```
pub fn mass_with_friction_kg(vertical_resultant_n: f64, own_kg: f64, boxes_kg: f64, share: f64) -> f64 {
    (mass_needed_kg(vertical_resultant_n, own_kg) + share * boxes_kg) / (1.0 - share.min(0.9))
}

/// Stiffness in N/mm of a ring pressed along its axis. Source: [`RING`].
///
/// ```
/// // ⌀100/⌀40 × 40 of 30 MPa: S = 60/160, 1 + 2·S² = 1.281, A = 6597 mm²
/// assert!((footwell::formulas::gravity_take_up::ring_n_per_mm(100.0, 40.0, 40.0, 30.0) - 6339.0).abs() < 1.0);
/// ```
pub fn ring_n_per_mm(outer_mm: f64, bore_mm: f64, thick_mm: f64, modulus_mpa: f64) -> f64 {
    let shape = (outer_mm - bore_mm) / (4.0 * thick_mm);
    modulus_mpa * (1.0 + 2.0 * shape * shape) * std::f64::consts::FRAC_PI_4 * (outer_mm * outer_mm - bore_mm * bore_mm) / thick_mm
}

/// Largest force in N with which a buffer (N/mm) stops a weight (N) that has fallen freely by `fall_mm`. Source: [`CATCH`].
///
/// ```
/// // Let go without a fall: twice the weight.
/// assert!((footwell::formulas::gravity_take_up::catch_n(1000.0, 0.0, 500.0) - 2000.0).abs() < 1e-9);
/// ```
pub fn catch_n(weight_n: f64, fall_mm: f64, buffer_n_per_mm: f64) -> f64 {
    weight_n * (1.0 + (1.0 + 2.0 * buffer_n_per_mm * fall_mm / weight_n).sqrt())
}

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

    /// The fall by small steps of time: force of the buffer, weight, motion.
    #[test]
    fn the_catch_agrees_with_the_motion() {
        let (weight, fall, stiff) = (5000.0, 20.0, 900.0);
        let (mass, step) = (weight / GRAVITY, 1e-6);
        let (mut pressed, mut speed, mut most) = (0.0f64, (2.0 * GRAVITY * fall / 1000.0).sqrt() * 1000.0, 0.0f64);
        while speed > 0.0 {
            let force = stiff * pressed;
            most = most.max(force);
            speed += (weight - force) / mass * 1000.0 * step;
            pressed += speed * step;
        }
        assert!((catch_n(weight, fall, stiff) / most - 1.0).abs() < 1e-3);
    }

    /// Statics of a box on its guides: forces at both ends of the guided length hold the couple, friction acts at both.
    #[test]
    fn friction_by_statics() {
        let (weight, out, along, guided, coefficient) = (2400.0, 180.0, 15.0, 640.0, 0.25);
        let pressed = weight * (out + along) / guided;
        assert!((weight * friction_share(out, along, guided, coefficient) - coefficient * 2.0 * pressed).abs() < 1e-9);
        let m = mass_with_friction_kg(9000.0, 300.0, 80.0, 0.15);
        assert!(((m + 300.0) * GRAVITY - 0.15 * (m + 80.0) * GRAVITY - 9000.0).abs() < 1e-9);
    }

    #[test]
    fn the_box() {
        // 785 kg of steel is 0.1 m³
        assert!((volume_mm3(785.0, 7850.0) - 1e8).abs() < 1e-3);
        assert!((filling_height_mm(785.0, 7850.0, 1000.0, 500.0) - 200.0).abs() < 1e-9);
    }
}
