//! Tables and note blocks as finished marks with a size, lower left corner at (0, 0).
//!
//! A block that is too tall comes in variants: the same rows in two, three or four blocks side by side.

use super::surroundings::Surroundings;
use crate::paper::lettering::{LINE_PITCH, width, wrap};
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::notes::{NoteKind, Notes};
use crate::paper::pencil;
use crate::paper::style::{Face, Pen};
use crate::paper::table::{Column, Table};

/// A finished block of words.
#[derive(Debug, Clone)]
pub struct TextBlock {
    /// Width, paper mm.
    pub width: f64,
    /// Height, paper mm.
    pub height: f64,
    /// Its marks.
    pub marks: Vec<Mark>,
}

/// Room left and right of a cell's text, mm.
const PAD: f64 = 1.5;
/// Gap between blocks of a split table, mm.
const BLOCK_GAP: f64 = 4.0;

/// Shares of their wanted width that the columns of a table get, where the sheet is too narrow for it.
const NARROWER: [f64; 7] = [1.0, 0.8, 0.65, 0.5, 0.4, 0.3, 0.2];

/// A table in one to four blocks; fewer variants if it has few rows.
pub fn table(table: &Table, env: &Surroundings) -> Vec<TextBlock> {
    let rows = table.rows.len();
    (1..=4)
        .filter(|n| *n == 1 || rows >= 6 * n)
        .map(|n| {
            // A small sheet: columns give way together, down to the longest word of their headings.
            let shares = if n == 1 { NARROWER.as_slice() } else { &[1.0] };
            let mut block = table_in(table, n, 1.0, env);
            for share in shares.iter().skip(1) {
                if block.width <= env.room {
                    break;
                }
                block = table_in(table, n, *share, env);
            }
            block
        })
        .collect()
}

struct Line {
    cells: Vec<Vec<String>>,
    height: f64,
}

fn table_in(table: &Table, blocks: usize, share: f64, env: &Surroundings) -> TextBlock {
    let l = &env.lettering;
    let h = l.text;
    let heading: Vec<String> = table.columns.iter().map(|c| env.voice.say(&c.heading)).collect();
    // A column is never narrower than the longest word of its heading.
    let limits: Vec<f64> = table
        .columns
        .iter()
        .zip(&heading)
        .map(|(c, t)| t.split_whitespace().map(|w| width(w, h, Face::Bold)).fold(c.max_width * share, f64::max) + 1e-6)
        .collect();
    let wrapped = |cells: &[String], face: Face| -> Line {
        let cells: Vec<Vec<String>> = limits.iter().enumerate().map(|(i, limit)| wrap(cells.get(i).map_or("", String::as_str), h, face, *limit)).collect();
        let lines = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
        Line { cells, height: row_height(lines, h, env.rows) }
    };
    let head = wrapped(&heading, Face::Bold);
    let body: Vec<Line> = table.rows.iter().map(|r| wrapped(r, Face::Regular)).collect();
    let widths: Vec<f64> = (0..table.columns.len())
        .map(|i| {
            let widest = |line: &Line, face: Face| line.cells.get(i).map_or(0.0, |c| c.iter().map(|t| width(t, h, face)).fold(0.0, f64::max));
            body.iter().map(|b| widest(b, Face::Regular)).fold(widest(&head, Face::Bold), f64::max) + 2.0 * PAD
        })
        .collect();
    let wide: f64 = widths.iter().sum();
    let title = env.voice.say(&table.title);
    let title_room = if title.is_empty() { 0.0 } else { l.heading * 1.9 };
    // Rows shared out so that the blocks come out about equally tall.
    let total: f64 = body.iter().map(|b| b.height).sum();
    let mut shares: Vec<Vec<&Line>> = vec![Vec::new(); blocks];
    let mut run = 0.0;
    for line in &body {
        let k = (((run + line.height / 2.0) / total.max(1e-9) * blocks as f64) as usize).min(blocks - 1);
        run += line.height;
        if let Some(s) = shares.get_mut(k) {
            s.push(line);
        }
    }
    let tall = shares.iter().map(|s| head.height + s.iter().map(|b| b.height).sum::<f64>()).fold(0.0, f64::max);
    let height = tall + title_room;
    let mut marks = Vec::new();
    if !title.is_empty() {
        marks.push(pencil::bold(Pen::Table, title.clone(), PaperPoint::new(0.0, height - l.heading), l.heading, Align::Left));
    }
    let columns: Vec<(&Column, f64)> = table.columns.iter().zip(widths.iter().copied()).collect();
    for (k, share) in shares.iter().enumerate() {
        let x = k as f64 * (wide + BLOCK_GAP);
        let mut y = tall;
        for (line, bold) in std::iter::once((&head, true)).chain(share.iter().map(|s| (*s, false))) {
            row(line, bold, &columns, PaperPoint::new(x, y + single(h) * (1.0 - env.rows) / 2.0), h, &mut marks);
            y -= line.height;
            marks.push(pencil::line(Pen::Table, PaperPoint::new(x, y), PaperPoint::new(x + wide, y)));
        }
        marks.push(pencil::line(Pen::Table, PaperPoint::new(x, tall), PaperPoint::new(x + wide, tall)));
        let mut edge = x;
        for w in std::iter::once(&0.0).chain(&widths) {
            edge += w;
            marks.push(pencil::line(Pen::Table, PaperPoint::new(edge, y), PaperPoint::new(edge, tall)));
        }
    }
    let across = blocks as f64 * wide + (blocks as f64 - 1.0) * BLOCK_GAP;
    TextBlock { width: across.max(width(&title, l.heading, Face::Bold)), height, marks }
}

