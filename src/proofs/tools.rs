//! Tools reach: a spanner or a socket turns every head, a spanner holds every nut, a hand gets to nuts inside the casing, a head gets in
//! front of every inspection door.
//!
//! In: a machine and its parts. Out: what nothing reaches, with what stands in its way and how deep the tool that comes nearest would
//! reach into it. Belt and buckets are not asked: they are turned aside, or off. The take-up may be moved for it. What covers a screw is
//! taken off before.

use super::allowed::like;
use super::standing::{Piece, Position, Read, Stance};
use crate::formulas::look;
use crate::geometry::Edge;
use crate::machine::{Body, Machine};
use crate::parts::{Joint, Parts};
use crate::say::Statement;
use crate::solid::Brep;
use crate::solid::brep::{FLAT, Frame};
use crate::solid::build::extrude;
use crate::solid::overlap::{Stood, shared};
use crate::solid::plane::Loop;
use crate::solid::within::{Bounds, Within};
use crate::tables::spanners::{KEY, Spanner, TURN_DEG, cranked, open, ring, socket};
use crate::tables::threads::{self, Thread};
use glam::{DAffine3, DVec3};
use kurbo::Point;
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// In so many directions a handle is tried.
const DIRECTIONS: u32 = 12;
/// How far an arm reaches from an opening, mm (common practice, no source).
pub const ARM: f64 = 600.0;
/// Least width of an opening that an arm goes through, mm (EN 547-2, from memory: about 120 for an arm to the shoulder).
const ARM_HOLE: f64 = 120.0;
/// Lap of a leaf over its opening, mm, more or less.
const LAP: f64 = 30.0;
/// A tool may reach so deep into what is beside it, mm: it is the largest that its standard allows.
const SLACK: f64 = 0.2;
/// What is left round the room before a door, mm.
const ROUND_DOOR: f64 = 5.0;

/// What is not reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// A head that no spanner turns.
    Head,
    /// A nut that no spanner holds.
    Nut,
    /// A nut inside the casing, too far from any opening.
    Hand,
    /// A door that no head gets in front of.
    Face,
}

/// Something that is not reached.
#[derive(Debug, Clone, PartialEq)]
pub struct Unreached {
    /// What.
    pub what: What,
    /// Its id: `bolt.3`, `nut.3`, `door[1].leaf`.
    pub id: String,
    /// What its joint is for; of a door its id.
    pub feature: String,
    /// Id of what is in the way of the tool that comes nearest; of a hand the nearest opening.
    pub by: String,
    /// What that is.
    pub name: Statement,
    /// How deep the tool reaches into it; of a hand how far it is beyond an arm; mm.
    pub deep: f64,
    /// Where, model mm.
    pub at: [f64; 3],
    /// How many alike.
    pub times: usize,
}

fn disc(radius: f64) -> Loop {
    vec![Edge::circle(Point::ZERO, radius)]
}

fn between(outline: &Loop, [low, high]: [f64; 2]) -> Option<Brep> {
    extrude(std::slice::from_ref(outline), high - low, &Frame { origin: DVec3::Z * low, ..FLAT }).ok()
}

/// What a handle along x sweeps when it is turned by half of `turn` to either side.
fn swept(spanner: &Spanner, turn_deg: f64) -> Option<Brep> {
    let half = (turn_deg / 2.0).to_radians();
    let at = |angle: f64, side: f64, long: f64| Point::new(long * angle.cos() - side * angle.sin(), long * angle.sin() + side * angle.cos());
    let (long, wide) = (spanner.long, spanner.half);
    let corners = [at(-half, -wide, 0.0), at(-half, -wide, long), Point::new(long + wide, 0.0), at(half, wide, long), at(half, wide, 0.0)];
    between(&Edge::chain(&corners.map(|p| (p, 0.0)), true), spanner.handle)
}

/// The bodies of the tools for one width across flats, on the face that a head lies on.
struct Kit {
    socket: Option<Brep>,
    key: Option<Brep>,
    /// Jaw, handle as it is turned, handle that is held still.
    spanners: Vec<[Option<Brep>; 3]>,
}

