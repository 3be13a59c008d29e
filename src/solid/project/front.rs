//! Faces that look at the viewer, as what may hide a point.
//!
//! A closed body hides a point exactly when one of its faces that look at the viewer lies in front of the point, so
//! faces that look away are never asked. In front means: the point lies behind the face by more than [`BEHIND`],
//! measured square to the face; so what lies on a face of a neighbour is not hidden by it.

use glam::{DVec2, DVec3};

use super::grid::Grid;
use super::path::{Curve3, Path, SAME, pictures};
use super::shape::FaceArc;

/// How far behind a face a point must lie to be hidden by it, mm, square to the face.
const BEHIND: f64 = 1e-5;

/// A point is asked for a hair aside, so that it does not fall into a rounding gap between two bounds that meet at a
/// round number. On a bound both answers are right: there another line lies on top.
const ASIDE: DVec2 = DVec2::new(2.9e-7, 3.7e-7);

/// One piece of the bounds of a plane face that rises or falls all along.
#[derive(Debug, Clone, Copy)]
struct Rise {
    /// Least and greatest v.
    low: f64,
    high: f64,
    /// Least and greatest u.
    left: f64,
    right: f64,
    /// Where it is at a height between.
    shape: Slant,
}

/// How a rise runs.
#[derive(Debug, Clone, Copy)]
enum Slant {
    /// u and how it changes with v, counted from `low`.
    Line(f64, f64),
    /// With `x = (v − centre) / size`: `u = base + even x + odd √(1 − x²)`.
    Round { centre: f64, size: f64, base: f64, even: f64, odd: f64 },
}

/// What a face lies on, in the space of the view.
#[derive(Debug)]
enum Lie {
    /// `normal · point = level`, with the bounds as rises and as pictures.
    Plane { normal: DVec3, level: f64, rises: Vec<Rise>, rims: Vec<Path> },
    /// Origin, axis, zero and quarter turn, radius, slope, +1 when the outside is away from the axis, and the bounds.
    Round { origin: DVec3, axes: [DVec3; 3], radius: f64, slope: f64, outward: f64, arcs: Vec<FaceArc> },
}

/// A face that looks at the viewer.
#[derive(Debug)]
pub(crate) struct Front {
    /// Least and greatest corner of the picture.
    pub bounds: (DVec2, DVec2),
    /// Greatest depth anywhere on it.
    pub nearest: f64,
    /// What lies beyond this plane has been cut away: normal and level.
    pub clip: Option<(DVec3, f64)>,
    lie: Lie,
}

/// A round face in the space of a view.
#[derive(Debug, Clone, Copy)]
pub(crate) struct RoundFace<'a> {
    /// The frame's origin.
    pub origin: DVec3,
    /// The frame's axis, zero of the angle and quarter turn.
    pub axes: [DVec3; 3],
    /// Radius at the origin.
    pub radius: f64,
    /// How the radius grows along the axis.
    pub slope: f64,
    /// +1 when the outside is away from the axis, −1 for a hole.
    pub outward: f64,
    /// Its bounds.
    pub arcs: &'a [FaceArc],
}

impl RoundFace<'_> {
    /// Direction from the axis at an angle.
    pub fn across(&self, angle: f64) -> DVec3 {
        let (sin, cos) = angle.sin_cos();
        self.axes[1] * cos + self.axes[2] * sin
    }

    /// The point at an angle and height.
    pub fn at(&self, angle: f64, height: f64) -> DVec3 {
        self.origin + self.axes[0] * height + self.across(angle) * (self.radius + self.slope * height)
    }

    /// Angle and height of a point.
    pub fn place(&self, at: DVec3) -> (f64, f64) {
        let from = at - self.origin;
        (from.dot(self.axes[2]).atan2(from.dot(self.axes[1])), from.dot(self.axes[0]))
    }
}

/// Whether the bounds of a round face hold a place.
pub(crate) fn holds(arcs: &[FaceArc], angle: f64, height: f64) -> bool {
    arcs.iter().filter(|arc| arc.holds(angle + 1.3e-9) && arc.at(angle) > height).count() % 2 == 1
}

