//! Bent and rolled plates: a flat pattern folded along lines square to its x.
//!
//! In: the pattern's region (outline, openings and holes as they are cut), bends in order along x, thickness. Out: the
//! body, in the frame of its first panel: x and y of the pattern, z from the back face to the marked face.
//! Panels stay plane, zones are true cylinders. In a zone edges may run along x (they become arcs) or across it;
//! arcs, round holes and slanted edges there are refused. A ring rolled to a full turn is a tube without a seam.

use super::Refusal;
use super::chaining::{Step, chained};
use super::maker::{Maker, against, ahead, back};
use super::strips::{ONE_PLACE, Strip, strips};
use super::turned::{Segment, turned};
use crate::geometry::Edge;
use crate::solid::brep::{Brep, Curve, FLAT, Frame, Surface, Use};
use crate::solid::plane::Loop;
use glam::DVec3;
use kurbo::{Line, Point};
use std::f64::consts::TAU;

pub use super::strips::Fold;

/// A bent plate; without bends a flat one.
///
/// # Errors
/// [`Refusal::InBend`] for what cannot be bent, [`Refusal::Ring`] for a full turn of anything but a rectangle as long as
/// the zone, [`Refusal::Disordered`] for bends that overlap, [`Refusal::NotPositive`] and [`Refusal::Empty`] for no plate.
pub fn folded(region: &[Loop], bends: &[Fold], thickness: f64) -> Result<Brep, Refusal> {
    if bends.is_empty() {
        return super::extrude(region, thickness, &FLAT);
    }
    if region.first().is_none_or(Vec::is_empty) {
        return Err(Refusal::Empty);
    }
    if thickness.is_nan() || thickness <= 0.0 {
        return Err(Refusal::NotPositive);
    }
    let strips = strips(bends, thickness)?;
    if let Some(full) = bends.iter().find(|b| b.angle > TAU - 1e-9) {
        return ring(region, full, &strips, thickness);
    }
    let mut plate = Plate { maker: Maker::default(), strips, thickness, corners: Vec::new(), pieces: Vec::new(), steps: Vec::new() };
    for edges in region {
        plate.outline(edges)?;
    }
    plate.creases();
    plate.faces()?;
    Ok(plate.maker.body)
}

/// A tube: a rectangle rolled until its ends meet.
fn ring(region: &[Loop], bend: &Fold, strips: &[Strip], thickness: f64) -> Result<Brep, Refusal> {
    let [outline] = region else { return Err(Refusal::Ring) };
    let lines: Vec<Line> = outline.iter().filter_map(|e| if let Edge::Straight(l) = e { Some(*l) } else { None }).collect();
    let square = lines.len() == 4 && outline.len() == 4 && lines.iter().all(|l| l.p0.x == l.p1.x || l.p0.y == l.p1.y);
    let ends = lines.iter().all(|l| [bend.start, bend.start + bend.flat_length].iter().any(|x| (l.p0.x - x).abs() < ONE_PLACE));
    let zone = strips.iter().find(|s| !s.is_flat() && (s.from - bend.start).abs() < ONE_PLACE);
    let (true, true, Some(zone)) = (square, ends, zone) else { return Err(Refusal::Ring) };
    let y = |pick: fn(f64, f64) -> f64| lines.iter().map(|l| l.p0.y).reduce(pick).unwrap_or_default();
    let (inner, outer) = (2.0 * bend.inside_radius, 2.0 * (bend.inside_radius + thickness));
    let (_, up) = zone.surface(0.0);
    // The seam lies where the ends meet.
    let x = if up { DVec3::Z } else { -DVec3::Z };
    turned(&[Segment::cylinder(y(f64::min), y(f64::max), outer, inner)], &Frame { origin: zone.axis(), axis: DVec3::Y, x })
}

/// A corner of the pattern, or a point where a bend line crosses its edge. Its vertices: twice its index on the back
/// face, one more on the marked face.
#[derive(Debug, Clone, Copy)]
struct Corner {
    at: Point,
    /// Bend line (the strip after it) that it lies on, and how many edges leave it to the left and to the right.
    line: Option<usize>,
    left: usize,
    right: usize,
}

/// A piece of an edge of the pattern within one strip.
#[derive(Debug, Clone, Copy)]
struct Piece {
    shape: Edge,
    from: usize,
    to: usize,
    strip: usize,
    /// Its edge on the back face; the next is that on the marked face.
    edge: usize,
}

