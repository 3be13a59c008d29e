//! Whether a body is sound: closed, joined, its parts where they say they are.
//!
//! In: a body. Out: plain findings, none for a sound body. Self-intersection is not looked for.

use crate::solid::brep::{Brep, Curve, Edge, Frame, Surface, Use};
use crate::solid::mass::mass;
use glam::DVec3;
use std::f64::consts::PI;
use std::fmt;

/// How far vertices and edges may be off what they lie on, mm.
const NEAR: f64 = 1e-6;

/// What is wrong with a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finding {
    /// An edge is not used once forward and once reversed.
    Uses {
        /// Which edge.
        edge: usize,
        /// How often forward.
        forward: usize,
        /// How often reversed.
        reversed: usize,
    },
    /// A loop is empty, or an edge of it does not begin where the one before ends.
    Loop {
        /// Whose loop.
        face: usize,
    },
    /// An index points at nothing.
    Missing,
    /// An edge's end is off its curve, or the edge has no length.
    Curve {
        /// Which edge.
        edge: usize,
    },
    /// An edge is off a face that it bounds.
    Surface {
        /// Which face.
        face: usize,
        /// Which edge.
        edge: usize,
    },
    /// A frame is not of unit length, square and right-handed, or a radius is not positive.
    Frame {
        /// Of which face.
        face: usize,
    },
    /// The faces look inward, or enclose nothing.
    Volume(f64),
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Uses { edge, forward, reversed } => write!(f, "edge {edge} is used {forward} times forward and {reversed} times reversed"),
            Self::Loop { face } => write!(f, "a loop of face {face} is not closed"),
            Self::Missing => f.write_str("an index points at nothing"),
            Self::Curve { edge } => write!(f, "edge {edge} does not end on its curve"),
            Self::Surface { face, edge } => write!(f, "edge {edge} does not lie on face {face}"),
            Self::Frame { face } => write!(f, "the frame or radius of face {face} is not sound"),
            Self::Volume(v) => write!(f, "the volume is {v} mm³"),
        }
    }
}

/// What is wrong with a body.
pub fn check(body: &Brep) -> Vec<Finding> {
    if !indices_hold(body) {
        return vec![Finding::Missing];
    }
    let mut out = Vec::new();
    uses(body, &mut out);
    for (i, edge) in body.edges.iter().enumerate() {
        if !on_curve(body, edge) {
            out.push(Finding::Curve { edge: i });
        }
    }
    for (i, face) in body.faces.iter().enumerate() {
        if face.loops.is_empty() || !face.loops.iter().all(|l| connected(body, l)) {
            out.push(Finding::Loop { face: i });
        }
        if !sound(&face.surface) {
            out.push(Finding::Frame { face: i });
        }
        for u in face.loops.iter().flatten() {
            if let Some(edge) = body.edges.get(u.edge)
                && !on_surface(body, edge, &face.surface)
            {
                out.push(Finding::Surface { face: i, edge: u.edge });
            }
        }
    }
    let volume = mass(body).volume;
    if volume.is_nan() || volume <= 0.0 {
        out.push(Finding::Volume(volume));
    }
    out
}

fn indices_hold(body: &Brep) -> bool {
    let n = body.vertices.len();
    body.edges.iter().all(|e| e.from < n && e.to < n) && body.faces.iter().flat_map(|f| &f.loops).flatten().all(|u| u.edge < body.edges.len())
}

fn uses(body: &Brep, out: &mut Vec<Finding>) {
    let mut count = vec![[0_usize; 2]; body.edges.len()];
    for u in body.faces.iter().flat_map(|f| &f.loops).flatten() {
        if let Some([forward, reversed]) = count.get_mut(u.edge) {
            if u.forward { *forward += 1 } else { *reversed += 1 }
        }
    }
    let odd = count.iter().enumerate().filter(|(_, c)| **c != [1, 1]);
    out.extend(odd.map(|(edge, &[forward, reversed])| Finding::Uses { edge, forward, reversed }));
}

/// Whether the edges of a loop follow one another.
fn connected(body: &Brep, uses: &[Use]) -> bool {
    let ends = |u: &Use| body.edges.get(u.edge).map(|e| if u.forward { (e.from, e.to) } else { (e.to, e.from) });
    let next = uses.iter().cycle().skip(1);
    !uses.is_empty() && uses.iter().zip(next).all(|(a, b)| ends(a).map(|e| e.1) == ends(b).map(|e| e.0))
}

