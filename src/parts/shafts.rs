//! Shafts with their seats, keyways and tapped ends, and the bearings they run in.

use super::Kind;
use super::bearing_shape;
use super::placement::Placement;
use super::pulleys::{self, hub_length};
use super::shape::{EndHole, Keyway, Seat, Shaft, Shape};
use super::shop::{Fitting, Form, Shop};
use super::take_up;
use crate::say;
use crate::say::{Statement, amount, n, name, size};
use crate::sizing::bearing_unit::BearingUnit;
use crate::spec::rotating::{BearingKind, TappedEnd};
use crate::tables::keyways::{self, Key, Standard};
use crate::tables::threads::{self, Series};
use crate::units::Unit as Measure;

/// Seats of the foot shaft from the far end to the near end.
///
/// Fits h6 in insert bearings and hubs with keys: common practice, no source.
fn foot_seats(shop: &Shop) -> Vec<Seat> {
    let r = &shop.foot.rotating;
    let step = (r.bearing_planes.high - r.unit.depth.max(30.0)).max(shop.foot.pulleys.hub_spacing / 2.0 + r.shaft_diameter);
    let seat = |from: f64, to: f64, diameter: f64| Seat { from, to, diameter };
    let ends = &r.shaft_ends;
    if (r.shaft_diameter - r.journal).abs() < 0.01 || step >= ends.high {
        return vec![seat(ends.low, ends.high, r.shaft_diameter)];
    }
    vec![seat(ends.low, -step, r.journal), seat(-step, step, r.shaft_diameter), seat(step, ends.high, r.journal)]
}

/// The foot shaft from its far end to its near end.
fn foot_shaft(shop: &Shop) -> Shaft {
    let (spec, r) = (&shop.spec.shaft, &shop.foot.rotating);
    let drill = threads::find(&spec.thread.value).map(|t| EndHole { diameter: t.tap_drill_mm, depth: spec.drill_depth.value() });
    let tapped = |end: TappedEnd| drill.filter(|_| r.tapped_end == end || r.tapped_end == TappedEnd::Both);
    let spacing = pulleys::spacings(shop.foot, shop.stock())[0];
    Shaft { seats: foot_seats(shop), keyways: keyways_at(shop, r.shaft_diameter, spacing), holes: [tapped(TappedEnd::Far), tapped(TappedEnd::Near)] }
}

/// Keyways under both hubs; `None` beyond the tables.
fn keyways_at(shop: &Shop, diameter: f64, spacing: f64) -> Option<(Keyway, [f64; 2])> {
    let key = keyways::of_job(shop.us(), diameter)?;
    let keyway = Keyway { width: key.width_mm, depth: key.shaft_depth_mm, length: hub_length(shop.stock(), diameter) };
    Some((keyway, [-spacing / 2.0, spacing / 2.0]))
}

/// Adds shafts and bearings.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let shaft = foot_shaft(shop);
    let us = shop.us();
    let at = [foot.pulleys.foot.centre.x, 0.0, foot.pulleys.foot.centre.z];
    let steel = shop.spec.shaft.steel.value.clone();
    let decimals = shop.decimals();
    shop.fitting(Fitting {
        item: 640,
        id: "shaft",
        name: "foot shaft".into(),
        kind: Kind::Turned,
        material: Statement::named(steel.as_str()),
        dimension: say!("⌀{diameter} × {length}", diameter = size(shaft.diameter(), 2), length = size(shaft.length(), decimals)),
        form: Form::Shaped(Shape::Shaft(shaft), Some(1.0), vec![Placement::near(0.0).moved(at)]),
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
    shop.fitting(Fitting {
        item: 641,
        id: "bearing",
        name: kind.into(),
        kind: Kind::Bought,
        material: "cast iron, insert bearing".into(),
        dimension: bearing_dimension(r.unit.number, r.journal),
        form: unit_form(&r.unit, r.journal, [r.bearing_planes.high, face], at),
        paint_m2: 0.0,
        sources: &["bearings"],
        remarks: "mass and exact sizes by its maker; check bolt pattern before tapping".into(),
    });
    if let Some(k) = keyways::of_job(us, r.shaft_diameter) {
        key(shop, k, at);
    }
    if let Some(bend) = &foot.pulleys.bend {
        bend_shaft(shop, [bend.centre.x, 0.0, bend.centre.z], &steel);
    }
    nameplate(shop);
}

fn nameplate(shop: &mut Shop) {
    let c = &shop.foot.casing;
    let stock = shop.stock();
    let (wide, high, thick) = (stock.width_mm(100.0), stock.width_mm(60.0), stock.fine_mm(1.0));
    let place = Placement::near(c.width.high + c.plate).moved([0.0, 0.0, c.top - 60.0]);
    shop.fitting(Fitting {
        item: 660,
        id: "nameplate",
        name: "nameplate".into(),
        kind: Kind::Bought,
        material: "stainless steel".into(),
        dimension: say!("{width} × {height} × {t}", width = size(wide, 3), height = size(high, 3), t = size(thick, 4)),
        form: Form::Shaped(Shape::Sheet { size: [wide, high], thickness: thick }, Some(1.0), vec![place]),
        paint_m2: 0.0,
        sources: &["project"],
        remarks: "number, year, belt speed, capacity".into(),
    });
}

/// Both bearing units of a shaft: their envelopes where the tables have them. Flanges stand on plates whose outer faces are
/// `face` from the belt's middle; blocks have their middles at `plane`.
fn unit_form(unit: &BearingUnit, bore: f64, [plane, face]: [f64; 2], at: [f64; 3]) -> Form {
    if unit.depth <= 0.0 {
        return Form::Unknown([-plane, plane].map(|y| [at[0], y, at[2]]).to_vec());
    }
    Form::Shaped(Shape::Unit(bearing_shape::unit(unit, bore)), None, unit_places(unit, plane, face, at))
}

/// Both bearing units of a shaft: flanges on plates whose outer faces are `face` from the belt's middle, blocks with their
/// middles at `plane` and their bases upright, on the down side of the shaft.
fn unit_places(unit: &BearingUnit, plane: f64, face: f64, at: [f64; 3]) -> Vec<Placement> {
    if unit.kind == BearingKind::PillowBlock {
        let upright = |y: f64| Placement::new([at[0], y, at[2]], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, -1.0, 0.0]);
        return vec![upright(-plane), upright(plane)];
    }
    vec![Placement::far(-face).moved(at), Placement::near(face).moved(at)]
}

