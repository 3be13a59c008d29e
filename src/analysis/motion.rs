//! Speeds of the shafts and what a motion sensor on the foot shaft must watch.
//!
//! In: belt speed, pulleys, monitoring. Out: rev/min, alarm and stop speeds, pulses per minute. Belt speed
//! holds at the neutral line.

use super::{Group, Quantity};
use crate::formulas::speed::{self, ALARM, SHAFT_SPEED};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::tables::grain_handling;
use crate::units::Unit;

/// Speeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// Foot shaft, rev/min.
    pub foot_rpm: f64,
    /// Head shaft, rev/min.
    pub head_rpm: f64,
    /// Bend pulley, rev/min; `None` without one.
    pub bend_rpm: Option<f64>,
    /// Foot shaft speed that raises the alarm, rev/min.
    pub alarm_rpm: f64,
    /// Foot shaft speed that stops the drive, rev/min.
    pub stop_rpm: f64,
    /// Lowest setting of the stop (normal speed less 20 %), rev/min.
    pub lowest_stop_rpm: f64,
    /// What asks for it in this job.
    pub stop_source: Source,
    /// Pulses per minute at normal speed.
    pub pulses_per_minute: f64,
    /// The same at the alarm.
    pub alarm_pulses_per_minute: f64,
    /// The same at the stop.
    pub stop_pulses_per_minute: f64,
    /// Seconds between two pulses at normal speed.
    pub pulse_interval_s: f64,
}

impl Motion {
    /// Computes it.
    pub fn compute(spec: &Spec, foot: &Foot) -> Self {
        let v = spec.duty.belt_speed.value();
        let half_belt = foot.belt.thickness / 2.0;
        let foot_rpm = speed::rpm(v, foot.pulleys.foot.radius() + half_belt);
        let (alarm_rpm, stop_rpm) = (speed::slipped(foot_rpm, spec.monitoring.alarm_slip.value()), speed::slipped(foot_rpm, spec.monitoring.stop_slip.value()));
        let targets = spec.monitoring.pulses.value;
        let pulses_per_minute = speed::pulses_per_minute(foot_rpm, targets);
        Self {
            foot_rpm,
            head_rpm: speed::rpm(v, foot.pulleys.head.radius() + half_belt),
            bend_rpm: foot.pulleys.bend.as_ref().map(|b| speed::rpm(v, b.radius() + half_belt)),
            alarm_rpm,
            stop_rpm,
            lowest_stop_rpm: speed::slipped(foot_rpm, speed::STOP_SLIP),
            stop_source: grain_handling::source(grain_handling::MOTION, spec.us(), spec.product.is_grain()),
            pulses_per_minute,
            alarm_pulses_per_minute: speed::pulses_per_minute(alarm_rpm, targets),
            stop_pulses_per_minute: speed::pulses_per_minute(stop_rpm, targets),
            pulse_interval_s: 60.0 / pulses_per_minute,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("motion", out);
        const FOOT: &[&str] = &["duty.belt_speed", "foot_pulley.diameter", "belt.thickness"];
        g.put("foot_rpm", "foot shaft speed", self.foot_rpm, Unit::PerMin, FOOT, SHAFT_SPEED);
        g.put("head_rpm", "head shaft speed", self.head_rpm, Unit::PerMin, &["duty.belt_speed", "head_pulley.diameter", "belt.thickness"], SHAFT_SPEED);
        if let Some(rpm) = self.bend_rpm {
            g.put("bend_rpm", "bend pulley speed", rpm, Unit::PerMin, &["duty.belt_speed", "bend_pulley.diameter", "belt.thickness"], SHAFT_SPEED);
        }
        g.put("alarm_rpm", "foot shaft speed that raises the alarm", self.alarm_rpm, Unit::PerMin, &["motion.foot_rpm", "monitoring.alarm_slip"], ALARM);
        g.put("stop_rpm", "foot shaft speed that stops the drive", self.stop_rpm, Unit::PerMin, &["motion.foot_rpm", "monitoring.stop_slip"], self.stop_source);
        g.put("lowest_stop_rpm", "lowest setting of the stop", self.lowest_stop_rpm, Unit::PerMin, &["motion.foot_rpm"], self.stop_source);
        g.put("pulses", "pulses at normal speed", self.pulses_per_minute, Unit::PulsesPerMin, &["motion.foot_rpm", "monitoring.pulses"], SHAFT_SPEED);
        g.put("alarm_pulses", "pulses at the alarm", self.alarm_pulses_per_minute, Unit::PulsesPerMin, &["motion.alarm_rpm", "monitoring.pulses"], SHAFT_SPEED);
        g.put("stop_pulses", "pulses at the stop", self.stop_pulses_per_minute, Unit::PulsesPerMin, &["motion.stop_rpm", "monitoring.pulses"], SHAFT_SPEED);
        g.put("pulse_interval", "time between two pulses at normal speed", self.pulse_interval_s, Unit::S, &["motion.pulses"], SHAFT_SPEED);
    }
}
