//! Bars of frames and flanges.

use crate::tables::plates::Stock;

/// Thickness of flange bars and frames on a wall, mm: as thick as the wall, at least 8 (common practice, no source).
pub fn thickness(wall: f64, stock: Stock) -> f64 {
    stock.at_least_mm(wall.max(8.0))
}
