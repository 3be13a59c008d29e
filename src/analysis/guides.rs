//! The guides of a gravity take-up: what their friction holds back of boxes and weights, and the band of the belt's pull.
//!
//! In: boxes, guides, what hangs. Out: a share, N. The guides are pressed by what hangs beside the bearings (physics).

use super::assumed::OFF_MIDDLE;
use super::masses::Masses;
use crate::formulas::gravity_take_up::{friction_share, vertical_resultant_n};
use crate::model::Foot;
use crate::spec::Spec;
use crate::units::GRAVITY;

/// What the guides hold back of boxes and weights, as a share of their weight; 0 without boxes.
pub fn share(spec: &Spec, foot: &Foot) -> f64 {
    let r = &foot.rotating;
    r.weight_box.as_ref().map_or(0.0, |b| {
        let (out, along) = (b.y.middle() - r.bearing_planes.high, OFF_MIDDLE.value * b.x.size());
        friction_share(out, along, r.guides.guided(&r.sliding_plate, r.travel).max(1.0), spec.take_up.guide_friction.value())
    })
}

/// Belt pull up on the foot shaft while the take-up goes down and while it is pulled up, N; none without boxes.
pub fn band(spec: &Spec, foot: &Foot, masses: &Masses) -> Option<[f64; 2]> {
    foot.rotating.weight_box.as_ref()?;
    let weights = spec.take_up.weights.value();
    let hanging = vertical_resultant_n(weights, masses.hanging_kg);
    let friction = share(spec, foot) * (weights + masses.boxes_kg) * GRAVITY;
    Some([(hanging - friction).max(0.0), hanging + friction])
}
