//! Lines scribed on a plate keep off everything that is cut.
//!
//! In: a pattern, lines on its marked face. Out: the stretches of them that lie on the plate, [`KEEP`] off its edges,
//! openings and holes, none twice. Letters and the crosses of drilled holes are not looked at.

use super::flat::{Contour, FlatPattern, Scribed, Stretch, Tells};
use crate::geometry::{Edge, contains, distance, point, ring};
use kurbo::{BezPath, Line, ParamCurve as _, Point, Vec2};

/// Distance of a scribed line from what is cut, mm (common practice, no source): the cut's edge burns back.
pub const KEEP: f64 = 2.0;
/// Shorter stretches are not scribed, mm.
const SHORTEST: f64 = 3.0;
/// Lines closer than this are one, mm.
const ONE: f64 = 0.05;
/// Turn of a chord of a cut arc, radians.
const CHORD: f64 = 0.1;

/// Where on a plate lines may be scribed.
pub(super) struct Room {
    outline: Vec<Line>,
    outer: BezPath,
    /// Edges of the openings.
    edges: Vec<Line>,
    inner: Vec<BezPath>,
    /// Holes: middle and radius.
    holes: Vec<(Point, f64)>,
}

/// Part of a line, by its share of the whole.
type Span = (f64, f64);

impl Room {
    pub(super) fn of(flat: &FlatPattern) -> Self {
        let chords = |c: &Contour| c.edges().into_iter().flat_map(|e| e.chords(CHORD)).collect::<Vec<Line>>();
        let closed = |lines: &[Line]| ring(lines.iter().map(|l| l.p0));
        let outline = chords(&flat.outer);
        let openings: Vec<Vec<Line>> = flat.openings.iter().map(|o| chords(&o.contour)).collect();
        Self {
            outer: closed(&outline),
            outline,
            inner: openings.iter().map(|o| closed(o)).collect(),
            edges: openings.concat(),
            holes: flat.holes.iter().map(|h| (point(h.at), h.diameter / 2.0)).collect(),
        }
    }

    /// Whether a line lies on the plate within its outline, be it at the edge of an opening; `span` is the flat stretch along x.
    pub(super) fn touches(&self, line: &Stretch, span: Span) -> bool {
        let edge = line.edge();
        let points = [0.02, 0.25, 0.5, 0.75, 0.98].map(|share| at(&edge, share));
        points.iter().any(|p| {
            p.x > span.0 && p.x < span.1 && contains(&self.outer, *p) && self.outline.iter().all(|l| distance(*p, *l) > 1.0) && {
                // At an opening's edge it is on the plate, in the middle of it nowhere.
                self.inner.iter().all(|o| !contains(o, *p)) || self.edges.iter().any(|l| distance(*p, *l) < 0.5)
            }
        })
    }

    /// What of some lines is scribed; each with what it tells and the flat stretch that it lies on, along x.
    pub(super) fn scribed(&self, lines: impl IntoIterator<Item = (Tells, Stretch, Span)>) -> Vec<Scribed> {
        let mut out: Vec<Scribed> = Vec::new();
        for (tells, line, span) in lines {
            let free = match line.edge() {
                Edge::Straight(l) => self.straight(l, span, &out),
                edge @ Edge::Round { .. } => self.round(&edge, span).then_some(line).into_iter().filter(|s| !out.iter().any(|o| o.line.same(s))).collect(),
            };
            out.extend(free.into_iter().map(|line| Scribed { tells, line }));
        }
        out
    }

    fn straight(&self, line: Line, span: Span, done: &[Scribed]) -> Vec<Stretch> {
        let way = line.p1 - line.p0;
        let mut taken: Vec<Span> = Vec::new();
        // Off the flat stretch.
        match within(line.p0.x, way.x, span.0, span.1) {
            Some((from, to)) => taken.extend([(f64::NEG_INFINITY, from), (to, f64::INFINITY)]),
            None => return Vec::new(),
        }
        taken.extend(self.outline.iter().chain(&self.edges).filter_map(|l| beside(line, *l)));
        taken.extend(self.holes.iter().filter_map(|(centre, radius)| round_about(line, *centre, radius + KEEP)));
        for other in done.iter().filter(|s| s.line.bulge == 0.0) {
            let ends = [other.line.from, other.line.to].map(point);
            let off = |p: Point| (way.cross(p - line.p0) / way.hypot()).abs();
            if ends.iter().all(|p| off(*p) < ONE) {
                let [a, b] = ends.map(|p| way.dot(p - line.p0) / way.hypot2());
                taken.push((a.min(b), a.max(b)));
            }
        }
        taken.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut free = Vec::new();
        let mut from = 0.0_f64;
        for (low, high) in taken.into_iter().chain([(1.0, 1.0)]) {
            let to = low.min(1.0);
            if (to - from) * way.hypot() >= SHORTEST && self.on_plate(line.eval(from.midpoint(to))) {
                let [a, b] = [from, to].map(|t| line.eval(t));
                free.push(Stretch::straight([a.x, a.y], [b.x, b.y]));
            }
            from = from.max(high);
        }
        free
    }

