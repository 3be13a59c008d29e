//! Quality of thermal cuts: the class that a sheet names, and the smallest hole that a process can cut.
//!
//! In: process and thickness in mm. Out: class text, least hole in mm. The class limits are weak memory
//! of ISO 9013 and are printed as a designation only, never used as a hard limit.

use crate::sources::Source;

/// Quality ranges.
pub const SOURCE: Source = Source::standard("ISO 9013:2017, ranges for perpendicularity u and roughness Rz5; weak memory").from_memory();
/// Smallest holes.
pub const LEAST_HOLES: Source = Source::practice("holes of at least 1.0 × thickness by laser, 1.5 × by plasma");

/// How a plate is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Process {
    /// Laser beam.
    Laser,
    /// Plasma arc.
    Plasma,
}

impl Process {
    /// All processes.
    pub const ALL: [Process; 2] = [Process::Laser, Process::Plasma];
    /// The word in a spec.
    pub const fn word(self) -> &'static str {
        match self {
            Process::Laser => "laser",
            Process::Plasma => "plasma",
        }
    }
    /// Designation for the sheet: range of u, range of Rz5, tolerance class.
    pub const fn designation(self) -> &'static str {
        match self {
            Process::Laser => "ISO 9013-231",
            Process::Plasma => "ISO 9013-342",
        }
    }
    /// Smallest hole that may be cut, mm; smaller ones are marked and drilled.
    pub fn least_hole_mm(self, thickness_mm: f64) -> f64 {
        match self {
            Process::Laser => thickness_mm,
            Process::Plasma => 1.5 * thickness_mm,
        }
    }
}

/// Largest perpendicularity tolerance u in mm of range 1 to 5 for a cut of thickness a mm (weak memory):
/// 0.05 + 0.003a, 0.15 + 0.007a, 0.4 + 0.01a, 0.8 + 0.02a, 1.2 + 0.035a.
pub fn perpendicularity_mm(range: u8, thickness_mm: f64) -> Option<f64> {
    let (base, slope) = match range {
        1 => (0.05, 0.003),
        2 => (0.15, 0.007),
        3 => (0.4, 0.01),
        4 => (0.8, 0.02),
        5 => (1.2, 0.035),
        _ => return None,
    };
    Some(base + slope * thickness_mm)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_widen_and_holes_grow() {
        for t in [1.0, 6.0, 30.0] {
            let u: Vec<f64> = (1..=5).filter_map(|r| perpendicularity_mm(r, t)).collect();
            assert!(u.len() == 5 && u.windows(2).all(|w| w[0] < w[1]));
        }
        // ISO 9013 range 3 at 10 mm: 0.5 mm
        assert!(perpendicularity_mm(3, 10.0).is_some_and(|u| (u - 0.5).abs() < 1e-12));
        assert_eq!(perpendicularity_mm(6, 5.0), None);
        assert_eq!((Process::Laser.least_hole_mm(6.0), Process::Plasma.least_hole_mm(6.0)), (6.0, 9.0));
        assert_eq!(Process::ALL.map(Process::word), ["laser", "plasma"]);
        assert!(Process::ALL.iter().all(|p| p.designation().starts_with("ISO 9013-")));
    }
}
