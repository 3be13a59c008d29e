//! Rotating parts: section along the foot shaft, the shaft with its tapped end, bearing and take-up, bend pulley.
//!
//! Rim, disc and hub of the pulleys are drawn in usual proportions unless the spec gives them; the shaft's
//! shoulder stands where the bearing's inner ring ends. Fits after ISO 286 (common practice: h6 in hubs,
//! h7 under insert bearings).

use super::Subject;
use super::views::{Look, pulley};
use crate::model::frame::Extent;
use crate::model::pulleys::PulleyBody;
use crate::paper::mark::{Align, PlanePoint, Shape, Vertex};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, Material, Side, ViewScale, rectangle};
use crate::parts::pulleys::hub_length;
use crate::parts::shape;
use crate::say;
use crate::say::LengthUnit;
use crate::say::Value;
use crate::spec::rotating::{BearingKind, TakeUpKind, TappedEnd};
use crate::tables::keyways::{self, Standard};
use crate::tables::threads::{self, Series};
use crate::units::{Force, MM_PER_INCH, plain_number};

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Foot pulley on its shaft, shaft with tapped end, bearing on its sliding plate, take-up.");
    sheet.tolerance = subject.machined_tolerance();
    sheet.material = subject.spec.shaft.steel.value.clone();
    sheet.coarsest_scale = 10.0;
    sheet.view(Placement::Main, subject.face(along_the_shaft(subject)));
    sheet.view(Placement::Free, subject.face(shaft(subject)));
    if let Some(key) = keyways::of_job(subject.spec.us(), subject.foot.rotating.shaft_diameter) {
        sheet.view_with_last(subject.face(keyway(subject, key)));
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

fn quad(d: &mut Draft, material: Option<Material>, x: Extent, z: Extent) {
    let shape = rectangle(PlanePoint::new(x.low, z.low), PlanePoint::new(x.high, z.high));
    if let Some(m) = material {
        d.hatch(m, vec![shape.clone()]);
    }
    d.stroke(Pen::Edge, shape);
}

/// A drum in section along its axis, about (0, z): rim, two discs with hubs, shaft left whole.
fn drum(d: &mut Draft, z: f64, p: &PulleyBody, hubs: f64, shaft: f64) {
    let (r, rim) = (p.radius(), pulley::rim(p.diameter));
    let face = Extent::about(0.0, p.face);
    for side in [1.0, -1.0] {
        quad(d, Some(Material::Metal), face, Extent::new(z + side * (r - rim), z + side * r));
        for flank in [1.0, -1.0] {
            let disc = Extent::about(flank * hubs / 2.0, rim.max(8.0));
            let hub = Extent::about(flank * hubs / 2.0, shaft * 0.9);
            quad(d, Some(Material::MetalOther), hub, Extent::new(z + side * shaft / 2.0, z + side * pulley::hub(shaft) / 2.0));
            quad(d, Some(Material::Metal), disc, Extent::new(z + side * pulley::hub(shaft) / 2.0, z + side * (r - rim)));
        }
    }
}

/// Section along the foot shaft, seen from the up side.
fn along_the_shaft(subject: &Subject<'_>) -> Draft {
    let foot = subject.foot;
    let r = &foot.rotating;
    let z = foot.shaft_lowest;
    let p = &foot.pulleys.foot;
    let mut d = Draft::new("shaft_section", "SECTION ALONG THE FOOT SHAFT");
    drum(&mut d, z, p, foot.pulleys.hub_spacing, r.shaft_diameter);
    let (radius, t) = (p.radius(), foot.belt.thickness);
    let belt = Extent::about(0.0, foot.belt.width);
    quad(&mut d, Some(Material::Belt), belt, Extent::new(z - radius - t, z - radius));
    let b = &foot.bucket;
    let gap = if b.rows > 1 { (b.overall_length - b.length) / f64::from(b.rows - 1) } else { 0.0 };
    for row in 0..b.rows {
        let low = -b.overall_length / 2.0 + f64::from(row) * gap;
        d.rectangle(Pen::Bucket, (low, z - radius - t), (low + b.length, z - radius - t - b.projection));
    }
    let c = &foot.casing;
    let bottom = z - radius - t - b.projection - 40.0;
    let top = z + radius + 60.0;
    let half = r.slot_width / 2.0;
    let plate = &r.sliding_plate;
    for flank in [1.0, -1.0] {
        let wall = Extent::new(flank * c.width.high, flank * (c.width.high + c.plate));
        for part in [Extent::new(bottom, r.slot.low), Extent::new(r.slot.high, top)] {
            if part.high > part.low + 1.0 && part.low < top {
                quad(&mut d, Some(Material::Metal), wall, Extent::new(part.low.min(part.high), part.high.min(top).max(part.low)));
            }
        }
        let outside = c.width.high + c.plate;
        let on_plate = outside + plate.thickness;
        let slide = Extent::new(flank * outside, flank * on_plate);
        for part in [Extent::new(plate.z.low, z - half), Extent::new(z + half, plate.z.high)] {
            quad(&mut d, Some(Material::MetalOther), slide, part);
        }
        let base = Extent::new(flank * on_plate, flank * (on_plate + r.unit.depth * 0.25));
        let body = Extent::new(flank * (on_plate + r.unit.depth * 0.25), flank * (on_plate + r.unit.depth));
        d.rectangle(Pen::Edge, (base.low, z - r.unit.up / 2.0), (base.high, z + r.unit.up / 2.0));
        d.rectangle(Pen::Edge, (body.low, z - r.unit.up * 0.3), (body.high, z + r.unit.up * 0.3));
    }
    shaft_outline(subject, &mut d, z);
    d.centre_line((-r.shaft_ends.high, z), (-r.shaft_ends.low, z));
    let look = Look::FromUp;
    look.each(&mut d, foot, Side::Below, &["bucket.length", "belt.width", "casing.width"]);
    look.each(&mut d, foot, Side::Above, &["foot_pulley.hub_spacing", "foot_pulley.face", "shaft.bearing_centres"]);
    d.dimension(Side::Left, "foot_pulley.diameter", (-p.face / 2.0, z - radius), (-p.face / 2.0, z + radius)).prefix("⌀");
    let inner = p.face.max(foot.belt.width).max(b.overall_length) / 2.0;
    d.dimension(Side::Below, "casing.side_clearance", (inner, bottom), (c.width.high, bottom));
    d.dimension(Side::Left, "belt.thickness", (-belt.high, z - radius - t), (-belt.high, z - radius));
    if b.rows > 1 {
        let first = -b.overall_length / 2.0 + b.length;
        d.dimension(Side::Below, "bucket.row_gap", (first, z - radius - t - b.projection), (first + gap - b.length, z - radius - t - b.projection));
    }
    d
}

/// Half the length of the thick middle of the shaft as it is turned; of a shaft of one diameter, all but its chamfers.
fn shoulder(subject: &Subject<'_>) -> f64 {
    let whole = subject.foot.rotating.shaft_ends.high - 2.0 * CHAMFER;
    match subject.parts.part("shaft").and_then(|part| part.shape.as_ref()) {
        Some(shape::Shape::Shaft(shaft)) => shaft.seats.iter().map(|seat| seat.from).fold(1.0, f64::max).min(whole),
        _ => whole,
    }
}

/// Chamfer of a shaft end, mm.
const CHAMFER: f64 = 2.0;

fn shaft_outline(subject: &Subject<'_>, d: &mut Draft, z: f64) {
    let r = &subject.foot.rotating;
    let (big, small) = (r.shaft_diameter / 2.0, r.journal / 2.0);
    let (s, e) = (shoulder(subject), r.shaft_ends.high);
    let chamfer = CHAMFER;
    let upper = [(-e, small - chamfer), (-e + chamfer, small), (-s, small), (-s, big), (s, big), (s, small), (e - chamfer, small), (e, small - chamfer)];
    let mut all: Vec<(f64, f64)> = upper.iter().map(|(x, y)| (*x, z + y)).collect();
    all.extend(upper.iter().rev().map(|(x, y)| (*x, z - y)));
    d.polygon(Pen::Edge, all);
    if big > small + 0.1 {
        for x in [-s, s] {
            d.line(Pen::Edge, (x, z - small), (x, z + small));
        }
    }
}

/// The shaft alone, with its seats.
fn shaft(subject: &Subject<'_>) -> Draft {
    let r = &subject.foot.rotating;
    let mut d = Draft::new("shaft", "FOOT SHAFT").at_scale(ViewScale::Within { width: 280.0, height: 80.0 });
    shaft_outline(subject, &mut d, 0.0);
    let (s, e) = (shoulder(subject), r.shaft_ends.high);
    d.centre_line((-e, 0.0), (e, 0.0));
    // Near side on the left, as in the section.
    if r.shaft_diameter > r.journal + 0.1 {
        d.dimension(Side::Below, "shaft.seat_length", (-e, -r.journal / 2.0), (-s, -r.journal / 2.0)).chain("seats");
        d.dimension(Side::Below, "shaft.body_length", (-s, -r.shaft_diameter / 2.0), (s, -r.shaft_diameter / 2.0)).chain("seats");
    }
    d.dimension(Side::Above, "shaft.projection", (-e, r.journal / 2.0), (-r.bearing_planes.high, r.journal / 2.0));
    d.dimension(Side::Above, "shaft.length", (-e, r.journal / 2.0), (e, r.journal / 2.0)).overall();
    if let Some(k) = keyways::of_job(subject.spec.us(), r.shaft_diameter) {
        let at = subject.foot.pulleys.hub_spacing / 2.0;
        let (half, long) = (k.width_mm / 2.0, hub_length(subject.spec.stock(), r.shaft_diameter) / 2.0);
        for x in [-at, at] {
            keyway_outline(&mut d, x, half, long);
        }
        d.dimension(Side::Above, "shaft.keyway.length", (at - long, half), (at + long, half));
        d.dimension(Side::Above, "shaft.keyway.spacing", (-at, half), (at, half));
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
    d.dimension(Side::Right, "shaft.journal", (e, -r.journal / 2.0), (e, r.journal / 2.0)).prefix("⌀").suffix(" h7");
    d.dimension(Side::Left, "shaft.diameter", (-s, -r.shaft_diameter / 2.0), (-s, r.shaft_diameter / 2.0)).prefix("⌀").suffix(" h6");
    let reach = subject.spec.shaft.drill_depth.value.value() * 0.6;
    if matches!(subject.spec.shaft.tapped_end.value, TappedEnd::Near | TappedEnd::Both) {
        d.detail_circle("X", (-e + reach * 0.5, 0.0), reach);
    }
    if matches!(subject.spec.shaft.tapped_end.value, TappedEnd::Far | TappedEnd::Both) {
        d.detail_circle("X", (e - reach * 0.5, 0.0), reach);
    }
    d.leader((s * 0.6, -r.shaft_diameter / 4.0), subject.say(say!("steel {steel}", steel = say::name(subject.spec.shaft.steel.value.as_str()))), Side::Right);
    d
}

/// Letter of the section through a keyway; A to C are those of the arrangement and the inlets.
const KEYWAY_SECTION: &str = "D";

/// A keyway with round ends (form A) as it faces the viewer.
fn keyway_outline(d: &mut Draft, x: f64, half: f64, long: f64) {
    for v in [half, -half] {
        d.line(Pen::Edge, (x - long + half, v), (x + long - half, v));
    }
    d.arc(Pen::Edge, (x - long + half, 0.0), half, 90.0, 180.0);
    d.arc(Pen::Edge, (x + long - half, 0.0), half, -90.0, 180.0);
    d.centre_line((x, -half - 6.0), (x, half + 6.0));
}

/// The shaft cut through a keyway, seen toward the left end: the keyway, which faces the viewer of the shaft, opens to the left.
fn keyway(subject: &Subject<'_>, key: &keyways::Key) -> Draft {
    let mut d = Draft::new("keyway", say!("SECTION {letters}", letters = say::name(format!("{KEYWAY_SECTION}–{KEYWAY_SECTION}"))))
        .at_scale(ViewScale::Within { width: 45.0, height: 45.0 });
    let radius = subject.foot.rotating.shaft_diameter / 2.0;
    let (half, floor) = (key.width_mm / 2.0, radius - key.shaft_depth_mm);
    let brim = (radius * radius - half * half).sqrt();
    // From the upper brim clockwise round to the lower one, then into the keyway.
    let sweep = std::f64::consts::TAU - 2.0 * (half / radius).asin();
    let corner = |x: f64, y: f64, bulge: f64| Vertex { at: PlanePoint::new(x, y), bulge };
    let vertices = vec![corner(-brim, half, -(sweep / 4.0).tan()), corner(-brim, -half, 0.0), corner(-floor, -half, 0.0), corner(-floor, half, 0.0)];
    let outline = Shape::Polyline { vertices, closed: true };
    d.hatch(Material::Metal, vec![outline.clone()]);
    d.stroke(Pen::Edge, outline);
    d.centre_cross((0.0, 0.0), radius);
    // A metric key on inch sheets keeps its own size beside the rounded inches.
    let metric = key.standard == Standard::Din6885;
    let own = |mm: f64| if subject.us() && metric { format!(" ({} mm)", plain_number(mm, 1)) } else { String::new() };
    let fit = if metric { " P9" } else { "" };
    d.dimension(Side::Left, "shaft.keyway.width", (-brim, -half), (-brim, half)).suffix(format!("{}{fit}", own(key.width_mm)));
    d.dimension(Side::Above, "shaft.keyway.depth", (-radius, 0.0), (-floor, half)).suffix(own(key.shaft_depth_mm));
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
        d.hatch(Material::Metal, vec![solid(sign)]);
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
    d.rectangle(Pen::Edge, (plate.x.low, plate.z.low), (plate.x.high, plate.z.high));
    let half = r.slot_width / 2.0;
    slot(&mut d, Pen::Hidden, half, r.slot);
    match r.unit.kind {
        BearingKind::FourBoltFlange | BearingKind::TakeUpFrame => {
            d.rectangle(Pen::Edge, (-r.unit.across / 2.0, z - r.unit.up / 2.0), (r.unit.across / 2.0, z + r.unit.up / 2.0))
        }
        BearingKind::TwoBoltFlange | BearingKind::PillowBlock => {
            slot(&mut d, Pen::Edge, r.unit.across / 2.0, Extent::about(z, r.unit.up));
        }
    }
    d.hole(Pen::Edge, (0.0, z), r.journal / 2.0);
    for [x, dz] in &r.unit.bolts {
        d.hole(Pen::Edge, (*x, z + dz), r.unit.bolt_hole / 2.0);
    }
    d.circle(Pen::Phantom, (0.0, z + r.travel), r.journal / 2.0);
    d.centre_cross((0.0, z + r.travel), r.journal / 2.0);
    let (low, high) = (plate.z.low + r.travel, plate.z.high + r.travel);
    d.rectangle(Pen::Phantom, (plate.x.low, low), (plate.x.high, high));
    if r.take_up == TakeUpKind::Screw {
        let rod = r.rod_diameter / 2.0;
        let shelf = r.bracket_z + r.shelf_thickness;
        let end = shelf + 3.2 * rod;
        d.rectangle(Pen::Edge, (-rod, plate.z.high), (rod, r.bracket_z));
        d.rectangle(Pen::Edge, (plate.x.low, r.bracket_z), (plate.x.high, shelf));
        d.rectangle(Pen::Edge, (-1.6 * rod, shelf), (1.6 * rod, shelf + 1.6 * rod));
        d.rectangle(Pen::Edge, (-rod, shelf + 1.6 * rod), (rod, end));
        d.centre_line((0.0, plate.z.high), (0.0, end));
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

fn slot(d: &mut Draft, pen: Pen, half: f64, z: Extent) {
    let half = half.min(z.size() / 2.0);
    let (low, high) = (z.low + half, z.high - half);
    d.line(pen, (-half, low), (-half, high));
    d.line(pen, (half, low), (half, high));
    d.arc(pen, (0.0, high), half, 0.0, 180.0);
    d.arc(pen, (0.0, low), half, 180.0, 180.0);
}

fn bolt_pattern(subject: &Subject<'_>, d: &mut Draft, z: f64) {
    let unit = &subject.foot.rotating.unit;
    let xs = unit.bolts.iter().map(|b| b[0]);
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
            (*x, z + dz),
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
    let shaft = subject.spec.bend_pulley.shaft.value.value();
    drum(&mut d, 0.0, bend, bend.face * 0.8, shaft);
    let end = subject.foot.rotating.bearing_planes.high + subject.spec.shaft.projection.value.value();
    d.rectangle(Pen::Edge, (-end, -shaft / 2.0), (end, shaft / 2.0));
    d.centre_line((-end, 0.0), (end, 0.0));
    d.dimension(Side::Above, "bend_pulley.face", (-bend.face / 2.0, bend.radius()), (bend.face / 2.0, bend.radius()));
    d.dimension(Side::Left, "bend_pulley.diameter", (-bend.face / 2.0, -bend.radius()), (-bend.face / 2.0, bend.radius())).prefix("⌀");
    d.dimension(Side::Right, "bend_pulley.shaft", (end, -shaft / 2.0), (end, shaft / 2.0)).prefix("⌀");
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
    if let Some([l, w, h]) = r.weight_box {
        row("weight box, length × width × height", format!("{} × {} × {}", subject.mm(l), subject.mm(w), subject.mm(h)));
        row("weights", subject.mass(s.take_up.weights.value.value()));
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
            subject.say("Rim, disc and hub of the pulleys are drawn in usual proportions; their maker's drawing governs."),
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
