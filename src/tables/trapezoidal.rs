//! Trapezoidal threads for take-up screws.
//!
//! In: a name such as `"Tr30x6"`. Out: nominal sizes in mm and the core area; first-choice pitches of
//! single-start threads only. Tolerances are not covered.

use crate::sources::Source;
use std::f64::consts::PI;

/// Profile formulas and first-choice pitches.
pub const SOURCE: Source = Source::standard("ISO 2904, DIN 103");
/// Crest clearances.
pub const CLEARANCE: Source = Source::standard("ISO 2904 crest clearance a_c").from_memory();

/// One thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trapezoidal {
    /// Name as written on a drawing.
    pub name: &'static str,
    /// Nominal diameter d, mm.
    pub diameter_mm: f64,
    /// Pitch P, mm.
    pub pitch_mm: f64,
}

impl Trapezoidal {
    /// Crest clearance a_c, mm: 0.15 (P 1.5), 0.25 (2–5), 0.5 (6–12), 1 (14–44).
    pub fn crest_clearance_mm(&self) -> f64 {
        match self.pitch_mm {
            p if p < 2.0 => 0.15,
            p if p <= 5.0 => 0.25,
            p if p <= 12.0 => 0.5,
            _ => 1.0,
        }
    }
    /// Pitch diameter d2 = d − 0.5·P, mm.
    pub fn pitch_diameter_mm(&self) -> f64 {
        self.diameter_mm - 0.5 * self.pitch_mm
    }
    /// Root diameter of the screw d3 = d − P − 2·a_c, mm.
    pub fn root_mm(&self) -> f64 {
        self.diameter_mm - self.pitch_mm - 2.0 * self.crest_clearance_mm()
    }
    /// Minor diameter of the nut D1 = d − P, mm.
    pub fn nut_minor_mm(&self) -> f64 {
        self.diameter_mm - self.pitch_mm
    }
    /// Major diameter of the nut D4 = d + 2·a_c, mm.
    pub fn nut_major_mm(&self) -> f64 {
        self.diameter_mm + 2.0 * self.crest_clearance_mm()
    }
    /// Height of flank contact H1 = P/2, mm.
    pub fn flank_height_mm(&self) -> f64 {
        0.5 * self.pitch_mm
    }
    /// Core area A3 = π/4·d3², mm².
    pub fn core_area_mm2(&self) -> f64 {
        PI / 4.0 * self.root_mm() * self.root_mm()
    }
}

/// Finds a thread by name (`Tr30x6`, `TR 30 × 6`) or by the diameter alone (`Tr30`).
pub fn find(name: &str) -> Option<&'static Trapezoidal> {
    let clean: String = name.chars().filter(|c| !c.is_whitespace()).map(|c| if c == '×' { 'x' } else { c.to_ascii_lowercase() }).collect();
    ALL.iter().find(|t| {
        let full = t.name.to_ascii_lowercase();
        full == clean || full.split('x').next() == Some(clean.as_str())
    })
}

const fn t(name: &'static str, d: f64, p: f64) -> Trapezoidal {
    Trapezoidal { name, diameter_mm: d, pitch_mm: p }
}

/// First-choice sizes by rising diameter.
pub const ALL: &[Trapezoidal] = &[
    t("Tr16x4", 16.0, 4.0),
    t("Tr20x4", 20.0, 4.0),
    t("Tr24x5", 24.0, 5.0),
    t("Tr28x5", 28.0, 5.0),
    t("Tr30x6", 30.0, 6.0),
    t("Tr32x6", 32.0, 6.0),
    t("Tr36x6", 36.0, 6.0),
    t("Tr40x7", 40.0, 7.0),
    t("Tr44x7", 44.0, 7.0),
    t("Tr48x8", 48.0, 8.0),
    t("Tr52x8", 52.0, 8.0),
    t("Tr60x9", 60.0, 9.0),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 2904 / DIN 103: d2, d3, D1, A3; the rows 44×7 and 48×8 match a read copy.
    #[test]
    fn din_103() {
        for (name, d2, d3, d1, a3) in [
            ("Tr16x4", 14.0, 11.5, 12.0, 103.9),
            ("Tr20x4", 18.0, 15.5, 16.0, 188.7),
            ("Tr24x5", 21.5, 18.5, 19.0, 268.8),
            ("Tr28x5", 25.5, 22.5, 23.0, 397.6),
            ("Tr30x6", 27.0, 23.0, 24.0, 415.5),
            ("Tr32x6", 29.0, 25.0, 26.0, 490.9),
            ("Tr36x6", 33.0, 29.0, 30.0, 660.5),
            ("Tr40x7", 36.5, 32.0, 33.0, 804.2),
            ("Tr44x7", 40.5, 36.0, 37.0, 1017.9),
            ("Tr48x8", 44.0, 39.0, 40.0, 1194.6),
            ("Tr52x8", 48.0, 43.0, 44.0, 1452.2),
            ("Tr60x9", 55.5, 50.0, 51.0, 1963.5),
        ] {
            let t = find(name).unwrap();
            assert_eq!((t.pitch_diameter_mm(), t.root_mm(), t.nut_minor_mm()), (d2, d3, d1), "{name}");
            assert!((t.core_area_mm2() - a3).abs() < 0.05, "{name}");
            assert_eq!(t.nut_major_mm() - t.diameter_mm, 2.0 * t.crest_clearance_mm());
            assert_eq!(t.flank_height_mm(), t.pitch_mm / 2.0);
        }
    }

    #[test]
    fn lookups() {
        assert_eq!(find("TR 30 × 6").unwrap().name, "Tr30x6");
        assert_eq!(find("tr40").unwrap().pitch_mm, 7.0);
        assert!(find("Tr30x3").is_none() && find("Tr").is_none());
        assert_eq!(Trapezoidal { name: "", diameter_mm: 8.0, pitch_mm: 1.5 }.crest_clearance_mm(), 0.15);
        assert_eq!(Trapezoidal { name: "", diameter_mm: 90.0, pitch_mm: 14.0 }.crest_clearance_mm(), 1.0);
    }
}
