//! Plane geometry, by kurbo and i_overlay: edges with a bulge, closed rings, what they enclose, how far apart things are.
//!
//! In: points in mm of any one plane. Out: lengths, areas, centroids, bounds, distances, all in mm. A ring is a
//! closed polygon; its last corner is joined to its first. Every room may use this; it knows neither machine nor paper.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use kurbo::{Arc, BezPath, Line, ParamCurve, ParamCurveArea, ParamCurveMoments, ParamCurveNearest, Point, Rect, Shape, Vec2};
use std::f64::consts::{FRAC_PI_2, TAU};

/// Bulges below this are straight edges (an arc of 1 km chord would rise less than 1 µm).
const STRAIGHT: f64 = 1e-9;

/// Ends nearer to each other than this are one point, mm.
const ONE_POINT: f64 = 1e-12;

/// A corner of the plane as a point.
pub const fn point([x, y]: [f64; 2]) -> Point {
    Point::new(x, y)
}

/// A straight or circular edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Edge {
    /// From one point to another.
    Straight(Line),
    /// Part of a circle, up to all of it.
    Round {
        /// The arc; its radii are the same and it is not rotated.
        arc: Arc,
        /// Where it begins, as given.
        from: Point,
        /// Where it ends, as given.
        to: Point,
    },
}

impl Edge {
    /// From one corner to the next; `bulge` = tan(sweep/4) of the arc between them, positive counter-clockwise, 0 for a straight edge.
    pub fn bulged(from: Point, to: Point, bulge: f64) -> Self {
        let chord = to - from;
        if bulge.abs() < STRAIGHT || chord.hypot() < ONE_POINT {
            return Self::Straight(Line::new(from, to));
        }
        // The centre lies on the left of the chord for a counter-clockwise arc of less than half a turn.
        let centre = from.midpoint(to) + chord.turn_90() * ((1.0 - bulge * bulge) / (4.0 * bulge));
        let radius = chord.hypot() * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
        Self::Round { arc: Arc::new(centre, (radius, radius), (from - centre).atan2(), 4.0 * bulge.atan(), 0.0), from, to }
    }

    /// Part of a circle: angle of its beginning from +x and how far it runs, radians, positive counter-clockwise.
    pub fn arc(centre: Point, radius: f64, start: f64, sweep: f64) -> Self {
        let arc = Arc::new(centre, (radius, radius), start, sweep, 0.0);
        Self::Round { arc, from: arc.start(), to: arc.end() }
    }

