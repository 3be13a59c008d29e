//! Pit sheet for the civil engineer: plan, two sections, levels, setting-out, loads, quantities, holds.
//!
//! Outline and loads only; reinforcement and structure belong to the responsible engineer. A value
//! that the user did not give and the structure depends on is marked HOLD.

use super::views::pit_section as section;
use super::views::{Look, pit_fittings, pit_machine};
use super::{Job, notes, pit_tables};
use crate::documents::mark::Align;
use crate::documents::mark::PlanePoint;
use crate::documents::notes::Notes;
use crate::documents::sheet::{Placement, SheetPlan};
use crate::documents::style::Pen;
use crate::documents::table::Table;
use crate::documents::view::{Draft, Material, Side, rectangle};
use crate::model::frame::Extent;
use crate::model::holds::holds;
use crate::model::inlets::FeedSide;
use crate::model::pit::{PitBody, footprint};
use crate::spec::inlets::Side as Flank;
use crate::spec::pit::{Access, AccessSide};

/// Whether there is a pit.
pub fn applies(job: &Job<'_>) -> bool {
    job.foot.pit.is_some()
}

/// The sheet; empty without a pit.
pub fn plan(job: &Job<'_>) -> SheetPlan {
    let mut sheet = SheetPlan::new("pit", "PIT, OUTLINE AND LOADS", "Pit");
    sheet.description = job.say("Concrete pit of the bucket elevator foot: plan, two sections, levels, loads, quantities.");
    sheet.coarsest_scale = 50.0;
    let Some(pit) = &job.foot.pit else { return sheet };
    sheet.view(Placement::Main, job.face(along(job, pit)));
    sheet.view(job.place(Placement::FromRight), job.face(across(job, pit)));
    sheet.view(Placement::FromAbove, job.face(from_above(job, pit)));
    sheet.view(Placement::Free, job.face(pit_tables::signs(job)));
    sheet.table(pit_tables::loads(job));
    sheet.table(anchors(job));
    if let Some(table) = pit_tables::quantities(job) {
        sheet.table(table);
    }
    if let Some(table) = pit_tables::fittings(job) {
        sheet.table(table);
    }
    sheet.table(holds_table(job));
    sheet.note(civil_notes(job, pit));
    sheet.note(notes::cautions(job));
    sheet
}

fn on_hold(job: &Job<'_>, key: &str) -> bool {
    holds(job.spec).iter().any(|h| h.path == key)
}

/// A feature's dimension, marked HOLD when its value is only assumed.
fn dimension(job: &Job<'_>, d: &mut Draft, look: Look, side: Side, chain: Option<&str>, id: &str) {
    let hold = on_hold(job, id);
    if let Some(r) = look.dimension(d, job.foot, side, id) {
        if let Some(c) = chain {
            r.chain(c);
        }
        if hold {
            r.suffix(" HOLD");
        }
    }
}

/// Section along the machine.
fn along(job: &Job<'_>, pit: &PitBody) -> Draft {
    let foot = job.foot;
    let look = Look::Elevation;
    let mut d = Draft::new("along", "SECTION A–A");
    section::concrete(&mut d, pit, pit.x, &pit.feed_openings);
    if let Some(s) = &pit.sump {
        section::sump_behind(&mut d, s.x, s.depth);
    }
    pit_fittings::along(&mut d, pit);
    pit_machine::elevation(&mut d, foot);
    feed(job, &mut d, pit);
    if job.spec.pit.rail.value {
        section::rails(&mut d, pit, pit.x);
    }
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
        d.dimension(side, format!("pit.feed_opening.{}.sill", o.side.key()), (wall, 0.0), (wall, o.z.low)).chain("feed");
        d.dimension(side, format!("pit.feed_opening.{}.height", o.side.key()), (wall, o.z.low), (wall, o.z.high.min(pit.depth))).chain("feed");
    }
    dimension(job, &mut d, look, Side::Left, Some("down"), "pit.depth");
    dimension(job, &mut d, look, Side::Left, Some("down"), "pit.slab");
    dimension(job, &mut d, look, Side::Left, Some("down"), "pit.lean");
    let left = PlanePoint::new(pit.x.low - pit.wall - pit.toe, 0.0);
    d.level((pit.x.high + pit.wall + section::GROUND, pit.depth), 0.0, job.say("plant floor"), Side::Right);
    let right = pit.x.high;
    d.level((right, 0.0), pit.level(0.0), job.say("pit floor"), Side::Right);
    d.level((right + pit.wall + pit.toe, -pit.slab), pit.level(-pit.slab), job.say("underside of slab"), Side::Right);
    d.level((foot.casing.up_face + foot.casing.plate, foot.shaft_lowest), pit.level(foot.shaft_lowest), job.say("foot shaft, lowest"), Side::Right);
    for i in &foot.inlets {
        let side = if i.side == FeedSide::Up { Side::Right } else { Side::Left };
        let words = if i.side == FeedSide::Up { "up-side sill" } else { "down-side sill" };
        d.level((i.outside, i.sill), pit.level(i.sill), job.say(words), side);
    }
    d.level((foot.casing.down_x(foot.casing.top), foot.casing.top), pit.level(foot.casing.top), job.say("top flange of foot"), Side::Left);
    if let Some(w) = job.spec.pit.groundwater.value {
        let at = section::water(&mut d, pit, pit.x, w.value());
        d.level(at, -w.value(), job.say("groundwater"), Side::Right);
    }
    if pit.toe > 0.0 {
        let r = d.dimension(Side::Below, "pit.toe", left, PlanePoint::new(pit.x.low - pit.wall, 0.0));
        if on_hold(job, "pit.toe") {
            r.suffix(" HOLD");
        }
    }
    d
}

