//! The gravity take-up: mass wanted in the boxes, and whether it fits.
//!
//! In: belt pull needed at the foot, masses that hang on the shaft, box. Out: only for a gravity take-up.
//! Friction in the guides is left out.

use super::assumed::PACKED_WEIGHTS;
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::gravity_take_up::{BOXES, MASS, belt_pull_up_n, filling_height_mm, mass_needed_kg, volume_mm3};
use crate::model::Foot;
use crate::spec::Spec;
use crate::units::Unit;

/// The gravity take-up in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gravity {
    /// Belt pull up on the foot shaft that is needed, N.
    pub pull_needed_n: f64,
    /// Mass that hangs on the shaft without weights, kg.
    pub own_kg: f64,
    /// Mass of weights needed, kg; negative: what hangs already pulls harder than needed.
    pub needed_kg: f64,
    /// Mass of weights given, kg.
    pub given_kg: f64,
    /// Volume of the given weights, l.
    pub volume_l: f64,
    /// Volume of both boxes, l.
    pub box_l: f64,
    /// Height that the given weights take in the boxes, half of them in each, mm.
    pub filling_height_mm: f64,
    /// Clear height of a box, mm.
    pub box_height_mm: f64,
    /// Height that the needed weights would take, mm.
    pub needed_height_mm: f64,
}

impl Gravity {
    /// Computes it; `None` for a screw take-up.
    pub fn compute(spec: &Spec, foot: &Foot, path: &Path, tension: &Tension, masses: &Masses) -> Option<Self> {
        let own = foot.rotating.weight_box.as_ref()?;
        let [length, width, height] = own.clear();
        let pull_needed_n = belt_pull_up_n(tension.chain.foot_up_n, tension.chain.foot_down_n, path.middle.foot_run_deg.to_radians());
        let given_kg = spec.take_up.weights.value();
        let needed_kg = mass_needed_kg(pull_needed_n, masses.hanging_kg);
        Some(Self {
            pull_needed_n,
            own_kg: masses.hanging_kg,
            needed_kg,
            given_kg,
            volume_l: volume_mm3(given_kg, PACKED_WEIGHTS.value) / 1e6,
            box_l: BOXES * length * width * height / 1e6,
            filling_height_mm: filling_height_mm(given_kg / BOXES, PACKED_WEIGHTS.value, length, width),
            box_height_mm: height,
            needed_height_mm: filling_height_mm(needed_kg.max(0.0) / BOXES, PACKED_WEIGHTS.value, length, width),
        })
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("gravity", out);
        g.put(
            "pull_needed",
            "belt pull up on the foot shaft that is needed",
            self.pull_needed_n,
            Unit::N,
            &["tension.foot_needed", "power.dredging_force"],
            MASS,
        );
        g.put("own_mass", "mass that hangs on the shaft without weights", self.own_kg, Unit::Kg, &["masses.hanging"], MASS);
        g.put("mass_needed", "weights needed; negative: none", self.needed_kg, Unit::Kg, &["gravity.pull_needed", "gravity.own_mass"], MASS);
        g.put("mass_given", "weights given", self.given_kg, Unit::Kg, &["take_up.weights"], MASS);
        g.put("volume", "volume of the weights given", self.volume_l, Unit::L, &["take_up.weights", "assumed.packed_weights"], MASS);
        g.put("box_volume", "volume of both weight boxes", self.box_l, Unit::L, &["take_up.box_length", "take_up.box_width", "take_up.box_height"], MASS);
        g.put(
            "filling_height",
            "height that the weights given take in the boxes",
            self.filling_height_mm,
            Unit::Mm,
            &["gravity.volume", "take_up.box_length", "take_up.box_width"],
            MASS,
        );
        g.put(
            "needed_height",
            "height that the weights needed would take",
            self.needed_height_mm,
            Unit::Mm,
            &["gravity.mass_needed", "take_up.box_length", "take_up.box_width"],
            MASS,
        );
    }
}
