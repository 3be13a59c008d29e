//! It moves: the take-up passes its whole travel, the sliding plates keep the slots closed and stay in their guides.
//!
//! In: a machine and its parts, the travel of its take-up. Out: what is met between the positions that [`overlaps`](super::overlaps)
//! asks, slots that are not covered, plates that the guides let go. The nuts on the rods are left out: they are turned as the rod passes.

use super::allowed::{allowed, is_free, like};
use super::standing::{Piece, Position, Read, Stance};
use crate::geometry::Edge;
use crate::machine::Machine;
use crate::parts::{Part, Parts};
use crate::solid::overlap::shared;
use crate::solid::within::Bounds;
use glam::DVec3;
use std::collections::BTreeMap;

/// In how many steps the travel is passed.
const STEPS: u32 = 12;
/// What a sliding plate laps over its slot at least, mm (common practice, no source).
pub const LAP: f64 = 10.0;
/// What a retaining bar laps over the edge of a sliding plate at least, mm (common practice, no source).
pub const HELD: f64 = 5.0;

/// Something that the take-up does not pass, or leaves open.
#[derive(Debug, Clone, PartialEq)]
pub enum Gap {
    /// Two bodies meet on the way.
    Met {
        /// Their ids, the moved one first.
        ids: [String; 2],
        /// How deep, mm.
        deep: f64,
        /// Where, model mm.
        at: [f64; 3],
        /// At which share of the travel.
        share: f64,
    },
    /// A slot is not covered at an end of the travel.
    Slot {
        /// The plate that slides there.
        id: String,
        /// At which share of the travel.
        share: f64,
        /// What laps over its edge where it laps least, mm; negative where it is open.
        lap: f64,
    },
    /// A sliding plate is not held by a retaining bar beside it.
    Guide {
        /// The plate.
        id: String,
        /// At which share of the travel.
        share: f64,
        /// How long it is held on the side where it is held less, mm.
        long: f64,
        /// How long it must be, mm.
        least: f64,
    },
}

/// Everything that the take-up does not pass, or leaves open.
pub fn gaps(machine: &Machine, parts: &Parts, travel: f64) -> Vec<Gap> {
    let read = Read::new(machine);
    let pieces = read.pieces(Stance::at(Position::Lowest), 0.0);
    let mut out = on_the_way(&pieces, parts, travel);
    for share in [0.0, 1.0] {
        let up = DVec3::Z * travel * share;
        for plate in pieces.iter().filter(|p| like(&p.body.id, "sliding_plate")) {
            let side = plate.stood.reach.low.y.signum();
            let at = Bounds { low: plate.stood.reach.low + up, high: plate.stood.reach.high + up };
            let id = || plate.body.id.clone();
            for slot in slots(parts).into_iter().filter(|s| s.low.y.signum() == side) {
                let lap =
                    [slot.low.x - at.low.x, at.high.x - slot.high.x, slot.low.z - at.low.z, at.high.z - slot.high.z].into_iter().fold(f64::INFINITY, f64::min);
                if lap < LAP {
                    out.push(Gap::Slot { id: id(), share, lap });
                }
            }
            let bars: Vec<Bounds> =
                pieces.iter().filter(|p| like(&p.body.id, "guide.retainer")).map(|p| p.stood.reach).filter(|b| b.low.y.signum() == side).collect();
            let held = [-1.0, 1.0].map(|x| bars.iter().filter(|b| b.low.x.signum() == x && laps(b, &at) >= HELD).map(|b| along(b, &at)).sum::<f64>());
            let (long, least) = (held[0].min(held[1]), at.high.x - at.low.x);
            if long < least {
                out.push(Gap::Guide { id: id(), share, long, least });
            }
        }
    }
    out
}

/// How far a bar laps over a plate across, mm.
fn laps(bar: &Bounds, plate: &Bounds) -> f64 {
    bar.high.x.min(plate.high.x) - bar.low.x.max(plate.low.x)
}

/// How long a bar runs beside a plate, mm.
fn along(bar: &Bounds, plate: &Bounds) -> f64 {
    (bar.high.z.min(plate.high.z) - bar.low.z.max(plate.low.z)).max(0.0)
}

/// The slots in the side plates, each with the box round it.
fn slots(parts: &Parts) -> Vec<Bounds> {
    let of = |part: &Part| -> Option<Bounds> {
        let (flat, place) = part.flat.as_ref().zip(part.placements.first())?;
        let slot = flat.openings.iter().find(|o| o.feature == "take_up.slot")?;
        let corners = slot.contour.edges().iter().map(Edge::bounds).flat_map(|r| [[r.x0, r.y0], [r.x1, r.y1]]).collect::<Vec<_>>();
        Some(Bounds::of(corners.into_iter().map(|[x, y]| {
            let p = place.point(x, y, 0.0);
            DVec3::new(p.x, p.y, p.z)
        })))
    };
    parts.items.iter().filter(|p| like(&p.id, "side_plate")).filter_map(of).collect()
}

/// What meets on the way, at the step where it is deepest.
fn on_the_way(pieces: &[Piece<'_>], parts: &Parts, travel: f64) -> Vec<Gap> {
    let moved: Vec<&Piece<'_>> = pieces.iter().filter(|p| p.rises && !p.alone && !like(&p.body.id, "take_up.nut")).collect();
    let fixed: Vec<&Piece<'_>> = pieces.iter().filter(|p| !p.rises && !p.alone).collect();
    let mut found: BTreeMap<[&str; 2], (f64, DVec3, f64)> = BTreeMap::new();
    for one in moved {
        let swept = Bounds::round([one.stood.reach, Bounds { low: one.stood.reach.low + DVec3::Z * travel, high: one.stood.reach.high + DVec3::Z * travel }]);
        for other in fixed.iter().filter(|p| p.stood.reach.meets(&swept) && !is_free(one.body, p.body)) {
            for step in 0..=STEPS {
                let share = f64::from(step) / f64::from(STEPS);
                let Some(shared) = shared(&one.stood.moved(DVec3::Z * travel * share), &other.stood) else { continue };
                if allowed(parts, one.body, other.body, shared.deep).is_some() {
                    continue;
                }
                let known = found.entry([&one.body.id, &other.body.id]).or_insert((0.0, shared.at, share));
                if shared.deep > known.0 {
                    *known = (shared.deep, shared.at, share);
                }
            }
        }
    }
    found.into_iter().map(|(ids, (deep, at, share))| Gap::Met { ids: ids.map(String::from), deep, at: at.to_array(), share }).collect()
}
