//! The concrete pit round the foot: inner faces, walls, slab, sump, opening, way down.
//!
//! The pit floor is the plane z = 0, the underside of the foot base; plant floor level ±0.000 lies
//! `depth` above it. Outlines only: no reinforcement.

use super::base::BaseBody;
use super::casing::CasingBody;
use super::customary::custom;
use super::frame::{Extent, Feature, ModelPoint};
use super::inlets::{FeedSide, InletBody, PocketBody};
use super::pit_cast_in::{self, OnFloor, OnWall, Walls};
use super::pit_cover::{Cover, Covered, RailGap};
use super::pit_fittings::{Area, Fittings};
pub use super::pit_fittings::{FeedOpening, Sump, WayDown};
use super::pit_keep_clear::{ClearSpace, Hole, Standing};
use super::rotating::RotatingBody;
use crate::spec::Spec;
use crate::spec::inlets::Side;
use crate::spec::pit::{Access, AccessSide};
use crate::spec::reader::Chosen;
use crate::units::Length;

/// The pit as an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct PitBody {
    /// Inner faces along the machine.
    pub x: Extent,
    /// Inner faces across the machine.
    pub y: Extent,
    /// Plant floor above pit floor.
    pub depth: f64,
    /// Wall thickness.
    pub wall: f64,
    /// Slab thickness.
    pub slab: f64,
    /// Lean concrete thickness.
    pub lean: f64,
    /// Base slab beyond the walls.
    pub toe: f64,
    /// Sump in plan and its depth; `None` without one.
    pub sump: Option<Sump>,
    /// The way down.
    pub access: Access,
    /// At which wall.
    pub access_side: AccessSide,
    /// Space that the ladder or stair takes up in plan.
    pub way: WayDown,
    /// Where the first elevator's spouts or conveyors come through a wall below floor level; the others alike at the pitch.
    pub feed_openings: Vec<FeedOpening>,
    /// Clear spaces round the casing as built: up, down, near, far; from the outermost fixed part to the wall.
    pub spaces: [f64; 4],
    /// Elevators in the pit.
    pub elevators: u32,
    /// Distance between them, across the machine.
    pub pitch: f64,
    /// Outermost fixed parts of each elevator in plan; the first is the one of the other sheets.
    pub footprints: Vec<Area>,
    /// Landing, hatch, cover seat, rail, sleeves, floor fall.
    pub fittings: Fittings,
    /// The cover with its beams; `None` without one.
    pub cover: Option<Cover>,
    /// Where the guard rail gives way to the spouts of the first elevator.
    pub rail_gaps: Vec<RailGap>,
    /// Spaces that keep clear of each other.
    pub keeps_clear: Vec<ClearSpace>,
}

/// Outermost fixed parts of the foot in plan, without the pit.
pub fn footprint(casing: &CasingBody, inlets: &[InletBody], pocket: Option<&PocketBody>, rotating: &RotatingBody) -> (Extent, Extent) {
    let mut x = Extent::new(casing.down_outermost() - casing.plate, casing.up_face + casing.plate);
    for inlet in inlets {
        match inlet.side {
            FeedSide::Up => x.high = x.high.max(inlet.flange_face),
            FeedSide::Down => x.low = x.low.min(inlet.flange_face),
        }
    }
    let mut y = casing.width.grown(casing.plate).joined(&rotating.shaft_ends);
    if let Some(b) = &rotating.weight_box {
        y = y.joined(&Extent::new(-b.y.high, b.y.high));
    }
    if let Some(p) = pocket {
        match p.side {
            Side::Near => y.high = y.high.max(casing.width.high + casing.plate + p.reach),
            Side::Far => y.low = y.low.min(casing.width.low - casing.plate - p.reach),
        }
    }
    (x, y)
}

