//! Inlets with their throats, and the shovel pocket.
//!
//! An inlet is a rectangular opening in an end plate; outside it a straight throat with sloping
//! floor, parallel roof and two cheeks leads to a vertical flange. The shovel pocket is a hopper on
//! a side plate, between the shaft slot and the up-side end.

use super::base::Pad;
use super::casing::CasingBody;
use super::customary::custom;
use super::frame::{Extent, Feature, ModelPoint};
use crate::formulas::foot_heights::{LAP, flange_floor};
use crate::formulas::pocket_place::{Around, BESIDE_SLIDE, LEAST_REACH, REACH, under_panel};
use crate::sizing::pocket_lid;
use crate::spec::Spec;
use crate::spec::inlets::{FedBy, Inlet, Side};

/// Which run of the belt an inlet faces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FeedSide {
    /// Into the rising, filling buckets.
    Up,
    /// Onto the backs of the descending, empty buckets.
    Down,
}

impl FeedSide {
    /// Key of the spec table, `up` or `down`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Up => "up",
            Self::Down => "down",
        }
    }
    /// The side in words, `up side`.
    pub const fn noun(self) -> &'static str {
        match self {
            Self::Up => "up side",
            Self::Down => "down side",
        }
    }
    /// In words before what lies there, `up-side` throat.
    pub const fn adjective(self) -> &'static str {
        match self {
            Self::Up => "up-side",
            Self::Down => "down-side",
        }
    }
    /// +1 toward the up side, −1 toward the down side: the direction away from the belt.
    pub const fn outward(self) -> f64 {
        match self {
            Self::Up => 1.0,
            Self::Down => -1.0,
        }
    }
}

/// One inlet with its throat.
#[derive(Debug, Clone, PartialEq)]
pub struct InletBody {
    /// Which side.
    pub side: FeedSide,
    /// Inner face of the end plate at the sill.
    pub face: f64,
    /// Outer face of the end plate, where the throat begins.
    pub outside: f64,
    /// Sill: lowest edge of the opening.
    pub sill: f64,
    /// Clear opening up the end plate.
    pub opening: Extent,
    /// Clear width across the machine.
    pub width: Extent,
    /// Slope of floor and roof, degrees.
    pub slope_deg: f64,
    /// x of the outer flange's face.
    pub flange_face: f64,
    /// Height of the floor at the outer flange.
    pub flange_sill: f64,
    /// Width of the outer flange.
    pub flange: f64,
    /// What brings the material.
    pub fed_by: FedBy,
    /// Transition to a spout or outlet of another size.
    pub transition: Option<Transition>,
}

/// A transition outside an inlet's flange; its floor goes on with the throat's slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transition {
    /// x of its outer flange's face.
    pub face: f64,
    /// Clear width there, across the machine.
    pub width: Extent,
    /// Clear height there, up from the base.
    pub opening: Extent,
}

impl InletBody {
    fn build(side: FeedSide, inlet: &Inlet, casing: &CasingBody) -> Option<Self> {
        if !inlet.fitted.value {
            return None;
        }
        let sill = inlet.sill.value();
        let (face, outside) = match side {
            FeedSide::Up => (casing.up_face, casing.up_face + casing.plate),
            FeedSide::Down => (casing.down_x(sill), casing.down_outer_x(sill)),
        };
        let reach = inlet.reach.value();
        let flange_sill = flange_floor(sill, reach, inlet.slope.value());
        let flange_face = outside + side.outward() * reach;
        let transition = inlet.from_width.value.zip(inlet.from_height.value).zip(inlet.from_length.value).map(|((w, h), l)| {
            let sill = flange_floor(flange_sill, l.value(), inlet.slope.value());
            Transition { face: flange_face + side.outward() * l.value(), width: Extent::about(0.0, w.value()), opening: Extent::new(sill, sill + h.value()) }
        });
        Some(Self {
            side,
            transition,
            face,
            outside,
            sill,
            opening: Extent::new(sill, sill + inlet.height.value()),
            width: Extent::about(0.0, inlet.width.value()),
            slope_deg: inlet.slope.value(),
            flange_face,
            flange_sill,
            flange: inlet.flange.value(),
            fed_by: inlet.fed_by.value,
        })
    }

    /// x of the outermost flange's face: the transition's where there is one, mm.
    pub fn outer_face(&self) -> f64 {
        self.transition.map_or(self.flange_face, |t| t.face)
    }

    /// Clear area square to the floor, mm².
    pub fn throat_area(&self) -> f64 {
        self.width.size() * self.opening.size() * self.slope_deg.to_radians().cos()
    }

    fn features(&self, out: &mut Vec<Feature>) {
        let key = self.side.key();
        let at = ModelPoint::elevation(self.face, self.sill);
        let upper = ModelPoint { z: self.opening.high, ..at };
        out.push(Feature::height(format!("inlet.{key}.sill"), format!("{key}-side sill"), at));
        out.push(Feature::length(format!("inlet.{key}.height"), format!("{key}-side inlet, clear height"), at, upper));
        out.push(Feature::length(
            format!("inlet.{key}.width"),
            format!("{key}-side throat, clear width"),
            ModelPoint { y: self.width.low, ..at },
            ModelPoint { y: self.width.high, ..at },
        ));
        let floor_end = ModelPoint::elevation(self.flange_face, self.flange_sill);
        out.push(Feature::length(format!("inlet.{key}.reach"), format!("{key}-side throat, reach"), ModelPoint { x: self.outside, ..floor_end }, floor_end));
        out.push(Feature::angle(
            format!("inlet.{key}.slope"),
            format!("{key}-side throat floor"),
            ModelPoint { x: self.outside, ..at },
            floor_end,
            self.slope_deg,
        ));
        out.push(Feature::height(format!("inlet.{key}.flange_sill"), format!("{key}-side flange, floor"), floor_end));
        if let Some(t) = &self.transition {
            let end = ModelPoint::elevation(t.face, t.opening.low);
            let name = |what: &str| format!("{key}-side transition, {what}");
            let across = |y: f64| ModelPoint { y, ..end };
            out.push(Feature::length(format!("inlet.{key}.from_width"), name("clear width"), across(t.width.low), across(t.width.high)));
            out.push(Feature::length(format!("inlet.{key}.from_height"), name("clear height"), end, ModelPoint { z: t.opening.high, ..end }));
            out.push(Feature::length(format!("inlet.{key}.from_length"), name("length"), ModelPoint { x: self.flange_face, ..end }, end));
        }
    }
}

