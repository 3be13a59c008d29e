//! Safety distances: how far from danger a square opening of a given size must stay.
//!
//! In: side of the opening in mm. Out: the least distance in mm, `None` outside the table
//! (then the reaching-over tables or a closed guard apply). For persons of 14 years and above.
//! The US press-guard table stands beside it.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Reaching through regular openings.
pub const SOURCE: Source = Source::standard("ISO 13857:2019 Table 4");
/// US guard openings: law for mechanical power presses, good practice elsewhere (the figures from memory).
pub const OSHA_O10: Source = Source::practice("what US law asks of guards at power presses (OSHA 29 CFR 1910.217 Table O-10)");

/// ISO 13857 Table 4 rows of square openings: side up to e mm → distance.
const TABLE_4: [(f64, f64); 9] = [(4.0, 2.0), (6.0, 5.0), (8.0, 15.0), (10.0, 25.0), (12.0, 80.0), (20.0, 120.0), (30.0, 120.0), (40.0, 200.0), (120.0, 850.0)];

/// Least distance from a square opening to the danger, mm (ISO 13857 Table 4).
/// `None` for openings of nothing, or above 120 mm.
///
/// ```
/// use footwell::tables::safety_distances::reach_mm;
/// assert_eq!(reach_mm(12.5), Some(120.0)); // a 12.5 mm square mesh
/// assert_eq!(reach_mm(10.0), Some(25.0));
/// ```
pub fn reach_mm(opening_mm: f64) -> Option<f64> {
    if opening_mm.is_nan() || opening_mm <= 0.0 {
        return None;
    }
    TABLE_4.iter().find(|(e, _)| opening_mm <= *e).map(|(_, distance)| *distance)
}

/// OSHA Table O-10: distance from, distance to, largest opening, in inches.
const O_10: [(f64, f64, f64); 10] = [
    (0.5, 1.5, 0.25),
    (1.5, 2.5, 0.375),
    (2.5, 3.5, 0.5),
    (3.5, 5.5, 0.625),
    (5.5, 6.5, 0.75),
    (6.5, 7.5, 0.875),
    (7.5, 12.5, 1.25),
    (12.5, 15.5, 1.5),
    (15.5, 17.5, 1.875),
    (17.5, 31.5, 2.125),
];

/// Largest opening of a guard at a distance from the danger, both in mm (OSHA Table O-10).
/// `None` nearer than 1/2 in; beyond 31 1/2 in the last row holds.
pub fn osha_largest_opening_mm(distance_mm: f64) -> Option<f64> {
    let inches = distance_mm / MM_PER_INCH;
    O_10.iter().rev().find(|(from, _, _)| inches >= *from - 1e-9).map(|(_, _, opening)| opening * MM_PER_INCH)
}

/// Least distance of an opening, both in mm (OSHA Table O-10 read the other way); `None` above 2 1/8 in.
pub fn osha_least_distance_mm(opening_mm: f64) -> Option<f64> {
    O_10.iter().find(|(_, _, opening)| opening_mm <= opening * MM_PER_INCH + 1e-9).map(|(from, _, _)| from * MM_PER_INCH)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 13857:2019 Table 4, squares: both sides of each step; coarser never nearer.
    #[test]
    fn table_4() {
        for (side, distance) in [
            (4.0, 2.0),
            (4.01, 5.0),
            (6.0, 5.0),
            (8.0, 15.0),
            (10.0, 25.0),
            (10.01, 80.0),
            (12.0, 80.0),
            (20.0, 120.0),
            (30.0, 120.0),
            (40.0, 200.0),
            (120.0, 850.0),
        ] {
            assert_eq!(reach_mm(side), Some(distance), "{side}");
        }
        assert_eq!([120.1, 0.0, f64::NAN].map(reach_mm), [None; 3]);
        assert!(TABLE_4.windows(2).all(|w| w[0].0 < w[1].0 && w[0].1 <= w[1].1));
    }

    /// OSHA Table O-10.
    #[test]
    fn table_o_10() {
        assert_eq!(osha_largest_opening_mm(0.4 * 25.4), None);
        assert_eq!(osha_largest_opening_mm(0.5 * 25.4), Some(0.25 * 25.4));
        assert_eq!(osha_largest_opening_mm(4.0 * 25.4), Some(0.625 * 25.4));
        assert_eq!(osha_largest_opening_mm(12.4 * 25.4), Some(1.25 * 25.4));
        assert_eq!(osha_largest_opening_mm(40.0 * 25.4), Some(2.125 * 25.4));
        assert_eq!(osha_least_distance_mm(12.5), Some(2.5 * 25.4));
        assert_eq!(osha_least_distance_mm(2.2 * 25.4), None);
        assert!(O_10.windows(2).all(|w| w[0].1 == w[1].0 && w[0].2 < w[1].2));
    }
}