fn vertex(body: &Brep, i: usize) -> DVec3 {
    body.vertices.get(i).copied().unwrap_or(DVec3::NAN)
}

fn on_curve(body: &Brep, edge: &Edge) -> bool {
    let (a, b) = (vertex(body, edge.from), vertex(body, edge.to));
    match &edge.curve {
        Curve::Line => edge.from != edge.to && a.distance(b) > NEAR,
        Curve::Circle(frame, r) => {
            let on = |p: DVec3| {
                let d = p - frame.origin;
                d.dot(frame.axis).abs() <= NEAR && (d.length() - r).abs() <= NEAR
            };
            true_frame(frame) && *r > NEAR && on(a) && on(b) && (edge.from == edge.to || a.distance(b) > NEAR)
        }
        Curve::Saddle(s) => true_frame(&s.frame) && s.mill > NEAR && s.bar > s.mill && a.distance(s.at(0.0)) <= NEAR && b.distance(s.at(PI)) <= NEAR,
    }
}

fn true_frame(frame: &Frame) -> bool {
    let unit = |v: DVec3| (v.length() - 1.0).abs() < 1e-9;
    unit(frame.axis) && unit(frame.x) && frame.axis.dot(frame.x).abs() < 1e-9
}

fn sound(surface: &Surface) -> bool {
    match surface {
        Surface::Plane(frame) => true_frame(frame),
        Surface::Cylinder(frame, r) => true_frame(frame) && *r > NEAR,
        Surface::Cone(frame, _, slope) => true_frame(frame) && slope.abs() > 1e-12,
    }
}

/// Distance of a point from a surface, mm.
fn off(surface: &Surface, p: DVec3) -> f64 {
    let round = |frame: &Frame, r: f64, slope: f64| {
        let d = p - frame.origin;
        let z = d.dot(frame.axis);
        ((d - frame.axis * z).length() - (r + slope * z)).abs()
    };
    match surface {
        Surface::Plane(frame) => (p - frame.origin).dot(frame.axis).abs(),
        Surface::Cylinder(frame, r) => round(frame, *r, 0.0),
        Surface::Cone(frame, r, slope) => round(frame, *r, *slope),
    }
}

/// Ends and one point between them; three points hold a line or circle on such a surface.
fn on_surface(body: &Brep, edge: &Edge, surface: &Surface) -> bool {
    let (a, b) = (vertex(body, edge.from), vertex(body, edge.to));
    let between = match &edge.curve {
        Curve::Saddle(s) => [s.at(0.9), s.at(PI / 2.0)],
        Curve::Line => [a.midpoint(b); 2],
        Curve::Circle(frame, r) => [frame.origin + frame.x * *r, frame.origin - frame.y() * *r],
    };
    [a, b].iter().chain(&between).all(|p| off(surface, *p) <= NEAR)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge as Plain;
    use crate::solid::brep::FLAT;
    use crate::solid::build::extrude;
    use kurbo::Point;

    fn tube() -> Brep {
        let ring = |r, ccw| vec![if ccw { Plain::circle(Point::ZERO, r) } else { Plain::circle(Point::ZERO, r).reversed() }];
        extrude(&[ring(20.0, true), ring(12.0, false)], 5.0, &FLAT).unwrap()
    }

    #[test]
    fn a_tube_is_sound_and_every_fault_is_found() {
        let body = tube();
        assert_eq!(check(&body), vec![]);
        let mut open = body.clone();
        open.faces.pop();
        assert!(check(&open).contains(&Finding::Uses { edge: 1, forward: 1, reversed: 0 }));
        let mut moved = body.clone();
        moved.vertices[1].x += 0.1;
        assert!(check(&moved).iter().any(|f| matches!(f, Finding::Curve { .. })) && check(&moved).iter().any(|f| matches!(f, Finding::Surface { .. })));
        let mut torn = body.clone();
        torn.faces[0].loops[0].swap(0, 1);
        assert!(check(&torn).contains(&Finding::Loop { face: 0 }));
        let mut turned = body.clone();
        for face in &mut turned.faces {
            for l in &mut face.loops {
                l.reverse();
                l.iter_mut().for_each(|u| u.forward = !u.forward);
            }
        }
        assert!(matches!(check(&turned)[..], [Finding::Volume(v)] if v < 0.0));
        let mut missing = body;
        missing.edges[0].to = 99;
        assert_eq!(check(&missing), vec![Finding::Missing]);
    }
}
