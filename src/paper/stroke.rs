//! Strokes as edges, straight segments and rings, bounds of marks, marks moved on paper.
//!
//! For ink checks and layout curves are cut into chords that stay within [`SAGITTA`] of the curve;
//! exporters write the true arcs of [`Shape::edges`].

use super::lettering::TextBox;
use super::mark::{Dimension, Group, Hatch, Mark, Measure, PaperPoint, Path, Shape, Text};
use crate::geometry::{self, Edge};
use kurbo::{BezPath, Line, Point};

/// Largest distance of a chord from its arc, paper mm.
pub const SAGITTA: f64 = 0.05;

/// An upright rectangle on paper, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x0: f64,
    /// Lower edge.
    pub y0: f64,
    /// Right edge.
    pub x1: f64,
    /// Upper edge.
    pub y1: f64,
}

impl Rect {
    /// Holds nothing; grows with [`Rect::add`].
    pub const EMPTY: Rect = Rect { x0: f64::INFINITY, y0: f64::INFINITY, x1: f64::NEG_INFINITY, y1: f64::NEG_INFINITY };

    /// From its edges.
    pub const fn new(x0: f64, y0: f64, x1: f64, y1: f64) -> Self {
        Self { x0, y0, x1, y1 }
    }
    /// Width, mm.
    pub fn width(&self) -> f64 {
        self.x1 - self.x0
    }
    /// Height, mm.
    pub fn height(&self) -> f64 {
        self.y1 - self.y0
    }
    /// Whether nothing was added.
    pub fn is_empty(&self) -> bool {
        self.x0 > self.x1
    }
    /// Takes in a point.
    pub fn add(&mut self, p: PaperPoint) {
        self.x0 = self.x0.min(p.x);
        self.y0 = self.y0.min(p.y);
        self.x1 = self.x1.max(p.x);
        self.y1 = self.y1.max(p.y);
    }
    /// The smallest rectangle around both.
    pub fn union(&self, o: &Rect) -> Rect {
        Rect::new(self.x0.min(o.x0), self.y0.min(o.y0), self.x1.max(o.x1), self.y1.max(o.y1))
    }
    /// Moved.
    pub fn moved(&self, dx: f64, dy: f64) -> Rect {
        Rect::new(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)
    }
    /// Larger on all sides.
    pub fn grown(&self, by: f64) -> Rect {
        Rect::new(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)
    }
    /// Whether the insides share area.
    pub fn overlaps(&self, o: &Rect) -> bool {
        self.x0 < o.x1 - 1e-9 && o.x0 < self.x1 - 1e-9 && self.y0 < o.y1 - 1e-9 && o.y0 < self.y1 - 1e-9
    }
    /// Whether the other lies inside.
    pub fn contains(&self, o: &Rect) -> bool {
        self.x0 <= o.x0 + 1e-6 && self.y0 <= o.y0 + 1e-6 && self.x1 >= o.x1 - 1e-6 && self.y1 >= o.y1 - 1e-6
    }
    /// Its middle.
    pub fn centre(&self) -> PaperPoint {
        PaperPoint::new((self.x0 + self.x1) / 2.0, (self.y0 + self.y1) / 2.0)
    }
}

/// Angle step whose chord stays within [`SAGITTA`] of a circle of this radius.
fn step(radius: f64) -> f64 {
    if radius <= SAGITTA { 1.0 } else { (2.0 * (1.0 - SAGITTA / radius).acos()).clamp(0.02, 0.8) }
}

impl<P: Copy + Into<Point>> Shape<P> {
    /// Its edges in drawing order.
    pub fn edges(&self) -> Vec<Edge> {
        match self {
            Shape::Line { from, to } => vec![Edge::Straight(Line::new((*from).into(), (*to).into()))],
            Shape::Circle { centre, radius } => vec![Edge::circle((*centre).into(), *radius)],
            Shape::Arc { centre, radius, start, sweep } => vec![Edge::arc((*centre).into(), *radius, *start, *sweep)],
            Shape::Polyline { vertices, closed } => Edge::chain(&vertices.iter().map(|v| (v.at.into(), v.bulge)).collect::<Vec<_>>(), *closed),
        }
    }

