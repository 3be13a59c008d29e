//! What two placed bodies share.
//!
//! In: two bodies with their placements. Out: whether some of the skin of one lies in the other, where, and how deep.
//! Every edge of one is cut where it passes the faces of the other; the middle of each piece decides. Where an
//! edge lies on the other's skin, points beside it decide: on both of its faces, and within its body. Round faces are asked
//! along the lines that lie nearest to or farthest from the faces of the other. Two bodies whose skins cross share an
//! edge piece, such a line, or a point beside an edge; one within the other has all of its edges there.

use super::brep::Surface;
use super::project::front::{RoundFace, holds};
use super::project::path::Curve3;
use super::within::{Bounds, Near, Within, from_line};
use glam::{DAffine3, DVec3};

/// What lies no deeper counts as touching, mm.
pub const TOUCH: f64 = 0.05;
/// Edges that run so near to each other are one, mm.
const SAME: f64 = 0.5;
/// How far an arc turns in one chord at most, degrees.
const CHORD: f64 = 5.0;
/// How far beside an edge that lies on the skin points are asked, mm.
const ASIDE: f64 = 0.5;

/// A body where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Stood<'a> {
    /// The body.
    pub body: &'a Within<'a>,
    /// Where it stands.
    pub at: DAffine3,
    /// From there to its own frame.
    back: DAffine3,
    /// The box round it.
    pub reach: Bounds,
}

/// What two bodies share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shared {
    /// How deep the deepest of the points found lies under the skin of the other body, mm.
    pub deep: f64,
    /// Where.
    pub at: DVec3,
    /// The box round the pieces found.
    pub reach: Bounds,
}

impl<'a> Stood<'a> {
    /// Stands a body.
    pub fn new(body: &'a Within<'a>, at: DAffine3) -> Self {
        Self { body, at, back: at.inverse(), reach: body.reach.moved(&at) }
    }
    /// The same moved by so much.
    #[must_use]
    pub fn moved(mut self, by: DVec3) -> Self {
        self.at.translation += by;
        self.back = self.at.inverse();
        self.reach = Bounds { low: self.reach.low + by, high: self.reach.high + by };
        self
    }
    /// Ready to be asked in a box of the model.
    pub fn spot(&self, around: &Bounds) -> Spot<'a> {
        Spot { near: self.body.near(&around.moved(&self.back)), back: self.back }
    }
    /// How it stands to another one, in ten-thousandths of a mm: two pairs of the same bodies that stand alike share alike.
    pub fn beside(&self, other: &Self) -> [i64; 12] {
        (other.back * self.at).to_cols_array().map(|c| (c * 1e4).round() as i64)
    }
    /// Whether a point lies in it.
    pub fn holds(&self, p: DVec3) -> bool {
        self.reach.holds(p) && self.body.holds(self.back.transform_point3(p))
    }
}

/// A body where it stands, asked in a small box.
#[derive(Debug)]
pub struct Spot<'a> {
    near: Near<'a>,
    back: DAffine3,
}

impl Spot<'_> {
    /// Whether a point of the box lies in the body.
    pub fn holds(&self, p: DVec3) -> bool {
        let own = self.back.transform_point3(p);
        self.near.body.reach.holds(own) && self.near.holds(own)
    }
    /// Distance of a point of the box from the body's skin, mm, as far as a seam bridges.
    pub fn depth(&self, p: DVec3) -> f64 {
        self.near.depth(self.back.transform_point3(p))
    }
}

/// What two bodies share, if it is more than a touch.
pub fn shared(one: &Stood<'_>, other: &Stood<'_>) -> Option<Shared> {
    let room = one.reach.common(&other.reach);
    if (room.high - room.low).min_element() <= TOUCH {
        return None;
    }
    let found = [sunk(one, other), sunk(other, one)];
    found.into_iter().flatten().reduce(|a, b| {
        let deeper = if b.deep > a.deep { b } else { a };
        Shared { reach: Bounds::round([a.reach, b.reach]), ..deeper }
    })
}

