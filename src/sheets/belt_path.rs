//! Belt path: pulleys and tangent points to the neutral line, lengths over the take-up travel, clearances
//! of the bucket tips in the foot, and what a bucket can hold against its height.
//!
//! Foot and head are drawn true to scale and broken off between; lengths across the break stand in the table.

use super::Subject;
use super::views::bodies::{BOLT_HOLES, Picture, Show};
use super::views::chart::{Axis, Chart, Curve};
use super::views::{Look, elevation, outline};
use crate::analysis::path::PathAt;
use crate::formulas::belt_path::{BeltPath, Pulley, Segment};
use crate::formulas::retained_fill::Retained as Point;
use crate::machine::moves::WITH_SHAFT;
use crate::model::inlets::FeedSide;
use crate::paper::mark::{Align, PlanePoint, Shape};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, Side, ViewScale};
use crate::say;
use crate::say::{name, size};
use crate::units::MM_PER_INCH;
use kurbo::Rect;

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Belt path with tangent points, wraps and lengths; bucket clearances; retained fill against height.");
    sheet.view(Placement::Main, subject.face(foot_view(subject)));
    sheet.view(Placement::Free, subject.face(head_view(subject)));
    if let Some(chart) = retained(subject) {
        sheet.view(Placement::Free, chart);
    }
    if let Some(buckets) = buckets(subject) {
        sheet.view(Placement::Free, subject.face(buckets));
    }
    sheet.table(lengths(subject));
    sheet.table(tangents(subject));
    sheet.table(clearances(subject));
    sheet.note(notes(subject));
    sheet
}

/// Tangent points of a path in travel order, with their tags.
fn tangent_points(path: &BeltPath) -> Vec<(String, kurbo::Point)> {
    let name = |p: Pulley| match p {
        Pulley::Foot => "F",
        Pulley::Head => "H",
        Pulley::Bend => "B",
    };
    path.segments
        .iter()
        .filter_map(|s| match *s {
            Segment::Line { leaves, reaches, from, to } => Some([(format!("{}2", name(leaves)), from), (format!("{}1", name(reaches)), to)]),
            Segment::Arc { .. } => None,
        })
        .flatten()
        .collect()
}

fn foot_view(subject: &Subject<'_>) -> Draft {
    let foot = subject.foot;
    let mut d = Draft::new("foot", "BELT PATH IN THE FOOT");
    let top = elevation::broken_off(foot);
    let half = foot.belt.thickness / 2.0;
    let low = PlanePoint::new(0.0, foot.shaft_lowest);
    let picture = Picture::new(subject.machine, Look::Elevation).without_holes(BOLT_HOLES).fine();
    let inside = ["end_plate", "bottom", "foot_pulley.rim", "foot_pulley.wing", "bend_pulley.rim", "bucket"];
    let within = picture.within(Rect::new(-WIDE, 0.0, WIDE, top));
    within.cut_at(0.0, 0.0, 0.0).draw(&mut d, |p| p.of_any(&inside).then_some(Show::Seen));
    // Not cut, so that its neutral line is seen in it.
    within.draw(&mut d, |p| p.of("belt").then_some(Show::Seen));
    picture.phantom(foot.rotating.travel).draw(&mut d, |p| (p.of_any(&WITH_SHAFT) || p.of("belt")).then_some(Show::Seen));
    let vertices = outline::neutral_line(&foot.belt.lowest, top);
    d.stroke(Pen::Centre, Shape::Polyline { vertices, closed: false });
    d.centre_cross(low, foot.tip_radius);
    d.circle(Pen::Centre, low, foot.tip_radius);
    d.centre_cross((0.0, foot.shaft_highest), 60.0);
    if let Some(b) = &foot.pulleys.bend {
        d.centre_cross(Look::Elevation.point(b.centre), b.radius());
        d.radius("bend_pulley.neutral_radius", Look::Elevation.point(b.centre), (b.centre.x + b.radius() + half, b.centre.z)).prefer(Side::Right);
    }
    for (tag, at) in tangent_points(&foot.belt.lowest).into_iter().filter(|(_, p)| p.y < top) {
        d.circle(Pen::FineEdge, at, 14.0);
        d.tag(at, 20.0, tag);
    }
    let r = foot.pulleys.foot.radius() + half;
    d.radius("foot_pulley.neutral_radius", low, (r * 0.6, foot.shaft_lowest - r * 0.8)).prefer(Side::Right);
    d.radius("bucket.tip_radius", low, (-foot.tip_radius * 0.8, foot.shaft_lowest - foot.tip_radius * 0.6)).prefer(Side::Left);
    let z = foot.shaft_lowest;
    // Beside the foot pulley the down-side plate may stand further out than its clearance asks, for a larger head pulley.
    let low = foot.casing.down_shoulder;
    let down = foot.casing.down_x(low);
    let gap = -foot.tip_radius - down;
    let key = if (gap - subject.spec.casing.down_clearance.value.value()).abs() < 0.05 { "casing.down_clearance" } else { "clearance.down" };
    d.dimension(Side::Below, key, (down, low), (-foot.tip_radius, z)).chain("tips");
    d.dimension(Side::Below, "casing.up_clearance", (foot.tip_radius, z), (foot.casing.up_face, foot.casing.up_shoulder)).chain("tips");
    let right = foot.casing.up_face;
    d.dimension(Side::Right, "casing.bottom_clearance", (right, foot.casing.bottom_face), (0.0, z - foot.tip_radius));
    Look::Elevation.each(&mut d, foot, Side::Right, &["take_up.travel"]);
    Look::Elevation.each(&mut d, foot, Side::Above, &["belt.run_distance"]);
    Look::Elevation.each(&mut d, foot, Side::Left, &["bend_pulley.height"]);
    if let Some(b) = &foot.pulleys.bend {
        let beta = foot.belt.middle.foot_run_angle_rad();
        let corner = Look::Elevation.point(b.centre);
        let l = b.radius() * 2.2;
        let along = PlanePoint::new(corner.x + l * beta.sin(), corner.y - l * beta.cos());
        let upright = PlanePoint::new(corner.x, corner.y - l);
        d.line(Pen::Centre, corner, along);
        d.line(Pen::Centre, corner, upright);
        d.angle("bend_pulley.angle", corner, upright, along).decimals(1).suffix(subject.say(" with the take-up in the middle"));
    }
    d
}

