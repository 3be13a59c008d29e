//! Sheets of many equal things: views in rows, in the order of the plan, each with its table beside it.
//!
//! In: sizes of views and of the shapes of tables and notes. Out: a place for each, or nothing when they do
//! not fit. Rows run from the upper left; a row that reaches down to the title block and its notes ends before
//! them. A table that belongs to a view stands at its right or under it, whichever wastes less.

use super::pack::{GAP, Spot};
use crate::paper::stroke::Rect;

/// Extra distance between rows that is tried first, paper mm; less is taken when it does not fit.
const LOOSE: [f64; 4] = [14.0, 9.0, 4.0, 0.0];
/// Widest extra distance between the units of a row, paper mm.
const LOOSE_ACROSS: f64 = 30.0;

/// To what a table or note block belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Belongs {
    /// To a view, by its index.
    View(usize),
    /// To the column over the title block.
    Title,
    /// To nothing: a unit of its own after the views.
    Alone,
}

/// A table or note block with the shapes it comes in.
#[derive(Debug, Clone)]
pub struct TextShapes {
    /// Width and height of each shape, mm.
    pub shapes: Vec<(f64, f64)>,
    /// Where it belongs.
    pub belongs: Belongs,
}

/// Places of all views and texts.
#[derive(Debug, Clone)]
pub struct Placed {
    /// One rectangle for each view.
    pub views: Vec<Rect>,
    /// One spot for each table or note block.
    pub texts: Vec<Spot>,
}

/// What moves as one: a view with its table, or a table alone; places relative to its upper left corner, y downward.
struct Unit {
    width: f64,
    height: f64,
    view: Option<usize>,
    texts: Option<(usize, Spot)>,
}

/// Places everything, or `None`.
pub fn place(views: &[(f64, f64)], texts: &[TextShapes], area: &Rect, title: &Rect) -> Option<Placed> {
    let mut spots = vec![Spot { shape: 0, x: 0.0, y: 0.0 }; texts.len()];
    let mut blocked = *title;
    // Texts over the title block, from it upward, flush right.
    for (k, w) in texts.iter().enumerate().filter(|(_, w)| w.belongs == Belongs::Title) {
        let fits = |(_, (wide, _)): &(usize, &(f64, f64))| *wide <= title.width() + 1e-6;
        let (shape, (wide, tall)) = w.shapes.iter().enumerate().find(fits).or(w.shapes.iter().enumerate().next())?;
        let y = blocked.y1 + GAP;
        *spots.get_mut(k)? = Spot { shape, x: area.x1 - wide, y };
        blocked = blocked.union(&Rect::new(area.x1 - wide, y, area.x1, y + tall));
    }
    let units = units(views, texts, (area.width(), area.height()));
    let placed = LOOSE.iter().find_map(|loose| fill(&units, views, texts, spots.clone(), area, &blocked, *loose))?;
    Some(lowered(placed, texts, area, &blocked))
}

/// The rows moved down toward the middle of the room that they leave, as far as the title block lets them.
fn lowered(placed: Placed, texts: &[TextShapes], area: &Rect, blocked: &Rect) -> Placed {
    let moving = |k: usize| texts.get(k).is_some_and(|w| w.belongs != Belongs::Title);
    let of_text = |(k, s): (usize, &Spot)| {
        let (w, h) = texts.get(k).and_then(|t| t.shapes.get(s.shape)).copied().unwrap_or_default();
        Rect::new(s.x, s.y, s.x + w, s.y + h)
    };
    let rects: Vec<Rect> = placed.views.iter().copied().chain(placed.texts.iter().enumerate().filter(|(k, _)| moving(*k)).map(of_text)).collect();
    let left = rects.iter().map(|r| r.y0).fold(f64::INFINITY, f64::min) - area.y0;
    let fits = |by: f64| rects.iter().all(|r| !r.moved(0.0, -by).overlaps(&blocked.grown(GAP - 1e-6)));
    let Some(by) = [0.45, 0.3, 0.2, 0.1, 0.05].iter().map(|share| share * left).find(|by| by.is_finite() && fits(*by)) else { return placed };
    Placed {
        views: placed.views.iter().map(|r| r.moved(0.0, -by)).collect(),
        texts: placed.texts.iter().enumerate().map(|(k, s)| if moving(k) { Spot { y: s.y - by, ..*s } } else { *s }).collect(),
    }
}

fn units(views: &[(f64, f64)], texts: &[TextShapes], room: (f64, f64)) -> Vec<Unit> {
    let mut all: Vec<Unit> = Vec::new();
    for (i, (w, h)) in views.iter().enumerate() {
        let own = texts.iter().enumerate().find(|(_, t)| t.belongs == Belongs::View(i));
        all.push(own.map_or(Unit { width: *w, height: *h, view: Some(i), texts: None }, |(k, t)| joined(i, (*w, *h), k, t, room)));
    }
    for (k, t) in texts.iter().enumerate().filter(|(_, t)| t.belongs == Belongs::Alone) {
        if let Some((w, h)) = t.shapes.first() {
            all.push(Unit { width: *w, height: *h, view: None, texts: Some((k, Spot { shape: 0, x: 0.0, y: 0.0 })) });
        }
    }
    all
}

