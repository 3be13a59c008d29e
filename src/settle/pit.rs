//! Settles `[pit]`: depth from the feed, outline thicknesses, ground. The way down and the spaces stand in files of their own.
//!
//! In: levels, inlets, shaft, doors. Out: the pit. The depth follows from the level of the feed and the slope of the spout; where
//! the feed is not given it is assumed at floor level and the reason says HOLD. Structure is not designed here.

use super::PRACTICE;
use super::inlets::{slides, usual_slope};
use super::pit_access::WayDown;
use super::pit_spaces::Spaces;
use super::rounding::{Step, mm};
use super::so_far::{Opened, Standing};
use crate::formulas::foot_heights::flange_floor;
use crate::formulas::quantities::{WORKING_SPACE, WORKING_SPACE_MM};
use crate::formulas::removal::PAST;
use crate::say;
use crate::say::Statement;
use crate::sources::Source;
use crate::spec::inlets::Inlet;
use crate::spec::pit::Pit;
use crate::spec::reader::Chosen;
use crate::tables::{access, soils};
use crate::units::{Angle, Density, Length, Ratio};

const FEED: Source = Source::physics("feed level less spout fall gives the sill's level; sill height below it is the pit floor");

/// A reason that somebody else must confirm.
fn hold(why: impl Into<Statement>) -> Statement {
    let why: Statement = why.into();
    say!("HOLD: to be confirmed by the civil engineer; {why}", why = why)
}

/// Settles the pit.
pub(super) fn pit(so_far: &Opened<'_>) -> Pit {
    let (a, rounding) = (&so_far.asked.pit, so_far.rounding);
    let feed = Feed::decide(so_far, [&so_far.inlet_up, &so_far.inlet_down]);
    let deep = feed.depth.value.value();
    let fitted = Chosen::or(
        &a.fitted,
        deep > 0.0,
        PRACTICE,
        if deep > 0.0 { "the feed comes too low for a foot that stands on the floor" } else { "the feed is high enough for a foot that stands on the floor" },
    );
    let way = WayDown::decide(so_far, deep);
    let spaces = Spaces::decide(so_far, &way);
    // A fall from which a rail is asked for is guarded; a pit as deep has a sump.
    let from = access::access(rounding.us).rail_from_fall_mm;
    let deep_enough = deep >= from.value;
    let side = if rounding.us { soils::SIDE_OSHA } else { soils::SIDE };
    let sump = mm(if deep_enough { rounding.or_inch(access::SUMP_MM, 16.0) } else { 0.0 });
    // A shaft on its way out passes the shaft end of the next elevator.
    let (length, outside) = (so_far.shaft.length(), so_far.widths.outside);
    let between = length + ((length - outside) / 2.0).max(0.0) + PAST;
    let pitch = rounding.up(outside + between.max(1000.0), Step::Coarse).clamp(500.0, 20_000.0);
    Pit {
        wall: Chosen::or(&a.wall, mm(rounding.or_inch(250.0, 10.0)), PRACTICE, hold("outline only")),
        slab: Chosen::or(&a.slab, mm(rounding.or_inch(300.0, 12.0)), PRACTICE, hold("outline only")),
        lean: Chosen::or(
            &a.lean,
            mm(rounding.or_inch(50.0, 2.0)),
            PRACTICE,
            say!("{least} to {most} of blinding is usual", least = say::mm(50.0), most = say::mm(100.0)),
        ),
        sump: Chosen::or(&a.sump, sump, PRACTICE, "takes a small pump"),
        sump_depth: Chosen::or(&a.sump_depth, sump, PRACTICE, "takes a small pump"),
        floor_fall: Chosen::or(&a.floor_fall, Ratio::of_one(access::FLOOR_FALL[0]), PRACTICE, "1 in 100: water runs and nobody slips"),
        cover: Chosen::or(&a.cover, true, PRACTICE, "keeps people and goods from falling in"),
        rail: Chosen::or(
            &a.rail,
            deep_enough,
            from.source,
            if deep_enough {
                say!("the fall is {limit} or more", limit = say::mm(from.value))
            } else {
                say!("the fall is under {limit}", limit = say::mm(from.value))
            },
        ),
        groundwater: Chosen::or(&a.groundwater, None, PRACTICE, hold("no level given, so uplift is not checked")),
        toe: Chosen::or(&a.toe, mm(rounding.or_inch(200.0, 8.0)), PRACTICE, hold("outline only")),
        soil_density: Chosen::or(&a.soil_density, Density::t_per_m3(1.8), PRACTICE, hold("ordinary soil")),
        soil_density_wet: Chosen::or(&a.soil_density_wet, Density::t_per_m3(2.0), PRACTICE, hold("ordinary saturated soil")),
        working_space: Chosen::or(&a.working_space, mm(rounding.or_inch(WORKING_SPACE_MM, 24.0)), WORKING_SPACE, "for formwork and people in the excavation"),
        batter: Chosen::or(&a.batter, Angle::deg(side.slope_deg), side.source, hold("soil not known")),
        elevators: Chosen::or(&a.elevators, 1, PRACTICE, "one unless asked otherwise"),
        pitch: Chosen::or(&a.pitch, mm(pitch), PRACTICE, "room to pull a shaft between two elevators"),
        up_side_bearing: Chosen::or(&a.up_side_bearing, None, PRACTICE, "north is not given"),
        grid: Chosen::or(&a.grid, None, PRACTICE, hold("the building's grid is not given")),
        site_level: Chosen::or(&a.site_level, None, PRACTICE, hold("the site's datum is not given")),
        up_space: spaces.up,
        down_space: spaces.down,
        near_space: spaces.near,
        far_space: spaces.far,
        module: spaces.module,
        access: way.access,
        access_side: way.access_side,
        shaft_pull: way.shaft_pull,
        ladder_width: way.guards.ladder_width,
        rung_pitch: way.guards.rung_pitch,
        stair_width: way.guards.stair_width,
        stair_rise: way.guards.stair_rise,
        stair_going: way.guards.stair_going,
        hatch_length: way.guards.hatch_length,
        hatch_width: way.guards.hatch_width,
        rail_height: way.guards.rail_height,
        depth: feed.depth,
        feed_level: feed.level,
        feed_distance: feed.distance,
        feed_slope: feed.slope,
        fitted,
    }
}

