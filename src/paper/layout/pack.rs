//! Packs the parts of a sheet into the drawing space: rectangles, none overlapping, deterministic.
//!
//! Maximal free rectangles (Jylänki 2010, from memory). The projected views come first, as one rigid
//! group of rectangles; then tables and notes over the title block; then what may stand anywhere.

use crate::paper::stroke::Rect;

/// Clear distance between parts, paper mm.
pub const GAP: f64 = 8.0;

/// A part that is packed as one rectangle, in one of several shapes.
#[derive(Debug, Clone)]
pub struct Piece {
    /// Width and height of each shape, best first, mm.
    pub shapes: Vec<(f64, f64)>,
    /// Stands in the column over the title block if it can.
    pub over_title: bool,
}

/// Where a piece came to stand: its shape and lower left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Index of the shape.
    pub shape: usize,
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
}

/// A packed sheet.
#[derive(Debug, Clone)]
pub struct Packing {
    /// Shift of the group of projected views.
    pub group: (f64, f64),
    /// One spot for each piece.
    pub spots: Vec<Spot>,
}

/// Packs a group and pieces into `area`, off the title block; `None` if something finds no place.
pub fn pack(group: &[Rect], pieces: &[Piece], area: &Rect, title: &Rect) -> Option<Packing> {
    if group.is_empty() {
        return orders(pieces).into_iter().find_map(|o| rest(&o, pieces, &[], area, title)).map(|spots| Packing { group: (0.0, 0.0), spots });
    }
    let bounds = group.iter().fold(Rect::EMPTY, |r, g| r.union(g));
    let xs = [area.x0 - bounds.x0, title.x0 - GAP - bounds.x1, area.x1 - bounds.x1, (area.x0 + area.x1 - bounds.x0 - bounds.x1) / 2.0];
    let ys = [area.y1 - bounds.y1, title.y1 + GAP - bounds.y0, area.y0 - bounds.y0, (area.y0 + area.y1 - bounds.y0 - bounds.y1) / 2.0];
    for dy in ys {
        for dx in xs {
            let placed: Vec<Rect> = group.iter().map(|g| g.moved(dx, dy)).collect();
            if placed.iter().any(|g| !area.contains(g) || g.overlaps(&title.grown(GAP - 1e-6))) {
                continue;
            }
            for order in orders(pieces) {
                if let Some(spots) = rest(&order, pieces, &placed, area, title) {
                    return Some(Packing { group: (dx, dy), spots });
                }
            }
        }
    }
    None
}

/// Orders in which the pieces are tried: words first, then by area; or all by area.
fn orders(pieces: &[Piece]) -> Vec<Vec<usize>> {
    let size = |i: usize| pieces.get(i).and_then(|p| p.shapes.first()).map_or(0.0, |s| s.0 * s.1);
    let words = |i: usize| pieces.get(i).is_some_and(|p| p.over_title);
    let mut first: Vec<usize> = (0..pieces.len()).collect();
    first.sort_by(|a, b| words(*b).cmp(&words(*a)).then(if words(*a) && words(*b) { a.cmp(b) } else { size(*b).total_cmp(&size(*a)).then(a.cmp(b)) }));
    let mut second: Vec<usize> = (0..pieces.len()).collect();
    second.sort_by(|a, b| size(*b).total_cmp(&size(*a)).then(a.cmp(b)));
    let mut third = second.clone();
    third.sort_by(|a, b| words(*a).cmp(&words(*b)).then(size(*b).total_cmp(&size(*a))).then(a.cmp(b)));
    vec![first, second, third]
}

fn rest(order: &[usize], pieces: &[Piece], taken: &[Rect], area: &Rect, title: &Rect) -> Option<Vec<Spot>> {
    // Every rectangle claims half the gap around itself; the area lends it at its edges.
    let half = GAP / 2.0;
    let mut free = vec![area.grown(half)];
    for t in taken {
        carve(&mut free, &t.grown(half));
    }
    carve(&mut free, &title.grown(half));
    let mut spots: Vec<Option<Spot>> = vec![None; pieces.len()];
    for i in order {
        let piece = pieces.get(*i)?;
        let mut best: Option<(f64, Spot)> = None;
        for (k, (w, h)) in piece.shapes.iter().enumerate() {
            for f in &free {
                let (w, h) = (w + GAP, h + GAP);
                let (sx, sy) = (f.width() - w, f.height() - h);
                if sx < -1e-6 || sy < -1e-6 {
                    continue;
                }
                let (x, y, score) = if piece.over_title {
                    // Close to the title block's right edge and low: rows grow upward from it.
                    let (x, y) = (f.x1 - w, f.y0);
                    (x, y, (area.x1 - x - w).abs() * 3.0 + (y - title.y1).abs())
                } else {
                    (f.x0, f.y1 - h, sx.min(sy) + 0.01 * sx.max(sy))
                };
                let score = score + 40.0 * k as f64;
                if best.is_none_or(|(s, _)| score < s - 1e-9) {
                    best = Some((score, Spot { shape: k, x: x + half, y: y + half }));
                }
            }
        }
        let (_, spot) = best?;
        let (w, h) = piece.shapes.get(spot.shape).copied()?;
        carve(&mut free, &Rect::new(spot.x, spot.y, spot.x + w, spot.y + h).grown(half));
        *spots.get_mut(*i)? = Some(spot);
    }
    spots.into_iter().collect()
}

/// Takes a rectangle out of the free ones and keeps the maximal rest.
fn carve(free: &mut Vec<Rect>, r: &Rect) {
    let mut next: Vec<Rect> = Vec::new();
    for f in free.iter() {
        if !f.overlaps(r) {
            next.push(*f);
            continue;
        }
        for part in [Rect::new(f.x0, f.y0, r.x0, f.y1), Rect::new(r.x1, f.y0, f.x1, f.y1), Rect::new(f.x0, f.y0, f.x1, r.y0), Rect::new(f.x0, r.y1, f.x1, f.y1)]
        {
            if part.width() > 1.0 && part.height() > 1.0 {
                next.push(part);
            }
        }
    }
    let keep: Vec<Rect> = next
        .iter()
        .enumerate()
        .filter(|(i, a)| !next.iter().enumerate().any(|(j, b)| i != &j && b.contains(a) && (!a.contains(b) || j < *i)))
        .map(|(_, a)| *a)
        .collect();
    *free = keep;
}
