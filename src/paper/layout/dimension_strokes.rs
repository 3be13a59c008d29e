//! Draws a solved strip: extension lines, dimension lines, arrows, texts, each as a finished dimension.

use super::dimension_strip::{Placed, Stand, Strip, tail};
use super::dimension_text::{EXTENSION_GAP, EXTENSION_OVERSHOOT, arrow_length, text_gap};
use crate::paper::drafting::Lettering;
use crate::paper::mark::{Align, Dimension, Mark, Measure, PaperPoint, PlanePoint};
use crate::paper::pencil;
use crate::paper::request::{DimensionRequest, Quantity};
use crate::paper::style::Pen;

/// The dimensions of a strip as marks, in the order of their requests.
pub fn draw(strip: &Strip, requests: &[DimensionRequest], scale: f64, l: &Lettering) -> Vec<Dimension> {
    strip.placed.iter().filter_map(|p| requests.get(p.request).map(|r| dimension(strip, p, r, scale, l))).collect()
}

fn dimension(strip: &Strip, p: &Placed, request: &DimensionRequest, scale: f64, l: &Lettering) -> Dimension {
    let at = |u: f64, v: f64| strip.paper(u, v);
    let mut strokes = Vec::new();
    let line = |a: PaperPoint, b: PaperPoint| pencil::line(Pen::Dimension, a, b);
    for (u, v) in [(p.a, p.va), (p.b, p.vb)] {
        if v + EXTENSION_GAP < p.v {
            strokes.push(line(at(u, v + EXTENSION_GAP), at(u, p.v + EXTENSION_OVERSHOOT)));
        }
    }
    dimension_line(strip, p, l, &mut strokes);
    text(strip, p, l, &mut strokes);
    let on = |q: PlanePoint| PaperPoint::new(q.x / scale, q.y / scale);
    let (first, second) = match request.quantity {
        Quantity::Linear { first, second, .. } => (on(first), on(second)),
        _ => (at(p.a, p.va), at(p.b, p.vb)),
    };
    let end = if p.first_at_a { p.b } else { p.a };
    Dimension {
        key: request.key.clone(),
        measure: Measure::Linear { first, second, line: at(end, p.v), angle: if strip.side.horizontal() { 0.0 } else { 90.0 } },
        value: request.value(),
        real_per_paper: scale,
        text: p.text.clone(),
        strokes,
    }
}

fn dimension_line(strip: &Strip, p: &Placed, l: &Lettering, strokes: &mut Vec<Mark>) {
    let at = |u: f64| strip.paper(u, p.v);
    let (mut lo, mut hi) = (p.a, p.b);
    let t = tail(l);
    if p.arrows_outside {
        lo -= if p.shared.0 { 0.0 } else { t };
        hi += if p.shared.1 { 0.0 } else { t };
    }
    match p.stand {
        Stand::After => hi = hi.max(p.at + p.width / 2.0),
        Stand::Before => lo = lo.min(p.at - p.width / 2.0),
        Stand::Inside | Stand::Raised => {}
    }
    strokes.push(pencil::line(Pen::Dimension, at(lo), at(hi)));
    let sign = |u: f64| {
        let (a, b) = (at(0.0), at(u));
        (b.x - a.x, b.y - a.y)
    };
    // Outward arrows sit inside the span and point at the extension lines; tight ones sit outside and point back.
    let (to_a, to_b) = if p.arrows_outside { (sign(1.0), sign(-1.0)) } else { (sign(-1.0), sign(1.0)) };
    for (u, toward, dotted) in [(p.a, to_a, p.dot.0), (p.b, to_b, p.dot.1)] {
        strokes.push(if dotted { pencil::dot(Pen::Dimension, at(u), 0.5) } else { pencil::arrow(Pen::Dimension, at(u), toward, arrow_length(l)) });
    }
}

fn text(strip: &Strip, p: &Placed, l: &Lettering, strokes: &mut Vec<Mark>) {
    let angle = if strip.side.horizontal() { 0.0 } else { 90.0 };
    let out = strip.text_outward();
    let gap = text_gap(l);
    let base = match (p.stand, out) {
        (Stand::Raised, true) => p.v + strip.raise(l),
        (Stand::Raised, false) => p.v + strip.raise(l) + l.text,
        (_, true) => p.v + gap,
        (_, false) => p.v - gap,
    };
    if p.stand == Stand::Raised {
        let middle = (p.a + p.b) / 2.0;
        // Meet the text's near edge as straight as it allows.
        let near = middle.clamp(p.at - p.width / 2.0 + 0.5_f64.min(p.width / 2.0), p.at + p.width / 2.0 - 0.5_f64.min(p.width / 2.0));
        let edge = p.v + strip.raise(l) - if out { 1.0 } else { 0.6 };
        let mut points = vec![strip.paper(middle, p.v)];
        if out && (near - middle).abs() > 1e-6 {
            points.push(strip.paper(middle, p.v + gap + l.text + 0.6));
        }
        points.push(strip.paper(near, edge));
        strokes.push(pencil::chain(Pen::Dimension, &points));
    }
    strokes.push(pencil::turned(Pen::Dimension, p.text.clone(), strip.paper(p.at, base), l.text, Align::Centre, angle));
}
