//! Where two placed bodies touch: the edges of one that lie on faces of the other.
//!
//! In: bodies with their placements. Out: runs of points along the edges, in model space, each edge once; that is where a
//! fillet runs. Planes and cylinders are asked exactly; a cone is never touched. Gaps up to [`GAP`] count as touching.

use super::brep::{Brep, Curve, Surface};
use super::project::front::holds;
use super::project::shape::Shape;
use glam::{DAffine3, DVec2, DVec3};
use std::f64::consts::TAU;

/// Widest gap that a fillet bridges as if there were none, mm (ISO 5817 level C bridges 2 mm at most, from memory; plates drawn
/// to size stand closer).
pub const GAP: f64 = 1.6;
/// Distance of the points along an edge, mm.
const PITCH: f64 = 5.0;
/// Two points closer than this are one, mm.
const ONE: f64 = 0.5;

/// A body as it stands, ready to be asked.
#[derive(Debug)]
pub struct Standing<'a> {
    brep: &'a Brep,
    shape: Shape,
    at: DAffine3,
    back: DAffine3,
    faces: Vec<Bounds>,
    /// Least and greatest corner in the model.
    reach: (DVec3, DVec3),
}

/// Bounds of a plane face as polygons in its own plane; none for round faces.
type Bounds = Vec<Vec<DVec2>>;

/// Where an edge of one body lies on another.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Points along it, model mm; two of a straight one, close together along an arc.
    pub points: Vec<DVec3>,
}

impl Run {
    /// Its length, mm.
    pub fn length(&self) -> f64 {
        self.points.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
    }
}

impl<'a> Standing<'a> {
    /// Reads a body as it stands.
    pub fn new(brep: &'a Brep, at: DAffine3) -> Self {
        let shape = Shape::of(brep);
        let flat = |index: usize| {
            let face = brep.faces.get(index)?;
            let Surface::Plane(frame) = face.surface else { return None };
            let on = |p: DVec3| DVec2::new((p - frame.origin).dot(frame.x), (p - frame.origin).dot(frame.y()));
            let ring = |uses: &Vec<super::brep::Use>| {
                let each = uses.iter().flat_map(|used| {
                    let mut points = points(brep, &shape, used.edge, 2.0);
                    if !used.forward {
                        points.reverse();
                    }
                    points.pop();
                    points
                });
                each.map(on).collect::<Vec<DVec2>>()
            };
            Some(face.loops.iter().map(ring).collect())
        };
        let faces = (0..brep.faces.len()).map(|index| flat(index).unwrap_or_default()).collect();
        let all = (0..brep.edges.len()).flat_map(|edge| points(brep, &shape, edge, 50.0)).map(|p| at.transform_point3(p));
        let reach = all.fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), p| (low.min(p), high.max(p)));
        Self { brep, shape, at, back: at.inverse(), faces, reach }
    }

    fn near(&self, other: &Self) -> bool {
        let slack = DVec3::splat(GAP);
        (self.reach.0 - slack).cmple(other.reach.1).all() && (other.reach.0 - slack).cmple(self.reach.1).all()
    }

    /// Whether a point of the model lies on a face.
    fn holds(&self, at: DVec3) -> bool {
        let p = self.back.transform_point3(at);
        self.brep.faces.iter().enumerate().any(|(index, face)| self.on_face(p, index, &face.surface))
    }

    fn on_face(&self, p: DVec3, index: usize, surface: &Surface) -> bool {
        match surface {
            Surface::Plane(frame) => {
                let from = p - frame.origin;
                from.dot(frame.axis).abs() <= GAP
                    && self.faces.get(index).is_some_and(|rings| inside(rings, DVec2::new(from.dot(frame.x), from.dot(frame.y()))))
            }
            Surface::Cylinder(frame, radius) => {
                let from = p - frame.origin;
                let height = from.dot(frame.axis);
                let across = from - frame.axis * height;
                let angle = across.dot(frame.y()).atan2(across.dot(frame.x));
                let arcs = self.shape.arcs.get(index).map_or(&[][..], Vec::as_slice);
                let aside = ONE / radius.max(1.0);
                (across.length() - radius).abs() <= GAP
                    && [(0.0, -ONE), (0.0, ONE), (aside, 0.0), (-aside, 0.0)].iter().any(|(turn, up)| holds(arcs, angle + turn, height + up))
            }
            Surface::Cone(..) => false,
        }
    }

    /// Runs of this body's edges on another, each piece that is not there already; of a body with itself its closed joints.
    fn on(&self, other: &Self, out: &mut Vec<Run>) {
        let slack = DVec3::splat(GAP);
        let beside = |p: DVec3| (other.reach.0 - slack).cmple(p).all() && p.cmple(other.reach.1 + slack).all();
        for (edge, note) in self.shape.edges.iter().enumerate() {
            if note.seam || note.blank {
                continue;
            }
            let points: Vec<DVec3> = points(self.brep, &self.shape, edge, PITCH).into_iter().map(|p| self.at.transform_point3(p)).collect();
            let (low, high) = points.iter().fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), p| (low.min(*p), high.max(*p)));
            if !((other.reach.0 - slack).cmple(high).all() && (low - slack).cmple(other.reach.1).all()) {
                continue;
            }
            let straight = self.brep.edges.get(edge).is_some_and(|e| e.curve == Curve::Line);
            let known = out.len();
            let mut fresh = true;
            for pair in points.windows(2) {
                let middle = pair[0].midpoint(pair[1]);
                let there = |run: &Run| run.points.windows(2).any(|old| away(middle, old[0], old[1]) < ONE);
                if !beside(middle) || !other.holds(middle) || out[..known].iter().any(there) {
                    fresh = true;
                    continue;
                }
                match out.last_mut().filter(|_| !fresh) {
                    Some(run) if straight => run.points[1] = pair[1],
                    Some(run) => run.points.push(pair[1]),
                    None => out.push(Run { points: pair.to_vec() }),
                }
                fresh = false;
            }
        }
    }

    /// Where a plate that is rolled to a ring meets itself.
    fn closed(&self) -> Vec<Run> {
        let seams = self.shape.edges.iter().enumerate().filter(|(_, note)| note.seam);
        seams
            .map(|(edge, _)| Run { points: points(self.brep, &self.shape, edge, f64::MAX).into_iter().map(|p| self.at.transform_point3(p)).collect() })
            .collect()
    }
}

