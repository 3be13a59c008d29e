//! Where a plate stands in the machine, and how a bent plate folds.
//!
//! A placement maps the flat pattern's (x, y) and the height h over its back face to the model frame.
//! `toward` points to the viewer of the marked face; material lies from the back face (h = 0) to the
//! marked face (h = thickness). For a bent plate the placement holds at x = 0, before the first bend.

use super::flat::{Bend, BendSide};
use crate::model::frame::ModelPoint;
use serde::Serialize;

/// A rigid placement of a plate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Placement {
    /// Model point of the flat pattern's (0, 0) on the back face, mm.
    pub origin: [f64; 3],
    /// Direction of the pattern's x.
    pub right: [f64; 3],
    /// Direction of the pattern's y.
    pub up: [f64; 3],
    /// Direction from the back face to the marked face.
    pub toward: [f64; 3],
}

/// A point moved along a direction.
fn along(p: [f64; 3], d: [f64; 3], by: f64) -> [f64; 3] {
    [p[0] + d[0] * by, p[1] + d[1] * by, p[2] + d[2] * by]
}

impl Placement {
    /// A placement from an origin and three directions.
    pub const fn new(origin: [f64; 3], right: [f64; 3], up: [f64; 3], toward: [f64; 3]) -> Self {
        Self { origin, right, up, toward }
    }
    /// Seen from the near side: x along the machine, y up. `back` is the back face's y.
    pub const fn near(back: f64) -> Self {
        Self::new([0.0, back, 0.0], [1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0])
    }
    /// Seen from the far side: x against the machine's x.
    pub const fn far(back: f64) -> Self {
        Self::new([0.0, back, 0.0], [-1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0])
    }
    /// Seen from the up side: x toward the far side.
    pub const fn up_end(back: f64) -> Self {
        Self::new([back, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0])
    }
    /// Seen from the down side: x toward the near side.
    pub const fn down_end(back: f64) -> Self {
        Self::new([back, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0])
    }
    /// Seen from above: x along the machine, y toward the far side.
    pub const fn plan(back: f64) -> Self {
        Self::new([0.0, 0.0, back], [1.0, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0])
    }
    /// Moved so that the pattern's point (x, y) becomes its origin.
    #[must_use]
    pub fn at(&self, x: f64, y: f64) -> Self {
        Self { origin: along(along(self.origin, self.right, x), self.up, y), ..*self }
    }
    /// Moved by a model vector.
    #[must_use]
    pub fn moved(&self, by: [f64; 3]) -> Self {
        Self { origin: [self.origin[0] + by[0], self.origin[1] + by[1], self.origin[2] + by[2]], ..*self }
    }
    /// Moved by `by` mm from the back face toward the marked one.
    #[must_use]
    pub fn outward(&self, by: f64) -> Self {
        Self { origin: along(self.origin, self.toward, by), ..*self }
    }
    /// Model point of a pattern point at height h over the back face, of a flat plate.
    pub fn point(&self, x: f64, y: f64, h: f64) -> ModelPoint {
        let p = along(along(along(self.origin, self.right, x), self.up, y), self.toward, h);
        ModelPoint::new(p[0], p[1], p[2])
    }
    /// Back face of a bent plate at x: place (along `right`, along `toward`) and direction (rad from `right`); distances along x are taken on the neutral line.
    fn walk(bends: &[Bend], thickness: f64, x: f64) -> (f64, f64, f64) {
        let (mut r, mut n, mut angle) = (0.0, 0.0, 0.0_f64);
        let mut done = 0.0;
        for bend in bends {
            if x <= bend.start {
                break;
            }
            let straight = bend.start - done;
            r += straight * angle.cos();
            n += straight * angle.sin();
            let part = ((x - bend.start) / bend.flat_length).min(1.0);
            let (sense, lever) = match bend.side {
                BendSide::Up => (1.0, thickness + bend.inside_radius),
                BendSide::Down => (-1.0, bend.inside_radius),
            };
            // The back face turns about a centre `lever` above (up) or below (down) it.
            let centre = [r - sense * lever * angle.sin(), n + sense * lever * angle.cos()];
            angle += sense * bend.angle_deg.to_radians() * part;
            r = centre[0] + sense * lever * angle.sin();
            n = centre[1] - sense * lever * angle.cos();
            done = bend.start + bend.flat_length * part;
            if part < 1.0 {
                break;
            }
        }
        let rest = x - done;
        (r + rest * angle.cos(), n + rest * angle.sin(), angle)
    }
    /// Model point of a pattern point of a bent plate at height h over its back face.
    pub fn folded(&self, bends: &[Bend], thickness: f64, x: f64, y: f64, h: f64) -> ModelPoint {
        let (r, n, angle) = Self::walk(bends, thickness, x);
        self.point(r - h * angle.sin(), y, n + h * angle.cos())
    }
    /// Placement of the rest of a bent plate from x on.
    #[must_use]
    pub fn from_x(&self, bends: &[Bend], thickness: f64, x: f64) -> Self {
        let (r, n, angle) = Self::walk(bends, thickness, x);
        let p = self.point(r, 0.0, n);
        let mix = |a: f64, b: f64| [0, 1, 2].map(|i| a * self.right[i] + b * self.toward[i]);
        Self { origin: [p.x, p.y, p.z], right: mix(angle.cos(), angle.sin()), up: self.up, toward: mix(-angle.sin(), angle.cos()) }
    }
    /// Triple product right · (up × toward): −1 when near is toward the viewer and the up side on his right.
    pub fn handedness(&self) -> f64 {
        let (a, b, c) = (self.right, self.up, self.toward);
        a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_walls_have_the_same_hand() {
        for p in [Placement::near(0.0), Placement::far(0.0), Placement::up_end(0.0), Placement::down_end(0.0), Placement::plan(0.0)] {
            assert!((p.handedness() + 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_right_angle_folds_where_it_should() {
        // s = 3, r = 3, K from DIN 6935: legs 44 + 44, outside size 50.
        let flat = std::f64::consts::FRAC_PI_2 * (3.0 + 0.325 * 3.0);
        let bend = Bend { start: 44.0, flat_length: flat, angle_deg: 90.0, side: BendSide::Up, inside_radius: 3.0, rolled: false };
        let p = Placement::plan(0.0).folded(&[bend], 3.0, 88.0 + flat, 0.0, 0.0);
        assert!((p.x - 50.0).abs() < 1e-9 && (p.z - 50.0).abs() < 1e-9, "{p:?}");
    }
}
