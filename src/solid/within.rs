//! Whether a point lies in a body, and how far from its skin.
//!
//! In: a body in its own frame. Out: answers for points of that frame, near a box that is chosen first, so that a plate with
//! a hundred holes is asked about one of them. A point counts as inside by the number of faces between it and a
//! place of which that is known. On the skin itself both answers are right: ask for the distance as well.

use super::brep::{Brep, Curve, Surface};
use super::project::front::{RoundFace, holds};
use super::project::path::Curve3;
use super::project::posed::curve;
use super::project::shape::{NONE, Shape};
use glam::{DAffine3, DVec2, DVec3};
use std::f64::consts::TAU;

/// How far beside a box faces are still asked, mm: distances up to this are exact.
pub(crate) const BESIDE: f64 = 2.0;
/// A direction that lies along nothing.
const ASKEW: DVec3 = DVec3::new(0.013_721, 0.007_193, 0.010_477);

/// A point is asked for a hair aside, so that it does not fall into the gap between two bounds that meet at its height.
const ASIDE: DVec2 = DVec2::new(2.9e-7, 3.7e-7);

/// A box along the axes of a frame, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// Least corner.
    pub low: DVec3,
    /// Greatest corner.
    pub high: DVec3,
}

impl Bounds {
    /// The smallest box round points.
    pub fn of(points: impl IntoIterator<Item = DVec3>) -> Self {
        let none = Self { low: DVec3::INFINITY, high: DVec3::NEG_INFINITY };
        points.into_iter().fold(none, |b, p| Self { low: b.low.min(p), high: b.high.max(p) })
    }
    /// The smallest box round boxes.
    pub fn round(boxes: impl IntoIterator<Item = Self>) -> Self {
        Self::of(boxes.into_iter().flat_map(|b| [b.low, b.high]))
    }
    /// Larger by so much on every side, mm.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self { low: self.low - by, high: self.high + by }
    }
    /// Whether both share a point.
    pub fn meets(&self, other: &Self) -> bool {
        let ([a, b], [c, d]) = ([&self.low, &self.high], [&other.low, &other.high]);
        a.x <= d.x && c.x <= b.x && a.y <= d.y && c.y <= b.y && a.z <= d.z && c.z <= b.z
    }
    /// Whether a point lies in it.
    pub fn holds(&self, p: DVec3) -> bool {
        let [a, b] = [&self.low, &self.high];
        a.x <= p.x && p.x <= b.x && a.y <= p.y && p.y <= b.y && a.z <= p.z && p.z <= b.z
    }
    /// What both have; empty boxes have a low corner above the high one.
    #[must_use]
    pub fn common(&self, other: &Self) -> Self {
        Self { low: self.low.max(other.low), high: self.high.min(other.high) }
    }
    /// The box round it in another frame.
    #[must_use]
    pub fn moved(&self, at: &DAffine3) -> Self {
        let (middle, half) = ((self.low + self.high) / 2.0, (self.high - self.low) / 2.0);
        let (centre, m) = (at.transform_point3(middle), at.matrix3);
        let reach = m.x_axis.abs() * half.x + m.y_axis.abs() * half.y + m.z_axis.abs() * half.z;
        Self { low: centre - reach, high: centre + reach }
    }
}

/// A piece of the bounds of a plane face, in its plane.
#[derive(Debug, Clone, Copy)]
enum Rim {
    Line(DVec2, DVec2),
    /// Centre, radius, first angle, how far it goes on from there counter-clockwise.
    Arc(DVec2, f64, f64, f64),
}

/// A use of an edge by a face.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Side {
    /// Which face.
    pub face: usize,
    /// Whether it runs along the edge.
    pub forward: bool,
}

/// A body ready to be asked.
#[derive(Debug)]
pub struct Within<'a> {
    pub(crate) brep: &'a Brep,
    shape: Shape,
    /// One for each edge, and its box.
    pub(crate) curves: Vec<Curve3>,
    pub(crate) curve_boxes: Vec<Bounds>,
    /// The faces at each edge; none at seams.
    pub(crate) sides: Vec<Vec<Side>>,
    /// A box for each face, and the bounds of the plane ones.
    pub(crate) face_boxes: Vec<Bounds>,
    rims: Vec<Vec<Rim>>,
    /// The box round all of it.
    pub reach: Bounds,
}

