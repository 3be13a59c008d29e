//! Balances a packed sheet: every view moves to the middle of the room that is left around it.
//!
//! Views that stand in projection keep their common axis: those of one row move up and down together,
//! those of one column move sideways together.

use super::pack::GAP;
use crate::paper::stroke::Rect;

/// A rectangle that may move.
#[derive(Debug, Clone)]
pub struct Body {
    /// Where it stands.
    pub rect: Rect,
    /// Bodies with the same number move sideways together; `None` does not move.
    pub sideways: Option<usize>,
    /// Bodies with the same number move up and down together; `None` does not move.
    pub upright: Option<usize>,
}

/// Moves the bodies within `area`, off `fixed`; a few rounds of centring each in its slack.
pub fn balance(bodies: &mut [Body], fixed: &[Rect], area: &Rect) {
    for _ in 0..12 {
        for across in [true, false] {
            let tie = |b: &Body| if across { b.sideways } else { b.upright };
            let mut ties: Vec<usize> = bodies.iter().filter_map(tie).collect();
            ties.sort_unstable();
            ties.dedup();
            for t in ties {
                let (mut less, mut more) = (f64::INFINITY, f64::INFINITY);
                for b in bodies.iter().filter(|b| tie(b) == Some(t)) {
                    let others = bodies.iter().filter(|o| tie(o) != Some(t)).map(|o| &o.rect).chain(fixed);
                    let (l, m) = slack(&b.rect, others, area, across);
                    less = less.min(l);
                    more = more.min(m);
                }
                if !less.is_finite() || !more.is_finite() {
                    continue;
                }
                let shift = (more - less) / 2.0;
                let (dx, dy) = if across { (shift, 0.0) } else { (0.0, shift) };
                bodies.iter_mut().filter(|b| tie(b) == Some(t)).for_each(|b| b.rect = b.rect.moved(dx, dy));
            }
        }
    }
}

/// Room toward smaller and larger coordinates.
fn slack<'a>(r: &Rect, others: impl Iterator<Item = &'a Rect>, area: &Rect, across: bool) -> (f64, f64) {
    let turn = |q: &Rect| if across { (q.x0, q.x1, q.y0, q.y1) } else { (q.y0, q.y1, q.x0, q.x1) };
    let (a0, a1, b0, b1) = turn(r);
    let (lo, hi, ..) = turn(area);
    let (mut less, mut more) = (a0 - lo, hi - a1);
    for o in others {
        let (c0, c1, d0, d1) = turn(o);
        if d0 < b1 + GAP - 1e-6 && b0 < d1 + GAP - 1e-6 {
            if c1 <= a0 + 1e-6 {
                less = less.min(a0 - c1 - GAP);
            }
            if c0 >= a1 - 1e-6 {
                more = more.min(c0 - a1 - GAP);
            }
        }
    }
    (less.max(0.0), more.max(0.0))
}
