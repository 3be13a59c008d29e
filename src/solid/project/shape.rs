//! What a projection needs to know of a body before any view is chosen: which faces meet at an edge, which edges are
//! smooth or seams, how far each arc turns, and the arcs that bound each round face in its own angle and height.
//!
//! In: a body in its own frame. Out: indices and angles that every placement and every view share. Nothing here
//! checks the body; a broken body gives a broken picture, not a panic.

use std::f64::consts::{PI, TAU};

use glam::DVec3;

use crate::solid::brep::{Brep, Curve, Edge, Face, Frame, Saddle, Surface};

/// No face.
pub(crate) const NONE: u32 = u32::MAX;

/// Two normals closer than this cosine belong to one smooth surface (about 0.08°).
const SMOOTH: f64 = 1.0 - 1e-6;

/// Axes and radii closer than this are one, mm.
const ONE: f64 = 1e-6;

/// A body made ready for views.
#[derive(Debug)]
pub(crate) struct Shape {
    /// One for each edge of the body.
    pub edges: Vec<EdgeNote>,
    /// One for each face of the body; empty for planes.
    pub arcs: Vec<Vec<FaceArc>>,
}

/// What is known of an edge.
#[derive(Debug, Clone, Copy)]
pub(crate) struct EdgeNote {
    /// The two faces that meet here.
    pub faces: [u32; 2],
    /// Both uses are by one face: a seam, never drawn.
    pub seam: bool,
    /// The faces lie on one surface: no edge of the body's form, never drawn.
    pub blank: bool,
    /// The faces meet without a kink.
    pub smooth: bool,
    /// An arc's first angle in its own frame, rad.
    pub start: f64,
    /// How far an arc turns, rad, up to a full turn.
    pub sweep: f64,
}

/// An arc that bounds a round face, in the face's own angle and height.
#[derive(Debug, Clone, Copy)]
pub(crate) struct FaceArc {
    /// Along the face's axis from its origin, mm; of a saddle where its bow begins.
    pub height: f64,
    /// How the height goes with the angle.
    pub bow: Bow,
    /// First angle about the face's axis, rad.
    pub start: f64,
    /// How far it goes on from there, rad.
    pub sweep: f64,
}

/// How the height of an arc goes with the angle about the face's axis.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Bow {
    /// Not at all.
    Level,
    /// Of a saddle on the mill's cylinder: the bar's height over the angle from `zero`.
    Mill { zero: f64, mill: f64, bar: f64 },
    /// Of a saddle on the bar's cylinder: the mill's reach along the bar, to the side of `sign`.
    Bar { zero: f64, mill: f64, bar: f64, sign: f64 },
}

impl FaceArc {
    /// Its height at an angle that it holds, mm.
    pub fn at(&self, angle: f64) -> f64 {
        let root = |square: f64| square.max(0.0).sqrt();
        self.height
            + match self.bow {
                Bow::Level => 0.0,
                Bow::Mill { zero, mill, bar } => root(bar * bar - (mill * (angle - zero).cos()).powi(2)),
                Bow::Bar { zero, mill, bar, sign } => sign * root(mill * mill - (bar * (angle - zero).sin()).powi(2)),
            }
    }
    /// Whether the angle lies on the arc (first end in, last end out).
    pub fn holds(&self, angle: f64) -> bool {
        self.sweep >= TAU - 1e-9 || (angle - self.start).rem_euclid(TAU) < self.sweep
    }
}

impl Shape {
    /// Reads a body.
    pub fn of(brep: &Brep) -> Self {
        let mut edges: Vec<EdgeNote> = brep.edges.iter().map(|edge| turn(brep, edge)).collect();
        for (index, face) in (0u32..).zip(&brep.faces) {
            for used in face.loops.iter().flatten() {
                if let Some(note) = edges.get_mut(used.edge) {
                    if note.faces[0] == NONE {
                        note.faces[0] = index;
                    } else {
                        note.seam = note.faces[0] == index;
                        note.faces[1] = index;
                    }
                }
            }
        }
        for (edge, note) in brep.edges.iter().zip(&mut edges) {
            let at = middle(brep, edge, note);
            let normal = |face: u32| brep.faces.get(face as usize).map(|face| normal(face, at));
            note.smooth = match (normal(note.faces[0]), normal(note.faces[1])) {
                (Some(one), Some(two)) => one.dot(two) > SMOOTH,
                _ => false,
            };
            let face = |face: u32| brep.faces.get(face as usize).map(|face| &face.surface);
            if let (true, Some(one), Some(two)) = (note.smooth, face(note.faces[0]), face(note.faces[1])) {
                note.blank = one_surface(one, two);
            }
        }
        let arcs = brep.faces.iter().map(|face| face_arcs(brep, face, &edges)).collect();
        Self { edges, arcs }
    }
}