impl<'a> Within<'a> {
    /// Reads a body.
    pub fn new(brep: &'a Brep) -> Self {
        let shape = Shape::of(brep);
        let curves: Vec<Curve3> = brep.edges.iter().zip(&shape.edges).map(|(edge, note)| curve(edge, note, &brep.vertices, &DAffine3::IDENTITY)).collect();
        let curve_boxes: Vec<Bounds> = curves.iter().map(bounds).collect();
        let boxed = |face: &super::brep::Face| Bounds::round(face.loops.iter().flatten().filter_map(|used| curve_boxes.get(used.edge).copied()));
        let face_boxes: Vec<Bounds> = brep.faces.iter().map(boxed).collect();
        let mut sides: Vec<Vec<Side>> = vec![Vec::new(); brep.edges.len()];
        for (face, of) in brep.faces.iter().enumerate() {
            for used in of.loops.iter().flatten().filter(|used| shape.edges.get(used.edge).is_some_and(|note| !note.seam && note.faces[1] != NONE)) {
                if let Some(sides) = sides.get_mut(used.edge) {
                    sides.push(Side { face, forward: used.forward });
                }
            }
        }
        let rims = brep.faces.iter().map(|face| if let Surface::Plane(frame) = face.surface { rims(brep, &shape, face, &frame) } else { Vec::new() }).collect();
        let reach = Bounds::round(face_boxes.iter().copied());
        Self { brep, shape, curves, curve_boxes, sides, face_boxes, rims, reach }
    }

    /// How many faces it has.
    pub const fn faces(&self) -> usize {
        self.brep.faces.len()
    }

