//! What dimensions may end on: corners, tangents, centres and cut edges of the bodies that a view shows, in its own plane.

#![allow(clippy::unwrap_used)]

use super::pictures;
use footwell::geometry::point;
use footwell::machine::{Body, Machine};
use footwell::paper::request::{DimensionRequest, Quantity};
use footwell::paper::shown::{Shown, ShownPiece};
use footwell::paper::view::Draft;
use footwell::parts::flat::{Contour, FlatPattern};
use footwell::solid::Brep;
use footwell::solid::brep::Curve;
use footwell::solid::project::Stroke;
use glam::{DAffine3, DVec3};
use kurbo::{ParamCurve as _, Point};
use std::collections::BTreeMap;
use std::f64::consts::{PI, TAU};

/// How near an end must lie, mm.
pub const NEAR: f64 = 0.01;
/// How far a leg of an angle may turn from an edge, rad: counted as [`NEAR`].
const TURN: f64 = 1e-4;
/// Chord of an arc up to which it is measured as the corner of its tangents, mm, as on the sheets of plates.
const SHORT_ARC: f64 = 15.0;

/// What an end of a dimension stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum End {
    /// A corner, tangent, centre or cut edge of a body that the view shows.
    Body,
    /// Half way between two ends of one piece of a family, shown or not.
    Middle(&'static str),
    /// Somewhere between the two ends of a piece of a family.
    Within(&'static str),
    /// The level that the machine stands on.
    Base,
    /// As far from the axis of the foot pulley as the outermost corner of the body of a bucket that it carries.
    Tips,
    /// No body.
    Other,
}

/// What one piece has to end on.
#[derive(Debug, Default, Clone)]
struct Own {
    id: String,
    /// Corners, tangents and centres.
    points: Vec<Point>,
    /// Circles that face the viewer: centre and radius.
    circles: Vec<(Point, f64)>,
    /// Directions of straight edges, 0 to π.
    ways: Vec<f64>,
}

/// What is there to end on.
#[derive(Debug, Default)]
pub struct Ends {
    shown: Vec<Own>,
    /// Every piece of the machine from the same side, uncut.
    all: Vec<Own>,
    lifted: f64,
    /// Corners of a bucket's body: out from the belt and along it from the bucket's bolts, mm.
    bucket: Vec<[f64; 2]>,
}

impl Ends {
    /// Of all pictures of a draft.
    pub fn of_draft(draft: &Draft, machine: &Machine) -> Self {
        let bodies = pictures::by_id(machine);
        let bucket = bodies.get("bucket").map(|b| b.brep.vertices.iter().map(|v| [v.x, v.y]).collect()).unwrap_or_default();
        let mut out = Self { bucket, ..Self::default() };
        for shown in &draft.shown {
            out.shown.extend(picture(shown, &bodies).into_iter().map(|o| o.turned(shown)));
        }
        if let Some(first) = draft.shown.first() {
            out.lifted = first.lifted;
            let pieces = machine.bodies.iter().flat_map(|body| {
                body.places.iter().enumerate().map(|(place, p)| ShownPiece {
                    body: body.id.clone(),
                    place,
                    at: [p.right, p.up, p.toward, p.origin],
                    hidden: false,
                })
            });
            let all = Shown { cut: None, pieces: pieces.collect(), ..first.clone() };
            out.all = picture(&all, &bodies).into_iter().map(|o| o.turned(&all)).collect();
        }
        out
    }

    /// Of a flat plate's body, or of the pattern of a bent one, in the plane of the pattern.
    pub fn of_plate(flat: &FlatPattern, body: &Brep) -> Self {
        let mut own = Own::default();
        own.points.extend(flat.outer.corners(SHORT_ARC).iter().map(|c| point(c.at)));
        // What is scribed stands for the axes and for the bodies that are set there; it is held against them elsewhere.
        own.points.extend(flat.scribed.iter().flat_map(|s| [point(s.line.from), point(s.line.to)]));
        if flat.bends.is_empty() {
            own.body(body, &DAffine3::IDENTITY, [DVec3::X, DVec3::Y, DVec3::Z], &|_| true);
            return Self { shown: vec![own], ..Self::default() };
        }
        let holes = flat.holes.iter().map(|h| Contour::Circle { centre: h.at, diameter: h.diameter });
        for contour in flat.openings.iter().map(|o| o.contour.clone()).chain(holes).chain([flat.outer.clone()]) {
            if let Contour::Circle { centre, diameter } = contour {
                own.circles.push((point(centre), diameter / 2.0));
                own.points.push(point(centre));
            }
            let (low, high) = contour.bounds();
            own.points.extend([point(low), point(high)]);
        }
        own.points.extend(flat.bends.iter().flat_map(|b| [0.0, 0.5, 1.0].map(|s| Point::new(b.start + s * b.flat_length, 0.0))));
        Self { shown: vec![own], ..Self::default() }
    }

    fn family<'a>(&'a self, family: &'a str) -> impl Iterator<Item = &'a Own> {
        self.all.iter().filter(move |o| o.id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))
    }

    /// How far the ends of a dimension lie from what they are to stand on, in its direction, mm each.
    pub fn off(&self, d: &DimensionRequest, ends: [End; 2]) -> [f64; 2] {
        match d.quantity {
            Quantity::Linear { side, first, second } => {
                let along = |p: Point| if side.horizontal() { p.x } else { p.y };
                [(ends[0], first), (ends[1], second)].map(|(end, at)| self.linear(end, along(at.into()), along))
            }
            Quantity::Aligned { first, second } => [first, second].map(|p| least(self.shown.iter().flat_map(|o| &o.points).map(|q| q.distance(p.into())))),
            Quantity::Diameter { centre, radius } => [self.ring(ends[0], centre.into(), radius), 0.0],
            Quantity::Radius { centre, on } => [self.ring(ends[0], centre.into(), Point::from(centre).distance(on.into())), 0.0],
            Quantity::Angle { corner, first, second } => [(ends[0], first), (ends[1], second)].map(|(end, p)| {
                let way = (Point::from(p) - Point::from(corner)).atan2();
                let turn = |w: f64| ((way - w + PI / 2.0).rem_euclid(PI) - PI / 2.0).abs();
                let of: Vec<&Own> = match end {
                    End::Middle(family) => self.family(family).collect(),
                    End::Other => return 0.0,
                    _ => self.shown.iter().collect(),
                };
                // Level and upright need no edge.
                least(of.iter().flat_map(|o| &o.ways).copied().chain([0.0, PI / 2.0]).map(turn)) / TURN * NEAR
            }),
        }
    }

    fn linear(&self, end: End, at: f64, along: impl Fn(Point) -> f64 + Copy) -> f64 {
        match end {
            End::Body => least(self.shown.iter().flat_map(|o| &o.points).map(|p| (along(*p) - at).abs())),
            End::Middle(family) => least(self.family(family).map(|own| {
                let mut places: Vec<f64> = own.points.iter().map(|p| along(*p)).collect();
                places.sort_by(f64::total_cmp);
                // For each end the one that lies as far on the other side.
                least(places.iter().filter(|p| (**p - at).abs() > NEAR).map(|p| {
                    let k = places.partition_point(|q| *q < 2.0 * at - p);
                    least([k.checked_sub(1), Some(k)].into_iter().flatten().filter_map(|k| places.get(k)).map(|q| (q + p - 2.0 * at).abs() / 2.0))
                }))
            })),
            End::Within(family) => {
                let within = self.family(family).any(|own| {
                    let (low, high) = own.points.iter().map(|p| along(*p)).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| (a.min(p), b.max(p)));
                    low + NEAR < at && at < high - NEAR
                });
                if within { 0.0 } else { f64::INFINITY }
            }
            End::Base => (at - self.lifted).abs(),
            End::Tips => self.tips(|axis| (along(axis) - at).abs()),
            End::Other => 0.0,
        }
    }

    /// How far the outermost corner of the buckets is from the axis, but for a distance that is reckoned from there.
    fn tips(&self, asked: impl Fn(Point) -> f64) -> f64 {
        let Some((axis, _)) = self.family("shaft").find_map(|o| o.circles.first()).copied() else { return f64::INFINITY };
        let about = self.family("belt").flat_map(|o| &o.circles).filter(|(c, _)| c.distance(axis) < NEAR).map(|c| c.1);
        let outside = about.fold(0.0, f64::max);
        let tip = self.bucket.iter().map(|[u, w]| (outside + u).hypot(*w)).fold(0.0, f64::max);
        (asked(axis) - tip).abs()
    }

    fn ring(&self, end: End, centre: Point, radius: f64) -> f64 {
        match end {
            End::Middle(family) => least(self.family(family).map(|own| {
                let about: Vec<f64> = own.circles.iter().filter(|(c, _)| c.distance(centre) < NEAR).map(|(_, r)| *r).collect();
                least(about.iter().flat_map(|a| about.iter().filter(move |b| *b != a).map(move |b| (a + b) / 2.0)).map(|r| (r - radius).abs()))
            })),
            End::Tips => self.tips(|axis| radius + axis.distance(centre)),
            End::Other => 0.0,
            _ => least(self.shown.iter().flat_map(|o| &o.circles).map(|(c, r)| c.distance(centre) + (r - radius).abs())),
        }
    }
}

