//! Volume, centroid, surface and inertia of a body, exactly from its faces.
//!
//! In: a closed body in mm. Out: numbers that are exact but for rounding (about 1e-13 of the body's size), for planes,
//! cylinders and cones bounded by lines, by circles square to the axis and by the ends of milled slots. A face counts through the cone from one
//! point of the body over it (divergence theorem for the homogeneous functions 1, p and p pᵀ); a plane face is reduced
//! to its edges by Green's theorem, a round face to its circles. Nothing here looks whether the body is closed.

use crate::geometry;
use crate::solid::brep::{Brep, Curve, Edge, Face, Frame, Saddle, Surface};
use crate::solid::plane::Loop;
use glam::{DMat3, DVec2, DVec3};
use kurbo::Point;
use std::f64::consts::{PI, TAU};

/// What a body weighs at a density of 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mass {
    /// Enclosed, mm³; negative when the faces look inward.
    pub volume: f64,
    /// Centre of gravity, mm, in the body's frame.
    pub centroid: DVec3,
    /// Area of all faces, mm².
    pub surface: f64,
    /// Inertia about the centroid along the body's axes, mm⁵: `[∫(y²+z²), -∫xy, …]`.
    pub inertia: DMat3,
}

/// Volume, first and second moments of some cones, in some frame: each yet to be divided by 3, 4 and 5.
#[derive(Debug, Clone, Copy, Default)]
struct Cones {
    zero: f64,
    first: DVec3,
    /// xx, yy, zz.
    square: DVec3,
    /// yz, zx, xy.
    mixed: DVec3,
    surface: f64,
}

/// Weighs a body.
pub fn mass(body: &Brep) -> Mass {
    let apex = body.vertices.first().copied().unwrap_or_default();
    let (mut zero, mut first, mut second, mut surface) = (0.0, DVec3::ZERO, DMat3::ZERO, 0.0);
    for face in &body.faces {
        let (cones, frame) = match &face.surface {
            Surface::Plane(frame) => (flat(body, face, frame, apex), frame),
            Surface::Cylinder(frame, radius) => (round(body, face, frame, (*radius, 0.0), apex), frame),
            Surface::Cone(frame, radius, slope) => (round(body, face, frame, (*radius, *slope), apex), frame),
        };
        let turn = DMat3::from_cols(frame.x, frame.y(), frame.axis);
        zero += cones.zero;
        first += turn * cones.first;
        surface += if face.outward { cones.surface } else { -cones.surface };
        let (s, m) = (cones.square, cones.mixed);
        let local = DMat3::from_cols(DVec3::new(s.x, m.z, m.y), DVec3::new(m.z, s.y, m.x), DVec3::new(m.y, m.x, s.z));
        second += turn * local * turn.transpose();
    }
    let volume = zero / 3.0;
    let arm = if volume == 0.0 { DVec3::ZERO } else { first / (4.0 * volume) };
    let spread = second * 0.2 - DMat3::from_cols(arm * arm.x, arm * arm.y, arm * arm.z) * volume;
    let trace = spread.x_axis.x + spread.y_axis.y + spread.z_axis.z;
    Mass { volume, centroid: apex + arm, surface, inertia: DMat3::from_diagonal(DVec3::splat(trace)) - spread }
}

/// Weighs a prism without building it: what [`mass`] of [`extrude`](crate::solid::build::extrude) says, many times faster.
pub fn prism(region: &[Loop], thickness: f64, frame: &Frame) -> Mass {
    let mut sum = Region::default();
    let mut around = 0.0;
    // From a corner of the outline, so that a plate far from its origin loses no digits.
    let base = region.first().and_then(|l| l.first()).map(geometry::Edge::start).unwrap_or_default();
    let drop = |p: Point| DVec2::new(p.x - base.x, p.y - base.y);
    for edge in region.iter().flatten() {
        match edge {
            geometry::Edge::Straight(line) => {
                sum.triangle(drop(line.p0), drop(line.p1));
                around += line.p0.distance(line.p1);
            }
            geometry::Edge::Round { arc, from, to } => {
                sum.arc([drop(*from), drop(*to)], drop(arc.center), arc.radii.x, arc.sweep_angle, edge.is_full());
                around += arc.radii.x * arc.sweep_angle.abs();
            }
        }
    }
    let centre = if sum.area == 0.0 { DVec2::ZERO } else { sum.first / sum.area };
    let square = (sum.square - centre * centre * sum.area) * thickness;
    let mixed = (sum.mixed - centre.x * centre.y * sum.area) * thickness;
    let volume = sum.area * thickness;
    let along = volume * thickness * thickness / 12.0;
    let turn = DMat3::from_cols(frame.x, frame.y(), frame.axis);
    let local =
        DMat3::from_cols(DVec3::new(square.y + along, -mixed, 0.0), DVec3::new(-mixed, square.x + along, 0.0), DVec3::new(0.0, 0.0, square.x + square.y));
    Mass {
        volume,
        centroid: frame.origin + turn * DVec3::new(base.x + centre.x, base.y + centre.y, thickness / 2.0),
        surface: 2.0 * sum.area + around * thickness,
        inertia: turn * local * turn.transpose(),
    }
}

