//! Where the seams of the weld list run: along the edges by which the bodies touch that each seam joins.
//!
//! In: the bodies where they stand, and the welds with the ids of the parts that they join. Out: for each weld its runs in
//! the model. Nothing is reckoned before a sheet asks.

use super::body::{Body, Machine};
use crate::parts::Weld;
use crate::solid::brep::Brep;
use crate::solid::plug::plugged;
use crate::solid::touch::{Run, Standing, touch};
use glam::{DAffine3, DMat3, DVec3};

/// Holes up to this radius are for bolts, mm: no seam runs round them.
const BOLT_HOLES: f64 = 12.0;
/// A run shorter than this is the end of a plate, mm.
const SHORT: f64 = 1.0;

/// A seam of the weld list as it runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Seam {
    /// Its number in the weld list.
    pub number: u32,
    /// Where edges of one part lie on faces of the other, both sides of a plate.
    pub runs: Vec<Run>,
}

impl Seam {
    /// Length of all its runs, mm.
    pub fn length(&self) -> f64 {
        self.runs.iter().map(Run::length).sum()
    }
}

/// Whether a body is one of a family: its id is the family's, or goes on after it with a point.
fn is_of(body: &Body, families: &[String]) -> bool {
    families.iter().any(|f| body.id.strip_prefix(f.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))
}

/// All pieces of the bodies that some seam joins, ready to be asked.
struct Pieces<'a> {
    all: Vec<(usize, Standing<'a>)>,
}

impl Pieces<'_> {
    fn of(&self, machine: &Machine, families: &[String]) -> Vec<usize> {
        let named = |(_, (body, _)): &(usize, &(usize, Standing<'_>))| machine.bodies.get(*body).is_some_and(|b| is_of(b, families));
        self.all.iter().enumerate().filter(named).map(|(n, _)| n).collect()
    }
}

/// Whether a seam of the list joins this body.
pub fn joins(weld: &Weld, body: &Body) -> bool {
    weld.joins.iter().any(|families| is_of(body, families))
}

/// The seams of a list, in its order.
pub fn seams(machine: &Machine, welds: &[Weld]) -> Vec<Seam> {
    let welded = |body: &Body| welds.iter().any(|w| joins(w, body));
    let filled: Vec<Option<Brep>> = machine.bodies.iter().map(|b| welded(b).then(|| plugged(&b.brep, BOLT_HOLES))).collect();
    let mut pieces = Pieces { all: Vec::new() };
    for (index, (body, brep)) in machine.bodies.iter().zip(&filled).enumerate() {
        let Some(brep) = brep else { continue };
        pieces.all.extend(body.places.iter().map(|place| {
            let [x, y, z, o] = [place.right, place.up, place.toward, place.origin].map(DVec3::from_array);
            (index, Standing::new(brep, DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o }))
        }));
    }
    welds.iter().map(|weld| seam(machine, &pieces, weld)).collect()
}

fn seam(machine: &Machine, pieces: &Pieces<'_>, weld: &Weld) -> Seam {
    let [one, other] = [0, 1].map(|side| pieces.of(machine, weld.joins.get(side).map_or(&[][..], Vec::as_slice)));
    let mut runs = Vec::new();
    let mut done: Vec<(usize, usize)> = Vec::new();
    for a in &one {
        for b in &other {
            let pair = (*a.min(b), *a.max(b));
            if done.contains(&pair) {
                continue;
            }
            done.push(pair);
            let (Some((_, first)), Some((_, second))) = (pieces.all.get(*a), pieces.all.get(*b)) else { continue };
            // A plate meets itself only in a butt weld: rolled to a ring.
            if a != b || !weld.fillet {
                runs.extend(touch(first, (a != b).then_some(second)));
            }
        }
    }
    runs.retain(|run| run.length() > SHORT);
    Seam { number: weld.number, runs }
}
