//! The bucket: its section, how it stands on the belt, and the space it sweeps.
//!
//! In the bucket's own frame u points out from the belt's outer face and w along the travel
//! direction, w = 0 at the bucket's lowest point on the up run. It is bolted at mid-height, so on a
//! pulley its back is the tangent there and what lies beside the middle swings wider than it.

use super::frame::{Feature, ModelPoint};
use crate::formulas::{foot_heights, foot_widths};
use crate::sizing::bucket_plate;
use crate::spec::Spec;
use crate::tables::threads::Thread;

/// The bucket as built.
#[derive(Debug, Clone, PartialEq)]
pub struct BucketBody {
    /// Section of the product space as [u, w] mm, from the upper end of the back round the bottom to the lip.
    pub section: Vec<[f64; 2]>,
    /// Length across the belt of one bucket, mm.
    pub length: f64,
    /// Projection from the belt's outer face, mm.
    pub projection: f64,
    /// Height along the belt, mm.
    pub height: f64,
    /// Distance from bucket to bucket along the belt, mm.
    pub spacing: f64,
    /// Rows side by side.
    pub rows: u32,
    /// Overall length across the belt of all rows, mm.
    pub overall_length: f64,
    /// Thickness of its wall, inside the section, mm.
    pub wall: f64,
    /// Thread of the bolts that hold it.
    pub bolt: Option<&'static Thread>,
    /// Where they stand across the belt, from the bucket's middle, mm.
    pub bolts: Vec<f64>,
}

impl BucketBody {
    pub(super) fn build(spec: &Spec) -> Self {
        let rows = spec.bucket.rows.value;
        let length = spec.bucket.length.value();
        Self {
            section: spec.bucket.outline.0.iter().map(|[u, w]| [u.value(), w.value()]).collect(),
            length,
            projection: spec.bucket.projection.value(),
            height: spec.bucket.height.value(),
            spacing: spec.bucket.spacing.value(),
            rows,
            overall_length: foot_widths::rows_length(rows, length, spec.bucket.row_gap.value()),
            wall: bucket_plate::thickness(length),
            bolt: bucket_plate::bolt(length, spec.us()),
            bolts: bucket_plate::bolts(length),
        }
    }

    /// Radius swept by its outermost point on a pulley whose belt outer face has radius `face_radius`, mm.
    pub fn tip_radius(&self, face_radius: f64) -> f64 {
        foot_heights::tip_radius(2.0 * face_radius, 0.0, &self.section, self.height)
    }

    /// The section placed with its bolts at `bolts`, `out` pointing away from the belt and `travel` along it (unit vectors in x, z).
    pub fn placed(&self, bolts: [f64; 2], out: [f64; 2], travel: [f64; 2]) -> Vec<[f64; 2]> {
        self.section
            .iter()
            .map(|[u, w]| {
                let along = w - self.height / 2.0;
                [bolts[0] + out[0] * u + travel[0] * along, bolts[1] + out[1] * u + travel[1] * along]
            })
            .collect()
    }

    pub(super) fn features(&self, face: ModelPoint, out: &mut Vec<Feature>) {
        let base = ModelPoint { z: face.z, ..face };
        out.push(Feature::length("bucket.projection", "bucket projection", base, ModelPoint { x: base.x + self.projection, ..base }));
        out.push(Feature::length("bucket.height", "bucket height", base, ModelPoint { z: base.z + self.height, ..base }));
        out.push(Feature::length("bucket.spacing", "bucket spacing", base, ModelPoint { z: base.z + self.spacing, ..base }));
        out.push(Feature::length("bucket.length", "bucket length", ModelPoint { y: -self.length / 2.0, ..base }, ModelPoint { y: self.length / 2.0, ..base }));
    }
}
