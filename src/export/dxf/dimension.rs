//! Real dimensions: entity, style and the block with its finished strokes.
//!
//! In: a dimension mark. Out: a DIMENSION that measures its anchors and a `*D` block with exactly the
//! mark's strokes. The style is written three times (header, style table, block), because readers
//! differ in where they look. A view in another scale than the sheet gets a style of its own whose
//! factor undoes the scale; its number is written as text too, because readers ignore factors.

use super::pencil::{Pencil, text_style};
use super::text;
use super::writer::{DimensionEntity, DimensionSizes, Measured, Place, WriteError};
use crate::export::{Page, SheetUnit};
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Dimension, Mark, Measure, Text};
use crate::paper::style::{Face, Pen};
use crate::units::plain_number;

/// Name of the main dimension style.
const STYLE: &str = "FW";

/// Decimals that a reader shows when it writes the number itself, trailing zeros dropped.
const DECIMALS: i16 = 2;

/// Sizes of the dimension style, paper mm. Text height is that of the first dimension on the sheet,
/// else 2.5 (ISO 3098); extension gap 1, overshoot 2, steps of 7 are the sheets' rules (ISO 129-1, from memory).
pub(super) fn sizes(page: &Page) -> DimensionSizes {
    let mut text = None;
    for mark in page.marks {
        mark.walk(&mut |m| {
            if let (None, Mark::Dimension(d)) = (text, m) {
                text = lettered(d).map(|t| t.height);
            }
        });
    }
    DimensionSizes { scale: page.units_per_mm(), text: text.unwrap_or(2.5), arrow: 2.5, offset: 1.0, overshoot: 2.0, gap: 0.8, step: 7.0, decimals: DECIMALS }
}

/// The first text among the strokes of a dimension.
fn lettered(d: &Dimension) -> Option<&Text> {
    let mut found = None;
    for stroke in &d.strokes {
        stroke.walk(&mut |m| {
            if let (None, Mark::Text(t)) = (found, m)
                && !t.content.trim().is_empty()
            {
                found = Some(t);
            }
        });
    }
    found
}

impl Pencil<'_> {
    pub(super) fn main_dimension_style(&mut self) -> Result<(), WriteError> {
        self.drawing.dimension_style(STYLE, text_style(Face::Regular), self.sizes, 1.0)?;
        self.drawing.current_dimension_style(STYLE)
    }

    pub(super) fn dimension(&mut self, d: &Dimension) -> Result<(), WriteError> {
        self.dimensions += 1;
        let block = self.drawing.block(&format!("*D{}", self.dimensions))?;
        for stroke in &d.strokes {
            self.mark(Place::Block(block), stroke)?;
        }
        let (style, factor) = self.style_for(d)?;
        let measured = match d.measure {
            Measure::Linear { first, second, line, angle } => {
                Measured::Linear { first: self.at(first), second: self.at(second), line: self.at(line), angle: angle.to_radians() }
            }
            Measure::Diameter { near, far } => Measured::Diameter { near: self.at(near), far: self.at(far) },
            Measure::Radius { centre, on } => Measured::Radius { centre: self.at(centre), on: self.at(on) },
            Measure::Angle { corner, first, second, arc } => {
                Measured::Angle { corner: self.at(corner), first: self.at(first), second: self.at(second), arc: self.at(arc) }
            }
        };
        let plain = matches!(d.measure, Measure::Linear { .. })
            && self.page.unit == SheetUnit::Millimetre
            && factor == 1.0
            && d.text == plain_number(d.value, DECIMALS as usize);
        let written = text::dimension(&d.text);
        let text_middle = lettered(d).map(|t| self.at(TextBox::of(t).centre));
        let entity = DimensionEntity {
            measured,
            text: (!plain).then_some(written.as_str()),
            text_middle: text_middle.unwrap_or_default(),
            style: &style,
            value: match d.measure {
                Measure::Angle { .. } => d.value.to_radians(),
                _ => d.value / self.page.unit.mm(),
            },
            block,
        };
        let layer = self.layers.row(Pen::Dimension).layer;
        self.count("DIMENSION");
        self.drawing.dimension(&layer, &entity)
    }

    /// The style whose factor brings the measured distance to the real one.
    fn style_for(&mut self, d: &Dimension) -> Result<(String, f64), WriteError> {
        let factor = d.real_per_paper / self.page.real_per_paper;
        if matches!(d.measure, Measure::Angle { .. }) || (factor - 1.0).abs() < 1e-9 {
            return Ok((STYLE.into(), 1.0));
        }
        // Named after the scale of its view; a dot is not liked in names.
        let name = format!("{STYLE}_SCALE_{}", plain_number(d.real_per_paper, 6).replace('.', "_"));
        self.drawing.dimension_style(&name, text_style(Face::Regular), self.sizes, factor)?;
        Ok((name, factor))
    }
}
