//! Signs that stand on the outline of a turned part: surface texture, run-out, datums.
//!
//! Drawn with the strokes of the view, before its dimensions, which stand outside of them; a tolerance frame keeps clear of
//! the extension lines and cutting planes that will run there.

use super::picture::{CUT_ZONE, paper};
use crate::paper::drafting::Lettering;
use crate::paper::lettering::width;
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::request::{Quantity, Side};
use crate::paper::stroke::{Rect, mark_bounds};
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Draft, Item, Sign};

/// Height of the short and of the long leg of a texture sign, of text height (ISO 21920-1, from memory).
const LEGS: (f64, f64) = (1.4, 3.0);
/// Slope of its legs, 60°.
const SLOPE: f64 = 1.732;
/// How far a tolerance frame stands off, paper mm.
const OFF: f64 = 9.0;

/// Longest stub between a leader's knee and its frame, paper mm.
const LONGEST_STUB: u32 = 40;

/// Draws the signs of a view; the outline grows around them.
pub fn draw(draft: &Draft, scale: f64, l: &Lettering, marks: &mut Vec<Mark>, outline: &mut Rect) {
    let middle = f64::midpoint(outline.x0, outline.x1);
    let mut boxes: Vec<Rect> = Vec::new();
    for item in &draft.items {
        let Item::Sign { at, slide, sign, side } = item else { continue };
        let at = paper(*at, scale);
        let lines = running(draft, scale, *side);
        let clear = |reach: &Rect| lines.iter().all(|(a, b)| *b < reach.x0 - 0.4 || *a > reach.x1 + 0.4) && boxes.iter().all(|b| apart(b, reach));
        let sliding = |draw: &dyn Fn(PaperPoint) -> Vec<Mark>| {
            let steps = if side.horizontal() { (slide / scale) as i32 } else { 0 };
            let places = (0..=2 * steps).flat_map(|k| [k, -k]).map(|k| PaperPoint::new(at.x + 0.5 * f64::from(k), at.y));
            let all: Vec<Vec<Mark>> = places.map(draw).collect();
            // Where nothing is wholly clear, at least its text is.
            let whole = all.iter().find(|drawn| clear(&reach(drawn)));
            let found = whole.or_else(|| all.iter().find(|drawn| clear(&lettering(drawn))));
            found.cloned().unwrap_or_else(|| draw(at))
        };
        let drawn = match sign {
            Sign::Texture { text, us } => sliding(&|at| texture(at, text, *us, *side, l.text)),
            // Frames below or above reach toward the middle of the view first, where there is room.
            Sign::RunOut { tolerance, datums } => {
                let frame = Frame { at, tolerance, datums, side: *side, h: l.text };
                frame.draw(&frame.stand(&lines, &boxes, at.x > middle))
            }
            Sign::Datum(letter) => sliding(&|at| datum(at, letter, *side, l.text)),
        };
        let own = reach(&drawn);
        boxes.push(own);
        *outline = outline.union(&own);
        marks.extend(drawn);
    }
}

/// What a sign takes up.
fn reach(drawn: &[Mark]) -> Rect {
    drawn.iter().fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)))
}

/// What the text of a sign takes up.
fn lettering(drawn: &[Mark]) -> Rect {
    drawn.iter().filter(|m| matches!(m, Mark::Text(_))).fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)))
}

/// Whether two signs keep clear of each other.
fn apart(a: &Rect, b: &Rect) -> bool {
    a.x1 < b.x0 - 0.7 || a.x0 > b.x1 + 0.7 || a.y1 < b.y0 - 0.7 || a.y0 > b.y1 + 0.7
}

