//! Where the seams of the weld list run: along the edges by which the bodies touch that each seam joins.
//!
//! In: finished parts where they stand, and the welds with the ids of the parts that they join and how their fillets are laid.
//! Out: for each weld its beads in the model, what else of the joint is seen, and its length. A fillet is laid only where
//! the faces make a corner; where plates are flush outside it lies inside.

use super::part::{Bead, Lay, Part, Parts, Weld};
use crate::solid::brep::Brep;
use crate::solid::plug::plugged;
use crate::solid::touch::{Run, Standing, touch};
use glam::{DAffine3, DMat3, DVec3};

/// Holes up to this radius are for bolts, mm: no seam runs round them.
const BOLT_HOLES: f64 = 12.0;
/// A run shorter than this is none, mm.
const SHORT: f64 = 1.0;
/// A stretch no longer than this in an angle of several plates is left to their other seams, mm.
const STUB: f64 = 12.0;
/// A seam is of a kind when so many times as much of it is as is not.
const MOSTLY: f64 = 3.0;
/// Ends of runs this near meet, mm.
const MEET: f64 = 4.0;
/// The beads on both sides of a plate stand no further apart than this, mm.
const THICKEST: f64 = 30.0;

/// Whether a part is one of a family: its id is the family's, or goes on after it with a point.
fn is_of(id: &str, families: &[String]) -> bool {
    families.iter().any(|f| id.strip_prefix(f.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))
}

impl Weld {
    /// Whether it joins the part with this id to others.
    pub fn takes(&self, id: &str) -> bool {
        self.joins.iter().any(|families| is_of(id, families))
    }

    /// Whether it is laid on both sides of plates, but for an odd end.
    pub fn both_sides(&self) -> bool {
        self.is_mostly(|bead| bead.both)
    }

    /// Whether it goes all round what it joins.
    pub fn all_round(&self) -> bool {
        self.is_mostly(|bead| bead.round)
    }

    /// Whether it has the sides and the ring at a bead that the list says of the whole.
    pub fn is_alike(&self, bead: &Bead) -> bool {
        !self.fillet || bead.round == self.all_round() && (bead.both && !bead.round) == (self.both_sides() && !bead.round)
    }

    /// In how many separate runs it is laid; beads on both sides of a plate are one.
    pub fn runs(&self) -> usize {
        if !self.fillet {
            return joints(self.beads.clone(), 3.0 * self.size).len();
        }
        let ends = |run: &Run| run.points.first().copied().into_iter().chain(run.points.last().copied()).collect::<Vec<DVec3>>();
        let reaches = |one: &Run, other: &Run| ends(one).iter().any(|p| other.points.windows(2).any(|pair| away(*p, pair) < MEET));
        let meet = |one: &Run, other: &Run| reaches(one, other) || reaches(other, one) || opposed(one, other) && one.end == other.end;
        let mut left: Vec<&Run> = self.beads.iter().map(|bead| &bead.run).collect();
        let mut runs = 0;
        while let Some(first) = left.pop() {
            runs += 1;
            let mut reached = vec![first];
            while let Some(from) = reached.pop() {
                let (with, without): (Vec<&Run>, Vec<&Run>) = left.into_iter().partition(|run| meet(from, run));
                left = without;
                reached.extend(with);
            }
        }
        runs
    }

    fn is_mostly(&self, like: impl Fn(&Bead) -> bool) -> bool {
        let length = |alike: bool| self.beads.iter().filter(|b| like(b) == alike).map(|b| b.run.length()).sum::<f64>();
        self.fillet && length(true) > MOSTLY * length(false)
    }

    /// How long its beads are together, mm: both sides of a plate where it has beads on both, of a staggered seam what is laid.
    fn laid(&self) -> f64 {
        let laid = |bead: &Bead| match self.lay {
            Lay::Staggered { bead: one, .. } => f64::from(self.lay.count(bead.run.length())) * one,
            _ => bead.run.length(),
        };
        self.beads.iter().map(laid).sum()
    }
}

impl Lay {
    /// How many beads of a staggered seam stand on one side of a plate this long.
    pub fn count(self, length: f64) -> u32 {
        match self {
            // The other side's begin after the first of them, so both have as many.
            Self::Staggered { bead, gap } => ((length + 0.5) / (bead + gap)).floor().max(0.0) as u32,
            _ => 1,
        }
    }

    /// Whether a bead is laid in this corner.
    fn takes(self, run: &Run) -> bool {
        let outward = run.points.iter().zip(&run.open).map(|(p, open)| p.y * open.y).sum::<f64>();
        match self {
            Self::Every | Self::Notch | Self::Staggered { .. } => true,
            Self::First => run.of == 0,
            Self::Outside => outward > 0.0,
        }
    }
}

/// All pieces of the parts that some seam joins, ready to be asked.
struct Pieces<'a> {
    all: Vec<(&'a str, Standing<'a>)>,
}

