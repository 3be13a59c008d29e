//! What there is to say about finished sheets beside their files: links for the report, conflicts left in the ink.
//!
//! A conflict left in the ink of a sheet is a defect of the program; the sheet is drawn all the same.

use super::{OutputFile, Wish};
use crate::paper::ink::DefectKind;
use crate::paper::sheet::{PlacedView, Sheet};
use crate::report::html::{SheetLink, ViewBox};

/// The sheets with their files and views; none when no SVG is asked for.
pub fn links(sheets: &[Sheet], wish: &Wish) -> Vec<SheetLink> {
    let asked = |id: &str| wish.formats.iter().any(|f| f.id() == id);
    if !asked("svg") {
        return Vec::new();
    }
    let link = |s: &Sheet| SheetLink {
        id: s.id.clone(),
        title: s.title.clone(),
        file: format!("sheets/{}.svg", s.id),
        dxf: asked("dxf").then(|| format!("sheets/{}.dxf", s.id)),
        views: s.views.iter().map(|v| view_box(v, s.height_mm)).collect(),
    };
    sheets.iter().map(link).collect()
}

/// Where a view stands on the SVG of its sheet, whole millimetres around it.
fn view_box(view: &PlacedView, height: f64) -> ViewBox {
    let (left, top) = (view.low.x.floor(), (height - view.high.y).floor());
    ViewBox { id: view.id.clone(), title: view.title.clone(), at: [left, top, view.high.x.ceil() - left, (height - view.low.y).ceil() - top] }
}

/// Files beside the report that people open, in the order of their paths: no sheets, no plates, nothing for programs alone.
pub fn to_open(files: &[OutputFile]) -> Vec<String> {
    let mut paths: Vec<String> = files.iter().map(|f| f.path.clone()).filter(|path| path.ends_with(".pdf") || path.ends_with(".csv")).collect();
    paths.sort_by_key(|path| (!path.ends_with(".pdf"), path.clone()));
    paths
}

/// Conflicts that the layout could not avoid, one sentence each: defects of the program, or formats asked for that are too small.
pub fn defects(sheets: &[Sheet]) -> Vec<String> {
    sheets
        .iter()
        .flat_map(|s| {
            s.defects.iter().map(move |d| match d.kind {
                DefectKind::FormatTooSmall => d.message.clone(),
                _ => format!("defect of the program: sheet {}: {:?}, {} at ({:.0}, {:.0}) mm", s.id, d.kind, d.message, d.x, d.y),
            })
        })
        .collect()
}
