//! Weld signs: each seam of the weld list on the view that shows it best.
//!
//! In: where the seams run and into which corners they are laid, and views with the pieces that they show. Out: for each view how
//! long a stretch of each seam is seen in it and the middle of that stretch; signs there. A fillet is seen where its corner opens
//! to the viewer; where only the flush outside of its joint is, it lies on the other side. No view names the seams that it shows.

use super::bodies::{Picture, Piece, Show};
use crate::model::frame::ModelPoint;
use crate::paper::mark::PlanePoint;
use crate::paper::view::{Draft, Side, Weld, WeldSide};
use crate::parts::{self, Lay};
use crate::sheets::Subject;
use crate::solid::touch::Run;
use glam::DVec3;
use std::collections::BTreeSet;

/// Distance of the points at which a seam is asked for, mm.
const PITCH: f64 = 12.0;
/// A stretch that rises less than this share of its width runs level.
const LEVEL: f64 = 0.2;
/// A direction that falls by less than this runs level.
const FLAT: f64 = 0.1;
/// A corner that opens more than this to one side, as a share of its direction, is pointed at from there.
const ASIDE: f64 = 0.5;
/// A stretch shorter than this is not pointed at, mm.
const LEAST: f64 = 8.0;
/// So far out of its corner a fillet is looked for, mm.
const OUT: f64 = 2.0;
/// A joint whose weld lies behind it is worth this share of one whose weld is seen.
const BEHIND: f64 = 0.05;
/// A stretch that is laid otherwise than its seam is worth this share of one that is not.
const ODD: f64 = 0.002;
/// From the flush outside of a joint to its weld, at most, mm.
const THROUGH: f64 = 60.0;
/// Where a section is to have a sign, a seam crosses it within this distance, mm.
const NEAR: f64 = 80.0;

/// The stretch of a seam that a view shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// The seam's number in the weld list.
    pub number: u32,
    /// The middle of the longest stretch, in the view plane.
    pub at: PlanePoint,
    /// How long it is in the view plane, mm.
    pub length: f64,
    /// The direction in the view from which it is pointed at: square to a level stretch, out of its corner.
    pub from: Option<[f64; 2]>,
    /// Where its corner opens to, in the view: left (−1) or right (1); 0 where it opens up, down or to the viewer.
    pub opens: f64,
    /// On which side of the joint the weld lies.
    pub side: WeldSide,
    /// Whether the seam goes all round there.
    pub round: bool,
    /// Beads on one side of it, of a staggered seam.
    pub beads: u32,
    /// Whether its sign says there what the list says of the whole seam.
    pub alike: bool,
}

impl Stretch {
    /// How well it shows its seam: its length, much less where the weld lies behind the joint or is laid otherwise than elsewhere.
    pub fn worth(&self) -> f64 {
        self.length * if self.side == WeldSide::Other { BEHIND } else { 1.0 } * if self.alike { 1.0 } else { ODD }
    }
}

/// A line of a seam that may be seen.
struct Line {
    /// Where it runs, and there the direction into the open.
    points: Vec<(DVec3, DVec3)>,
    /// What a stretch of it is, still without its place.
    as_seen: Stretch,
}

/// Which seams a picture of these pieces shows, by number; only points that are kept are pointed at.
pub fn shown(picture: &Picture<'_>, choose: impl Fn(&Piece<'_>) -> Option<Show>, welds: &[&parts::Weld], kept: impl Fn(DVec3) -> bool) -> Vec<Stretch> {
    let lines: Vec<Line> = welds.iter().flat_map(|weld| lines(picture, weld)).collect();
    let out = |line: &Line| if line.as_seen.side == WeldSide::Other { 0.0 } else { OUT };
    let all: Vec<DVec3> = lines.iter().flat_map(|line| line.points.iter().map(|(p, open)| *p + *open * out(line))).collect();
    let seen = picture.sees(choose, &all);
    let mut found: Vec<Stretch> = Vec::new();
    let mut next = seen.into_iter();
    for line in &lines {
        let flags: Vec<bool> = line.points.iter().zip(next.by_ref()).map(|((p, open), seen)| seen && picture.faces(*open) && kept(*p)).collect();
        let flat: Vec<PlanePoint> = line.points.iter().map(|(p, _)| flat(picture, *p)).collect();
        let Some(mut best) = longest(&flat, &flags, line.as_seen).filter(|s| s.length >= LEAST) else { continue };
        let open = flat.iter().position(|p| *p == best.at).and_then(|n| line.points.get(n)).map_or(DVec3::ZERO, |(_, open)| *open);
        let opens = self::flat(picture, open);
        if opens.y < -FLAT {
            best.from = best.from.map(|[x, y]| [-x, -y]);
        }
        if best.from.is_none() && opens.x.abs() > ASIDE && best.side == WeldSide::Arrow {
            best.opens = opens.x.signum();
            best.from = Some([best.opens, 0.0]);
        }
        match found.iter_mut().find(|s| s.number == best.number) {
            Some(old) if old.worth() >= best.worth() => {}
            Some(old) => *old = best,
            None => found.push(best),
        }
    }
    found.sort_by_key(|s| s.number);
    found
}

