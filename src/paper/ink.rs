//! The ink check: proves on finished marks that no text is crossed and nothing leaves the frame.
//!
//! Same measures as the audit by outside tools: a text is its box from base line to cap height; a line
//! crosses it when more than [`CROSSING`] of it lies in the box made smaller by [`SHRINK`]; two texts
//! collide when they share more than [`SHARED_AREA`]. Hatching counts: it must be cut out around texts.
//! Dimension strokes count like all others.

use super::grid::Grid;
use super::lettering::TextBox;
use super::mark::{Hatch, Mark, Measure, PaperPoint, Text};
use super::stroke::{Rect, mark_bounds, rings, segments, shape_bounds};
use super::style::Pattern;
use crate::geometry::{self, contains};
use kurbo::Point;

/// Text boxes are made smaller by this on every side before lines are tested, paper mm.
pub const SHRINK: f64 = 0.15;
/// A line may run this far inside a text box, paper mm.
pub const CROSSING: f64 = 0.5;
/// Two text boxes may share this much, mm².
pub const SHARED_AREA: f64 = 0.1;

/// Figures on one dimension line stand at least this share of their height apart.
pub const APART: f64 = 0.95;

/// A conflict on a finished sheet; a bug of the program, never the user's fault.
#[derive(Debug, Clone, PartialEq)]
pub struct Defect {
    /// Kind of conflict.
    pub kind: DefectKind,
    /// Plain sentence with both parties.
    pub message: String,
    /// Where, paper mm.
    pub x: f64,
    /// Where, paper mm.
    pub y: f64,
}

/// Kind of conflict.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DefectKind {
    /// A text lies on another text.
    TextOnText,
    /// Figures on one dimension line stand so near that they read as one.
    RunTogether,
    /// A line or hatch crosses a text.
    LineThroughText,
    /// A mark leaves the drawing space.
    OutsideFrame,
    /// Two views, tables or note blocks overlap.
    Overlap,
    /// Something asked for could not be placed.
    NotPlaced,
    /// The spec forces a format that the sheet does not fit on: the user's to settle, not a bug.
    FormatTooSmall,
}

/// Checks the texts of a sheet against all other ink, and those on one dimension line against each other.
pub fn check_texts(marks: &[Mark]) -> Vec<Defect> {
    conflicts(marks).into_iter().map(|c| c.1).chain(run_together(marks)).collect()
}

/// The boxes of all texts that other ink runs into.
pub fn crossed_texts(marks: &[Mark]) -> Vec<TextBox> {
    conflicts(marks).into_iter().map(|c| c.0).collect()
}

fn conflicts(marks: &[Mark]) -> Vec<(TextBox, Defect)> {
    let mut ink = Ink { texts: Vec::new(), lines: Vec::new(), hatches: Vec::new(), owners: vec!["the sheet"] };
    marks.iter().for_each(|m| ink.collect(m, 0));
    let Ink { texts, lines, hatches, owners } = ink;
    let mut area = Rect::EMPTY;
    texts.iter().for_each(|(b, _)| b.corners().iter().for_each(|c| area.add(*c)));
    let mut grid = Grid::over(area);
    for (i, (b, _)) in texts.iter().enumerate() {
        let (lo, hi) = b.bounds();
        grid.insert(i, &Rect::new(lo.x, lo.y, hi.x, hi.y));
    }
    let mut out = Vec::new();
    text_on_text(&texts, &grid, &mut out);
    lines_through_texts(&texts, &lines, &owners, &grid, &mut out);
    hatches_behind_texts(&texts, &hatches, &mut out);
    out
}

