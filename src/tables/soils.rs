//! Ground and concrete: swell of excavated soil, weight of concrete, slope of an excavation's sides.
//!
//! Out: loose over bank volume, kN/m³, degrees. The ground at a site must be investigated; these are figures for
//! first quantities only.

use crate::sources::Source;

/// Swell of excavated soil.
pub const SWELL: Source = Source::practice("loam; sand 1.10 to 1.15, clay 1.25 to 1.40");
/// Unit weight of concrete.
pub const CONCRETE: Source = Source::standard("EN 1991-1-1 Table A.1").remark("plain concrete; lower than reinforced, on the safe side").from_memory();

/// Loose over bank volume of loam, the upper end of 1.20 to 1.25. Source: [`SWELL`].
pub const LOAM_SWELL: f64 = 1.25;
/// Unit weight of plain concrete, kN/m³. Source: [`CONCRETE`].
pub const PLAIN_CONCRETE_KN_PER_M3: f64 = 24.0;

/// Side of an excavation without shoring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Side {
    /// Angle to the horizontal, degrees.
    pub slope_deg: f64,
    /// Where it comes from.
    pub source: Source,
}

/// European practice for a first quantity.
pub const SIDE: Side = Side { slope_deg: 60.0, source: Source::standard("DIN 4124").remark("stiff cohesive soil").from_memory() };
/// US federal rule where nobody has classified the soil: not steeper than one and a half horizontal to one vertical.
pub const SIDE_OSHA: Side = Side { slope_deg: 34.0, source: Source::law("OSHA 29 CFR 1926.652(b)(1)").remark("soil that nobody has classified").from_memory() };

#[cfg(test)]
mod tests {
    use super::*;

    /// 29 CFR 1926.652(b)(1) gives the slope both ways: 1½ horizontal to 1 vertical, 34 degrees.
    #[test]
    fn the_law_s_slope() {
        assert!((SIDE_OSHA.slope_deg.to_radians().tan() - 1.0 / 1.5).abs() < 0.01);
        const { assert!(SIDE_OSHA.slope_deg < SIDE.slope_deg) };
    }
}
