//! Sheet sizes and frames: ISO 5457 A4–A0, ASME Y14.1 A–E.
//!
//! Sizes: ISO 5457:1999 trimmed sizes read; borders (20 mm filing margin, 10 mm elsewhere), grid of 50 mm
//! fields from the axes, centring marks: from memory. ASME Y14.1 sizes and zones: from memory.

use super::drafting::Standard;
use super::mark::{Align, Group, Mark, PaperPoint};
use super::pencil;
use super::stroke::Rect;
use super::style::Pen;

/// A trimmed sheet with its borders, paper mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Format {
    /// Name, e.g. `A3` or `ANSI D`.
    pub name: &'static str,
    /// Trimmed width, mm.
    pub width: f64,
    /// Trimmed height, mm.
    pub height: f64,
    /// Filing margin at the left, mm.
    pub left: f64,
    /// Margin at the other three sides, mm.
    pub margin: f64,
    /// Number of zones along width and height (ANSI); ISO fields follow from the axes.
    pub zones: Option<(usize, usize)>,
}

/// Width of the grid border, mm.
const BORDER: f64 = 5.0;
/// Width of a grid field, mm.
const FIELD: f64 = 50.0;
/// Height of the grid's letters and numbers, mm.
const GRID_TEXT: f64 = 2.5;

impl Format {
    const fn iso(name: &'static str, width: f64, height: f64) -> Self {
        Self { name, width, height, left: 20.0, margin: 10.0, zones: None }
    }
    const fn ansi(name: &'static str, width: f64, height: f64, margin: f64, zones: (usize, usize)) -> Self {
        Self { name, width: width * 25.4, height: height * 25.4, left: margin * 25.4, margin: margin * 25.4, zones: Some(zones) }
    }

    /// ISO sheets, smallest first; A4 upright, the others landscape.
    pub const ISO: [Format; 5] = [
        Self::iso("A4", 210.0, 297.0),
        Self::iso("A3", 420.0, 297.0),
        Self::iso("A2", 594.0, 420.0),
        Self::iso("A1", 841.0, 594.0),
        Self::iso("A0", 1189.0, 841.0),
    ];

    /// ANSI sheets, smallest first; A upright, the others landscape. Margins 0.5 in, from memory.
    pub const ANSI: [Format; 5] = [
        Self::ansi("ANSI A", 8.5, 11.0, 0.5, (2, 2)),
        Self::ansi("ANSI B", 17.0, 11.0, 0.5, (4, 2)),
        Self::ansi("ANSI C", 22.0, 17.0, 0.5, (4, 4)),
        Self::ansi("ANSI D", 34.0, 22.0, 0.5, (8, 4)),
        Self::ansi("ANSI E", 44.0, 34.0, 0.5, (8, 8)),
    ];

    /// The sheet of this name (`A3`, `ANSI D`, `D`), or `None`.
    pub fn named(name: &str) -> Option<Format> {
        Self::ISO.iter().chain(&Self::ANSI).find(|f| f.name == name || f.name.strip_prefix("ANSI ").is_some_and(|n| n == name)).copied()
    }

    /// The sheets of a family, smallest first.
    pub const fn family(standard: Standard) -> &'static [Format; 5] {
        match standard {
            Standard::Iso => &Self::ISO,
            Standard::Ansi => &Self::ANSI,
        }
    }

    /// The drawing space inside the frame.
    pub fn space(&self) -> Rect {
        Rect::new(self.left, self.margin, self.width - self.margin, self.height - self.margin)
    }
}

/// Field borders along one axis: every 50 mm from the axis of the sheet, or equal zones.
fn ticks(low: f64, high: f64, axis: f64, zones: Option<usize>) -> Vec<f64> {
    match zones {
        Some(n) => (0..=n).map(|i| low + (high - low) * i as f64 / n as f64).collect(),
        None => {
            let first = axis - ((axis - low) / FIELD).floor() * FIELD;
            let mut out = vec![low];
            // Slivers at the frame join their neighbour.
            let sliver = 15.0;
            let mut at = if first - low < sliver { first + FIELD } else { first };
            while at < high - sliver {
                out.push(at);
                at += FIELD;
            }
            out.push(high);
            out
        }
    }
}

