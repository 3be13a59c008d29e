//! Settles `[pit]`: depth from the feed, spaces for people, outline thicknesses.
//!
//! In: what was asked, levels, inlets, shaft, doors. Out: the pit. The depth follows from the level of the feed
//! and the slope of the spout; where the feed is not given it is assumed at floor level and the reason says HOLD. Structure is not designed here.

use super::PRACTICE;
use super::casing::Widths;
use super::habit::{Habit, Step, mm};
use crate::formulas::quantities::{WORKING_SPACE, WORKING_SPACE_MM};
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::inlets::{Inlet, ShovelPocket, Side};
use crate::spec::openings::{Door, Wall};
use crate::spec::pit::{Access, AccessSide, Pit};
use crate::spec::product::Product;
use crate::spec::reader::{Chosen, Leaf, Origin};
use crate::spec::rotating::Shaft;
use crate::tables::{access, soils};
use crate::units::{Angle, Density, Length, MM_PER_INCH, Ratio};

const FEED: Source = Source::physics("feed level less spout fall gives the sill's level; sill height below it is the pit floor");
const HOLD: &str = "HOLD: to be confirmed by the civil engineer; ";

/// Heights and levels that tie the pit to the feed, mm.
struct Feed {
    /// Flange floor of the fed inlet above the base.
    flange: f64,
    /// Fall of the spout between feed and flange.
    fall: f64,
}

