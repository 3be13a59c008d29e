//! What stands at the end of a leader: a note, a balloon, a weld sign, the text of a diameter.
//!
//! A [`Label`] knows its size and how to draw itself to the left or right of its column; where it
//! stands is the business of [`super::labels`].

use crate::paper::drafting::Lettering;
use crate::paper::lettering::{LINE_PITCH, width};
use crate::paper::mark::{Align, Dimension, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Weld, WeldKind, WeldSide};

/// What a leader points at, local paper.
#[derive(Debug, Clone, PartialEq)]
pub enum Pointer {
    /// A point.
    Point(PaperPoint),
    /// A circle: the leader points at its centre and ends on it.
    Circle {
        /// Its centre.
        centre: PaperPoint,
        /// Its radius, paper mm.
        radius: f64,
    },
    /// A point reached over a short radial stub.
    Stub {
        /// The point.
        on: PaperPoint,
        /// The other end of the stub.
        out: PaperPoint,
    },
}

/// How the leader ends at what it points at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Terminator {
    /// Arrow on a line, dot on a surface.
    Auto,
    /// Arrow.
    Arrow,
    /// Nothing: the leader comes from a dimension line.
    Bare,
}

/// What is written.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// Lines of a note.
    Lines(Vec<String>),
    /// An item number.
    Balloon(String),
    /// A weld sign.
    Weld(Weld),
}

/// Something at the end of a leader.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What the leader points at.
    pub pointer: Pointer,
    /// How the leader ends there.
    pub terminator: Terminator,
    /// What is written.
    pub content: Content,
    /// Which column: +1 right, −1 left.
    pub right: Option<bool>,
    /// The dimension whose text this is; leader and text join its strokes.
    pub dimension: Option<Dimension>,
}

/// Room on one side of the leader's end: width, above and below its height.
#[derive(Debug, Clone, Copy)]
pub struct Extent {
    /// Away from the view, mm.
    pub width: f64,
    /// Above the leader's end, mm.
    pub up: f64,
    /// Below the leader's end, mm.
    pub down: f64,
}

/// Radius of a balloon around its number, mm.
fn balloon_radius(item: &str, l: &Lettering) -> f64 {
    (1.6 * l.text).max(width(item, l.text, Face::Regular) / 2.0 + 1.2)
}

/// Gap between the end of a leader and its text, mm.
const GAP: f64 = 1.2;

impl Pointer {
    /// A point that stands for the whole, to sort by.
    pub fn middle(&self) -> PaperPoint {
        match self {
            Pointer::Point(p) => *p,
            Pointer::Circle { centre, .. } => *centre,
            Pointer::Stub { out, .. } => *out,
        }
    }

    /// The leader's points from what it points at to `port`.
    pub fn path(&self, port: PaperPoint) -> Vec<PaperPoint> {
        match self {
            Pointer::Point(p) => vec![*p, port],
            Pointer::Circle { centre, radius } => {
                let (dx, dy) = (port.x - centre.x, port.y - centre.y);
                let d = dx.hypot(dy).max(1e-9);
                // A turning point inside the circle would bend the leader back; the circle's edge takes its place.
                if d < radius + 0.5 {
                    let edge = PaperPoint::new(centre.x + dx / d * radius, centre.y + dy / d * radius);
                    return vec![edge, PaperPoint::new(centre.x + dx / d * (radius + 2.0), centre.y + dy / d * (radius + 2.0)), port];
                }
                vec![PaperPoint::new(centre.x + dx / d * radius, centre.y + dy / d * radius), port]
            }
            Pointer::Stub { on, out } => vec![*on, *out, port],
        }
    }
}

impl Label {
    /// Its size.
    pub fn extent(&self, l: &Lettering) -> Extent {
        let h = l.text;
        match &self.content {
            Content::Lines(lines) => {
                let w = lines.iter().map(|t| width(t, h, Face::Regular)).fold(0.0, f64::max);
                let below = (lines.len().saturating_sub(1)) as f64 * h * LINE_PITCH;
                Extent { width: w + GAP, up: h / 2.0 + 0.4, down: below + h / 2.0 + 0.9 }
            }
            Content::Balloon(item) => {
                let r = balloon_radius(item, l);
                Extent { width: 2.0 * r, up: r, down: r }
            }
            Content::Weld(w) => {
                let (before, sign, tail) = weld_widths(w, l);
                let reach = |up: bool| stands(w).filter(|(side, _)| (*side > 0.0) == up).map(|(_, off)| off + h + 1.5).fold(2.0, f64::max);
                Extent { width: before + sign + tail + 3.0, up: reach(true) + 0.3, down: reach(false) }
            }
        }
    }

    /// Draws the content; `end` is the leader's end at the column.
    pub fn draw(&self, end: PaperPoint, right: bool, l: &Lettering) -> Vec<Mark> {
        let h = l.text;
        let s = if right { 1.0 } else { -1.0 };
        let align = if right { Align::Left } else { Align::Right };
        let pen = if self.dimension.is_some() { Pen::Dimension } else { Pen::Leader };
        match &self.content {
            Content::Lines(lines) => lines
                .iter()
                .enumerate()
                .map(|(i, t)| pencil::text(pen, t.clone(), PaperPoint::new(end.x + s * GAP, end.y - h / 2.0 - i as f64 * h * LINE_PITCH), h, align))
                .collect(),
            Content::Balloon(item) => {
                let r = balloon_radius(item, l);
                let c = PaperPoint::new(end.x + s * r, end.y);
                vec![pencil::circle(Pen::Leader, c, r), pencil::text(Pen::Leader, item.clone(), PaperPoint::new(c.x, c.y - h / 2.0), h, Align::Centre)]
            }
            Content::Weld(w) => weld(w, end, right, l),
        }
    }
}

