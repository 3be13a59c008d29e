//! The pit: quantities and uplift.
//!
//! In: the pit's outline, soil, groundwater. Out: only with a pit. Quantities by the convention of
//! `formulas::quantities`, the sump added as a box of slab thickness (the lean concrete steps down under it), wall openings taken
//! off when they are over 0.5 m³ each.
//! Uplift counts the empty pit without machine and sump, and besides what belts pull at it where the building holds the heads. No reinforcement is designed here.

use super::assumed::{CONCRETE_WEIGHT, SOIL_SWELL, WATER_WEIGHT};
use super::loads::Loads;
use super::{Group, Quantity};
use crate::formulas::quantities::{BoxPit, CONVENTION, VOLUMES, loose_m3};
use crate::formulas::uplift::{Balance, Bookkeeping, Pit as Floating, UPLIFT, factor};
use crate::model::Foot;
use crate::spec::Spec;
use crate::units::{GRAVITY, Unit};

/// Openings up to this size are not taken off, m³ (DIN 18331, from memory).
pub const LARGE_OPENING_M3: f64 = 0.5;

/// Uplift of the empty pit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uplift {
    /// Concrete alone against water.
    pub concrete: Balance,
    /// Concrete and buoyant soil over the toe against water.
    pub with_soil: Balance,
    /// What belts pull at the pit through the anchors besides, where the building holds the heads, kN: lasting or in starting, and with
    /// one foot blocked. The machines' own weight is taken off already.
    pub pulled_kn: [f64; 2],
}

impl Uplift {
    /// Concrete and buoyant soil over water alone; infinite without uplift.
    pub fn factor(&self) -> f64 {
        self.with_soil.factor()
    }
    /// Concrete and buoyant soil over water and the pull of belts, lasting or in starting; infinite without uplift and pull.
    pub fn factor_pulled(&self) -> f64 {
        factor(self.with_soil.weight_kn, self.with_soil.uplift_kn + self.pulled_kn[0])
    }
    /// The same with one foot blocked.
    pub fn factor_blocked(&self) -> f64 {
        factor(self.with_soil.weight_kn, self.with_soil.uplift_kn + self.pulled_kn[1])
    }
}

/// The pit in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pit {
    /// Clear length, mm.
    pub length_mm: f64,
    /// Clear width, mm.
    pub width_mm: f64,
    /// Depth, mm.
    pub depth_mm: f64,
    /// Concrete of slab, walls and sump, m³.
    pub concrete_m3: f64,
    /// Lean concrete, m³.
    pub lean_m3: f64,
    /// Formwork, m².
    pub formwork_m2: f64,
    /// Depth of the excavation, mm.
    pub excavation_depth_mm: f64,
    /// Excavation, bank volume, m³.
    pub excavation_m3: f64,
    /// Backfill, bank volume, m³.
    pub backfill_m3: f64,
    /// Soil to cart away, loose volume, m³.
    pub surplus_loose_m3: f64,
    /// Uplift; `None` without groundwater given.
    pub uplift: Option<Uplift>,
}

