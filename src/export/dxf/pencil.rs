//! Writes marks as entities of one drawing, each counted by its kind.

use super::text;
use super::writer::{Anchor, DimensionSizes, Drawing, Place, TextLine, WriteError, Xy};
use crate::export::Page;
use crate::export::layers::LayerMap;
use crate::geometry::Edge;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Align, Hatch, Mark, PaperPoint, Shape, Text};
use crate::paper::style::{Face, Pattern, Pen};
use std::collections::BTreeMap;

/// Name of the text style of a face.
pub(super) const fn text_style(face: Face) -> &'static str {
    match face {
        Face::Regular => "FW",
        Face::Bold => "FW_BOLD",
    }
}

/// Draws marks into one drawing.
pub(super) struct Pencil<'a> {
    pub(super) page: Page<'a>,
    pub(super) layers: &'a LayerMap,
    pub(super) drawing: Drawing,
    pub(super) written: BTreeMap<&'static str, usize>,
    pub(super) sizes: DimensionSizes,
    pub(super) dimensions: usize,
}

impl Pencil<'_> {
    /// Paper to drawing units.
    pub(super) fn at(&self, p: PaperPoint) -> Xy {
        let k = self.page.units_per_mm();
        (p.x * k, p.y * k)
    }

    pub(super) fn long(&self, mm: f64) -> f64 {
        mm * self.page.units_per_mm()
    }

    pub(super) fn count(&mut self, kind: &'static str) {
        *self.written.entry(kind).or_default() += 1;
    }

    pub(super) fn mark(&mut self, place: Place, mark: &Mark) -> Result<(), WriteError> {
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
