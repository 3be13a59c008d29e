//! Views of bodies: lines that are seen and lines that are hidden, and sections.
//!
//! In: bodies ([`Brep`]) with their placements, and a view by its three directions. Out: straight pieces and arcs in
//! the view plane, mm, each with the body it belongs to; ordered by body, edge and place, the same on every run.
//! Lines, circles and ellipses stay what they are; what lies on one another is drawn once.
//!
//! Bodies may touch but must not run into one another: the line where two bodies pass through each other is not
//! found. Sizes from 1 to 10 000 mm; what lies closer than 0.01 µm to the same place counts as touching.

use std::collections::HashMap;

use glam::{DAffine3, DMat3, DVec3};

use crate::solid::brep::Brep;
use crate::solid::section::Blade;

mod cross;
pub(crate) mod front;
mod grid;
mod hide;
mod join;
pub(crate) mod path;
pub(crate) mod picture;
pub(crate) mod shape;
#[cfg(test)]
mod tests;

use picture::{Picture, Posed};
use shape::Shape;

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

/// Bodies ready to be looked at from several sides.
#[derive(Debug)]
pub struct Scene<'a> {
    bodies: Vec<Placed<'a>>,
    shapes: Vec<Shape>,
    /// By placed body, its shape.
    shape: Vec<usize>,
}

impl<'a> Scene<'a> {
    /// Reads the bodies; a body placed often is read once.
    pub fn new(bodies: &[Placed<'a>]) -> Self {
        let mut known = HashMap::new();
        let mut shapes = Vec::new();
        let mut shape = Vec::with_capacity(bodies.len());
        for placed in bodies {
            let index = *known.entry(std::ptr::from_ref(placed.brep)).or_insert_with(|| {
                shapes.push(Shape::of(placed.brep));
                shapes.len() - 1
            });
            shape.push(index);
        }
        Self { bodies: bodies.to_vec(), shapes, shape }
    }

    /// The lines of a view.
    pub fn view(&self, view: &View) -> Vec<Line2> {
        self.project(view, None).lines
    }

    /// The lines of a view with a cutting plane, and the cut regions in the view plane. What lies beyond the plane is
    /// taken away, but bodies marked whole stay whole where the plane meets them. A plane that only touches a body
    /// does not cut it. The plane may lean to the view; regions seen on edge or from behind are not given.
    pub fn section(&self, view: &View, plane: &Plane) -> Section {
        self.project(view, Some(plane))
    }

    fn project(&self, view: &View, plane: Option<&Plane>) -> Section {
        let matrix = DMat3::from_cols(view.right, view.up, view.toward).transpose();
        let blade = plane.map(|plane| Blade { normal: matrix * plane.away, level: plane.away.dot(plane.at) });
        let mut picture = Picture::default();
        for (index, (placed, shape)) in (0u32..).zip(self.bodies.iter().zip(&self.shape)) {
            let posed = Posed::new(placed, &self.shapes[*shape], matrix);
            picture.add(index, placed, &posed, blade);
        }
        let runs = hide::runs(&picture, |body| self.bodies[body as usize].hidden);
        let runs = join::joined(&picture, &runs).into_iter().map(|run| (run, &picture.strands[run.strand]));
        let lines = runs.filter(|(_, strand)| !strand.mute).map(|(run, strand)| Line2 {
            body: self.bodies[strand.body as usize].id,
            seen: run.seen,
            kind: strand.kind,
            stroke: strand.path.stroke(run.from, run.to),
        });
        Section { lines: lines.collect(), cuts: picture.cuts }
    }
}