/// The incoming spout or conveyor, a neighbouring part.
fn feed(job: &Job<'_>, d: &mut Draft, pit: &PitBody) {
    let distance = job.spec.pit.feed_distance.value.value();
    let level = pit.depth + job.spec.pit.feed_level.value.value();
    for i in &job.foot.inlets {
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
        if i.side == FeedSide::Up {
            d.dimension(Side::Above, "pit.feed_distance", from, to);
            d.level(to, job.spec.pit.feed_level.value.value(), job.say("bottom of incoming feed"), Side::Right);
        }
    }
}

/// Section across the machine through the foot shaft, seen from the up side.
fn across(job: &Job<'_>, pit: &PitBody) -> Draft {
    let foot = job.foot;
    let look = Look::FromUp;
    let inner = Extent::new(-pit.y.high, -pit.y.low);
    let mut d = Draft::new("across", "SECTION B–B");
    section::concrete(&mut d, pit, inner, &[]);
    if let Some(s) = &pit.sump {
        section::sump_behind(&mut d, Extent::new(-s.y.high, -s.y.low), s.depth);
        d.level((-s.y.low, -s.depth), pit.level(-s.depth), job.say("sump"), Side::Right);
    }
    pit_machine::from_up(&mut d, foot);
    if job.spec.pit.rail.value {
        section::rails(&mut d, pit, inner);
    }
    let way = Extent::new(-pit.way.y.high, -pit.way.y.low);
    match (pit.access_side, pit.access) {
        (AccessSide::Near, Access::Ladder) => section::ladder_profile(&mut d, pit, inner.low, 1.0),
        (AccessSide::Far, Access::Ladder) => section::ladder_profile(&mut d, pit, inner.high, -1.0),
        (AccessSide::Down, Access::Stair) => section::stair_profile(&mut d, pit, way.high, way.low),
        // What is fixed to the up-side wall lies in front of the cut.
        (AccessSide::Up, _) => {}
        _ => section::way_front(&mut d, pit, way),
    }
    dimension(job, &mut d, look, Side::Left, None, "pit.sump_depth");
    dimension(job, &mut d, look, Side::Below, None, "pit.pitch");
    d.level((inner.high + pit.wall + section::GROUND, pit.depth), 0.0, "", Side::Right);
    d.cutting_plane("A", (0.0, pit.depth + section::RAIL), (0.0, -pit.slab), Side::Right);
    d
}