    /// A full circle, counter-clockwise from its rightmost point, where it ends to the last digit.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let arc = Arc::new(centre, (radius, radius), 0.0, TAU, 0.0);
        Self::Round { arc, from: arc.start(), to: arc.start() }
    }

    /// The edges of a chain of corners with the bulge to the next one each.
    pub fn chain(corners: &[(Point, f64)], closed: bool) -> Vec<Self> {
        let next = corners.iter().skip(1).chain(corners.iter().take(usize::from(closed)));
        corners.iter().zip(next).map(|((from, bulge), (to, _))| Self::bulged(*from, *to, *bulge)).collect()
    }

    /// Where it begins.
    pub const fn start(&self) -> Point {
        match self {
            Self::Straight(line) => line.p0,
            Self::Round { from, .. } => *from,
        }
    }

    /// Where it ends.
    pub const fn end(&self) -> Point {
        match self {
            Self::Straight(line) => line.p1,
            Self::Round { to, .. } => *to,
        }
    }

    /// Its middle.
    pub fn middle(&self) -> Point {
        match self {
            Self::Straight(line) => line.p0.midpoint(line.p1),
            Self::Round { arc, .. } => arc.center + Vec2::from_angle(arc.start_angle + arc.sweep_angle / 2.0) * arc.radii.x,
        }
    }

    /// Whether it is all of a circle.
    pub fn is_full(&self) -> bool {
        matches!(self, Self::Round { from, to, .. } if from == to)
    }

    /// The other way round.
    #[must_use]
    pub fn reversed(&self) -> Self {
        match *self {
            Self::Straight(line) => Self::Straight(Line::new(line.p1, line.p0)),
            Self::Round { arc, from, to } => {
                let start = if from == to { arc.start_angle } else { arc.start_angle + arc.sweep_angle };
                Self::Round { arc: Arc { start_angle: start, sweep_angle: -arc.sweep_angle, ..arc }, from: to, to: from }
            }
        }
    }

    /// Its length, mm.
    pub fn length(&self) -> f64 {
        match self {
            Self::Straight(line) => line.length(),
            Self::Round { arc, .. } => arc.radii.x * arc.sweep_angle.abs(),
        }
    }

    /// Its part of the area that a closed chain of edges encloses by Green's theorem, mm²; the sum is positive counter-clockwise.
    pub fn signed_area(&self) -> f64 {
        match self {
            Self::Straight(line) => line.signed_area(),
            // kurbo has this integral for lines and Béziers; for a circle it has a closed form.
            Self::Round { arc, from, to } => (arc.center.to_vec2().cross(*to - *from) + arc.radii.x.powi(2) * arc.sweep_angle) / 2.0,
        }
    }

    /// Its bounds; exact, where kurbo's bounds of an arc are those of Béziers.
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Straight(line) => line.bounding_box(),
            Self::Round { arc, from, to } => {
                let end = arc.start_angle + arc.sweep_angle;
                let (low, high) = (arc.start_angle.min(end), arc.start_angle.max(end));
                // The points furthest right, up, left and down, as far as the arc passes them.
                ((low / FRAC_PI_2).ceil() as i32..=(high / FRAC_PI_2).floor() as i32)
                    .take(4)
                    .map(|quarter| arc.center + Vec2::from_angle(f64::from(quarter) * FRAC_PI_2) * arc.radii.x)
                    .fold(Rect::from_points(*from, *to), |r, p| r.union_pt(p))
            }
        }
    }

    /// Distance from a point to it, mm.
    pub fn distance(&self, p: Point) -> f64 {
        match self {
            Self::Straight(line) => distance(p, *line),
            Self::Round { arc, from, to } => {
                let out = p - arc.center;
                // How far round from its beginning, in the sense in which it runs.
                let turn = ((out.atan2() - arc.start_angle) * arc.sweep_angle.signum()).rem_euclid(TAU);
                let beside = turn <= arc.sweep_angle.abs();
                if beside { (out.hypot() - arc.radii.x).abs() } else { p.distance(*from).min(p.distance(*to)) }
            }
        }
    }

    /// Its chords: itself for a straight edge, else as few of the same length as turn by no more than `step` radians each.
    pub fn chords(self, step: f64) -> impl Iterator<Item = Line> {
        let n = match self {
            Self::Straight(_) => 1,
            Self::Round { arc, .. } => (arc.sweep_angle.abs() / step).ceil().max(1.0) as u32,
        };
        let at = move |i: u32| match self {
            _ if i == 0 => self.start(),
            Self::Round { arc, .. } if i < n => arc.eval(f64::from(i) / f64::from(n)),
            _ => self.end(),
        };
        (0..n).map(move |i| Line::new(at(i), at(i + 1)))
    }
}

/// Edges in order as one path whose arcs are Béziers within `error` mm of the circle; closed when its last edge comes back.
pub fn path(edges: &[Edge], closed: bool, error: f64) -> BezPath {
    let mut path = BezPath::new();
    if let Some(first) = edges.first() {
        path.move_to(first.start());
    }
    for edge in edges {
        match edge {
            Edge::Straight(line) => path.line_to(line.p1),
            Edge::Round { arc, .. } => path.extend(arc.append_iter(error)),
        }
    }
    if closed {
        path.close_path();
    }
    path
}

