//! Gives every key of the spec a value and a reason, and reports what is missing or cannot be true.
//!
//! In: an [`AskedSpec`]. Out: a complete [`Spec`] and the list of problems. A duty (capacity, lift), a
//! bucket (length, projection, height) and a head pulley are all that must be given; the rest is decided by rule, each value with
//! its numbers and source. When the list has errors the returned spec is filled up with stand-ins and
//! must not be drawn. Whether the settled machine is a good one is not judged here (see `rules`).

mod ask;
mod belt;
mod bucket;
mod casing;
mod contradictions;
mod deviations;
mod duty;
mod fabrication;
mod inlets;
mod levels;
mod lifting;
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
mod removal;
mod rotating;
mod rounding;
mod so_far;
mod stages;
mod stopping;
mod take_up;
mod weights;

use crate::diagnostics::Diagnostics;
use crate::spec::{AskedSpec, Spec};
use ask::{Ask, PRACTICE, needed};
use so_far::{Lifted, Opened, Running, Standing, Turning};

/// Settles a spec: every value decided once, every contradiction reported.
pub fn settle(asked: &AskedSpec) -> (Spec, Diagnostics) {
    let mut out = Diagnostics::default();
    let ask = Ask::of(asked);
    let lifted = Lifted::decide(ask, &mut out);
    let running = Running::decide(&lifted);
    let turning = Turning::decide(&running, &mut out);
    let standing = Standing::decide(&turning, &mut out);
    let opened = Opened::decide(&standing);
    let (height, lifting) = lifting::under_flange(&opened);
    let pit = pit::pit(&opened);
    let (project, revisions) = project::project(&ask, &mut out);
    let deviations = deviations::deviations(&asked.deviations, &mut out);
    let sheet = project::sheet(&ask, &mut out);
    let monitoring = openings::monitoring(&opened);
    let fabrication = fabrication::fabrication(&ask);
    // The stages give up what they decided, the last one first.
    let Opened { inlet_up, inlet_down, sensor_panels, clean_out, removal, shovel_pocket, doors, .. } = opened;
    let Standing { take_up, feet, levels, bend_place, .. } = standing;
    let Turning { plates, widths, shaft, bearings, .. } = turning;
    let Running { belt, foot_pulley, bend, .. } = running;
    let Lifted { product, head_pulley, bucket, duty, .. } = lifted;
    let spec = Spec {
        casing: plates.stood(feet, height),
        lifting,
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
        removal,
        monitoring,
        pit,
        fabrication,
        sheet,
        inlet_up,
        inlet_down,
        doors,
        revisions,
        deviations,
    };
    contradictions::report(&spec, &levels, &widths, &mut out);
    out.sort();
    (spec, out)
}
