//! Curves in the space of a view (u to the right, v up, depth toward the viewer) and their pictures.
//!
//! A picture is a straight piece or an arc of an ellipse. Ellipses are kept in one form, so that two that lie on one
//! another have equal numbers: the long half axis points into the upper half plane, angles grow from it toward the
//! short one, counter-clockwise as numbers. A circle seen square starts at u. A circle seen on edge becomes two
//! straight pieces whose depth bows. The end of a milled slot is an arc seen along the mill or along the bar, else short
//! chords.

use std::f64::consts::{PI, TAU};

use glam::{DVec2, DVec3};

use super::lines::Stroke;

/// What counts as the same place in a picture, mm.
pub(crate) const SAME: f64 = 1e-5;
/// A circle whose picture is thinner than this share of its length is seen on edge.
const EDGEWISE: f64 = 1e-7;

/// A curve in the space of a view.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Curve3 {
    /// From one point to another.
    Line(DVec3, DVec3),
    /// `centre + x cos t + y sin t` between two angles, the second the larger.
    Round { centre: DVec3, x: DVec3, y: DVec3, from: f64, to: f64 },
    /// `centre + x cos t + y sin t + up √(bar² − x² cos² t)` between two angles, the second the larger, both in 0..π.
    Saddle { centre: DVec3, x: DVec3, y: DVec3, up: DVec3, bar: f64, from: f64, to: f64 },
}

/// Steps in which a saddle's shares are searched.
const STEPS: u32 = 64;
/// Chords that stand for half a turn of a saddle: they stray less than a thousandth of the mill's radius.
const CHORDS: f64 = 48.0;

impl Curve3 {
    /// The point at a share 0..1 of the curve's own parameter.
    pub fn at(&self, share: f64) -> DVec3 {
        match *self {
            Self::Line(a, b) => a + (b - a) * share,
            Self::Round { centre, x, y, from, to } => {
                let (sin, cos) = (from + (to - from) * share).sin_cos();
                centre + x * cos + y * sin
            }
            Self::Saddle { centre, x, y, up, bar, from, to } => {
                let (sin, cos) = (from + (to - from) * share).sin_cos();
                centre + x * cos + y * sin + up * (bar * bar - x.length_squared() * cos * cos).max(0.0).sqrt()
            }
        }
    }

    /// Its shares at even steps.
    fn steps() -> impl Iterator<Item = f64> {
        (0..=STEPS).map(|i| f64::from(i) / f64::from(STEPS))
    }

    /// Appends the shares of a saddle where a value along it changes its sign.
    pub fn passes(&self, value: impl Fn(DVec3) -> f64, out: &mut Vec<f64>) {
        let mut old: Option<(f64, bool)> = None;
        for share in Self::steps() {
            let over = value(self.at(share)) > 0.0;
            if let Some((before, was)) = old
                && was != over
            {
                let (mut low, mut high) = (before, share);
                for _ in 0..48 {
                    let middle = low.midpoint(high);
                    if (value(self.at(middle)) > 0.0) == was { low = middle } else { high = middle }
                }
                out.push(low.midpoint(high));
            }
            old = Some((share, over));
        }
    }

    /// The chords that stand for a saddle.
    pub fn chords(&self) -> Vec<(DVec3, DVec3)> {
        let Self::Saddle { from, to, .. } = *self else { return Vec::new() };
        let count = ((to - from) / PI * CHORDS).ceil().max(1.0) as u32;
        let at = |i: u32| self.at(f64::from(i) / f64::from(count));
        (0..count).map(|i| (at(i), at(i + 1))).collect()
    }

    /// The piece between two shares.
    pub fn part(&self, first: f64, last: f64) -> Self {
        match *self {
            Self::Line(..) => Self::Line(self.at(first), self.at(last)),
            Self::Round { centre, x, y, from, to } => {
                let span = to - from;
                Self::Round { centre, x, y, from: from + span * first, to: from + span * last }
            }
            Self::Saddle { centre, x, y, up, bar, from, to } => {
                let span = to - from;
                Self::Saddle { centre, x, y, up, bar, from: from + span * first, to: from + span * last }
            }
        }
    }

