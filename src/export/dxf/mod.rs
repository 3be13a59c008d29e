//! DXF: one file a sheet, for every CAD program.
//!
//! In: pages. Out: DXF of the version asked for, model space only. Geometry in the sheet's main scale
//! comes out at real size (1 unit = 1 mm, on inch sheets 1 inch), frame and lettering are enlarged
//! with it, so that a plot at the sheet's scale gives the sheet. Dimensions are real ones whose block
//! holds exactly the strokes of the mark. Each file is read back and counted before it is handed out.
//! It does not promise the look of readers that redraw dimensions by their own rules.

mod dimension;
mod pencil;
pub mod text;
pub mod writer;

use super::{ExportError, Exporter, File, Options, Page, SheetUnit, preflight, readback};
use crate::paper::font;
use crate::paper::style::{Face, LineType, Pen};
use pencil::{Pencil, text_style};
use std::collections::BTreeMap;
use writer::{Drawing, DrawingUnit, Form, Place, WriteError};

/// The DXF exporter.
#[derive(Debug)]
pub struct Dxf;

impl Exporter for Dxf {
    fn id(&self) -> &'static str {
        "dxf"
    }
    fn extension(&self) -> &'static str {
        "dxf"
    }
    fn about(&self) -> &'static str {
        "one DXF a sheet with real dimensions, geometry at real size in model space"
    }
    fn export(&self, pages: &[Page], options: &Options) -> Result<Vec<File>, ExportError> {
        preflight::check(pages)?;
        pages
            .iter()
            .map(|page| {
                let sheet = drawing(page, options, Form::Text)?;
                let bytes = sheet.drawing.to_dxf().map_err(|e| format_error("dxf", page, &e))?;
                readback::verify(page.stem, &bytes, &sheet.written)?;
                Ok(File { name: format!("{}.dxf", page.stem), bytes })
            })
            .collect()
    }
}

/// A sheet as a CAD drawing, with what was put into it.
pub(super) struct Sheet {
    /// The drawing.
    pub(super) drawing: Drawing,
    /// How many entities of each kind were written, blocks included.
    pub(super) written: BTreeMap<&'static str, usize>,
}

pub(super) fn format_error(format: &'static str, page: &Page, error: &WriteError) -> ExportError {
    ExportError::Format { format, sheet: page.stem.into(), why: error.to_string() }
}

/// Draws a checked page for this form of file.
pub(super) fn drawing(page: &Page, options: &Options, form: Form) -> Result<Sheet, ExportError> {
    let build = || -> Result<Sheet, WriteError> {
        let k = page.units_per_mm();
        let unit = match page.unit {
            SheetUnit::Millimetre => DrawingUnit::Millimetre,
            SheetUnit::Inch => DrawingUnit::Inch,
        };
        let mut drawing = Drawing::new(options.version, unit, (page.width_mm * k, page.height_mm * k))?;
        drawing.save_as(form);
        drawing.properties(page.title, page.description);
        drawing.line_type_scale(k)?;
        for line_type in LineType::ALL {
            if !line_type.pattern().is_empty() {
                drawing.line_type(line_type.name(), about(line_type), line_type.pattern())?;
            }
        }
        for pen in Pen::ALL {
            let row = options.layers.row(pen);
            drawing.layer(&row.layer, pen.about(), row.colour, pen.line_type().name(), pen.width(page.line_group))?;
        }
        for face in [Face::Regular, Face::Bold] {
            drawing.text_style(text_style(face), font::file_name(face), font::FAMILY, face == Face::Bold)?;
        }
        let mut pencil = Pencil { page: *page, layers: &options.layers, drawing, written: BTreeMap::new(), sizes: dimension::sizes(page), dimensions: 0 };
        pencil.main_dimension_style()?;
        for mark in page.marks {
            pencil.mark(Place::Model, mark)?;
        }
        Ok(Sheet { drawing: pencil.drawing, written: pencil.written })
    };
    build().map_err(|e| format_error("cad", page, &e))
}

/// Description of a line type, as line type tables show it.
const fn about(line_type: LineType) -> &'static str {
    match line_type {
        LineType::Continuous => "continuous",
        LineType::Dashed => "hidden edge __ __ __ __",
        LineType::LongDashDot => "centre line ____ . ____ .",
        LineType::LongDashDoubleDot => "phantom ____ . . ____ . .",
    }
}
