//! Plan of the pit: concrete, setting-out, service spaces, anchors, way down, feed openings, door leaves.
//!
//! Cut above the pit floor; near side at the bottom. What lies at plant floor over the cut is phantom.

use super::Subject;
use super::hold::dimension;
use super::pit_actions::hoisted;
use super::pit_tables::in_sheet_unit;
use super::views::{Look, pit_fittings, pit_machine, pit_section as section};
use crate::model::frame::{Extent, ModelPoint};
use crate::model::holds::feed_is_open;
use crate::model::inlets::FeedSide;
use crate::model::pit::{FeedOpening, PitBody, footprint};
use crate::model::pit_keep_clear::Use;
use crate::model::rotating::RotatingBody;
use crate::paper::mark::PlanePoint;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material, Side, rectangle};
use crate::say;
use crate::say::{name, size};
use crate::spec::pit::{Access, AccessSide};

/// Plan, cut above the pit floor.
pub fn from_above(subject: &Subject<'_>, pit: &PitBody) -> Draft {
    let foot = subject.foot;
    let look = Look::FromAbove;
    let mut d = Draft::new("plan", "PLAN");
    let v = Extent::new(-pit.y.high, -pit.y.low);
    let box_of = |x: Extent, v: Extent| rectangle(PlanePoint::new(x.low, v.low), PlanePoint::new(x.high, v.high));
    let (outer, inner) = (box_of(pit.x.grown(pit.wall), v.grown(pit.wall)), box_of(pit.x, v));
    let mut loops = vec![outer.clone(), inner.clone()];
    loops.extend(openings_in_walls(pit).into_iter().map(|(x, v)| box_of(x, v)));
    d.hatch(Material::Concrete, loops);
    d.stroke(Pen::Concrete, outer);
    d.stroke(Pen::Concrete, inner);
    if pit.toe > 0.0 {
        d.stroke(Pen::Hidden, box_of(pit.x.grown(pit.wall + pit.toe), v.grown(pit.wall + pit.toe)));
    }
    pit_machine::from_above(&mut d, subject);
    if let Some(s) = &pit.sump {
        let r = Extent::new(-s.y.high, -s.y.low);
        d.stroke(Pen::Edge, box_of(s.x, r));
        d.line(Pen::FineEdge, (s.x.low, r.low), (s.x.high, r.high));
        d.line(Pen::FineEdge, (s.x.low, r.high), (s.x.high, r.low));
        d.dimension(Side::Below, "pit.sump_from_wall_x", (pit.x.low, r.low), (s.x.low, r.low)).chain("wall");
        d.dimension(Side::Left, "pit.sump_from_wall_y", (s.x.low, r.high), (s.x.low, v.high)).chain("sump");
        d.leader(
            (s.x.high, r.middle()),
            subject.say(say!(
                "sump {size} × {size_2} × {depth} deep, floor falls to it",
                size = size(s.x.size(), 1),
                size_2 = size(s.y.size(), 1),
                depth = size(s.depth, 1)
            )),
            Side::Left,
        );
    }
    feed_openings(subject, &mut d, pit);
    way_down(subject, &mut d, pit);
    pit_fittings::from_above(&mut d, pit, subject.say("landing, to be kept free"));
    kept_clear(subject, &mut d, pit);
    d.origin((0.0, 0.0));
    d.leader((0.0, 0.0), subject.say("setting-out point: foot shaft axis × belt middle plane"), Side::Right);
    for i in &foot.inlets {
        let out = i.side.outward();
        d.flow_arrow((i.flange_face + out * 300.0, 0.0), (i.flange_face + out * 40.0, 0.0));
    }
    d.label((pit.x.high - 0.18 * (pit.x.high - foot.casing.up_face), v.low + 0.12 * v.size()), subject.say("up side"));
    if let Some(b) = subject.spec.pit.up_side_bearing.value {
        // The up side (+x) points to this bearing, clockwise from north: north lies that much counter-clockwise from +x.
        d.north(b.value());
    }
    for (chain, side, ids) in [("x", Side::Below, &["pit.x_down", "pit.x_up"][..]), ("y", Side::Left, &["pit.y_far", "pit.y_near"][..])] {
        for id in ids {
            dimension(subject, &mut d, look, side, Some(chain), id);
        }
    }
    dimension(subject, &mut d, look, Side::Below, None, "pit.length");
    dimension(subject, &mut d, look, Side::Left, None, "pit.width");
    dimension(subject, &mut d, look, Side::Below, Some("wall"), "pit.wall");
    spaces(subject, &mut d, pit);
    anchor_dimensions(subject, &mut d);
    let top = v.high + pit.wall;
    d.cutting_plane("A", (pit.x.low - pit.wall, 0.0), (pit.x.high + pit.wall, 0.0), Side::Above);
    d.cutting_plane("B", (0.0, v.low - pit.wall), (0.0, top), Side::Left);
    d
}

