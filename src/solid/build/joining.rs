//! Where one cross-section ends and the next begins: their edges cut at each other's corners, what they share made once, and the faces between them.
//!
//! In: two regions of one plane that may share edges and corners but do not cross. Out: for each region its edges as
//! made, and in the body the plane faces of what the one has and the other has not.

use super::Refusal;
use super::chaining::{Step, chained};
use super::maker::{Maker, Sheet, against, ahead, back};
use crate::geometry::Edge;
use crate::solid::brep::{Surface, Use};
use crate::solid::plane::{Loop, contains};
use kurbo::Point;

/// Points nearer to each other than this are one, mm.
const ONE_POINT: f64 = 1e-7;

/// A region's edges as made in the body.
#[derive(Debug, Default)]
pub(super) struct Rim {
    /// Vertex where each edge of the region begins, loop after loop.
    pub(super) starts: Vec<usize>,
    uses: Vec<Use>,
    /// Where the pieces of each edge end among the uses.
    ends: Vec<usize>,
}

impl Rim {
    /// The pieces of one edge of the region in order, all forward.
    pub(super) fn chain(&self, edge: usize) -> &[Use] {
        let from = edge.checked_sub(1).and_then(|i| self.ends.get(i)).copied().unwrap_or(0);
        self.ends.get(edge).and_then(|to| self.uses.get(from..*to)).unwrap_or_default()
    }
    /// Closes one loop of pieces after another on a face at the end of the body.
    pub(super) fn loops(&self, region: &[Loop], facing_up: bool) -> Vec<Vec<Use>> {
        let mut done = 0;
        let of_loop = |edges: &Loop| {
            let from = done;
            done += edges.len();
            let pieces = (from..done).flat_map(|i| self.chain(i)).copied();
            if facing_up { pieces.collect() } else { against(&pieces.collect::<Vec<_>>()).collect() }
        };
        region.iter().map(of_loop).collect()
    }
}

/// The edges of a region where nothing follows.
pub(super) fn plain(maker: &mut Maker, sheet: &Sheet, region: &[Loop]) -> Rim {
    let mut rim = Rim::default();
    for edges in region {
        let first = rim.starts.len();
        rim.starts.extend(edges.iter().map(|e| maker.vertex(sheet.point(e.start()))));
        for (i, edge) in edges.iter().enumerate() {
            let at = |k: usize| rim.starts.get(first + k % edges.len()).copied().unwrap_or_default();
            rim.uses.push(ahead(maker.edge(at(i), at(i + 1), sheet.curve(edge))));
            rim.ends.push(rim.uses.len());
        }
    }
    rim
}

/// A piece of an edge.
#[derive(Debug, Clone, Copy)]
struct Piece {
    shape: Edge,
    from: usize,
    to: usize,
    /// As made in the body.
    edge: usize,
    shared: bool,
}

/// Both rims of a plane where `below` ends and `above` begins, and the faces between them.
pub(super) fn join(maker: &mut Maker, sheet: &Sheet, below: &[Loop], above: &[Loop]) -> Result<(Rim, Rim), Refusal> {
    let mut known = Vec::new();
    let (mut low, low_ends, low_starts) = cut(maker, sheet, below, above, &mut known);
    let (mut high, high_ends, high_starts) = cut(maker, sheet, above, below, &mut known);
    for piece in &mut low {
        piece.edge = maker.edge(piece.from, piece.to, sheet.curve(&piece.shape));
    }
    for piece in &mut high {
        match low.iter_mut().find(|p| same(p, piece)) {
            Some(twin) if twin.from == piece.from && runs_alike(&twin.shape, &piece.shape) => {
                piece.edge = twin.edge;
                (piece.shared, twin.shared) = (true, true);
            }
            Some(_) => return Err(Refusal::BackToBack),
            None => piece.edge = maker.edge(piece.from, piece.to, sheet.curve(&piece.shape)),
        }
    }
    let step = |p: &Piece, forward: bool| {
        if forward {
            Step { shape: p.shape, from: p.from, to: p.to, used: ahead(p.edge) }
        } else {
            Step { shape: p.shape.reversed(), from: p.to, to: p.from, used: back(p.edge) }
        }
    };
    let (mut up, mut down) = (Vec::new(), Vec::new());
    for p in low.iter().filter(|p| !p.shared) {
        if contains(above, p.shape.middle()) { down.push(step(p, true)) } else { up.push(step(p, true)) }
    }
    for p in high.iter().filter(|p| !p.shared) {
        if contains(below, p.shape.middle()) { up.push(step(p, false)) } else { down.push(step(p, false)) }
    }
    faces(maker, sheet.plane(), up, true)?;
    faces(maker, sheet.plane(), down, false)?;
    let rim = |pieces: Vec<Piece>, ends, starts| Rim { starts, uses: pieces.iter().map(|p| ahead(p.edge)).collect(), ends };
    Ok((rim(low, low_ends, low_starts), rim(high, high_ends, high_starts)))
}

/// Edges of a region cut at the corners of another: the pieces, where those of each edge end, the first vertex of each.
fn cut(maker: &mut Maker, sheet: &Sheet, region: &[Loop], other: &[Loop], known: &mut Vec<(Point, usize)>) -> (Vec<Piece>, Vec<usize>, Vec<usize>) {
    let mut vertex = |p: Point| match known.iter().find(|(q, _)| q.distance(p) < ONE_POINT) {
        Some((_, v)) => *v,
        None => {
            let v = maker.vertex(sheet.point(p));
            known.push((p, v));
            v
        }
    };
    let (mut pieces, mut ends, mut starts) = (Vec::new(), Vec::new(), Vec::new());
    for edge in region.iter().flatten() {
        let mut cuts: Vec<Point> = other.iter().flatten().map(Edge::start).filter(|p| edge.passes(*p, ONE_POINT)).collect();
        cuts.sort_by(|a, b| edge.along(*a).total_cmp(&edge.along(*b)));
        starts.push(vertex(edge.start()));
        let mut from = edge.start();
        for to in cuts.iter().copied().chain([edge.end()]) {
            let shape = if cuts.is_empty() { *edge } else { edge.between(from, to) };
            pieces.push(Piece { shape, from: vertex(from), to: vertex(to), edge: 0, shared: false });
            from = to;
        }
        ends.push(pieces.len());
    }
    (pieces, ends, starts)
}

/// Whether two pieces are one, whichever way they run.
fn same(a: &Piece, b: &Piece) -> bool {
    let ends = (a.from, a.to) == (b.from, b.to) || (a.from, a.to) == (b.to, b.from);
    ends && a.shape.middle().distance(b.shape.middle()) < ONE_POINT
}

/// Whether two pieces that are one turn the same way.
fn runs_alike(a: &Edge, b: &Edge) -> bool {
    match (a, b) {
        (Edge::Round { arc: a, .. }, Edge::Round { arc: b, .. }) => a.sweep_angle * b.sweep_angle > 0.0,
        _ => true,
    }
}

/// Faces of the plane, seen from above or from below.
fn faces(maker: &mut Maker, plane: Surface, steps: Vec<Step>, outward: bool) -> Result<(), Refusal> {
    for loops in chained(steps, outward)? {
        maker.face(plane, outward, loops);
    }
    Ok(())
}
