//! Dimensions inside a view: aligned lengths and angles, placed where nothing is in the way.
//!
//! A text that finds no free place near its line becomes a label on a leader beside the view.

use super::canvas::Canvas;
use super::dimension_strip::tail;
use super::dimension_text::{EXTENSION_GAP, EXTENSION_OVERSHOOT, arrow_length, own_text, text_gap};
use super::label::{Content, Label, Pointer, Terminator};
use crate::paper::drafting::{Lettering, SheetStyle};
use crate::paper::lettering::{TextBox, width};
use crate::paper::mark::{Align, Dimension, Mark, Measure, PaperPoint, Path, Shape};
use crate::paper::pencil;
use crate::paper::request::{DimensionRequest, Side};
use crate::paper::style::{Face, Pen};

/// A placed dimension, or one whose text must go on a leader.
pub enum Outcome {
    /// Finished.
    Placed(Dimension),
    /// Strokes without text, and the label that completes them.
    OnLeader(Box<Label>),
}

/// Distances of the dimension line that are tried, paper mm.
const OFFSETS: [f64; 6] = [10.0, 8.0, 13.0, 17.0, 22.0, 28.0];

fn shell(request: &DimensionRequest, scale: f64, text: &str, measure: Measure, strokes: Vec<Mark>) -> Dimension {
    Dimension { key: request.key.clone(), measure, value: request.value(), real_per_paper: scale, text: text.into(), strokes }
}

/// Whether the dimension's lines pass no text.
fn lines_free(strokes: &[Mark], canvas: &Canvas) -> bool {
    strokes.iter().all(|m| match m {
        Mark::Path(Path { shape, .. }) => {
            let mut free = true;
            crate::paper::stroke::segments(shape, &mut |a, b| free = free && canvas.line_free(a, b));
            free
        }
        _ => true,
    })
}

/// The label side that a wish means.
fn wish(request: &DimensionRequest) -> Option<bool> {
    match request.prefer {
        Some(Side::Left) => Some(false),
        Some(Side::Right) => Some(true),
        _ => None,
    }
}

/// Places the true distance of two points.
pub fn aligned(request: &DimensionRequest, first: PaperPoint, second: PaperPoint, scale: f64, canvas: &Canvas, style: &SheetStyle, l: &Lettering) -> Outcome {
    let text = own_text(request, style);
    let w = width(&text, l.text, Face::Regular);
    // Read from below or from the right: the direction lies in (−90°, 90°].
    let flip = second.x < first.x - 1e-9 || ((second.x - first.x).abs() <= 1e-9 && second.y < first.y);
    let (a, b) = if flip { (second, first) } else { (first, second) };
    let length = (b.x - a.x).hypot(b.y - a.y).max(1e-9);
    let (ux, uy) = ((b.x - a.x) / length, (b.y - a.y) / length);
    let (nx, ny) = (-uy, ux);
    let angle = uy.atan2(ux).to_degrees();
    let inside = w + 1.6 <= length;
    let tight = length < 2.0 * arrow_length(l) + 1.0;
    let mut spare: Option<(f64, Vec<Mark>, Measure, PaperPoint)> = None;
    for offset in OFFSETS {
        for s in [1.0, -1.0] {
            let o = s * offset;
            let on = |t: f64, v: f64| PaperPoint::new(a.x + ux * t + nx * v, a.y + uy * t + ny * v);
            let mut strokes = Vec::new();
            for t in [0.0, length] {
                strokes.push(pencil::line(Pen::Dimension, on(t, s * EXTENSION_GAP), on(t, o + s * EXTENSION_OVERSHOOT)));
            }
            let reach = if tight { tail(l) } else { 0.0 };
            strokes.push(pencil::line(Pen::Dimension, on(-reach, o), on(length + reach, o)));
            let out = if tight { -1.0 } else { 1.0 };
            strokes.push(pencil::arrow(Pen::Dimension, on(0.0, o), (-ux * out, -uy * out), arrow_length(l)));
            strokes.push(pencil::arrow(Pen::Dimension, on(length, o), (ux * out, uy * out), arrow_length(l)));
            let measure = Measure::Linear { first, second, line: on(if flip { 0.0 } else { length }, o), angle };
            if !lines_free(&strokes, canvas) {
                continue;
            }
            let places: &[f64] = if inside { &[0.5, 0.35, 0.65] } else { &[] };
            for share in places {
                let t = (length * share).clamp(w / 2.0 + 0.8, (length - w / 2.0 - 0.8).max(w / 2.0 + 0.8));
                let at = on(t, o + text_gap(l));
                if canvas.free(&TextBox::placed(at, Align::Centre, angle, w, l.text)) {
                    strokes.push(pencil::turned(Pen::Dimension, text.clone(), at, l.text, Align::Centre, angle));
                    return Outcome::Placed(shell(request, scale, &text, measure, strokes));
                }
            }
            let bar = TextBox::placed(on(length / 2.0, o - 2.0), Align::Centre, angle, length, 4.0);
            let crowd = canvas.crowding(&bar);
            if spare.as_ref().is_none_or(|(known, ..)| crowd < *known - 1e-9) {
                spare = Some((crowd, strokes, measure, on(length / 2.0, o)));
            }
        }
    }
    let (_, strokes, measure, at) = spare
        .unwrap_or_else(|| (0.0, Vec::new(), Measure::Linear { first, second, line: second, angle }, PaperPoint::new((a.x + b.x) / 2.0, (a.y + b.y) / 2.0)));
    Outcome::OnLeader(Box::new(Label {
        pointer: Pointer::Point(at),
        terminator: Terminator::Bare,
        content: Content::Lines(vec![text.clone()]),
        right: wish(request),
        dimension: Some(shell(request, scale, &text, measure, strokes)),
    }))
}

