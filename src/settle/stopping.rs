//! Sensor delay and feeder run-on, from the time in which the foot plugs: what a plug probe and a gate must be quick enough for.
//!
//! In: casing, pulley, belt, inlets, product, as settled. Out: seconds. The foot is reckoned as a box, before there is a model.

use super::PRACTICE;
use super::bucket::corners;
use super::so_far::{Opened, Standing};
use crate::formulas::plugging::{self, OVER_REACTION, RESERVE};
use crate::say;
use crate::say::{Statement, amount};
use crate::sources::Source;
use crate::spec::casing::Bottom;
use crate::spec::project::Status;
use crate::units::Unit;
use std::f64::consts::{FRAC_PI_2, PI};

/// Usual delay of a motion sensor and run-on of a feeder, s (common practice).
const USUAL: [f64; 2] = [3.0, 2.0];
/// The quickest that a plug probe and a gate are taken to be, s (common practice).
const QUICKEST: [f64; 2] = [0.3, 0.5];
/// Step by which a sill is raised, and how far at most, mm; further, another foot is the answer.
const RAISED: [u32; 2] = [50, 2000];
/// Share of the estimated time to plug that is counted on before there is a model.
const COUNTED: f64 = 0.85;

/// A time with its reason.
pub(super) struct Stopping {
    /// s.
    pub seconds: f64,
    pub source: Source,
    pub why: Statement,
}

/// Sensor delay and feeder run-on: the usual ones where the foot takes so much, else what it leaves time for, in tenths of a second.
pub(super) fn stopping(so_far: &Opened<'_>) -> [Stopping; 2] {
    let seconds =
        time_to_plug(so_far, [&so_far.inlet_up, &so_far.inlet_down].map(|i| i.fitted.then(|| i.sill.value.value()))).map_or(f64::INFINITY, |s| s * COUNTED);
    let reaction = seconds / OVER_REACTION;
    // An existing foot has what it has; what it would need is for the rule to say.
    if reaction >= USUAL[0] + USUAL[1] || so_far.asked.project.status.value() == Some(Status::Survey) {
        let usual = |seconds: f64, why: &'static str| Stopping { seconds, source: PRACTICE, why: why.into() };
        return [
            usual(USUAL[0], "short enough to stop the feed in time, long enough not to trip at starting"),
            usual(USUAL[1], "a conveyor or slide gate takes this long to stop"),
        ];
    }
    // One that is given leaves the other what remains.
    let m = &so_far.asked.monitoring;
    let given = [m.delay.value(), m.feeder_run_on.value()].map(|t| t.map(|t| t.value()));
    let tenths = |s: f64| (s * 10.0 + 1e-6).floor() / 10.0;
    let share = reaction / (USUAL[0] + USUAL[1]);
    let quick = |i: usize| {
        let left = given[1 - i].map_or(USUAL[i] * share, |other| reaction - other);
        tenths(left).clamp(QUICKEST[i], USUAL[i])
    };
    let within = || amount(reaction, Unit::S, 1);
    let full = || amount(seconds, Unit::S, 1);
    [
        Stopping {
            seconds: quick(0),
            source: RESERVE,
            why: say!(
                "a plug probe: the foot is plugged about {full} after the belt stops, so that the feed must stand within {within}",
                full = full(),
                within = within()
            ),
        },
        Stopping {
            seconds: quick(1),
            source: RESERVE,
            why: say!(
                "a quick gate: the foot is plugged about {full} after the belt stops, so that the feed must stand within {within}",
                full = full(),
                within = within()
            ),
        },
    ]
}

/// How much further up than `sill` an up-side inlet stands so that the quickest probe and gate stop the feed in time, mm: the second cure of the
/// trade, where the first is not enough. Nothing where no height within bounds would do, or where the foot stands already.
pub(super) fn raised(so_far: &Standing<'_>, sill: f64) -> f64 {
    let [step, most] = RAISED;
    let wanted = QUICKEST.iter().sum::<f64>() * OVER_REACTION / COUNTED;
    let lasts = |more: u32| time_to_plug(so_far, [Some(sill + f64::from(more)), None]).is_none_or(|s| s >= wanted);
    if so_far.asked.project.status.value() == Some(Status::Survey) {
        return 0.0;
    }
    (0..=most).step_by(step as usize).find(|more| lasts(*more)).map_or(0.0, f64::from)
}

/// Seconds in which the foot plugs, about, with sills on the up and on the down side at these heights in mm; nothing without an inlet.
fn time_to_plug(so_far: &Standing<'_>, sills: [Option<f64>; 2]) -> Option<f64> {
    let (levels, belt, bucket, pulley) = (&so_far.levels, &so_far.belt, &so_far.bucket, &so_far.foot_pulley);
    let outline: Vec<[f64; 2]> = corners(&bucket.outline.value);
    let section = 0.5 * outline.iter().zip(outline.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>().abs();
    let strip = belt.thickness.value.value() * belt.width.value.value()
        + section * bucket.length.value.value() * f64::from(*bucket.rows) / bucket.spacing.value.value();
    let (radius, rolled) = (levels.shaft_low - levels.bottom, *so_far.plates.bottom == Bottom::Curved);
    let rolled_away = if rolled { radius * radius * (2.0 - FRAC_PI_2) * so_far.widths.inside } else { 0.0 };
    let high = sills.into_iter().flatten().fold(levels.shaft_low, f64::max);
    let foot = plugging::Box {
        ends: [-so_far.plates.down_gap(so_far.rounding).face(levels.tip_radius), levels.up_end],
        bottom: levels.bottom,
        width: so_far.widths.inside,
        shaft: levels.shaft_low,
        pulley: [levels.radius, pulley.face.value.value()],
        solid_mm3: rolled_away + strip * (PI * levels.radius + 2.0 * (high - levels.shaft_low)),
    };
    let [up, down] = sills;
    let below = |sill: Option<f64>, least: f64| sill.map_or(0.0, |sill| foot.free_l([0.0, sill.max(least)], 0.0));
    let lying = plugging::lying_l(below(up, 0.0), below(down, levels.shaft_low));
    let repose = so_far.product.repose.value.value().to_radians().tan();
    let (density, feed) = (so_far.product.density.value.value(), so_far.duty.capacity.value.value());
    [(up, foot.ends[1], repose), (down, foot.ends[0], -repose)]
        .into_iter()
        .filter_map(|(sill, face, rise)| sill.map(|sill| foot.free_l([face, sill], rise)))
        .map(|heaped| plugging::time_to_plug_s(plugging::left_l(heaped, lying), density, feed))
        .min_by(f64::total_cmp)
}