/// A ring as a path.
pub fn ring(corners: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    for (i, corner) in corners.into_iter().enumerate() {
        if i == 0 { path.move_to(corner) } else { path.line_to(corner) }
    }
    if !path.is_empty() {
        path.close_path();
    }
    path
}

/// Whether a point lies inside rings, counted even–odd, so that a ring within a ring is a hole.
pub fn contains(rings: &BezPath, p: Point) -> bool {
    rings.winding(p) % 2 != 0
}

/// Centroid of what rings enclose, holes turning the other way; none where they enclose nothing.
pub fn centroid(rings: &BezPath) -> Option<Point> {
    let (area, moments) = (rings.area(), rings.moments());
    (area.abs() > 1e-9).then(|| Point::new(moments.moment_x / area, moments.moment_y / area))
}

/// Area of a ring below a straight surface whose height at x is given, mm².
pub fn area_below(corners: &[Point], height: impl Fn(f64) -> f64) -> f64 {
    let depth = |p: &Point| height(p.x) - p.y;
    let strip = |(from, to): (&Point, &Point)| {
        // Depths change linearly along an edge; their mean over the edge, what lies above the surface counting nothing.
        let (a, b) = (depth(from), depth(to));
        let mean = match (a > 0.0, b > 0.0) {
            (true, true) => (a + b) / 2.0,
            (false, false) => 0.0,
            (true, false) => a * a / (a - b) / 2.0,
            (false, true) => b * b / (b - a) / 2.0,
        };
        mean * (to.x - from.x)
    };
    corners.iter().zip(corners.iter().cycle().skip(1)).map(strip).sum::<f64>().abs()
}

/// Mean width of a region by its outer loop and its holes: a long strip of width w has area over perimeter = w/2.
pub fn mean_width(loops: impl Iterator<Item = Vec<Edge>>) -> f64 {
    let (mut area, mut length) = (0.0, 0.0);
    for (i, edges) in loops.enumerate() {
        let enclosed = edges.iter().map(Edge::signed_area).sum::<f64>().abs();
        area += if i == 0 { enclosed } else { -enclosed };
        length += edges.iter().map(Edge::length).sum::<f64>();
    }
    if length > 0.0 { 2.0 * area / length } else { 0.0 }
}

/// Distance from a point to a line, mm.
pub fn distance(p: Point, line: Line) -> f64 {
    line.nearest(p, 0.0).distance_sq.sqrt()
}

/// Distance between two rings that do not cross, mm.
pub fn distance_of_rings(a: &[Point], b: &[Point]) -> f64 {
    let one_way = |points: &[Point], ring: &[Point]| {
        let lines = || ring.iter().zip(ring.iter().cycle().skip(1)).map(|(from, to)| Line::new(*from, *to));
        points.iter().flat_map(|p| lines().map(|l| distance(*p, l))).fold(f64::INFINITY, f64::min)
    };
    one_way(a, b).min(one_way(b, a))
}

/// Where along a line (0 to 1) it is inside a rectangle, its edge included (Liang and Barsky's clipping); none outside.
pub fn span_inside(line: Line, rect: Rect) -> Option<(f64, f64)> {
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (from, to, low, high) in [(line.p0.x, line.p1.x, rect.x0, rect.x1), (line.p0.y, line.p1.y, rect.y0, rect.y1)] {
        let way = to - from;
        if way.abs() < ONE_POINT {
            if from < low || from > high {
                return None;
            }
            continue;
        }
        let (a, b) = ((low - from) / way, (high - from) / way);
        enters = enters.max(a.min(b));
        leaves = leaves.min(a.max(b));
    }
    (leaves > enters).then_some((enters, leaves))
}