/// Settles the pit.
#[allow(clippy::too_many_arguments)]
pub(super) fn pit(
    asked: &AskedSpec,
    widths: &Widths,
    shaft: &Shaft,
    up: &Inlet,
    down: &Inlet,
    pocket: &ShovelPocket,
    doors: &[Door],
    product: &Product,
    habit: Habit,
) -> Pit {
    let a = &asked.pit;
    let fed = if *up.fitted { up } else { down };
    let slope = product.chute_slope.value.value();
    let feed_slope =
        Chosen::or(&a.feed_slope, Angle::deg((slope / 5.0).ceil() * 5.0), PRACTICE, format!("not under the {slope}° at which {} slides", *product.name));
    let feed_distance =
        Chosen::or(&a.feed_distance, mm(habit.or_inch(1000.0, 40.0)), PRACTICE, format!("{HOLD}the feed is taken to end this far from the inlet flange"));
    let flange = fed.sill.value.value() + fed.reach.value.value() * fed.slope.value.value().to_radians().tan();
    let feed = Feed { flange, fall: feed_distance.value.value() * feed_slope.value.value().to_radians().tan() };
    let (depth, feed_level) = depth_and_level(&a.depth, &a.feed_level, &feed, habit);
    let deep = depth.value.value();
    let fitted = Chosen::or(
        &a.fitted,
        deep > 0.0,
        PRACTICE,
        if deep > 0.0 { "the feed comes too low for a foot that stands on the floor" } else { "the feed is high enough for a foot that stands on the floor" },
    );
    let shaft_length = shaft.bearing_centres.value.value() + 2.0 * shaft.projection.value.value();
    let pull = Chosen::or(&a.shaft_pull, if *pocket.side == Side::Near { Side::Far } else { Side::Near }, PRACTICE, "away from the shovel pocket");
    let way = Chosen::or(&a.access, Access::Ladder, PRACTICE, "a ladder unless asked otherwise; a stair is safer where people go down daily");
    let along_row = *way == Access::Stair && a.elevators.value().is_some_and(|n| n > 1);
    let access_side = Chosen::or(
        &a.access_side,
        match (along_row, *pull) {
            (true, _) => AccessSide::Down,
            (false, Side::Far) => AccessSide::Far,
            (false, Side::Near) => AccessSide::Near,
        },
        PRACTICE,
        if along_row { "a stair runs along the row, where the pit is longest" } else { "where the shaft is pulled there is room for the way down" },
    );
    // A ladder takes its own depth and room in front; a stair stands beside what is clear.
    let limits = access::access(if habit.us { access::Jurisdiction::Osha } else { access::Jurisdiction::Iso });
    let ladder = limits.ladder_front_mm.value + limits.ladder_behind_mm.value;
    let guards = Guards::of(asked, *way, deep, limits, habit);
    let stair = guards.stair_width.value.value() + limits.clear_width_mm.value;
    let needed = Need {
        mm: habit.up(if *way == Access::Ladder { ladder } else { stair }, Step::Coarse),
        source: if *way == Access::Ladder { limits.ladder_front_mm.source } else { limits.stair_width_mm.source },
        why: if *way == Access::Ladder { "the ladder stands here: room in front of and behind the rungs" } else { "the stair stands here, beside a clear way" }
            .to_string(),
    };
    let at = |side: AccessSide| (*access_side == side).then(|| needed.clone());
    let module = Chosen::or(
        &a.module,
        mm(habit.or_inch(50.0, 2.0)),
        PRACTICE,
        "setting-out people build to whole steps; a wall whose space is left out moves outward to the next step from the machine's axes",
    );
    let side = |side: Side, leaf: &Leaf<Length>| {
        let way = at(if side == Side::Near { AccessSide::Near } else { AccessSide::Far });
        let chosen = side_space(side, leaf, *pull, pocket, shaft_length, way, habit);
        to_module(chosen, &module)
    };
    let (near_space, far_space) = (side(Side::Near, &a.near_space), side(Side::Far, &a.far_space));
    let work_up = inspect(doors, Wall::UpEnd) || asked.clean_out.up.value() != Some(false);
    let work_down = inspect(doors, Wall::DownEnd) || asked.clean_out.down.value() != Some(false);
    let up_space = to_module(space(&a.up_space, habit, work_up, "clean-out and inspection on the up side", at(AccessSide::Up)), &module);
    let down_space = to_module(space(&a.down_space, habit, work_down, "clean-out on the down side", at(AccessSide::Down)), &module);
    let deep_enough = deep >= access::ISO.rail_from_fall_mm.value;
    let side = if habit.us { soils::SIDE_OSHA } else { soils::SIDE };
    Pit {
        up_space,
        down_space,
        near_space,
        far_space,
        module,
        wall: Chosen::or(&a.wall, mm(habit.or_inch(250.0, 10.0)), PRACTICE, format!("{HOLD}outline only")),
        slab: Chosen::or(&a.slab, mm(habit.or_inch(300.0, 12.0)), PRACTICE, format!("{HOLD}outline only")),
        lean: Chosen::or(&a.lean, mm(habit.or_inch(50.0, 2.0)), PRACTICE, "50 to 100 mm of blinding is usual"),
        sump: Chosen::or(&a.sump, mm(if deep_enough { habit.or_inch(access::SUMP_MM, 16.0) } else { 0.0 }), PRACTICE, "takes a small pump"),
        sump_depth: Chosen::or(&a.sump_depth, mm(if deep_enough { habit.or_inch(access::SUMP_MM, 16.0) } else { 0.0 }), PRACTICE, "takes a small pump"),
        floor_fall: Chosen::or(&a.floor_fall, Ratio::of_one(access::FLOOR_FALL[0]), PRACTICE, "1 in 100: water runs and nobody slips"),
        access: way,
        ladder_width: guards.ladder_width,
        rung_pitch: guards.rung_pitch,
        stair_width: guards.stair_width,
        stair_rise: guards.stair_rise,
        stair_going: guards.stair_going,
        hatch_length: guards.hatch_length,
        hatch_width: guards.hatch_width,
        rail_height: guards.rail_height,
        cover: Chosen::or(&a.cover, true, PRACTICE, "keeps people and goods from falling in"),
        rail: Chosen::or(&a.rail, deep_enough, access::SOURCE, if deep_enough { "the fall is 500 mm or more" } else { "the fall is under 500 mm" }),
        groundwater: Chosen::or(&a.groundwater, None, PRACTICE, format!("{HOLD}no level given, so uplift is not checked")),
        toe: Chosen::or(&a.toe, mm(habit.or_inch(200.0, 8.0)), PRACTICE, format!("{HOLD}outline only")),
        soil_density: Chosen::or(&a.soil_density, Density::t_per_m3(1.8), PRACTICE, format!("{HOLD}ordinary soil")),
        soil_density_wet: Chosen::or(&a.soil_density_wet, Density::t_per_m3(2.0), PRACTICE, format!("{HOLD}ordinary saturated soil")),
        working_space: Chosen::or(&a.working_space, mm(habit.or_inch(WORKING_SPACE_MM, 24.0)), WORKING_SPACE, "for formwork and people in the excavation"),
        batter: Chosen::or(&a.batter, Angle::deg(side.slope_deg), side.source, format!("{HOLD}soil not known")),
        elevators: Chosen::or(&a.elevators, 1, PRACTICE, "one unless asked otherwise"),
        pitch: Chosen::or(
            &a.pitch,
            mm(habit.up(widths.outside + shaft_length.max(1000.0), Step::Coarse).clamp(500.0, 20_000.0)),
            PRACTICE,
            "room to pull a shaft between two elevators",
        ),
        up_side_bearing: Chosen::or(&a.up_side_bearing, None, PRACTICE, "north is not given"),
        depth,
        feed_level,
        feed_distance,
        feed_slope,
        access_side,
        shaft_pull: pull,
        fitted,
    }
}

