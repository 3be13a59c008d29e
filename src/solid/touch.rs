//! Where two placed bodies touch: the edges of one that lie on faces of the other.
//!
//! In: bodies with their placements. Out: runs of points along the edges, in model space, each edge once, with the direction
//! into the open: a fillet runs where there is a corner, a butt weld where faces are flush. Planes and cylinders are asked
//! exactly; a cone is never touched. Gaps up to [`GAP`] count as touching.

use super::brep::{Brep, Curve, Surface};
use super::project::front::holds;
use super::project::shape::{EdgeNote, Shape};
use glam::{DAffine3, DVec2, DVec3};
use std::f64::consts::TAU;

/// Widest gap that a fillet bridges as if there were none, mm (ISO 5817 level C bridges 2 mm at most, from memory; plates drawn
/// to size stand closer).
pub const GAP: f64 = 1.6;
/// Distance of the points along an edge, mm.
const PITCH: f64 = 5.0;
/// Distance of the points that stand for an arc at the edge of a face, mm; there are 72 round a circle or more.
const ROUGH: f64 = 10.0;
/// Two points closer than this are one, mm.
const ONE: f64 = 0.5;
/// Which way rays go that count faces: along no axis of a machine; unit length to 1e-4.
const RAY: DVec3 = DVec3::new(0.5377, 0.3179, 0.7809);
/// A corner is one that a seam fits in when both faces go on from it for so long, mm.
const ROOM: f64 = 3.0;
/// A face lies against another when the cosine between their normals is less than this: a plate cut square may lean on a wall.
const AGAINST: f64 = -0.3;
/// Its cosine where a plate leans so much that there is a notch behind the edge on which it stands: more than 20°.
const SQUARE: f64 = -0.94;
/// So far out of its corner a seam is laid, mm: where another body is, there is none.
const OUT: f64 = 2.0;
/// Directions whose cosine is greater than this go on from each other.
const SAME: f64 = 0.7;

/// A body as it stands, ready to be asked.
#[derive(Debug)]
pub struct Standing<'a> {
    brep: &'a Brep,
    shape: Shape,
    /// Whether it is a flat plate, as thick as it is high along its own z.
    plate: bool,
    at: DAffine3,
    back: DAffine3,
    faces: Vec<Bounds>,
    /// Least and greatest corner in the model.
    reach: (DVec3, DVec3),
}

/// Bounds of a plane face; none for round faces.
type Bounds = Vec<Ring>;

/// Where an edge of one body lies on another, or beside one of its edges.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Points along it, model mm; two of a straight one, close together along an arc.
    pub points: Vec<DVec3>,
    /// At each point the direction into the open, unit length: out of a corner half-way between its faces, elsewhere away from
    /// the face that the edge bounds.
    pub open: Vec<DVec3>,
    /// Whether the faces make a corner that a fillet fits in; else they are flush.
    pub corner: bool,
    /// Whether it is an end of a flat plate that stands on edge: along the plate's thickness.
    pub end: bool,
    /// Which of the two bodies the edge belongs to: the first or the second.
    pub of: usize,
}

impl Run {
    /// Its length, mm.
    pub fn length(&self) -> f64 {
        self.points.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
    }
}

