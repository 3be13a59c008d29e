//! Marks of the newest revision: a triangle with its index beside every dimension that changed.
//!
//! In: the finished marks of a sheet and the keys that changed. Out: triangles in free places close to the
//! dimension's text. A dimension with no free place near it gets none and is named, so that it can be reported.

use super::canvas::Canvas;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Align, Dimension, Group, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::stroke::Rect;
use crate::paper::style::Pen;

/// Half the side of the triangle, mm.
const HALF: f64 = 3.4;
/// Height of the index in it, mm.
const INDEX: f64 = 2.5;

/// Something that a revision changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// Path in the spec: `inlet.up.sill`, or a whole thing such as `door[1]`.
    pub path: String,
    /// Index of the revision.
    pub index: String,
}

impl Change {
    /// Whether a dimension's key is this path or lies in it.
    pub fn concerns(&self, key: &str) -> bool {
        key.strip_prefix(&self.path).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    }
}

/// The marks, and the keys of dimensions that found no room for one.
pub fn marks(sheet: &[Mark], changes: &[Change], space: &Rect) -> (Vec<Mark>, Vec<String>) {
    let mut wanted: Vec<(&Dimension, &Change)> = Vec::new();
    sheet.iter().for_each(|m| collect(m, changes, &mut wanted));
    if wanted.is_empty() {
        return (Vec::new(), Vec::new());
    }
    let mut canvas = Canvas::over(*space);
    sheet.iter().for_each(|m| canvas.add(m));
    let (mut drawn, mut left_out) = (Vec::new(), Vec::new());
    for (d, change) in wanted {
        let Some(text) = d.strokes.iter().find_map(|m| if let Mark::Text(t) = m { Some(TextBox::of(t)) } else { None }) else { continue };
        let spot = places(&text).into_iter().find(|p| {
            let b = TextBox { centre: *p, half_width: HALF, half_height: HALF, along: (1.0, 0.0) };
            space.contains(&Rect::new(p.x - HALF, p.y - HALF, p.x + HALF, p.y + HALF)) && canvas.free(&b)
        });
        match spot {
            Some(at) => {
                let mark = triangle(at, &change.index);
                canvas.add(&mark);
                drawn.push(mark);
            }
            None => left_out.push(d.key.clone()),
        }
    }
    (drawn, left_out)
}

fn collect<'a>(mark: &'a Mark, changes: &'a [Change], out: &mut Vec<(&'a Dimension, &'a Change)>) {
    match mark {
        Mark::Dimension(d) => out.extend(changes.iter().find(|c| c.concerns(&d.key)).map(|c| (d.as_ref(), c))),
        Mark::Group(g) => g.marks.iter().for_each(|m| collect(m, changes, out)),
        _ => {}
    }
}

/// Places round a text, the nearest first: at its ends, beside it, then further out.
fn places(text: &TextBox) -> Vec<PaperPoint> {
    let (u, v) = (text.along, (-text.along.1, text.along.0));
    let mut out = Vec::new();
    for away in [0.8, 2.5, 5.0, 8.0, 12.0, 17.0, 23.0] {
        let (a, b) = (text.half_width + HALF + away, text.half_height + HALF + away);
        for (s, t) in [(a, 0.0), (-a, 0.0), (0.0, b), (0.0, -b), (a, b), (-a, b), (a, -b), (-a, -b)] {
            out.push(PaperPoint::new(text.centre.x + s * u.0 + t * v.0, text.centre.y + s * u.1 + t * v.1));
        }
    }
    out
}

fn triangle(at: PaperPoint, index: &str) -> Mark {
    let corner = |x: f64, y: f64| PaperPoint::new(at.x + x, at.y + y);
    Mark::Group(Group {
        id: format!("change.{index}"),
        marks: vec![
            pencil::polygon(Pen::Symbol, &[corner(-HALF, -HALF * 0.8), corner(HALF, -HALF * 0.8), corner(0.0, HALF)]),
            pencil::text(Pen::Symbol, index, corner(0.0, -HALF * 0.8 + 0.6), INDEX * if index.chars().count() > 1 { 0.72 } else { 1.0 }, Align::Centre),
        ],
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_concerns_what_lies_in_it() {
        let c = Change { path: "door[1]".into(), index: "B".into() };
        assert!(c.concerns("door[1]") && c.concerns("door[1].sill"));
        assert!(!c.concerns("door[10].sill") && !c.concerns("inlet.up.sill"));
    }
}
