//! What must be true of pages before any format writes them.
//!
//! In: the pages of a set. Out: nothing, or the first thing that no format could draw truthfully:
//! a number that is not finite or beyond any sheet, a shape without extent, an open hatch loop,
//! a dimension whose anchors do not measure its value, two sheets with one file name.
//! It does not judge the layout.

use super::{ExportError, Page};
use crate::paper::font;
use crate::paper::mark::{Dimension, Mark, Measure, PaperPoint, Shape, Text};
use crate::paper::style::Pattern;
use std::collections::BTreeSet;
use std::f64::consts::TAU;

/// Farthest a mark may lie from the sheet's origin, paper mm: 100 m, far beyond any sheet, near enough for every format's numbers.
pub const FARTHEST: f64 = 1e5;

/// Smallest distance of hatch lines, paper mm; closer ones would print as solid.
const CLOSEST_HATCH: f64 = 0.2;

/// How far a dimension's anchors may be from its value, mm or degrees: below what any sheet prints.
const TRUE_WITHIN: f64 = 0.005;

/// Checks a set of pages.
///
/// # Errors
/// The first defect found, with sheet and place.
pub fn check(pages: &[Page]) -> Result<(), ExportError> {
    let mut stems = BTreeSet::new();
    for page in pages {
        let refuse = |why: String| ExportError::Refused { sheet: page.stem.into(), why };
        let named =
            !page.stem.is_empty() && !page.stem.starts_with(['.', '-']) && page.stem.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '.' | '_' | '-'));
        if !named {
            return Err(refuse("its file name needs letters, digits, dot, underscore or dash".into()));
        }
        if !stems.insert(page.stem.to_ascii_lowercase()) {
            return Err(refuse("two sheets have this file name".into()));
        }
        for (what, size) in [("width", page.width_mm), ("height", page.height_mm)] {
            if !(size.is_finite() && (1.0..=FARTHEST).contains(&size)) {
                return Err(ExportError::Number { sheet: page.stem.into(), what: format!("the sheet's {what}"), value: size });
            }
        }
        if !(page.real_per_paper.is_finite() && page.real_per_paper > 0.0 && page.real_per_paper <= 1e6) {
            return Err(ExportError::Number { sheet: page.stem.into(), what: "the scale".into(), value: page.real_per_paper });
        }
        for (what, line) in [("title", page.title), ("description", page.description)] {
            if line.chars().any(char::is_control) {
                return Err(refuse(format!("its {what} holds a control character or line break")));
            }
        }
        Inspection { sheet: page.stem }.marks(page.marks)?;
    }
    Ok(())
}

/// Checks marks that a user brings; they stand on no sheet yet.
///
/// # Errors
/// The first that no sheet could hold.
pub fn fit(marks: &[Mark]) -> Result<(), String> {
    Inspection { sheet: "" }.marks(marks).map_err(|why| match why {
        ExportError::Number { what, value, .. } => format!("{what} is {value}, which no sheet can hold"),
        ExportError::Refused { why, .. } => why,
        why => why.to_string(),
    })
}

struct Inspection<'a> {
    sheet: &'a str,
}

