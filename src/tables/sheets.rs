//! Drawing sheets: ISO A4–A0 and US A–E (and F), with drawing space, filing margin and grid.
//!
//! In: a name such as `"A2"` or `"ANSI D"`. Out: mm on paper. ISO A0–A3 lie, A4 stands; US A–F lie.
//! Extra long ISO formats and roll sizes are not in the table.

use crate::sources::Source;
use crate::units::MM_PER_INCH;

/// Trimmed ISO sizes were read; drawing space, untrimmed size and grid are from memory.
pub const SOURCE: Source = Source::standard("ISO 5457:1999+A1:2010");
/// ISO margins, frame and grid.
pub const ISO_FRAME: Source = Source::standard("ISO 5457:1999+A1:2010, frame and grid reference").from_memory();
/// US sheets.
pub const US: Source = Source::standard("ASME Y14.1").from_memory();

/// Which family a sheet belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// ISO 5457.
    Iso,
    /// ASME Y14.1.
    Us,
}

/// One sheet as it lies on the board, mm on paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// Name in a spec and in the title block.
    pub name: &'static str,
    /// The family.
    pub family: Family,
    /// Trimmed width.
    pub width_mm: f64,
    /// Trimmed height.
    pub height_mm: f64,
    /// Margins left, right, top, bottom between trimmed edge and frame.
    pub margins_mm: [f64; 4],
    /// Untrimmed width and height, where the standard gives them.
    pub untrimmed_mm: Option<(f64, f64)>,
    /// Grid fields across and down; `None` where no grid is usual.
    pub fields: Option<(u8, u8)>,
}

impl Sheet {
    /// Width and height of the drawing space inside the frame, mm.
    pub fn drawing_space_mm(&self) -> (f64, f64) {
        let [left, right, top, bottom] = self.margins_mm;
        (self.width_mm - left - right, self.height_mm - top - bottom)
    }
    /// The next larger sheet of the same family.
    pub fn next_larger(&self) -> Option<&'static Sheet> {
        ALL.iter()
            .filter(|s| s.family == self.family && s.width_mm * s.height_mm > self.width_mm * self.height_mm + 1.0)
            .min_by(|a, b| (a.width_mm * a.height_mm).total_cmp(&(b.width_mm * b.height_mm)))
    }
}

/// Finds a sheet by name; case and blanks do not matter. US sheets are written `ANSI A` … `ANSI F`.
pub fn find(name: &str) -> Option<&'static Sheet> {
    let squeeze = |t: &str| -> String { t.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect() };
    let wanted = squeeze(name);
    ALL.iter().find(|s| squeeze(s.name) == wanted)
}

/// Left filing margin and the other margins of ISO 5457, mm.
pub const ISO_MARGINS_MM: [f64; 4] = [20.0, 10.0, 10.0, 10.0];
/// Length of a grid field, measured from the sheet's axes, mm.
pub const ISO_FIELD_MM: f64 = 50.0;
/// Width of the grid border outside the frame, mm.
pub const ISO_GRID_BORDER_MM: f64 = 5.0;
/// Widest title block, mm.
pub const ISO_TITLE_BLOCK_WIDTH_MM: f64 = 180.0;
/// Letters that name grid fields from the top down; I and O are left out.
pub const GRID_LETTERS: &str = "ABCDEFGHJKLMNPQRSTUVWXYZ";

const fn iso(name: &'static str, w: f64, h: f64, untrimmed: (f64, f64), fields: (u8, u8)) -> Sheet {
    Sheet { name, family: Family::Iso, width_mm: w, height_mm: h, margins_mm: ISO_MARGINS_MM, untrimmed_mm: Some(untrimmed), fields: Some(fields) }
}

/// Inch sizes; `side` margin left and right, `end` margin top and bottom.
const fn us(name: &'static str, w: f64, h: f64, side: f64, end: f64, fields: Option<(u8, u8)>) -> Sheet {
    Sheet {
        name,
        family: Family::Us,
        width_mm: w * MM_PER_INCH,
        height_mm: h * MM_PER_INCH,
        margins_mm: [side * MM_PER_INCH, side * MM_PER_INCH, end * MM_PER_INCH, end * MM_PER_INCH],
        untrimmed_mm: None,
        fields,
    }
}

/// All sheets, each family from small to large.
pub const ALL: &[Sheet] = &[
    iso("A4", 210.0, 297.0, (240.0, 330.0), (4, 6)),
    iso("A3", 420.0, 297.0, (450.0, 330.0), (8, 6)),
    iso("A2", 594.0, 420.0, (625.0, 450.0), (12, 8)),
    iso("A1", 841.0, 594.0, (880.0, 625.0), (16, 12)),
    iso("A0", 1189.0, 841.0, (1230.0, 880.0), (24, 16)),
    us("ANSI A", 11.0, 8.5, 0.38, 0.25, None),
    us("ANSI B", 17.0, 11.0, 0.62, 0.38, None),
    us("ANSI C", 22.0, 17.0, 0.50, 0.75, Some((4, 4))),
    us("ANSI D", 34.0, 22.0, 1.00, 0.50, Some((8, 4))),
    us("ANSI F", 40.0, 28.0, 0.50, 0.50, Some((8, 4))),
    us("ANSI E", 44.0, 34.0, 0.50, 1.00, Some((8, 8))),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 5457: trimmed and drawing space, and the identity drawing space = trimmed − (30 × 20).
    #[test]
    fn iso_5457() {
        for (name, trimmed, space) in [
            ("A0", (1189.0, 841.0), (1159.0, 821.0)),
            ("A1", (841.0, 594.0), (811.0, 574.0)),
            ("A2", (594.0, 420.0), (564.0, 400.0)),
            ("A3", (420.0, 297.0), (390.0, 277.0)),
            ("A4", (210.0, 297.0), (180.0, 277.0)),
        ] {
            let s = find(name).unwrap();
            assert_eq!((s.width_mm, s.height_mm), trimmed);
            assert_eq!(s.drawing_space_mm(), space);
            let (w, h) = s.untrimmed_mm.unwrap();
            assert!(w > s.width_mm + 25.0 && h > s.height_mm + 25.0);
            let (across, down) = s.fields.unwrap();
            assert!((f64::from(across) * ISO_FIELD_MM - s.width_mm).abs() <= 50.0, "{name}");
            assert!((f64::from(down) * ISO_FIELD_MM - s.height_mm).abs() <= 50.0, "{name}");
            assert!(usize::from(down) <= GRID_LETTERS.len());
        }
    }

    /// ASME Y14.1 flat sizes in inches.
    #[test]
    fn asme_y14_1() {
        for (name, w, h) in [("ANSI A", 11.0, 8.5), ("ansi b", 17.0, 11.0), ("ANSI C", 22.0, 17.0), ("ANSI D", 34.0, 22.0), ("ANSI E", 44.0, 34.0)] {
            let s = find(name).unwrap();
            assert!((s.width_mm - w * 25.4).abs() < 1e-9 && (s.height_mm - h * 25.4).abs() < 1e-9);
        }
    }

    #[test]
    fn larger_sheets() {
        assert_eq!(find("a3").unwrap().next_larger().unwrap().name, "A2");
        assert!(find("A0").unwrap().next_larger().is_none());
        assert_eq!(find("ANSI D").unwrap().next_larger().unwrap().name, "ANSI F");
        assert!(find("A5").is_none() && find("ANSI G").is_none());
    }
}
