//! Loose products with everything that the rules ask of them, and a lookup by the name a person types.
//!
//! In: a name such as `"maize"` or `"Feed Pellets"`. Out: densities, friction, slopes and fill factors,
//! each group with its source. Every value is a default that a spec may replace; real products vary
//! by moisture, fines and variety. No promise is made that a value suits a given lot of goods.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Bulk weights, friction and internal friction after EN 1991-4 where the table has the product.
pub const SOURCE: Source = Source::standard("EN 1991-4:2006 Table E.1").from_memory();
/// Load weights of products that Table E.1 lacks.
const LOADS_1991_1: Source = Source::standard("EN 1991-1-1:2002 Annex A").from_memory();
/// Upper load weight of products in neither table: upper end of the handling range.
const LOADS_PRACTICE: Source = Source::practice("upper end of the handling density range");
/// Friction of products that Table E.1 lacks: taken from the nearest product in it.
const FRICTION_PRACTICE: Source = Source::practice("friction of the nearest product in EN 1991-4 Table E.1");
/// Bulk density of grain by legal bushel weight.
const BUSHEL: Source = Source::standard("ASAE D241").remark("US legal bushel weights").from_memory();
/// Bulk density of other goods, and angles of repose.
pub const HANDLING: Source = Source::standard("CEMA 550").remark("with ranges of handbooks").from_memory();
/// Chute slopes, valley angles, particle sizes and which goods count as fragile or combustible.
pub const SLOPES: Source = Source::practice("minimum chute and valley slopes on smooth steel");
/// Fill factors.
pub const FILL: Source = Source::practice("fill factor, share of the water-level bucket volume");

/// Every source of this table.
pub const SOURCES: &[Source] = &[SOURCE, LOADS_1991_1, LOADS_PRACTICE, FRICTION_PRACTICE, BUSHEL, HANDLING, SLOPES, FILL];

/// How a product behaves in a foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Whole, free-flowing seeds; may be fed on the down side.
    Grain,
    /// Ground, mealy or floury goods, chips and shavings: they aerate, cling or hook into each other.
    Meal,
    /// Pressed pellets; they break.
    Pellets,
    /// Mineral, crystalline and other granular or powdery goods.
    Mineral,
}

impl Kind {
    /// All kinds, in the order in which they are listed to a person.
    pub const ALL: [Kind; 4] = [Kind::Grain, Kind::Meal, Kind::Pellets, Kind::Mineral];
    /// The word for it in a spec and on sheets.
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Grain => "grain",
            Kind::Meal => "meal",
            Kind::Pellets => "pellets",
            Kind::Mineral => "mineral",
        }
    }
}

/// One loose product.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Product {
    /// Name in a spec, lower case with hyphens.
    pub name: &'static str,
    /// Other names that mean the same.
    pub aliases: &'static [&'static str],
    /// How it behaves in a foot.
    pub kind: Kind,
    /// Loose bulk density for capacity, t/m³.
    pub density_t_per_m3: f64,
    /// Upper unit weight for loads on the structure, kN/m³.
    pub load_weight_kn_per_m3: f64,
    /// Angle of repose, degrees.
    pub repose_deg: f64,
    /// Angle of internal friction, degrees.
    pub internal_friction_deg: f64,
    /// Friction coefficient on a polished wall (EN 1991-4 type D1).
    pub wall_friction_polished: f64,
    /// Friction coefficient on a smooth welded steel wall (EN 1991-4 type D2).
    pub wall_friction_steel: f64,
    /// Least slope of a chute floor on smooth steel, degrees to the horizontal.
    pub min_chute_slope_deg: f64,
    /// Least slope of the valley line where two chute walls meet, degrees to the horizontal.
    pub min_valley_slope_deg: f64,
    /// Typical particle size for orifice flow, mm.
    pub particle_mm: f64,
    /// Whether the product is spoilt by breakage.
    pub fragile: bool,
    /// Whether its dust can explode.
    pub combustible: bool,
    /// Fill factor with up-side feed, share of the water-level volume.
    pub fill_up_side: f64,
    /// Fill factor with down-side feed, share of the water-level volume.
    pub fill_down_side: f64,
    /// Where the bulk density comes from.
    pub density_source: Source,
    /// Where the load weight comes from.
    pub load_source: Source,
    /// Where the friction values come from.
    pub friction_source: Source,
}

impl Product {
    /// Upper density for loads in t/m³: unit weight divided by standard gravity.
    pub fn load_density_t_per_m3(&self) -> f64 {
        self.load_weight_kn_per_m3 / GRAVITY
    }
}

/// Finds a product by name or alias; case, blanks, hyphens and underscores do not matter.
pub fn find(name: &str) -> Option<&'static Product> {
    let wanted = key(name);
    ALL.iter().find(|p| key(p.name) == wanted || p.aliases.iter().any(|a| key(a) == wanted))
}

