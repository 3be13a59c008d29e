//! One view, finished at one scale in local paper mm: strokes, dimensions, labels, levels, title.
//!
//! The order decides who gives way to whom: strokes, dimensions beside the view, dimensions inside it,
//! levels, letters of cutting planes, notes and balloons, tags and labels, and last the hatch, which is
//! cut out around every text.

use super::canvas::Canvas;
use super::dimension_text::{FIRST_TRACK, text_gap};
use super::free_text;
use super::inner;
use super::label::Label;
use super::labels::{self, Column};
use super::levels::{self, Level};
use super::picture::{CUT_ZONE, Picture, paper, picture};
use super::strip::{self, Strip};
use super::strip_ink;
use super::trim;
use crate::paper::drafting::{Lettering, SheetStyle};
use crate::paper::ink;
use crate::paper::lettering::{TextBox, width};
use crate::paper::mark::{Dimension, Mark};
use crate::paper::request::Side;
use crate::paper::sheet::DimensionEntry;
use crate::paper::stroke::{Rect, mark_bounds};
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Draft, Item};
use crate::say::Voice;
use crate::say::number;

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
    /// Texts that something runs into.
    pub crossed: usize,
}

/// What all views of a sheet share.
pub struct Surroundings<'a> {
    /// Style of the set.
    pub style: &'a SheetStyle,
    /// Lettering of the sheet size.
    pub lettering: Lettering,
    /// Prints statements.
    pub voice: &'a Voice,
    /// Width of the drawing space, mm.
    pub room: f64,
    /// Height of the rows of tables, of what they otherwise have.
    pub rows: f64,
    /// How a scale is written.
    pub scale_text: &'a dyn Fn(f64) -> String,
}

/// Attempts at a view before the least bad one is taken.
const ATTEMPTS: usize = 8;

/// A view at a scale as it comes out at the first attempt: quick, to see whether a sheet can hold it.
pub fn sketch(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings) -> Block {
    attempt(draft, scale, show_scale, env, &[])
}

/// Finishes a view at a scale. Where a leader has to cross a text inside the view, the view is done again
/// with that place banned, so that the text moves or goes onto a leader itself.
pub fn finish(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings) -> Block {
    let mut bans: Vec<TextBox> = Vec::new();
    let mut best: Option<(usize, Block)> = None;
    for _ in 0..ATTEMPTS {
        let block = attempt(draft, scale, show_scale, env, &bans);
        let crossed = ink::crossed_texts(&block.marks);
        let count = crossed.len();
        if best.as_ref().is_none_or(|(known, _)| count < *known) {
            best = Some((count, block));
        }
        let fresh: Vec<TextBox> = crossed.into_iter().filter(|t| !bans.contains(t)).collect();
        if count == 0 || fresh.is_empty() {
            break;
        }
        bans.extend(fresh);
    }
    match best {
        Some((crossed, block)) => Block { crossed, ..block },
        None => attempt(draft, scale, show_scale, env, &bans),
    }
}

fn attempt(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings, bans: &[TextBox]) -> Block {
    let l = &env.lettering;
    let Picture { mut marks, outline, cuts } = picture(draft, scale);
    let mut canvas = Canvas::over(outline);
    marks.iter().for_each(|m| canvas.add(m));
    bans.iter().for_each(|b| canvas.ban(*b));

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
    // Texts at the right stand inside their line.
    let right = solve(Side::Right, start(Side::Right).max(past_right + 2.0 + text_gap(l) + l.text));
    for s in [&above, &below, &left, &right] {
        dimensions.extend(strip_ink::draw(s, &draft.dimensions, scale, l));
    }
    let mut ready: Vec<Mark> = dimensions.into_iter().map(|d| Mark::Dimension(Box::new(d))).collect();
    ready.iter().for_each(|m| canvas.add(m));

    let mut labels = inner::labels_of(draft, scale, env);
    labels.iter().for_each(|b| canvas.reserve(b.pointer.middle()));
    inner::inside_labels(draft, scale, l, &mut canvas, &mut marks, &mut labels);
    let before = ready.len();
    inner::inner_dimensions(draft, scale, env, &mut canvas, &mut ready, &mut labels);
    // Dimensions inside the view may reach past its outline; columns stand outside of them.
    let strokes = labels.iter().filter_map(|b| b.dimension.as_ref()).flat_map(|d| &d.strokes);
    let reach = ready.iter().skip(before).chain(strokes).fold(outline, |r, m| r.union(&mark_bounds(m)));
    inner::tags(draft, scale, l, &mut canvas, &mut marks, &mut labels);

    let edge = |s: &Strip, past: f64| if s.placed.is_empty() { (FIRST_TRACK - 2.0).max(past).max(zone(s.side)) } else { s.outer.max(past) };
    let mut columns = Vec::new();
    for (s, past, is_right) in [(&left, past_left, false), (&right, past_right, true)] {
        let sign = if is_right { 1.0 } else { -1.0 };
        let past_inner = if is_right { reach.x1 - outline.x1 } else { outline.x0 - reach.x0 };
        let begin = s.base + sign * (edge(s, past.max(past_inner)) + 2.0);
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
        let low = if below.placed.is_empty() && zone(Side::Below) == 0.0 { outline.y0 - tall } else { outline.y0 - (FIRST_TRACK - text_gap(l) - l.text - 0.8) };
        let high = if above.placed.is_empty() && zone(Side::Above) == 0.0 { outline.y1 + tall } else { outline.y1 + 8.0 };
        columns.push(Column { right: is_right, port, x, forbidden, window: (low, high) });
    }

    for c in &cuts {
        let h = l.view_title;
        let w = width(&c.letter, h, Face::Bold);
        let candidates = inner::letter_places(c, w, h);
        marks.push(free_text::place(&c.letter, h, Pen::Lettering, Face::Bold, candidates, &mut canvas));
    }

    if let [to_left, to_right] = columns.as_slice() {
        labels::bind_sides(&mut labels, to_left, to_right, &canvas);
    }
    labels::choose_sides(&mut labels, &outline, (!left.placed.is_empty(), !right.placed.is_empty()), l);
    for column in &columns {
        let own: Vec<Label> = labels.iter().filter(|b| b.right == Some(column.right)).cloned().collect();
        for m in labels::place(own, column, &canvas, l) {
            canvas.add(&m);
            if matches!(m, Mark::Dimension(_)) { ready.push(m) } else { marks.push(m) }
        }
    }

    inner::small_texts(draft, scale, l, &mut canvas, &mut marks);
    let entries = entries_of(&ready, &draft.id);
    marks.extend(ready);
    trim::north(draft, l, &mut marks);
    trim::cut_hatches(&mut marks);
    let title = trim::title(draft, scale, show_scale, env, &mut marks);
    let rect = marks.iter().fold(outline, |r, m| r.union(&mark_bounds(m)));
    Block { id: draft.id.clone(), title, scale, rect, core: outline, marks, entries, crossed: 0 }
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

fn entries_of(ready: &[Mark], view: &str) -> Vec<DimensionEntry> {
    ready
        .iter()
        .filter_map(|m| match m {
            Mark::Dimension(d) => Some(DimensionEntry { key: d.key.clone(), view: view.into(), value: d.value, text: d.text.clone() }),
            _ => None,
        })
        .collect()
}
