//! Rotating parts: section along the foot shaft, the shaft with its tapped end, bearing and take-up, bend pulley.
//!
//! Drawn from the bodies; the tapped end as its thread is made. Fits after ISO 286 (common practice: h6 in hubs, h7 under
//! insert bearings).

use super::Subject;
use super::views::Look;
use super::views::bodies::{BOLT_HOLES, Picture, Show};
use crate::machine::Material;
use crate::model::Foot;
use crate::model::pulleys::PulleyBody;
use crate::paper::mark::{Align, PlanePoint, Shape};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, Material as Hatch, Side, ViewScale};
use crate::parts::shape::{Shaft, Shape as Form};
use crate::say;
use crate::say::LengthUnit;
use crate::say::Value;
use crate::solid::project::View;
use crate::spec::rotating::{TakeUpKind, TappedEnd};
use crate::tables::keyways::{self, Standard};
use crate::tables::threads::{self, Series};
use crate::units::{Force, MM_PER_INCH, plain_number};
use glam::DVec3;
use kurbo::Rect;

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Foot pulley on its shaft, shaft with tapped end, bearing on its sliding plate, take-up.");
    sheet.tolerance = subject.machined_tolerance();
    sheet.material = subject.spec.shaft.steel.value.clone();
    sheet.coarsest_scale = 10.0;
    sheet.view(Placement::Main, subject.face(along_the_shaft(subject)));
    if let Some(turned) = turned(subject) {
        sheet.view(Placement::Free, subject.face(shaft(subject, turned)));
        if let (Some(key), Some((_, [_, at]))) = (keyways::of_job(subject.spec.us(), subject.foot.rotating.shaft_diameter), turned.keyways) {
            sheet.view_with_last(subject.face(keyway(subject, key, at)));
        }
    }
    if subject.spec.shaft.tapped_end.value != TappedEnd::None {
        sheet.view(Placement::Free, subject.face(tapped_end(subject)));
    }
    sheet.view(Placement::Free, subject.face(take_up(subject)));
    if let Some(bend) = &subject.foot.pulleys.bend {
        sheet.view(Placement::Free, subject.face(bend_pulley(subject, bend)));
    }
    sheet.table(data(subject));
    sheet.note(notes(subject));
    sheet
}

/// Section along the foot shaft, seen from the up side.
fn along_the_shaft(subject: &Subject<'_>) -> Draft {
    let foot = subject.foot;
    let z = foot.shaft_lowest;
    let p = &foot.pulleys.foot;
    let mut d = Draft::new("shaft_section", "SECTION ALONG THE FOOT SHAFT");
    let (radius, t, b, c) = (p.radius(), foot.belt.thickness, &foot.bucket, &foot.casing);
    let bottom = z - radius - t - b.projection - 40.0;
    let window = Rect::new(-WIDE, bottom, WIDE, z + radius + 60.0);
    let picture = Picture::new(subject.machine, Look::FromUp).cut_at(p.centre.x, 0.0, z).within(window);
    // The lowest row of buckets that the cut leaves stands for all.
    let lowest = picture.reach(|p| p.of("bucket") && p.low.x < 0.0 && p.high.z < z);
    picture.draw(&mut d, |p| {
        let whole = p.of_any(&["foot_pulley", "shaft", "key", "bearing", "bearing_bracket", "sliding_plate", "guide", "side_plate", "belt"]);
        let bucket = p.of("bucket") && lowest.is_some_and(|(low, _)| p.low.x < 0.0 && p.low.z < low.z + 1.0);
        (whole || bucket).then_some(Show::Seen)
    });
    picture.axes(&mut d, |p| p.of("shaft"));
    middles(foot, &mut d, foot.pulleys.hub_spacing / 2.0, foot.rotating.shaft_diameter);
    middles(foot, &mut d, foot.rotating.bearing_planes.high, foot.rotating.unit.up);
    let look = Look::FromUp;
    look.each(&mut d, foot, Side::Below, &["belt.width", "casing.width"]);
    look.each(&mut d, foot, Side::Above, &["foot_pulley.hub_spacing", "foot_pulley.face", "shaft.bearing_centres"]);
    d.dimension(Side::Left, "foot_pulley.diameter", (-p.face / 2.0, z - radius), (-p.face / 2.0, z + radius)).prefix("⌀");
    let inner = p.face.max(foot.belt.width).max(b.overall_length) / 2.0;
    d.dimension(Side::Below, "casing.side_clearance", (inner, bottom), (c.width.high, bottom));
    let edge = -foot.belt.width / 2.0;
    d.dimension(Side::Left, "belt.thickness", (edge, z - radius - t), (edge, z - radius));
    let first = -b.overall_length / 2.0;
    d.dimension(Side::Below, "bucket.length", (first, bottom), (first + b.length, bottom));
    if b.rows > 1 {
        let gap = (b.overall_length - b.length) / f64::from(b.rows - 1);
        let first = -b.overall_length / 2.0 + b.length;
        d.dimension(Side::Below, "bucket.row_gap", (first, z - radius - t - b.projection), (first + gap - b.length, z - radius - t - b.projection));
    }
    d
}

