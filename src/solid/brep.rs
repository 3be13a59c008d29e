//! A body as its boundary: vertices, edges, faces; planes, cylinders and cones bounded by lines, circular arcs and the
//! ends of milled slots.
//!
//! Lengths in mm, in the body's own right-handed frame. Every edge is used by exactly two face loops, once forward
//! and once reversed; loops run counter-clockwise seen from outside the body. A full circle is one edge whose two
//! vertices are the same; a full cylinder or cone carries a seam edge that its face uses in both directions.

use glam::DVec3;

/// An origin with a direction that the thing turns about or faces, and a direction across it; right-handed, unit length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where it is, mm.
    pub origin: DVec3,
    /// Normal of a plane, axis of a round thing.
    pub axis: DVec3,
    /// Zero of the angle about the axis; square to it.
    pub x: DVec3,
}

impl Frame {
    /// The third direction: `axis × x`.
    pub fn y(&self) -> DVec3 {
        self.axis.cross(self.x)
    }
}

/// The body's own frame: what is drawn in (x, y) lies flat, its heights are z.
pub const FLAT: Frame = Frame { origin: DVec3::ZERO, axis: DVec3::Z, x: DVec3::X };

/// Where the round end of a milled slot comes out of a round bar: the half turn of the mill from the frame's x over its y
/// to the other side. Two cylinders whose axes meet at a right angle cross in it, the mill's along the frame's axis, the
/// bar's along its y, both through its origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saddle {
    /// Where the mill's axis meets the bar's; the axis points out of the bar, y along it.
    pub frame: Frame,
    /// Radius of the mill, mm; less than the bar's.
    pub mill: f64,
    /// Radius of the bar, mm.
    pub bar: f64,
}

impl Saddle {
    /// The point at an angle of the mill, 0 to π.
    pub fn at(&self, angle: f64) -> DVec3 {
        let (sin, cos) = angle.sin_cos();
        let across = self.mill * cos;
        let up = (self.bar * self.bar - across * across).max(0.0).sqrt();
        self.frame.origin + self.frame.x * across + self.frame.y() * (self.mill * sin) + self.frame.axis * up
    }
    /// How the point moves with the angle, mm/rad.
    pub fn rate(&self, angle: f64) -> DVec3 {
        let (sin, cos) = angle.sin_cos();
        let across = self.mill * cos;
        let up = (self.bar * self.bar - across * across).max(f64::MIN_POSITIVE).sqrt();
        self.frame.x * (-self.mill * sin) + self.frame.y() * across + self.frame.axis * (across * self.mill * sin / up)
    }
}

/// What an edge follows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Curve {
    /// Straight.
    Line,
    /// Counter-clockwise about the frame's axis, from the edge's first vertex to its second.
    Circle(Frame, f64),
    /// From the mill's angle 0 to π.
    Saddle(Saddle),
}

/// An edge of a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Where it begins, by index into the vertices.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// What it follows between them.
    pub curve: Curve,
}

/// What a face lies on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// The plane through the frame's origin square to its axis.
    Plane(Frame),
    /// Radius about the frame's axis.
    Cylinder(Frame, f64),
    /// Radius at the frame's origin and the tangent of the half angle: the radius grows by it along the axis.
    Cone(Frame, f64, f64),
}

/// An edge as a loop uses it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Use {
    /// Index into the edges.
    pub edge: usize,
    /// From its first vertex to its second, or back.
    pub forward: bool,
}

/// A face of a body.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// What it lies on.
    pub surface: Surface,
    /// Whether the surface's own normal (the frame's axis; away from the axis for round ones) points out of the body.
    pub outward: bool,
    /// Its bounds; the outer one first.
    pub loops: Vec<Vec<Use>>,
}

/// A closed body.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Brep {
    /// Corners, mm.
    pub vertices: Vec<DVec3>,
    /// Edges.
    pub edges: Vec<Edge>,
    /// Faces.
    pub faces: Vec<Face>,
}
