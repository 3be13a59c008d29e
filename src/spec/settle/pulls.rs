//! Belt pulls for choosing sizes: how hard the belt pulls at the head and in the foot.
//!
//! In: duty, bucket, head pulley, feed side, belt. Out: pulls in N. Only for defaults; the results
//! of a job are computed again by `analysis` from the finished model.

use super::bucket::total_length;
use super::inlets::Sides;
use crate::spec::AskedSpec;
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use crate::spec::duty::Duty;
use crate::spec::pulleys::HeadPulley;
use crate::units::GRAVITY;
use std::f64::consts::PI;

/// Pulls in the belt, N, and what they rest on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pulls {
    /// Effective pull at the head: lift and dredging.
    pub effective: f64,
    /// Largest pull, at the head on the up side.
    pub largest: f64,
    /// Pull in each run at the foot that is needed.
    pub foot: f64,
    /// Whether tracking (and not drive grip) decides the pull in the foot.
    pub by_tracking: bool,
    /// T2/Te that the head pulley needs.
    wrap_factor: f64,
    /// Belt and buckets, kg/m.
    pub empty_kg_per_m: f64,
}

impl Pulls {
    /// First estimate, with a fabric belt of 10 kg/m² as wide as the rules make it.
    pub(super) fn estimate(asked: &AskedSpec, duty: &Duty, bucket: &Bucket, head: &HeadPulley, sides: &Sides) -> Self {
        let width = asked.belt.width.value().map_or(total_length(bucket) + 50.0, |w| w.value());
        let lift = duty.lift.value.value() / 1000.0;
        let foot_diameter = asked.foot_pulley.diameter.value().map_or(head.diameter.value.value(), |d| d.value());
        // Dredging as an extra lift: 6 foot pulley diameters with up-side feed, 12 with down-side feed.
        let dredging = if sides.down.value { 12.0 } else { 6.0 } * foot_diameter / 1000.0;
        let load = duty.capacity.value.value() / 3.6 / duty.belt_speed.value.value();
        let effective = GRAVITY * load * (lift + dredging);
        let wrap_factor = 1.0 / ((head.friction.value.value() * PI).exp() - 1.0);
        let mut this = Self { effective, largest: 0.0, foot: 0.0, by_tracking: true, wrap_factor, empty_kg_per_m: 0.0 };
        this.fill_in(10.0 * width / 1000.0, bucket, lift, 5.0 * width);
        this
    }

    /// The same with the belt that was settled.
    pub(super) fn with_belt(mut self, belt: &Belt, bucket: &Bucket, duty: &Duty) -> Self {
        let width = belt.width.value.value();
        self.fill_in(belt.mass.value.value() * width / 1000.0, bucket, duty.lift.value.value() / 1000.0, belt.tracking_tension.value.value() * width);
        self
    }

    fn fill_in(&mut self, belt_kg_per_m: f64, bucket: &Bucket, lift: f64, tracking: f64) {
        let buckets = f64::from(*bucket.rows) * bucket.mass.value.value() / (bucket.spacing.value.value() / 1000.0);
        self.empty_kg_per_m = belt_kg_per_m + buckets;
        let hanging = GRAVITY * self.empty_kg_per_m * lift;
        let for_grip = self.effective * self.wrap_factor - hanging;
        self.by_tracking = tracking >= for_grip;
        self.foot = tracking.max(for_grip);
        self.largest = self.foot + hanging + self.effective;
    }
}