/// All ink of a sheet; lines know the dimension or group that they belong to.
struct Ink<'a> {
    texts: Vec<(TextBox, &'a Text)>,
    lines: Vec<(PaperPoint, PaperPoint, usize)>,
    hatches: Vec<(Rect, &'a Hatch)>,
    owners: Vec<&'a str>,
}

impl<'a> Ink<'a> {
    fn collect(&mut self, mark: &'a Mark, owner: usize) {
        match mark {
            Mark::Text(t) if !t.content.trim().is_empty() => self.texts.push((TextBox::of(t), t)),
            Mark::Text(_) => {}
            Mark::Path(p) => segments(&p.shape, &mut |a, b| self.lines.push((a, b, owner))),
            Mark::Hatch(h) => {
                let r = h.loops.iter().fold(Rect::EMPTY, |r, l| r.union(&shape_bounds(l)));
                self.hatches.push((r, h));
            }
            Mark::Group(g) => self.within(&g.id, &g.marks),
            Mark::Dimension(d) => self.within(&d.key, &d.strokes),
        }
    }

    fn within(&mut self, owner: &'a str, marks: &'a [Mark]) {
        let id = self.owners.len();
        self.owners.push(owner);
        marks.iter().for_each(|m| self.collect(m, id));
    }
}

fn text_on_text(texts: &[(TextBox, &Text)], grid: &Grid, out: &mut Vec<(TextBox, Defect)>) {
    for (i, (b, t)) in texts.iter().enumerate() {
        let (lo, hi) = b.bounds();
        let mut seen = Vec::new();
        grid.near(&Rect::new(lo.x, lo.y, hi.x, hi.y), &mut |j| {
            if j > i && !seen.contains(&j) {
                seen.push(j);
            }
        });
        for j in seen {
            if let Some((c, u)) = texts.get(j)
                && b.overlaps(c)
                && shared_area(b, c) > SHARED_AREA
            {
                out.push((*b, defect(DefectKind::TextOnText, format!("text {:?} lies on text {:?}", t.content, u.content), b.centre)));
            }
        }
    }
}

fn lines_through_texts(texts: &[(TextBox, &Text)], lines: &[(PaperPoint, PaperPoint, usize)], owners: &[&str], grid: &Grid, out: &mut Vec<(TextBox, Defect)>) {
    let mut crossed = vec![(0.0_f64, 0_usize); texts.len()];
    for (a, b, owner) in lines {
        let r = Rect::new(a.x.min(b.x), a.y.min(b.y), a.x.max(b.x), a.y.max(b.y));
        // Long lines touch many cells; short hits only count when the box is really entered.
        let mut last = usize::MAX;
        let mut hits: Vec<usize> = Vec::new();
        grid.near(&r, &mut |i| {
            if i != last && !hits.contains(&i) {
                hits.push(i);
                last = i;
            }
        });
        for i in hits {
            if let (Some((t, _)), Some(sum)) = (texts.get(i), crossed.get_mut(i)) {
                let inside = t.grown(-SHRINK).length_inside(*a, *b);
                if inside > 0.0 {
                    *sum = (sum.0 + inside, *owner);
                }
            }
        }
    }
    for ((b, t), (length, owner)) in texts.iter().zip(crossed) {
        if length > CROSSING {
            let by = owners.get(owner).copied().unwrap_or_default();
            out.push((*b, defect(DefectKind::LineThroughText, format!("text {:?} is crossed by {length:.1} mm of lines of {by}", t.content), b.centre)));
        }
    }
}

fn hatches_behind_texts(texts: &[(TextBox, &Text)], hatches: &[(Rect, &Hatch)], out: &mut Vec<(TextBox, Defect)>) {
    for (b, t) in texts {
        let small = b.grown(-SHRINK);
        let (lo, hi) = small.bounds();
        let r = Rect::new(lo.x, lo.y, hi.x, hi.y);
        for (area, h) in hatches {
            if !area.overlaps(&r) {
                continue;
            }
            let hit = match h.pattern {
                // Arrow heads and dots: any part inside the box.
                Pattern::Solid if area.width().max(area.height()) < 5.0 => {
                    let mut inked = 0.0;
                    h.loops.iter().for_each(|l| segments(l, &mut |p, q| inked += small.length_inside(p, q)));
                    inked > CROSSING
                }
                _ => covers(&small, h),
            };
            if hit {
                out.push((*b, defect(DefectKind::LineThroughText, format!("text {:?} stands on hatching", t.content), b.centre)));
                break;
            }
        }
    }
}

/// Whether the hatch covers any of a raster of points in the box.
fn covers(b: &TextBox, h: &Hatch) -> bool {
    let n = 4;
    let region = rings(&h.loops);
    (0..=n).any(|i| {
        (0..=2).any(|j| {
            let (u, v) = (b.half_width * (2.0 * i as f64 / n as f64 - 1.0), b.half_height * (j as f64 - 1.0));
            contains(&region, Point::new(b.centre.x + u * b.along.0 - v * b.along.1, b.centre.y + u * b.along.1 + v * b.along.0))
        })
    })
}

/// A figure on a dimension line: the line by its angle and its distance from the origin, and the box.
type Figure<'a> = (f64, f64, TextBox, &'a str);

/// Figures of lengths, wherever they stand on the sheet.
fn figures<'a>(mark: &'a Mark, out: &mut Vec<Figure<'a>>) {
    match mark {
        Mark::Group(g) => g.marks.iter().for_each(|m| figures(m, out)),
        Mark::Dimension(d) => {
            let Measure::Linear { line, angle, .. } = d.measure else { return };
            let (s, c) = angle.to_radians().sin_cos();
            let texts = d.strokes.iter().filter_map(|m| if let Mark::Text(t) = m { Some(t) } else { None });
            out.extend(texts.map(|t| (angle, line.y * c - line.x * s, TextBox::of(t), t.content.as_str())));
        }
        Mark::Path(_) | Mark::Text(_) | Mark::Hatch(_) => {}
    }
}

