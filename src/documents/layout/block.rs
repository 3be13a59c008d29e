//! One view, finished at one scale in local paper mm: strokes, dimensions, labels, levels, title.
//!
//! The order decides who gives way to whom: strokes, dimensions beside the view, dimensions inside it,
//! levels, letters of cutting planes, notes and balloons, tags and labels, and last the hatch, which is
//! cut out around every text.

use super::canvas::Canvas;
use super::dimension_text::{FIRST_TRACK, dimension_text, text_gap};
use super::free_text;
use super::label::{Label, Pointer, Terminator, Words as LabelWords};
use super::labels::{self, Column};
use super::levels::{self, Level};
use super::oblique::{self, Outcome};
use crate::documents::pencil;
use super::picture::{CUT_ZONE, Picture, paper, picture};
use super::strip::{self, Strip};
use super::strip_ink;
use crate::documents::drafting::{Lettering, SheetStyle};
use crate::documents::lettering::{TextBox, width, wrap};
use crate::documents::mark::{Align, Dimension, Mark, Measure, PaperPoint, Shape};
use crate::documents::number;
use crate::documents::request::{Quantity, Side};
use crate::documents::sheet::DimensionEntry;
use crate::documents::stroke::{Rect, inside, mark_bounds};
use crate::documents::style::{Face, Pattern, Pen};
use crate::documents::view::{Draft, Item, ViewScale};
use crate::documents::words::Words;

/// Widest line of a note on a leader, as a multiple of the text height.
const NOTE_WIDTH: f64 = 20.0;

/// A finished view.
#[derive(Debug, Clone)]
pub struct Block {
    /// Id of the draft.
    pub id: String,
    /// Title as drawn.
    pub title: String,
    /// Real mm per paper mm.
    pub scale: f64,
    /// Everything that belongs to it.
    pub rect: Rect,
    /// Its outline.
    pub core: Rect,
    /// Its marks.
    pub marks: Vec<Mark>,
    /// Its dimensions.
    pub entries: Vec<DimensionEntry>,
}

/// What all views of a sheet share.
pub struct Surroundings<'a> {
    /// Style of the set.
    pub style: &'a SheetStyle,
    /// Lettering of the sheet size.
    pub lettering: Lettering,
    /// Words of the language.
    pub words: &'a Words,
    /// How a scale is written.
    pub scale_text: &'a dyn Fn(f64) -> String,
}

