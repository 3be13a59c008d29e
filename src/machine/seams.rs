//! Where the seams of the weld list run: along the edges by which the bodies touch that each seam joins.
//!
//! In: the bodies where they stand, and the welds with the ids of the parts that they join. Out: for each weld its runs in
//! the model. Nothing is reckoned before a sheet asks.

use super::body::{Body, Machine};
use super::moves;
use crate::parts::Weld;
use crate::solid::brep::Brep;
use crate::solid::plug::plugged;
use crate::solid::touch::{Run, Standing, touch};
use glam::{DAffine3, DMat3, DVec3};

/// Holes up to this radius are for bolts, mm: no seam runs round them.
const BOLT_HOLES: f64 = 12.0;
/// A run shorter than this is the end of a plate, mm.
const SHORT: f64 = 1.0;

/// A ring that is this share longer or shorter than a seam is not its run.
const ROUND: f64 = 0.05;
/// A ring no wider than this is the foot of a plate that stands on edge, mm.
const WIDE: f64 = 26.0;
/// Ends of runs this near meet, mm.
const MEET: f64 = 1.5;

/// A seam of the weld list as it runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Seam {
    /// Its number in the weld list.
    pub number: u32,
    /// Where edges of one part lie on faces of the other, both sides of a plate.
    pub runs: Vec<Run>,
}

impl Seam {
    /// Whether a seam of this length runs round what it joins: runs close to rings that are together, or each for itself, as long.
    pub fn all_round(&self, length: f64) -> bool {
        let as_long = |found: f64| (found / length - 1.0).abs() < ROUND;
        let rings: Vec<f64> = rings(&self.runs);
        as_long(rings.iter().sum()) || rings.iter().any(|ring| as_long(*ring))
    }
}

/// Whether a body is one of a family.
pub fn is_of(body: &Body, families: &[String]) -> bool {
    families.iter().any(|f| moves::is_of(&body.id, f))
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
    let mut out: Vec<Seam> = welds.iter().map(|weld| Seam { number: weld.number, runs: runs(machine, &pieces, weld) }).collect();
    share_splices(welds, &mut out);
    out
}

fn runs(machine: &Machine, pieces: &Pieces<'_>, weld: &Weld) -> Vec<Run> {
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
    runs
}

/// Butt welds between the pieces of one part: each gets the joint that is as long as it says.
fn share_splices(welds: &[Weld], seams: &mut [Seam]) {
    for (n, weld) in welds.iter().enumerate().filter(|(_, w)| !w.fillet) {
        let alike: Vec<usize> = welds.iter().enumerate().skip(n).filter(|(_, w)| !w.fillet && w.joins == weld.joins).map(|(k, _)| k).collect();
        let first = !welds.iter().take(n).any(|w| !w.fillet && w.joins == weld.joins);
        if alike.len() < 2 || !first {
            continue;
        }
        let mut joints = joints(std::mem::take(&mut seams[n].runs), 3.0 * weld.size);
        for k in alike {
            // Both edges of the plate run along the joint.
            let off = |joint: &Vec<Run>| (joint.iter().map(Run::length).sum::<f64>() / 2.0 - welds[k].length).abs();
            let best = joints.iter().enumerate().min_by(|a, b| off(a.1).total_cmp(&off(b.1))).map(|(at, _)| at);
            seams[k].runs = best.map_or_else(Vec::new, |at| joints.remove(at));
        }
    }
}

/// Runs sorted into joints: what comes this near to each other belongs together.
fn joints(runs: Vec<Run>, near: f64) -> Vec<Vec<Run>> {
    let mut out: Vec<Vec<Run>> = Vec::new();
    for run in runs {
        let meets = |joint: &Vec<Run>| joint.iter().any(|other| other.points.iter().any(|p| run.points.iter().any(|q| p.distance(*q) < near)));
        let (with, without): (Vec<_>, Vec<_>) = out.into_iter().partition(|joint| meets(joint));
        out = without;
        out.push(with.into_iter().flatten().chain([run]).collect());
    }
    out
}

/// Lengths of the rings that runs close to; the foot of a plate that stands on edge is none.
fn rings(runs: &[Run]) -> Vec<f64> {
    let mut left: Vec<&Run> = runs.iter().collect();
    let mut out = Vec::new();
    while let Some(first) = left.pop() {
        let (Some(start), Some(end)) = (first.points.first(), first.points.last()) else { continue };
        let (mut ring, mut end) = (vec![first], *end);
        while end.distance(*start) > MEET {
            let ends = |run: &Run| run.points.first().copied().zip(run.points.last().copied());
            let next = left.iter().position(|run| ends(run).is_some_and(|(a, b)| a.distance(end) < MEET || b.distance(end) < MEET));
            let Some(run) = next.map(|at| left.remove(at)) else { break };
            if let Some((a, b)) = ends(run) {
                end = if a.distance(end) < MEET { b } else { a };
            }
            ring.push(run);
        }
        let points = || ring.iter().flat_map(|run| &run.points);
        let (low, high) = points().fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), p| (low.min(*p), high.max(*p)));
        let mut size = (high - low).to_array();
        size.sort_by(f64::total_cmp);
        if end.distance(*start) <= MEET && size[1] > WIDE {
            out.push(ring.iter().map(|run| run.length()).sum());
        }
    }
    out
}
