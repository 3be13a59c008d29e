//! Gaps between what moves and what stands, over the whole take-up travel.
//!
//! In: the model. Out: the least distance from the buckets' outer corners to bottom and end plates at
//! sampled take-up positions, from the belt, pulley and buckets to the side plates, and round the bend
//! pulley. Negative means that they touch. A bucket is taken as its full projection and height; belt
//! wander, runout and sag are not covered.

use super::Quantity;
use crate::formulas::belt_path::{BeltPath, Segment};
use crate::model::Foot;
use crate::model::casing::CasingBody;
use crate::say::Statement;
use crate::sources::Source;
use crate::units::Unit;

/// How the gaps are found.
pub const SWEEP: Source =
    Source::physics("outer corners of a bucket moved along the belt path in steps of 1° and 20 mm, against the inner faces of the plates");
/// Gaps across the machine.
pub const ACROSS: Source = Source::physics("half the difference of the widths");
/// Distances of the bend pulley.
pub const BEND_GAPS: Source = Source::physics("distances of circles and lines");

/// Take-up positions that are looked at: this many equal steps from lowest to highest.
const STEPS: u32 = 8;
const ARC_STEP_RAD: f64 = std::f64::consts::PI / 180.0;
const LINE_STEP_MM: f64 = 20.0;

/// Gaps at one take-up position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClearanceAt {
    /// Take-up position as a share of the travel: 0 lowest, 1 highest.
    pub travel_share: f64,
    /// Bucket corners to the bottom, mm.
    pub bottom_mm: f64,
    /// Bucket corners to the up-side end plate, mm.
    pub up_mm: f64,
    /// Bucket corners to the down-side end plate along all of its height, mm.
    pub down_mm: f64,
}

/// Gaps of the bend pulley.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendClearances {
    /// Pulley to the inner face of the up run, mm.
    pub up_run_mm: f64,
    /// Pulley to foot pulley with its belt, take-up at its highest, mm.
    pub foot_pulley_mm: f64,
    /// Pulley's top to the top flange of the casing, mm.
    pub top_mm: f64,
    /// Pulley's end face to the side plate, mm.
    pub side_mm: f64,
}

/// All gaps.
#[derive(Debug, Clone, PartialEq)]
pub struct Clearances {
    /// Sampled take-up positions from lowest to highest; never empty.
    pub positions: Vec<ClearanceAt>,
    /// The least of each gap over all positions (its `travel_share` is where the bottom gap is least).
    pub least: ClearanceAt,
    /// Take-up at its lowest.
    pub lowest: ClearanceAt,
    /// Take-up in the middle.
    pub middle: ClearanceAt,
    /// Take-up at its highest.
    pub highest: ClearanceAt,
    /// Belt edge to side plate, mm.
    pub belt_side_mm: f64,
    /// Foot pulley to side plate, mm.
    pub pulley_side_mm: f64,
    /// Bucket end to side plate, mm.
    pub bucket_side_mm: f64,
    /// The least of the three, mm.
    pub side_mm: f64,
    /// Bend pulley, if there is one.
    pub bend: Option<BendClearances>,
}

