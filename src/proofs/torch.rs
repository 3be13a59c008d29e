//! A torch reaches every fillet, in some order of welding: no plate has to stand before a seam that it covers.
//!
//! In: a machine and its parts with their seams laid. Out: seams that cannot be laid, with what is in the way. From the finished weldment
//! pieces are taken off again, one whose seams a torch reaches all with everything else in place after the other; what is left so cannot
//! have been welded. What is bolted on is another weldment, and not in the way. Butt welds, return runs round the ends of plates and corners
//! sharper than 60° are not asked.

use super::standing::{Piece, Position, Read, Stance};
use crate::geometry::Edge;
use crate::machine::Machine;
use crate::parts::{Bead, Parts, Weld};
use crate::say::Statement;
use crate::solid::Brep;
use crate::solid::brep::{FLAT, Frame};
use crate::solid::build::extrude;
use crate::solid::overlap::{Stood, shared};
use crate::solid::touch::GAP;
use crate::solid::within::{Bounds, Within};
use glam::{DAffine3, DMat3, DVec3};
use kurbo::Point;
use std::collections::BTreeSet;

/// The nozzle of a torch: its radius at its tapered end, how far its wire stands out to the seam, how long it is straight, mm (common
/// practice, no source).
const NOZZLE: f64 = 8.0;
const OFF: f64 = 20.0;
const LONG: f64 = 120.0;
/// Half of the sharpest corner that a fillet is laid in, and sharper ones that are looked for, degrees (AWS D1.1, from memory: 60° without
/// further proof): what is sharper is laid from its other side.
const SHARP: [f64; 3] = [29.0, 20.0, 12.0];
/// How far from the seam the corner's faces are looked for, mm.
const AWAY: f64 = 15.0;
/// How far a torch may lean from the middle of the corner, and along the seam, degrees (common practice, no source).
const ACROSS: [f64; 5] = [0.0, 15.0, -15.0, 25.0, -25.0];
const ALONG: [f64; 3] = [0.0, 35.0, -35.0];
/// Shorter beads are not asked, mm.
const SHORT: f64 = 30.0;

/// A seam that no torch reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Covered {
    /// Its number in the weld list.
    pub number: u32,
    /// What it joins.
    pub what: Statement,
    /// Id of what is in the way where the torch comes nearest.
    pub by: String,
    /// How deep the torch reaches into it there, mm.
    pub deep: f64,
    /// Where, model mm.
    pub at: [f64; 3],
}

/// A place on a seam.
struct Spot<'a> {
    weld: &'a Weld,
    at: DVec3,
    along: DVec3,
    open: DVec3,
    /// The pieces that it joins there.
    joins: Vec<usize>,
}

impl Spot<'_> {
    /// Whether its corner is too sharp for a fillet.
    fn is_sharp(&self, pieces: &[Piece<'_>]) -> bool {
        SHARP.into_iter().flat_map(|angle| [angle, -angle]).any(|angle| {
            let beside = self.at + DAffine3::from_axis_angle(self.along, angle.to_radians()).transform_vector3(self.open) * AWAY;
            self.joins.iter().any(|i| pieces[*i].stood.holds(beside))
        })
    }
    /// The ways in which a torch is held to it: each stands the nozzle.
    fn poses(&self) -> impl Iterator<Item = DAffine3> {
        let (open, along, at) = (self.open, self.along, self.at);
        ALONG.into_iter().flat_map(move |lean| ACROSS.into_iter().map(move |tilt| (lean, tilt))).map(move |(lean, tilt): (f64, f64)| {
            let across = DAffine3::from_axis_angle(along, tilt.to_radians()).transform_vector3(open);
            let (sin, cos) = lean.to_radians().sin_cos();
            let axis = across * cos + along * sin;
            let x = axis.any_orthonormal_vector();
            DAffine3 { matrix3: DMat3::from_cols(x, axis.cross(x), axis), translation: at }
        })
    }
}

/// The nozzle along z, its seam at the origin.
fn nozzle() -> Option<Brep> {
    extrude(&[vec![Edge::circle(Point::ZERO, NOZZLE)]], LONG, &Frame { origin: DVec3::Z * OFF, ..FLAT }).ok()
}

/// The middle of a bead's longest straight piece.
fn middle(bead: &Bead) -> Option<(DVec3, DVec3, DVec3)> {
    let pairs = bead.run.points.windows(2).zip(bead.run.open.windows(2));
    let (points, open) = pairs.max_by(|a, b| a.0[0].distance(a.0[1]).total_cmp(&b.0[0].distance(b.0[1])))?;
    let along = (points[1] - points[0]).try_normalize()?;
    let open = open[0] + open[1];
    Some((points[0].midpoint(points[1]), along, (open - along * open.dot(along)).try_normalize()?))
}