/// Clear service spaces from the outermost fixed part to the walls.
fn spaces(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    let foot = subject.foot;
    // A pocket or weight box that cannot be made is a defect of the cutting set, and not drawn.
    let made = |family: &str| subject.machine.bodies.iter().any(|b| b.id.starts_with(family));
    let pocket = foot.pocket.as_ref().filter(|_| made("pocket."));
    let rotating = RotatingBody { weight_box: foot.rotating.weight_box.filter(|_| made("weight_box.")), ..foot.rotating.clone() };
    let (fx, fy) = footprint(&foot.casing, &foot.inlets, pocket, &rotating);
    let row = pit_machine::rows(foot).last().copied().unwrap_or(0.0);
    d.dimension(Side::Above, "pit.down_space", (pit.x.low, 0.0), (fx.low, 0.0)).chain("space x");
    d.dimension(Side::Above, "pit.up_space", (fx.high, 0.0), (pit.x.high, 0.0)).chain("space x");
    d.dimension(Side::Right, "pit.near_space", (0.0, -fy.high), (0.0, -pit.y.high)).chain("space y");
    d.dimension(Side::Right, "pit.far_space", (0.0, -pit.y.low), (0.0, -(fy.low + row))).chain("space y");
}

/// Anchor pattern from the setting-out point.
fn anchor_dimensions(subject: &Subject<'_>, d: &mut Draft) {
    let (foot, look) = (subject.foot, Look::FromAbove);
    // On the line of the clear spaces, which end outside of the anchors.
    look.chain(d, foot, Side::Above, "space x", &["base.anchor_down", "base.anchor_up"]);
    look.each(d, foot, Side::Right, &["base.anchors_y"]);
    for (k, row) in pit_machine::rows(foot).into_iter().enumerate() {
        for pad in &foot.base.pads {
            let at = look.point(ModelPoint { y: pad.anchor.y + row, ..pad.anchor });
            d.tag(at, foot.base.hole / 2.0 + 20.0, if k == 0 { pad.name.to_string() } else { format!("{}{}", pad.name, k + 1) });
        }
        if k > 0 {
            d.leader((0.0, -row), subject.say(say!("axis of elevator {number}, alike", number = name(k + 1))), Side::Right);
        }
    }
    dimension(subject, d, look, Side::Left, Some("pitch"), "pit.pitch");
    if let Some(pad) = foot.base.pads.iter().find(|p| p.x.middle() > 0.0 && p.y.middle() < 0.0) {
        d.leader(look.point(pad.anchor), subject.say(say!("anchors {bolt}, 4 per elevator, A to D see load table", bolt = name(foot.base.bolt))), Side::Right);
    }
}

/// The openings of all elevators in the walls, along the machine and across it as drawn.
fn openings_in_walls(pit: &PitBody) -> Vec<(Extent, Extent)> {
    let of =
        |o: &FeedOpening| if o.side == FeedSide::Up { Extent::new(pit.x.high, pit.x.high + pit.wall) } else { Extent::new(pit.x.low - pit.wall, pit.x.low) };
    let rows = |k: u32| f64::from(k) * pit.pitch;
    pit.feed_openings.iter().flat_map(|o| (0..pit.elevators).map(move |k| (of(o), Extent::new(rows(k) - o.y.high, rows(k) - o.y.low)))).collect()
}

