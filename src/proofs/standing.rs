//! The pieces of a machine where they stand in a position of the take-up, and which of them come near each other.
//!
//! In: bodies. Out: pieces with the boxes round them, and pairs whose boxes meet.

use crate::machine::moves::{Moves, rises};
use crate::machine::{Body, Machine};
use crate::parts::placement::Placement;
use crate::solid::overlap::Stood;
use crate::solid::within::{Bounds, Within};
use glam::{DAffine3, DMat3, DVec3};

/// A position of the take-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Position {
    /// As the bodies stand.
    Lowest,
    /// Half way up.
    Middle,
    /// All the way up.
    Highest,
}

impl Position {
    /// All of them, from below.
    pub const ALL: [Self; 3] = [Self::Lowest, Self::Middle, Self::Highest];

    /// How far up, as a share of the travel.
    pub const fn share(self) -> f64 {
        match self {
            Self::Lowest => 0.0,
            Self::Middle => 0.5,
            Self::Highest => 1.0,
        }
    }
}

/// What makes up a machine, read once for all positions.
#[derive(Debug)]
pub struct Read<'a> {
    bodies: Vec<(&'a Body, Within<'a>)>,
    /// The bodies that stand otherwise at the highest begin here.
    highest: usize,
}

/// A piece where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Piece<'a> {
    /// What it is a piece of.
    pub body: &'a Body,
    /// Which of its pieces.
    pub place: usize,
    /// Where it is.
    pub stood: Stood<'a>,
    /// Whether the take-up moves it.
    pub rises: bool,
    /// Whether it stands in this position alone.
    pub alone: bool,
}

/// Where a placement puts a body, in the model.
pub fn pose(place: &Placement) -> DAffine3 {
    let [x, y, z, o] = [place.right, place.up, place.toward, place.origin].map(DVec3::from_array);
    DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o }
}

/// Whether a body runs with the belt: where it is in another position is another question.
fn runs(body: &Body) -> bool {
    body.moves == Moves::Shaft && body.item.is_none()
}

impl<'a> Read<'a> {
    /// Reads the bodies of a machine.
    pub fn new(machine: &'a Machine) -> Self {
        let bodies = machine.bodies.iter().chain(&machine.highest).map(|body| (body, Within::new(&body.brep))).collect();
        Self { bodies, highest: machine.bodies.len() }
    }

    /// All pieces in a position; belt and buckets where the machine knows where they are.
    pub fn pieces(&self, position: Position, travel: f64) -> Vec<Piece<'_>> {
        let by = DVec3::Z * travel * position.share();
        let shown = |index: usize, body: &Body| match position {
            Position::Lowest => index < self.highest,
            Position::Middle => index < self.highest && !runs(body),
            Position::Highest => index >= self.highest || !runs(body),
        };
        let those = self.bodies.iter().enumerate().filter(|(index, (body, _))| shown(*index, body));
        let each = those.flat_map(|(index, (body, within))| {
            let rises = rises(&body.id, body.moves);
            body.places.iter().enumerate().map(move |(place, at)| {
                let stood = Stood::new(within, pose(at));
                Piece { body, place, stood: if rises { stood.moved(by) } else { stood }, rises, alone: runs(body) || index >= self.highest }
            })
        });
        each.collect()
    }
}

/// Pairs of boxes that meet, by their indices, the smaller first; in order.
pub fn pairs(boxes: &[Bounds]) -> Vec<(usize, usize)> {
    let all = Bounds::round(boxes.iter().copied());
    let size = (all.high - all.low).to_array();
    let axis = (0..3).max_by(|a, b| size[*a].total_cmp(&size[*b])).unwrap_or(0);
    let mut order: Vec<usize> = (0..boxes.len()).collect();
    order.sort_by(|a, b| boxes[*a].low[axis].total_cmp(&boxes[*b].low[axis]));
    let (mut open, mut out): (Vec<usize>, Vec<(usize, usize)>) = (Vec::new(), Vec::new());
    for index in order {
        let begin = boxes[index].low[axis];
        open.retain(|other| boxes[*other].high[axis] >= begin);
        out.extend(open.iter().filter(|other| boxes[**other].meets(&boxes[index])).map(|other| (index.min(*other), index.max(*other))));
        open.push(index);
    }
    out.sort_unstable();
    out
}
