//! The pit's concrete in the two sections and in plan, its way down, rails and sump.
//!
//! Outlines only. The pit floor is z = 0; plant floor lies the pit's depth above it. Ladders and stairs
//! are drawn after ISO 14122-3 and -4 or OSHA 1910.23 to .25 in usual sizes; their maker's drawing governs.

use crate::model::frame::Extent;
use crate::model::inlets::FeedSide;
use crate::model::pit::{FeedOpening, PitBody};
use crate::model::pit_fittings::{Rail, TUBES};
use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material, rectangle};
use crate::spec::pit::Access;

/// How far the ground beside the pit is drawn, mm.
pub const GROUND: f64 = 400.0;

fn quad(d: &mut Draft, material: Material, pen: Option<Pen>, x: Extent, z: Extent) {
    let shape = rectangle(PlanePoint::new(x.low, z.low), PlanePoint::new(x.high, z.high));
    d.hatch(material, vec![shape.clone()]);
    if let Some(pen) = pen {
        d.stroke(pen, shape);
    }
}

/// Walls, slab, lean concrete and ground, cut across the range of the inner faces.
pub fn concrete(d: &mut Draft, pit: &PitBody, inner: Extent, gaps: &[FeedOpening]) {
    concrete_beside(d, pit, inner, gaps, GROUND);
}

/// The same with the ground drawn `beside` mm past the base on either side.
pub fn concrete_beside(d: &mut Draft, pit: &PitBody, inner: Extent, gaps: &[FeedOpening], beside: f64) {
    let (wall, toe, depth) = (pit.wall, pit.toe, pit.depth);
    let outer = inner.grown(wall);
    let base = outer.grown(toe);
    let mut u =
        vec![(base.low, -pit.slab), (base.high, -pit.slab), (base.high, 0.0), (outer.high, 0.0), (outer.high, depth), (inner.high, depth), (inner.high, 0.0)];
    u.extend([(inner.low, 0.0), (inner.low, depth), (outer.low, depth), (outer.low, 0.0), (base.low, 0.0)]);
    let shape = Shape::polygon(u.into_iter().map(|(x, y)| PlanePoint::new(x, y)));
    let holes: Vec<Shape<PlanePoint>> = gaps
        .iter()
        .map(|g| {
            let x = if g.side == FeedSide::Up { Extent::new(inner.high, outer.high) } else { Extent::new(outer.low, inner.low) };
            rectangle(PlanePoint::new(x.low, g.z.low), PlanePoint::new(x.high, g.z.high.min(depth)))
        })
        .collect();
    let mut loops = vec![shape.clone()];
    loops.extend(holes.iter().cloned());
    d.hatch(Material::Concrete, loops);
    d.stroke(Pen::Concrete, shape);
    for h in holes {
        d.stroke(Pen::Concrete, h);
    }
    if pit.lean > 0.0 {
        quad(d, Material::LeanConcrete, Some(Pen::FineEdge), base, Extent::new(-pit.slab - pit.lean, -pit.slab));
    }
    for (from, to) in [(outer.high, base.high + beside), (base.low - beside, outer.low)] {
        d.line(Pen::Ground, (from, depth), (to, depth));
        quad(d, Material::Earth, None, Extent::new(from, to), Extent::new(depth - 150.0, depth));
    }
}

/// The sump seen behind the cut, with its shell below the slab.
pub fn sump_behind(d: &mut Draft, pit: &PitBody, across: Extent, depth: f64) {
    d.polyline(Pen::Hidden, [(across.low, 0.0), (across.low, -depth), (across.high, -depth), (across.high, 0.0)]);
    let shell = across.grown(pit.slab);
    let bottom = -depth - pit.slab;
    d.polyline(Pen::Hidden, [(shell.low, -pit.slab), (shell.low, bottom), (shell.high, bottom), (shell.high, -pit.slab)]);
}

/// Ground water's level beside the pit.
pub fn water(d: &mut Draft, pit: &PitBody, inner: Extent, below_floor: f64) -> PlanePoint {
    let z = pit.depth - below_floor;
    let base = inner.grown(pit.wall + pit.toe);
    let (from, to) = (base.high + 60.0, base.high + GROUND);
    d.line(Pen::Ground, (from, z), (to, z));
    for (i, cut) in [0.3, 0.2, 0.1].iter().enumerate() {
        let middle = (from + to) / 2.0;
        let half = (to - from) * cut;
        let down = 30.0 * (i as f64 + 1.0);
        d.line(Pen::Ground, (middle - half, z - down), (middle + half, z - down));
    }
    PlanePoint::new(to, z)
}