/// Centre lines of what stands at both sides of the belt's middle on the shaft, so high.
fn middles(foot: &Foot, d: &mut Draft, from_middle: f64, height: f64) {
    for x in [-from_middle, from_middle] {
        d.centre_line((x, foot.shaft_lowest - height / 2.0), (x, foot.shaft_lowest + height / 2.0));
    }
}

/// How far the guides reach beside the sliding plate at most, mm.
const GUIDES: f64 = 60.0;

/// Beyond every foot, mm: windows that do not bound this way.
const WIDE: f64 = 1e5;

/// The foot shaft as it is turned.
fn turned<'a>(subject: &Subject<'a>) -> Option<&'a Shaft> {
    match subject.parts.part("shaft")?.shape.as_ref()? {
        Form::Shaft(shaft) => Some(shaft),
        _ => None,
    }
}

/// The foot shaft from above, its far end on the right as in the section along it: the keyways face the viewer.
const FROM_THE_KEYWAYS: View = View { right: DVec3::NEG_Y, up: DVec3::NEG_X, toward: DVec3::Z };
/// The same turned about its upright, seen from its far end: the keyways open to the left.
const FROM_THE_FAR_END: View = View { right: DVec3::NEG_Z, up: DVec3::NEG_X, toward: DVec3::NEG_Y };