impl Clearances {
    /// Sweeps the buckets along the path at every sampled take-up position.
    pub fn compute(foot: &Foot) -> Self {
        let positions: Vec<ClearanceAt> = (0..=STEPS)
            .map(|i| f64::from(i) / f64::from(STEPS))
            .filter_map(|share| foot.belt.at_travel(share).ok().map(|path| at(foot, &path, share)))
            .collect();
        let lowest = positions.first().copied().unwrap_or_else(|| at(foot, &foot.belt.lowest, 0.0));
        let least = positions.iter().fold(lowest, |best, p| ClearanceAt {
            travel_share: if p.bottom_mm < best.bottom_mm { p.travel_share } else { best.travel_share },
            bottom_mm: best.bottom_mm.min(p.bottom_mm),
            up_mm: best.up_mm.min(p.up_mm),
            down_mm: best.down_mm.min(p.down_mm),
        });
        let half = foot.casing.width.size() / 2.0;
        let (belt_side_mm, pulley_side_mm, bucket_side_mm) =
            (half - foot.belt.width / 2.0, half - foot.pulleys.foot.face / 2.0, half - foot.bucket.overall_length / 2.0);
        let bend = foot.pulleys.bend.as_ref().map(|b| {
            let high = (b.centre.x).hypot(b.centre.z - foot.shaft_highest);
            BendClearances {
                up_run_mm: foot.pulleys.foot.radius() - (b.centre.x + b.radius()),
                foot_pulley_mm: high - b.radius() - foot.pulleys.foot.radius() - foot.belt.thickness,
                top_mm: foot.casing.top - (b.centre.z + b.radius()),
                side_mm: half - b.face / 2.0,
            }
        });
        Self {
            lowest,
            middle: positions.get(positions.len() / 2).copied().unwrap_or(lowest),
            highest: positions.last().copied().unwrap_or(lowest),
            positions,
            least,
            belt_side_mm,
            pulley_side_mm,
            bucket_side_mm,
            side_mm: belt_side_mm.min(pulley_side_mm).min(bucket_side_mm),
            bend,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        const FROM: &[&str] = &["foot_pulley.diameter", "belt.thickness", "bucket.projection", "bucket.height", "take_up.travel"];
        let with = |more: &[&'static str]| -> Vec<&str> { FROM.iter().copied().chain(more.iter().copied()).collect() };
        let named = [
            ("lowest", "take-up at its lowest", &self.lowest),
            ("middle", "take-up in the middle", &self.middle),
            ("highest", "take-up at its highest", &self.highest),
            ("least", "least over the travel", &self.least),
        ];
        for (key, words, at) in named {
            let mut put = |id: &str, name: &'static str, value: f64, more: &[&'static str]| {
                out.push(Quantity::new(format!("clearances.{id}_{key}"), Statement::all(vec![name.into(), words.into()]), value, Unit::Mm, &with(more), SWEEP));
            };
            put("bottom", "bucket to bottom", at.bottom_mm, &["casing.bottom_clearance", "casing.bottom"]);
            put("up_end", "bucket to up-side end plate", at.up_mm, &["casing.up_clearance"]);
            put("down_end", "bucket to down-side end plate", at.down_mm, &["casing.down_clearance", "bend_pulley.height", "bend_pulley.diameter"]);
        }
        let mut put = |id: &str, name: &'static str, value: f64, inputs: &[&str], source: Source| {
            out.push(Quantity::new(format!("clearances.{id}"), name, value, Unit::Mm, inputs, source));
        };
        put("belt_side", "belt edge to side plate", self.belt_side_mm, &["belt.width", "casing.side_clearance"], ACROSS);
        put("pulley_side", "foot pulley to side plate", self.pulley_side_mm, &["foot_pulley.face", "casing.side_clearance"], ACROSS);
        put(
            "bucket_side",
            "bucket end to side plate",
            self.bucket_side_mm,
            &["bucket.length", "bucket.rows", "bucket.row_gap", "casing.side_clearance"],
            ACROSS,
        );
        if let Some(b) = &self.bend {
            const BEND: &[&str] = &["bend_pulley.diameter", "bend_pulley.height", "head_pulley.diameter", "foot_pulley.diameter"];
            put("bend_up_run", "bend pulley to up run", b.up_run_mm, BEND, BEND_GAPS);
            put("bend_foot_pulley", "bend pulley to foot pulley with belt, take-up at its highest", b.foot_pulley_mm, BEND, BEND_GAPS);
            put("bend_top", "bend pulley to top flange", b.top_mm, &["bend_pulley.diameter", "bend_pulley.height", "casing.height"], BEND_GAPS);
            put("bend_side", "bend pulley to side plate", b.side_mm, &["bend_pulley.face", "casing.side_clearance"], ACROSS);
        }
    }
}

