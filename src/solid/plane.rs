//! Plane regions bounded by straight and circular edges: what solids are drawn out of.
//!
//! In: corners in mm with bulges, or circles. Out: loops of edges, their area, and whether a point lies within.
//! A region is a slice of loops: the outer one first and counter-clockwise, holes clockwise, none touching another.
//! Nothing here refuses loops that cross.

use crate::geometry::Edge;
use kurbo::{Arc, Line, Point};
use std::f64::consts::{PI, TAU};

/// A closed chain of edges; a full circle is one edge.
pub type Loop = Vec<Edge>;

impl Edge {
    /// Whether a point lies inside the edge to within `near` mm, its ends excluded.
    pub(super) fn passes(&self, p: Point, near: f64) -> bool {
        if p.distance(self.start()) <= near || p.distance(self.end()) <= near {
            return false;
        }
        match self {
            Self::Straight(line) => {
                let (way, to) = (line.p1 - line.p0, p - line.p0);
                let length = way.hypot();
                let along = way.dot(to) / length;
                along > 0.0 && along < length && (way.cross(to) / length).abs() <= near
            }
            Self::Round { arc, .. } => {
                let out = p - arc.center;
                (out.hypot() - arc.radii.x).abs() <= near && self.turned_to(p) < arc.sweep_angle.abs()
            }
        }
    }

    /// How far along it a point on it lies: mm of a straight edge, radians of an arc.
    pub(super) fn along(&self, p: Point) -> f64 {
        match self {
            Self::Straight(line) => (p - line.p0).hypot(),
            Self::Round { .. } => self.turned_to(p),
        }
    }

    /// Angle from the beginning of an arc to a point, in its own sense, 0 to a full turn.
    fn turned_to(&self, p: Point) -> f64 {
        let Self::Round { arc, .. } = self else { return 0.0 };
        let by = (p - arc.center).atan2() - arc.start_angle;
        (if arc.sweep_angle > 0.0 { by } else { -by }).rem_euclid(TAU)
    }

    /// The part of it between two points on it.
    #[must_use]
    pub(super) fn between(&self, from: Point, to: Point) -> Self {
        match *self {
            Self::Straight(_) => Self::Straight(Line::new(from, to)),
            Self::Round { arc, .. } => {
                let start = (from - arc.center).atan2();
                let turn = arc.sweep_angle.signum() * (((to - arc.center).atan2() - start) * arc.sweep_angle.signum()).rem_euclid(TAU);
                Self::Round { arc: Arc { start_angle: start, sweep_angle: turn, ..arc }, from, to }
            }
        }
    }
}

/// Area that a loop encloses, mm²; positive counter-clockwise.
pub fn area(edges: &[Edge]) -> f64 {
    edges.iter().map(Edge::signed_area).sum()
}

/// A loop the other way round.
pub fn reversed(edges: &[Edge]) -> Loop {
    edges.iter().rev().map(Edge::reversed).collect()
}

/// How often a loop turns round a point that does not lie on it; positive counter-clockwise.
pub fn winding(edges: &[Edge], p: Point) -> i32 {
    let turns = |edge: &Edge| {
        let (a, b) = (edge.start() - p, edge.end() - p);
        let cross = a.cross(b);
        let chord = cross.atan2(a.dot(b));
        let Edge::Round { arc, .. } = edge else { return chord };
        let sense = arc.sweep_angle.signum();
        if (p - arc.center).hypot() >= arc.radii.x {
            chord
        } else if edge.is_full() {
            sense * TAU
        } else if cross == 0.0 {
            // On the chord.
            sense * PI
        } else if sense * cross < 0.0 {
            // Between chord and arc the arc goes round the other way.
            chord + sense * TAU
        } else {
            chord
        }
    };
    (edges.iter().map(turns).sum::<f64>() / (2.0 * PI)).round() as i32
}

/// Whether a point that lies on no edge lies in a region.
pub fn contains(region: &[Loop], p: Point) -> bool {
    region.iter().map(|l| winding(l, p)).sum::<i32>() > 0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slot_turns_once_round_what_it_holds() {
        let corner = |x: f64, y: f64, bulge: f64| (Point::new(x, y), bulge);
        let slot = Edge::chain(&[corner(10.0, 0.0, 0.0), corner(10.0, 20.0, 1.0), corner(-10.0, 20.0, 0.0), corner(-10.0, 0.0, 1.0)], true);
        assert!((area(&slot) - (400.0 + PI * 100.0)).abs() < 1e-9);
        for (x, y, times) in [(0.0, 0.0, 1), (0.0, 29.0, 1), (0.0, -9.0, 1), (9.0, 29.0, 0), (11.0, 5.0, 0), (0.0, 31.0, 0), (3.0, 22.0, 1)] {
            assert_eq!(winding(&slot, Point::new(x, y)), times, "{x} {y}");
            assert_eq!(winding(&reversed(&slot), Point::new(x, y)), -times, "{x} {y}");
        }
        let notched = Edge::chain(&[corner(0.0, 0.0, 0.0), corner(20.0, 0.0, 0.0), corner(20.0, 10.0, -1.0), corner(0.0, 10.0, 0.0)], true);
        assert_eq!(winding(&notched, Point::new(10.0, 5.0)), 0);
        assert_eq!(winding(&notched, Point::new(1.0, 1.0)), 1);
        let big = [Edge::bulged(Point::new(0.0, 0.0), Point::new(2.0, 0.0), 5.0), Edge::Straight(Line::new((2.0, 0.0), (0.0, 0.0)))];
        // Radius 2.6 about (1, −2.4).
        assert_eq!(winding(&big, Point::new(-1.4, -2.4)), 1);
        assert_eq!(winding(&big, Point::new(-1.4, -0.1)), 0);
    }

    #[test]
    fn parts_of_an_arc_lie_on_it() {
        let circle = Edge::circle(Point::new(1.0, 1.0), 5.0).reversed();
        let (up, left) = (Point::new(1.0, 6.0), Point::new(-4.0, 1.0));
        assert!(circle.passes(up, 1e-9) && !circle.passes(Point::new(6.0, 1.0), 1e-9) && !circle.passes(Point::new(1.0, 6.1), 1e-9));
        let part = circle.between(left, up);
        assert!((part.middle() - Point::new(1.0 - 12.5_f64.sqrt(), 1.0 + 12.5_f64.sqrt())).hypot() < 1e-12);
        assert!((circle.along(up) - 1.5 * PI).abs() < 1e-12);
    }
}
