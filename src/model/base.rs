//! The base of the foot: pads with anchor bolts at the four corners of the casing.
//!
//! A pad is a flat bar on edge-stiffened feet outside the side plates, so that anchors can be reached
//! from the pit floor. Anchor size is a default of common practice; the load table on the pit sheet
//! tells the civil engineer what each pad carries.

use super::casing::CasingBody;
use super::frame::{Extent, Feature, ModelPoint};
use crate::formulas::foot_heights::{self, PAD_LENGTH};

/// One pad with one anchor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pad {
    /// Name of the support in the load table: A near/up, B near/down, C far/up, D far/down.
    pub name: &'static str,
    /// Along the machine.
    pub x: Extent,
    /// Across the machine.
    pub y: Extent,
    /// Anchor bolt centre.
    pub anchor: ModelPoint,
    /// Upper end of the leg that stands on it, welded to the side plate.
    pub leg_top: f64,
}

/// The base as built.
#[derive(Debug, Clone, PartialEq)]
pub struct BaseBody {
    /// Four pads.
    pub pads: Vec<Pad>,
    /// Anchor bolt thread.
    pub bolt: &'static str,
    /// Hole in the pad, mm.
    pub hole: f64,
    /// Pad thickness, mm.
    pub thickness: f64,
}

const PAD_WIDTH: f64 = 100.0;

impl BaseBody {
    pub(super) fn build(casing: &CasingBody) -> Self {
        // Heavier casings get the larger anchor (common practice, no source; the civil engineer decides).
        let large = casing.up_face - casing.down_x(casing.bottom_face) > 1600.0;
        let (bolt, hole, thickness) = if large { ("M20", 24.0, 15.0) } else { ("M16", 20.0, 12.0) };
        let up = Extent::new(casing.up_face + casing.plate - PAD_LENGTH, casing.up_face + casing.plate);
        let down_outer = casing.down_x(casing.bottom_face) - casing.plate;
        let down = Extent::new(down_outer, down_outer + PAD_LENGTH);
        let near_face = casing.width.high + casing.plate;
        let far_face = casing.width.low - casing.plate;
        let near = Extent::new(near_face, near_face + PAD_WIDTH);
        let far = Extent::new(far_face - PAD_WIDTH, far_face);
        let pads = [("A", up, near), ("B", down, near), ("C", up, far), ("D", down, far)]
            .into_iter()
            .map(|(name, x, y)| {
                let leg_top = foot_heights::leg_top(casing.lower_edge(x.middle()));
                Pad { name, x, y, anchor: ModelPoint::new(x.middle(), y.middle(), 0.0), leg_top }
            })
            .collect();
        Self { pads, bolt, hole, thickness }
    }

    pub(super) fn features(&self, out: &mut Vec<Feature>) {
        let at = |name: &str| self.pads.iter().find(|p| p.name == name).map(|p| p.anchor);
        if let (Some(a), Some(b), Some(c)) = (at("A"), at("B"), at("C")) {
            out.push(Feature::length("base.anchors_x", "anchors along the machine", b, a));
            out.push(Feature::length("base.anchors_y", "anchors across the machine", c, a));
            out.push(Feature::length("base.anchor_up", "anchor from foot shaft", ModelPoint { x: 0.0, ..a }, a));
        }
    }
}
