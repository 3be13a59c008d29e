//! How the edges of butt joints are prepared and fitted up, by their thickness.
//!
//! In: thickness, mm. Out: square edges or a V, sizes in mm. The root is gouged out and welded from
//! the other side; a gap may be none, so patterns are cut to the middle of the joint.
//!
//! ISO 9692-1: square from both sides to 8 mm with a gap to half the thickness; V with a sealing run at about 60°, gap to 3 mm, root
//! face to 2 mm. AWS D1.1, joints B-L1b-GF and B-U2-GF: square to 3/8 in with a gap to 1/8 in; V of 60° with gap and root face to
//! 1/8 in, both back gouged.

use crate::sources::Source;
use crate::units::MM_PER_INCH;
use serde::Serialize;

/// Joint preparation.
pub const SOURCE: Source = Source::standard("ISO 9692-1").remark("edges of butt joints").from_memory();
/// The same in US shops.
pub const US: Source = Source::standard("AWS D1.1").remark("prequalified joints").from_memory();

/// The edges of a butt joint.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Preparation {
    /// As they are cut.
    Square {
        /// Widest root gap, mm.
        gap: f64,
    },
    /// Bevelled from one side.
    Vee {
        /// Between both bevels, degrees.
        angle_deg: f64,
        /// Height of what is left square at the root, mm.
        root_face: f64,
        /// Widest root gap, mm.
        gap: f64,
    },
}

/// Thickest joint with square edges: ISO, mm.
const SQUARE: f64 = 8.0;
/// The same: US, mm.
const SQUARE_US: f64 = 3.0 / 8.0 * MM_PER_INCH;
/// Gap and root face in US shops, mm.
const SIXTEENTH: f64 = MM_PER_INCH / 16.0;

/// The preparation of a joint so thick, mm.
pub fn of(thickness: f64, us: bool) -> Preparation {
    // A gap of not more than half the thickness.
    let square = if thickness < 2.0 * SIXTEENTH - 1e-6 { SIXTEENTH / 2.0 } else { SIXTEENTH };
    let (most, gap, vee) = if us { (SQUARE_US, square, SIXTEENTH) } else { (SQUARE, 1.0, 2.0) };
    if thickness <= most + 1e-6 { Preparation::Square { gap } } else { Preparation::Vee { angle_deg: 60.0, root_face: vee, gap: vee } }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Within the ranges of both standards for every thickness that the shop splices.
    #[test]
    fn every_thickness_is_within_the_ranges() {
        for (us, square, gap_of_vee, face) in [(false, 8.0, 3.0, 2.0), (true, 9.525, 3.175, 3.175)] {
            for thickness in (4..120).map(|t| f64::from(t) / 2.0) {
                match of(thickness, us) {
                    Preparation::Square { gap } => assert!(thickness <= square && gap <= thickness / 2.0),
                    Preparation::Vee { angle_deg, root_face, gap } => {
                        assert!(thickness > square && (angle_deg - 60.0).abs() < 1e-9 && root_face <= face && gap <= gap_of_vee);
                    }
                }
            }
        }
    }
}
