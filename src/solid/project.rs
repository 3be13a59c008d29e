//! Views of bodies: lines that are seen and lines that are hidden, and sections.
//!
//! In: bodies (`Brep`) with their placements, and a view by its three directions. Out: straight pieces and arcs in
//! the view plane, mm, each with the body it belongs to; ordered by body, edge and place, the same on every run.
//! Lines, circles and ellipses stay what they are; what lies on one another is drawn once.
//!
//! Bodies may touch but must not run into one another: the line where two bodies pass through each other is not
//! found. Sizes from 1 to 10 000 mm; what lies closer than 0.01 µm to the same place counts as touching.

use std::collections::HashMap;

use glam::DMat3;

use crate::solid::section::blade::Blade;

mod cross;
pub(crate) mod front;
mod grid;
mod hide;
mod join;
pub(crate) mod lines;
pub(crate) mod path;
mod picture;
pub(crate) mod posed;
pub(crate) mod shape;
mod sight;
#[cfg(test)]
mod tests;

pub use lines::{Cut, Kind, Line2, Placed, Plane, Section, Stroke, View};
use picture::Picture;
use posed::Posed;
use shape::Shape;
pub use sight::{Sight, Spot};

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

    /// The view before anything is hidden; with each body the count of fronts up to its last one; the turn before the viewer.
    fn picture(&self, view: &View, plane: Option<&Plane>) -> (Picture, Vec<(usize, usize)>, DMat3) {
        let matrix = DMat3::from_cols(view.right, view.up, view.toward).transpose();
        let blade = plane.map(|plane| Blade { normal: matrix * plane.away, level: plane.away.dot(plane.at) });
        let mut picture = Picture::default();
        let mut ends = Vec::with_capacity(self.bodies.len());
        for (index, (placed, shape)) in (0u32..).zip(self.bodies.iter().zip(&self.shape)) {
            let posed = Posed::new(placed, &self.shapes[*shape], matrix);
            picture.add(index, placed, &posed, blade);
            ends.push((picture.fronts.len(), placed.id));
        }
        (picture, ends, matrix)
    }

    fn project(&self, view: &View, plane: Option<&Plane>) -> Section {
        let (picture, ..) = self.picture(view, plane);
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
