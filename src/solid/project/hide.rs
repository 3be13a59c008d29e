//! Which pieces of the strands are seen.
//!
//! Each strand is cut where a contour in front of it crosses its picture; between two cuts it is wholly seen or
//! wholly hidden, and the middle of the piece decides.

use std::f64::consts::TAU;

use glam::DVec2;

use super::cross::crossings;
use super::front::Front;
use super::grid::{Grid, bounds};
use super::path::Path;
use super::picture::{Picture, Strand};

/// Cuts closer than this fall together, mm.
const CLOSE: f64 = 2e-6;
/// A piece shorter than this is as its neighbour, mm.
const SHORT: f64 = 1e-4;
/// A contour farther back than this behind a strand does not cut it, mm.
const BACK: f64 = 1e-4;

/// A piece of a strand that is wholly seen or wholly hidden.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Run {
    /// Index of the strand.
    pub strand: usize,
    /// First parameter.
    pub from: f64,
    /// Last parameter.
    pub to: f64,
    /// Whether it is seen.
    pub seen: bool,
}

/// About how many cells the covers have.
const COVERS: usize = 12_000;

/// What the search needs of a strand beside the strand itself.
struct Span {
    low: DVec2,
    high: DVec2,
    far: f64,
    near: f64,
    /// It lies wholly behind plane faces that fill the cells it runs through.
    covered: bool,
}

/// The searches over one picture.
struct Search<'a> {
    picture: &'a Picture,
    spans: Vec<Span>,
    /// Indices of the contours, as the grid counts them.
    contours: Vec<u32>,
    crossers: Grid,
    /// Indices of the fronts, nearest first, as the grid counts them.
    order: Vec<u32>,
    hiders: Grid,
}

/// Cuts every strand into runs; `wants` tells by body whether hidden runs are kept.
pub(crate) fn runs(picture: &Picture, wants: impl Fn(u32) -> bool) -> Vec<Run> {
    let search = Search::new(picture);
    let mut scratch =
        Scratch { stamps: vec![u32::MAX; search.contours.len()], gone: search.spans.iter().map(|span| span.covered).collect(), ..Scratch::default() };
    let mut order: Vec<usize> = (0..picture.strands.len()).collect();
    order.sort_by(|a, b| search.spans[*b].near.total_cmp(&search.spans[*a].near));
    let mut out = Vec::new();
    for index in order {
        let strand = &picture.strands[index];
        let hidden = wants(strand.body);
        let begin = out.len();
        if strand.open && !search.spans[index].covered {
            search.strand(index, &mut scratch, &mut out);
            scratch.gone[index] = out[begin..].iter().all(|run: &Run| !run.seen);
        } else {
            let (from, to) = strand.path.range();
            out.push(Run { strand: index, from, to, seen: false });
            scratch.gone[index] = true;
        }
        if !hidden {
            let mut at = begin;
            while at < out.len() {
                if out[at].seen {
                    at += 1;
                } else {
                    out.swap_remove(at);
                }
            }
        }
    }
    out.sort_by(|a, b| a.strand.cmp(&b.strand).then(a.from.total_cmp(&b.from)));
    out
}

/// Room that the search of each strand uses again.
#[derive(Default)]
struct Scratch {
    /// Strands known to be wholly hidden. What crosses one behind it is hidden there too, so it need not cut anything;
    /// the nearest strands are asked first, so that most are known in time.
    gone: Vec<bool>,
    stamps: Vec<u32>,
    met: Vec<u32>,
    pairs: Vec<(f64, f64)>,
    cuts: Vec<f64>,
}

impl<'a> Search<'a> {
    fn new(picture: &'a Picture) -> Self {
        let strands = &picture.strands;
        let (low, high) = bounds(strands.iter().map(|strand| &strand.path));
        let fronts = &picture.fronts;
        let covers = Covers::of(fronts, low, high);
        let spans: Vec<Span> = strands.iter().map(|strand| Span::of(strand, &covers)).collect();
        // What lies behind a covered contour is covered where they cross: such a contour need not cut it.
        let cuts = |i: &u32| strands[*i as usize].contour && !spans[*i as usize].covered;
        let contours: Vec<u32> = (0..strands.len() as u32).filter(cuts).collect();
        // Edges crowd about bolts and holes: many small cells, most of them empty, are the quickest.
        let mut crossers = Grid::over(low, high, contours.len() * 12);
        crossers.fill(contours.len(), |grid, item, put| grid.walk(&strands[contours[item] as usize].path, put));
        let mut order: Vec<u32> = (0..fronts.len() as u32).collect();
        order.sort_by(|a, b| fronts[*b as usize].nearest.total_cmp(&fronts[*a as usize].nearest));
        let mut hiders = Grid::over(low, high, fronts.len());
        hiders.fill(order.len(), |grid, item, put| {
            let (low, high) = fronts[order[item] as usize].bounds;
            grid.walk_box(low, high, put);
        });
        Self { picture, spans, contours, crossers, order, hiders }
    }

