//! Foot, head and bend pulley with their positions.
//!
//! Radii here are of the pulley itself; the belt's neutral line lies half a belt thickness further
//! out and its outer face a whole one. The foot pulley moves with the take-up; head and bend stay.

use super::frame::{Feature, ModelPoint};
use crate::formulas::belt_path::neutral_radius;
use crate::formulas::foot_heights;
use crate::spec::Spec;

/// A pulley with its axis across the machine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulleyBody {
    /// Centre; for the foot pulley at the lowest take-up position.
    pub centre: ModelPoint,
    /// Diameter, mm.
    pub diameter: f64,
    /// Face width, mm.
    pub face: f64,
}

impl PulleyBody {
    /// Radius, mm.
    pub fn radius(&self) -> f64 {
        self.diameter / 2.0
    }
}

/// All pulleys of the belt path.
#[derive(Debug, Clone, PartialEq)]
pub struct Pulleys {
    /// Foot pulley, at the lowest take-up position.
    pub foot: PulleyBody,
    /// Head pulley.
    pub head: PulleyBody,
    /// Bend pulley on the down side, inside the belt loop.
    pub bend: Option<PulleyBody>,
    /// Distance between the foot pulley's hub discs, mm.
    pub hub_spacing: f64,
}

impl Pulleys {
    /// Places the pulleys; `lowest` and `highest` are the foot shaft's heights at the ends of the take-up travel.
    pub(super) fn build(spec: &Spec, lowest: f64, highest: f64) -> Self {
        let thickness = spec.belt.thickness.value();
        let foot_diameter = spec.foot_pulley.diameter.value();
        let head_diameter = spec.head_pulley.diameter.value();
        let foot_neutral = neutral_radius(foot_diameter, thickness);
        let head_neutral = neutral_radius(head_diameter, thickness);
        let face = spec.foot_pulley.face.value();
        let foot = PulleyBody { centre: ModelPoint::elevation(0.0, lowest), diameter: foot_diameter, face };
        let head = PulleyBody { centre: ModelPoint::elevation(foot_neutral - head_neutral, highest + spec.duty.lift.value()), diameter: head_diameter, face };
        let bend = spec.bend_pulley.fitted.value.then(|| {
            let diameter = spec.bend_pulley.diameter.value();
            let bend_neutral = neutral_radius(diameter, thickness);
            let x = foot_heights::bend_pulley_x(foot_neutral, head_neutral, bend_neutral);
            let z = if spec.bend_pulley.height.is_given() {
                spec.bend_pulley.height.value()
            } else {
                let middle = (lowest + highest) / 2.0;
                middle + foot_heights::bend_pulley_above_shaft(spec.bend_pulley.angle.value(), foot_neutral, head_neutral, bend_neutral)
            };
            PulleyBody { centre: ModelPoint::elevation(x, z), diameter, face: spec.bend_pulley.face.value() }
        });
        Self { foot, head, bend, hub_spacing: spec.foot_pulley.hub_spacing.value() }
    }

    pub(super) fn features(&self, spec: &Spec, highest: f64, out: &mut Vec<Feature>) {
        let foot = self.foot.centre;
        out.push(Feature::diameter("foot_pulley.diameter", "foot pulley", foot, self.foot.diameter));
        out.push(Feature::length(
            "foot_pulley.face",
            "foot pulley face",
            ModelPoint { y: -self.foot.face / 2.0, ..foot },
            ModelPoint { y: self.foot.face / 2.0, ..foot },
        ));
        out.push(Feature::length(
            "foot_pulley.hub_spacing",
            "hub discs",
            ModelPoint { y: -self.hub_spacing / 2.0, ..foot },
            ModelPoint { y: self.hub_spacing / 2.0, ..foot },
        ));
        out.push(Feature::height("foot.shaft.lowest", "foot shaft, lowest", foot));
        out.push(Feature::height("foot.shaft.highest", "foot shaft, highest", ModelPoint { z: highest, ..foot }));
        out.push(Feature::length("take_up.travel", "take-up travel", foot, ModelPoint { z: highest, ..foot }));
        out.push(Feature::length("duty.lift", "lift", ModelPoint { z: highest, ..foot }, ModelPoint { x: foot.x, ..self.head.centre }));
        out.push(Feature::diameter("head_pulley.diameter", "head pulley", self.head.centre, self.head.diameter));
        out.push(Feature::length("head.offset", "head shaft from foot shaft", ModelPoint { z: self.head.centre.z, ..foot }, self.head.centre));
        if let Some(bend) = &self.bend {
            out.push(Feature::diameter("bend_pulley.diameter", "bend pulley", bend.centre, bend.diameter));
            out.push(Feature::height("bend_pulley.height", "bend pulley shaft", bend.centre));
            out.push(Feature::length("bend_pulley.offset", "bend pulley from foot shaft", ModelPoint { z: bend.centre.z, ..foot }, bend.centre));
            out.push(Feature::angle("bend_pulley.angle", "belt to vertical, take-up in the middle", bend.centre, foot, spec.bend_pulley.angle.value()));
            out.push(Feature::length(
                "bend_pulley.face",
                "bend pulley face",
                ModelPoint { y: -bend.face / 2.0, ..bend.centre },
                ModelPoint { y: bend.face / 2.0, ..bend.centre },
            ));
        }
    }
}