fn flat(picture: &Picture<'_>, p: DVec3) -> PlanePoint {
    picture.point(ModelPoint::new(p.x, p.y, p.z))
}

/// What a bead is where it is seen.
fn of_bead(weld: &parts::Weld, bead: &parts::Bead) -> Stretch {
    let side = match weld.lay {
        Lay::Staggered { .. } => WeldSide::Staggered,
        _ if bead.both && !bead.round => WeldSide::Both,
        _ => WeldSide::Arrow,
    };
    let beads = weld.lay.count(bead.run.length());
    Stretch {
        number: weld.number,
        at: PlanePoint::new(0.0, 0.0),
        length: 0.0,
        from: None,
        opens: 0.0,
        side,
        round: weld.fillet && bead.round,
        beads,
        alike: weld.is_alike(bead),
    }
}

/// The lines by which a seam is seen: its beads, and the flush outsides of joints whose beads lie behind them.
fn lines(picture: &Picture<'_>, weld: &parts::Weld) -> Vec<Line> {
    let beads = weld.beads.iter().map(|bead| Line { points: spaced(&bead.run), as_seen: of_bead(weld, bead) });
    let behind = |run: &Run| weld.beads.iter().find(|bead| lies_behind(picture, run, &bead.run));
    let flush = weld.flush.iter().filter_map(|run| {
        let bead = behind(run)?;
        Some(Line { points: spaced(run), as_seen: Stretch { side: WeldSide::Other, ..of_bead(weld, bead) } })
    });
    beads.chain(flush).collect()
}

/// Whether a bead runs along the flush outside of its joint, out of sight behind it.
fn lies_behind(picture: &Picture<'_>, outside: &Run, bead: &Run) -> bool {
    let along = |run: &Run| run.points.first().zip(run.points.last()).map_or(DVec3::ZERO, |(a, b)| (*b - *a).normalize_or_zero());
    let Some(middle) = outside.points.first().zip(outside.points.last()).map(|(a, b)| a.midpoint(*b)) else { return false };
    let beside = bead.points.windows(2).any(|pair| {
        let step = pair[1] - pair[0];
        let share = ((middle - pair[0]).dot(step) / step.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        middle.distance(pair[0] + step * share) < THROUGH
    });
    let away = bead.open.iter().all(|open| picture.faces(-*open));
    beside && away && along(outside).dot(along(bead)).abs() > 0.9
}

/// Points along a run, no further apart than [`PITCH`], each with its direction into the open.
fn spaced(run: &Run) -> Vec<(DVec3, DVec3)> {
    let points: Vec<(DVec3, DVec3)> = run.points.iter().copied().zip(run.open.iter().copied()).collect();
    let mut out: Vec<(DVec3, DVec3)> = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        let ((a, from), (b, to)) = (pair[0], pair[1]);
        let n = (a.distance(b) / PITCH).ceil().clamp(1.0, 1000.0) as u32;
        out.extend((1..=n).map(|i| f64::from(i) / f64::from(n)).map(|share| (a.lerp(b, share), from.lerp(to, share).normalize_or_zero())));
    }
    out
}

/// The longest stretch that is seen of a line.
fn longest(points: &[PlanePoint], seen: &[bool], as_seen: Stretch) -> Option<Stretch> {
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
    let level = (b.y - a.y).abs() < LEVEL * (b.x - a.x).abs();
    Some(Stretch { at, length, from: level.then_some([0.0, 1.0]), ..as_seen })
}

