//! The main elevation: the foot cut along the belt's middle plane, up side on the right.
//!
//! Cut plates are hatched; the take-up stands at its lowest, its highest position is phantom; what
//! lies in front of the cutting plane (near side) is phantom, what lies behind is drawn.

use super::Look;
use super::bodies::{BOLT_HOLES, Picture, Show};
use super::seen::Seen;
use crate::machine::moves::WITH_SHAFT;
use crate::model::Foot;
use crate::model::inlets::InletBody;
use crate::model::openings::Opening;
use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material as Hatch, Side};
use crate::sheets::Subject;
use crate::spec::openings::Wall;
use kurbo::Rect;

/// How far belt and trunking go on above the casing before they are broken off, mm.
pub fn broken_off(foot: &Foot) -> f64 {
    foot.casing.top + (foot.casing.top * 0.06).max(120.0)
}

/// Everything that is drawn, no dimensions; what is seen of each item.
pub fn machine(subject: &Subject<'_>, d: &mut Draft) -> Vec<Seen> {
    let foot = subject.foot;
    let all = Picture::new(subject.machine, Look::Elevation).within(Rect::new(-WIDE, -WIDE, WIDE, broken_off(foot))).without_holes(BOLT_HOLES);
    let seen = all.cut_at(0.0, 0.0, 0.0).draw_seen(d, |p| (!p.is_small() || p.of(ANCHOR)).then_some(Show::Seen));
    let pulleys = [Some(&foot.pulleys.foot), foot.pulleys.bend.as_ref()];
    pulleys.into_iter().flatten().for_each(|p| d.centre_cross(Look::Elevation.point(p.centre), p.radius()));
    before_the_cut(subject, &all, d);
    highest(foot, &all, d);
    for pad in foot.base.pads.iter().filter(|p| p.y.middle() < 0.0) {
        d.centre_line((pad.anchor.x, 0.0), (pad.anchor.x, foot.base.thickness));
    }
    trunking(d, foot);
    seen
}

/// What holds the foot to the floor: shown in the arrangement, where other bolts are left out.
pub const ANCHOR: &str = "foot.anchor";

/// Beyond every foot, mm.
const WIDE: f64 = 1e5;

/// What lies on the near side plate, in phantom line; an opening with a twin in the far one is seen there.
fn before_the_cut(subject: &Subject<'_>, all: &Picture<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let twin = |o: &Opening| foot.openings.iter().any(|other| other.wall == Wall::Far && other.across == o.across && other.up == o.up);
    let alone: Vec<&str> = foot.openings.iter().filter(|o| o.wall == Wall::Near && !twin(o)).map(|o| o.id.as_str()).collect();
    let pocket = foot.pocket.as_ref().is_some_and(|p| p.side == crate::spec::inlets::Side::Near);
    let mut each = |id: &str| all.phantom(0.0).draw(d, |p| (p.of(id) && !p.is_small()).then_some(Show::Seen));
    alone.iter().for_each(|id| each(id));
    if pocket {
        each("pocket");
    }
}

/// The highest position of the take-up.
fn highest(foot: &Foot, all: &Picture<'_>, d: &mut Draft) {
    all.phantom(foot.rotating.travel).draw(d, |p| (p.of_any(&WITH_SHAFT) || p.of("belt")).then_some(Show::Seen));
    d.centre_cross((foot.pulleys.foot.centre.x, foot.shaft_highest), foot.rotating.shaft_diameter);
}

/// Trunking above the foot, a neighbouring part: phantom stubs, broken off like the belt.
fn trunking(d: &mut Draft, foot: &Foot) {
    let (top, end) = (foot.casing.top, broken_off(foot));
    let t = foot.casing.plate;
    for opening in &foot.casing.trunk {
        for (x, out) in [(opening.x.low, -1.0), (opening.x.high, 1.0)] {
            d.line(Pen::Phantom, (x, top), (x, end));
            d.line(Pen::Phantom, (x + out * t, top), (x + out * t, end));
            d.polyline(Pen::Phantom, [(x, top + t), (x + out * (t + foot.casing.flange), top + t), (x + out * (t + foot.casing.flange), top)]);
        }
        break_line(d, opening.x.low - 60.0, opening.x.high + 60.0, end);
    }
}

/// A level break line with one zigzag.
pub fn break_line(d: &mut Draft, from: f64, to: f64, z: f64) {
    zigzag(d, [from, to], |along, off| (along, z + off));
}

/// An upright break line with one zigzag.
pub fn upright_break(d: &mut Draft, from: f64, to: f64, x: f64) {
    zigzag(d, [from, to], |along, off| (x + off, along));
}

