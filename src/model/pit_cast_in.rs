//! What is cast into the walls and the floor of the pit, and where a sleeve has room.
//!
//! In: the pit's inner faces, way down, sump, feed openings, anchors. Out: rectangles on each wall and on the floor, mm; sleeves placed
//! where nothing else is. A sleeve that finds no room stands where it would be without the others, and the rule says so.

use super::base::BaseBody;
use super::customary::custom;
use super::frame::{Extent, ModelPoint};
use super::inlets::FeedSide;
use super::pit_fittings::{Area, FeedOpening, Sleeve, Sump, WayDown};
use crate::spec::Spec;
use crate::spec::pit::AccessSide;

/// Concrete that is left between two things cast in, mm and inches (common practice).
pub const BETWEEN: [f64; 2] = [100.0, 4.0];

/// Something cast into a wall or fixed to it, seen square to the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnWall {
    /// What it is, in words.
    pub what: &'static str,
    /// Which wall.
    pub wall: AccessSide,
    /// Along the wall: x at the near and the far wall, y at the others.
    pub along: Extent,
    /// Above the pit floor.
    pub z: Extent,
}

/// Something cast into the floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnFloor {
    /// What it is, in words.
    pub what: &'static str,
    /// Elevator from 1; 0 for what all of them share.
    pub elevator: u32,
    /// In plan.
    pub area: Area,
}

impl OnWall {
    /// Concrete between two of them, mm; negative where they cut into each other, infinite on different walls.
    pub fn between(&self, other: &Self) -> f64 {
        if self.wall == other.wall { gap([self.along, self.z], [other.along, other.z]) } else { f64::INFINITY }
    }
}

impl OnFloor {
    /// Concrete between two of them, mm; negative where they cut into each other.
    pub fn between(&self, other: &Self) -> f64 {
        gap([self.area.x, self.area.y], [other.area.x, other.area.y])
    }
}

/// Between two rectangles: straight where they face each other, else from corner to corner; how deep they cut where they do, negative.
fn gap(a: [Extent; 2], b: [Extent; 2]) -> f64 {
    let apart = |i: usize| (a[i].low - b[i].high).max(b[i].low - a[i].high);
    let [x, y] = [apart(0), apart(1)];
    if x > 0.0 && y > 0.0 { x.hypot(y) } else { x.max(y) }
}

/// Sizes of the walls and what is in them already.
pub(super) struct Walls<'a> {
    pub spec: &'a Spec,
    pub inner: Area,
    pub way: &'a WayDown,
    pub openings: &'a [FeedOpening],
}

impl Walls<'_> {
    /// Openings of all elevators and the way down.
    fn taken(&self) -> Vec<OnWall> {
        let pit = &self.spec.pit;
        on_walls(self.openings, (pit.elevators.value, pit.pitch.value()), (*pit.access_side, self.way), pit.depth.value(), &[])
    }

    /// Sleeves for the pump's pipe and for cables, below plant floor (common practice).
    pub(super) fn sleeves(&self, sump: Option<&Sump>) -> Vec<Sleeve> {
        let (pit, depth) = (&self.spec.pit, self.spec.pit.depth.value());
        let (diameter, below) = (custom(self.spec, 110.0, 4.0), custom(self.spec, 400.0, 16.0));
        if depth <= below + diameter {
            return Vec::new();
        }
        let z = depth - below;
        let mut all: Vec<Sleeve> = Vec::new();
        if let Some(s) = sump {
            let wishes = [(AccessSide::Far, s.x.middle()), (AccessSide::Down, s.y.middle())];
            all.push(self.placed("pressure pipe of the sump pump", &wishes, (z, diameter), &[]));
        }
        // On the axis of the middle elevator, at the down side, away from the feed.
        let axis = -pit.pitch.value() * f64::from(pit.elevators.value / 2);
        let wishes = [(AccessSide::Down, axis), (AccessSide::Near, 0.0), (AccessSide::Far, 0.0), (AccessSide::Up, axis)];
        let first = all.clone();
        all.push(self.placed("cables", &wishes, (z, diameter), &first));
        all
    }

    /// On the first wall that has room, as near as can be to the place wished for.
    fn placed(&self, purpose: &'static str, wishes: &[(AccessSide, f64)], (z, diameter): (f64, f64), others: &[Sleeve]) -> Sleeve {
        let taken: Vec<OnWall> = self.taken().into_iter().chain(others.iter().map(Sleeve::on_wall)).collect();
        let at = |wall: AccessSide, along: f64| {
            let point = match wall {
                AccessSide::Up => ModelPoint::new(self.inner.x.high, along, z),
                AccessSide::Down => ModelPoint::new(self.inner.x.low, along, z),
                AccessSide::Near => ModelPoint::new(along, self.inner.y.high, z),
                AccessSide::Far => ModelPoint::new(along, self.inner.y.low, z),
            };
            Sleeve { purpose, wall, at: point, diameter }
        };
        let (least, step) = (custom(self.spec, BETWEEN[0], BETWEEN[1]), custom(self.spec, 50.0, 2.0));
        let free = |sleeve: &Sleeve| {
            let (own, wall) = (sleeve.on_wall(), if matches!(sleeve.wall, AccessSide::Up | AccessSide::Down) { self.inner.y } else { self.inner.x });
            own.along.low >= wall.low + least && own.along.high <= wall.high - least && taken.iter().all(|o| o.between(&own) >= least)
        };
        let found = wishes.iter().find_map(|(wall, along)| {
            let size = if matches!(wall, AccessSide::Up | AccessSide::Down) { self.inner.y.size() } else { self.inner.x.size() };
            let steps = (size / step).ceil() as u32;
            (0..=steps).flat_map(|k| [1.0, -1.0].map(|s| along + s * f64::from(k) * step)).map(|a| at(*wall, a)).find(free)
        });
        found.unwrap_or_else(|| wishes.first().map_or_else(|| at(AccessSide::Down, 0.0), |(wall, along)| at(*wall, *along)))
    }
}

