//! The envelope of a bearing unit by what it is bolted on with.
//!
//! In: the unit as chosen. Out: its shape, and what its bolts go through, mm. Its maker knows the rest.

use super::shape::{Mount, Unit};
use crate::sizing::bearing_unit::BearingUnit;
use crate::spec::rotating::BearingKind;
use crate::tables::housings;

/// The envelope of a bearing unit.
pub fn unit(unit: &BearingUnit, bore: f64) -> Unit {
    let base = housings::pillow_block(unit.number).filter(|_| unit.kind == BearingKind::PillowBlock);
    let (mount, size) = match (unit.kind, base) {
        // The unit's own figures are those of the plate that it needs: symmetrical about the shaft.
        (BearingKind::PillowBlock, Some(block)) => (Mount::Base, [block.height_mm, unit.up]),
        (BearingKind::PillowBlock, None) => (Mount::Base, [unit.across, unit.up]),
        (BearingKind::TwoBoltFlange, _) => (Mount::Oval, [unit.across, unit.up]),
        (BearingKind::FourBoltFlange | BearingKind::TakeUpFrame, _) => (Mount::Square, [unit.across, unit.up]),
    };
    let height = if unit.kind == BearingKind::PillowBlock { base.map_or(unit.across / 2.0, |b| b.centre_height_mm) } else { 0.0 };
    // A take-up frame is held in guides that are bolted on beside it.
    let holes = if unit.kind == BearingKind::TakeUpFrame { Vec::new() } else { unit.bolts.clone() };
    Unit { mount, size, depth: unit.depth, height, bore, holes, hole: unit.bolt_hole }
}

/// What the bolts of a bearing unit go through in it, mm.
pub fn seat(bearing: &BearingUnit) -> f64 {
    unit(bearing, 0.0).seat()
}
