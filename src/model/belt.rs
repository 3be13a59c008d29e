//! The belt's path for any take-up position, and where buckets stand on it.
//!
//! Paths run along the belt's neutral line in travel order: foot, up run, head, down run, bend, lower
//! run. Three positions are kept ready (lowest, middle, highest); any other is built on request.

use super::buckets::BucketBody;
use super::frame::{Feature, ModelPoint};
use super::pulleys::Pulleys;
use crate::formulas::belt_path::{self, BeltPath, Circle, PathError, Pulley, Segment};
use kurbo::Point;

/// The belt as built.
#[derive(Debug, Clone, PartialEq)]
pub struct BeltBody {
    /// Width, mm.
    pub width: f64,
    /// Thickness, mm.
    pub thickness: f64,
    /// Path with the take-up at its lowest.
    pub lowest: BeltPath,
    /// Path with the take-up in the middle.
    pub middle: BeltPath,
    /// Path with the take-up at its highest.
    pub highest: BeltPath,
    circles: belt_path::Pulleys,
    travel: f64,
}

/// A place on the belt's outer face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeltPlace {
    /// Point on the outer face, (x, z).
    pub at: [f64; 2],
    /// Unit vector away from the belt.
    pub out: [f64; 2],
    /// Unit vector along the travel.
    pub travel: [f64; 2],
}

impl BeltBody {
    pub(super) fn build(width: f64, thickness: f64, pulleys: &Pulleys, travel: f64) -> Result<Self, PathError> {
        let circle = |p: &super::pulleys::PulleyBody| Circle { centre: Point::new(p.centre.x, p.centre.z), radius_mm: (p.diameter + thickness) / 2.0 };
        let circles = belt_path::Pulleys { foot: circle(&pulleys.foot), head: circle(&pulleys.head), bend: pulleys.bend.as_ref().map(circle) };
        let low_z = circles.foot.centre.y;
        let at = |share: f64| belt_path::belt_path(&circles.with_foot_at(low_z + share * travel));
        Ok(Self { width, thickness, lowest: at(0.0)?, middle: at(0.5)?, highest: at(1.0)?, circles, travel })
    }

    /// Path with the take-up at a share of its travel, 0 lowest, 1 highest.
    ///
    /// # Errors
    /// As [`belt_path::belt_path`].
    pub fn at_travel(&self, share: f64) -> Result<BeltPath, PathError> {
        belt_path::belt_path(&self.circles.with_foot_at(self.circles.foot.centre.y + share * self.travel))
    }

    /// The circles of the path (radii to the neutral line), take-up at the lowest.
    pub fn circles(&self) -> &belt_path::Pulleys {
        &self.circles
    }

    /// The place on the outer face at a distance along the neutral line from the foot pulley's first contact.
    pub fn place(&self, path: &BeltPath, distance: f64) -> Option<BeltPlace> {
        let mut left = distance.rem_euclid(path.length_mm);
        let half = self.thickness / 2.0;
        for segment in &path.segments {
            let length = segment.length_mm();
            if left > length {
                left -= length;
                continue;
            }
            return Some(match *segment {
                Segment::Arc { centre, radius_mm, start_rad, .. } => {
                    let angle = start_rad + left / radius_mm;
                    let out = [angle.cos(), angle.sin()];
                    let r = radius_mm + half;
                    BeltPlace { at: [centre.x + r * out[0], centre.y + r * out[1]], out, travel: [-out[1], out[0]] }
                }
                Segment::Line { from, to, .. } => {
                    let along = (to - from) / length;
                    let at = from + along * left;
                    // Travel is counter-clockwise, so the outside lies to the right of the travel.
                    let out = [along.y, -along.x];
                    BeltPlace { at: [at.x + half * out[0], at.y + half * out[1]], out, travel: [along.x, along.y] }
                }
            });
        }
        None
    }

    /// Section outlines (x, z) of all buckets whose bolts lie below `top`, for a path; the first stands `phase` mm after the foot pulley's first contact.
    pub fn buckets_below(&self, path: &BeltPath, bucket: &BucketBody, phase: f64, top: f64) -> Vec<Vec<[f64; 2]>> {
        let count = (path.length_mm / bucket.spacing).floor().max(0.0) as usize;
        (0..count)
            .filter_map(|i| self.place(path, phase + i as f64 * bucket.spacing))
            .filter(|p| p.at[1] < top)
            .map(|p| bucket.placed(p.at, p.out, p.travel))
            .collect()
    }

    pub(super) fn features(&self, pulleys: &Pulleys, out: &mut Vec<Feature>) {
        let at = ModelPoint::elevation(pulleys.foot.radius(), pulleys.foot.centre.z);
        out.push(Feature::length("belt.thickness", "belt thickness", at, ModelPoint { x: at.x + self.thickness, ..at }));
        out.push(Feature::length("belt.width", "belt width", ModelPoint { y: -self.width / 2.0, ..at }, ModelPoint { y: self.width / 2.0, ..at }));
        if let Some((from, to)) = self.lowest.run_leaving(Pulley::Head) {
            let z = to.y.max(from.y.min(to.y));
            let up = ModelPoint::elevation(pulleys.foot.radius() + self.thickness / 2.0, z);
            out.push(Feature::length("belt.run_distance", "down run from up run", ModelPoint::elevation(to.x, z), up));
        }
    }
}
