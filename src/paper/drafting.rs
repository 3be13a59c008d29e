//! How a set of sheets is drawn: units, decimal sign, projection, sheet family, language.
//!
//! A [`SheetStyle`] is chosen once per set, from the spec. Lettering heights and line widths follow
//! from the sheet size in one table. Nothing here places anything on paper.

use super::style::LineGroup;
use crate::say::Figures;
use crate::tables::sheets::Format;
pub use crate::tables::sheets::Standard;
use std::ops::Deref;

/// How orthographic views stand to each other (ISO 5456-2, from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Projection {
    /// The view from above stands below, the view from the left stands at the right.
    First,
    /// The view from above stands above, the view from the left stands at the left.
    Third,
}

/// Everything that is decided once for a set of sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetStyle {
    /// Units and decimal sign.
    pub figures: Figures,
    /// First or third angle.
    pub projection: Projection,
    /// Family of sheets and scales.
    pub standard: Standard,
    /// A fixed sheet size; `None` takes the smallest that shows everything at a fair scale.
    pub size: Option<Format>,
    /// Language of fixed words: `en`, `de`, or any other table in `templates/words.*.toml`.
    pub language: String,
}

impl Deref for SheetStyle {
    type Target = Figures;
    fn deref(&self) -> &Figures {
        &self.figures
    }
}

impl Default for SheetStyle {
    fn default() -> Self {
        Self { figures: Figures::default(), projection: Projection::First, standard: Standard::Iso, size: None, language: "en".into() }
    }
}

impl SheetStyle {
    /// Third angle, fractional inches, ANSI sheets.
    pub fn us() -> Self {
        Self { figures: Figures::us(), projection: Projection::Third, standard: Standard::Ansi, ..Self::default() }
    }
}

/// Lettering heights (height of capitals) in paper mm, after ISO 3098 (from memory): 2.5 mm on A3 and A4,
/// 3.5 mm on larger sheets, 5 mm for view titles, 7 mm for the drawing number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// Dimensions, notes, tables, mm.
    pub text: f64,
    /// Titles of tables and the sheet title, mm.
    pub heading: f64,
    /// View titles and section letters, mm.
    pub view_title: f64,
    /// Drawing number, mm.
    pub number: f64,
    /// Captions of the title block's fields, mm.
    pub caption: f64,
    /// Wide and narrow line of the sheet.
    pub lines: LineGroup,
}

impl Lettering {
    /// Heights and line widths for a sheet of this size.
    pub fn for_format(format: &Format) -> Self {
        let long = format.width.max(format.height);
        let small = long < 450.0;
        Self {
            text: if small { 2.5 } else { 3.5 },
            heading: 3.5,
            view_title: 5.0,
            number: if small { 5.0 } else { 7.0 },
            caption: 1.8,
            lines: if long < 700.0 { LineGroup::G05 } else { LineGroup::G07 },
        }
    }
}
