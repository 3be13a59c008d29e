//! The weight boxes of a gravity take-up: one on each sliding plate, above its bearing, and how they are held.
//!
//! In: bearing, sliding plate, the job's stock. Out: mm. Two upright bars keep a box off the plate, so that it passes in front of
//! the guides with their bolts; bolts go from inside the box through the bars into the plate (common practice, no source).

use super::bearing_unit::BearingUnit;
use crate::tables::plates::Stock;

/// Between the bearing and the underside of a box, mm: room for a spanner at the bearing's bolts.
const OVER_BEARING: f64 = 40.0;
/// Thickness of a bar, mm, in metric stock: more than retainer, washer and bolt head of a guide.
const BAR: f64 = 20.0;
/// Width of a bar, mm, in metric stock.
const BAR_WIDTH: f64 = 50.0;
/// Thickness of a box's plates, mm, in metric stock, at least.
const PLATE: f64 = 6.0;

/// Underside of a box above the middle of the foot shaft, mm: over its bearing, and over the shaft where the tables know no bearing.
pub fn above_shaft(unit: &BearingUnit, shaft_mm: f64, stock: Stock) -> f64 {
    stock.up_mm(unit.up.max(shaft_mm) / 2.0 + OVER_BEARING)
}

/// Width and thickness of a bar, mm.
pub fn bar(stock: Stock) -> [f64; 2] {
    [stock.width_mm(BAR_WIDTH), stock.plate_mm(BAR)]
}

/// Thickness of a box's plates, mm.
pub fn plate(casing_plate_mm: f64, stock: Stock) -> f64 {
    casing_plate_mm.max(stock.plate_mm(PLATE))
}

/// Clear sizes of an open box by its outside sizes: length, width, height, mm.
pub fn inside([length, width, height]: [f64; 3], plate_mm: f64) -> [f64; 3] {
    [length - 2.0 * plate_mm, width - 2.0 * plate_mm, height - plate_mm]
}

/// Area of plate in one box, mm².
pub fn area([length, width, height]: [f64; 3]) -> f64 {
    length * width + 2.0 * (length + width) * height
}
