//! Masses of the foot, of what stands on it, and of the product in it.
//!
//! In: spec, model, what the parts weigh. Out: kg by group. The foot is weighed part by part, so loads, lifting and take-up
//! rest on the masses of the parts list; bearings, trunking and head are estimates until their supplier speaks.

use super::Quantity;
use super::assumed::{BEARING_MASS, CASING_EXTRA, DRIVE_MASS, HEAD_EXTRA, STEEL_DENSITY, TRUNK_PLATE};
use super::capacity::Capacity;
use super::path::Path;
use super::power::Power;
use super::section::{FreeSpace, Surface};
use super::weights::{MassAt, NONE, Weights, sum};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::spec::rotating::TakeUpKind;
use crate::units::Unit;

/// Plates and turned parts.
pub const PARTS: Source = Source::physics("volumes of the bodies of all parts x density of steel; masses given in the spec");
/// Bearing units.
pub const BEARINGS: Source = Source::practice("estimate from the bore; the maker's mass must take its place");
/// Trunking and head.
pub const ABOVE: Source = Source::practice("estimate from plate, pulley and power; the supplier's mass must take its place");
/// Product.
pub const PRODUCT: Source = Source::physics("volume x bulk density; line load x lift");

/// Masses.
#[derive(Debug, Clone, PartialEq)]
pub struct Masses {
    /// Plates of the foot casing with flanges, stiffeners, doors, feet and all bolts.
    pub casing: MassAt,
    /// Throats of the inlets.
    pub inlets: MassAt,
    /// Shovel pocket.
    pub pocket: MassAt,
    /// Foot pulley with shaft and bearings.
    pub foot_pulley_set: MassAt,
    /// Foot pulley alone, kg.
    pub foot_pulley_kg: f64,
    /// Foot shaft with its keys, kg.
    pub shaft_kg: f64,
    /// Both foot bearings, kg.
    pub bearings_kg: f64,
    /// Sliding plates with brackets and rods, or with frame and weights of a gravity take-up.
    pub take_up: MassAt,
    /// What slides with the foot shaft, without weights of a gravity take-up: pulley, shaft, bearings, sliding plates, frame, kg.
    pub hanging_kg: f64,
    /// Empty boxes of a gravity take-up with what holds them, a part of it, kg.
    pub boxes_kg: f64,
    /// Bend pulley alone, kg.
    pub bend_pulley_kg: f64,
    /// Bend pulley with shaft and bearings.
    pub bend_pulley_set: MassAt,
    /// All parts and bolts of the lists, kg: the foot without what only makers weigh.
    pub listed_kg: f64,
    /// The foot without belt and product, kg.
    pub foot_empty_kg: f64,
    /// Belt with buckets, all of it, kg.
    pub belt_kg: f64,
    /// Trunking between foot and head.
    pub trunk: MassAt,
    /// Head with pulley, shaft and drive.
    pub head: MassAt,
    /// Product on the up run at the wanted capacity, kg.
    pub product_on_belt_kg: f64,
    /// Product in the foot in steady running, kg.
    pub product_running: MassAt,
    /// Product in the flooded foot up to the highest inlet's upper edge, density for loads.
    pub product_flooded: MassAt,
}

