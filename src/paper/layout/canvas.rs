//! What is already inked around a view, so that the next text finds a free place.

use crate::paper::grid::Grid;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Mark, PaperPoint};
use crate::paper::stroke::{Rect, segments};

/// Clear distance between a text and other ink, paper mm.
const CLEAR: f64 = 0.4;

/// Lines and texts placed so far, in the view's local paper coordinates.
#[derive(Debug, Clone)]
pub struct Canvas {
    lines: Vec<(PaperPoint, PaperPoint)>,
    line_grid: Grid,
    texts: Vec<TextBox>,
    /// The texts with the clear distance about them, each with its upright bounds.
    kept_clear: Vec<(TextBox, Rect)>,
    reserved: Vec<TextBox>,
}

impl Canvas {
    /// An empty canvas; most of the ink is expected in `area`.
    pub fn over(area: Rect) -> Self {
        Self { lines: Vec::new(), line_grid: Grid::over(area.grown(60.0)), texts: Vec::new(), kept_clear: Vec::new(), reserved: Vec::new() }
    }

    /// Adds all ink of a mark.
    pub fn add(&mut self, mark: &Mark) {
        mark.walk(&mut |m| match m {
            Mark::Path(p) => segments(&p.shape, &mut |a, b| self.line(a, b)),
            Mark::Hatch(h) => h.loops.iter().for_each(|l| segments(l, &mut |a, b| self.line(a, b))),
            Mark::Text(t) => self.text(TextBox::of(t)),
            _ => {}
        });
    }

    fn text(&mut self, text: TextBox) {
        let grown = text.grown(CLEAR);
        let (lo, hi) = grown.bounds();
        self.texts.push(text);
        self.kept_clear.push((grown, Rect::new(lo.x, lo.y, hi.x, hi.y)));
    }

    fn line(&mut self, a: PaperPoint, b: PaperPoint) {
        let r = Rect::new(a.x.min(b.x), a.y.min(b.y), a.x.max(b.x), a.y.max(b.y));
        self.line_grid.insert(self.lines.len(), &r);
        self.lines.push((a, b));
    }

    /// Whether a text may stand here without touching a line or a text.
    pub fn free(&self, text: &TextBox) -> bool {
        let b = text.grown(CLEAR);
        if self.texts.iter().chain(&self.reserved).any(|t| t.overlaps(&b)) {
            return false;
        }
        let (lo, hi) = b.bounds();
        let mut hit = false;
        self.line_grid.near(&Rect::new(lo.x, lo.y, hi.x, hi.y), &mut |i| {
            hit = hit || self.lines.get(i).is_some_and(|(p, q)| b.length_inside(*p, *q) > 0.0);
        });
        !hit
    }

    /// Keeps texts out of a box.
    pub fn ban(&mut self, place: TextBox) {
        self.reserved.push(place);
    }

    /// Keeps texts off a point: a leader will end there.
    pub fn reserve(&mut self, p: PaperPoint) {
        self.reserved.push(TextBox { centre: p, half_width: 1.2, half_height: 1.2, along: (1.0, 0.0) });
    }

    /// Length of line ink under a text, mm; texts count 100 mm each: to choose the least bad place.
    pub fn crowding(&self, text: &TextBox) -> f64 {
        let b = text.grown(CLEAR);
        let (lo, hi) = b.bounds();
        let mut sum = 100.0 * self.texts.iter().filter(|t| t.overlaps(&b)).count() as f64;
        self.line_grid.near(&Rect::new(lo.x, lo.y, hi.x, hi.y), &mut |i| {
            sum += self.lines.get(i).map_or(0.0, |(p, q)| b.length_inside(*p, *q));
        });
        sum
    }

    /// Whether a line crosses no text.
    pub fn line_free(&self, a: PaperPoint, b: PaperPoint) -> bool {
        // Asked very often: most texts lie wholly beside the line's own bounds.
        let (x0, x1, y0, y1) = (a.x.min(b.x), a.x.max(b.x), a.y.min(b.y), a.y.max(b.y));
        let beside = |r: &Rect| r.x1 < x0 || r.x0 > x1 || r.y1 < y0 || r.y0 > y1;
        self.kept_clear.iter().all(|(text, bounds)| beside(bounds) || text.length_inside(a, b) <= 0.0)
    }

    /// Whether a point lies on a line (within `by` mm).
    pub fn on_line(&self, p: PaperPoint, by: f64) -> bool {
        let mut hit = false;
        self.line_grid.near(&Rect::new(p.x - by, p.y - by, p.x + by, p.y + by), &mut |i| {
            hit = hit
                || self.lines.get(i).is_some_and(|(a, b)| {
                    let (dx, dy) = (b.x - a.x, b.y - a.y);
                    let l2 = dx * dx + dy * dy;
                    let t = if l2 < 1e-12 { 0.0 } else { (((p.x - a.x) * dx + (p.y - a.y) * dy) / l2).clamp(0.0, 1.0) };
                    (a.x + t * dx - p.x).hypot(a.y + t * dy - p.y) <= by
                });
        });
        hit
    }
}