/// Plan, cut above the pit floor.
fn from_above(job: &Job<'_>, pit: &PitBody) -> Draft {
    let foot = job.foot;
    let look = Look::FromAbove;
    let mut d = Draft::new("plan", "PLAN");
    let v = Extent::new(-pit.y.high, -pit.y.low);
    let box_of = |x: Extent, v: Extent| rectangle(PlanePoint::new(x.low, v.low), PlanePoint::new(x.high, v.high));
    let (outer, inner) = (box_of(pit.x.grown(pit.wall), v.grown(pit.wall)), box_of(pit.x, v));
    d.hatch(Material::Concrete, vec![outer.clone(), inner.clone()]);
    d.stroke(Pen::Concrete, outer);
    d.stroke(Pen::Concrete, inner);
    if pit.toe > 0.0 {
        d.stroke(Pen::Hidden, box_of(pit.x.grown(pit.wall + pit.toe), v.grown(pit.wall + pit.toe)));
    }
    pit_machine::from_above(&mut d, foot);
    if let Some(s) = &pit.sump {
        let r = Extent::new(-s.y.high, -s.y.low);
        d.stroke(Pen::Edge, box_of(s.x, r));
        d.line(Pen::FineEdge, (s.x.low, r.low), (s.x.high, r.high));
        d.line(Pen::FineEdge, (s.x.low, r.high), (s.x.high, r.low));
        look.each(&mut d, foot, Side::Below, &["pit.sump"]);
        d.leader(
            (s.x.high, r.middle()),
            job.tell("sump {} × {} × {} deep, floor falls to it", &[&job.mm(s.x.size()), &job.mm(s.y.size()), &job.mm(s.depth)]),
            Side::Left,
        );
    }
    way_down(job, &mut d, pit);
    pit_fittings::from_above(&mut d, pit, job.say("landing, to be kept free"), job.say("hatch in the cover"));
    shaft_withdrawal(job, &mut d);
    d.origin((0.0, 0.0));
    d.leader((0.0, 0.0), job.say("setting-out point: foot shaft axis × belt middle plane"), Side::Right);
    for i in &foot.inlets {
        let out = i.side.outward();
        d.flow_arrow((i.flange_face + out * 300.0, 0.0), (i.flange_face + out * 40.0, 0.0));
    }
    if let Some(b) = job.spec.pit.up_side_bearing.value {
        // The up side (+x) points to this bearing, clockwise from north: north lies that much counter-clockwise from +x.
        d.north(b.value());
    }
    for (chain, side, ids) in [("x", Side::Below, &["pit.x_down", "pit.x_up"][..]), ("y", Side::Left, &["pit.y_far", "pit.y_near"][..])] {
        for id in ids {
            dimension(job, &mut d, look, side, Some(chain), id);
        }
    }
    dimension(job, &mut d, look, Side::Below, None, "pit.length");
    dimension(job, &mut d, look, Side::Left, None, "pit.width");
    dimension(job, &mut d, look, Side::Below, Some("wall"), "pit.wall");
    spaces(job, &mut d, pit);
    anchor_dimensions(job, &mut d);
    let top = v.high + pit.wall;
    d.cutting_plane("A", (pit.x.low - pit.wall, 0.0), (pit.x.high + pit.wall, 0.0), Side::Above);
    d.cutting_plane("B", (0.0, v.low - pit.wall), (0.0, top), Side::Left);
    d
}

/// Clear service spaces from the outermost fixed part to the walls.
fn spaces(job: &Job<'_>, d: &mut Draft, pit: &PitBody) {
    let foot = job.foot;
    let (fx, fy) = footprint(&foot.casing, &foot.inlets, foot.pocket.as_ref(), &foot.rotating);
    let row = pit_machine::rows(foot).last().copied().unwrap_or(0.0);
    d.dimension(Side::Above, "pit.down_space", (pit.x.low, 0.0), (fx.low, 0.0)).chain("space x");
    d.dimension(Side::Above, "pit.up_space", (fx.high, 0.0), (pit.x.high, 0.0)).chain("space x");
    d.dimension(Side::Right, "pit.near_space", (0.0, -fy.high), (0.0, -pit.y.high)).chain("space y");
    d.dimension(Side::Right, "pit.far_space", (0.0, -pit.y.low), (0.0, -(fy.low + row))).chain("space y");
}

/// Anchor pattern from the setting-out point.
fn anchor_dimensions(job: &Job<'_>, d: &mut Draft) {
    let (foot, look) = (job.foot, Look::FromAbove);
    look.each(d, foot, Side::Above, &["base.anchor_up", "base.anchors_x"]);
    look.each(d, foot, Side::Right, &["base.anchors_y"]);
    for pad in &foot.base.pads {
        let at = look.point(pad.anchor);
        d.tag(at, foot.base.hole / 2.0 + 20.0, pad.name);
    }
    if let Some(pad) = foot.base.pads.iter().find(|p| p.x.middle() > 0.0 && p.y.middle() < 0.0) {
        d.leader(look.point(pad.anchor), job.tell("anchors {}, 4 per elevator, A to D see load table", &[foot.base.bolt]), Side::Right);
    }
}

