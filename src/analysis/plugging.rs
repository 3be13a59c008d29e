//! Time to plug: how long the feed may run on after the belt stops.
//!
//! In: the foot's section, sills, product, feed rate, reaction times. Out: free volume below each sill, level and under the heap
//! that grows from it, what lies in the foot while it runs, and the seconds in which what is left under the heap fills. The level
//! volume is an upper bound and decides nothing.

use super::Quantity;
use super::section::{FreeSpace, Surface};
use crate::formulas::plugging::{LYING, TIME_TO_PLUG, left_l, run_on_volume_l, time_to_plug_s};
use crate::model::Foot;
use crate::model::inlets::{FeedSide, InletBody};
use crate::say;
use crate::sources::Source;
use crate::spec::Spec;
use crate::units::Unit;

/// Free volume of the foot.
pub const FREE_VOLUME: Source = Source::physics("section below the sill less pulley, belt and buckets, times their widths");
/// What passes until the feed stops.
pub const REACTION: Source = Source::physics("sensor delay + feeder run-on");

/// Plugging through one inlet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PluggingAt {
    /// The inlet's side.
    pub side: FeedSide,
    /// Free volume below the sill, level surface, l.
    pub volume_l: f64,
    /// The same with the surface falling from the sill at the angle of repose, l.
    pub heaped_volume_l: f64,
    /// What the heap still takes beyond what lies in the foot while it runs, l.
    pub left_l: f64,
    /// Seconds until the heap reaches the sill.
    pub time_s: f64,
}

/// Plugging of the foot.
#[derive(Debug, Clone, PartialEq)]
pub struct Plugging {
    /// One for each inlet.
    pub inlets: Vec<PluggingAt>,
    /// What lies in the foot while it runs, l.
    pub lying_l: f64,
    /// The shortest time, s; `None` without an inlet.
    pub time_s: Option<f64>,
    /// Sensor delay and feeder run-on, s.
    pub reaction_s: f64,
    /// Product that arrives in the reaction time, l.
    pub reaction_volume_l: f64,
}

impl PluggingAt {
    /// Plugging through an inlet.
    fn compute(spec: &Spec, space: &FreeSpace<'_>, inlet: &InletBody, lying_l: f64) -> Self {
        let (density, feed) = (spec.product.density.value(), spec.duty.capacity.value());
        let repose = spec.product.repose.value().to_radians().tan();
        let at = [inlet.face, inlet.sill];
        let volume_l = space.below_l(&Surface { at, rise: 0.0 });
        let heaped_volume_l = space.below_l(&Surface { at, rise: inlet.side.outward() * repose });
        let left_l = left_l(heaped_volume_l, lying_l);
        Self { side: inlet.side, volume_l, heaped_volume_l, left_l, time_s: time_to_plug_s(left_l, density, feed) }
    }
}

impl Plugging {
    /// Computes it.
    pub fn compute(spec: &Spec, foot: &Foot, space: &FreeSpace<'_>) -> Self {
        let (density, feed) = (spec.product.density.value(), spec.duty.capacity.value());
        let lying_l = space.lying_l();
        let inlets: Vec<PluggingAt> = foot.inlets.iter().map(|inlet| PluggingAt::compute(spec, space, inlet, lying_l)).collect();
        let reaction_s = spec.monitoring.delay.value() + spec.monitoring.feeder_run_on.value();
        Self {
            time_s: inlets.iter().map(|i| i.time_s).min_by(f64::total_cmp),
            lying_l,
            inlets,
            reaction_s,
            reaction_volume_l: run_on_volume_l(density, feed, spec.monitoring.delay.value(), spec.monitoring.feeder_run_on.value()),
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let lying = ["inlet.up.sill", "inlet.down.sill", "assumed.running_pool", "assumed.running_pool_down"];
        out.push(Quantity::new("plugging.lying", "product that lies in the foot while it runs", self.lying_l, Unit::L, &lying, LYING));
        for i in &self.inlets {
            let (key, side) = (i.side.key(), i.side.adjective());
            let sill = format!("inlet.{key}.sill");
            let volume_from = [sill.as_str(), "foot_pulley.diameter", "foot_pulley.style", "casing.bottom", "casing.side_clearance"];
            let heap_from = [sill.as_str(), "foot_pulley.diameter", "foot_pulley.style", "casing.bottom", "casing.side_clearance", "product.repose"];
            let (level, heaped) = (format!("plugging.volume_{key}"), format!("plugging.heaped_volume_{key}"));
            out.push(Quantity::new(level.clone(), say!("free volume below the {side} sill", side = side), i.volume_l, Unit::L, &volume_from, FREE_VOLUME));
            out.push(Quantity::new(
                heaped.clone(),
                say!("free volume under a heap that reaches the {side} sill", side = side),
                i.heaped_volume_l,
                Unit::L,
                &heap_from,
                FREE_VOLUME,
            ));
            let left = format!("plugging.left_{key}");
            out.push(Quantity::new(
                left.clone(),
                say!("what still fits under the heap at the {side} sill when the belt stops", side = side),
                i.left_l,
                Unit::L,
                &[&heaped, "plugging.lying", "assumed.lying_most"],
                LYING,
            ));
            out.push(Quantity::new(
                format!("plugging.time_{key}"),
                say!("time to plug through the {side} inlet", side = side),
                i.time_s,
                Unit::S,
                &[&left, "product.density", "duty.capacity"],
                TIME_TO_PLUG,
            ));
        }
        out.push(Quantity::new(
            "plugging.reaction",
            "time from a stopped belt to a stopped feed",
            self.reaction_s,
            Unit::S,
            &["monitoring.delay", "monitoring.feeder_run_on"],
            REACTION,
        ));
        out.push(Quantity::new(
            "plugging.reaction_volume",
            "product that arrives in that time",
            self.reaction_volume_l,
            Unit::L,
            &["plugging.reaction", "duty.capacity", "product.density"],
            REACTION,
        ));
    }
}
