//! Foot, head and bend pulley with their positions.
//!
//! Radii here are of the pulley itself; the belt's neutral line lies half a belt thickness further
//! out and its outer face a whole one. The foot pulley moves with the take-up; head and bend stay.

use super::frame::{Feature, ModelPoint};
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
        let foot_neutral = (foot_diameter + thickness) / 2.0;
        let head_neutral = (head_diameter + thickness) / 2.0;
        let face = spec.foot_pulley.face.value();
        let foot = PulleyBody { centre: ModelPoint::elevation(0.0, lowest), diameter: foot_diameter, face };
        let head = PulleyBody {
            centre: ModelPoint::elevation(foot_neutral - head_neutral, highest + spec.duty.lift.value()),
            diameter: head_diameter,
            face,
        };
        let bend = spec.bend_pulley.fitted.value.then(|| {
            let diameter = spec.bend_pulley.diameter.value();
            let bend_neutral = (diameter + thickness) / 2.0;
            let x = foot_neutral - 2.0 * head_neutral + bend_neutral;
            let z = if spec.bend_pulley.height.is_given() {
                spec.bend_pulley.height.value()
            } else {
                let middle = (lowest + highest) / 2.0;
                middle + bend_above_foot(foot_neutral, bend_neutral, x, spec.bend_pulley.angle.value().to_radians())
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

/// Height of the bend pulley's centre above the foot pulley's for a belt angle to the vertical (radians).
///
/// Both circles (neutral radii) touch the line with outward normal n = (−cos β, −sin β), so
/// n·B + R_b = n·F + R_f; with F at the origin B_z = (R_b − R_f − cos β·B_x)/sin β. Physics; checked
/// against the convex hull of the circles.
pub fn bend_above_foot(foot_neutral_mm: f64, bend_neutral_mm: f64, bend_x_mm: f64, angle_rad: f64) -> f64 {
    (bend_neutral_mm - foot_neutral_mm - angle_rad.cos() * bend_x_mm) / angle_rad.sin()
}

/// The belt's angle to the vertical (radians) for a bend pulley centre seen from the foot pulley centre.
///
/// The inverse of [`bend_above_foot`]: with d and ψ the distance and direction of B from F,
/// cos(β + …) form: n·B = R_f − R_b gives B_x cos β + B_z sin β = R_b − R_f.
pub fn bend_angle(foot_neutral_mm: f64, bend_neutral_mm: f64, bend_x_mm: f64, bend_z_mm: f64) -> Option<f64> {
    let distance = bend_x_mm.hypot(bend_z_mm);
    let level = (bend_neutral_mm - foot_neutral_mm) / distance;
    (level.abs() <= 1.0).then(|| {
        // B_x cos β + B_z sin β = d·cos(β − ψ), ψ = atan2(B_z, B_x); the left tangent is the smaller β.
        let direction = bend_z_mm.atan2(bend_x_mm);
        direction - level.acos()
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn angle_and_height_are_inverse() {
        for beta in [10f64, 20.0, 30.0, 35.0] {
            let z = bend_above_foot(606.0, 406.0, -1400.0, beta.to_radians());
            let back = bend_angle(606.0, 406.0, -1400.0, z).unwrap().to_degrees();
            assert!((back - beta).abs() < 1e-9, "{beta} → {z} → {back}");
        }
    }
}
