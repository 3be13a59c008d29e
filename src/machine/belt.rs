//! The belt round its pulleys and the buckets on it, as far as the foot reaches.
//!
//! In: the model. Out: a band cut off above the casing, with its joint on the up run; buckets of their plate's thickness, the
//! wall within the section of the spec, with their bolts. Holes for these are not shown; nothing is weighed here.

use super::body::{Body, Machine, Material};
use super::moves::{Moves, Uncut};
use crate::formulas::belt_path::{BeltPath, Pulley, Segment};
use crate::geometry::Edge;
use crate::model::Foot;
use crate::model::belt::BeltPlace;
use crate::parts::flat::Contour;
use crate::parts::placement::Placement;
use crate::parts::shape::Shape;
use crate::say;
use crate::say::{Statement, name};
use crate::solid::brep::FLAT;
use crate::solid::build::{Section, Segment as Turn, extrude, keyed};
use crate::solid::check::check;
use crate::solid::plane::{Loop, area, reversed};
use crate::solid::{Brep, Refusal};
use crate::tables::threads::Thread;
use kurbo::{Line, Point, Vec2};
use std::f64::consts::FRAC_PI_2;

/// How far the belt goes on above casing and bend pulley, mm.
const BEYOND: f64 = 300.0;
/// How far the belt is kept above the foot shaft at its highest, mm.
const ROUND_HIGHEST: f64 = 50.0;
/// Head of a bucket bolt over its thread's diameter: across and high (common practice, no source).
const FLAT_HEAD: f64 = 2.5;
const PLATE_HEAD: f64 = 0.35;
/// How far the ends of the belt stand out in its joint, as a share of the buckets' projection, and at most, mm.
const CLAMP_HIGH: f64 = 0.5;
const CLAMP_MOST: f64 = 70.0;
/// The up run is straight from so far above the foot shaft on, as a share of the pulley's radius: it leans by less.
const STRAIGHT: f64 = 0.05;
/// Thickness of a clamping bar, and what is left free above and below the joint, mm.
const CLAMP_BAR: f64 = 8.0;
const CLAMP_FREE: f64 = 10.0;

/// Adds belt, its joint and buckets, take-up at its lowest.
pub(super) fn add(machine: &mut Machine, foot: &Foot) {
    let belt = &foot.belt;
    // Over casing and bend pulley, and two buckets on the run up.
    let two = foot.shaft_lowest + 2.0 * foot.bucket.spacing + foot.bucket.height;
    let top = foot.pulleys.bend.map_or(foot.casing.top, |b| foot.casing.top.max(b.centre.z + b.radius())).max(two) + BEYOND;
    let band = band_of(&belt.lowest, belt.thickness / 2.0, top);
    let place = standing(machine, [0.0, 0.0], [1.0, 0.0], [0.0, 1.0], (0.0, belt.width));
    machine.take("belt", "belt", extrude(&[band], belt.width, &FLAT), running(Material::Belt, vec![place]));
    let high = band_of(&belt.highest, belt.thickness / 2.0, foot.shaft_highest + ROUND_HIGHEST);
    if let Ok(brep) = extrude(&[high], belt.width, &FLAT) {
        machine.highest.push(running(Material::Belt, vec![place])(brep, "belt".into(), "belt".into()));
    }
    joint(machine, foot);
    buckets(machine, foot, top - BEYOND - foot.bucket.height / 2.0);
}

/// What turns with the belt and stands on no list: it comes with the belt.
fn running(material: Material, places: Vec<Placement>) -> impl FnOnce(Brep, String, Statement) -> Body {
    move |brep, id, name| Body {
        item: None,
        id,
        name,
        material,
        moves: Moves::Shaft,
        uncut: if material == Material::Fastener { Uncut::AlongAxis } else { Uncut::Never },
        of_steel: false,
        places,
        brep,
    }
}

/// Places of the buckets' bolts below a height, all one spacing apart from one at the lowest point of the foot pulley, where
/// sections show it; where the belt's length leaves more between two of them lies at the head.
fn stations(foot: &Foot, top: f64) -> Vec<BeltPlace> {
    let (path, spacing) = (&foot.belt.lowest, foot.bucket.spacing);
    let count = (path.length_mm / spacing).floor().max(0.0) as i64;
    let lowest = match path.segments.first() {
        Some(Segment::Arc { radius_mm, start_rad, .. }) => (-FRAC_PI_2 - start_rad) * radius_mm,
        _ => 0.0,
    };
    let at = |i: i64| foot.belt.place(path, lowest + i as f64 * spacing);
    (-count / 2..count - count / 2).filter_map(at).filter(|p| p.at[1] < top).collect()
}

