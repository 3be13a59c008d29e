//! Power at the head shaft and at the motor, with up-side and with down-side feed.
//!
//! In: duty, lift, foot pulley, feed side. Out: kW. Dredging is a handbook habit, an extra lift in foot
//! pulley diameters. Starting is not covered; the motor must be chosen by the drive's supplier.

use super::assumed::{DRIVE_EFFICIENCY, LOSSES_AT_SHAFT};
use super::capacity::Capacity;
use super::path::Path;
use super::{Group, Quantity};
use crate::formulas::power::{self, DREDGING, FeedSide, LIFT, LOSSES};
use crate::formulas::tension::OVERLOAD;
use crate::model::Foot;
use crate::model::inlets;
use crate::spec::Spec;
use crate::units::Unit;

/// Power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Power {
    /// The side that decides: down when there is a down-side inlet, else up.
    pub feed: FeedSide,
    /// Lifting, kW.
    pub lift_kw: f64,
    /// Dredging with up-side feed, kW.
    pub up_side_kw: f64,
    /// Dredging with down-side feed, kW.
    pub down_side_kw: f64,
    /// Extra lift that stands for dredging on the deciding side, m.
    pub dredging_lift_m: f64,
    /// Force of dredging on the belt, deciding side, N.
    pub dredging_force_n: f64,
    /// Bearing, belt bending and air losses, kW.
    pub losses_kw: f64,
    /// At the head shaft: lift, dredging on the deciding side and losses, kW.
    pub head_shaft_kw: f64,
    /// At the motor, deciding side, kW.
    pub motor_kw: f64,
    /// The same with buckets full to water level where nothing but the drive limits them, kW: what the motor is chosen for.
    pub motor_full_kw: f64,
    /// At the motor with up-side feed, kW.
    pub motor_up_side_kw: f64,
    /// At the motor with down-side feed, kW.
    pub motor_down_side_kw: f64,
}

impl Power {
    /// Computes it for the wanted capacity.
    pub fn compute(spec: &Spec, foot: &Foot, capacity: &Capacity, path: &Path) -> Self {
        let feed = if foot.inlet(inlets::FeedSide::Down).is_some() { FeedSide::Down } else { FeedSide::Up };
        let wanted = spec.duty.capacity.value();
        let v = spec.duty.belt_speed.value();
        let lift_kw = power::lift_kw(wanted, path.shaft_height_mm / 1000.0);
        let extra = |side: FeedSide| power::dredging_lift_m(side, foot.pulleys.foot.diameter);
        let force = |side: FeedSide| power::dredging_force_n(capacity.product_kg_per_m, extra(side));
        let dredging = |side: FeedSide| power::force_power_kw(force(side), v);
        let shaft = |side: FeedSide| (lift_kw + dredging(side)) * (1.0 + LOSSES_AT_SHAFT.value);
        let motor = |side: FeedSide| power::motor_kw(shaft(side), DRIVE_EFFICIENCY.value);
        Self {
            feed,
            lift_kw,
            up_side_kw: dredging(FeedSide::Up),
            down_side_kw: dredging(FeedSide::Down),
            dredging_lift_m: extra(feed),
            dredging_force_n: force(feed),
            losses_kw: shaft(feed) - lift_kw - dredging(feed),
            head_shaft_kw: shaft(feed),
            motor_kw: motor(feed),
            motor_full_kw: motor(feed) * capacity.full_over_duty(),
            motor_up_side_kw: motor(FeedSide::Up),
            motor_down_side_kw: motor(FeedSide::Down),
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("power", out);
        const DREDGE: &[&str] = &["duty.capacity", "foot_pulley.diameter"];
        g.put("lift", "lifting", self.lift_kw, Unit::Kw, &["duty.capacity", "path.shaft_height"], LIFT);
        g.put("dredging_up", "dredging with up-side feed", self.up_side_kw, Unit::Kw, DREDGE, DREDGING);
        g.put("dredging_down", "dredging with down-side feed", self.down_side_kw, Unit::Kw, DREDGE, DREDGING);
        g.put(
            "dredging_lift",
            "extra lift that stands for dredging, deciding feed side",
            self.dredging_lift_m,
            Unit::M,
            &["foot_pulley.diameter", "inlet.down.fitted"],
            DREDGING,
        );
        g.put(
            "dredging_force",
            "force of dredging on the belt, deciding feed side",
            self.dredging_force_n,
            Unit::N,
            &["capacity.product_line_load", "power.dredging_lift"],
            DREDGING,
        );
        g.put("losses", "bearing, belt bending and air losses", self.losses_kw, Unit::Kw, &["assumed.losses_at_shaft"], LOSSES);
        g.put("head_shaft", "at the head shaft", self.head_shaft_kw, Unit::Kw, &["power.lift", "power.dredging_lift", "power.losses"], LIFT);
        g.put("motor", "at the motor, deciding feed side", self.motor_kw, Unit::Kw, &["power.head_shaft", "assumed.drive_efficiency"], LOSSES);
        g.put(
            "motor_full",
            "at the motor with full buckets, as far as a drive pulls them, deciding feed side",
            self.motor_full_kw,
            Unit::Kw,
            &["power.motor", "capacity.full", "capacity.required", "assumed.overloaded"],
            OVERLOAD,
        );
        g.put(
            "motor_up",
            "at the motor with up-side feed",
            self.motor_up_side_kw,
            Unit::Kw,
            &["power.lift", "power.dredging_up", "assumed.drive_efficiency"],
            LOSSES,
        );
        g.put(
            "motor_down",
            "at the motor with down-side feed",
            self.motor_down_side_kw,
            Unit::Kw,
            &["power.lift", "power.dredging_down", "assumed.drive_efficiency"],
            LOSSES,
        );
    }
}