    /// A round face.
    pub(crate) fn round(&self, face: usize) -> Option<RoundFace<'_>> {
        let found = self.brep.faces.get(face)?;
        let (frame, radius, slope) = match found.surface {
            Surface::Plane(_) => return None,
            Surface::Cylinder(frame, radius) => (frame, radius, 0.0),
            Surface::Cone(frame, radius, slope) => (frame, radius, slope),
        };
        let outward = if found.outward { 1.0 } else { -1.0 };
        Some(RoundFace { origin: frame.origin, axes: [frame.axis, frame.x, frame.y()], radius, slope, outward, arcs: self.shape.arcs.get(face)? })
    }

    /// The outward normal of a face at a point on it.
    pub(crate) fn normal(&self, face: usize, at: DVec3) -> DVec3 {
        self.brep.faces.get(face).map_or(DVec3::ZERO, |f| super::project::shape::normal(f, at))
    }

    /// A point beside a round face put onto its surface.
    pub(crate) fn onto(&self, face: usize, p: DVec3) -> DVec3 {
        let Some(round) = self.round(face) else { return p };
        let (angle, height) = round.place(p);
        round.at(angle, height)
    }

    /// How often the way from one point to another passes through a face.
    fn passes(&self, face: usize, p: DVec3, q: DVec3) -> usize {
        if let Some(Surface::Plane(frame)) = self.brep.faces.get(face).map(|f| &f.surface) {
            let [over, under] = [p, q].map(|p| (p - frame.origin).dot(frame.axis));
            let through = (over > 0.0) != (under > 0.0) && self.on_plane(face, p + (q - p) * (over / (over - under)));
            return usize::from(through);
        }
        let Some(round) = self.round(face) else { return 0 };
        let on = |share: &f64| {
            let (angle, height) = round.place(p + (q - p) * *share);
            holds(round.arcs, angle, height)
        };
        crossings(&round, p, q).iter().flatten().filter(|share| (0.0..1.0).contains(*share)).filter(|share| on(share)).count()
    }

    /// Whether a point of a face's plane lies within its bounds.
    fn on_plane(&self, face: usize, p: DVec3) -> bool {
        let Some(Surface::Plane(frame)) = self.brep.faces.get(face).map(|f| &f.surface) else { return false };
        let from = p - frame.origin;
        let at = DVec2::new(from.dot(frame.x), from.dot(frame.y())) + ASIDE;
        self.rims.get(face).is_some_and(|rims| rims.iter().map(|rim| rim.beyond(at)).sum::<usize>() % 2 == 1)
    }

    /// Whether a point lies in the body.
    pub fn holds(&self, p: DVec3) -> bool {
        if !self.reach.holds(p) {
            return false;
        }
        // The shortest way out, a little askew so that it meets no edge.
        let size = (self.reach.high - self.reach.low).to_array();
        let shortest = (0..3).min_by(|a, b| size[*a].total_cmp(&size[*b])).unwrap_or(0);
        let way = (DVec3::AXES[shortest] + ASKEW) * (size[shortest] + 1.0);
        let path = Bounds::of([p, p + way]);
        let passed = (0..self.face_boxes.len()).filter(|face| self.face_boxes[*face].meets(&path)).map(|face| self.passes(face, p, p + way)).sum::<usize>();
        passed % 2 == 1
    }

    /// Ready to be asked in a box.
    pub fn near(&self, region: &Bounds) -> Near<'_> {
        let beside = region.grown(BESIDE);
        let those = |boxes: &[Bounds]| boxes.iter().enumerate().filter(|(_, b)| b.meets(&beside)).map(|(i, _)| i).collect::<Vec<_>>();
        let size = region.high - region.low;
        // No round share of the box, so that no edge lies on the way from a corner or a middle.
        let known = region.low + size * DVec3::new(0.437_193, 0.561_877, 0.482_311);
        Near { body: self, faces: those(&self.face_boxes), edges: those(&self.curve_boxes), known, inside: self.holds(known) }
    }

    /// Distance of a point from the skin, mm.
    pub fn depth(&self, p: DVec3) -> f64 {
        let (faces, edges): (Vec<usize>, Vec<usize>) = ((0..self.face_boxes.len()).collect(), (0..self.curves.len()).collect());
        self.off_skin(p, &faces, &edges, f64::INFINITY)
    }

    /// The same among some of its faces and edges, and not more than `most`.
    fn off_skin(&self, p: DVec3, faces: &[usize], edges: &[usize], most: f64) -> f64 {
        let mut least = most;
        for face in faces {
            least = least.min(self.over_face(*face, p, least));
        }
        for edge in edges {
            if let (Some(curve), Some(reach)) = (self.curves.get(*edge), self.curve_boxes.get(*edge))
                && reach.grown(least).holds(p)
            {
                least = least.min(from_curve(curve, p));
            }
        }
        least
    }

    /// Distance of a point from a face that it stands over; infinite beside it, or beyond `most`.
    fn over_face(&self, face: usize, p: DVec3, most: f64) -> f64 {
        if let Some(Surface::Plane(frame)) = self.brep.faces.get(face).map(|f| &f.surface) {
            let height = (p - frame.origin).dot(frame.axis);
            return if height.abs() < most && self.on_plane(face, p) { height.abs() } else { f64::INFINITY };
        }
        let Some(round) = self.round(face) else { return f64::INFINITY };
        let (angle, height) = round.place(p);
        let from = (p - round.origin - round.axes[0] * height).length();
        // Square to the cone's side.
        let steep = round.slope.hypot(1.0);
        let off = (from - round.radius - round.slope * height) / steep;
        let foot = height + off * round.slope / steep;
        if off.abs() < most && holds(round.arcs, angle, foot) { off.abs() } else { f64::INFINITY }
    }
}

/// A body, asked near a box.
#[derive(Debug)]
pub struct Near<'a> {
    pub(crate) body: &'a Within<'a>,
    /// The faces there.
    pub(crate) faces: Vec<usize>,
    edges: Vec<usize>,
    known: DVec3,
    inside: bool,
}

