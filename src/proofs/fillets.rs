//! Weld seams as bodies: a fillet is a triangle drawn along its run, a butt weld that is not ground flush stands out of its plates.
//!
//! In: pieces of a machine and its welds with their beads. Out: which pieces a bead runs along, and a prism for each straight
//! stretch of it, in the model. Where a fillet lies is found by asking round its run: between the bodies that it joins there is
//! a corner free of both. That a seam has such a corner, and its length, is not asked here.

use super::standing::Piece;
use crate::geometry::Edge;
use crate::machine::Body;
use crate::parts::{Parts, Weld};
use crate::solid::Brep;
use crate::solid::brep::Frame;
use crate::solid::build::extrude;
use crate::solid::overlap::Spot;
use crate::solid::plane::{area, reversed};
use crate::solid::touch::GAP;
use crate::solid::within::Bounds;
use glam::DVec3;
use kurbo::Point;
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
/// In how many chords a round seam is taken at most: they stray by a thousandth of its radius.
const CHORDS: usize = 72;
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
    /// What it moves with: a body that it joins.
    pub on: &'a Body,
    /// Whether that goes up and down with the take-up.
    pub rises: bool,
    /// Whether a shaft turns that.
    pub turns: bool,
}

impl Fillet<'_> {
    /// Whether its seam joins this body.
    pub fn joins(&self, body: &Body) -> bool {
        self.weld.takes(&body.id)
    }
}

/// A straight stretch of a seam with the pieces that it joins.
pub struct Stretch<'a> {
    /// The weld.
    pub weld: &'a Weld,
    /// The pieces that it runs along, by their indices.
    pub pieces: Vec<usize>,
    /// From where to where, model mm.
    pub run: [DVec3; 2],
}

/// All seams in straight stretches, a bead in so many at most.
pub fn stretches<'a>(parts: &'a Parts, pieces: &[Piece<'_>], most: usize) -> Vec<Stretch<'a>> {
    let mut out = Vec::new();
    for weld in &parts.welds {
        let joined: Vec<usize> = (0..pieces.len()).filter(|i| weld.takes(&pieces[*i].body.id)).collect();
        for run in weld.beads.iter().flat_map(|bead| coarse(&bead.run.points, most)) {
            let at = run[0].midpoint(run[1]);
            let along = |i: &usize| pieces[*i].stood.reach.grown(GAP).holds(at) && pieces[*i].stood.spot(&Bounds::of([at])).depth(at) <= GAP;
            out.push(Stretch { weld, pieces: joined.iter().copied().filter(along).collect(), run });
        }
    }
    out
}

/// A run in so many straight stretches at most; a single one is the one in its middle.
fn coarse(points: &[DVec3], most: usize) -> Vec<[DVec3; 2]> {
    let count = points.len().saturating_sub(1);
    if most == 1 {
        return points.windows(2).nth(count / 2).map(|pair| [pair[0], pair[1]]).into_iter().collect();
    }
    let step = count.div_ceil(most).max(1);
    let ends = (0..count).step_by(step).map(|i| (i, (i + step).min(count)));
    ends.map(|(from, to)| [points[from], points[to]]).collect()
}

/// The seams of a machine as bodies.
pub fn fillets<'a>(parts: &'a Parts, pieces: &[Piece<'a>]) -> Vec<Fillet<'a>> {
    let mut out = Vec::new();
    for stretch in stretches(parts, pieces, CHORDS).iter().filter(|s| !s.weld.ground) {
        let weld = stretch.weld;
        let profile = Profile::of(weld);
        let around = Bounds::of(stretch.run).grown(profile.reach);
        let joined: Vec<&Piece<'a>> = stretch.pieces.iter().map(|i| &pieces[*i]).collect();
        let others: Vec<&Piece<'_>> = pieces.iter().filter(|p| p.stood.reach.meets(&around) && !weld.takes(&p.body.id)).collect();
        let Some(on) = joined.iter().max_by_key(|p| (p.turns, p.rises)) else { continue };
        let (on, rises, turns) = (on.body, on.rises, on.turns);
        let bodies = prisms(stretch.run, &profile, &joined, &others);
        out.extend(bodies.into_iter().map(|brep| Fillet { weld, number: weld.number, brep, on, rises, turns }));
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
fn prisms([from, to]: [DVec3; 2], profile: &Profile, joined: &[&Piece<'_>], others: &[&Piece<'_>]) -> Vec<Brep> {
    let reach = profile.reach;
    let Some(way) = (to - from).try_normalize().filter(|_| from.distance(to) > RETURN * reach) else { return Vec::new() };
    let (from, to) = (from + way * reach, to - way * reach);
    let frame = Frame { origin: from, axis: way, x: way.any_orthonormal_vector() };
    let at = from.midpoint(to);
    let point = |angle: f64, away: f64| at + (frame.x * angle.cos() + frame.y() * angle.sin()) * away;
    // What stands in the corner itself leaves no place for a seam, and a hole beside the run is no corner.
    let round = Bounds::of([at]).grown(reach);
    let spots: Vec<Spot<'_>> = joined.iter().map(|p| p.stood.spot(&round)).collect();
    let solid = |p: DVec3| spots.iter().any(|spot| spot.holds(p));
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
