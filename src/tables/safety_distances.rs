//! Safety distances: how far from danger an opening of a given size must stay.
//!
//! In: shape and size of the opening in mm. Out: the least distance in mm, `None` outside the table
//! (then the reaching-over tables or a closed guard apply). For persons of 14 years and above.
//! Body gaps (ISO 13854) and the US press-guard table stand beside it.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Reaching through regular openings.
pub const SOURCE: Source = Source::standard("ISO 13857:2019 Table 4");
/// Lower limbs and whole body.
pub const LOWER_LIMBS: Source = Source::standard("ISO 13857:2019, lower limbs and whole-body access");
/// US guard openings; law for mechanical power presses, good practice elsewhere.
pub const OSHA_O10: Source = Source::law("OSHA 29 CFR 1910.217 Table O-10").from_memory();
/// US guard mesh for transmission parts; weak memory.
pub const OSHA_O12: Source = Source::law("OSHA 29 CFR 1910.219(o)(1) Table O-12; weak memory").from_memory();
/// Gaps that do not crush.
pub const BODY_GAPS: Source = Source::standard("ISO 13854");

/// Shape of a regular opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// Long slot; its size is the narrow side.
    Slot,
    /// Square; its size is the side.
    Square,
    /// Round; its size is the diameter.
    Round,
}

/// ISO 13857 Table 4 rows: opening up to e mm → distance for slot, square, round.
const TABLE_4: [(f64, [f64; 3]); 9] = [
    (4.0, [2.0, 2.0, 2.0]),
    (6.0, [10.0, 5.0, 5.0]),
    (8.0, [20.0, 15.0, 5.0]),
    (10.0, [80.0, 25.0, 20.0]),
    (12.0, [100.0, 80.0, 80.0]),
    (20.0, [120.0, 120.0, 120.0]),
    (30.0, [850.0, 120.0, 120.0]),
    (40.0, [850.0, 200.0, 120.0]),
    (120.0, [850.0, 850.0, 850.0]),
];

/// Slot of 20 to 30 mm that is no longer than this may stand at [`SHORT_SLOT_DISTANCE_MM`].
pub const SHORT_SLOT_LENGTH_MM: f64 = 65.0;
/// Distance of such a short slot, mm: the thumb stops the hand.
pub const SHORT_SLOT_DISTANCE_MM: f64 = 200.0;

/// Least distance from a regular opening to the danger, mm (ISO 13857 Table 4).
/// `None` for openings of nothing, or above 120 mm.
///
/// ```
/// use footwell::tables::safety_distances::{reach_mm, Shape};
/// assert_eq!(reach_mm(12.5, Shape::Square), Some(120.0)); // a 12.5 mm square mesh
/// assert_eq!(reach_mm(10.0, Shape::Square), Some(25.0));
/// ```
pub fn reach_mm(opening_mm: f64, shape: Shape) -> Option<f64> {
    if opening_mm.is_nan() || opening_mm <= 0.0 {
        return None;
    }
    let [slot, square, round] = TABLE_4.iter().find(|(e, _)| opening_mm <= *e)?.1;
    Some(match shape {
        Shape::Slot => slot,
        Shape::Square => square,
        Shape::Round => round,
    })
}

/// Largest regular opening that may stand at a distance, mm; `None` when even 4 mm may not.
pub fn largest_opening_mm(distance_mm: f64, shape: Shape) -> Option<f64> {
    TABLE_4.iter().rev().map(|r| r.0).find(|e| reach_mm(*e, shape).is_some_and(|need| need <= distance_mm))
}

/// Least distance of a slot that lower limbs could enter, mm; `None` above 180 mm (whole body).
pub fn lower_limb_mm(slot_mm: f64) -> Option<f64> {
    if slot_mm.is_nan() || slot_mm <= 0.0 {
        return None;
    }
    [(60.0, 180.0), (80.0, 650.0), (180.0, 1100.0)].into_iter().find(|(e, _)| slot_mm <= *e).map(|(_, d)| d)
}

