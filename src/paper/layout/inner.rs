//! Texts and dimensions inside a view: labels, hole tags, letters, and what becomes a label on a leader.

use super::canvas::Canvas;
use super::dimension_text::own_text;
use super::free_text;
use super::label::{Content, Label, Pointer, Terminator};
use super::oblique::{self, Outcome};
use super::picture::{CutEnd, paper};
use super::surroundings::Surroundings;
use crate::paper::drafting::Lettering;
use crate::paper::lettering::{TextBox, width, wrap_even};
use crate::paper::mark::{Align, Dimension, Mark, Measure, PaperPoint};
use crate::paper::pencil;
use crate::paper::request::{DimensionRequest, Quantity, Side};
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Draft, Item, Weld};

/// Widest line of a note on a leader, as a multiple of the text height.
const NOTE_WIDTH: f64 = 20.0;
/// Length of the piece of a leader whose direction is given, paper mm.
const STUB: f64 = 5.0;

pub(super) fn wish(side: Option<Side>) -> Option<bool> {
    match side {
        Some(Side::Left) => Some(false),
        Some(Side::Right) => Some(true),
        _ => None,
    }
}

pub(super) fn labels_of(draft: &Draft, scale: f64, env: &Surroundings) -> Vec<Label> {
    let l = &env.lettering;
    let mut out = Vec::new();
    for item in &draft.items {
        let (at, content, side) = match item {
            Item::Leader { at, text, side } => (at, Content::Lines(wrap_even(text, l.text, Face::Regular, NOTE_WIDTH * l.text)), side),
            Item::Balloon { at, item, side } => (at, Content::Balloon(item.clone()), side),
            Item::Weld { at, weld, side } => (at, Content::Weld(weld.clone()), side),
            _ => continue,
        };
        let on = paper(*at, scale);
        let pointer = match item {
            Item::Weld { weld: Weld { from: Some([x, y]), .. }, .. } => Pointer::Stub { on, out: PaperPoint::new(on.x + x * STUB, on.y + y * STUB) },
            _ => Pointer::Point(on),
        };
        let terminator = if matches!(content, Content::Weld(_)) { Terminator::Arrow } else { Terminator::Auto };
        out.push(Label { pointer, terminator, content, right: wish(*side), dimension: None });
    }
    out
}

/// Aligned lengths, angles, diameters and radii.
pub(super) fn inner_dimensions(draft: &Draft, scale: f64, env: &Surroundings, canvas: &mut Canvas, ready: &mut Vec<Mark>, labels: &mut Vec<Label>) {
    let l = &env.lettering;
    for r in &draft.dimensions {
        let on = |p| paper(p, scale);
        let outcome = match r.quantity {
            Quantity::Linear { .. } => continue,
            Quantity::Aligned { first, second } => oblique::aligned(r, on(first), on(second), scale, canvas, env.style, l),
            Quantity::Angle { corner, first, second } => oblique::angle(r, [corner, first, second].map(on), scale, canvas, env.style, l),
            Quantity::Diameter { centre, radius } => {
                let c = on(centre);
                let radius = radius / scale;
                let measure = Measure::Diameter { near: PaperPoint::new(c.x - radius, c.y), far: PaperPoint::new(c.x + radius, c.y) };
                Outcome::OnLeader(Box::new(round(r, Pointer::Circle { centre: c, radius }, measure, scale, env)))
            }
            Quantity::Radius { centre, on: point } => {
                let (c, p) = (on(centre), on(point));
                let d = (p.x - c.x).hypot(p.y - c.y).max(1e-9);
                let stub = 5.0;
                let out = PaperPoint::new(p.x + (p.x - c.x) / d * stub, p.y + (p.y - c.y) / d * stub);
                Outcome::OnLeader(Box::new(round(r, Pointer::Stub { on: p, out }, Measure::Radius { centre: c, on: p }, scale, env)))
            }
        };
        match outcome {
            Outcome::Placed(d) => {
                let m = Mark::Dimension(Box::new(d));
                canvas.add(&m);
                ready.push(m);
            }
            Outcome::OnLeader(label) => {
                if let Some(d) = &label.dimension {
                    d.strokes.iter().for_each(|m| canvas.add(m));
                }
                labels.push(*label);
            }
        }
    }
}

pub(super) fn round(r: &DimensionRequest, pointer: Pointer, measure: Measure, scale: f64, env: &Surroundings) -> Label {
    let text = own_text(r, env.style);
    Label {
        pointer,
        terminator: Terminator::Arrow,
        content: Content::Lines(vec![text.clone()]),
        right: wish(r.prefer),
        dimension: Some(Dimension { key: r.key.clone(), measure, value: r.value(), real_per_paper: scale, text, strokes: Vec::new() }),
    }
}

