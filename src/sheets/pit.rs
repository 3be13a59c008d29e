//! Pit sheet for the civil engineer: plan, two sections, enlarged details, levels, setting-out.
//!
//! Outline only; reinforcement and structure belong to the responsible engineer. A value that the user
//! did not give and the structure depends on is marked HOLD. Loads and quantities: `pit_loads`.

use super::hold::{dimension, on_hold};
use super::views::pit_section as section;
use super::views::{Look, pit_fittings, pit_machine};
use super::{Subject, notes, pit_details, pit_plan};
use crate::model::frame::Extent;
use crate::model::holds::feed_is_open;
use crate::model::inlets::FeedSide;
use crate::model::pit::PitBody;
use crate::paper::mark::PlanePoint;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side, ViewScale};
use crate::say;
use crate::say::{name, size};
use crate::spec::pit::{Access, AccessSide};

/// Whether there is a pit.
pub fn applies(subject: &Subject<'_>) -> bool {
    subject.foot.pit.is_some()
}

/// The sheet; empty without a pit.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Concrete pit of the bucket elevator foot: plan, two sections, details of anchor, sump and edge, levels.");
    let Some(pit) = &subject.foot.pit else { return sheet };
    // A pit of ordinary size is drawn at 1:20, a long one smaller.
    sheet.coarsest_scale = if pit.x.size().max(pit.y.size()) <= LARGE { 24.0 } else { 50.0 };
    // Building sites plot up to A1 (D); details go on on a further sheet before a larger one is taken.
    sheet.sizes = 3;
    sheet.view(Placement::Main, subject.face(along(subject, pit)));
    sheet.view(Placement::FromAbove, subject.face(pit_plan::from_above(subject, pit)));
    // A lettered section stands where there is room.
    sheet.view(Placement::Free, subject.face(across(subject, pit)));
    if pit.cover.is_some() || pit.fittings.rail.is_some() {
        sheet.view(Placement::Free, subject.face(at_floor(subject, pit)));
    }
    for detail in pit_details::all(subject, pit) {
        sheet.view(Placement::Free, subject.face(detail));
    }
    sheet.note(civil_notes(subject, pit));
    sheet.note(notes::cautions(subject));
    sheet.notes.extend(notes::deviations(subject));
    sheet
}

/// Pits longer or wider than this are drawn at a smaller scale, mm.
const LARGE: f64 = 4500.0;