impl Front {
    /// A plane face by its outward normal and its bounds.
    pub fn plane(normal: DVec3, curves: &[Curve3], clip: Option<(DVec3, f64)>) -> Self {
        let level = curves.first().map_or(0.0, |curve| normal.dot(curve.at(0.0)));
        let mut rises = Vec::with_capacity(curves.len());
        let mut rims = Vec::with_capacity(curves.len());
        for curve in curves {
            rise(curve, &mut rises);
            pictures(curve, |path| rims.push(path));
        }
        let (bounds, nearest) = reach(curves);
        Self { bounds, nearest, clip, lie: Lie::Plane { normal, level, rises, rims } }
    }

    /// A round face with its bounds in space.
    pub fn round(face: &RoundFace<'_>, curves: &[Curve3], clip: Option<(DVec3, f64)>) -> Self {
        let (bounds, nearest) = reach(curves);
        let RoundFace { origin, axes, radius, slope, outward, arcs } = *face;
        let lie = Lie::Round { origin, axes, radius, slope, outward, arcs: arcs.to_vec() };
        Self { bounds, nearest, clip, lie }
    }

    /// Whether a point of the view at a depth lies behind this face.
    pub fn hides(&self, at: DVec2, depth: f64) -> bool {
        self.over(at, depth).is_some()
    }

    /// The depth of this face at a point of the view, where it lies in front of another depth.
    pub fn over(&self, at: DVec2, depth: f64) -> Option<f64> {
        if at.x < self.bounds.0.x || at.y < self.bounds.0.y || at.x > self.bounds.1.x || at.y > self.bounds.1.y {
            return None;
        }
        match &self.lie {
            Lie::Plane { normal, level, rises, .. } => {
                let there = (level - normal.x * at.x - normal.y * at.y) / normal.z;
                let before = (there - depth) * normal.z > BEHIND && self.kept(at.extend(there)) && inside(rises, at + ASIDE);
                before.then_some(there)
            }
            Lie::Round { .. } => self.round_over(at, depth),
        }
    }

    /// Raises the cover of each cell that this face fills: the depth that all of the face there lies in front of.
    /// `rim` has a mark for each cell, none set before and after.
    pub fn cover(&self, grid: &Grid, rim: &mut [bool], cover: &mut [f64]) {
        let Lie::Plane { normal, level, rises, rims } = &self.lie else { return };
        let size = self.bounds.1 - self.bounds.0;
        if self.clip.is_some() || size.min_element() < 2.0 * grid.cell() {
            return;
        }
        let walk = |to: bool, rim: &mut [bool]| rims.iter().for_each(|path| grid.walk(path, &mut |cell| rim[cell] = to));
        walk(true, rim);
        let drop = (normal.x.abs() + normal.y.abs()) / normal.z * grid.cell() / 2.0;
        let mut before = None;
        grid.walk_box(self.bounds.0, self.bounds.1, &mut |cell| {
            // Between two rims all cells of a row are alike.
            let filled = match before {
                Some((old, filled)) if old + 1 == cell && !rim[cell] => filled,
                _ => !rim[cell] && inside(rises, grid.middle(cell) + ASIDE),
            };
            before = (!rim[cell]).then_some((cell, filled));
            if filled {
                let middle = grid.middle(cell);
                let depth = (level - normal.x * middle.x - normal.y * middle.y) / normal.z - drop;
                cover[cell] = cover[cell].max(depth);
            }
        });
        walk(false, rim);
    }

    /// Whether a point of the face is still there.
    fn kept(&self, at: DVec3) -> bool {
        self.clip.is_none_or(|(normal, level)| normal.dot(at) <= level)
    }

    fn round_over(&self, at: DVec2, depth: f64) -> Option<f64> {
        let Lie::Round { origin, axes: [axis, x, y], radius, slope, outward, arcs } = &self.lie else {
            return None;
        };
        let flat = (at - origin.truncate()).extend(0.0);
        let along = flat.dot(*axis);
        let grow = 1.0 + slope * slope;
        let a = 1.0 - grow * axis.z * axis.z;
        let b = -axis.z * (grow * along + radius * slope);
        let c = flat.length_squared() - grow * along * along - radius * radius - 2.0 * radius * slope * along;
        let hit = |s: f64| {
            let from = flat + DVec3::Z * s;
            let height = along + s * axis.z;
            let size = radius + slope * height;
            if size <= 0.0 {
                return None;
            }
            let across = (from - *axis * height) / size;
            // Square to the face, as far as its length goes.
            let facing = outward * (across.z - slope * axis.z) / grow.sqrt();
            let before = facing > 0.0
                && (origin.z + s - depth) * facing > BEHIND
                && self.kept(at.extend(origin.z + s))
                && holds(arcs, from.dot(*y).atan2(from.dot(*x)), height);
            before.then_some(origin.z + s)
        };
        if a.abs() < 1e-12 {
            return if b.abs() > 1e-12 { hit(-c / (2.0 * b)) } else { None };
        }
        let under = b * b - a * c;
        if under <= 0.0 {
            return None;
        }
        let root = under.sqrt();
        match (hit((-b + root) / a), hit((-b - root) / a)) {
            (Some(one), Some(other)) => Some(one.max(other)),
            (one, other) => one.or(other),
        }
    }
}

