//! Pieces of projected bodies as marks of a view: circles stay circles, ellipses become short circular arcs.
//!
//! In: strokes and cut regions in the view plane, mm, and a window beyond which nothing is drawn. Out: shapes, and
//! regions as an outline with its holes.

use crate::geometry::{Edge, span_inside};
use crate::paper::mark::{PlanePoint, Shape, Vertex};
use crate::solid::plane::{Loop, area, winding};
use crate::solid::project::Stroke;
use kurbo::{Arc, Line, ParamCurve as _, Point, Rect, Vec2};
use std::f64::consts::PI;

/// Piece of an ellipse that one circular arc stands for: it strays less than a thousandth of the larger half axis.
const STEP: f64 = PI / 24.0;
/// Turn of a chord of an arc that crosses the window, radians.
const CHORD: f64 = 0.05;
/// Two points closer than this are one, mm.
const ONE: f64 = 1e-6;

/// The edges that a stroke is drawn with.
pub fn edges(stroke: &Stroke) -> Loop {
    match stroke {
        Stroke::Line(line) => vec![Edge::Straight(*line)],
        Stroke::Arc(arc) if (arc.radii.x - arc.radii.y).abs() < ONE => {
            let start = arc.start_angle + arc.x_rotation;
            let full = arc.sweep_angle.abs() > 2.0 * PI - 1e-9;
            let round = if full { Edge::circle(arc.center, arc.radii.x) } else { Edge::arc(arc.center, arc.radii.x, start, arc.sweep_angle) };
            vec![round]
        }
        Stroke::Arc(arc) => ellipse(arc),
    }
}

fn ellipse(arc: &Arc) -> Loop {
    let n = (arc.sweep_angle.abs() / STEP).ceil().max(1.0) as u32;
    let at = |i: f64| arc.eval(i / f64::from(n));
    (0..n)
        .map(|i| {
            let (from, middle, to) = (at(f64::from(i)), at(f64::from(i) + 0.5), at(f64::from(i) + 1.0));
            let chord = to - from;
            // Rise over half the chord, positive where the arc lies to the right of it.
            let bulge = -2.0 * chord.cross(middle - from.midpoint(to)) / chord.hypot2().max(f64::MIN_POSITIVE);
            Edge::bulged(from, to, bulge)
        })
        .collect()
}

fn plane(p: Point) -> PlanePoint {
    PlanePoint::new(p.x, p.y)
}

/// An edge as a stroke of a view.
pub fn shape(edge: &Edge) -> Shape<PlanePoint> {
    match edge {
        Edge::Straight(line) => Shape::Line { from: plane(line.p0), to: plane(line.p1) },
        Edge::Round { arc, .. } if edge.is_full() => Shape::Circle { centre: plane(arc.center), radius: arc.radii.x },
        Edge::Round { arc, .. } => Shape::Arc { centre: plane(arc.center), radius: arc.radii.x, start: arc.start_angle, sweep: arc.sweep_angle },
    }
}

/// A closed loop as a contour.
pub fn contour(edges: &[Edge]) -> Shape<PlanePoint> {
    if let [only] = edges {
        return shape(only);
    }
    let bulge = |e: &Edge| match e {
        Edge::Straight(_) => 0.0,
        Edge::Round { arc, .. } => (arc.sweep_angle / 4.0).tan(),
    };
    let vertices = edges.iter().map(|e| Vertex { at: plane(e.start()), bulge: bulge(e) }).collect();
    Shape::Polyline { vertices, closed: true }
}

fn holds(window: Rect, bounds: Rect) -> bool {
    bounds.x0 >= window.x0 - ONE && bounds.x1 <= window.x1 + ONE && bounds.y0 >= window.y0 - ONE && bounds.y1 <= window.y1 + ONE
}

/// What of an edge lies in the window.
pub fn clipped(edge: Edge, window: Rect) -> Vec<Edge> {
    if holds(window, edge.bounds()) {
        return vec![edge];
    }
    let inside = |line: Line| span_inside(line, window).map(|(from, to)| Edge::Straight(Line::new(line.eval(from), line.eval(to))));
    edge.chords(CHORD).filter_map(inside).collect()
}

