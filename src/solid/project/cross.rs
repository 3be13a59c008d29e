//! Where two pictures cross or touch: straight pieces and arcs of ellipses against each other.
//!
//! Out: pairs of parameters, one on each picture. Where two lie on one another the ends of the second are given.
//! A touch closer than [`SAME`] counts; a spare crossing does no harm, a lost one would.

use std::f64::consts::TAU;

use glam::DVec2;

use super::path::{Conic, Depth, Path, SAME, Seg};

/// Appends the crossings of two pictures as parameters on the first and the second.
pub(crate) fn crossings(one: &Path, two: &Path, out: &mut Vec<(f64, f64)>) {
    match (one, two) {
        (Path::Seg(a), Path::Seg(b)) => {
            if straight(a, b, out) {
                through(one, two, (a, b), out);
            }
        }
        (Path::Seg(seg), Path::Conic(conic)) => mixed(seg, conic, |s, t| out.push((s, t))),
        (Path::Conic(conic), Path::Seg(seg)) => mixed(seg, conic, |s, t| out.push((t, s))),
        (Path::Conic(one), Path::Conic(two)) => round(one, two, out),
    }
}

/// Two straight pieces; whether they lie on one line.
fn straight(one: &Seg, two: &Seg, out: &mut Vec<(f64, f64)>) -> bool {
    let along = one.b - one.a;
    let length = along.length();
    let dir = along / length;
    let (from, to) = (two.a - one.a, two.b - one.a);
    let (first, last) = (dir.perp_dot(from), dir.perp_dot(to));
    let (near, far) = (first.abs() < SAME, last.abs() < SAME);
    let mut put = |on: f64, t: f64| {
        if on > -SAME && on < length + SAME {
            out.push(((on / length).clamp(0.0, 1.0), t));
        }
    };
    if near && far {
        put(dir.dot(from), 0.0);
        put(dir.dot(to), 1.0);
    } else if near {
        put(dir.dot(from), 0.0);
    } else if far {
        put(dir.dot(to), 1.0);
    } else if (first > 0.0) != (last > 0.0) {
        let t = first / (first - last);
        put(dir.dot(from + (to - from) * t), t);
    }
    near && far
}

/// Where two straight pictures on one line pass each other in depth, as edges of two faces that touch do when the
/// faces are seen on edge.
fn through(one: &Path, two: &Path, (a, b): (&Seg, &Seg), out: &mut Vec<(f64, f64)>) {
    let ((far_one, near_one), (far_two, near_two)) = (one.depths(), two.depths());
    if near_one < far_two || near_two < far_one {
        return;
    }
    let along = b.b - b.a;
    let on_two = |s: f64| (one.at(s) - b.a).dot(along) / along.length_squared();
    let own = a.b - a.a;
    let share = |at: DVec2| (at - a.a).dot(own) / own.length_squared();
    let (first, last) = (share(b.a), share(b.b));
    let (low, high) = (first.min(last).max(0.0), first.max(last).min(1.0));
    if high <= low {
        return;
    }
    let apart = |s: f64| one.depth(s) - two.depth(on_two(s));
    let even = |seg: &Seg| matches!(seg.depth, Depth::Even(..));
    let steps = if even(a) && even(b) { 1 } else { 12 };
    let mut old = (low, apart(low));
    for step in 1..=steps {
        let s = low + (high - low) * f64::from(step) / f64::from(steps);
        let new = (s, apart(s));
        if (old.1 > 0.0) != (new.1 > 0.0) {
            let s = root(apart, old.0, new.0);
            out.push((s, on_two(s)));
        }
        old = new;
    }
}

/// A straight piece and an arc: `put` gets the share of the first and the angle on the second.
fn mixed(seg: &Seg, conic: &Conic, mut put: impl FnMut(f64, f64)) {
    let (start, end) = (conic.unit(seg.a - conic.c), conic.unit(seg.b - conic.c));
    let along = end - start;
    let (a, b) = (along.length_squared(), start.dot(along));
    let (long, short) = (conic.p.length(), conic.q.length());
    let nearest = -b / a;
    // Half the chord squared, as a share of the piece, from the distance to the centre of the unit circle.
    let off = start.perp_dot(along).abs() / a.sqrt();
    if off > 1.0 + SAME / short {
        return;
    }
    let half = ((1.0 - off * off).max(0.0) / a).sqrt();
    let slack = SAME / (seg.b - seg.a).length();
    for s in [nearest - half, nearest + half] {
        if s > -slack && s < 1.0 + slack {
            let at = start + along * s;
            if let Some(angle) = conic.within(at.y.atan2(at.x), SAME / long) {
                put(s.clamp(0.0, 1.0), angle);
            }
        }
        if half == 0.0 {
            break;
        }
    }
}

