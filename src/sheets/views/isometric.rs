//! An isometric picture with hidden parts left out, the near side plate taken away.
//!
//! Everything is a slab: flat loops pushed along one axis. Each edge is cut where a face in front of
//! it begins or ends (in the picture) and only the free pieces are drawn. Viewer: from the near side,
//! the up side and above, equally inclined to all axes. Curves are polygons of 48 edges, so the
//! picture is for the eye and carries no dimension.

use super::outline;
use crate::geometry::{contains, point, ring};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::model::inlets::{FeedSide, InletBody, Transition};
use crate::paper::mark::{PlanePoint, Shape, Vertex};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, ViewScale};
use crate::spec::openings::Wall;
use kurbo::{BezPath, Line, ParamCurve as _, Point, Rect, Shape as _};
use std::f64::consts::TAU;

type Point3 = [f64; 3];
type Flat = [f64; 2];

/// A face that hides what lies behind it: its outline and openings in the picture, and its plane.
struct Face {
    rings: BezPath,
    bounds: Rect,
    normal: Point3,
    offset: f64,
}

struct Edge {
    from: Point3,
    to: Point3,
    pen: Pen,
}

#[derive(Default)]
struct Scene {
    faces: Vec<Face>,
    edges: Vec<Edge>,
}

/// A plane along which a slab's loops lie, and the axis along which it is thick.
#[derive(Clone, Copy)]
enum Along {
    /// Loops in x, z; thick along y.
    Y,
    /// Loops in y, z; thick along x.
    X,
    /// Loops in x, y; thick along z.
    Z,
}

impl Along {
    fn point(self, [a, b]: Flat, c: f64) -> Point3 {
        match self {
            Self::Y => [a, c, b],
            Self::X => [c, a, b],
            Self::Z => [a, b, c],
        }
    }
}

const TOWARD: Point3 = [1.0, 1.0, 1.0];

fn dot(a: Point3, b: Point3) -> f64 {
    a.iter().zip(b).map(|(p, q)| p * q).sum()
}

fn minus(a: Point3, b: Point3) -> Point3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn cross(a: Point3, b: Point3) -> Point3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// Isometric projection onto the picture.
fn project(p: Point3) -> Flat {
    let cos30 = 0.75_f64.sqrt();
    [(p[0] - p[1]) * cos30, p[2] - (p[0] + p[1]) / 2.0]
}

impl Scene {
    fn face(&mut self, loops: Vec<Vec<Point3>>) {
        let Some([a, b, c]) = loops.first().and_then(|l| three_apart(l)) else { return };
        let normal = cross(minus(b, a), minus(c, a));
        let size = dot(normal, normal).sqrt();
        if size < 1e-9 {
            return;
        }
        let normal = normal.map(|n| n / size);
        if dot(normal, TOWARD).abs() < 1e-6 {
            return;
        }
        let rings: BezPath = loops.iter().flat_map(|l| ring(l.iter().map(|p| point(project(*p))))).collect();
        self.faces.push(Face { bounds: rings.bounding_box(), rings, offset: dot(normal, a), normal });
    }

    /// Flat loops (outer first) pushed from one end of an axis to the other.
    fn slab(&mut self, along: Along, loops: &[Vec<Flat>], thick: Extent, pen: Pen) {
        for end in [thick.low, thick.high] {
            self.face(loops.iter().map(|l| l.iter().map(|p| along.point(*p, end)).collect()).collect());
        }
        for l in loops {
            let count = l.len();
            let at = |i: usize| l.get(i % count.max(1)).copied().unwrap_or_default();
            for i in 0..count {
                let (a, b, c) = (at(i + count - 1), at(i), at(i + 1));
                self.face(vec![vec![along.point(b, thick.low), along.point(c, thick.low), along.point(c, thick.high), along.point(b, thick.high)]]);
                for end in [thick.low, thick.high] {
                    self.edges.push(Edge { from: along.point(b, end), to: along.point(c, end), pen });
                }
                if shows(along, a, b, c) {
                    self.edges.push(Edge { from: along.point(b, thick.low), to: along.point(b, thick.high), pen });
                }
            }
        }
    }

    fn block(&mut self, x: Extent, y: Extent, z: Extent, pen: Pen) {
        self.slab(Along::Z, &[rectangle(x, y)], z, pen);
    }

