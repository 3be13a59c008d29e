//! Spaces of the pit that keep clear of each other: where the shaft is pulled, bearings and foot pulley come out and are hoisted,
//! people go down, stand at doors and shovel, water gathers, machine and spout stand.
//!
//! In: spec, foot, the pit's floor with sump and way down. Out: boxes in the frame of the model, mm, each with what it is for and whose
//! it is. What may share a box follows from what it is for: work at a stopped machine is done one after the other, a stair stays.
//! The moves are those of `machine::removal`: shaft drawn at the lowest take-up, then the bare pulley through its panel.

use super::casing::CasingBody;
use super::customary::custom;
use super::frame::Extent;
use super::inlets::{FeedSide, InletBody, PocketBody};
use super::openings::{Opening, OpeningKind};
use super::pit_fittings::{Area, Sump, WayDown};
use super::rotating::RotatingBody;
use crate::formulas::removal::{BEFORE_PANEL, PAST};
use crate::spec::Spec;
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;
use crate::spec::pit::{Access, AccessSide};
use crate::tables::access;

/// What a space is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Use {
    /// The shaft is pulled.
    Shaft,
    /// Bearing and sliding plate are drawn off the shaft.
    Bearing,
    /// The bare foot pulley comes out and is rolled to the hoist.
    Pulley,
    /// The foot pulley is hoisted out of the pit.
    Hoist,
    /// Ladder, or a tread of the stair with the headroom over it.
    Way,
    /// Landing at the foot of ladder or stair.
    Landing,
    /// In front of an inspection or clean-out door.
    Door,
    /// In front of the take-up.
    TakeUp,
    /// In front of the shovel pocket.
    Shovel,
    /// Sump, with what stands over its grating.
    Sump,
    /// Casing, pocket, bearings.
    Machine,
    /// Throat and incoming spout.
    Feed,
}

/// What kinds of use have in common.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// Parts are taken out, machine stopped.
    Handling,
    /// People work at the machine.
    Work,
    /// People go in and out, at any time.
    Passage,
    /// Water and a pump.
    Sump,
    /// Something stands there.
    Solid,
}

impl Use {
    /// All of them.
    pub const ALL: [Self; 12] = [
        Self::Shaft,
        Self::Bearing,
        Self::Pulley,
        Self::Hoist,
        Self::Way,
        Self::Landing,
        Self::Door,
        Self::TakeUp,
        Self::Shovel,
        Self::Sump,
        Self::Machine,
        Self::Feed,
    ];
    /// Stable key for lists that programs read.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Shaft => "shaft",
            Self::Bearing => "bearing",
            Self::Pulley => "pulley",
            Self::Hoist => "hoist",
            Self::Way => "way",
            Self::Landing => "landing",
            Self::Door => "door",
            Self::TakeUp => "take_up",
            Self::Shovel => "shovel",
            Self::Sump => "sump",
            Self::Machine => "machine",
            Self::Feed => "feed",
        }
    }
    /// In words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Shaft => "room to pull the shaft",
            Self::Bearing => "room to draw off bearing and sliding plate",
            Self::Pulley => "way out of the foot pulley",
            Self::Hoist => "place of the hoist",
            Self::Way => "way down with its headroom",
            Self::Landing => "landing",
            Self::Door => "room in front of a door",
            Self::TakeUp => "room in front of the take-up",
            Self::Shovel => "shovel side",
            Self::Sump => "sump",
            Self::Machine => "machine",
            Self::Feed => "incoming spout",
        }
    }
    const fn kind(self) -> Kind {
        match self {
            Self::Shaft | Self::Bearing | Self::Pulley | Self::Hoist => Kind::Handling,
            Self::Door | Self::TakeUp | Self::Shovel => Kind::Work,
            Self::Way | Self::Landing => Kind::Passage,
            Self::Sump => Kind::Sump,
            Self::Machine | Self::Feed => Kind::Solid,
        }
    }
}

/// One box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClearSpace {
    /// What it is for.
    pub purpose: Use,
    /// Elevator from 1; 0 for what all of them share.
    pub elevator: u32,
    /// In plan.
    pub area: Area,
    /// Above the pit floor.
    pub z: Extent,
}

