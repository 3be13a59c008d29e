//! Sheets, lists and bodies in the file formats that drawing offices, shops and readers use.
//!
//! In: finished pages of marks in paper mm. Out: named files as bytes; nothing here touches a disk.
//! Every page is checked by [`preflight`] before a format sees it, so that a format only has to say
//! how its strokes are written. All formats draw the same strokes; none adds or leaves out ink.
//! Same pages and options, same bytes. It does not promise that marks keep clear of each other.

pub mod csv;
pub mod cutting;
pub mod dwg;
pub mod dxf;
pub mod exporter;
pub mod foreign;
mod group_codes;
pub mod hatching;
pub mod json;
pub mod layers;
pub mod pdf;
pub mod preflight;
pub mod readback;
pub mod step;
pub mod svg;

use crate::paper::sheet::Sheet;
pub use dxf::writer::CadVersion;
pub use exporter::{ExportError, Exporter, File, Options, Page, SheetUnit};

/// Every format, in the order they are listed to the user.
pub const ALL: [&dyn Exporter; 4] = [&dxf::Dxf, &svg::Svg, &pdf::Pdf, &dwg::Dwg];

/// Finished sheets in several formats, format by format.
///
/// # Errors
/// The format and why it cannot hold a sheet.
pub fn sheets(sheets: &[Sheet], formats: &[&'static dyn Exporter], options: &Options) -> Result<Vec<File>, String> {
    let pages: Vec<Page<'_>> = sheets.iter().map(Page::from).collect();
    let mut files = Vec::new();
    for format in formats {
        files.extend(format.export(&pages, options).map_err(|why| format!("{}: {why}", format.id()))?);
    }
    Ok(files)
}