/// Letters without I and O.
fn letter(i: usize) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
    let one = |k: usize| char::from(LETTERS.get(k % LETTERS.len()).copied().unwrap_or(b'A'));
    if i < LETTERS.len() { one(i).to_string() } else { format!("{}{}", one(i / LETTERS.len() - 1), one(i)) }
}

/// Frame line, grid, centring marks.
pub fn draw(format: &Format) -> Mark {
    let s = format.space();
    let p = PaperPoint::new;
    let mut marks =
        vec![pencil::rectangle(Pen::Frame, s.x0, s.y0, s.x1, s.y1), pencil::rectangle(Pen::Table, s.x0 - BORDER, s.y0 - BORDER, s.x1 + BORDER, s.y1 + BORDER)];
    let (ax, ay) = (format.width / 2.0, format.height / 2.0);
    let (ax, ay) = if format.zones.is_some() { (s.centre().x, s.centre().y) } else { (ax, ay) };
    let columns = ticks(s.x0, s.x1, ax, format.zones.map(|z| z.0));
    let rows = ticks(s.y0, s.y1, ay, format.zones.map(|z| z.1));
    for x in columns.iter().skip(1).take(columns.len().saturating_sub(2)) {
        for (a, b) in [(s.y0 - BORDER, s.y0), (s.y1, s.y1 + BORDER)] {
            marks.push(pencil::line(Pen::Table, p(*x, a), p(*x, b)));
        }
    }
    for y in rows.iter().skip(1).take(rows.len().saturating_sub(2)) {
        for (a, b) in [(s.x0 - BORDER, s.x0), (s.x1, s.x1 + BORDER)] {
            marks.push(pencil::line(Pen::Table, p(a, *y), p(b, *y)));
        }
    }
    let drop = (BORDER - GRID_TEXT) / 2.0;
    let (n, m) = (columns.len() - 1, rows.len() - 1);
    for (i, (a, b)) in columns.iter().zip(columns.iter().skip(1)).enumerate() {
        // ISO counts from the left, ASME from the right.
        let name = if format.zones.is_some() { n - i } else { i + 1 }.to_string();
        for y in [s.y0 - BORDER + drop, s.y1 + drop] {
            marks.push(pencil::text(Pen::Frame, name.clone(), p((a + b) / 2.0, y), GRID_TEXT, Align::Centre));
        }
    }
    for (j, (a, b)) in rows.iter().zip(rows.iter().skip(1)).enumerate() {
        // ISO letters run down, ASME letters run up.
        let name = letter(if format.zones.is_some() { j } else { m - 1 - j });
        for x in [s.x0 - BORDER / 2.0, s.x1 + BORDER / 2.0] {
            marks.push(pencil::text(Pen::Frame, name.clone(), p(x, (a + b) / 2.0 - GRID_TEXT / 2.0), GRID_TEXT, Align::Centre));
        }
    }
    let reach = format.margin.min(10.0);
    for (from, to) in
        [(p(ax, s.y0), p(ax, s.y0 - reach)), (p(ax, s.y1), p(ax, s.y1 + reach)), (p(s.x0, ay), p(s.x0 - reach, ay)), (p(s.x1, ay), p(s.x1 + reach, ay))]
    {
        marks.push(pencil::line(Pen::Frame, from, to));
    }
    Mark::Group(Group { id: "frame".into(), marks })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 5457 drawing spaces: A3 390 × 277, A0 1159 × 821 (table of the standard, from memory).
    #[test]
    fn drawing_spaces() {
        let size = |n: &str| {
            let s = Format::named(n).unwrap().space();
            (s.width(), s.height())
        };
        assert_eq!(size("A3"), (390.0, 277.0));
        assert_eq!(size("A0"), (1159.0, 821.0));
        assert_eq!(size("A4"), (180.0, 277.0));
    }

    #[test]
    fn the_grid_has_the_standard_s_number_of_fields() {
        let s = Format::ISO[1].space();
        assert_eq!(ticks(s.x0, s.x1, 210.0, None).len() - 1, 8);
        assert_eq!(ticks(s.y0, s.y1, 148.5, None).len() - 1, 6);
        let a1 = Format::ISO[3].space();
        assert_eq!(ticks(a1.x0, a1.x1, 420.5, None).len() - 1, 16);
        assert_eq!(ticks(a1.y0, a1.y1, 297.0, None).len() - 1, 12);
        assert_eq!(letter(8), "J");
        assert_eq!(letter(13), "P");
    }
}
