//! An inlet throat as it is welded: cut lengthwise, and cut upright through its middle.
//!
//! Lengthwise in the plane of the elevation (x outward, z from the base), the end plate broken off above
//! and below. Thicknesses, bolts and weld sizes are those of the parts.

use super::bodies::{Picture, Piece, Show};
use super::{Look, elevation, signs};
use crate::model::inlets::{FeedSide, InletBody};
use crate::paper::mark::PlanePoint;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side, ViewScale};
use crate::parts;
use crate::parts::throats::Section;
use crate::say;
use crate::say::size;
use crate::sheets::Subject;
use crate::solid::project::View;
use glam::DVec3;
use kurbo::Rect;

/// Both sections of an inlet; `letter` names the upright one.
pub fn sections(subject: &Subject<'_>, inlet: &InletBody, letter: &str) -> [Draft; 2] {
    [lengthwise(subject, inlet, letter), upright(subject, inlet, letter)]
}

fn side_words(inlet: &InletBody) -> (&'static str, &'static str) {
    match inlet.side {
        FeedSide::Up => ("up", "INLET, UP SIDE, FROM SECTION A–A"),
        FeedSide::Down => ("down", "INLET, DOWN SIDE, FROM SECTION A–A"),
    }
}

/// Thickness of the throat's flange, as made.
fn flange_thickness(subject: &Subject<'_>, key: &str) -> f64 {
    let id = format!("throat.{key}.flange");
    subject.parts.items.iter().find(|p| p.id == id).map_or(subject.foot.casing.plate, |p| p.thickness)
}

/// The throat's seam with the end plate, or that of its own plates.
fn seam<'a>(subject: &Subject<'a>, key: &str, to_wall: bool) -> Option<&'a parts::Weld> {
    let throat = format!("throat.{key}");
    let mut own = subject.parts.welds.iter().filter(|w| w.fillet && w.of == throat);
    let joins_wall = |w: &&parts::Weld| w.joins.iter().flatten().any(|id| id.starts_with("end_plate"));
    own.find(|w| joins_wall(w) == to_wall)
}

/// Height of floor and roof (undersides of the clear way) at an x, and their slopes' tangents.
struct Way {
    root_floor: [f64; 2],
    root_roof: [f64; 2],
    /// x from where on there are both.
    outermost: f64,
    end: f64,
    low: f64,
    high: f64,
    outside: f64,
    out: f64,
    cut: Section,
}

impl Way {
    fn of(subject: &Subject<'_>, inlet: &InletBody, flange: f64) -> Self {
        let c = &subject.foot.casing;
        let out = inlet.side.outward();
        let wall = |z: f64| match inlet.side {
            FeedSide::Up => c.up_face + c.plate,
            FeedSide::Down => c.down_outer_x(z),
        };
        Self {
            root_floor: [inlet.outside, inlet.opening.low],
            root_roof: [inlet.outside, inlet.opening.high],
            outermost: [inlet.opening.low, inlet.opening.high]
                .map(wall)
                .into_iter()
                .reduce(if out > 0.0 { f64::max } else { f64::min })
                .unwrap_or(inlet.outside),
            end: inlet.flange_face - out * flange,
            low: inlet.flange_sill,
            high: inlet.flange_sill + inlet.opening.size(),
            outside: inlet.outside,
            out,
            cut: Section::of(subject.spec, subject.foot, inlet),
        }
    }

    /// Half-way from where both floor and roof have begun to where they end.
    fn middle(&self) -> f64 {
        f64::midpoint(self.outermost, self.end)
    }

    fn roof(&self, x: f64) -> f64 {
        self.cut.roof_at((x - self.outside) * self.out)
    }

    fn at(&self, from: [f64; 2], to: f64, face: f64, x: f64) -> f64 {
        from[1] + (to - from[1]) * (x - from[0]) / (face - from[0])
    }
}

