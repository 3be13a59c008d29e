//! Areas of the foot's section in the main elevation: casing, pulley, belt, buckets below a surface.
//!
//! In: the model and a straight surface of the product (level, or falling at an angle from the sill).
//! Out: areas in mm². Circles are many-sided polygons; the error is below 0.03 %.

use crate::formulas::belt_path::{BeltPath, Segment};
use crate::model::Foot;
use crate::model::casing::CasingBody;
use std::f64::consts::{PI, TAU};

/// A closed outline (x, z), mm.
pub type Ring = Vec<[f64; 2]>;

const CIRCLE_SIDES: u32 = 180;
const BELT_STEP_MM: f64 = 10.0;

/// Surface of the product: passes a point and falls from it at a slope toward −x or +x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// A point on it, (x, z) mm.
    pub at: [f64; 2],
    /// Rise per run toward +x: 0 level, positive when it climbs toward the up side.
    pub rise: f64,
}

impl Surface {
    /// Height at x, mm.
    pub fn height(&self, x: f64) -> f64 {
        self.at[1] + self.rise * (x - self.at[0])
    }
    /// Whether a point lies below.
    pub fn covers(&self, p: [f64; 2]) -> bool {
        p[1] < self.height(p[0])
    }
}

/// Area of a ring, positive whatever its direction, mm².
pub fn ring_area(ring: &[[f64; 2]]) -> f64 {
    let mut sum = 0.0;
    let mut last = ring.last().copied().unwrap_or_default();
    for p in ring {
        sum += last[0] * p[1] - p[0] * last[1];
        last = *p;
    }
    (sum / 2.0).abs()
}

/// Centroid of a ring, (x, z) mm; the origin for a ring without area.
pub fn ring_centroid(ring: &[[f64; 2]]) -> [f64; 2] {
    let (mut twice, mut x, mut z) = (0.0, 0.0, 0.0);
    let mut last = ring.last().copied().unwrap_or_default();
    for p in ring {
        let cross = last[0] * p[1] - p[0] * last[1];
        twice += cross;
        x += (last[0] + p[0]) * cross;
        z += (last[1] + p[1]) * cross;
        last = *p;
    }
    if twice == 0.0 { [0.0, 0.0] } else { [x / (3.0 * twice), z / (3.0 * twice)] }
}

/// A circle as a ring of the same area.
pub fn circle(centre: [f64; 2], radius: f64) -> Ring {
    let step = TAU / f64::from(CIRCLE_SIDES);
    // The polygon's corners stand out so far that its area is that of the circle.
    let r = radius * (step / step.sin()).sqrt();
    (0..CIRCLE_SIDES).map(|i| f64::from(i) * step).map(|a| [centre[0] + r * a.cos(), centre[1] + r * a.sin()]).collect()
}

/// Inner outline of the casing with its curved bottom, if it has one, as a ring.
pub fn casing_ring(casing: &CasingBody, shaft_lowest: f64) -> Ring {
    let mut ring = casing.inner_outline();
    if let Some(radius) = casing.bottom_radius {
        let drop = (shaft_lowest - casing.bottom_shoulder).clamp(0.0, radius);
        let half = (drop / radius).asin();
        // From the down-side shoulder round the bottom to the up-side one.
        let (start, sweep) = (PI + half, PI - 2.0 * half);
        ring.extend(
            (0..=CIRCLE_SIDES / 2)
                .map(|i| start + sweep * f64::from(i) / f64::from(CIRCLE_SIDES / 2))
                .map(|a| [radius * a.cos(), shaft_lowest + radius * a.sin()]),
        );
    }
    ring
}

/// Area of a ring below a surface, mm².
pub fn area_below(ring: &[[f64; 2]], surface: &Surface) -> f64 {
    let depth = |p: &[f64; 2]| surface.height(p[0]) - p[1];
    let strip = |(from, to): (&[f64; 2], &[f64; 2])| {
        // Depths change linearly along an edge; their mean over the edge, what lies above the surface counting nothing.
        let (a, b) = (depth(from), depth(to));
        let mean = match (a > 0.0, b > 0.0) {
            (true, true) => (a + b) / 2.0,
            (false, false) => 0.0,
            (true, false) => a * a / (a - b) / 2.0,
            (false, true) => b * b / (b - a) / 2.0,
        };
        mean * (to[0] - from[0])
    };
    ring.iter().zip(ring.iter().cycle().skip(1)).map(strip).sum::<f64>().abs()
}

