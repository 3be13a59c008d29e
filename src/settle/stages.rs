//! The order in which a stage's parts are decided.
//!
//! In: the stage before. Out: the stage. Each function asks the files of the groups for their values, in an order in
//! which all that a group needs is known.

use super::ask::Ask;
use super::levels;
use super::so_far::{Levels, Lifted, Opened, Pulls, Running, Standing, Turning, Widths};
use super::{belt, bucket, casing, duty, inlets, openings, pocket, product, pulleys, removal, rotating, take_up};
use crate::diagnostics::Diagnostics;

impl<'a> Lifted<'a> {
    pub(super) fn decide(ask: Ask<'a>, out: &mut Diagnostics) -> Self {
        let product = product::product(&ask, out);
        let sides = inlets::fitted(ask.asked);
        let asked_head = &ask.asked.head_pulley;
        let head_pulley = pulleys::head(asked_head, &[], out);
        let size = bucket::size(&ask, out);
        let carrying = duty::Carrying { ask, product: &product, down_side: sides.down.value, head: &head_pulley, size: &size };
        let duty = carrying.duty(out);
        let spacing = carrying.spacing(&duty);
        let mut lifted = Self { bucket: size.spaced(spacing), ask, product, sides, head_pulley, duty };
        // Where grip decides with the usual lagging, another is chosen; where it decides with that, what limits the drive.
        let mut needs = Vec::new();
        for _ in 0..2 {
            needs.push(Pulls::for_head(&lifted).for_grip_and_tracking());
            lifted.head_pulley = pulleys::head(asked_head, &needs, &mut Diagnostics::default());
        }
        lifted
    }
}

impl<'a> Running<'a> {
    pub(super) fn decide(before: &'a Lifted<'a>) -> Self {
        // A belt for estimated pulls gives the weight and the tracking tension for the pulls that the belt is chosen by.
        let estimate = Pulls::estimate(before);
        let trial = belt::belt(before, &estimate);
        let belt = belt::belt(before, &estimate.with_belt(&trial, &before.bucket));
        let pulls = estimate.with_belt(&belt, &before.bucket);
        let fitted = pulleys::bend_fitted(before);
        let foot_pulley = pulleys::foot(before, &belt, *fitted);
        let bend = pulleys::bend_size(before, (&belt, &pulls), &foot_pulley, fitted);
        Self { before, belt, pulls, foot_pulley, bend }
    }
}

impl<'a> Turning<'a> {
    pub(super) fn decide(before: &'a Running<'a>, out: &mut Diagnostics) -> Self {
        let plates = casing::plates(before);
        let widths = Widths::of(before, &plates);
        let (shaft, bearings) = rotating::shaft_and_bearings(before, &widths, out);
        Self { before, plates, widths, shaft, bearings }
    }
}

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

impl<'a> Opened<'a> {
    pub(super) fn decide(before: &'a Standing<'a>) -> Self {
        let inlet_up = inlets::up(before);
        let inlet_down = inlets::down(before);
        let sensor_panels = openings::sensor_panels(before);
        let clean_out = openings::clean_out(before);
        let shovel_pocket = pocket::pocket(before, &sensor_panels);
        // Doors that are asked for come first, and those over an end without an inlet; one under an inlet finds its place beside the panel.
        let ends = |doors| removal::Ends { so_far: before, inlets: [&inlet_up, &inlet_down], clean_out: &clean_out, doors };
        let usual = |removal| openings::usual_doors(&ends(&[]), removal, &shovel_pocket, &sensor_panels);
        let mut doors = openings::asked_doors(&ends(&[]), &shovel_pocket, &sensor_panels);
        if doors.is_empty() && !*inlet_up.fitted {
            doors = usual(None);
        }
        let removal = ends(&doors).removal();
        if doors.is_empty() {
            doors = usual(Some(&removal));
        }
        Self { before, inlet_up, inlet_down, sensor_panels, clean_out, removal, shovel_pocket, doors }
    }
}
