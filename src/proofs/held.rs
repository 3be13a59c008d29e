//! Nothing hangs in the air: every piece is joined to the casing, every hole for a bolt has its bolt, every bolt goes through
//! what its joint says.
//!
//! In: a machine and its parts, take-up at its lowest. Out: what is not so. Pieces are joined by a seam that runs along both, by
//! a bolt through holes of both, by a bore that sits on a bar as thick, or as [`LIES`] says. Sizes are those of the bodies; joints
//! only say what to expect.

use super::allowed::{LIES, PARTNERS, both, like};
use super::fillets;
use super::standing::{Piece, Position, Read, Stance, pairs};
use crate::machine::Machine;
use crate::parts::{Joint, Part, Parts};
use crate::say::Statement;
use crate::solid::overlap::{shared, touching};
use crate::solid::touch::GAP;
use crate::solid::within::{Bounds, Within};
use glam::DVec3;
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// Axes no further apart are one, mm.
const IN_LINE: f64 = 0.6;
/// A bar sits in a bore that is as wide to this, mm in radius: rounded sizes of fits.
const SEAT: f64 = 0.06;
/// A bolt goes through holes from its tap drill to a wide one: shares of its radius.
const HOLES: [f64; 2] = [0.75, 1.4];
/// What of a shank lies in a hole, at least, mm.
const ENGAGED: f64 = 0.5;
/// What a bolt clamps may differ from its joint's by so much, mm.
const CLAMPED: f64 = 0.6;

/// Something that is not held as it should be.
#[derive(Debug, Clone, PartialEq)]
pub enum Loose {
    /// A piece that nothing joins to the casing.
    Alone {
        /// Its id.
        id: String,
        /// Its item number.
        item: Option<u32>,
        /// What it is.
        name: Statement,
        /// Pieces of this body that hang.
        pieces: usize,
    },
    /// Holes for bolts that nothing fills.
    Hole {
        /// The part.
        id: String,
        /// Its item number.
        item: u32,
        /// What they are for.
        feature: String,
        /// The first of them, model mm.
        at: [f64; 3],
        /// How many.
        holes: usize,
    },
    /// Bolts that clamp another thickness than their joint says.
    Clamps {
        /// Their id.
        id: String,
        /// What the joint is for.
        feature: String,
        /// What lies in the first of them, mm.
        through: f64,
        /// What the joint says, mm.
        says: f64,
        /// How many.
        bolts: usize,
    },
    /// Bolts at whose end there is neither nut nor thread.
    NoEnd {
        /// Their id.
        id: String,
        /// How many.
        bolts: usize,
    },
    /// Bolts of the list that stand nowhere.
    Nowhere {
        /// What the joint is for.
        feature: String,
        /// On the list.
        wanted: usize,
        /// Standing.
        stand: usize,
    },
}

/// A round face all round: a bore, or a pin.
#[derive(Debug, Clone, Copy)]
struct Round {
    /// On its axis at its one end, in the model.
    from: DVec3,
    /// At its other.
    to: DVec3,
    radius: f64,
    bore: bool,
}

impl Round {
    fn axis(&self) -> DVec3 {
        (self.to - self.from).normalize_or_zero()
    }
    /// How far two run beside each other, mm; nothing where they are not in line.
    fn along(&self, other: &Self) -> f64 {
        let (axis, off) = (self.axis(), other.from - self.from);
        if axis.cross(other.axis()).length() > 1e-3 || (off - axis * off.dot(axis)).length() > IN_LINE {
            return 0.0;
        }
        let [a, b] = [other.from, other.to].map(|p| (p - self.from).dot(axis));
        a.max(b).min(self.from.distance(self.to)) - a.min(b).max(0.0)
    }
}

/// The bores and pins of a body, in its own frame; a bore with a keyway is one.
fn rounds(body: &Within<'_>) -> Vec<Round> {
    let each = (0..body.faces()).filter_map(|face| {
        let round = body.round(face).filter(|r| r.slope == 0.0)?;
        let rims = round.arcs.iter().filter(|arc| arc.sweep > PI).map(|arc| arc.height);
        let (low, high) = rims.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), h| (a.min(h), b.max(h)));
        let at = |height: f64| round.origin + round.axes[0] * height;
        (high > low).then(|| Round { from: at(low), to: at(high), radius: round.radius, bore: round.outward < 0.0 })
    });
    each.collect()
}

/// Pieces, and which of them are joined.
struct Held<'a> {
    pieces: Vec<Piece<'a>>,
    rounds: Vec<Vec<Round>>,
    /// Pairs whose boxes meet, a little grown.
    near: Vec<(usize, usize)>,
    root: Vec<usize>,
}

