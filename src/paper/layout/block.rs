//! One view, finished at one scale in local paper mm: strokes, dimensions, labels, levels, title.
//!
//! The order decides who gives way to whom: strokes, dimensions beside the view, dimensions inside it,
//! levels, letters of cutting planes, notes and balloons, tags and labels, and last the hatch, which is
//! cut out around every text.

use super::canvas::Canvas;
use super::dimension_strip::{self, Margin, Strip};
use super::dimension_strokes;
use super::dimension_text::{FIRST_TRACK, text_gap};
use super::free_text;
use super::hatch_windows;
use super::inner;
use super::label::Label;
use super::labels::{self, Column};
use super::levels::{self, Level};
use super::north_arrow;
use super::picture::{CUT_ZONE, CutEnd, Picture, paper, picture};
use super::signs;
use super::surroundings::Surroundings;
use super::view_title;
use crate::paper::drafting::Lettering;
use crate::paper::ink;
use crate::paper::lettering::{TextBox, width};
use crate::paper::mark::Mark;
use crate::paper::request::Side;
use crate::paper::sheet::DimensionEntry;
use crate::paper::stroke::{Rect, mark_bounds};
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Draft, Item};
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
    let Picture { mut marks, mut outline, cuts } = picture(draft, scale);
    signs::draw(draft, scale, l, &mut marks, &mut outline);
    let mut canvas = Canvas::over(outline);
    marks.iter().for_each(|m| canvas.add(m));
    bans.iter().for_each(|b| canvas.ban(*b));

    let levels = levels_of(draft, scale, env);
    let strips = Strips::around(draft, scale, &outline, &cuts, &levels, env);
    let mut ready: Vec<Mark> =
        strips.all().iter().flat_map(|s| dimension_strokes::draw(s, &draft.dimensions, scale, l)).map(|d| Mark::Dimension(Box::new(d))).collect();
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

    let columns = [false, true].map(|right| {
        let (drawn, column) = strips.column(right, &outline, &reach, &levels, l);
        drawn.iter().for_each(|m| canvas.add(m));
        marks.extend(drawn);
        column
    });
    for c in &cuts {
        let h = l.view_title;
        let w = width(&c.letter, h, Face::Bold);
        let candidates = inner::letter_places(c, w, h);
        marks.push(free_text::place(&c.letter, h, Pen::Lettering, Face::Bold, candidates, &mut canvas));
    }

    let [to_left, to_right] = &columns;
    labels::bind_sides(&mut labels, to_left, to_right, &canvas);
    labels::choose_sides(&mut labels, &outline, (!strips.left.placed.is_empty(), !strips.right.placed.is_empty()), l);
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
    north_arrow::draw(draft, l, &mut marks);
    hatch_windows::cut(&mut marks);
    let title = view_title::draw(draft, scale, show_scale, env, &mut marks);
    let rect = marks.iter().fold(outline, |r, m| r.union(&mark_bounds(m)));
    Block { id: draft.id.clone(), title, scale, rect, core: outline, marks, entries, crossed: 0 }
}

/// The dimensions on the four sides of a view.
struct Strips {
    above: Strip,
    below: Strip,
    left: Strip,
    right: Strip,
    /// How far texts above and below reach past the outline at the left and right, mm.
    past: (f64, f64),
    /// Sides at which cutting planes end.
    cut: Vec<Side>,
}

impl Strips {
    fn around(draft: &Draft, scale: f64, outline: &Rect, cuts: &[CutEnd], levels: &[Level], env: &Surroundings) -> Self {
        let l = &env.lettering;
        let cut: Vec<Side> = cuts.iter().map(|c| c.side).collect();
        let solve = |side: Side, start: f64| {
            let rows: Vec<f64> = levels.iter().filter(|v| v.right == (side == Side::Right) && !side.horizontal()).map(|v| v.at.y).collect();
            dimension_strip::solve(Margin { side, outline, start, levels: &rows }, &draft.dimensions, scale, env.style, l)
        };
        // Texts that stand inside their line need room past the letters of cutting planes.
        let start = |side: Side| match side {
            Side::Below | Side::Right if cut.contains(&side) => CUT_ZONE + 3.0 + text_gap(l) + l.text,
            _ if cut.contains(&side) => CUT_ZONE + 3.0,
            _ => FIRST_TRACK,
        };
        let above = solve(Side::Above, start(Side::Above));
        let below = solve(Side::Below, start(Side::Below));
        // Texts that reach past the corner of the outline push the neighbouring strips outward.
        let past = (outline.x0 - above.reach.0.min(below.reach.0), above.reach.1.max(below.reach.1) - outline.x1);
        let left = solve(Side::Left, start(Side::Left).max(past.0 + 2.0));
        // Texts at the right stand inside their line.
        let right = solve(Side::Right, start(Side::Right).max(past.1 + 2.0 + text_gap(l) + l.text));
        Self { above, below, left, right, past, cut }
    }

    const fn all(&self) -> [&Strip; 4] {
        [&self.above, &self.below, &self.left, &self.right]
    }

    /// Whether nothing stands on a side.
    fn bare(&self, s: &Strip) -> bool {
        s.placed.is_empty() && !self.cut.contains(&s.side)
    }

    /// The level marks outside the left or right strip, and the column for labels outside those.
    fn column(&self, right: bool, outline: &Rect, reach: &Rect, levels: &[Level], l: &Lettering) -> (Vec<Mark>, Column) {
        let (s, past, inner, sign) =
            if right { (&self.right, self.past.1, reach.x1 - outline.x1, 1.0) } else { (&self.left, self.past.0, outline.x0 - reach.x0, -1.0) };
        let past = past.max(inner);
        let zone = if self.cut.contains(&s.side) { CUT_ZONE } else { 0.0 };
        let edge = if s.placed.is_empty() { (FIRST_TRACK - 2.0).max(past).max(zone) } else { s.outer.max(past) };
        let (drawn, rows, outer) = levels::draw(levels, right, s.base + sign * (edge + 2.0), l);
        let passed = !s.placed.is_empty() || !rows.is_empty();
        let x = outer + sign * if passed { 4.0 } else { 6.0 };
        let port = if passed { s.base + sign * 3.0 } else { x - sign * 3.0 };
        let mut forbidden: Vec<(f64, f64)> = rows.into_iter().map(|(lo, hi)| (lo - 0.8, hi + 0.8)).collect();
        forbidden.extend(s.ordinates.iter().map(|u| (u - 0.9, u + 0.9)));
        forbidden.extend(s.placed.iter().map(|p| (p.at - p.width / 2.0 - 0.9, p.at + p.width / 2.0 + 0.9)));
        let tall = 400.0;
        let low = outline.y0 - if self.bare(&self.below) { tall } else { FIRST_TRACK - text_gap(l) - l.text - 0.8 };
        let high = outline.y1 + if self.bare(&self.above) { tall } else { 8.0 };
        (drawn, Column { right, port, x, forbidden, window: (low, high) })
    }
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
