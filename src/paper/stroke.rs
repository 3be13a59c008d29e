//! Strokes as straight segments, bounds of marks, marks moved on paper.
//!
//! Curves are cut into chords that stay within [`SAGITTA`] of the curve: good for ink checks and
//! layout, not for output; exporters write true arcs.

use super::lettering::TextBox;
use super::mark::{Dimension, Group, Hatch, Mark, Measure, PaperPoint, Path, Shape, Text, Vertex};

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

/// Cuts an arc into chords.
fn arc_chords(centre: PaperPoint, radius: f64, start: f64, sweep: f64, see: &mut dyn FnMut(PaperPoint, PaperPoint)) {
    let n = (sweep.abs() / step(radius)).ceil().clamp(1.0, 720.0) as usize;
    let at = |i: usize| {
        let a = start + sweep * i as f64 / n as f64;
        PaperPoint::new(centre.x + radius * a.cos(), centre.y + radius * a.sin())
    };
    let mut last = at(0);
    for i in 1..=n {
        let next = at(i);
        see(last, next);
        last = next;
    }
}

/// Centre, radius, start angle and sweep of a bulged edge; `None` for a straight one.
pub fn bulge_arc(a: PaperPoint, b: PaperPoint, bulge: f64) -> Option<(PaperPoint, f64, f64, f64)> {
    let chord = (b.x - a.x).hypot(b.y - a.y);
    if bulge.abs() < 1e-9 || chord < 1e-12 {
        return None;
    }
    let sweep = 4.0 * bulge.atan();
    let radius = chord / 2.0 / (sweep / 2.0).sin().abs();
    // Distance from the chord's middle to the centre, positive to the left of a→b.
    let h = chord / 2.0 * (1.0 - bulge * bulge) / (2.0 * bulge);
    let (ux, uy) = ((b.x - a.x) / chord, (b.y - a.y) / chord);
    let centre = PaperPoint::new((a.x + b.x) / 2.0 - uy * h, (a.y + b.y) / 2.0 + ux * h);
    Some((centre, radius, (a.y - centre.y).atan2(a.x - centre.x), sweep))
}

/// Walks over the straight segments (or chords) of a stroke.
pub fn segments(shape: &Shape<PaperPoint>, see: &mut dyn FnMut(PaperPoint, PaperPoint)) {
    match shape {
        Shape::Line { from, to } => see(*from, *to),
        Shape::Circle { centre, radius } => arc_chords(*centre, *radius, 0.0, std::f64::consts::TAU, see),
        Shape::Arc { centre, radius, start, sweep } => arc_chords(*centre, *radius, *start, *sweep, see),
        Shape::Polyline { vertices, closed } => {
            let next = vertices.iter().skip(1).chain(vertices.iter().take(usize::from(*closed)));
            for (v, w) in vertices.iter().zip(next) {
                edge(v, w.at, see);
            }
        }
    }
}

fn edge(v: &Vertex<PaperPoint>, to: PaperPoint, see: &mut dyn FnMut(PaperPoint, PaperPoint)) {
    match bulge_arc(v.at, to, v.bulge) {
        Some((centre, radius, start, sweep)) => arc_chords(centre, radius, start, sweep, see),
        None => see(v.at, to),
    }
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

/// Whether a point lies inside closed loops, counted even–odd.
pub fn inside(loops: &[Shape<PaperPoint>], p: PaperPoint) -> bool {
    let mut odd = false;
    for l in loops {
        segments(l, &mut |a, b| {
            if (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x {
                odd = !odd;
            }
        });
    }
    odd
}

/// Signed area (positive counter-clockwise) and perimeter of a closed loop.
pub fn area_and_perimeter(shape: &Shape<PaperPoint>) -> (f64, f64) {
    let (mut area, mut length) = (0.0, 0.0);
    segments(shape, &mut |a, b| {
        area += a.x * b.y - b.x * a.y;
        length += (b.x - a.x).hypot(b.y - a.y);
    });
    (area / 2.0, length)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_half_circle_bulge_turns_about_the_middle() {
        let (c, r, _, sweep) = bulge_arc(PaperPoint::new(0.0, 0.0), PaperPoint::new(10.0, 0.0), 1.0).unwrap();
        assert!((c.x - 5.0).abs() < 1e-9 && c.y.abs() < 1e-9 && (r - 5.0).abs() < 1e-9);
        assert!((sweep - std::f64::consts::PI).abs() < 1e-9);
        let (c, ..) = bulge_arc(PaperPoint::new(0.0, 0.0), PaperPoint::new(10.0, 0.0), 0.3).unwrap();
        assert!(c.y > 0.0, "counter-clockwise arcs have their centre at the left");
    }

    #[test]
    fn a_point_in_a_hole_is_outside() {
        let square = |h: f64| Shape::polygon([(-h, -h), (h, -h), (h, h), (-h, h)].map(|(x, y)| PaperPoint::new(x, y)));
        let loops = [square(10.0), square(4.0)];
        assert!(inside(&loops, PaperPoint::new(7.0, 0.0)));
        assert!(!inside(&loops, PaperPoint::new(1.0, 1.0)));
    }
}