impl Kit {
    fn of(flats: f64) -> Self {
        let [radius, high] = socket(flats);
        let spanner = |s: Spanner| [between(&disc(s.jaw), s.deep), swept(&s, TURN_DEG), swept(&s, 0.0)];
        Self {
            socket: between(&disc(radius), [0.3, high]),
            key: between(&disc(KEY[0]), [0.1, KEY[1]]),
            spanners: [open, ring, cranked].map(|tool| spanner(tool(flats))).into(),
        }
    }
}

/// What is in the way of a tool.
#[derive(Clone, Copy)]
struct Met<'a> {
    body: &'a Body,
    deep: f64,
    at: DVec3,
}

/// The pieces of a machine with the take-up in one place.
struct Scene<'a> {
    pieces: Vec<Piece<'a>>,
}

impl<'a> Scene<'a> {
    /// What a body there meets, the deepest; pieces that do not count left out.
    fn met(&self, body: Option<&Within<'_>>, at: DAffine3, counts: &dyn Fn(&Piece<'_>) -> bool) -> Option<Met<'a>> {
        let stood = Stood::new(body?, at);
        let near = self.pieces.iter().filter(|p| p.stood.reach.meets(&stood.reach) && !p.alone && counts(p));
        let found = near.filter_map(|p| shared(&stood, &p.stood).filter(|s| s.deep > SLACK).map(|s| Met { body: p.body, deep: s.deep, at: s.at }));
        found.max_by(|a, b| a.deep.total_cmp(&b.deep))
    }
}

/// Tools ready to be stood.
struct Tools<'a> {
    socket: Option<Within<'a>>,
    key: Option<Within<'a>>,
    spanners: Vec<[Option<Within<'a>>; 3]>,
}

impl<'a> Tools<'a> {
    fn new(kit: &'a Kit) -> Self {
        let within = |b: &'a Option<Brep>| b.as_ref().map(Within::new);
        let spanners = kit.spanners.iter().map(|[jaw, turned, still]| [within(jaw), within(turned), within(still)]).collect();
        Self { socket: within(&kit.socket), key: within(&kit.key), spanners }
    }

    /// What keeps every tool off, if none reaches: of the one that comes nearest.
    fn kept_off<'s>(&self, scene: &Scene<'s>, at: DAffine3, (sunk, held): (bool, bool), counts: &dyn Fn(&Piece<'_>) -> bool) -> Option<Met<'s>> {
        let straight = scene.met(if sunk { self.key.as_ref() } else { self.socket.as_ref() }, at, counts)?;
        if sunk {
            return Some(straight);
        }
        let mut least = straight;
        for [jaw, turned, still] in &self.spanners {
            if let Some(met) = scene.met(jaw.as_ref(), at, counts) {
                least = if met.deep < least.deep { met } else { least };
                continue;
            }
            let handle = if held { still } else { turned };
            for direction in 0..DIRECTIONS {
                let turn = DAffine3::from_rotation_z(2.0 * PI * f64::from(direction) / f64::from(DIRECTIONS));
                let met = scene.met(handle.as_ref(), at * turn, counts)?;
                least = if met.deep < least.deep { met } else { least };
            }
        }
        Some(least)
    }
}

fn joint_of<'a>(parts: &'a Parts, id: &str) -> Option<(usize, &'a Joint)> {
    let number: usize = id.rsplit_once('.')?.1.parse().ok()?;
    number.checked_sub(1).and_then(|n| parts.joints.get(n)).map(|joint| (number, joint))
}

/// Everything that is not reached.
pub fn unreached(machine: &Machine, parts: &Parts, travel: f64) -> Vec<Unreached> {
    let read = Read::new(machine);
    let scenes = [Position::Lowest, Position::Highest].map(|p| Scene { pieces: read.pieces(Stance::at(p), travel) });
    let mut out = Vec::new();
    bolts(&scenes, parts, &mut out);
    hands(&scenes[0], parts, &mut out);
    faces(&scenes, parts, &mut out);
    let mut all: BTreeMap<(What, String, String), Unreached> = BTreeMap::new();
    for one in out {
        let times = one.times;
        let known = all.entry((one.what, one.id.clone(), one.by.clone())).or_insert_with(|| Unreached { times: 0, ..one.clone() });
        let sum = known.times + times;
        if one.deep > known.deep {
            *known = one;
        }
        known.times = sum;
    }
    all.into_values().collect()
}

