//! The stages of deciding: what each knows, and the order in which its parts are decided.
//!
//! In: what was asked. Out: groups of settled keys. A stage reaches all stages before it by `Deref`, so a group asks for
//! whatever has been decided and cannot ask for what has not. Nothing is changed once it is decided: a table of which some
//! keys wait for others ([`BendSize`], [`Plates`]) is put together by [`settle`](super::settle) at the end.

pub(super) use super::ask::Ask;
use crate::formulas::down_face::DownFace;
use crate::formulas::tension::{Chain, ChainInput, Drive};
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use crate::spec::casing::{Bottom, Trunk};
use crate::spec::duty::Duty;
use crate::spec::inlets::{Inlet, ShovelPocket};
use crate::spec::openings::{CleanOut, Door, Removal, SensorPanels};
use crate::spec::product::Product;
use crate::spec::pulleys::{FootPulley, HeadPulley};
use crate::spec::reader::Chosen;
use crate::spec::rotating::{Bearings, Shaft, TakeUp};
use crate::units::{Angle, Length, Mass};
use std::ops::Deref;

/// Says that a stage knows the one before it.
macro_rules! knows {
    ($stage:ident, $field:ident: $before:ident) => {
        impl<'a> Deref for $stage<'a> {
            type Target = $before<'a>;
            fn deref(&self) -> &$before<'a> {
                &self.$field
            }
        }
    };
}

/// What is lifted, in which buckets, how fast.
pub(super) struct Lifted<'a> {
    pub(super) ask: Ask<'a>,
    pub product: Product,
    pub sides: Sides,
    pub head_pulley: HeadPulley,
    pub bucket: Bucket,
    pub duty: Duty,
}
knows!(Lifted, ask: Ask);

/// The belt and the pulleys that it runs on.
pub(super) struct Running<'a> {
    pub(super) before: &'a Lifted<'a>,
    pub belt: Belt,
    pub pulls: Pulls,
    pub foot_pulley: FootPulley,
    pub bend: BendSize,
}
knows!(Running, before: Lifted);

/// The casing's plates across the machine, and the shaft that spans them.
pub(super) struct Turning<'a> {
    pub(super) before: &'a Running<'a>,
    pub plates: Plates,
    pub widths: Widths,
    pub shaft: Shaft,
    pub bearings: Bearings,
}
knows!(Turning, before: Running);

/// The take-up, and with it every level that the foot's moving parts come to.
pub(super) struct Standing<'a> {
    pub(super) before: &'a Turning<'a>,
    pub take_up: TakeUp,
    pub feet: Chosen<Length>,
    pub levels: Levels,
    pub bend_place: BendPlace,
    /// Bends of the down-side end plate, where a bend pulley makes it follow the belt.
    pub down_face: Option<DownFace>,
}
knows!(Standing, before: Turning);

/// Everything that is cut into the casing.
pub(super) struct Opened<'a> {
    pub(super) before: &'a Standing<'a>,
    pub inlet_up: Inlet,
    pub inlet_down: Inlet,
    pub sensor_panels: SensorPanels,
    pub clean_out: CleanOut,
    pub removal: Removal,
    pub shovel_pocket: ShovelPocket,
    pub doors: Vec<Door>,
}
knows!(Opened, before: Standing);

/// Which inlets there are.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sides {
    /// Up side.
    pub up: Chosen<bool>,
    /// Down side.
    pub down: Chosen<bool>,
}

/// Pulls in the belt, and what they rest on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pulls {
    pub(super) input: ChainInput,
    pub(super) drive: Drive,
    /// What dredging puts on the up run at the foot, N: without the losses, which act along the way.
    pub(super) dredging: f64,
    /// Forces along the belt.
    pub chain: Chain,
}

/// The bend pulley without its place.
pub(super) struct BendSize {
    pub fitted: Chosen<bool>,
    pub diameter: Chosen<Length>,
    pub face: Chosen<Length>,
    pub(super) shaft: Chosen<Length>,
    pub(super) mass: Chosen<Option<Mass>>,
}

/// The place of the bend pulley: belt angle and height above the base.
pub(super) struct BendPlace {
    pub angle: Chosen<Angle>,
    pub height: Chosen<Length>,
}

/// Everything but feet and height.
pub(super) struct Plates {
    pub plate: Chosen<Length>,
    pub bottom_plate: Chosen<Length>,
    pub bottom: Chosen<Bottom>,
    pub bottom_clearance: Chosen<Length>,
    pub up_clearance: Chosen<Length>,
    pub down_clearance: Chosen<Length>,
    pub side_clearance: Chosen<Length>,
    pub(super) trunk: Chosen<Trunk>,
    pub(super) flange: Chosen<Length>,
    pub(super) material: Chosen<String>,
    pub(super) finish: Chosen<String>,
}

/// Sizes across the belt, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Widths {
    /// Between the side plates.
    pub inside: f64,
    /// Over the side plates.
    pub outside: f64,
}

/// Levels above the underside of the base and places along the foot, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Levels {
    /// Inner face of the bottom.
    pub bottom: f64,
    /// Foot shaft, take-up at its lowest.
    pub shaft_low: f64,
    /// Foot shaft, take-up at its highest.
    pub shaft_high: f64,
    /// Radius of the bucket tips round the foot shaft.
    pub tip_radius: f64,
    /// Foot pulley radius.
    pub radius: f64,
    /// Inner face of the end plate on the up side.
    pub up_end: f64,
    /// Half width of the sliding plate.
    pub slide: f64,
}