struct Plate {
    maker: Maker,
    strips: Vec<Strip>,
    thickness: f64,
    corners: Vec<Corner>,
    pieces: Vec<Piece>,
    /// Of the marked faces, strip by strip.
    steps: Vec<(usize, Step)>,
}

impl Plate {
    fn strip(&self, i: usize) -> Result<Strip, Refusal> {
        self.strips.get(i).copied().ok_or(Refusal::Disordered)
    }
    /// The bend line that a place lies on, by the strip after it.
    fn line_at(&self, x: f64) -> Option<usize> {
        (1..self.strips.len()).find(|i| self.strips.get(*i).is_some_and(|s| (s.from - x).abs() < ONE_PLACE))
    }
    /// The strip that holds a place off the bend lines.
    fn strip_at(&self, x: f64) -> usize {
        self.strips.iter().position(|s| x < s.to).unwrap_or_default()
    }
    /// A point, moved onto the bend line that it all but lies on.
    fn snapped(&self, p: Point) -> Point {
        let line = self.line_at(p.x).and_then(|i| self.strips.get(i));
        Point::new(line.map_or(p.x, |s| s.from), p.y)
    }

    /// The corners, pieces and walls of one loop.
    fn outline(&mut self, edges: &[Edge]) -> Result<(), Refusal> {
        let first = self.corners.len();
        let begin = self.pieces.len();
        // Of each edge of the pattern: its first piece.
        let mut firsts = Vec::with_capacity(edges.len() + 1);
        for edge in edges {
            firsts.push(self.pieces.len());
            for (shape, strip) in self.cut(edge)? {
                let from = self.corner(shape.start(), strip)?;
                self.pieces.push(Piece { shape, from, to: from + 1, strip, edge: 0 });
            }
        }
        firsts.push(self.pieces.len());
        if let Some(last) = self.pieces.last_mut() {
            last.to = first;
        }
        for i in begin..self.pieces.len() {
            self.make(i)?;
        }
        let uprights: Vec<usize> = firsts
            .iter()
            .take(edges.len())
            .map(|i| {
                let corner = self.pieces.get(*i).map_or(first, |p| p.from);
                self.maker.line(2 * corner, 2 * corner + 1)
            })
            .collect();
        let spans = firsts.iter().zip(firsts.iter().skip(1)).zip(uprights.iter().zip(uprights.iter().cycle().skip(1)));
        for ((from, to), (start, end)) in spans {
            self.wall(*from..*to, *start, *end)?;
        }
        Ok(())
    }

