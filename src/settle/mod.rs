//! Gives every key of the spec a value and a reason, and reports what is missing or cannot be true.
//!
//! In: an [`AskedSpec`]. Out: a complete [`Spec`] and the list of problems. A duty (capacity, lift), a
//! bucket (length, projection, height) and a head pulley are all that must be given; the rest is decided by rule, each value with
//! its numbers and source. When the list has errors the returned spec is filled up with stand-ins and
//! must not be drawn. Whether the settled machine is a good one is not judged here (see `rules`).

mod belt;
mod bucket;
mod casing;
mod contradictions;
mod fabrication;
mod habit;
mod inlets;
mod openings;
mod outline;
mod pit;
mod pocket;
mod product;
mod project;
mod pulleys;
mod pulls;
mod rotating;
mod take_up;

use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::say::Statement;
use crate::sources::Source;
use crate::spec::reader::{Chosen, Leaf, Origin};
use crate::spec::{AskedSpec, Spec};
use habit::Habit;

/// Common practice of the trade without a published source.
const PRACTICE: Source = Source::practice("");

/// Settles a spec: every value decided, every contradiction reported.
pub fn settle(asked: &AskedSpec) -> (Spec, Diagnostics) {
    let mut out = Diagnostics::default();
    let habit = Habit::of(asked);
    let sheet = project::sheet(&asked.sheet, habit, &mut out);
    let product = product::product(&asked.product, &mut out);
    let sides = inlets::fitted(asked);
    let head_pulley = pulleys::head(&asked.head_pulley, &mut out);
    let mut bucket = bucket::size(&asked.bucket, habit, &mut out);
    let duty = bucket::duty(asked, &product, &sides, &head_pulley, &mut bucket, habit, &mut out);
    let pulls = pulls::Pulls::estimate(asked, &duty, &bucket, &head_pulley, &sides);
    let belt = belt::belt(&asked.belt, &bucket, &pulls, habit);
    // Once more with the weight and tracking tension of the belt that came out.
    let pulls = pulls.with_belt(&belt, &bucket);
    let belt = belt::belt(&asked.belt, &bucket, &pulls, habit);
    let pulls = pulls.with_belt(&belt, &bucket);
    let (mut foot_pulley, mut bend_pulley) = pulleys::foot_and_bend(asked, &head_pulley, &belt, &product, habit);
    let mut casing = casing::plates(&asked.casing, &head_pulley, habit);
    pulleys::widths(asked, &belt, &mut foot_pulley, &mut bend_pulley, habit);
    let widths = casing::Widths::of(&casing, &belt, &bucket, &foot_pulley, &bend_pulley);
    let (shaft, bearings) = rotating::shaft_and_bearings(asked, &foot_pulley, &belt, &duty, &pulls, &widths, habit, &mut out);
    let take_up = take_up::take_up(asked, &duty, &bucket, &belt, &head_pulley, &foot_pulley, &bend_pulley, &shaft, &pulls, &widths, habit, &mut out);
    casing::feet(&foot_pulley, &belt, &bucket, &take_up, &shaft, &mut casing, habit);
    let levels = casing::Levels::of(&casing, &foot_pulley, &belt, &bucket, &take_up, &shaft, &bearings, habit);
    pulleys::bend_place(asked, &head_pulley, &foot_pulley, &belt, &levels, &mut bend_pulley, &mut out);
    let down_bends = casing::down_bends(&casing, &head_pulley, &foot_pulley, &bend_pulley, &belt, &bucket, &duty, &levels);
    let (inlet_up, inlet_down) = inlets::inlets(asked, &sides, &product, &duty, &bucket, &levels, down_bends, habit);
    let (sensor_panels, clean_out, monitoring) = openings::small(asked, habit);
    let shovel_pocket = pocket::pocket(&asked.shovel_pocket, &product, &casing, &levels, &sensor_panels, habit);
    let doors = openings::doors(asked, &casing, &levels, &widths, &inlet_up, &inlet_down, &shovel_pocket, habit);
    casing::height(&levels, &inlet_up, &inlet_down, &bend_pulley, &doors, &mut casing, habit);
    let pit = pit::pit(asked, &widths, &shaft, &inlet_up, &inlet_down, &shovel_pocket, &doors, &product, habit);
    let (project, revisions) = project::project(asked, habit, &mut out);
    let fabrication = fabrication::fabrication(&asked.fabrication, habit);
    let spec = Spec {
        project,
        product,
        duty,
        bucket,
        belt,
        head_pulley,
        foot_pulley,
        bend_pulley,
        shaft,
        bearings,
        take_up,
        casing,
        shovel_pocket,
        sensor_panels,
        clean_out,
        monitoring,
        pit,
        fabrication,
        sheet,
        inlet_up,
        inlet_down,
        doors,
        revisions,
    };
    contradictions::report(&spec, &levels, &widths, &mut out);
    out.sort();
    (spec, out)
}

/// A value that must be given; reports it when it is absent and goes on with a stand-in.
fn needed<T: Clone>(leaf: &Leaf<T>, path: &str, type_this: &str, stand_in: T, out: &mut Diagnostics) -> Chosen<T> {
    if leaf.is_absent() {
        let table = path.rsplit_once('.').map_or(path, |(t, _)| t);
        let key = path.rsplit_once('.').map_or(path, |(_, k)| k);
        out.push(Diagnostic::error(
            Code::Missing,
            path,
            None,
            format!("{path} is not given and no rule can decide it"),
            format!("under [{table}] write  {key} = {type_this}"),
        ));
    }
    Chosen::or(leaf, stand_in, PRACTICE, "stand-in for a value that is missing or cannot be used; not for drawing")
}

/// Replaces a default that a later group decides; a given value stays.
fn decide<T>(chosen: &mut Chosen<T>, value: T, source: Source, reason: impl Into<Statement>) {
    if matches!(chosen.origin, Origin::Default { .. }) {
        chosen.value = value;
        chosen.origin = Origin::Default { reason: reason.into(), source };
    }
}

/// An undecided value; a later group must [`decide`] it.
fn later<T: Clone>(leaf: &Leaf<T>, stand_in: T) -> Chosen<T> {
    Chosen::or(leaf, stand_in, PRACTICE, "")
}