fn least(all: impl Iterator<Item = f64>) -> f64 {
    all.fold(f64::INFINITY, f64::min)
}

/// The pieces of a picture in its plane.
fn picture(shown: &Shown, bodies: &BTreeMap<&str, &Body>) -> Vec<Own> {
    let view = pictures::view(shown);
    let axes = [view.right, view.up, view.toward];
    let plane = pictures::plane(shown);
    let mut out = Vec::new();
    for piece in &shown.pieces {
        let body = bodies[piece.body.as_str()];
        let at = pictures::pose(piece);
        let whole = pictures::whole(shown, piece, body);
        // Of what is cut only what lies behind the plane; a whole body is there unless all of it lies before.
        let behind = |p: DVec3| plane.is_none_or(|plane| (p - plane.at).dot(plane.away) < 1e-3);
        let gone = whole && !body.brep.vertices.iter().any(|v| behind(at.transform_point3(*v)));
        let mut own = Own { id: piece.body.clone(), ..Own::default() };
        if !gone {
            own.body(&body.brep, &at, axes, &|p| whole || behind(p));
        }
        out.push(own);
    }
    if shown.cut.is_some() {
        for cut in pictures::lines(shown, bodies, false).cuts {
            cut.loops.iter().flatten().for_each(|s| out[cut.body].stroke(s));
        }
    }
    out
}