fn way_down(job: &Job<'_>, d: &mut Draft, pit: &PitBody) {
    let way = &pit.way;
    let v = Extent::new(-way.y.high, -way.y.low);
    let half = way.clear_width / 2.0;
    let along_x = match (pit.access_side, pit.access) {
        (AccessSide::Near | AccessSide::Far, _) => true,
        (AccessSide::Up | AccessSide::Down, _) => false,
    };
    let words = job.say(if pit.access == Access::Ladder { "ladder, access side" } else { "stair, access side" });
    match pit.access {
        Access::Ladder => {
            // Stiles and the top rung, off the wall that it is fixed to.
            let off = section::LADDER_OFF;
            let (a, b) = match pit.access_side {
                AccessSide::Near => ((way.x.middle() - half, v.low + off - 25.0), (way.x.middle() + half, v.low + off + 25.0)),
                AccessSide::Far => ((way.x.middle() - half, v.high - off - 25.0), (way.x.middle() + half, v.high - off + 25.0)),
                AccessSide::Up => ((pit.x.high - off - 25.0, v.middle() - half), (pit.x.high - off + 25.0, v.middle() + half)),
                AccessSide::Down => ((pit.x.low + off - 25.0, v.middle() - half), (pit.x.low + off + 25.0, v.middle() + half)),
            };
            d.rectangle(Pen::Edge, a, b);
        }
        Access::Stair => {
            d.rectangle(Pen::Edge, (way.x.low, v.low), (way.x.high, v.high));
            let goings = way.steps.saturating_sub(1).max(1);
            for k in 1..goings {
                let share = f64::from(k) / f64::from(goings);
                if along_x {
                    let x = way.x.low + share * way.x.size();
                    d.line(Pen::FineEdge, (x, v.low), (x, v.high));
                } else {
                    let y = v.low + share * v.size();
                    d.line(Pen::FineEdge, (way.x.low, y), (way.x.high, y));
                }
            }
        }
    }
    let side = if way.x.middle() > 0.0 { Side::Right } else { Side::Left };
    d.leader((way.x.middle(), v.middle()), words, side);
}

/// The space in which the shaft is pulled out.
fn shaft_withdrawal(job: &Job<'_>, d: &mut Draft) {
    let r = &job.foot.rotating;
    let length = r.shaft_ends.size();
    let half = r.shaft_diameter;
    let (from, out) = if job.spec.pit.shaft_pull.value == Flank::Near { (r.shaft_ends.high, 1.0) } else { (r.shaft_ends.low, -1.0) };
    d.rectangle(Pen::Phantom, (-half, -from), (half, -(from + out * length)));
    d.leader((half, -(from + out * length * 0.8)), job.say("space for pulling the shaft"), Side::Right);
}

/// Where the anchors stand from the setting-out point.
fn anchors(job: &Job<'_>) -> Table {
    let mut t = Table::new("anchors", "ANCHORS")
        .column("Pad", Align::Left, 12.0)
        .column("x", Align::Right, 26.0)
        .column("y", Align::Right, 26.0)
        .column("Bolt", Align::Left, 20.0)
        .column("Hole", Align::Right, 20.0);
    for pad in &job.foot.base.pads {
        t.row([pad.name.to_string(), job.mm(pad.anchor.x), job.mm(pad.anchor.y), job.foot.base.bolt.to_string(), format!("⌀{}", job.mm(job.foot.base.hole))]);
    }
    t
}

fn holds_table(job: &Job<'_>) -> Table {
    let mut table = Table::new("holds", "HOLDS")
        .column("Hold", Align::Left, 52.0)
        .column("To be settled", Align::Left, 90.0)
        .column("Assumed", Align::Left, 24.0)
        .column("By", Align::Left, 26.0);
    for hold in holds(job.spec) {
        let key = if hold.path.is_empty() { "–" } else { hold.path };
        let assumed = if hold.assumed.is_empty() { "–".to_string() } else { hold.assumed };
        table.row([key.to_string(), job.say(hold.words), assumed, job.say(hold.who.word())]);
    }
    table
}

fn civil_notes(job: &Job<'_>, pit: &PitBody) -> Notes {
    let mut all = vec![
        job.say("Outline and loads only. Reinforcement, structure, foundation, waterproofing and shoring by the responsible engineer under local codes."),
        job.say("Levels from plant floor ±0.000 in metres (feet on US sheets); dimensions in the sheet's unit. Axes are the machine's centre lines."),
        job.say("HOLD: the value is assumed; settle it before construction."),
        job.say("Anchors: x from the foot shaft, + toward the up side; y from the belt's middle plane, + toward the near side."),
        job.say("Pit floor level under the foot, from there it falls to the sump. Pump, lighting and ventilation by others."),
    ];
    if job.spec.pit.cover.value {
        all.push(job.say("Opening covered flush with plant floor; every loose cover held against sliding and lifting."));
    }
    if job.spec.pit.rail.value {
        all.push(job.say("Guard rail with knee rail and toe board all round the opening, self-closing gate at the way down."));
    }
    if pit.elevators > 1 {
        all.push(job.tell("{} elevators in the pit, alike.", &[&pit.elevators.to_string()]));
    }
    all.extend(pit_tables::load_notes(job));
    all.extend(pit_tables::quantity_notes(job));
    let mut notes = Notes::numbered("notes", all);
    notes.width = 160.0;
    notes
}
