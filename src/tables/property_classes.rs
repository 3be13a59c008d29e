//! Strength of bolts and rods by property class.
//!
//! In: a class such as `"8.8"` and the thread diameter in mm. Out: MPa. Full-size bolts and studs at
//! room temperature.

use crate::sources::Source;

/// Strengths.
pub const SOURCE: Source = Source::standard("ISO 898-1; class 5.6 from memory");

/// One class over one range of diameters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PropertyClass {
    /// Name.
    pub name: &'static str,
    /// Largest diameter of the row, mm.
    pub up_to_mm: f64,
    /// Tensile strength Rm, MPa.
    pub tensile_mpa: f64,
    /// Yield strength ReL or Rp0.2, MPa.
    pub yield_mpa: f64,
    /// Proof stress Sp, MPa, where the table has it.
    pub proof_mpa: Option<f64>,
}

/// The row of a class for a diameter (mm); `None` for other classes or above 39 mm.
pub fn find(name: &str, diameter_mm: f64) -> Option<&'static PropertyClass> {
    ALL.iter().find(|c| c.name == name.trim() && diameter_mm <= c.up_to_mm)
}

const fn c(name: &'static str, up_to_mm: f64, tensile_mpa: f64, yield_mpa: f64, proof_mpa: Option<f64>) -> PropertyClass {
    PropertyClass { name, up_to_mm, tensile_mpa, yield_mpa, proof_mpa }
}

/// All rows; a class with two rows changes at 16 mm.
pub const ALL: &[PropertyClass] = &[
    c("4.6", 39.0, 400.0, 240.0, Some(225.0)),
    c("5.6", 39.0, 500.0, 300.0, None),
    c("8.8", 16.0, 800.0, 640.0, Some(580.0)),
    c("8.8", 39.0, 830.0, 660.0, Some(600.0)),
    c("10.9", 39.0, 1040.0, 940.0, Some(830.0)),
    c("12.9", 39.0, 1220.0, 1100.0, Some(970.0)),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 898-1 values as read.
    #[test]
    fn iso_898_1() {
        for (name, d, rm, re, sp) in [
            ("4.6", 20.0, 400.0, 240.0, 225.0),
            ("8.8", 16.0, 800.0, 640.0, 580.0),
            ("8.8", 20.0, 830.0, 660.0, 600.0),
            ("10.9", 12.0, 1040.0, 940.0, 830.0),
            ("12.9", 12.0, 1220.0, 1100.0, 970.0),
        ] {
            let c = find(name, d).unwrap();
            assert_eq!((c.tensile_mpa, c.yield_mpa, c.proof_mpa), (rm, re, Some(sp)), "{name}");
        }
        assert!(find("6.6", 10.0).is_none() && find("8.8", 42.0).is_none());
    }

    /// The name says it: first figure × 100 = nominal Rm, product of the figures × 10 = nominal yield.
    #[test]
    fn the_name_says_the_strength() {
        for c in ALL {
            let (a, b) = c.name.split_once('.').unwrap();
            let (a, b): (f64, f64) = (a.parse().unwrap(), b.parse().unwrap());
            assert!(c.tensile_mpa >= a * 100.0 && c.tensile_mpa < a * 105.0, "{}", c.name);
            assert!(c.yield_mpa >= a * b * 10.0 && c.yield_mpa < a * b * 10.5, "{}", c.name);
            assert!(c.proof_mpa.is_none_or(|p| p < c.yield_mpa));
        }
    }
}