    /// Whether an arc lies clear of everything that is cut, on the flat stretch.
    fn round(&self, edge: &Edge, span: Span) -> bool {
        edge.length() >= SHORTEST
            && (0..=8).map(|i| at(edge, f64::from(i) / 8.0)).all(|p| {
                p.x >= span.0
                    && p.x <= span.1
                    && self.on_plate(p)
                    && self.outline.iter().chain(&self.edges).all(|l| distance(p, *l) >= KEEP)
                    && self.holes.iter().all(|(centre, radius)| p.distance(*centre) >= radius + KEEP)
            })
    }

    fn on_plate(&self, p: Point) -> bool {
        contains(&self.outer, p) && !self.inner.iter().any(|o| contains(o, p))
    }
}

/// A point of an edge by its share of the way.
fn at(edge: &Edge, share: f64) -> Point {
    match edge {
        Edge::Straight(line) => line.eval(share),
        Edge::Round { arc, .. } => arc.center + Vec2::from_angle(arc.start_angle + arc.sweep_angle * share) * arc.radii.x,
    }
}

/// Where `start + slope · t` lies between two values; none where it never does.
fn within(start: f64, slope: f64, low: f64, high: f64) -> Option<Span> {
    if slope.abs() < 1e-9 {
        return (start > low && start < high).then_some((f64::NEG_INFINITY, f64::INFINITY));
    }
    let (a, b) = ((low - start) / slope, (high - start) / slope);
    Some((a.min(b), a.max(b)))
}

/// Where a line lies within a radius of a point.
fn round_about(line: Line, centre: Point, radius: f64) -> Option<Span> {
    let (way, to) = (line.p1 - line.p0, line.p0 - centre);
    let (a, b, c) = (way.hypot2(), way.dot(to), to.hypot2() - radius * radius);
    let root = b * b - a * c;
    (root > 0.0).then(|| ((-b - root.sqrt()) / a, (-b + root.sqrt()) / a))
}

/// Where a line lies within [`KEEP`] of another: one stretch, since what is near a straight line is convex.
fn beside(line: Line, other: Line) -> Option<Span> {
    let (way, along, to) = (line.p1 - line.p0, other.p1 - other.p0, line.p0 - other.p0);
    let length = along.hypot();
    let unit = along / length.max(f64::MIN_POSITIVE);
    let slab = within(unit.cross(to), unit.cross(way), -KEEP, KEEP)
        .zip(within(unit.dot(to), unit.dot(way), 0.0, length))
        .map(|(a, b)| (a.0.max(b.0), a.1.min(b.1)))
        .filter(|(low, high)| low < high);
    let ends = [other.p0, other.p1].map(|p| round_about(line, p, KEEP));
    ends.into_iter().chain([slab]).flatten().reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plate() -> FlatPattern {
        let mut flat = FlatPattern::new(Contour::rectangle([0.0, 0.0], [200.0, 100.0]));
        flat.open("window", Contour::rectangle([80.0, 40.0], [120.0, 60.0]));
        flat.round(20.0, "hole", [[160.0, 50.0]]);
        flat
    }

    const ALL: Span = (f64::NEG_INFINITY, f64::INFINITY);

    fn scribed(lines: &[Stretch]) -> Vec<Stretch> {
        let lines = lines.iter().map(|l| (Tells::Item(1), *l, ALL));
        Room::of(&plate()).scribed(lines).into_iter().map(|s| s.line).collect()
    }

    /// Worked out by hand: 2 mm off each edge, and 2 mm off the circle of radius 10.
    #[test]
    fn a_line_across_everything_is_cut_off_at_each_edge() {
        let found = scribed(&[Stretch::straight([-50.0, 50.0], [300.0, 50.0])]);
        let wanted = [(2.0, 78.0), (122.0, 148.0), (172.0, 198.0)].map(|(a, b)| Stretch::straight([a, 50.0], [b, 50.0]));
        assert_eq!(found.len(), 3, "{found:?}");
        assert!(found.iter().zip(&wanted).all(|(f, w)| f.same(w)), "{found:?}");
    }

    #[test]
    fn along_an_edge_nothing_is_scribed_and_nothing_twice() {
        let edge = Stretch::straight([80.0, 40.0], [120.0, 40.0]);
        assert!(scribed(&[edge]).is_empty());
        let (long, part) = (Stretch::straight([10.0, 20.0], [190.0, 20.0]), Stretch::straight([50.0, 20.0], [195.0, 20.0]));
        let found = scribed(&[long, part]);
        assert_eq!(found.len(), 2);
        assert!(found.iter().any(|f| f.same(&Stretch::straight([190.0, 20.0], [195.0, 20.0]))), "{found:?}");
    }

    #[test]
    fn an_arc_is_scribed_whole_or_not_at_all() {
        let arc = |x: f64| Stretch { from: [x, 20.0], to: [x + 20.0, 20.0], bulge: 0.5 };
        assert_eq!(scribed(&[arc(20.0), arc(20.0)]).len(), 1);
        assert!(scribed(&[arc(-10.0)]).is_empty());
    }

    #[test]
    fn a_line_at_an_openings_edge_touches_the_plate_and_one_at_the_outline_does_not() {
        let room = Room::of(&plate());
        assert!(room.touches(&Stretch::straight([80.0, 40.0], [120.0, 40.0]), ALL));
        assert!(!room.touches(&Stretch::straight([0.0, 0.0], [200.0, 0.0]), ALL));
        assert!(!room.touches(&Stretch::straight([85.0, 50.0], [115.0, 50.0]), ALL));
    }
}
