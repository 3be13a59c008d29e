//! The dimensions on one side of a view: which dimension line goes into which track, where its text stands.
//!
//! Short spans stand inside, longer ones outside, overall lengths outermost; dimensions of a chain share
//! a track. A text stands in the middle, or slides to where no extension line of an outer track cuts it;
//! a text that does not fit goes outside its arrows, or, in a chain, onto a raised row with a leader.
//! Texts on one line stand a text height apart, so that nobody reads `100` and `6` as one figure.
//! Coordinates: `u` along the strip, `v` outward from the outline, paper mm.

use super::closing;
use super::dimension_text::{FIRST_TRACK, arrow_length, text_gap, track_pitch};
use super::line_up::{Want, line_up};
use super::row_apart::{self, OnLine};
use crate::paper::drafting::{Lettering, SheetStyle};
use crate::paper::lettering;
use crate::paper::mark::{PaperPoint, PlanePoint};
use crate::paper::request::{DimensionRequest, Quantity, Side};
use crate::paper::stroke::Rect;
use crate::paper::style::Face;

/// Clear distance beside a text, paper mm.
const BESIDE: f64 = 0.8;
/// Clear distance before a text that stands outside its arrows, paper mm.
const BEFORE_OUTSIDE: f64 = 1.4;

/// How far past its arrow a text may stand to get past other extension lines, paper mm.
const FAR_OUTSIDE: f64 = 14.0;

/// Where the text of a dimension stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stand {
    /// Over the dimension line between the extension lines.
    Inside,
    /// Over the lengthened dimension line, toward larger `u`.
    After,
    /// Over the lengthened dimension line, toward smaller `u`.
    Before,
    /// On a leader, in the row outside the track.
    Raised,
}

/// A dimension in its strip.
#[derive(Debug, Clone)]
pub struct Placed {
    /// Index of the request.
    pub request: usize,
    /// Lower and upper end along the strip.
    pub a: f64,
    /// Upper end.
    pub b: f64,
    /// `v` of the measured point at `a` (negative: inside the outline).
    pub va: f64,
    /// `v` of the measured point at `b`.
    pub vb: f64,
    /// Whether the request's first point is at `a`.
    pub first_at_a: bool,
    /// Its words.
    pub text: String,
    /// Their width.
    pub width: f64,
    /// Track number, 0 innermost.
    pub track: usize,
    /// `v` of the dimension line.
    pub v: f64,
    /// How the text stands.
    pub stand: Stand,
    /// `u` of the text's middle.
    pub at: f64,
    /// Arrows point from outside.
    pub arrows_outside: bool,
    /// The end at `a` / at `b` is shared with another tight dimension and gets a dot.
    pub dot: (bool, bool),
    /// The end at `a` / `b` is shared with a chain neighbour: no tail needed.
    pub shared: (bool, bool),
    chain: Option<String>,
    overall: bool,
}

/// A solved strip.
#[derive(Debug, Clone)]
pub struct Strip {
    /// Side of the view.
    pub side: Side,
    /// `v = 0` stands here on paper.
    pub base: f64,
    /// The dimensions.
    pub placed: Vec<Placed>,
    /// Outermost ink, `v`.
    pub outer: f64,
    /// Reach of texts and lines along the strip.
    pub reach: (f64, f64),
    /// Rows of the extension lines and level lines.
    pub ordinates: Vec<f64>,
}

impl Strip {
    /// A point of the strip on local paper.
    pub fn paper(&self, u: f64, v: f64) -> PaperPoint {
        match self.side {
            Side::Above => PaperPoint::new(u, self.base + v),
            Side::Below => PaperPoint::new(u, self.base - v),
            Side::Left => PaperPoint::new(self.base - v, u),
            Side::Right => PaperPoint::new(self.base + v, u),
        }
    }

    /// Whether texts stand outside their line (they always stand above it as read).
    pub fn text_outward(&self) -> bool {
        matches!(self.side, Side::Above | Side::Left)
    }

