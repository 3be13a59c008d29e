//! Settles the clear spaces of `[pit]` between casing and walls, and the module that the walls are set to.
//!
//! In: way down, doors, shaft, shovel pocket. Out: the four spaces. Each is as wide as the largest of the needs on its side.

use super::PRACTICE;
use super::pit_access::WayDown;
use super::rounding::{Rounding, Step, mm};
use super::so_far::Opened;
use crate::formulas::removal;
use crate::say;
use crate::say::Statement;
use crate::sources::Source;
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;
use crate::spec::pit::{Access, AccessSide};
use crate::spec::reader::{Chosen, Leaf};
use crate::tables::access;
use crate::units::Length;

/// Clear spaces round the foot.
pub(super) struct Spaces {
    pub module: Chosen<Length>,
    pub up: Chosen<Length>,
    pub down: Chosen<Length>,
    pub near: Chosen<Length>,
    pub far: Chosen<Length>,
}

/// Room that something asks for, mm.
struct Need {
    mm: f64,
    source: Source,
    why: Statement,
}

impl Spaces {
    pub(super) fn decide(so_far: &Opened<'_>, way: &WayDown) -> Self {
        let (a, rounding) = (&so_far.asked.pit, so_far.rounding);
        let module = Chosen::or(
            &a.module,
            mm(rounding.or_inch(50.0, 2.0)),
            PRACTICE,
            "setting-out people build to whole steps; a wall whose space is left out moves outward to the next step from the machine's axes",
        );
        let space = |leaf: &Leaf<Length>, side: AccessSide, mut needs: Vec<Need>| {
            if *way.access_side == side {
                let beside = needs.iter().map(|n| n.mm).fold(0.0, f64::max);
                needs.push(of_way(way, beside, rounding));
            }
            largest(leaf, needs, module.value.value())
        };
        let inspect = |wall: Wall| so_far.doors.iter().any(|d| *d.on == wall);
        let work_up = inspect(Wall::UpEnd) || *so_far.clean_out.up;
        let work_down = inspect(Wall::DownEnd) || so_far.asked.clean_out.down.value() != Some(false);
        Self {
            up: space(&a.up_space, AccessSide::Up, at_end(so_far, Wall::UpEnd, work_up.then_some("clean-out and inspection on the up side"))),
            down: space(&a.down_space, AccessSide::Down, at_end(so_far, Wall::DownEnd, work_down.then_some("clean-out on the down side"))),
            near: space(&a.near_space, AccessSide::Near, at_side(so_far, Side::Near, *way.shaft_pull)),
            far: space(&a.far_space, AccessSide::Far, at_side(so_far, Side::Far, *way.shaft_pull)),
            module,
        }
    }
}

/// A ladder takes its own depth and room in front; a stair stands beside what the side is wanted for besides, mm.
fn of_way(way: &WayDown, beside: f64, rounding: Rounding) -> Need {
    let limits = way.limits;
    let (room, source, why) = match *way.access {
        Access::Ladder => (
            limits.ladder_front_mm.value + limits.ladder_behind_mm.value,
            limits.ladder_front_mm.source,
            "the ladder stands here: room in front of and behind the rungs",
        ),
        Access::Stair => (
            way.guards.stair_width.value.value() + limits.clear_width_mm.value.max(beside),
            limits.stair_width_mm.source,
            "the stair stands here, beside what else needs room on this side",
        ),
    };
    Need { mm: rounding.up(room, Step::Coarse), source, why: why.into() }
}

/// At an end of the foot, where people work or pass.
fn at_end(so_far: &Opened<'_>, wall: Wall, work: Option<&'static str>) -> Vec<Need> {
    let rounding = so_far.rounding;
    let mut needs = vec![match work {
        Some(what) => Need { mm: rounding.or_inch(access::SERVICE_AT_DOORS_MM.value, 32.0), source: access::SERVICE_AT_DOORS_MM.source, why: what.into() },
        None => {
            Need { mm: rounding.or_inch(access::SERVICE_ALL_ROUND_MM.value, 24.0), source: access::SERVICE_ALL_ROUND_MM.source, why: "a person passes".into() }
        }
    }];
    if so_far.removal.on.wall() == Some(wall) {
        let diameter = 2.0 * so_far.levels.radius;
        needs.push(Need {
            mm: rounding.up(diameter + removal::BEFORE_PANEL, Step::Coarse),
            source: removal::OPENING,
            why: say!("the foot pulley of {diameter} is drawn out here", diameter = say::mm(diameter)),
        });
    }
    needs
}

/// Beside the foot, where the take-up is set, people shovel, and the shaft is pulled.
fn at_side(so_far: &Opened<'_>, side: Side, pull: Side) -> Vec<Need> {
    let (pocket, rounding, shaft_length) = (&so_far.shovel_pocket, so_far.rounding, so_far.shaft.length());
    let mut needs = vec![Need {
        mm: rounding.or_inch(access::SERVICE_AT_DOORS_MM.value, 32.0),
        source: access::SERVICE_AT_DOORS_MM.source,
        why: "the take-up is set from here".into(),
    }];
    if *pocket.fitted && *pocket.side == side {
        needs.push(Need {
            mm: rounding.or_inch(access::SERVICE_SHOVEL_SIDE_MM.value, 40.0),
            source: access::SERVICE_SHOVEL_SIDE_MM.source,
            why: "people shovel here".into(),
        });
    }
    if pull == side {
        let extra = access::SERVICE_SHAFT_EXTRA_MM;
        needs.push(Need {
            mm: rounding.up(shaft_length + extra.value, Step::Coarse),
            source: extra.source,
            why: say!("the shaft of {length} is pulled out here", length = say::mm(shaft_length)),
        });
    }
    needs
}

/// The largest need; the reason says where the wall comes to stand when it is set to whole steps of `module` mm.
fn largest(leaf: &Leaf<Length>, needs: Vec<Need>, module: f64) -> Chosen<Length> {
    let most = needs.into_iter().fold(Need { mm: 0.0, source: PRACTICE, why: Statement::default() }, |best, next| if next.mm > best.mm { next } else { best });
    let space = most.mm.min(10_000.0);
    let why = if module > 0.0 {
        say!(
            "at least {least} ({why}); the wall stands at the next {step} from the machine's axis, further out where the way down needs the length",
            least = say::mm(space),
            why = most.why,
            step = say::mm(module)
        )
    } else {
        most.why
    };
    Chosen::or(leaf, mm(space), most.source, why)
}