fn key(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Shorthand of one table row: weights and friction, slopes, character, fill, sources.
#[expect(clippy::too_many_arguments, reason = "one argument a group of columns")]
const fn row(
    name: &'static str,
    aliases: &'static [&'static str],
    kind: Kind,
    weights: (f64, f64),
    friction: (f64, f64, f64, f64),
    slopes: (f64, f64),
    particle_mm: f64,
    (fragile, combustible): (bool, bool),
    fill: (f64, f64),
    sources: (Source, Source, Source),
) -> Product {
    Product {
        name,
        aliases,
        kind,
        density_t_per_m3: weights.0,
        load_weight_kn_per_m3: weights.1,
        repose_deg: friction.0,
        internal_friction_deg: friction.1,
        wall_friction_polished: friction.2,
        wall_friction_steel: friction.3,
        min_chute_slope_deg: slopes.0,
        min_valley_slope_deg: slopes.1,
        particle_mm,
        fragile,
        combustible,
        fill_up_side: fill.0,
        fill_down_side: fill.1,
        density_source: sources.0,
        load_source: sources.1,
        friction_source: sources.2,
    }
}

use Kind::{Grain, Meal, Mineral, Pellets};
const DUSTY: (bool, bool) = (false, true);
const INERT: (bool, bool) = (false, false);
const FRAGILE_DUSTY: (bool, bool) = (true, true);
const GRAIN_EN: (Source, Source, Source) = (BUSHEL, SOURCE, SOURCE);
const GRAIN_NEAR: (Source, Source, Source) = (BUSHEL, LOADS_1991_1, FRICTION_PRACTICE);
const OTHER_EN: (Source, Source, Source) = (HANDLING, SOURCE, SOURCE);
const OTHER_NEAR: (Source, Source, Source) = (HANDLING, LOADS_1991_1, FRICTION_PRACTICE);
const OTHER_FREE: (Source, Source, Source) = (HANDLING, LOADS_PRACTICE, FRICTION_PRACTICE);