/// Radii of the dimension arc that are tried, paper mm.
const RADII: [f64; 8] = [18.0, 14.0, 22.0, 27.0, 33.0, 40.0, 11.0, 50.0];

/// Places the angle about a corner, from the first point counter-clockwise to the second.
pub fn angle(request: &DimensionRequest, [corner, first, second]: [PaperPoint; 3], scale: f64, canvas: &Canvas, style: &SheetStyle, l: &Lettering) -> Outcome {
    let text = own_text(request, style);
    let w = width(&text, l.text, Face::Regular);
    let polar = |p: PaperPoint| ((p.y - corner.y).atan2(p.x - corner.x), (p.x - corner.x).hypot(p.y - corner.y));
    let ((a0, r0), (a1, r1)) = (polar(first), polar(second));
    let sweep = (a1 - a0).rem_euclid(std::f64::consts::TAU);
    let on = |a: f64, r: f64| PaperPoint::new(corner.x + r * a.cos(), corner.y + r * a.sin());
    let mut spare = None;
    for r in RADII {
        let tight = r * sweep < 2.0 * arrow_length(l) + 1.0;
        let extra = if tight { tail(l) / r } else { 0.0 };
        let mut strokes =
            vec![Mark::Path(Path { shape: Shape::Arc { centre: corner, radius: r, start: a0 - extra, sweep: sweep + 2.0 * extra }, pen: Pen::Dimension })];
        for (a, known, s) in [(a0, r0, -1.0), (a1, r1, 1.0)] {
            if known + EXTENSION_GAP < r {
                strokes.push(pencil::line(Pen::Dimension, on(a, known + EXTENSION_GAP), on(a, r + EXTENSION_OVERSHOOT)));
            }
            let s = if tight { -s } else { s };
            // The chord over the arrow's length, so that the head lies along the arc.
            let tip = on(a, r);
            let back = on(a - s * arrow_length(l) / r, r);
            strokes.push(pencil::arrow(Pen::Dimension, tip, (tip.x - back.x, tip.y - back.y), arrow_length(l)));
        }
        let measure = Measure::Angle { corner, first, second, arc: on(a0 + sweep / 2.0, r) };
        if !lines_free(&strokes, canvas) {
            continue;
        }
        for share in [0.5, 0.3, 0.7] {
            let m = a0 + sweep * share;
            // Just outside the arc: the box's reach toward the corner plus a gap.
            let reach = (w / 2.0 * m.cos().abs() + l.text / 2.0 * m.sin().abs()) + 1.2;
            for d in [reach, -reach] {
                let c = on(m, r + d);
                let at = PaperPoint::new(c.x, c.y - l.text / 2.0);
                let b = TextBox::placed(at, Align::Centre, 0.0, w, l.text);
                let mut clear = canvas.free(&b);
                strokes.iter().for_each(|s| {
                    if let Mark::Path(p) = s {
                        crate::paper::stroke::segments(&p.shape, &mut |p, q| clear = clear && b.grown(0.3).length_inside(p, q) <= 0.0);
                    }
                });
                if clear {
                    strokes.push(pencil::text(Pen::Dimension, text.clone(), at, l.text, Align::Centre));
                    return Outcome::Placed(shell(request, scale, &text, measure, strokes));
                }
            }
        }
        spare.get_or_insert((strokes, measure, on(a0 + sweep / 2.0, r)));
    }
    let (strokes, measure, at) = spare.unwrap_or_else(|| (Vec::new(), Measure::Angle { corner, first, second, arc: first }, corner));
    Outcome::OnLeader(Box::new(Label {
        pointer: Pointer::Point(at),
        terminator: Terminator::Bare,
        content: Content::Lines(vec![text.clone()]),
        right: wish(request),
        dimension: Some(shell(request, scale, &text, measure, strokes)),
    }))
}
