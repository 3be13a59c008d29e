//! Openings in the walls of the foot: inspection doors with their mesh, sensor panels, clean-out doors.
//!
//! Every opening is a rectangle in the plane of its wall: across is x on the side plates and y on the
//! end plates, up is z. Frames and leaves lap 30 mm over the opening all round.

use super::casing::CasingBody;
use super::frame::{Extent, Feature, ModelPoint};
use super::pulleys::Pulleys;
use crate::formulas::foot_heights::BEND_ROOM;
use crate::sizing::sliding_plate;
use crate::spec::Spec;
use crate::spec::openings::Wall;

/// What an opening is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OpeningKind {
    /// Inspection door.
    Door {
        /// Mesh behind it: clear opening of the square mesh, mm; `None` without a mesh.
        mesh: Option<f64>,
    },
    /// Panel for a belt-alignment sensor.
    SensorPanel,
    /// Clean-out door.
    CleanOut,
}

/// One opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Stable id, e.g. `door[1]`, `sensor_panels.near.up`, `clean_out.up`.
    pub id: String,
    /// What it is for.
    pub kind: OpeningKind,
    /// Wall it is in.
    pub wall: Wall,
    /// Across the wall: x on side plates, y on end plates.
    pub across: Extent,
    /// Above the underside of the base.
    pub up: Extent,
    /// Distance from the mesh (or the wall, without one) to the nearest moving part, mm.
    pub depth_to_moving: f64,
}

/// Short names of all openings by their ids, in the order of the model: D doors, S sensor panels, C clean-out doors.
pub fn tags(openings: &[Opening]) -> Vec<(String, String)> {
    let letter = |kind: OpeningKind| match kind {
        OpeningKind::Door { .. } => "D",
        OpeningKind::SensorPanel => "S",
        OpeningKind::CleanOut => "C",
    };
    let number = |i: usize, own: &str| openings.iter().take(i + 1).filter(|o| letter(o.kind) == own).count();
    openings.iter().enumerate().map(|(i, o)| (o.id.clone(), format!("{}{}", letter(o.kind), number(i, letter(o.kind))))).collect()
}

impl Opening {
    /// A corner of the opening in the model: `across`, `up` in its wall.
    pub fn point(&self, casing: &CasingBody, across: f64, up: f64) -> ModelPoint {
        match self.wall {
            Wall::UpEnd => ModelPoint::new(casing.up_face, across, up),
            Wall::DownEnd => ModelPoint::new(casing.down_x(up), across, up),
            Wall::Near => ModelPoint::new(across, casing.width.high, up),
            Wall::Far => ModelPoint::new(across, casing.width.low, up),
        }
    }
}

/// Customary lap of frames and leaves over the clear opening, mm.
const LAP: f64 = 30.0;

/// Lap of frames and leaves over the clear opening, mm: a bar of the job's stock.
pub(super) fn lap(spec: &Spec) -> f64 {
    spec.stock().width_mm(LAP)
}

/// From the edge of the sliding plate to a sensor panel's opening, mm: guide, frame and weld.
const BESIDE_SLIDE: f64 = 67.0;
/// Least part of a sensor panel's width that stays beyond the belt's edge, mm.
const BELT_IN_PANEL: f64 = 15.0;

