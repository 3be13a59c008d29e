//! Signs that stand on the outline of a turned part: surface texture, run-out, datums.
//!
//! Drawn with the strokes of the view, before its dimensions, which stand outside of them.

use super::picture::paper;
use crate::paper::drafting::Lettering;
use crate::paper::lettering::width;
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::request::Side;
use crate::paper::stroke::{Rect, mark_bounds};
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Draft, Item, Sign};

/// Height of the short and of the long leg of a texture sign, of text height (ISO 21920-1, from memory).
const LEGS: (f64, f64) = (1.4, 3.0);
/// Slope of its legs, 60°.
const SLOPE: f64 = 1.732;
/// How far a tolerance frame stands off, paper mm.
const OFF: f64 = 9.0;

/// Draws the signs of a view; the outline grows around them.
pub fn draw(draft: &Draft, scale: f64, l: &Lettering, marks: &mut Vec<Mark>, outline: &mut Rect) {
    let middle = f64::midpoint(outline.x0, outline.x1);
    for item in &draft.items {
        let Item::Sign { at, sign, side } = item else { continue };
        let at = paper(*at, scale);
        let drawn = match sign {
            Sign::Texture { text, us } => texture(at, text, *us, *side, l.text),
            // Frames below or above reach toward the middle of the view, where there is room.
            Sign::RunOut { tolerance, datums } => run_out(at, tolerance, datums, *side, (at.x > middle, l.text)),
            Sign::Datum(letter) => datum(at, letter, *side, l.text),
        };
        drawn.iter().for_each(|m| *outline = outline.union(&mark_bounds(m)));
        marks.extend(drawn);
    }
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
fn run_out(at: PaperPoint, tolerance: &str, datums: &str, side: Side, (leftward, h): (bool, f64)) -> Vec<Mark> {
    let p = PaperPoint::new;
    let (dx, dy) = out(side);
    let high = 2.0 * h;
    let cells = [high, width(tolerance, h, Face::Regular) + h, width(datums, h, Face::Regular) + h];
    let whole: f64 = cells.iter().sum();
    let knee = p(at.x + dx * OFF, at.y + dy * OFF);
    let back = dx < 0.0 || dx == 0.0 && leftward;
    let stub = if dx == 0.0 { 3.0 } else { 0.0 };
    let x0 = if back { knee.x - stub - whole } else { knee.x + stub };
    let (low, middle) = (knee.y - h, knee.y);
    let end = p(if back { x0 + whole } else { x0 }, middle);
    let mut marks = vec![pencil::chain(Pen::Leader, &[at, knee, end]), pencil::arrow(Pen::Leader, at, (-dx, -dy), h)];
    if (end.x - knee.x).abs() < 1e-9 {
        marks.remove(0);
        marks.insert(0, pencil::line(Pen::Leader, at, knee));
    }
    marks.push(pencil::rectangle(Pen::Symbol, x0, low, x0 + whole, low + high));
    let (a, b) = (x0 + cells[0], x0 + cells[0] + cells[1]);
    marks.extend([a, b].map(|x| pencil::line(Pen::Symbol, p(x, low), p(x, low + high))));
    let (from, to) = (p(x0 + 0.25 * high, low + 0.2 * high), p(x0 + 0.75 * high, low + 0.8 * high));
    marks.push(pencil::line(Pen::Symbol, from, to));
    marks.push(pencil::arrow(Pen::Symbol, to, (to.x - from.x, to.y - from.y), 0.8 * h));
    for (text, x0, x1) in [(tolerance, a, b), (datums, b, x0 + whole)] {
        marks.push(pencil::text(Pen::Symbol, text, p(x0.midpoint(x1), low + h / 2.0), h, Align::Centre));
    }
    marks
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
