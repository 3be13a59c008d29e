//! Bolts and nuts of the bolted joints, through the holes that are for them.
//!
//! In: parts with holes that say what they are for, joints. Out: a body of the bolts of each joint, of its washers and of its
//! nuts, where the holes of the plates lie in as many lines as the joint has bolts. A joint whose holes do not is passed over:
//! its count is the list's, and where the bolts stand is not known.

use super::body::{Body, Machine, Material};
use super::moves::{Moves, Uncut};
use crate::model::Foot;
use crate::parts::bolts::washer_ring;
use crate::parts::placement::Placement;
use crate::parts::shape::{Mount, Shape, Unit, hexagon};
use crate::parts::{Joint, Part, Parts};
use crate::say;
use crate::say::{Statement, name, size};
use crate::solid::brep::FLAT;
use crate::solid::build::{Section, Segment, keyed};
use crate::solid::{Brep, Refusal};
use crate::tables::threads::{self, Thread};
use glam::DVec3;

/// Holes whose axes are no further apart belong together, mm.
const IN_LINE: f64 = 1.0;
/// Plates along a bolt are no further apart, mm.
const TOGETHER: f64 = 60.0;

/// A hole in a piece of a plate or in the foot of a bearing unit.
#[derive(Debug, Clone, Copy)]
struct Bore {
    /// Its middle on the back face and on the marked face, model mm.
    ends: [DVec3; 2],
    tapped: bool,
    moves: Moves,
}

/// Holes in line.
struct Stack(Vec<Bore>);

/// A bolt in its holes, model mm.
struct Ends {
    /// Where nut or tip end is.
    inner: DVec3,
    /// Where the head lies on.
    outer: DVec3,
    /// From the one to the other.
    out: DVec3,
}

/// Adds the bolts of every joint whose holes are found.
pub(super) fn add(machine: &mut Machine, foot: &Foot, parts: &Parts) {
    let middle = DVec3::new(0.0, 0.0, foot.casing.top / 2.0);
    for (number, joint) in parts.joints.iter().enumerate() {
        let Some(thread) = threads::find(&joint.thread) else { continue };
        let stacks = stacks(parts.items.iter().flat_map(|part| bores(part, &joint.feature)));
        if stacks.len() != joint.quantity as usize {
            continue;
        }
        let moves = stacks.first().map_or(Moves::Fixed, Stack::moves);
        let ends: Vec<Ends> = stacks.iter().map(|s| s.ends(joint, middle)).collect();
        // The head lies on the outer plate, a countersunk one in it; what is longer stands out behind.
        let under = if joint.countersunk { 0.0 } else { thread.washer_mm() };
        let at = |from: fn(&Ends) -> DVec3, by: f64| ends.iter().map(|e| along(machine, from(e) + e.out * by, e.out)).collect::<Vec<_>>();
        let (bolts, nuts) = (at(|e| e.outer, under - joint.length), at(|e| e.inner, -thread.nut_mm - if joint.welded { 0.0 } else { thread.washer_mm() }));
        let under_heads = (!joint.countersunk).then(|| at(|e| e.outer, under / 2.0));
        let under_nuts = (joint.nut && !joint.welded).then(|| at(|e| e.inner, -thread.washer_mm() / 2.0));
        let washers: Vec<Placement> = under_heads.into_iter().chain(under_nuts).flatten().collect();
        let body = |places: Vec<Placement>| {
            move |brep, id, name| Body { item: None, id, name, material: Material::Fastener, moves, uncut: Uncut::AlongAxis, of_steel: false, places, brep }
        };
        let id = format!("bolt.{}", number + 1);
        machine.take(&id, say!("{thread} × {length}", thread = name(&joint.thread), length = size(joint.length, 2)), bolt(thread, joint), body(bolts));
        if !washers.is_empty() {
            let said = say!("washer for {thread}", thread = name(&joint.thread));
            machine.take(&format!("washer.{}", number + 1), said, washer_ring(thread).body(), body(washers));
        }
        if joint.nut {
            let nut = Shape::Nut { flats: thread.across_flats_mm, bore: thread.diameter_mm, height: thread.nut_mm };
            machine.take(&format!("nut.{}", number + 1), Statement::named(&joint.thread), nut.body(), body(nuts));
        }
    }
}

/// The holes of a bearing unit where it stands: along the shaft through a flange, square to it through a base.
fn of_casting<'a>(unit: &'a Unit, place: &'a Placement, moves: Moves) -> impl Iterator<Item = Bore> + 'a {
    unit.holes.iter().map(move |[a, b]| {
        let at = |[x, y, z]: [f64; 3]| {
            let p = place.point(x, y, z);
            DVec3::new(p.x, p.y, p.z)
        };
        let ends = if unit.mount == Mount::Base {
            [at([*a, -unit.height, *b]), at([*a, unit.foot - unit.height, *b])]
        } else {
            [at([*a, *b, 0.0]), at([*a, *b, unit.foot])]
        };
        Bore { ends, tapped: false, moves }
    })
}