/// Two arcs.
fn round(one: &Conic, two: &Conic, out: &mut Vec<(f64, f64)>) {
    let close = |a: DVec2, b: DVec2| (a - b).length_squared() < SAME * SAME;
    let slack = SAME / one.p.length();
    if close(one.c, two.c) && close(one.p, two.p) && close(one.q, two.q) {
        for angle in [two.from, two.to] {
            if let Some(on) = one.within(angle, slack) {
                out.push((on, angle));
            }
        }
        return;
    }
    // Circles in parallel planes: one shape, another size.
    let size = two.p.length() / one.p.length();
    if close(one.p * size, two.p) && close(one.q * size, two.q) {
        alike(one, two, size, out);
    } else {
        ellipses(one, two, out);
    }
}

/// Two arcs of one shape: in the frame where the first is the unit circle, the second is a circle of radius `size`.
fn alike(one: &Conic, two: &Conic, size: f64, out: &mut Vec<(f64, f64)>) {
    let between = one.unit(two.c - one.c);
    let (apart, slack) = (between.length(), SAME / one.q.length());
    if apart < slack || apart > 1.0 + size + slack || apart < (1.0 - size).abs() - slack {
        return;
    }
    let along = (apart * apart + 1.0 - size * size) / (2.0 * apart);
    let half = (1.0 - along * along).max(0.0).sqrt();
    let dir = between / apart;
    for side in [half, -half] {
        let at = dir * along + dir.perp() * side;
        let back = at - between;
        let on = one.within(at.y.atan2(at.x), SAME / one.p.length());
        let of = two.within(back.y.atan2(back.x), SAME / two.p.length());
        if let (Some(on), Some(of)) = (on, of) {
            out.push((on, of));
        }
        if half == 0.0 {
            break;
        }
    }
}

/// Two arcs of ellipses: in the frame where the first is the unit circle, the roots of the second's distance from it.
fn ellipses(one: &Conic, two: &Conic, out: &mut Vec<(f64, f64)>) {
    let (c, p, q) = (one.unit(two.c - one.c), one.unit(two.p), one.unit(two.q));
    let (reach, own) = (p.length().max(q.length()), c.length());
    if own > 1.0 + reach + 1e-6 {
        return;
    }
    let at = |t: f64| {
        let (sin, cos) = t.sin_cos();
        c + p * cos + q * sin
    };
    let level = |t: f64| at(t).length_squared() - 1.0;
    let slope = |t: f64| {
        let (sin, cos) = t.sin_cos();
        at(t).dot(q * cos - p * sin)
    };
    let slack = SAME / two.p.length();
    let (from, to) = (two.from - slack, two.to + slack);
    let touch = 2.0 * SAME / one.q.length();
    let mut put = |t: f64| {
        let v = at(t);
        if let Some(on) = one.within(v.y.atan2(v.x), SAME / one.p.length()) {
            out.push((on, t.clamp(two.from, two.to)));
        }
    };
    let steps = ((to - from) / TAU * 24.0).ceil().max(3.0);
    let mut old = (from, level(from), slope(from));
    for step in 1..=steps as usize {
        let t = from + (to - from) * step as f64 / steps;
        let new = (t, level(t), slope(t));
        if (old.1 > 0.0) != (new.1 > 0.0) {
            put(root(level, old.0, new.0));
        } else if (old.2 > 0.0) != (new.2 > 0.0) {
            let turn = root(slope, old.0, new.0);
            let there = level(turn);
            if (there > 0.0) != (old.1 > 0.0) {
                put(root(level, old.0, turn));
                put(root(level, turn, new.0));
            } else if there.abs() < touch {
                put(turn);
            }
        }
        old = new;
    }
}

/// A root between two places of unlike sign, by regula falsi with halved weights (Illinois): as quick as a secant and
/// never outside.
fn root(of: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let (mut below, mut above) = (of(low), of(high));
    let mut risen = None;
    for _ in 0..60 {
        let at = if above == below { (low + high) / 2.0 } else { high - above * (high - low) / (above - below) };
        let there = of(at);
        if there.abs() < 1e-14 || (high - low).abs() < 1e-14 {
            return at;
        }
        let up = (there > 0.0) == (above > 0.0);
        if up {
            (high, above) = (at, there);
        } else {
            (low, below) = (at, there);
        }
        // The end that stays twice loses half its weight.
        if risen == Some(up) {
            if up { below /= 2.0 } else { above /= 2.0 }
        }
        risen = Some(up);
    }
    (low + high) / 2.0
}