    /// The free pieces of all edges.
    fn visible(&self) -> Vec<(Flat, Flat, Pen)> {
        let mut out = Vec::new();
        for e in &self.edges {
            let (a, b) = (project(e.from), project(e.to));
            let mut hidden: Vec<Extent> = self.faces.iter().flat_map(|f| hidden_by(f, e, a, b)).collect();
            hidden.sort_by(|p, q| p.low.total_cmp(&q.low));
            let at = |t: f64| [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
            let mut from = 0.0;
            for h in hidden.into_iter().chain([Extent { low: 1.0, high: 1.0 }]) {
                if h.low > from + 1e-4 {
                    out.push((at(from), at(h.low), e.pen));
                }
                from = f64::max(from, h.high);
            }
        }
        out
    }
}

/// Three corners that span the loop's plane well.
fn three_apart(l: &[Point3]) -> Option<[Point3; 3]> {
    let a = *l.first()?;
    let far = |from: Point3| move |p: &&Point3, q: &&Point3| dot(minus(**p, from), minus(**p, from)).total_cmp(&dot(minus(**q, from), minus(**q, from)));
    let b = *l.iter().max_by(far(a))?;
    let area = |p: &Point3| {
        let n = cross(minus(b, a), minus(*p, a));
        dot(n, n)
    };
    let c = *l.iter().max_by(|p, q| area(p).total_cmp(&area(q)))?;
    Some([a, b, c])
}

/// Whether the edge along a slab's thickness at corner `b` is seen as a line: a sharp corner, or the rim of a curve.
fn shows(along: Along, a: Flat, b: Flat, c: Flat) -> bool {
    let d1 = [b[0] - a[0], b[1] - a[1]];
    let d2 = [c[0] - b[0], c[1] - b[1]];
    let turn = (d1[0] * d2[1] - d1[1] * d2[0]).atan2(d1[0] * d2[0] + d1[1] * d2[1]).abs();
    let facing = |d: Flat| dot(along.point([d[1], -d[0]], 0.0), TOWARD) > 0.0;
    turn > 0.4 || facing(d1) != facing(d2)
}

/// Where along an edge (0 to 1) a face hides it.
fn hidden_by(f: &Face, e: &Edge, a: Flat, b: Flat) -> Vec<Extent> {
    let line = Line::new(point(a), point(b));
    if !f.bounds.overlaps(line.bounding_box()) {
        return Vec::new();
    }
    let facing = dot(f.normal, TOWARD);
    let ahead = |t: f64| {
        let q = [0, 1, 2].map(|k: usize| {
            let (p, r) = (e.from.get(k).copied().unwrap_or(0.0), e.to.get(k).copied().unwrap_or(0.0));
            p + t * (r - p)
        });
        (f.offset - dot(f.normal, q)) / facing
    };
    let (s0, s1) = (ahead(0.0), ahead(1.0));
    const CLOSE: f64 = 0.5;
    if s0 < CLOSE && s1 < CLOSE {
        return Vec::new();
    }
    let mut cuts = vec![0.0, 1.0];
    if (s0 - CLOSE) * (s1 - CLOSE) < 0.0 {
        cuts.push((CLOSE - s0) / (s1 - s0));
    }
    cuts.extend(f.rings.segments().flat_map(|s| s.intersect_line(line)).map(|crossing| crossing.line_t));
    cuts.sort_by(f64::total_cmp);
    cuts.iter()
        .zip(cuts.iter().skip(1))
        .filter(|(from, to)| **to > **from + 1e-6)
        .filter(|(from, to)| {
            let t = (**from + **to) / 2.0;
            ahead(t) > CLOSE && contains(&f.rings, line.eval(t))
        })
        .map(|(from, to)| Extent { low: *from, high: *to })
        .collect()
}

fn rectangle(a: Extent, b: Extent) -> Vec<Flat> {
    vec![[a.low, b.low], [a.high, b.low], [a.high, b.high], [a.low, b.high]]
}

fn circle(centre: Flat, radius: f64) -> Vec<Flat> {
    (0..48).map(|i| TAU * f64::from(i) / 48.0).map(|a| [centre[0] + radius * a.cos(), centre[1] + radius * a.sin()]).collect()
}

/// A bulged chain as a polygon.
fn flatten(vertices: &[Vertex<PlanePoint>]) -> Vec<Flat> {
    let corners: Vec<(Point, f64)> = vertices.iter().map(|v| (v.at.into(), v.bulge)).collect();
    let edges = crate::geometry::Edge::chain(&corners, true);
    edges.into_iter().flat_map(|e| e.chords(TAU / 48.0)).map(|chord| [chord.p0.x, chord.p0.y]).collect()
}

fn casing(scene: &mut Scene, foot: &Foot) {
    let c = &foot.casing;
    let t = c.plate;
    let (y, outer_y) = (c.width, c.width.grown(t));
    let mut side: Vec<Flat> = c.inner_outline();
    if let (Some(radius), Some([up, down])) = (c.bottom_radius, c.bottom_arc) {
        let centre = c.bottom_face + radius;
        // inner_outline begins and ends at the arc's ends; the arc itself runs from the last to the first.
        side.extend((1..24).map(|i| -down + (up + down) * f64::from(i) / 24.0).map(|a| [radius * a.sin(), centre - radius * a.cos()]));
    }
    scene.slab(Along::Y, &[side.clone()], Extent { low: y.low - t, high: y.low }, Pen::Edge);
    let mut up = vec![rectangle(outer_y, Extent::new(c.up_shoulder, c.top))];
    up.extend(foot.inlet(FeedSide::Up).map(|i| rectangle(i.width, i.opening)));
    scene.slab(Along::X, &up, Extent::new(c.up_face, c.up_face + t), Pen::Edge);
    let (inner, outer) = super::casing::down_faces(foot);
    let mut down = inner.clone();
    down.extend(outer.iter().rev());
    scene.slab(Along::Y, &[down], outer_y, Pen::Edge);
    scene.slab(Along::Y, &[flatten(&super::casing::bottom_band(foot))], outer_y, Pen::Edge);
    let top = Extent::new(c.down_x(c.top) - t - c.flange, c.up_face + t + c.flange);
    let mut flange = vec![rectangle(top, outer_y.grown(c.flange))];
    flange.extend(c.trunk.iter().map(|o| rectangle(o.x, o.y)));
    scene.slab(Along::Z, &flange, Extent::new(c.top - t, c.top), Pen::Edge);
    for pad in &foot.base.pads {
        scene.block(pad.x, pad.y, Extent::new(0.0, foot.base.thickness), Pen::Edge);
        let leg = super::casing::leg_top(foot, pad);
        if leg > foot.base.thickness {
            let web = if pad.y.middle() > 0.0 { Extent::new(outer_y.high - 2.0 * t, outer_y.high) } else { Extent::new(outer_y.low, outer_y.low + 2.0 * t) };
            scene.block(pad.x.grown(-pad.x.size() * 0.15), web, Extent::new(foot.base.thickness, leg), Pen::Edge);
        }
    }
    for o in foot.openings.iter().filter(|o| o.wall == Wall::UpEnd) {
        scene.block(Extent::new(c.up_face + t, c.up_face + 2.0 * t + 10.0), o.across.grown(foot.lap), o.up.grown(foot.lap), Pen::FineEdge);
    }
}

fn throat(scene: &mut Scene, foot: &Foot, i: &InletBody) {
    let t = foot.casing.plate;
    let out = i.side.outward();
    let (sill, roof) = (i.opening.low, i.opening.high);
    let end = i.flange_face - out * t;
    let rise = i.flange_sill - i.sill;
    let start = |z: f64| if out > 0.0 { foot.casing.up_face + t } else { foot.casing.down_x(z) - t };
    let section = vec![[start(sill), sill - t], [end, sill + rise - t], [end, roof + rise + t], [start(roof), roof + t]];
    scene.slab(Along::Y, &[section], i.width.grown(t), Pen::Edge);
    let high = i.flange_sill + i.opening.size();
    let face = Extent::new(i.flange_sill, high);
    scene.slab(Along::X, &[rectangle(i.width.grown(i.flange), face.grown(i.flange)), rectangle(i.width, face)], Extent::new(end, i.flange_face), Pen::Edge);
}

fn turning(scene: &mut Scene, foot: &Foot) {
    let belt_y = Extent::about(0.0, foot.belt.width);
    let mut wheels = vec![(foot.pulleys.foot, foot.rotating.shaft_diameter, foot.rotating.shaft_ends.high)];
    wheels.extend(foot.pulleys.bend.map(|b| (b, foot.rotating.shaft_diameter * 0.8, foot.rotating.bearing_planes.high)));
    for (p, shaft, end) in wheels {
        let centre = [p.centre.x, p.centre.z];
        scene.slab(Along::Y, &[circle(centre, p.radius())], Extent::about(0.0, p.face), Pen::Edge);
        let face = p.face / 2.0;
        scene.slab(Along::Y, &[circle(centre, shaft * 0.85)], Extent::new(face, face + shaft * 0.4), Pen::FineEdge);
        scene.slab(Along::Y, &[circle(centre, shaft / 2.0)], Extent::new(face, end), Pen::Edge);
        let rim = circle(centre, p.radius() - super::pulley::rim(p.diameter));
        for (a, b) in rim.iter().zip(rim.iter().cycle().skip(1)) {
            scene.edges.push(Edge { from: [a[0], face, a[1]], to: [b[0], face, b[1]], pen: Pen::FineEdge });
        }
    }
    let top = foot.casing.top + 150.0;
    if let Shape::Polyline { vertices, .. } = outline::belt_band(&foot.belt.lowest, foot.belt.thickness, top) {
        scene.slab(Along::Y, &[flatten(&vertices)], belt_y, Pen::Bucket);
    }
    let rows = foot.bucket.rows.max(1);
    let pitch = if rows > 1 { (foot.bucket.overall_length - foot.bucket.length) / f64::from(rows - 1) } else { 0.0 };
    for section in foot.belt.buckets_below(&foot.belt.lowest, &foot.bucket, 0.0, foot.casing.top) {
        for row in 0..rows {
            let low = -foot.bucket.overall_length / 2.0 + f64::from(row) * pitch;
            scene.slab(Along::Y, std::slice::from_ref(&section), Extent::new(low, low + foot.bucket.length), Pen::Bucket);
        }
    }
}

/// The walls of a transition between its flanges: four planes, open at both ends.
fn transition(scene: &mut Scene, foot: &Foot, i: &InletBody, tr: &Transition) {
    let t = foot.casing.plate;
    let out = i.side.outward();
    let (from, to) = super::transition::walls(i, tr, t);
    let throat = Extent::new(i.flange_sill, i.flange_sill + i.opening.size());
    let ring = |x: f64, y: Extent, z: Extent| rectangle(y, z).into_iter().map(|[y, z]| [x, y, z]).collect::<Vec<Point3>>();
    let (first, second) = (ring(from, i.width.grown(t), throat.grown(t)), ring(to, tr.width.grown(t), tr.opening.grown(t)));
    for k in 0..4 {
        let at = |r: &[Point3], k: usize| r.get(k % 4).copied().unwrap_or_default();
        let (a, b, c, d) = (at(&first, k), at(&first, k + 1), at(&second, k + 1), at(&second, k));
        scene.face(vec![vec![a, b, c, d]]);
        scene.edges.extend([(a, b), (d, c), (a, d)].map(|(from, to)| Edge { from, to, pen: Pen::Edge }));
    }
    for (y, z, a, b) in [(i.width, throat, i.flange_face, from), (tr.width, tr.opening, to, to + out * t)] {
        scene.slab(Along::X, &[rectangle(y.grown(i.flange), z.grown(i.flange)), rectangle(y, z)], Extent::new(a.min(b), a.max(b)), Pen::Edge);
    }
}

/// The picture.
pub fn picture(foot: &Foot, title: &'static str, width: f64, height: f64) -> Draft {
    let mut scene = Scene::default();
    casing(&mut scene, foot);
    for i in &foot.inlets {
        throat(&mut scene, foot, i);
        if let Some(tr) = &i.transition {
            transition(&mut scene, foot, i, tr);
        }
    }
    turning(&mut scene, foot);
    let mut d = Draft::new("isometric", title).at_scale(ViewScale::Picture { width, height });
    for (a, b, pen) in scene.visible() {
        d.line(pen, a, b);
    }
    d
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A block seen from the corner shows nine of its twelve edges.
    #[test]
    fn a_block_shows_nine_edges() {
        let mut scene = Scene::default();
        let e = Extent::new(0.0, 100.0);
        scene.block(e, e, e, Pen::Edge);
        let mut seen = scene.visible();
        seen.retain(|(a, b, _)| (a[0] - b[0]).hypot(a[1] - b[1]) > 1.0);
        assert_eq!(seen.len(), 9, "{seen:?}");
    }

    /// A wall in front hides the middle of a bar behind it.
    #[test]
    fn a_wall_hides_what_is_behind() {
        let mut scene = Scene::default();
        scene.face(vec![vec![[100.0, 0.0, -50.0], [100.0, 100.0, -50.0], [100.0, 100.0, 150.0], [100.0, 0.0, 150.0]]]);
        scene.edges.push(Edge { from: [0.0, 50.0, 0.0], to: [0.0, -100.0, 0.0], pen: Pen::Edge });
        let seen = scene.visible();
        assert_eq!(seen.len(), 1, "{seen:?}");
        let (a, b, _) = seen[0];
        let whole = 150.0;
        let part = (a[0] - b[0]).hypot(a[1] - b[1]);
        assert!(part < whole * 0.9, "{part}");
    }
}