impl PitBody {
    pub(super) fn build(standing: &Standing<'_>) -> Option<Self> {
        let (spec, inlets) = (standing.spec, standing.inlets);
        let pit = &spec.pit;
        if !pit.fitted.value {
            return None;
        }
        let (fx, fy) = footprint(standing.casing, inlets, standing.pocket, standing.rotating);
        let row = f64::from(pit.elevators.value.saturating_sub(1)) * pit.pitch.value();
        let module = pit.module.value();
        let x = Extent { low: -wall_face(&pit.down_space, -fx.low, module), high: wall_face(&pit.up_space, fx.high, module) };
        let y = Extent { low: -wall_face(&pit.far_space, row - fy.low, module), high: wall_face(&pit.near_space, fy.high, module) };
        // The sump lies in the corner away from the up-side feed and from the near-side walkway; its shell, as
        // thick as the slab, stays under the base.
        let off = up_to((pit.slab.value() - pit.wall.value() - pit.toe.value()).max(custom(spec, 100.0, 4.0)), module);
        let (x, y) = with_run(spec, x, y, off);
        let sump = (pit.sump.value() > 0.0 && pit.sump_depth.value() > 0.0).then(|| {
            let side = pit.sump.value();
            Sump { x: Extent::new(x.low + off, x.low + off + side), y: Extent::new(y.low + off, y.low + off + side), depth: pit.sump_depth.value() }
        });
        let way = way_down(spec, x, y);
        let footprints: Vec<Area> = (0..pit.elevators.value)
            .map(|i| f64::from(i) * pit.pitch.value())
            .map(|row| Area { x: fx, y: Extent { low: fy.low - row, high: fy.high - row } })
            .collect();
        // The floor is level under all of them and falls from there.
        let base = Area { x: fx, y: Extent { low: fy.low - row, high: fy.high } };
        let feed_openings: Vec<FeedOpening> = inlets.iter().filter_map(|i| feed_opening(spec, i, x)).collect();
        let sleeves = Walls { spec, inner: Area { x, y }, way: &way, openings: &feed_openings }.sleeves(sump.as_ref());
        let mut fittings = Fittings::build(spec, Area { x, y }, base, sump.as_ref(), &way, sleeves);
        let row_of = (pit.elevators.value, pit.pitch.value());
        let covered = Covered { spec, casing: standing.casing, inlets, inner: Area { x, y } };
        let rail_gaps = fittings.rail.map_or_else(Vec::new, |r| covered.rail_gaps(r.offset, r.height));
        if let Some(rail) = &mut fittings.rail {
            (0..row_of.0).for_each(|_| rail_gaps.iter().for_each(|gap| rail.interrupted(gap.y.size())));
        }
        let cover = fittings.seat.map(|seat| covered.cover(fittings.hatch, *pit.access_side, row_of, seat.depth));
        let hole = Hole { floor: Area { x, y }, depth: pit.depth.value(), sump: sump.as_ref(), way: &way, landing: fittings.landing };
        Some(Self {
            keeps_clear: standing.spaces(&hole, row_of.0, row_of.1),
            cover,
            rail_gaps,
            fittings,
            footprints,
            x,
            y,
            depth: pit.depth.value(),
            wall: pit.wall.value(),
            slab: pit.slab.value(),
            lean: pit.lean.value(),
            toe: pit.toe.value(),
            sump,
            access: pit.access.value,
            access_side: pit.access_side.value,
            way,
            feed_openings,
            spaces: [x.high - fx.high, fx.low - x.low, y.high - fy.high, fy.low - row - y.low],
            elevators: pit.elevators.value,
            pitch: pit.pitch.value(),
        })
    }

    /// Least height over the floor under a closed cover, mm: under its beams; the depth without a cover.
    pub fn headroom(&self) -> f64 {
        self.depth - self.cover.as_ref().map_or(0.0, |c| c.thickness)
    }

    /// Level of a height above the base, relative to plant floor ±0.000, mm.
    pub fn level(&self, z: f64) -> f64 {
        z - self.depth
    }

    /// The pit's floor in plan.
    pub fn floor(&self) -> Area {
        Area { x: self.x, y: self.y }
    }