impl Pieces<'_> {
    fn of(&self, families: &[String]) -> Vec<usize> {
        self.all.iter().enumerate().filter(|(_, (id, _))| is_of(id, families)).map(|(n, _)| n).collect()
    }
}

impl Parts {
    /// The same parts with their seams laid: where each runs and how long it is.
    pub fn laid(&self) -> Self {
        let mut laid = self.clone();
        lay(&self.items, &mut laid.welds);
        laid
    }
}

/// Lays the seams of a list.
fn lay(items: &[Part], welds: &mut [Weld]) {
    let body = |part: &Part| {
        let welded = welds.iter().any(|w| w.takes(&part.id));
        welded.then(|| part.body()).flatten().and_then(Result::ok).map(|brep| plugged(&brep, BOLT_HOLES))
    };
    let filled: Vec<Option<Brep>> = items.iter().map(body).collect();
    let mut pieces = Pieces { all: Vec::new() };
    for (part, brep) in items.iter().zip(&filled) {
        let Some(brep) = brep else { continue };
        let plate = part.flat.as_ref().is_some_and(|flat| flat.bends.is_empty());
        pieces.all.extend(part.placements.iter().map(|place| {
            let [x, y, z, o] = [place.right, place.up, place.toward, place.origin].map(DVec3::from_array);
            (part.id.as_str(), Standing::new(brep, DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o }, plate))
        }));
    }
    for weld in welds.iter_mut() {
        let touching = touching(&pieces, weld);
        if weld.fillet {
            (weld.beads, weld.flush) = fillets(touching, weld);
            weld.length = weld.laid();
        } else {
            // Along the joint, not through the thickness.
            let along = |run: &Run| !run.corner && run.length() > 1.2 * weld.size;
            weld.beads = touching.into_iter().flatten().filter(along).map(|run| Bead { run, both: false, round: false }).collect();
        }
    }
    share_splices(welds);
}

/// Where the parts of a seam touch, pair by pair of pieces.
fn touching(pieces: &Pieces<'_>, weld: &Weld) -> Vec<Vec<Run>> {
    let [one, other] = [0, 1].map(|side| pieces.of(weld.joins.get(side).map_or(&[][..], Vec::as_slice)));
    let mut all = Vec::new();
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
                let mut runs = touch(first, (a != b).then_some(second), &|p| pieces.all.iter().any(|(_, piece)| piece.encloses(p)));
                runs.retain(|run| run.length() > SHORT);
                all.push(runs);
            }
        }
    }
    all
}

/// The beads of a fillet seam, and where its joints are flush.
fn fillets(touching: Vec<Vec<Run>>, weld: &Weld) -> (Vec<Bead>, Vec<Run>) {
    let mut flush = Vec::new();
    let mut corners: Vec<(usize, Run)> = Vec::new();
    for (pair, runs) in touching.into_iter().enumerate() {
        for run in runs {
            if !run.corner {
                flush.push(run);
            } else if run.length() <= MEET && !run.end {
                // No bead; ends of thin plates on edge may close a ring.
            } else if weld.lay == Lay::Notch {
                corners.push((pair, Run { open: run.open.iter().map(|open| -*open).collect(), ..run }));
            } else if weld.lay.takes(&run) {
                corners.push((pair, run));
            }
        }
    }
    let runs: Vec<&Run> = corners.iter().map(|(_, run)| run).collect();
    let round = rings(&runs);
    // Ends of plates that stand on edge are left open where nothing goes all round.
    let laid = |n: usize, run: &Run| round[n] || !run.end && run.length() > STUB;
    let mut kept: Vec<(usize, &Run, bool)> =
        corners.iter().enumerate().filter(|(n, (_, run))| laid(*n, run)).map(|(n, (pair, run))| (*pair, run, round[n])).collect();
    if weld.tight {
        // One side is enough to be tight: the one that is whole.
        let longer = |one: &Run, other: &Run| one.length() > other.length() + SHORT;
        let all = kept.clone();
        kept.retain(|(pair, run, round)| *round || !all.iter().any(|(other, opposite, _)| other == pair && opposed(run, opposite) && longer(opposite, run)));
    }
    let both = |(pair, run, round): &(usize, &Run, bool)| !round && kept.iter().any(|(other, opposite, _)| other == pair && opposed(run, opposite));
    let beads: Vec<Bead> = kept.iter().map(|bead| Bead { run: bead.1.clone(), both: both(bead), round: bead.2 }).collect();
    if !beads.is_empty() {
        return (beads, flush);
    }
    // Plates that meet edge to edge at an angle have a seam along that edge.
    (flush.iter().filter(|run| !run.end && run.length() > STUB).map(|run| Bead { run: run.clone(), both: false, round: false }).collect(), Vec::new())
}

