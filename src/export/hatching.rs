//! Hatch lines cut to their region, for the formats that have no hatch of their own.
//!
//! In: the loops of a region, angle and distance of the lines. Out: the visible lines, paper mm.
//! Lines run through the sheet's origin in steps of the distance, as a CAD file's pattern does,
//! so that all formats draw the same lines and neighbouring regions line up. A point is inside when
//! it is enclosed by an odd number of loops (holes stay clear). It does not promise a first line
//! at the edge of the region.

use crate::geometry::Edge;
use crate::paper::mark::{PaperPoint, Shape};
use kurbo::Point;
use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Shorter pieces of line leave no ink of their own, paper mm.
const SHORTEST: f64 = 1e-3;

/// The hatch lines inside the loops: direction `angle` (degrees), distance `spacing` (paper mm, above zero).
pub fn lines(loops: &[Shape<PaperPoint>], angle: f64, spacing: f64) -> Vec<(PaperPoint, PaperPoint)> {
    let (sin, cos) = angle.to_radians().sin_cos();
    // Crossings of each line (by its number) with the outline, as distances along the line.
    let mut crossings: BTreeMap<i64, Vec<f64>> = BTreeMap::new();
    for edge in loops.iter().flat_map(Shape::edges) {
        match edge {
            Edge::Straight(line) => {
                let (a, b) = (turn(line.p0, sin, cos), turn(line.p1, sin, cos));
                cross(a.1, b.1, spacing, &mut crossings, |v| a.0 + (b.0 - a.0) * (v - a.1) / (b.1 - a.1));
            }
            Edge::Round { arc, .. } => {
                let (c, radius) = (turn(arc.center, sin, cos), arc.radii.x);
                for (from, to) in monotonic(arc.start_angle - angle.to_radians(), arc.sweep_angle) {
                    let right = ((from + to) / 2.0).cos() >= 0.0;
                    let half = |v: f64| (radius * radius - (v - c.1) * (v - c.1)).max(0.0).sqrt();
                    cross(c.1 + radius * from.sin(), c.1 + radius * to.sin(), spacing, &mut crossings, |v| if right { c.0 + half(v) } else { c.0 - half(v) });
                }
            }
        }
    }
    let back = |u: f64, v: f64| PaperPoint::new(u * cos - v * sin, u * sin + v * cos);
    let mut out = Vec::new();
    for (number, mut along) in crossings {
        along.sort_by(f64::total_cmp);
        let v = number as f64 * spacing;
        for pair in along.chunks_exact(2) {
            if let [a, b] = *pair
                && b - a > SHORTEST
            {
                out.push((back(a, v), back(b, v)));
            }
        }
    }
    out
}

/// Along and across the hatch lines.
fn turn(p: Point, sin: f64, cos: f64) -> (f64, f64) {
    (p.x * cos + p.y * sin, p.y * cos - p.x * sin)
}

/// Notes every line that the edge from height `a` to height `b` crosses. Half-open, so that a corner
/// on a line counts once when the outline passes through it and twice (or never) when it turns back.
fn cross(a: f64, b: f64, spacing: f64, crossings: &mut BTreeMap<i64, Vec<f64>>, along: impl Fn(f64) -> f64) {
    let (low, high) = if a < b { (a, b) } else { (b, a) };
    let mut number = (low / spacing).ceil() as i64;
    while (number as f64) * spacing < high {
        crossings.entry(number).or_default().push(along(number as f64 * spacing));
        number += 1;
    }
}

/// Cuts an arc where it turns from rising to falling; each part from its lower to its upper angle.
fn monotonic(start: f64, sweep: f64) -> Vec<(f64, f64)> {
    let (mut low, high) = if sweep >= 0.0 { (start, start + sweep) } else { (start + sweep, start) };
    let high = high.min(low + TAU);
    let mut parts = Vec::new();
    let mut top = ((low - FRAC_PI_2) / PI).floor() * PI + FRAC_PI_2;
    while low < high {
        top += PI;
        let end = top.min(high);
        if end > low {
            parts.push((low, end));
            low = end;
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ink(lines: &[(PaperPoint, PaperPoint)]) -> f64 {
        lines.iter().map(|(a, b)| (a.x - b.x).hypot(a.y - b.y)).sum()
    }

    fn p(x: f64, y: f64) -> PaperPoint {
        PaperPoint::new(x, y)
    }

    #[test]
    fn ink_times_spacing_is_the_area() {
        let square = Shape::polygon([p(0.3, 0.1), p(80.3, 0.1), p(80.3, 60.1), p(0.3, 60.1)]);
        let hole = Shape::Circle { centre: p(40.0, 30.0), radius: 20.0 };
        for angle in [0.0, 45.0, 90.0, -30.0, 135.0] {
            let got = ink(&lines(&[square.clone(), hole.clone()], angle, 0.25)) * 0.25;
            let area = 80.0 * 60.0 - PI * 400.0;
            assert!((got - area).abs() < 0.01 * area, "{angle}°: {got} for {area}");
        }
    }

    #[test]
    fn no_line_enters_a_hole() {
        let square = Shape::polygon([p(0.0, 0.0), p(40.0, 0.0), p(40.0, 40.0), p(0.0, 40.0)]);
        let hole = Shape::Circle { centre: p(20.0, 20.0), radius: 10.0 };
        for (a, b) in lines(&[square, hole], 45.0, 2.0) {
            for t in [0.001, 0.25, 0.5, 0.75, 0.999] {
                let (x, y) = (a.x + t * (b.x - a.x), a.y + t * (b.y - a.y));
                assert!((x - 20.0).hypot(y - 20.0) >= 10.0 - 1e-6);
                assert!((-1e-6..=40.000001).contains(&x) && (-1e-6..=40.000001).contains(&y));
            }
        }
    }

    #[test]
    fn corners_on_a_line_do_not_leak() {
        // All four corners of the diamond lie on hatch lines.
        let diamond = Shape::polygon([p(0.0, 0.0), p(2.0, 2.0), p(4.0, 0.0), p(2.0, -2.0)]);
        for (a, b) in lines(&[diamond], 0.0, 1.0) {
            assert!((a.y - b.y).abs() < 1e-12 && b.x - a.x <= 4.0 + 1e-9);
        }
    }
}