/// Height of a row of one line.
fn single(h: f64) -> f64 {
    h * 2.0 + 0.4
}

fn row_height(lines: usize, h: f64, share: f64) -> f64 {
    (lines as f64 - 1.0) * h * LINE_PITCH + single(h) * share
}

/// Draws a row whose upper left corner is `corner`; columns with their widths.
fn row(line: &Line, bold: bool, columns: &[(&Column, f64)], corner: PaperPoint, h: f64, marks: &mut Vec<Mark>) {
    let mut left = corner.x;
    for (cell, (column, w)) in line.cells.iter().zip(columns) {
        let at = match column.align {
            Align::Left => left + PAD,
            Align::Centre => left + w / 2.0,
            Align::Right => left + w - PAD,
        };
        for (i, t) in cell.iter().enumerate().filter(|(_, t)| !t.is_empty()) {
            let p = PaperPoint::new(at, corner.y - h * 1.5 - 0.1 - i as f64 * h * LINE_PITCH);
            marks.push(if bold { pencil::bold(Pen::Table, t.clone(), p, h, column.align) } else { pencil::text(Pen::Table, t.clone(), p, h, column.align) });
        }
        left += w;
    }
}

/// A note block at its own width, and wider or narrower where that may fit better.
pub fn notes(notes: &Notes, env: &Surroundings) -> Vec<TextBlock> {
    [1.0, 1.4, 0.75].iter().map(|f| notes_in(notes, notes.width * f, env)).collect()
}

fn notes_in(notes: &Notes, wide: f64, env: &Surroundings) -> TextBlock {
    let l = &env.lettering;
    let h = l.text;
    let boxed = notes.kind == NoteKind::Caution;
    let inset = if boxed { 2.5 } else { 0.0 };
    let indent = if notes.kind == NoteKind::Numbered {
        width("00  ", h, Face::Regular)
    } else if boxed {
        width("–  ", h, Face::Regular)
    } else {
        0.0
    };
    let heading = env.voice.say(&notes.heading);
    let mut marks = Vec::new();
    let mut y = -inset - l.heading;
    marks.push(pencil::bold(Pen::Lettering, heading, PaperPoint::new(inset, y), l.heading, Align::Left));
    y -= 0.4 * h;
    for (i, note) in notes.notes.iter().enumerate() {
        y -= 0.35 * h;
        for (k, t) in wrap(note, h, Face::Regular, wide - 2.0 * inset - indent).into_iter().enumerate() {
            y -= h * 1.65;
            if k == 0 && notes.kind == NoteKind::Numbered {
                marks.push(pencil::text(Pen::Lettering, format!("{}", i + 1), PaperPoint::new(inset, y), h, Align::Left));
            } else if k == 0 && boxed {
                marks.push(pencil::text(Pen::Lettering, "–", PaperPoint::new(inset, y), h, Align::Left));
            }
            marks.push(pencil::text(Pen::Lettering, t, PaperPoint::new(inset + indent, y), h, Align::Left));
        }
    }
    let height = -y + 0.4 * h + inset;
    if boxed {
        marks.push(pencil::rectangle(Pen::Stamp, 0.0, -height, wide, 0.0));
    }
    let marks = marks.into_iter().map(|m| crate::paper::stroke::moved(m, 0.0, height)).collect();
    TextBlock { width: wide, height, marks }
}