/// Area that two rings share, mm²; from a grid of 2⁻³⁰ of their size.
pub fn shared_area(a: &[[f64; 2]], b: &[[f64; 2]]) -> f64 {
    let shared = a.overlay(&b, OverlayRule::Intersect, FillRule::EvenOdd);
    shared.iter().flatten().map(|c| ring(c.iter().copied().map(point)).area()).sum::<f64>().abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> [[f64; 2]; 4] {
        [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
    }

    fn round(edge: Edge) -> Arc {
        match edge {
            Edge::Round { arc, .. } => arc,
            Edge::Straight(_) => unreachable!("a bulge is an arc"),
        }
    }

    #[test]
    fn a_bulge_of_one_is_half_a_circle_to_the_right_of_its_chord() {
        let arc = round(Edge::bulged(Point::new(0.0, 0.0), Point::new(10.0, 0.0), 1.0));
        assert!((arc.center - Point::new(5.0, 0.0)).hypot() < 1e-12 && (arc.radii.x - 5.0).abs() < 1e-12 && (arc.sweep_angle - PI).abs() < 1e-12);
        assert!((arc.eval(0.5) - Point::new(5.0, -5.0)).hypot() < 1e-9, "counter-clockwise runs below the chord");
        let shallow = round(Edge::bulged(Point::new(0.0, 0.0), Point::new(10.0, 0.0), 0.3));
        assert!(shallow.center.y > 0.0, "counter-clockwise arcs have their centre at the left");
    }

    #[test]
    fn every_bulge_ends_on_the_next_corner() {
        let (a, b) = (Point::new(3.0, -2.0), Point::new(-7.0, 11.0));
        for bulge in [-3.0, -0.4, 0.0, 0.1, 0.999, 2.5] {
            let e = Edge::bulged(a, b, bulge);
            assert_eq!((e.start(), e.end()), (a, b));
            assert_eq!(e.chords(0.1).last().unwrap().p1, b);
            if let Edge::Round { arc, .. } = e {
                assert!(arc.start().distance(a) < 1e-9 && arc.end().distance(b) < 1e-9, "{bulge}");
            }
        }
    }

    /// A slot of two half circles and two straight edges: rectangle and circle, by hand.
    #[test]
    fn a_slot_has_the_area_length_and_bounds_of_rectangle_and_circle() {
        let corner = |x: f64, y: f64, bulge: f64| (Point::new(x, y), bulge);
        let slot = Edge::chain(&[corner(110.0, 0.0, 0.0), corner(110.0, 20.0, 1.0), corner(90.0, 20.0, 0.0), corner(90.0, 0.0, 1.0)], true);
        assert!((slot.iter().map(Edge::signed_area).sum::<f64>() - (400.0 + PI * 100.0)).abs() < 1e-9);
        assert!((slot.iter().map(Edge::length).sum::<f64>() - (40.0 + PI * 20.0)).abs() < 1e-9);
        let bounds = slot.iter().map(Edge::bounds).reduce(|a, b| a.union(b)).unwrap();
        assert_eq!((bounds.x0, bounds.y0, bounds.x1, bounds.y1), (90.0, -10.0, 110.0, 30.0));
        assert_eq!(Edge::circle(Point::new(1.0, 2.0), 3.0).bounds(), Rect::new(-2.0, -1.0, 4.0, 5.0));
    }

    #[test]
    fn a_path_of_arcs_has_the_area_of_the_circle() {
        let circle = path(&[Edge::circle(Point::new(5.0, 5.0), 20.0)], true, 1e-3);
        assert!((circle.area() - PI * 400.0).abs() < 0.1);
    }

    #[test]
    fn a_point_in_a_hole_is_outside() {
        let mut plate = ring(rectangle(-10.0, -10.0, 10.0, 10.0).map(point));
        plate.extend(ring(rectangle(-4.0, -4.0, 4.0, 4.0).map(point)));
        assert!(contains(&plate, Point::new(7.0, 0.0)));
        assert!(!contains(&plate, Point::new(1.0, 1.0)) && !contains(&plate, Point::new(11.0, 0.0)));
        assert!(!contains(&ring([]), Point::ZERO));
    }

    #[test]
    fn a_hole_pulls_the_centroid_away() {
        let mut plate = ring(rectangle(0.0, 0.0, 40.0, 10.0).map(point));
        assert!(centroid(&plate).unwrap().distance(Point::new(20.0, 5.0)) < 1e-9);
        let mut hole = rectangle(20.0, 0.0, 40.0, 10.0).map(point);
        hole.reverse();
        plate.extend(ring(hole));
        assert!(centroid(&plate).unwrap().distance(Point::new(10.0, 5.0)) < 1e-9);
        assert_eq!(centroid(&ring([])), None);
    }

    #[test]
    fn areas_below_level_and_sloping_surfaces() {
        let square = rectangle(0.0, 0.0, 100.0, 100.0).map(point);
        assert!((area_below(&square, |_| 30.0) - 3000.0).abs() < 1e-9);
        assert!((area_below(&square, |x| x) - 5000.0).abs() < 1e-9);
        assert!(area_below(&square, |_| -1.0) == 0.0 && (area_below(&square, |_| 500.0) - 1e4).abs() < 1e-9);
    }

    #[test]
    fn distances_of_points_lines_and_rings() {
        assert_eq!(distance(Point::new(5.0, 3.0), Line::new((0.0, 0.0), (10.0, 0.0))), 3.0);
        assert_eq!(distance(Point::new(13.0, 4.0), Line::new((0.0, 0.0), (10.0, 0.0))), 5.0);
        assert_eq!(distance(Point::new(3.0, 4.0), Line::new((0.0, 0.0), (0.0, 0.0))), 5.0);
        assert_eq!(distance_of_rings(&rectangle(0.0, 0.0, 10.0, 10.0).map(point), &rectangle(13.0, 2.0, 20.0, 4.0).map(point)), 3.0);
    }

    #[test]
    fn distances_to_an_arc_are_to_its_curve_or_to_its_ends() {
        // The upper half of a circle about (10, 0), both ways round.
        for (start, sweep) in [(0.0, PI), (PI, -PI)] {
            let half = Edge::arc(Point::new(10.0, 0.0), 5.0, start, sweep);
            let near = |x: f64, y: f64, gap: f64| assert!((half.distance(Point::new(x, y)) - gap).abs() < 1e-9, "({x}, {y}), {sweep}");
            near(10.0, 8.0, 3.0);
            near(10.0, 1.0, 4.0);
            near(10.0, -12.0, 13.0);
            near(18.0, -4.0, 5.0);
        }
    }

    #[test]
    fn a_line_is_clipped_to_a_rectangle() {
        let rect = Rect::new(0.0, 0.0, 10.0, 10.0);
        assert_eq!(span_inside(Line::new((-10.0, 5.0), (30.0, 5.0)), rect), Some((0.25, 0.5)));
        assert_eq!(span_inside(Line::new((2.0, 2.0), (4.0, 8.0)), rect), Some((0.0, 1.0)));
        assert_eq!(span_inside(Line::new((-1.0, 11.0), (11.0, 11.0)), rect), None);
        assert_eq!(span_inside(Line::new((-2.0, 8.0), (2.0, 12.0)), rect), None, "past the corner");
    }

    #[test]
    fn crossed_rectangles_share_a_square() {
        let diamond = [[0.0, -2.0], [2.0, 0.0], [0.0, 2.0], [-2.0, 0.0]];
        assert!((shared_area(&rectangle(-1.0, -5.0, 1.0, 5.0), &rectangle(-5.0, -1.0, 5.0, 1.0)) - 4.0).abs() < 1e-6);
        assert!((shared_area(&diamond, &rectangle(0.0, -5.0, 5.0, 5.0)) - 4.0).abs() < 1e-6);
        assert_eq!(shared_area(&rectangle(0.0, 0.0, 1.0, 1.0), &rectangle(2.0, 0.0, 3.0, 1.0)), 0.0);
    }
}
