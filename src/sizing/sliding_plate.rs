//! The sliding bearing plate and the slot that it covers, in sizes of the job's stock.
//!
//! In: shaft, travel, bearing unit, stock. Out: mm. Used when defaults are decided and when the model is built,
//! so that both agree; the geometry stands in `formulas::foot_heights`.

use super::bearing_unit::BearingUnit;
use crate::formulas::foot_heights::{self, PAD_LENGTH};
use crate::tables::plates::Stock;

/// Width of the slot in the side plate, mm.
pub fn slot_width(shaft_mm: f64, stock: Stock) -> f64 {
    stock.fine_mm(foot_heights::slot_width(shaft_mm))
}

/// Half the height of the sliding plate for a bearing `bearing_up_mm` high, mm.
pub fn half_height(travel_mm: f64, shaft_mm: f64, bearing_up_mm: f64, stock: Stock) -> f64 {
    half(foot_heights::sliding_plate_half_height(travel_mm, slot_width(shaft_mm, stock), bearing_up_mm), stock)
}

/// Half the width of the sliding plate, mm.
pub fn half_width(shaft_mm: f64, unit: &BearingUnit, stock: Stock) -> f64 {
    half(foot_heights::sliding_plate_half_width(slot_width(shaft_mm, stock), unit.across, unit.beside()), stock)
}

/// How much wider a guide and a frame beside it are in the job's stock than the customary metric ones, mm.
pub fn wider(stock: Stock) -> f64 {
    2.0 * (stock.width_mm(30.0) - 30.0) + stock.fine_mm(1.0) - 1.0
}

/// From the edge of the sliding plate to a sensor panel's opening, mm: guide, frame and weld.
const BESIDE_SLIDE: f64 = 67.0;

/// How far beside the rim the opening of a sensor panel may begin, mm: the arm of a sensor reaches over that (common practice).
const SENSOR_ARM: f64 = 40.0;

/// Middle of a sensor panel of this size from the foot shaft, mm: level with the pulley's rim, where the belt's edge runs up and down; on a small
/// foot further out, beside the guides of a sliding plate half so wide, as far as a sensor's arm still reaches the belt on the rim.
pub fn panel_middle(rim_mm: f64, half_width_mm: f64, size_mm: f64, stock: Stock) -> f64 {
    let beside = half_width_mm + BESIDE_SLIDE + wider(stock) + size_mm / 2.0;
    rim_mm.max(beside.min(rim_mm + SENSOR_ARM + size_mm / 2.0))
}

/// How far a retaining bar of the guides laps over the sliding plate, mm.
pub fn guide_lap(stock: Stock) -> f64 {
    stock.width_mm(10.0)
}

/// Length of a foot pad along the machine, mm.
pub fn pad_length(stock: Stock) -> f64 {
    stock.width_mm(PAD_LENGTH)
}

/// Half of a whole size that the stock has.
fn half(mm: f64, stock: Stock) -> f64 {
    stock.step_up_mm(2.0 * mm, 10.0) / 2.0
}