/// Distance of a point from a straight piece.
fn away(p: DVec3, a: DVec3, b: DVec3) -> f64 {
    let along = b - a;
    let share = ((p - a).dot(along) / along.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    p.distance(a + along * share)
}

/// Where two bodies touch; a body with itself where it is rolled to a ring and closed.
pub fn touch(one: &Standing<'_>, other: Option<&Standing<'_>>) -> Vec<Run> {
    let mut out = Vec::new();
    match other {
        Some(other) if one.near(other) => {
            one.on(other, &mut out);
            other.on(one, &mut out);
        }
        Some(_) => {}
        None => out = one.closed(),
    }
    out
}

/// Points along an edge in the body's own frame, no further apart than `pitch`.
fn points(brep: &Brep, shape: &Shape, edge: usize, pitch: f64) -> Vec<DVec3> {
    let (Some(used), Some(note)) = (brep.edges.get(edge), shape.edges.get(edge)) else { return Vec::new() };
    let corner = |index: usize| brep.vertices.get(index).copied().unwrap_or_default();
    match used.curve {
        Curve::Line => {
            let (a, b) = (corner(used.from), corner(used.to));
            let n = (a.distance(b) / pitch).ceil().clamp(1.0, 2000.0) as u32;
            (0..=n).map(|i| a.lerp(b, f64::from(i) / f64::from(n))).collect()
        }
        Curve::Circle(frame, radius) => {
            let n = (note.sweep * radius / pitch).ceil().max((note.sweep / TAU * 72.0).ceil()).clamp(2.0, 2000.0) as u32;
            let at = |i: u32| {
                let (sin, cos) = (note.start + note.sweep * f64::from(i) / f64::from(n)).sin_cos();
                frame.origin + (frame.x * cos + frame.y() * sin) * radius
            };
            (0..=n).map(at).collect()
        }
        Curve::Saddle(saddle) => {
            let n = (note.sweep * saddle.mill / pitch).ceil().clamp(36.0, 2000.0) as u32;
            (0..=n).map(|i| saddle.at(note.start + note.sweep * f64::from(i) / f64::from(n))).collect()
        }
    }
}

/// Whether a point lies inside rings by the even-odd rule, or on one of them.
fn inside(rings: &[Vec<DVec2>], p: DVec2) -> bool {
    let mut odd = false;
    for ring in rings {
        for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            if away(p.extend(0.0), a.extend(0.0), b.extend(0.0)) < ONE {
                return true;
            }
            if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) {
                odd = !odd;
            }
        }
    }
    odd
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge;
    use crate::solid::brep::FLAT;
    use crate::solid::build::extrude;
    use kurbo::Point;

    fn block(x: f64, y: f64, z: f64) -> Brep {
        let corners = [(0.0, 0.0), (x, 0.0), (x, y), (0.0, y)].map(|p| (Point::from(p), 0.0));
        extrude(&[Edge::chain(&corners, true)], z, &FLAT).unwrap()
    }

    fn total(runs: &[Run]) -> f64 {
        runs.iter().map(Run::length).sum()
    }

    #[test]
    fn a_rib_touches_along_its_foot_and_a_lifted_one_does_not() {
        let (plate, rib) = (block(400.0, 300.0, 10.0), block(100.0, 8.0, 60.0));
        let at = |z: f64| DAffine3::from_translation(DVec3::new(50.0, 100.0, z));
        let ground = Standing::new(&plate, DAffine3::IDENTITY);
        // Round its foot: 2 × (100 + 8).
        assert!((total(&touch(&ground, Some(&Standing::new(&rib, at(10.0))))) - 216.0).abs() < 1e-6);
        assert_eq!(touch(&ground, Some(&Standing::new(&rib, at(12.0)))), vec![]);
    }

    #[test]
    fn a_disc_touches_its_ring_at_both_faces() {
        let disc = extrude(&[vec![Edge::circle(Point::ZERO, 100.0)]], 10.0, &FLAT).unwrap();
        let ring = extrude(&[vec![Edge::circle(Point::ZERO, 108.0)], vec![Edge::circle(Point::ZERO, 100.0).reversed()]], 80.0, &FLAT).unwrap();
        let inside = Standing::new(&disc, DAffine3::from_translation(DVec3::new(0.0, 0.0, 30.0)));
        let found = total(&touch(&inside, Some(&Standing::new(&ring, DAffine3::IDENTITY))));
        assert!((found / (2.0 * TAU * 100.0) - 1.0).abs() < 2e-3, "{found}");
    }
}
