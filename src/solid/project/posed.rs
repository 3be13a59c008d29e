//! A body and its faces turned before the viewer.

use glam::{DAffine3, DMat3, DVec3};

use super::front::RoundFace;
use super::lines::Placed;
use super::path::Curve3;
use super::shape::{EdgeNote, Shape};
use crate::solid::brep::{Brep, Curve, Edge, Surface};

/// A face whose normal leans less than this toward the viewer is seen on edge.
pub(crate) const FACING: f64 = 1e-7;

/// A body in the space of a view.
pub(crate) struct Posed<'a> {
    /// The body.
    pub brep: &'a Brep,
    /// What is known of it.
    pub shape: &'a Shape,
    /// Its edges in the space of the view.
    pub curves: Vec<Curve3>,
    turn: DMat3,
    shift: DVec3,
}

/// A face in the space of a view.
pub(crate) enum PosedFace<'a> {
    /// By its outward normal.
    Plane(DVec3),
    /// Round.
    Round(RoundFace<'a>),
}

/// An edge moved to where a placement puts it, given the body's corners there.
pub(crate) fn curve(edge: &Edge, note: &EdgeNote, points: &[DVec3], at: &DAffine3) -> Curve3 {
    match edge.curve {
        Curve::Line => Curve3::Line(points[edge.from], points[edge.to]),
        Curve::Circle(frame, radius) => Curve3::Round {
            centre: at.transform_point3(frame.origin),
            x: at.matrix3 * frame.x * radius,
            y: at.matrix3 * frame.y() * radius,
            from: note.start,
            to: note.start + note.sweep,
        },
        Curve::Saddle(s) => Curve3::Saddle {
            centre: at.transform_point3(s.frame.origin),
            x: at.matrix3 * s.frame.x * s.mill,
            y: at.matrix3 * s.frame.y() * s.mill,
            up: at.matrix3 * s.frame.axis,
            bar: s.bar,
            from: note.start,
            to: note.start + note.sweep,
        },
    }
}

impl<'a> Posed<'a> {
    /// Puts a body before the viewer.
    pub fn new(placed: &Placed<'a>, shape: &'a Shape, view: DMat3) -> Self {
        let (turn, shift) = (view * placed.at.matrix3, view * placed.at.translation);
        let brep = placed.brep;
        let points: Vec<DVec3> = brep.vertices.iter().map(|v| turn * *v + shift).collect();
        let at = DAffine3 { matrix3: turn, translation: shift };
        let curves = brep.edges.iter().zip(&shape.edges).map(|(edge, note)| curve(edge, note, &points, &at)).collect();
        Self { brep, shape, curves, turn, shift }
    }

    /// A face by its index.
    pub fn face(&self, index: usize) -> PosedFace<'a> {
        let face = &self.brep.faces[index];
        let outward = if face.outward { 1.0 } else { -1.0 };
        let (frame, radius, slope) = match face.surface {
            Surface::Plane(frame) => return PosedFace::Plane(self.turn * frame.axis * outward),
            Surface::Cylinder(frame, radius) => (frame, radius, 0.0),
            Surface::Cone(frame, radius, slope) => (frame, radius, slope),
        };
        PosedFace::Round(RoundFace {
            origin: self.turn * frame.origin + self.shift,
            axes: [self.turn * frame.axis, self.turn * frame.x, self.turn * frame.y()],
            radius,
            slope,
            outward,
            arcs: &self.shape.arcs[index],
        })
    }

    /// The bounds of a face, without seams.
    pub fn bounds(&self, index: usize) -> Vec<Curve3> {
        let uses = self.brep.faces[index].loops.iter().flatten();
        uses.filter(|used| !self.shape.edges[used.edge].seam).map(|used| self.curves[used.edge]).collect()
    }

    /// Least and greatest `normal · point`.
    pub fn extent(&self, normal: DVec3) -> (f64, f64) {
        let each = self.curves.iter().map(|curve| curve.extent(normal));
        each.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (a, b)| (low.min(a), high.max(b)))
    }
}

impl PosedFace<'_> {
    /// How far the face leans toward the viewer at a point on it; only the sign and near-zero matter.
    pub fn facing(&self, at: DVec3) -> f64 {
        match self {
            Self::Plane(normal) => normal.z,
            Self::Round(face) => {
                let from = at - face.origin;
                let across = (from - face.axes[0] * from.dot(face.axes[0])).normalize_or_zero();
                face.outward * (across.z - face.slope * face.axes[0].z)
            }
        }
    }

    /// Whether any of it may look at the viewer.
    pub fn fronts(&self) -> bool {
        match self {
            Self::Plane(normal) => normal.z > FACING,
            Self::Round(RoundFace { axes: [axis, x, y], slope, outward, .. }) => x.z.hypot(y.z) - outward * slope * axis.z > FACING,
        }
    }
}
