//! Flat patterns: the outline of a plate, its openings and holes, in mm in the plate's own plane.
//!
//! A plate is seen with its marked face toward the viewer, x to the right, y up, the lower left corner
//! of its bounding box at (0, 0). Arcs are kept as arcs (bulges) all the way to the cutting file.
//! Nothing here knows the machine; nothing here checks that contours keep clear of each other.

use crate::geometry::{self, Edge, point};
use kurbo::{Point, Shape as _};
use serde::Serialize;
use std::f64::consts::PI;

/// A point in the plate's plane, mm.
pub type Xy = [f64; 2];

/// How far the arcs of a path may be off for a centroid, mm.
const CENTROID_ERROR: f64 = 1e-6;

/// One corner; `bulge` = tan(sweep/4) bends the edge to the next corner, positive counter-clockwise.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Node {
    /// Where it is, mm.
    pub at: Xy,
    /// 0 for a straight edge.
    pub bulge: f64,
}

/// A corner of an outline as it is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// Where the edges, or their tangents, meet, mm.
    pub at: Xy,
    /// Radius of a rounded corner.
    pub radius: Option<f64>,
    /// Whether a longer arc begins here.
    pub arc_follows: bool,
}

/// A closed contour.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Contour {
    /// Straight and circular edges, closed.
    Path(Vec<Node>),
    /// A full circle.
    Circle {
        /// Centre, mm.
        centre: Xy,
        /// Diameter, mm.
        diameter: f64,
    },
}

impl Contour {
    /// A polygon.
    pub fn polygon(corners: impl IntoIterator<Item = Xy>) -> Self {
        Contour::Path(corners.into_iter().map(|at| Node { at, bulge: 0.0 }).collect())
    }
    /// A rectangle from two opposite corners.
    pub fn rectangle(low: Xy, high: Xy) -> Self {
        Self::polygon([low, [high[0], low[1]], high, [low[0], high[1]]])
    }
    /// A rectangle with rounded corners.
    pub fn rounded(low: Xy, high: Xy, radius: f64) -> Self {
        let r = radius.min((high[0] - low[0]) / 2.0).min((high[1] - low[1]) / 2.0);
        if r < 1e-6 {
            return Self::rectangle(low, high);
        }
        let quarter = (PI / 8.0).tan();
        let n = |x: f64, y: f64, bulge: f64| Node { at: [x, y], bulge };
        Contour::Path(vec![
            n(low[0] + r, low[1], 0.0),
            n(high[0] - r, low[1], quarter),
            n(high[0], low[1] + r, 0.0),
            n(high[0], high[1] - r, quarter),
            n(high[0] - r, high[1], 0.0),
            n(low[0] + r, high[1], quarter),
            n(low[0], high[1] - r, 0.0),
            n(low[0], low[1] + r, quarter),
        ])
    }
    /// An upright slot with half-circle (tangent arc) ends.
    pub fn upright_slot(x: f64, low: f64, high: f64, width: f64) -> Self {
        let r = width / 2.0;
        let n = |x: f64, y: f64, bulge: f64| Node { at: [x, y], bulge };
        Contour::Path(vec![n(x + r, low + r, 0.0), n(x + r, high - r, 1.0), n(x - r, high - r, 0.0), n(x - r, low + r, 1.0)])
    }

    /// Its edges in order.
    pub fn edges(&self) -> Vec<Edge> {
        match self {
            Contour::Path(nodes) => Edge::chain(&nodes.iter().map(|n| (point(n.at), n.bulge)).collect::<Vec<_>>(), true),
            Contour::Circle { centre, diameter } => vec![Edge::circle(point(*centre), diameter / 2.0)],
        }
    }

    /// Signed area, mm²; positive counter-clockwise, circles positive.
    pub fn signed_area(&self) -> f64 {
        self.edges().iter().map(Edge::signed_area).sum()
    }

    /// Corners as they are measured: an arc with a chord under `short` mm between straight edges stands for the
    /// corner where its tangents meet, with its radius.
    pub fn corners(&self, short: f64) -> Vec<Corner> {
        let Contour::Path(nodes) = self else { return Vec::new() };
        let edges = self.edges();
        let n = edges.len();
        let at = |i: usize| edges.get(i % n).copied();
        let straight = |i: usize| matches!(at(i), Some(Edge::Straight(_)));
        let rounded = |i: usize| match at(i) {
            Some(Edge::Round { arc, from, to }) => {
                (straight(i + n - 1) && straight(i + 1) && from.distance(to) < short && arc.sweep_angle.abs() < 3.0).then_some(arc)
            }
            _ => None,
        };
        let mut out = Vec::new();
        for (i, node) in nodes.iter().enumerate() {
            if rounded(i + n - 1).is_some() {
                continue; // its end belongs to the corner before
            }
            match (rounded(i), at(i + n - 1)) {
                (Some(arc), Some(before)) => {
                    let along = (before.end() - before.start()).normalize();
                    let meet = before.end() + along * (arc.radii.x * (arc.sweep_angle.abs() / 2.0).tan());
                    out.push(Corner { at: [meet.x, meet.y], radius: Some(arc.radii.x), arc_follows: false });
                }
                _ => out.push(Corner { at: node.at, radius: None, arc_follows: !straight(i) }),
            }
        }
        out
    }