    /// An edge cut at the bend lines: its pieces with their strips.
    fn cut(&self, edge: &Edge) -> Result<Vec<(Edge, usize)>, Refusal> {
        match *edge {
            Edge::Round { arc, .. } => {
                let (c, r) = (arc.center, arc.radii.x);
                let sides = [Point::new(c.x - r, c.y), Point::new(c.x + r, c.y)].into_iter().filter(|p| edge.is_full() || edge.passes(*p, ONE_PLACE));
                let (low, high) = sides.chain([edge.start(), edge.end()]).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), p| (a.min(p.x), b.max(p.x)));
                let whole = |s: &Strip| s.is_flat() && low > s.from - ONE_PLACE && high < s.to + ONE_PLACE;
                let strip = self.strips.iter().position(whole).ok_or(Refusal::InBend)?;
                Ok(vec![(*edge, strip)])
            }
            Edge::Straight(line) => {
                let (a, b) = (self.snapped(line.p0), self.snapped(line.p1));
                if a.x == b.x {
                    // On a bend line the material says which strip it bounds: it lies to the left.
                    let strip = self.line_at(a.x).map_or_else(|| self.strip_at(a.x), |i| if b.y > a.y { i - 1 } else { i });
                    return Ok(vec![(Edge::Straight(Line::new(a, b)), strip)]);
                }
                let (low, high) = (a.x.min(b.x), a.x.max(b.x));
                let mut places: Vec<f64> = self.strips.iter().map(|s| s.from).filter(|x| *x > low && *x < high).collect();
                if b.x < a.x {
                    places.reverse();
                }
                let level = (a.y - b.y).abs() < ONE_PLACE;
                let between = places.iter().map(|x| Point::new(*x, a.y)).chain([b]);
                let mut from = a;
                let mut out = Vec::with_capacity(places.len() + 1);
                for to in between {
                    let strip = self.strip_at(from.x.midpoint(to.x));
                    if !level && (!places.is_empty() || !self.strip(strip)?.is_flat()) {
                        return Err(Refusal::InBend);
                    }
                    out.push((Edge::Straight(Line::new(from, to)), strip));
                    from = to;
                }
                Ok(out)
            }
        }
    }

    /// A corner with its two vertices.
    fn corner(&mut self, at: Point, strip: usize) -> Result<usize, Refusal> {
        let sheet = self.strip(strip)?.sheet(at.x);
        self.maker.vertex(sheet.point(at));
        self.maker.vertex(sheet.lifted(self.thickness).point(at));
        self.corners.push(Corner { at, line: self.line_at(at.x), left: 0, right: 0 });
        Ok(self.corners.len() - 1)
    }

    /// The edges of a piece, and which side of the bend lines at its ends it lies on.
    fn make(&mut self, i: usize) -> Result<(), Refusal> {
        let Some(piece) = self.pieces.get(i).copied() else { return Ok(()) };
        let strip = self.strip(piece.strip)?;
        let (a, b) = (piece.shape.start(), piece.shape.end());
        let curve = |h: f64| match piece.shape {
            Edge::Straight(_) if a.x == b.x => Curve::Line,
            Edge::Straight(_) => strip.along(a.x, b.x, a.y, h),
            Edge::Round { .. } => strip.sheet(0.0).lifted(h).curve(&piece.shape),
        };
        let edge = self.maker.edge(2 * piece.from, 2 * piece.to, curve(0.0));
        let marked = self.maker.edge(2 * piece.from + 1, 2 * piece.to + 1, curve(self.thickness));
        if let Some(p) = self.pieces.get_mut(i) {
            p.edge = edge;
        }
        self.steps.push((piece.strip, Step { shape: piece.shape, from: piece.from, to: piece.to, used: ahead(marked) }));
        let upright = matches!(piece.shape, Edge::Straight(_)) && a.x == b.x;
        for end in [piece.from, piece.to] {
            if let Some(corner) = self.corners.get_mut(end)
                && let Some(line) = corner.line.filter(|_| !upright)
            {
                if piece.strip < line { corner.left += 1 } else { corner.right += 1 }
            }
        }
        Ok(())
    }

    /// The wall over one edge of the pattern.
    fn wall(&mut self, pieces: std::ops::Range<usize>, start: usize, end: usize) -> Result<(), Refusal> {
        let Some(pieces) = self.pieces.get(pieces) else { return Ok(()) };
        let Some(first) = pieces.first() else { return Ok(()) };
        let strip = self.strip(first.strip)?;
        let (surface, outward) = match first.shape {
            // A level edge stays in one plane through all bends.
            Edge::Straight(l) if l.p0.x != l.p1.x && (l.p0.y - l.p1.y).abs() < ONE_PLACE => {
                let axis = if l.p1.x > l.p0.x { -DVec3::Y } else { DVec3::Y };
                (Surface::Plane(Frame { origin: DVec3::Y * l.p0.y, axis, x: DVec3::X }), true)
            }
            shape => strip.sheet(shape.start().x).swept(&shape),
        };
        let marked: Vec<Use> = pieces.iter().map(|p| ahead(p.edge + 1)).collect();
        let bound = pieces.iter().map(|p| ahead(p.edge)).chain([ahead(end)]).chain(against(&marked)).chain([back(start)]).collect();
        self.maker.face(surface, outward, vec![bound]);
        Ok(())
    }

    /// The edges along the bend lines, where there is material on both sides.
    fn creases(&mut self) {
        for line in 1..self.strips.len() {
            let mut on: Vec<(f64, usize)> = self.corners.iter().enumerate().filter(|(_, c)| c.line == Some(line)).map(|(i, c)| (c.at.y, i)).collect();
            on.sort_by(|a, b| a.0.total_cmp(&b.0));
            let (mut left, mut right) = (false, false);
            for (a, b) in on.iter().zip(on.iter().skip(1)) {
                let Some(corner) = self.corners.get(a.1).copied() else { continue };
                left ^= corner.left % 2 == 1;
                right ^= corner.right % 2 == 1;
                if !(left && right) {
                    continue;
                }
                let to = self.corners.get(b.1).map_or(corner.at, |c| c.at);
                self.maker.line(2 * a.1, 2 * b.1);
                let marked = self.maker.line(2 * a.1 + 1, 2 * b.1 + 1);
                let up = Step { shape: Edge::Straight(Line::new(corner.at, to)), from: a.1, to: b.1, used: ahead(marked) };
                let down = Step { shape: up.shape.reversed(), from: b.1, to: a.1, used: back(marked) };
                self.steps.push((line - 1, up));
                self.steps.push((line, down));
            }
        }
    }

    /// The marked and the back faces, strip by strip.
    fn faces(&mut self) -> Result<(), Refusal> {
        for i in 0..self.strips.len() {
            let strip = self.strip(i)?;
            let steps = self.steps.iter().filter(|(s, _)| *s == i).map(|(_, step)| *step).collect();
            for loops in chained(steps, true)? {
                // The edge on the back face is the one before that on the marked face.
                let under = |l: &Vec<Use>| l.iter().rev().map(|u| Use { edge: u.edge - 1, forward: !u.forward }).collect();
                let backs = loops.iter().map(under).collect();
                let (marked, ahead) = strip.surface(self.thickness);
                self.maker.face(marked, ahead, loops);
                let (behind, ahead) = strip.surface(0.0);
                self.maker.face(behind, !ahead, backs);
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::check::check;
    use crate::solid::mass::mass;
    use std::f64::consts::{FRAC_PI_2, PI};

    fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Loop {
        Edge::chain(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|p| (Point::from(p), 0.0)), true)
    }

    /// Legs 44 + 44 of a plate 3 thick bent at a right angle, inside radius 3: outside size 50.
    #[test]
    fn a_right_angle_folds_where_it_should() {
        let flat = FRAC_PI_2 * 3.975;
        for up in [true, false] {
            let bend = Fold { start: 44.0, flat_length: flat, angle: FRAC_PI_2, up, inside_radius: 3.0 };
            let body = folded(&[rectangle(0.0, -10.0, 88.0 + flat, 10.0)], &[bend], 3.0).unwrap();
            assert_eq!(check(&body), vec![]);
            let m = mass(&body);
            // Two legs and a quarter of a tube.
            assert!((m.volume - 20.0 * (88.0 * 3.0 + PI / 4.0 * 27.0)).abs() < 1e-9);
            let furthest = body.vertices.iter().fold(DVec3::splat(f64::NEG_INFINITY), |a, v| a.max(*v));
            assert!((furthest.x - 50.0).abs() < 1e-9);
            let high = body.vertices.iter().map(|v| if up { v.z } else { 3.0 - v.z }).fold(f64::NEG_INFINITY, f64::max);
            assert!((high - 50.0).abs() < 1e-9);
            // Symmetrical about the bisector.
            let z = if up { m.centroid.z } else { 3.0 - m.centroid.z };
            assert!((z - (50.0 - m.centroid.x)).abs() < 1e-9);
            // Side walls stay whole: two marked or back faces a strip, four walls.
            assert_eq!(body.faces.len(), 10);
        }
    }

    /// An end plate of two bends, a notch with rounded corners at its foot and an opening and a hole in its last panel.
    #[test]
    fn an_end_plate_keeps_its_notch_opening_and_hole() {
        let turn = -(PI / 8.0).tan();
        let c = |x: f64, y: f64, b: f64| (Point::new(x, y), b);
        let (l1, l2) = (20.0, 25.0);
        let outline = Edge::chain(
            &[
                c(0.0, -100.0, 0.0),
                c(600.0, -100.0, 0.0),
                c(600.0, 100.0, 0.0),
                c(0.0, 100.0, 0.0),
                c(0.0, 40.0, 0.0),
                c(58.0, 40.0, turn),
                c(60.0, 38.0, 0.0),
                c(60.0, -38.0, turn),
                c(58.0, -40.0, 0.0),
                c(0.0, -40.0, 0.0),
            ],
            true,
        );
        let opening = crate::solid::plane::reversed(&rectangle(450.0, -50.0, 550.0, 50.0));
        let hole = vec![Edge::circle(Point::new(420.0, 70.0), 6.0).reversed()];
        let bends = [
            Fold { start: 150.0, flat_length: l1, angle: 0.4, up: false, inside_radius: 10.0 },
            Fold { start: 300.0, flat_length: l2, angle: 0.7, up: true, inside_radius: 10.0 },
        ];
        let body = folded(&[outline, opening, hole], &bends, 6.0).unwrap();
        assert_eq!(check(&body), vec![]);
        let flat = 200.0 * (600.0 - l1 - l2) - (80.0 * 60.0 - 2.0 * (1.0 - PI / 4.0) * 4.0) - 1e4 - PI * 36.0;
        let zones = 200.0 * (0.4 + 0.7) / 2.0 * (256.0 - 100.0);
        assert!((mass(&body).volume - 6.0 * flat - zones).abs() < 1e-7);
    }

    /// A rectangular opening across a bend line, and one within the zone.
    #[test]
    fn square_openings_across_and_within_a_zone_are_cut() {
        let bend = Fold { start: 100.0, flat_length: 100.0, angle: 1.0, up: false, inside_radius: 97.0 };
        let across = crate::solid::plane::reversed(&rectangle(90.0, 10.0, 110.0, 20.0));
        let within = crate::solid::plane::reversed(&rectangle(140.0, -20.0, 160.0, -10.0));
        let notch = Edge::chain(
            &[(0.0, -50.0), (300.0, -50.0), (300.0, 50.0), (200.0, 50.0), (200.0, 40.0), (170.0, 40.0), (170.0, 50.0), (0.0, 50.0)]
                .map(|p| (Point::from(p), 0.0)),
            true,
        );
        let body = folded(&[notch, across, within], &[bend], 6.0).unwrap();
        assert_eq!(check(&body), vec![]);
        let sector = (103.0_f64.powi(2) - 97.0_f64.powi(2)) / 2.0;
        let want = 6.0 * (200.0 * 100.0 - 100.0) + sector * (100.0 - 0.1 * 10.0 - 0.2 * 10.0 - 0.3 * 10.0);
        assert!((mass(&body).volume - want).abs() < 1e-7);
    }

    #[test]
    fn a_rolled_ring_is_a_tube_and_half_of_it_half_a_tube() {
        let length = TAU * 204.0;
        let full = Fold { start: 0.0, flat_length: length, angle: TAU, up: false, inside_radius: 200.0 };
        let body = folded(&[rectangle(0.0, -150.0, length, 150.0)], &[full], 8.0).unwrap();
        assert_eq!(check(&body), vec![]);
        let want = PI * (208.0 * 208.0 - 200.0 * 200.0) * 300.0;
        let m = mass(&body);
        assert!((m.volume - want).abs() < 1e-6 && (m.centroid - DVec3::new(0.0, 0.0, -200.0)).length() < 1e-9);
        assert!(body.vertices.iter().all(|v| v.x.abs() < 1e-9 && v.z > -1e-9), "the seam lies where the ends meet");
        let half = Fold { flat_length: length / 2.0, angle: PI, ..full };
        let body = folded(&[rectangle(0.0, -150.0, length / 2.0, 150.0)], &[half], 8.0).unwrap();
        assert_eq!(check(&body), vec![]);
        assert!((mass(&body).volume - want / 2.0).abs() < 1e-6);
        let slit = Fold { flat_length: length - 2.0, angle: TAU * (length - 2.0) / length, up: true, ..full };
        let body = folded(&[rectangle(0.0, -150.0, length - 2.0, 150.0)], &[slit], 8.0).unwrap();
        assert_eq!(check(&body), vec![]);
        assert!((mass(&body).volume - want * (length - 2.0) / length).abs() < 1e-6);
        assert_eq!(folded(&[rectangle(0.0, -150.0, length - 1.0, 150.0)], &[full], 8.0), Err(Refusal::Ring));
    }

    #[test]
    fn what_cannot_be_bent_is_refused() {
        let bend = Fold { start: 100.0, flat_length: 20.0, angle: 0.5, up: true, inside_radius: 6.0 };
        let plate = rectangle(0.0, 0.0, 300.0, 100.0);
        let hole = |x: f64| vec![Edge::circle(Point::new(x, 50.0), 10.0).reversed()];
        assert_eq!(folded(&[plate.clone(), hole(95.0)], &[bend], 6.0), Err(Refusal::InBend));
        assert_eq!(folded(&[plate.clone(), hole(110.0)], &[bend], 6.0), Err(Refusal::InBend));
        assert!(folded(&[plate.clone(), hole(90.0)], &[bend], 6.0).is_ok_and(|b| check(&b).is_empty()));
        let slanted = Edge::chain(&[(0.0, 0.0), (300.0, 0.0), (300.0, 100.0), (0.0, 80.0)].map(|p| (Point::from(p), 0.0)), true);
        assert_eq!(folded(&[slanted], &[bend], 6.0), Err(Refusal::InBend));
        assert_eq!(folded(&[plate], &[bend, bend], 6.0), Err(Refusal::Disordered));
    }
}
