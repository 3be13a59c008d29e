//! Shafts with their seats, keyways and tapped ends, and the bearings they run in.

use super::bearing_shape;
use super::placement::Placement;
use super::pulleys;
use super::shape::Shape;
use super::shop::{Fitting, Form, Shop};
use super::take_up;
use super::turned::{EndHole, Keyway, Seat, Shaft, Sits, Zone};
use super::{Kind, piece_of};
use crate::say;
use crate::say::{Statement, amount, n, name, size};
use crate::sizing::bearing_unit::BearingUnit;
use crate::sizing::pulley::hub_length;
use crate::spec::rotating::{BearingKind, TappedEnd};
use crate::tables::keyways::{self, Standard};
use crate::tables::threads::{self, Series, Thread};
use crate::tables::{bearings, centre_holes, fits, set_collars};
use crate::units::Unit as Measure;

/// Seats of the foot shaft from the far end to the near end.
fn foot_seats(shop: &Shop) -> Vec<Seat> {
    let (r, step) = (&shop.foot.rotating, shop.foot.rotating.shoulder(shop.foot.pulleys.hub_spacing, shop.stock()));
    let seat = |from: f64, to: f64, diameter: f64| Seat { from, to, diameter };
    let ends = &r.shaft_ends;
    if (r.shaft_diameter - r.journal).abs() < 0.01 || step >= ends.high {
        return vec![seat(ends.low, ends.high, r.shaft_diameter)];
    }
    vec![seat(ends.low, -step, r.journal), seat(-step, step, r.shaft_diameter), seat(step, ends.high, r.journal)]
}

/// The foot shaft from its far end to its near end.
fn foot_shaft(shop: &Shop) -> Shaft {
    let r = &shop.foot.rotating;
    let hole = end_hole(shop, r.journal);
    let tapped = |end: TappedEnd| hole.filter(|_| r.tapped_end == end || r.tapped_end == TappedEnd::Both);
    let spacing = pulleys::spacings(shop.foot, shop.stock())[0];
    Shaft {
        seats: foot_seats(shop),
        fit: fits::of_shaft(shop.us()),
        zones: zones(shop, &r.unit, r.bearing_planes.high, r.shaft_diameter, spacing),
        keyways: keyways_at(shop, r.shaft_diameter, spacing),
        holes: [tapped(TappedEnd::Far), tapped(TappedEnd::Near)],
        chamfer: chamfer(shop),
    }
}

/// Chamfer of shaft ends, mm.
fn chamfer(shop: &Shop) -> f64 {
    shop.stock().fine_mm(2.0)
}

/// The tapped hole for the sensor's target in an end of this diameter; `None` for a thread beyond the tables or an end
/// too thin for it.
fn end_hole(shop: &Shop, end: f64) -> Option<EndHole> {
    let spec = &shop.spec.shaft;
    let thread = threads::find(&spec.thread.value)?;
    let (core, nominal, depth) = (thread.tap_drill_mm, thread.diameter_mm, spec.drill_depth.value());
    let room = end - 2.0 * chamfer(shop) - 1.0;
    if room < nominal + 1.0 {
        return None;
    }
    let (pilot, pilot_depth, sink) = match centre_holes::by_thread(thread.name) {
        Some(row) => (row.pilot_mm, row.pilot_depth_mm, row.countersink_mm),
        None => centre_holes::inch_pilot_mm(nominal),
    };
    let sink = sink.min(room);
    let hole = EndHole {
        thread: thread.name,
        nominal,
        thread_depth: spec.thread_depth.value(),
        diameter: core,
        depth,
        pilot: pilot.min(sink - 0.4),
        pilot_depth,
        sink,
    };
    let pilot_depth = pilot_depth.max(hole.sink_depth() + 0.5).min(depth - 1.0);
    (hole.pilot > core && hole.sink_depth() < pilot_depth).then_some(EndHole { pilot_depth, ..hole })
}

