//! The base of the foot: pads with anchor bolts at the four corners of the casing.
//!
//! A pad is a flat bar on edge-stiffened feet outside the side plates, so that anchors can be reached
//! from the pit floor. Anchor size is a default of common practice; the load table on the pit sheet
//! tells the civil engineer what each pad carries.

use super::casing::CasingBody;
use super::customary::custom;
use super::frame::{Extent, Feature, ModelPoint};
use crate::formulas::foot_heights;
use crate::sizing::sliding_plate::pad_length;
use crate::spec::Spec;

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

/// An anchor bolt in its concrete, as an outline; the civil engineer settles it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnchorBolt {
    /// Diameter, mm.
    pub diameter: f64,
    /// Diameter and thickness of its washer, mm.
    pub washer: [f64; 2],
    /// Across flats and height of its nut and of the lock nut, mm.
    pub nut: [f64; 2],
    /// Its end above the underside of the base: pad, washer, nut and lock nut, some threads; mm.
    pub projection: f64,
    /// Cast in below the grout, ten diameters; mm.
    pub embedment: f64,
    /// Grout between concrete and pad, mm.
    pub grout: f64,
    /// Recess in the concrete for the grout beyond the pad all round, mm.
    pub margin: f64,
}

/// The base as built.
#[derive(Debug, Clone, PartialEq)]
pub struct BaseBody {
    /// Four pads.
    pub pads: Vec<Pad>,
    /// Anchor bolt thread.
    pub bolt: &'static str,
    /// The bolt in its concrete.
    pub anchor: AnchorBolt,
    /// Hole in the pad, mm.
    pub hole: f64,
    /// Pad thickness, mm.
    pub thickness: f64,
}

const PAD_WIDTH: f64 = 100.0;

/// Size of an anchor: thread, diameter, hole, pad thickness; mm.
type Size = (&'static str, f64, f64, f64);

impl BaseBody {
    pub(super) fn build(spec: &Spec, casing: &CasingBody) -> Self {
        // Heavier casings get the larger anchor (common practice, no source; the civil engineer decides).
        let large = casing.up_face - casing.down_x(casing.bottom_face) > 1600.0;
        let stock = spec.stock();
        let length = pad_length(stock);
        let sizes: [Size; 2] = if spec.us() {
            [("5/8-11 UNC", 15.875, 19.05, 12.7), ("3/4-10 UNC", 19.05, 22.225, 15.875)]
        } else {
            [("M16", 16.0, 20.0, 12.0), ("M20", 20.0, 24.0, 15.0)]
        };
        let (bolt, diameter, hole, thickness) = sizes[usize::from(large)];
        // Who sets the bolts measures to 5 mm or 1/4 in: the pads give way inward along the machine and grow across it.
        let step = custom(spec, 5.0, 0.25);
        let up = Extent::about(foot_heights::pad_middle(casing.up_face + casing.plate, length, step), length);
        let down_outer = casing.down_x(casing.bottom_face) - casing.plate;
        let down = Extent::about(-foot_heights::pad_middle(-down_outer, length, step), length);
        let face = casing.width.high + casing.plate;
        let across = ((face + PAD_WIDTH / 2.0) / step - 1e-6).ceil() * step;
        let near = Extent::new(face, 2.0 * across - face);
        let far = Extent::new(-near.low, -near.high);
        let on = |v: f64, metric: f64, inches: f64| {
            let step = custom(spec, metric, inches);
            (v / step - 1e-6).ceil() * step
        };
        // In diameters, from memory of ISO 7089 and ISO 4032.
        let (washer, nut) = ([2.0, 0.2].map(|s| s * diameter), [1.5, 0.8].map(|s| s * diameter));
        let anchor = AnchorBolt {
            diameter,
            washer,
            nut,
            projection: on(thickness + washer[1] + 2.0 * nut[1] + 5.0, 5.0, 0.25),
            embedment: on(10.0 * diameter, 10.0, 0.5),
            grout: custom(spec, 25.0, 1.0),
            margin: custom(spec, 50.0, 2.0),
        };
        let pads = [("A", up, near), ("B", down, near), ("C", up, far), ("D", down, far)]
            .into_iter()
            .map(|(name, x, y)| {
                let leg_top = foot_heights::leg_top(casing.lower_edge(x.middle()));
                Pad { name, x, y, anchor: ModelPoint::new(x.middle(), y.middle(), 0.0), leg_top }
            })
            .collect();
        Self { pads, bolt, anchor, hole, thickness }
    }

    pub(super) fn features(&self, out: &mut Vec<Feature>) {
        let at = |name: &str| self.pads.iter().find(|p| p.name == name).map(|p| p.anchor);
        if let (Some(a), Some(b), Some(c)) = (at("A"), at("B"), at("C")) {
            out.push(Feature::length("base.anchors_x", "anchors along the machine", b, a));
            out.push(Feature::length("base.anchors_y", "anchors across the machine", c, a));
            out.push(Feature::length("base.anchor_down", "anchor from foot shaft, down side", b, ModelPoint { x: 0.0, ..b }));
            out.push(Feature::length("base.anchor_up", "anchor from foot shaft", ModelPoint { x: 0.0, ..a }, a));
        }
    }
}
