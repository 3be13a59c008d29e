//! What is cast into the pit or fixed to it: landing, hatch, cover seat, guard rail, sleeves, floor fall.
//!
//! In: spec, the pit's inner faces, its sump and way down. Out: outlines for the civil engineer. Sizes that no
//! key gives are common practice and stand on the sheet as HOLD; makers of rails and covers detail them.

use super::customary::custom;
use super::frame::{Extent, ModelPoint};
use super::inlets::FeedSide;
use crate::spec::Spec;
use crate::spec::pit::{Access, AccessSide};
use crate::tables::access;

/// A rectangle in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Along the machine.
    pub x: Extent,
    /// Across the machine.
    pub y: Extent,
}

impl Area {
    /// Whether two areas share more than a line.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.x.low < other.x.high - 0.05 && other.x.low < self.x.high - 0.05 && self.y.low < other.y.high - 0.05 && other.y.low < self.y.high - 0.05
    }
    /// How far it reaches out of another, mm; 0 when it lies inside.
    pub fn beyond(&self, other: &Self) -> f64 {
        [other.x.low - self.x.low, self.x.high - other.x.high, other.y.low - self.y.low, self.y.high - other.y.high].into_iter().fold(0.0, f64::max)
    }
}

/// The sump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sump {
    /// Along the machine.
    pub x: Extent,
    /// Across the machine.
    pub y: Extent,
    /// Below the pit floor.
    pub depth: f64,
}

/// An opening in a pit wall for the feed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FeedOpening {
    /// Which wall: the side of the inlet that it serves.
    pub side: FeedSide,
    /// Across the machine.
    pub y: Extent,
    /// Above the pit floor.
    pub z: Extent,
}

/// Ladder or stair in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WayDown {
    /// Along the machine.
    pub x: Extent,
    /// Across the machine.
    pub y: Extent,
    /// Clear width between stringers, mm.
    pub clear_width: f64,
    /// Number of rungs or risers.
    pub steps: u32,
    /// Distance from step to step, mm.
    pub rise: f64,
}

/// Guard rail round the pit's opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rail {
    /// Upper edge of the top rail above plant floor, mm.
    pub height: f64,
    /// Middle of the knee rail above plant floor, mm.
    pub knee: f64,
    /// Clear gap between toe board and knee rail, mm.
    pub lower_gap: f64,
    /// Clear gap between knee rail and top rail, mm.
    pub upper_gap: f64,
    /// Height of the toe board, mm.
    pub toe_board: f64,
    /// Gap under the toe board, mm.
    pub toe_gap: f64,
    /// Length round the opening without the gate and without what it leaves to spouts, mm.
    pub length: f64,
    /// Clear width of the self-closing gate at the way down, mm.
    pub gate: f64,
    /// Number of posts at the pitch below or less.
    pub posts: u32,
    /// Distance of posts, mm.
    pub post_pitch: f64,
    /// Rail centre line beyond the pit's inner face, mm.
    pub offset: f64,
}

/// A pipe through a wall, cast in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve {
    /// What passes through it.
    pub purpose: &'static str,
    /// In which wall.
    pub wall: AccessSide,
    /// Its middle on the wall's inner face.
    pub at: ModelPoint,
    /// Clear diameter, mm.
    pub diameter: f64,
}

impl Rail {
    /// Leaves a stretch so wide to a spout; its posts stand apart as before or less.
    pub(super) fn interrupted(&mut self, width: f64) {
        self.length = (self.length - width).max(0.0);
        let bays = (self.length / POST_PITCH).ceil().max(1.0);
        // One post more: a stretch that is cut in two has an end on either side.
        (self.posts, self.post_pitch) = (self.posts.max(bays as u32 + 1) + 1, self.length / bays);
    }
}

/// Recess round an opening that takes the frame of its cover or grating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoverSeat {
    /// Width on the wall's head, mm.
    pub width: f64,
    /// Depth below plant floor, mm.
    pub depth: f64,
}

/// The floor's fall to the sump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FloorFall {
    /// Fall over length.
    pub share: f64,
    /// How much lower than the foot's base the floor is at the sump's edge, mm.
    pub drop: f64,
}

/// All of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fittings {
    /// Floor to be kept free at the foot of the ladder or stair.
    pub landing: Area,
    /// The part of the cover over the way down that opens; `None` without a cover.
    pub hatch: Option<Area>,
    /// Seat of the cover; `None` without a cover.
    pub seat: Option<CoverSeat>,
    /// Seat of the sump's grating, flush with the floor round it; `None` without a sump.
    pub grating: Option<CoverSeat>,
    /// Guard rail, if there is one.
    pub rail: Option<Rail>,
    /// Sleeves.
    pub sleeves: Vec<Sleeve>,
    /// Fall of the floor; `None` without a sump.
    pub fall: Option<FloorFall>,
}

/// Top rail and knee rail tubes, mm; common practice.
pub const TUBES: [f64; 2] = [42.4, 33.7];
/// Largest distance of rail posts, mm: ISO 14122-3, 1500, seen on a drawing note that cites it.
const POST_PITCH: f64 = 1500.0;

