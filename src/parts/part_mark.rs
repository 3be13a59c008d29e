//! Where the part mark stands: clear of edges, openings, holes and bends, as large as there is room.
//!
//! Letters are drawn elsewhere; here a mark is a box of [`width`] × height.

use super::flat::{Contour, FlatPattern, MarkPlace};
use crate::geometry::{contains, point, ring, span_inside};
use kurbo::{BezPath, Line, Point, Rect, Shape as _};

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
    let mut inner: Vec<(Rect, BezPath)> = Vec::new();
    let mut add = |points: &[Point]| lines.extend(points.iter().zip(points.iter().cycle().skip(1)).map(|(a, b)| Line::new(*a, *b)));
    add(&outer);
    for c in flat.openings.iter().map(|o| o.contour.clone()).chain(flat.holes.iter().map(|h| Contour::Circle { centre: h.at, diameter: h.diameter.max(10.0) }))
    {
        let points = c.points(0.4);
        add(&points);
        keep_out(&mut inner, ring(points));
    }
    // Rolled plates may be marked on the curve; pressed bends not.
    for b in flat.bends.iter().filter(|b| !b.rolled) {
        let size = flat.size();
        let zone = [[b.start, 0.0], [b.start + b.flat_length, 0.0], [b.start + b.flat_length, size[1]], [b.start, size[1]]].map(point);
        add(&zone);
        keep_out(&mut inner, ring(zone));
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
            let grid = Grid::clear_of(&lines, [size[0] - w, size[1] - h], [w, h]);
            let free = |at: Point| contains(&outer, at) && !inner.iter().any(|(bounds, p)| bounds.contains(at) && contains(p, at));
            // From the lower left; plates are read there first.
            if let Some(room) = grid.first(free) {
                return Some(MarkPlace { text: text.clone(), at: [room.x0 + clear, room.y0 + clear], height });
            }
        }
    }
    None
}

fn keep_out(inner: &mut Vec<(Rect, BezPath)>, ring: BezPath) {
    inner.push((ring.bounding_box(), ring));
}

/// Steps of the grid each way.
const STEPS: u16 = 40;

/// Places of a box over a plate, in steps from its lower left, and which of them a line runs through.
struct Grid {
    travel: [f64; 2],
    size: [f64; 2],
    met: Vec<bool>,
}

impl Grid {
    /// How far the lower left corner may go, and the size of the box, mm.
    fn clear_of(lines: &[Line], travel: [f64; 2], size: [f64; 2]) -> Self {
        let places = usize::from(STEPS + 1) * usize::from(STEPS + 1);
        let mut grid = Self { travel, size, met: vec![false; places] };
        for line in lines {
            let box_of_line = line.bounding_box();
            // Only places whose box reaches the line's own are looked at.
            let (columns, rows) = (grid.steps(0, box_of_line.x0, box_of_line.x1), grid.steps(1, box_of_line.y0, box_of_line.y1));
            for row in rows {
                for column in columns.clone() {
                    // A line along the edge of the box does not enter it.
                    let within = grid.room(column, row).inflate(-1e-9, -1e-9);
                    if let Some(met) = grid.met.get_mut(Self::index(column, row)).filter(|met| !**met) {
                        *met = span_inside(*line, within).is_some();
                    }
                }
            }
        }
        grid
    }

    const fn index(column: u16, row: u16) -> usize {
        row as usize * (STEPS as usize + 1) + column as usize
    }

    /// The steps along an axis at which the box reaches a stretch, one more at either end for rounding.
    fn steps(&self, axis: usize, low: f64, high: f64) -> std::ops::RangeInclusive<u16> {
        let step = self.travel[axis] / f64::from(STEPS);
        if step <= 0.0 {
            return 0..=STEPS;
        }
        let to = |at: f64| at.clamp(0.0, f64::from(STEPS)) as u16;
        to((low - self.size[axis]) / step - 1.0)..=to(high / step + 1.0)
    }

    fn room(&self, column: u16, row: u16) -> Rect {
        let low = |axis: usize, step: u16| self.travel[axis] * f64::from(step) / f64::from(STEPS);
        let (x, y) = (low(0, column), low(1, row));
        Rect::new(x, y, x + self.size[0], y + self.size[1])
    }

    /// The first box that no line enters and whose middle is free, row by row from the bottom. Boxes that overlap and are
    /// entered by no line lie on the same side of all of them: only one of them is asked.
    fn first(&self, free: impl Fn(Point) -> bool) -> Option<Rect> {
        let overlap = [0, 1].map(|axis| self.travel[axis] / f64::from(STEPS) < self.size[axis]);
        let mut taken = vec![false; self.met.len()];
        for row in 0..=STEPS {
            for column in 0..=STEPS {
                let here = Self::index(column, row);
                let is_known = |index: usize| taken.get(index) == Some(&true);
                let beside = column > 0 && overlap[0] && is_known(here - 1) || row > 0 && overlap[1] && is_known(here - usize::from(STEPS) - 1);
                if self.met.get(here) != Some(&false) {
                    continue;
                }
                let room = self.room(column, row);
                if !beside && free(room.center()) {
                    return Some(room);
                }
                if let Some(taken) = taken.get_mut(here) {
                    *taken = true;
                }
            }
        }
        None
    }
}
