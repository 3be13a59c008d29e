//! Shafts with their seats, keyways and tapped ends, and the bearings they run in.

use super::Kind;
use super::pulleys::hub_length;
use super::shop::{Fitting, Shop};
use super::take_up;
use crate::formulas::mass;
use crate::say;
use crate::say::{Statement, amount, n, name, size};
use crate::spec::rotating::{BearingKind, TappedEnd};
use crate::tables::keyways::{self, Key, Standard};
use crate::tables::threads::{self, Series};
use crate::units::Unit;
use serde::Serialize;

/// One cylindrical length of a shaft.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Seat {
    /// What sits there.
    pub name: &'static str,
    /// From, along y, mm.
    pub from: f64,
    /// To, along y, mm.
    pub to: f64,
    /// Diameter, mm.
    pub diameter: f64,
    /// Fit, e.g. `h6`.
    pub fit: &'static str,
}

/// Seats of the foot shaft from the far end to the near end.
///
/// Fits h6 in insert bearings and hubs with keys: common practice, no source.
pub fn foot_shaft(shop: &Shop) -> Vec<Seat> {
    let r = &shop.foot.rotating;
    let step = (r.bearing_planes.high - r.unit.depth.max(30.0)).max(shop.foot.pulleys.hub_spacing / 2.0 + r.shaft_diameter);
    if (r.shaft_diameter - r.journal).abs() < 0.01 || step >= r.shaft_ends.high {
        return vec![Seat { name: "one diameter", from: r.shaft_ends.low, to: r.shaft_ends.high, diameter: r.shaft_diameter, fit: "h6" }];
    }
    vec![
        Seat { name: "far bearing", from: r.shaft_ends.low, to: -step, diameter: r.journal, fit: "h6" },
        Seat { name: "hubs", from: -step, to: step, diameter: r.shaft_diameter, fit: "h6" },
        Seat { name: "near bearing", from: step, to: r.shaft_ends.high, diameter: r.journal, fit: "h6" },
    ]
}

/// Adds shafts and bearings.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let seats = foot_shaft(shop);
    let length = r.shaft_ends.size();
    let kg: f64 = seats.iter().map(|s| mass::round_kg(s.diameter, s.to - s.from, mass::STEEL_KG_PER_M3)).sum();
    let us = shop.us();
    let at = [foot.pulleys.foot.centre.x, 0.0, foot.pulleys.foot.centre.z];
    let steel = shop.spec.shaft.steel.value.clone();
    shop.fitting(Fitting {
        item: 640,
        id: "shaft",
        name: "foot shaft".into(),
        kind: Kind::Turned,
        material: Statement::named(steel.as_str()),
        dimension: say!("⌀{diameter} × {length}", diameter = size(r.shaft_diameter, 2), length = size(length, shop.decimals())),
        mass_kg: Some(kg),
        paint_m2: 0.0,
        centres: vec![at],
        sources: &["shaft.diameter", "shaft.journal", "shaft.length"],
        remarks: foot_shaft_remarks(shop),
    });
    let kind = match r.unit.kind {
        BearingKind::TwoBoltFlange => "two-bolt flange bearing unit",
        BearingKind::FourBoltFlange => "four-bolt flange bearing unit",
        BearingKind::PillowBlock => "pillow block bearing unit",
        BearingKind::TakeUpFrame => "take-up bearing unit",
    };
    let (yl, yh) = (r.bearing_planes.low, r.bearing_planes.high);
    shop.fitting(Fitting {
        item: 641,
        id: "bearing",
        name: kind.into(),
        kind: Kind::Bought,
        material: "cast iron, insert bearing".into(),
        dimension: bearing_dimension(r.unit.number, r.journal),
        mass_kg: None,
        paint_m2: 0.0,
        centres: vec![[at[0], yl, at[2]], [at[0], yh, at[2]]],
        sources: &["bearings"],
        remarks: "mass and exact sizes by its maker; check bolt pattern before tapping".into(),
    });
    if let Some(k) = keyways::of_job(us, r.shaft_diameter) {
        key(shop, k, at);
    }
    if let Some(bend) = &foot.pulleys.bend {
        bend_shaft(shop, [bend.centre.x, 0.0, bend.centre.z], &steel);
    }
    let c = &foot.casing;
    let stock = shop.stock();
    let (wide, high, thick) = (stock.width_mm(100.0), stock.width_mm(60.0), stock.fine_mm(1.0));
    let plate = [0.0, c.width.high + c.plate, c.top - 60.0];
    shop.fitting(Fitting {
        item: 660,
        id: "nameplate",
        name: "nameplate".into(),
        kind: Kind::Bought,
        material: "stainless steel".into(),
        dimension: say!("{width} × {height} × {t}", width = size(wide, 3), height = size(high, 3), t = size(thick, 4)),
        mass_kg: Some(wide * high * thick * 7.9e-6),
        paint_m2: 0.0,
        centres: vec![plate],
        sources: &["project"],
        remarks: "number, year, belt speed, capacity".into(),
    });
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
                width = amount(k.width_mm, Unit::Mm, 4),
                depth = amount(k.shaft_depth_mm, Unit::Mm, 4),
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
    shop.fitting(Fitting {
        item: 642,
        id: "key",
        name: "key".into(),
        kind: Kind::Bought,
        material: Statement::named(if us { "C1018" } else { "C45" }),
        dimension,
        mass_kg: Some(k.width_mm * k.height_mm * hub * mass::STEEL_KG_PER_M3 * 1e-9),
        paint_m2: 0.0,
        centres: vec![at, at],
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
    shop.fitting(Fitting {
        item: 650,
        id: "bend_shaft",
        name: "bend pulley shaft".into(),
        kind: Kind::Turned,
        material: Statement::named(steel),
        dimension: say!("⌀{diameter} h6 × {length}", diameter = size(d, 2), length = size(length, shop.decimals())),
        mass_kg: Some(mass::round_kg(d, length, mass::STEEL_KG_PER_M3)),
        paint_m2: 0.0,
        centres: vec![c],
        sources: &["bend_pulley.shaft"],
        remarks: keyways_of(shop, d).unwrap_or_default(),
    });
    let y = foot.casing.width.high + foot.casing.plate + t + unit.depth / 2.0;
    shop.fitting(Fitting {
        item: 651,
        id: "bend_bearing",
        name: "four-bolt flange bearing unit".into(),
        kind: Kind::Bought,
        material: "cast iron, insert bearing".into(),
        dimension: bearing_dimension(unit.number, d),
        mass_kg: None,
        paint_m2: 0.0,
        centres: vec![[c[0], -y, c[2]], [c[0], y, c[2]]],
        sources: &["bend_pulley.shaft"],
        remarks: "mass and exact sizes by its maker".into(),
    });
}
