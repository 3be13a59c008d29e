//! Pieces of edges chained to loops, and loops gathered to faces with their holes.
//!
//! In: pieces of one plane with the vertices that they run between. Out: the loops of each face, the outer one first.

use super::Refusal;
use crate::geometry::Edge;
use crate::solid::brep::Use;
use crate::solid::plane::{Loop, area, winding};

/// A piece of an edge as the loop of a face uses it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    /// As drawn in the plane, in the sense of the loop.
    pub(super) shape: Edge,
    /// Where it begins: any number that tells corners apart.
    pub(super) from: usize,
    /// Where it ends.
    pub(super) to: usize,
    /// The edge of the body.
    pub(super) used: Use,
}

/// Loops of each face that pieces make; `ccw` says which way outer loops turn.
pub(super) fn chained(mut steps: Vec<Step>, ccw: bool) -> Result<Vec<Vec<Vec<Use>>>, Refusal> {
    let mut uses: Vec<Vec<Use>> = Vec::new();
    let mut shapes: Vec<Loop> = Vec::new();
    while let Some(first) = steps.pop() {
        let (mut used, mut shape) = (vec![first.used], vec![first.shape]);
        let mut at = first.to;
        while at != first.from {
            let next = steps.iter().position(|s| s.from == at).ok_or(Refusal::Crossing)?;
            let step = steps.swap_remove(next);
            at = step.to;
            used.push(step.used);
            shape.push(step.shape);
        }
        uses.push(used);
        shapes.push(shape);
    }
    let areas: Vec<f64> = shapes.iter().map(|l| if ccw { area(l) } else { -area(l) }).collect();
    let mut faces: Vec<(usize, Vec<Vec<Use>>)> = Vec::new();
    for (i, a) in areas.iter().enumerate() {
        if *a > 0.0 {
            faces.push((i, vec![uses.get_mut(i).map(std::mem::take).unwrap_or_default()]));
        }
    }
    for (i, a) in areas.iter().enumerate().filter(|(_, a)| **a <= 0.0) {
        // A hole belongs to the smallest outline round it.
        let p = shapes.get(i).and_then(|l| l.first()).map(Edge::middle).unwrap_or_default();
        let round = |outer: usize| areas.get(outer).is_some_and(|o| *o > -a) && shapes.get(outer).is_some_and(|l| winding(l, p) != 0);
        let size = |outer: usize| areas.get(outer).copied().unwrap_or_default();
        let owner = faces.iter_mut().filter(|f| round(f.0)).min_by(|f, g| size(f.0).total_cmp(&size(g.0)));
        owner.ok_or(Refusal::Crossing)?.1.push(uses.get_mut(i).map(std::mem::take).unwrap_or_default());
    }
    Ok(faces.into_iter().map(|f| f.1).collect())
}