/// Ladder, stair, hatch and rail.
struct Guards {
    ladder_width: Chosen<Length>,
    rung_pitch: Chosen<Length>,
    stair_width: Chosen<Length>,
    stair_rise: Chosen<Length>,
    stair_going: Chosen<Length>,
    hatch_length: Chosen<Length>,
    hatch_width: Chosen<Length>,
    rail_height: Chosen<Length>,
}

impl Guards {
    fn of(asked: &AskedSpec, way: Access, depth: f64, limits: &access::Access, habit: Habit) -> Self {
        let a = &asked.pit;
        // Even rungs between the limits exist for every depth that needs a ladder when the wider pitch is the goal.
        let pitch = if habit.us { habit.or_inch(330.0, 13.0) } else { habit.or_inch(300.0, 11.75) };
        let ladder_width = Chosen::or(
            &a.ladder_width,
            mm(habit.or_inch(500.0, 18.0)),
            limits.ladder_width_min_mm.source,
            format!("between sides, not under {}", habit.say(limits.ladder_width_min_mm.value)),
        );
        let rung_pitch = Chosen::or(
            &a.rung_pitch,
            mm(pitch),
            limits.rung_pitch_max_mm.source,
            format!("from {} to {}", habit.say(limits.rung_pitch_min_mm.value), habit.say(limits.rung_pitch_max_mm.value)),
        );
        let stair_width = Chosen::or(
            &a.stair_width,
            mm(habit.or_inch(800.0, 32.0)),
            limits.stair_width_mm.source,
            format!("preferred; not under {}", habit.say(limits.stair_width_mm.value)),
        );
        let stair_rise = Chosen::or(&a.stair_rise, mm(habit.or_inch(200.0, 7.75)), PRACTICE, "comfortable with a load");
        let risers = (depth / stair_rise.value.value()).ceil().max(1.0);
        let going = habit.near(access::STAIR_STEP_WISH_MM - 2.0 * depth / risers, Step::Fine).clamp(200.0, 400.0);
        let going = if habit.us { going.max(habit.or_inch(access::STAIR_GOING_US_MM, 10.0)) } else { going };
        let stair_going = Chosen::or(
            &a.stair_going,
            mm(going),
            access::STAIR_STEP,
            format!("going and two risers of {} make about {}", habit.say(depth / risers), habit.say(access::STAIR_STEP_WISH_MM)),
        );
        let ladder = way == Access::Ladder;
        let flight = ((risers - 1.0) * stair_going.value.value()).clamp(habit.or_inch(900.0, 36.0), 12_000.0);
        let (long, wide) =
            if ladder { (habit.or_inch(900.0, 36.0), habit.or_inch(700.0, 28.0)) } else { (flight, stair_width.value.value().clamp(200.0, 4000.0)) };
        let about = if ladder { "a person with tools passes beside the rungs" } else { "the whole flight opens" };
        Self {
            hatch_length: Chosen::or(&a.hatch_length, mm(long), PRACTICE, about),
            hatch_width: Chosen::or(&a.hatch_width, mm(wide), PRACTICE, about),
            rail_height: Chosen::or(
                &a.rail_height,
                mm(habit.or_inch(access::ISO.rail_height_min_mm.value, if habit.us { access::RAIL_HEIGHT_OSHA_MM.value / MM_PER_INCH } else { 44.0 })),
                limits.rail_height_min_mm.source,
                format!("not under {}", habit.say(limits.rail_height_min_mm.value)),
            ),
            ladder_width,
            rung_pitch,
            stair_width,
            stair_rise,
            stair_going,
        }
    }
}