    /// Enclosed area, mm².
    pub fn area(&self) -> f64 {
        self.signed_area().abs()
    }

    /// Points on the contour, arcs cut into steps of at most `step_rad`; for clearances only.
    pub fn points(&self, step_rad: f64) -> Vec<Point> {
        self.edges().into_iter().flat_map(|e| e.chords(step_rad)).map(|chord| chord.p0).collect()
    }

    /// Bounding box as (low, high), exact for arcs.
    pub fn bounds(&self) -> (Xy, Xy) {
        let r = self.edges().iter().map(Edge::bounds).reduce(|a, b| a.union(b)).unwrap_or_default();
        ([r.x0, r.y0], [r.x1, r.y1])
    }

    /// The contour with every point mapped; `mirrored` says whether the map turns the plane over.
    #[must_use]
    pub fn mapped(&self, mirrored: bool, map: impl Fn(Xy) -> Xy) -> Self {
        match self {
            Contour::Circle { centre, diameter } => Contour::Circle { centre: map(*centre), diameter: *diameter },
            Contour::Path(nodes) if !mirrored => Contour::Path(nodes.iter().map(|n| Node { at: map(n.at), bulge: n.bulge }).collect()),
            Contour::Path(nodes) => {
                // Turned over, the corners are taken in reverse so that the sense of rotation stays; each edge keeps its bulge.
                let corners = nodes.first().into_iter().chain(nodes.iter().skip(1).rev());
                Contour::Path(corners.zip(nodes.iter().rev()).map(|(corner, edge)| Node { at: map(corner.at), bulge: edge.bulge }).collect())
            }
        }
    }
}

/// How a hole is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HoleMade {
    /// Cut with the contour.
    Cut,
    /// Too small to cut, or tapped: its centre is marked, it is drilled.
    Drilled,
}

/// A round hole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Hole {
    /// Tag in the hole table: a letter for each size, a number for each hole.
    pub tag: String,
    /// Centre, mm.
    pub at: Xy,
    /// Diameter, mm; the tap drill when tapped.
    pub diameter: f64,
    /// Thread when tapped.
    pub thread: Option<String>,
    /// Countersink on the marked face.
    pub sunk: Option<Sunk>,
    /// How it is made.
    pub made: HoleMade,
    /// What it is for.
    pub feature: String,
}

/// A countersink: for a screw whose head lies flush. The body of the plate does not show it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Serialize)]
pub struct Sunk {
    /// At the face, mm.
    pub diameter: f64,
    /// Of its cone, degrees.
    pub angle_deg: f64,
}

/// An opening other than a round hole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Opening {
    /// What it is for; where it belongs to a model feature, its id.
    pub feature: String,
    /// Its contour.
    pub contour: Contour,
}

/// Toward which face a bend goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BendSide {
    /// Toward the marked face.
    Up,
    /// Away from the marked face.
    Down,
}

/// A bend or a rolled zone; its lines run across the whole plate, square to x of the pattern.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bend {
    /// Where the curved zone begins along x of the flat pattern, mm.
    pub start: f64,
    /// Its flat (neutral) length, mm.
    pub flat_length: f64,
    /// Angle through which it is bent, degrees.
    pub angle_deg: f64,
    /// Toward which face.
    pub side: BendSide,
    /// Inside radius, mm.
    pub inside_radius: f64,
    /// Rolled to a radius; otherwise pressed on one line in the middle of the zone.
    pub rolled: bool,
}

/// A straight or circular line on the marked face.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stretch {
    /// One end, mm.
    pub from: Xy,
    /// The other end, mm.
    pub to: Xy,
    /// tan(sweep/4) of the arc between them, positive counter-clockwise; 0 for a straight line.
    pub bulge: f64,
}

impl Stretch {
    /// A straight line.
    pub const fn straight(from: Xy, to: Xy) -> Self {
        Self { from, to, bulge: 0.0 }
    }
    /// As an edge of plane geometry.
    pub fn edge(&self) -> Edge {
        Edge::bulged(point(self.from), point(self.to), self.bulge)
    }
    /// Whether two are one line to within 0.01 mm, whichever way each runs.
    pub fn same(&self, other: &Self) -> bool {
        let near = |a: Xy, b: Xy| (a[0] - b[0]).hypot(a[1] - b[1]) < 0.01;
        near(self.from, other.from) && near(self.to, other.to) && (self.bulge - other.bulge).abs() < 1e-4
            || near(self.from, other.to) && near(self.to, other.from) && (self.bulge + other.bulge).abs() < 1e-4
    }
}

/// What a scribed line tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Tells {
    /// Outline of the part with this item number, which is set there.
    Item(u32),
    /// The vertical through the foot shaft.
    ShaftAxis,
    /// The foot shaft's axis, take-up at its lowest.
    LowestShaft,
    /// The belt's middle plane.
    BeltMiddle,
}