/// Depth of the pit that the foot stands in, fed by these inlets, mm; `None` where it stands on the floor.
pub(super) fn depth(so_far: &Standing<'_>, inlets: [&Inlet; 2]) -> Option<f64> {
    let deep = Feed::decide(so_far, inlets).depth.value.value();
    let fitted = so_far.asked.pit.fitted.value().unwrap_or(deep > 0.0);
    fitted.then_some(deep)
}

/// What ties the pit to the feed.
struct Feed {
    depth: Chosen<Length>,
    level: Chosen<Length>,
    distance: Chosen<Length>,
    slope: Chosen<Angle>,
}

impl Feed {
    /// Depth from the level of the feed, or the level from the depth.
    fn decide(so_far: &Standing<'_>, [up, down]: [&Inlet; 2]) -> Self {
        let (a, rounding) = (&so_far.asked.pit, so_far.rounding);
        let least = so_far.product.chute_slope.value.value();
        let slope = Chosen::or(&a.feed_slope, Angle::deg(usual_slope(&so_far.product)), PRACTICE, slides(least, &so_far.product));
        let distance =
            Chosen::or(&a.feed_distance, mm(rounding.or_inch(1000.0, 40.0)), PRACTICE, hold("the feed is taken to end this far from the inlet flange"));
        let fed = if *up.fitted { up } else { down };
        let flange = flange_floor(fed.sill.value.value(), fed.reach.value.value(), fed.slope.value.value());
        let fall = flange_floor(0.0, distance.value.value(), slope.value.value());
        let said = say!("spout falls {fall}, flange floor {flange} above the base", fall = say::mm(fall), flange = say::mm(flange));
        let (depth, level) = match (a.depth.value(), a.feed_level.value()) {
            (Some(depth), None) => {
                let level = mm(rounding.up(flange + fall - depth.value(), Step::Fine).clamp(-10_000.0, 10_000.0));
                (Chosen::or(&a.depth, depth, FEED, ""), Chosen::or(&a.feed_level, level, FEED, hold(say!("follows from the pit depth: {said}", said = said))))
            }
            (_, given) => {
                let level = given.unwrap_or(mm(0.0));
                let depth = rounding.up((flange + fall - level.value()).max(0.0), Step::Coarse).min(15_000.0);
                let reason = if given.is_some() { said } else { hold(say!("the feed is taken at floor level: {said}", said = said)) };
                (Chosen::or(&a.depth, mm(depth), FEED, reason), Chosen::or(&a.feed_level, level, PRACTICE, hold("taken at plant floor level")))
            }
        };
        Self { depth, level, distance, slope }
    }
}
