//! The steel foot casing: sides, ends, bottom, top flanges.
//!
//! The side plates are flat and share one outline; the up-side end plate is vertical; the down-side
//! end plate follows the belt: vertical where the down run is, inclined along the run from a bend
//! pulley. All planes given here are inner faces; plates lie outside them.

use super::buckets::BucketBody;
use super::customary::outline_step;
use super::frame::{Extent, Feature, ModelPoint};
use super::pulleys::{PulleyBody, Pulleys};
use crate::formulas::belt_path::neutral_radius;
use crate::formulas::down_face::{self, Sweep};
use crate::formulas::foot_widths::{self, Gap};
use crate::formulas::{foot_heights, rolled_bottom};
use crate::spec::Spec;
use crate::spec::casing::{Bottom, Trunk};

/// A rectangle in plan where trunking stands on the casing, inner faces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrunkOpening {
    /// Along the machine.
    pub x: Extent,
    /// Across the machine.
    pub y: Extent,
}

/// The casing as built.
#[derive(Debug, Clone, PartialEq)]
pub struct CasingBody {
    /// Inner face of the up-side end plate.
    pub up_face: f64,
    /// Inner face of the down-side end plate as (x, z) from the bottom to the top flange.
    pub down_face: Vec<[f64; 2]>,
    /// Inner faces of the side plates.
    pub width: Extent,
    /// Upper face of the bottom plate (at its lowest, when curved).
    pub bottom_face: f64,
    /// Radius of the curved bottom's inner face about the lowest shaft centre; `None` when flat.
    pub bottom_radius: Option<f64>,
    /// Where a curved bottom ends and the end plates begin, the higher of the two sides; the bottom itself when flat.
    pub bottom_shoulder: f64,
    /// The same on the up side.
    pub up_shoulder: f64,
    /// The same on the down side.
    pub down_shoulder: f64,
    /// Ends of a curved bottom's arc, angles from straight down toward the up side and toward the down side, rad; straight plates go on tangentially to the end plates.
    pub bottom_arc: Option<[f64; 2]>,
    /// Top of the top flange.
    pub top: f64,
    /// Plate thickness of sides and ends.
    pub plate: f64,
    /// Plate thickness of the bottom.
    pub bottom_plate: f64,
    /// Width of bolted flanges.
    pub flange: f64,
    /// Height of the feet under the bottom plate.
    pub feet: f64,
    /// One opening for single trunking, two for two legs (up leg first).
    pub trunk: Vec<TrunkOpening>,
}

impl CasingBody {
    pub(super) fn build(spec: &Spec, bucket: &BucketBody, pulleys: &Pulleys, beta_low: Option<f64>) -> Self {
        let casing = &spec.casing;
        let thickness = spec.belt.thickness.value();
        let tip = bucket.tip_radius(pulleys.foot.radius() + thickness);
        let up_face = tip + casing.up_clearance.value();
        let top = casing.height.value();
        let bottom_face = casing.feet.value() + casing.bottom_plate.value();
        let down_face = down_profile(spec, bucket, pulleys, beta_low, tip, bottom_face, top);
        let moving = [spec.belt.width.value(), pulleys.foot.face, bucket.overall_length, pulleys.bend.map_or(0.0, |b| b.face)];
        let width = Extent::about(0.0, foot_widths::inner_width(&moving, casing.side_clearance.value()));
        let shaft = pulleys.foot.centre.z;
        let bottom_radius = (casing.bottom.value == Bottom::Curved).then_some(shaft - bottom_face);
        let down_top = down_face.last().map_or(-up_face, |p| p[0]);
        let trunk = trunk_openings(spec, bucket, pulleys, up_face, down_top, width);
        let down_start = down_face.first().map_or(up_face, |p| -p[0]);
        // An inclined down-side plate may begin below the height at which a 60° bottom would meet it.
        let down_limit = down_face.get(1).filter(|_| down_face.len() > 2).map_or(f64::INFINITY, |p| p[1]);
        let ends = bottom_radius.map(|r| [rolled_bottom::end(shaft, r, up_face, f64::INFINITY), rolled_bottom::end(shaft, r, down_start, down_limit)]);
        let [(up_angle, up_shoulder), (down_angle, down_shoulder)] = ends.unwrap_or([(0.0, bottom_face); 2]);
        Self {
            up_face,
            down_face,
            width,
            bottom_face,
            bottom_radius,
            bottom_shoulder: up_shoulder.max(down_shoulder),
            up_shoulder,
            down_shoulder,
            bottom_arc: bottom_radius.map(|_| [up_angle, down_angle]),
            top,
            plate: casing.plate.value(),
            bottom_plate: casing.bottom_plate.value(),
            flange: casing.flange.value(),
            feet: casing.feet.value(),
            trunk,
        }
    }