    /// Whether it ends where it began and encloses an area.
    pub const fn is_loop(&self) -> bool {
        matches!(self, Shape::Circle { .. } | Shape::Polyline { closed: true, .. })
    }

    /// Itself as a path whose arcs are within `error` mm.
    pub fn path(&self, error: f64) -> BezPath {
        geometry::path(&self.edges(), self.is_loop(), error)
    }
}

/// The chords of a shape's edges.
fn chords(shape: &Shape<PaperPoint>) -> impl Iterator<Item = Line> {
    shape.edges().into_iter().flat_map(|edge| {
        let radius = if let Edge::Round { arc, .. } = edge { arc.radii.x } else { f64::INFINITY };
        edge.chords(step(radius))
    })
}

/// Walks over the straight segments (or chords) of a stroke.
pub fn segments(shape: &Shape<PaperPoint>, see: &mut dyn FnMut(PaperPoint, PaperPoint)) {
    chords(shape).for_each(|chord| see(chord.p0.into(), chord.p1.into()));
}

/// Bounds of a stroke.
pub fn shape_bounds(shape: &Shape<PaperPoint>) -> Rect {
    let mut r = Rect::EMPTY;
    if let Shape::Circle { centre, radius } = shape {
        return Rect::new(centre.x - radius, centre.y - radius, centre.x + radius, centre.y + radius);
    }
    segments(shape, &mut |a, b| {
        r.add(a);
        r.add(b);
    });
    r
}

/// Closed loops as rings of chords, to ask what they [contain](geometry::contains).
pub fn rings(loops: &[Shape<PaperPoint>]) -> BezPath {
    loops.iter().flat_map(|l| geometry::ring(chords(l).map(|chord| chord.p0))).collect()
}

/// Bounds of everything that a mark inks.
pub fn mark_bounds(mark: &Mark) -> Rect {
    let mut r = Rect::EMPTY;
    mark.walk(&mut |m| match m {
        Mark::Path(p) => r = r.union(&shape_bounds(&p.shape)),
        Mark::Text(t) => {
            for c in TextBox::of(t).corners() {
                r.add(c);
            }
        }
        Mark::Hatch(h) => h.loops.iter().for_each(|l| r = r.union(&shape_bounds(l))),
        _ => {}
    });
    r
}

/// The mark, moved on paper.
pub fn moved(mark: Mark, dx: f64, dy: f64) -> Mark {
    let p = |q: PaperPoint| PaperPoint::new(q.x + dx, q.y + dy);
    match mark {
        Mark::Path(Path { shape, pen }) => Mark::Path(Path { shape: shape.place(1.0, false, p), pen }),
        Mark::Text(t) => Mark::Text(Text { at: p(t.at), ..t }),
        Mark::Hatch(h) => Mark::Hatch(Hatch { loops: h.loops.iter().map(|l| l.place(1.0, false, p)).collect(), ..h }),
        Mark::Group(g) => Mark::Group(Group { id: g.id, marks: g.marks.into_iter().map(|m| moved(m, dx, dy)).collect() }),
        Mark::Dimension(d) => {
            let measure = match d.measure {
                Measure::Linear { first, second, line, angle } => Measure::Linear { first: p(first), second: p(second), line: p(line), angle },
                Measure::Diameter { near, far } => Measure::Diameter { near: p(near), far: p(far) },
                Measure::Radius { centre, on } => Measure::Radius { centre: p(centre), on: p(on) },
                Measure::Angle { corner, first, second, arc } => Measure::Angle { corner: p(corner), first: p(first), second: p(second), arc: p(arc) },
            };
            Mark::Dimension(Box::new(Dimension { measure, strokes: d.strokes.into_iter().map(|m| moved(m, dx, dy)).collect(), ..*d }))
        }
    }
}
