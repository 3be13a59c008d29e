//! DWG: the DXF's drawing in the binary form that many offices ask for.
//!
//! In: pages. Out: one DWG a sheet, saved from the very drawing that the DXF is written from, and read
//! back and counted. The format has no public definition: the files were read by independent open
//! readers only, never by the format's owner's program. Who needs certainty takes the DXF.

use super::{ExportError, Exporter, File, Options, Page, dxf, preflight, readback};

/// The DWG exporter.
#[derive(Debug)]
pub struct Dwg;

impl Exporter for Dwg {
    fn id(&self) -> &'static str {
        "dwg"
    }
    fn extension(&self) -> &'static str {
        "dwg"
    }
    fn about(&self) -> &'static str {
        "one DWG a sheet from the same drawing as the DXF; read by open readers only"
    }
    fn export(&self, pages: &[Page], options: &Options) -> Result<Vec<File>, ExportError> {
        preflight::check(pages)?;
        pages
            .iter()
            .map(|page| {
                let sheet = dxf::drawing(page, options, dxf::writer::Form::Binary)?;
                let bytes = sheet.drawing.to_dwg().map_err(|e| dxf::format_error("dwg", page, &e))?;
                readback::verify_dwg(page.stem, &bytes, &sheet.written)?;
                Ok(File { name: format!("{}.dwg", page.stem), bytes })
            })
            .collect()
    }
}