/// What sits where on a shaft: inner rings of bearings about their planes, hubs.
fn zones(shop: &Shop, unit: &BearingUnit, plane: f64, hubbed: f64, spacing: f64) -> Vec<Zone> {
    let hub = hub_length(shop.stock(), hubbed) / 2.0;
    let about = |middle: f64, half: f64, sits: Sits| Zone { from: middle - half, to: middle + half, sits };
    let ring = |middle: f64| bearings::by_number(unit.number).map(|b| about(middle, b.inner_ring_mm / 2.0, Sits::Bearing));
    let hubs = [-spacing / 2.0, spacing / 2.0].map(|y| about(y, hub, Sits::Hub));
    ring(-plane).into_iter().chain(hubs).chain(ring(plane)).collect()
}

/// Keyways under both hubs; `None` beyond the tables. A key with square ends lies between the round ends of its keyway.
fn keyways_at(shop: &Shop, diameter: f64, spacing: f64) -> Option<(Keyway, [f64; 2])> {
    let key = keyways::of_job(shop.us(), diameter)?;
    let rounds = if key.standard == Standard::AsmeB171 { key.width_mm } else { 0.0 };
    let keyway = Keyway { width: key.width_mm, depth: key.depths_mm(diameter)[0], length: key_length(shop, diameter) + rounds };
    Some((keyway, [-spacing / 2.0, spacing / 2.0]))
}

/// Length of the key in a hub on a shaft of this diameter, mm.
fn key_length(shop: &Shop, diameter: f64) -> f64 {
    keyways::length_in(shop.us(), hub_length(shop.stock(), diameter))
}

/// Diameter of a shaft with its fit.
fn fitted(shop: &Shop, diameter: f64) -> Statement {
    match fits::of_shaft(shop.us()).class() {
        Some(class) => say!("⌀{diameter} {class}", diameter = size(diameter, 2), class = name(class)),
        None => say!("⌀{diameter}", diameter = size(diameter, 2)),
    }
}

/// Main dimension of a shaft: its diameter with its fit, its length.
fn shaft_dimension(shop: &Shop, shaft: &Shaft) -> Statement {
    say!("{fitted} × {length}", fitted = fitted(shop, shaft.diameter()), length = size(shaft.length(), shop.decimals()))
}

/// What bar an inch shaft is of; nothing for a class that stands in its dimension.
fn bar(shop: &Shop, diameter: f64) -> Option<Statement> {
    let fit = fits::of_shaft(shop.us());
    let limits = fit.limits(diameter).filter(|_| fit.class().is_none())?;
    Some(say!("ground and polished bar, at most {play} under size", play = amount(-limits.lower, Measure::Mm, 4)))
}

/// Adds shafts and bearings.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let shaft = foot_shaft(shop);
    let at = [foot.pulleys.foot.centre.x, 0.0, foot.pulleys.foot.centre.z];
    let steel = shop.spec.shaft.steel.value.clone();
    shop.fitting(Fitting {
        item: 640,
        id: "shaft",
        name: "foot shaft".into(),
        kind: Kind::Turned,
        material: Statement::named(steel.as_str()),
        dimension: shaft_dimension(shop, &shaft),
        form: Form(Shape::Shaft(Box::new(shaft)), true, vec![Placement::near(0.0).moved(at)]),
        paint_m2: 0.0,
        sources: &["shaft.diameter", "shaft.journal", "shaft.length"],
        remarks: foot_shaft_remarks(shop),
    });
    let kind = match r.unit.kind {
        BearingKind::TwoBoltFlange => "two-bolt flange bearing unit",
        BearingKind::FourBoltFlange => "four-bolt flange bearing unit",
        BearingKind::PillowBlock => "pillow block bearing unit",
        BearingKind::TakeUpFrame => "take-up bearing unit",
    };
    let face = foot.casing.width.high + foot.casing.plate + r.sliding_plate.thickness;
    if r.unit.kind == BearingKind::TakeUpFrame && r.bearing_planes.high - face < r.unit.depth / 2.0 {
        let words = "the take-up units stand too near to the side plates for their frames; give shaft.bearing_centres more";
        shop.defect(641, "shaft.bearing_centres", words);
    }
    shop.fitting(Fitting {
        item: 641,
        id: "bearing",
        name: kind.into(),
        kind: Kind::Bought,
        material: "cast iron, insert bearing".into(),
        dimension: bearing_dimension(&r.unit, r.journal),
        form: unit_form(&r.unit, (r.journal, "foot bearing"), [r.bearing_planes.high, face], at),
        paint_m2: 0.0,
        sources: &["bearings"],
        remarks: unit_remarks(&r.unit, "mass and exact sizes by its maker; check bolt pattern before tapping"),
    });
    let spacing = pulleys::spacings(foot, shop.stock())[0];
    key(shop, &Keyed { item: 642, id: "key", name: "key".into(), diameter: r.shaft_diameter, spacing, at, source: "shaft.diameter" });
    collars(shop, &Keyed { item: 643, id: "collar", name: "set collar".into(), diameter: r.shaft_diameter, spacing, at, source: "shaft.diameter" });
    if let Some(bend) = &foot.pulleys.bend {
        bend_shaft(shop, [bend.centre.x, 0.0, bend.centre.z], &steel);
    }
}