/// A line scribed on the marked face.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Scribed {
    /// What it tells.
    pub tells: Tells,
    /// Where it runs.
    pub line: Stretch,
}

/// The flat pattern of one plate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FlatPattern {
    /// Outline.
    pub outer: Contour,
    /// Openings and slots.
    pub openings: Vec<Opening>,
    /// Round holes.
    pub holes: Vec<Hole>,
    /// Bends in order along x.
    pub bends: Vec<Bend>,
    /// Part mark and where its lower left corner stands, with the height of the capitals; `None` when there is no room.
    pub mark: Option<MarkPlace>,
    /// Lines scribed on the marked face: where other parts are set, axes. They keep off everything that is cut.
    pub scribed: Vec<Scribed>,
}

/// Where the part mark stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkPlace {
    /// What it says: capitals, digits, dash.
    pub text: String,
    /// Lower left corner, mm.
    pub at: Xy,
    /// Height of capitals, mm.
    pub height: f64,
}

impl FlatPattern {
    /// A plate with this outline and nothing in it.
    pub fn new(outer: Contour) -> Self {
        Self { outer, openings: Vec::new(), holes: Vec::new(), bends: Vec::new(), mark: None, scribed: Vec::new() }
    }
    /// Net area, mm²: outline less openings and all holes, drilled ones too.
    pub fn area(&self) -> f64 {
        self.outer.area()
            - self.openings.iter().map(|o| o.contour.area()).sum::<f64>()
            - self.holes.iter().map(|h| PI / 4.0 * h.diameter * h.diameter).sum::<f64>()
    }
    /// Width and height of the bounding box, mm.
    pub fn size(&self) -> Xy {
        let (low, high) = self.outer.bounds();
        [high[0] - low[0], high[1] - low[1]]
    }
    /// Centroid of the net area.
    pub fn centroid(&self) -> Xy {
        // Holes turn the other way.
        let turning = |c: &Contour, sense: f64| {
            let path = geometry::path(&c.edges(), true, CENTROID_ERROR);
            if path.area() * sense < 0.0 { path.reverse_subpaths() } else { path }
        };
        let mut net = turning(&self.outer, 1.0);
        self.openings.iter().for_each(|o| net.extend(turning(&o.contour, -1.0)));
        self.holes.iter().for_each(|h| net.extend(turning(&Contour::Circle { centre: h.at, diameter: h.diameter }, -1.0)));
        geometry::centroid(&net).map_or([0.0, 0.0], |p| [p.x, p.y])
    }
    /// Maps everything; bends keep their place along x, so a map of a bent plate may only shift along y or x.
    #[must_use]
    pub fn mapped(&self, mirrored: bool, map: impl Fn(Xy) -> Xy + Copy) -> Self {
        Self {
            outer: self.outer.mapped(mirrored, map),
            openings: self.openings.iter().map(|o| Opening { feature: o.feature.clone(), contour: o.contour.mapped(mirrored, map) }).collect(),
            holes: self.holes.iter().map(|h| Hole { at: map(h.at), ..h.clone() }).collect(),
            bends: self.bends.clone(),
            mark: self.mark.clone(),
            scribed: (self.scribed.iter())
                .map(|s| {
                    let bulge = if mirrored { -s.line.bulge } else { s.line.bulge };
                    Scribed { line: Stretch { from: map(s.line.from), to: map(s.line.to), bulge }, ..*s }
                })
                .collect(),
        }
    }
    /// Everything cut out, as contours: openings, then holes that are cut.
    pub fn inner_contours(&self) -> Vec<Contour> {
        let holes = self.holes.iter().filter(|h| h.made == HoleMade::Cut).map(|h| Contour::Circle { centre: h.at, diameter: h.diameter });
        self.openings.iter().map(|o| o.contour.clone()).chain(holes).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_and_boxes_of_arcs() {
        let slot = Contour::upright_slot(0.0, -10.0, 30.0, 20.0);
        assert!((slot.area() - (20.0 * 20.0 + PI * 100.0)).abs() < 1e-9);
        let (low, high) = slot.bounds();
        assert!((low[1] + 10.0).abs() < 1e-9 && (high[1] - 30.0).abs() < 1e-9 && (high[0] - 10.0).abs() < 1e-9);
        let plate = Contour::rounded([0.0, 0.0], [100.0, 50.0], 10.0);
        assert!((plate.area() - (5000.0 - (4.0 - PI) * 100.0)).abs() < 1e-9);
        let corners = plate.corners(20.0);
        assert_eq!(corners.len(), 4);
        assert!(corners.iter().all(|c| c.radius.is_some_and(|r| (r - 10.0).abs() < 1e-9)));
        assert!(corners.iter().any(|c| c.at[0].hypot(c.at[1]) < 1e-9) && corners.iter().any(|c| (c.at[0] - 100.0).hypot(c.at[1] - 50.0) < 1e-9));
        assert_eq!(plate.corners(10.0).len(), 8);
        let turned = plate.mapped(true, |p| [-p[0], p[1]]);
        assert!((turned.signed_area() - plate.signed_area()).abs() < 1e-9);
    }
}
