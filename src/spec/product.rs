//! `[product]`: the bulk material.

use super::reader::{spec_table, words};
use crate::tables::belt_speeds;
use crate::units::{Angle, Density, Length, Ratio};

words!(
    /// How the material behaves in the foot.
    ProductKind {
        /// Whole grain, seeds: flows freely.
        Grain = "grain",
        /// Meal, flour, mash, also chips and shavings: dusty, sluggish.
        Meal = "meal",
        /// Pellets and other products that break.
        Pellets = "pellets",
        /// Sand, cement, stone, fertiliser.
        Mineral = "mineral",
    }
);

spec_table!(
    /// The bulk material.
    Product, AskedProduct, "product", {
        /// Name of a preset (`footwell explain product` lists them); its values fill the keys below that are left out.
        preset: Option<String>;
        /// Name as printed on the sheets.
        name: String;
        /// How it behaves.
        kind: ProductKind;
        /// Loose bulk density, for capacity.
        density: Density, 0.05 ..= 5.0;
        /// Upper bulk density, for loads.
        density_for_loads: Density, 0.05 ..= 5.0;
        /// Angle of repose.
        repose: Angle, 5.0 ..= 70.0;
        /// Friction coefficient on smooth steel.
        wall_friction: Ratio, 0.05 ..= 1.5;
        /// Angle of internal friction.
        internal_friction: Angle, 5.0 ..= 70.0;
        /// Smallest slope at which it still slides on a chute.
        chute_slope: Angle, 15.0 ..= 80.0;
        /// Largest lump or grain.
        lump: Length, 0.01 ..= 300.0;
        /// Whether it breaks when it is churned or hit.
        fragile: bool;
        /// Whether its dust can burn or explode.
        combustible: bool;
    }
);

impl Product {
    /// Whether it is raw grain, beans or seed whose dust burns, as grain elevators handle it.
    pub fn is_grain(&self) -> bool {
        *self.combustible && *self.kind == ProductKind::Grain
    }
    /// Largest usual belt speed for the product, m/s. Source: [`belt_speeds::SOURCE`].
    pub fn usual_speed(&self) -> f64 {
        match *self.kind {
            _ if *self.fragile => belt_speeds::FRAGILE,
            ProductKind::Grain => belt_speeds::GRAIN,
            ProductKind::Meal | ProductKind::Pellets => belt_speeds::MEAL,
            ProductKind::Mineral => belt_speeds::MINERAL,
        }
    }
}
