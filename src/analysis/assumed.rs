//! What the analysis assumes that no spec key says, each with its source.
//!
//! Every value here is recorded with the results, so that a reader sees what stands behind a number.
//! They are rough by nature; where one decides a case, a measured value must take its place.

use super::Quantity;
use crate::formulas::{gravity_take_up, lifting, mass, plugging, power, screw, strength, tension};
use crate::sources::Source;
use crate::tables::{soils, steels};
use crate::units::{GRAVITY, Unit};

/// One assumed value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumption {
    /// Stable id, `assumed.name`.
    pub id: &'static str,
    /// What it is, in plain words.
    pub name: &'static str,
    /// Its value in `unit`.
    pub value: f64,
    /// Metric unit.
    pub unit: Unit,
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
    ($($(#[doc = $doc:literal])+ $name:ident = $id:literal, $about:literal, $value:expr, $unit:ident, $source:expr;)+) => {
        $($(#[doc = $doc])+ pub const $name: Assumption = Assumption { id: concat!("assumed.", $id), name: $about, value: $value, unit: Unit::$unit, source: $source };)+
        /// All of them.
        pub const ALL: &[Assumption] = &[$($name),+];
    };
}

assumptions! {
    /// Density of steel, kg/m³.
    STEEL_DENSITY = "steel_density", "density of steel", mass::STEEL_KG_PER_M3, KgPerM3, mass::STEEL;
    /// Flanges, stiffeners, frames, bolts and paint as a factor on the bare plates of the foot.
    CASING_EXTRA = "casing_extra", "flanges, stiffeners and bolts, factor on the bare plates", 1.25, One, Source::practice("estimate for masses before the parts are listed");
    /// Plate of the trunking above the foot, mm.
    TRUNK_PLATE = "trunk_plate", "plate of the trunking above the foot", 3.0, Mm, Source::practice("trunking of 3 mm plate (12 gauge and thicker in a US government guide specification)");
    /// Mass of a bearing unit over the square of its bore, kg/mm².
    BEARING_MASS = "bearing_mass", "mass of a bearing unit over the square of its bore", 1.3e-3, KgPerMm2, Source::practice("fitted to masses of cast 200-series flange units");
    /// Head casing, shaft, bearings and platform fittings as a multiple of the head pulley's mass.
    HEAD_EXTRA = "head_extra", "head casing, shaft and bearings, multiple of the head pulley's mass", 2.0, One, Source::practice("estimate for support loads; replace it by the supplier's mass");
    /// Drive mass per power, kg/kW.
    DRIVE_MASS = "drive_mass", "geared motor and its bracket, mass over power", 25.0, KgPerKw, Source::practice("estimate for support loads; replace it by the supplier's mass");
    /// Share of the free volume under the up-side sill that is full of product in steady running.
    RUNNING_POOL = "running_pool", "share of the volume below the up-side sill that holds product in running", plugging::POOL_UP, One, plugging::LYING;
    /// The same under shaft or down-side sill with down-side feed.
    RUNNING_POOL_DOWN = "running_pool_down", "share of the volume below shaft or down-side sill that holds product in running with down-side feed", plugging::POOL_DOWN, One, plugging::LYING;
    /// Most of a heap that is there before the belt stops.
    LYING_MOST = "lying_most", "share of a heap that lies there already, at most", plugging::LYING_MOST, One, plugging::LYING;
    /// Share of the space inside a winged pulley's circle that its steel takes up.
    WING_SOLIDITY = "wing_solidity", "space inside a winged pulley's circle that product cannot fill", 0.3, One, Source::practice("wings, cones and end discs against the open space between them");
    /// Bearing, belt bending and air losses as a share of lift and dredging.
    LOSSES_AT_SHAFT = "losses_at_shaft", "bearing, belt bending and air losses, share of lift and dredging", power::LOSSES_AT_SHAFT, One, power::LOSSES_SHARE;
    /// Efficiency of gear and couplings.
    DRIVE_EFFICIENCY = "drive_efficiency", "efficiency of gear and couplings", 0.93, One, Source::practice("helical or bevel-helical gear with couplings");
    /// Effective pull in starting as a multiple of the running one.
    START_PULL = "start_pull", "effective pull in starting, multiple of running", tension::START_PULL, One, tension::STARTING;
    /// Effective pull of an overloaded drive in running as a multiple of the duty's.
    OVERLOADED = "overloaded", "effective pull with full buckets, at most so many times the duty's", tension::OVERLOADED, One, tension::OVERLOAD;
    /// Effective pull of a stalled drive as a multiple of the running one.
    BLOCKED_PULL = "blocked_pull", "effective pull of a stalling drive, multiple of running", tension::STALL_PULL, One, tension::STALL;
    /// Modulus of elasticity of steel, MPa.
    STEEL_MODULUS = "steel_modulus", "modulus of elasticity of steel", steels::MODULUS_MPA, Mpa, Source::standard("EN 1993-1-1");
    /// Fatigue factor of a keyway in the hub.
    KEYWAY = "keyway", "fatigue factor of a keyway in the hub", 0.63, One, Source::standard("ANSI/CEMA B105.1").remark("annealed steel, profiled keyway; hubs without one are safer");
    /// Safety factor of the shaft against fatigue.
    SHAFT_SAFETY = "shaft_safety", "safety factor of the shaft against fatigue", 1.5, One, Source::standard("ANSI/CEMA B105.1");
    /// What is kept in hand under loads that last.
    LASTING_RESERVE = "lasting_reserve", "yield strength over stress under a load that lasts", strength::LASTING, One, strength::IN_HAND;
    /// What is kept in hand in a rare case.
    RARE_RESERVE = "rare_reserve", "yield strength over stress in rare cases: foot blocked, belt overtightened", strength::RARE, One, strength::IN_HAND;
    /// What is kept in hand of what a load hangs on.
    LIFTING_FACTOR = "lifting_factor", "yield strength over stress of what a load hangs on", lifting::DESIGN_FACTOR, One, lifting::DESIGN;
    /// Friction of a freshly greased take-up rod over that in service.
    GREASED = "greased", "friction of a freshly greased take-up rod over that in service", screw::GREASED, One, screw::GREASE;
    /// Load of a rod over its half while it is turned alone.
    UNEVEN_RODS = "uneven_rods", "load of a rod over its half while it is turned alone", screw::UNEVEN_RODS, One, screw::BY_HAND;
    /// Nut length over thread diameter.
    NUT_LENGTH = "nut_length", "nut length over thread diameter", 1.5, One, Source::practice("bronze or cast iron nut of a trapezoidal rod");
    /// How far off the middle of their box weights lie, as a share of its length.
    OFF_MIDDLE = "off_middle", "weights off the middle of their box along the machine, share of its length", gravity_take_up::OFF_MIDDLE, One, gravity_take_up::UNEVEN;
    /// Modulus of the buffer rings of a gravity take-up's stop, MPa.
    BUFFER_MODULUS = "buffer_modulus", "modulus of the buffer rings under a stop", gravity_take_up::BUFFER_MPA, Mpa, gravity_take_up::BUFFER_MODULUS;
    /// Horizontal force besides, as a share of the vertical load.
    HORIZONTAL_SHARE = "horizontal_share", "horizontal force in any direction, share of the weights", 0.05, One, Source::practice("allowance for vibration, feed and people; not for wind and earthquake");
    /// Unit weight of concrete for uplift, kN/m³.
    CONCRETE_WEIGHT = "concrete_weight", "concrete that holds the pit down", soils::PLAIN_CONCRETE_KN_PER_M3, KnPerM3, soils::CONCRETE;
    /// Unit weight of water, kN/m³.
    WATER_WEIGHT = "water_weight", "groundwater", GRAVITY, KnPerM3, Source::physics("density of water × standard gravity");
    /// Loose over bank volume of the soil.
    SOIL_SWELL = "soil_swell", "loose over bank volume of the soil", soils::LOAM_SWELL, One, soils::SWELL;
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
