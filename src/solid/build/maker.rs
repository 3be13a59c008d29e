//! What every builder does with a body in the making: vertices, edges, faces.

use crate::geometry;
use crate::solid::brep::{Brep, Curve, Edge, Face, Frame, Surface, Use};
use glam::DVec3;
use kurbo::{Point, Vec2};

/// A body in the making.
#[derive(Debug, Default)]
pub(super) struct Maker {
    pub(super) body: Brep,
}

/// The edge as it was made.
pub(super) const fn ahead(edge: usize) -> Use {
    Use { edge, forward: true }
}

/// The edge against the way it was made.
pub(super) const fn back(edge: usize) -> Use {
    Use { edge, forward: false }
}

/// Uses of a chain the other way round.
pub(super) fn against(chain: &[Use]) -> impl Iterator<Item = Use> + '_ {
    chain.iter().rev().map(|u| Use { edge: u.edge, forward: !u.forward })
}

/// A plane of the body that flat things are drawn in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sheet {
    pub(super) origin: DVec3,
    pub(super) x: DVec3,
    pub(super) y: DVec3,
    /// Its normal.
    pub(super) axis: DVec3,
}

impl Sheet {
    pub(super) fn new(frame: &Frame) -> Self {
        Self { origin: frame.origin, x: frame.x, y: frame.y(), axis: frame.axis }
    }
    /// Moved along its normal, mm.
    pub(super) fn lifted(&self, by: f64) -> Self {
        Self { origin: self.origin + self.axis * by, ..*self }
    }
    pub(super) fn point(&self, p: Point) -> DVec3 {
        self.origin + self.x * p.x + self.y * p.y
    }
    pub(super) fn direction(&self, d: Vec2) -> DVec3 {
        self.x * d.x + self.y * d.y
    }
    /// The plane as a surface.
    pub(super) const fn plane(&self) -> Surface {
        Surface::Plane(Frame { origin: self.origin, axis: self.axis, x: self.x })
    }
    /// What an edge drawn in it follows.
    pub(super) fn curve(&self, edge: &geometry::Edge) -> Curve {
        match edge {
            geometry::Edge::Straight(_) => Curve::Line,
            geometry::Edge::Round { arc, from, .. } => {
                let axis = if arc.sweep_angle > 0.0 { self.axis } else { -self.axis };
                let x = self.direction((*from - arc.center) / arc.radii.x);
                Curve::Circle(Frame { origin: self.point(arc.center), axis, x }, arc.radii.x)
            }
        }
    }
    /// The surface that an edge sweeps along the normal, and whether the surface's normal points to the right of the edge.
    pub(super) fn swept(&self, edge: &geometry::Edge) -> (Surface, bool) {
        match edge {
            geometry::Edge::Straight(line) => {
                let x = self.direction((line.p1 - line.p0).normalize());
                (Surface::Plane(Frame { origin: self.point(line.p0), axis: x.cross(self.axis), x }), true)
            }
            geometry::Edge::Round { arc, from, .. } => {
                let x = self.direction((*from - arc.center) / arc.radii.x);
                (Surface::Cylinder(Frame { origin: self.point(arc.center), axis: self.axis, x }, arc.radii.x), arc.sweep_angle > 0.0)
            }
        }
    }
}

impl Maker {
    pub(super) fn vertex(&mut self, p: DVec3) -> usize {
        self.body.vertices.push(p);
        self.body.vertices.len() - 1
    }
    pub(super) fn edge(&mut self, from: usize, to: usize, curve: Curve) -> usize {
        self.body.edges.push(Edge { from, to, curve });
        self.body.edges.len() - 1
    }
    pub(super) fn line(&mut self, from: usize, to: usize) -> usize {
        self.edge(from, to, Curve::Line)
    }
    pub(super) fn face(&mut self, surface: Surface, outward: bool, loops: Vec<Vec<Use>>) {
        self.body.faces.push(Face { surface, outward, loops });
    }
}