    /// Distance from the dimension line to the near edge of a raised text.
    pub fn raise(&self, l: &Lettering) -> f64 {
        if self.text_outward() { text_gap(l) + l.text + 3.4 } else { 3.2 }
    }
}

/// Length of a dimension line's tail outside the extension line.
pub fn tail(l: &Lettering) -> f64 {
    arrow_length(l) + 2.5
}

/// The margin of a view in which a strip stands.
#[derive(Debug, Clone, Copy)]
pub struct Margin<'a> {
    /// Which side of the view.
    pub side: Side,
    /// Outline of the view, paper mm.
    pub outline: &'a Rect,
    /// Distance from the outline that must stay free: letters of cutting planes, texts of the neighbouring strips.
    pub start: f64,
    /// Rows that level lines will occupy.
    pub levels: &'a [f64],
}

/// Solves one side.
pub fn solve(margin: Margin, requests: &[DimensionRequest], scale: f64, style: &SheetStyle, l: &Lettering) -> Strip {
    let Margin { side, outline, start, levels } = margin;
    let base = match side {
        Side::Above => outline.y1,
        Side::Below => outline.y0,
        Side::Left => outline.x0,
        Side::Right => outline.x1,
    };
    let mut strip = Strip {
        side,
        base,
        placed: collect(side, requests, scale, base, style, l),
        outer: 0.0,
        reach: (f64::INFINITY, f64::NEG_INFINITY),
        ordinates: Vec::new(),
    };
    strip.ordinates = strip.placed.iter().flat_map(|p| [p.a, p.b]).chain(levels.iter().copied()).collect();
    strip.ordinates.sort_by(f64::total_cmp);
    strip.ordinates.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    mark_shared_ends(&mut strip.placed);
    choose_stands(&mut strip, l);
    assign_tracks(&mut strip.placed, l);
    slide_texts(&mut strip, levels);
    stand_apart(&mut strip.placed, levels, between(l));
    set_lines(&mut strip, start, l);
    raise_texts(&mut strip, levels, l);
    for p in &strip.placed {
        let t = tail(l);
        let (lo, hi) = if p.arrows_outside { (p.a - t, p.b + t) } else { (p.a, p.b) };
        strip.reach.0 = strip.reach.0.min(lo).min(p.at - p.width / 2.0);
        strip.reach.1 = strip.reach.1.max(hi).max(p.at + p.width / 2.0);
    }
    strip
}

fn collect(side: Side, requests: &[DimensionRequest], scale: f64, base: f64, style: &SheetStyle, l: &Lettering) -> Vec<Placed> {
    let mut out = Vec::new();
    let texts = closing::texts(requests, style);
    for (i, r) in requests.iter().enumerate() {
        let Quantity::Linear { side: s, first, second } = r.quantity else { continue };
        if s != side {
            continue;
        }
        let uv = |p: PlanePoint| {
            let (x, y) = (p.x / scale, p.y / scale);
            match side {
                Side::Above => (x, y - base),
                Side::Below => (x, base - y),
                Side::Left => (y, base - x),
                Side::Right => (y, x - base),
            }
        };
        let ((u0, v0), (u1, v1)) = (uv(first), uv(second));
        let first_at_a = u0 <= u1;
        let ((a, va), (b, vb)) = if first_at_a { ((u0, v0), (u1, v1)) } else { ((u1, v1), (u0, v0)) };
        let text = texts.get(i).cloned().unwrap_or_default();
        let width = lettering::width(&text, l.text, Face::Regular);
        out.push(Placed {
            request: i,
            a,
            b,
            va,
            vb,
            first_at_a,
            text,
            width,
            track: 0,
            v: 0.0,
            stand: Stand::Inside,
            at: (a + b) / 2.0,
            arrows_outside: b - a < 2.0 * arrow_length(l) + 1.0,
            dot: (false, false),
            shared: (false, false),
            chain: r.chain.clone(),
            overall: r.overall,
        });
    }
    out
}

