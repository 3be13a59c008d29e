//! PDF: one file for the whole set, for printing and sending.
//!
//! In: pages. Out: a PDF whose pages have the sheets' exact sizes, with the font embedded, text that
//! can be searched, a bookmark for every sheet and the set's title. No date is written, so that the
//! same set gives the same bytes. It promises neither PDF/A nor tags.

use super::{ExportError, Exporter, File, Options, Page, hatching, preflight};
use crate::paper::font;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Hatch, Mark, PaperPoint, Path, Shape, Text};
use crate::paper::style::{Face, LineGroup, Pattern, Pen};
use krilla::destination::XyzDestination;
use krilla::geom::{PathBuilder, Point, Transform};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Data, Document};
use kurbo::PathEl;

/// PDF points in one mm.
const POINTS: f64 = 72.0 / 25.4;

/// Largest distance of a curve from the true arc, paper mm: a tenth of the finest printer dot.
const ARC_ERROR: f64 = 1e-3;

/// The PDF exporter.
#[derive(Debug)]
pub struct Pdf;

impl Exporter for Pdf {
    fn id(&self) -> &'static str {
        "pdf"
    }
    fn extension(&self) -> &'static str {
        "pdf"
    }
    fn about(&self) -> &'static str {
        "one PDF for the whole set, exact page sizes, searchable text, bookmarks"
    }
    fn export(&self, pages: &[Page], options: &Options) -> Result<Vec<File>, ExportError> {
        preflight::check(pages)?;
        if pages.is_empty() {
            return Ok(Vec::new());
        }
        let failed = |sheet: &str, why: &str| ExportError::Format { format: "pdf", sheet: sheet.into(), why: why.into() };
        let read = |face| Font::new(Data::from(font::bytes(face)), 0).ok_or_else(|| failed(&options.set_stem, "the font cannot be read"));
        let fonts = Fonts { regular: read(Face::Regular)?, bold: read(Face::Bold)? };
        let mut document = Document::new();
        let mut bookmarks = Outline::new();
        for (i, page) in pages.iter().enumerate() {
            let settings = PageSettings::from_wh((page.width_mm * POINTS) as f32, (page.height_mm * POINTS) as f32)
                .ok_or_else(|| failed(page.stem, "the page size is not one"))?;
            let mut sheet = document.start_page_with(settings);
            let mut surface = sheet.surface();
            // Paper mm, y up, as the marks are; only text is turned back.
            surface.push_transform(&Transform::from_row(POINTS as f32, 0.0, 0.0, -POINTS as f32, 0.0, (page.height_mm * POINTS) as f32));
            Ink { surface: &mut surface, fonts: &fonts, group: page.line_group }.marks(page.marks);
            surface.pop();
            surface.finish();
            sheet.finish();
            bookmarks.push_child(OutlineNode::new(page.title.into(), XyzDestination::new(i, Point::from_xy(0.0, 0.0))));
        }
        document.set_outline(bookmarks);
        document.set_metadata(Metadata::new().title(options.set_title.clone()).creator("footwell".into()));
        let bytes = document.finish().map_err(|e| failed(&options.set_stem, &format!("{e:?}")))?;
        Ok(vec![File { name: format!("{}.pdf", options.set_stem), bytes }])
    }
}

struct Fonts {
    regular: Font,
    bold: Font,
}

struct Ink<'a, 's> {
    surface: &'a mut Surface<'s>,
    fonts: &'a Fonts,
    group: LineGroup,
}

impl Ink<'_, '_> {
    fn marks(&mut self, marks: &[Mark]) {
        for mark in marks {
            match mark {
                Mark::Path(path) => self.path(path),
                Mark::Text(text) => self.text(text),
                Mark::Hatch(hatch) => self.hatch(hatch),
                Mark::Dimension(dimension) => self.marks(&dimension.strokes),
                Mark::Group(group) => self.marks(&group.marks),
            }
        }
    }

    fn pen(&mut self, pen: Pen) {
        let pattern = pen.line_type().pattern();
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(Stroke {
            width: pen.width(self.group) as f32,
            line_cap: if pattern.is_empty() { LineCap::Round } else { LineCap::Butt },
            line_join: LineJoin::Round,
            dash: (!pattern.is_empty()).then(|| StrokeDash { array: pattern.iter().map(|d| d.abs() as f32).collect(), offset: 0.0 }),
            ..Stroke::default()
        }));
    }

    fn path(&mut self, path: &Path) {
        self.pen(path.pen);
        self.draw(std::slice::from_ref(&path.shape));
    }

    fn hatch(&mut self, hatch: &Hatch) {
        match hatch.pattern {
            Pattern::Solid => {
                self.surface.set_stroke(None);
                self.surface.set_fill(Some(Fill { rule: FillRule::EvenOdd, ..Fill::default() }));
                self.draw(&hatch.loops);
            }
            Pattern::Lines { angle, spacing } => {
                self.pen(hatch.pen);
                let lines = hatching::lines(&hatch.loops, angle, spacing);
                let shapes: Vec<Shape<PaperPoint>> = lines.into_iter().map(|(from, to)| Shape::Line { from, to }).collect();
                self.draw(&shapes);
            }
        }
    }

    fn draw(&mut self, shapes: &[Shape<PaperPoint>]) {
        let mut path = PathBuilder::new();
        let f = |v: f64| v as f32;
        for el in shapes.iter().flat_map(|s| s.path(ARC_ERROR)) {
            match el {
                PathEl::MoveTo(p) => path.move_to(f(p.x), f(p.y)),
                PathEl::LineTo(p) => path.line_to(f(p.x), f(p.y)),
                PathEl::QuadTo(a, p) => path.quad_to(f(a.x), f(a.y), f(p.x), f(p.y)),
                PathEl::CurveTo(a, b, p) => path.cubic_to(f(a.x), f(a.y), f(b.x), f(b.y), f(p.x), f(p.y)),
                PathEl::ClosePath => path.close(),
            }
        }
        // A path without extent has no ink.
        if let Some(path) = path.finish() {
            self.surface.draw_path(&path);
        }
    }

    fn text(&mut self, text: &Text) {
        if text.content.trim().is_empty() {
            return;
        }
        let embedded = match text.face {
            Face::Regular => self.fonts.regular.clone(),
            Face::Bold => self.fonts.bold.clone(),
        };
        let content = font::drawn(&text.content);
        let glyphs: Vec<KrillaGlyph> = content
            .char_indices()
            .map(|(at, c)| {
                let glyph = font::glyph(c, text.face);
                KrillaGlyph::new(GlyphId::new(u32::from(glyph.index.unwrap_or_default())), glyph.advance as f32, 0.0, 0.0, 0.0, at..at + c.len_utf8(), None)
            })
            .collect();
        let left = TextBox::of(text).start();
        let (sin, cos) = text.angle.to_radians().sin_cos();
        // Turned to the base line, and y down again, as fonts are drawn.
        let (sin, cos) = (sin as f32, cos as f32);
        self.surface.push_transform(&Transform::from_row(cos, sin, sin, -cos, left.x as f32, left.y as f32));
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(Fill::default()));
        let size = (text.height / font::CAP_HEIGHT) as f32;
        self.surface.draw_glyphs(Point::from_xy(0.0, 0.0), &glyphs, embedded, &content, size, false);
        self.surface.pop();
    }
}