/// Heads and nuts that no tool reaches in either end of the take-up.
fn bolts(scenes: &[Scene<'_>; 2], parts: &Parts, out: &mut Vec<Unreached>) {
    let sizes: BTreeMap<&str, (&Thread, Kit)> = parts
        .joints
        .iter()
        .filter_map(|j| threads::find(&j.thread))
        .map(|t| (t.name, t))
        .collect::<BTreeMap<_, _>>()
        .into_iter()
        .map(|(name, thread)| (name, (thread, Kit::of(thread.across_flats_mm))))
        .collect();
    let tools: BTreeMap<&str, (&Thread, Tools<'_>)> = sizes.iter().map(|(name, (thread, kit))| (*name, (*thread, Tools::new(kit)))).collect();
    let screws = scenes[0].pieces.iter().filter(|p| like(&p.body.id, "bolt") || like(&p.body.id, "nut"));
    for piece in screws {
        let Some((number, joint)) = joint_of(parts, &piece.body.id) else { continue };
        let Some((thread, tools)) = threads::find(&joint.thread).and_then(|t| tools.get(t.name)) else { continue };
        let nut = like(&piece.body.id, "nut");
        if nut && joint.welded {
            continue;
        }
        let kept_off = |scene: &Scene<'_>| -> Option<Unreached> {
            let stands = scene.pieces.iter().find(|p| std::ptr::eq(p.body, piece.body) && p.place == piece.place)?;
            let seat = if nut {
                stands.stood.at * DAffine3::from_translation(DVec3::Z * thread.nut_mm) * DAffine3::from_rotation_x(PI)
            } else {
                stands.stood.at * DAffine3::from_translation(DVec3::Z * joint.length)
            };
            let counts = |p: &Piece<'_>| !on_axis(p, number, &stands.stood.at) && !covers(p, parts, &joint.feature);
            let met = tools.kept_off(scene, seat, (joint.countersunk, nut), &counts)?;
            Some(Unreached {
                what: if nut { What::Nut } else { What::Head },
                id: piece.body.id.clone(),
                feature: joint.feature.clone(),
                by: met.body.id.clone(),
                name: met.body.name.clone(),
                deep: met.deep,
                at: met.at.to_array(),
                times: 1,
            })
        };
        let [low, high] = [&scenes[0], &scenes[1]];
        if let Some(found) = kept_off(low)
            && (!piece.rises && scenes[1].pieces.len() == scenes[0].pieces.len() || kept_off(high).is_some())
        {
            out.push(found);
        }
    }
}

/// Whether a piece is bolt, nut or washer in the same hole.
fn on_axis(piece: &Piece<'_>, number: usize, at: &DAffine3) -> bool {
    let own = ["bolt", "nut", "washer"].iter().any(|what| piece.body.id.strip_prefix(what).and_then(|n| n.strip_prefix('.')) == Some(&number.to_string()));
    let (from, axis) = (piece.stood.at.translation - at.translation, at.matrix3.z_axis);
    own && (from - axis * from.dot(axis)).length() < 1.0
}

/// Whether a piece is taken off before one gets to the screws for a purpose: what lies on the guard of an opening.
fn covers(piece: &Piece<'_>, parts: &Parts, feature: &str) -> bool {
    let Some(opening) = feature.strip_suffix(" mesh") else { return false };
    let leaf = ["leaf", "grip", "gasket"].iter().any(|what| piece.body.id.strip_prefix(opening).and_then(|rest| rest.strip_prefix('.')) == Some(what));
    let held = ["bolt", "washer"].iter().any(|what| like(&piece.body.id, what)) && joint_of(parts, &piece.body.id).is_some_and(|(_, j)| j.feature == opening);
    leaf || held
}

/// Leaves, covers and lids with the box round each.
fn leaves<'a>(scene: &Scene<'a>) -> Vec<(&'a Body, Bounds)> {
    let leaf = |id: &str| id == "pocket.lid" || id.ends_with(".leaf");
    scene.pieces.iter().filter(|p| leaf(&p.body.id)).map(|p| (p.body, p.stood.reach)).collect()
}

