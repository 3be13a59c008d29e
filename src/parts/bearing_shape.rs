//! The envelope of a bearing unit by what it is bolted on with.
//!
//! In: the unit as chosen. Out: its shape. Its maker knows the rest.

use super::shape::{Mount, Unit};
use crate::sizing::bearing_unit::BearingUnit;
use crate::spec::rotating::BearingKind;

/// The envelope of a bearing unit whose block stands `off` mm off the face that it is bolted to, where it is held in a frame;
/// its bolts are those of the joint for `bolted`.
pub fn unit(unit: &BearingUnit, bore: f64, off: f64, bolted: &'static str) -> Unit {
    let mount = match unit.kind {
        BearingKind::PillowBlock => Mount::Base,
        BearingKind::TwoBoltFlange => Mount::Oval,
        BearingKind::FourBoltFlange => Mount::Square,
        BearingKind::TakeUpFrame => Mount::Frame,
    };
    // The unit's own figures are those of the plate that it needs: symmetrical about the shaft.
    let (height, across) = unit.block.map_or((0.0, unit.across), |[height, over]| (height, over));
    let holes = match unit.kind {
        // Along its base, which lies along the shaft's upright.
        BearingKind::PillowBlock => unit.bolts.iter().map(|[x, z]| [*z, *x]).collect(),
        _ => unit.bolts.clone(),
    };
    let off = if mount == Mount::Frame { off } else { 0.0 };
    Unit { mount, size: [across, unit.up], depth: unit.depth, off, height, bore, foot: unit.foot, bolted, holes, hole: unit.bolt_hole }
}
