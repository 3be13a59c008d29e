//! Flat patterns: the outline of a plate, its openings and holes, in mm in the plate's own plane.
//!
//! A plate is seen with its marked face toward the viewer, x to the right, y up, the lower left corner
//! of its bounding box at (0, 0). Arcs are kept as arcs (bulges) all the way to the cutting file.
//! Nothing here knows the machine; nothing here checks that contours keep clear of each other.

use serde::Serialize;
use std::f64::consts::PI;

/// A point in the plate's plane, mm.
pub type Xy = [f64; 2];

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

/// Centre, radius, start angle and sweep (rad) of a bulged edge; `None` when it is straight.
pub fn arc_of(from: Xy, to: Xy, bulge: f64) -> Option<(Xy, f64, f64, f64)> {
    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
    let chord = dx.hypot(dy);
    if bulge.abs() < 1e-12 || chord < 1e-12 {
        return None;
    }
    let sweep = 4.0 * bulge.atan();
    let radius = chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
    // The centre lies on the left of the chord for a counter-clockwise arc of less than half a turn.
    let off = chord * (1.0 - bulge * bulge) / (4.0 * bulge);
    let centre = [(from[0] + to[0]) / 2.0 - off * dy / chord, (from[1] + to[1]) / 2.0 + off * dx / chord];
    Some((centre, radius, (from[1] - centre[1]).atan2(from[0] - centre[0]), sweep))
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

    /// Edges as (from, to, bulge); none for a circle.
    pub fn edges(&self) -> Vec<(Xy, Xy, f64)> {
        match self {
            Contour::Path(nodes) => nodes.iter().zip(nodes.iter().cycle().skip(1)).map(|(a, b)| (a.at, b.at, a.bulge)).collect(),
            Contour::Circle { .. } => Vec::new(),
        }
    }

    /// Signed area, mm²; positive counter-clockwise, circles positive.
    pub fn signed_area(&self) -> f64 {
        match self {
            Contour::Circle { diameter, .. } => PI / 4.0 * diameter * diameter,
            Contour::Path(_) => self
                .edges()
                .iter()
                .map(|&(a, b, bulge)| {
                    let lobe = arc_of(a, b, bulge).map_or(0.0, |(_, r, _, sweep)| r * r / 2.0 * (sweep - sweep.sin()));
                    (a[0] * b[1] - b[0] * a[1]) / 2.0 + lobe
                })
                .sum(),
        }
    }

    /// Corners as they are measured: an arc with a chord under `short` mm between straight edges stands for the
    /// corner where its tangents meet, with its radius.
    pub fn corners(&self, short: f64) -> Vec<Corner> {
        let edges = self.edges();
        let n = edges.len();
        let edge = |i: usize| edges.get(i % n.max(1)).copied().unwrap_or(([0.0; 2], [0.0; 2], 0.0));
        let rounded = |i: usize| {
            let (a, b, bulge) = edge(i);
            let (_, r, _, sweep) = arc_of(a, b, bulge)?;
            let straight = edge(i + n - 1).2 == 0.0 && edge(i + 1).2 == 0.0;
            (straight && (b[0] - a[0]).hypot(b[1] - a[1]) < short && sweep.abs() < 3.0).then_some((r, sweep))
        };
        let mut out = Vec::new();
        for i in 0..n {
            let (at, _, bulge) = edge(i);
            if rounded(i + n - 1).is_some() {
                continue; // its end belongs to the corner before
            }
            match rounded(i) {
                Some((radius, sweep)) => {
                    let (from, _, _) = edge(i + n - 1);
                    let (d, l) = ([at[0] - from[0], at[1] - from[1]], (at[0] - from[0]).hypot(at[1] - from[1]));
                    let on = radius * (sweep.abs() / 2.0).tan() / l;
                    out.push(Corner { at: [at[0] + d[0] * on, at[1] + d[1] * on], radius: Some(radius), arc_follows: false });
                }
                None => out.push(Corner { at, radius: None, arc_follows: bulge != 0.0 }),
            }
        }
        out
    }

    /// Enclosed area, mm².
    pub fn area(&self) -> f64 {
        self.signed_area().abs()
    }

    /// Length of the contour, mm.
    pub fn length(&self) -> f64 {
        match self {
            Contour::Circle { diameter, .. } => PI * diameter,
            Contour::Path(_) => {
                self.edges().iter().map(|&(a, b, bulge)| arc_of(a, b, bulge).map_or((b[0] - a[0]).hypot(b[1] - a[1]), |(_, r, _, sweep)| r * sweep.abs())).sum()
            }
        }
    }

    /// Points on the contour, arcs cut into steps of at most `step_rad`; for boxes, clearances and centroids only.
    pub fn points(&self, step_rad: f64) -> Vec<Xy> {
        match self {
            Contour::Circle { centre, diameter } => {
                let n = (2.0 * PI / step_rad).ceil().max(8.0) as usize;
                (0..n).map(|i| 2.0 * PI * i as f64 / n as f64).map(|a| [centre[0] + diameter / 2.0 * a.cos(), centre[1] + diameter / 2.0 * a.sin()]).collect()
            }
            Contour::Path(_) => {
                let mut out = Vec::new();
                for (a, b, bulge) in self.edges() {
                    out.push(a);
                    if let Some((c, r, start, sweep)) = arc_of(a, b, bulge) {
                        let n = (sweep.abs() / step_rad).ceil().max(1.0) as usize;
                        out.extend((1..n).map(|i| start + sweep * i as f64 / n as f64).map(|t| [c[0] + r * t.cos(), c[1] + r * t.sin()]));
                    }
                }
                out
            }
        }
    }

    /// Bounding box as (low, high), exact for arcs.
    pub fn bounds(&self) -> (Xy, Xy) {
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        let mut see = |p: Xy| {
            for i in 0..2 {
                low[i] = low[i].min(p[i]);
                high[i] = high[i].max(p[i]);
            }
        };
        match self {
            Contour::Circle { centre, diameter } => {
                see([centre[0] - diameter / 2.0, centre[1] - diameter / 2.0]);
                see([centre[0] + diameter / 2.0, centre[1] + diameter / 2.0]);
            }
            Contour::Path(_) => {
                for (a, b, bulge) in self.edges() {
                    see(a);
                    if let Some((c, r, start, sweep)) = arc_of(a, b, bulge) {
                        for quarter in -8..=8 {
                            let angle = f64::from(quarter) * PI / 2.0;
                            let along = (angle - start) / sweep;
                            if (0.0..=1.0).contains(&along) {
                                see([c[0] + r * angle.cos(), c[1] + r * angle.sin()]);
                            }
                        }
                    }
                }
            }
        }
        (low, high)
    }

    /// The contour with every point mapped; `mirrored` says whether the map turns the plane over.
    #[must_use]
    pub fn mapped(&self, mirrored: bool, map: impl Fn(Xy) -> Xy) -> Self {
        match self {
            Contour::Circle { centre, diameter } => Contour::Circle { centre: map(*centre), diameter: *diameter },
            Contour::Path(nodes) if !mirrored => Contour::Path(nodes.iter().map(|n| Node { at: map(n.at), bulge: n.bulge }).collect()),
            Contour::Path(_) => {
                // Turned over, the corners are taken in reverse so that the sense of rotation stays.
                let mut edges = self.edges();
                edges.reverse();
                Contour::Path(edges.into_iter().map(|(_, to, bulge)| Node { at: map(to), bulge }).collect())
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
    /// How it is made.
    pub made: HoleMade,
    /// What it is for.
    pub feature: String,
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
    /// Lines scribed on the marked face (where other parts are set), each from one point to another.
    pub scribed: Vec<(Xy, Xy)>,
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
        let mut sum = [0.0; 3];
        let mut add = |c: &Contour, sign: f64| {
            let p = c.points(PI / 90.0);
            for (a, b) in p.iter().zip(p.iter().cycle().skip(1)) {
                let cross = (a[0] * b[1] - b[0] * a[1]) / 2.0 * sign;
                sum[0] += cross;
                sum[1] += cross * (a[0] + b[0]) / 3.0;
                sum[2] += cross * (a[1] + b[1]) / 3.0;
            }
        };
        let sense = |c: &Contour| c.signed_area().signum();
        add(&self.outer, sense(&self.outer));
        self.openings.iter().for_each(|o| add(&o.contour, -sense(&o.contour)));
        self.holes.iter().for_each(|h| add(&Contour::Circle { centre: h.at, diameter: h.diameter }, -1.0));
        if sum[0].abs() < 1e-9 { [0.0, 0.0] } else { [sum[1] / sum[0], sum[2] / sum[0]] }
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
            scribed: self.scribed.iter().map(|(a, b)| (map(*a), map(*b))).collect(),
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
        assert!((slot.length() - (40.0 + PI * 20.0)).abs() < 1e-9);
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