/// Nuts inside the casing that are too far from any opening.
fn hands(scene: &Scene<'_>, parts: &Parts, out: &mut Vec<Unreached>) {
    let reach = |id: &str| Bounds::round(scene.pieces.iter().filter(|p| like(&p.body.id, id)).map(|p| p.stood.reach));
    let (near, far, ends) = (reach("side_plate.near"), reach("side_plate.far"), reach("end_plate"));
    let inside = Bounds { low: DVec3::new(ends.low.x, far.high.y, ends.low.z), high: DVec3::new(ends.high.x, near.low.y, ends.high.z) };
    let openings: Vec<(&Body, Bounds)> = leaves(scene)
        .into_iter()
        .map(|(body, leaf)| (body, opening_of(&leaf)))
        .filter(|(_, o)| (o.high - o.low).to_array().iter().filter(|size| **size >= ARM_HOLE).count() >= 2)
        .collect();
    // Nuts under the top flange are reached from outside, or from above.
    let through_side = |joint: &Joint| {
        let sides = parts.items.iter().filter(|p| like(&p.id, "side_plate")).filter_map(|p| p.flat.as_ref());
        sides.flat_map(|flat| &flat.holes).any(|hole| hole.feature == joint.feature)
    };
    for nut in scene.pieces.iter().filter(|p| like(&p.body.id, "nut")) {
        let at = nut.stood.reach.low.midpoint(nut.stood.reach.high);
        let Some((_, joint)) = joint_of(parts, &nut.body.id).filter(|(_, j)| !j.welded && through_side(j) && inside.holds(at)) else { continue };
        let away = |o: &Bounds| at.distance(at.clamp(o.low, o.high));
        let Some((nearest, far)) = openings.iter().map(|(body, o)| (*body, away(o))).min_by(|a, b| a.1.total_cmp(&b.1)) else { continue };
        if far > ARM {
            out.push(Unreached {
                what: What::Hand,
                id: nut.body.id.clone(),
                feature: joint.feature.clone(),
                by: nearest.id.clone(),
                name: nearest.name.clone(),
                deep: far - ARM,
                at: at.to_array(),
                times: 1,
            });
        }
    }
}

/// The clear opening behind a leaf.
fn opening_of(leaf: &Bounds) -> Bounds {
    let size = leaf.high - leaf.low;
    let lap = DVec3::from_array(size.to_array().map(|s| if s > 3.0 * LAP { LAP } else { 0.0 }));
    Bounds { low: leaf.low + lap, high: leaf.high - lap }
}

/// Inspection doors before which something stands, in either end of the take-up.
fn faces(scenes: &[Scene<'_>; 2], parts: &Parts, out: &mut Vec<Unreached>) {
    for part in parts.items.iter().filter(|p| like(&p.id, "door") || p.id.starts_with("door[")).filter(|p| p.id.ends_with(".leaf")) {
        let Some((flat, place)) = part.flat.as_ref().zip(part.placements.first()) else { continue };
        let (low, high) = flat.outer.bounds();
        let edge = LAP + ROUND_DOOR;
        let corners = [[low[0] + edge, low[1] + edge], [high[0] - edge, low[1] + edge], [high[0] - edge, high[1] - edge], [low[0] + edge, high[1] - edge]];
        let outline = Edge::chain(&corners.map(|[x, y]| (Point::new(x, y), 0.0)), true);
        let Some(room) = between(&outline, [part.thickness, part.thickness + look::HEAD]) else { continue };
        let opening = part.id.trim_end_matches(".leaf");
        let within = Within::new(&room);
        let counts = |p: &Piece<'_>| !p.body.id.starts_with(&format!("{opening}."));
        let met = scenes.iter().find_map(|scene| scene.met(Some(&within), super::standing::pose(place), &counts));
        if let Some(met) = met {
            out.push(Unreached {
                what: What::Face,
                id: part.id.clone(),
                feature: opening.into(),
                by: met.body.id.clone(),
                name: met.body.name.clone(),
                deep: met.deep,
                at: met.at.to_array(),
                times: 1,
            });
        }
    }
}