    /// The shares, in order, where `normal · point` passes `level`.
    pub fn meets(&self, normal: DVec3, level: f64, out: &mut Vec<f64>) {
        match *self {
            Self::Line(a, b) => {
                let (first, last) = (normal.dot(a) - level, normal.dot(b) - level);
                if (first > 0.0) != (last > 0.0) {
                    out.push(first / (first - last));
                }
            }
            Self::Round { centre, x, y, from, to } => {
                let mut roots = [0.0; 2];
                let count = angles(normal.dot(x), normal.dot(y), level - normal.dot(centre), &mut roots);
                let begin = out.len();
                for root in &roots[..count] {
                    let share = (root - from).rem_euclid(TAU) / (to - from);
                    if share < 1.0 {
                        out.push(share);
                    }
                }
                out[begin..].sort_by(f64::total_cmp);
            }
            Self::Saddle { .. } => self.passes(|at| normal.dot(at) - level, out),
        }
    }
}

impl Curve3 {
    /// Least and greatest `normal · point` along it.
    pub fn extent(&self, normal: DVec3) -> (f64, f64) {
        let (first, last) = (normal.dot(self.at(0.0)), normal.dot(self.at(1.0)));
        let (mut low, mut high) = (first.min(last), first.max(last));
        if let Self::Round { centre, x, y, from, to } = *self {
            let (cos, sin) = (normal.dot(x), normal.dot(y));
            let top = sin.atan2(cos);
            for at in [top, top + PI] {
                if (at - from).rem_euclid(TAU) < to - from {
                    let there = normal.dot(centre) + cos * at.cos() + sin * at.sin();
                    (low, high) = (low.min(there), high.max(there));
                }
            }
        }
        if let Self::Saddle { .. } = self {
            for there in Self::steps().map(|share| normal.dot(self.at(share))) {
                (low, high) = (low.min(there), high.max(there));
            }
        }
        (low, high)
    }
}

/// Angles where `cos_part cos t + sin_part sin t = value`; gives their number, 0 or 2.
pub(crate) fn angles(cos_part: f64, sin_part: f64, value: f64, out: &mut [f64; 2]) -> usize {
    let size = cos_part.hypot(sin_part);
    if size < 1e-12 || value.abs() >= size {
        return 0;
    }
    let (at, off) = (sin_part.atan2(cos_part), (value / size).acos());
    *out = [at - off, at + off];
    2
}

/// How the depth runs along a straight picture.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Depth {
    /// From one end to the other.
    Even(f64, f64),
    /// A circle on edge: `centre + along s + across √(1 − s²)`, s running between the first two.
    Bow { first: f64, last: f64, centre: f64, along: f64, across: f64 },
}

/// A straight picture.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Seg {
    /// Where it begins.
    pub a: DVec2,
    /// Where it ends.
    pub b: DVec2,
    /// Its depth between.
    pub depth: Depth,
}

/// A picture that is an arc of an ellipse: `c + p cos t + q sin t`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Conic {
    /// Centre.
    pub c: DVec2,
    /// Long half axis.
    pub p: DVec2,
    /// Short half axis, counter-clockwise of the long one.
    pub q: DVec2,
    /// Depth of the centre, and what the two axes add.
    pub z: [f64; 3],
    /// First angle, in 0..2π.
    pub from: f64,
    /// Last angle, up to a turn further.
    pub to: f64,
}

impl Conic {
    /// The point at an angle.
    pub fn at(&self, angle: f64) -> DVec2 {
        let (sin, cos) = angle.sin_cos();
        self.c + self.p * cos + self.q * sin
    }

    /// A point of the view in the frame where the ellipse is the unit circle.
    pub fn unit(&self, v: DVec2) -> DVec2 {
        DVec2::new(v.dot(self.p) / self.p.length_squared(), v.dot(self.q) / self.q.length_squared())
    }

    /// Whether it goes all the way round.
    pub fn full(&self) -> bool {
        self.to - self.from >= TAU - 1e-9
    }

    /// An angle as one within the arc, if it lies there or closer than `slack` to it.
    pub fn within(&self, angle: f64, slack: f64) -> Option<f64> {
        let on = self.from + (angle - self.from).rem_euclid(TAU);
        if on <= self.to + slack {
            Some(on.min(self.to))
        } else if on - TAU >= self.from - slack {
            Some(self.from)
        } else {
            None
        }
    }
}

