//! Plate thicknesses and hubs of a welded pulley, and what they weigh.
//!
//! In: diameters in mm, the job's stock. Out: mm, kg. Fabrication sizes by common practice (no source), not a strength
//! calculation. The mass is for who needs one before the parts are made; the parts weigh their bodies.

use crate::formulas::mass::{STEEL_KG_PER_M3, round_kg, tube_kg};
use crate::tables::plates::Stock;

/// Thickness of the rim, mm, from stock.
pub fn rim(stock: Stock, diameter: f64) -> f64 {
    stock.plate_mm(wall(diameter))
}

/// Thickness of the end discs, mm, from stock.
pub fn disc(stock: Stock, diameter: f64) -> f64 {
    stock.plate_mm(wall(diameter) + 2.0)
}

/// Rim thickness for a diameter, mm.
const fn wall(diameter: f64) -> f64 {
    match diameter {
        d if d <= 350.0 => 6.0,
        d if d <= 800.0 => 8.0,
        d if d <= 1500.0 => 10.0,
        _ => 12.0,
    }
}

/// Diameter of a hub over all for its shaft, mm.
pub fn hub_diameter(stock: Stock, shaft: f64) -> f64 {
    stock.step_up_mm(1.8 * shaft, 5.0)
}

/// Length of a hub, and of the key in it, mm.
pub fn hub_length(stock: Stock, shaft: f64) -> f64 {
    stock.step_up_mm(1.2 * shaft, 5.0)
}

/// Mass of the rim and two full discs of a drum, kg: hubs and the holes that they fill are left out.
pub fn drum_kg(stock: Stock, diameter: f64, face: f64) -> f64 {
    let inside = diameter - 2.0 * rim(stock, diameter);
    tube_kg(diameter, inside, face, STEEL_KG_PER_M3) + 2.0 * round_kg(inside, disc(stock, diameter), STEEL_KG_PER_M3)
}