/// Finishes a view at a scale.
pub fn finish(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings) -> Block {
    let l = &env.lettering;
    let Picture { mut marks, outline, cuts } = picture(draft, scale);
    let mut canvas = Canvas::over(outline);
    marks.iter().for_each(|m| canvas.add(m));

    let mut dimensions: Vec<Dimension> = Vec::new();
    let marks_levels = levels_of(draft, scale, env);
    let zone = |side: Side| if cuts.iter().any(|c| c.side == side) { CUT_ZONE } else { 0.0 };
    let solve = |side: Side, start: f64| {
        let rows: Vec<f64> = marks_levels.iter().filter(|v| v.right == (side == Side::Right) && !side.horizontal()).map(|v| v.at.y).collect();
        strip::solve(side, &draft.dimensions, scale, &outline, start, &rows, env.style, l)
    };
    // Texts that stand inside their line need room past the letters of cutting planes.
    let start = |side: Side| match zone(side) {
        z if z > 0.0 && matches!(side, Side::Below | Side::Right) => z + 3.0 + text_gap(l) + l.text,
        z if z > 0.0 => z + 3.0,
        _ => FIRST_TRACK,
    };
    let above = solve(Side::Above, start(Side::Above));
    let below = solve(Side::Below, start(Side::Below));
    // Texts that reach past the corner of the outline push the neighbouring strips outward.
    let past_left = outline.x0 - above.reach.0.min(below.reach.0);
    let past_right = above.reach.1.max(below.reach.1) - outline.x1;
    let left = solve(Side::Left, start(Side::Left).max(past_left + 2.0));
    let right = solve(Side::Right, start(Side::Right).max(past_right + 2.0));
    for s in [&above, &below, &left, &right] {
        dimensions.extend(strip_ink::draw(s, &draft.dimensions, scale, l));
    }
    let mut ready: Vec<Mark> = dimensions.into_iter().map(|d| Mark::Dimension(Box::new(d))).collect();
    ready.iter().for_each(|m| canvas.add(m));

    let mut labels = labels_of(draft, scale, env);
    inside_labels(draft, scale, l, &mut canvas, &mut marks, &mut labels);
    inner_dimensions(draft, scale, env, &mut canvas, &mut ready, &mut labels);

    let edge = |s: &Strip, past: f64| if s.placed.is_empty() { (FIRST_TRACK - 2.0).max(past).max(zone(s.side)) } else { s.outer.max(past) };
    let mut columns = Vec::new();
    for (s, past, is_right) in [(&left, past_left, false), (&right, past_right, true)] {
        let sign = if is_right { 1.0 } else { -1.0 };
        let begin = s.base + sign * (edge(s, past) + 2.0);
        let (drawn, rows, outer) = levels::draw(&marks_levels, is_right, begin, l);
        drawn.iter().for_each(|m| canvas.add(m));
        marks.extend(drawn);
        let passed = !s.placed.is_empty() || !rows.is_empty();
        let x = outer + sign * if passed { 4.0 } else { 6.0 };
        let port = if passed { s.base + sign * 3.0 } else { x - sign * 3.0 };
        let mut forbidden: Vec<(f64, f64)> = rows.into_iter().map(|(lo, hi)| (lo - 0.8, hi + 0.8)).collect();
        forbidden.extend(s.ordinates.iter().map(|u| (u - 0.9, u + 0.9)));
        forbidden.extend(s.placed.iter().map(|p| (p.at - p.width / 2.0 - 0.9, p.at + p.width / 2.0 + 0.9)));
        let tall = 400.0;
        let low = if below.placed.is_empty() && zone(Side::Below) == 0.0 { outline.y0 - tall } else { outline.y0 - 8.0 };
        let high = if above.placed.is_empty() && zone(Side::Above) == 0.0 { outline.y1 + tall } else { outline.y1 + 8.0 };
        columns.push(Column { right: is_right, port, x, forbidden, window: (low, high) });
    }

    for c in &cuts {
        let h = l.view_title;
        let w = width(&c.letter, h, Face::Bold);
        let candidates = letter_places(c, w, h);
        marks.push(free_text::place(&c.letter, h, Pen::Lettering, Face::Bold, candidates, &mut canvas));
    }

    labels::choose_sides(&mut labels, &outline, (!left.placed.is_empty(), !right.placed.is_empty()), l);
    for column in &columns {
        let own: Vec<Label> = labels.iter().filter(|b| b.right == Some(column.right)).cloned().collect();
        for m in labels::place(own, column, &canvas, l) {
            canvas.add(&m);
            if matches!(m, Mark::Dimension(_)) { ready.push(m) } else { marks.push(m) }
        }
    }

    small_texts(draft, scale, l, &mut canvas, &mut marks);
    let entries = entries_of(&ready, &draft.id);
    marks.extend(ready);
    north(draft, l, &mut marks);
    cut_hatches(&mut marks);
    let title = title(draft, scale, show_scale, env, &mut marks);
    let rect = marks.iter().fold(outline, |r, m| r.union(&mark_bounds(m)));
    Block { id: draft.id.clone(), title, scale, rect, core: outline, marks, entries }
}

fn levels_of(draft: &Draft, scale: f64, env: &Surroundings) -> Vec<Level> {
    let mut out = Vec::new();
    for item in &draft.items {
        if let Item::Level { at, level, text, side } = item {
            let number = number::level(*level, env.style);
            let text = if text.is_empty() { number } else { format!("{number}  {text}") };
            out.push(Level { at: paper(*at, scale), text, right: *side != Some(Side::Left) });
        }
    }
    out
}

fn wish(side: Option<Side>) -> Option<bool> {
    match side {
        Some(Side::Left) => Some(false),
        Some(Side::Right) => Some(true),
        _ => None,
    }
}

fn labels_of(draft: &Draft, scale: f64, env: &Surroundings) -> Vec<Label> {
    let l = &env.lettering;
    let mut out = Vec::new();
    for item in &draft.items {
        let (at, words, side) = match item {
            Item::Leader { at, text, side } => (at, LabelWords::Lines(wrap(text, l.text, Face::Regular, NOTE_WIDTH * l.text)), side),
            Item::Balloon { at, item, side } => (at, LabelWords::Balloon(item.clone()), side),
            Item::Weld { at, weld, side } => (at, LabelWords::Weld(weld.clone()), side),
            _ => continue,
        };
        let terminator = if matches!(words, LabelWords::Weld(_)) { Terminator::Arrow } else { Terminator::Auto };
        out.push(Label { pointer: Pointer::Point(paper(*at, scale)), terminator, words, right: wish(*side), dimension: None });
    }
    out
}

