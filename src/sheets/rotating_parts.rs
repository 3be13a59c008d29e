//! Rotating parts: section along the foot shaft, bearing and take-up from two sides and in section, bend pulley.
//!
//! Drawn from the bodies; how shafts and hubs are turned stands on the sheet of the turned parts.

use super::Subject;
use super::views::bodies::{BOLT_HOLES, Picture, Show};
use super::views::seen::{self, Seen};
use super::views::{Look, elevation};
use crate::machine::Material;
use crate::model::Foot;
use crate::model::pulleys::PulleyBody;
use crate::paper::mark::Align;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::table::Table;
use crate::paper::view::{Draft, Side, ViewScale};
use crate::parts::shape::Shape as Form;
use crate::say;
use crate::say::Statement;
use crate::spec::rotating::TakeUpKind;
use crate::tables::threads::{self, Thread};
use crate::units::Force;
use kurbo::Rect;
use std::collections::BTreeSet;

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Foot pulley on its shaft, bearing on its sliding plate, take-up in both end positions.");
    sheet.tolerance = subject.machined_tolerance();
    // Parts of many steels: each has its own in the parts list.
    sheet.material = subject.say("see list");
    sheet.coarsest_scale = 10.0;
    let (mut along, mut front) = (along_the_shaft(subject), take_up(subject));
    let mut bend = subject.foot.pulleys.bend.as_ref().map(|bend| (bend_side(subject, bend), bend_pulley(subject, bend)));
    let mut views = Vec::from([&mut along, &mut front].map(|(draft, seen)| (draft, std::mem::take(seen))));
    views.extend(bend.as_mut().map(|(_, (draft, seen))| (draft, std::mem::take(seen))));
    let mut without: BTreeSet<u32> = views.iter().flat_map(|(_, seen)| seen.iter().map(|s| s.item)).collect();
    seen::balloons(&mut views, &mut without, LEAST_SEEN);
    sheet.view(Placement::Main, subject.face(along.0));
    sheet.view(Placement::Free, subject.face(front.0));
    sheet.view_with_last(subject.face(take_up_section(subject)));
    sheet.view_with_last(subject.face(take_up_side(subject)));
    if let Some((side, section)) = bend {
        sheet.view(Placement::Free, subject.face(side));
        sheet.view_with_last(subject.face(section.0));
    }
    sheet.table(data(subject));
    sheet.note(notes(subject));
    sheet
}

/// Least that a view shows of an item for its balloon, mm² of the machine.
const LEAST_SEEN: f64 = 400.0;

