//! Where the part mark stands: clear of edges, openings, holes and bends, as large as there is room.
//!
//! Letters are drawn elsewhere; here a mark is a box of [`width`] × height.

use super::flat::{Contour, FlatPattern, MarkPlace, Xy};
use super::zones::inside_polygon;

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
    let mut segments: Vec<(Xy, Xy)> = Vec::new();
    let mut inner: Vec<Vec<Xy>> = Vec::new();
    let mut add = |points: &[Xy]| segments.extend(points.iter().copied().zip(points.iter().copied().cycle().skip(1)).take(points.len()));
    add(&outer);
    for c in flat.openings.iter().map(|o| o.contour.clone()).chain(flat.holes.iter().map(|h| Contour::Circle { centre: h.at, diameter: h.diameter.max(10.0) }))
    {
        let points = c.points(0.4);
        add(&points);
        inner.push(points);
    }
    // Rolled plates may be marked on the curve; pressed bends not.
    for b in flat.bends.iter().filter(|b| !b.rolled) {
        let size = flat.size();
        let line = [[b.start, 0.0], [b.start + b.flat_length, 0.0], [b.start + b.flat_length, size[1]], [b.start, size[1]]];
        add(&line);
        inner.push(line.to_vec());
    }
    segments.extend(flat.scribed.iter().copied());
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
                    let high = [low[0] + w, low[1] + h];
                    let centre = [(low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0];
                    if inside_polygon(&outer, centre) && !inner.iter().any(|p| inside_polygon(p, centre)) && !segments.iter().any(|s| meets(*s, low, high)) {
                        return Some(MarkPlace { text: text.clone(), at: [low[0] + clear, low[1] + clear], height });
                    }
                }
            }
        }
    }
    None
}

/// Whether a segment enters a rectangle (clipping by Liang and Barsky).
fn meets((a, b): (Xy, Xy), low: Xy, high: Xy) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for i in 0..2 {
        let d = b[i] - a[i];
        if d.abs() < 1e-12 {
            if a[i] <= low[i] || a[i] >= high[i] {
                return false;
            }
            continue;
        }
        let (mut p, mut q) = ((low[i] - a[i]) / d, (high[i] - a[i]) / d);
        if p > q {
            std::mem::swap(&mut p, &mut q);
        }
        from = from.max(p);
        to = to.min(q);
    }
    from < to
}