/// Where edges of one body lie on the other's skin, or of the other on the one's, up to a gap, in the model: straight pieces, chords
/// of arcs. Not longer gaps than [`super::within::BESIDE`].
pub fn touching(one: &Stood<'_>, other: &Stood<'_>, gap: f64) -> Vec<[DVec3; 2]> {
    let mut out = Vec::new();
    if one.reach.grown(gap).meets(&other.reach) {
        on_skin(one, other, gap, &mut out);
        on_skin(other, one, gap, &mut out);
    }
    out
}

/// Adds where edges of one lie on the skin of the other, but for what is there already.
fn on_skin(one: &Stood<'_>, other: &Stood<'_>, gap: f64, out: &mut Vec<[DVec3; 2]>) {
    let into = other.back * one.at;
    let region = one.body.reach.moved(&into).grown(gap).common(&other.body.reach.grown(gap));
    if (region.high - region.low).min_element() < 0.0 {
        return;
    }
    let near = other.body.near(&region);
    let here = region.moved(&into.inverse());
    let (known, mut cuts) = (out.len(), Vec::new());
    for (own, _) in one.body.curves.iter().zip(&one.body.curve_boxes).filter(|(_, reach)| reach.meets(&here)) {
        let curve = moved(own, &into);
        near.cuts(&curve, &mut cuts);
        for pair in cuts.windows(2) {
            let middle = curve.at(pair[0].midpoint(pair[1]));
            if !region.holds(middle) || near.depth(middle) > gap {
                continue;
            }
            let at = other.at.transform_point3(middle);
            let there = |old: &[DVec3; 2]| from_line(at, *old) < SAME;
            if !out[..known].iter().any(there) {
                let piece = curve.part(pair[0], pair[1]);
                out.extend(chords(&piece).into_iter().map(|piece| piece.map(|p| other.at.transform_point3(p))));
            }
        }
    }
}

/// A curve as straight pieces; arcs turn by 5° at most in one.
fn chords(curve: &Curve3) -> Vec<[DVec3; 2]> {
    let count = match *curve {
        Curve3::Line(..) => 1,
        Curve3::Round { from, to, .. } | Curve3::Saddle { from, to, .. } => ((to - from).to_degrees() / CHORD).ceil().max(1.0) as u32,
    };
    let at = |i: u32| curve.at(f64::from(i) / f64::from(count));
    (0..count).map(|i| [at(i), at(i + 1)]).collect()
}

/// What of the skin of one lies in the other.
fn sunk(one: &Stood<'_>, other: &Stood<'_>) -> Option<Shared> {
    let into = other.back * one.at;
    let region = one.body.reach.moved(&into).common(&other.body.reach);
    if (region.high - region.low).min_element() <= TOUCH {
        return None;
    }
    let near = other.body.near(&region);
    if near.is_clear() && !near.is_full() {
        return None;
    }
    let back = into.inverse();
    let here = region.moved(&back).grown(TOUCH);
    let mut search = Search { one: one.body, near, into, region: region.grown(1e-6), found: Vec::new(), cuts: Vec::new() };
    for (edge, reach) in one.body.curve_boxes.iter().enumerate() {
        if reach.meets(&here) {
            search.edge(edge);
        }
    }
    search.round_faces(&here, &back);
    let found = search.found;
    let depths = found.iter().map(|p| other.body.depth(*p));
    let (at, deep) = found.iter().zip(depths).max_by(|a, b| a.1.total_cmp(&b.1))?;
    let model = |p: DVec3| other.at.transform_point3(p);
    Some(Shared { deep, at: model(*at), reach: Bounds::of(found.iter().map(|p| model(*p))) })
}

/// One body looked for in the other, in the other's frame.
struct Search<'a> {
    one: &'a Within<'a>,
    near: Near<'a>,
    into: DAffine3,
    region: Bounds,
    found: Vec<DVec3>,
    cuts: Vec<f64>,
}