impl Near<'_> {
    /// Whether a point of the box lies in the body.
    pub fn holds(&self, p: DVec3) -> bool {
        let passed: usize = self.faces.iter().map(|face| self.body.passes(*face, p, self.known)).sum();
        self.inside != (passed % 2 == 1)
    }
    /// Distance of a point of the box from the skin, mm, as far as [`BESIDE`].
    pub fn depth(&self, p: DVec3) -> f64 {
        self.body.off_skin(p, &self.faces, &self.edges, BESIDE)
    }
    /// Whether nothing of the skin is there.
    pub const fn is_clear(&self) -> bool {
        self.faces.is_empty()
    }
    /// The same, and a point of it is in the body: all of the box is.
    pub const fn is_full(&self) -> bool {
        self.inside
    }
    /// The shares of a curve at which it passes the surfaces of the faces here, in order.
    pub(crate) fn cuts(&self, curve: &Curve3, out: &mut Vec<f64>) {
        out.clear();
        out.push(0.0);
        for face in &self.faces {
            match self.body.brep.faces.get(*face).map(|f| &f.surface) {
                Some(Surface::Plane(frame)) => curve.meets(frame.axis, frame.axis.dot(frame.origin), out),
                Some(_) => self.cuts_round(*face, curve, out),
                None => {}
            }
        }
        out.push(1.0);
        out.sort_by(f64::total_cmp);
        out.dedup_by(|a, b| *a - *b < 1e-9);
    }

    fn cuts_round(&self, face: usize, curve: &Curve3, out: &mut Vec<f64>) {
        let Some(round) = self.body.round(face) else { return };
        match *curve {
            Curve3::Line(a, b) => out.extend(crossings(&round, a, b).iter().flatten().filter(|share| (0.0..1.0).contains(*share))),
            // About the same axis it keeps its distance.
            Curve3::Round { centre, x, y, .. } if along(x.cross(y), round.axes[0]) && along(centre - round.origin, round.axes[0]) => {}
            // Beside the face it passes what is not there.
            Curve3::Round { .. } | Curve3::Saddle { .. } if self.body.face_boxes.get(face).is_some_and(|b| !b.meets(&bounds(curve))) => {}
            Curve3::Round { .. } | Curve3::Saddle { .. } => {
                let off = |p: DVec3| {
                    let height = (p - round.origin).dot(round.axes[0]);
                    (p - round.origin - round.axes[0] * height).length() - round.radius - round.slope * height
                };
                curve.passes(off, out);
            }
        }
    }
}

/// Whether a vector lies along a direction, to a hair.
fn along(v: DVec3, direction: DVec3) -> bool {
    v.cross(direction).length() <= 1e-6 * v.length().max(1.0)
}

/// The box round a curve.
fn bounds(curve: &Curve3) -> Bounds {
    let [x, y, z] = DVec3::AXES.map(|axis| curve.extent(axis));
    Bounds { low: DVec3::new(x.0, y.0, z.0), high: DVec3::new(x.1, y.1, z.1) }
}

/// The shares of the straight way from one point to another at which it passes a round surface.
pub(crate) fn crossings(round: &RoundFace<'_>, p: DVec3, q: DVec3) -> [Option<f64>; 2] {
    let axis = round.axes[0];
    let split = |v: DVec3| (v.dot(axis), v - axis * v.dot(axis));
    let ((h, w), (g, d)) = (split(p - round.origin), split(q - p));
    let (r, s) = (round.radius + round.slope * h, round.slope * g);
    let (a, b, c) = (d.length_squared() - s * s, w.dot(d) - r * s, w.length_squared() - r * r);
    let root = b * b - a * c;
    if root <= 0.0 {
        return [None; 2];
    }
    if a.abs() < 1e-12 * (d.length_squared() + g * g) {
        return [(b != 0.0).then(|| -c / (2.0 * b)), None];
    }
    // On the far side of a cone's tip there is none of it.
    let real = |share: f64| (r + s * share > 0.0).then_some(share);
    [real((-b - root.sqrt()) / a), real((-b + root.sqrt()) / a)]
}

