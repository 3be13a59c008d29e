//! The stages of deciding: what each knows, and the order in which its parts are decided.
//!
//! In: what was asked. Out: groups of settled keys. A stage reaches all stages before it by `Deref`, so a group asks for
//! whatever has been decided and cannot ask for what has not. Nothing is changed once it is decided: a table of which some
//! keys wait for others ([`pulleys::BendSize`], [`casing::Plates`]) is put together by [`settle`](super::settle) at the end.

use super::inlets::{self, Sides};
use super::levels::{self, Levels, Widths};
use super::pulls::Pulls;
use super::rounding::Rounding;
use super::{belt, bucket, casing, duty, openings, pocket, product, pulleys, rotating, take_up};
use crate::diagnostics::Diagnostics;
use crate::formulas::down_face::DownFace;
use crate::spec::AskedSpec;
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use crate::spec::duty::Duty;
use crate::spec::inlets::{Inlet, ShovelPocket};
use crate::spec::openings::{CleanOut, Door, SensorPanels};
use crate::spec::product::Product;
use crate::spec::pulleys::{FootPulley, HeadPulley};
use crate::spec::reader::Chosen;
use crate::spec::rotating::{Bearings, Shaft, TakeUp};
use crate::units::Length;
use std::ops::Deref;

/// What every decision starts from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ask<'a> {
    /// The spec as asked.
    pub asked: &'a AskedSpec,
    /// How defaults are rounded.
    pub rounding: Rounding,
}

impl<'a> Ask<'a> {
    pub(super) fn of(asked: &'a AskedSpec) -> Self {
        Self { asked, rounding: Rounding::of(asked) }
    }
}

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
    ask: Ask<'a>,
    pub product: Product,
    pub sides: Sides,
    pub head_pulley: HeadPulley,
    pub bucket: Bucket,
    pub duty: Duty,
}
knows!(Lifted, ask: Ask);

impl<'a> Lifted<'a> {
    pub(super) fn decide(ask: Ask<'a>, out: &mut Diagnostics) -> Self {
        let product = product::product(&ask.asked.product, out);
        let sides = inlets::fitted(ask.asked);
        let head_pulley = pulleys::head(&ask.asked.head_pulley, out);
        let size = bucket::size(&ask, out);
        let carrying = duty::Carrying { ask, product: &product, down_side: sides.down.value, head: &head_pulley, size: &size };
        let duty = carrying.duty(out);
        let spacing = carrying.spacing(&duty);
        Self { bucket: size.spaced(spacing), ask, product, sides, head_pulley, duty }
    }
}

/// The belt and the pulleys that it runs on.
pub(super) struct Running<'a> {
    before: &'a Lifted<'a>,
    pub belt: Belt,
    pub pulls: Pulls,
    pub foot_pulley: FootPulley,
    pub bend: pulleys::BendSize,
}
knows!(Running, before: Lifted);

impl<'a> Running<'a> {
    pub(super) fn decide(before: &'a Lifted<'a>) -> Self {
        // A belt for estimated pulls gives the weight and the tracking tension for the pulls that the belt is chosen by.
        let estimate = Pulls::estimate(before);
        let trial = belt::belt(before, &estimate);
        let belt = belt::belt(before, &estimate.with_belt(&trial, &before.bucket));
        let pulls = estimate.with_belt(&belt, &before.bucket);
        let fitted = pulleys::bend_fitted(before);
        let foot_pulley = pulleys::foot(before, &belt, *fitted);
        let bend = pulleys::bend_size(before, &belt, &foot_pulley, fitted);
        Self { before, belt, pulls, foot_pulley, bend }
    }
}

/// The casing's plates across the machine, and the shaft that spans them.
pub(super) struct Turning<'a> {
    before: &'a Running<'a>,
    pub plates: casing::Plates,
    pub widths: Widths,
    pub shaft: Shaft,
    pub bearings: Bearings,
}
knows!(Turning, before: Running);

impl<'a> Turning<'a> {
    pub(super) fn decide(before: &'a Running<'a>, out: &mut Diagnostics) -> Self {
        let plates = casing::plates(before);
        let widths = Widths::of(before, &plates);
        let (shaft, bearings) = rotating::shaft_and_bearings(before, &widths, out);
        Self { before, plates, widths, shaft, bearings }
    }
}

/// The take-up, and with it every level that the foot's moving parts come to.
pub(super) struct Standing<'a> {
    before: &'a Turning<'a>,
    pub take_up: TakeUp,
    pub feet: Chosen<Length>,
    pub levels: Levels,
    pub bend_place: pulleys::BendPlace,
    /// Bends of the down-side end plate, where a bend pulley makes it follow the belt.
    pub down_face: Option<DownFace>,
}
knows!(Standing, before: Turning);

impl<'a> Standing<'a> {
    pub(super) fn decide(before: &'a Turning<'a>, out: &mut Diagnostics) -> Self {
        let take_up = take_up::take_up(before, out);
        let travel = take_up.travel.value.value();
        let feet = casing::feet(before, travel);
        let levels = Levels::of(before, travel, feet.value.value());
        let bend_place = pulleys::bend_place(before, &levels);
        let down_face = levels::down_face(before, &levels, bend_place.height.value.value());
        Self { before, take_up, feet, levels, bend_place, down_face }
    }
}

/// Everything that is cut into the casing.
pub(super) struct Opened<'a> {
    before: &'a Standing<'a>,
    pub inlet_up: Inlet,
    pub inlet_down: Inlet,
    pub sensor_panels: SensorPanels,
    pub clean_out: CleanOut,
    pub shovel_pocket: ShovelPocket,
    pub doors: Vec<Door>,
}
knows!(Opened, before: Standing);

impl<'a> Opened<'a> {
    pub(super) fn decide(before: &'a Standing<'a>) -> Self {
        let inlet_up = inlets::up(before);
        let inlet_down = inlets::down(before);
        let sensor_panels = openings::sensor_panels(before);
        let clean_out = openings::clean_out(before);
        let shovel_pocket = pocket::pocket(before, &sensor_panels);
        let doors = openings::doors(before, [&inlet_up, &inlet_down], &shovel_pocket, &sensor_panels);
        Self { before, inlet_up, inlet_down, sensor_panels, clean_out, shovel_pocket, doors }
    }
}
