//! Drawing sheets: ISO A4–A0 and US A–E, with margins and grid.
//!
//! Out: mm on paper. The smallest sheet of each family stands, the others lie. Extra long ISO formats, the US
//! size F (no doubling of another) and roll sizes are not in the table.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Trimmed ISO sizes.
pub const SOURCE: Source = Source::standard("ISO 5457:1999+A1:2010");
/// ISO margins, frame and grid.
pub const ISO_FRAME: Source = Source::standard("ISO 5457:1999+A1:2010").remark("frame and grid reference").from_memory();
/// US sheets.
pub const US: Source = Source::standard("ASME Y14.1").from_memory();

/// Family of sheets, frames and scales.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standard {
    /// ISO 5457 sheets, ISO 5455 scales.
    Iso,
    /// ASME Y14.1 sheets, usual US scales.
    Ansi,
}

/// A trimmed sheet with its margins, mm on paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Format {
    /// Name, e.g. `A3` or `ANSI D`.
    pub name: &'static str,
    /// The family.
    pub standard: Standard,
    /// Trimmed width, mm.
    pub width: f64,
    /// Trimmed height, mm.
    pub height: f64,
    /// Between trimmed edge and frame, mm.
    pub margins: Margins,
    /// Grid fields across and up; `None` where no grid is usual.
    pub fields: Option<(usize, usize)>,
}

/// Distances between trimmed edge and frame, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margins {
    /// At the left, where sheets are filed.
    pub left: f64,
    /// At the right.
    pub right: f64,
    /// Above and below.
    pub ends: f64,
}

impl Format {
    /// The sheet of this name (`A3`, `ANSI D`, `D`), or `None`.
    pub fn named(name: &str) -> Option<Format> {
        ISO.iter().chain(ANSI).find(|f| f.name == name || f.short_name() == name).copied()
    }

    /// The name within its family: `D` for `ANSI D`.
    pub fn short_name(&self) -> &'static str {
        self.name.strip_prefix("ANSI ").unwrap_or(self.name)
    }

    /// The sheets of a family, smallest first.
    pub const fn family(standard: Standard) -> &'static [Format] {
        match standard {
            Standard::Iso => ISO,
            Standard::Ansi => ANSI,
        }
    }
}

/// Length of an ISO grid field, measured from the sheet's axes, mm.
pub const ISO_FIELD: f64 = 50.0;
/// Width of the grid border outside the frame, mm.
pub const GRID_BORDER: f64 = 5.0;
/// Widest title block of an ISO sheet, mm. Source: [`ISO_FRAME`].
pub const TITLE_BLOCK_WIDTH: f64 = 180.0;
/// Letters that name grid fields; I and O are left out.
pub const GRID_LETTERS: &str = "ABCDEFGHJKLMNPQRSTUVWXYZ";

const fn iso(name: &'static str, width: f64, height: f64, fields: (usize, usize)) -> Format {
    Format { name, standard: Standard::Iso, width, height, margins: Margins { left: 20.0, right: 10.0, ends: 10.0 }, fields: Some(fields) }
}

/// Sizes in inches; `side` margin left and right, `end` margin top and bottom.
const fn ansi(name: &'static str, width: f64, height: f64, side: f64, end: f64, fields: Option<(usize, usize)>) -> Format {
    let margins = Margins { left: side * MM_PER_INCH, right: side * MM_PER_INCH, ends: end * MM_PER_INCH };
    Format { name, standard: Standard::Ansi, width: width * MM_PER_INCH, height: height * MM_PER_INCH, margins, fields }
}

const ISO: &[Format] = &[
    iso("A4", 210.0, 297.0, (4, 6)),
    iso("A3", 420.0, 297.0, (8, 6)),
    iso("A2", 594.0, 420.0, (12, 8)),
    iso("A1", 841.0, 594.0, (16, 12)),
    iso("A0", 1189.0, 841.0, (24, 16)),
];

const ANSI: &[Format] = &[
    ansi("ANSI A", 8.5, 11.0, 0.38, 0.25, None),
    ansi("ANSI B", 17.0, 11.0, 0.62, 0.38, Some((2, 2))),
    ansi("ANSI C", 22.0, 17.0, 0.50, 0.75, Some((4, 4))),
    ansi("ANSI D", 34.0, 22.0, 1.00, 0.50, Some((8, 4))),
    ansi("ANSI E", 44.0, 34.0, 0.50, 1.00, Some((8, 8))),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 5457: trimmed size and the identity drawing space = trimmed − 30 × 20; fields as many as 50 mm go into the sheet.
    #[test]
    fn iso_5457() {
        for (name, trimmed, space) in [
            ("A0", (1189.0, 841.0), (1159.0, 821.0)),
            ("A1", (841.0, 594.0), (811.0, 574.0)),
            ("A2", (594.0, 420.0), (564.0, 400.0)),
            ("A3", (420.0, 297.0), (390.0, 277.0)),
            ("A4", (210.0, 297.0), (180.0, 277.0)),
        ] {
            let f = Format::named(name).unwrap();
            assert_eq!((f.width, f.height), trimmed);
            assert_eq!((f.width - f.margins.left - f.margins.right, f.height - 2.0 * f.margins.ends), space);
            let (across, up) = f.fields.unwrap();
            assert!((across as f64 * ISO_FIELD - f.width).abs() <= 50.0 && (up as f64 * ISO_FIELD - f.height).abs() <= 50.0, "{name}");
            assert!(up <= GRID_LETTERS.len());
        }
    }

    /// ASME Y14.1: flat sizes in inches; each sheet is twice the one before, and its drawing space is the usual one in inches.
    #[test]
    fn asme_y14_1() {
        for (name, (w, h), space) in [
            ("A", (8.5, 11.0), (7.74, 10.5)),
            ("B", (17.0, 11.0), (15.76, 10.24)),
            ("C", (22.0, 17.0), (21.0, 15.5)),
            ("D", (34.0, 22.0), (32.0, 21.0)),
            ("E", (44.0, 34.0), (43.0, 32.0)),
        ] {
            let f = Format::named(name).unwrap();
            let inches = |mm: f64| (mm / MM_PER_INCH * 1e6).round() / 1e6;
            assert_eq!((inches(f.width), inches(f.height)), (w, h));
            assert_eq!((inches(f.width - f.margins.left - f.margins.right), inches(f.height - 2.0 * f.margins.ends)), space, "{name}");
            assert_eq!(Format::named(&format!("ANSI {name}")), Some(f));
        }
        assert!(ANSI.windows(2).all(|w| (w[1].width * w[1].height / (w[0].width * w[0].height) - 2.0).abs() < 1e-9));
    }

    #[test]
    fn families_grow_and_no_other_name_is_known() {
        for standard in [Standard::Iso, Standard::Ansi] {
            let family = Format::family(standard);
            assert!(family.windows(2).all(|w| w[0].width * w[0].height < w[1].width * w[1].height));
            assert!(family.iter().all(|f| f.standard == standard));
        }
        assert!(Format::named("A5").is_none() && Format::named("F").is_none());
    }
}