fn lengthwise(subject: &Subject<'_>, inlet: &InletBody, letter: &str) -> Draft {
    let (key, title) = side_words(inlet);
    let c = &subject.foot.casing;
    let (t, tf, out) = (c.plate, flange_thickness(subject, key), inlet.side.outward());
    let way = Way::of(subject, inlet, tf);
    let mut d = Draft::new(format!("inlet.{key}.lengthwise"), title).at_scale(ViewScale::Within { width: 180.0, height: 185.0 });
    let (outer, inner) = if out > 0.0 { (Side::Right, Side::Left) } else { (Side::Left, Side::Right) };
    let margin = (inlet.opening.size() * 0.35).clamp(60.0, 150.0);
    let inside = |z: f64| match inlet.side {
        FeedSide::Up => c.up_face,
        FeedSide::Down => c.down_x(z),
    };
    let (low, high) = (inlet.opening.low - margin, (inlet.opening.high + margin).max(way.high + inlet.flange + 5.0));
    let deep = if out > 0.0 { inside(low).min(inside(high)) } else { inside(low).max(inside(high)) };
    let picture = Picture::new(subject.machine, Look::Elevation).cut_at(0.0, 0.0, 0.0);
    let (throat, end) = (format!("throat.{key}"), format!("end_plate.{key}"));
    let own = |p: &Piece<'_>| (p.of(&throat) || p.of(&end)).then_some(Show::Seen);
    picture.within(Rect::new(deep - out * 3.0, low, inlet.flange_face + out * 30.0, high).abs()).draw(&mut d, own);
    for z in [way.low - inlet.flange / 2.0, way.high + inlet.flange / 2.0] {
        d.centre_line((way.end - out * 4.0, z), (inlet.flange_face + out * 4.0, z));
    }
    let middle = way.middle();
    let (floor, roof) = (way.at(way.root_floor, way.low, inlet.flange_face, middle), way.roof(middle));
    d.cutting_plane(letter, (middle, floor - t), (middle, roof + t), inner);
    let tail = 0.18 * (inlet.flange_face - inlet.outside);
    let axis = |x: f64| (x, f64::midpoint(way.at(way.root_floor, way.low, inlet.flange_face, x), way.roof(x)));
    d.flow_arrow(axis(way.end - tail), axis(way.root_floor[0] + tail));
    let break_at = |d: &mut Draft, z: f64| {
        let x = inside(z) + out * t / 2.0;
        elevation::break_line(d, x - 20.0, x + 20.0, z);
    };
    break_at(&mut d, low);
    break_at(&mut d, high);
    signs::at_cut(subject, &mut d, &picture, seam(subject, key, true), (way.root_floor[0], way.root_floor[1] - t));
    d.leader(
        (middle * 0.4 + way.end * 0.6, way.at(way.root_floor, way.low, inlet.flange_face, middle * 0.4 + way.end * 0.6) - t / 2.0),
        subject.say(say!("floor and roof t = {t}", t = size(t, 1))),
        outer,
    );
    d.leader((inlet.flange_face, way.high + inlet.flange * 0.75), subject.say(say!("flange t = {tf}, bolts see plate", tf = size(tf, 1))), outer);
    d.dimension(inner, format!("inlet.{key}.height"), way.root_floor, way.root_roof).reference();
    d.dimension(outer, format!("inlet.{key}.flange_rise"), way.root_floor, (inlet.flange_face, way.low));
    d.dimension(outer, format!("inlet.{key}.flange_opening"), (inlet.flange_face, way.low), (inlet.flange_face, way.high)).chain("flange");
    d.dimension(outer, format!("inlet.{key}.flange"), (inlet.flange_face, way.high), (inlet.flange_face, way.high + inlet.flange)).chain("flange");
    d.dimension(Side::Below, format!("inlet.{key}.reach"), (inlet.outside, inlet.opening.low), (inlet.flange_face, way.low - inlet.flange)).reference();
    let floor_at = |x: f64| way.at(way.root_floor, way.low, inlet.flange_face, x);
    slope(&mut d, format!("inlet.{key}.floor_slope"), out, [way.root_floor[0], way.end], floor_at);
    slope(&mut d, format!("inlet.{key}.roof_slope"), out, [way.outermost, way.end], |x| way.roof(x));
    d
}

/// The angle of floor or roof against the level, from the wall (x of `ends[0]`) to the flange (x of `ends[1]`); `face` gives the height
/// of its inner face at an x.
fn slope(d: &mut Draft, path: String, out: f64, ends: [f64; 2], face: impl Fn(f64) -> f64) {
    let [corner, end] = ends.map(|x| PlanePoint::new(x, face(x)));
    let level = PlanePoint::new(end.x, corner.y);
    if (end.y - corner.y).abs() < 0.5 {
        return;
    }
    d.line(Pen::Centre, corner, level);
    let (first, second) = if out > 0.0 { (level, end) } else { (end, level) };
    d.angle(path, corner, first, second).decimals(1);
}

/// Upright section, seen in the way of the material.
fn upright(subject: &Subject<'_>, inlet: &InletBody, letter: &str) -> Draft {
    let (key, _) = side_words(inlet);
    let t = subject.foot.casing.plate;
    let slope = ((inlet.flange_sill - inlet.opening.low) / (inlet.flange_face - inlet.outside).abs()).atan();
    let w = inlet.width.size() / 2.0;
    let thick = t / slope.cos();
    let mut d = Draft::new(format!("inlet.{key}.upright"), say!("SECTION {letters}", letters = say::name(format!("{letter}–{letter}"))))
        .at_scale(ViewScale::Within { width: 110.0, height: 120.0 });
    let way = Way::of(subject, inlet, flange_thickness(subject, key));
    let middle = way.middle();
    let view = match inlet.side {
        FeedSide::Up => Look::FromUp.view(),
        FeedSide::Down => View { right: DVec3::Y, up: DVec3::Z, toward: DVec3::NEG_X },
    };
    let throat = format!("throat.{key}");
    let picture = Picture::toward(subject.machine, view).cut_at(middle, 0.0, 0.0);
    picture.draw(&mut d, |p| p.of(&throat).then_some(Show::Seen));
    let floor = way.at(way.root_floor, way.low, inlet.flange_face, middle);
    let roof = way.roof(middle);
    d.centre_line((0.0, floor - thick), (0.0, roof + thick));
    d.dimension(Side::Below, format!("inlet.{key}.width"), (-w, floor), (w, floor)).reference();
    d.dimension(Side::Left, format!("inlet.{key}.clear_height"), (-w, floor), (-w, roof));
    d.leader((w + t / 2.0, floor + (roof - floor) * 0.7), subject.say(say!("cheeks t = {t}", t = size(t, 1))), Side::Right);
    signs::at_cut(subject, &mut d, &picture, seam(subject, key, false), (w, floor - thick));
    d
}
