//! Steels for shafts and plates.
//!
//! In: a name such as `"C45"`. Out: modulus, strengths and an allowable alternating bending stress,
//! MPa. Shaft strengths of the US grades are those of the pulley shaft standard; the EN values hold for
//! the thickness named and are from memory.

use crate::sources::Source;

/// US shaft steels: base fatigue strength and yield.
pub const SOURCE: Source = Source::standard("ANSI/CEMA B105.1").remark("fatigue strengths and yield points of the steels it lists");
/// EN shaft steel.
pub const EN_SHAFT: Source = Source::standard("EN 10083-2").remark("C45 normalised, in the sizes of shafts").from_memory();
/// EN structural steels.
pub const EN_PLATE: Source = Source::standard("EN 10025-2").remark("thinnest range of thickness").from_memory();
/// Modulus of elasticity: 210 GPa (European practice), 29·10⁶ psi (US).
pub const MODULUS: Source = Source::standard("EN 1993-1-1; ANSI/CEMA B105.1");
/// Modulus of elasticity of steel as European practice has it, MPa.
pub const MODULUS_MPA: f64 = 210_000.0;
/// Allowable alternating stress where no fatigue strength is published here.
pub const ALLOWABLE: Source = Source::practice("allowable rotating bending about 1/10 of the tensile strength (keyed, unpolished, safety included)");

const PSI: f64 = 0.006_894_757_293_168;

/// One steel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steel {
    /// Name.
    pub name: &'static str,
    /// Modulus of elasticity, MPa.
    pub modulus_mpa: f64,
    /// Tensile strength, MPa (least); of the US grades twice the base fatigue strength, since the shaft
    /// standard takes S_f* as half of it.
    pub tensile_mpa: f64,
    /// Yield strength, MPa (least).
    pub yield_mpa: f64,
    /// Base fatigue strength S_f* of a polished bar, MPa, where the shaft standard has it.
    pub fatigue_mpa: Option<f64>,
    /// Allowable alternating bending stress of a shaft, safety included, MPa.
    pub allowable_bending_mpa: f64,
    /// Whether it is a shaft steel (else plate).
    pub shaft: bool,
    /// Source of the strengths.
    pub source: Source,
    /// Source of the allowable stress.
    pub allowable_source: Source,
}

/// Older simple limit of the pulley shaft standard: 8000 psi, 6000 psi with a keyway in the moment zone; weak memory.
const OLD_LIMIT: Source = Source::standard("ANSI/CEMA B105.1").remark("simple limit of an older edition; not checked against the standard").from_memory();

/// Every source of this table.
pub const SOURCES: &[Source] = &[SOURCE, EN_SHAFT, EN_PLATE, MODULUS, ALLOWABLE, OLD_LIMIT];

/// Finds a steel by name.
pub fn find(name: &str) -> Option<&'static Steel> {
    ALL.iter().find(|s| s.name.eq_ignore_ascii_case(name.trim()))
}

/// All steels.
pub const ALL: &[Steel] = &[
    Steel {
        name: "C45",
        modulus_mpa: MODULUS_MPA,
        tensile_mpa: 580.0,
        yield_mpa: 305.0,
        fatigue_mpa: None,
        allowable_bending_mpa: 58.0,
        shaft: true,
        source: EN_SHAFT,
        allowable_source: ALLOWABLE,
    },
    Steel {
        name: "C1018",
        modulus_mpa: 29e6 * PSI,
        tensile_mpa: 58e3 * PSI,
        yield_mpa: 32e3 * PSI,
        fatigue_mpa: Some(29e3 * PSI),
        allowable_bending_mpa: 8e3 * PSI,
        shaft: true,
        source: SOURCE,
        allowable_source: OLD_LIMIT,
    },
    Steel {
        name: "C1045",
        modulus_mpa: 29e6 * PSI,
        tensile_mpa: 82e3 * PSI,
        yield_mpa: 45e3 * PSI,
        fatigue_mpa: Some(41e3 * PSI),
        allowable_bending_mpa: 8e3 * PSI,
        shaft: true,
        source: SOURCE,
        allowable_source: OLD_LIMIT,
    },
    Steel {
        name: "C4140",
        modulus_mpa: 29e6 * PSI,
        tensile_mpa: 95e3 * PSI,
        yield_mpa: 60.5e3 * PSI,
        fatigue_mpa: Some(47.5e3 * PSI),
        allowable_bending_mpa: 8e3 * PSI,
        shaft: true,
        source: SOURCE,
        allowable_source: OLD_LIMIT,
    },
    Steel {
        name: "S235",
        modulus_mpa: MODULUS_MPA,
        tensile_mpa: 360.0,
        yield_mpa: 235.0,
        fatigue_mpa: None,
        allowable_bending_mpa: 36.0,
        shaft: false,
        source: EN_PLATE,
        allowable_source: ALLOWABLE,
    },
    Steel {
        name: "S355",
        modulus_mpa: MODULUS_MPA,
        tensile_mpa: 470.0,
        yield_mpa: 355.0,
        fatigue_mpa: None,
        allowable_bending_mpa: 47.0,
        shaft: false,
        source: EN_PLATE,
        allowable_source: ALLOWABLE,
    },
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ANSI/CEMA B105.1 strengths in psi as read.
    #[test]
    fn us_grades() {
        for (name, sf, sy) in [("C1018", 29e3, 32e3), ("c1045", 41e3, 45e3), ("C4140", 47.5e3, 60.5e3)] {
            let s = find(name).unwrap();
            assert!((s.fatigue_mpa.unwrap() / PSI - sf).abs() < 1e-6 && (s.yield_mpa / PSI - sy).abs() < 1e-6);
            // S_f* is half of the tensile strength
            assert!((s.tensile_mpa / s.fatigue_mpa.unwrap() - 2.0).abs() < 1e-9);
        }
        assert!(find("C99").is_none());
    }

    #[test]
    fn strengths_are_ordered() {
        for s in ALL {
            assert!(s.allowable_bending_mpa < s.yield_mpa && s.yield_mpa < s.tensile_mpa, "{}", s.name);
            assert!((190_000.0..215_000.0).contains(&s.modulus_mpa));
        }
        assert_eq!((find("S235").unwrap().yield_mpa, find("S355").unwrap().yield_mpa), (235.0, 355.0));
        assert!(find("C45").unwrap().shaft && !find("S235").unwrap().shaft);
        assert_eq!(find("C45").unwrap().allowable_bending_mpa, find("C45").unwrap().tensile_mpa / 10.0);
    }
}
