//! A cutting plane in the space of a view, and what it leaves on the faces of a body.

use glam::DVec3;

use crate::solid::project::path::Curve3;

/// A cutting plane in the space of a view: what lies beyond `normal · point = level` is taken away.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Blade {
    /// Unit normal toward the side that is taken away.
    pub normal: DVec3,
    /// Its distance from the origin along the normal, mm.
    pub level: f64,
}

/// A place where an edge passes the plane.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Node {
    /// Its number in the body.
    pub id: usize,
    /// Where it is.
    pub at: DVec3,
}

/// Curves from one node to another, in order, and the two nodes; no nodes when they close on themselves.
pub(crate) type Link = (Vec<Curve3>, Option<(usize, usize)>);

/// Pairs the nodes of a plane face along the line in which the blade meets it.
pub(crate) fn flat(mut nodes: Vec<Node>, along: DVec3, out: &mut Vec<Link>) -> Option<()> {
    if nodes.len() % 2 == 1 {
        return None;
    }
    nodes.sort_by(|a, b| along.dot(a.at).total_cmp(&along.dot(b.at)));
    for pair in nodes.chunks_exact(2) {
        out.push((vec![Curve3::Line(pair[0].at, pair[1].at)], Some((pair[0].id, pair[1].id))));
    }
    Some(())
}