impl Search<'_> {
    /// Whether a point lies in the other body, deeper than a touch.
    fn holds(&self, p: DVec3) -> bool {
        self.region.holds(p) && self.near.holds(p) && self.near.depth(p) > TOUCH
    }

    /// Asks an edge of the one.
    fn edge(&mut self, edge: usize) {
        let one = self.one;
        let Some(own) = one.curves.get(edge) else { return };
        let curve = moved(own, &self.into);
        self.along(&curve, |search, share, middle| {
            if search.near.depth(middle) <= TOUCH {
                search.beside(edge, own.at(share), slope_at(own, share));
            }
        });
    }

    /// Cuts a curve at the other's faces; takes the pieces that lie in it and tells of the others that lie near it.
    fn along(&mut self, curve: &Curve3, mut outside: impl FnMut(&mut Self, f64, DVec3)) {
        let mut cuts = std::mem::take(&mut self.cuts);
        self.near.cuts(curve, &mut cuts);
        for pair in cuts.windows(2) {
            let share = pair[0].midpoint(pair[1]);
            let middle = curve.at(share);
            if !self.region.grown(TOUCH).holds(middle) {
                continue;
            }
            if self.holds(middle) {
                self.found.push(middle);
            } else {
                outside(self, share, middle);
            }
        }
        self.cuts = cuts;
    }

    /// Asks points beside an edge: on its faces, and in its body between them.
    fn beside(&mut self, edge: usize, at: DVec3, way: DVec3) {
        let one = self.one;
        let Some(sides) = one.sides.get(edge) else { return };
        let mut inward = DVec3::ZERO;
        for side in sides {
            let normal = one.normal(side.face, at);
            inward -= normal;
            let aside = normal.cross(if side.forward { way } else { -way });
            let p = self.into.transform_point3(one.onto(side.face, at + aside * ASIDE));
            if self.holds(p) {
                self.found.push(p);
            }
        }
        let p = self.into.transform_point3(at + inward.normalize_or_zero() * ASIDE);
        if inward != DVec3::ZERO && self.holds(p) {
            self.found.push(p);
        }
    }

    /// Asks the round faces of the one that lie in a box of its own frame.
    fn round_faces(&mut self, here: &Bounds, back: &DAffine3) {
        let one = self.one;
        for (face, reach) in one.face_boxes.iter().enumerate() {
            let Some(round) = one.round(face).filter(|_| reach.meets(here)) else { continue };
            let mut angles: Vec<f64> = Vec::new();
            for other in &self.near.faces {
                toward(&round, self.near.body, *other, back, &mut angles);
            }
            angles.sort_by(f64::total_cmp);
            angles.dedup_by(|a, b| *a - *b < 1e-6);
            for angle in angles {
                for (low, high) in spans(&round, angle) {
                    let line = Curve3::Line(round.at(angle, low), round.at(angle, high));
                    self.along(&moved(&line, &self.into), |_, _, _| {});
                }
            }
        }
    }
}

/// The angles of a round face at which it comes nearest to or farthest from a face of another body.
fn toward(round: &RoundFace<'_>, body: &Within<'_>, face: usize, back: &DAffine3, out: &mut Vec<f64>) {
    let mut push = |way: DVec3| {
        let (x, y) = (way.dot(round.axes[1]), way.dot(round.axes[2]));
        if x.hypot(y) > 1e-9 * way.length() {
            out.extend([y.atan2(x), (-y).atan2(-x)]);
        }
    };
    match body.brep.faces.get(face).map(|f| &f.surface) {
        Some(Surface::Plane(frame)) => push(back.transform_vector3(frame.axis)),
        Some(Surface::Cylinder(frame, _) | Surface::Cone(frame, ..)) => {
            let (origin, axis) = (back.transform_point3(frame.origin), back.transform_vector3(frame.axis));
            let across = round.axes[0].cross(axis);
            let between = origin - round.origin;
            if across.length() > 1e-6 {
                push(across);
            } else if (between - round.axes[0] * between.dot(round.axes[0])).length() > 1e-6 {
                push(between);
            } else {
                // About one axis every line is as near.
                push(round.axes[1] * 0.8 + round.axes[2] * 0.6);
            }
        }
        None => {}
    }
}