/// The shaft alone, with its seats.
fn shaft(subject: &Subject<'_>, shaft: &Shaft) -> Draft {
    let r = &subject.foot.rotating;
    let mut d = Draft::new("shaft", "FOOT SHAFT").at_scale(ViewScale::Within { width: 280.0, height: 80.0 });
    let picture = Picture::toward(subject.machine, FROM_THE_KEYWAYS);
    picture.draw(&mut d, |p| p.of("shaft").then_some(Show::Hidden));
    picture.axes(&mut d, |p| p.of("shaft"));
    // Near side on the left.
    let (near, far) = (-r.shaft_ends.high, -r.shaft_ends.low);
    let body = shaft.seats.iter().find(|s| s.diameter > r.journal + 0.1).map_or((near, far), |s| (-s.to, -s.from));
    if body != (near, far) {
        d.dimension(Side::Below, "shaft.seat_length", (near, -r.journal / 2.0), (body.0, -r.journal / 2.0)).chain("seats");
        d.dimension(Side::Below, "shaft.body_length", (body.0, -r.shaft_diameter / 2.0), (body.1, -r.shaft_diameter / 2.0)).chain("seats");
    }
    d.dimension(Side::Above, "shaft.projection", (near, r.journal / 2.0), (-r.bearing_planes.high, r.journal / 2.0));
    d.dimension(Side::Above, "shaft.length", (near, r.journal / 2.0), (far, r.journal / 2.0)).overall();
    if let (Some(k), Some((way, middles))) = (keyways::of_job(subject.spec.us(), r.shaft_diameter), shaft.keyways) {
        let [first, at] = middles;
        let (half, long) = (way.width / 2.0, way.length / 2.0);
        for x in middles {
            d.centre_line((x, -half - 6.0), (x, half + 6.0));
        }
        d.dimension(Side::Above, "shaft.keyway.length", (at - long, half), (at + long, half));
        d.dimension(Side::Above, "shaft.keyway.spacing", (first, half), (at, half));
        d.leader(
            (at - long + half, half * 0.5),
            subject.say(say!(
                "2 keyways at the hubs, in line, {standard}",
                standard = match k.standard {
                    Standard::Din6885 => Value::from("DIN 6885-1 form A"),
                    Standard::AsmeB171 => say::name(k.standard.name()),
                }
            )),
            Side::Right,
        );
        d.cutting_plane(KEYWAY_SECTION, (at, -r.shaft_diameter / 2.0), (at, r.shaft_diameter / 2.0), Side::Left);
    }
    for x in [-r.bearing_planes.high, r.bearing_planes.high] {
        d.centre_line((x, -r.journal / 2.0 - 8.0), (x, r.journal / 2.0 + 8.0));
    }
    d.dimension(Side::Right, "shaft.journal", (far, -r.journal / 2.0), (far, r.journal / 2.0)).prefix("⌀").suffix(" h7");
    d.dimension(Side::Left, "shaft.diameter", (body.0, -r.shaft_diameter / 2.0), (body.0, r.shaft_diameter / 2.0)).prefix("⌀").suffix(" h6");
    let reach = subject.spec.shaft.drill_depth.value.value() * 0.6;
    if matches!(subject.spec.shaft.tapped_end.value, TappedEnd::Near | TappedEnd::Both) {
        d.detail_circle("X", (near + reach * 0.5, 0.0), reach);
    }
    if matches!(subject.spec.shaft.tapped_end.value, TappedEnd::Far | TappedEnd::Both) {
        d.detail_circle("X", (far - reach * 0.5, 0.0), reach);
    }
    let steel = subject.say(say!("steel {steel}", steel = say::name(subject.spec.shaft.steel.value.as_str())));
    d.leader((body.1 * 0.6, -r.shaft_diameter / 4.0), steel, Side::Right);
    d
}

/// Letter of the section through a keyway; A to C are those of the arrangement and the inlets.
const KEYWAY_SECTION: &str = "D";

/// The shaft cut through a keyway, seen toward the left end: the keyway, which faces the viewer of the shaft, opens to the left.
fn keyway(subject: &Subject<'_>, key: &keyways::Key, at: f64) -> Draft {
    let mut d = Draft::new("keyway", say!("SECTION {letters}", letters = say::name(format!("{KEYWAY_SECTION}–{KEYWAY_SECTION}"))))
        .at_scale(ViewScale::Within { width: 45.0, height: 45.0 });
    // The view's right is down in the machine.
    let centre = -subject.foot.shaft_lowest;
    let picture = Picture::toward(subject.machine, FROM_THE_FAR_END).cut_at(0.0, -at, 0.0);
    picture.draw(&mut d, |p| p.of("shaft").then_some(Show::Seen));
    let radius = subject.foot.rotating.shaft_diameter / 2.0;
    let (half, floor) = (key.width_mm / 2.0, radius - key.shaft_depth_mm);
    let brim = (radius * radius - half * half).sqrt();
    d.centre_cross((centre, 0.0), radius);
    // A metric key on inch sheets keeps its own size beside the rounded inches.
    let metric = key.standard == Standard::Din6885;
    let own = |mm: f64| if subject.us() && metric { format!(" ({} mm)", plain_number(mm, 1)) } else { String::new() };
    let fit = if metric { " P9" } else { "" };
    d.dimension(Side::Left, "shaft.keyway.width", (centre - brim, -half), (centre - brim, half)).suffix(format!("{}{fit}", own(key.width_mm)));
    d.dimension(Side::Above, "shaft.keyway.depth", (centre - radius, 0.0), (centre - floor, half)).suffix(own(key.shaft_depth_mm));
    d
}