/// What will run outward on a side: extension lines of its dimensions, ends of cutting planes with their arrows; from, to.
fn running(draft: &Draft, scale: f64, side: Side) -> Vec<(f64, f64)> {
    let lines = draft.dimensions.iter().filter_map(|r| match r.quantity {
        Quantity::Linear { side: own, first, second } if own == side => Some([first, second]),
        _ => None,
    });
    let lines = lines.flatten().map(|p| paper(p, scale).x).map(|x| (x, x));
    let cuts = draft.items.iter().filter_map(|item| match item {
        Item::Cut { from, look, .. } if !look.horizontal() => {
            let (x, arrow) = (paper(*from, scale).x, look.outward() * CUT_ZONE / 1.5);
            Some((x.min(x + arrow), x.max(x + arrow)))
        }
        _ => None,
    });
    lines.chain(cuts).collect()
}

/// The direction in which a sign stands out.
const fn out(side: Side) -> (f64, f64) {
    match side {
        Side::Above => (0.0, 1.0),
        Side::Below => (0.0, -1.0),
        Side::Left => (-1.0, 0.0),
        Side::Right => (1.0, 0.0),
    }
}

/// A hook with a bar: on top of the outline, elsewhere on a leader beside it.
fn texture(at: PaperPoint, text: &str, us: bool, side: Side, h: f64) -> Vec<Mark> {
    let p = PaperPoint::new;
    let w = width(text, h, Face::Regular);
    let (short, long) = (LEGS.0 * h, LEGS.1 * h);
    let mut marks = Vec::new();
    let tip = if side == Side::Above {
        at
    } else {
        let (dx, dy) = out(side);
        let reach = if dy < 0.0 { long + 4.0 } else { 6.0 };
        let knee = p(at.x + dx * reach, at.y + dy * reach);
        let foot = p(knee.x + if dx < 0.0 { -(w + long) } else { 3.0 }, knee.y);
        marks.push(pencil::chain(Pen::Leader, &[at, knee, foot]));
        marks.push(pencil::arrow(Pen::Leader, at, (-dx, -dy), h));
        p(foot.x + if dx < 0.0 { short } else { 0.0 }, foot.y)
    };
    let on = |y: f64| p(tip.x + y / SLOPE, tip.y + y);
    let left = p(tip.x - short / SLOPE, tip.y + short);
    let top = on(long);
    marks.push(pencil::chain(Pen::Symbol, &[left, tip, top]));
    marks.push(pencil::line(Pen::Symbol, left, on(short)));
    if us {
        marks.push(pencil::text(Pen::Symbol, text, p(on(short).x - 0.3, tip.y + short + 0.7), h, Align::Right));
    } else {
        marks.push(pencil::line(Pen::Symbol, top, p(top.x + w + 1.0, top.y)));
        marks.push(pencil::text(Pen::Symbol, text, p(top.x + 0.4, top.y - h - 0.9), h, Align::Left));
    }
    marks
}

/// A tolerance frame on a leader that ends in an arrow on the outline.
struct Frame<'a> {
    at: PaperPoint,
    tolerance: &'a str,
    datums: &'a str,
    side: Side,
    h: f64,
}

/// Where a frame stands: its leader's knee, and its ends.
struct Stand {
    knee: PaperPoint,
    from: f64,
    to: f64,
}

