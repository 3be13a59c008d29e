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
mod duty;
mod fabrication;
mod inlets;
mod levels;
mod openings;
mod outline;
mod pit;
mod pit_access;
mod pit_spaces;
mod pocket;
mod product;
mod project;
mod pulleys;
mod pulls;
mod rotating;
mod rounding;
mod so_far;
mod take_up;

use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::sources::Source;
use crate::spec::reader::{Chosen, Leaf};
use crate::spec::{AskedSpec, Spec};
use so_far::{Ask, Lifted, Opened, Running, Standing, Turning};

/// Common practice of the trade without a published source.
const PRACTICE: Source = Source::practice("");

/// Settles a spec: every value decided once, every contradiction reported.
pub fn settle(asked: &AskedSpec) -> (Spec, Diagnostics) {
    let mut out = Diagnostics::default();
    let ask = Ask::of(asked);
    let lifted = Lifted::decide(ask, &mut out);
    let running = Running::decide(&lifted);
    let turning = Turning::decide(&running, &mut out);
    let standing = Standing::decide(&turning, &mut out);
    let opened = Opened::decide(&standing);
    let height = casing::height(&opened);
    let pit = pit::pit(&opened);
    let (project, revisions) = project::project(&ask, &mut out);
    let sheet = project::sheet(&ask, &mut out);
    let monitoring = openings::monitoring(&ask);
    let fabrication = fabrication::fabrication(&ask);
    // The stages give up what they decided, the last one first.
    let Opened { inlet_up, inlet_down, sensor_panels, clean_out, shovel_pocket, doors, .. } = opened;
    let Standing { take_up, feet, levels, bend_place, .. } = standing;
    let Turning { plates, widths, shaft, bearings, .. } = turning;
    let Running { belt, foot_pulley, bend, .. } = running;
    let Lifted { product, head_pulley, bucket, duty, .. } = lifted;
    let spec = Spec {
        casing: plates.stood(feet, height),
        bend_pulley: bend.placed(bend_place),
        project,
        product,
        duty,
        bucket,
        belt,
        head_pulley,
        foot_pulley,
        shaft,
        bearings,
        take_up,
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
