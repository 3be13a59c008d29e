//! Shapes taken apart into straight and circular pieces, the form in which ink is computed.
//!
//! In: a shape on paper. Out: its pieces in drawing order, or the same as a Bézier path.
//! Bulges become true arcs. It does not check its input; [`preflight`](super::preflight) has.

use crate::paper::mark::{PaperPoint, Shape};
use kurbo::{BezPath, PathEl, Point};
use std::f64::consts::TAU;

/// Bulges and sweeps below this are straight (an arc of 1 km chord would rise less than 1 µm).
const STRAIGHT: f64 = 1e-9;

/// Largest distance of a Bézier path from the true arc, paper mm: a tenth of the finest printer dot.
const BEZIER_ERROR: f64 = 1e-3;

/// A straight or circular stroke, paper mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
    /// From one point to another.
    Straight {
        /// Where it begins.
        from: PaperPoint,
        /// Where it ends.
        to: PaperPoint,
    },
    /// Part of a circle.
    Arc {
        /// Centre of the circle.
        centre: PaperPoint,
        /// Radius, mm.
        radius: f64,
        /// Angle of its beginning, radians from +x.
        start: f64,
        /// How far it runs, radians, positive counter-clockwise.
        sweep: f64,
    },
}

impl Piece {
    /// Where it begins.
    pub fn from(&self) -> PaperPoint {
        match *self {
            Self::Straight { from, .. } => from,
            Self::Arc { centre, radius, start, .. } => on_circle(centre, radius, start),
        }
    }

    /// Where it ends.
    pub fn to(&self) -> PaperPoint {
        match *self {
            Self::Straight { to, .. } => to,
            Self::Arc { centre, radius, start, sweep } => on_circle(centre, radius, start + sweep),
        }
    }
}

/// The point of a circle in a direction (radians from +x).
pub fn on_circle(centre: PaperPoint, radius: f64, angle: f64) -> PaperPoint {
    PaperPoint::new(centre.x + radius * angle.cos(), centre.y + radius * angle.sin())
}

/// The edge between two corners with the bulge of the first; bulge = tan(sweep/4).
pub fn edge(from: PaperPoint, to: PaperPoint, bulge: f64) -> Piece {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let chord = dx.hypot(dy);
    if bulge.abs() < STRAIGHT || chord == 0.0 {
        return Piece::Straight { from, to };
    }
    // Centre: from the middle of the chord to its left by chord·(1 − b²)/(4b).
    let left = (1.0 - bulge * bulge) / (4.0 * bulge);
    let centre = PaperPoint::new((from.x + to.x) / 2.0 - dy * left, (from.y + to.y) / 2.0 + dx * left);
    Piece::Arc {
        centre,
        radius: chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs()),
        start: (from.y - centre.y).atan2(from.x - centre.x),
        sweep: 4.0 * bulge.atan(),
    }
}

/// The pieces of a shape in drawing order.
pub fn pieces(shape: &Shape<PaperPoint>) -> Vec<Piece> {
    match shape {
        Shape::Line { from, to } => vec![Piece::Straight { from: *from, to: *to }],
        Shape::Circle { centre, radius } => vec![Piece::Arc { centre: *centre, radius: *radius, start: 0.0, sweep: TAU }],
        Shape::Arc { centre, radius, start, sweep } => {
            vec![Piece::Arc { centre: *centre, radius: *radius, start: *start, sweep: *sweep }]
        }
        Shape::Polyline { vertices, closed } => {
            let mut all: Vec<Piece> = vertices.iter().zip(vertices.iter().skip(1)).map(|(a, b)| edge(a.at, b.at, a.bulge)).collect();
            if let (true, Some(first), Some(last)) = (*closed, vertices.first(), vertices.last()) {
                all.push(edge(last.at, first.at, last.bulge));
            }
            all
        }
    }
}

/// Whether the shape ends where it began and encloses an area.
pub fn is_loop(shape: &Shape<PaperPoint>) -> bool {
    matches!(shape, Shape::Circle { .. } | Shape::Polyline { closed: true, .. })
}

/// The shape as a Bézier path (paper mm, y up); arcs are off by less than 1 µm.
pub fn bezier(shape: &Shape<PaperPoint>) -> BezPath {
    let mut path = BezPath::new();
    for (i, piece) in pieces(shape).iter().enumerate() {
        if i == 0 {
            path.move_to(point(piece.from()));
        }
        match *piece {
            Piece::Straight { to, .. } => path.line_to(point(to)),
            Piece::Arc { centre, radius, start, sweep } => {
                let arc = kurbo::Arc::new(point(centre), (radius, radius), start, sweep, 0.0);
                path.extend(arc.append_iter(BEZIER_ERROR));
            }
        }
    }
    if is_loop(shape) {
        path.push(PathEl::ClosePath);
    }
    path
}

fn point(p: PaperPoint) -> Point {
    Point::new(p.x, p.y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape as _;

    #[test]
    fn half_circle_bulge_has_its_centre_on_the_chord() {
        let a = PaperPoint::new(0.0, 0.0);
        let b = PaperPoint::new(10.0, 0.0);
        let Piece::Arc { centre, radius, sweep, .. } = edge(a, b, 1.0) else { unreachable!("a bulge is an arc") };
        assert!((centre.x - 5.0).abs() < 1e-12 && centre.y.abs() < 1e-12);
        assert!((radius - 5.0).abs() < 1e-12);
        assert!((sweep - std::f64::consts::PI).abs() < 1e-12);
        // Counter-clockwise from (0,0) to (10,0) about (5,0) runs below the chord.
        let Piece::Arc { centre, radius, start, sweep } = edge(a, b, 1.0) else { unreachable!("a bulge is an arc") };
        assert!(on_circle(centre, radius, start + sweep / 2.0).y < -4.9);
    }

    #[test]
    fn every_bulge_ends_on_the_next_corner() {
        for bulge in [-3.0, -0.4, 0.1, 0.999, 2.5] {
            let (a, b) = (PaperPoint::new(3.0, -2.0), PaperPoint::new(-7.0, 11.0));
            let e = edge(a, b, bulge);
            assert!((e.from().x - a.x).hypot(e.from().y - a.y) < 1e-9, "{bulge}");
            assert!((e.to().x - b.x).hypot(e.to().y - b.y) < 1e-9, "{bulge}");
        }
    }

    #[test]
    fn bezier_of_a_circle_has_the_area_of_the_circle() {
        let c = bezier(&Shape::Circle { centre: PaperPoint::new(5.0, 5.0), radius: 20.0 });
        assert!((c.area().abs() - std::f64::consts::PI * 400.0).abs() < 0.1);
    }
}