impl Frame<'_> {
    fn cells(&self) -> [f64; 3] {
        [2.0 * self.h, width(self.tolerance, self.h, Face::Regular) + self.h, width(self.datums, self.h, Face::Regular) + self.h]
    }

    /// So many rows off the outline, behind a stub of this length.
    fn at_row(&self, row: u32, leftward: bool, stub: f64) -> Stand {
        let whole: f64 = self.cells().iter().sum();
        let (dx, dy) = out(self.side);
        let off = OFF + f64::from(row) * 2.6 * self.h;
        let knee = PaperPoint::new(self.at.x + dx * off, self.at.y + dy * off);
        let (from, to) = if leftward { (knee.x - stub - whole, knee.x - stub) } else { (knee.x + stub, knee.x + stub + whole) };
        Stand { knee, from, to }
    }

    /// The nearest stand that is clear of what runs outward and of other signs.
    fn stand(&self, lines: &[(f64, f64)], boxes: &[Rect], leftward: bool) -> Stand {
        if !self.side.horizontal() {
            return self.at_row(0, self.side == Side::Left, 0.0);
        }
        let clear = |s: &Stand| {
            let (low, high) = (s.knee.y - self.h - 0.7, s.knee.y + self.h + 0.7);
            let (left, right) = (s.from.min(s.knee.x) - 0.7, s.to.max(s.knee.x) + 0.7);
            let (near, far) = (self.at.y.min(s.knee.y), self.at.y.max(s.knee.y));
            let passed = |b: &Rect| b.x0 < self.at.x && self.at.x < b.x1 && b.y0 < far && near < b.y1;
            lines.iter().all(|(a, b)| *b < s.from - 0.7 || *a > s.to + 0.7)
                && boxes.iter().all(|b| b.x1 < left || b.x0 > right || b.y1 < low || b.y0 > high)
                && !boxes.iter().any(passed)
        };
        let rows = (0..3).flat_map(|row| [leftward, !leftward].map(|way| (row, way)));
        let mut all = rows.flat_map(|(row, way)| (3..=LONGEST_STUB).map(move |stub| (row, way, f64::from(stub))));
        all.find_map(|(row, way, stub)| Some(self.at_row(row, way, stub)).filter(clear)).unwrap_or_else(|| self.at_row(0, leftward, 3.0))
    }

    fn draw(&self, stand: &Stand) -> Vec<Mark> {
        let (p, h) = (PaperPoint::new, self.h);
        let (dx, dy) = out(self.side);
        let Stand { knee, from: x0, to: x1 } = *stand;
        let low = knee.y - h;
        let end = p(if (x0 - knee.x).abs() < (x1 - knee.x).abs() { x0 } else { x1 }, knee.y);
        let way = if end == knee { vec![self.at, end] } else { vec![self.at, knee, end] };
        let mut marks = vec![pencil::chain(Pen::Leader, &way), pencil::arrow(Pen::Leader, self.at, (-dx, -dy), h)];
        marks.push(pencil::rectangle(Pen::Symbol, x0, low, x1, low + 2.0 * h));
        let [first, second, _] = self.cells();
        let (a, b) = (x0 + first, x0 + first + second);
        marks.extend([a, b].map(|x| pencil::line(Pen::Symbol, p(x, low), p(x, low + 2.0 * h))));
        let (from, to) = (p(x0 + 0.5 * h, low + 0.4 * h), p(x0 + 1.5 * h, low + 1.6 * h));
        marks.push(pencil::line(Pen::Symbol, from, to));
        marks.push(pencil::arrow(Pen::Symbol, to, (to.x - from.x, to.y - from.y), 0.8 * h));
        for (text, x0, x1) in [(self.tolerance, a, b), (self.datums, b, x1)] {
            marks.push(pencil::text(Pen::Symbol, text, p(x0.midpoint(x1), low + h / 2.0), h, Align::Centre));
        }
        marks
    }
}

/// A filled triangle on the outline and its letter in a box.
fn datum(at: PaperPoint, letter: &str, side: Side, h: f64) -> Vec<Mark> {
    let (dx, dy) = out(side);
    let on = |along: f64, across: f64| PaperPoint::new(at.x + dx * along - dy * across, at.y + dy * along + dx * across);
    let (high, stem) = (h, 2.2 * h);
    let half = h;
    let c = on(stem + half, 0.0);
    vec![
        pencil::solid(Pen::Symbol, &[on(0.0, -0.6 * h), on(0.0, 0.6 * h), on(high, 0.0)]),
        pencil::line(Pen::Symbol, on(high, 0.0), on(stem, 0.0)),
        pencil::rectangle(Pen::Symbol, c.x - half, c.y - half, c.x + half, c.y + half),
        pencil::text(Pen::Symbol, letter, PaperPoint::new(c.x, c.y - h / 2.0), h, Align::Centre),
    ]
}