impl Pit {
    /// Computes it; `None` without a pit.
    pub fn compute(spec: &Spec, foot: &Foot, loads: &Loads) -> Option<Self> {
        let pit = foot.pit.as_ref()?;
        let shape = BoxPit {
            inner_length_mm: pit.x.size(),
            inner_width_mm: pit.y.size(),
            depth_mm: pit.depth,
            wall_mm: pit.wall,
            base_mm: pit.slab,
            toe_mm: pit.toe,
            lean_mm: pit.lean,
        };
        let space = spec.pit.working_space.value();
        let batter = 1.0 / spec.pit.batter.value().to_radians().tan();
        // The sump hangs below the slab: shell of slab thickness; inside the slab it only takes concrete away.
        let (sump_concrete, sump_forms, sump_dig) = pit.sump.as_ref().map_or((0.0, 0.0, 0.0), |s| {
            let (a, b, t, d) = (s.x.size(), s.y.size(), pit.slab, s.depth);
            let outer = (a + 2.0 * t) * (b + 2.0 * t) * d;
            ((outer - a * b * d) * 1e-9, (2.0 * (a + b) * d + 2.0 * (a + b + 4.0 * t) * d) * 1e-6, outer * 1e-9)
        });
        let (mut void_m3, mut void_forms_m2) = (0.0, 0.0);
        for opening in &pit.feed_openings {
            let volume = pit.opening_m3(opening);
            if volume > LARGE_OPENING_M3 && pit.wall > 0.0 {
                // Both faces go, the reveals come; an opening up to plant floor has no upper one.
                let face_m2 = volume / (pit.wall * 1e-3);
                let high = (opening.z.high.min(pit.depth) - opening.z.low.max(0.0)) * 1e-3;
                let across = if high > 0.0 { face_m2 / high } else { 0.0 };
                let edges = if opening.z.high < pit.depth { 2.0 } else { 1.0 };
                let count = f64::from(pit.elevators);
                void_m3 += count * volume;
                void_forms_m2 += count * ((2.0 * high + edges * across) * pit.wall * 1e-3 - 2.0 * face_m2);
            }
        }
        let excavation_m3 = shape.excavation_m3(space, batter) + sump_dig;
        let backfill_m3 = shape.backfill_m3(space, batter);
        let uplift = spec.pit.groundwater.value.map(|water| {
            let floating = Floating {
                inner_length_mm: shape.inner_length_mm,
                inner_width_mm: shape.inner_width_mm,
                depth_mm: shape.depth_mm,
                wall_mm: shape.wall_mm,
                base_mm: shape.base_mm,
                toe_mm: shape.toe_mm,
                water_below_ground_mm: water.value(),
                concrete_kn_per_m3: CONCRETE_WEIGHT.value,
                dry_soil_kn_per_m3: spec.pit.soil_density.value() * GRAVITY,
                wet_soil_kn_per_m3: spec.pit.soil_density_wet.value() * GRAVITY,
                water_kn_per_m3: WATER_WEIGHT.value,
            };
            // All feet at once, one of them blocked.
            let ([lasting, blocked], count) = (loads.lifts_kn(), f64::from(pit.elevators));
            Uplift {
                concrete: floating.balance(Bookkeeping::ConcreteOnly),
                with_soil: floating.balance(Bookkeeping::BuoyantSoil),
                pulled_kn: [lasting * count, lasting * (count - 1.0) + blocked.max(lasting)],
            }
        });
        Some(Self {
            length_mm: shape.inner_length_mm,
            width_mm: shape.inner_width_mm,
            depth_mm: shape.depth_mm,
            concrete_m3: shape.concrete_m3() + sump_concrete - void_m3,
            lean_m3: shape.lean_concrete_m3(),
            formwork_m2: shape.formwork_m2() + sump_forms + void_forms_m2,
            excavation_depth_mm: shape.excavation_depth_mm(),
            excavation_m3,
            backfill_m3,
            surplus_loose_m3: loose_m3(excavation_m3 - backfill_m3, SOIL_SWELL.value),
            uplift,
        })
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("pit", out);
        const SHAPE: &[&str] =
            &["pit.depth", "pit.wall", "pit.slab", "pit.toe", "pit.up_space", "pit.down_space", "pit.near_space", "pit.far_space", "pit.sump"];
        const DIG: &[&str] = &["pit.depth", "pit.slab", "pit.lean", "pit.working_space", "pit.batter"];
        g.put("length", "clear length", self.length_mm, Unit::Mm, &["pit.up_space", "pit.down_space"], VOLUMES);
        g.put("width", "clear width", self.width_mm, Unit::Mm, &["pit.near_space", "pit.far_space", "pit.elevators"], VOLUMES);
        g.put("concrete", "concrete of slab, walls and sump", self.concrete_m3, Unit::M3, SHAPE, CONVENTION);
        g.put("lean_concrete", "lean concrete", self.lean_m3, Unit::M3, &["pit.lean", "pit.toe"], CONVENTION);
        g.put("formwork", "formwork", self.formwork_m2, Unit::M2, SHAPE, CONVENTION);
        g.put("excavation_depth", "depth of the excavation", self.excavation_depth_mm, Unit::Mm, DIG, VOLUMES);
        g.put("excavation", "excavation, bank volume", self.excavation_m3, Unit::M3, DIG, VOLUMES);
        g.put("backfill", "backfill, bank volume", self.backfill_m3, Unit::M3, DIG, VOLUMES);
        g.put(
            "surplus",
            "soil to cart away, loose volume",
            self.surplus_loose_m3,
            Unit::M3,
            &["pit.excavation", "pit.backfill", "assumed.soil_swell"],
            VOLUMES,
        );
        if let Some(u) = &self.uplift {
            const WATER: &[&str] = &["pit.groundwater", "pit.depth", "pit.wall", "pit.slab", "pit.toe", "assumed.concrete_weight", "assumed.water_weight"];
            g.put("uplift", "uplift of the empty pit", u.concrete.uplift_kn, Unit::KnOnBuilding, WATER, UPLIFT);
            g.put("weight", "weight of its concrete", u.concrete.weight_kn, Unit::KnOnBuilding, WATER, UPLIFT);
            g.put("weight_with_soil", "weight of concrete and buoyant soil over the toe", u.with_soil.weight_kn, Unit::KnOnBuilding, WATER, UPLIFT);
            // Without water at the pit there is no uplift and no factor to print.
            if u.with_soil.uplift_kn > 0.0 {
                g.put("uplift_factor_concrete", "concrete over uplift", u.concrete.factor(), Unit::One, &["pit.weight", "pit.uplift"], UPLIFT);
                g.put("uplift_factor", "concrete and soil over uplift", u.with_soil.factor(), Unit::One, &["pit.weight_with_soil", "pit.uplift"], UPLIFT);
                const PULLED: &[&str] = &["pit.weight_with_soil", "pit.uplift", "loads.held_starting.vertical", "loads.held_blocked.vertical", "pit.elevators"];
                let [lasting, blocked] = u.pulled_kn;
                g.put("pulled", "pull of belts held by the building, running or starting", lasting, Unit::KnOnBuilding, PULLED, UPLIFT);
                g.put("pulled_blocked", "pull of belts held by the building, one foot blocked", blocked, Unit::KnOnBuilding, PULLED, UPLIFT);
                g.put("uplift_factor_pulled", "concrete and soil over uplift and pull of belts", u.factor_pulled(), Unit::One, PULLED, UPLIFT);
                g.put(
                    "uplift_factor_blocked",
                    "concrete and soil over uplift and pull of belts, one foot blocked",
                    u.factor_blocked(),
                    Unit::One,
                    PULLED,
                    UPLIFT,
                );
            }
        }
    }
}
