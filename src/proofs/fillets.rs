//! Weld seams as bodies: a fillet is a triangle drawn along its run, a butt weld that is not ground flush stands out of its plates.
//!
//! In: pieces of a machine and its welds. Out: which of them touch where a weld joins them, and a prism for each straight piece
//! of such a run, in the model. Where a fillet lies is found by asking round its run: between the bodies that it joins there is a
//! corner free of both. That a seam has such a corner, and its length, is not asked here.

use super::standing::Piece;
use crate::geometry::Edge;
use crate::machine::Body;
use crate::machine::seams::{is_of, joins};
use crate::parts::{Parts, Weld};
use crate::solid::Brep;
use crate::solid::brep::Frame;
use crate::solid::build::extrude;
use crate::solid::overlap::touching;
use crate::solid::plane::{area, reversed};
use crate::solid::touch::GAP;
use crate::solid::within::Bounds;
use glam::DVec3;
use kurbo::Point;
use std::collections::BTreeMap;
use std::f64::consts::{SQRT_2, TAU};

/// In how many directions round a run bodies are asked for.
const DIRECTIONS: u32 = 24;
/// How far from a run they are asked for, as a share of the leg.
const AWAY: f64 = 0.6;
/// A corner that is narrower or wider than this takes no fillet, rad (AWS D1.1: 60° to 120° without further proof; wider here,
/// so that none is passed over).
const CORNER: [f64; 2] = [0.6, 2.5];
/// A seam of two plates in one plane: what is free on one side of them, rad.
const LEVEL: [f64; 2] = [2.9, 3.4];
/// How far a butt weld stands out of its plates, mm, and how far it reaches to either side as a share of their thickness (ISO 5817
/// level C: 1 mm + 0.15 × its width at most, from memory; common practice).
const CAP: f64 = 1.0;
const CAP_WIDTH: f64 = 0.6;
/// A run that is not longer than so many legs is a return round the end of a plate; of a longer one the ends are left out, where
/// the seam meets what stands across.
const RETURN: f64 = 3.0;
/// How far from a run a corner must be free, mm.
const CORE: f64 = 0.7;

/// A piece of a seam.
#[derive(Debug)]
pub struct Fillet<'a> {
    weld: &'a Weld,
    /// The number of its seam in the weld list.
    pub number: u32,
    /// Its body, in the model.
    pub brep: Brep,
    /// Whether what it joins goes up and down with the take-up.
    pub rises: bool,
}

impl Fillet<'_> {
    /// Whether its seam joins this body.
    pub fn joins(&self, body: &Body) -> bool {
        joins(self.weld, body)
    }
}

/// Two pieces that a weld joins, and where they touch.
pub struct Joined<'a> {
    /// The weld.
    pub weld: &'a Weld,
    /// The pieces, by their indices.
    pub pieces: [usize; 2],
    /// Where edges of the one lie on the other.
    pub runs: Vec<[DVec3; 2]>,
}