/// An edge's note with its turn, its faces still open.
fn turn(brep: &Brep, edge: &Edge) -> EdgeNote {
    let (start, sweep) = match edge.curve {
        Curve::Line => (0.0, 0.0),
        Curve::Saddle(_) => (0.0, PI),
        Curve::Circle(frame, _) => {
            let start = angle(&frame, brep.vertices[edge.from]);
            if edge.from == edge.to { (start, TAU) } else { (start, (angle(&frame, brep.vertices[edge.to]) - start).rem_euclid(TAU)) }
        }
    };
    EdgeNote { faces: [NONE; 2], seam: false, blank: false, smooth: false, start, sweep }
}

/// The angle of a point about a frame's axis, rad.
fn angle(frame: &Frame, at: DVec3) -> f64 {
    let from = at - frame.origin;
    from.dot(frame.y()).atan2(from.dot(frame.x))
}

/// The middle of an edge, mm.
fn middle(brep: &Brep, edge: &Edge, note: &EdgeNote) -> DVec3 {
    match edge.curve {
        Curve::Line => (brep.vertices[edge.from] + brep.vertices[edge.to]) / 2.0,
        Curve::Circle(frame, radius) => {
            let (sin, cos) = (note.start + note.sweep / 2.0).sin_cos();
            frame.origin + (frame.x * cos + frame.y() * sin) * radius
        }
        Curve::Saddle(saddle) => saddle.at(note.start + note.sweep / 2.0),
    }
}

/// A face's outward normal at a point on it, unit length.
pub(crate) fn normal(face: &Face, at: DVec3) -> DVec3 {
    let own = match face.surface {
        Surface::Plane(frame) => frame.axis,
        Surface::Cylinder(frame, _) => across(&frame, at),
        Surface::Cone(frame, _, slope) => (across(&frame, at) - frame.axis * slope).normalize_or_zero(),
    };
    if face.outward { own } else { -own }
}

/// Whether two surfaces that touch without a kink are one.
fn one_surface(one: &Surface, two: &Surface) -> bool {
    match (one, two) {
        (Surface::Plane(_), Surface::Plane(_)) => true,
        (Surface::Cylinder(one, r1), Surface::Cylinder(two, r2)) => {
            let off = (two.origin - one.origin).cross(one.axis).length();
            (r1 - r2).abs() < ONE && off < ONE && one.axis.cross(two.axis).length() < ONE / r1.max(1.0)
        }
        _ => false,
    }
}

/// The direction from a frame's axis to a point, unit length.
fn across(frame: &Frame, at: DVec3) -> DVec3 {
    let from = at - frame.origin;
    (from - frame.axis * from.dot(frame.axis)).normalize_or_zero()
}

/// The arcs that bound a round face; none for a plane. A cone that runs to its tip gets the tip as one more arc.
fn face_arcs(brep: &Brep, face: &Face, edges: &[EdgeNote]) -> Vec<FaceArc> {
    let (frame, tip) = match face.surface {
        Surface::Plane(_) => return Vec::new(),
        Surface::Cylinder(frame, _) => (frame, None),
        Surface::Cone(frame, radius, slope) => (frame, Some(-radius / slope)),
    };
    let mut arcs = Vec::new();
    for used in face.loops.iter().flatten() {
        let edge = &brep.edges[used.edge];
        if let Curve::Circle(own, _) = edge.curve {
            let first = if own.axis.dot(frame.axis) > 0.0 { edge.from } else { edge.to };
            let height = (own.origin - frame.origin).dot(frame.axis);
            let start = angle(&frame, brep.vertices[first]);
            arcs.push(FaceArc { height, bow: Bow::Level, start, sweep: edges[used.edge].sweep });
        }
        if let Curve::Saddle(saddle) = edge.curve {
            arcs.push(saddled(brep, edge, &saddle, &frame));
        }
    }
    if let ([only], Some(height)) = (arcs.as_slice(), tip) {
        let tip = FaceArc { height, ..*only };
        arcs.push(tip);
    }
    arcs
}

/// A saddle as it bounds the mill's cylinder or the bar's, by the frame of the face.
fn saddled(brep: &Brep, edge: &Edge, saddle: &Saddle, frame: &Frame) -> FaceArc {
    let own = &saddle.frame;
    let height = (own.origin - frame.origin).dot(frame.axis);
    let [from, to] = [edge.from, edge.to].map(|v| angle(frame, brep.vertices[v]));
    if own.axis.dot(frame.axis).abs() > 0.5 {
        let (start, zero) = (if own.axis.dot(frame.axis) > 0.0 { from } else { to }, angle(frame, frame.origin + own.x));
        return FaceArc { height, bow: Bow::Mill { zero, mill: saddle.mill, bar: saddle.bar }, start, sweep: PI };
    }
    let turn = (to - from).rem_euclid(TAU);
    let (start, sweep) = if turn < PI { (from, turn) } else { (to, TAU - turn) };
    let zero = angle(frame, frame.origin + own.axis);
    let sign = own.y().dot(frame.axis).signum();
    FaceArc { height, bow: Bow::Bar { zero, mill: saddle.mill, bar: saddle.bar, sign }, start, sweep }
}