/// How far apart across the belt the rows of buckets stand, mm from its middle.
fn rows(foot: &Foot) -> Vec<f64> {
    let bucket = &foot.bucket;
    let rows = bucket.rows.max(1);
    let pitch = if rows > 1 { (bucket.overall_length - bucket.length) / f64::from(rows - 1) } else { 0.0 };
    (0..rows).map(|row| (f64::from(row) - f64::from(rows - 1) / 2.0) * pitch).collect()
}

/// All buckets whose bolts lie below a height, with their bolts.
fn buckets(machine: &mut Machine, foot: &Foot, top: f64) {
    let bucket = &foot.bucket;
    let (places, rows) = (stations(foot, top), rows(foot));
    let pieces = places.iter().flat_map(|p| rows.iter().map(|row| standing(machine, p.at, p.out, p.travel, (*row, bucket.length)))).collect();
    machine.take("bucket", "bucket", shell(foot), running(Material::Bucket, pieces));
    let Some(thread) = bucket.bolt else { return };
    let across: Vec<f64> = rows.iter().flat_map(|row| bucket.bolts.iter().map(move |y| row + y)).collect();
    let at = |p: &BeltPlace, y: f64, by: f64| {
        let (out, right) = ([p.out[0], 0.0, p.out[1]], [p.travel[0], 0.0, p.travel[1]]);
        Placement::new([p.at[0] + p.out[0] * by, y, p.at[1] + p.out[1] * by], right, machine.third(out, right), out)
    };
    let each = |by: f64| places.iter().flat_map(|p| across.iter().map(move |y| at(p, *y, by))).collect::<Vec<_>>();
    let (bolts, nuts) = (each(-foot.belt.thickness), each(bucket.wall));
    let long = foot.belt.thickness + bucket.wall + thread.nut_mm + 2.0 * thread.pitch_mm;
    machine.take("bucket_bolt", say!("bucket bolt {thread}", thread = name(thread.name)), plate_bolt(thread, long), running(Material::Fastener, bolts));
    let nut = Shape::Nut { flats: thread.across_flats_mm, bore: thread.diameter_mm, height: thread.nut_mm };
    machine.take("bucket_nut", say!("bucket nut {thread}", thread = name(thread.name)), nut.body(), running(Material::Fastener, nuts));
}

/// A bolt with a flat head that is drawn into the belt's inner face: the head from z = 0, then the shank.
fn plate_bolt(thread: &Thread, long: f64) -> Result<Brep, Refusal> {
    let (d, head) = (thread.diameter_mm, PLATE_HEAD * thread.diameter_mm);
    keyed(&[Turn::cylinder(0.0, head, FLAT_HEAD * d, 0.0).section(), Turn::cylinder(head, long, d, 0.0).section()], &FLAT)
}

/// A bucket pressed from plate, with its two ends; solid where the section is too narrow for its wall. In its own frame x
/// points out from the belt, y along the travel, z across.
fn shell(foot: &Foot) -> Result<Brep, Refusal> {
    let b = &foot.bucket;
    let outer: Vec<Point> = b.section.iter().map(|[u, w]| Point::new(*u, w - b.height / 2.0)).collect();
    let turned = |corners: &[Point]| {
        let edges = Edge::chain(&corners.iter().map(|p| (*p, 0.0)).collect::<Vec<_>>(), true);
        if area(&edges) < 0.0 { reversed(&edges) } else { edges }
    };
    let hollow = inside(&outer, b.wall).and_then(|inner| {
        let (first, last) = (inner.first()?, inner.last()?);
        let end: Vec<Point> = outer.iter().chain([last, first]).copied().collect();
        let wall: Vec<Point> = outer.iter().chain(inner.iter().rev()).copied().collect();
        let (end, wall) = (vec![turned(&end)], vec![turned(&wall)]);
        let ends = [(0.0, b.wall, &end), (b.wall, b.length - b.wall, &wall), (b.length - b.wall, b.length, &end)];
        keyed(&ends.map(|(from, to, region)| Section::straight(from, to, region.clone())), &FLAT).ok().filter(|body| check(body).is_empty())
    });
    hollow.map_or_else(|| extrude(&[turned(&outer)], b.length, &FLAT), Ok)
}

