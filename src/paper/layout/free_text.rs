//! Short texts near a point: hole tags, labels inside a view, letters of sections and details.
//!
//! Candidate places are tried in a fixed order around the point; the first free one is taken. Where
//! none is free, the least crowded one is used and the ink check reports it.

use super::canvas::Canvas;
use crate::paper::lettering::{TextBox, width};
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::style::{Face, Pen};

/// Places a text whose centre is one of the candidates; adds it to the canvas.
pub fn place(text: &str, height: f64, pen: Pen, face: Face, candidates: impl IntoIterator<Item = PaperPoint>, canvas: &mut Canvas) -> Mark {
    let w = width(text, height, face);
    let mut best: Option<(f64, PaperPoint)> = None;
    for c in candidates {
        let at = PaperPoint::new(c.x, c.y - height / 2.0);
        let b = TextBox::placed(at, Align::Centre, 0.0, w, height);
        let crowd = if canvas.free(&b) { 0.0 } else { canvas.crowding(&b) + 1e-3 };
        if best.is_none_or(|(known, _)| crowd < known) {
            best = Some((crowd, at));
        }
        if crowd == 0.0 {
            break;
        }
    }
    let at = best.map_or(PaperPoint::default(), |b| b.1);
    let mark = match face {
        Face::Regular => pencil::text(pen, text, at, height, Align::Centre),
        Face::Bold => pencil::bold(pen, text, at, height, Align::Centre),
    };
    canvas.add(&mark);
    mark
}

/// The base-line point of the first candidate centre at which the text touches nothing.
pub fn first_free(text: &str, height: f64, face: Face, candidates: impl IntoIterator<Item = PaperPoint>, canvas: &Canvas) -> Option<PaperPoint> {
    let w = width(text, height, face);
    candidates.into_iter().map(|c| PaperPoint::new(c.x, c.y - height / 2.0)).find(|at| canvas.free(&TextBox::placed(*at, Align::Centre, 0.0, w, height)))
}

/// Centres around a feature of radius `clear`: right-above first, then round, then further out.
pub fn around(at: PaperPoint, clear: f64, w: f64, h: f64) -> Vec<PaperPoint> {
    let mut out = Vec::new();
    for gap in [1.0, 2.0, 3.5, 5.5, 8.0, 11.0, 15.0] {
        for (i, j) in [
            (1.0, 1.0),
            (-1.0, 1.0),
            (1.0, -1.0),
            (-1.0, -1.0),
            (1.0, 0.5),
            (-1.0, 0.5),
            (1.0, -0.5),
            (-1.0, -0.5),
            (0.4, 1.0),
            (-0.4, 1.0),
            (0.4, -1.0),
            (-0.4, -1.0),
        ] {
            let d = clear + gap;
            // On the diagonals a circle leaves more room than its square.
            let k = if f64::abs(i) == 1.0 && f64::abs(j) == 1.0 { 0.75 } else { 1.0 };
            out.push(PaperPoint::new(at.x + i * (d * k + w / 2.0), at.y + j * (d * k + h / 2.0)));
        }
    }
    out
}

/// Centres on and near a wanted point, in growing rings.
pub fn near(at: PaperPoint, h: f64) -> Vec<PaperPoint> {
    let mut out = vec![at];
    for ring in 1..=14 {
        let d = f64::from(ring) * 0.6 * h;
        for (i, j) in [(0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)] {
            out.push(PaperPoint::new(at.x + i * d * 1.5, at.y + j * d));
        }
    }
    out
}