/// Guard rail on both sides of the opening, cut: posts with knee rail and toe board; nothing without one.
///
/// No post stands where it gives way to a spout, `spouts` at the low and the high end.
pub fn rails(d: &mut Draft, pit: &PitBody, inner: Extent, spouts: [bool; 2]) {
    let Some(rail) = pit.fittings.rail else { return };
    for (x, spout) in [inner.low - rail.offset, inner.high + rail.offset].into_iter().zip(spouts) {
        if !spout {
            post(d, &rail, x, pit.depth);
        }
    }
}

/// Beams of the cover that are cut by the section along the machine through `y`.
pub fn beams(d: &mut Draft, pit: &PitBody, y: f64) {
    let (Some(cover), Some(seat)) = (&pit.cover, pit.fittings.seat) else { return };
    let half = cover.beam / 4.0;
    let top = pit.depth - seat.depth;
    for beam in cover.beams.iter().filter(|b| b.from[1].min(b.to[1]) < y && y < b.from[1].max(b.to[1])) {
        d.rectangle(Pen::Phantom, (beam.from[0] - half, top - cover.beam), (beam.from[0] + half, top));
    }
}

/// One post with its rails cut, standing at `x` on plant floor at height `floor`.
fn post(d: &mut Draft, rail: &Rail, x: f64, floor: f64) {
    let [top, knee] = TUBES;
    d.line(Pen::Edge, (x, floor), (x, floor + rail.height - top));
    d.circle(Pen::Edge, (x, floor + rail.height - top / 2.0), top / 2.0);
    d.circle(Pen::FineEdge, (x, floor + rail.knee), knee / 2.0);
    let gap = rail.toe_gap;
    d.rectangle(Pen::FineEdge, (x - 4.0, floor + gap), (x + 4.0, floor + gap + rail.toe_board));
}

/// Height of a guard rail as drawn, mm (ISO 14122-3: 1100; OSHA 1910.29: 42 in = 1067).
pub const RAIL: f64 = 1100.0;
/// Distance of ladder rungs from the wall as drawn, mm (ISO 14122-4: at least 200).
pub const LADDER_OFF: f64 = 200.0;

/// A ladder in profile at a wall; `into` is +1 when the pit lies at larger coordinates.
pub fn ladder_profile(d: &mut Draft, pit: &PitBody, wall: f64, into: f64) {
    let x = wall + into * LADDER_OFF;
    for stile in [x - into * 25.0, x + into * 25.0] {
        d.line(Pen::Edge, (stile, 0.0), (stile, pit.depth + RAIL));
    }
    for k in 1..=pit.way.steps {
        d.circle(Pen::FineEdge, (x, f64::from(k) * pit.way.rise), 12.0);
    }
}

/// A ladder or a stair from the front, between its sides.
pub fn way_front(d: &mut Draft, pit: &PitBody, across: Extent) {
    let top = if pit.access == Access::Ladder { pit.depth + RAIL } else { pit.depth };
    let middle = across.middle();
    for s in [-0.5, 0.5] {
        d.line(Pen::FineEdge, (middle + s * pit.way.clear_width, 0.0), (middle + s * pit.way.clear_width, top));
    }
    for k in 1..=pit.way.steps {
        let z = f64::from(k) * pit.way.rise;
        d.line(Pen::FineEdge, (middle - pit.way.clear_width / 2.0, z), (middle + pit.way.clear_width / 2.0, z));
    }
}

/// A stair in profile along its wall with its handrail, from its foot to its head; plant floor is the last step.
pub fn stair_profile(d: &mut Draft, pit: &PitBody, foot: f64, head: f64) {
    let goings = f64::from(pit.way.steps.saturating_sub(1).max(1));
    let going = (head - foot) / goings;
    let mut points = vec![(foot, 0.0)];
    for k in 1..=pit.way.steps {
        let z = f64::from(k) * pit.way.rise;
        points.push((foot + going * f64::from(k - 1), z));
        if k < pit.way.steps {
            points.push((foot + going * f64::from(k), z));
        }
    }
    d.polyline(Pen::FineEdge, points);
    // The handrail over the nosings, up to the rail round the opening.
    let nosing = |k: u32| (foot + going * f64::from(k - 1), f64::from(k) * pit.way.rise + RAIL);
    let last = pit.way.steps.max(1);
    d.line(Pen::FineEdge, nosing(1), nosing(last));
    for k in [1, last] {
        let (x, top) = nosing(k);
        d.line(Pen::FineEdge, (x, top - RAIL), (x, top));
    }
}