/// Distance of a point from a straight piece, mm.
pub(crate) fn from_line(p: DVec3, [a, b]: [DVec3; 2]) -> f64 {
    let way = b - a;
    let share = ((p - a).dot(way) / way.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    p.distance(a + way * share)
}

/// Distance of a point from a curve, mm.
fn from_curve(curve: &Curve3, p: DVec3) -> f64 {
    match *curve {
        Curve3::Line(a, b) => from_line(p, [a, b]),
        Curve3::Round { centre, x, y, from, to } => {
            let angle = (p - centre).dot(y).atan2((p - centre).dot(x));
            let share = (angle - from).rem_euclid(TAU) / (to - from);
            if share <= 1.0 { p.distance(curve.at(share)) } else { p.distance(curve.at(0.0)).min(p.distance(curve.at(1.0))) }
        }
        Curve3::Saddle { .. } => curve.chords().into_iter().map(|(a, b)| from_line(p, [a, b])).fold(f64::INFINITY, f64::min),
    }
}

fn rims(brep: &Brep, shape: &Shape, face: &super::brep::Face, frame: &super::brep::Frame) -> Vec<Rim> {
    let flat = |p: DVec3| DVec2::new((p - frame.origin).dot(frame.x), (p - frame.origin).dot(frame.y()));
    let corner = |index: usize| brep.vertices.get(index).copied().unwrap_or_default();
    let mut out = Vec::new();
    for used in face.loops.iter().flatten() {
        let (Some(edge), Some(note)) = (brep.edges.get(used.edge), shape.edges.get(used.edge)) else { continue };
        match edge.curve {
            Curve::Line => out.push(Rim::Line(flat(corner(edge.from)), flat(corner(edge.to)))),
            Curve::Circle(own, radius) => {
                let centre = flat(own.origin);
                let first = flat(corner(if own.axis.dot(frame.axis) > 0.0 { edge.from } else { edge.to })) - centre;
                out.push(Rim::Arc(centre, radius, first.y.atan2(first.x), note.sweep));
            }
            // None lies in a plane.
            Curve::Saddle(_) => {}
        }
    }
    out
}

impl Rim {
    /// How often the way from a point toward x passes it.
    fn beyond(&self, p: DVec2) -> usize {
        match *self {
            Self::Line(a, b) => usize::from((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)),
            Self::Arc(centre, radius, from, sweep) => {
                let up = p.y - centre.y;
                if up.abs() >= radius || p.x > centre.x + radius {
                    return 0;
                }
                let half = (radius * radius - up * up).sqrt();
                let there = |x: f64| centre.x + x > p.x && (sweep >= TAU - 1e-9 || (up.atan2(x) - from).rem_euclid(TAU) < sweep);
                usize::from(there(half)) + usize::from(there(-half))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge;
    use crate::solid::brep::FLAT;
    use crate::solid::build::{Segment, extrude, turned};
    use kurbo::Point;

    /// A plate with a hole, and a cone: inside and depth by hand.
    #[test]
    fn points_and_their_depths() {
        let corners = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)].map(|p| (Point::from(p), 0.0));
        let plate = extrude(&[Edge::chain(&corners, true), vec![Edge::circle(Point::ZERO, 10.0).reversed()]], 8.0, &FLAT).unwrap();
        let body = Within::new(&plate);
        let cases = [([12.0, 0.0, 4.0], true, 2.0), ([0.0, 0.0, 4.0], false, 10.0), ([30.0, 20.0, 5.0], true, 3.0), ([49.0, 49.5, 4.0], true, 0.5)];
        for (p, inside, deep) in cases {
            let p = DVec3::from_array(p);
            assert_eq!(body.holds(p), inside, "{p}");
            assert!((body.depth(p) - deep).abs() < 1e-9, "{p} {}", body.depth(p));
            let near = body.near(&Bounds::of([p - 3.0, p + 3.0]));
            assert_eq!(near.holds(p), inside, "{p}");
            assert!((near.depth(p) - deep.min(BESIDE)).abs() < 1e-9, "{p}");
        }
        // At the height where an arc of the bounds ends and a line begins.
        let upright = [(10.0, -20.0, 0.0), (10.0, 20.0, 1.0), (-10.0, 20.0, 0.0), (-10.0, -20.0, 1.0)].map(|(x, y, b)| (Point::new(x, y), b));
        let hole: Vec<Edge> = Edge::chain(&upright, true).iter().rev().map(Edge::reversed).collect();
        let slot = extrude(&[Edge::chain(&corners, true), hole], 8.0, &FLAT).unwrap();
        for x in [-30.0, -12.0, 0.0, 12.0, 30.0] {
            let p = DVec3::new(x, 20.0, 0.0);
            assert_eq!(Within::new(&slot).depth(p) < 1e-6, x.abs() > 10.0, "{x}");
        }
        // Radius 20 at z = 0, 10 at z = 20.
        let cone = turned(&[Segment { from: 0.0, to: 20.0, diameters: [40.0, 20.0], bores: [0.0, 0.0] }], &FLAT).unwrap();
        let body = Within::new(&cone);
        let p = DVec3::new(0.0, 12.0, 10.0);
        assert!(body.holds(p) && !body.holds(DVec3::new(0.0, 16.0, 10.0)));
        // (15 − 12) across, the side leans by 1 in 2.
        assert!((body.depth(p) - 3.0 / 1.25_f64.sqrt()).abs() < 1e-9, "{}", body.depth(p));
    }
}