impl<'a> Standing<'a> {
    /// Reads a body as it stands; `plate` says whether it is a flat plate.
    pub fn new(brep: &'a Brep, at: DAffine3, plate: bool) -> Self {
        let shape = Shape::of(brep);
        let flat = |index: usize| {
            let face = brep.faces.get(index)?;
            let Surface::Plane(frame) = face.surface else { return None };
            let on = |p: DVec3| DVec2::new((p - frame.origin).dot(frame.x), (p - frame.origin).dot(frame.y()));
            let ring = |uses: &Vec<super::brep::Use>| {
                let each = uses.iter().flat_map(|used| {
                    let mut points = points(brep, &shape, used.edge, ROUGH);
                    if !used.forward {
                        points.reverse();
                    }
                    points.pop();
                    points
                });
                Ring::new(each.map(on).collect())
            };
            Some(face.loops.iter().map(ring).collect())
        };
        let faces = (0..brep.faces.len()).map(|index| flat(index).unwrap_or_default()).collect();
        let all = (0..brep.edges.len()).flat_map(|edge| points(brep, &shape, edge, 50.0)).map(|p| at.transform_point3(p));
        let reach = all.fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), p| (low.min(p), high.max(p)));
        Self { brep, shape, plate, at, back: at.inverse(), faces, reach }
    }

    fn near(&self, other: &Self) -> bool {
        let slack = DVec3::splat(GAP);
        (self.reach.0 - slack).cmple(other.reach.1).all() && (other.reach.0 - slack).cmple(self.reach.1).all()
    }

    /// The faces that points of the model come near to: no others need be asked about them.
    fn facing(&self, points: &[DVec3]) -> Vec<usize> {
        let own: Vec<DVec3> = points.iter().map(|p| self.back.transform_point3(*p)).collect();
        let near = |surface: &Surface| match surface {
            Surface::Plane(frame) => {
                let off = |p: &DVec3| (*p - frame.origin).dot(frame.axis);
                own.iter().any(|p| off(p) <= GAP) && own.iter().any(|p| off(p) >= -GAP)
            }
            Surface::Cylinder(..) => true,
            Surface::Cone(..) => false,
        };
        self.brep.faces.iter().enumerate().filter(|(_, face)| near(&face.surface)).map(|(index, _)| index).collect()
    }

    /// The outward normal of a face at a point of the model.
    fn normal(&self, index: usize, at: DVec3) -> DVec3 {
        let Some(face) = self.brep.faces.get(index) else { return DVec3::ZERO };
        let out = match face.surface {
            Surface::Plane(frame) => frame.axis,
            Surface::Cylinder(frame, _) | Surface::Cone(frame, ..) => {
                let from = self.back.transform_point3(at) - frame.origin;
                (from - frame.axis * from.dot(frame.axis)).normalize_or_zero()
            }
        };
        self.at.transform_vector3(if face.outward { out } else { -out })
    }

    /// What opens at a point of an edge of this body that lies on a face of the other: the direction into the open, and whether
    /// there is a corner. None where it merely comes near.
    fn opening(&self, edge: [u32; 2], at: DVec3, other: &Self, facing: &[usize]) -> Option<(DVec3, bool)> {
        let place = other.back.transform_point3(at);
        let lies = |index: &&usize| other.brep.faces.get(**index).is_some_and(|face| other.on_face(place, **index, &face.surface));
        let [one, two] = edge.map(|face| self.normal(face as usize, at));
        // Of the edge's own faces one lies against the other body, the other looks into the open.
        let pressed = |index: &usize| {
            let normal = other.normal(*index, at);
            let (contact, free) = if one.dot(normal) < two.dot(normal) { (one, two) } else { (two, one) };
            (normal, contact, free)
        };
        let (normal, contact, free) = facing.iter().filter(lies).map(pressed).min_by(|a, b| a.0.dot(a.1).total_cmp(&b.0.dot(b.1)))?;
        if contact.dot(normal) > AGAINST {
            return None;
        }
        let corner = |face: DVec3| {
            let along = (face - normal * face.dot(normal)).normalize_or_zero();
            let beside = other.back.transform_point3(at + along * ROOM);
            let goes_on = |(index, face): (usize, &super::brep::Face)| {
                other.normal(index, at + along * ROOM).dot(normal) > SAME && other.on_face(beside, index, &face.surface)
            };
            let room = along != DVec3::ZERO && other.brep.faces.iter().enumerate().any(goes_on);
            room.then(|| (face + normal).normalize_or_zero())
        };
        // A plate that leans against the other leaves a notch behind the edge on which it stands.
        let leaning = contact.dot(normal) > SQUARE;
        let open = corner(free).or_else(|| leaning.then(|| corner(contact)).flatten());
        Some(open.map_or((free, false), |open| (open, true)))
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

    /// Whether a point of the model lies within the body, by the faces that a ray from it goes through; no cone is asked.
    pub fn encloses(&self, at: DVec3) -> bool {
        let p = self.back.transform_point3(at);
        let within = self.reach.0.cmple(at).all() && at.cmple(self.reach.1).all();
        within && self.brep.faces.iter().enumerate().map(|(index, face)| self.pierced(p, index, &face.surface)).sum::<usize>() % 2 == 1
    }

    /// How often the ray from a point of the body's own frame goes through a face.
    fn pierced(&self, p: DVec3, index: usize, surface: &Surface) -> usize {
        match surface {
            Surface::Plane(frame) => {
                let far = (frame.origin - p).dot(frame.axis) / RAY.dot(frame.axis);
                let from = p + RAY * far - frame.origin;
                let on = DVec2::new(from.dot(frame.x), from.dot(frame.y()));
                usize::from(far.is_finite() && far > 0.0 && self.faces.get(index).is_some_and(|rings| odd(rings, on)))
            }
            Surface::Cylinder(frame, radius) => {
                let across = |v: DVec3| v - frame.axis * v.dot(frame.axis);
                let (from, way) = (across(p - frame.origin), across(RAY));
                let (a, b, c) = (way.length_squared(), from.dot(way), from.length_squared() - radius * radius);
                let root = (b * b - a * c).sqrt();
                let arcs = self.shape.arcs.get(index).map_or(&[][..], Vec::as_slice);
                let hit = |far: &f64| {
                    let at = p + RAY * *far - frame.origin;
                    *far > 0.0 && holds(arcs, at.dot(frame.y()).atan2(at.dot(frame.x)), at.dot(frame.axis))
                };
                [(-b - root) / a, (-b + root) / a].iter().filter(|far| far.is_finite() && hit(far)).count()
            }
            Surface::Cone(..) => 0,
        }
    }

    /// Runs of this body's edges on another, each piece that is not there already; `of` numbers this body.
    fn on(&self, other: &Self, of: usize, filled: &dyn Fn(DVec3) -> bool, out: &mut Vec<Run>) {
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
            let ends = [points.first(), points.last()].map(|p| p.copied().unwrap_or_default());
            let facing = other.facing(if straight { &ends } else { &points });
            if facing.is_empty() {
                continue;
            }
            let thick = self.at.matrix3.z_axis;
            let end = self.plate && straight && (ends[1] - ends[0]).normalize_or_zero().dot(thick).abs() > 0.99;
            let known = out.len();
            let mut fresh = true;
            for pair in points.windows(2) {
                let middle = pair[0].midpoint(pair[1]);
                let there = |run: &Run| run.points.windows(2).any(|old| away(middle, old[0], old[1]) < ONE);
                let found = Some(middle).filter(|p| beside(*p)).and_then(|p| self.opening(note.faces, p, other, &facing));
                let laid = |(open, corner): &(DVec3, bool)| !*corner || !filled(middle + *open * OUT);
                let Some((open, corner)) = found.filter(|_| !out[..known].iter().any(there)).filter(laid) else {
                    fresh = true;
                    continue;
                };
                let goes_on = |run: &&mut Run| !fresh && run.corner == corner && run.open.last().is_some_and(|last| last.dot(open) > SAME);
                match out.last_mut().filter(goes_on) {
                    Some(run) if straight => (run.points[1], run.open[1]) = (pair[1], open),
                    Some(run) => {
                        run.points.push(pair[1]);
                        run.open.push(open);
                    }
                    None => out.push(Run { points: pair.to_vec(), open: vec![open; 2], corner, end, of }),
                }
                fresh = false;
            }
        }
    }

    /// Where a plate that is rolled to a ring meets itself.
    fn closed(&self) -> Vec<Run> {
        let seams = self.shape.edges.iter().enumerate().filter(|(_, note)| note.seam);
        let run = |(edge, note): (usize, &EdgeNote)| {
            let points: Vec<DVec3> = points(self.brep, &self.shape, edge, f64::MAX).into_iter().map(|p| self.at.transform_point3(p)).collect();
            let open = points.iter().map(|p| self.normal(note.faces[0] as usize, *p)).collect();
            Run { points, open, corner: false, end: false, of: 0 }
        };
        seams.map(run).collect()
    }
}