/// Section along the machine.
fn along(subject: &Subject<'_>, pit: &PitBody) -> Draft {
    let foot = subject.foot;
    let look = Look::Elevation;
    let mut d = Draft::new("along", say!("SECTION {letters}", letters = name("A–A")));
    section::concrete(&mut d, pit, pit.x, &pit.feed_openings);
    if let Some(s) = &pit.sump {
        section::sump_behind(&mut d, pit, s.x, s.depth);
    }
    pit_details::circles(subject, &mut d, pit);
    pit_fittings::along(&mut d, pit);
    pit_machine::elevation(&mut d, subject);
    feed(subject, &mut d, pit);
    let spout = |side: FeedSide| pit.rail_gaps.iter().any(|g| g.side == side);
    section::rails(&mut d, pit, pit.x, [spout(FeedSide::Down), spout(FeedSide::Up)]);
    section::beams(&mut d, pit, 0.0);
    trench(subject, &mut d, pit);
    match (pit.access_side, pit.access) {
        (AccessSide::Up, Access::Ladder) => section::ladder_profile(&mut d, pit, pit.x.high, -1.0),
        (AccessSide::Down, Access::Ladder) => section::ladder_profile(&mut d, pit, pit.x.low, 1.0),
        (AccessSide::Far, Access::Stair) => section::stair_profile(&mut d, pit, pit.way.x.low, pit.way.x.high),
        // What is fixed to the near wall lies in front of the cut.
        (AccessSide::Near, _) => {}
        _ => section::way_front(&mut d, pit, pit.way.x),
    }
    for o in &pit.feed_openings {
        let (wall, side) = if o.side == FeedSide::Up { (pit.x.high + pit.wall, Side::Right) } else { (pit.x.low - pit.wall, Side::Left) };
        for (what, from, to) in [("sill", 0.0, o.z.low), ("height", o.z.low, o.z.high.min(pit.depth))] {
            let r = d.dimension(side, format!("pit.feed_opening.{}.{what}", o.side.key()), (wall, from), (wall, to)).chain("feed");
            if feed_is_open(subject.spec) {
                r.suffix(" HOLD");
            }
        }
    }
    dimension(subject, &mut d, look, Side::Left, Some("down"), "pit.depth");
    dimension(subject, &mut d, look, Side::Left, Some("down"), "pit.slab");
    dimension(subject, &mut d, look, Side::Left, Some("down"), "pit.lean");
    let left = PlanePoint::new(pit.x.low - pit.wall - pit.toe, 0.0);
    d.level((pit.x.high + pit.wall + section::GROUND, pit.depth), 0.0, subject.say("plant floor"), Side::Right);
    let right = pit.x.high;
    d.level((right, 0.0), pit.level(0.0), subject.say("pit floor"), Side::Right);
    d.level((right + pit.wall + pit.toe, -pit.slab), pit.level(-pit.slab), subject.say("underside of slab"), Side::Right);
    d.level((foot.casing.up_face + foot.casing.plate, foot.shaft_lowest), pit.level(foot.shaft_lowest), subject.say("foot shaft, lowest"), Side::Right);
    for i in &foot.inlets {
        let side = if i.side == FeedSide::Up { Side::Right } else { Side::Left };
        let words = if i.side == FeedSide::Up { "up-side sill" } else { "down-side sill" };
        d.level((i.outside, i.sill), pit.level(i.sill), subject.say(words), side);
    }
    d.level((foot.casing.down_x(foot.casing.top), foot.casing.top), pit.level(foot.casing.top), subject.say("top flange of foot"), Side::Left);
    // Water far below the slab stands in the notes; drawn it would only stretch the section.
    if let Some(w) = subject.spec.pit.groundwater.value.filter(|w| drawn_water(pit, w.value())) {
        let at = section::water(&mut d, pit, pit.x, w.value());
        d.level(at, -w.value(), subject.say("groundwater"), Side::Right);
    }
    if pit.toe > 0.0 {
        let r = d.dimension(Side::Below, "pit.toe", left, PlanePoint::new(pit.x.low - pit.wall, 0.0));
        if on_hold(subject, "pit.toe") {
            r.suffix(" HOLD");
        }
    }
    d
}

/// Whether the groundwater lies high enough to be drawn beside the pit.
fn drawn_water(pit: &PitBody, below_floor: f64) -> bool {
    below_floor <= pit.depth + pit.slab + pit.lean
}

/// The incoming spout or conveyor, a neighbouring part.
fn feed(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    let distance = subject.spec.pit.feed_distance.value.value();
    let level = pit.depth + subject.spec.pit.feed_level.value.value();
    for i in &subject.foot.inlets {
        let out = i.side.outward();
        let (from, to) = ((i.flange_face, i.flange_sill), (i.flange_face + out * distance, level));
        if distance < 1.0 || level < i.flange_sill {
            continue;
        }
        let h = i.opening.size();
        d.polyline(Pen::Phantom, [from, to]);
        d.polyline(Pen::Phantom, [(from.0, from.1 + h), (to.0, to.1 + h)]);
        d.line(Pen::Phantom, to, (to.0, to.1 + h));
        d.flow_arrow((to.0 + out * 260.0, to.1 + h / 2.0), (to.0 + out * 20.0, to.1 + h / 2.0));
        if subject.foot.inlets.first() == Some(i) {
            let side = if i.side == FeedSide::Up { Side::Right } else { Side::Left };
            let hold = |r: &mut crate::paper::request::DimensionRequest, key: &str| {
                if on_hold(subject, key) {
                    r.suffix(" HOLD");
                }
            };
            hold(d.dimension(Side::Above, "pit.feed_distance", from, to), "pit.feed_distance");
            let words = if on_hold(subject, "pit.feed_level") { "bottom of incoming feed, HOLD" } else { "bottom of incoming feed" };
            d.level(to, subject.spec.pit.feed_level.value.value(), subject.say(words), side);
            if distance > 200.0 {
                let (level, along) = ((from.0 + out * distance * 0.6, from.1), (to.0, to.1));
                let (first, second) = if out > 0.0 { (level, along) } else { (along, level) };
                // As built: a depth rounded up leaves the spout a little steeper than asked for.
                d.angle("pit.feed_slope_built", from, first, second).reference();
            }
        }
    }
}

