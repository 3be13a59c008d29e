//! How wide a flange round an opening has to be where a wall rises from it beside the bolts.
//!
//! In: slope of the wall in rad, its thickness, the bolt, the job's stock. Out: mm. Geometry: the wall's outer face stands off the opening
//! by its thickness over the cosine and further by the tangent of its slope for what heads and washers stand out.

use super::frame;
use crate::tables::plates::Stock;
use crate::tables::spanners;
use crate::tables::threads::{Thread, of_job};

/// Least distance of a bolt from an edge, diameters (common practice; EN 1993-1-8 Table 3.3 asks for 1.2 holes, from memory).
pub const EDGE: f64 = 1.5;
/// Air between a head and the wall, mm.
const AIR: f64 = 1.0;

/// The largest usual bolt whose edge distance fits beside a row in the middle of `free` mm; M6 at the least.
pub fn bolt(free: f64, us: bool) -> Option<&'static Thread> {
    ["M12", "M10", "M8"].into_iter().filter_map(|n| of_job(n, us)).find(|t| EDGE * t.diameter_mm <= free / 2.0 + 1e-9).or_else(|| of_job("M6", us))
}

/// Least distance of a bolt line from the opening beside a wall that rises so steeply, mm.
pub fn least_line(slope_rad: f64, wall: f64, bolt: &Thread) -> f64 {
    let (rise, across) = (slope_rad.tan().max(0.0), wall / slope_rad.cos());
    let washer = bolt.washer_mm() * rise + bolt.diameter_mm;
    // Corners of the hexagon.
    let head = (bolt.washer_mm() + bolt.head_mm) * rise + bolt.across_flats_mm / 3f64.sqrt();
    across + washer.max(head) + AIR
}

/// The same with room for a ring spanner on the heads, mm.
pub fn spanner_line(slope_rad: f64, wall: f64, bolt: &Thread) -> f64 {
    let (rise, across, ring) = (slope_rad.tan().max(0.0), wall / slope_rad.cos(), spanners::ring(bolt.across_flats_mm));
    (across + (bolt.washer_mm() + ring.deep[1]) * rise + ring.jaw + AIR).max(least_line(slope_rad, wall, bolt))
}

/// Least width of the flange, mm: beside the wall with a spanner, and the bolts' distance from the edge.
pub fn least_width(slope_rad: f64, wall: f64, bolt: &Thread, stock: Stock) -> f64 {
    spanner_line(slope_rad, wall, bolt) + stock.fine_mm(EDGE * bolt.diameter_mm)
}

/// Thickness of a tapped flange, mm: 0.9 of its bolt's diameter at least (common practice). Behind it a floor that falls away leaves no
/// room for nuts.
pub fn tapped_thickness(width: f64, wall: f64, us: bool) -> f64 {
    let stock = Stock::of(us);
    stock.at_least_mm(frame::thickness(wall, stock).max(0.9 * bolt(width - wall, us).map_or(0.0, |b| b.diameter_mm)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// M12 (head 7.5, 18 across flats, washer 2.5) beside a wall of 5 mm at 45 degrees: 7.07 + 10 + 10.39 + 1 for its head; with a ring
    /// spanner (0.6 × 18 deep, 14 to its outside) 7.07 + 13.3 + 14 + 1, and 18 to the edge.
    #[test]
    fn by_hand() {
        let m12 = bolt(45.0, false).unwrap();
        assert_eq!(m12.name, "M12");
        assert_eq!(bolt(25.0, false).unwrap().name, "M8");
        assert!((least_line(45f64.to_radians(), 5.0, m12) - (7.071 + 10.0 + 10.392 + 1.0)).abs() < 0.01);
        assert!((least_width(45f64.to_radians(), 5.0, m12, Stock::Metric) - (7.071 + 13.3 + 14.0 + 1.0 + 18.0)).abs() < 0.01);
        // Where nothing rises the washer's rim decides.
        assert!((least_line(0.0, 5.0, m12) - (5.0 + 12.0 + 1.0)).abs() < 1e-9);
    }
}