/// Figures of one dimension line that stand nearer to each other along it than [`APART`] of their height.
fn run_together(marks: &[Mark]) -> Vec<Defect> {
    let mut all = Vec::new();
    marks.iter().for_each(|m| figures(m, &mut all));
    let mut out = Vec::new();
    for (i, (angle, line, t, content)) in all.iter().enumerate() {
        for (other, at, u, next) in all.iter().skip(i + 1) {
            if (angle - other).abs() > 1e-6 || (line - at).abs() > 0.01 {
                continue;
            }
            let (dx, dy) = (u.centre.x - t.centre.x, u.centre.y - t.centre.y);
            let (along, across) = (dx * t.along.0 + dy * t.along.1, dy * t.along.0 - dx * t.along.1);
            let between = along.abs() - t.half_width - u.half_width;
            let height = 2.0 * t.half_height.min(u.half_height);
            if across.abs() < height && between < APART * height {
                let message = format!("figures {content:?} and {next:?} of one dimension line stand {between:.1} mm apart");
                out.push(defect(DefectKind::RunTogether, message, t.centre));
            }
        }
    }
    out
}

/// Area that two boxes share, mm².
fn shared_area(a: &TextBox, b: &TextBox) -> f64 {
    let corners = |t: &TextBox| t.corners().map(|c| [c.x, c.y]);
    geometry::shared_area(&corners(a), &corners(b))
}

/// Checks that blocks (views, tables, notes) keep inside the drawing space and off each other.
pub fn check_blocks(blocks: &[(String, Rect)], space: &Rect) -> Vec<Defect> {
    let mut out = Vec::new();
    for (i, (id, r)) in blocks.iter().enumerate() {
        if !space.contains(r) {
            out.push(defect(DefectKind::OutsideFrame, format!("{id} leaves the drawing space"), r.centre()));
        }
        for (other, s) in blocks.iter().skip(i + 1) {
            if r.overlaps(s) {
                out.push(defect(DefectKind::Overlap, format!("{id} overlaps {other}"), r.centre()));
            }
        }
    }
    out
}

/// Checks that every mark lies inside a rectangle.
pub fn check_inside(marks: &[Mark], space: &Rect) -> Vec<Defect> {
    let mut out = Vec::new();
    for mark in marks {
        let r = mark_bounds(mark);
        if !r.is_empty() && !space.contains(&r) {
            let what = match mark {
                Mark::Text(t) => format!("text {:?}", t.content),
                Mark::Dimension(d) => format!("dimension {}", d.key),
                Mark::Group(g) => g.id.clone(),
                Mark::Path(_) => "a stroke".into(),
                Mark::Hatch(_) => "a hatch".into(),
            };
            out.push(defect(DefectKind::OutsideFrame, format!("{what} leaves the drawing space"), r.centre()));
        }
    }
    out
}

/// A defect at a place.
pub fn defect(kind: DefectKind, message: String, at: PaperPoint) -> Defect {
    Defect { kind, message, x: at.x, y: at.y }
}

#[cfg(test)]
mod tests {
    use super::super::mark::{Align, Dimension};
    use super::super::pencil;
    use super::super::style::Pen;
    use super::*;

    /// Two dimensions on one vertical line, their figures `gap` apart.
    fn chain(gap: f64, line: f64) -> Vec<Mark> {
        let figure = |text: &str, y: f64, x: f64| {
            let at = PaperPoint::new(x - 1.4, y);
            Mark::Dimension(Box::new(Dimension {
                key: text.into(),
                measure: Measure::Linear { first: at, second: at, line: PaperPoint::new(x, y), angle: 90.0 },
                value: 0.0,
                real_per_paper: 10.0,
                text: text.into(),
                strokes: vec![pencil::turned(Pen::Dimension, text.to_string(), at, 3.5, Align::Centre, 90.0)],
            }))
        };
        let half = |text: &str| super::super::lettering::width(text, 3.5, super::super::style::Face::Regular) / 2.0;
        vec![figure("100", 50.0, 20.0), figure("6", 50.0 + half("100") + gap + half("6"), line)]
    }

    /// A planted fault: 100 and 6 of a chain read as 1006.
    #[test]
    fn figures_that_read_as_one_are_found() {
        let kinds = |marks: &[Mark]| check_texts(marks).iter().map(|d| d.kind).collect::<Vec<_>>();
        assert_eq!(kinds(&chain(2.9, 20.0)), [DefectKind::RunTogether]);
        assert_eq!(kinds(&chain(3.5, 20.0)), []);
        // On another line nobody reads them together.
        assert_eq!(kinds(&chain(2.9, 30.0)), []);
    }
}
