//! Inlets with their throats, and the shovel pocket.
//!
//! An inlet is a rectangular opening in an end plate; outside it a straight throat with sloping
//! floor, parallel roof and two cheeks leads to a vertical flange. The shovel pocket is a hopper on
//! a side plate, between the shaft slot and the up-side end.

use super::casing::CasingBody;
use super::frame::{Extent, Feature, ModelPoint};
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
}

impl InletBody {
    fn build(side: FeedSide, inlet: &Inlet, casing: &CasingBody) -> Option<Self> {
        if !inlet.fitted.value {
            return None;
        }
        let sill = inlet.sill.value();
        let face = match side {
            FeedSide::Up => casing.up_face,
            FeedSide::Down => casing.down_x(sill),
        };
        let outside = face + side.outward() * casing.plate;
        let reach = inlet.reach.value();
        let rise = reach * inlet.slope.value().to_radians().tan();
        Some(Self {
            side,
            face,
            outside,
            sill,
            opening: Extent::new(sill, sill + inlet.height.value()),
            width: Extent::about(0.0, inlet.width.value()),
            slope_deg: inlet.slope.value(),
            flange_face: outside + side.outward() * reach,
            flange_sill: sill + rise,
            flange: inlet.flange.value(),
            fed_by: inlet.fed_by.value,
        })
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
    fn build(spec: &Spec, casing: &CasingBody, slot_zone: f64, level: f64) -> Option<Self> {
        let pocket = &spec.shovel_pocket;
        if !pocket.fitted.value {
            return None;
        }
        let lip = pocket.lip.value();
        let height = pocket.height.value();
        let slope = pocket.slope.value().to_radians();
        // Clear of the sliding plate in every position and of the end plate's frame.
        let room = Extent::new(slot_zone + 65.0, (casing.up_face - 40.0).max(slot_zone + 165.0));
        // Low enough that its floor still reaches the lip with a hopper one can shovel into.
        let wanted_reach: f64 = 300.0;
        let sill_at = |x: Extent| (lip - wanted_reach * slope.tan()).max(casing.bottom_face + 60.0).max(casing.lower_edge(x.high + 20.0) + 30.0);
        let mut x = Extent::about(room.middle(), pocket.width.value().min(room.size()));
        let mut z = Extent::new(sill_at(x), sill_at(x) + height);
        if casing.bottom_radius.is_some() {
            // A rolled bottom rises toward the end: the pocket moves to the slot and, if it must, becomes smaller.
            let panels = match pocket.side.value {
                Side::Near => spec.sensor_panels.near.value,
                Side::Far => spec.sensor_panels.far.value,
            };
            let ceiling = if panels { level - spec.sensor_panels.size.value() / 2.0 - 70.0 } else { casing.top - 100.0 };
            // The feet stand 120 mm in from the end.
            let mut width = x.size().min((casing.up_face - 155.0 - room.low).max(140.0));
            loop {
                x = Extent::new(room.low, room.low + width);
                let sill = sill_at(x);
                z = Extent::new(sill, (sill + height).min(ceiling.max(sill + 100.0)));
                if ceiling - sill >= height.min(200.0) || width <= 160.0 {
                    break;
                }
                width -= 10.0;
            }
        }
        let reach = ((lip - z.low) / slope.tan()).max(150.0);
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

/// Builds them; `slot_zone` is the half width of the sliding plates that the pocket keeps clear of, `level` the height of the sensor panels above it.
pub(super) fn build(spec: &Spec, casing: &CasingBody, slot_zone: f64, level: f64) -> (Vec<InletBody>, Option<PocketBody>) {
    let inlets = [InletBody::build(FeedSide::Up, &spec.inlet_up, casing), InletBody::build(FeedSide::Down, &spec.inlet_down, casing)];
    (inlets.into_iter().flatten().collect(), PocketBody::build(spec, casing, slot_zone, level))
}

pub(super) fn features(inlets: &[InletBody], pocket: Option<&PocketBody>, casing: &CasingBody, out: &mut Vec<Feature>) {
    inlets.iter().for_each(|i| i.features(out));
    if let Some(p) = pocket {
        p.features(casing, out);
    }
}