/// The pieces that welds join, where they touch, among pairs that stand near each other.
pub fn joined<'a>(parts: &'a Parts, pieces: &[Piece<'_>], near: &[(usize, usize)]) -> Vec<Joined<'a>> {
    // By weld and side, whether a body is of it; a body has few names and many pieces.
    let mut sides: BTreeMap<&str, Vec<[bool; 2]>> = BTreeMap::new();
    for piece in pieces {
        let of = |weld: &Weld| [0, 1].map(|side| weld.joins.get(side).is_some_and(|families| is_of(piece.body, families)));
        sides.entry(&piece.body.id).or_insert_with(|| parts.welds.iter().map(of).collect());
    }
    let mut out = Vec::new();
    for (one, other) in near.iter().copied() {
        let [Some(a), Some(b)] = [one, other].map(|i| sides.get(pieces[i].body.id.as_str())) else { continue };
        for (weld, (a, b)) in parts.welds.iter().zip(a.iter().zip(b)) {
            if a[0] && b[1] || a[1] && b[0] {
                let runs = touching(&pieces[one].stood, &pieces[other].stood, GAP);
                if !runs.is_empty() {
                    out.push(Joined { weld, pieces: [one, other], runs });
                }
            }
        }
    }
    out
}

/// The fillets of a machine.
pub fn fillets<'a>(parts: &'a Parts, pieces: &[Piece<'_>], near: &[(usize, usize)]) -> Vec<Fillet<'a>> {
    let mut beside: Vec<Vec<usize>> = vec![Vec::new(); pieces.len()];
    for (one, other) in near {
        beside[*one].push(*other);
        beside[*other].push(*one);
    }
    let mut out = Vec::new();
    for joined in joined(parts, pieces, near).iter().filter(|j| !j.weld.flush) {
        let [one, other] = joined.pieces.map(|i| &pieces[i]);
        let others: Vec<&Piece<'_>> = joined.pieces.iter().flat_map(|i| &beside[*i]).filter(|i| !joined.pieces.contains(i)).map(|i| &pieces[*i]).collect();
        let profile = Profile::of(joined.weld);
        for run in &joined.runs {
            let around = Bounds::of(*run).grown(profile.reach);
            let others: Vec<&Piece<'_>> = others.iter().copied().filter(|p| p.stood.reach.meets(&around)).collect();
            let bodies = prisms(*run, &profile, [one, other], &others);
            out.extend(bodies.into_iter().map(|brep| Fillet { weld: joined.weld, number: joined.weld.number, brep, rises: one.rises || other.rises }));
        }
    }
    out
}

/// What a seam looks like across its run.
struct Profile {
    /// How far it goes from the run, mm.
    reach: f64,
    /// How far it stands out in the middle, mm; a fillet is flat from end to end.
    high: Option<f64>,
    /// The corners that it lies in, rad.
    corner: [f64; 2],
}

impl Profile {
    fn of(weld: &Weld) -> Self {
        if weld.fillet {
            Self { reach: weld.us_leg.unwrap_or(weld.size * SQRT_2), high: None, corner: CORNER }
        } else {
            Self { reach: CAP_WIDTH * weld.size, high: Some(CAP), corner: LEVEL }
        }
    }
    /// Its section, the run at the origin, between two directions.
    fn section(&self, [low, high]: [f64; 2]) -> Vec<Edge> {
        let corner = |angle: f64, away: f64| (Point::new(away * angle.cos(), away * angle.sin()), 0.0);
        let top = self.high.map_or((Point::ZERO, 0.0), |up| corner(low.midpoint(high), up));
        let (first, last) = (corner(low, self.reach), corner(high, self.reach));
        Edge::chain(&if self.high.is_some() { [first, top, last] } else { [top, first, last] }, true)
    }
}

/// The bodies of a seam along a run.
fn prisms([from, to]: [DVec3; 2], profile: &Profile, joined: [&Piece<'_>; 2], others: &[&Piece<'_>]) -> Vec<Brep> {
    let reach = profile.reach;
    let Some(way) = (to - from).try_normalize().filter(|_| from.distance(to) > RETURN * reach) else { return Vec::new() };
    let (from, to) = (from + way * reach, to - way * reach);
    let frame = Frame { origin: from, axis: way, x: way.any_orthonormal_vector() };
    let at = from.midpoint(to);
    let point = |angle: f64, away: f64| at + (frame.x * angle.cos() + frame.y() * angle.sin()) * away;
    // What stands in the corner itself leaves no place for a seam, and a hole beside the run is no corner.
    let round = Bounds::of([at]).grown(reach);
    let [one, other] = joined.map(|p| p.stood.spot(&round));
    let solid = |p: DVec3| one.holds(p) || other.holds(p);
    let open = |[low, high]: &[f64; 2]| {
        let core = point(low.midpoint(*high), CORE);
        !solid(core) && (profile.high.is_some() || !others.iter().any(|p| p.stood.holds(core)))
    };
    let body = |corner: [f64; 2]| {
        let section = profile.section(corner);
        extrude(&[if area(&section) < 0.0 { reversed(&section) } else { section }], from.distance(to), &frame).ok()
    };
    let found = corners(|angle| solid(point(angle, reach * AWAY)));
    found.into_iter().filter(|[low, high]| (profile.corner[0]..profile.corner[1]).contains(&(high - low))).filter(open).filter_map(body).collect()
}

/// The corners that are free, by the angles of their sides, given where bodies are round a run.
fn corners(filled: impl Fn(f64) -> bool) -> Vec<[f64; 2]> {
    let step = TAU / f64::from(DIRECTIONS);
    let all: Vec<bool> = (0..DIRECTIONS).map(|i| filled(f64::from(i) * step)).collect();
    let edge = |mut full: f64, mut free: f64| {
        for _ in 0..8 {
            let middle = full.midpoint(free);
            if filled(middle) { full = middle } else { free = middle }
        }
        full.midpoint(free)
    };
    let count = all.len();
    let begins = (0..count).filter(|i| all[*i] && !all[(i + 1) % count]);
    let free = begins.filter_map(|i| {
        let long = (1..=count).find(|k| all[(i + k) % count])?;
        let (full, end) = (i as f64 * step, (i + long) as f64 * step);
        Some([edge(full, full + step), edge(end, end - step)])
    });
    free.collect()
}
