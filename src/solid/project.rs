//! Views of bodies: lines that are seen and lines that are hidden, and sections.
//!
//! In: bodies (`Brep`) with their placements, and a view by its three directions. Out: straight pieces and arcs in
//! the view plane, mm, each with the body it belongs to; ordered by body, edge and place, the same on every run.
//! Lines, circles and ellipses stay what they are; what lies on one another is drawn once.
//!
//! Bodies may touch but must not run into one another: the line where two bodies pass through each other is not
//! found. Sizes from 1 to 10 000 mm; what lies closer than 0.01 µm to the same place counts as touching.

use std::collections::HashMap;

use crate::solid::section::blade::Blade;

mod cross;
pub(crate) mod front;
mod grid;
mod hide;
mod join;
pub(crate) mod lines;
mod outline;
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

    /// The outline of all bodies together: of the lines that are seen the pieces that have nothing beside them on one side.
    pub fn outline(&self, view: &View) -> Vec<Line2> {
        let picture = self.picture(view, None);
        let lines = self.lines(&picture).into_iter().filter(|line| line.seen && line.kind != Kind::Smooth);
        lines.flat_map(|line| outline::pieces(&picture.fronts, line)).collect()
    }

    fn project(&self, view: &View, plane: Option<&Plane>) -> Section {
        let picture = self.picture(view, plane);
        Section { lines: self.lines(&picture), cuts: picture.cuts }
    }

    fn picture(&self, view: &View, plane: Option<&Plane>) -> Picture {
        let matrix = view.matrix();
        let blade = plane.map(|plane| Blade { normal: matrix * plane.away, level: plane.away.dot(plane.at) });
        let mut picture = Picture::default();
        for (index, (placed, shape)) in (0u32..).zip(self.bodies.iter().zip(&self.shape)) {
            let posed = Posed::new(placed, &self.shapes[*shape], matrix);
            picture.add(index, placed, &posed, blade);
            picture.owners.resize(picture.fronts.len(), placed.id);
        }
        picture
    }

    fn lines(&self, picture: &Picture) -> Vec<Line2> {
        let runs = hide::runs(picture, |body| self.bodies[body as usize].hidden);
        let runs = join::joined(picture, &runs).into_iter().map(|run| (run, &picture.strands[run.strand]));
        let lines = runs.filter(|(_, strand)| !strand.mute).map(|(run, strand)| Line2 {
            body: self.bodies[strand.body as usize].id,
            seen: run.seen,
            kind: strand.kind,
            stroke: strand.path.stroke(run.from, run.to),
        });
        lines.collect()
    }
}
