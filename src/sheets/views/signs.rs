//! Weld signs: each seam of the weld list on the view that shows it best.
//!
//! In: where the seams run, and views with the pieces that they show. Out: for each view how long a stretch of each seam is
//! seen in it and the middle of that stretch; signs there. No view names the seams that it shows.

use super::bodies::{Picture, Piece, Show};
use crate::machine::seams::Seam;
use crate::model::frame::ModelPoint;
use crate::paper::mark::PlanePoint;
use crate::paper::view::{Draft, Weld};
use crate::sheets::Subject;
use glam::DVec3;
use std::collections::BTreeSet;

/// Distance of the points at which a seam is asked for, mm.
const PITCH: f64 = 12.0;
/// A stretch that rises less than this share of its width runs level.
const LEVEL: f64 = 0.2;
/// A stretch shorter than this is not pointed at, mm.
const LEAST: f64 = 8.0;

/// The stretch of a seam that a view shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// The seam's number in the weld list.
    pub number: u32,
    /// The middle of the longest stretch, in the view plane.
    pub at: PlanePoint,
    /// How long it is in the view plane, mm.
    pub length: f64,
    /// Whether it runs level there.
    pub level: bool,
}

/// Which seams a picture of these pieces shows, by number; only points that are kept are pointed at.
pub fn shown(picture: &Picture<'_>, choose: impl Fn(&Piece<'_>) -> Option<Show>, seams: &[Seam], kept: impl Fn(DVec3) -> bool) -> Vec<Stretch> {
    let pieces: Vec<(u32, Vec<DVec3>)> = seams.iter().flat_map(|s| s.runs.iter().map(|run| (s.number, spaced(&run.points)))).collect();
    let all: Vec<DVec3> = pieces.iter().flat_map(|(_, points)| points.iter().copied()).collect();
    let seen = picture.sees(choose, &all);
    let mut out: Vec<Stretch> = Vec::new();
    let mut next = seen.into_iter();
    for (number, points) in pieces {
        let flags: Vec<bool> = points.iter().zip(next.by_ref()).map(|(p, seen)| seen && kept(*p)).collect();
        let flat: Vec<PlanePoint> = points.iter().map(|p| picture.point(ModelPoint::new(p.x, p.y, p.z))).collect();
        let Some(found) = longest(&flat, &flags).map(|found| Stretch { number, ..found }).filter(|s| s.length >= LEAST) else { continue };
        match out.iter_mut().find(|s| s.number == number) {
            Some(old) if old.length >= found.length => {}
            Some(old) => *old = found,
            None => out.push(found),
        }
    }
    out.sort_by_key(|s| s.number);
    out
}

/// Points along a run, no further apart than [`PITCH`].
fn spaced(points: &[DVec3]) -> Vec<DVec3> {
    let mut out: Vec<DVec3> = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        let n = (pair[0].distance(pair[1]) / PITCH).ceil().clamp(1.0, 1000.0) as u32;
        out.extend((1..=n).map(|i| pair[0].lerp(pair[1], f64::from(i) / f64::from(n))));
    }
    out
}

/// The longest stretch that is seen of a run, still without its number.
fn longest(points: &[PlanePoint], seen: &[bool]) -> Option<Stretch> {
    let step = |k: usize| points.get(k).zip(points.get(k + 1)).map_or(0.0, |(a, b)| (b.x - a.x).hypot(b.y - a.y));
    let mut best: Option<(usize, usize, f64)> = None;
    let mut from: Option<usize> = None;
    for k in 0..=seen.len() {
        match (seen.get(k).copied().unwrap_or(false), from) {
            (true, None) => from = Some(k),
            (false, Some(first)) => {
                let length = (first..k - 1).map(step).sum();
                if best.is_none_or(|b| length > b.2) {
                    best = Some((first, k - 1, length));
                }
                from = None;
            }
            _ => {}
        }
    }
    let (first, last, length) = best?;
    let (a, b, at) = (points.get(first)?, points.get(last)?, *points.get(first.midpoint(last))?);
    Some(Stretch { number: 0, at, length, level: (b.y - a.y).abs() < LEVEL * (b.x - a.x).abs() })
}

/// Signs on several views: each seam that is still without one gets it on the view that shows the longest stretch of it.
/// Seams that get one are taken off the list, and so are those that are like the first of them and named with it.
pub fn place(subject: &Subject<'_>, views: &mut [(&mut Draft, Vec<Stretch>)], without: &mut BTreeSet<u32>, alike: &[u32]) {
    for weld in &subject.parts.welds {
        if !without.contains(&weld.number) {
            continue;
        }
        let mut best: Option<(usize, Stretch)> = None;
        for (n, (_, seen)) in views.iter().enumerate() {
            let Some(here) = seen.iter().find(|s| s.number == weld.number) else { continue };
            if best.is_none_or(|(_, b)| here.length > b.length) {
                best = Some((n, *here));
            }
        }
        let round = subject.seams().iter().any(|s| s.number == weld.number && s.all_round(weld.length));
        if let Some((n, here)) = best
            && let Some((draft, _)) = views.get_mut(n)
        {
            let numbers = if alike.contains(&weld.number) { alike } else { &[weld.number][..] };
            draft.weld(here.at, Weld { all_round: weld.fillet && round, level: here.level, ..subject.weld(weld, numbers) }, None);
            numbers.iter().for_each(|n| {
                without.remove(n);
            });
        }
    }
}