/// The shovel pocket.
#[derive(Debug, Clone, PartialEq)]
pub struct PocketBody {
    /// Side of the foot it is on.
    pub side: Side,
    /// Opening in the side plate along the machine.
    pub x: Extent,
    /// Opening in the side plate up from the base.
    pub z: Extent,
    /// Lip over which is shovelled, above the pit floor.
    pub lip: f64,
    /// How far the hopper stands out from the side plate's outer face.
    pub reach: f64,
    /// Slope of its floor, degrees.
    pub slope_deg: f64,
}

impl PocketBody {
    /// The floor runs from the opening's lower edge outward and up to the lip.
    fn build(spec: &Spec, casing: &CasingBody, slide: f64, level: f64, pads: &[Pad]) -> Option<Self> {
        let pocket = &spec.shovel_pocket;
        if !pocket.fitted.value {
            return None;
        }
        let (lip, width, height) = (pocket.lip.value(), pocket.width.value(), pocket.height.value());
        let slope = pocket.slope.value().to_radians();
        let panels = match pocket.side.value {
            Side::Near => spec.sensor_panels.near.value,
            Side::Far => spec.sensor_panels.far.value,
        };
        let around = Around {
            slide,
            end: casing.up_face,
            bottom: casing.bottom_face,
            rolled: casing.bottom_radius.zip(casing.bottom_arc.map(|arc| arc[0])),
            foot: pads.iter().find(|p| p.x.middle() > 0.0).map_or([f64::INFINITY, 0.0], |p| [p.x.low, p.leg_top]),
            panel: if panels { level - spec.sensor_panels.size.value() / 2.0 } else { f64::INFINITY },
            under_panel: under_panel(pocket_lid::stack(casing.plate, spec.stock()) + pocket_lid::AIR, spec.stock().width_mm(LAP)),
            lip,
            slope,
            step: spec.stock().step_mm(),
            reach: custom(spec, REACH[0], REACH[1]),
        };
        // A size asked for that has no place stands beside the guides; what it meets there is reported.
        let (x, z) = around.place(width, height).unwrap_or_else(|| {
            let (low, sill) = (slide + BESIDE_SLIDE, (lip - around.reach * slope.tan()).max(casing.bottom_face + 60.0));
            ([low, low + width], [sill, sill + height])
        });
        let (x, z) = (Extent::new(x[0], x[1]), Extent::new(z[0], z[1]));
        let reach = ((lip - z.low) / slope.tan()).max(LEAST_REACH);
        Some(Self { side: pocket.side.value, x, z, lip, reach, slope_deg: pocket.slope.value() })
    }

    fn features(&self, casing: &CasingBody, out: &mut Vec<Feature>) {
        let y = match self.side {
            Side::Near => casing.width.high + casing.plate,
            Side::Far => casing.width.low - casing.plate,
        };
        let outward = if self.side == Side::Near { 1.0 } else { -1.0 };
        let at = ModelPoint::new(self.x.low, y, self.z.low);
        out.push(Feature::length("shovel_pocket.width", "shovel pocket, clear width", at, ModelPoint { x: self.x.high, ..at }));
        out.push(Feature::length("shovel_pocket.height", "shovel pocket, clear height", at, ModelPoint { z: self.z.high, ..at }));
        out.push(Feature::height("shovel_pocket.sill", "shovel pocket, opening", at));
        out.push(Feature::height("shovel_pocket.lip", "shovel pocket, lip", ModelPoint { y: y + outward * self.reach, z: self.lip, ..at }));
        out.push(Feature::length("shovel_pocket.reach", "shovel pocket, reach", at, ModelPoint { y: y + outward * self.reach, ..at }));
        out.push(Feature::angle(
            "shovel_pocket.slope",
            "shovel pocket floor",
            at,
            ModelPoint { y: y + outward * self.reach, z: self.lip, ..at },
            self.slope_deg,
        ));
    }
}

/// Builds them; the pocket keeps clear of the sliding plates (half width `slide`), of the feet, and of the sensor panels at `level` above it.
pub(super) fn build(spec: &Spec, casing: &CasingBody, slide: f64, level: f64, pads: &[Pad]) -> (Vec<InletBody>, Option<PocketBody>) {
    let inlets = [InletBody::build(FeedSide::Up, &spec.inlet_up, casing), InletBody::build(FeedSide::Down, &spec.inlet_down, casing)];
    (inlets.into_iter().flatten().collect(), PocketBody::build(spec, casing, slide, level, pads))
}

pub(super) fn features(inlets: &[InletBody], pocket: Option<&PocketBody>, casing: &CasingBody, out: &mut Vec<Feature>) {
    inlets.iter().for_each(|i| i.features(out));
    if let Some(p) = pocket {
        p.features(casing, out);
    }
}
