//! Openings in the walls of the foot: inspection doors with their mesh, sensor panels, clean-out doors, the removal panel.
//!
//! Every opening is a rectangle in the plane of its wall: across is x on the side plates and y on the
//! end plates, up is z. Frames and leaves lap 30 mm over the opening all round.

use super::casing::CasingBody;
use super::frame::{Extent, Feature, ModelPoint};
use super::pulleys::Pulleys;
use crate::formulas::foot_heights;
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
    /// Panel through which the foot pulley comes out.
    Removal,
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

/// Short names of all openings by their ids, in the order of the model: D doors, S sensor panels, C clean-out doors, R the removal panel.
pub fn tags(openings: &[Opening]) -> Vec<(String, String)> {
    let letter = |kind: OpeningKind| match kind {
        OpeningKind::Door { .. } => "D",
        OpeningKind::SensorPanel => "S",
        OpeningKind::CleanOut => "C",
        OpeningKind::Removal => "R",
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

/// Lap of frames and leaves over the clear opening, mm: a bar of the job's stock.
pub(super) fn lap(spec: &Spec) -> f64 {
    spec.stock().width_mm(foot_heights::LAP)
}

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
    let level = pulleys.foot.centre.z + travel / 2.0;
    for (wall, fitted) in [(Wall::Near, spec.sensor_panels.near.value), (Wall::Far, spec.sensor_panels.far.value)] {
        if !fitted {
            continue;
        }
        let x = sliding_plate::panel_middle(pulleys.foot.radius(), slide, size, spec.stock());
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
    let margin = foot_heights::beside_full_width(lap(spec), casing.plate, spec.stock().step_mm());
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
    if let Some(wall) = spec.removal.on.wall() {
        let up = Extent::new(spec.removal.sill.value(), spec.removal.sill.value() + spec.removal.height.value());
        let reach = if wall == Wall::UpEnd { casing.up_face } else { -casing.down_x(up.low) };
        all.push(Opening {
            id: "removal".into(),
            kind: OpeningKind::Removal,
            wall,
            across: casing.width.grown(-margin),
            up,
            depth_to_moving: (reach - bucket_tip).max(0.0),
        });
    }
    all
}

/// Lowest edge of a clean-out: as low as its frame may stand on the wall.
fn clean_out_sill(casing: &CasingBody, wall: Wall, height: f64, lap: f64) -> f64 {
    let up = wall == Wall::UpEnd;
    let edge = if up { casing.up_shoulder } else { casing.down_shoulder };
    let bends = if up { Vec::new() } else { casing.down_bends() };
    let over_edge = casing.bottom_radius.map_or(edge, |_| edge + lap + foot_heights::OVER_EDGE);
    let floor = casing.bottom_shoulder.max(over_edge);
    foot_heights::clean_out_sill([edge, floor], &bends, casing.plate, height, lap)
}

pub(super) fn features(openings: &[Opening], casing: &CasingBody, out: &mut Vec<Feature>) {
    for o in openings {
        let low = o.point(casing, o.across.low, o.up.low);
        let about = match o.kind {
            OpeningKind::Door { .. } => "inspection door",
            OpeningKind::SensorPanel => "sensor panel",
            OpeningKind::CleanOut => "clean-out door",
            OpeningKind::Removal => "removal panel",
        };
        out.push(Feature::length(format!("{}.width", o.id), format!("{about}, clear width"), low, o.point(casing, o.across.high, o.up.low)));
        let above = ModelPoint { z: o.up.high, ..low };
        out.push(Feature::length(format!("{}.height", o.id), format!("{about}, clear height"), low, above));
        out.push(Feature::height(format!("{}.sill", o.id), format!("{about}, lowest edge"), low));
    }
}