/// Two buckets of the up run with what lies between them, enlarged and cut through a row of bolts.
fn buckets(subject: &Subject<'_>) -> Option<Draft> {
    let foot = subject.foot;
    let (b, t) = (&foot.bucket, foot.belt.thickness);
    let standing = |id: &'static str| subject.machine.bodies.iter().filter(move |body| body.id == id).flat_map(|body| &body.places);
    // On the up run a bucket's own x points up-side and its y up.
    let mut rows: Vec<f64> = standing("bucket").filter(|p| p.right[0] > 0.999).map(|p| p.origin[2]).filter(|z| *z > foot.shaft_lowest).collect();
    rows.sort_by(f64::total_cmp);
    rows.dedup_by(|a, b| (*a - *b).abs() < 1.0);
    let [.., z, _] = rows[..] else { return None };
    let y = standing("bucket_bolt").map(|p| p.origin[1]).min_by(|a, b| a.abs().total_cmp(&b.abs())).unwrap_or(0.0);
    let mut d = Draft::new("buckets", "BUCKETS ON THE BELT").at_scale(ViewScale::Within { width: 75.0, height: 95.0 });
    let face = foot.pulleys.foot.radius() + t;
    let (low, high) = (z - b.spacing * 0.5, z + b.spacing * 1.5);
    let window = Rect::new(face - t - 3.0 * b.projection, low, face + 3.0 * b.projection, high);
    Picture::new(subject.machine, Look::Elevation)
        .cut_at(0.0, y, 0.0)
        .within(window)
        .draw(&mut d, |p| (p.of("belt") || p.low.x > 0.0 && p.of_any(&["belt_joint", "bucket", "bucket_bolt", "bucket_nut"])).then_some(Show::Seen));
    for z in [z, z + b.spacing] {
        d.centre_line((face - 2.0 * t, z), (face + t + b.projection * 0.2, z));
    }
    d.dimension(Side::Left, "bucket.spacing", (face - t, z), (face - t, z + b.spacing));
    d.dimension(Side::Right, "bucket.height", (face + b.projection, z - b.height / 2.0), (face, z + b.height / 2.0));
    d.dimension(Side::Below, "bucket.projection", (face, z - b.height / 2.0), (face + b.projection, z + b.height / 2.0));
    d.leader(
        (face + b.projection * 0.5, z + b.spacing - b.height * 0.4),
        subject.say(say!(
            "wall {t}, {bolts} bolts {thread}",
            t = size(b.wall, 1),
            bolts = name(b.bolts.len().to_string()),
            thread = name(b.bolt.map_or("–", |t| t.name))
        )),
        Side::Right,
    );
    let joint = subject.machine.bodies.iter().any(|body| body.id.starts_with("belt_joint"));
    if joint {
        d.leader((face + 5.0, z + b.spacing / 2.0), subject.say(JOINT), Side::Left);
    }
    Some(d)
}

