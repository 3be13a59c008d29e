//! The drawing vocabulary: the few kinds of mark that every exporter can put on paper.
//!
//! All coordinates are paper millimetres, x to the right, y up, origin at the lower left corner of
//! the trimmed sheet. A mark carries finished strokes; an exporter adds nothing and leaves nothing
//! out. A [`Dimension`] carries its meaning as well (anchors, model value), so that a format with
//! real dimensions can write one and still show exactly the same strokes.
//! This module does not promise that marks keep clear of each other; the layout does, and the ink
//! check proves it.

use super::style::{Face, Pattern, Pen};

/// A point on paper, mm from the lower left corner of the trimmed sheet.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct PaperPoint {
    /// To the right, mm.
    pub x: f64,
    /// Up, mm.
    pub y: f64,
}

/// A point in the plane of one view, in real (model) mm; x to the right and y up as the view shows it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct PlanePoint {
    /// To the right in the view, real mm.
    pub x: f64,
    /// Up in the view, real mm.
    pub y: f64,
}

impl PaperPoint {
    /// A point on paper, mm.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
}

impl PlanePoint {
    /// A point in a view plane, real mm.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
}

impl From<PaperPoint> for kurbo::Point {
    fn from(p: PaperPoint) -> Self {
        Self::new(p.x, p.y)
    }
}

impl From<kurbo::Point> for PaperPoint {
    fn from(p: kurbo::Point) -> Self {
        Self::new(p.x, p.y)
    }
}

impl From<PlanePoint> for kurbo::Point {
    fn from(p: PlanePoint) -> Self {
        Self::new(p.x, p.y)
    }
}

/// One corner of a polyline; `bulge` bends the edge to the next corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vertex<P> {
    /// Where the corner is.
    pub at: P,
    /// tan(sweep/4) of the arc to the next corner, positive counter-clockwise; 0 is a straight edge.
    pub bulge: f64,
}

/// A stroke, in paper mm (`P` = [`PaperPoint`]) or real mm of a view (`P` = [`PlanePoint`]).
#[derive(Debug, Clone, PartialEq)]
pub enum Shape<P> {
    /// A straight line.
    Line {
        /// One end.
        from: P,
        /// The other end.
        to: P,
    },
    /// A full circle.
    Circle {
        /// Its centre.
        centre: P,
        /// Its radius, mm.
        radius: f64,
    },
    /// A circular arc.
    Arc {
        /// Its centre.
        centre: P,
        /// Its radius, mm.
        radius: f64,
        /// Angle of its first end from +x, radians, counter-clockwise.
        start: f64,
        /// How far it runs, radians, positive counter-clockwise.
        sweep: f64,
    },
    /// Joined edges, straight or arcs.
    Polyline {
        /// The corners in order.
        vertices: Vec<Vertex<P>>,
        /// Whether the last corner is joined to the first.
        closed: bool,
    },
}

/// A stroke with its pen.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// What is drawn.
    pub shape: Shape<PaperPoint>,
    /// With which pen.
    pub pen: Pen,
}

/// Where a text's reference point lies along its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Align {
    /// At the left end.
    Left,
    /// In the middle.
    Centre,
    /// At the right end.
    Right,
}

/// One line of lettering. The reference point is on the base line.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// What it says: plain Unicode, one line.
    pub content: String,
    /// Reference point on the base line.
    pub at: PaperPoint,
    /// Height of the capitals, mm.
    pub height: f64,
    /// Direction of the base line, degrees, in (−90, 90].
    pub angle: f64,
    /// Where the reference point lies along the line.
    pub align: Align,
    /// Regular or bold.
    pub face: Face,
    /// Layer and colour role.
    pub pen: Pen,
}

/// A filled or hatched region; loops are closed polylines or circles, inner loops are holes.
#[derive(Debug, Clone, PartialEq)]
pub struct Hatch {
    /// Outer loop first, then its holes.
    pub loops: Vec<Shape<PaperPoint>>,
    /// What fills it.
    pub pattern: Pattern,
    /// Layer and line width.
    pub pen: Pen,
}

