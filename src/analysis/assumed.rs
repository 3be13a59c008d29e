//! What the analysis assumes that no spec key says, each with its source.
//!
//! Every value here is recorded with the results, so that a reader sees what stands behind a number.
//! They are rough by nature; where one decides a case, a measured value must take its place.

use super::Quantity;
use crate::sources::Source;

/// One assumed value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumption {
    /// Stable id, `assumed.name`.
    pub id: &'static str,
    /// What it is, in plain words.
    pub name: &'static str,
    /// Its value in `unit`.
    pub value: f64,
    /// Unit as printed, empty for a ratio.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: Source,
}

impl Assumption {
    /// As a quantity of the results.
    pub fn quantity(&self) -> Quantity {
        Quantity::new(self.id, self.name, self.value, self.unit, &[], self.source)
    }
}

macro_rules! assumptions {
    ($($(#[doc = $doc:literal])+ $name:ident = $id:literal, $about:literal, $value:expr, $unit:literal, $source:expr;)+) => {
        $($(#[doc = $doc])+ pub const $name: Assumption = Assumption { id: concat!("assumed.", $id), name: $about, value: $value, unit: $unit, source: $source };)+
        /// All of them.
        pub const ALL: &[Assumption] = &[$($name),+];
    };
}

assumptions! {
    /// Density of steel, kg/m³.
    STEEL_DENSITY = "steel_density", "density of steel", 7850.0, "kg/m³", Source::standard("EN 1991-1-1 Annex A, upper end 78.5 kN/m³; steel trade value 7.85 kg/(m²·mm)");
    /// Flanges, stiffeners, frames, bolts and paint as a factor on the bare plates of the foot.
    CASING_EXTRA = "casing_extra", "flanges, stiffeners and bolts, factor on the bare plates", 1.25, "", Source::practice("estimate for masses before the parts are listed");
    /// Plate of the trunking above the foot, mm.
    TRUNK_PLATE = "trunk_plate", "plate of the trunking above the foot", 3.0, "mm", Source::practice("trunking of 3 mm plate (12 gauge and thicker in a US government guide specification)");
    /// Mass of a bearing unit over the square of its bore, kg/mm².
    BEARING_MASS = "bearing_mass", "mass of a bearing unit over the square of its bore", 1.3e-3, "kg/mm²", Source::practice("fitted to masses of cast 200-series flange units");
    /// Head casing, shaft, bearings and platform fittings as a multiple of the head pulley's mass.
    HEAD_EXTRA = "head_extra", "head casing, shaft and bearings, multiple of the head pulley's mass", 2.0, "", Source::practice("estimate for support loads; replace it by the supplier's mass");
    /// Drive mass per power, kg/kW.
    DRIVE_MASS = "drive_mass", "geared motor and its bracket, mass over power", 25.0, "kg/kW", Source::practice("estimate for support loads; replace it by the supplier's mass");
    /// Share of the free volume under the feeding sill that is full of product in steady running.
    RUNNING_POOL = "running_pool", "share of the foot's free volume that holds product in running", 0.5, "", Source::practice("estimate; it differs with feed side and speed");
    /// Share of the space inside a winged pulley's circle that its steel takes up.
    WING_SOLIDITY = "wing_solidity", "space inside a winged pulley's circle that product cannot fill", 0.3, "", Source::practice("wings, cones and end discs against the open space between them");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_unique_and_values_finite() {
        for (i, a) in ALL.iter().enumerate() {
            assert!(a.value.is_finite() && a.id.starts_with("assumed.") && a.source.cite.len() > 5, "{}", a.id);
            assert!(ALL.iter().skip(i + 1).all(|b| b.id != a.id), "{} twice", a.id);
        }
    }
}