    /// Cuts one strand and asks each piece.
    fn strand(&self, index: usize, scratch: &mut Scratch, out: &mut Vec<Run>) {
        let strand = &self.picture.strands[index];
        let path = &strand.path;
        self.cut(index, scratch);
        let (first, last) = path.range();
        let scale = path.scale();
        let cuts = &mut scratch.cuts;
        cuts.sort_by(f64::total_cmp);
        let begin = out.len();
        let mut from = first;
        for at in cuts.iter().copied().filter(|at| (last - at) * scale > CLOSE).chain([last]) {
            if (at - from) * scale <= CLOSE {
                continue;
            }
            let short = (at - from) * scale < SHORT;
            let old = out[begin..].last().copied();
            let seen = match old {
                Some(old) if short => old.seen,
                _ => !self.hidden(strand, (from + at) / 2.0),
            };
            match out[begin..].last_mut() {
                Some(old) if old.seen == seen => old.to = at,
                _ => out.push(Run { strand: index, from, to: at, seen }),
            }
            from = at;
        }
        // Round a full circle the last run goes on in the first.
        if let Path::Conic(conic) = path
            && conic.full()
            && out.len() > begin + 1
            && let Some(last) = out.last().copied()
            && last.seen == out[begin].seen
        {
            out[begin] = Run { from: last.from - TAU, ..out[begin] };
            out.pop();
        }
    }

    /// Gathers the parameters where contours in front cross a strand.
    fn cut(&self, index: usize, scratch: &mut Scratch) {
        let Scratch { gone, stamps, met, pairs, cuts } = scratch;
        let path = &self.picture.strands[index].path;
        let span = &self.spans[index];
        met.clear();
        cuts.clear();
        self.crossers.walk(path, &mut |cell| {
            for item in self.crossers.list(cell) {
                let stamp = &mut stamps[*item as usize];
                if *stamp != index as u32 {
                    *stamp = index as u32;
                    let contour = self.contours[*item as usize];
                    if !gone[contour as usize] {
                        met.push(contour);
                    }
                }
            }
        });
        for other in met.iter().map(|other| *other as usize) {
            let there = &self.spans[other];
            if other == index || there.near < span.far - BACK || !span.meets(there) {
                continue;
            }
            let over = &self.picture.strands[other].path;
            pairs.clear();
            crossings(path, over, pairs);
            cuts.extend(pairs.iter().filter(|(s, t)| over.depth(*t) > path.depth(*s) - BACK).map(|(s, _)| *s));
        }
    }

    /// Whether a front hides the point of a strand at a parameter.
    fn hidden(&self, strand: &Strand, s: f64) -> bool {
        let (at, depth) = (strand.path.at(s), strand.path.depth(s));
        for item in self.hiders.list(self.hiders.holding(at)) {
            let id = self.order[*item as usize];
            let front = &self.picture.fronts[id as usize];
            if front.nearest <= depth {
                return false;
            }
            if !strand.skip.contains(&id) && front.hides(at, depth) {
                return true;
            }
        }
        false
    }
}

/// By cell, the depth behind which nothing is seen, as far as single plane faces tell.
struct Covers {
    grid: Grid,
    depths: Vec<f64>,
}

impl Covers {
    fn of(fronts: &[Front], low: DVec2, high: DVec2) -> Self {
        let grid = Grid::over(low, high, COVERS);
        let mut depths = vec![f64::NEG_INFINITY; grid.len()];
        let mut rim = vec![false; grid.len()];
        for front in fronts {
            front.cover(&grid, &mut rim, &mut depths);
        }
        Self { grid, depths }
    }

    /// Whether a picture no nearer than `near` is covered all along.
    fn cover(&self, path: &Path, near: f64) -> bool {
        let behind = |cell: usize| near < self.depths[cell] - 2.0 * BACK;
        let (first, _) = path.range();
        let mut all = behind(self.grid.holding(path.at(first)));
        if all {
            self.grid.walk(path, &mut |cell| all &= behind(cell));
        }
        all
    }
}

impl Span {
    fn of(strand: &Strand, covers: &Covers) -> Self {
        let (low, high) = strand.path.bounds();
        let (far, near) = strand.path.depths();
        let covered = covers.cover(&strand.path, near);
        Self { low, high, far, near, covered }
    }

    fn meets(&self, other: &Self) -> bool {
        let slack = DVec2::splat(super::path::SAME);
        (self.low - slack).cmple(other.high).all() && (other.low - slack).cmple(self.high).all()
    }
}