/// Section along the foot shaft, seen from the up side; what is seen of each item.
fn along_the_shaft(subject: &Subject<'_>) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let z = foot.shaft_lowest;
    let p = &foot.pulleys.foot;
    let mut d = Draft::new("shaft_section", say!("SECTION {letters}, ALONG THE FOOT SHAFT", letters = say::name(format!("{ALONG}–{ALONG}"))));
    let (radius, t, b, c) = (p.radius(), foot.belt.thickness, &foot.bucket, &foot.casing);
    let bottom = z - radius - t - b.projection - 40.0;
    let window = Rect::new(-WIDE, bottom, WIDE, z + radius + 60.0);
    let picture = Picture::new(subject.machine, Look::FromUp).cut_at(p.centre.x, 0.0, z).within(window);
    // The lowest row of buckets, which the plane cuts, stands for all.
    let lowest = picture.reach(|p| p.of("bucket"));
    let seen = picture.draw_seen(&mut d, |p| {
        let whole = p.of_any(&WHOLE);
        let bucket = p.of("bucket") && lowest.is_some_and(|(low, _)| p.low.z < low.z + 1.0);
        // What holds the bearings to their plates, no other bolts.
        let beside = f64::midpoint(p.low.z, p.high.z) - z;
        let outside = p.low.y.abs().max(p.high.y.abs()) > c.width.high + c.plate;
        let held = p.of_any(&BOLTS) && outside && beside.abs() < foot.rotating.unit.up / 2.0;
        (whole || bucket || held).then_some(Show::Seen)
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
    (d, seen)
}

/// Bolts with what belongs to them.
const BOLTS: [&str; 3] = ["bolt", "nut", "washer"];

/// What the section along the foot shaft shows beside the lowest row of buckets.
const WHOLE: [&str; 11] = ["foot_pulley", "shaft", "shaft_felt", "key", "collar", "bearing", "bearing_bracket", "sliding_plate", "guide", "side_plate", "belt"];

/// Centre lines of what stands at both sides of the belt's middle on the shaft, so high.
fn middles(foot: &Foot, d: &mut Draft, from_middle: f64, height: f64) {
    for x in [-from_middle, from_middle] {
        d.centre_line((x, foot.shaft_lowest - height / 2.0), (x, foot.shaft_lowest + height / 2.0));
    }
}

/// How far the views along the wall show what lies inside it, mm: nuts of the guides, the shaft broken off.
const INSIDE: f64 = 40.0;

/// How far a break line goes on beside what it breaks off, mm.
const BEYOND: f64 = 8.0;

/// Beyond every foot, mm: windows that do not bound this way.
const WIDE: f64 = 1e5;

/// How the bearing with its take-up is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum From {
    /// From outside the near side.
    Front,
    /// From the up side.
    Side,
    /// Cut through the shaft's axis, from the up side.
    Cut,
}

/// Letter of the section along the foot shaft, of the view from the up side, and of the section along the bend pulley's shaft.
const ALONG: &str = "K";
const FROM_UP: &str = "L";
const ALONG_BEND: &str = "P";

/// Bearing on its sliding plate over the slot, with the take-up, of the near side: lowest position, the highest in phantom.
fn take_up_as(subject: &Subject<'_>, from: From, title: Statement) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let r = &foot.rotating;
    let plate = &r.sliding_plate;
    let id = match from {
        From::Front => "take_up",
        From::Side => "take_up_side",
        From::Cut => "take_up_section",
    };
    let width = if from == From::Front { 150.0 } else { 90.0 };
    // Both positions make it a tall view; smaller, plates and felt run together.
    let mut d = Draft::new(id, title).at_scale(ViewScale::Within { width, height: 310.0 });
    let outside = foot.casing.width.high + foot.casing.plate;
    let rod = r.bracket_z + r.shelf_thickness + 6.0 * r.rod_diameter;
    let top = r.weight_box.map_or(rod, |held| rod.max(held.z.high + r.travel));
    let (low, high) = (plate.z.low - 40.0, top.max(plate.z.high + r.travel) + 20.0);
    let (look, window) = match from {
        From::Front => (Look::Elevation, Rect::new(plate.x.low - 90.0, low, plate.x.high + 90.0, high)),
        // The near side lies on the left.
        From::Side | From::Cut => (Look::FromUp, Rect::new(-r.shaft_ends.high - 30.0, low, INSIDE - foot.casing.width.high, high)),
    };
    let picture = Picture::new(subject.machine, look).within(window);
    let picture = if from == From::Cut { picture.cut_at(0.0, 0.0, foot.shaft_lowest) } else { picture };
    let moving = ["sliding_plate", "shaft_felt", "bearing", "bearing_bracket", "shaft", "rod_lug", "take_up.rod", "weight_box", "weight"];
    // What is bolted on beside the guides is another's.
    let guides = picture.reach(|p| p.of_any(&["guide", "sliding_plate", "bracket"]) && p.high.y > outside);
    let beside = guides.map_or([plate.x.low, plate.x.high], |(low, high)| [low.x, high.x]);
    let seen = picture.draw_seen(&mut d, |p| {
        let outer = p.high.y > outside + 0.1 && (p.of_any(&moving) || p.of_any(&["guide", "bracket", "take_up"]));
        // Those of covers beside the take-up point upward; nuts of the guides lie inside the wall.
        let sideways = p.body.material == Material::Fastener && p.high.y > foot.casing.width.high - INSIDE && p.axis().z.abs() < 0.5;
        let bolt = sideways && p.low.x > beside[0] && p.high.x < beside[1];
        match () {
            // For the slot in it.
            () if p.of("side_plate.near") => Some(if from == From::Front { Show::Behind } else { Show::Seen }),
            () if p.of("sliding_plate") && outer && from == From::Front => Some(Show::Hidden),
            () => (outer || bolt).then_some(Show::Seen),
        }
    });
    picture.axes(&mut d, |p| p.of("shaft") && from == From::Front || p.of("take_up.rod") && p.low.y > 0.0);
    if from != From::Front {
        for z in [foot.shaft_lowest, foot.shaft_highest] {
            d.centre_line((-r.shaft_ends.high, z), (window.x1, z));
        }
    }
    broken_off(foot, &mut d, from, window);
    let highest = Picture::new(subject.machine, look).within(window).phantom(r.travel).without_holes(BOLT_HOLES);
    // The box by an outline of its own: it would swallow that of the plate which it hangs on.
    highest.draw(&mut d, |p| (p.of_any(&moving) && !p.of_any(&["weight_box", "weight"]) && p.high.y > outside).then_some(Show::Seen));
    highest.draw(&mut d, |p| (p.of("weight_box") && p.high.y > outside).then_some(Show::Seen));
    (d, seen)
}

/// Break lines where the window ends wall, shaft and a weight box, which in its highest place may reach beyond it.
fn broken_off(foot: &Foot, d: &mut Draft, from: From, window: Rect) {
    let r = &foot.rotating;
    let held = r.weight_box.map(|b| (b, b.z.high + r.travel > window.y1));
    if from == From::Front {
        if let Some((b, true)) = held {
            elevation::break_line(d, b.x.low - BEYOND, b.x.high + BEYOND, window.y1);
        }
        return;
    }
    let [inside, outside] = [-foot.casing.width.high, -foot.casing.width.high - foot.casing.plate];
    let beyond = held.filter(|(_, beyond)| *beyond).map_or(outside, |(b, _)| window.x0.max(-b.y.high));
    elevation::break_line(d, outside - BEYOND, inside + BEYOND, window.y0);
    elevation::break_line(d, beyond - BEYOND, inside + BEYOND, window.y1);
    let half = r.shaft_diameter / 2.0 + BEYOND;
    elevation::upright_break(d, foot.shaft_lowest - half, foot.shaft_lowest + half, window.x1);
    if let Some((b, _)) = held.filter(|(b, _)| -b.y.high < window.x0) {
        elevation::upright_break(d, b.z.low - BEYOND, (b.z.high + r.travel).min(window.y1), window.x0);
    }
}

/// From outside the near side, with the sizes of slot, plate and bolt pattern; what is seen of each item.
fn take_up(subject: &Subject<'_>) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let r = &foot.rotating;
    let (z, plate) = (foot.shaft_lowest, &r.sliding_plate);
    let (mut d, seen) = take_up_as(subject, From::Front, "BEARING AND TAKE-UP, NEAR SIDE".into());
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
    let half = r.slot_width / 2.0;
    // Where neither bearing nor lug stands before it, and on the open face between the guides.
    d.leader((half, f64::midpoint(z + r.unit.up / 2.0, z + r.travel)), subject.say("slot in the side plate, both sides"), Side::Right);
    d.leader(
        (plate.x.high * 0.6, plate.z.low + (z - r.unit.up / 2.0 - plate.z.low) * 0.25),
        subject.say(say!("sliding plate t = {thickness}, keeps the slot closed over the whole travel", thickness = say::size(plate.thickness, 1))),
        Side::Right,
    );
    d.view_arrow(FROM_UP, (plate.x.high, z - r.unit.up), Side::Right);
    d.cutting_plane(ALONG, (0.0, plate.z.low), (0.0, plate.z.high + r.travel), Side::Left);
    (d, seen)
}

/// From the up side: how far everything stands out.
fn take_up_side(subject: &Subject<'_>) -> Draft {
    let r = &subject.foot.rotating;
    let title = say!("VIEW {letter}, FROM THE UP SIDE", letter = say::name(FROM_UP));
    let (mut d, _) = take_up_as(subject, From::Side, title);
    let wall = -subject.foot.casing.width.high - subject.foot.casing.plate;
    let z = subject.foot.shaft_lowest;
    let half = r.journal / 2.0;
    d.dimension(Side::Below, "shaft.projection", (-r.shaft_ends.high, z - half), (-r.bearing_planes.high, z - half));
    d.dimension(Side::Below, "bearings.plane_from_wall", (-r.bearing_planes.high, z - half), (wall, z - half));
    d.centre_line((-r.bearing_planes.high, z - r.unit.up / 2.0), (-r.bearing_planes.high, z + r.unit.up / 2.0));
    d
}

/// Through the shaft's axis: what the rod holds, how the plate lies on the wall.
fn take_up_section(subject: &Subject<'_>) -> Draft {
    let r = &subject.foot.rotating;
    let (mut d, _) = take_up_as(subject, From::Cut, say!("PART OF SECTION {letters}", letters = say::name(format!("{ALONG}–{ALONG}"))));
    let wall = -subject.foot.casing.width.high - subject.foot.casing.plate;
    d.dimension(Side::Above, "take_up.rod_out", (wall - r.rod_out, r.bracket_z), (wall, r.bracket_z));
    d.dimension(Side::Below, "take_up.plate_thickness", (wall - r.sliding_plate.thickness, r.sliding_plate.z.low), (wall, r.sliding_plate.z.low));
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
    // The lower one on the right.
    if let Some([x, dz]) = unit.bolts.iter().max_by(|a, b| (a[0] - a[1]).total_cmp(&(b[0] - b[1]))) {
        d.leader(
            (*x - base, z + dz),
            subject.say(say!(
                "housing: {bolts} × ⌀{bolt_hole} for {bolt}",
                bolts = say::name(unit.bolts.len().to_string()),
                bolt_hole = say::size(unit.bolt_hole, 1),
                bolt = say::name(threads::find(&unit.bolt).map_or_else(|| unit.bolt.to_string(), Thread::of_bolt))
            )),
            Side::Right,
        );
    }
}

/// The bend pulley's near bearing from outside, the pulley hidden behind it, with the plane of the section.
fn bend_side(subject: &Subject<'_>, bend: &PulleyBody) -> Draft {
    // At the scale of the section, which the shaft's length decides.
    let length =
        subject.parts.part("bend_shaft").and_then(|p| p.shape.as_ref()).map_or(bend.face, |s| if let Form::Shaft(s) = s { s.length() } else { bend.face });
    let width = BEND_WIDTH * (2.0 * bend.radius() / length).min(1.0);
    let mut d = Draft::new("bend_side", "BEND PULLEY AND BEARING, NEAR SIDE").at_scale(ViewScale::Within { width, height: BEND_HEIGHT });
    let picture = Picture::new(subject.machine, Look::Elevation);
    picture.draw(&mut d, |p| match () {
        () if p.of("bend_pulley") => Some(Show::Hidden),
        () => (p.high.y > 0.0 && p.of_any(&["bend_shaft", "bend_bearing", "bend_support"])).then_some(Show::Seen),
    });
    let (x, z, radius) = (bend.centre.x, bend.centre.z, bend.radius());
    d.centre_cross((x, z), radius);
    d.cutting_plane(ALONG_BEND, (x, z - radius), (x, z + radius), Side::Left);
    d
}

/// Largest width and height of the bend pulley's section on paper, mm.
const BEND_WIDTH: f64 = 150.0;
const BEND_HEIGHT: f64 = 110.0;

/// The bend pulley in section along its shaft.
fn bend_pulley(subject: &Subject<'_>, bend: &PulleyBody) -> (Draft, Vec<Seen>) {
    let title = Statement::all(vec![say!("SECTION {letters}", letters = say::name(format!("{ALONG_BEND}–{ALONG_BEND}"))), "BEND PULLEY".into()]);
    let mut d = Draft::new("bend", title).at_scale(ViewScale::Within { width: BEND_WIDTH, height: BEND_HEIGHT });
    let picture = Picture::new(subject.machine, Look::FromUp).cut_at(bend.centre.x, 0.0, 0.0);
    let seen = picture.draw_seen(&mut d, |p| p.of_any(&["bend_pulley", "bend_shaft", "bend_collar", "bend_bearing", "bend_support"]).then_some(Show::Seen));
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
    (d, seen)
}

/// The insert by its series number, an inch one by its bore: the number would name another bore.
fn insert(subject: &Subject<'_>) -> String {
    let r = &subject.foot.rotating;
    let own = say!("bore {bore}, housing size {number}", bore = say::size(r.journal, 4), number = r.unit.number);
    r.unit.insert(r.journal).unwrap_or_else(|| subject.say(own))
}

fn data(subject: &Subject<'_>) -> Table {
    let (s, r) = (subject.spec, &subject.foot.rotating);
    let mut t = Table::new("data", "BEARINGS AND TAKE-UP").column("What", Align::Left, 70.0).column("Value", Align::Left, 60.0);
    let mut row = |what: &'static str, value: String| t.row([subject.say(what), value]);
    row("bearing unit, insert series number", format!("{} / {}", subject.say(s.bearings.kind.value.word()), insert(subject)));
    row("bearings outside the casing", subject.say(if s.bearings.outside.value { "yes" } else { "no; the views show them outside all the same" }));
    row("basic dynamic load rating C", subject.amount::<Force>(s.bearings.rating.value.value(), "kN", "lbf", if subject.us() { 0 } else { 1 }));
    row("wanted life L10h", format!("{} h", subject.number(s.bearings.life.value.value() / 3600.0, 0)));
    row("take-up", subject.say(s.take_up.kind.value.word()));
    row("take-up travel", subject.mm(r.travel));
    row("belt length kept for a new splice", subject.mm(s.take_up.splice.value.value()));
    if let Some([l, w, h]) = r.weight_box.map(|b| b.size()) {
        row("weight boxes, one each side, length × width × height", format!("{} × {} × {}", subject.mm(l), subject.mm(w), subject.mm(h)));
        row("weights in both boxes", subject.mass(s.take_up.weights.value.value()));
        row("gap over the disc of the stop, set anew as the belt stretches", subject.mm(s.take_up.stop_gap.value.value()));
        row("buffer ring of the stop, outer diameter", subject.mm(s.take_up.buffer.value.value()));
    }
    row("foot pulley", subject.say(s.foot_pulley.style.value.word()));
    row("foot pulley without shaft", subject.mass(subject.results.masses.foot_pulley_kg));
    t
}

fn notes(subject: &Subject<'_>) -> Notes {
    let mut notes = Notes::numbered(
        "notes",
        [
            subject.say("Housing sizes from the usual boundary sizes of the 200 and 300 series, from memory; check against the unit that is bought."),
            subject.say("Shafts, hubs and rods: sheet of the turned parts. Mask bearing seats and threads when painting."),
            subject.say("Both bearings move equally: the belt tracks by them."),
        ]
        .into_iter()
        .chain(subject.foot.rotating.holder.stop.map(|stop| {
            subject.say(say!(
                "Stop: set the two nuts over each shelf {gap} above the disc, on both sides alike, and set them anew before half of it is used up. Lock for maintenance: turn the nut under the shelf up against it and the stop's nuts down on the disc.",
                gap = say::mm(stop.gap)
            ))
        })),
    );
    notes.width = 130.0;
    notes
}