    /// x of the down-side inner face at height z.
    pub fn down_x(&self, z: f64) -> f64 {
        self.down_at(z).0
    }

    /// x of the down-side outer face at height z: a leaning plate is thicker along x.
    pub fn down_outer_x(&self, z: f64) -> f64 {
        let (x, run) = self.down_at(z);
        x - self.plate * 1.0_f64.hypot(run)
    }

    /// x of the down-side inner face at height z, and how far it goes along x for each mm up.
    fn down_at(&self, z: f64) -> (f64, f64) {
        let mut previous: Option<[f64; 2]> = None;
        for point in &self.down_face {
            if let Some(last) = previous
                && z <= point[1]
            {
                let span = point[1] - last[1];
                let level = span.abs() < 1e-9;
                let share = if level { 1.0 } else { ((z - last[1]) / span).clamp(0.0, 1.0) };
                return (last[0] + share * (point[0] - last[0]), if level { 0.0 } else { (point[0] - last[0]) / span });
            }
            previous = Some(*point);
        }
        (previous.map_or(0.0, |p| p[0]), 0.0)
    }

    /// Heights of the bends of the down-side end plate, from the bottom up; none when it is upright all over.
    pub fn down_bends(&self) -> Vec<f64> {
        let inner = self.down_face.len().saturating_sub(2);
        self.down_face.iter().skip(1).take(inner).map(|p| p[1]).collect()
    }

    /// Outermost inner x on the down side.
    pub fn down_outermost(&self) -> f64 {
        self.down_face.iter().map(|p| p[0]).fold(f64::INFINITY, f64::min)
    }

    /// Height of the bottom's inner face at a distance along the machine.
    pub fn lower_edge(&self, x: f64) -> f64 {
        let (Some(r), Some([up, down])) = (self.bottom_radius, self.bottom_arc) else { return self.bottom_face };
        let (out, angle) = (x.abs(), if x > 0.0 { up } else { down });
        self.bottom_face + rolled_bottom::rise(r, angle, out)
    }

    /// Inner outline of the foot in the main elevation, counter-clockwise, (x, z), beginning where the bottom meets the up side.
    ///
    /// With a curved bottom it begins and ends at the ends of the arc, which runs from the last point back
    /// to the first about the lowest shaft centre (see `bottom_radius`).
    pub fn inner_outline(&self) -> Vec<[f64; 2]> {
        let mut points = Vec::new();
        let arc_end = |angle: f64, sense: f64| self.bottom_radius.map(|r| [sense * r * angle.sin(), self.bottom_face + r - r * angle.cos()]);
        if let Some([up, _]) = self.bottom_arc {
            points.extend(arc_end(up, 1.0));
        }
        points.extend([[self.up_face, self.up_shoulder], [self.up_face, self.top]]);
        points.extend(self.down_face.iter().rev().filter(|p| p[1] > self.down_shoulder + 1e-9));
        points.push([self.down_x(self.down_shoulder), self.down_shoulder]);
        if let Some([_, down]) = self.bottom_arc {
            points.extend(arc_end(down, -1.0));
        }
        points.dedup_by(|a, b| (a[0] - b[0]).abs() < 1e-6 && (a[1] - b[1]).abs() < 1e-6);
        points
    }

    pub(super) fn features(&self, out: &mut Vec<Feature>) {
        let bottom = self.bottom_face;
        let down = self.down_x(bottom);
        out.push(Feature::length(
            "casing.length",
            "inside length at the bottom",
            ModelPoint::elevation(down, bottom),
            ModelPoint::elevation(self.up_face, bottom),
        ));
        out.push(Feature::length(
            "casing.up_length",
            "up-side end plate from shaft",
            ModelPoint::elevation(0.0, bottom),
            ModelPoint::elevation(self.up_face, bottom),
        ));
        out.push(Feature::length(
            "casing.down_length",
            "down-side end plate from shaft",
            ModelPoint::elevation(down, bottom),
            ModelPoint::elevation(0.0, bottom),
        ));
        out.push(Feature::length(
            "casing.width",
            "inside width",
            ModelPoint::new(self.up_face, self.width.low, bottom),
            ModelPoint::new(self.up_face, self.width.high, bottom),
        ));
        out.push(Feature::height("casing.height", "top flange", ModelPoint::elevation(self.up_face, self.top)));
        out.push(Feature::height("casing.bottom", "inner bottom", ModelPoint::elevation(0.0, bottom)));
        if self.feet > 0.0 {
            out.push(Feature::height("casing.feet", "feet", ModelPoint::elevation(self.up_face, self.feet)));
        }
        for (i, t) in self.trunk.iter().enumerate() {
            let name = if self.trunk.len() == 1 {
                "trunk"
            } else if i == 0 {
                "up leg"
            } else {
                "down leg"
            };
            out.push(Feature::length(
                format!("trunk[{}].length", i + 1),
                format!("{name}, inside"),
                ModelPoint::elevation(t.x.low, self.top),
                ModelPoint::elevation(t.x.high, self.top),
            ));
        }
    }
}

