//! The concrete pit round the foot: inner faces, walls, slab, sump, opening, way down.
//!
//! The pit floor is the plane z = 0, the underside of the foot base; plant floor level ±0.000 lies
//! `depth` above it. Outlines only: no reinforcement.

use super::casing::CasingBody;
use super::frame::{Extent, Feature, ModelPoint};
use super::inlets::{FeedSide, InletBody, PocketBody};
use super::rotating::RotatingBody;
use crate::spec::Spec;
use crate::spec::inlets::Side;
use crate::spec::pit::{Access, AccessSide};

/// The pit as an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct PitBody {
    /// Inner faces along the machine.
    pub x: Extent,
    /// Inner faces across the machine.
    pub y: Extent,
    /// Plant floor above pit floor.
    pub depth: f64,
    /// Wall thickness.
    pub wall: f64,
    /// Slab thickness.
    pub slab: f64,
    /// Lean concrete thickness.
    pub lean: f64,
    /// Base slab beyond the walls.
    pub toe: f64,
    /// Sump in plan and its depth; `None` without one.
    pub sump: Option<Sump>,
    /// The way down.
    pub access: Access,
    /// At which wall.
    pub access_side: AccessSide,
    /// Clear spaces round the casing as built: up, down, near, far; from the outermost fixed part to the wall.
    pub spaces: [f64; 4],
    /// Elevators in the pit.
    pub elevators: u32,
    /// Distance between them, across the machine.
    pub pitch: f64,
}

/// The sump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sump {
    /// Along the machine.
    pub x: Extent,
    /// Across the machine.
    pub y: Extent,
    /// Below the pit floor.
    pub depth: f64,
}

/// Outermost fixed parts of the foot in plan, without the pit.
pub fn footprint(casing: &CasingBody, inlets: &[InletBody], pocket: Option<&PocketBody>, rotating: &RotatingBody) -> (Extent, Extent) {
    let mut x = Extent::new(casing.down_outermost() - casing.plate, casing.up_face + casing.plate);
    for inlet in inlets {
        match inlet.side {
            FeedSide::Up => x.high = x.high.max(inlet.flange_face),
            FeedSide::Down => x.low = x.low.min(inlet.flange_face),
        }
    }
    let mut y = casing.width.grown(casing.plate).joined(&rotating.shaft_ends);
    if let Some(p) = pocket {
        match p.side {
            Side::Near => y.high = y.high.max(casing.width.high + casing.plate + p.reach),
            Side::Far => y.low = y.low.min(casing.width.low - casing.plate - p.reach),
        }
    }
    (x, y)
}

impl PitBody {
    pub(super) fn build(spec: &Spec, casing: &CasingBody, inlets: &[InletBody], pocket: Option<&PocketBody>, rotating: &RotatingBody) -> Option<Self> {
        let pit = &spec.pit;
        if !pit.fitted.value {
            return None;
        }
        let (fx, fy) = footprint(casing, inlets, pocket, rotating);
        let row = f64::from(pit.elevators.value.saturating_sub(1)) * pit.pitch.value();
        let x = Extent { low: fx.low - pit.down_space.value(), high: fx.high + pit.up_space.value() };
        let y = Extent { low: fy.low - pit.far_space.value() - row, high: fy.high + pit.near_space.value() };
        let sump = (pit.sump.value() > 0.0 && pit.sump_depth.value() > 0.0).then(|| {
            let side = pit.sump.value();
            // In the corner away from the up-side feed and from the near-side walkway.
            Sump { x: Extent::new(x.low + 100.0, x.low + 100.0 + side), y: Extent::new(y.low + 100.0, y.low + 100.0 + side), depth: pit.sump_depth.value() }
        });
        Some(Self {
            x,
            y,
            depth: pit.depth.value(),
            wall: pit.wall.value(),
            slab: pit.slab.value(),
            lean: pit.lean.value(),
            toe: pit.toe.value(),
            sump,
            access: pit.access.value,
            access_side: pit.access_side.value,
            spaces: [pit.up_space.value(), pit.down_space.value(), pit.near_space.value(), pit.far_space.value()],
            elevators: pit.elevators.value,
            pitch: pit.pitch.value(),
        })
    }

    /// Level of a height above the base, relative to plant floor ±0.000, mm.
    pub fn level(&self, z: f64) -> f64 {
        z - self.depth
    }

    pub(super) fn features(&self, out: &mut Vec<Feature>) {
        let low = ModelPoint::new(self.x.low, self.y.low, 0.0);
        out.push(Feature::length("pit.length", "pit, clear length", low, ModelPoint { x: self.x.high, ..low }));
        out.push(Feature::length("pit.width", "pit, clear width", low, ModelPoint { y: self.y.high, ..low }));
        out.push(Feature::length("pit.depth", "pit depth", low, ModelPoint { z: self.depth, ..low }));
        out.push(Feature::length("pit.x_up", "machine axis to up-side wall", ModelPoint { x: 0.0, ..low }, ModelPoint { x: self.x.high, ..low }));
        out.push(Feature::length("pit.x_down", "machine axis to down-side wall", low, ModelPoint { x: 0.0, ..low }));
        out.push(Feature::length("pit.y_near", "machine axis to near wall", ModelPoint { y: 0.0, ..low }, ModelPoint { y: self.y.high, ..low }));
        out.push(Feature::length("pit.y_far", "machine axis to far wall", low, ModelPoint { y: 0.0, ..low }));
        out.push(Feature::length("pit.wall", "wall", ModelPoint { x: self.x.low - self.wall, ..low }, low));
        out.push(Feature::length("pit.slab", "slab", ModelPoint { z: -self.slab, ..low }, low));
        if self.lean > 0.0 {
            out.push(Feature::length("pit.lean", "lean concrete", ModelPoint { z: -self.slab - self.lean, ..low }, ModelPoint { z: -self.slab, ..low }));
        }
        if let Some(s) = &self.sump {
            let at = ModelPoint::new(s.x.low, s.y.low, 0.0);
            out.push(Feature::length("pit.sump", "sump", at, ModelPoint { x: s.x.high, ..at }));
            out.push(Feature::length("pit.sump_depth", "sump depth", ModelPoint { z: -s.depth, ..at }, at));
        }
        if self.elevators > 1 {
            out.push(Feature::length("pit.pitch", "pitch of elevators", ModelPoint::new(0.0, -self.pitch, 0.0), ModelPoint::new(0.0, 0.0, 0.0)));
        }
    }
}