/// The tapped shaft end, enlarged, in section; the end face lies at x = 0 and the shaft at x > 0.
fn tapped_end(subject: &Subject<'_>) -> Draft {
    let s = &subject.spec.shaft;
    let name = s.thread.value.as_str();
    let thread = threads::find(name);
    let major = thread.map_or(20.0, |t| t.diameter_mm);
    let drill = thread.map_or(major * 0.85, |t| t.tap_drill_mm);
    let (depth, hole) = (s.thread_depth.value.value(), s.drill_depth.value.value());
    let half = subject.foot.rotating.journal / 2.0;
    let mut d = Draft::new("tapped_end", say!("DETAIL {letter}", letter = say::name("X"))).at_scale(ViewScale::Within { width: 90.0, height: 80.0 });
    let end = hole * 1.35;
    // Countersink to 120°, a little over the thread; point of the drill 118°.
    let sink = major * 0.53;
    let bevel = (sink - drill / 2.0) / 60.0_f64.to_radians().tan();
    let point = drill / 2.0 / 59.0_f64.to_radians().tan();
    let solid = |sign: f64| {
        Shape::polygon(
            [(0.0, sink), (bevel, drill / 2.0), (hole, drill / 2.0), (hole + point, 0.0), (end, 0.0), (end, half), (2.0, half), (0.0, half - 2.0)]
                .map(|(x, y)| PlanePoint::new(x, sign * y)),
        )
    };
    let bore = |sign: f64| [(0.0, sink), (bevel, drill / 2.0), (hole, drill / 2.0), (hole + point, 0.0)].map(|(x, y)| (x, sign * y));
    for sign in [1.0, -1.0] {
        d.hatch(Hatch::Metal, vec![solid(sign)]);
        d.polyline(Pen::Edge, bore(sign));
        d.polyline(Pen::Edge, [(0.0, sign * sink), (0.0, sign * (half - 2.0)), (2.0, sign * half), (end, sign * half)]);
        d.line(Pen::FineEdge, (bevel * 0.3, sign * major / 2.0), (depth, sign * major / 2.0));
    }
    d.line(Pen::Edge, (bevel, -drill / 2.0), (bevel, drill / 2.0));
    d.line(Pen::Edge, (depth, -major / 2.0), (depth, major / 2.0));
    d.line(Pen::Edge, (hole, -drill / 2.0), (hole, drill / 2.0));
    d.polyline(Pen::FineEdge, [(end, -half), (end + 3.0, -half * 0.5), (end - 3.0, half * 0.3), (end, half)]);
    d.centre_line((0.0, 0.0), (end, 0.0));
    d.dimension(Side::Below, "shaft.thread_depth", (0.0, -half), (depth, -major / 2.0));
    d.dimension(Side::Below, "shaft.drill_depth", (0.0, -half), (hole, -drill / 2.0));
    d.dimension(Side::Left, "shaft.thread", (0.0, -major / 2.0), (0.0, major / 2.0))
        .prefix(if name.starts_with('M') && subject.style().unit == LengthUnit::Mm { "M" } else { "⌀" });
    d.dimension(Side::Right, "shaft.tap_drill", (hole, -drill / 2.0), (hole, drill / 2.0)).prefix("⌀");
    let words = if thread.is_some_and(|t| t.series == Series::Unc) {
        subject.say(say!("{name} for the motion sensor's target; centre hole 60°, countersunk 120°", name = say::name(name)))
    } else {
        subject.say(say!("{name} for the motion sensor's target; centre hole 60° after DIN 332-2 form D, countersunk 120°", name = say::name(name)))
    };
    d.leader((bevel * 0.5, sink * 0.96), words, Side::Right);
    d
}

