//! Level marks beside a view: a level line, a drawn triangle, the level in metres.
//!
//! Where two levels are too close for their texts, the lower one stands further out, so that no level
//! line passes a text.

use super::dimension_text::{EXTENSION_GAP, text_gap};
use crate::paper::drafting::Lettering;
use crate::paper::lettering::width;
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::style::{Face, Pen};

/// A level to mark.
#[derive(Debug, Clone)]
pub struct Level {
    /// Where its line begins, local paper.
    pub at: PaperPoint,
    /// What is written.
    pub text: String,
    /// Stands at the right of the view.
    pub right: bool,
}

/// Width of the triangle, paper mm.
const TRIANGLE: f64 = 3.0;

/// Draws the levels of one side from `x` outward. Returns the marks, each with its text's lower and upper edge, and the outer edge.
pub fn draw(levels: &[Level], right: bool, x: f64, l: &Lettering) -> (Vec<Mark>, Vec<(f64, f64)>, f64) {
    let mut side: Vec<&Level> = levels.iter().filter(|v| v.right == right).collect();
    side.sort_by(|a, b| b.at.y.total_cmp(&a.at.y).then(a.text.cmp(&b.text)));
    side.dedup_by(|a, b| (a.at.y - b.at.y).abs() < 1e-6 && a.text == b.text);
    let gap = text_gap(l).max(0.8);
    let tall = gap + l.text + 0.8;
    let mut columns: Vec<(f64, usize)> = Vec::new();
    let mut widths: Vec<f64> = Vec::new();
    for v in &side {
        let column = columns.iter().filter(|(y, _)| y - v.at.y < tall).map(|(_, c)| c + 1).max().unwrap_or(0);
        columns.push((v.at.y, column));
        let w = TRIANGLE + 1.5 + width(&v.text, l.text, Face::Regular) + 2.0;
        match widths.get_mut(column) {
            Some(known) => *known = known.max(w),
            None => widths.push(w),
        }
    }
    let s = if right { 1.0 } else { -1.0 };
    let mut marks = Vec::new();
    let mut rows = Vec::new();
    for (v, (y, column)) in side.iter().zip(&columns) {
        let start: f64 = x + s * widths.iter().take(*column).sum::<f64>();
        let own = widths.get(*column).copied().unwrap_or(0.0);
        let y = *y;
        let tip = start + s * (TRIANGLE / 2.0 + 0.5);
        marks.push(pencil::line(Pen::Dimension, PaperPoint::new(v.at.x + s * EXTENSION_GAP, y), PaperPoint::new(start + s * (own - 1.0), y)));
        let corner = |dx: f64, dy: f64| PaperPoint::new(tip + dx, y + dy);
        marks.push(pencil::polygon(Pen::Symbol, &[corner(0.0, 0.0), corner(TRIANGLE / 2.0, 0.866 * TRIANGLE), corner(-TRIANGLE / 2.0, 0.866 * TRIANGLE)]));
        let at = PaperPoint::new(start + s * (TRIANGLE + 1.5), y + gap);
        marks.push(pencil::text(Pen::Symbol, v.text.clone(), at, l.text, if right { Align::Left } else { Align::Right }));
        rows.push((y - 0.5, y + gap + l.text + 0.5));
    }
    (marks, rows, x + s * widths.iter().sum::<f64>())
}
