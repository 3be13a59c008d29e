//! How a flat pattern folds: flat panels and bent zones one after another along x.
//!
//! In: bends in order along x. Out: for every x the tangent sheet of the back face, in the body's frame: x along the
//! pattern's x before the first bend, y along its y, z from the back face to the marked face. Distances along x are
//! taken on the neutral line: a zone of the given flat length turns by the given angle, whatever its K-factor.

use super::Refusal;
use super::maker::Sheet;
use crate::solid::brep::{Curve, Frame, Surface};
use glam::DVec3;
use std::f64::consts::TAU;

/// A bend or rolled zone; its lines run across the whole plate, square to x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fold {
    /// Where the zone begins along x of the flat pattern, mm.
    pub start: f64,
    /// Its flat (neutral) length, mm.
    pub flat_length: f64,
    /// Angle through which it is bent, rad, more than 0.
    pub angle: f64,
    /// Toward the marked face; otherwise away from it.
    pub up: bool,
    /// Inside radius, mm.
    pub inside_radius: f64,
}

/// Places along x nearer to each other than this are one, mm.
pub(super) const ONE_PLACE: f64 = 1e-7;

/// A panel or a zone.
#[derive(Debug, Clone, Copy)]
pub(super) struct Strip {
    /// Where it begins along x, mm.
    pub(super) from: f64,
    /// Where it ends.
    pub(super) to: f64,
    /// Tangent sheet of the back face at `from`, or at 0 for the first; its origin lies at y = 0 there.
    start: Sheet,
    at: f64,
    /// Of a zone: rad turned per mm, positive toward the marked face; height of the axis over the back face, mm.
    bent: Option<(f64, f64)>,
}

/// The strips of a plate.
pub(super) fn strips(bends: &[Fold], thickness: f64) -> Result<Vec<Strip>, Refusal> {
    let mut sheet = Sheet::new(&crate::solid::brep::FLAT);
    let (mut at, mut from) = (0.0, f64::NEG_INFINITY);
    let mut out = Vec::with_capacity(2 * bends.len() + 1);
    for bend in bends {
        let positive = [bend.flat_length, bend.angle, bend.inside_radius].iter().all(|v| *v > 0.0);
        if !positive || bend.angle > TAU {
            return Err(Refusal::NotPositive);
        }
        if bend.start < from - ONE_PLACE {
            return Err(Refusal::Disordered);
        }
        if bend.start - from > ONE_PLACE {
            out.push(Strip { from, to: bend.start, start: sheet, at, bent: None });
            sheet.origin += sheet.x * (bend.start - at);
        }
        let (sense, height) = if bend.up { (1.0, thickness + bend.inside_radius) } else { (-1.0, -bend.inside_radius) };
        let end = bend.start + bend.flat_length;
        let zone = Strip { from: bend.start, to: end, start: sheet, at: bend.start, bent: Some((sense * bend.angle / bend.flat_length, height)) };
        out.push(zone);
        sheet = zone.tangent(end);
        (at, from) = (end, end);
    }
    out.push(Strip { from, to: f64::INFINITY, start: sheet, at, bent: None });
    Ok(out)
}

impl Strip {
    pub(super) const fn is_flat(&self) -> bool {
        self.bent.is_none()
    }
    /// Tangent sheet of the back face with its origin at x, y = 0.
    fn tangent(&self, x: f64) -> Sheet {
        let Sheet { origin, x: right, y, axis } = self.start;
        let Some((rate, height)) = self.bent else { return Sheet { origin: origin + right * (x - self.at), x: right, y, axis } };
        let (sin, cos) = (rate * (x - self.at)).sin_cos();
        let turned = axis * cos - right * sin;
        Sheet { origin: origin + axis * height - turned * height, x: right * cos + axis * sin, y, axis: turned }
    }
    /// Tangent sheet of the back face at x in which points have the pattern's coordinates; all of a panel is one sheet.
    pub(super) fn sheet(&self, x: f64) -> Sheet {
        let tangent = self.tangent(x);
        Sheet { origin: tangent.origin - tangent.x * x, ..tangent }
    }
    /// What an edge along x at height h and y follows from one x to another: a line of a panel, an arc of a zone.
    pub(super) fn along(&self, from: f64, to: f64, y: f64, h: f64) -> Curve {
        let Some((rate, height)) = self.bent else { return Curve::Line };
        let sheet = self.tangent(from);
        let lever = h - height;
        let origin = sheet.origin + sheet.axis * height + sheet.y * y;
        // Toward the marked face x turns to the normal: about −y.
        let axis = if (rate > 0.0) == (to > from) { -sheet.y } else { sheet.y };
        Curve::Circle(Frame { origin, axis, x: sheet.axis * lever.signum() }, lever.abs())
    }
    /// The surface at height h, and whether its own normal points to the side of the marked face.
    pub(super) fn surface(&self, h: f64) -> (Surface, bool) {
        let Some((_, height)) = self.bent else { return (self.start.lifted(h).plane(), true) };
        let lever = h - height;
        let frame = Frame { origin: self.start.origin + self.start.axis * height, axis: self.start.y, x: self.start.axis * lever.signum() };
        (Surface::Cylinder(frame, lever.abs()), lever > 0.0)
    }
    /// A point of the axis of a zone, at y = 0.
    pub(super) fn axis(&self) -> DVec3 {
        self.start.origin + self.start.axis * self.bent.map_or(0.0, |b| b.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    /// Back face at x by walking from bend to bend: place along x and z, direction.
    fn walk(bends: &[Fold], thickness: f64, x: f64) -> (f64, f64, f64) {
        let (mut r, mut n, mut angle, mut done) = (0.0, 0.0, 0.0_f64, 0.0);
        for bend in bends.iter().filter(|b| x > b.start) {
            r += (bend.start - done) * angle.cos();
            n += (bend.start - done) * angle.sin();
            let part = ((x - bend.start) / bend.flat_length).min(1.0);
            let (sense, lever) = if bend.up { (1.0, thickness + bend.inside_radius) } else { (-1.0, bend.inside_radius) };
            let centre = [r - sense * lever * angle.sin(), n + sense * lever * angle.cos()];
            angle += sense * bend.angle * part;
            (r, n) = (centre[0] + sense * lever * angle.sin(), centre[1] - sense * lever * angle.cos());
            done = bend.start + bend.flat_length * part;
        }
        (r + (x - done) * angle.cos(), n + (x - done) * angle.sin(), angle)
    }

    #[test]
    fn strips_lie_where_a_walk_along_the_plate_comes_by() {
        let bends = [
            Fold { start: 40.0, flat_length: 12.0, angle: 0.6, up: true, inside_radius: 8.0 },
            Fold { start: 90.0, flat_length: 700.0, angle: 1.9, up: false, inside_radius: 350.0 },
            Fold { start: 800.0, flat_length: 20.0, angle: 1.1, up: true, inside_radius: 10.0 },
        ];
        let strips = strips(&bends, 6.0).unwrap();
        assert_eq!(strips.len(), 7);
        for x in [-5.0, 0.0, 39.0, 44.0, 60.0, 95.0, 500.0, 795.0, 810.0, 900.0] {
            let strip = strips.iter().find(|s| x < s.to).unwrap();
            let (r, n, angle) = walk(&bends, 6.0, x);
            for h in [0.0, 6.0] {
                let p = strip.sheet(x).lifted(h).point(Point::new(x, 7.0));
                assert!((p - DVec3::new(r - h * angle.sin(), 7.0, n + h * angle.cos())).length() < 1e-11, "{x} {h}");
            }
        }
    }
}