/// A view and its table, side by side or one under the other.
fn joined(view: usize, (w, h): (f64, f64), table: usize, texts: &TextShapes, room: (f64, f64)) -> Unit {
    let cost = |width: f64, height: f64| width * height + if width > room.0 || height > room.1 { 1e9 } else { 0.0 };
    let mut best: Option<Unit> = None;
    for (shape, (a, b)) in texts.shapes.iter().enumerate() {
        for beside in [true, false] {
            let (width, height) = if beside { (w + GAP / 2.0 + a, h.max(*b)) } else { (w.max(*a), h + GAP / 2.0 + b) };
            let spot = if beside { Spot { shape, x: w + GAP / 2.0, y: 0.0 } } else { Spot { shape, x: 0.0, y: h + GAP / 2.0 } };
            if best.as_ref().is_none_or(|u| cost(width, height) < cost(u.width, u.height) - 1e-6) {
                best = Some(Unit { width, height, view: Some(view), texts: Some((table, spot)) });
            }
        }
    }
    best.unwrap_or(Unit { width: w, height: h, view: Some(view), texts: None })
}

/// Units one under the other in a row.
struct Column {
    units: Vec<usize>,
    width: f64,
    height: f64,
}

/// A row under way: short units stand under each other where a tall one makes room.
struct Row {
    columns: Vec<Column>,
    count: usize,
    wide: f64,
    tall: f64,
    limit: f64,
}

impl Row {
    /// Takes units from `next` on, as many as the width takes at the height that they make the row.
    fn begin(units: &[Unit], next: usize, top: f64, area: &Rect, blocked: &Rect) -> Self {
        let mut row = Self { columns: Vec::new(), count: 0, wide: 0.0, tall: 0.0, limit: area.x1 };
        for (i, u) in units.iter().enumerate().skip(next) {
            let limit_at = |tall: f64| if top - tall < blocked.y1 + GAP { blocked.x0 - GAP } else { area.x1 };
            if let Some(last) = row.columns.last_mut()
                && last.height + GAP + u.height <= row.tall + 1e-6
                && area.x0 + row.wide + (u.width - last.width).max(0.0) <= row.limit + 1e-6
            {
                row.wide += (u.width - last.width).max(0.0);
                last.units.push(i);
                last.width = last.width.max(u.width);
                last.height += GAP + u.height;
                row.count += 1;
                continue;
            }
            let tall = row.tall.max(u.height);
            let wide = if row.count == 0 { u.width } else { row.wide + GAP + u.width };
            if area.x0 + wide > limit_at(tall) + 1e-6 {
                break;
            }
            row.columns.push(Column { units: vec![i], width: u.width, height: u.height });
            (row.count, row.wide, row.tall, row.limit) = (row.count + 1, wide, tall, limit_at(tall));
        }
        row
    }
}

fn fill(units: &[Unit], views: &[(f64, f64)], texts: &[TextShapes], mut spots: Vec<Spot>, area: &Rect, blocked: &Rect, loose: f64) -> Option<Placed> {
    let mut rects = vec![Rect::EMPTY; views.len()];
    let mut top = area.y1;
    let mut next = 0;
    while next < units.len() {
        let row = Row::begin(units, next, top, area, blocked);
        if row.count == 0 || top - row.tall < area.y0 - 1e-6 {
            return None;
        }
        let across = row.columns.len() as f64;
        let slack = (row.limit - area.x0 - row.wide) / across;
        let extra = slack.min(if next + row.count < units.len() { LOOSE_ACROSS } else { GAP });
        let mut x = area.x0 + extra / 2.0;
        for column in &row.columns {
            let mut y = top;
            for u in column.units.iter().filter_map(|i| units.get(*i)) {
                if let Some((i, (w, h))) = u.view.and_then(|i| views.get(i).map(|v| (i, v))) {
                    *rects.get_mut(i)? = Rect::new(x, y - h, x + w, y);
                }
                if let Some((k, spot)) = &u.texts {
                    let tall = texts.get(*k).and_then(|w| w.shapes.get(spot.shape)).map_or(0.0, |s| s.1);
                    *spots.get_mut(*k)? = Spot { shape: spot.shape, x: x + spot.x, y: y - spot.y - tall };
                }
                y -= u.height + GAP;
            }
            x += column.width + GAP + extra;
        }
        next += row.count;
        top -= row.tall + GAP + loose;
    }
    Some(Placed { views: rects, texts: spots })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn rows_keep_order_and_clear_the_title_block() {
        let area = Rect::new(0.0, 0.0, 400.0, 280.0);
        let title = Rect::new(220.0, 0.0, 400.0, 60.0);
        let views: Vec<(f64, f64)> = (0..8).map(|i| (90.0, 60.0 + f64::from(i))).collect();
        let texts = vec![TextShapes { shapes: vec![(50.0, 40.0)], belongs: Belongs::View(1) }];
        let placed = place(&views, &texts, &area, &title).unwrap();
        for (i, a) in placed.views.iter().enumerate() {
            assert!(area.contains(a) && !a.overlaps(&title), "{a:?}");
            assert!(placed.views.iter().skip(i + 1).all(|b| !a.overlaps(b)));
        }
        assert!(placed.views[0].y1 >= placed.views[7].y1);
        let beside = placed.texts[0];
        assert!(beside.x > placed.views[1].x1 && (beside.y + 40.0 - placed.views[1].y1).abs() < 1e-9);
        assert!(place(&vec![(90.0, 60.0); 20], &[], &area, &title).is_none());
    }
}
