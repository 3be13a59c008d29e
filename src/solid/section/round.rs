//! Where a plane meets a round face.

use std::f64::consts::TAU;

use glam::DVec3;

use super::blade::{Blade, Link, Node, flat};
use crate::solid::project::front::{RoundFace, holds};
use crate::solid::project::path::Curve3;

/// A plane whose normal is this square to an axis runs along it.
const ALONG: f64 = 1e-9;
/// A plane that passes the axis of a cone closer than this cuts it in lines, mm.
const THROUGH: f64 = 1e-4;
/// How far a chord may stray from the curve it stands for, mm.
const STRAY: f64 = 0.001;

/// Appends the pieces where a blade meets a round face; none when the nodes do not pair.
pub(super) fn links(nodes: Vec<Node>, face: &RoundFace<'_>, blade: Blade, out: &mut Vec<Link>) -> Option<()> {
    let [axis, ..] = face.axes;
    let lean = blade.normal.dot(axis);
    let off = blade.level - blade.normal.dot(face.origin);
    if lean.abs() < ALONG && (face.slope == 0.0 || off.abs() < THROUGH) {
        let side = blade.normal.cross(axis);
        let (left, right): (Vec<Node>, Vec<Node>) = nodes.into_iter().partition(|node| side.dot(node.at - face.origin) > 0.0);
        flat(left, axis, out)?;
        return flat(right, axis, out);
    }
    let bend = Bend { face, lean, off, normal: blade.normal };
    if nodes.is_empty() {
        if bend.lies(0.1) {
            bend.pieces(0.0, TAU, None, out);
        }
        return Some(());
    }
    let mut nodes: Vec<(f64, usize)> = nodes.iter().map(|node| (face.place(node.at).0.rem_euclid(TAU), node.id)).collect();
    nodes.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (index, (from, id)) in nodes.iter().enumerate() {
        let (mut to, next) = nodes[(index + 1) % nodes.len()];
        if index + 1 == nodes.len() {
            to += TAU;
        }
        if bend.lies((from + to) / 2.0) {
            bend.pieces(*from, to, Some((*id, next)), out);
        }
    }
    Some(())
}

/// The curve in which a plane meets a round face, by the angle about the axis.
struct Bend<'a> {
    face: &'a RoundFace<'a>,
    lean: f64,
    off: f64,
    normal: DVec3,
}

impl Bend<'_> {
    /// Height of the curve at an angle.
    fn height(&self, angle: f64) -> f64 {
        let side = self.normal.dot(self.face.across(angle));
        (self.off - self.face.radius * side) / (self.lean + self.face.slope * side)
    }

    fn at(&self, angle: f64) -> DVec3 {
        self.face.at(angle, self.height(angle))
    }

    /// Whether the face holds the curve at an angle.
    fn lies(&self, angle: f64) -> bool {
        holds(self.face.arcs, angle, self.height(angle))
    }

    /// Appends the curve between two angles.
    fn pieces(&self, from: f64, to: f64, nodes: Option<(usize, usize)>, out: &mut Vec<Link>) {
        let RoundFace { origin, axes: [axis, x, y], radius, slope, .. } = *self.face;
        let (cos, sin) = (self.normal.dot(x), self.normal.dot(y));
        let square = cos.hypot(sin) < ALONG;
        if slope == 0.0 || square {
            let height = self.off / self.lean;
            let size = radius + slope * height;
            let (x, y) = ((x - axis * (cos / self.lean)) * size, (y - axis * (sin / self.lean)) * size);
            out.push((vec![Curve3::Round { centre: origin + axis * height, x, y, from, to }], nodes));
            return;
        }
        let mut angles = vec![from];
        self.chords(from, to, 0, &mut angles);
        let chords = angles.windows(2).map(|pair| Curve3::Line(self.at(pair[0]), self.at(pair[1])));
        out.push((chords.collect(), nodes));
    }

    /// Appends the angles after `from` up to `to` at which chords are close enough.
    fn chords(&self, from: f64, to: f64, depth: u32, out: &mut Vec<f64>) {
        let middle = (from + to) / 2.0;
        let stray = (self.at(middle) - (self.at(from) + self.at(to)) / 2.0).length();
        if depth < 3 || (stray > STRAY && depth < 12) {
            self.chords(from, middle, depth + 1, out);
            self.chords(middle, to, depth + 1, out);
        } else {
            out.push(to);
        }
    }
}