/// Room for a feed that reaches beyond the wall below plant floor: floor and far end of a trench or tunnel, its structure on hold.
fn trench(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    for (o, end) in pit.feeds_beyond(&subject.foot.inlets, subject.spec) {
        let out = o.side.outward();
        let outer = if o.side == FeedSide::Up { pit.x.high + pit.wall } else { pit.x.low - pit.wall };
        let end = end + out * TRENCH;
        d.polyline(Pen::Phantom, [(outer, o.z.low), (end, o.z.low), (end, pit.depth)]);
        let side = if o.side == FeedSide::Up { Side::Right } else { Side::Left };
        d.leader((end, f64::midpoint(o.z.low, pit.depth)), subject.say("trench or tunnel for the incoming feed beyond the wall: HOLD"), side);
    }
}

/// Room beyond the end of a feed in its trench, mm (common practice).
const TRENCH: f64 = 600.0;

/// Cover and guard rail at plant floor.
fn at_floor(subject: &Subject<'_>, pit: &PitBody) -> Draft {
    let mut d = Draft::new("cover", "COVER AND GUARD RAIL, UP SIDE ON THE RIGHT").at_scale(ViewScale::Within { width: 180.0, height: 130.0 });
    pit_fittings::at_floor(&mut d, pit);
    if let Some(cover) = &pit.cover {
        if let Some(first) = cover.cut_outs.first() {
            d.leader((first.x.high, -(first.y.low + 0.7 * first.y.size())), subject.say("cut-out round what passes the cover"), Side::Right);
        }
        if let Some(beam) = cover.beams.first() {
            let at = (beam.from[0], -(beam.from[1] + 0.15 * (beam.to[1] - beam.from[1])));
            let words = say!(
                "{number} beams, {beam} high, in pockets of {bearing} in the walls, HOLD; those over the hoist come off",
                number = name(cover.beams.len()),
                beam = size(cover.beam, 1),
                bearing = size(cover.bearing, 1)
            );
            d.leader(at, subject.say(words), Side::Left);
        }
    }
    if let Some(h) = &pit.fittings.hatch {
        d.leader((h.x.middle(), -h.y.middle()), subject.say("hatch in the cover"), if h.x.middle() > 0.0 { Side::Right } else { Side::Left });
    }
    if let (Some(gap), Some(rail)) = (pit.rail_gaps.first(), pit.fittings.rail) {
        let x = if gap.side == FeedSide::Up { pit.x.high + rail.offset } else { pit.x.low - rail.offset };
        let side = if gap.side == FeedSide::Up { Side::Right } else { Side::Left };
        d.dimension(side, "pit.rail.gap", (x, -gap.y.high), (x, -gap.y.low)).suffix(" HOLD");
        d.leader((x, -gap.y.low), subject.say("the rail ends at the spout, which is guarded itself"), side);
    }
    d
}