/// Size of a bearing unit by its series.
fn bearing_dimension(number: u16, bore: f64) -> Statement {
    say!("200 series, size {number}, bore ⌀{bore}", number = number, bore = size(bore, 2))
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
            Standard::AsmeB171 => say!(
                "2 keyways {width} wide, {depth} deep, {standard}",
                width = amount(k.width_mm, Measure::Mm, 4),
                depth = amount(k.shaft_depth_mm, Measure::Mm, 4),
                standard = standard,
            ),
        }
    })
}

/// The ends that are drilled and tapped for the motion sensor's target; `None` when neither is.
fn tapped_ends(shop: &Shop) -> Option<Statement> {
    let shaft = &shop.spec.shaft;
    let (drill, depth) = (size(shaft.drill_depth.value(), 1), size(shaft.thread_depth.value(), 1));
    let thread = name(&*shaft.thread);
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
    let journals = say!("journals ⌀{journal} h7", journal = size(r.journal, 2));
    [keyways_of(shop, r.shaft_diameter), tapped_ends(shop)].into_iter().flatten().fold(journals, then)
}

/// Two remarks one after the other.
pub fn then(first: Statement, second: Statement) -> Statement {
    say!("{first}; {second}", first = first, second = second)
}

/// The keys of the foot shaft.
fn key(shop: &mut Shop, k: &Key, at: [f64; 3]) {
    let us = shop.us();
    let hub = hub_length(shop.stock(), shop.foot.rotating.shaft_diameter);
    let dimension = match k.standard {
        // A designation of the standard: millimetres, whatever the sheets are in.
        Standard::Din6885 => say!("A {width} × {height} × {length}", width = n(k.width_mm, 2), height = n(k.height_mm, 2), length = n(hub, 2)),
        Standard::AsmeB171 => {
            say!("square {width} × {height} × {length}", width = size(k.width_mm, 4), height = size(k.height_mm, 4), length = size(hub, 2))
        }
    };
    let round = k.standard == Standard::Din6885;
    let shape = Shape::Key { width: k.width_mm, height: k.height_mm, length: hub, round };
    let d = shop.foot.rotating.shaft_diameter;
    let spacing = pulleys::spacings(shop.foot, shop.stock())[0];
    // Lies in the shaft's keyway, its back up.
    let floor = at[2] + d / 2.0 - k.shaft_depth_mm;
    let at_hub = |y: f64| Placement::new([at[0], y, floor], [1.0, 0.0, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0]);
    shop.fitting(Fitting {
        item: 642,
        id: "key",
        name: "key".into(),
        kind: Kind::Bought,
        material: Statement::named(if us { "C1018" } else { "C45" }),
        dimension,
        form: Form::Shaped(shape, Some(1.0), vec![at_hub(-spacing / 2.0), at_hub(spacing / 2.0)]),
        paint_m2: 0.0,
        sources: &["shaft.diameter"],
        remarks: Statement::named(k.standard.name()),
    });
}

/// The bend pulley's shaft and bearings; `c` is the middle of the shaft.
fn bend_shaft(shop: &mut Shop, c: [f64; 3], steel: &str) {
    let foot = shop.foot;
    let d = shop.spec.bend_pulley.shaft.value();
    let unit = take_up::bend_unit(shop);
    let t = take_up::bend_plate(shop);
    let length = foot.casing.width.size() + 2.0 * (foot.casing.plate + t + unit.depth + 20.0);
    let spacing = pulleys::spacings(foot, shop.stock())[1];
    let seats = vec![Seat { from: -length / 2.0, to: length / 2.0, diameter: d }];
    let shaft = Shaft { seats, keyways: keyways_at(shop, d, spacing), holes: [None, None] };
    shop.fitting(Fitting {
        item: 650,
        id: "bend_shaft",
        name: "bend pulley shaft".into(),
        kind: Kind::Turned,
        material: Statement::named(steel),
        dimension: say!("⌀{diameter} h6 × {length}", diameter = size(d, 2), length = size(length, shop.decimals())),
        form: Form::Shaped(Shape::Shaft(shaft), Some(1.0), vec![Placement::near(0.0).moved(c)]),
        paint_m2: 0.0,
        sources: &["bend_pulley.shaft"],
        remarks: keyways_of(shop, d).unwrap_or_default(),
    });
    let face = foot.casing.width.high + foot.casing.plate + t;
    shop.fitting(Fitting {
        item: 651,
        id: "bend_bearing",
        name: "four-bolt flange bearing unit".into(),
        kind: Kind::Bought,
        material: "cast iron, insert bearing".into(),
        dimension: bearing_dimension(unit.number, d),
        form: unit_form(&unit, d, [face, face], c),
        paint_m2: 0.0,
        sources: &["bend_pulley.shaft"],
        remarks: "mass and exact sizes by its maker".into(),
    });
}