impl ClearSpace {
    /// Whether two spaces may have a part in common.
    ///
    /// Handling and work follow one another at a stopped machine. What is drawn off or out begins at its own machine, and doors are looked
    /// into from under the spout: those are judged by the proof of removal and by the rule of the doors' view.
    pub fn may_share(&self, other: &Self) -> bool {
        let pair = |a: Kind, b: Kind| (self.purpose.kind(), other.purpose.kind()) == (a, b) || (other.purpose.kind(), self.purpose.kind()) == (a, b);
        let own = self.elevator == other.elevator;
        self.purpose.kind() == other.purpose.kind()
            || pair(Kind::Handling, Kind::Work)
            || pair(Kind::Work, Kind::Solid)
            || (pair(Kind::Handling, Kind::Solid) && own && self.purpose != Use::Hoist && other.purpose != Use::Hoist)
    }
    /// Whether two spaces that may not share anything do.
    pub fn clashes(&self, other: &Self) -> bool {
        let apart = self.z.low >= other.z.high - TOUCH || other.z.low >= self.z.high - TOUCH;
        !apart && self.area.overlaps(&other.area) && !self.may_share(other)
    }
}

/// What only touches does not clash, mm.
const TOUCH: f64 = 0.05;
/// A person who stands and works, mm (common practice).
const PERSON: f64 = 2000.0;
/// Beside and over what is carried in slings, mm (common practice).
const SLINGS: [f64; 2] = [100.0, 4.0];
/// Beside what is drawn off or rolled, mm (common practice).
const BESIDE: [f64; 2] = [50.0, 2.0];
/// From a tread to the underside of stringer and tread, mm (common practice).
const STRINGER: f64 = 300.0;
/// Of the hook over plant floor beyond the pulley that hangs on it, mm (common practice).
pub const HOOK: [f64; 2] = [1000.0, 40.0];
/// Over the sump's grating, mm: a pump is lifted out by hand.
const OVER_SUMP: f64 = 300.0;

/// The foot that stands in the pit.
pub(super) struct Standing<'a> {
    pub spec: &'a Spec,
    pub casing: &'a CasingBody,
    pub inlets: &'a [InletBody],
    pub pocket: Option<&'a PocketBody>,
    pub rotating: &'a RotatingBody,
    pub openings: &'a [Opening],
    /// Diameter and face of the foot pulley, mm.
    pub pulley: [f64; 2],
}

/// The pit as far as it is built.
#[derive(Clone, Copy)]
pub(super) struct Hole<'a> {
    pub floor: Area,
    pub depth: f64,
    pub sump: Option<&'a Sump>,
    pub way: &'a WayDown,
    pub landing: Area,
}

impl Area {
    /// Moved across the machine.
    fn moved(&self, by: f64) -> Self {
        Self { x: self.x, y: Extent { low: self.y.low + by, high: self.y.high + by } }
    }
}

