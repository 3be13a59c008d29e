//! Settles the way down into the pit, and which way the shaft is pulled: the keys of `[pit]` that depend on people.
//!
//! In: depth, shovel pocket. Out: ladder or stair with their sizes, hatch, rail, sides. Widths and steps keep the limits of the job's rules.

use super::PRACTICE;
use super::rounding::{Rounding, Step, mm};
use super::so_far::Opened;
use crate::say;
use crate::spec::inlets::Side;
use crate::spec::pit::{Access, AccessSide, AskedPit};
use crate::spec::reader::Chosen;
use crate::tables::access;
use crate::units::{Length, MM_PER_INCH};

/// The way down.
pub(super) struct WayDown {
    pub shaft_pull: Chosen<Side>,
    pub access: Chosen<Access>,
    pub access_side: Chosen<AccessSide>,
    pub guards: Guards,
    pub limits: &'static access::Access,
}

impl WayDown {
    /// Into a pit `depth` mm deep.
    pub(super) fn decide(so_far: &Opened<'_>, depth: f64) -> Self {
        let a = &so_far.asked.pit;
        let away = if *so_far.shovel_pocket.side == Side::Near { Side::Far } else { Side::Near };
        let shaft_pull = Chosen::or(&a.shaft_pull, away, PRACTICE, "away from the shovel pocket");
        let limits = access::access(so_far.rounding.us);
        let ladder = limits.ladder_fall_protection_mm;
        let access = if depth > ladder.value {
            let why = say!("a ladder of {depth} would be higher than {limit} and need fall protection", depth = say::mm(depth), limit = say::mm(ladder.value));
            Chosen::or(&a.access, Access::Stair, ladder.source, why)
        } else {
            Chosen::or(&a.access, Access::Ladder, PRACTICE, "a ladder unless asked otherwise; a stair is safer where people go down daily")
        };
        let stair = *access == Access::Stair;
        let along_row = stair && a.elevators.value().is_some_and(|n| n > 1);
        let (side, why) = match (stair, *shaft_pull) {
            (true, _) if !*so_far.inlet_down.fitted && along_row => (AccessSide::Down, "a stair runs along the row, where the pit is longest"),
            (true, _) if !*so_far.inlet_down.fitted => (AccessSide::Down, "a stair leads down where no shaft is pulled and no spout comes in"),
            (true, Side::Far) => (AccessSide::Near, "a stair leads down where no shaft is pulled and no spout comes in"),
            (true, Side::Near) => (AccessSide::Far, "a stair leads down where no shaft is pulled and no spout comes in"),
            (false, Side::Far) => (AccessSide::Far, "in a corner beside the room in which the shaft is pulled"),
            (false, Side::Near) => (AccessSide::Near, "in a corner beside the room in which the shaft is pulled"),
        };
        let access_side = Chosen::or(&a.access_side, side, PRACTICE, why);
        let guards = Guards::decide(a, *access, depth, limits, so_far.rounding);
        Self { shaft_pull, access, access_side, guards, limits }
    }
}

/// Ladder, stair, hatch and rail.
pub(super) struct Guards {
    pub ladder_width: Chosen<Length>,
    pub rung_pitch: Chosen<Length>,
    pub stair_width: Chosen<Length>,
    pub stair_rise: Chosen<Length>,
    pub stair_going: Chosen<Length>,
    pub hatch_length: Chosen<Length>,
    pub hatch_width: Chosen<Length>,
    pub rail_height: Chosen<Length>,
}

impl Guards {
    fn decide(a: &AskedPit, access: Access, depth: f64, limits: &access::Access, rounding: Rounding) -> Self {
        // Even rungs between the limits exist for every depth that needs a ladder when the wider pitch is the goal.
        let pitch = if rounding.us { rounding.or_inch(330.0, 13.0) } else { rounding.or_inch(300.0, 11.75) };
        let stair_width = Chosen::or(
            &a.stair_width,
            mm(rounding.or_inch(800.0, 32.0)),
            limits.stair_width_mm.source,
            say!("preferred; not under {least}", least = say::mm(limits.stair_width_mm.value)),
        );
        let stair_rise = Chosen::or(&a.stair_rise, mm(rounding.or_inch(200.0, 7.75)), PRACTICE, "comfortable with a load");
        let risers = (depth / stair_rise.value.value()).ceil().max(1.0);
        let going = rounding.near(access::STAIR_STEP_WISH_MM - 2.0 * depth / risers, Step::Fine).clamp(200.0, 400.0);
        let going = if rounding.us { going.max(rounding.or_inch(access::STAIR_GOING_US_MM, 10.0)) } else { going };
        let stair_going = Chosen::or(
            &a.stair_going,
            mm(going),
            access::STAIR_STEP,
            say!("going and two risers of {rise} make about {step}", rise = say::mm(depth / risers), step = say::mm(going + 2.0 * depth / risers)),
        );
        let flight = ((risers - 1.0) * stair_going.value.value()).clamp(rounding.or_inch(900.0, 36.0), 12_000.0);
        let (long, wide, about) = match access {
            Access::Ladder => (rounding.or_inch(900.0, 36.0), rounding.or_inch(700.0, 28.0), "a person with tools passes beside the rungs"),
            Access::Stair => (flight, stair_width.value.value().clamp(200.0, 4000.0), "the whole flight opens"),
        };
        Self {
            ladder_width: Chosen::or(
                &a.ladder_width,
                mm(rounding.or_inch(500.0, 18.0)),
                limits.ladder_width_min_mm.source,
                say!("between sides, not under {least}", least = say::mm(limits.ladder_width_min_mm.value)),
            ),
            rung_pitch: Chosen::or(
                &a.rung_pitch,
                mm(pitch),
                limits.rung_pitch_max_mm.source,
                say!("from {least} to {most}", least = say::mm(limits.rung_pitch_min_mm.value), most = say::mm(limits.rung_pitch_max_mm.value)),
            ),
            hatch_length: Chosen::or(&a.hatch_length, mm(long), PRACTICE, about),
            hatch_width: Chosen::or(&a.hatch_width, mm(wide), PRACTICE, about),
            rail_height: Chosen::or(
                &a.rail_height,
                mm(rounding.or_inch(access::ISO.rail_height_min_mm.value, if rounding.us { access::RAIL_HEIGHT_OSHA_MM.value / MM_PER_INCH } else { 44.0 })),
                limits.rail_height_min_mm.source,
                say!("not under {least}", least = say::mm(limits.rail_height_min_mm.value)),
            ),
            stair_width,
            stair_rise,
            stair_going,
        }
    }
}