/// Aligned lengths, angles, diameters and radii.
fn inner_dimensions(draft: &Draft, scale: f64, env: &Surroundings, canvas: &mut Canvas, ready: &mut Vec<Mark>, labels: &mut Vec<Label>) {
    let l = &env.lettering;
    for r in &draft.dimensions {
        let on = |p| paper(p, scale);
        let outcome = match r.quantity {
            Quantity::Linear { .. } => continue,
            Quantity::Aligned { first, second } => oblique::aligned(r, on(first), on(second), scale, canvas, env.style, l),
            Quantity::Angle { corner, first, second } => oblique::angle(r, on(corner), on(first), on(second), scale, canvas, env.style, l),
            Quantity::Diameter { centre, radius } => {
                let c = on(centre);
                let radius = radius / scale;
                let measure = Measure::Diameter { near: PaperPoint::new(c.x - radius, c.y), far: PaperPoint::new(c.x + radius, c.y) };
                Outcome::OnLeader(round(r, Pointer::Circle { centre: c, radius }, measure, scale, env))
            }
            Quantity::Radius { centre, on: point } => {
                let (c, p) = (on(centre), on(point));
                let d = (p.x - c.x).hypot(p.y - c.y).max(1e-9);
                let stub = 5.0;
                let out = PaperPoint::new(p.x + (p.x - c.x) / d * stub, p.y + (p.y - c.y) / d * stub);
                Outcome::OnLeader(round(r, Pointer::Stub { on: p, out }, Measure::Radius { centre: c, on: p }, scale, env))
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
                labels.push(label);
            }
        }
    }
}

fn round(r: &crate::documents::request::DimensionRequest, pointer: Pointer, measure: Measure, scale: f64, env: &Surroundings) -> Label {
    let text = dimension_text(r, env.style);
    Label {
        pointer,
        terminator: Terminator::Arrow,
        words: LabelWords::Lines(vec![text.clone()]),
        right: wish(r.prefer),
        dimension: Some(Dimension { key: r.key.clone(), measure, value: r.value(), real_per_paper: scale, text, strokes: Vec::new() }),
    }
}

/// Places for a section letter around the end of its cutting plane, best first.
fn letter_places(c: &super::picture::CutEnd, w: f64, h: f64) -> Vec<PaperPoint> {
    let mut out = Vec::new();
    let s = c.side.outward();
    for extra in [1.0, 2.0, 3.0, 4.5, 6.0] {
        for slide in [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0] {
            out.push(if c.side.horizontal() {
                PaperPoint::new(c.tail.x + slide * 2.5, c.at.y + s * (extra + h / 2.0))
            } else {
                PaperPoint::new(c.at.x + s * (extra + w / 2.0), c.tail.y + slide * 2.5)
            });
        }
    }
    out
}

/// Labels inside the view; one that finds no free place goes onto a leader.
fn inside_labels(draft: &Draft, scale: f64, l: &Lettering, canvas: &mut Canvas, marks: &mut Vec<Mark>, labels: &mut Vec<Label>) {
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
                    words: LabelWords::Lines(wrap(text, l.text, Face::Regular, NOTE_WIDTH * l.text)),
                    right: None,
                    dimension: None,
                }),
            }
        }
    }
}

fn small_texts(draft: &Draft, scale: f64, l: &Lettering, canvas: &mut Canvas, marks: &mut Vec<Mark>) {
    for item in &draft.items {
        match item {
            Item::Tag { at, clear, text } => {
                let w = width(text, l.text, Face::Regular);
                let places = free_text::around(paper(*at, scale), clear / scale, w, l.text);
                marks.push(free_text::place(text, l.text, Pen::Lettering, Face::Regular, places, canvas));
            }
            Item::DetailCircle { letter, centre, radius } => {
                let h = l.view_title;
                let w = width(letter, h, Face::Bold);
                let places = free_text::around(paper(*centre, scale), radius / scale, w, h);
                marks.push(free_text::place(letter, h, Pen::Lettering, Face::Bold, places, canvas));
            }
            _ => {}
        }
    }
}

