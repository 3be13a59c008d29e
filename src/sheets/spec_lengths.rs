//! Where each length of a spec stands on the finished sheets, or why none dimensions it.
//!
//! In: a subject and its finished sheets. Out: one line for every length of the settled spec. Nothing is
//! hidden here: a length that is neither dimensioned nor on a list below is a fault of the sheets.

use super::Subject;
use crate::paper::sheet::Sheet;
use crate::spec::Spec;
use crate::spec::pit::Access;
use crate::spec::rotating::{TakeUpKind, TappedEnd};
use crate::units::{Length, Quantity};
use std::collections::BTreeMap;

/// Lengths that no view dimensions because words or a table state them; their text must stand on a sheet.
pub const STATED: &[(&str, &str)] = &[
    ("duty.lift", "note at the broken-off belt: the head lies far above the sheet"),
    ("casing.plate", "notes"),
    ("casing.bottom_plate", "notes"),
    ("take_up.splice", "table of the rotating parts"),
    ("take_up.box_length", "table of the rotating parts, where there is a box"),
    ("take_up.box_width", "table of the rotating parts, where there is a box"),
    ("take_up.box_height", "table of the rotating parts, where there is a box"),
    ("take_up.stop_gap", "table of the rotating parts, where there is a stop"),
    ("take_up.buffer", "table of the rotating parts, where there is a stop"),
    ("pit.ladder_width", "table of way down and guards"),
    ("pit.stair_width", "table of way down and guards"),
    ("pit.stair_going", "table of way down and guards"),
    ("pit.hatch_length", "table of way down and guards"),
    ("pit.hatch_width", "table of way down and guards"),
    ("pit.rail_height", "table of way down and guards"),
    ("door[n].offset", "table of openings"),
    ("door[n].mesh_opening", "table of openings"),
    ("door[n].mesh_distance", "table of openings, where another door of that size is drawn"),
    ("sensor_panels.size", "width and height of the first panel"),
    (
        "casing.down_clearance",
        "least of the down run; where a larger head pulley leads the run further out, the clearance there is beside the foot pulley, larger",
    ),
    ("clean_out.height", "height of the first clean-out door"),
    ("removal.height", "table of openings"),
    ("removal.sill", "table of openings"),
];

/// Lengths of the spec that no sheet shows as such, with the reason.
pub const NOT_SHOWN: &[(&str, &str)] = &[
    ("product.lump", "a property of the material, held against the throat by a rule"),
    ("belt.min_pulley", "a limit of the belt, held against the pulleys by a rule"),
    ("belt.min_bend_pulley", "a limit of the belt, held against the bend pulley by a rule"),
    ("casing.flange", "a plate size, on the plate sheets"),
    ("lifting.thickness", "a plate size, on the plate sheets"),
    ("lifting.height", "a plate size, on the plate sheets"),
    ("take_up.lug", "a plate size, on the plate sheets"),
    ("take_up.shelf", "a plate size, on the plate sheets"),
    ("take_up.gusset", "a plate size, on the plate sheets"),
    ("inlet.up.flange", "a plate size, on the plate sheets"),
    ("inlet.down.flange", "a plate size, on the plate sheets"),
    ("inlet.up.drop", "a property of the feed, used by the calculation only"),
    ("inlet.down.drop", "a property of the feed, used by the calculation only"),
    ("pit.rung_pitch", "a largest value; the equal pitch that comes out stands in the table of way down and guards"),
    ("pit.stair_rise", "a largest value; the equal rise that comes out stands in the table of way down and guards"),
    ("pit.feed_level", "a level, with its level mark"),
    ("pit.module", "the step to which walls are set out, stated in the notes"),
    ("pit.groundwater", "a level, with its level mark"),
    ("pit.site_level", "a level, stated in the notes of the pit"),
    ("fabrication.stock_length", "the shop's stock sheet, not a size of the machine; it decides where plates are spliced"),
    ("fabrication.stock_width", "the shop's stock sheet, not a size of the machine; it decides where plates are spliced"),
    ("pit.working_space", "belongs to the excavation, used for the quantities only"),
];

/// Least sizes that the model builds larger, by less than the setting-out step, where the spec leaves them out; sheets show what is built.
pub const BUILT_LARGER: &[&str] = &["pit.up_space", "pit.down_space", "pit.near_space", "pit.far_space"];