/// The sign of a seam where a stretch of it is seen; `numbers` in the list are those that it stands for.
pub fn sign(subject: &Subject<'_>, weld: &parts::Weld, numbers: &[u32], here: &Stretch) -> Weld {
    let (beads, gap) = match weld.lay {
        // AWS A2.4: length and pitch; ISO 2553: number, length, distance between them.
        Lay::Staggered { bead, gap } if subject.us() => (format!("{}-{}", subject.mm(bead), subject.mm(bead + gap)), String::new()),
        Lay::Staggered { bead, gap } => {
            // A number only where all its stretches have as many.
            let alike = weld.beads.iter().all(|b| weld.lay.count(b.run.length()) == here.beads);
            let number = if alike { format!("{}×", here.beads) } else { String::new() };
            (format!("{number}{}", subject.mm(bead)), format!("({})", subject.mm(gap)))
        }
        _ => (String::new(), String::new()),
    };
    Weld { side: here.side, all_round: here.round, from: here.from, beads, gap, ..subject.weld(weld, numbers) }
}

/// Signs on several views: each seam that is still without one gets it on the view that shows it best.
/// Seams that get one are taken off the list, and so are those that are like the first of them and named with it.
pub fn place(subject: &Subject<'_>, views: &mut [(&mut Draft, Vec<Stretch>)], without: &mut BTreeSet<u32>, alike: &[u32]) {
    for weld in &subject.parts.welds {
        if !without.contains(&weld.number) {
            continue;
        }
        let mut best: Option<(usize, Stretch)> = None;
        for (n, (_, seen)) in views.iter().enumerate() {
            let Some(here) = seen.iter().find(|s| s.number == weld.number) else { continue };
            if best.is_none_or(|(_, b)| here.worth() > b.worth()) {
                best = Some((n, *here));
            }
        }
        if let Some((n, here)) = best
            && let Some((draft, _)) = views.get_mut(n)
        {
            let numbers = if alike.contains(&weld.number) { alike } else { &[weld.number][..] };
            // Out of its corner: an arrow that comes from behind would put the weld on the other side of the joint.
            let side = match here.opens {
                o if o < 0.0 => Some(Side::Left),
                o if o > 0.0 => Some(Side::Right),
                _ => None,
            };
            draft.weld(here.at, sign(subject, weld, numbers, &here), side);
            numbers.iter().for_each(|n| {
                without.remove(n);
            });
        }
    }
}

/// The sign of a seam in a section that it crosses near a point, on the side to which its corner opens; none where it does not.
pub fn at_cut(subject: &Subject<'_>, d: &mut Draft, picture: &Picture<'_>, weld: Option<&parts::Weld>, wanted: impl Into<PlanePoint>) {
    let Some(weld) = weld else { return };
    at_cut_of(subject, d, picture, (weld, &[weld.number]), wanted);
}

/// The same for several alike, by their numbers in the list.
pub fn at_cut_of(subject: &Subject<'_>, d: &mut Draft, picture: &Picture<'_>, (weld, numbers): (&parts::Weld, &[u32]), wanted: impl Into<PlanePoint>) {
    let wanted = wanted.into();
    let off = |p: &PlanePoint| (p.x - wanted.x).hypot(p.y - wanted.y);
    let crossings = weld.beads.iter().flat_map(|bead| {
        let points = bead.run.points.windows(2).zip(&bead.run.open);
        points.filter_map(move |(pair, open)| {
            let share = picture.crosses(pair[0], pair[1])?;
            Some((flat(picture, pair[0].lerp(pair[1], share)), flat(picture, *open), bead))
        })
    });
    let Some((at, open, bead)) = crossings.filter(|c| off(&c.0) < NEAR && weld.is_alike(c.2)).min_by(|a, b| off(&a.0).total_cmp(&off(&b.0))) else { return };
    let long = open.x.hypot(open.y).max(f64::MIN_POSITIVE);
    let here = Stretch { at, from: Some([open.x / long, open.y / long]), ..of_bead(weld, bead) };
    d.weld(at, sign(subject, weld, numbers, &here), if open.x < 0.0 { Side::Left } else { Side::Right });
}