fn entries_of(ready: &[Mark], view: &str) -> Vec<DimensionEntry> {
    ready
        .iter()
        .filter_map(|m| match m {
            Mark::Dimension(d) => Some(DimensionEntry { key: d.key.clone(), view: view.into(), value: d.value, text: d.text.clone() }),
            _ => None,
        })
        .collect()
}

/// North arrow in a corner of the block that is still free, else beside it.
fn north(draft: &Draft, l: &Lettering, marks: &mut Vec<Mark>) {
    let Some(angle) = draft.items.iter().find_map(|i| if let Item::North { angle } = i { Some(*angle) } else { None }) else { return };
    let rect = marks.iter().fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)));
    let mut canvas = Canvas::over(rect);
    marks.iter().for_each(|m| canvas.add(m));
    let reach = 12.0;
    let corner = [(rect.x1 - reach, rect.y1 - reach), (rect.x0 + reach, rect.y1 - reach), (rect.x1 - reach, rect.y0 + reach), (rect.x0 + reach, rect.y0 + reach)]
        .into_iter()
        .map(|(x, y)| PaperPoint::new(x, y))
        .find(|c| canvas.free(&TextBox::placed(PaperPoint::new(c.x, c.y - reach), Align::Centre, 0.0, 2.0 * reach, 2.0 * reach)));
    let c = corner.unwrap_or(PaperPoint::new(rect.x1 + reach + 3.0, rect.y1 - reach));
    let (s, k) = angle.to_radians().sin_cos();
    let at = |along: f64, across: f64| PaperPoint::new(c.x + k * along - s * across, c.y + s * along + k * across);
    marks.push(pencil::circle(Pen::Symbol, c, 5.0));
    marks.push(pencil::line(Pen::Symbol, at(-7.0, 0.0), at(7.0, 0.0)));
    marks.push(pencil::solid(Pen::Symbol, &[at(7.0, 0.0), at(-3.5, 2.4), at(-1.8, 0.0)]));
    marks.push(pencil::polygon(Pen::Symbol, &[at(7.0, 0.0), at(-3.5, -2.4), at(-1.8, 0.0)]));
    let n = at(9.6, 0.0);
    marks.push(pencil::bold(Pen::Symbol, "N", PaperPoint::new(n.x, n.y - l.text / 2.0), l.text, Align::Centre));
}

/// Cuts a window into every line hatch around each text that stands on it.
fn cut_hatches(marks: &mut [Mark]) {
    let mut texts: Vec<TextBox> = Vec::new();
    marks.iter().for_each(|m| {
        m.walk(&mut |m| {
            if let Mark::Text(t) = m {
                texts.push(TextBox::of(t).grown(0.7));
            }
        });
    });
    for m in marks.iter_mut() {
        if let Mark::Hatch(h) = m
            && h.pattern != Pattern::Solid
        {
            let windows: Vec<Shape<PaperPoint>> =
                texts.iter().filter(|t| t.corners().iter().all(|c| inside(&h.loops, *c))).map(|t| Shape::polygon(t.corners())).collect();
            h.loops.extend(windows);
        }
    }
}

/// Title over the view (under it on ANSI sheets), with its scale where it is not the main one.
fn title(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings, marks: &mut Vec<Mark>) -> String {
    let l = &env.lettering;
    let words = env.words.say(&draft.title);
    let scale_text = if show_scale && !matches!(draft.scale, ViewScale::Picture { .. }) { (env.scale_text)(scale) } else { String::new() };
    if words.is_empty() && scale_text.is_empty() {
        return words;
    }
    let rect = marks.iter().fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)));
    let gap = if words.is_empty() || scale_text.is_empty() { 0.0 } else { 4.0 };
    let h = l.view_title;
    let wide = width(&words, h, Face::Bold);
    let small = width(&scale_text, l.heading, Face::Regular);
    let x0 = (rect.x0 + rect.x1) / 2.0 - (wide + gap + small) / 2.0;
    let y = match env.style.standard {
        crate::documents::drafting::Standard::Iso => rect.y1 + 5.0,
        crate::documents::drafting::Standard::Ansi => rect.y0 - 5.0 - h,
    };
    if !words.is_empty() {
        marks.push(pencil::bold(Pen::Lettering, words.clone(), PaperPoint::new(x0, y), h, Align::Left));
    }
    if !scale_text.is_empty() {
        marks.push(pencil::text(Pen::Lettering, scale_text, PaperPoint::new(x0 + wide + gap, y), l.heading, Align::Left));
    }
    words
}
