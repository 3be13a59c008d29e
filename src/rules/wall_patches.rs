//! What lies on a casing's walls, as rectangles: openings, inlets, pocket, sliding plates, lugs; and free places between them.
//!
//! In: a foot, in the frame of each wall in mm. Out: patches, whether they cut or meet, and where a door would have room. Which of it
//! is a fault is for the rules to say.

use super::finding::down_to;
use super::{Case, Finding};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::model::inlets::FeedSide;
use crate::model::openings::OpeningKind;
use crate::parts::placement::Placement;
use crate::say::{Value, opening};
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;
use crate::units::Length;

/// A rectangle on a wall.
#[derive(Debug, Clone)]
pub(super) struct Patch {
    pub(super) name: Value,
    /// Spec path of what it is about.
    pub(super) path: String,
    pub(super) wall: Wall,
    pub(super) across: Extent,
    pub(super) up: Extent,
    pub(super) lap: f64,
    /// Whether it is a hole that has to lie on the plate.
    pub(super) hole: bool,
}

impl Patch {
    pub(super) fn cuts(&self, other: &Self) -> bool {
        self.wall == other.wall && self.across.overlaps(&other.across) && self.up.overlaps(&other.up)
    }
    pub(super) fn meets(&self, other: &Self) -> bool {
        let (a, b) = (self.lap, other.lap);
        self.wall == other.wall && self.across.grown(a).overlaps(&other.across.grown(b)) && self.up.grown(a).overlaps(&other.up.grown(b))
    }
}

/// Adds what differs of a door in its new place; its wall too where the spec does not say it, because a door that is
/// left out altogether stands elsewhere than one of which something is said.
pub(super) fn moved_door(case: &Case<'_>, door: &Patch, free: &Patch, mut finding: Finding) -> Finding {
    let path = door.path.as_str();
    let place = |p: &Patch| [("sill", p.up.low), ("offset", p.across.middle()), ("width", p.across.size()), ("height", p.up.size())];
    let number = path.strip_prefix("door[").and_then(|n| n.strip_suffix(']')).and_then(|n| n.parse::<usize>().ok()).unwrap_or(0);
    if case.spec.doors.get(number.wrapping_sub(1)).is_none_or(|d| !d.on.is_given()) {
        finding = finding.change(format!("{path}.on"), &door.wall);
    }
    for ((key, now), (_, then)) in place(door).into_iter().zip(place(free)) {
        if (now - then).abs() > 1e-6 {
            finding = finding.change(format!("{path}.{key}"), &Length::mm(then));
        }
    }
    finding
}

/// Key of what lifting lugs are there for.
pub(super) const LUGS: &str = "lifting.lugs";

/// The lifting lugs where they stand: frames keep clear of them.
pub(super) fn lugs(case: &Case<'_>) -> Vec<Patch> {
    let (Some(lug), Some(part)) = (&case.foot.lug, case.parts.part("lifting_lug")) else { return Vec::new() };
    let top = case.foot.casing.top;
    let of = |p: &Placement| {
        let at = p.point(0.0, 0.0, part.thickness / 2.0);
        let wall = if at.x > 0.0 { Wall::UpEnd } else { Wall::DownEnd };
        let (across, up) = (Extent::about(at.y, 2.0 * lug.half_zone()), Extent::new(top - lug.room(), top));
        Patch { name: "a lifting lug".into(), path: LUGS.into(), wall, across, up, lap: 0.0, hole: false }
    };
    part.placements.iter().map(of).collect()
}