/// Ends of an edge as a loop runs along it.
fn ends(body: &Brep, edge: &Edge, forward: bool) -> Option<(DVec3, DVec3)> {
    let (a, b) = (*body.vertices.get(edge.from)?, *body.vertices.get(edge.to)?);
    Some(if forward { (a, b) } else { (b, a) })
}

/// The edges of a face as its loops run along them: edge, whether forward, beginning and end.
fn boundary<'a>(body: &'a Brep, face: &'a Face) -> impl Iterator<Item = (&'a Edge, bool, DVec3, DVec3)> {
    face.loops.iter().flatten().filter_map(|u| {
        let edge = body.edges.get(u.edge)?;
        let (a, b) = ends(body, edge, u.forward)?;
        Some((edge, u.forward, a, b))
    })
}

/// Angle of an arc from one direction to another (across the axis that it turns about), with the sign of `sense`.
fn sweep(from: DVec2, to: DVec2, closed: bool, sense: f64) -> f64 {
    if closed {
        return sense * TAU;
    }
    let turn = sense * from.perp_dot(to).atan2(from.dot(to));
    sense * if turn <= 0.0 { turn + TAU } else { turn }
}

/// ∫ of products of cosine and sine over an arc.
struct Waves {
    angle: f64,
    c: f64,
    s: f64,
    cc: f64,
    cs: f64,
    ss: f64,
}

impl Waves {
    fn new(from: DVec2, to: DVec2, angle: f64) -> Self {
        let half = (to.x * to.y - from.x * from.y) / 2.0;
        let cs = (to.y * to.y - from.y * from.y) / 2.0;
        Self { angle, c: to.y - from.y, s: from.x - to.x, cc: angle / 2.0 + half, cs, ss: angle / 2.0 - half }
    }
}

/// Moments of a plane region about its origin.
#[derive(Debug, Clone, Copy, Default)]
struct Region {
    area: f64,
    first: DVec2,
    square: DVec2,
    mixed: f64,
}

impl Region {
    /// Adds the triangle from the origin.
    fn triangle(&mut self, p: DVec2, q: DVec2) {
        let c = p.perp_dot(q);
        self.area += c / 2.0;
        self.first += (p + q) * (c / 6.0);
        self.square += (p * p + p * q + q * q) * (c / 12.0);
        self.mixed += (2.0 * (p.x * p.y + q.x * q.y) + p.x * q.y + q.x * p.y) * (c / 24.0);
    }
    /// Adds the sector of a circle.
    fn sector(&mut self, centre: DVec2, r: f64, w: &Waves) {
        let r2 = r * r;
        let area = r2 * w.angle / 2.0;
        let first = DVec2::new(w.c, w.s) * (r2 * r / 3.0);
        let fourth = r2 * r2 / 4.0;
        self.area += area;
        self.first += centre * area + first;
        self.square += centre * centre * area + 2.0 * centre * first + DVec2::new(w.cc, w.ss) * fourth;
        self.mixed += centre.x * centre.y * area + centre.x * first.y + centre.y * first.x + w.cs * fourth;
    }
}

impl Region {
    /// Adds what lies between the origin and an arc from one point to another; its sector stands on the centre, two
    /// triangles join that to the origin.
    fn arc(&mut self, [p, q]: [DVec2; 2], centre: DVec2, r: f64, angle: f64, full: bool) {
        if full {
            // Nothing but angle is left of the waves.
            let (area, fourth) = (r * r * angle / 2.0, r.powi(4) * angle / 8.0);
            self.area += area;
            self.first += centre * area;
            self.square += centre * centre * area + DVec2::splat(fourth);
            self.mixed += centre.x * centre.y * area;
            return;
        }
        self.triangle(p, centre);
        self.triangle(centre, q);
        self.sector(centre, r, &Waves::new((p - centre) / r, (q - centre) / r, angle));
    }
}