fn at(foot: &Foot, path: &BeltPath, travel_share: f64) -> ClearanceAt {
    let casing = &foot.casing;
    let (half_height, half_belt) = (foot.bucket.height / 2.0, foot.belt.thickness / 2.0);
    let mut gaps = ClearanceAt { travel_share, bottom_mm: f64::INFINITY, up_mm: f64::INFINITY, down_mm: f64::INFINITY };
    let mut look = |x: f64, z: f64| {
        if z > casing.top {
            return;
        }
        gaps.bottom_mm = gaps.bottom_mm.min(bottom_distance(foot, x, z));
        if z >= casing.bottom_shoulder {
            gaps.up_mm = gaps.up_mm.min(casing.up_face - x);
            gaps.down_mm = gaps.down_mm.min(signed_distance(casing, x, z));
        }
    };
    // The farthest corner of a bucket bolted at p with the unit vectors out and travel.
    let mut corners = |p: [f64; 2], out: [f64; 2], travel: [f64; 2]| {
        for along in [-half_height, half_height] {
            let reach = half_belt + foot.bucket.projection;
            look(p[0] + out[0] * reach + travel[0] * along, p[1] + out[1] * reach + travel[1] * along);
        }
    };
    for segment in &path.segments {
        match *segment {
            Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                if centre.y - radius_mm - foot.bucket.projection > casing.top {
                    continue;
                }
                let steps = (sweep_rad / ARC_STEP_RAD).ceil().max(1.0) as u32;
                // Where a corner points straight to a flat plate the gap is exact.
                let offset = (half_height / (radius_mm + half_belt + foot.bucket.projection)).atan();
                let straight = [-1.0, -0.5, 0.0, 0.5, 1.0].into_iter().flat_map(|q| [q * std::f64::consts::PI + offset, q * std::f64::consts::PI - offset]);
                let angles = (0..=steps).map(|i| start_rad + sweep_rad * f64::from(i) / f64::from(steps));
                for angle in angles.chain(straight.flat_map(|a| [a, a + std::f64::consts::TAU]).filter(|a| *a >= start_rad && *a <= start_rad + sweep_rad)) {
                    let (sin, cos) = angle.sin_cos();
                    corners([centre.x + radius_mm * cos, centre.y + radius_mm * sin], [cos, sin], [-sin, cos]);
                }
            }
            Segment::Line { from, to, .. } => {
                let length = from.distance(to);
                let (low, high) = (from.y.min(to.y), from.y.max(to.y));
                if length < 1e-9 || low > casing.top || high - low < 1e-9 {
                    continue;
                }
                let u = (to - from) / length;
                // Only what lies in the foot, and the point where the top corner passes the top flange.
                let reach = ((casing.top + half_height).min(high) - low) / (high - low) * length;
                let steps = (reach / LINE_STEP_MM).ceil().max(1.0) as u32;
                for i in 0..=steps {
                    let s = reach * f64::from(i) / f64::from(steps);
                    let p = if from.y <= to.y { from + u * s } else { to - u * s };
                    corners([p.x, p.y], [u.y, -u.x], [u.x, u.y]);
                }
            }
        }
    }
    gaps
}

/// Distance from a point to the bottom, negative outside, mm: to the flat plate, or to the arc of a curved one.
fn bottom_distance(foot: &Foot, x: f64, z: f64) -> f64 {
    let casing = &foot.casing;
    let Some(radius) = casing.bottom_radius else { return z - casing.bottom_face };
    let above = z - foot.shaft_lowest;
    let from_centre = x.hypot(above);
    let drop = (foot.shaft_lowest - casing.bottom_shoulder).clamp(0.0, radius);
    if above * radius <= -drop * from_centre {
        return radius - from_centre;
    }
    // Above the arc's ends the nearest point of the arc is one of them.
    (x.abs() - (radius * radius - drop * drop).sqrt()).hypot(z - casing.bottom_shoulder)
}

/// Distance from a point to the down-side inner face, positive inside, mm.
fn signed_distance(casing: &CasingBody, x: f64, z: f64) -> f64 {
    let mut least = f64::INFINITY;
    let mut last: Option<[f64; 2]> = None;
    for p in &casing.down_face {
        if let Some(a) = last {
            let (dx, dz) = (p[0] - a[0], p[1] - a[1]);
            let square = dx * dx + dz * dz;
            let share = if square > 0.0 { (((x - a[0]) * dx + (z - a[1]) * dz) / square).clamp(0.0, 1.0) } else { 0.0 };
            least = least.min((x - a[0] - share * dx).hypot(z - a[1] - share * dz));
        }
        last = Some(*p);
    }
    if x < casing.down_x(z) { -least } else { least }
}