impl Sleeve {
    /// Its square on the wall.
    pub fn on_wall(&self) -> OnWall {
        let along = if matches!(self.wall, AccessSide::Up | AccessSide::Down) { self.at.y } else { self.at.x };
        OnWall { what: self.purpose, wall: self.wall, along: Extent::about(along, self.diameter), z: Extent::about(self.at.z, self.diameter) }
    }
}

/// Openings of `elevators` at their pitch, the way down at its wall from floor to floor, sleeves.
pub(super) fn on_walls(
    openings: &[FeedOpening],
    (elevators, pitch): (u32, f64),
    (side, way): (AccessSide, &WayDown),
    depth: f64,
    sleeves: &[Sleeve],
) -> Vec<OnWall> {
    let row = |k: u32| f64::from(k) * pitch;
    let openings = openings.iter().flat_map(|o| {
        (0..elevators).map(move |k| OnWall {
            what: "feed opening",
            wall: if o.side == FeedSide::Up { AccessSide::Up } else { AccessSide::Down },
            along: Extent { low: o.y.low - row(k), high: o.y.high - row(k) },
            z: Extent::new(o.z.low, o.z.high.min(depth)),
        })
    });
    let along = if matches!(side, AccessSide::Up | AccessSide::Down) { way.y } else { way.x };
    let way = OnWall { what: "ladder or stair", wall: side, along, z: Extent::new(0.0, depth) };
    openings.chain([way]).chain(sleeves.iter().map(Sleeve::on_wall)).collect()
}

/// Recesses of the anchors and the sump with the seat of its grating.
pub(super) fn on_floor(base: &BaseBody, elevators: u32, pitch: f64, sump: Option<&Sump>, seat: f64) -> Vec<OnFloor> {
    let recesses = (0..elevators).flat_map(|k| {
        base.pads.iter().map(move |p| {
            let row = f64::from(k) * pitch;
            let y = Extent { low: p.y.low - row, high: p.y.high - row };
            OnFloor { what: "anchor recess", elevator: k + 1, area: Area { x: p.x.grown(base.anchor.margin), y: y.grown(base.anchor.margin) } }
        })
    });
    let sump = sump.map(|s| OnFloor { what: "sump", elevator: 0, area: Area { x: s.x.grown(seat), y: s.y.grown(seat) } });
    recesses.chain(sump).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_of_rectangles() {
        let a = [Extent::new(0.0, 100.0), Extent::new(0.0, 100.0)];
        assert_eq!(gap(a, [Extent::new(150.0, 200.0), Extent::new(0.0, 100.0)]), 50.0);
        assert_eq!(gap(a, [Extent::new(130.0, 200.0), Extent::new(140.0, 200.0)]), 50.0);
        assert_eq!(gap(a, [Extent::new(90.0, 200.0), Extent::new(50.0, 200.0)]), -10.0);
        let wall = |wall| OnWall { what: "", wall, along: a[0], z: a[1] };
        assert_eq!(wall(AccessSide::Up).between(&wall(AccessSide::Down)), f64::INFINITY);
    }
}
