//! What there is to say about finished sheets beside their files: links for the report, conflicts left in the ink.
//!
//! A conflict left in the ink of a sheet is a defect of the program; the sheet is drawn all the same.

use super::Wish;
use crate::paper::ink::DefectKind;
use crate::paper::sheet::Sheet;
use crate::report::html::SheetLink;

/// Title and SVG file of each sheet; none when no SVG is asked for.
pub fn links(sheets: &[Sheet], wish: &Wish) -> Vec<SheetLink> {
    if !wish.formats.iter().any(|f| f.id() == "svg") {
        return Vec::new();
    }
    sheets.iter().map(|s| SheetLink { title: s.title.clone(), file: format!("sheets/{}.svg", s.id) }).collect()
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
