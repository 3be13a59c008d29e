//! An inlet throat as it is welded: cut lengthwise, and cut upright through its middle.
//!
//! Lengthwise in the plane of the elevation (x outward, z from the base), the end plate broken off above
//! and below. Thicknesses, bolts and weld sizes are those of the parts.

use super::elevation;
use crate::model::inlets::{FeedSide, InletBody};
use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material, Side, ViewScale, Weld, rectangle};
use crate::say;
use crate::say::size;
use crate::sheets::Subject;

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

/// The sign of the inlet's seams.
fn seam(subject: &Subject<'_>, key: &str, tail: String) -> Option<Weld> {
    subject.seam(&format!("throat.{key}"), tail)
}

fn cut(d: &mut Draft, material: Material, corners: Vec<PlanePoint>) {
    let shape = Shape::polygon(corners);
    d.hatch(material, vec![shape.clone()]);
    d.stroke(Pen::Edge, shape);
}

/// Height of floor and roof (undersides of the clear way) at an x, and their slopes' tangents.
struct Way {
    root_floor: [f64; 2],
    root_roof: [f64; 2],
    end: f64,
    low: f64,
    high: f64,
}

impl Way {
    fn of(subject: &Subject<'_>, inlet: &InletBody, flange: f64) -> Self {
        let c = &subject.foot.casing;
        let out = inlet.side.outward();
        let wall = |z: f64| match inlet.side {
            FeedSide::Up => c.up_face + c.plate,
            FeedSide::Down => c.down_x(z) - c.plate,
        };
        Self {
            root_floor: [wall(inlet.opening.low), inlet.opening.low],
            root_roof: [wall(inlet.opening.high), inlet.opening.high],
            end: inlet.flange_face - out * flange,
            low: inlet.flange_sill,
            high: inlet.flange_sill + inlet.opening.size(),
        }
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
    // The end plate above and below the opening.
    let inside = |z: f64| match inlet.side {
        FeedSide::Up => c.up_face,
        FeedSide::Down => c.down_x(z),
    };
    let margin = (inlet.opening.size() * 0.35).clamp(60.0, 150.0);
    for (a, b) in [(inlet.opening.low - margin, inlet.opening.low), (inlet.opening.high, inlet.opening.high + margin)] {
        let p = |x: f64, z: f64| PlanePoint::new(x, z);
        cut(&mut d, Material::Metal, vec![p(inside(a), a), p(inside(a) + out * t, a), p(inside(b) + out * t, b), p(inside(b), b)]);
    }
    // Floor and roof between wall and flange.
    for (root, target, sense) in [(way.root_floor, way.low, -1.0), (way.root_roof, way.high, 1.0)] {
        let z = |x: f64| way.at(root, target, inlet.flange_face, x);
        let slope = ((target - root[1]) / (inlet.flange_face - root[0])).atan();
        let thick = sense * t / slope.cos();
        let p = |x: f64, by: f64| PlanePoint::new(x, z(x) + by);
        cut(&mut d, Material::MetalOther, vec![p(root[0], 0.0), p(way.end, 0.0), p(way.end, thick), p(root[0], thick)]);
    }
    // The flange with its bolts.
    for (low, high) in [(way.low - inlet.flange, way.low), (way.high, way.high + inlet.flange)] {
        let s = rectangle((way.end, low).into(), (inlet.flange_face, high).into());
        d.hatch(Material::Metal, vec![s.clone()]);
        d.stroke(Pen::Edge, s);
        d.centre_line((way.end - out * 4.0, (low + high) / 2.0), (inlet.flange_face + out * 4.0, (low + high) / 2.0));
    }
    // Edges behind the cut.
    d.line(Pen::FineEdge, (inlet.flange_face, way.low), (inlet.flange_face, way.high));
    d.line(Pen::FineEdge, way.root_floor, way.root_roof);
    let middle = f64::midpoint(way.root_floor[0], way.end);
    let (floor, roof) = (way.at(way.root_floor, way.low, inlet.flange_face, middle), way.at(way.root_roof, way.high, inlet.flange_face, middle));
    d.cutting_plane(letter, (middle, floor - t), (middle, roof + t), inner);
    let tail = 0.18 * (inlet.flange_face - inlet.outside);
    let axis = |x: f64| (x, f64::midpoint(way.at(way.root_floor, way.low, inlet.flange_face, x), way.at(way.root_roof, way.high, inlet.flange_face, x)));
    d.flow_arrow(axis(way.end - tail), axis(way.root_floor[0] + tail));
    let break_at = |d: &mut Draft, z: f64| {
        let x = inside(z) + out * t / 2.0;
        elevation::break_line(d, x - 20.0, x + 20.0, z);
    };
    break_at(&mut d, inlet.opening.low - margin);
    break_at(&mut d, inlet.opening.high + margin);
    if let Some(weld) = seam(subject, key, subject.say("all seams, dust tight")) {
        d.weld((way.root_floor[0], way.root_floor[1] - t), weld, inner);
    }
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
    let level = PlanePoint::new(way.end, way.root_floor[1]);
    let up = PlanePoint::new(way.end, way.at(way.root_floor, way.low, inlet.flange_face, way.end));
    d.line(Pen::Centre, way.root_floor, level);
    let corner = way.root_floor;
    if out > 0.0 {
        d.angle(format!("inlet.{key}.floor_slope"), corner, level, up).decimals(1);
    } else {
        d.angle(format!("inlet.{key}.floor_slope"), corner, up, level).decimals(1);
    }
    d
}

/// Upright section, seen in the way of the material.
fn upright(subject: &Subject<'_>, inlet: &InletBody, letter: &str) -> Draft {
    let (key, _) = side_words(inlet);
    let t = subject.foot.casing.plate;
    let slope = ((inlet.flange_sill - inlet.opening.low) / (inlet.flange_face - inlet.outside).abs()).atan();
    let (w, h) = (inlet.width.size() / 2.0, inlet.opening.size());
    let thick = t / slope.cos();
    let mut d = Draft::new(format!("inlet.{key}.upright"), say!("SECTION {letters}", letters = say::name(format!("{letter}–{letter}"))))
        .at_scale(ViewScale::Within { width: 110.0, height: 120.0 });
    let mut plate = |material: Material, low: (f64, f64), high: (f64, f64)| {
        let s = rectangle(low.into(), high.into());
        d.hatch(material, vec![s.clone()]);
        d.stroke(Pen::Edge, s);
    };
    // Cheeks reach over floor and roof.
    plate(Material::Metal, (-w - t, -thick), (-w, h + thick));
    plate(Material::Metal, (w, -thick), (w + t, h + thick));
    plate(Material::MetalOther, (-w, -thick), (w, 0.0));
    plate(Material::MetalOther, (-w, h), (w, h + thick));
    d.centre_line((0.0, -thick), (0.0, h + thick));
    d.dimension(Side::Below, format!("inlet.{key}.width"), (-w, 0.0), (w, 0.0)).reference();
    d.dimension(Side::Left, format!("inlet.{key}.clear_height"), (-w, 0.0), (-w, h));
    d.leader((w + t / 2.0, h * 0.7), subject.say(say!("cheeks t = {t}", t = size(t, 1))), Side::Right);
    if let Some(weld) = seam(subject, key, subject.say("dust tight")) {
        d.weld((w, -thick), weld, Side::Right);
    }
    d
}