/// The inner side of a wall along a chain of corners whose inside lies on the left, from its first to its last end; none
/// where a corner leaves no room for it.
fn inside(outer: &[Point], wall: f64) -> Option<Vec<Point>> {
    let lines: Vec<(Point, Vec2)> = outer
        .iter()
        .zip(outer.iter().skip(1))
        .map(|(a, b)| {
            let along = (*b - *a).normalize();
            (*a + Vec2::new(-along.y, along.x) * wall, along)
        })
        .collect();
    let (first, last) = (lines.first()?, lines.last()?);
    let end = *outer.last()? + Vec2::new(-last.1.y, last.1.x) * wall;
    let corner = |((p, d), (q, e)): (&(Point, Vec2), &(Point, Vec2))| {
        let turn = d.cross(*e);
        (turn.abs() > 1e-6).then(|| *p + *d * ((*q - *p).cross(*e) / turn)).or(Some(*q))
    };
    let middle: Vec<Point> = lines.iter().zip(lines.iter().skip(1)).filter_map(corner).collect();
    let inner: Vec<Point> = std::iter::once(first.0).chain(middle).chain([end]).collect();
    let forward = inner.iter().zip(inner.iter().skip(1)).zip(&lines).all(|((a, b), (_, along))| (*b - *a).dot(*along) > 0.1);
    forward.then_some(inner)
}

/// The belt's joint: both ends turned out between two buckets and clamped by two bars (common practice); on the up run, where
/// it can be seen, if there is room for it.
fn joint(machine: &mut Machine, foot: &Foot) {
    let (belt, bucket) = (&foot.belt, &foot.bucket);
    let high = (CLAMP_HIGH * bucket.projection).min(CLAMP_MOST);
    let half = belt.thickness + CLAMP_BAR;
    if 2.0 * half + CLAMP_FREE > bucket.spacing - bucket.height {
        return;
    }
    // Above the arc on the pulley, where the run is straight.
    let begins = foot.shaft_lowest + STRAIGHT * foot.pulleys.foot.radius();
    let between = |p: &&BeltPlace| p.out[0] > 0.999 && p.at[1] > begins && p.at[1] + bucket.spacing < foot.casing.top - bucket.height / 2.0;
    let Some(below) = stations(foot, foot.casing.top).into_iter().filter(|p| between(&p)).max_by(|a, b| a.at[1].total_cmp(&b.at[1])) else { return };
    let at = [0, 1].map(|i| below.at[i] + below.travel[i] * bucket.spacing / 2.0);
    let strip = |from: f64, to: f64| Contour::rectangle([0.0, from], [high, to]).edges();
    let place = standing(machine, at, below.out, below.travel, (0.0, belt.width));
    let ends = [strip(-belt.thickness, 0.0), strip(0.0, belt.thickness)];
    let bars = [strip(-half, -belt.thickness), strip(belt.thickness, half)];
    for (i, (end, bar)) in ends.into_iter().zip(bars).enumerate() {
        machine.take(&format!("belt_joint.end.{}", i + 1), "belt's end in its joint", extrude(&[end], belt.width, &FLAT), running(Material::Belt, vec![place]));
        machine.take(
            &format!("belt_joint.bar.{}", i + 1),
            "clamping bar of the belt's joint",
            extrude(&[bar], belt.width, &FLAT),
            running(Material::Bought, vec![place]),
        );
    }
}

/// Where something stands that is drawn in (x, z) of the model and reaches across it: origin and directions there, and the
/// middle and the size across, mm.
fn standing(machine: &Machine, at: [f64; 2], right: [f64; 2], up: [f64; 2], (middle, width): (f64, f64)) -> Placement {
    let (right, up) = ([right[0], 0.0, right[1]], [up[0], 0.0, up[1]]);
    let toward = machine.third(right, up);
    Placement::new([at[0], middle - toward[1] * width / 2.0, at[1]], right, up, toward)
}

/// The band below a height, `half` thick to both sides of the path, counter-clockwise in (x, z).
fn band_of(path: &BeltPath, half: f64, top: f64) -> Loop {
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