impl Inspection<'_> {
    fn refuse(&self, why: impl Into<String>) -> ExportError {
        ExportError::Refused { sheet: self.sheet.into(), why: why.into() }
    }

    fn number(&self, what: &str, value: f64, range: std::ops::RangeInclusive<f64>) -> Result<(), ExportError> {
        if value.is_finite() && range.contains(&value) { Ok(()) } else { Err(ExportError::Number { sheet: self.sheet.into(), what: what.into(), value }) }
    }

    fn point(&self, what: &str, p: PaperPoint) -> Result<(), ExportError> {
        self.number(&format!("x of {what}"), p.x, -FARTHEST..=FARTHEST)?;
        self.number(&format!("y of {what}"), p.y, -FARTHEST..=FARTHEST)
    }

    fn marks(&self, marks: &[Mark]) -> Result<(), ExportError> {
        for mark in marks {
            match mark {
                Mark::Path(path) => self.shape("a stroke", &path.shape)?,
                Mark::Text(text) => self.text(text)?,
                Mark::Hatch(hatch) => {
                    if hatch.loops.is_empty() {
                        return Err(self.refuse("a hatch has no outline"));
                    }
                    for outline in &hatch.loops {
                        if !outline.is_loop() {
                            return Err(self.refuse("the outline of a hatch is not closed"));
                        }
                        self.shape("a hatch", outline)?;
                    }
                    if let Pattern::Lines { angle, spacing } = hatch.pattern {
                        self.number("the angle of a hatch", angle, -360.0..=360.0)?;
                        self.number("the distance of hatch lines", spacing, CLOSEST_HATCH..=FARTHEST)?;
                    }
                }
                Mark::Dimension(dimension) => self.dimension(dimension)?,
                Mark::Group(group) => self.marks(&group.marks)?,
            }
        }
        Ok(())
    }

    fn shape(&self, what: &str, shape: &Shape<PaperPoint>) -> Result<(), ExportError> {
        match shape {
            Shape::Line { from, to } => {
                self.point(what, *from)?;
                self.point(what, *to)
            }
            Shape::Circle { centre, radius } => {
                self.point(what, *centre)?;
                self.number(&format!("the radius of {what}"), *radius, 1e-4..=FARTHEST)
            }
            Shape::Arc { centre, radius, start, sweep } => {
                self.point(what, *centre)?;
                self.number(&format!("the radius of {what}"), *radius, 1e-4..=FARTHEST)?;
                self.number(&format!("the start of {what}"), *start, -100.0..=100.0)?;
                self.number(&format!("the sweep of {what}"), sweep.abs(), 1e-9..=TAU + 1e-9)
            }
            Shape::Polyline { vertices, closed } => {
                let bulged = vertices.iter().any(|v| v.bulge != 0.0);
                if vertices.len() < if *closed && !bulged { 3 } else { 2 } {
                    return Err(self.refuse(format!("{what} has only {} corners", vertices.len())));
                }
                for v in vertices {
                    self.point(what, v.at)?;
                    self.number(&format!("the bulge of {what}"), v.bulge, -1e3..=1e3)?;
                }
                Ok(())
            }
        }
    }

    fn text(&self, text: &Text) -> Result<(), ExportError> {
        let what = format!("text {:?}", text.content);
        self.point(&what, text.at)?;
        self.number(&format!("the height of {what}"), text.height, 0.1..=1000.0)?;
        self.number(&format!("the angle of {what}"), text.angle, -360.0..=360.0)?;
        if text.content.chars().any(char::is_control) {
            return Err(self.refuse(format!("{what} holds a control character or line break")));
        }
        if let Some((at, _)) = text.content.char_indices().find(|(_, c)| font::glyph(*c, text.face).index.is_none()) {
            return Err(self.refuse(format!("{what}: the font lacks its character at byte {at}")));
        }
        Ok(())
    }

    fn dimension(&self, d: &Dimension) -> Result<(), ExportError> {
        let what = format!("dimension {}", d.key);
        for p in anchors(&d.measure) {
            self.point(&what, p)?;
        }
        self.number(&format!("the value of {what}"), d.value, -1e12..=1e12)?;
        self.number(&format!("the scale of {what}"), d.real_per_paper, 1e-6..=1e6)?;
        let mut nested = false;
        let mut lettered = false;
        for stroke in &d.strokes {
            stroke.walk(&mut |m| {
                nested |= matches!(m, Mark::Dimension(_));
                lettered |= matches!(m, Mark::Text(t) if !t.content.trim().is_empty());
            });
        }
        if nested {
            return Err(self.refuse(format!("{what} holds another dimension")));
        }
        if !lettered {
            return Err(self.refuse(format!("{what} shows no text")));
        }
        self.marks(&d.strokes)?;
        let measured = measured(d);
        if (measured - d.value.abs()).abs() > TRUE_WITHIN + 1e-6 * d.value.abs() {
            return Err(ExportError::Untrue { sheet: self.sheet.into(), key: d.key.clone(), measured, value: d.value });
        }
        Ok(())
    }
}

fn anchors(measure: &Measure) -> Vec<PaperPoint> {
    match *measure {
        Measure::Linear { first, second, line, .. } => vec![first, second, line],
        Measure::Diameter { near, far } => vec![near, far],
        Measure::Radius { centre, on } => vec![centre, on],
        Measure::Angle { corner, first, second, arc } => vec![corner, first, second, arc],
    }
}

/// What the anchors of a dimension measure on paper: mm, or degrees for an angle.
pub fn on_paper(measure: &Measure) -> f64 {
    match *measure {
        Measure::Linear { first, second, angle, .. } => {
            let (sin, cos) = angle.to_radians().sin_cos();
            ((second.x - first.x) * cos + (second.y - first.y) * sin).abs()
        }
        Measure::Diameter { near, far } => (far.x - near.x).hypot(far.y - near.y),
        Measure::Radius { centre, on } => (on.x - centre.x).hypot(on.y - centre.y),
        Measure::Angle { corner, first, second, .. } => {
            let direction = |p: PaperPoint| (p.y - corner.y).atan2(p.x - corner.x);
            (direction(second) - direction(first)).rem_euclid(TAU).to_degrees()
        }
    }
}

/// What a dimension measures in the real thing: mm, or degrees for an angle.
pub fn measured(d: &Dimension) -> f64 {
    match d.measure {
        Measure::Angle { .. } => on_paper(&d.measure),
        _ => on_paper(&d.measure) * d.real_per_paper,
    }
}