/// What of a region's loop lies in the window, and where the window's edge breaks it off.
pub fn broken_off(edges: Loop, window: Rect) -> (Loop, Vec<Line>) {
    if edges.iter().all(|e| holds(window, e.bounds())) {
        return (edges, Vec::new());
    }
    let mut points: Vec<Point> = edges.into_iter().flat_map(|e| e.chords(CHORD)).map(|chord| chord.p0).collect();
    // Half plane by half plane (Sutherland and Hodgman 1974, from memory).
    for (inward, border) in
        [(Vec2::new(1.0, 0.0), window.x0), (Vec2::new(-1.0, 0.0), -window.x1), (Vec2::new(0.0, 1.0), window.y0), (Vec2::new(0.0, -1.0), -window.y1)]
    {
        let depth = |p: Point| p.to_vec2().dot(inward) - border;
        let mut kept = Vec::with_capacity(points.len() + 4);
        for (p, q) in points.iter().zip(points.iter().cycle().skip(1)) {
            let (a, b) = (depth(*p), depth(*q));
            if a >= 0.0 {
                kept.push(*p);
            }
            if (a >= 0.0) != (b >= 0.0) {
                kept.push(p.lerp(*q, a / (a - b)));
            }
        }
        points = kept;
    }
    let lines: Vec<Line> = points.iter().zip(points.iter().cycle().skip(1)).map(|(p, q)| Line::new(*p, *q)).filter(|l| l.length() > ONE).collect();
    let border = |l: &Line| {
        let both = |along: fn(Point) -> f64, at: f64| (along(l.p0) - at).abs() < ONE && (along(l.p1) - at).abs() < ONE;
        both(|p| p.x, window.x0) || both(|p| p.x, window.x1) || both(|p| p.y, window.y0) || both(|p| p.y, window.y1)
    };
    let breaks = lines.iter().copied().filter(border).collect();
    (lines.into_iter().map(Edge::Straight).collect(), breaks)
}

/// Loops of one body sorted into regions: each an outline followed by its holes.
pub fn regions(mut loops: Vec<Loop>) -> Vec<Vec<Loop>> {
    loops.retain(|l| area(l).abs() > 1e-3);
    loops.sort_by(|a, b| area(b).abs().total_cmp(&area(a).abs()));
    let mut out: Vec<Vec<Loop>> = Vec::new();
    for edges in loops {
        let at = edges.first().map(Edge::middle).unwrap_or_default();
        let around = out.iter_mut().rev().find(|region| region.first().is_some_and(|o| winding(o, at) != 0));
        match around {
            Some(region) if !region.iter().skip(1).any(|hole| winding(hole, at) != 0) => region.push(edges),
            _ => out.push(vec![edges]),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(half: f64) -> Loop {
        let corner = |x: f64, y: f64| (Point::new(x, y), 0.0);
        Edge::chain(&[corner(-half, -half), corner(half, -half), corner(half, half), corner(-half, half)], true)
    }

    #[test]
    fn an_ellipse_becomes_arcs_that_keep_to_it() {
        let arc = Arc::new((5.0, 7.0), (100.0, 57.7), 0.3, 2.0 * PI, 0.4);
        let pieces = edges(&Stroke::Arc(arc));
        let enclosed: f64 = pieces.iter().map(Edge::signed_area).sum();
        assert!((enclosed / (PI * 100.0 * 57.7) - 1.0).abs() < 1e-3, "{enclosed}");
    }

    #[test]
    fn an_island_in_a_hole_is_a_region_of_its_own() {
        let found = regions(vec![square(2.0), square(30.0), square(20.0), square(1.0)]);
        let sizes: Vec<usize> = found.iter().map(Vec::len).collect();
        assert_eq!(sizes, [2, 2]);
    }

    #[test]
    fn a_window_breaks_a_region_off() {
        let (edges, breaks) = broken_off(square(30.0), Rect::new(-100.0, -10.0, 100.0, 10.0));
        assert!((area(&edges) - 1200.0).abs() < 1e-6);
        assert_eq!(breaks.len(), 2);
        assert_eq!(clipped(Edge::circle(Point::ZERO, 5.0), Rect::new(-9.0, -9.0, 9.0, 9.0)).len(), 1);
    }
}