/// Distance of the identification line from the reference line, mm.
const IDENTIFICATION: f64 = 1.2;
/// Between symbol, beads and gap of an intermittent weld, mm.
const APART: f64 = 1.0;

/// Widths of size text, of the sign with its beads, and of the tail of a weld sign.
fn weld_widths(w: &Weld, l: &Lettering) -> (f64, f64, f64) {
    let h = l.text;
    let words = w.whole_tail();
    let tail = if words.is_empty() { 0.0 } else { 3.0 + width(&words, h, Face::Regular) };
    (3.0 + width(&w.size, h, Face::Regular) + 1.0, h + 2.0 + bead_widths(w, h).iter().sum::<f64>(), tail)
}

/// Room of the offset symbol, the beads, the sign of staggering and the gap behind a symbol.
fn bead_widths(w: &Weld, h: f64) -> [f64; 4] {
    let text = |words: &str| if words.is_empty() { 0.0 } else { width(words, h, Face::Regular) + APART };
    let staggered = w.side == WeldSide::Staggered;
    let [offset, turn] = [staggered && w.us, staggered && !w.us].map(|drawn| if drawn { h } else { 0.0 });
    [offset, text(&w.beads), if turn > 0.0 { turn + APART } else { 0.0 }, text(&w.gap)]
}

/// Where the symbols of a sign stand: up or down, and how far from the reference line.
fn stands(w: &Weld) -> impl Iterator<Item = (f64, f64)> {
    let all: &[(f64, f64)] = match (w.side, w.us) {
        (WeldSide::Both | WeldSide::Staggered, _) => &[(1.0, 0.0), (-1.0, 0.0)],
        (WeldSide::Arrow, false) | (WeldSide::Other, true) => &[(1.0, 0.0)],
        (WeldSide::Arrow, true) => &[(-1.0, 0.0)],
        (WeldSide::Other, false) => &[(-1.0, IDENTIFICATION)],
    };
    all.iter().copied()
}

/// A weld sign: reference line, size before the symbol, beads behind it, tail with a note. After ISO 2553 system A (from memory)
/// the weld of the arrow's side stands on the reference line, that of the other side on the dashed identification line below
/// (left out when both sides are alike or staggered, which a Z across the line says); after AWS A2.4 (from memory) the arrow's side
/// stands below and the other side above, staggered symbols stand offset, and there is no such line.
fn weld(w: &Weld, end: PaperPoint, right: bool, l: &Lettering) -> Vec<Mark> {
    let h = l.text;
    let (before, sign, tail) = weld_widths(w, l);
    let length = before + sign + 2.0;
    let s = if right { 1.0 } else { -1.0 };
    let (x0, y) = (if right { end.x } else { end.x - length }, end.y);
    let far = end.x + s * length;
    let p = PaperPoint::new;
    let mut out = vec![pencil::line(Pen::Symbol, p(end.x, y), p(far, y))];
    if matches!(w.side, WeldSide::Arrow | WeldSide::Other) && !w.us {
        out.push(pencil::line(Pen::Hidden, p(x0 + 1.0, y - IDENTIFICATION), p(x0 + length - 0.5, y - IDENTIFICATION)));
    }
    if w.all_round {
        out.push(pencil::circle(Pen::Symbol, p(end.x, y), 1.2));
    }
    let [offset, beads, turn, _] = bead_widths(w, h);
    for (side, off) in stands(w) {
        let sx = x0 + before + if side > 0.0 { offset } else { 0.0 };
        out.extend(symbol(w.kind, p(sx, y + side * off), side, h));
        let base = if side > 0.0 { y + off + 0.9 } else { y - off - 0.9 - h };
        out.push(pencil::text(Pen::Symbol, w.size.clone(), p(sx - 1.0, base), h, Align::Right));
        let behind = x0 + before + offset + h + APART;
        for (words, x) in [(&w.beads, behind), (&w.gap, behind + beads + turn)] {
            if !words.is_empty() {
                out.push(pencil::text(Pen::Symbol, words.clone(), p(x, base), h, Align::Left));
            }
        }
    }
    if turn > 0.0 {
        let x = x0 + before + h + APART + beads;
        out.push(pencil::chain(Pen::Symbol, &[p(x, y + h), p(x + h, y + h), p(x, y - h), p(x + h, y - h)]));
    }
    if tail > 0.0 {
        out.push(pencil::chain(Pen::Symbol, &[p(far + s * 2.0, y + 2.0), p(far, y), p(far + s * 2.0, y - 2.0)]));
        out.push(pencil::text(Pen::Symbol, w.whole_tail(), p(far + s * 2.6, y - h / 2.0), h, if right { Align::Left } else { Align::Right }));
    }
    out
}

/// The symbol of a kind of weld, upward or downward from its foot.
fn symbol(kind: WeldKind, foot: PaperPoint, side: f64, h: f64) -> Vec<Mark> {
    let v = |dx: f64, dy: f64| PaperPoint::new(foot.x + dx, foot.y + side * dy);
    match kind {
        WeldKind::Fillet => vec![pencil::chain(Pen::Symbol, &[v(0.0, 0.0), v(0.0, h), v(h, 0.0)])],
        WeldKind::SquareButt => [0.4, 0.8].map(|x| pencil::line(Pen::Symbol, v(x * h, 0.0), v(x * h, h))).to_vec(),
        WeldKind::VButt => vec![pencil::chain(Pen::Symbol, &[v(0.0, h), v(0.5 * h, 0.0), v(h, h)])],
    }
}