/// Distance of a point from a straight piece.
fn away(p: DVec3, a: DVec3, b: DVec3) -> f64 {
    let along = b - a;
    let share = ((p - a).dot(along) / along.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    p.distance(a + along * share)
}

/// Where two bodies touch; a body with itself where it is rolled to a ring and closed. `filled` says of points of the model
/// whether some body is there: no seam is laid into it.
pub fn touch(one: &Standing<'_>, other: Option<&Standing<'_>>, filled: &dyn Fn(DVec3) -> bool) -> Vec<Run> {
    let mut out = Vec::new();
    match other {
        Some(other) if one.near(other) => {
            one.on(other, 0, filled, &mut out);
            other.on(one, 1, filled, &mut out);
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

/// A ring round a face or round a hole in it, as a polygon in the face's own plane.
#[derive(Debug)]
struct Ring {
    points: Vec<DVec2>,
    low: DVec2,
    high: DVec2,
}

impl Ring {
    fn new(points: Vec<DVec2>) -> Self {
        let (low, high) = points.iter().fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), p| (low.min(*p), high.max(*p)));
        Self { points, low, high }
    }

    /// Whether a point lies no further outside its box than this.
    fn reaches(&self, p: DVec2, slack: f64) -> bool {
        (self.low - slack).cmple(p).all() && p.cmple(self.high + slack).all()
    }

    fn sides(&self) -> impl Iterator<Item = (DVec2, DVec2)> {
        let last = self.points.last().copied().zip(self.points.first().copied());
        self.points.windows(2).map(|pair| (pair[0], pair[1])).chain(last)
    }
}

/// Whether a point lies inside rings, or on one of them.
fn inside(rings: &[Ring], p: DVec2) -> bool {
    let beside = |a: DVec2, b: DVec2| (a.min(b) - ONE).cmple(p).all() && p.cmple(a.max(b) + ONE).all();
    let on = |(a, b): (DVec2, DVec2)| beside(a, b) && away(p.extend(0.0), a.extend(0.0), b.extend(0.0)) < ONE;
    rings.iter().any(|ring| ring.reaches(p, ONE) && ring.sides().any(on)) || odd(rings, p)
}

/// Whether a point lies inside rings by the even-odd rule.
fn odd(rings: &[Ring], p: DVec2) -> bool {
    let crossed = |(a, b): &(DVec2, DVec2)| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y);
    rings.iter().filter(|ring| ring.reaches(p, 0.0)).map(|ring| ring.sides().filter(crossed).count()).sum::<usize>() % 2 == 1
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

    const FREE: fn(DVec3) -> bool = |_| false;

    fn corners(runs: &[Run]) -> Vec<Run> {
        runs.iter().filter(|run| run.corner).cloned().collect()
    }

    #[test]
    fn a_rib_touches_along_its_foot_and_a_lifted_one_does_not() {
        let (plate, rib) = (block(400.0, 300.0, 10.0), block(100.0, 8.0, 60.0));
        let at = |z: f64| DAffine3::from_translation(DVec3::new(50.0, 100.0, z));
        let ground = Standing::new(&plate, DAffine3::IDENTITY, true);
        // Round its foot: 2 × (100 + 8), every corner open upward and outward.
        let found = touch(&ground, Some(&Standing::new(&rib, at(10.0), false)), &FREE);
        assert!((total(&found) - 216.0).abs() < 1e-6);
        assert!(found.iter().all(|run| run.corner && run.of == 1 && (run.open[0].z - 0.5_f64.sqrt()).abs() < 1e-9), "{found:?}");
        let out = found.iter().map(|run| (run.points[0].midpoint(run.points[1]) - DVec3::new(100.0, 104.0, 10.0)).dot(run.open[0]));
        assert!(out.into_iter().all(|by| by > 0.0));
        assert_eq!(touch(&ground, Some(&Standing::new(&rib, at(12.0), false)), &FREE), vec![]);
    }

    #[test]
    fn plates_flush_outside_have_their_corner_inside() {
        let (bottom, wall) = (block(400.0, 300.0, 10.0), block(400.0, 8.0, 60.0));
        let at = DAffine3::from_translation(DVec3::new(0.0, 0.0, 10.0));
        let found = touch(&Standing::new(&bottom, DAffine3::IDENTITY, true), Some(&Standing::new(&wall, at, false)), &FREE);
        let inside = corners(&found);
        assert_eq!(inside.len(), 1);
        assert!((total(&inside) - 400.0).abs() < 1e-6 && inside[0].points.iter().all(|p| p.y == 8.0), "{inside:?}");
        assert!((inside[0].open[0] - DVec3::new(0.0, 1.0, 1.0).normalize()).length() < 1e-9);
        // Outside, and at both ends, the faces are flush.
        // The ends, 8 long, are found to the pitch at which edges are asked.
        let flush = total(&found) - 2.0 * 400.0;
        assert!((2.0 * 8.0 - 1e-6..2.0 * 8.0 + PITCH).contains(&flush), "{flush}");
        assert!(found.iter().filter(|run| !run.corner && run.length() > 10.0).all(|run| run.open[0] == DVec3::NEG_Y), "{found:?}");
    }

    #[test]
    fn nothing_is_laid_into_a_third_body() {
        let (bottom, wall) = (block(400.0, 300.0, 10.0), block(400.0, 8.0, 60.0));
        let ground = Standing::new(&bottom, DAffine3::IDENTITY, true);
        let upright = Standing::new(&wall, DAffine3::from_translation(DVec3::new(0.0, 100.0, 10.0)), true);
        let gusset = block(20.0, 50.0, 50.0);
        let third = Standing::new(&gusset, DAffine3::from_translation(DVec3::new(100.0, 108.0, 10.0)), true);
        assert!(third.encloses(DVec3::new(110.0, 110.0, 12.0)) && !third.encloses(DVec3::new(110.0, 106.0, 12.0)));
        let found = touch(&ground, Some(&upright), &|p| third.encloses(p));
        let laid = total(&corners(&found));
        assert!((laid - 780.0).abs() < 1e-6, "{found:?}");
    }

    #[test]
    fn a_disc_touches_its_ring_at_both_faces() {
        let disc = extrude(&[vec![Edge::circle(Point::ZERO, 100.0)]], 10.0, &FLAT).unwrap();
        let ring = extrude(&[vec![Edge::circle(Point::ZERO, 108.0)], vec![Edge::circle(Point::ZERO, 100.0).reversed()]], 80.0, &FLAT).unwrap();
        let inside = Standing::new(&disc, DAffine3::from_translation(DVec3::new(0.0, 0.0, 30.0)), true);
        let found = touch(&inside, Some(&Standing::new(&ring, DAffine3::IDENTITY, true)), &FREE);
        assert!((total(&found) / (2.0 * TAU * 100.0) - 1.0).abs() < 2e-3);
        // Each opens away from its face and toward the axis.
        let inward = |p: &DVec3, open: &DVec3| open.dot(*p) < 0.0 && (open.z > 0.0) == (p.z > 35.0);
        assert!(found.iter().all(|run| run.corner && run.points.iter().zip(&run.open).all(|(p, open)| inward(p, open))));
    }
}