/// Labels inside the view; one that finds no free place goes onto a leader.
pub(super) fn inside_labels(draft: &Draft, scale: f64, l: &Lettering, canvas: &mut Canvas, marks: &mut Vec<Mark>, labels: &mut Vec<Label>) {
    for item in &draft.items {
        if let Item::Label { at, text } = item {
            let at = paper(*at, scale);
            match free_text::first_free(text, l.text, Face::Regular, free_text::near(at, l.text), canvas) {
                Some(spot) => {
                    let mark = pencil::text(Pen::Lettering, text.clone(), spot, l.text, Align::Centre);
                    canvas.add(&mark);
                    marks.push(mark);
                }
                None => labels.push(Label {
                    pointer: Pointer::Point(at),
                    terminator: Terminator::Auto,
                    content: Content::Lines(wrap_even(text, l.text, Face::Regular, NOTE_WIDTH * l.text)),
                    right: None,
                    dimension: None,
                }),
            }
        }
    }
}

/// Hole tags; one that stands apart from its hole has a leader, one that finds no free place beside it stands in a column.
pub(super) fn tags(draft: &Draft, scale: f64, l: &Lettering, canvas: &mut Canvas, marks: &mut Vec<Mark>, labels: &mut Vec<Label>) {
    for item in &draft.items {
        if let Item::Tag { at, clear, text } = item {
            let (at, clear, w) = (paper(*at, scale), clear / scale, width(text, l.text, Face::Regular));
            let free = |middle: &PaperPoint| {
                let spot = PaperPoint::new(middle.x, middle.y - l.text / 2.0);
                let own = TextBox::placed(spot, Align::Centre, 0.0, w, l.text);
                let leader = tag_leader(at, clear, *middle, (w, l.text));
                let clear_of_texts = leader.is_none_or(|(from, to)| canvas.line_free(from, to));
                (canvas.free(&own) && clear_of_texts).then_some((spot, leader))
            };
            match free_text::around(at, clear, w, l.text).iter().find_map(free) {
                Some((spot, leader)) => {
                    let leader = leader.map(|(from, to)| pencil::line(Pen::Leader, from, to));
                    for mark in leader.into_iter().chain([pencil::text(Pen::Lettering, text.clone(), spot, l.text, Align::Centre)]) {
                        canvas.add(&mark);
                        marks.push(mark);
                    }
                }
                None => labels.push(Label {
                    pointer: Pointer::Point(at),
                    terminator: Terminator::Auto,
                    content: Content::Lines(vec![text.clone()]),
                    right: None,
                    dimension: None,
                }),
            }
        }
    }
}

/// A tag further from its feature than this has a leader, paper mm.
const TAG_APART: f64 = 2.5;

/// The leader of a tag that stands apart from its feature: from beside its text to the feature's edge.
fn tag_leader(at: PaperPoint, clear: f64, middle: PaperPoint, (w, h): (f64, f64)) -> Option<(PaperPoint, PaperPoint)> {
    let (dx, dy) = (at.x - middle.x, at.y - middle.y);
    let far = dx.hypot(dy);
    let edge = ((w / 2.0 + 0.8) / dx.abs().max(1e-9)).min((h / 2.0 + 0.8) / dy.abs().max(1e-9));
    let (from, to) = (edge * far, far - clear);
    let point = |along: f64| PaperPoint::new(middle.x + dx / far * along, middle.y + dy / far * along);
    (to - from > TAG_APART).then(|| (point(from), point(to)))
}

/// Letters of detail circles.
pub(super) fn small_texts(draft: &Draft, scale: f64, l: &Lettering, canvas: &mut Canvas, marks: &mut Vec<Mark>) {
    for item in &draft.items {
        if let Item::DetailCircle { letter, centre, radius } = item {
            let h = l.view_title;
            let w = width(letter, h, Face::Bold);
            let places = free_text::around(paper(*centre, scale), radius / scale, w, h);
            marks.push(free_text::place(letter, h, Pen::Lettering, Face::Bold, places, canvas));
        }
    }
}

/// Places for a section letter around the end of its cutting plane, best first.
pub(super) fn letter_places(c: &CutEnd, w: f64, h: f64) -> Vec<PaperPoint> {
    let mut out = Vec::new();
    let s = c.side.outward();
    // Next to the end first; where many extension lines run, up to 30 mm along it.
    let slides = (0..=12).flat_map(|k| [f64::from(k), -f64::from(k)]);
    for slide in slides {
        for extra in [1.0, 2.0, -2.0, -4.0] {
            out.push(if c.side.horizontal() {
                PaperPoint::new(c.tail.x + slide * 2.5, c.at.y + s * (extra + h / 2.0))
            } else {
                PaperPoint::new(c.at.x + s * (extra + w / 2.0), c.tail.y + slide * 2.5)
            });
        }
    }
    out
}
