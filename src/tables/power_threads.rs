//! Threads for take-up screws: ISO trapezoidal in metric shops, Acme general purpose in US ones.
//!
//! In: a name such as `"Tr30x6"` or `"Acme 1 1/8-5"`. Out: nominal sizes in mm, half flank angle, core area;
//! single-start threads of the first-choice pitches only. Tolerances are not covered: sizes are the basic ones.

use crate::sources::Source;
use crate::units::MM_PER_INCH;
use std::f64::consts::PI;

/// Profile formulas and first-choice pitches of trapezoidal threads.
pub const TRAPEZOIDAL: Source = Source::standard("ISO 2904, DIN 103");
/// Crest clearances of trapezoidal threads.
pub const CLEARANCE: Source = Source::standard("ISO 2904").remark("clearance at the crest, a_c").from_memory();
/// Profile, sizes and pitches of Acme threads.
pub const ACME: Source = Source::standard("ASME B1.5").remark("general purpose Acme threads").from_memory();

/// Which profile a thread has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// ISO trapezoidal, 30° between the flanks.
    Trapezoidal,
    /// Acme general purpose, 29° between the flanks.
    Acme,
}

impl Family {
    /// The family of a job: Acme where inch threads are used.
    pub const fn of_job(us: bool) -> Self {
        if us { Family::Acme } else { Family::Trapezoidal }
    }
    /// Its threads by rising diameter.
    pub fn all(self) -> impl DoubleEndedIterator<Item = &'static PowerThread> {
        ALL.iter().filter(move |t| t.family == self)
    }
    /// Where its sizes come from.
    pub const fn source(self) -> Source {
        match self {
            Family::Trapezoidal => TRAPEZOIDAL,
            Family::Acme => ACME,
        }
    }
}

/// One thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerThread {
    /// Name as written on a drawing.
    pub name: &'static str,
    /// Its profile.
    pub family: Family,
    /// Nominal diameter d, mm.
    pub diameter_mm: f64,
    /// Pitch P, mm.
    pub pitch_mm: f64,
}

impl PowerThread {
    /// Tolerance class of a screw of common make: 7e (ISO 2903, DIN 103), 2G (ASME B1.5); from memory.
    pub const fn class(&self) -> &'static str {
        match self.family {
            Family::Trapezoidal => "7e",
            Family::Acme => "2G",
        }
    }
    /// Half the angle between the flanks, rad: 15° trapezoidal, 14.5° Acme.
    pub const fn flank_rad(&self) -> f64 {
        match self.family {
            Family::Trapezoidal => 15.0 * PI / 180.0,
            Family::Acme => 14.5 * PI / 180.0,
        }
    }
    /// Crest clearance, mm: trapezoidal a_c 0.15 (P 1.5), 0.25 (2–5), 0.5 (6–12), 1 (14–44); Acme 0.010 in
    /// up to 10 threads an inch, 0.005 in finer.
    pub fn crest_clearance_mm(&self) -> f64 {
        match (self.family, self.pitch_mm) {
            (Family::Trapezoidal, p) if p < 2.0 => 0.15,
            (Family::Trapezoidal, p) if p <= 5.0 => 0.25,
            (Family::Trapezoidal, p) if p <= 12.0 => 0.5,
            (Family::Trapezoidal, _) => 1.0,
            (Family::Acme, p) if p > MM_PER_INCH / 10.0 - 1e-9 => 0.010 * MM_PER_INCH,
            (Family::Acme, _) => 0.005 * MM_PER_INCH,
        }
    }
    /// Pitch diameter d2 = d − 0.5·P, mm.
    pub fn pitch_diameter_mm(&self) -> f64 {
        self.diameter_mm - 0.5 * self.pitch_mm
    }
    /// Root diameter of the screw d3 = d − P − 2 clearances, mm.
    pub fn root_mm(&self) -> f64 {
        self.diameter_mm - self.pitch_mm - 2.0 * self.crest_clearance_mm()
    }
    /// Height of flank contact H1 = P/2, mm.
    pub fn flank_height_mm(&self) -> f64 {
        0.5 * self.pitch_mm
    }
    /// Core area A3 = π/4·d3², mm².
    pub fn core_area_mm2(&self) -> f64 {
        PI / 4.0 * self.root_mm() * self.root_mm()
    }
    /// Threads of its own family at least as thick, itself first.
    pub fn and_thicker(&self) -> impl Iterator<Item = &'static PowerThread> {
        let least = self.diameter_mm;
        self.family.all().filter(move |t| t.diameter_mm >= least)
    }
}

