//! Shafts with their seats, keyways and tapped ends, and the bearings they run in.

use super::Kind;
use super::pulleys::hub_length;
use super::shop::Shop;
use super::take_up;
use crate::formulas::mass;
use crate::spec::rotating::{BearingKind, TappedEnd};
use crate::tables::keyways::{self, Standard};
use crate::tables::threads::{self, Series};
use crate::units::plain_number;
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
    let key = |d: f64| {
        keyways::of_job(us, d).map_or(String::new(), |k| match k.standard {
            Standard::Din6885 => format!("; 2 keyways {} P9, {} deep, {}", k.width_mm, k.shaft_depth_mm, k.standard.name()),
            Standard::AsmeB171 => {
                format!("; 2 keyways {} mm wide, {} mm deep, {}", plain_number(k.width_mm, 4), plain_number(k.shaft_depth_mm, 4), k.standard.name())
            }
        })
    };
    // Remarks of a US job name the unit, so that lists and sheets can give it in inches.
    let unit = if us { " mm" } else { "" };
    let ends = match r.tapped_end {
        TappedEnd::None => String::new(),
        end => format!(
            "; {} end{} drilled {}{unit} deep and tapped {} × {}{unit}{}",
            match end {
                TappedEnd::Near => "near",
                TappedEnd::Far => "far",
                _ => "both",
            },
            if end == TappedEnd::Both { "s" } else { "" },
            plain_number(shop.spec.shaft.drill_depth.value(), 1),
            *shop.spec.shaft.thread,
            plain_number(shop.spec.shaft.thread_depth.value(), 1),
            if threads::find(&shop.spec.shaft.thread.value).is_some_and(|t| t.series == Series::Unc) { "" } else { " (DIN 332-2 form D)" }
        ),
    };
    let at = [foot.pulleys.foot.centre.x, 0.0, foot.pulleys.foot.centre.z];
    let steel = shop.spec.shaft.steel.value.clone();
    shop.other(
        640,
        "shaft",
        "foot shaft",
        Kind::Turned,
        &steel,
        format!("⌀{} × {}", plain_number(r.shaft_diameter, 2), plain_number(length, shop.decimals())),
        Some(kg),
        0.0,
        vec![at],
        &["shaft.diameter", "shaft.journal", "shaft.length"],
        format!("journals ⌀{}{unit} h7{}{ends}", plain_number(r.journal, 2), key(r.shaft_diameter)),
    );
    let kind = match r.unit.kind {
        BearingKind::TwoBoltFlange => "two-bolt flange bearing unit",
        BearingKind::FourBoltFlange => "four-bolt flange bearing unit",
        BearingKind::PillowBlock => "pillow block bearing unit",
        BearingKind::TakeUpFrame => "take-up bearing unit",
    };
    let number = r.unit.number;
    let (yl, yh) = (r.bearing_planes.low, r.bearing_planes.high);
    shop.other(
        641,
        "bearing",
        kind,
        Kind::Bought,
        "cast iron, insert bearing",
        format!("200 series, size {number}, bore ⌀{}", plain_number(r.journal, 2)),
        None,
        0.0,
        vec![[at[0], yl, at[2]], [at[0], yh, at[2]]],
        &["bearings"],
        "mass and exact sizes by its maker; check bolt pattern before tapping".into(),
    );
    if let Some(k) = keyways::of_job(us, r.shaft_diameter) {
        let hub = hub_length(shop.stock(), r.shaft_diameter);
        let kg = k.width_mm * k.height_mm * hub * mass::STEEL_KG_PER_M3 * 1e-9;
        shop.other(
            642,
            "key",
            "key",
            Kind::Bought,
            if us { "C1018" } else { "C45" },
            format!("{} {} × {} × {}", if us { "square" } else { "A" }, plain_number(k.width_mm, 4), plain_number(k.height_mm, 4), plain_number(hub, 2)),
            Some(kg),
            0.0,
            vec![at, at],
            &["shaft.diameter"],
            k.standard.name().into(),
        );
    }
    if let Some(bend) = &foot.pulleys.bend {
        let d = shop.spec.bend_pulley.shaft.value();
        let unit = take_up::bend_unit(shop);
        let t = take_up::bend_plate(shop);
        let length = foot.casing.width.size() + 2.0 * (foot.casing.plate + t + unit.depth + 20.0);
        let c = [bend.centre.x, 0.0, bend.centre.z];
        shop.other(
            650,
            "bend_shaft",
            "bend pulley shaft",
            Kind::Turned,
            &steel,
            format!("⌀{} h6 × {}", plain_number(d, 2), plain_number(length, shop.decimals())),
            Some(mass::round_kg(d, length, mass::STEEL_KG_PER_M3)),
            0.0,
            vec![c],
            &["bend_pulley.shaft"],
            key(d).trim_start_matches("; ").to_string(),
        );
        let y = foot.casing.width.high + foot.casing.plate + t + unit.depth / 2.0;
        shop.other(
            651,
            "bend_bearing",
            "four-bolt flange bearing unit",
            Kind::Bought,
            "cast iron, insert bearing",
            format!("200 series, size {}, bore ⌀{}", unit.number, plain_number(d, 2)),
            None,
            0.0,
            vec![[c[0], -y, c[2]], [c[0], y, c[2]]],
            &["bend_pulley.shaft"],
            "mass and exact sizes by its maker".into(),
        );
    }
    let c = &foot.casing;
    let stock = shop.stock();
    let (wide, high, thick) = (stock.width_mm(100.0), stock.width_mm(60.0), stock.fine_mm(1.0));
    let plate = [0.0, c.width.high + c.plate, c.top - 60.0];
    shop.other(
        660,
        "nameplate",
        "nameplate",
        Kind::Bought,
        "stainless steel",
        format!("{} × {} × {}", plain_number(wide, 3), plain_number(high, 3), plain_number(thick, 4)),
        Some(wide * high * thick * 7.9e-6),
        0.0,
        vec![plate],
        &["project"],
        "number, year, belt speed, capacity".into(),
    );
}