    /// Every anchor bolt: number of the elevator from 1, name of its pad, centre.
    pub fn anchors<'b>(&self, base: &'b BaseBody) -> Vec<(u32, &'b str, ModelPoint)> {
        (0..self.elevators)
            .flat_map(|i| base.pads.iter().map(move |p| (i, p)))
            .map(|(i, p)| (i + 1, p.name, ModelPoint { y: p.anchor.y - f64::from(i) * self.pitch, ..p.anchor }))
            .collect()
    }

    /// Openings, sleeves and the way down on the walls.
    pub fn on_walls(&self) -> Vec<OnWall> {
        let fittings = &self.fittings;
        pit_cast_in::on_walls(&self.feed_openings, (self.elevators, self.pitch), (self.access_side, &self.way), self.depth, &fittings.sleeves)
    }

    /// Recesses of the anchors and the sump in the floor.
    pub fn on_floor(&self, base: &BaseBody) -> Vec<OnFloor> {
        pit_cast_in::on_floor(base, self.elevators, self.pitch, self.sump.as_ref(), self.fittings.grating.map_or(0.0, |g| g.width))
    }

    /// Openings whose feed ends beyond the wall and below plant floor, each with where it ends, x in mm.
    pub fn feeds_beyond(&self, inlets: &[InletBody], spec: &Spec) -> Vec<(FeedOpening, f64)> {
        let (run, level) = (spec.pit.feed_distance.value(), spec.pit.feed_level.value());
        let ends = self.feed_openings.iter().filter_map(|o| {
            let inlet = inlets.iter().find(|i| i.side == o.side)?;
            let end = inlet.flange_face + o.side.outward() * run;
            let beyond = if o.side == FeedSide::Up { end > self.x.high + self.wall } else { end < self.x.low - self.wall };
            (beyond && level < 0.0).then_some((*o, end))
        });
        ends.collect()
    }

    /// Volume that a feed opening takes out of its wall, m³.
    pub fn opening_m3(&self, opening: &FeedOpening) -> f64 {
        let height = (opening.z.high.min(self.depth) - opening.z.low.max(0.0)).max(0.0);
        let width = (opening.y.high.min(self.y.high) - opening.y.low.max(self.y.low)).max(0.0);
        height * width * self.wall * 1e-9
    }

    pub(super) fn features(&self, out: &mut Vec<Feature>) {
        let low = ModelPoint::new(self.x.low, self.y.low, 0.0);
        out.push(Feature::length("pit.length", "pit, clear length", low, ModelPoint { x: self.x.high, ..low }));
        out.push(Feature::length("pit.width", "pit, clear width", low, ModelPoint { y: self.y.high, ..low }));
        out.push(Feature::length("pit.depth", "pit depth", low, ModelPoint { z: self.depth, ..low }));
        out.push(Feature::length("pit.x_up", "machine axis to up-side wall", ModelPoint { x: 0.0, ..low }, ModelPoint { x: self.x.high, ..low }));
        out.push(Feature::length("pit.x_down", "machine axis to down-side wall", low, ModelPoint { x: 0.0, ..low }));
        out.push(Feature::length("pit.y_near", "machine axis to near wall", ModelPoint { y: 0.0, ..low }, ModelPoint { y: self.y.high, ..low }));
        out.push(Feature::length("pit.y_far", "machine axis to far wall", low, ModelPoint { y: 0.0, ..low }));
        out.push(Feature::length("pit.wall", "wall", ModelPoint { x: self.x.low - self.wall, ..low }, low));
        out.push(Feature::length("pit.slab", "slab", ModelPoint { z: -self.slab, ..low }, low));
        if self.lean > 0.0 {
            out.push(Feature::length("pit.lean", "lean concrete", ModelPoint { z: -self.slab - self.lean, ..low }, ModelPoint { z: -self.slab, ..low }));
        }
        if let Some(s) = &self.sump {
            let at = ModelPoint::new(s.x.low, s.y.low, 0.0);
            out.push(Feature::length("pit.sump", "sump", at, ModelPoint { x: s.x.high, ..at }));
            out.push(Feature::length("pit.sump_depth", "sump depth", ModelPoint { z: -s.depth, ..at }, at));
        }
        if self.elevators > 1 {
            out.push(Feature::length("pit.pitch", "pitch of elevators", ModelPoint::new(0.0, -self.pitch, 0.0), ModelPoint::new(0.0, 0.0, 0.0)));
        }
    }
}

/// A wall's inner face, mm from the machine axis: `edge` and the clear space, moved outward to the module where the space is left out.
fn wall_face(space: &Chosen<Length>, edge: f64, module: f64) -> f64 {
    let least = edge + space.value.value();
    if space.is_given() { least } else { up_to(least, module) }
}

/// Outward to the next step; as it is without steps.
fn up_to(value: f64, step: f64) -> f64 {
    if step > 0.0 { (value / step - 1e-6).ceil() * step } else { value }
}

/// Number of rungs or risers: they divide the depth evenly.
fn steps(spec: &Spec) -> u32 {
    let pit = &spec.pit;
    let pitch = if *pit.access == Access::Ladder { pit.rung_pitch.value() } else { pit.stair_rise.value() };
    (pit.depth.value() / pitch - 1e-9).ceil().max(1.0) as u32
}