/// The picture of a curve. Its parameter is 0..1 on a straight piece and the angle on an arc.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Path {
    /// Straight.
    Seg(Seg),
    /// Round.
    Conic(Conic),
}

impl Path {
    /// First and last parameter.
    pub fn range(&self) -> (f64, f64) {
        match self {
            Self::Seg(_) => (0.0, 1.0),
            Self::Conic(conic) => (conic.from, conic.to),
        }
    }

    /// The point of the view at a parameter.
    pub fn at(&self, s: f64) -> DVec2 {
        match self {
            Self::Seg(seg) => seg.a + (seg.b - seg.a) * s,
            Self::Conic(conic) => conic.at(s),
        }
    }

    /// The depth at a parameter.
    pub fn depth(&self, s: f64) -> f64 {
        match self {
            Self::Seg(Seg { depth: Depth::Even(a, b), .. }) => a + (b - a) * s,
            Self::Seg(Seg { depth: Depth::Bow { first, last, centre, along, across }, .. }) => {
                let x = first + (last - first) * s;
                centre + along * x + across * (1.0 - x * x).max(0.0).sqrt()
            }
            Self::Conic(Conic { z, .. }) => {
                let (sin, cos) = s.sin_cos();
                z[0] + z[1] * cos + z[2] * sin
            }
        }
    }

    /// Bounds of the depth, not always the tightest: least, greatest.
    pub fn depths(&self) -> (f64, f64) {
        match self {
            Self::Seg(Seg { depth: Depth::Even(a, b), .. }) => (a.min(*b), a.max(*b)),
            Self::Seg(Seg { depth: Depth::Bow { centre, along, across, .. }, .. }) => {
                let size = along.hypot(*across);
                (centre - size, centre + size)
            }
            Self::Conic(Conic { z, .. }) => {
                let size = z[1].hypot(z[2]);
                (z[0] - size, z[0] + size)
            }
        }
    }

    /// Length in the view of one unit of the parameter, mm; for an ellipse the longest.
    pub fn scale(&self) -> f64 {
        match self {
            Self::Seg(seg) => (seg.b - seg.a).length(),
            Self::Conic(conic) => conic.p.length(),
        }
    }

    /// Least and greatest u and v.
    pub fn bounds(&self) -> (DVec2, DVec2) {
        match self {
            Self::Seg(seg) => (seg.a.min(seg.b), seg.a.max(seg.b)),
            Self::Conic(conic) => {
                let reach = DVec2::new(conic.p.x.hypot(conic.q.x), conic.p.y.hypot(conic.q.y));
                if conic.full() {
                    return (conic.c - reach, conic.c + reach);
                }
                let (a, b) = (conic.at(conic.from), conic.at(conic.to));
                let (mut low, mut high) = (a.min(b), a.max(b));
                for at in [conic.q.x.atan2(conic.p.x), conic.q.y.atan2(conic.p.y)] {
                    for at in [at, at + PI] {
                        if (at - conic.from).rem_euclid(TAU) < conic.to - conic.from {
                            let point = conic.at(at);
                            (low, high) = (low.min(point), high.max(point));
                        }
                    }
                }
                (low, high)
            }
        }
    }

    /// The picture between two parameters as a drawn stroke.
    pub fn stroke(&self, first: f64, last: f64) -> Stroke {
        let point = |v: DVec2| kurbo::Point::new(v.x, v.y);
        match self {
            Self::Seg(_) => Stroke::Line(kurbo::Line::new(point(self.at(first)), point(self.at(last)))),
            Self::Conic(conic) => Stroke::Arc(kurbo::Arc {
                center: point(conic.c),
                radii: kurbo::Vec2::new(conic.p.length(), conic.q.length()),
                start_angle: first,
                sweep_angle: last - first,
                x_rotation: conic.p.y.atan2(conic.p.x),
            }),
        }
    }
}