/// Least distance of two texts on one line, paper mm: a text height (common practice, no source).
pub const fn between(l: &Lettering) -> f64 {
    l.text
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

fn mark_shared_ends(placed: &mut [Placed]) {
    let ends: Vec<(Option<String>, f64, f64, bool)> = placed.iter().map(|p| (p.chain.clone(), p.a, p.b, p.arrows_outside)).collect();
    for (i, p) in placed.iter_mut().enumerate() {
        if p.chain.is_none() {
            continue;
        }
        for (j, (chain, a, b, tight)) in ends.iter().enumerate() {
            if i == j || *chain != p.chain {
                continue;
            }
            if same(*b, p.a) {
                p.shared.0 = true;
                p.dot.0 = *tight && p.arrows_outside;
            }
            if same(*a, p.b) {
                p.shared.1 = true;
                p.dot.1 = *tight && p.arrows_outside;
            }
        }
    }
}

/// Decides for texts that are wider than their span whether they go after, before or onto a raised row.
fn choose_stands(strip: &mut Strip, l: &Lettering) {
    let ordinates = strip.ordinates.clone();
    let free = |lo: f64, hi: f64, own: f64| !ordinates.iter().any(|o| *o > lo && *o < hi && !same(*o, own));
    let spans: Vec<(Option<String>, f64, f64)> = strip.placed.iter().map(|p| (p.chain.clone(), p.a, p.b)).collect();
    for (i, p) in strip.placed.iter_mut().enumerate() {
        if p.width + 2.0 * BESIDE <= p.b - p.a {
            continue;
        }
        let chained = |u: f64, lo: bool| {
            p.chain.is_some() && spans.iter().enumerate().any(|(j, (c, a, b))| j != i && *c == p.chain && if lo { *b <= u + 1e-6 } else { *a >= u - 1e-6 })
        };
        // The text of a neighbour in the chain may reach to the other end of this span.
        let beyond = if p.chain.is_some() { BEFORE_OUTSIDE.max(between(l) - (p.b - p.a) - BESIDE) } else { BEFORE_OUTSIDE };
        let room = p.width + beyond + BESIDE;
        // Right behind the arrow, or past the next extension lines, as far as the eye still joins text and arrow.
        let starts = |from: f64, s: f64| {
            let mut out: Vec<f64> =
                std::iter::once(from).chain(ordinates.iter().copied().filter(|o| (o - from) * s > 0.0 && (o - from) * s < FAR_OUTSIDE)).collect();
            out.sort_by(|x, y| ((x - from) * s).total_cmp(&((y - from) * s)));
            out
        };
        let after = if chained(p.b, false) { None } else { starts(p.b, 1.0).into_iter().find(|o| free(*o, o + room, *o)) };
        let before = if chained(p.a, true) { None } else { starts(p.a, -1.0).into_iter().find(|o| free(o - room, *o, *o)) };
        p.stand = match (after, before) {
            (Some(o), b) if b.is_none_or(|b| o - p.b <= p.a - b + 1e-6) => {
                p.at = o + beyond + p.width / 2.0;
                Stand::After
            }
            (_, Some(o)) => {
                p.at = o - beyond - p.width / 2.0;
                Stand::Before
            }
            _ => Stand::Raised,
        };
    }
}

/// What a dimension occupies along its track.
fn occupied(p: &Placed, l: &Lettering) -> (f64, f64) {
    let t = tail(l);
    let (mut lo, mut hi) = (p.a, p.b);
    if p.arrows_outside {
        lo -= if p.shared.0 { 0.0 } else { t };
        hi += if p.shared.1 { 0.0 } else { t };
    }
    match p.stand {
        Stand::After => hi = hi.max(p.at + p.width / 2.0 + between(l) - BESIDE),
        Stand::Before => lo = lo.min(p.at - p.width / 2.0 - between(l) + BESIDE),
        Stand::Inside | Stand::Raised => {}
    }
    (lo, hi)
}

/// Interval colouring, short spans first, each outside of all shorter ones that it overlaps.
fn assign_tracks(placed: &mut [Placed], l: &Lettering) {
    let mut units: Vec<Vec<usize>> = Vec::new();
    for (i, p) in placed.iter().enumerate() {
        let home =
            p.chain.as_ref().and_then(|c| units.iter_mut().find(|u| u.first().and_then(|j| placed.get(*j)).is_some_and(|q| q.chain.as_ref() == Some(c))));
        match home {
            Some(unit) => unit.push(i),
            None => units.push(vec![i]),
        }
    }
    struct Run {
        members: Vec<usize>,
        lo: f64,
        hi: f64,
        overall: bool,
        /// First to last measured point: a chain stands as far out as its whole length asks for.
        span: (f64, f64),
        key: usize,
    }
    let mut runs: Vec<Run> = units
        .into_iter()
        .map(|members| {
            let mut run =
                Run { members: Vec::new(), lo: f64::INFINITY, hi: f64::NEG_INFINITY, overall: false, span: (f64::INFINITY, f64::NEG_INFINITY), key: 0 };
            for i in &members {
                if let Some(p) = placed.get(*i) {
                    let (lo, hi) = occupied(p, l);
                    run.lo = run.lo.min(lo);
                    run.hi = run.hi.max(hi);
                    run.overall |= p.overall;
                    run.span = (run.span.0.min(p.a), run.span.1.max(p.b));
                    run.key = p.request;
                }
            }
            run.members = members;
            run
        })
        .collect();
    runs.sort_by(|p, q| {
        p.overall.cmp(&q.overall).then((p.span.1 - p.span.0).total_cmp(&(q.span.1 - q.span.0))).then(p.lo.total_cmp(&q.lo)).then(p.key.cmp(&q.key))
    });
    let mut done: Vec<(f64, f64, usize)> = Vec::new();
    for run in &runs {
        let beneath = done.iter().filter(|(lo, hi, _)| run.overall || (run.lo < hi - 0.01 && *lo < run.hi - 0.01)).map(|d| d.2 + 1).max();
        let track = beneath.unwrap_or(0);
        done.push((run.lo, run.hi, track));
        for i in &run.members {
            if let Some(p) = placed.get_mut(*i) {
                p.track = track;
            }
        }
    }
}

/// Slides texts along their line to the place nearest the middle that no extension line cuts.
fn slide_texts(strip: &mut Strip, levels: &[f64]) {
    let ends: Vec<(usize, f64, f64)> = strip.placed.iter().map(|p| (p.track, p.a, p.b)).collect();
    for p in strip.placed.iter_mut().filter(|p| p.stand == Stand::Inside) {
        let cuts = cuts(p, &ends, levels);
        let need = p.width / 2.0 + BESIDE;
        let middle = (p.a + p.b) / 2.0;
        let best = cuts
            .iter()
            .zip(cuts.iter().skip(1))
            .filter(|(lo, hi)| *hi - *lo >= 2.0 * need - 1e-9)
            .map(|(lo, hi)| middle.clamp(lo + need, (hi - need).max(lo + need)))
            .min_by(|x, y| (x - middle).abs().total_cmp(&(y - middle).abs()));
        match best {
            Some(u) => p.at = u,
            None => p.stand = Stand::Raised,
        }
    }
}

/// Where extension lines of its own and outer tracks and level lines cross the line of a dimension, its ends with them, in order.
fn cuts(p: &Placed, ends: &[(usize, f64, f64)], levels: &[f64]) -> Vec<f64> {
    let across = ends.iter().filter(|e| e.0 >= p.track).flat_map(|e| [e.1, e.2]).chain(levels.iter().copied());
    let mut cuts: Vec<f64> = across.filter(|u| *u > p.a && *u < p.b).chain([p.a, p.b]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts
}

/// Slides the texts of each track apart, or raises those that have no room.
fn stand_apart(placed: &mut [Placed], levels: &[f64], gap: f64) {
    let ends: Vec<(usize, f64, f64)> = placed.iter().map(|p| (p.track, p.a, p.b)).collect();
    for track in 0..ends.iter().map(|e| e.0 + 1).max().unwrap_or(0) {
        let mut row: Vec<&mut Placed> = placed.iter_mut().filter(|p| p.track == track && p.stand != Stand::Raised).collect();
        let free = |p: &Placed| {
            let (half, cuts) = (p.width / 2.0 + BESIDE, cuts(p, &ends, levels));
            let below = cuts.iter().rev().find(|c| **c <= p.at).map_or(p.at, |c| c + half);
            let above = cuts.iter().find(|c| **c > p.at).map_or(p.at, |c| c - half);
            if p.stand == Stand::Inside { (below.min(p.at), above.max(p.at)) } else { (p.at, p.at) }
        };
        let mut texts: Vec<OnLine> = row.iter().map(|p| OnLine { at: p.at, half: p.width / 2.0, free: free(p), span: p.b - p.a, leaves: false }).collect();
        row_apart::separate(&mut texts, gap);
        for (p, text) in row.iter_mut().zip(texts) {
            p.at = text.at;
            if text.leaves {
                p.stand = Stand::Raised;
            }
        }
    }
}

/// Gives every track its distance from the outline.
fn set_lines(strip: &mut Strip, start: f64, l: &Lettering) {
    let tracks = strip.placed.iter().map(|p| p.track + 1).max().unwrap_or(0);
    let raise = strip.raise(l);
    let outward = strip.text_outward();
    let mut v = start.max(FIRST_TRACK);
    strip.outer = start;
    for t in 0..tracks {
        let raised = strip.placed.iter().any(|p| p.track == t && p.stand == Stand::Raised);
        for p in strip.placed.iter_mut().filter(|p| p.track == t) {
            p.v = v;
        }
        let ink = if raised {
            raise + l.text
        } else if outward {
            (text_gap(l) + l.text).max(2.0)
        } else {
            2.0
        };
        strip.outer = v + ink;
        v += match (raised, outward) {
            (false, _) => track_pitch(l),
            (true, true) => raise + l.text + 2.6,
            (true, false) => raise + l.text + 1.2 + l.text + text_gap(l),
        };
    }
}

/// Lines the raised texts of each track up in their row.
fn raise_texts(strip: &mut Strip, levels: &[f64], l: &Lettering) {
    let ends: Vec<(usize, f64, f64)> = strip.placed.iter().map(|p| (p.track, p.a, p.b)).collect();
    let tracks = ends.iter().map(|e| e.0 + 1).max().unwrap_or(0);
    for t in 0..tracks {
        let mut row: Vec<usize> = (0..strip.placed.len()).filter(|i| strip.placed.get(*i).is_some_and(|p| p.track == t && p.stand == Stand::Raised)).collect();
        let middle = |i: &usize| strip.placed.get(*i).map_or(0.0, |p| (p.a + p.b) / 2.0);
        row.sort_by(|i, j| middle(i).total_cmp(&middle(j)));
        let wants: Vec<Want> =
            row.iter().filter_map(|i| strip.placed.get(*i)).map(|p| Want { at: (p.a + p.b) / 2.0, low: p.width / 2.0, high: p.width / 2.0 }).collect();
        let cuts: Vec<f64> = ends.iter().filter(|e| e.0 > t).flat_map(|e| [e.1, e.2]).chain(levels.iter().copied()).collect();
        let forbid = |i: usize, at: f64| {
            let half = wants.get(i).map_or(0.0, |w| w.low) + BESIDE;
            if cuts.iter().any(|c| (c - at).abs() < half) { f64::INFINITY } else { 0.0 }
        };
        let gap = between(l);
        let total: f64 = wants.iter().map(|w| w.low + w.high + gap).sum();
        let lo = wants.iter().map(|w| w.at).fold(f64::INFINITY, f64::min) - total - 250.0;
        let hi = wants.iter().map(|w| w.at).fold(f64::NEG_INFINITY, f64::max) + total + 250.0;
        if let Some(at) = line_up(&wants, gap, lo, hi, 0.5, &forbid) {
            for (i, u) in row.iter().zip(at) {
                if let Some(p) = strip.placed.get_mut(*i) {
                    p.at = u;
                }
            }
        }
    }
}