/// Finds a thread by name (`Tr30x6`, `TR 30 × 6`, `Acme 1 1/8-5`, `1-1/8-5 Acme`).
pub fn find(name: &str) -> Option<&'static PowerThread> {
    let wanted = plain(name);
    ALL.iter().find(|t| plain(t.name) == wanted)
}

/// The first-choice thread of a diameter that is named without its pitch (`Tr30`, `Acme 1`).
pub fn of_diameter(name: &str) -> Option<&'static PowerThread> {
    let wanted = plain(name);
    ALL.iter().find(|t| t.name.rsplit_once(['x', '-']).is_some_and(|(diameter, _)| plain(diameter) == wanted))
}

/// A name without blanks, hyphens and capitals, the family first; the class of Acme threads, the same for all, left out.
fn plain(name: &str) -> String {
    let text: String = name.chars().filter(|c| !c.is_whitespace() && *c != '-').map(|c| if c == '×' { 'x' } else { c.to_ascii_lowercase() }).collect();
    match text.split_once("acme") {
        Some((before, after)) => format!("acme{}", format!("{before}{after}").trim_end_matches("2g")),
        None => text,
    }
}

const fn t(name: &'static str, d: f64, p: f64) -> PowerThread {
    PowerThread { name, family: Family::Trapezoidal, diameter_mm: d, pitch_mm: p }
}

/// An Acme row: diameter in inches, threads an inch.
const fn a(name: &'static str, d: f64, per_inch: f64) -> PowerThread {
    PowerThread { name, family: Family::Acme, diameter_mm: d * MM_PER_INCH, pitch_mm: MM_PER_INCH / per_inch }
}