/// Cones over a plane face.
fn flat(body: &Brep, face: &Face, frame: &Frame, apex: DVec3) -> Cones {
    let (x, y) = (frame.x, frame.y());
    let drop = |p: DVec3| DVec2::new((p - apex).dot(x), (p - apex).dot(y));
    let mut region = Region::default();
    for (edge, forward, from, to) in boundary(body, face) {
        match &edge.curve {
            // No plane face ends on a saddle.
            Curve::Line | Curve::Saddle(_) => region.triangle(drop(from), drop(to)),
            Curve::Circle(circle, r) => {
                let (p, q, centre) = (drop(from), drop(to), drop(circle.origin));
                let closed = edge.from == edge.to;
                let sense = if (circle.axis.dot(frame.axis) > 0.0) == forward { 1.0 } else { -1.0 };
                region.arc([p, q], centre, *r, sweep(p - centre, q - centre, closed, sense), closed);
            }
        }
    }
    let height = (frame.origin - apex).dot(frame.axis);
    let (area, first) = (region.area, region.first);
    Cones {
        zero: height * area,
        first: DVec3::new(first.x, first.y, height * area) * height,
        square: DVec3::new(region.square.x, region.square.y, height * height * area) * height,
        mixed: DVec3::new(height * first.y, height * first.x, region.mixed) * height,
        surface: area,
    }
}

/// Half the distance of the two points of Gauss's rule, of half the interval: exact up to cubes.
const GAUSS: f64 = 0.577_350_269_189_625_8;

/// ∫ of ρ, ρ², ρ³, of ρ and ρ² times the height and of ρ times its square, from the frame's origin up to z.
fn lifted(z: f64, (radius, slope): (f64, f64), up: f64) -> [f64; 6] {
    let mut sums = [0.0; 6];
    for at in [z / 2.0 * (1.0 - GAUSS), z / 2.0 * (1.0 + GAUSS)] {
        let (rho, h) = (radius + slope * at, up + at);
        let one = rho * z / 2.0;
        for (sum, by) in sums.iter_mut().zip([1.0, rho, rho * rho, h, rho * h, h * h]) {
            *sum += one * by;
        }
    }
    sums
}

/// Cones over a face on a cylinder or cone: radius at the frame's origin and growth along the axis.
///
/// With p = o + z a + ρ e(φ), ρ = R + k z: p·n dA = (R − k o·a + o·e) ρ dφ dz. Integrated along z first, only the
/// circles of the boundary count; a seam and generators do not.
fn round(body: &Brep, face: &Face, frame: &Frame, (radius, slope): (f64, f64), apex: DVec3) -> Cones {
    let (x, y, axis) = (frame.x, frame.y(), frame.axis);
    let out = frame.origin - apex;
    let (b, g, up) = (out.dot(x), out.dot(y), out.dot(axis));
    let q = radius - slope * up;
    let mut sum = Cones::default();
    for (edge, forward, from, to) in boundary(body, face) {
        let (circle, r) = match &edge.curve {
            Curve::Line => continue,
            Curve::Saddle(saddle) => {
                saddled(saddle, if forward { 1.0 } else { -1.0 }, frame, (radius, slope), out, &mut sum);
                continue;
            }
            Curve::Circle(circle, r) => (circle, r),
        };
        let sense = if (circle.axis.dot(axis) > 0.0) == forward { 1.0 } else { -1.0 };
        let turn = |p: DVec3| DVec2::new((p - circle.origin).dot(x), (p - circle.origin).dot(y)) / *r;
        // Of a full circle nothing but its angle counts, wherever it begins.
        let closed = edge.from == edge.to;
        let (p0, p1) = if closed { (DVec2::ZERO, DVec2::ZERO) } else { (turn(from), turn(to)) };
        let w = Waves::new(p0, p1, sweep(p0, p1, closed, sense));
        let z = (circle.origin - frame.origin).dot(axis);
        let [i10, i20, i30, i11, i21, i12] = lifted(z, (radius, slope), up);
        let cube = |v: f64| v * v * v / 3.0;
        let (ccs, css) = (cube(p0.x) - cube(p1.x), cube(p1.y) - cube(p0.y));
        let (ccc, sss) = (w.c - css, w.s - ccs);
        let w0 = q * w.angle + b * w.c + g * w.s;
        let (wc, ws) = (q * w.c + b * w.cc + g * w.cs, q * w.s + b * w.cs + g * w.ss);
        let (wcc, wcs, wss) = (q * w.cc + b * ccc + g * ccs, q * w.cs + b * ccs + g * css, q * w.ss + b * css + g * sss);
        sum.zero -= i10 * w0;
        sum.first -= DVec3::new(b * i10 * w0 + i20 * wc, g * i10 * w0 + i20 * ws, i11 * w0);
        sum.square -= DVec3::new(b * b * i10 * w0 + 2.0 * b * i20 * wc + i30 * wcc, g * g * i10 * w0 + 2.0 * g * i20 * ws + i30 * wss, i12 * w0);
        sum.mixed -= DVec3::new(g * i11 * w0 + i21 * ws, b * i11 * w0 + i21 * wc, b * g * i10 * w0 + i20 * (b * ws + g * wc) + i30 * wcs);
        sum.surface -= i10 * w.angle * (1.0 + slope * slope).sqrt();
    }
    sum
}