impl Own {
    /// Turned over and moved as the draft was.
    fn turned(mut self, shown: &Shown) -> Self {
        let side = if shown.over { -1.0 } else { 1.0 };
        let to = |p: Point| Point::new(side * p.x, p.y + shown.lifted);
        self.points.iter_mut().for_each(|p| *p = to(*p));
        self.circles.iter_mut().for_each(|(c, _)| *c = to(*c));
        self.ways.iter_mut().for_each(|w| *w = (side * *w).rem_euclid(PI));
        self
    }

    fn body(&mut self, brep: &Brep, at: &DAffine3, [right, up, toward]: [DVec3; 3], kept: &dyn Fn(DVec3) -> bool) {
        let flat = |p: DVec3| Point::new(p.dot(right), p.dot(up));
        let corners: Vec<DVec3> = brep.vertices.iter().map(|v| at.transform_point3(*v)).collect();
        self.points.extend(corners.iter().filter(|p| kept(**p)).map(|p| flat(*p)));
        for edge in &brep.edges {
            let Curve::Circle(frame, radius) = edge.curve else {
                let (from, to) = (corners[edge.from], corners[edge.to]);
                let way = flat(to) - flat(from);
                if way.hypot() > 1e-6 && (kept(from) || kept(to)) {
                    self.ways.push(way.atan2().rem_euclid(PI));
                }
                continue;
            };
            let centre = at.transform_point3(frame.origin);
            let (x, y) = (at.transform_vector3(frame.x) * radius, at.transform_vector3(frame.y()) * radius);
            let angle = |p: DVec3| (p - centre).dot(y).atan2((p - centre).dot(x));
            let start = angle(corners[edge.from]);
            let sweep = if edge.from == edge.to { TAU } else { (angle(corners[edge.to]) - start).rem_euclid(TAU) };
            let on = |a: f64| centre + x * a.cos() + y * a.sin();
            // Where the picture of the arc turns back in u and in v.
            for along in [right, up] {
                let first = y.dot(along).atan2(x.dot(along));
                let turns = [first, first + PI].into_iter().filter(|a| (a - start).rem_euclid(TAU) <= sweep + 1e-9);
                self.points.extend(turns.map(on).filter(|p| kept(*p)).map(flat));
            }
            if kept(on(start + sweep / 2.0)) {
                self.points.push(flat(centre));
                if at.transform_vector3(frame.axis).dot(toward).abs() > 1.0 - 1e-9 {
                    self.circles.push((flat(centre), radius));
                }
            }
        }
    }

    fn stroke(&mut self, stroke: &Stroke) {
        match stroke {
            Stroke::Line(l) => {
                self.points.extend([l.p0, l.p1]);
                self.ways.push((l.p1 - l.p0).atan2().rem_euclid(PI));
            }
            Stroke::Arc(a) => {
                self.points.extend([a.eval(0.0), a.eval(1.0)]);
                if (a.radii.x - a.radii.y).abs() < 1e-6 {
                    self.circles.push((a.center, a.radii.x));
                }
            }
        }
    }
}
