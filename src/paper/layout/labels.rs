//! Notes and balloons in columns beside a view: boundary labelling.
//!
//! Sites are sorted down the column, labels placed as near to them as they can be (dynamic programming),
//! leaders that cross swap their places. A leader runs straight to the edge of the view and then level
//! through the dimensions, between their texts. After Bekos et al. (2007) and Benkert et al. (2009),
//! from memory; the placement itself is ours.

use super::canvas::Canvas;
use super::label::{Label, Pointer, Terminator};
use super::line_up::{Want, line_up};
use crate::paper::drafting::Lettering;
use crate::paper::mark::{Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::stroke::Rect;
use crate::paper::style::Pen;
use std::cell::RefCell;

/// The column on one side.
#[derive(Debug, Clone)]
pub struct Column {
    /// Right of the view, or left of it.
    pub right: bool,
    /// Where leaders turn level.
    pub port: f64,
    /// Where the labels begin.
    pub x: f64,
    /// Heights a level leader must keep off: texts and extension lines of the dimensions it passes.
    pub forbidden: Vec<(f64, f64)>,
    /// Lowest and highest label, if dimensions stand above or below the view.
    pub window: (f64, f64),
}

/// A leader may pass a foreign text only at this price (mm of detour).
const THROUGH_TEXT: f64 = 2000.0;
/// Price of a leader that first runs steeply to its height and then level, mm of detour.
const STEEP: f64 = 15.0;
/// Least distance of labels, mm.
const APART: f64 = 2.0;

/// Gives labels that only one column can reach without crossing a text that column, wish or no wish.
pub fn bind_sides(labels: &mut [Label], left: &Column, right: &Column, canvas: &Canvas) {
    for label in labels {
        let first = label.right.unwrap_or(true);
        let (a, b) = if first { (right, left) } else { (left, right) };
        match (reachable(label, a, canvas), reachable(label, b, canvas)) {
            (true, false) => label.right = Some(first),
            (false, true) => label.right = Some(!first),
            _ => {}
        }
    }
}

/// Whether some height of the column can be reached past all texts.
fn reachable(label: &Label, column: &Column, canvas: &Canvas) -> bool {
    let y0 = label.pointer.middle().y;
    (0..40).flat_map(|k| [y0 + 1.5 * f64::from(k), y0 - 1.5 * f64::from(k)]).any(|y| {
        y > column.window.0
            && y < column.window.1
            && !column.forbidden.iter().any(|(lo, hi)| y > *lo && y < *hi)
            && route(label, y, column, canvas).1 < THROUGH_TEXT
    })
}

/// Decides on which side each label without a wish stands: the nearer one, unless it is full.
pub fn choose_sides(labels: &mut [Label], outline: &Rect, busy: (bool, bool), l: &Lettering) {
    let room = outline.height() + 16.0;
    let need = |label: &Label| {
        let e = label.extent(l);
        e.up + e.down + APART
    };
    let mut load = [0.0_f64; 2];
    for label in labels.iter() {
        if let Some(right) = label.right {
            load[usize::from(right)] += need(label);
        }
    }
    let mut open: Vec<(f64, usize)> = Vec::new();
    for (i, label) in labels.iter().enumerate() {
        if label.right.is_none() {
            let x = label.pointer.middle().x;
            // Positive: the right side is nearer. Vertical dimensions on a side cost 30 mm.
            let d = (x - outline.x0 + if busy.0 { 30.0 } else { 0.0 }) - (outline.x1 - x + if busy.1 { 30.0 } else { 0.0 });
            open.push((d, i));
        }
    }
    open.sort_by(|a, b| b.0.abs().total_cmp(&a.0.abs()).then(a.1.cmp(&b.1)));
    for (d, i) in open {
        if let Some(label) = labels.get_mut(i) {
            let n = need(label);
            let wanted = d >= 0.0;
            let right = if load[usize::from(wanted)] + n > room && load[usize::from(!wanted)] + n <= load[usize::from(wanted)] { !wanted } else { wanted };
            load[usize::from(right)] += n;
            label.right = Some(right);
        }
    }
}

/// Places and draws the labels of one column. Returns plain marks; dimension labels come back as dimensions.
pub fn place(labels: Vec<Label>, column: &Column, canvas: &Canvas, l: &Lettering) -> Vec<Mark> {
    let mut order: Vec<usize> = (0..labels.len()).collect();
    let site = |i: usize| labels.get(i).map_or(PaperPoint::default(), |b| b.pointer.middle());
    order.sort_by(|a, b| site(*a).y.total_cmp(&site(*b).y).then(site(*a).x.total_cmp(&site(*b).x)).then(a.cmp(b)));
    let prices = Prices(RefCell::new(vec![Vec::new(); labels.len()]));
    let mut ends = heights(&labels, &order, column, canvas, l, &prices);
    // Swapping two crossing leaders shortens their sum, so this ends; the bound is a guard.
    for _ in 0..40 {
        let Some((i, j)) = first_crossing(&labels, &order, &ends, column, canvas) else { break };
        order.swap(i, j);
        ends = heights(&labels, &order, column, canvas, l, &prices);
    }
    let mut slots: Vec<(usize, Slot)> = order.into_iter().zip(ends).collect();
    slots.sort_by_key(|s| s.0);
    labels.into_iter().zip(slots).flat_map(|(label, (_, slot))| draw(label, slot, column, canvas, l)).collect()
}

/// Height at which a leader passes the dimensions, and height of its label.
#[derive(Debug, Clone, Copy)]
struct Slot {
    port: f64,
    label: f64,
    /// Extra distance of the column when leaders have to fan out.
    fan: f64,
}

/// What the leader of a label costs at a height: asked again for every order of the labels. For each label so many places, found by the
/// bits of the height; what falls on a place in use takes it over.
struct Prices(RefCell<Vec<Vec<(u64, f64)>>>);

/// Places for the heights of a label: twice as many as its column has in half millimetres.
const PLACES_BITS: u32 = 13;

impl Prices {
    fn of(&self, which: usize, y: f64, price: impl FnOnce() -> f64) -> f64 {
        let bits = y.to_bits();
        // Fibonacci hashing: the high bits of a product with 2⁶⁴/φ.
        let at = (bits.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> (64 - PLACES_BITS)) as usize;
        let mut known = self.0.borrow_mut();
        let Some(own) = known.get_mut(which) else { return price() };
        own.resize(1 << PLACES_BITS, (u64::MAX, 0.0));
        match own.get_mut(at) {
            Some(place) if place.0 == bits => place.1,
            Some(place) => {
                *place = (bits, price());
                place.1
            }
            None => price(),
        }
    }
}

fn heights(labels: &[Label], order: &[usize], column: &Column, canvas: &Canvas, l: &Lettering, prices: &Prices) -> Vec<Slot> {
    let wants: Vec<Want> = order
        .iter()
        .filter_map(|i| labels.get(*i))
        .map(|b| {
            let e = b.extent(l);
            Want { at: b.pointer.middle().y, low: e.down, high: e.up }
        })
        .collect();
    let level = |y: f64| column.forbidden.iter().any(|(lo, hi)| y > *lo && y < *hi);
    let way = |i: usize, y: f64| {
        let known = order.get(i).and_then(|k| Some((*k, labels.get(*k)?)));
        known.map_or(0.0, |(k, label)| prices.of(k, y, || route(label, y, column, canvas).1))
    };
    let cost = |i: usize, y: f64| {
        if level(y) {
            return f64::INFINITY;
        }
        way(i, y)
    };
    let total: f64 = wants.iter().map(|w| w.low + w.high + APART).sum();
    let lo = wants.iter().map(|w| w.at).fold(f64::INFINITY, f64::min) - total - 20.0;
    let hi = wants.iter().map(|w| w.at).fold(f64::NEG_INFINITY, f64::max) + total + 20.0;
    let (wlo, whi) = (lo.max(column.window.0), hi.min(column.window.1));
    if let Some(y) = line_up(&wants, APART, wlo, whi, 0.5, &cost) {
        return y.into_iter().map(|y| Slot { port: y, label: y, fan: 0.0 }).collect();
    }
    // No room for level leaders: pass the dimensions close together, then fan out to the labels.
    let rows = line_up(&wants, APART, lo, hi, 0.5, &|_, _| 0.0);
    let near = |i: usize, w: &Want| rows.as_ref().and_then(|r| r.get(i)).map_or(w.at, |y| y.clamp(wlo.min(whi), whi));
    let thin: Vec<Want> = wants.iter().enumerate().map(|(i, w)| Want { at: near(i, w), low: 0.4, high: 0.4 }).collect();
    let ports = line_up(&thin, 0.7, wlo, whi, 0.25, &cost).or_else(|| {
        let price = |i: usize, y: f64| way(i, y) + if level(y) { THROUGH_TEXT } else { 0.0 };
        line_up(&thin, 0.2, wlo - 40.0, whi + 40.0, 0.25, &price)
    });
    let mut spare = lo;
    wants
        .iter()
        .enumerate()
        .map(|(i, w)| {
            spare += w.low + w.high + APART;
            let label = rows.as_ref().and_then(|r| r.get(i)).copied().unwrap_or(spare);
            Slot { port: ports.as_ref().and_then(|p| p.get(i)).copied().unwrap_or(label), label, fan: 8.0 }
        })
        .collect()
}

/// The leader's points to the column at height `y`, and its price: straight if no text is in the way.
fn route(label: &Label, y: f64, column: &Column, canvas: &Canvas) -> (Vec<PaperPoint>, f64) {
    let s = if column.right { 1.0 } else { -1.0 };
    let free = |path: &[PaperPoint]| path.iter().zip(path.iter().skip(1)).all(|(p, q)| canvas.line_free(*p, *q));
    let finish = |mut path: Vec<PaperPoint>| {
        path.push(PaperPoint::new(column.x, y));
        path
    };
    let straight = finish(label.pointer.path(PaperPoint::new(column.port, y)));
    if free(&straight) {
        return (straight, 0.0);
    }
    let site = label.pointer.middle();
    for lean in [0.5, 0.15, 1.2, -0.3] {
        let x = site.x + s * lean * (y - site.y).abs();
        if (column.port - x) * s <= 0.0 {
            continue;
        }
        let mut path = label.pointer.path(PaperPoint::new(x, y));
        path.push(PaperPoint::new(column.port, y));
        let path = finish(path);
        if free(&path) {
            return (path, STEEP + lean.abs());
        }
    }
    (straight, THROUGH_TEXT)
}

fn first_crossing(labels: &[Label], order: &[usize], ends: &[Slot], column: &Column, canvas: &Canvas) -> Option<(usize, usize)> {
    let paths: Vec<Option<Vec<PaperPoint>>> = (0..order.len()).map(|k| Some(route(labels.get(*order.get(k)?)?, ends.get(k)?.port, column, canvas).0)).collect();
    let path = |k: usize| paths.get(k).and_then(Option::as_ref);
    for i in 0..order.len() {
        for j in i + 1..order.len() {
            if let (Some(p), Some(q)) = (path(i), path(j))
                && p.iter().zip(p.iter().skip(1)).any(|(a, b)| q.iter().zip(q.iter().skip(1)).any(|(c, d)| cross(*a, *b, *c, *d)))
            {
                return Some((i, j));
            }
        }
    }
    None
}

/// Whether two segments cross in their insides.
fn cross(a: PaperPoint, b: PaperPoint, c: PaperPoint, d: PaperPoint) -> bool {
    let side = |p: PaperPoint, q: PaperPoint, r: PaperPoint| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    side(a, b, c) * side(a, b, d) < -1e-9 && side(c, d, a) * side(c, d, b) < -1e-9
}

fn draw(label: Label, slot: Slot, column: &Column, canvas: &Canvas, l: &Lettering) -> Vec<Mark> {
    let s = if column.right { 1.0 } else { -1.0 };
    let mut points = route(&label, slot.port, column, canvas).0;
    let end = PaperPoint::new(column.x + s * slot.fan, slot.label);
    points.push(end);
    points.dedup_by(|a, b| (a.x - b.x).abs() < 1e-6 && (a.y - b.y).abs() < 1e-6);
    let pen = if label.dimension.is_some() { Pen::Dimension } else { Pen::Leader };
    let mut strokes = vec![pencil::chain(pen, &points)];
    if let [tip, next, ..] = points.as_slice() {
        let arrow = match label.terminator {
            Terminator::Bare => None,
            Terminator::Arrow => Some(true),
            Terminator::Auto => Some(!matches!(label.pointer, Pointer::Point(_)) || canvas.on_line(*tip, 0.3)),
        };
        match arrow {
            Some(true) => strokes.push(pencil::arrow(pen, *tip, (tip.x - next.x, tip.y - next.y), l.text)),
            Some(false) => strokes.push(pencil::dot(pen, *tip, 0.5)),
            None => {}
        }
    }
    strokes.extend(label.draw(end, column.right, l));
    match label.dimension {
        Some(mut d) => {
            if let (Pointer::Circle { centre, .. }, Some(near)) = (&label.pointer, points.first()) {
                d.measure = crate::paper::mark::Measure::Diameter { near: *near, far: PaperPoint::new(2.0 * centre.x - near.x, 2.0 * centre.y - near.y) };
            }
            d.strokes.extend(strokes);
            vec![Mark::Dimension(Box::new(d))]
        }
        None => strokes,
    }
}
