//! DXF: one file a sheet, for every CAD program.
//!
//! In: pages. Out: DXF of the version asked for, model space only. Geometry in the sheet's main scale
//! comes out at real size (1 unit = 1 mm, on inch sheets 1 inch), frame and lettering are enlarged
//! with it, so that a plot at the sheet's scale gives the sheet. Dimensions are real ones whose block
//! holds exactly the strokes of the mark. Each file is read back and counted before it is handed out.
//! It does not promise the look of readers that redraw dimensions by their own rules.

mod dimension;
pub mod text;
pub mod writer;

use super::layers::LayerMap;
use super::{ExportError, Exporter, File, Options, Page, SheetUnit, preflight, readback};
use crate::geometry::Edge;
use crate::paper::font;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Align, Hatch, Mark, PaperPoint, Shape, Text};
use crate::paper::style::{Face, LineType, Pattern, Pen};
use std::collections::BTreeMap;
use writer::{Anchor, Drawing, DrawingUnit, Form, Place, TextLine, WriteError, Xy};

/// The DXF exporter.
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

/// Name of the text style of a face.
const fn text_style(face: Face) -> &'static str {
    match face {
        Face::Regular => "FW",
        Face::Bold => "FW_BOLD",
    }
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

/// Draws marks into one drawing.
struct Pencil<'a> {
    page: Page<'a>,
    layers: &'a LayerMap,
    drawing: Drawing,
    written: BTreeMap<&'static str, usize>,
    sizes: writer::DimensionSizes,
    dimensions: usize,
}

impl Pencil<'_> {
    /// Paper to drawing units.
    fn at(&self, p: PaperPoint) -> Xy {
        let k = self.page.units_per_mm();
        (p.x * k, p.y * k)
    }

    fn long(&self, mm: f64) -> f64 {
        mm * self.page.units_per_mm()
    }

    fn count(&mut self, kind: &'static str) {
        *self.written.entry(kind).or_default() += 1;
    }

    fn mark(&mut self, place: Place, mark: &Mark) -> Result<(), WriteError> {
        match mark {
            Mark::Path(path) => self.shape(place, &path.shape, path.pen),
            Mark::Text(text) => self.text(place, text),
            Mark::Hatch(hatch) => self.hatch(place, hatch),
            Mark::Dimension(dimension) => self.dimension(dimension),
            Mark::Group(group) => group.marks.iter().try_for_each(|m| self.mark(place, m)),
        }
    }

    fn shape(&mut self, place: Place, shape: &Shape<PaperPoint>, pen: Pen) -> Result<(), WriteError> {
        let layer = self.layers.row(pen).layer;
        match shape {
            Shape::Line { from, to } => {
                self.count("LINE");
                self.drawing.line(place, &layer, self.at(*from), self.at(*to))
            }
            Shape::Circle { centre, radius } => {
                self.count("CIRCLE");
                self.drawing.circle(place, &layer, self.at(*centre), self.long(*radius))
            }
            Shape::Arc { centre, radius, start, sweep } => {
                let (from, to) = if *sweep >= 0.0 { (*start, start + sweep) } else { (start + sweep, *start) };
                if to - from >= std::f64::consts::TAU - 1e-9 {
                    self.count("CIRCLE");
                    return self.drawing.circle(place, &layer, self.at(*centre), self.long(*radius));
                }
                self.count("ARC");
                self.drawing.arc(place, &layer, self.at(*centre), self.long(*radius), from, to)
            }
            Shape::Polyline { vertices, closed } => {
                let corners: Vec<(Xy, f64)> = vertices.iter().map(|v| (self.at(v.at), v.bulge)).collect();
                self.count("LWPOLYLINE");
                self.drawing.polyline(place, &layer, &corners, *closed)
            }
        }
    }

    fn text(&mut self, place: Place, text: &Text) -> Result<(), WriteError> {
        if text.content.trim().is_empty() {
            return Ok(());
        }
        let layer = self.layers.row(text.pen).layer;
        self.count("TEXT");
        let line = TextLine {
            content: &text::entity(&text.content),
            left: self.at(TextBox::of(text).start()),
            at: self.at(text.at),
            height: self.long(text.height),
            angle: text.angle.to_radians(),
            anchor: match text.align {
                Align::Left => Anchor::Left,
                Align::Centre => Anchor::Centre,
                Align::Right => Anchor::Right,
            },
            style: text_style(text.face),
        };
        self.drawing.text(place, &layer, &line)
    }

    fn hatch(&mut self, place: Place, hatch: &Hatch) -> Result<(), WriteError> {
        let layer = self.layers.row(hatch.pen).layer;
        let loops: Vec<Vec<(Xy, f64)>> = hatch.loops.iter().map(|l| self.loop_corners(l)).collect();
        match (hatch.pattern, loops.as_slice()) {
            (Pattern::Solid, [corners]) if corners.len() == 3 && corners.iter().all(|(_, bulge)| *bulge == 0.0) => {
                // Arrow heads: the plainest solid there is, in every version and reader.
                let mut three = [(0.0, 0.0); 3];
                for (slot, (at, _)) in three.iter_mut().zip(corners) {
                    *slot = *at;
                }
                self.count("SOLID");
                self.drawing.triangle(place, &layer, three)
            }
            (Pattern::Solid, _) => {
                self.count("HATCH");
                self.drawing.hatch(place, &layer, &loops, None)
            }
            (Pattern::Lines { angle, spacing }, _) => {
                self.count("HATCH");
                self.drawing.hatch(place, &layer, &loops, Some((angle.to_radians(), self.long(spacing))))
            }
        }
    }

    /// A hatch loop as corners with bulges; a circle as four quarters.
    fn loop_corners(&self, shape: &Shape<PaperPoint>) -> Vec<(Xy, f64)> {
        match shape {
            Shape::Circle { centre, radius } => {
                let quarter = std::f64::consts::FRAC_PI_2;
                let bulge = (quarter / 4.0).tan();
                Edge::circle((*centre).into(), *radius).chords(quarter).map(|chord| (self.at(chord.p0.into()), bulge)).collect()
            }
            Shape::Polyline { vertices, .. } => vertices.iter().map(|v| (self.at(v.at), v.bulge)).collect(),
            Shape::Line { .. } | Shape::Arc { .. } => Vec::new(),
        }
    }
}