/// Between which heights a round face has a line at an angle.
fn spans(round: &RoundFace<'_>, angle: f64) -> Vec<(f64, f64)> {
    let mut heights: Vec<f64> = round.arcs.iter().filter(|arc| arc.holds(angle)).map(|arc| arc.at(angle)).collect();
    heights.sort_by(f64::total_cmp);
    let pairs = heights.iter().zip(heights.iter().skip(1)).map(|(a, b)| (*a, *b));
    pairs.filter(|(a, b)| b - a > 1e-9 && holds(round.arcs, angle, a.midpoint(*b))).collect()
}

/// A curve in another frame.
fn moved(curve: &Curve3, at: &DAffine3) -> Curve3 {
    let (point, vector) = (|p: DVec3| at.transform_point3(p), |v: DVec3| at.transform_vector3(v));
    match *curve {
        Curve3::Line(a, b) => Curve3::Line(point(a), point(b)),
        Curve3::Round { centre, x, y, from, to } => Curve3::Round { centre: point(centre), x: vector(x), y: vector(y), from, to },
        Curve3::Saddle { centre, x, y, up, bar, from, to } => {
            Curve3::Saddle { centre: point(centre), x: vector(x), y: vector(y), up: vector(up), bar, from, to }
        }
    }
}

/// The direction of a curve at a share of it, unit length.
fn slope_at(curve: &Curve3, share: f64) -> DVec3 {
    let step = 1e-5;
    (curve.at((share + step).min(1.0)) - curve.at((share - step).max(0.0))).normalize_or_zero()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge;
    use crate::solid::brep::{Brep, FLAT};
    use crate::solid::build::extrude;
    use kurbo::Point;

    fn shared_by(one: (&Brep, DAffine3), other: (&Brep, DAffine3)) -> Option<Shared> {
        let (a, b) = (Within::new(one.0), Within::new(other.0));
        shared(&Stood::new(&a, one.1), &Stood::new(&b, other.1))
    }
    fn block(x: f64, y: f64, z: f64) -> Brep {
        let corners = [(0.0, 0.0), (x, 0.0), (x, y), (0.0, y)].map(|p| (Point::from(p), 0.0));
        extrude(&[Edge::chain(&corners, true)], z, &FLAT).unwrap()
    }
    fn rod(r: f64, long: f64) -> Brep {
        extrude(&[vec![Edge::circle(Point::ZERO, r)]], long, &FLAT).unwrap()
    }
    fn plate(hole: f64) -> Brep {
        let corners = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)].map(|p| (Point::from(p), 0.0));
        extrude(&[Edge::chain(&corners, true), vec![Edge::circle(Point::ZERO, hole).reversed()]], 8.0, &FLAT).unwrap()
    }
    fn at(x: f64, y: f64, z: f64) -> DAffine3 {
        DAffine3::from_translation(DVec3::new(x, y, z))
    }
    fn deep(a: &Brep, place: DAffine3, b: &Brep) -> Option<f64> {
        let both = [shared_by((a, place), (b, DAffine3::IDENTITY)), shared_by((b, DAffine3::IDENTITY), (a, place))];
        assert_eq!(both[0].map(|s| s.deep), both[1].map(|s| s.deep));
        both[0].map(|s| s.deep)
    }
    fn near(found: Option<f64>, wanted: f64) {
        assert!(found.is_some_and(|deep| (deep - wanted).abs() < 1e-6), "{found:?} instead of {wanted}");
    }

    #[test]
    fn blocks_that_touch_share_nothing() {
        let (a, b) = (block(100.0, 60.0, 10.0), block(40.0, 30.0, 20.0));
        for place in [at(10.0, 10.0, 10.0), at(10.0, 10.0, -20.0), at(100.0, 0.0, 0.0), at(-40.0, -30.0, 0.0), at(10.0, 10.0, 9.96)] {
            assert_eq!(deep(&b, place, &a), None);
        }
    }

    #[test]
    fn a_rib_touches_along_its_foot_and_a_lifted_one_does_not() {
        let (plate, rib) = (block(400.0, 300.0, 10.0), block(100.0, 8.0, 60.0));
        let long = |z: f64| {
            let [a, b] = [Within::new(&plate), Within::new(&rib)];
            let found = touching(&Stood::new(&a, DAffine3::IDENTITY), &Stood::new(&b, at(50.0, 100.0, z)), 1.6);
            found.iter().map(|[a, b]| a.distance(*b)).sum::<f64>()
        };
        // Round its foot: 2 × (100 + 8).
        assert!((long(10.0) - 216.0).abs() < 1e-6 && (long(11.5) - 216.0).abs() < 1e-6, "{}", long(11.5));
        assert_eq!(long(12.0), 0.0);
    }

    #[test]
    fn what_runs_into_another_is_found() {
        let a = block(100.0, 60.0, 10.0);
        near(deep(&block(40.0, 30.0, 20.0), at(10.0, 10.0, 9.0), &a), 1.0);
        // A bar through a plate, thinner than the plate is wide: half its thickness at most.
        near(deep(&block(10.0, 10.0, 50.0), at(30.0, 20.0, -20.0), &a), 5.0);
        // Of one section, end to end, 0.2 too long; and just the same.
        near(deep(&a, at(0.0, 0.0, 9.8), &a), 0.2);
        assert!(deep(&a, DAffine3::IDENTITY, &a).is_some_and(|deep| deep > 0.2));
        // Wholly within.
        assert!(deep(&block(10.0, 10.0, 2.0), at(30.0, 20.0, 4.0), &a).is_some());
    }

    #[test]
    fn round_things_are_found() {
        let hole = plate(10.0);
        assert_eq!(deep(&rod(10.0, 40.0), at(0.0, 0.0, -10.0), &hole), None);
        assert_eq!(deep(&rod(9.0, 40.0), at(0.9, 0.0, -10.0), &hole), None);
        near(deep(&rod(10.5, 40.0), at(0.0, 0.0, -10.0), &hole), 0.5);
        near(deep(&rod(9.0, 40.0), at(1.3, 0.0, -10.0), &hole), 0.3);
        // Laid into a face, its ends beyond; two rods that cross, where no edge of either lies in the other.
        let turned = DAffine3::from_rotation_y(std::f64::consts::FRAC_PI_2);
        let solid = block(100.0, 60.0, 10.0);
        near(deep(&rod(10.0, 60.0), at(20.0, 30.0, 19.0) * turned, &solid), 1.0);
        near(deep(&rod(10.0, 100.0), at(-50.0, 18.0, 50.0) * turned, &rod(10.0, 100.0)), 2.0);
        assert_eq!(deep(&rod(10.0, 100.0), at(-50.0, 20.0, 50.0) * turned, &rod(10.0, 100.0)), None);
    }

    /// The same in any place, askew, and for a mirrored pair.
    #[test]
    fn where_they_stand_makes_no_difference() {
        let (a, b) = (plate(10.0), rod(10.5, 40.0));
        let turn = DAffine3::from_rotation_x(0.7) * DAffine3::from_rotation_z(1.1) * DAffine3::from_translation(DVec3::new(300.0, -70.0, 11.0));
        let mirror = DAffine3::from_scale(DVec3::new(1.0, -1.0, 1.0));
        for place in [turn, mirror, turn * mirror] {
            near(shared_by((&a, place), (&b, place * at(0.0, 0.0, -10.0))).map(|s| s.deep), 0.5);
        }
    }
}