fn spots<'a>(parts: &'a Parts, pieces: &[Piece<'_>]) -> Vec<Spot<'a>> {
    let mut out = Vec::new();
    for weld in parts.welds.iter().filter(|w| w.fillet) {
        let joined: Vec<usize> = (0..pieces.len()).filter(|i| weld.takes(&pieces[*i].body.id)).collect();
        for bead in weld.beads.iter().filter(|b| b.run.corner && b.run.length() > SHORT) {
            let Some((at, along, open)) = middle(bead) else { continue };
            let here = |i: &usize| pieces[*i].stood.reach.grown(GAP).holds(at) && pieces[*i].stood.spot(&Bounds::of([at])).depth(at) <= GAP;
            let spot = Spot { weld, at, along, open, joins: joined.iter().copied().filter(here).collect() };
            if !spot.is_sharp(pieces) {
                out.push(spot);
            }
        }
    }
    out
}

/// Which pieces are welded together: each has the number of one of them.
fn weldments(spots: &[Spot<'_>], pieces: usize) -> Vec<usize> {
    let mut whole: Vec<usize> = (0..pieces).collect();
    for pair in spots.iter().flat_map(|s| s.joins.windows(2)) {
        let [one, other] = [pair[0], pair[1]].map(|i| whole[i]);
        whole.iter_mut().filter(|w| **w == one.max(other)).for_each(|w| *w = one.min(other));
    }
    whole
}

/// What keeps the torch off a spot with some pieces in place; the one that comes nearest of all ways to hold it.
fn kept_off(spot: &Spot<'_>, torch: &Within<'_>, pieces: &[Piece<'_>], there: &BTreeSet<usize>, whole: &[usize]) -> Option<(usize, f64, DVec3)> {
    let own = whole.get(*spot.joins.first()?)?;
    let mut least: Option<(usize, f64, DVec3)> = None;
    for pose in spot.poses() {
        let stood = Stood::new(torch, pose);
        let near = there.iter().filter(|i| whole[**i] == *own && pieces[**i].stood.reach.meets(&stood.reach));
        let met = near.filter_map(|i| shared(&stood, &pieces[*i].stood).map(|s| (*i, s.deep, s.at))).max_by(|a, b| a.1.total_cmp(&b.1))?;
        least = least.filter(|known| known.1 <= met.1).or(Some(met));
    }
    least
}

/// Every seam that no torch reaches, the first place of each.
pub fn covered(machine: &Machine, parts: &Parts) -> Vec<Covered> {
    let read = Read::new(machine);
    let pieces = read.pieces(Stance::at(Position::Lowest), 0.0);
    let Some(nozzle) = nozzle() else { return Vec::new() };
    let torch = Within::new(&nozzle);
    let spots = spots(parts, &pieces);
    let mut there: BTreeSet<usize> = spots.iter().flat_map(|s| s.joins.iter().copied()).collect();
    let whole = weldments(&spots, pieces.len());
    // What kept the torch off a spot when it was asked last: until that is gone it stays off, or comes no nearer.
    let mut kept: Vec<Option<(usize, f64, DVec3)>> = spots.iter().map(|s| kept_off(s, &torch, &pieces, &there, &whole)).collect();
    loop {
        let open = |piece: usize| spots.iter().zip(&kept).all(|(s, k)| k.is_none() || !s.joins.contains(&piece) || s.joins.iter().any(|i| !there.contains(i)));
        let free: Vec<usize> = there.iter().copied().filter(|piece| open(*piece)).collect();
        if free.is_empty() {
            break;
        }
        there.retain(|piece| !free.contains(piece));
        for (spot, kept) in spots.iter().zip(&mut kept) {
            if kept.is_some() && spot.joins.iter().all(|i| there.contains(i)) {
                *kept = kept_off(spot, &torch, &pieces, &there, &whole);
            }
        }
    }
    let left = spots.iter().zip(&kept).filter(|(s, _)| s.joins.iter().all(|i| there.contains(i)));
    let mut out: Vec<Covered> = Vec::new();
    for (spot, (by, deep, at)) in left.filter_map(|(s, k)| k.map(|k| (s, k))) {
        if out.iter().all(|known| known.number != spot.weld.number) {
            let by = pieces[by].body.id.clone();
            out.push(Covered { number: spot.weld.number, what: spot.weld.what.clone(), by, deep, at: at.to_array() });
        }
    }
    out
}