/// The pit with its wall at the end of the way down moved out, where its space is left out, until the whole
/// flight and its landing fit beside the sump, which lies `off` from its walls.
fn with_run(spec: &Spec, mut x: Extent, mut y: Extent, off: f64) -> (Extent, Extent) {
    let pit = &spec.pit;
    let module = pit.module.value();
    let corner = if pit.sump.value() > 0.0 && pit.sump_depth.value() > 0.0 { off + pit.sump.value() } else { 0.0 };
    let own = match *pit.access {
        Access::Ladder => custom(spec, CORNER_GAP[0], CORNER_GAP[1]) + pit.ladder_width.value(),
        Access::Stair => f64::from(steps(spec).saturating_sub(1)) * pit.stair_going.value() + pit.stair_width.value(),
    };
    match *pit.access_side {
        AccessSide::Near if !pit.up_space.is_given() => x.high = x.high.max(up_to(x.low + own, module)),
        AccessSide::Far if !pit.down_space.is_given() => x.low = x.low.min(-up_to(own + corner - x.high, module)),
        AccessSide::Down if !pit.far_space.is_given() => y.low = y.low.min(-up_to(own + corner - y.high, module)),
        AccessSide::Up if !pit.far_space.is_given() => y.low = y.low.min(-up_to(own - y.high, module)),
        _ => {}
    }
    (x, y)
}

/// Distance of a ladder from the corner of its wall, mm and inches; common practice.
const CORNER_GAP: [f64; 2] = [150.0, 6.0];

/// A ladder or a stair in the corner of its wall; rungs and risers divide the depth evenly.
fn way_down(spec: &Spec, x: Extent, y: Extent) -> WayDown {
    let pit = &spec.pit;
    let depth = pit.depth.value();
    let ladder = *pit.access == Access::Ladder;
    let width = if ladder { pit.ladder_width.value() } else { pit.stair_width.value() };
    let steps = steps(spec);
    let rise = depth / f64::from(steps);
    // A ladder takes up the depth behind its rungs and their own.
    let long = if ladder { custom(spec, 250.0, 10.0) } else { f64::from(steps.saturating_sub(1)) * pit.stair_going.value() };
    let gap = custom(spec, CORNER_GAP[0], CORNER_GAP[1]);
    let (wx, wy) = match (spec.pit.access_side.value, spec.pit.access.value) {
        (AccessSide::Up, Access::Ladder) => (Extent::new(x.high - long, x.high), Extent::new(y.high - gap - width, y.high - gap)),
        (AccessSide::Down, Access::Ladder) => (Extent::new(x.low, x.low + long), Extent::new(y.high - gap - width, y.high - gap)),
        (AccessSide::Near, Access::Ladder) => (Extent::new(x.low + gap, x.low + gap + width), Extent::new(y.high - long, y.high)),
        (AccessSide::Far, Access::Ladder) => (Extent::new(x.high - gap - width, x.high - gap), Extent::new(y.low, y.low + long)),
        (AccessSide::Up, Access::Stair) => (Extent::new(x.high - width, x.high), Extent::new(y.high - long, y.high)),
        (AccessSide::Down, Access::Stair) => (Extent::new(x.low, x.low + width), Extent::new(y.high - long, y.high)),
        (AccessSide::Near, Access::Stair) => (Extent::new(x.low, x.low + long), Extent::new(y.high - width, y.high)),
        (AccessSide::Far, Access::Stair) => (Extent::new(x.high - long, x.high), Extent::new(y.low, y.low + width)),
    };
    WayDown { x: wx, y: wy, clear_width: width, steps, rise }
}

/// The spout rises from the inlet's flange at the feed slope; where it meets the wall's inner face below floor level it needs an opening, 100 mm clear all round and on to the module.
fn feed_opening(spec: &Spec, inlet: &InletBody, x: Extent) -> Option<FeedOpening> {
    let to_wall = match inlet.side {
        FeedSide::Up => x.high - inlet.flange_face,
        FeedSide::Down => inlet.flange_face - x.low,
    };
    if to_wall < 0.0 || spec.pit.feed_distance.value() < to_wall {
        return None;
    }
    let floor = inlet.flange_sill + to_wall * spec.pit.feed_slope.value().to_radians().tan();
    // The spout goes on rising through the wall.
    let within = spec.pit.wall.value() * spec.pit.feed_slope.value().to_radians().tan();
    let (clear, module) = (custom(spec, 100.0, 4.0), spec.pit.module.value());
    let z = Extent::new(-up_to(clear - floor, module), up_to(floor + within + inlet.opening.size() + clear, module));
    let y = Extent::about(0.0, 2.0 * up_to(inlet.width.high + clear, module));
    (z.low < spec.pit.depth.value()).then_some(FeedOpening { side: inlet.side, y, z })
}