pub(super) fn build(spec: &Spec, casing: &CasingBody, pulleys: &Pulleys, bucket_tip: f64, travel: f64, slide: f64) -> Vec<Opening> {
    let mut all = Vec::new();
    let side_gap = casing.width.high - pulleys.foot.face.max(spec.belt.width.value()) / 2.0;
    for (i, door) in spec.doors.iter().enumerate() {
        let nearest = match door.on.value {
            Wall::UpEnd => casing.up_face - bucket_tip,
            Wall::DownEnd => -casing.down_x(door.sill.value()) - bucket_tip,
            Wall::Near | Wall::Far => side_gap,
        };
        let depth = if door.mesh_distance.is_given() { door.mesh_distance.value() } else { nearest.max(0.0) };
        all.push(Opening {
            id: format!("door[{}]", i + 1),
            kind: OpeningKind::Door { mesh: door.mesh.value.then(|| door.mesh_opening.value()) },
            wall: door.on.value,
            across: Extent::about(door.offset.value(), door.width.value()),
            up: Extent::new(door.sill.value(), door.sill.value() + door.height.value()),
            depth_to_moving: depth,
        });
    }
    let size = spec.sensor_panels.size.value();
    let beside = BESIDE_SLIDE + sliding_plate::wider(spec.stock());
    let level = pulleys.foot.centre.z + travel / 2.0;
    for (wall, fitted) in [(Wall::Near, spec.sensor_panels.near.value), (Wall::Far, spec.sensor_panels.far.value)] {
        if !fitted {
            continue;
        }
        // Level with the foot shaft, where the belt's edge runs up and down past the pulley's rim; on a small foot further out, beside the guides.
        let rim = pulleys.foot.radius();
        let x = rim.max((slide + beside + size / 2.0).min(rim + size / 2.0 - BELT_IN_PANEL));
        for (name, x) in [("up", x), ("down", -x)] {
            let key = if wall == Wall::Near { "near" } else { "far" };
            all.push(Opening {
                id: format!("sensor_panels.{key}.{name}"),
                kind: OpeningKind::SensorPanel,
                wall,
                across: Extent::about(x, size),
                up: Extent::about(level, size),
                depth_to_moving: side_gap,
            });
        }
    }
    let margin = spec.stock().width_mm(20.0);
    for (wall, fitted, name) in [(Wall::UpEnd, spec.clean_out.up.value, "up"), (Wall::DownEnd, spec.clean_out.down.value, "down")] {
        if fitted {
            let low = clean_out_sill(casing, wall, spec.clean_out.height.value(), lap(spec));
            all.push(Opening {
                id: format!("clean_out.{name}"),
                kind: OpeningKind::CleanOut,
                wall,
                across: casing.width.grown(-margin),
                up: Extent::new(low, low + spec.clean_out.height.value()),
                depth_to_moving: casing.up_face - bucket_tip,
            });
        }
    }
    all
}

/// Lowest edge of a clean-out: as low as its frame may stand on the wall.
///
/// The frame stays above the floor; over a rolled bottom it needs the wall behind it, and it may not lie across a bend of the down-side
/// plate. Between the opening and the plate's edge either nothing or a web of 1.5 plate thicknesses is left.
fn clean_out_sill(casing: &CasingBody, wall: Wall, height: f64, lap: f64) -> f64 {
    let edge = if wall == Wall::UpEnd { casing.up_shoulder } else { casing.down_shoulder };
    let mut low = casing.bottom_shoulder;
    if casing.bottom_radius.is_some() {
        low = low.max(edge + lap + 5.0);
    }
    low = low.max(lap + 5.0);
    let web = 1.5 * casing.plate + 1.0;
    if low > edge + 1e-6 && low < edge + web {
        low = edge + web;
    }
    let bends = if wall == Wall::UpEnd { Vec::new() } else { casing.down_bends() };
    bends.into_iter().fold(low, |low, z| if low < z + BEND_ROOM && low + height + BEND_ROOM > z { z + BEND_ROOM } else { low })
}

pub(super) fn features(openings: &[Opening], casing: &CasingBody, out: &mut Vec<Feature>) {
    for o in openings {
        let low = o.point(casing, o.across.low, o.up.low);
        let about = match o.kind {
            OpeningKind::Door { .. } => "inspection door",
            OpeningKind::SensorPanel => "sensor panel",
            OpeningKind::CleanOut => "clean-out door",
        };
        out.push(Feature::length(format!("{}.width", o.id), format!("{about}, clear width"), low, o.point(casing, o.across.high, o.up.low)));
        let above = ModelPoint { z: o.up.high, ..low };
        out.push(Feature::length(format!("{}.height", o.id), format!("{about}, clear height"), low, above));
        out.push(Feature::height(format!("{}.sill", o.id), format!("{about}, lowest edge"), low));
    }
}