impl Held<'_> {
    fn of(&self, mut index: usize) -> usize {
        while self.root[index] != index {
            index = self.root[index];
        }
        index
    }
    fn join(&mut self, one: usize, other: usize) {
        let (a, b) = (self.of(one), self.of(other));
        self.root[a.max(b)] = a.min(b);
    }
    fn ids(&self, (one, other): (usize, usize)) -> [&str; 2] {
        [&self.pieces[one].body.id, &self.pieces[other].body.id]
    }
    /// How long the hole of a piece is that a bolt's shank lies in, mm; none where it lies in none.
    fn through(&self, bolt: usize, other: usize) -> f64 {
        let Some(shank) = self.rounds[bolt].iter().find(|r| !r.bore) else { return 0.0 };
        let fits = |bore: &&Round| bore.bore && (HOLES[0]..HOLES[1]).contains(&(bore.radius / shank.radius));
        self.rounds[other].iter().filter(fits).filter(|bore| shank.along(bore) > ENGAGED).map(|bore| bore.from.distance(bore.to)).fold(0.0, f64::max)
    }
    /// Whether the one sits in the other's bore.
    fn sits(&self, one: usize, other: usize) -> bool {
        let fits = |a: &Round, b: &Round| a.bore != b.bore && (a.radius - b.radius).abs() <= SEAT && a.along(b) > 0.5;
        self.rounds[one].iter().any(|a| self.rounds[other].iter().any(|b| fits(a, b)))
    }
}

/// Everything of a machine that is not held.
pub fn loose(machine: &Machine, parts: &Parts) -> Vec<Loose> {
    let read = Read::new(machine);
    let pieces = read.pieces(Stance::at(Position::Lowest), 0.0);
    let own: BTreeMap<&str, Vec<Round>> = pieces.iter().filter(|p| p.place == 0).map(|p| (p.body.id.as_str(), rounds(p.stood.body))).collect();
    let moved = |p: &Piece<'_>| {
        let at = |r: &Round| Round { from: p.stood.at.transform_point3(r.from), to: p.stood.at.transform_point3(r.to), ..*r };
        own.get(p.body.id.as_str()).map(|all| all.iter().map(at).collect()).unwrap_or_default()
    };
    let boxes: Vec<Bounds> = pieces.iter().map(|p| p.stood.reach.grown(GAP / 2.0)).collect();
    let rounds = pieces.iter().map(moved).collect();
    let mut held = Held { root: (0..pieces.len()).collect(), near: pairs(&boxes), pieces, rounds };
    let mut out = Vec::new();
    bolted(&mut held, parts, &mut out);
    fitted(&mut held);
    welded(&mut held, parts);
    out.extend(holes(&held, parts));
    out.extend(nowhere(machine, parts));
    out.extend(alone(&held));
    out
}

fn is_bolt(id: &str) -> bool {
    like(id, "bolt")
}

fn joint_of<'a>(parts: &'a Parts, id: &str) -> Option<&'a Joint> {
    let number: usize = id.strip_prefix("bolt.")?.parse().ok()?;
    parts.joints.get(number.checked_sub(1)?)
}

/// Bolts in their holes, and what they clamp.
fn bolted(held: &mut Held<'_>, parts: &Parts, out: &mut Vec<Loose>) {
    let mut through: BTreeMap<usize, (f64, bool)> = (0..held.pieces.len()).filter(|i| is_bolt(&held.pieces[*i].body.id)).map(|i| (i, (0.0, false))).collect();
    for pair in held.near.clone() {
        for (bolt, other) in [pair, (pair.1, pair.0)] {
            if !is_bolt(&held.pieces[bolt].body.id) || is_bolt(&held.pieces[other].body.id) {
                continue;
            }
            let long = held.through(bolt, other);
            if long <= 0.0 {
                continue;
            }
            held.join(bolt, other);
            let nut = like(&held.pieces[other].body.id, "nut");
            let own = nut || like(&held.pieces[other].body.id, "washer");
            let tapped = nut || is_tapped(parts, &held.pieces[bolt].body.id, &held.pieces[other].body.id);
            if let Some((clamped, end)) = through.get_mut(&bolt) {
                *clamped += if own { 0.0 } else { long };
                *end |= tapped;
            }
        }
    }
    let mut clamps: BTreeMap<&str, (f64, usize)> = BTreeMap::new();
    let mut ends: BTreeMap<&str, usize> = BTreeMap::new();
    for (bolt, (clamped, end)) in &through {
        let id = held.pieces[*bolt].body.id.as_str();
        let Some(joint) = joint_of(parts, id) else { continue };
        let partner = PARTNERS.iter().any(|p| p.feature == joint.feature);
        let off = clamped - joint.clamped;
        if off.abs() > CLAMPED && !(partner && off < 0.0) {
            clamps.entry(id).or_insert((*clamped, 0)).1 += 1;
        }
        if !end && !partner {
            *ends.entry(id).or_default() += 1;
        }
    }
    out.extend(clamps.into_iter().filter_map(|(id, (through, bolts))| {
        joint_of(parts, id).map(|j| Loose::Clamps { id: id.into(), feature: j.feature.clone(), through, says: j.clamped, bolts })
    }));
    out.extend(ends.into_iter().map(|(id, bolts)| Loose::NoEnd { id: id.into(), bolts }));
}

