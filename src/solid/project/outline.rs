//! The outline of bodies together: where the picture of none of them goes on beside a line.
//!
//! In: lines that are seen, the faces that look at the viewer. Out: the pieces of a line with nothing on one side.

use super::front::Front;
use super::lines::{Line2, Stroke};
use glam::DVec2;
use std::f64::consts::FRAC_PI_2;

/// How far beside a line one looks, mm.
const BESIDE: f64 = 0.01;
/// In front of everything, mm.
const EYE: f64 = -1e6;
/// A line is asked at so many places.
const ASKED: u32 = 8;
/// So often the way between two places of unlike answers is halved.
const HALVED: u32 = 24;

/// The pieces of a line that lie on the outline.
pub(crate) fn pieces(fronts: &[Front], line: Line2) -> Vec<Line2> {
    let on = |share: f64| is_on(fronts, &line.stroke, share);
    let asked: Vec<(f64, bool)> = (0..ASKED).map(|i| (f64::from(i) + 0.5) / f64::from(ASKED)).map(|s| (s, on(s))).collect();
    let mut out = Vec::new();
    let mut begin = asked.first().filter(|(_, on)| *on).map(|_| 0.0);
    for (a, b) in asked.iter().zip(asked.iter().skip(1)).filter(|(a, b)| a.1 != b.1) {
        let (mut low, mut high) = (a.0, b.0);
        for _ in 0..HALVED {
            let middle = f64::midpoint(low, high);
            if on(middle) == a.1 { low = middle } else { high = middle }
        }
        match begin.take() {
            Some(from) => out.push(part(line, from, low)),
            None => begin = Some(high),
        }
    }
    out.extend(begin.map(|from| part(line, from, 1.0)));
    out
}

fn part(line: Line2, from: f64, to: f64) -> Line2 {
    if from <= 0.0 && to >= 1.0 {
        return line;
    }
    let stroke = match line.stroke {
        Stroke::Line(l) => Stroke::Line(kurbo::Line::new(l.p0 + (l.p1 - l.p0) * from, l.p0 + (l.p1 - l.p0) * to)),
        Stroke::Arc(a) => Stroke::Arc(kurbo::Arc { start_angle: a.start_angle + a.sweep_angle * from, sweep_angle: a.sweep_angle * (to - from), ..a }),
    };
    Line2 { stroke, ..line }
}

/// Whether something lies on one side of a line only, at a share of it.
fn is_on(fronts: &[Front], stroke: &Stroke, share: f64) -> bool {
    let (at, along) = match stroke {
        Stroke::Line(l) => (l.p0 + (l.p1 - l.p0) * share, l.p1 - l.p0),
        Stroke::Arc(a) => {
            let angle = a.start_angle + a.sweep_angle * share;
            let turned = |angle: f64| kurbo::Affine::rotate(a.x_rotation) * kurbo::Point::new(a.radii.x * angle.cos(), a.radii.y * angle.sin());
            (a.center + turned(angle).to_vec2(), turned(angle + FRAC_PI_2).to_vec2())
        }
    };
    let across = DVec2::new(-along.y, along.x).normalize_or_zero() * BESIDE;
    let at = DVec2::new(at.x, at.y);
    let covered = |p: DVec2| fronts.iter().any(|front| front.hides(p, EYE));
    !(covered(at + across) && covered(at - across))
}