/// The holes of a part that are for this feature, in each of its pieces.
fn bores<'a>(part: &'a Part, feature: &'a str) -> impl Iterator<Item = Bore> + 'a {
    let moves = super::moves::of_part(&part.id);
    let of_unit = match &part.shape {
        Some(Shape::Unit(unit)) if unit.bolted == feature => Some(unit),
        _ => None,
    };
    let units = of_unit.into_iter().flat_map(move |unit| part.placements.iter().flat_map(move |place| of_casting(unit, place, moves)));
    let plates = part.flat.iter().flat_map(move |flat| {
        part.placements.iter().flat_map(move |place| {
            flat.holes.iter().filter(move |h| h.feature == feature).map(move |hole| {
                let at = |h: f64| {
                    let p = place.folded(&flat.bends, part.thickness, hole.at[0], hole.at[1], h);
                    DVec3::new(p.x, p.y, p.z)
                };
                Bore { ends: [at(0.0), at(part.thickness)], tapped: hole.thread.is_some(), moves }
            })
        })
    });
    plates.chain(units)
}

impl Bore {
    fn middle(&self) -> DVec3 {
        self.ends[0].midpoint(self.ends[1])
    }
    fn axis(&self) -> DVec3 {
        (self.ends[1] - self.ends[0]).normalize()
    }
    /// Whether another one is in line with it and near it.
    fn meets(&self, other: &Self) -> bool {
        let (axis, way) = (self.axis(), other.middle() - self.middle());
        let along = way.dot(axis);
        let thick = (self.ends[0].distance(self.ends[1]) + other.ends[0].distance(other.ends[1])) / 2.0;
        axis.cross(other.axis()).length() < 1e-3 && (way - axis * along).length() < IN_LINE && along.abs() < thick + TOGETHER
    }
}

fn stacks(bores: impl Iterator<Item = Bore>) -> Vec<Stack> {
    let mut out: Vec<Stack> = Vec::new();
    for bore in bores {
        match out.iter_mut().find(|s| s.0.iter().any(|b| b.meets(&bore))) {
            Some(stack) => stack.0.push(bore),
            None => out.push(Stack(vec![bore])),
        }
    }
    out
}

impl Stack {
    /// A bolt goes with what comes off last.
    fn moves(&self) -> Moves {
        self.0.iter().map(|b| b.moves).max().unwrap_or(Moves::Fixed)
    }
    /// Where the bolt's head and its nut or end lie.
    fn ends(&self, joint: &Joint, middle: DVec3) -> Ends {
        let Some(first) = self.0.first() else { return Ends { inner: middle, outer: middle, out: DVec3::Z } };
        let (origin, axis) = (first.middle(), first.axis());
        let span = |bores: &mut dyn Iterator<Item = &Bore>| {
            bores.flat_map(|b| b.ends).map(|p| (p - origin).dot(axis)).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), d| (a.min(d), b.max(d)))
        };
        let (low, high) = span(&mut self.0.iter());
        let tapped = span(&mut self.0.iter().filter(|b| b.tapped));
        // The head stands on the clear plates; where there are none, or a nut holds it, outside.
        let outward = (origin - middle).dot(axis) > 0.0;
        let up = if joint.nut || high - low < tapped.1 - tapped.0 + 1e-6 { outward } else { high - tapped.1 > tapped.0 - low };
        let (inner, outer, out) = if up { (low, high, axis) } else { (high, low, -axis) };
        // What is bolted on and is not ours lies outside.
        let beyond = (joint.clamped - (high - low)).max(0.0);
        Ends { inner: origin + axis * inner, outer: origin + axis * outer + out * beyond, out }
    }
}

/// Stands at a point with its own z along a direction.
fn along(machine: &Machine, at: DVec3, z: DVec3) -> Placement {
    let x = z.any_orthonormal_vector().to_array();
    let (y, toward) = (machine.third(z.to_array(), x), z.to_array());
    Placement::new(at.to_array(), x, y, toward)
}

/// Shank from z = 0, its end, then the head; a countersunk head is not shown beyond its shank.
fn bolt(thread: &Thread, joint: &Joint) -> Result<Brep, Refusal> {
    let shank = Segment::cylinder(0.0, joint.length, thread.diameter_mm, 0.0).section();
    let head = Section::straight(joint.length, joint.length + thread.head_mm, vec![hexagon(thread.across_flats_mm)]);
    keyed(&if joint.countersunk { vec![shank] } else { vec![shank, head] }, &FLAT)
}