/// Both bearing units of a shaft: their envelopes. Flanges stand on plates whose outer faces are `face` from the belt's middle;
/// blocks have their middles at `plane`, those in frames by as much frame as lies between.
fn unit_form(unit: &BearingUnit, (bore, bolted): (f64, &'static str), [plane, face]: [f64; 2], at: [f64; 3]) -> Form {
    let off = (plane - unit.depth / 2.0 - face).max(0.0);
    Form(Shape::Unit(bearing_shape::unit(unit, bore, off, bolted)), false, unit_places(unit, plane, face, at))
}

/// What the list says of a unit that is bought.
fn unit_remarks(unit: &BearingUnit, remarks: &'static str) -> Statement {
    if unit.estimated { then("larger than the tables: sizes estimated in proportion to the bore".into(), remarks.into()) } else { remarks.into() }
}

/// Both bearing units of a shaft: flanges and frames on plates whose outer faces are `face` from the belt's middle, blocks with
/// their middles at `plane` and their bases upright, on the down side of the shaft.
fn unit_places(unit: &BearingUnit, plane: f64, face: f64, at: [f64; 3]) -> Vec<Placement> {
    if unit.kind == BearingKind::PillowBlock {
        let upright = |y: f64| Placement::new([at[0], y, at[2]], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, -1.0, 0.0]);
        return vec![upright(-plane), upright(plane)];
    }
    vec![Placement::far(-face).moved(at), Placement::near(face).moved(at)]
}

/// Size of a bearing unit by its series: the number names the metric bore, so an inch insert is named by its own bore and
/// by the housing that it goes into.
fn bearing_dimension(unit: &BearingUnit, bore: f64) -> Statement {
    let series = unit.number / 100 * 100;
    match unit.insert(bore) {
        Some(_) => say!("{series} series, size {number}, bore ⌀{bore}", series = series, number = unit.number, bore = size(bore, 2)),
        None => say!("insert for ⌀{bore}, housing of the {series} series, size {number}", bore = size(bore, 2), series = series, number = unit.number),
    }
}

/// Both keyways of a shaft of this diameter; `None` beyond the tables.
fn keyways_of(shop: &Shop, diameter: f64) -> Option<Statement> {
    keyways::of_job(shop.us(), diameter).map(|k| {
        let standard = name(k.standard.name());
        match k.standard {
            // Millimetres by the standard, whatever the sheets are in.
            Standard::Din6885 => {
                say!("2 keyways {width} P9, {depth} deep, {standard}", width = n(k.width_mm, 2), depth = n(k.shaft_depth_mm, 2), standard = standard)
            }
            Standard::AsmeB171 => say!("2 keyways {width} wide, {standard}", width = amount(k.width_mm, Measure::Mm, 4), standard = standard,),
        }
    })
}