/// Where feeds pass the walls, one for each elevator.
fn feed_openings(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    for (x, v) in openings_in_walls(pit) {
        for at in [v.low, v.high] {
            d.line(Pen::Concrete, (x.low, at), (x.high, at));
        }
    }
    for o in &pit.feed_openings {
        let (side, to) = if o.side == FeedSide::Up { (Side::Right, pit.x.high + pit.wall) } else { (Side::Left, pit.x.low - pit.wall) };
        let r = d.dimension(side, format!("pit.feed_opening.{}.width", o.side.key()), (to, -o.y.high), (to, -o.y.low));
        if feed_is_open(subject.spec) {
            r.suffix(" HOLD");
        }
    }
}

fn way_down(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    let way = &pit.way;
    let v = Extent::new(-way.y.high, -way.y.low);
    let half = way.clear_width / 2.0;
    let along_x = match (pit.access_side, pit.access) {
        (AccessSide::Near | AccessSide::Far, _) => true,
        (AccessSide::Up | AccessSide::Down, _) => false,
    };
    let words = subject.say(if pit.access == Access::Ladder { "ladder, access side" } else { "stair, arrow up, access side" });
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
    if pit.access == Access::Stair {
        upward(d, pit, v);
    }
    let side = if way.x.middle() > 0.0 { Side::Right } else { Side::Left };
    d.leader((way.x.middle(), v.middle()), words, side);
}

/// The arrow that points up a stair, from its foot to its head.
fn upward(d: &mut Draft, pit: &PitBody, v: Extent) {
    let way = &pit.way;
    let (foot, head) = match pit.access_side {
        AccessSide::Near => ((way.x.high, v.middle()), (way.x.low, v.middle())),
        AccessSide::Far => ((way.x.low, v.middle()), (way.x.high, v.middle())),
        AccessSide::Up | AccessSide::Down => ((way.x.middle(), v.high), (way.x.middle(), v.low)),
    };
    let (run, rise) = (head.0 - foot.0, head.1 - foot.1);
    let length = run.hypot(rise).max(1.0);
    let (along, across) = ((run / length, rise / length), (-rise / length, run / length));
    // A head as long as a third of the stair is wide.
    let (back, half) = (way.clear_width / 3.0, way.clear_width / 8.0);
    let barb = |s: f64| (head.0 - back * along.0 + s * half * across.0, head.1 - back * along.1 + s * half * across.1);
    d.line(Pen::FineEdge, foot, head);
    d.polyline(Pen::FineEdge, [barb(1.0), head, barb(-1.0)]);
}

/// The spaces in which shafts are pulled and foot pulleys are rolled out and hoisted, of every elevator.
fn kept_clear(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    for space in &pit.keeps_clear {
        let v = Extent::new(-space.area.y.high, -space.area.y.low);
        if matches!(space.purpose, Use::Shaft | Use::Hoist) {
            d.rectangle(Pen::Phantom, (space.area.x.low, v.low), (space.area.x.high, v.high));
        }
        if space.purpose == Use::Hoist {
            d.line(Pen::Phantom, (space.area.x.low, v.low), (space.area.x.high, v.high));
            d.line(Pen::Phantom, (space.area.x.low, v.high), (space.area.x.high, v.low));
        }
    }
    let first = |purpose: Use| pit.keeps_clear.iter().find(|s| s.purpose == purpose);
    if let Some(s) = first(Use::Shaft) {
        d.leader((s.area.x.high, -(s.area.y.low + 0.2 * s.area.y.size())), subject.say("space for pulling the shaft"), Side::Right);
    }
    if let (Some(s), Some(kn)) = (first(Use::Hoist), hoisted(subject)) {
        let unit = in_sheet_unit(subject, kn, "kN");
        d.leader(
            (s.area.x.low, -(s.area.y.low + 0.75 * s.area.y.size())),
            subject.say(say!(
                "hoist for the foot pulley, {load} {unit}, hook {above} above plant floor, HOLD",
                load = name(subject.number(unit.0, 1)),
                unit = name(unit.1),
                above = size(s.z.high - pit.depth, 1)
            )),
            Side::Left,
        );
    }
}