/// First-choice sizes, each family by rising diameter.
pub const ALL: &[PowerThread] = &[
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
    a("Acme 5/8-8", 0.625, 8.0),
    a("Acme 3/4-6", 0.75, 6.0),
    a("Acme 7/8-6", 0.875, 6.0),
    a("Acme 1-5", 1.0, 5.0),
    a("Acme 1 1/8-5", 1.125, 5.0),
    a("Acme 1 1/4-5", 1.25, 5.0),
    a("Acme 1 3/8-4", 1.375, 4.0),
    a("Acme 1 1/2-4", 1.5, 4.0),
    a("Acme 1 3/4-4", 1.75, 4.0),
    a("Acme 2-4", 2.0, 4.0),
    a("Acme 2 1/4-3", 2.25, 3.0),
    a("Acme 2 1/2-3", 2.5, 3.0),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::formulas::screw::Screw;

    /// ISO 2904 / DIN 103: d2, d3, D1, A3; the rows 44×7 and 48×8 match a read copy.
    #[test]
    fn din_103() {
        for (name, d2, d3, a3) in [
            ("Tr16x4", 14.0, 11.5, 103.9),
            ("Tr20x4", 18.0, 15.5, 188.7),
            ("Tr24x5", 21.5, 18.5, 268.8),
            ("Tr28x5", 25.5, 22.5, 397.6),
            ("Tr30x6", 27.0, 23.0, 415.5),
            ("Tr32x6", 29.0, 25.0, 490.9),
            ("Tr36x6", 33.0, 29.0, 660.5),
            ("Tr40x7", 36.5, 32.0, 804.2),
            ("Tr44x7", 40.5, 36.0, 1017.9),
            ("Tr48x8", 44.0, 39.0, 1194.6),
            ("Tr52x8", 48.0, 43.0, 1452.2),
            ("Tr60x9", 55.5, 50.0, 1963.5),
        ] {
            let t = find(name).unwrap();
            assert_eq!((t.pitch_diameter_mm(), t.root_mm()), (d2, d3), "{name}");
            assert!((t.core_area_mm2() - a3).abs() < 0.05, "{name}");
            assert_eq!(t.flank_height_mm(), t.pitch_mm / 2.0);
        }
    }

    /// ASME B1.5, general purpose, in inches: basic pitch diameter, largest minor diameter of the screw (from memory of the handbook tables).
    #[test]
    fn asme_b1_5() {
        for (name, pitch, screw) in [
            ("Acme 5/8-8", 0.5625, 0.4800),
            ("Acme 3/4-6", 0.6667, 0.5633),
            ("Acme 1-5", 0.9000, 0.7800),
            ("Acme 1 1/8-5", 1.0250, 0.9050),
            ("Acme 1 1/4-5", 1.1500, 1.0300),
            ("Acme 1 1/2-4", 1.3750, 1.2300),
            ("Acme 1 3/4-4", 1.6250, 1.4800),
            ("Acme 2-4", 1.8750, 1.7300),
            ("Acme 2 1/4-3", 2.0833, 1.8967),
        ] {
            let row = find(name).unwrap();
            for (got, want) in [(row.pitch_diameter_mm(), pitch), (row.root_mm(), screw)] {
                assert!((got / MM_PER_INCH - want).abs() < 6e-5, "{name}: {} for {want}", got / MM_PER_INCH);
            }
        }
        let finer = PowerThread { name: "", family: Family::Acme, diameter_mm: 9.525, pitch_mm: MM_PER_INCH / 12.0 };
        assert!((finer.crest_clearance_mm() - 0.127).abs() < 1e-9);
    }

    /// Mott, Machine Elements Ex. 17-1: Acme 1½-4, f 0.15, 12 500 lbf, printed 1809 lb·in with the least pitch
    /// diameter 1.3429 in and cos φ 0.968. The table has the basic one, 1.375, which turns a little harder.
    #[test]
    fn mott_17_1() {
        let row = find("Acme 1 1/2-4").unwrap();
        assert!((row.flank_rad().cos() - 0.968).abs() < 5e-4);
        let inch = |mm: f64| mm / MM_PER_INCH;
        let screw = |pitch_diameter_mm: f64| Screw {
            pitch_diameter_mm,
            lead_mm: inch(row.pitch_mm),
            friction: 0.15,
            flank_rad: row.flank_rad(),
            collar_friction: 0.0,
            collar_diameter_mm: 0.0,
        };
        assert!((screw(1.3429).raise_nmm(12_500.0) / 1809.0 - 1.0).abs() < 4e-3);
        let basic = screw(inch(row.pitch_diameter_mm())).raise_nmm(12_500.0);
        assert!(basic > 1809.0 && basic < 1809.0 * 1.025, "{basic}");
        assert!(screw(1.3429).self_locking());
    }

    #[test]
    fn lookups() {
        assert_eq!(find("TR 30 × 6").unwrap().name, "Tr30x6");
        assert_eq!(of_diameter("tr40").unwrap().name, "Tr40x7");
        assert_eq!(of_diameter("acme 1 1/8").unwrap().name, "Acme 1 1/8-5");
        assert!(find("tr40").is_none() && find("Acme 1").is_none() && of_diameter("Tr40x7").is_none() && of_diameter("Acme").is_none());
        assert!(find("Tr30x3").is_none() && find("Tr").is_none());
        for written in ["Acme 1 1/8-5", "ACME 1-1/8-5", "1 1/8-5 Acme", "1 1/8-5 ACME-2G"] {
            assert_eq!(find(written).unwrap().name, "Acme 1 1/8-5", "{written}");
        }
        // An inch size without its family may be a bolt thread.
        assert!(find("1-5").is_none() && find("Acme 1-8").is_none() && find("Acme").is_none() && find("").is_none());
        let any = |family, diameter_mm, pitch_mm| PowerThread { name: "", family, diameter_mm, pitch_mm };
        assert_eq!(any(Family::Trapezoidal, 8.0, 1.5).crest_clearance_mm(), 0.15);
        assert_eq!(any(Family::Trapezoidal, 90.0, 14.0).crest_clearance_mm(), 1.0);
        for row in ALL {
            assert_eq!(find(row.name), Some(row));
        }
        for family in [Family::Trapezoidal, Family::Acme] {
            let d: Vec<f64> = family.all().map(|t| t.diameter_mm).collect();
            assert!(d.len() > 10 && d.windows(2).all(|w| w[0] < w[1]));
        }
        let thicker: Vec<&str> = find("Acme 2-4").unwrap().and_thicker().map(|t| t.name).collect();
        assert_eq!(thicker, ["Acme 2-4", "Acme 2 1/4-3", "Acme 2 1/2-3"]);
    }
}