/// Whether two runs are the two sides of a plate.
fn opposed(run: &Run, other: &Run) -> bool {
    let middle = |run: &Run| {
        run.points.get(run.points.len() / 2 - usize::from(run.points.len() == 2)).zip(run.points.get(run.points.len() / 2)).map(|(a, b)| a.midpoint(*b))
    };
    let along = |run: &Run| run.points.first().zip(run.points.last()).map_or(DVec3::ZERO, |(a, b)| (*b - *a).normalize_or_zero());
    let Some(at) = middle(run) else { return false };
    let nearest = other.points.windows(2).zip(&other.open).min_by(|a, b| away(at, a.0).total_cmp(&away(at, b.0)));
    let open = run.open.get(run.open.len() / 2).copied().unwrap_or_default();
    let (one, two) = (along(run), along(other));
    let parallel = one == DVec3::ZERO || two == DVec3::ZERO || one.dot(two).abs() > 0.9;
    nearest.is_some_and(|(pair, opposite)| (0.5..THICKEST).contains(&away(at, pair)) && parallel && open.dot(*opposite) < 0.5)
}

/// Distance of a point from a straight piece.
fn away(p: DVec3, pair: &[DVec3]) -> f64 {
    let [a, b] = [0, pair.len() - 1].map(|n| pair.get(n).copied().unwrap_or_default());
    let along = b - a;
    let share = ((p - a).dot(along) / along.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    p.distance(a + along * share)
}

/// Butt welds between the pieces of one part: each gets the joint that is as long as it says.
fn share_splices(welds: &mut [Weld]) {
    for n in 0..welds.len() {
        // A rim in two pieces has its seam and its splice between the same two.
        let same = |w: &Weld| !w.fillet && w.beads == welds[n].beads;
        let alike: Vec<usize> = welds.iter().enumerate().skip(n).filter(|(_, w)| same(w)).map(|(k, _)| k).collect();
        if welds[n].fillet || alike.len() < 2 || welds.iter().take(n).any(same) {
            continue;
        }
        let mut joints = joints(std::mem::take(&mut welds[n].beads), 3.0 * welds[n].size);
        for k in alike {
            // Both edges of the plate run along the joint.
            let off = |joint: &Vec<Bead>| (joint.iter().map(|bead| bead.run.length()).sum::<f64>() / 2.0 - welds[k].length).abs();
            let best = joints.iter().enumerate().min_by(|a, b| off(a.1).total_cmp(&off(b.1))).map(|(at, _)| at);
            welds[k].beads = best.map_or_else(Vec::new, |at| joints.remove(at));
        }
    }
}

/// Beads sorted into joints: what comes this near to each other belongs together.
fn joints(beads: Vec<Bead>, near: f64) -> Vec<Vec<Bead>> {
    let mut out: Vec<Vec<Bead>> = Vec::new();
    for bead in beads {
        let meets = |joint: &Vec<Bead>| joint.iter().any(|other| other.run.points.iter().any(|p| bead.run.points.iter().any(|q| p.distance(*q) < near)));
        let (with, without): (Vec<_>, Vec<_>) = out.into_iter().partition(|joint| meets(joint));
        out = without;
        out.push(with.into_iter().flatten().chain([bead]).collect());
    }
    out
}

/// Which of some runs are part of a ring, other than the foot of a plate that stands on edge: those whose ends others join.
fn rings(runs: &[&Run]) -> Vec<bool> {
    let ends = |n: usize| runs[n].points.first().copied().zip(runs[n].points.last().copied()).unwrap_or_default();
    let meet = |a: usize, b: usize| {
        let ((a, b), (c, d)) = (ends(a), ends(b));
        [a, b].iter().any(|p| [c, d].iter().any(|q| p.distance(*q) < MEET))
    };
    let closed = |n: usize| {
        let (from, to) = ends(n);
        let mut reached = vec![from];
        let mut left: Vec<usize> = (0..runs.len()).filter(|other| *other != n).collect();
        let next = |reached: &[DVec3], left: &[usize]| {
            left.iter().position(|run| [ends(*run).0, ends(*run).1].iter().any(|p| reached.iter().any(|q| p.distance(*q) < MEET)))
        };
        while let Some(at) = next(&reached, &left) {
            let (a, b) = ends(left.remove(at));
            reached.extend([a, b]);
        }
        from.distance(to) < SHORT || reached.iter().skip(1).any(|p| p.distance(to) < MEET)
    };
    let mut left: Vec<usize> = (0..runs.len()).filter(|n| closed(*n)).collect();
    let mut round = vec![false; runs.len()];
    while let Some(first) = left.pop() {
        let mut ring = vec![first];
        while let Some(at) = left.iter().position(|n| ring.iter().any(|other| meet(*n, *other))) {
            ring.push(left.remove(at));
        }
        let length = |n: &usize| runs[*n].length();
        let sides: f64 = ring.iter().filter(|n| ring.iter().any(|other| opposed(runs[**n], runs[*other]))).map(length).sum();
        let ended = ring.len() == 2 || ring.iter().any(|n| runs[*n].end);
        if !(ended && sides > 0.5 * ring.iter().map(length).sum::<f64>()) {
            ring.iter().for_each(|n| round[*n] = true);
        }
    }
    round
}
