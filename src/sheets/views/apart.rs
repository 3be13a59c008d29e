//! A machine taken apart for a picture: how far each piece is moved from where it stands.
//!
//! In: the pieces, and by families the way in which they come off. Out: a move for each piece, mm. Along a shaft, pieces are
//! lined up clear of each other in a given order; elsewhere they go whole steps outward, each with what it sits on.

use super::bodies::{Apart, Piece};
use crate::machine::Machine;
use glam::DVec3;

/// The way in which a piece comes off.
#[derive(Debug, Clone, Copy)]
pub enum Way {
    /// Steps along the machine, across it and up; along and across are counted outward from its middle.
    Steps(f64, f64, f64),
    /// Steps along its own thickness, outward from the middle of the machine.
    Off(f64),
}

/// A family of pieces, and the way in which they come off.
#[derive(Debug, Clone, Copy)]
pub struct Step {
    /// Beginning of the ids, or with a point in front the last word of them.
    pub family: &'static str,
    /// The way.
    pub way: Way,
}

/// A place in a row along the shaft.
#[derive(Debug, Clone, Copy)]
pub struct InRow {
    /// Families that share the place; they keep their places to each other.
    pub families: &'static [&'static str],
    /// Only pieces on the near side, on the far side, or all.
    pub near: Option<bool>,
    /// Lifted by this share of the room between places.
    pub lifted: f64,
}

/// Whether an id is of a family.
pub fn is_of(id: &str, family: &str) -> bool {
    if family.starts_with('.') { id.ends_with(family) } else { id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '['])) }
}

impl Way {
    /// Where a piece of this way goes, whose middle is at `at` and whose thickness runs along `axis`, mm.
    pub fn shift(self, at: DVec3, axis: DVec3, middle: DVec3, step: f64) -> DVec3 {
        let out = (at - middle).map(|d| if d < 0.0 { -1.0 } else { 1.0 });
        match self {
            Self::Steps(along, across, up) => DVec3::new(along * out.x, across * out.y, up) * step,
            Self::Off(steps) => axis * steps * step * if axis.dot(at - middle) < 0.0 { -1.0 } else { 1.0 },
        }
    }
}

/// The way of an id: the first family that it is of.
pub fn way_of(id: &str, steps: &[Step]) -> Option<Way> {
    steps.iter().find(|s| is_of(id, s.family)).map(|s| s.way)
}

/// The moves of some pieces; the others stay.
pub fn moved<'a>(machine: &Machine, pieces: impl Iterator<Item = Piece<'a>>, by: impl Fn(&Piece<'a>) -> DVec3) -> Apart {
    let mut moves: Apart = machine.bodies.iter().map(|b| vec![DVec3::ZERO; b.places.len()]).collect();
    for piece in pieces {
        if let Some(own) = moves.get_mut(piece.index).and_then(|m| m.get_mut(piece.place)) {
            *own = by(&piece);
        }
    }
    moves
}

/// Moves that line pieces up across the machine in this order, from the far side on, with `gap` mm between them.
pub fn in_row(machine: &Machine, pieces: &[Piece<'_>], row: &[InRow], gap: f64) -> Apart {
    let mut moves: Apart = machine.bodies.iter().map(|b| vec![DVec3::ZERO; b.places.len()]).collect();
    let mut end: Option<f64> = None;
    for place in row {
        let here = |p: &&Piece<'_>| {
            let near = p.low.y + p.high.y > 1e-6;
            place.families.iter().any(|f| is_of(&p.body.id, f)) && place.near.is_none_or(|side| side == near)
        };
        let span = pieces.iter().filter(here).map(|p| (p.low.y, p.high.y)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        let Some((low, high)) = span else { continue };
        // What is lifted stands over the place before it.
        let shift = if place.lifted > 0.0 { end.map_or(0.0, |e| e - gap - high) } else { end.map_or(0.0, |e| e - low) };
        for piece in pieces.iter().filter(here) {
            if let Some(own) = moves.get_mut(piece.index).and_then(|m| m.get_mut(piece.place)) {
                *own = DVec3::new(0.0, shift, place.lifted * gap);
            }
        }
        if place.lifted <= 0.0 {
            end = Some(high + shift + gap);
        }
    }
    moves
}