/// All products. Columns: (bulk density, load weight), (repose, internal friction, wall D1, wall D2),
/// (chute, valley), particle, (fragile, combustible), (fill up side, fill down side), sources.
pub const ALL: &[Product] = &[
    row("barley", &[], Grain, (0.62, 8.0), (28.0, 28.0, 0.24, 0.33), (45.0, 40.0), 4.5, DUSTY, (0.75, 0.75), GRAIN_EN),
    row("wheat", &["grain"], Grain, (0.77, 9.0), (25.0, 30.0, 0.24, 0.38), (45.0, 40.0), 4.0, DUSTY, (0.75, 0.75), GRAIN_EN),
    row("maize", &["corn", "shelled corn"], Grain, (0.72, 8.0), (23.0, 31.0, 0.22, 0.36), (45.0, 40.0), 8.0, DUSTY, (0.75, 0.75), GRAIN_EN),
    row("oats", &[], Grain, (0.42, 5.0), (28.0, 28.0, 0.24, 0.33), (45.0, 40.0), 4.5, DUSTY, (0.75, 0.75), GRAIN_NEAR),
    row("soybean", &["soya bean", "soybeans", "soya beans"], Grain, (0.76, 8.0), (25.0, 25.0, 0.24, 0.38), (45.0, 40.0), 7.0, DUSTY, (0.75, 0.75), GRAIN_EN),
    row(
        "rapeseed",
        &["canola"],
        Grain,
        (0.66, 6.9),
        (25.0, 25.0, 0.24, 0.38),
        (40.0, 36.0),
        2.0,
        DUSTY,
        (0.75, 0.75),
        (HANDLING, LOADS_PRACTICE, FRICTION_PRACTICE),
    ),
    row("sunflower", &["sunflower seed"], Grain, (0.40, 4.2), (27.0, 30.0, 0.24, 0.38), (50.0, 45.0), 6.0, DUSTY, (0.75, 0.75), OTHER_FREE),
    row("rice", &["paddy", "rice paddy"], Grain, (0.58, 7.0), (36.0, 30.0, 0.24, 0.38), (50.0, 42.0), 4.0, DUSTY, (0.75, 0.75), OTHER_FREE),
    row("soybean-meal", &["soya meal"], Meal, (0.60, 7.0), (37.0, 36.0, 0.22, 0.30), (60.0, 50.0), 1.0, DUSTY, (0.70, 0.65), OTHER_NEAR),
    row("feed-meal", &["mash", "meal"], Meal, (0.55, 6.0), (45.0, 36.0, 0.22, 0.30), (65.0, 55.0), 0.7, DUSTY, (0.70, 0.65), OTHER_EN),
    row("flour", &[], Meal, (0.60, 7.0), (45.0, 42.0, 0.24, 0.33), (65.0, 55.0), 0.05, DUSTY, (0.70, 0.65), OTHER_EN),
    row("feed-pellets", &["pellets"], Pellets, (0.65, 8.0), (37.0, 35.0, 0.23, 0.28), (50.0, 42.0), 8.0, FRAGILE_DUSTY, (0.75, 0.70), OTHER_EN),
    row("wood-pellets", &[], Pellets, (0.65, 7.5), (40.0, 35.0, 0.23, 0.28), (50.0, 42.0), 8.0, FRAGILE_DUSTY, (0.75, 0.70), OTHER_FREE),
    row("wood-chips", &[], Meal, (0.25, 3.5), (47.0, 40.0, 0.32, 0.39), (60.0, 50.0), 30.0, DUSTY, (0.60, 0.55), OTHER_FREE),
    row("sand", &["dry sand"], Mineral, (1.50, 16.0), (35.0, 36.0, 0.38, 0.48), (45.0, 40.0), 0.5, INERT, (0.70, 0.65), OTHER_EN),
    row("cement", &[], Mineral, (1.20, 16.0), (40.0, 30.0, 0.41, 0.46), (60.0, 50.0), 0.02, INERT, (0.75, 0.70), OTHER_EN),
    row("fertiliser", &["fertilizer", "npk"], Mineral, (1.00, 12.0), (33.0, 29.0, 0.39, 0.49), (50.0, 42.0), 3.0, INERT, (0.75, 0.70), OTHER_NEAR),
    row("urea", &["urea prill"], Mineral, (0.75, 8.0), (30.0, 29.0, 0.39, 0.49), (45.0, 42.0), 2.0, (true, false), (0.75, 0.70), OTHER_NEAR),
    row("salt", &["dry salt"], Mineral, (1.20, 13.0), (38.0, 32.0, 0.46, 0.51), (50.0, 42.0), 1.0, INERT, (0.75, 0.70), OTHER_FREE),
    row("sugar", &["granulated sugar"], Mineral, (0.85, 9.5), (38.0, 32.0, 0.46, 0.51), (55.0, 47.0), 0.7, DUSTY, (0.75, 0.70), OTHER_EN),
    row("limestone", &["crushed limestone"], Mineral, (1.40, 18.0), (38.0, 31.0, 0.39, 0.49), (50.0, 42.0), 10.0, INERT, (0.70, 0.65), OTHER_EN),
    row("fly-ash", &[], Mineral, (0.90, 15.0), (41.0, 35.0, 0.51, 0.62), (60.0, 50.0), 0.03, INERT, (0.75, 0.70), OTHER_EN),
    row("coal", &[], Mineral, (0.85, 10.0), (36.0, 31.0, 0.44, 0.49), (50.0, 42.0), 25.0, DUSTY, (0.65, 0.60), OTHER_EN),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn names_are_found_as_people_write_them() {
        assert_eq!(find("Feed Pellets").unwrap().name, "feed-pellets");
        assert_eq!(find("CORN").unwrap().name, "maize");
        assert_eq!(find("mash").unwrap().kind, Kind::Meal);
        assert!(find("moon dust").is_none());
        assert!(find("").is_none());
    }

    #[test]
    fn names_are_unique() {
        let mut names: Vec<String> = ALL.iter().flat_map(|p| std::iter::once(p.name).chain(p.aliases.iter().copied())).map(key).collect();
        let count = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    /// EN 1991-4:2006 Table E.1; rows cement, fly ash and sand were confirmed by a code that cites
    /// the standard (upper weight, internal friction, D2).
    #[test]
    fn en_1991_4_rows() {
        for (name, gamma, phi_i, d2) in [
            ("cement", 16.0, 30.0, 0.46),
            ("fly-ash", 15.0, 35.0, 0.62),
            ("sand", 16.0, 36.0, 0.48),
            ("wheat", 9.0, 30.0, 0.38),
            ("maize", 8.0, 31.0, 0.36),
            ("flour", 7.0, 42.0, 0.33),
        ] {
            let p = find(name).unwrap();
            assert_eq!((p.load_weight_kn_per_m3, p.internal_friction_deg, p.wall_friction_steel), (gamma, phi_i, d2), "{name}");
            assert_eq!(p.friction_source, SOURCE);
        }
    }

    /// Bushel weights: 60 lb/bu = 772, 56 = 721, 48 = 618, 32 = 412 kg/m³ (1 bu = 0.0352391 m³).
    #[test]
    fn bushel_weights() {
        for (name, pounds) in [("wheat", 60.0), ("soybean", 60.0), ("maize", 56.0), ("barley", 48.0), ("oats", 32.0)] {
            let legal = pounds * crate::units::KG_PER_POUND / 35.239_070_166_88;
            assert!((find(name).unwrap().density_t_per_m3 / legal - 1.0).abs() < 0.02, "{name}");
        }
    }

    #[test]
    fn every_row_is_sane() {
        for p in ALL {
            assert!(p.load_density_t_per_m3() >= p.density_t_per_m3, "{}: loads use the heavier density", p.name);
            assert!(p.min_valley_slope_deg < p.min_chute_slope_deg, "{}", p.name);
            assert!(p.min_chute_slope_deg > p.wall_friction_steel.atan().to_degrees(), "{}: a chute must slide", p.name);
            assert!(p.fill_down_side <= p.fill_up_side && p.fill_up_side <= 0.85, "{}", p.name);
            assert!(p.wall_friction_polished < p.wall_friction_steel, "{}", p.name);
            assert!(p.particle_mm > 0.0);
        }
    }
}
