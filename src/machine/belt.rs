//! The belt round its pulleys and the buckets on it, as far as the foot reaches.
//!
//! In: the model. Out: a band cut off above the casing, and solid blocks of the buckets' product space; neither is weighed here.

use super::body::{Body, Machine, Material};
use super::moves::Moves;
use crate::formulas::belt_path::{BeltPath, Pulley, Segment};
use crate::geometry::Edge;
use crate::model::Foot;
use crate::model::belt::BeltPlace;
use crate::parts::placement::Placement;
use crate::solid::brep::FLAT;
use crate::solid::build::extrude;
use crate::solid::plane::{Loop, area, reversed};
use kurbo::{Line, Point, Vec2};

/// How far the belt goes on above casing and bend pulley, mm.
const BEYOND: f64 = 300.0;

/// Adds belt and buckets, take-up at its lowest.
pub(super) fn add(machine: &mut Machine, foot: &Foot) {
    let belt = &foot.belt;
    let top = foot.pulleys.bend.map_or(foot.casing.top, |b| foot.casing.top.max(b.centre.z + b.radius())) + BEYOND;
    let half = belt.thickness / 2.0;
    let band = band(&belt.lowest, half, top);
    let place = standing(machine, [0.0, 0.0], [1.0, 0.0], [0.0, 1.0], (0.0, belt.width));
    let body = |brep, id, name| Body {
        item: None,
        id,
        name,
        material: Material::Belt,
        moves: Moves::Shaft,
        shown_whole: false,
        steel_share: None,
        places: vec![place],
        brep,
    };
    machine.take("belt", "belt", extrude(&[band], belt.width, &FLAT), body);
    buckets(machine, foot, top - BEYOND - foot.bucket.height / 2.0);
}

/// All buckets whose bolts lie below a height.
fn buckets(machine: &mut Machine, foot: &Foot, top: f64) {
    let (belt, bucket) = (&foot.belt, &foot.bucket);
    let count = (belt.lowest.length_mm / bucket.spacing).floor().max(0.0) as usize;
    let places: Vec<BeltPlace> = (0..count).filter_map(|i| belt.place(&belt.lowest, i as f64 * bucket.spacing)).filter(|p| p.at[1] < top).collect();
    let rows = bucket.rows.max(1);
    let pitch = if rows > 1 { (bucket.overall_length - bucket.length) / f64::from(rows - 1) } else { 0.0 };
    let across = |row: u32| (f64::from(row) - f64::from(rows - 1) / 2.0) * pitch;
    let pieces = places.iter().flat_map(|p| (0..rows).map(|row| standing(machine, p.at, p.out, p.travel, (across(row), bucket.length)))).collect();
    // In its own frame x points out from the belt, y along the travel.
    let corners: Vec<(Point, f64)> = bucket.section.iter().map(|[u, w]| (Point::new(*u, w - bucket.height / 2.0), 0.0)).collect();
    let outline = Edge::chain(&corners, true);
    let outline = if area(&outline) < 0.0 { reversed(&outline) } else { outline };
    let body = |brep, id, name| Body {
        item: None,
        id,
        name,
        material: Material::Bucket,
        moves: Moves::Shaft,
        shown_whole: false,
        steel_share: None,
        places: pieces,
        brep,
    };
    machine.take("bucket", "bucket", extrude(&[outline], bucket.length, &FLAT), body);
}

/// Where something stands that is drawn in (x, z) of the model and reaches across it: origin and directions there, and the
/// middle and the size across, mm.
fn standing(machine: &Machine, at: [f64; 2], right: [f64; 2], up: [f64; 2], (middle, width): (f64, f64)) -> Placement {
    let (right, up) = ([right[0], 0.0, right[1]], [up[0], 0.0, up[1]]);
    let toward = machine.third(right, up);
    Placement::new([at[0], middle - toward[1] * width / 2.0, at[1]], right, up, toward)
}

/// The band below a height, `half` thick to both sides of the path, counter-clockwise in (x, z).
fn band(path: &BeltPath, half: f64, top: f64) -> Loop {
    let below = below(path, top);
    let side = |outside: f64| below.iter().map(|s| beside(s, outside)).collect::<Loop>();
    let (outer, inner) = (side(half), reversed(&side(-half)));
    let join = |a: Option<&Edge>, b: Option<&Edge>| a.zip(b).map(|(a, b)| Edge::Straight(Line::new(a.end(), b.start())));
    let caps = [join(outer.last(), inner.first()), join(inner.last(), outer.first())];
    let [first, second] = caps;
    closed(outer.into_iter().chain(first).chain(inner).chain(second).collect())
}

/// Each edge ends where the next begins, to the last digit, so that the reader sees one corner.
fn closed(edges: Loop) -> Loop {
    let starts: Vec<Point> = edges.iter().map(Edge::start).collect();
    let next = starts.iter().cycle().skip(1);
    edges
        .iter()
        .zip(next)
        .map(|(edge, end)| match *edge {
            Edge::Straight(line) => Edge::Straight(Line::new(line.p0, *end)),
            Edge::Round { arc, from, .. } => Edge::Round { arc, from, to: *end },
        })
        .collect()
}

/// The path from where it comes down below a height to where it leaves it again; runs are cut there.
fn below(path: &BeltPath, top: f64) -> Vec<Segment> {
    let after_head = path.segments.iter().position(|s| matches!(s, Segment::Arc { pulley: Pulley::Head, .. })).map_or(0, |i| i + 1);
    let cut = |s: &Segment| match *s {
        Segment::Line { leaves, reaches, from, to } => {
            let at = |p: Point| if p.y > top { from + (to - from) * ((top - from.y) / (to.y - from.y)) } else { p };
            (from.y.min(to.y) < top && from.distance(to) > 1e-6).then(|| Segment::Line { leaves, reaches, from: at(from), to: at(to) })
        }
        Segment::Arc { centre, radius_mm, sweep_rad, .. } => (centre.y - radius_mm < top && sweep_rad * radius_mm > 1e-6).then_some(*s),
    };
    path.segments
        .iter()
        .cycle()
        .skip(after_head)
        .take(path.segments.len())
        .filter(|s| !matches!(s, Segment::Arc { pulley: Pulley::Head, .. }))
        .filter_map(cut)
        .collect()
}

/// A piece of the path moved to its outside.
fn beside(s: &Segment, outside: f64) -> Edge {
    match *s {
        Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => Edge::arc(centre, radius_mm + outside, start_rad, sweep_rad),
        Segment::Line { from, to, .. } => {
            let along = (to - from).normalize();
            let shift = Vec2::new(along.y, -along.x) * outside;
            Edge::Straight(Line::new(from + shift, to + shift))
        }
    }
}