/// What a dimension measures, with its anchors on paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// Distance along a direction (0° horizontal, 90° vertical, else inclined), degrees.
    Linear {
        /// First measured point.
        first: PaperPoint,
        /// Second measured point.
        second: PaperPoint,
        /// A point on the dimension line (its end below the second measured point).
        line: PaperPoint,
        /// Direction of the dimension line, degrees.
        angle: f64,
    },
    /// Diameter across a circle.
    Diameter {
        /// One end of the measured diameter.
        near: PaperPoint,
        /// The opposite end.
        far: PaperPoint,
    },
    /// Radius of an arc.
    Radius {
        /// Centre of the arc.
        centre: PaperPoint,
        /// Point on the arc.
        on: PaperPoint,
    },
    /// Angle between two lines that meet at a corner.
    Angle {
        /// Where the lines meet.
        corner: PaperPoint,
        /// A point on the first line.
        first: PaperPoint,
        /// A point on the second line, counter-clockwise from the first.
        second: PaperPoint,
        /// A point on the dimension arc.
        arc: PaperPoint,
    },
}

/// A dimension with its finished strokes.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// Stable id of the feature measured, e.g. `inlet.up.sill`.
    pub key: String,
    /// What is measured, with anchors on paper.
    pub measure: Measure,
    /// The model's value: mm for lengths, degrees for angles.
    pub value: f64,
    /// How many real mm one paper mm stands for in the view it belongs to (the view's scale).
    pub real_per_paper: f64,
    /// The text as drawn, e.g. `⌀650` or `8 × 100 = 800`.
    pub text: String,
    /// The finished strokes: lines, arrows (as [`Mark::Hatch`] solids), text.
    pub strokes: Vec<Mark>,
}

/// Marks that belong together, e.g. one view or one table.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Stable id, e.g. `view.elevation`.
    pub id: String,
    /// What is in it.
    pub marks: Vec<Mark>,
}

/// One thing on paper.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A stroke.
    Path(Path),
    /// A line of lettering.
    Text(Text),
    /// A filled or hatched region.
    Hatch(Hatch),
    /// A dimension.
    Dimension(Box<Dimension>),
    /// Marks that belong together.
    Group(Group),
}

impl<P: Copy> Shape<P> {
    /// The same stroke in another space: points by `point`, radii times `scale`.
    ///
    /// `mirrored` says whether `point` turns the plane over; then arcs run the other way and angles
    /// are mirrored in the vertical axis.
    pub fn place<Q>(&self, scale: f64, mirrored: bool, point: impl Fn(P) -> Q) -> Shape<Q> {
        match self {
            Shape::Line { from, to } => Shape::Line { from: point(*from), to: point(*to) },
            Shape::Circle { centre, radius } => Shape::Circle { centre: point(*centre), radius: radius * scale },
            Shape::Arc { centre, radius, start, sweep } => Shape::Arc {
                centre: point(*centre),
                radius: radius * scale,
                start: if mirrored { std::f64::consts::PI - start } else { *start },
                sweep: if mirrored { -sweep } else { *sweep },
            },
            Shape::Polyline { vertices, closed } => Shape::Polyline {
                vertices: vertices.iter().map(|v| Vertex { at: point(v.at), bulge: if mirrored { -v.bulge } else { v.bulge } }).collect(),
                closed: *closed,
            },
        }
    }

    /// A closed polygon with straight edges.
    pub fn polygon(corners: impl IntoIterator<Item = P>) -> Self {
        Shape::Polyline { vertices: corners.into_iter().map(|at| Vertex { at, bulge: 0.0 }).collect(), closed: true }
    }

    /// An open chain of straight edges.
    pub fn chain(corners: impl IntoIterator<Item = P>) -> Self {
        Shape::Polyline { vertices: corners.into_iter().map(|at| Vertex { at, bulge: 0.0 }).collect(), closed: false }
    }
}

impl Mark {
    /// Walks over every mark, groups and dimension strokes opened.
    pub fn walk<'a>(&'a self, see: &mut dyn FnMut(&'a Mark)) {
        see(self);
        match self {
            Mark::Group(g) => g.marks.iter().for_each(|m| m.walk(see)),
            Mark::Dimension(d) => d.strokes.iter().for_each(|m| m.walk(see)),
            _ => {}
        }
    }
}