/// A break line from end to end; `at` has the point so far along it and so far off it.
fn zigzag(d: &mut Draft, [from, to]: [f64; 2], at: impl Fn(f64, f64) -> (f64, f64)) {
    let middle = (from + to) / 2.0;
    let step = ((to - from) / 30.0).clamp(12.0, 40.0).min((to - from) / 8.0);
    let turns = [(from, 0.0), (middle - step, 0.0), (middle - step / 2.0, 2.0 * step), (middle + step / 2.0, -2.0 * step), (middle + step, 0.0), (to, 0.0)];
    d.polyline(Pen::FineEdge, turns.map(|(along, off)| at(along, off)));
}

/// Arrows of the material's way: down the throats, up the belt, round the foot.
pub fn flow(d: &mut Draft, foot: &Foot) {
    for inlet in &foot.inlets {
        let (from, to) = throat_axis(inlet);
        d.flow_arrow(from, to);
    }
    let x = foot.pulleys.foot.radius() - (foot.pulleys.foot.radius() * 0.18).max(40.0);
    let z = foot.shaft_highest + foot.pulleys.foot.radius() * 1.15;
    let end = (z + 300.0).min(foot.casing.top - 40.0);
    if end > z + 60.0 {
        d.flow_arrow((x, z), (x, end));
    }
}

/// The middle line of a throat, from the flange to the end plate.
pub fn throat_axis(inlet: &InletBody) -> (PlanePoint, PlanePoint) {
    let half = inlet.opening.size() / 2.0;
    (PlanePoint::new(inlet.flange_face, inlet.flange_sill + half), PlanePoint::new(inlet.outside, inlet.sill + half))
}

/// Heights, lengths and angles of the foot, each once.
pub fn dimensions(d: &mut Draft, foot: &Foot) {
    let look = Look::Elevation;
    look.chain(d, foot, Side::Right, "up", &["inlet.up.sill", "inlet.up.height"]);
    look.chain(d, foot, Side::Left, "shaft", &["foot.shaft.lowest", "take_up.travel"]);
    look.chain(d, foot, Side::Left, "down", &["inlet.down.sill", "inlet.down.height"]);
    look.each(d, foot, Side::Right, &["inlet.up.flange_sill", "inlet.up.from_height"]);
    look.each(d, foot, Side::Left, &["inlet.down.flange_sill", "inlet.down.from_height", "bend_pulley.height"]);
    look.chain(d, foot, Side::Left, "base", &["casing.feet"]);
    d.dimension(
        Side::Left,
        "casing.bottom_plate",
        (foot.casing.down_x(foot.casing.bottom_face), foot.casing.bottom_face - foot.casing.bottom_plate),
        (foot.casing.down_x(foot.casing.bottom_face), foot.casing.bottom_face),
    )
    .chain("base");
    if let Some(r) = look.dimension(d, foot, Side::Right, "casing.height") {
        r.overall();
    }
    look.chain(d, foot, Side::Below, "length", &["casing.down_length", "casing.up_length"]);
    if let Some(r) = look.dimension(d, foot, Side::Below, "casing.length") {
        r.overall().reference();
    }
    look.each(d, foot, Side::Below, &["inlet.up.reach", "inlet.down.reach"]);
    look.each(d, foot, Side::Above, &["trunk[1].length", "trunk[2].length", "belt.run_distance", "bend_pulley.offset"]);
    let p = &foot.pulleys.foot;
    d.diameter("foot_pulley.diameter", Look::Elevation.point(p.centre), p.radius()).prefer(Side::Left);
    if let Some(b) = &foot.pulleys.bend {
        d.diameter("bend_pulley.diameter", Look::Elevation.point(b.centre), b.radius()).prefer(Side::Right);
    }
    for inlet in &foot.inlets {
        slope(d, inlet);
    }
}

/// The slope of a throat's floor against the level.
fn slope(d: &mut Draft, inlet: &InletBody) {
    if inlet.slope_deg < 0.5 {
        return;
    }
    let out = inlet.side.outward();
    let corner = PlanePoint::new(inlet.outside, inlet.sill);
    let reach = (inlet.flange_face - inlet.outside).abs();
    let level = PlanePoint::new(corner.x + out * reach, corner.y);
    let floor = PlanePoint::new(inlet.flange_face, inlet.flange_sill);
    let (first, second) = if out > 0.0 { (level, floor) } else { (floor, level) };
    d.angle(format!("inlet.{}.slope", inlet.side.key()), corner, first, second);
}

/// The floor under the foot: a line with concrete under it.
pub fn ground(d: &mut Draft, from: f64, to: f64) {
    let deep = 60.0;
    d.hatch(Hatch::Concrete, vec![Shape::polygon([(from, 0.0), (to, 0.0), (to, -deep), (from, -deep)].map(|(x, y)| PlanePoint::new(x, y)))]);
    d.line(Pen::Concrete, (from, 0.0), (to, 0.0));
}
