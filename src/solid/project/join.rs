//! Runs that lie on one another become one: the seen one first, then the nearest, then a sharp one; and what of one
//! edge follows itself is joined.

use std::f64::consts::{PI, TAU};

use glam::DVec2;

use super::hide::Run;
use super::lines::Kind;
use super::path::{Path, Seg};
use super::picture::{Picture, Strand};

/// Lines this close lie on one another, mm.
const ON: f64 = 3e-5;
/// Ends this close are one, mm or rad times radius.
const END: f64 = 4e-6;
/// Depths this close are one, mm.
const LEVEL: f64 = 1e-4;
/// Width of a class of directions: 15° and its multiples lie in the middle of one.
const TURN: f64 = PI / 240_000.0;
/// Width of a class of places; no round number, so that round numbers do not lie on its border.
const PLACE: f64 = 0.013_742_179;

/// The class of what a run lies on; runs on one carrier have one class.
type Class = [i64; 5];

/// A run along its carrier.
#[derive(Debug, Clone, Copy)]
struct Item {
    run: usize,
    from: f64,
    to: f64,
}

/// Joins the runs; the result is ordered by strand and parameter.
pub(crate) fn joined(picture: &Picture, runs: &[Run]) -> Vec<Run> {
    let path = |run: usize| &picture.strands[runs[run].strand].path;
    let mut classes: Vec<(Class, usize)> = (0..runs.len()).map(|run| (class(path(run)), run)).collect();
    classes.sort_unstable();
    let mut out = Vec::with_capacity(runs.len());
    for group in classes.chunk_by(|a, b| a.0 == b.0) {
        if let [(_, only)] = group {
            out.push(runs[*only]);
            continue;
        }
        let mut heaps: Vec<Vec<usize>> = Vec::new();
        for (_, run) in group {
            match heaps.iter_mut().find(|heap| same(path(heap[0]), path(*run))) {
                Some(heap) => heap.push(*run),
                None => heaps.push(vec![*run]),
            }
        }
        for heap in heaps {
            match heap.as_slice() {
                [only] => out.push(runs[*only]),
                _ => sweep(picture, runs, &heap, &mut out),
            }
        }
    }
    out.sort_by(|a, b| a.strand.cmp(&b.strand).then(a.from.total_cmp(&b.from)));
    out
}

/// Direction of a straight piece, in the upper half plane.
fn direction(seg: &Seg) -> DVec2 {
    let dir = (seg.b - seg.a).normalize();
    let angle = dir.y.atan2(dir.x);
    if (-TURN / 2.0..PI - TURN / 2.0).contains(&angle) { dir } else { -dir }
}

fn class(path: &Path) -> Class {
    let place = |at: f64| (at / PLACE).round() as i64;
    match path {
        Path::Seg(seg) => {
            let dir = direction(seg);
            let off = dir.perp_dot((seg.a + seg.b) / 2.0);
            [0, (dir.y.atan2(dir.x) / TURN).round() as i64, place(off), 0, 0]
        }
        Path::Conic(conic) => [1, place(conic.c.x), place(conic.c.y), place(conic.p.length()), place(conic.q.length())],
    }
}

/// Whether two pictures have one carrier.
fn same(one: &Path, two: &Path) -> bool {
    match (one, two) {
        (Path::Seg(one), Path::Seg(two)) => {
            // The longer one gives the line.
            let (one, two) = if (one.b - one.a).length() < (two.b - two.a).length() { (two, one) } else { (one, two) };
            let dir = direction(one);
            [two.a, two.b].iter().all(|at| dir.perp_dot(*at - one.a).abs() < ON)
        }
        (Path::Conic(one), Path::Conic(two)) => (one.c - two.c).length() < ON && (one.p - two.p).length() < ON && (one.q - two.q).length() < ON,
        _ => false,
    }
}

