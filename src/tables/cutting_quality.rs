//! Quality of thermal cuts: the class that a sheet names, and the smallest hole that a process can cut.
//!
//! Out: class text, least hole as a multiple of the plate's thickness. The classes are what a shop commonly holds on
//! plates to 12 mm; they are printed as a designation only, never used as a hard limit.

use crate::sources::Source;

/// Classes: range of perpendicularity u, range of roughness Rz5, tolerance class.
pub const SOURCE: Source =
    Source::standard("ISO 9013:2017").remark("classes that laser and plasma cuts commonly hold; not checked against the standard").from_memory();
/// What US jobs ask of a thermal cut: roughness of the surface.
pub const US: Source =
    Source::standard("AWS D1.1").remark("roughness of thermally cut edges to 4 in; as sample 3 of AWS C4.1; not checked against the standard").from_memory();
/// Smallest holes.
pub const LEAST_HOLES: Source = Source::practice("holes of at least 1.0 × thickness by laser, 1.5 × by plasma");

/// What one way of cutting holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThermalCut {
    /// Designation for the sheet. Source: [`SOURCE`].
    pub designation: &'static str,
    /// The same on sheets of US jobs. Source: [`US`].
    pub us_designation: &'static str,
    /// Smallest hole that may be cut, of the plate's thickness; smaller ones are marked and drilled. Source: [`LEAST_HOLES`].
    pub least_hole: f64,
}

/// Roughness that AWS D1.1 allows on edges of plates up to 4 in, whatever cut them.
const US_ROUGHNESS: &str = "AWS D1.1, 1000 µin or smoother";
/// Laser beam.
pub const LASER: ThermalCut = ThermalCut { designation: "ISO 9013-331", us_designation: US_ROUGHNESS, least_hole: 1.0 };
/// Plasma arc.
pub const PLASMA: ThermalCut = ThermalCut { designation: "ISO 9013-342", us_designation: US_ROUGHNESS, least_hole: 1.5 };

#[cfg(test)]
mod tests {
    use super::*;

    /// A plasma cut is nowhere finer than a laser cut: no figure of its designation is lower, no smaller hole.
    #[test]
    fn plasma_is_the_coarser() {
        let classes = |cut: ThermalCut| cut.designation.trim_start_matches("ISO 9013-").chars().filter_map(|c| c.to_digit(10)).collect::<Vec<_>>();
        let (laser, plasma) = (classes(LASER), classes(PLASMA));
        assert!(laser.len() == 3 && plasma.len() == 3 && laser.iter().zip(&plasma).all(|(l, p)| l <= p) && laser != plasma);
        const { assert!(LASER.least_hole < PLASMA.least_hole) };
    }
}
