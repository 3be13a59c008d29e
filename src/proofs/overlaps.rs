//! Nothing overlaps: no two bodies share space in any position of the take-up, shafts as drawn or turned, but for what is [`allowed`].
//!
//! In: a machine, its parts, the travel of its take-up. Out: pairs of bodies that reach into each other, the deepest place
//! of each pair. Weld seams count as bodies, against what they do not join.

use super::allowed::{Allowed, allowed, is_free};
use super::fillets::{self, Fillet};
use super::standing::{Piece, Position, Read, Stance, pairs};
use crate::machine::{Body, Machine};
use crate::parts::Parts;
use crate::say::Statement;
use crate::solid::overlap::{Shared, Stood, shared};
use crate::solid::within::{Bounds, Within};
use std::collections::{BTreeMap, HashSet};

/// A seam may reach so deep into what it does not join, mm: its face is not that even (ISO 5817 level C, from memory).
const SEAM: f64 = 0.5;

/// Two bodies that share space.
#[derive(Debug, Clone, PartialEq)]
pub struct Overlap {
    /// Their ids; of a seam `weld.3`.
    pub ids: [String; 2],
    /// Their item numbers.
    pub items: [Option<u32>; 2],
    /// What they are.
    pub names: [Statement; 2],
    /// How deep the one reaches under the skin of the other, mm.
    pub deep: f64,
    /// Where, model mm.
    pub at: [f64; 3],
    /// The box round what was found, its size, mm.
    pub size: [f64; 3],
    /// In which position it is deepest.
    pub position: Position,
    /// How many pairs of pieces do, in all positions.
    pub times: usize,
    /// What allows it.
    pub allowed: Option<&'static Allowed>,
}

/// What one side of an overlap is.
struct Party {
    id: String,
    item: Option<u32>,
    name: Statement,
}

impl Party {
    fn body(body: &Body) -> Self {
        Self { id: body.id.clone(), item: body.item, name: body.name.clone() }
    }
    fn seam(number: u32, parts: &Parts) -> Self {
        let what = parts.welds.iter().find(|w| w.number == number).map_or_else(|| "weld".into(), |w| w.what.clone());
        Self { id: format!("weld.{number}"), item: None, name: what }
    }
}

/// Finds by ids, the deepest each.
#[derive(Default)]
struct Found(BTreeMap<[String; 2], Overlap>);

impl Found {
    fn take(&mut self, [one, other]: [Party; 2], shared: &Shared, position: Position, allowed: Option<&'static Allowed>) {
        let ids = [one.id, other.id];
        let size = (shared.reach.high - shared.reach.low).to_array();
        let fresh = Overlap {
            ids: ids.clone(),
            items: [one.item, other.item],
            names: [one.name, other.name],
            deep: shared.deep,
            at: shared.at.to_array(),
            size,
            position,
            times: 1,
            allowed,
        };
        let times = self.0.get(&ids).map_or(0, |o| o.times);
        let known = self.0.entry(ids).or_insert_with(|| fresh.clone());
        // What may not be tells, however deep the rest is.
        if (fresh.allowed.is_none(), fresh.deep) > (known.allowed.is_none(), known.deep) {
            *known = fresh;
        }
        known.times = times + 1;
    }
}

/// Everything of a machine that shares space and may not, by the ids of the bodies.
pub fn overlaps(machine: &Machine, parts: &Parts, travel: f64) -> Vec<Overlap> {
    search(machine, parts, (travel, &Stance::all()), false)
}

/// Everything that shares space in some stances, with what allows it.
pub fn sharing(machine: &Machine, parts: &Parts, travel: f64, stances: &[Stance]) -> Vec<Overlap> {
    search(machine, parts, (travel, stances), true)
}

/// What shares space; `all` of it, or what may not.
fn search(machine: &Machine, parts: &Parts, (travel, stances): (f64, &[Stance]), all: bool) -> Vec<Overlap> {
    let read = Read::new(machine);
    let pieces = read.pieces(Stance::at(Position::Lowest), travel);
    let seams = fillets::fillets(parts, &pieces);
    let solid: Vec<Within<'_>> = seams.iter().map(|f| Within::new(&f.brep)).collect();
    let mut search = Search { parts, all, apart: HashSet::new(), found: Found::default() };
    for stance in stances.iter().copied() {
        let position = stance.position;
        let pieces = read.pieces(stance, travel);
        let welds = seams.iter().zip(&solid).map(|(fillet, body)| Stood::new(body, read.way(fillet.on, stance, travel)));
        let welds: Vec<Stood<'_>> = welds.collect();
        let boxes: Vec<Bounds> = pieces.iter().map(|p| p.stood.reach).chain(welds.iter().map(|w| w.reach)).collect();
        // What moves together, or not at all, has been asked in the first stance; turned shafts with what stands round them.
        let first = stances.first() == Some(&stance);
        let fresh = |one: &Piece<'_>, rises: bool, turns: bool, alone: bool| {
            let turned = stance.turned != 0.0;
            first || if turned { one.turns != turns } else { one.rises != rises || one.alone || alone }
        };
        for (one, other) in pairs(&boxes) {
            let Some(piece) = pieces.get(one) else { continue };
            if let Some(other) = pieces.get(other) {
                if fresh(piece, other.rises, other.turns, other.alone) {
                    search.pieces(piece, other, position);
                }
            } else if let Some((fillet, weld)) = seams.get(other - pieces.len()).zip(welds.get(other - pieces.len()))
                && fresh(piece, fillet.rises, fillet.turns, false)
            {
                search.seam(piece, fillet, weld, position);
            }
        }
    }
    search.found.0.into_values().collect()
}

/// Two bodies, by where they are kept, and how the one stands to the other.
type Pair = (usize, usize, [i64; 12]);

/// A search under way.
struct Search<'a> {
    parts: &'a Parts,
    all: bool,
    /// Pairs that share nothing; others of the same bodies that stand alike do not either.
    apart: HashSet<Pair>,
    found: Found,
}

impl Search<'_> {
    fn pieces(&mut self, one: &Piece<'_>, other: &Piece<'_>, position: Position) {
        let pair = (std::ptr::from_ref(one.body).addr(), std::ptr::from_ref(other.body).addr(), one.stood.beside(&other.stood));
        if !self.all && is_free(one.body, other.body) || self.apart.contains(&pair) {
            return;
        }
        let Some(shared) = shared(&one.stood, &other.stood) else {
            self.apart.insert(pair);
            return;
        };
        let why = allowed(self.parts, one.body, other.body, shared.deep);
        if self.all || why.is_none() {
            self.found.take([Party::body(one.body), Party::body(other.body)], &shared, position, why);
        }
    }

    fn seam(&mut self, piece: &Piece<'_>, fillet: &Fillet<'_>, weld: &Stood<'_>, position: Position) {
        if fillet.joins(piece.body) {
            return;
        }
        if let Some(shared) = shared(weld, &piece.stood).filter(|s| s.deep > SEAM) {
            self.found.take([Party::seam(fillet.number, self.parts), Party::body(piece.body)], &shared, position, None);
        }
    }
}