/// The ends that are drilled and tapped for the motion sensor's target; `None` when neither is.
fn tapped_ends(shop: &Shop) -> Option<Statement> {
    let shaft = &shop.spec.shaft;
    let (drill, depth) = (size(shaft.drill_depth.value(), 1), size(shaft.thread_depth.value(), 1));
    let thread = name(threads::tapped(&shaft.thread));
    let ends = match shop.foot.rotating.tapped_end {
        TappedEnd::None => return None,
        TappedEnd::Near => say!("near end drilled {drill} deep and tapped {thread} × {depth}", drill = drill, thread = thread, depth = depth),
        TappedEnd::Far => say!("far end drilled {drill} deep and tapped {thread} × {depth}", drill = drill, thread = thread, depth = depth),
        TappedEnd::Both => say!("both ends drilled {drill} deep and tapped {thread} × {depth}", drill = drill, thread = thread, depth = depth),
    };
    let inch = threads::find(&shaft.thread.value).is_some_and(|t| t.series == Series::Unc);
    Some(if inch { ends } else { say!("{ends} (DIN 332-2 form D)", ends = ends) })
}

/// Journals, keyways, tapped ends.
fn foot_shaft_remarks(shop: &Shop) -> Statement {
    let r = &shop.foot.rotating;
    let stepped = (r.journal - r.shaft_diameter).abs() > 0.01;
    let journals = stepped.then(|| say!("journals {journal}", journal = fitted(shop, r.journal)));
    [journals, bar(shop, r.shaft_diameter), keyways_of(shop, r.shaft_diameter), tapped_ends(shop)].into_iter().flatten().reduce(then).unwrap_or_default()
}

/// Two remarks one after the other.
pub fn then(first: Statement, second: Statement) -> Statement {
    say!("{first}; {second}", first = first, second = second)
}

/// A shaft whose hubs are keyed on.
struct Keyed {
    item: u32,
    id: &'static str,
    name: Statement,
    /// In the hubs, mm.
    diameter: f64,
    /// Between the middles of the hubs, mm.
    spacing: f64,
    /// Middle of the shaft, mm.
    at: [f64; 3],
    source: &'static str,
}

/// The keys of a shaft; none beyond the tables.
fn key(shop: &mut Shop, keyed: &Keyed) {
    let us = shop.us();
    let (d, spacing, at) = (keyed.diameter, keyed.spacing, keyed.at);
    let Some(k) = keyways::of_job(us, d) else { return };
    let hub = key_length(shop, d);
    let dimension = match k.standard {
        // A designation of the standard: millimetres, whatever the sheets are in.
        Standard::Din6885 => say!("A {width} × {height} × {length}", width = n(k.width_mm, 2), height = n(k.height_mm, 2), length = n(hub, 2)),
        Standard::AsmeB171 => {
            say!("square {width} × {height} × {length}", width = size(k.width_mm, 4), height = size(k.height_mm, 4), length = size(hub, 2))
        }
    };
    let round = k.standard == Standard::Din6885;
    let shape = Shape::Key { width: k.width_mm, height: k.height_mm, length: hub, round };
    // Lies in the shaft's keyway, its back up.
    let floor = at[2] + d / 2.0 - k.depths_mm(d)[0];
    let at_hub = |y: f64| Placement::new([at[0], y, floor], [1.0, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0]);
    shop.fitting(Fitting {
        item: keyed.item,
        id: keyed.id,
        name: keyed.name.clone(),
        kind: Kind::Bought,
        material: Statement::named(if us { "C1018" } else { "C45" }),
        dimension,
        form: Form(shape, true, vec![at_hub(-spacing / 2.0), at_hub(spacing / 2.0)]),
        paint_m2: 0.0,
        sources: &[keyed.source],
        remarks: Statement::named(k.standard.name()),
    });
}