impl Standing<'_> {
    fn custom(&self, sizes: [f64; 2]) -> f64 {
        custom(self.spec, sizes[0], sizes[1])
    }

    /// Toward the side that the shaft is pulled to: +1 near, −1 far.
    fn pull(&self) -> f64 {
        if *self.spec.pit.shaft_pull == Side::Near { 1.0 } else { -1.0 }
    }

    /// From the outer face of a side plate outward, mm from the belt's middle plane; `side` +1 near, −1 far.
    fn beside(&self, side: f64, from: f64, to: f64) -> Extent {
        let face = self.casing.width.high + self.casing.plate;
        Extent::new(side * (face + from), side * (face + to))
    }

    /// From the outer face of an end plate at a height outward.
    fn before(&self, wall: Wall, z: f64, by: f64) -> Extent {
        match wall {
            Wall::UpEnd => {
                let face = self.casing.up_face + self.casing.plate;
                Extent::new(face, face + by)
            }
            _ => {
                let face = self.casing.down_outer_x(z);
                Extent::new(face - by, face)
            }
        }
    }

    /// Shaft length beyond the side plate, mm.
    fn stub(&self) -> f64 {
        self.rotating.shaft_ends.high - self.casing.width.high - self.casing.plate
    }

    /// What is taken out: shaft, bearing with sliding plate, pulley.
    fn handling(&self) -> Vec<(Use, Area, Extent)> {
        let r = self.rotating;
        let axis = r.slot.low + r.slot_width / 2.0;
        let around = r.shaft_diameter / 2.0 + self.custom(SLINGS);
        let beside = self.custom(BESIDE);
        let mut all = vec![
            (
                Use::Shaft,
                Area { x: Extent::about(0.0, 2.0 * around), y: self.beside(self.pull(), 0.0, r.shaft_ends.size() + PAST) },
                Extent::about(axis, 2.0 * around),
            ),
            (
                Use::Bearing,
                Area { x: r.sliding_plate.x.grown(beside), y: self.beside(self.pull(), 0.0, 2.0 * self.stub() + PAST) },
                r.sliding_plate.z.grown(beside),
            ),
        ];
        if let Some(panel) = self.panel() {
            let [diameter, face] = self.pulley;
            let x = self.before(panel.wall, panel.up.high, diameter + BEFORE_PANEL);
            all.push((Use::Pulley, Area { x, y: Extent::about(0.0, face + 2.0 * beside) }, Extent::new(0.0, panel.up.high)));
        }
        all
    }

    fn panel(&self) -> Option<&Opening> {
        self.openings.iter().find(|o| o.kind == OpeningKind::Removal)
    }

    /// Where people work at the machine.
    fn work(&self) -> Vec<(Use, Area, Extent)> {
        let deep = access::SERVICE_AT_DOORS_MM.value;
        let person = Extent::new(0.0, PERSON);
        let mut all: Vec<_> = self
            .openings
            .iter()
            .filter(|o| matches!(o.kind, OpeningKind::Door { .. } | OpeningKind::CleanOut))
            .map(|o| {
                let area = match o.wall {
                    Wall::UpEnd | Wall::DownEnd => Area { x: self.before(o.wall, o.up.middle(), deep), y: o.across },
                    Wall::Near => Area { x: o.across, y: self.beside(1.0, 0.0, deep) },
                    Wall::Far => Area { x: o.across, y: self.beside(-1.0, 0.0, deep) },
                };
                (Use::Door, area, person)
            })
            .collect();
        let slide = self.rotating.sliding_plate.x.grown(self.custom(SLINGS));
        all.extend([1.0, -1.0].map(|side| (Use::TakeUp, Area { x: slide, y: self.beside(side, 0.0, self.stub() + deep) }, person)));
        if let Some(p) = self.pocket {
            let side = if p.side == Side::Near { 1.0 } else { -1.0 };
            all.push((Use::Shovel, Area { x: p.x, y: self.beside(side, p.reach, p.reach + access::SERVICE_SHOVEL_SIDE_MM.value) }, person));
        }
        all
    }

    /// What stands there: casing, bearings, pocket, throats with what brings the feed.
    fn solid(&self, floor: &Area) -> Vec<(Use, Area, Extent)> {
        let (c, r) = (self.casing, self.rotating);
        let body = Area { x: Extent::new(c.down_outermost() - c.plate, c.up_face + c.plate), y: c.width.grown(c.plate) };
        let mut all = vec![
            (Use::Machine, body, Extent::new(0.0, c.top)),
            (Use::Machine, Area { x: r.sliding_plate.x, y: r.shaft_ends }, Extent { low: r.sliding_plate.z.low, high: r.sliding_plate.z.high + r.travel }),
        ];
        if let Some(p) = self.pocket {
            let side = if p.side == Side::Near { 1.0 } else { -1.0 };
            all.push((Use::Machine, Area { x: p.x, y: self.beside(side, 0.0, p.reach) }, Extent::new(p.z.low, p.lip)));
        }
        let run = self.spec.pit.feed_distance.value();
        for i in self.inlets {
            let end = i.flange_face + i.side.outward() * run;
            let end = if i.side == FeedSide::Up { end.min(floor.x.high) } else { end.max(floor.x.low) };
            let rise = (end - i.flange_face).abs() * self.spec.pit.feed_slope.value().to_radians().tan();
            let area = Area { x: Extent::new(i.outside, end), y: i.width.grown(i.flange) };
            all.push((Use::Feed, area, Extent::new(i.sill, i.flange_sill + rise + i.opening.size())));
        }
        all
    }

    /// Ladder or treads, landing, sump.
    fn shared(&self, hole: &Hole<'_>) -> Vec<(Use, Area, Extent)> {
        let (pit, way) = (&self.spec.pit, hole.way);
        let limits = access::access(self.spec.us());
        let area = Area { x: way.x, y: way.y };
        let mut all = match *pit.access {
            Access::Ladder => vec![(Use::Way, area, Extent::new(0.0, hole.depth + limits.ladder_above_landing_mm.value))],
            Access::Stair => treads(way, *pit.access_side)
                .into_iter()
                .map(|(area, top)| (Use::Way, area, Extent::new((top - STRINGER).max(0.0), top + limits.stair_headroom_mm.value)))
                .collect(),
        };
        all.push((Use::Landing, hole.landing, Extent::new(0.0, limits.headroom_mm.value)));
        all.extend(hole.sump.map(|s| (Use::Sump, Area { x: s.x, y: s.y }, Extent::new(-s.depth, OVER_SUMP))));
        all
    }

    /// All spaces of a pit with so many elevators at a pitch.
    pub(super) fn spaces(&self, hole: &Hole<'_>, elevators: u32, pitch: f64) -> Vec<ClearSpace> {
        let one = |elevator: u32| {
            move |(purpose, area, z): (Use, Area, Extent)| {
                let by = -f64::from(elevator.saturating_sub(1)) * pitch;
                ClearSpace { purpose, elevator, area: area.moved(by), z }
            }
        };
        let mut all: Vec<ClearSpace> = self.shared(hole).into_iter().map(one(0)).collect();
        for elevator in 1..=elevators {
            let parts = [self.handling(), self.work(), self.solid(&hole.floor)].concat();
            all.extend(parts.into_iter().map(one(elevator)));
        }
        if self.panel().is_some() {
            for elevator in 1..=elevators {
                let found = self.hoist(hole, &all, elevator, -f64::from(elevator - 1) * pitch);
                all.extend(found);
            }
        }
        all
    }

    /// Where a pulley that came out is hoisted: before its panel and clear of what leans out over it, or beside what hangs there, on the
    /// side of the shaft's pull first; with the way that it is rolled there. Nothing where no place is free.
    fn hoist(&self, hole: &Hole<'_>, others: &[ClearSpace], elevator: u32, row: f64) -> Vec<ClearSpace> {
        let (Some(out), Some(panel)) = (others.iter().find(|s| s.purpose == Use::Pulley && s.elevator == elevator), self.panel()) else { return Vec::new() };
        let ([diameter, face], beside, slings) = (self.pulley, self.custom(BESIDE), self.custom(SLINGS));
        let (wide, long) = (face + 2.0 * slings, diameter + BEFORE_PANEL);
        let x = if panel.wall == Wall::UpEnd {
            Extent::new(out.area.x.low, out.area.x.low + long)
        } else {
            let edge = out.area.x.high.min(self.casing.down_outermost() - self.casing.plate);
            Extent::new(edge - long, edge)
        };
        let z = Extent::new(0.0, hole.depth + diameter + self.custom(HOOK));
        let free = |space: &ClearSpace| space.area.beyond(&hole.floor) < TOUCH && others.iter().all(|o| !space.clashes(o));
        let steps = (hole.floor.y.size() / beside).ceil() as u32;
        let places = (0..=steps).map(|k| f64::from(k) * beside * self.pull()).flat_map(|by| if by == 0.0 { vec![by] } else { vec![by, -by] });
        for by in places {
            let place = ClearSpace { purpose: Use::Hoist, elevator, area: Area { x, y: Extent::about(row + by, wide) }, z };
            let area = Area { x: out.area.x.joined(&x), y: out.area.y.joined(&place.area.y) };
            let roll = ClearSpace { purpose: Use::Pulley, elevator, area, z: Extent::new(0.0, diameter + beside) };
            if free(&place) && free(&roll) {
                return vec![place, roll];
            }
        }
        Vec::new()
    }
}