impl Masses {
    /// Sums them.
    pub fn compute(spec: &Spec, foot: &Foot, space: &FreeSpace<'_>, (capacity, path, power): (&Capacity, &Path, &Power), weights: &Weights) -> Self {
        let steel = STEEL_DENSITY.value * 1e-9;
        let inside = space.inside();
        let (casing, inlets, pocket) = (weights.casing, weights.inlets, weights.pocket);
        let bearings = |bore: f64| 2.0 * BEARING_MASS.value * bore * bore;
        let r = &foot.rotating;
        let (shaft_kg, bearings_kg) = (weights.shaft.kg, bearings(r.journal));
        let foot_pulley_kg = spec.foot_pulley.mass.value.map_or(weights.foot_pulley.kg, |m| m.value());
        let frame_kg = spec.take_up.frame_mass.value.map_or(weights.frame.kg, |m| m.value());
        let weights_kg = if r.take_up == TakeUpKind::Gravity { spec.take_up.weights.value() } else { 0.0 };
        let at_shaft = |kg: f64| MassAt { kg, x_mm: 0.0, y_mm: 0.0 };
        let bend_pulley_kg = spec.bend_pulley.mass.value.map_or(weights.bend_pulley.kg, |m| m.value());
        let bend_pulley_set = foot.pulleys.bend.as_ref().map_or(NONE, |b| MassAt {
            kg: bend_pulley_kg + weights.bend_shaft.kg + bearings(spec.bend_pulley.shaft.value()),
            x_mm: b.centre.x,
            y_mm: 0.0,
        });
        let foot_pulley_set = at_shaft(foot_pulley_kg + shaft_kg + bearings_kg);
        let take_up = sum([weights.slides, at_shaft(frame_kg + weights_kg)]);

        let head_z = foot.pulleys.head.centre.z;
        let trunk_height = (head_z - foot.pulleys.head.radius() - foot.casing.top).max(0.0);
        let trunk = sum(foot.casing.trunk.iter().map(|t| MassAt {
            kg: 2.0 * (t.x.size() + t.y.size()) * trunk_height * TRUNK_PLATE.value * steel * CASING_EXTRA.value,
            x_mm: t.x.middle(),
            y_mm: t.y.middle(),
        }));
        let ratio = foot.pulleys.head.diameter / foot.pulleys.foot.diameter;
        let head_pulley_kg = foot_pulley_kg * ratio.powi(2).max(ratio);
        let head =
            MassAt { kg: head_pulley_kg * (1.0 + HEAD_EXTRA.value) + DRIVE_MASS.value * power.motor_full_kw, x_mm: foot.pulleys.head.centre.x, y_mm: 0.0 };

        let volume = |z: f64| space.below_l(&Surface { at: [0.0, z], rise: 0.0 });
        let brim = foot.inlets.iter().map(|i| i.opening.high).max_by(f64::total_cmp).unwrap_or(foot.casing.top);
        let throats_l: f64 = foot.inlets.iter().map(|i| i.width.size() * i.opening.size() * (i.flange_face - i.outside).abs() / 1e6).sum();
        Self {
            listed_kg: weights.total_kg(),
            foot_empty_kg: casing.kg + inlets.kg + pocket.kg + foot_pulley_set.kg + take_up.kg + bend_pulley_set.kg,
            casing,
            inlets,
            pocket,
            foot_pulley_set,
            foot_pulley_kg,
            shaft_kg,
            bearings_kg,
            take_up,
            boxes_kg: frame_kg,
            hanging_kg: foot_pulley_kg + shaft_kg + bearings_kg + weights.slides.kg + frame_kg,
            bend_pulley_kg,
            bend_pulley_set,
            belt_kg: capacity.empty_kg_per_m * path.middle.length_mm / 1000.0,
            trunk,
            head,
            product_on_belt_kg: capacity.product_kg_per_m * path.shaft_height_mm / 1000.0,
            product_running: MassAt { kg: space.lying_l() * spec.product.density.value(), x_mm: inside.middle_mm, y_mm: 0.0 },
            product_flooded: MassAt {
                kg: (volume(brim.min(foot.casing.top)) + throats_l) * spec.product.density_for_loads.value(),
                x_mm: inside.middle_mm,
                y_mm: 0.0,
            },
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut put = |id: &str, name: &'static str, value: f64, inputs: &[&str], source: Source| {
            out.push(Quantity::new(format!("masses.{id}"), name, value, Unit::Kg, inputs, source));
        };
        put("listed", "all parts and bolts of the lists", self.listed_kg, &["assumed.steel_density"], PARTS);
        let casing = ["casing.plate", "casing.bottom_plate", "casing.height", "assumed.steel_density"];
        put("casing", "foot casing with doors, feet, flanges, stiffeners and all bolts", self.casing.kg, &casing, PARTS);
        put("inlets", "throats of the inlets", self.inlets.kg, &["inlet.up.reach", "inlet.down.reach", "casing.plate"], PARTS);
        put("pocket", "shovel pocket", self.pocket.kg, &["shovel_pocket.width", "shovel_pocket.lip", "casing.plate"], PARTS);
        put("foot_pulley", "foot pulley", self.foot_pulley_kg, &["foot_pulley.mass", "foot_pulley.diameter", "foot_pulley.face"], PARTS);
        put("shaft", "foot shaft with its keys", self.shaft_kg, &["shaft.diameter", "shaft.bearing_centres", "shaft.projection"], PARTS);
        put("bearings", "both foot bearings", self.bearings_kg, &["shaft.journal", "assumed.bearing_mass"], BEARINGS);
        let take_up = ["take_up.travel", "take_up.frame_mass", "take_up.weights"];
        put("take_up", "sliding plates, brackets and rods, and frame with weights of a gravity take-up", self.take_up.kg, &take_up, PARTS);
        let hanging = ["masses.foot_pulley", "masses.shaft", "masses.bearings", "take_up.frame_mass"];
        put("hanging", "what slides with the foot shaft, without weights", self.hanging_kg, &hanging, PARTS);
        if self.bend_pulley_set.kg > 0.0 {
            put("bend_pulley", "bend pulley with shaft and bearings", self.bend_pulley_set.kg, &["bend_pulley.mass", "bend_pulley.shaft"], PARTS);
        }
        put(
            "foot_empty",
            "foot without belt and product",
            self.foot_empty_kg,
            &["masses.casing", "masses.inlets", "masses.pocket", "masses.foot_pulley", "masses.shaft", "masses.bearings", "masses.take_up"],
            PARTS,
        );
        put("belt", "belt with all buckets", self.belt_kg, &["capacity.empty_line_mass", "path.length_middle"], PARTS);
        put("trunk", "trunking between foot and head", self.trunk.kg, &["duty.lift", "casing.trunk", "assumed.trunk_plate", "assumed.casing_extra"], ABOVE);
        put(
            "head",
            "head with pulley, shaft and drive",
            self.head.kg,
            &["foot_pulley.mass", "head_pulley.diameter", "assumed.head_extra", "assumed.drive_mass", "power.motor_full"],
            ABOVE,
        );
        put("product_on_belt", "product on the up run", self.product_on_belt_kg, &["capacity.product_line_load", "path.shaft_height"], PRODUCT);
        put("product_running", "product in the foot in steady running", self.product_running.kg, &["plugging.lying", "product.density"], PRODUCT);
        put(
            "product_flooded",
            "product in the flooded foot and its throats",
            self.product_flooded.kg,
            &["product.density_for_loads", "inlet.up.sill", "inlet.up.height", "casing.height"],
            PRODUCT,
        );
    }
}