/// Size from which a whole body may pass, mm.
pub const fn whole_body_mm(shape: Shape) -> f64 {
    match shape {
        Shape::Slot => 180.0,
        Shape::Square | Shape::Round => 240.0,
    }
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

/// Largest guard mesh opening by clearance to the moving part, both in mm (OSHA Table O-12, weak memory).
pub fn osha_mesh_mm(clearance_mm: f64) -> Option<f64> {
    [(2.0, 0.375), (4.0, 0.5), (15.0, 2.0)].into_iter().find(|(c, _)| clearance_mm < c * MM_PER_INCH).map(|(_, o)| o * MM_PER_INCH)
}

/// Part of the body that a gap must not crush.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BodyPart {
    /// Whole body.
    Body,
    /// Head.
    Head,
    /// Leg.
    Leg,
    /// Foot.
    Foot,
    /// Toes.
    Toes,
    /// Arm.
    Arm,
    /// Hand, wrist or fist.
    Hand,
    /// Finger.
    Finger,
}

/// Least gap that does not crush, mm (ISO 13854).
pub const fn body_gap_mm(part: BodyPart) -> f64 {
    match part {
        BodyPart::Body => 500.0,
        BodyPart::Head => 300.0,
        BodyPart::Leg => 180.0,
        BodyPart::Foot | BodyPart::Arm => 120.0,
        BodyPart::Hand => 100.0,
        BodyPart::Toes => 50.0,
        BodyPart::Finger => 25.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Shape::{Round, Slot, Square};

    /// ISO 13857:2019 Table 4, cell by cell.
    #[test]
    fn table_4() {
        for (e, slot, square, round) in [
            (4.0, 2.0, 2.0, 2.0),
            (6.0, 10.0, 5.0, 5.0),
            (8.0, 20.0, 15.0, 5.0),
            (10.0, 80.0, 25.0, 20.0),
            (12.0, 100.0, 80.0, 80.0),
            (20.0, 120.0, 120.0, 120.0),
            (30.0, 850.0, 120.0, 120.0),
            (40.0, 850.0, 200.0, 120.0),
            (120.0, 850.0, 850.0, 850.0),
        ] {
            assert_eq!(reach_mm(e, Slot), Some(slot), "{e}");
            assert_eq!(reach_mm(e, Square), Some(square), "{e}");
            assert_eq!(reach_mm(e, Round), Some(round), "{e}");
        }
        assert_eq!(reach_mm(10.01, Square), Some(80.0));
        assert_eq!(reach_mm(40.0, Square), Some(200.0));
        assert_eq!(reach_mm(20.0, Square), Some(120.0));
        assert_eq!(reach_mm(120.1, Round), None);
        assert_eq!(reach_mm(0.0, Round), None);
        assert_eq!(reach_mm(f64::NAN, Round), None);
    }

    #[test]
    fn the_largest_opening_is_the_inverse() {
        for shape in [Slot, Square, Round] {
            for d in [2.0, 5.0, 24.0, 79.0, 80.0, 120.0, 199.0, 200.0, 850.0] {
                let e = largest_opening_mm(d, shape);
                assert!(e.is_none_or(|e| reach_mm(e, shape).is_some_and(|r| r <= d)));
                assert!(e.and_then(|e| reach_mm(e + 0.1, shape)).is_none_or(|r| r > d));
            }
        }
        assert_eq!(largest_opening_mm(120.0, Square), Some(30.0));
        assert_eq!(largest_opening_mm(120.0, Slot), Some(20.0));
        assert_eq!(largest_opening_mm(1.0, Square), None);
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

    /// OSHA Table O-12, ISO 13857 lower limbs, ISO 13854.
    #[test]
    fn other_tables() {
        for (clearance, mesh) in [(50.0, 9.525), (60.0, 12.7), (101.6, 50.8)] {
            assert!(osha_mesh_mm(clearance).is_some_and(|m| (m - mesh).abs() < 1e-9));
        }
        assert_eq!(osha_mesh_mm(400.0), None);
        for (slot, d) in [(60.0, 180.0), (80.0, 650.0), (95.0, 1100.0), (180.0, 1100.0)] {
            assert_eq!(lower_limb_mm(slot), Some(d));
        }
        assert_eq!(lower_limb_mm(181.0), None);
        assert_eq!(lower_limb_mm(-1.0), None);
        assert_eq!((whole_body_mm(Slot), whole_body_mm(Square)), (180.0, 240.0));
        use BodyPart::*;
        let gaps = [(Body, 500.0), (Head, 300.0), (Leg, 180.0), (Foot, 120.0), (Toes, 50.0), (Arm, 120.0), (Hand, 100.0), (Finger, 25.0)];
        for (part, gap) in gaps {
            assert_eq!(body_gap_mm(part), gap, "{part:?}");
        }
    }
}