/// Inner face of the down-side end plate.
///
/// Without a bend pulley one vertical line, far enough out for the bucket tips on the pulley and for
/// the run toward a larger head pulley at the top of the casing. With one: vertical beside the foot
/// pulley, parallel to the inclined run, vertical again beside the run above the bend pulley.
fn down_profile(spec: &Spec, bucket: &BucketBody, pulleys: &Pulleys, beta_low: Option<f64>, tip: f64, bottom: f64, top: f64) -> Vec<[f64; 2]> {
    // Exactly what was asked for, or at least the usual.
    let clearance = &spec.casing.down_clearance;
    let step = (!clearance.is_given()).then(|| outline_step(spec));
    let gap = Gap { clearance: clearance.value(), plate: spec.casing.plate.value(), step };
    let thickness = spec.belt.thickness.value();
    let beside_foot = -gap.face(tip);
    let Some((bend, beta)) = pulleys.bend.zip(beta_low) else {
        let run_top = run_x_without_bend(pulleys, thickness, top) - thickness / 2.0 - bucket.projection;
        let x = beside_foot.min(-gap.face(-run_top));
        return vec![[x, bottom], [x, top]];
    };
    let swept = |pulley: &PulleyBody| foot_heights::swept(pulley.diameter, thickness, &bucket.section, bucket.height);
    let face =
        down_face::down_face(&Sweep { foot: swept(&pulleys.foot), bend: swept(&bend), bend_x: bend.centre.x, shaft: pulleys.foot.centre.z, angle: beta, gap });
    let upper = face.upper_x;
    let z1 = face.lower_z.clamp(bottom, top);
    let z2 = face.upper_z.clamp(z1, top);
    vec![[beside_foot, bottom], [beside_foot, z1], [upper, z2], [upper, top]]
}

/// x of the belt's neutral line on the down run at height z, no bend pulley, take-up at the lowest.
fn run_x_without_bend(pulleys: &Pulleys, thickness: f64, z: f64) -> f64 {
    let (f, h) = (pulleys.foot.centre, pulleys.head.centre);
    let rf = neutral_radius(pulleys.foot.diameter, thickness);
    let rh = neutral_radius(pulleys.head.diameter, thickness);
    let share = ((z - f.z) / (h.z - f.z)).clamp(0.0, 1.0);
    (f.x - rf) + share * ((h.x - rh) - (f.x - rf))
}

fn trunk_openings(spec: &Spec, bucket: &BucketBody, pulleys: &Pulleys, up_face: f64, down_face: f64, width: Extent) -> Vec<TrunkOpening> {
    match spec.casing.trunk.value {
        Trunk::Single => vec![TrunkOpening { x: Extent::new(down_face, up_face), y: width }],
        Trunk::TwoLegs => {
            let inner = spec.casing.up_clearance.value().max(40.0);
            // What stands on a leg has whole sizes inside.
            let step = outline_step(spec);
            let whole = |length: f64| (length / step - 1e-6).ceil() * step;
            let thickness = spec.belt.thickness.value();
            let up_back = pulleys.foot.radius() - inner;
            let depth = inner + thickness + bucket.projection + spec.casing.down_clearance.value();
            let down_back = down_face + whole(depth.max(bucket.projection + 2.0 * inner));
            let up_back = up_face - whole(up_face - up_back);
            if down_back + 2.0 * spec.casing.flange.value() >= up_back {
                // Legs this close share one casing; two flanges would not fit between them.
                return vec![TrunkOpening { x: Extent::new(down_face, up_face), y: width }];
            }
            vec![TrunkOpening { x: Extent::new(up_back, up_face), y: width }, TrunkOpening { x: Extent::new(down_face, down_back), y: width }]
        }
    }
}
