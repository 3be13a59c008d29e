//! A plate ready to be cut: closed contours, marks to be scribed, bend lines. Free of any file format.
//!
//! All in real mm, lower left corner of the outline at (0, 0). It knows no machine and no parts list;
//! whoever makes one promises that contours are closed and do not cross.

use super::mark::{PlanePoint, Shape};

/// How contours are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CutFormat {
    /// DXF R2010, closed polylines with bulges, circles.
    Polylines,
    /// DXF R2010, lines, arcs, circles.
    LinesAndArcs,
    /// DXF R12, POLYLINE with VERTEX, circles.
    R12,
}

impl CutFormat {
    /// All of them.
    pub const ALL: [CutFormat; 3] = [Self::Polylines, Self::LinesAndArcs, Self::R12];
}

/// One plate.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPlate {
    /// File name without extension.
    pub name: String,
    /// What it is, for the file's properties.
    pub title: String,
    /// Closed contours, the outline first: closed polylines and circles.
    pub contours: Vec<Shape<PlanePoint>>,
    /// Lines to be scribed: part mark, centres of holes to be drilled.
    pub marks: Vec<Shape<PlanePoint>>,
    /// Bend lines.
    pub bends: Vec<Shape<PlanePoint>>,
}