fn inspect(doors: &[Door], wall: Wall) -> bool {
    doors.iter().any(|d| *d.on == wall)
}

/// Depth from the feed, or the feed from the depth.
fn depth_and_level(depth: &Leaf<Length>, level: &Leaf<Length>, feed: &Feed, habit: Habit) -> (Chosen<Length>, Chosen<Length>) {
    let said = format!("spout falls {}, flange floor {} above the base", habit.say(feed.fall), habit.say(feed.flange));
    match (depth.value(), level.value()) {
        (Some(d), None) => {
            let l = feed.flange + feed.fall - d.value();
            (
                Chosen::or(depth, d, FEED, ""),
                Chosen::or(level, mm(habit.up(l, Step::Fine).clamp(-10_000.0, 10_000.0)), FEED, format!("{HOLD}follows from the pit depth: {said}")),
            )
        }
        (_, given) => {
            let l = given.map_or(0.0, |l| l.value());
            let d = (feed.flange + feed.fall - l).max(0.0);
            let reason = if given.is_some() { said } else { format!("{HOLD}the feed is taken at floor level: {said}") };
            (
                Chosen::or(depth, mm(habit.up(d, Step::Coarse).min(15_000.0)), FEED, reason),
                Chosen::or(level, mm(l), PRACTICE, format!("{HOLD}taken at plant floor level")),
            )
        }
    }
}

/// Room that something asks for, mm.
#[derive(Clone)]
struct Need {
    mm: f64,
    source: Source,
    why: String,
}

fn space(leaf: &Leaf<Length>, habit: Habit, work: bool, what: &str, way: Option<Need>) -> Chosen<Length> {
    let mut needs = vec![if work {
        Need { mm: habit.or_inch(access::SERVICE_AT_DOORS_MM.value, 32.0), source: access::SERVICE_AT_DOORS_MM.source, why: what.to_string() }
    } else {
        Need { mm: habit.or_inch(access::SERVICE_ALL_ROUND_MM.value, 24.0), source: access::SERVICE_ALL_ROUND_MM.source, why: "a person passes".to_string() }
    }];
    needs.extend(way);
    largest(leaf, needs)
}

fn side_space(side: Side, leaf: &Leaf<Length>, pull: Side, pocket: &ShovelPocket, shaft_length: f64, way: Option<Need>, habit: Habit) -> Chosen<Length> {
    let mut needs = vec![Need {
        mm: habit.or_inch(access::SERVICE_AT_DOORS_MM.value, 32.0),
        source: access::SERVICE_AT_DOORS_MM.source,
        why: "the take-up is set from here".to_string(),
    }];
    if *pocket.fitted && *pocket.side == side {
        needs.push(Need {
            mm: habit.or_inch(access::SERVICE_SHOVEL_SIDE_MM.value, 40.0),
            source: access::SERVICE_SHOVEL_SIDE_MM.source,
            why: "people shovel here".to_string(),
        });
    }
    if pull == side {
        let extra = access::SERVICE_SHAFT_EXTRA_MM;
        needs.push(Need {
            mm: habit.up(shaft_length + extra.value, Step::Coarse),
            source: extra.source,
            why: format!("the shaft of {} is pulled out here", habit.say(shaft_length)),
        });
    }
    needs.extend(way);
    largest(leaf, needs)
}

/// Says in the reason of a space that is left out where its wall comes to stand.
fn to_module(mut space: Chosen<Length>, module: &Chosen<Length>) -> Chosen<Length> {
    let step = module.value.value();
    if let Origin::Default { reason, .. } = &mut space.origin
        && step > 0.0
    {
        *reason = crate::say!(
            "at least {least} ({why}); the wall stands at the next {step} from the machine's axis, further out where the way down needs the length",
            least = crate::say::mm(space.value.value()),
            why = std::mem::take(reason),
            step = crate::say::mm(step),
        );
    }
    space
}

fn largest(leaf: &Leaf<Length>, needs: Vec<Need>) -> Chosen<Length> {
    let most = needs.into_iter().fold(Need { mm: 0.0, source: PRACTICE, why: String::new() }, |best, next| if next.mm > best.mm { next } else { best });
    Chosen::or(leaf, mm(most.mm.min(10_000.0)), most.source, most.why)
}