/// Bearing on its sliding plate over the slot, with the take-up, seen from outside the near side.
fn take_up(subject: &Subject<'_>) -> Draft {
    let foot = subject.foot;
    let r = &foot.rotating;
    let z = foot.shaft_lowest;
    let plate = &r.sliding_plate;
    let mut d = Draft::new("take_up", "BEARING AND TAKE-UP, NEAR SIDE").at_scale(ViewScale::Within { width: 170.0, height: 190.0 });
    let half = r.slot_width / 2.0;
    let outside = foot.casing.width.high + foot.casing.plate;
    let top = if r.take_up == TakeUpKind::Screw { r.bracket_z + r.shelf_thickness + 6.0 * r.rod_diameter } else { plate.z.high + r.travel };
    let window = Rect::new(plate.x.low - 90.0, plate.z.low - 40.0, plate.x.high + 90.0, top.max(plate.z.high + r.travel) + 20.0);
    let picture = Picture::new(subject.machine, Look::Elevation).within(window);
    picture.draw(&mut d, |p| {
        let outer = p.high.y > outside + 0.1 && p.of_any(&["sliding_plate", "guide", "bearing", "bearing_bracket", "shaft", "rod_lug", "bracket", "take_up"]);
        // Those of covers beside the take-up point upward.
        let sideways = p.body.material == Material::Fastener && p.high.y > outside && p.axis().z.abs() < 0.5;
        let bolt = sideways && p.low.x > plate.x.low - GUIDES && p.high.x < plate.x.high + GUIDES;
        match () {
            // For the slot in it.
            () if p.of("side_plate.near") => Some(Show::Behind),
            () if p.of("sliding_plate") && outer => Some(Show::Hidden),
            () => (outer || bolt).then_some(Show::Seen),
        }
    });
    picture.axes(&mut d, |p| p.of("shaft") || p.of("take_up.rod") && p.low.y > 0.0);
    picture.phantom(r.travel).without_holes(BOLT_HOLES).draw(&mut d, |p| (p.of_any(&["sliding_plate", "shaft"]) && p.high.y > outside).then_some(Show::Seen));
    d.centre_cross((0.0, z + r.travel), r.journal / 2.0);
    if r.take_up == TakeUpKind::Screw {
        let rod = r.rod_diameter / 2.0;
        d.leader(
            (rod, plate.z.high + r.travel * 0.4),
            subject.say(say!(
                "take-up rod {rod}, {action}; one each side, turned alike",
                rod = say::name(subject.spec.take_up.rod.value.as_str()),
                action = subject.spec.take_up.action.value.word()
            )),
            Side::Right,
        );
    }
    let look = Look::Elevation;
    look.each(&mut d, foot, Side::Below, &["take_up.slot_width", "take_up.plate_width"]);
    look.each(&mut d, foot, Side::Left, &["take_up.travel", "take_up.slot", "take_up.plate_height"]);
    bolt_pattern(subject, &mut d, z);
    d.leader((half * 0.7, r.slot.high - half * 0.3), subject.say("slot in the side plate, both sides"), Side::Right);
    d.leader(
        (plate.x.high, plate.z.low + 10.0),
        subject.say(say!("sliding plate t = {thickness}, keeps the slot closed over the whole travel", thickness = say::size(plate.thickness, 1))),
        Side::Right,
    );
    d
}

fn bolt_pattern(subject: &Subject<'_>, d: &mut Draft, z: f64) {
    let unit = &subject.foot.rotating.unit;
    // A block stands beside the shaft: its bolts lie along its base.
    let base = match subject.parts.part("bearing").and_then(|p| p.shape.as_ref()) {
        Some(Form::Unit(u)) => u.height,
        _ => 0.0,
    };
    let xs = unit.bolts.iter().map(|b| b[0] - base);
    let zs = unit.bolts.iter().map(|b| b[1]);
    let (x0, x1) = (xs.clone().fold(f64::INFINITY, f64::min), xs.fold(f64::NEG_INFINITY, f64::max));
    let (z0, z1) = (zs.clone().fold(f64::INFINITY, f64::min), zs.fold(f64::NEG_INFINITY, f64::max));
    if x1 - x0 > 1.0 {
        d.dimension(Side::Above, "bearings.bolts_across", (x0, z + z1), (x1, z + z1));
    }
    if z1 - z0 > 1.0 {
        d.dimension(Side::Right, "bearings.bolts_up", (x1, z + z0), (x1, z + z1));
    }
    if let Some([x, dz]) = unit.bolts.last() {
        d.leader(
            (*x - base, z + dz),
            subject.say(say!(
                "{bolts} × ⌀{bolt_hole} for {bolt}",
                bolts = say::name(unit.bolts.len().to_string()),
                bolt_hole = say::size(unit.bolt_hole, 1),
                bolt = say::name(unit.bolt.as_str())
            )),
            Side::Right,
        );
    }
}

