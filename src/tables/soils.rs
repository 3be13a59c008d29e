//! Ground and concrete: swell of excavated soil, unit weights, trench slopes.
//!
//! In: kind of ground. Out: swell factor (loose over bank volume) as a range, kN/m³. The ground at a site must be
//! investigated; these are figures for first quantities only.

use crate::sources::Source;

/// Swell of excavated soil.
pub const SOURCE: Source = Source::practice("swell factors of earthworks");
/// Unit weight of concrete.
pub const CONCRETE: Source = Source::standard("EN 1991-1-1 Table A.1").from_memory();
/// Slopes of excavations.
pub const SLOPES_OSHA: Source = Source::law("OSHA 29 CFR 1926.652, soil types A, B, C").from_memory();

/// Unit weight of reinforced concrete, kN/m³. Source: [`CONCRETE`].
pub const REINFORCED_CONCRETE_KN_PER_M3: f64 = 25.0;
/// Unit weight of plain concrete, kN/m³. Source: [`CONCRETE`].
pub const PLAIN_CONCRETE_KN_PER_M3: f64 = 24.0;

/// Kind of ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ground {
    /// Sand and gravel.
    Sand,
    /// Loam.
    Loam,
    /// Clay.
    Clay,
    /// Rock.
    Rock,
}

impl Ground {
    /// All kinds.
    pub const ALL: [Ground; 4] = [Ground::Sand, Ground::Loam, Ground::Clay, Ground::Rock];
    /// The word in a spec.
    pub const fn word(self) -> &'static str {
        match self {
            Ground::Sand => "sand",
            Ground::Loam => "loam",
            Ground::Clay => "clay",
            Ground::Rock => "rock",
        }
    }
    /// Swell factor, low and high.
    pub const fn swell(self) -> (f64, f64) {
        match self {
            Ground::Sand => (1.10, 1.15),
            Ground::Loam => (1.20, 1.25),
            Ground::Clay => (1.25, 1.40),
            Ground::Rock => (1.50, 1.50),
        }
    }
    /// Steepest side of an unshored excavation, horizontal per vertical: OSHA type C for sand, B for
    /// loam, A for clay, vertical for stable rock. A competent person on site decides the type.
    pub const fn batter(self) -> f64 {
        match self {
            Ground::Sand => 1.5,
            Ground::Loam => 1.0,
            Ground::Clay => 0.75,
            Ground::Rock => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 29 CFR 1926 subpart P: A ¾:1, B 1:1, C 1½:1; swell ranges of earthworks practice.
    #[test]
    fn values() {
        assert_eq!(Ground::ALL.map(Ground::batter), [1.5, 1.0, 0.75, 0.0]);
        assert_eq!(Ground::ALL.map(Ground::swell), [(1.10, 1.15), (1.20, 1.25), (1.25, 1.40), (1.50, 1.50)]);
        assert_eq!(Ground::ALL.map(Ground::word), ["sand", "loam", "clay", "rock"]);
        assert_eq!(REINFORCED_CONCRETE_KN_PER_M3 - PLAIN_CONCRETE_KN_PER_M3, 1.0);
    }
}