/// The pictures of a curve: none when it is seen end on, up to three when a circle is seen on edge.
pub(crate) fn pictures(curve: &Curve3, mut put: impl FnMut(Path)) {
    match *curve {
        Curve3::Saddle { .. } => saddled(curve, &mut put),
        Curve3::Line(a, b) => {
            let seg = Seg { a: a.truncate(), b: b.truncate(), depth: Depth::Even(a.z, b.z) };
            if (seg.b - seg.a).length_squared() > SAME * SAME {
                put(Path::Seg(seg));
            }
        }
        Curve3::Round { centre, x, y, from, to } => {
            let (a, b) = (x.truncate(), y.truncate());
            let turn = 0.5 * (2.0 * a.dot(b)).atan2(a.length_squared() - b.length_squared());
            let (sin, cos) = turn.sin_cos();
            let (p, q) = (x * cos + y * sin, y * cos - x * sin);
            let (long, short) = (p.truncate().length(), q.truncate().length());
            if long < SAME {
                return;
            }
            if short <= EDGEWISE * long {
                bows(centre, p, q, (from - turn, to - turn), put);
            } else {
                put(Path::Conic(one_form(centre, p, q, (from - turn, to - turn))));
            }
        }
    }
}

/// A saddle seen along the mill as the mill's arc, along the bar as the bar's, else as chords. Where it is an arc its depth
/// is that of an arc through its ends and its middle.
fn saddled(curve: &Curve3, put: &mut dyn FnMut(Path)) {
    let Curve3::Saddle { centre, x, y, up, bar, from, to } = *curve else { return };
    let mill = x.length();
    if up.truncate().length() < EDGEWISE {
        let low = (bar * bar - mill * mill).max(0.0).sqrt();
        pictures(&Curve3::Round { centre: centre + up * low, x, y: y + up * (bar - low), from, to }, &mut *put);
    } else if y.truncate().length() < EDGEWISE * mill {
        let turn = |t: f64| (mill * t.cos() / bar).acos();
        let (from, to) = (turn(from), turn(to));
        pictures(&Curve3::Round { centre: centre + y * 0.5, x: x * (bar / mill), y: up * bar, from, to }, &mut *put);
    } else {
        curve.chords().iter().for_each(|(a, b)| pictures(&Curve3::Line(*a, *b), &mut *put));
    }
}

/// A circle seen on edge as straight pieces; `p` lies along the picture, `q` in depth.
fn bows(centre: DVec3, p: DVec3, q: DVec3, (from, to): (f64, f64), mut put: impl FnMut(Path)) {
    let mut begin = from;
    while begin < to - 1e-12 {
        let half = ((begin + 1e-12) / PI).floor();
        let end = ((half + 1.0) * PI).min(to);
        let (first, last) = (begin.cos(), end.cos());
        let across = if half.rem_euclid(2.0) < 0.5 { q.z } else { -q.z };
        let seg = Seg {
            a: (centre + p * first).truncate(),
            b: (centre + p * last).truncate(),
            depth: Depth::Bow { first, last, centre: centre.z, along: p.z, across },
        };
        if (seg.b - seg.a).length_squared() > SAME * SAME {
            put(Path::Seg(seg));
        }
        begin = end;
    }
}

/// An ellipse by its half axes in the one form.
fn one_form(centre: DVec3, p: DVec3, q: DVec3, (mut from, mut to): (f64, f64)) -> Conic {
    let (mut p, mut q) = (p, q);
    if p.truncate().perp_dot(q.truncate()) < 0.0 {
        q = -q;
        (from, to) = (-to, -from);
    }
    let (long, short) = (p.truncate().length(), q.truncate().length());
    let lead = p.y.atan2(p.x);
    let back = if (long - short).abs() <= 1e-9 * long {
        // A circle has no long axis of its own: let it begin at u.
        let (sin, cos) = lead.sin_cos();
        let (u, v) = (p.z * cos - q.z * sin, p.z * sin + q.z * cos);
        p = DVec3::new(long, 0.0, u);
        q = DVec3::new(0.0, long, v);
        -lead
    } else if !(-1e-9..PI - 1e-9).contains(&lead) {
        (p, q) = (-p, -q);
        PI
    } else {
        0.0
    };
    let start = (from - back).rem_euclid(TAU);
    let to = start + (to - from);
    Conic { c: centre.truncate(), p: p.truncate(), q: q.truncate(), z: [centre.z, p.z, q.z], from: start, to }
}
