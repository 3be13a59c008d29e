//! Where the part mark stands: clear of edges, openings, holes and bends, as large as there is room.
//!
//! Letters are drawn elsewhere; here a mark is a box of [`width`] × height.

use super::flat::{Contour, FlatPattern, MarkPlace};
use crate::geometry::{contains, point, ring, span_inside};
use kurbo::{BezPath, Line, Point, Rect};

/// Advance of a letter as a share of its height: 6/10 wide and 2/10 apart (ISO 3098 type B proportions, from memory).
pub const ADVANCE: f64 = 0.8;
const HEIGHTS: [f64; 4] = [20.0, 14.0, 10.0, 6.0];

/// Width of a mark, mm.
pub fn width(text: &str, height: f64) -> f64 {
    (text.chars().count() as f64 * ADVANCE - 0.2).max(0.0) * height
}

/// Finds a place for the first text that fits, longest first.
pub fn place(flat: &FlatPattern, texts: &[String], clear: f64) -> Option<MarkPlace> {
    let outer = flat.outer.points(0.2);
    let mut lines: Vec<Line> = Vec::new();
    let mut inner: Vec<BezPath> = Vec::new();
    let mut add = |points: &[Point]| lines.extend(points.iter().zip(points.iter().cycle().skip(1)).map(|(a, b)| Line::new(*a, *b)));
    add(&outer);
    for c in flat.openings.iter().map(|o| o.contour.clone()).chain(flat.holes.iter().map(|h| Contour::Circle { centre: h.at, diameter: h.diameter.max(10.0) }))
    {
        let points = c.points(0.4);
        add(&points);
        inner.push(ring(points));
    }
    // Rolled plates may be marked on the curve; pressed bends not.
    for b in flat.bends.iter().filter(|b| !b.rolled) {
        let size = flat.size();
        let zone = [[b.start, 0.0], [b.start + b.flat_length, 0.0], [b.start + b.flat_length, size[1]], [b.start, size[1]]].map(point);
        add(&zone);
        inner.push(ring(zone));
    }
    lines.extend(flat.scribed.iter().flat_map(|s| s.line.edge().chords(0.2)));
    let outer = ring(outer);
    let size = flat.size();
    for text in texts {
        for height in HEIGHTS {
            let (w, h) = (width(text, height) + 2.0 * clear, height + 2.0 * clear);
            if w > size[0] || h > size[1] {
                continue;
            }
            let (nx, ny) = (40_u32, 40_u32);
            // From the lower left; plates are read there first.
            for j in 0..=ny {
                for i in 0..=nx {
                    let low = [(size[0] - w) * f64::from(i) / f64::from(nx), (size[1] - h) * f64::from(j) / f64::from(ny)];
                    // A line along the edge of the box does not enter it.
                    let room = Rect::new(low[0], low[1], low[0] + w, low[1] + h);
                    let within = room.inflate(-1e-9, -1e-9);
                    let free = |p: &BezPath| !contains(p, room.center());
                    if !free(&outer) && inner.iter().all(free) && !lines.iter().any(|l| span_inside(*l, within).is_some()) {
                        return Some(MarkPlace { text: text.clone(), at: [low[0] + clear, low[1] + clear], height });
                    }
                }
            }
        }
    }
    None
}