/// What the belt's joint is.
pub const JOINT: &str = "joint of the belt, clamped between two buckets";

/// Beyond every foot, mm.
const WIDE: f64 = 1e5;

fn head_view(subject: &Subject<'_>) -> Draft {
    let foot = subject.foot;
    let head = &foot.pulleys.head;
    let mut d = Draft::new("head", "HEAD").at_scale(ViewScale::Within { width: 130.0, height: 130.0 });
    let centre = Look::Elevation.point(head.centre);
    let r = head.radius() + foot.belt.thickness / 2.0;
    let below = head.centre.z - head.radius() * 1.3;
    // A neighbouring part; the belt there is the neutral line of the path.
    d.circle(Pen::Phantom, centre, head.radius());
    d.centre_cross(centre, r);
    d.arc(Pen::Belt, centre, r, 0.0, 180.0);
    for path in [&foot.belt.lowest] {
        for run in [path.run_leaving(Pulley::Foot), path.run_leaving(Pulley::Head)].into_iter().flatten() {
            let (high, low) = if run.0.y > run.1.y { (run.0, run.1) } else { (run.1, run.0) };
            let share = ((high.y - below) / (high.y - low.y)).clamp(0.0, 1.0);
            d.line(Pen::Belt, high, high + (low - high) * share);
        }
    }
    elevation::break_line(&mut d, centre.x - r - 80.0, centre.x + r + 80.0, below);
    for (tag, at) in tangent_points(&foot.belt.lowest).into_iter().filter(|(t, _)| t.starts_with('H')) {
        d.circle(Pen::FineEdge, at, 14.0);
        d.tag(at, 20.0, tag);
    }
    d.diameter("head_pulley.diameter", centre, head.radius()).prefer(Side::Right);
    d.radius("head_pulley.neutral_radius", centre, (centre.x - r * 0.6, centre.y + r * 0.8)).prefer(Side::Left);
    d
}