/// Section across the machine through the foot shaft, seen from the up side.
fn across(subject: &Subject<'_>, pit: &PitBody) -> Draft {
    let look = Look::FromUp;
    let inner = Extent::new(-pit.y.high, -pit.y.low);
    let mut d = Draft::new("across", say!("SECTION {letters}", letters = name("B–B")));
    section::concrete(&mut d, pit, inner, &[]);
    if let Some(s) = &pit.sump {
        section::sump_behind(&mut d, pit, Extent::new(-s.y.high, -s.y.low), s.depth);
        d.level((-s.y.low, -s.depth), pit.level(-s.depth), subject.say("sump"), Side::Right);
    }
    pit_machine::from_up(&mut d, subject);
    section::rails(&mut d, pit, inner, [false; 2]);
    let way = Extent::new(-pit.way.y.high, -pit.way.y.low);
    match (pit.access_side, pit.access) {
        (AccessSide::Near, Access::Ladder) => section::ladder_profile(&mut d, pit, inner.low, 1.0),
        (AccessSide::Far, Access::Ladder) => section::ladder_profile(&mut d, pit, inner.high, -1.0),
        (AccessSide::Down, Access::Stair) => section::stair_profile(&mut d, pit, way.high, way.low),
        // What is fixed to the up-side wall lies in front of the cut.
        (AccessSide::Up, _) => {}
        _ => section::way_front(&mut d, pit, way),
    }
    dimension(subject, &mut d, look, Side::Below, None, "pit.pitch");
    if let Some(rail) = &pit.fittings.rail {
        let x = inner.low - rail.offset;
        d.dimension(Side::Left, "pit.rail.knee", (x, pit.depth), (x, pit.depth + rail.knee));
        d.dimension(Side::Left, "pit.rail_height", (x, pit.depth), (x, pit.depth + rail.height));
    }
    d.level((inner.high + pit.wall + section::GROUND, pit.depth), 0.0, "", Side::Right);
    d.cutting_plane("A", (0.0, pit.depth + section::RAIL), (0.0, -pit.slab), Side::Right);
    d
}

fn civil_notes(subject: &Subject<'_>, pit: &PitBody) -> Notes {
    let mut all = vec![
        subject.say("Outline and loads only. Reinforcement, structure, foundation, waterproofing and shoring by the responsible engineer under local codes."),
        if subject.us() {
            subject.say("Levels from plant floor ±0. Axes are the machine's centre lines.")
        } else {
            subject.say("Levels from plant floor ±0.000 in metres, dimensions in millimetres. Axes are the machine's centre lines.")
        },
        subject.say("HOLD: the value is assumed; settle it before construction."),
        subject.say("Pit floor level under the foot, from there it falls to the sump. Pump, lighting and ventilation by others."),
        subject.say("Loads on the anchors, quantities, way down and holds: sheet of loads and quantities."),
    ];
    let module = subject.spec.pit.module.value.value();
    if module > 0.0 {
        all.push(
            subject.say(say!("Clear spaces are at least those asked for; walls are set out in steps of {module} from the axes.", module = size(module, 1))),
        );
    }
    let spec = &subject.spec.pit;
    all.push(match &spec.grid.value {
        Some(grid) => subject.say(say!("Setting-out point in the building's grid: {grid}.", grid = name(grid))),
        None => subject.say("Setting-out point in the building's grid: HOLD."),
    });
    all.push(match spec.site_level.value {
        Some(level) => {
            subject.say(say!("Plant floor ±0 lies at {level} above the site's datum.", level = name(crate::say::number::level(level.value(), subject.style()))))
        }
        None => subject.say("Plant floor ±0 above the site's datum: HOLD."),
    });
    if let Some(w) = subject.spec.pit.groundwater.value.filter(|w| !drawn_water(pit, w.value())) {
        all.push(subject.say(say!("Groundwater at {style}, below the pit.", style = name(crate::say::number::level(-w.value(), subject.style())))));
    }
    if subject.spec.pit.up_side_bearing.value.is_none() {
        all.push(subject.say("North is not given: HOLD. The up side is marked in the plan."));
    }
    if pit.elevators > 1 {
        all.push(subject.say(say!("{elevators} elevators in the pit, alike.", elevators = name(pit.elevators))));
    }
    let mut notes = Notes::numbered("notes", all);
    notes.width = 160.0;
    notes
}
