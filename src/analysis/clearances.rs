//! Gaps between what moves and what stands, over the whole take-up travel.
//!
//! In: the model. Out: the least distance from the buckets' corners to bottom and end plates at
//! sampled take-up positions, from the belt, pulley and buckets to the side plates, and round the bend
//! pulley. Negative means that they touch. A bucket is taken as its section; belt wander, runout and sag
//! are not covered.

use super::Quantity;
use crate::formulas::belt_path::{BeltPath, Segment};
use crate::geometry::{distance, point};
use crate::model::Foot;
use crate::model::casing::CasingBody;
use crate::say::Statement;
use crate::sources::Source;
use crate::units::Unit;
use kurbo::{Line, Point, Vec2};

/// How the gaps are found.
pub const SWEEP: Source =
    Source::physics("arcs and lines that the corners of a bucket's section draw along the belt path, against the inner faces of the plates");
/// Gaps across the machine.
pub const ACROSS: Source = Source::physics("half the difference of the widths");
/// Distances of the bend pulley.
pub const BEND_GAPS: Source = Source::physics("distances of circles and lines");

/// Take-up positions that are looked at: this many equal steps from lowest to highest.
const STEPS: u32 = 8;

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
        const FROM: &[&str] = &["foot_pulley.diameter", "belt.thickness", "bucket.outline", "bucket.height", "take_up.travel"];
        let with = |more: &[&'static str]| -> Vec<&str> { FROM.iter().copied().chain(more.iter().copied()).collect() };
        let named = [
            ("lowest", "take-up at its lowest", &self.lowest),
            ("middle", "take-up in the middle", &self.middle),
            ("highest", "take-up at its highest", &self.highest),
            ("least", "least over the travel", &self.least),
        ];
        for (key, words, at) in named {
            let mut put = |id: &str, name: &'static str, value: f64, more: &[&'static str]| {
                // Where a curved bottom rises over the top flange there is no such plate.
                if !value.is_finite() {
                    return;
                }
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

/// Way of a corner of the buckets past one piece of the belt path.
#[derive(Debug, Clone, Copy)]
enum Way {
    /// Round a pulley: half of its sweep to each side of a direction, rad, and the cosine of that half.
    Arc { centre: Point, radius: f64, middle_rad: f64, middle: Vec2, half_rad: f64, cos_half: f64 },
    /// Beside a straight run.
    Line { from: Point, to: Point },
}

impl Way {
    /// The ways of the corners of a bucket's section whose bolts follow a piece of the path.
    fn of_corners(foot: &Foot, segment: &Segment) -> impl Iterator<Item = Self> {
        let (face, half) = (foot.belt.thickness / 2.0, foot.bucket.height / 2.0);
        foot.bucket.section.iter().filter(|[u, _]| *u > 0.0).map(move |[u, w]| (face + u, w - half)).map(move |(reach, along)| match *segment {
            Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                let (radius, ahead) = ((radius_mm + reach).hypot(along), along.atan2(radius_mm + reach));
                let half_rad = sweep_rad / 2.0;
                let middle_rad = start_rad + ahead + half_rad;
                Self::Arc { centre, radius, middle_rad, middle: Vec2::from_angle(middle_rad), half_rad, cos_half: half_rad.cos() }
            }
            Segment::Line { from, to, .. } => {
                let way = (to - from) / from.distance(to).max(f64::MIN_POSITIVE);
                let off = Vec2::new(way.y, -way.x) * reach + way * along;
                Self::Line { from: from + off, to: to + off }
            }
        })
    }

    fn lowest(&self) -> f64 {
        match *self {
            Self::Arc { centre, radius, .. } => centre.y - radius,
            Self::Line { from, to } => from.y.min(to.y),
        }
    }

    fn ends(&self) -> [Point; 2] {
        match *self {
            Self::Arc { centre, radius, middle_rad, half_rad, .. } => [-half_rad, half_rad].map(|a| centre + Vec2::from_angle(middle_rad + a) * radius),
            Self::Line { from, to } => [from, to],
        }
    }

    /// Where it passes a height, if it does.
    fn at_height(&self, z: f64) -> [Option<Point>; 2] {
        match *self {
            Self::Arc { centre, radius, .. } => {
                let rise = z - centre.y;
                if rise.abs() > radius {
                    return [None, None];
                }
                let across = (radius * radius - rise * rise).sqrt();
                [across, -across].map(|x| self.toward(Vec2::new(x, rise)))
            }
            Self::Line { from, to } => {
                let share = (z - from.y) / (to.y - from.y);
                [(0.0..=1.0).contains(&share).then(|| from.lerp(to, share)), None]
            }
        }
    }

    /// Of an arc, the point that lies in a direction from its centre.
    fn toward(&self, direction: Vec2) -> Option<Point> {
        let Self::Arc { centre, radius, middle, cos_half, .. } = *self else { return None };
        let length = direction.hypot();
        (middle.dot(direction) >= length * cos_half).then(|| centre + direction * (radius / length))
    }

    /// Where it comes nearest to a point beside it.
    fn nearest_to(&self, p: Point) -> Option<Point> {
        match *self {
            Self::Arc { centre, .. } => self.toward(p - centre),
            Self::Line { from, to } => {
                let way = to - from;
                let share = (p - from).dot(way) / way.hypot2();
                (0.0..=1.0).contains(&share).then(|| from.lerp(to, share))
            }
        }
    }
}

/// Heights that differ by less are the same, mm.
const LEVEL: f64 = 1e-6;

fn at(foot: &Foot, path: &BeltPath, travel_share: f64) -> ClearanceAt {
    let casing = &foot.casing;
    let innermost = casing.down_face.iter().map(|p| p[0]).fold(f64::NEG_INFINITY, f64::max);
    let mut gaps = ClearanceAt { travel_share, bottom_mm: f64::INFINITY, up_mm: f64::INFINITY, down_mm: f64::INFINITY };
    let mut look = |p: Point| {
        if p.y > casing.top + LEVEL {
            return;
        }
        gaps.bottom_mm = gaps.bottom_mm.min(bottom_distance(foot, p.x, p.y));
        if p.y >= casing.bottom_shoulder - LEVEL {
            gaps.up_mm = gaps.up_mm.min(casing.up_face - p.x);
            // What lies farther inside than the innermost of the plate cannot be nearer to it.
            if p.x - innermost < gaps.down_mm {
                gaps.down_mm = gaps.down_mm.min(signed_distance(casing, p.x, p.y));
            }
        }
    };
    let arc_ends = bottom_arc_ends(foot);
    for way in path.segments.iter().flat_map(|s| Way::of_corners(foot, s)).filter(|w| w.lowest() <= casing.top) {
        // A gap is least at an end of the way, where the plates end, square to a plate, or nearest to a corner of the plates.
        way.ends().into_iter().for_each(&mut look);
        [casing.top, casing.bottom_shoulder].into_iter().flat_map(|z| way.at_height(z)).flatten().for_each(&mut look);
        [Vec2::new(1.0, 0.0), Vec2::new(0.0, -1.0)].into_iter().filter_map(|square| way.toward(square)).for_each(&mut look);
        let mut last: Option<[f64; 2]> = None;
        for corner in &casing.down_face {
            way.nearest_to(Point::new(corner[0], corner[1])).into_iter().for_each(&mut look);
            if let Some(a) = last {
                way.toward(Vec2::new(a[1] - corner[1], corner[0] - a[0])).into_iter().for_each(&mut look);
            }
            last = Some(*corner);
        }
        arc_ends.iter().flatten().filter_map(|end| way.nearest_to(*end)).for_each(&mut look);
    }
    gaps
}

/// How far below the lowest shaft centre a curved bottom ends, mm.
fn arc_drop(foot: &Foot, radius: f64) -> f64 {
    (foot.shaft_lowest - foot.casing.bottom_shoulder).clamp(0.0, radius)
}

/// Both ends of a curved bottom.
fn bottom_arc_ends(foot: &Foot) -> Option<[Point; 2]> {
    let radius = foot.casing.bottom_radius?;
    let drop = arc_drop(foot, radius);
    let out = (radius * radius - drop * drop).sqrt();
    Some([out, -out].map(|x| Point::new(x, foot.shaft_lowest - drop)))
}

/// Distance from a point to the bottom, negative outside, mm: to the flat plate, or to the arc of a curved one.
fn bottom_distance(foot: &Foot, x: f64, z: f64) -> f64 {
    let casing = &foot.casing;
    let Some(radius) = casing.bottom_radius else { return z - casing.bottom_face };
    let above = z - foot.shaft_lowest;
    let from_centre = x.hypot(above);
    let drop = arc_drop(foot, radius);
    if above * radius <= -drop * from_centre {
        return radius - from_centre;
    }
    // Above the arc's ends the nearest point of the arc is one of them.
    (x.abs() - (radius * radius - drop * drop).sqrt()).hypot(z - casing.bottom_shoulder)
}

/// Distance from a point to the down-side inner face, positive inside, mm.
fn signed_distance(casing: &CasingBody, x: f64, z: f64) -> f64 {
    let faces = casing.down_face.iter().zip(casing.down_face.iter().skip(1));
    let least = faces.map(|(a, b)| distance(Point::new(x, z), Line::new(point(*a), point(*b)))).fold(f64::INFINITY, f64::min);
    if x < casing.down_x(z) { -least } else { least }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::analysis::starters_test::{STARTERS, job};

    /// The gaps when every corner is moved along the path in small steps: each step may miss the least by a little, never find less.
    fn in_steps(foot: &Foot, path: &BeltPath) -> [f64; 3] {
        let casing = &foot.casing;
        let mut least = [f64::INFINITY; 3];
        let mut look = |p: Point| {
            if p.y <= casing.top {
                least[0] = least[0].min(bottom_distance(foot, p.x, p.y));
                if p.y >= casing.bottom_shoulder {
                    least[1] = least[1].min(casing.up_face - p.x);
                    least[2] = least[2].min(signed_distance(casing, p.x, p.y));
                }
            }
        };
        for segment in &path.segments {
            let steps = (segment.length_mm() / 0.5).ceil();
            for i in 0..=steps as u32 {
                let share = f64::from(i) / steps;
                let (p, along) = match *segment {
                    Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                        let out = Vec2::from_angle(start_rad + sweep_rad * share);
                        (centre + out * radius_mm, Vec2::new(-out.y, out.x))
                    }
                    Segment::Line { from, to, .. } => (from.lerp(to, share), (to - from).normalize()),
                };
                for [u, w] in &foot.bucket.section {
                    look(p + Vec2::new(along.y, -along.x) * (foot.belt.thickness / 2.0 + u) + along * (w - foot.bucket.height / 2.0));
                }
            }
        }
        least
    }

    /// All starters, and feet whose buckets come near the inclined plate, a round bottom or the corners between plates.
    #[test]
    fn the_least_gap_is_found_without_steps() {
        let bend = STARTERS[1].1;
        let texts = STARTERS.iter().map(|s| s.1.to_string()).chain([
            STARTERS[2].1.replace("[take_up]", "[take_up]\ntravel = \"1200 mm\""),
            bend.replace("[casing]", "[casing]\nbottom = \"curved\""),
            bend.replace("[casing]", "[casing]\ndown_clearance = \"10 mm\"\nbottom_clearance = \"15 mm\""),
        ]);
        for text in texts {
            let (_, foot, _) = job(&text);
            for share in [0.0, 0.5, 1.0] {
                let path = foot.belt.at_travel(share).unwrap();
                let found = at(&foot, &path, share);
                for (exact, stepped) in [found.bottom_mm, found.up_mm, found.down_mm].into_iter().zip(in_steps(&foot, &path)) {
                    assert!(exact <= stepped + 1e-6 && stepped - exact < 0.05, "{exact} {stepped} at {share} in {text}");
                }
            }
        }
    }
}