/// Panels of a saddle that its integral is taken in, each at five points of Gauss's rule: exact to rounding, since mills are
/// thinner than bars.
const PANELS: u32 = 8;
/// Places and weights of Gauss's rule with five points on −1..1.
const FIVE: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// What a bound that is no circle counts: the same integrals as of a circle, its height taken from point to point.
fn saddled(saddle: &Saddle, sense: f64, frame: &Frame, (radius, slope): (f64, f64), out: DVec3, sum: &mut Cones) {
    let (x, y, axis) = (frame.x, frame.y(), frame.axis);
    let (b, g, up) = (out.dot(x), out.dot(y), out.dot(axis));
    let q = radius - slope * up;
    let step = PI / f64::from(PANELS);
    for panel in 0..PANELS {
        for (place, weight) in FIVE {
            let at = (f64::from(panel) + 0.5 + place / 2.0) * step;
            let (point, rate) = (saddle.at(at) - frame.origin, saddle.rate(at));
            let (u, v) = (point.dot(x), point.dot(y));
            let size = u.hypot(v);
            let (c, s) = (u / size, v / size);
            let turn = sense * weight * step / 2.0 * (u * rate.dot(y) - v * rate.dot(x)) / (size * size);
            let z = point.dot(axis);
            let [i10, i20, i30, i11, i21, i12] = lifted(z, (radius, slope), up);
            let w = (q + b * c + g * s) * turn;
            sum.zero -= i10 * w;
            sum.first -= DVec3::new(b * i10 + i20 * c, g * i10 + i20 * s, i11) * w;
            sum.square -= DVec3::new(b * b * i10 + 2.0 * b * i20 * c + i30 * c * c, g * g * i10 + 2.0 * g * i20 * s + i30 * s * s, i12) * w;
            sum.mixed -= DVec3::new(g * i11 + i21 * s, b * i11 + i21 * c, b * g * i10 + i20 * (b * s + g * c) + i30 * c * s) * w;
            sum.surface -= i10 * turn * (1.0 + slope * slope).sqrt();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge;
    use crate::solid::build::{Segment, extrude, turned};
    use kurbo::Point;

    fn skew() -> Frame {
        let axis = DVec3::new(1.0, 2.0, -2.0) / 3.0;
        let x = DVec3::new(2.0, 1.0, 2.0) / 3.0;
        Frame { origin: DVec3::new(300.0, -20.0, 7.0), axis, x }
    }

    fn close(a: f64, b: f64, scale: f64) -> bool {
        (a - b).abs() <= 1e-12 * scale
    }

    /// Box of a × b × c: m/12 (b² + c²) about its centroid.
    #[test]
    fn a_box_anywhere_has_the_inertia_of_the_textbook() {
        let corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)].map(|p| (Point::from(p), 0.0));
        let frame = skew();
        let m = mass(&extrude(&[Edge::chain(&corners, true)], 10.0, &frame).unwrap());
        assert!(close(m.volume, 6000.0, 6e3) && close(m.surface, 2200.0, 2e3));
        let centre = frame.origin + frame.x * 15.0 + frame.y() * 10.0 + frame.axis * 5.0;
        assert!((m.centroid - centre).length() < 1e-11);
        for (along, both) in [(frame.x, 400.0 + 100.0), (frame.y(), 900.0 + 100.0), (frame.axis, 900.0 + 400.0)] {
            let about = along.dot(m.inertia * along);
            assert!(close(about, 500.0 * both, 1e7), "{about}");
        }
        assert!(frame.x.dot(m.inertia * frame.axis).abs() < 1e-5);
    }

    /// A plate with arcs of both senses and a hole, by its faces and by its section.
    #[test]
    fn a_prism_weighs_the_same_built_or_not() {
        let corners = [(0.0, 0.0, 0.3), (30.0, 0.0, 0.0), (40.0, 20.0, -0.5), (0.0, 25.0, 0.0)].map(|(x, y, b)| (Point::new(x, y), b));
        let region = [Edge::chain(&corners, true), vec![Edge::circle(Point::new(12.0, 9.0), 4.0).reversed()]];
        let frame = skew();
        let (built, reckoned) = (mass(&extrude(&region, 7.0, &frame).unwrap()), prism(&region, 7.0, &frame));
        assert!(close(built.volume, reckoned.volume, 1e4) && close(built.surface, reckoned.surface, 1e4));
        assert!((built.centroid - reckoned.centroid).length() < 1e-11);
        assert!((built.inertia - reckoned.inertia).to_cols_array().iter().all(|d| d.abs() < 1e-12 * 1e7));
    }

    /// Cylinder: m r²/2 about its axis, m (3 r² + h²)/12 across; half cylinder: centroid 4r/3π from its flat.
    #[test]
    fn cylinders_have_the_inertia_of_the_textbook() {
        let frame = skew();
        let (r, h) = (12.0, 50.0);
        let m = mass(&extrude(&[vec![Edge::circle(Point::new(5.0, 0.0), r)]], h, &frame).unwrap());
        let volume = PI * r * r * h;
        assert!(close(m.volume, volume, volume) && close(m.surface, TAU * r * (r + h), volume));
        assert!(close(frame.axis.dot(m.inertia * frame.axis), volume * r * r / 2.0, volume * 1e4));
        assert!(close(frame.x.dot(m.inertia * frame.x), volume * (3.0 * r * r + h * h) / 12.0, volume * 1e4));
        let half = Edge::chain(&[(Point::new(r, 0.0), 1.0), (Point::new(-r, 0.0), 0.0)], true);
        let m = mass(&extrude(&[half], h, &frame).unwrap());
        assert!(close(m.volume, volume / 2.0, volume));
        let centre = frame.origin + frame.y() * (4.0 * r / (3.0 * PI)) + frame.axis * (h / 2.0);
        assert!((m.centroid - centre).length() < 1e-11);
        // 1/2 m r² about the circle's axis, less the shift to the centroid.
        let shift = 4.0 * r / (3.0 * PI);
        assert!(close(frame.axis.dot(m.inertia * frame.axis), volume / 2.0 * (r * r / 2.0 - shift * shift), volume * 1e4));
    }

    /// Frustum: πh/3 (R² + Rr + r²), centroid h/4 (R² + 2Rr + 3r²)/(R² + Rr + r²), 3/10 m (R⁵ − r⁵)/(R³ − r³) about its axis.
    #[test]
    fn a_frustum_has_the_moments_of_the_textbook() {
        let (big, small, h) = (20.0_f64, 12.0_f64, 30.0);
        let frame = skew();
        let body = turned(&[Segment { from: 0.0, to: h, diameters: [2.0 * big, 2.0 * small], bores: [0.0, 0.0] }], &frame).unwrap();
        let m = mass(&body);
        let sum = big * big + big * small + small * small;
        let volume = PI * h / 3.0 * sum;
        assert!(close(m.volume, volume, volume));
        let up = h / 4.0 * (big * big + 2.0 * big * small + 3.0 * small * small) / sum;
        assert!((m.centroid - frame.origin - frame.axis * up).length() < 1e-11);
        let about = 0.3 * volume * (big.powi(5) - small.powi(5)) / (big.powi(3) - small.powi(3));
        assert!(close(frame.axis.dot(m.inertia * frame.axis), about, volume * 1e4));
        assert!(close(m.surface, PI * (big * big + small * small) + PI * (big + small) * 8.0_f64.hypot(h), volume));
    }
}