impl Fittings {
    pub(super) fn build(spec: &Spec, inner: Area, base: Area, sump: Option<&Sump>, way: &WayDown, sleeves: Vec<Sleeve>) -> Self {
        let pit = &spec.pit;
        let us = spec.us();
        let limits = access::access(us);
        let (access, side) = (*pit.access, *pit.access_side);
        let covered = *pit.cover;
        // Angle frame of the cover with its grout; the rail's posts stand clear beyond it (common practice).
        let seat = custom(spec, 60.0, 2.5);
        let offset = custom(spec, 120.0, 5.0);
        let rail = (*pit.rail).then(|| {
            let height = pit.rail_height.value();
            let toe_board = limits.toe_board_mm.value.max(custom(spec, 100.0, 4.0));
            let toe_gap = limits.toe_board_gap_mm.value.min(10.0);
            let toe_top = toe_board + toe_gap;
            let [top_tube, knee_tube] = TUBES;
            // OSHA wants the knee rail midway between top edge and floor; ISO wants no gap over 500.
            let exact = if us { height / 2.0 } else { (toe_top + height - top_tube) / 2.0 };
            // A whole size, unless that would make a gap too wide.
            let step = custom(spec, 1.0, 1.0 / 16.0);
            let whole = (exact / step).round() * step;
            let gaps = |knee: f64| [knee - knee_tube / 2.0 - toe_top, height - top_tube - knee - knee_tube / 2.0];
            let knee = if gaps(whole).iter().all(|gap| *gap <= limits.rail_gap_mm.value) { whole } else { exact };
            let [lower_gap, upper_gap] = gaps(knee);
            let gate = way.clear_width.max(limits.clear_width_mm.value);
            let length = 2.0 * (inner.x.size() + inner.y.size() + 4.0 * offset) - gate;
            let bays = (length / POST_PITCH).ceil().max(1.0);
            Rail { height, knee, lower_gap, upper_gap, toe_board, toe_gap, length, gate, posts: bays as u32 + 1, post_pitch: length / bays, offset }
        });
        let fall = sump.map(|s| {
            let gap = |a: &Extent, b: &Extent| (a.low - b.high).max(b.low - a.high).max(0.0);
            let away = gap(&base.x, &s.x).hypot(gap(&base.y, &s.y));
            FloorFall { share: pit.floor_fall.value(), drop: away * pit.floor_fall.value() }
        });
        Self {
            landing: landing(access, side, way, limits.ladder_front_mm.value),
            hatch: covered.then(|| hatch(spec, side, way, inner)),
            seat: covered.then_some(CoverSeat { width: seat, depth: seat }),
            grating: sump.map(|_| CoverSeat { width: custom(spec, 30.0, 1.25), depth: custom(spec, 30.0, 1.25) }),
            rail,
            sleeves,
            fall,
        }
    }
}

/// In front of a ladder as deep as a climber needs; at the foot of a stair as long as the stair is wide.
///
/// Stairs rise into the corner that they stand in: their foot is the end away from it.
fn landing(access: Access, side: AccessSide, way: &WayDown, front: f64) -> Area {
    match (access, side) {
        (Access::Ladder, AccessSide::Up) => Area { x: Extent::new(way.x.low, way.x.low - front), y: way.y },
        (Access::Ladder, AccessSide::Down) => Area { x: Extent::new(way.x.high, way.x.high + front), y: way.y },
        (Access::Ladder, AccessSide::Near) => Area { x: way.x, y: Extent::new(way.y.low, way.y.low - front) },
        (Access::Ladder, AccessSide::Far) => Area { x: way.x, y: Extent::new(way.y.high, way.y.high + front) },
        (Access::Stair, AccessSide::Near) => Area { x: Extent::new(way.x.high, way.x.high + way.clear_width), y: way.y },
        (Access::Stair, AccessSide::Far) => Area { x: Extent::new(way.x.low, way.x.low - way.clear_width), y: way.y },
        (Access::Stair, AccessSide::Up | AccessSide::Down) => Area { x: way.x, y: Extent::new(way.y.low, way.y.low - way.clear_width) },
    }
}

/// From the wall into the pit over the way down, about its middle.
fn hatch(spec: &Spec, side: AccessSide, way: &WayDown, inner: Area) -> Area {
    let (long, wide) = (spec.pit.hatch_length.value(), spec.pit.hatch_width.value());
    if *spec.pit.access == Access::Stair {
        // Over the whole flight, from its head.
        return match side {
            AccessSide::Near | AccessSide::Far => {
                let x = if side == AccessSide::Near { Extent::new(way.x.low, way.x.low + long) } else { Extent::new(way.x.high - long, way.x.high) };
                Area { x, y: wall_strip(way.y, inner.y, wide) }
            }
            AccessSide::Up | AccessSide::Down => Area { x: wall_strip(way.x, inner.x, wide), y: Extent::new(way.y.high - long, way.y.high) },
        };
    }
    match side {
        AccessSide::Up => Area { x: Extent::new(inner.x.high - long, inner.x.high), y: Extent::about(way.y.middle(), wide) },
        AccessSide::Down => Area { x: Extent::new(inner.x.low, inner.x.low + long), y: Extent::about(way.y.middle(), wide) },
        AccessSide::Near => Area { x: Extent::about(way.x.middle(), wide), y: Extent::new(inner.y.high - long, inner.y.high) },
        AccessSide::Far => Area { x: Extent::about(way.x.middle(), wide), y: Extent::new(inner.y.low, inner.y.low + long) },
    }
}

/// A strip of a width along the wall that the flight stands at.
fn wall_strip(flight: Extent, inner: Extent, wide: f64) -> Extent {
    if (flight.low - inner.low).abs() < (inner.high - flight.high).abs() {
        Extent::new(inner.low, inner.low + wide)
    } else {
        Extent::new(inner.high - wide, inner.high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas() {
        let a = Area { x: Extent::new(0.0, 100.0), y: Extent::new(0.0, 50.0) };
        let beside = Area { x: Extent::new(100.0, 200.0), y: Extent::new(0.0, 50.0) };
        let across = Area { x: Extent::new(90.0, 200.0), y: Extent::new(40.0, 60.0) };
        assert!(!a.overlaps(&beside) && a.overlaps(&across));
        assert_eq!(across.beyond(&a), 100.0);
        assert_eq!(a.beyond(&a), 0.0);
    }
}