/// Bounds in the picture and greatest depth of some curves; an arc counts as its full circle.
fn reach(curves: &[Curve3]) -> ((DVec2, DVec2), f64) {
    let (mut low, mut high) = (DVec3::INFINITY, DVec3::NEG_INFINITY);
    for curve in curves {
        match *curve {
            Curve3::Line(a, b) => (low, high) = (low.min(a).min(b), high.max(a).max(b)),
            Curve3::Round { centre, x, y, .. } => {
                let size = (x * x + y * y).map(f64::sqrt);
                (low, high) = (low.min(centre - size), high.max(centre + size));
            }
            // Between its chords it bulges by less than a thousandth of the mill.
            Curve3::Saddle { x, .. } => {
                let slack = DVec3::splat(1e-3 * x.length());
                for (a, b) in curve.chords() {
                    (low, high) = (low.min(a.min(b) - slack), high.max(a.max(b) + slack));
                }
            }
        }
    }
    let slack = DVec2::splat(SAME);
    ((low.truncate() - slack, high.truncate() + slack), high.z)
}

/// Appends the rises of one bound.
fn rise(curve: &Curve3, out: &mut Vec<Rise>) {
    match *curve {
        Curve3::Line(a, b) => {
            let (from, to) = if a.y < b.y { (a, b) } else { (b, a) };
            if from.y < to.y {
                let shape = Slant::Line(from.x, (to.x - from.x) / (to.y - from.y));
                let (left, right) = (a.x.min(b.x), a.x.max(b.x));
                out.push(Rise { low: from.y, high: to.y, left, right, shape });
            }
        }
        Curve3::Round { centre, x, y, from, to } => round_rise([centre, x, y], from, to, out),
        Curve3::Saddle { .. } => curve.chords().into_iter().for_each(|(a, b)| rise(&Curve3::Line(a, b), out)),
    }
}

/// Appends the rises of an arc: cut where v turns back.
fn round_rise([centre, x, y]: [DVec3; 3], from: f64, to: f64, out: &mut Vec<Rise>) {
    use std::f64::consts::PI;
    let size = x.y.hypot(y.y);
    if size < 1e-12 {
        return;
    }
    let top = y.y.atan2(x.y);
    let (sin, cos) = top.sin_cos();
    let (even, odd) = (x.x * cos + y.x * sin, y.x * cos - x.x * sin);
    let reach = even.hypot(odd);
    let height = |t: f64| centre.y + size * (t - top).cos();
    let mut begin = from;
    while begin < to - 1e-12 {
        let half = ((begin - top + 1e-12) / PI).floor();
        let end = (top + (half + 1.0) * PI).min(to);
        let (first, last) = (height(begin), height(end));
        let odd = if half.rem_euclid(2.0) < 0.5 { odd } else { -odd };
        if first != last {
            out.push(Rise {
                low: first.min(last),
                high: first.max(last),
                left: centre.x - reach,
                right: centre.x + reach,
                shape: Slant::Round { centre: centre.y, size, base: centre.x, even, odd },
            });
        }
        begin = end;
    }
}

/// Whether a point lies inside: an odd number of rises to its right.
fn inside(rises: &[Rise], at: DVec2) -> bool {
    let mut odd = false;
    for rise in rises {
        if at.y < rise.low || at.y >= rise.high || at.x >= rise.right {
            continue;
        }
        if at.x < rise.left {
            odd = !odd;
            continue;
        }
        let u = match rise.shape {
            Slant::Line(u, slope) => u + (at.y - rise.low) * slope,
            Slant::Round { centre, size, base, even, odd } => {
                let x = (at.y - centre) / size;
                base + even * x + odd * (1.0 - x * x).max(0.0).sqrt()
            }
        };
        if at.x < u {
            odd = !odd;
        }
    }
    odd
}