/// Goes along one carrier and keeps the best run at every place.
fn sweep(picture: &Picture, runs: &[Run], heap: &[usize], out: &mut Vec<Run>) {
    let strand = |run: usize| &picture.strands[runs[run].strand];
    let lead = match &strand(heap[0]).path {
        Path::Seg(seg) => direction(seg),
        Path::Conic(_) => DVec2::ZERO,
    };
    let mut items: Vec<Item> = Vec::with_capacity(heap.len());
    for run in heap {
        place(&strand(*run).path, &runs[*run], *run, lead, &mut items);
    }
    items.sort_by(|a, b| a.from.total_cmp(&b.from).then(a.run.cmp(&b.run)));
    let scale = match &strand(heap[0]).path {
        Path::Seg(_) => 1.0,
        path => path.scale(),
    };
    let mut ends: Vec<f64> = items.iter().flat_map(|item| [item.from, item.to]).collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|b, a| (*b - *a) * scale < END);
    let (mut active, mut next) = (Vec::<usize>::new(), 0);
    let mut kept: Vec<Item> = Vec::new();
    for pair in ends.windows(2) {
        let middle = (pair[0] + pair[1]) / 2.0;
        while next < items.len() && items[next].from < middle {
            active.push(next);
            next += 1;
        }
        active.retain(|item| items[*item].to > middle);
        let better = |a: usize, b: usize| {
            let depth = |run: usize| strand(run).path.depth(parameter(&strand(run).path, middle, lead));
            first(&runs[a], strand(a), depth(a), &runs[b], strand(b), depth(b))
        };
        let Some(best) = active.iter().map(|item| items[*item].run).reduce(|a, b| if better(b, a) { b } else { a }) else {
            continue;
        };
        match kept.last_mut() {
            Some(old) if (pair[0] - old.to) * scale < END && follows(runs, strand(old.run), old.run, strand(best), best) => {
                old.to = pair[1];
            }
            _ => kept.push(Item { run: best, from: pair[0], to: pair[1] }),
        }
    }
    close(picture, runs, &mut kept);
    for item in kept {
        let path = &strand(item.run).path;
        let (from, to) = match path {
            Path::Seg(_) => (parameter(path, item.from, lead), parameter(path, item.to, lead)),
            Path::Conic(_) => (item.from, item.to),
        };
        out.push(Run { from: from.min(to), to: from.max(to), ..runs[item.run] });
    }
}

/// Joins the last arc with the first across the zero of the angle.
fn close(picture: &Picture, runs: &[Run], kept: &mut Vec<Item>) {
    let (Some(first), Some(last)) = (kept.first().copied(), kept.last().copied()) else { return };
    let strand = |item: &Item| &picture.strands[runs[item.run].strand];
    let Path::Conic(conic) = &strand(&first).path else { return };
    let gap = (first.from + TAU - last.to) * conic.p.length();
    if kept.len() > 1 && gap < END && follows(runs, strand(&first), first.run, strand(&last), last.run) {
        kept[0].from = last.from - TAU;
        kept.pop();
    }
}

/// Whether two runs are pieces of one edge in one state.
fn follows(runs: &[Run], a: &Strand, run_a: usize, b: &Strand, run_b: usize) -> bool {
    (a.body, a.edge, a.kind) == (b.body, b.edge, b.kind) && runs[run_a].seen == runs[run_b].seen
}

/// Whether run `a` goes before run `b`.
fn first(a: &Run, of_a: &Strand, depth_a: f64, b: &Run, of_b: &Strand, depth_b: f64) -> bool {
    if a.seen != b.seen {
        return a.seen;
    }
    if (depth_a - depth_b).abs() > LEVEL {
        return depth_a > depth_b;
    }
    let (soft_a, soft_b) = (of_a.kind == Kind::Smooth, of_b.kind == Kind::Smooth);
    (soft_a, a.strand) < (soft_b, b.strand)
}

/// Puts a run on its carrier; an arc across the zero of the angle as two.
fn place(path: &Path, run: &Run, index: usize, lead: DVec2, out: &mut Vec<Item>) {
    match path {
        Path::Seg(_) => {
            let (a, b) = (lead.dot(path.at(run.from)), lead.dot(path.at(run.to)));
            out.push(Item { run: index, from: a.min(b), to: a.max(b) });
        }
        Path::Conic(_) => {
            let from = run.from.rem_euclid(TAU);
            let to = from + (run.to - run.from);
            if to > TAU {
                out.push(Item { run: index, from, to: TAU });
                out.push(Item { run: index, from: 0.0, to: to - TAU });
            } else {
                out.push(Item { run: index, from, to });
            }
        }
    }
}

/// The parameter on a picture at a place of its carrier.
fn parameter(path: &Path, at: f64, lead: DVec2) -> f64 {
    match path {
        Path::Seg(seg) => {
            let (a, b) = (lead.dot(seg.a), lead.dot(seg.b));
            // Pieces of one edge may be joined beyond the strand that leads them.
            (at - a) / (b - a)
        }
        Path::Conic(_) => at,
    }
}