/// The treads of a stair: each in plan, and its upper face above the pit floor. The last step is plant floor itself.
fn treads(way: &WayDown, side: AccessSide) -> Vec<(Area, f64)> {
    let goings = way.steps.saturating_sub(1);
    let along_x = matches!(side, AccessSide::Near | AccessSide::Far);
    let whole = if along_x { way.x } else { way.y };
    let going = whole.size() / f64::from(goings.max(1));
    (0..goings)
        .map(|k| {
            let (from, to) = (f64::from(k) * going, f64::from(k + 1) * going);
            // Only at the far wall does a stair rise toward the up side; at the near wall it rises the other way, at both ends toward near.
            let step = if side == AccessSide::Near { Extent::new(whole.high - to, whole.high - from) } else { Extent::new(whole.low + from, whole.low + to) };
            let area = if along_x { Area { x: step, y: way.y } } else { Area { x: way.x, y: step } };
            (area, f64::from(k + 1) * way.rise)
        })
        .collect()
}

/// Pairs of spaces that clash, as indices; each once.
pub fn clashes(spaces: &[ClearSpace]) -> Vec<(usize, usize)> {
    let pairs = (0..spaces.len()).flat_map(|a| (a + 1..spaces.len()).map(move |b| (a, b)));
    pairs.filter(|(a, b)| spaces[*a].clashes(&spaces[*b])).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn space(purpose: Use, elevator: u32, x: [f64; 2], z: [f64; 2]) -> ClearSpace {
        ClearSpace { purpose, elevator, area: Area { x: Extent::new(x[0], x[1]), y: Extent::new(0.0, 100.0) }, z: Extent::new(z[0], z[1]) }
    }

    #[test]
    fn heights_count() {
        let shaft = space(Use::Shaft, 1, [0.0, 100.0], [900.0, 1100.0]);
        assert!(shaft.clashes(&space(Use::Way, 0, [50.0, 200.0], [1000.0, 3000.0])));
        assert!(!shaft.clashes(&space(Use::Way, 0, [50.0, 200.0], [1100.0, 3000.0])), "over it");
        assert!(!shaft.clashes(&space(Use::Way, 0, [100.0, 200.0], [1000.0, 3000.0])), "beside it");
        assert!(!shaft.clashes(&space(Use::Door, 1, [0.0, 100.0], [0.0, 2000.0])), "one after the other");
        assert!(!shaft.clashes(&space(Use::Machine, 1, [0.0, 100.0], [0.0, 2000.0])), "it is drawn out of its own machine");
        assert!(shaft.clashes(&space(Use::Machine, 2, [0.0, 100.0], [0.0, 2000.0])));
        assert!(space(Use::Hoist, 1, [0.0, 100.0], [0.0, 9000.0]).clashes(&space(Use::Feed, 1, [0.0, 100.0], [700.0, 900.0])));
    }

    /// Thirteen risers of 200: twelve treads, the lowest at the foot, the highest a riser under the floor.
    #[test]
    fn a_stair_rises_into_its_corner() {
        let way = WayDown { x: Extent::new(0.0, 800.0), y: Extent::new(0.0, 2760.0), clear_width: 800.0, steps: 13, rise: 200.0 };
        let up = treads(&way, AccessSide::Down);
        assert_eq!(up.len(), 12);
        assert_eq!((up[0].0.y, up[0].1), (Extent::new(0.0, 230.0), 200.0));
        assert!((up[11].0.y.high - 2760.0).abs() < 1e-9 && up[11].1 == 2400.0);
        let along = WayDown { x: Extent::new(0.0, 2760.0), y: Extent::new(0.0, 800.0), ..way };
        assert_eq!(treads(&along, AccessSide::Near)[0].0.x, Extent::new(2530.0, 2760.0));
        assert_eq!(treads(&along, AccessSide::Far)[0].0.x, Extent::new(0.0, 230.0));
    }
}