/// The bend pulley in section along its shaft.
fn bend_pulley(subject: &Subject<'_>, bend: &PulleyBody) -> Draft {
    let mut d = Draft::new("bend", "BEND PULLEY").at_scale(ViewScale::Within { width: 150.0, height: 110.0 });
    let picture = Picture::new(subject.machine, Look::FromUp).cut_at(bend.centre.x, 0.0, 0.0);
    picture.draw(&mut d, |p| p.of_any(&["bend_pulley", "bend_shaft"]).then_some(Show::Seen));
    picture.axes(&mut d, |p| p.of("bend_shaft"));
    let (z, half, shaft) = (bend.centre.z, bend.face / 2.0, subject.spec.bend_pulley.shaft.value());
    let (low, high) = (z - bend.radius(), z + bend.radius());
    d.dimension(Side::Above, "bend_pulley.face", (-half, high), (half, high));
    d.dimension(Side::Left, "bend_pulley.diameter", (-half, low), (-half, high)).prefix("⌀");
    let end = match subject.parts.part("bend_shaft").and_then(|p| p.shape.as_ref()) {
        Some(Form::Shaft(s)) => s.length() / 2.0,
        _ => half,
    };
    d.dimension(Side::Right, "bend_pulley.shaft", (end, z - shaft / 2.0), (end, z + shaft / 2.0)).prefix("⌀");
    d
}

fn data(subject: &Subject<'_>) -> Table {
    let (s, r) = (subject.spec, &subject.foot.rotating);
    let mut t = Table::new("data", "BEARINGS AND TAKE-UP").column("What", Align::Left, 70.0).column("Value", Align::Left, 60.0);
    let mut row = |what: &'static str, value: String| t.row([subject.say(what), value]);
    row("bearing unit, insert series number", format!("{} / UC {}", subject.say(s.bearings.kind.value.word()), r.unit.number));
    row("bearings outside the casing", subject.say(if s.bearings.outside.value { "yes" } else { "no" }));
    row("basic dynamic load rating C", subject.amount::<Force>(s.bearings.rating.value.value(), "kN", "lbf", if subject.us() { 0 } else { 1 }));
    row("wanted life L10h", format!("{} h", subject.number(s.bearings.life.value.value() / 3600.0, 0)));
    row("take-up", subject.say(s.take_up.kind.value.word()));
    row("take-up travel", subject.mm(r.travel));
    row("of it kept for a new splice", subject.mm(s.take_up.splice.value.value()));
    if let Some([l, w, h]) = r.weight_box.map(|b| b.size()) {
        row("weight boxes, one each side, length × width × height", format!("{} × {} × {}", subject.mm(l), subject.mm(w), subject.mm(h)));
        row("weights in both boxes", subject.mass(s.take_up.weights.value.value()));
    }
    row("foot pulley", subject.say(s.foot_pulley.style.value.word()));
    row("foot pulley without shaft", subject.mass(s.foot_pulley.mass.value.value()));
    t
}

fn notes(subject: &Subject<'_>) -> Notes {
    let mut notes = Notes::numbered(
        "notes",
        [
            subject.say("Housing sizes from the usual boundary sizes of the 200 series, from memory; check against the unit that is bought."),
            if subject.us() {
                let (edge, radius) = (subject.mm(MM_PER_INCH / 64.0), subject.mm(MM_PER_INCH / 32.0));
                subject.say(say!(
                    "Break sharp edges {edge} × 45°. Shaft shoulders with radius R {radius}. Mask bearing seats and threads when painting.",
                    edge = say::name(edge),
                    radius = say::name(radius)
                ))
            } else {
                subject.say("Break sharp edges 0.5 × 45°. Shaft shoulders with radius R1. Mask bearing seats and threads when painting.")
            },
            subject.say("Both bearings move equally: the belt tracks by them."),
        ],
    );
    notes.width = 130.0;
    notes
}