/// What became of a length of the spec.
#[derive(Debug, Clone, PartialEq)]
pub enum Shown {
    /// Dimensioned; the value drawn, mm, and the sheet.
    Dimensioned {
        /// Drawn value, mm.
        value: f64,
        /// Id of the sheet.
        sheet: String,
    },
    /// Stated in words or in a table: as written.
    Stated(String),
    /// Not shown on purpose.
    Listed(&'static str),
    /// Belongs to something that this machine does not have.
    Absent,
    /// Forgotten: a fault of the sheets.
    Missing,
}

/// A length of the settled spec.
#[derive(Debug, Clone, PartialEq)]
pub struct SpecLength {
    /// Path of its key, e.g. `inlet.up.sill`.
    pub path: String,
    /// Settled value, mm.
    pub value: f64,
    /// What the sheets make of it.
    pub shown: Shown,
}

/// All lengths of the spec.
pub fn account(subject: &Subject<'_>, sheets: &[Sheet]) -> Vec<SpecLength> {
    let mut drawn: BTreeMap<&str, (f64, &str)> = BTreeMap::new();
    for (d, sheet) in sheets.iter().flat_map(|s| s.dimensions.iter().map(move |d| (d, s.id.as_str()))) {
        drawn.entry(&d.key).or_insert((d.value, sheet));
    }
    subject
        .spec
        .settled_lines()
        .into_iter()
        .filter(|line| is_length(&line.path))
        .filter_map(|line| {
            let value = Length::parse(line.value.trim_matches('"')).ok()?.value();
            let shown = match drawn.get(line.path.as_str()) {
                _ if absent(subject.spec, &line.path) => Shown::Absent,
                Some((value, sheet)) => Shown::Dimensioned { value: *value, sheet: (*sheet).into() },
                None if alike(&line.path, value, &drawn).is_some() => {
                    let (value, sheet) = alike(&line.path, value, &drawn).unwrap_or_default();
                    Shown::Dimensioned { value, sheet: sheet.into() }
                }
                None => elsewhere(subject, &line.path, value),
            };
            Some(SpecLength { path: line.path, value, shown })
        })
        .collect()
}

/// Doors of one size are drawn once: the same measure of another door; a shaft without shoulders has one diameter.
fn alike<'a>(path: &str, value: f64, drawn: &BTreeMap<&str, (f64, &'a str)>) -> Option<(f64, &'a str)> {
    if path == "shaft.journal" {
        return drawn.get("shaft.diameter").filter(|(v, _)| (v - value).abs() < 0.05).copied();
    }
    let (_, field) = path.strip_prefix("door[")?.split_once("].")?;
    if field == "sill" {
        return None;
    }
    let of_a_door = |key: &str| key.starts_with("door[") && key.ends_with(&format!("].{field}"));
    drawn.iter().find(|(key, (v, _))| of_a_door(key) && (v - value).abs() < 0.05).map(|(_, shown)| *shown)
}

/// A length without a dimension of its own.
fn elsewhere(subject: &Subject<'_>, path: &str, value: f64) -> Shown {
    let general = general(path);
    if STATED.iter().any(|s| s.0 == general) {
        return Shown::Stated(subject.mm(value));
    }
    NOT_SHOWN.iter().find(|n| n.0 == general).map_or(Shown::Missing, |n| Shown::Listed(n.1))
}

/// Whether a key of the spec holds a length.
pub fn is_length(path: &str) -> bool {
    let general = general(path);
    crate::spec::keys().iter().any(|k| k.path == general && k.kind == "length")
}

/// Why a key is not dimensioned, where that is on record.
pub fn reason(path: &str) -> Option<&'static str> {
    let general = general(path);
    STATED.iter().chain(NOT_SHOWN).find(|n| n.0 == general).map(|n| n.1)
}

/// `door[2].width` as `door[n].width`.
pub fn general(path: &str) -> String {
    match (path.find('['), path.find(']')) {
        (Some(a), Some(b)) => format!("{}[n]{}", &path[..a], &path[b + 1..]),
        _ => path.to_string(),
    }
}

/// Whether the thing that the key describes is not fitted.
fn absent(spec: &Spec, path: &str) -> bool {
    (path.starts_with("inlet.up.") && !spec.inlet_up.fitted.value)
        || (path.starts_with("inlet.down.") && !spec.inlet_down.fitted.value)
        || (path.starts_with("shovel_pocket.") && !spec.shovel_pocket.fitted.value)
        || (path.starts_with("bend_pulley.") && !spec.bend_pulley.fitted.value)
        || (path.starts_with("pit.") && !spec.pit.fitted.value)
        || (path.starts_with("pit.sump") && spec.pit.sump.value.value() == 0.0)
        || (path.starts_with("pit.stair_") && spec.pit.access.value != Access::Stair)
        || (matches!(path, "pit.ladder_width" | "pit.rung_pitch") && spec.pit.access.value != Access::Ladder)
        || (path.starts_with("pit.hatch_") && !spec.pit.cover.value)
        || (path == "pit.rail_height" && !spec.pit.rail.value)
        || (path.starts_with("removal.") && spec.removal.on.wall().is_none())
        || ((path.starts_with("take_up.box_") || matches!(path, "take_up.stop_gap" | "take_up.buffer")) && spec.take_up.kind.value != TakeUpKind::Gravity)
        || (path == "bucket.row_gap" && spec.bucket.rows.value < 2)
        || (matches!(path, "shaft.thread_depth" | "shaft.drill_depth") && spec.shaft.tapped_end.value == TappedEnd::None)
        || (path == "pit.pitch" && spec.pit.elevators.value < 2)
        || (path == "pit.toe" && spec.pit.toe.value.value() == 0.0)
        || (path == "pit.feed_distance" && spec.pit.feed_distance.value.value() == 0.0)
}
