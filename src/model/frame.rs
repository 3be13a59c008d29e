//! Points and rectangles in the program's one frame of reference, and named features.
//!
//! x = 0 on the vertical through the foot shaft, + toward the up side; z = 0 on the underside of the
//! foot base, + up; y = 0 on the belt's mid-plane, + toward the near side. Everything is mm.

/// A point of the machine, mm.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ModelPoint {
    /// From the foot shaft's vertical toward the up side.
    pub x: f64,
    /// From the belt's mid-plane toward the near side.
    pub y: f64,
    /// Above the underside of the foot base.
    pub z: f64,
}

impl ModelPoint {
    /// A point, mm.
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }
    /// A point in the plane of the main elevation (y = 0).
    pub const fn elevation(x: f64, z: f64) -> Self {
        Self { x, y: 0.0, z }
    }
    /// Straight distance, mm.
    pub fn distance(self, other: Self) -> f64 {
        ((self.x - other.x).powi(2) + (self.y - other.y).powi(2) + (self.z - other.z).powi(2)).sqrt()
    }
}

/// A range along one axis, mm; `low` ≤ `high`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Extent {
    /// A range from its two ends, in any order.
    pub fn new(a: f64, b: f64) -> Self {
        Self { low: a.min(b), high: a.max(b) }
    }
    /// A range about its middle.
    pub fn about(middle: f64, size: f64) -> Self {
        Self::new(middle - size / 2.0, middle + size / 2.0)
    }
    /// High minus low.
    pub fn size(&self) -> f64 {
        self.high - self.low
    }
    /// The middle.
    pub fn middle(&self) -> f64 {
        (self.low + self.high) / 2.0
    }
    /// Whether two ranges share more than a point.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.low < other.high && other.low < self.high
    }
    /// Whether the other range lies wholly inside.
    pub fn contains(&self, other: &Self) -> bool {
        self.low <= other.low && other.high <= self.high
    }
    /// The smallest range with both in it.
    pub fn joined(&self, other: &Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }
    /// Grown by `by` at both ends.
    pub fn grown(&self, by: f64) -> Self {
        Self { low: self.low - by, high: self.high + by }
    }
}

/// What a named feature measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FeatureKind {
    /// Distance between its two points.
    Length,
    /// Diameter; the two points are the ends of one diameter.
    Diameter,
    /// Height of `to` above the underside of the base (`from`).
    Height,
    /// An angle in degrees, held in `value`; the points only say where.
    Angle,
}

/// Everything that has a size has a name: sheets dimension features, tests walk them.
#[derive(Debug, Clone, PartialEq)]
pub struct Feature {
    /// Stable id; where the size is a spec value the id is the spec path, e.g. `inlet.up.sill`.
    pub id: String,
    /// What it is, in a few words.
    pub about: String,
    /// What it measures.
    pub kind: FeatureKind,
    /// First point.
    pub from: ModelPoint,
    /// Second point.
    pub to: ModelPoint,
    /// mm, or degrees for an angle.
    pub value: f64,
}

impl Feature {
    /// A length between two points.
    pub fn length(id: impl Into<String>, about: impl Into<String>, from: ModelPoint, to: ModelPoint) -> Self {
        Self { id: id.into(), about: about.into(), kind: FeatureKind::Length, value: from.distance(to), from, to }
    }
    /// A diameter of a circle in the main elevation.
    pub fn diameter(id: impl Into<String>, about: impl Into<String>, centre: ModelPoint, diameter: f64) -> Self {
        let half = diameter / 2.0;
        Self {
            id: id.into(),
            about: about.into(),
            kind: FeatureKind::Diameter,
            from: ModelPoint { x: centre.x - half, ..centre },
            to: ModelPoint { x: centre.x + half, ..centre },
            value: diameter,
        }
    }
    /// A height above the underside of the base.
    pub fn height(id: impl Into<String>, about: impl Into<String>, at: ModelPoint) -> Self {
        Self { id: id.into(), about: about.into(), kind: FeatureKind::Height, from: ModelPoint { z: 0.0, ..at }, to: at, value: at.z }
    }
    /// An angle, degrees.
    pub fn angle(id: impl Into<String>, about: impl Into<String>, corner: ModelPoint, toward: ModelPoint, degrees: f64) -> Self {
        Self { id: id.into(), about: about.into(), kind: FeatureKind::Angle, from: corner, to: toward, value: degrees }
    }
}
