//! What a view is asked for, and what it answers with.

use crate::solid::brep::Brep;
use glam::{DAffine3, DMat3, DVec3};

/// A body in its place.
#[derive(Debug, Clone, Copy)]
pub struct Placed<'a> {
    /// The body, in its own frame.
    pub brep: &'a Brep,
    /// From the body's frame to the model's, mm; rigid, it may change handedness.
    pub at: DAffine3,
    /// The caller's number for it; comes back with every line.
    pub id: usize,
    /// Whether its hidden lines are wanted.
    pub hidden: bool,
    /// Whether sections leave it whole: bolts, shafts, keys (ISO 128-3, from memory).
    pub whole: bool,
}

/// Where a viewer looks from; three unit vectors in the model's frame, square to one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// To the right on paper.
    pub right: DVec3,
    /// Up on paper.
    pub up: DVec3,
    /// From the model to the viewer. Given, not reckoned from the other two, so that the model may be of either hand.
    pub toward: DVec3,
}

impl View {
    /// From the model's frame to right, up and toward the viewer.
    pub(crate) fn matrix(&self) -> DMat3 {
        DMat3::from_cols(self.right, self.up, self.toward).transpose()
    }
}

/// A cutting plane in the model's frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// A point on it, mm.
    pub at: DVec3,
    /// Unit normal toward the side that is taken away; toward the viewer in a common section.
    pub away: DVec3,
}

/// A drawn piece, mm, x to the right and y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stroke {
    /// Straight.
    Line(kurbo::Line),
    /// An arc of a circle or an ellipse, up to a full turn.
    Arc(kurbo::Arc),
}

/// What a line stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A sharp edge.
    Edge,
    /// An edge between two surfaces that go over into each other: drawn thin or left out (ISO 128-2 imaginary edges, from
    /// memory).
    Smooth,
    /// Where a round face turns away from the viewer.
    Outline,
    /// The bound of a cut region.
    Cut,
}

/// A line of a view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line2 {
    /// The id of the placed body.
    pub body: usize,
    /// Seen, or hidden behind a body.
    pub seen: bool,
    /// What it stands for.
    pub kind: Kind,
    /// Where it runs.
    pub stroke: Stroke,
}

/// Where a plane cuts a body.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// The id of the placed body.
    pub body: usize,
    /// Closed loops end to start, outer ones and holes in any order and sense: fill them by the even-odd rule.
    pub loops: Vec<Vec<Stroke>>,
}

/// A section view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Section {
    /// Its lines, the bounds of the cut regions with them.
    pub lines: Vec<Line2>,
    /// What is to be hatched. A body that is kept whole or looks at the plane from behind has none.
    pub cuts: Vec<Cut>,
}
