//! Sheet frames: frame line, grid, centring marks, for the sheets of [`crate::tables::sheets`].

use super::mark::{Align, Group, Mark, PaperPoint};
use super::pencil;
use super::stroke::Rect;
use super::style::Pen;
use crate::tables::sheets::{Format, GRID_BORDER, GRID_LETTERS, ISO_FIELD, Standard};

/// Height of the grid's letters and numbers, mm.
const GRID_TEXT: f64 = 2.5;
/// Length of a centring mark where the margin has room for it, mm.
const CENTRING: f64 = 10.0;

/// The drawing space inside the frame.
pub fn space(format: &Format) -> Rect {
    let m = format.margins;
    Rect::new(m.left, m.ends, format.width - m.right, format.height - m.ends)
}

/// Field borders along one axis: every 50 mm from the axis of the sheet (ISO), or equal fields.
fn ticks(low: f64, high: f64, axis: f64, standard: Standard, fields: usize) -> Vec<f64> {
    match standard {
        Standard::Ansi => (0..=fields).map(|i| low + (high - low) * i as f64 / fields as f64).collect(),
        Standard::Iso => {
            let first = axis - ((axis - low) / ISO_FIELD).floor() * ISO_FIELD;
            let mut out = vec![low];
            // Slivers at the frame join their neighbour.
            let sliver = 15.0;
            let mut at = if first - low < sliver { first + ISO_FIELD } else { first };
            while at < high - sliver {
                out.push(at);
                at += ISO_FIELD;
            }
            out.push(high);
            out
        }
    }
}

/// Letter of a field, counted from 0.
fn letter(i: usize) -> &'static str {
    let i = i % GRID_LETTERS.len();
    GRID_LETTERS.get(i..=i).unwrap_or("A")
}

/// Frame line, grid, centring marks.
pub fn draw(format: &Format) -> Mark {
    let s = space(format);
    let p = PaperPoint::new;
    let mut marks = vec![pencil::rectangle(Pen::Frame, s.x0, s.y0, s.x1, s.y1)];
    let axes = match format.standard {
        Standard::Iso => PaperPoint::new(format.width / 2.0, format.height / 2.0),
        Standard::Ansi => PaperPoint::new(s.centre().x, s.centre().y),
    };
    if let Some(fields) = format.fields {
        marks.extend(grid(format.standard, fields, s, axes));
    }
    let m = format.margins;
    for (from, dx, dy) in [(p(axes.x, s.y0), 0.0, -m.ends), (p(axes.x, s.y1), 0.0, m.ends), (p(s.x0, axes.y), -m.left, 0.0), (p(s.x1, axes.y), m.right, 0.0)] {
        let reach = |d: f64| d.clamp(-CENTRING, CENTRING);
        marks.push(pencil::line(Pen::Frame, from, p(from.x + reach(dx), from.y + reach(dy))));
    }
    Mark::Group(Group { id: "frame".into(), marks })
}

/// The border outside the frame with its fields.
fn grid(standard: Standard, fields: (usize, usize), s: Rect, axes: PaperPoint) -> Vec<Mark> {
    let p = PaperPoint::new;
    let mut marks = vec![pencil::rectangle(Pen::Table, s.x0 - GRID_BORDER, s.y0 - GRID_BORDER, s.x1 + GRID_BORDER, s.y1 + GRID_BORDER)];
    let columns = ticks(s.x0, s.x1, axes.x, standard, fields.0);
    let rows = ticks(s.y0, s.y1, axes.y, standard, fields.1);
    for x in columns.iter().skip(1).take(columns.len().saturating_sub(2)) {
        for (a, b) in [(s.y0 - GRID_BORDER, s.y0), (s.y1, s.y1 + GRID_BORDER)] {
            marks.push(pencil::line(Pen::Table, p(*x, a), p(*x, b)));
        }
    }
    for y in rows.iter().skip(1).take(rows.len().saturating_sub(2)) {
        for (a, b) in [(s.x0 - GRID_BORDER, s.x0), (s.x1, s.x1 + GRID_BORDER)] {
            marks.push(pencil::line(Pen::Table, p(a, *y), p(b, *y)));
        }
    }
    let drop = (GRID_BORDER - GRID_TEXT) / 2.0;
    let (n, m) = (columns.len() - 1, rows.len() - 1);
    for (i, (a, b)) in columns.iter().zip(columns.iter().skip(1)).enumerate() {
        // ISO counts from the left, ASME from the right.
        let name = match standard {
            Standard::Iso => i + 1,
            Standard::Ansi => n - i,
        }
        .to_string();
        for y in [s.y0 - GRID_BORDER + drop, s.y1 + drop] {
            marks.push(pencil::text(Pen::Frame, name.clone(), p((a + b) / 2.0, y), GRID_TEXT, Align::Centre));
        }
    }
    for (j, (a, b)) in rows.iter().zip(rows.iter().skip(1)).enumerate() {
        // ISO letters run down, ASME letters run up.
        let name = letter(match standard {
            Standard::Iso => m - 1 - j,
            Standard::Ansi => j,
        });
        for x in [s.x0 - GRID_BORDER / 2.0, s.x1 + GRID_BORDER / 2.0] {
            marks.push(pencil::text(Pen::Frame, name, p(x, (a + b) / 2.0 - GRID_TEXT / 2.0), GRID_TEXT, Align::Centre));
        }
    }
    marks
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 5457 drawing spaces: A3 390 × 277, A0 1159 × 821 (table of the standard, from memory).
    #[test]
    fn drawing_spaces() {
        let size = |n: &str| {
            let s = space(&Format::named(n).unwrap());
            (s.width(), s.height())
        };
        assert_eq!(size("A3"), (390.0, 277.0));
        assert_eq!(size("A0"), (1159.0, 821.0));
        assert_eq!(size("A4"), (180.0, 277.0));
    }

    /// Fields of 50 mm from the axes are as many as the table of the standard says.
    #[test]
    fn the_grid_has_the_standard_s_number_of_fields() {
        for f in Format::family(Standard::Iso) {
            let (across, up) = f.fields.unwrap();
            let s = space(f);
            assert_eq!(ticks(s.x0, s.x1, f.width / 2.0, f.standard, across).len() - 1, across, "{}", f.name);
            assert_eq!(ticks(s.y0, s.y1, f.height / 2.0, f.standard, up).len() - 1, up, "{}", f.name);
        }
        assert_eq!((letter(8), letter(13)), ("J", "P"));
    }

    /// The margin holds the grid's border and letters.
    #[test]
    fn frame_and_grid_stay_on_the_sheet() {
        for f in Format::family(Standard::Iso).iter().chain(Format::family(Standard::Ansi)) {
            let m = f.margins;
            assert!(m.left.min(m.right).min(m.ends) > GRID_BORDER, "{}", f.name);
        }
    }
}