fn lengths(subject: &Subject<'_>) -> Table {
    let p = &subject.results.path;
    let mut t = Table::new("lengths", "BELT OVER THE TAKE-UP TRAVEL")
        .column("Quantity", Align::Left, 70.0)
        .column("Lowest", Align::Right, 28.0)
        .column("Middle", Align::Right, 28.0)
        .column("Highest", Align::Right, 28.0);
    type Show = fn(&Subject<'_>, &PathAt) -> String;
    let rows: [(&str, Show); 6] = [
        ("belt length, neutral line", |j, a| j.mm(a.length_mm)),
        ("wrap on foot pulley", |j, a| format!("{}°", j.number(a.foot_wrap_deg, 2))),
        ("wrap on head pulley", |j, a| format!("{}°", j.number(a.head_wrap_deg, 2))),
        ("wrap on bend pulley", |j, a| format!("{}°", j.number(a.bend_wrap_deg, 2))),
        ("lower run to the vertical", |j, a| format!("{}°", j.number(a.foot_run_deg, 2))),
        ("belt length per lowering of the foot, dL/dz", |j, a| j.number(a.length_per_lowering, 4)),
    ];
    for (name, show) in rows {
        if name == "wrap on bend pulley" && subject.foot.pulleys.bend.is_none() {
            continue;
        }
        t.row([subject.say(name), show(subject, &p.lowest), show(subject, &p.middle), show(subject, &p.highest)]);
    }
    t.row([subject.say("taken up by the whole travel"), String::new(), String::new(), subject.mm(p.taken_up_mm)]);
    t.row([
        subject.say("foot shaft to head shaft"),
        subject.mm(subject.foot.pulleys.head.centre.z - subject.foot.shaft_lowest),
        subject.mm(p.shaft_height_mm),
        subject.mm(subject.spec.duty.lift.value.value()),
    ]);
    t
}

fn tangents(subject: &Subject<'_>) -> Table {
    let mut t = Table::new("tangents", "TANGENT POINTS, TAKE-UP LOWEST").column("Tag", Align::Left, 12.0).column("x", Align::Right, 26.0).column(
        "z",
        Align::Right,
        26.0,
    );
    for (tag, at) in tangent_points(&subject.foot.belt.lowest) {
        t.row([tag, subject.mm(at.x), subject.mm(at.y)]);
    }
    t
}

fn clearances(subject: &Subject<'_>) -> Table {
    let c = &subject.results.clearances;
    let mut t = Table::new("clearances", "BUCKET TIP CLEARANCES")
        .column("Take-up", Align::Left, 40.0)
        .column("Bottom", Align::Right, 24.0)
        .column("Up-side end", Align::Right, 28.0)
        .column("Down-side end", Align::Right, 28.0);
    for (name, at) in [("lowest", &c.lowest), ("middle", &c.middle), ("highest", &c.highest)] {
        t.row([subject.say(name), subject.mm(at.bottom_mm), subject.mm(at.up_mm), subject.mm(at.down_mm)]);
    }
    t.row([subject.say("least to side plates"), subject.mm(c.side_mm), String::new(), String::new()]);
    t
}

/// Retained share of the water-level fill against the height of the bucket's bolts above the shaft.
fn retained(subject: &Subject<'_>) -> Option<Draft> {
    let foot = subject.foot;
    let r = subject.results.retained.curves();
    if r.frictionless.is_empty() {
        return None;
    }
    let radius = foot.pulleys.foot.radius() + foot.belt.thickness;
    let sill = foot.inlet(FeedSide::Up).map(|i| i.sill - foot.shaft_lowest);
    let top = (radius * 0.4).max(sill.unwrap_or(0.0) + radius * 0.2);
    let phi = subject.spec.product.internal_friction.value.value();
    let curve = |points: &[Point], name: String, pen: Pen, named_at: f64| {
        let points = points.iter().filter(|p| p.above_shaft_mm <= top).map(|p| [p.share * 100.0, p.above_shaft_mm]);
        Curve { name, points: points.chain([[100.0, top]]).collect(), pen, named_at }
    };
    let mut levels = vec![(0.0, subject.say("foot shaft, take-up lowest"))];
    if let Some(above) = sill.filter(|a| *a > -radius) {
        levels.push((above, subject.say(say!("up-side sill, {above} above the shaft", above = size(above, 1)))));
    }
    let unit = if subject.us() { MM_PER_INCH } else { 1.0 };
    let y = Axis { title: subject.say("height of the bucket above the shaft"), from: -radius, to: top, ticks: Vec::new() }
        .with_round_ticks(8.0, unit, |v| subject.mm(v));
    let x = Axis { title: subject.say("retained share of the water-level fill, %"), from: 0.0, to: 100.0, ticks: Vec::new() }
        .with_round_ticks(5.0, 1.0, |v| subject.number(v, 0));
    let chart = Chart {
        x,
        y,
        curves: vec![
            curve(&r.frictionless, subject.say("without friction"), Pen::Edge, 0.6),
            curve(&r.with_friction, subject.say(say!("with friction, φ = {phi}°", phi = name(subject.number(phi, 0)))), Pen::Hidden, 0.75),
        ],
        levels,
        width: 110.0,
        height: 120.0,
    };
    Some(chart.draft("retained", "WHAT A BUCKET CAN HOLD"))
}

fn notes(subject: &Subject<'_>) -> Notes {
    let mut notes = Notes::numbered(
        "notes",
        [
            subject.say("Radii and tangent points to the belt's neutral line: half the diameter plus half the belt thickness."),
            subject.say("F foot, H head, B bend pulley; 1 where the belt arrives, 2 where it leaves. x from the foot shaft, z from the underside of the base."),
            subject.say("Below the foot shaft a bucket still turns with the pulley and flings back what it is given; from the shaft up it holds its fill. The up-side sill must not lie lower."),
            subject.say("Retained fill: pole construction with circles, with friction logarithmic spirals, about the pole; bucket section as in the spec."),
        ],
    );
    notes.width = 130.0;
    notes
}