/// Everything on the walls: what cannot move first, doors last.
pub(super) fn patches(foot: &Foot) -> Vec<Patch> {
    let mut all = Vec::new();
    let plate = &foot.rotating.sliding_plate;
    let swept = Extent::new(plate.z.low, plate.z.high + foot.rotating.travel);
    for (wall, name) in [(Wall::Near, "the near sliding plate"), (Wall::Far, "the far sliding plate")] {
        all.push(Patch { name: Value::from(name), path: "take_up.travel".into(), wall, across: plate.x, up: swept, lap: 0.0, hole: false });
    }
    for inlet in &foot.inlets {
        let (wall, name) = if inlet.side == FeedSide::Up { (Wall::UpEnd, "the up-side inlet") } else { (Wall::DownEnd, "the down-side inlet") };
        let key = inlet.side.key();
        all.push(Patch { name: name.into(), path: format!("inlet.{key}.sill"), wall, across: inlet.width, up: inlet.opening, lap: 10.0, hole: true });
    }
    if let Some(p) = &foot.pocket {
        let wall = if p.side == Side::Near { Wall::Near } else { Wall::Far };
        all.push(Patch { name: "the shovel pocket".into(), path: "shovel_pocket.width".into(), wall, across: p.x, up: p.z, lap: foot.lap, hole: true });
    }
    for o in &foot.openings {
        let (path, lap) = match o.kind {
            OpeningKind::SensorPanel => ("sensor_panels.size".to_string(), foot.lap),
            // The leaf of a clean-out covers the whole width of its plate.
            OpeningKind::CleanOut => (o.id.clone(), 0.0),
            OpeningKind::Removal => ("removal.sill".to_string(), foot.lap),
            OpeningKind::Door { .. } => continue,
        };
        all.push(Patch { name: opening(&o.id), path, wall: o.wall, across: o.across, up: o.up, lap, hole: true });
    }
    for o in foot.openings.iter().filter(|o| matches!(o.kind, OpeningKind::Door { .. })) {
        all.push(Patch { name: opening(&o.id), path: o.id.clone(), wall: o.wall, across: o.across, up: o.up, lap: foot.lap, hole: true });
    }
    all
}

/// Whether a hole lies on its plate.
pub(super) fn on_plate(foot: &Foot, patch: &Patch) -> bool {
    let casing = &foot.casing;
    let slack = 1e-6;
    if patch.up.low < casing.bottom_face - slack || patch.up.high > casing.top + slack {
        return false;
    }
    match patch.wall {
        Wall::UpEnd | Wall::DownEnd => casing.width.grown(slack).contains(&patch.across) && patch.up.low >= casing.bottom_shoulder - slack,
        Wall::Near | Wall::Far => {
            let corners =
                [(patch.across.low, patch.up.low), (patch.across.high, patch.up.low), (patch.across.low, patch.up.high), (patch.across.high, patch.up.high)];
            corners.into_iter().all(|(x, z)| {
                let round = casing.bottom_radius.is_none_or(|r| z >= casing.bottom_shoulder || x.hypot(z - foot.shaft_lowest) <= r + slack);
                round && x <= casing.up_face + slack && x >= casing.down_x(z) - slack
            })
        }
    }
}

/// The nearest free place for a door on its wall, in steps of 10 mm; as large as it is, or smaller when nothing else fits.
pub(super) fn free_place(foot: &Foot, door: &Patch, rest: &[&Patch]) -> Option<Patch> {
    let casing = &foot.casing;
    let plate = match door.wall {
        Wall::UpEnd | Wall::DownEnd => casing.width,
        Wall::Near | Wall::Far => Extent::new(casing.down_outermost(), casing.up_face),
    };
    let home = [door.across.middle(), door.up.low];
    let rest: Vec<&Patch> = rest.iter().copied().filter(|o| o.wall == door.wall).collect();
    [1.0, 0.8, 0.6, 0.4].into_iter().find_map(|scale| {
        let sized = |own: f64| if scale < 1.0 { down_to(own * scale, 10.0).max(80.0) } else { own };
        let (width, height) = (sized(door.across.size()), sized(door.up.size()));
        // Also where a door of this size leaves its plate: such places are turned down below.
        let across = steps(plate.low, plate.high);
        let up = steps(casing.bottom_face, casing.top);
        let mut place = door.clone();
        let mut best: Option<(f64, Extent, Extent)> = None;
        for x in &across {
            for z in &up {
                let away = (x - home[0]).hypot(z - home[1]);
                if best.is_some_and(|b| away >= b.0) {
                    continue;
                }
                (place.across, place.up) = (Extent::about(*x, width), Extent::new(*z, z + height));
                if on_plate(foot, &place) && !rest.iter().any(|o| place.meets(o)) {
                    best = Some((away, place.across, place.up));
                }
            }
        }
        best.map(|(_, across, up)| Patch { across, up, ..place })
    })
}

/// Multiples of 10 mm from `low` to `high`.
pub(super) fn steps(low: f64, high: f64) -> Vec<f64> {
    let first = (low / 10.0).ceil() as i64;
    let last = (high / 10.0).floor() as i64;
    (first..=last).map(|i| i as f64 * 10.0).collect()
}