/// Length of belt below a surface, mm.
pub fn belt_length_below(path: &BeltPath, surface: &Surface) -> f64 {
    let mut below = 0.0;
    for segment in &path.segments {
        let length = segment.length_mm();
        match *segment {
            Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                let steps = (length / BELT_STEP_MM).ceil().max(1.0) as u32;
                let count = (0..steps)
                    .map(|i| start_rad + sweep_rad * (f64::from(i) + 0.5) / f64::from(steps))
                    .filter(|a| surface.covers([centre.x + radius_mm * a.cos(), centre.y + radius_mm * a.sin()]))
                    .count();
                below += length * count as f64 / f64::from(steps);
            }
            Segment::Line { from, to, .. } => {
                // Heights above the surface change linearly along the line.
                let (a, b) = (from.y - surface.height(from.x), to.y - surface.height(to.x));
                below += length
                    * match (a < 0.0, b < 0.0) {
                        (true, true) => 1.0,
                        (false, false) => 0.0,
                        (true, false) => a / (a - b),
                        (false, true) => b / (b - a),
                    };
            }
        }
    }
    below
}

/// Free volume of the foot below a surface in litres, with the belt at `path`: casing less pulley, belt and buckets.
///
/// `pulley_solidity` is the share of the pulley's circle that product cannot fill (1 for a drum). A bucket
/// counts as solid: on the up side it is full already, on the down side it holds air mouth down.
pub fn free_volume_l(foot: &Foot, path: &BeltPath, shaft_z: f64, surface: &Surface, pulley_solidity: f64) -> f64 {
    let casing = area_below(&casing_ring(&foot.casing, foot.shaft_lowest), surface) * foot.casing.width.size();
    let pulley = |centre: [f64; 2], radius: f64, face: f64| area_below(&circle(centre, radius), surface) * face;
    let mut solid = pulley_solidity * pulley([0.0, shaft_z], foot.pulleys.foot.radius(), foot.pulleys.foot.face);
    if let Some(b) = &foot.pulleys.bend {
        solid += pulley([b.centre.x, b.centre.z], b.radius(), b.face);
    }
    let length = belt_length_below(path, surface);
    solid += length * foot.belt.thickness * foot.belt.width;
    solid += length / foot.bucket.spacing * ring_area(&foot.bucket.section) * foot.bucket.length * f64::from(foot.bucket.rows);
    ((casing - solid) / 1e6).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_of_known_shapes() {
        let square = vec![[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]];
        assert!((ring_area(&square) - 1e4).abs() < 1e-9);
        assert_eq!(ring_centroid(&square), [50.0, 50.0]);
        let level = Surface { at: [0.0, 30.0], rise: 0.0 };
        assert!((area_below(&square, &level) - 3000.0).abs() < 0.01);
        // a surface from (0, 0) at 45° leaves the lower right half
        let slope = Surface { at: [0.0, 0.0], rise: 1.0 };
        assert!((area_below(&square, &slope) - 5000.0).abs() < 0.1);
        assert!(area_below(&square, &Surface { at: [0.0, -1.0], rise: 0.0 }).abs() < 1e-9);
        assert!((area_below(&square, &Surface { at: [0.0, 500.0], rise: 0.0 }) - 1e4).abs() < 0.1);
    }

    /// Half a circle lies below its centre; the circular segment at half the radius is (π/3 − √3/4)·r².
    #[test]
    fn circle_segments() {
        let c = circle([7.0, -3.0], 250.0);
        assert!((ring_area(&c) / (PI * 250.0 * 250.0) - 1.0).abs() < 1e-12);
        let below = |z: f64| area_below(&c, &Surface { at: [0.0, z], rise: 0.0 }) / (250.0 * 250.0);
        assert!((below(-3.0) - PI / 2.0).abs() < 1e-3);
        assert!((below(-128.0) - (PI / 3.0 - 3f64.sqrt() / 4.0)).abs() < 1e-3);
    }
}