/// Whether a part has holes tapped for the bolts of a joint.
fn is_tapped(parts: &Parts, bolt: &str, part: &str) -> bool {
    let tapped = |part: &Part, joint: &Joint| part.flat.iter().flat_map(|f| &f.holes).any(|h| h.feature == joint.feature && h.thread.is_some());
    parts.part(part).zip(joint_of(parts, bolt)).is_some_and(|(part, joint)| tapped(part, joint))
}

/// Bars in their bores, and what lies in its place.
fn fitted(held: &mut Held<'_>) {
    for pair in held.near.clone() {
        let lies = LIES.iter().any(|l| both(held.ids(pair), l.one, l.other));
        let stands = |i: usize| held.pieces[i].stood;
        let within = || held.through(pair.0, pair.1).max(held.through(pair.1, pair.0)) > 0.0;
        let lying = || within() || !touching(&stands(pair.0), &stands(pair.1), GAP).is_empty() || shared(&stands(pair.0), &stands(pair.1)).is_some();
        if held.sits(pair.0, pair.1) || lies && lying() {
            held.join(pair.0, pair.1);
        }
    }
}

/// Pieces along which a seam runs that joins them.
fn welded(held: &mut Held<'_>, parts: &Parts) {
    for stretch in fillets::stretches(parts, &held.pieces, 1) {
        for pair in stretch.pieces.windows(2) {
            held.join(pair[0], pair[1]);
        }
    }
}

/// Holes whose middle is in no body, by part and purpose.
fn holes(held: &Held<'_>, parts: &Parts) -> Vec<Loose> {
    let mut empty: BTreeMap<(&str, &str), (u32, [f64; 3], usize)> = BTreeMap::new();
    for part in &parts.items {
        let Some(flat) = &part.flat else { continue };
        for (place, hole) in part.placements.iter().flat_map(|place| flat.holes.iter().map(move |hole| (place, hole))) {
            let p = place.folded(&flat.bends, part.thickness, hole.at[0], hole.at[1], part.thickness / 2.0);
            let p = DVec3::new(p.x, p.y, p.z);
            let partner = PARTNERS.iter().any(|known| known.feature == hole.feature);
            if !partner && !held.pieces.iter().any(|piece| piece.body.id != part.id && piece.stood.holds(p)) {
                empty.entry((&part.id, &hole.feature)).or_insert((part.item, p.to_array(), 0)).2 += 1;
            }
        }
    }
    let said =
        |((id, feature), (item, at, holes)): ((&str, &str), (u32, [f64; 3], usize))| Loose::Hole { id: id.into(), item, feature: feature.into(), at, holes };
    empty.into_iter().map(said).collect()
}

/// Joints of which not all bolts stand.
fn nowhere(machine: &Machine, parts: &Parts) -> Vec<Loose> {
    let standing = |number: usize| machine.bodies.iter().filter(|b| b.id == format!("bolt.{}", number + 1)).map(|b| b.places.len()).sum::<usize>();
    let lost = parts.joints.iter().enumerate().map(|(i, j)| (j, standing(i))).filter(|(j, stand)| *stand != j.quantity as usize);
    lost.map(|(j, stand)| Loose::Nowhere { feature: j.feature.clone(), wanted: j.quantity as usize, stand }).collect()
}

/// Pieces that nothing joins to the casing: to its first side plate.
fn alone(held: &Held<'_>) -> Vec<Loose> {
    let roots: Vec<usize> = (0..held.pieces.len()).map(|i| held.of(i)).collect();
    let most = held.pieces.iter().position(|p| like(&p.body.id, "side_plate")).map(|i| held.of(i));
    let mut out: BTreeMap<&str, (usize, &Piece<'_>)> = BTreeMap::new();
    for (piece, _) in held.pieces.iter().zip(&roots).filter(|(_, root)| Some(**root) != most) {
        out.entry(&piece.body.id).or_insert((0, piece)).0 += 1;
    }
    out.into_values().map(|(pieces, p)| Loose::Alone { id: p.body.id.clone(), item: p.body.item, name: p.body.name.clone(), pieces }).collect()
}
