//! Where a plane cuts a body: closed loops of lines, arcs and ellipses in the space of a view.
//!
//! Each face that the plane meets gives pieces of one curve (plane: line; cylinder: two lines, a circle or an
//! ellipse; cone: lines, a circle, or else short chords within 0.001 mm); the pieces are strung together where they
//! pass the edges. The plane is moved by about a millionth of a millimetre into what stays, so that corners, seams
//! and faces that lie in it need no rules of their own.

use std::f64::consts::TAU;

use crate::solid::project::lines::Stroke;
use crate::solid::project::path::{Curve3, SAME, pictures};
use crate::solid::project::posed::{Posed, PosedFace};

pub(crate) mod blade;
mod round;

use blade::{Blade, Link, Node, flat};

/// A piece of a loop.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Piece {
    /// Its curve.
    pub curve: Curve3,
    /// The loop runs along it against its parameter.
    pub back: bool,
}

impl Piece {
    /// The piece as drawn, in the sense of the loop; none when seen end on.
    pub fn stroke(&self) -> Option<Stroke> {
        let mut found = None;
        pictures(&self.curve, |path| found = Some(path));
        let path = found?;
        let start = self.curve.at(if self.back { 1.0 } else { 0.0 }).truncate();
        let (first, last) = path.range();
        let ahead = (path.at(first) - start).length_squared() <= (path.at(last) - start).length_squared();
        Some(if ahead { path.stroke(first, last) } else { path.stroke(last, first) })
    }
}

/// How far the plane is moved at each try, mm.
const MOVES: [f64; 4] = [1.3e-6, 2.9e-6, 4.7e-6, 0.7e-6];

/// The loops where a blade cuts a body, with the level they were found at. When no try gives closed loops (a broken
/// body), there are none.
pub(crate) fn loops(posed: &Posed<'_>, blade: Blade) -> (f64, Vec<Vec<Piece>>) {
    for by in MOVES {
        let level = blade.level - by;
        if let Some(loops) = attempt(posed, Blade { level, ..blade }) {
            return (level, loops);
        }
    }
    (blade.level - MOVES[0], Vec::new())
}

fn attempt(posed: &Posed<'_>, blade: Blade) -> Option<Vec<Vec<Piece>>> {
    let mut count = 0;
    let mut shares = Vec::new();
    let mut nodes: Vec<Vec<Node>> = Vec::with_capacity(posed.curves.len());
    for (curve, note) in posed.curves.iter().zip(&posed.shape.edges) {
        shares.clear();
        if !note.seam {
            curve.meets(blade.normal, blade.level, &mut shares);
        }
        let own = shares.iter().map(|share| {
            count += 1;
            Node { id: count - 1, at: curve.at(*share) }
        });
        nodes.push(own.collect());
    }
    let mut links = Vec::new();
    for (index, face) in posed.brep.faces.iter().enumerate() {
        let uses = face.loops.iter().flatten();
        let own: Vec<Node> = uses.flat_map(|used| nodes.get(used.edge).into_iter().flatten()).copied().collect();
        match posed.face(index) {
            PosedFace::Plane(normal) => flat(own, blade.normal.cross(normal), &mut links)?,
            PosedFace::Round(face) => round::links(own, &face, blade, &mut links)?,
        }
    }
    string(&links, count)
}

/// Strings links to closed loops; none when a node has not exactly two links.
fn string(links: &[Link], count: usize) -> Option<Vec<Vec<Piece>>> {
    let mut at: Vec<Vec<usize>> = vec![Vec::new(); count];
    let mut out = Vec::new();
    for (index, (curves, nodes)) in links.iter().enumerate() {
        match nodes {
            Some((from, to)) => {
                at[*from].push(index);
                at[*to].push(index);
            }
            None => out.push(curves.iter().map(|curve| Piece { curve: *curve, back: false }).collect()),
        }
    }
    if at.iter().any(|links| links.len() != 2) {
        return None;
    }
    let mut used = vec![false; links.len()];
    for (first, (_, nodes)) in links.iter().enumerate() {
        let Some((start, _)) = nodes else { continue };
        let (mut link, mut node, mut ring) = (first, *start, Vec::new());
        while !used[link] {
            used[link] = true;
            let (curves, Some((from, to))) = &links[link] else { return None };
            let back = *from != node;
            node = if back { *from } else { *to };
            let mut pieces: Vec<Piece> = curves.iter().map(|curve| Piece { curve: *curve, back }).collect();
            if back {
                pieces.reverse();
            }
            ring.append(&mut pieces);
            link = at[node].iter().copied().find(|next| !used[*next]).unwrap_or(link);
        }
        if !ring.is_empty() {
            out.push(ring);
        }
    }
    for ring in &mut out {
        ring.retain(|piece| !speck(&piece.curve));
    }
    Some(out)
}

/// Whether a piece has no length.
fn speck(curve: &Curve3) -> bool {
    match curve {
        Curve3::Line(a, b) => (*a - *b).length_squared() < SAME * SAME * 1e-4,
        Curve3::Saddle { .. } => false,
        Curve3::Round { x, y, from, to, .. } => (to - from) * x.length().max(y.length()) < SAME * 1e-2 || to - from > TAU + 1e-6,
    }
}