/// The set collars outside both hubs, which hold the pulley along its shaft; none for shafts above the table.
fn collars(shop: &mut Shop, keyed: &Keyed) {
    let Some(collar) = set_collars::for_shaft(keyed.diameter) else { return };
    let (outside, width) = (shop.stock().step_up_mm(collar.outside_mm, 1.0), shop.stock().fine_mm(collar.width_mm));
    let middle = (keyed.spacing + hub_length(shop.stock(), keyed.diameter) + width) / 2.0;
    let at = |y: f64| Placement::near(y).moved(keyed.at);
    shop.fitting(Fitting {
        item: keyed.item,
        id: keyed.id,
        name: keyed.name.clone(),
        kind: Kind::Bought,
        material: "steel".into(),
        dimension: say!(
            "ring ⌀{outer} / ⌀{inner} × {thick}",
            outer = size(outside, shop.decimals()),
            inner = size(keyed.diameter, 2),
            thick = size(width, shop.decimals())
        ),
        form: Form(Shape::Ring { diameter: outside, bore: keyed.diameter, length: width }, true, vec![at(-middle), at(middle)]),
        paint_m2: 0.0,
        sources: &[keyed.source],
        remarks: say!(
            "in two halves, so that it comes off where it sits; against the hub; set screw {screw} into a spot drilled through its hole on assembly",
            screw = name(screw(shop, collar.screw))
        ),
    });
}

/// A set screw by its metric thread, or what a US job has for it.
fn screw(shop: &Shop, metric: &str) -> String {
    shop.bolt(metric).map_or_else(|| metric.to_string(), Thread::of_set_screw)
}

/// The bend pulley's shaft and bearings; `c` is the middle of the shaft.
fn bend_shaft(shop: &mut Shop, c: [f64; 3], steel: &str) {
    let foot = shop.foot;
    let d = shop.spec.bend_pulley.shaft.value();
    let unit = take_up::bend_unit(shop);
    let t = take_up::bend_plate(shop);
    let length = shop.stock().step_up_mm(foot.casing.width.size() + 2.0 * (foot.casing.plate + t + unit.depth + 20.0), 5.0);
    let spacing = pulleys::spacings(foot, shop.stock())[1];
    let seats = vec![Seat { from: -length / 2.0, to: length / 2.0, diameter: d }];
    let ring = foot.casing.width.high + foot.casing.plate + t + unit.depth / 2.0;
    let shaft = Shaft {
        seats,
        fit: fits::of_shaft(shop.us()),
        zones: zones(shop, &unit, ring, d, spacing),
        keyways: keyways_at(shop, d, spacing),
        holes: [None, None],
        chamfer: chamfer(shop),
    };
    shop.fitting(Fitting {
        item: 650,
        id: "bend_shaft",
        name: "bend pulley shaft".into(),
        kind: Kind::Turned,
        material: Statement::named(steel),
        dimension: shaft_dimension(shop, &shaft),
        form: Form(Shape::Shaft(Box::new(shaft)), true, vec![Placement::near(0.0).moved(c)]),
        paint_m2: 0.0,
        sources: &["bend_pulley.shaft"],
        remarks: [bar(shop, d), keyways_of(shop, d)].into_iter().flatten().reduce(then).unwrap_or_default(),
    });
    let name = piece_of(&"bend pulley".into(), "key");
    key(shop, &Keyed { item: 652, id: "bend_key", name, diameter: d, spacing, at: c, source: "bend_pulley.shaft" });
    let name = piece_of(&"bend pulley".into(), "set collar");
    collars(shop, &Keyed { item: 653, id: "bend_collar", name, diameter: d, spacing, at: c, source: "bend_pulley.shaft" });
    let face = foot.casing.width.high + foot.casing.plate + t;
    shop.fitting(Fitting {
        item: 651,
        id: "bend_bearing",
        name: "four-bolt flange bearing unit".into(),
        kind: Kind::Bought,
        material: "cast iron, insert bearing".into(),
        dimension: bearing_dimension(&unit, d),
        form: unit_form(&unit, (d, "bend pulley bearing"), [face, face], c),
        paint_m2: 0.0,
        sources: &["bend_pulley.shaft"],
        remarks: unit_remarks(&unit, "mass and exact sizes by its maker"),
    });
}
