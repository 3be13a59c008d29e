//! Pulleys of the foot: drum or winged foot pulley, drum bend pulley; rims, discs, wings, hubs.
//!
//! The foot pulley stands at its lowest position. Wall and disc thicknesses follow the diameter by
//! common practice (no source): they are fabrication sizes, not a strength calculation.

use super::flat::{Bend, BendSide, Contour, FlatPattern};
use super::placement::Placement;
use super::shop::{Draft, Fitting, Shop};
use super::{Hand, Kind, piece_of};
use crate::formulas::mass;
use crate::model::pulleys::PulleyBody;
use crate::say;
use crate::say::{Statement, amount, n, name as named, size};
use crate::spec::pulleys::PulleyStyle;
use crate::tables::keyways::{self, Standard};
use crate::tables::plates::Stock;
use crate::units::Unit;
use std::f64::consts::{PI, TAU};

/// Wings of a winged pulley.
const WINGS: usize = 10;

/// Adds the pulleys.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let p = &foot.pulleys;
    let winged = shop.spec.foot_pulley.style.value == PulleyStyle::Winged;
    pulley(shop, &p.foot, p.hub_spacing, foot.rotating.shaft_diameter, 600, "foot_pulley", "foot pulley", winged);
    if let Some(bend) = &p.bend {
        let shaft = shop.spec.bend_pulley.shaft.value();
        pulley(shop, bend, bend.face - 60.0, shaft, 620, "bend_pulley", "bend pulley", false);
    }
}

/// Length of a hub, and of the key in it, mm.
pub fn hub_length(stock: Stock, shaft: f64) -> f64 {
    stock.step_up_mm(1.2 * shaft, 5.0)
}

/// Rim or disc thickness for a diameter, mm.
fn wall(diameter: f64) -> f64 {
    match diameter {
        d if d <= 350.0 => 6.0,
        d if d <= 800.0 => 8.0,
        d if d <= 1500.0 => 10.0,
        _ => 12.0,
    }
}

#[allow(clippy::too_many_arguments)]
fn pulley(shop: &mut Shop, body: &PulleyBody, hub_spacing: f64, shaft: f64, base: u32, id: &str, name: &'static str, winged: bool) {
    let stock = shop.stock();
    let (rim, disc) = (stock.plate_mm(wall(body.diameter)), stock.plate_mm(wall(body.diameter) + 2.0));
    let hub = stock.step_up_mm(1.8 * shaft, 5.0);
    let hub_length = hub_length(stock, shaft);
    let piece = |what: &'static str| piece_of(&name.into(), what);
    let inner = body.diameter / 2.0 - rim;
    let feature = format!("{id}.diameter");
    let face_feature = format!("{id}.face");
    let sources = [feature.as_str(), face_feature.as_str()];
    let spacing = hub_spacing.min(body.face - 2.0 * disc - 10.0);
    if inner < hub / 2.0 + 20.0 || spacing < disc + 10.0 {
        shop.defect(base + 1, say!("the {pulley} is too small for rim, discs and hubs", pulley = name));
        return;
    }
    let centre = [body.centre.x, 0.0, body.centre.z];
    // The discs of a winged pulley fit into its core drum.
    let core = inner * 0.6;
    let disc_radius = if winged { core - rim } else { inner };
    let mut plate = FlatPattern::new(Contour::Circle { centre: [0.0, 0.0], diameter: 2.0 * disc_radius });
    plate.open(&feature, Contour::Circle { centre: [0.0, 0.0], diameter: hub });
    let disc_at = |y: f64| Placement::near(y - disc / 2.0).moved(centre);
    shop.plate(Draft {
        item: base + 1,
        id: &format!("{id}.disc"),
        code: "DISC",
        name: piece("end disc"),
        thickness: disc,
        flat: plate,
        placements: vec![disc_at(-spacing / 2.0), disc_at(spacing / 2.0)],
        hand: Hand::Neutral,
        sources: &sources,
        remarks: Statement::default(),
    });
    if winged {
        // Wings stand radially between hub and rim circle, slotted to nothing: they carry the belt on their edges.
        let reach = body.diameter / 2.0 - core;
        let mut places = Vec::new();
        for i in 0..WINGS {
            let a = TAU * i as f64 / WINGS as f64;
            let (cos, sin) = (a.cos(), a.sin());
            let out = [cos, 0.0, sin];
            let side = [-sin, 0.0, cos];
            let back = [centre[0] + out[0] * core - side[0] * rim / 2.0, -body.face / 2.0, centre[2] + out[2] * core - side[2] * rim / 2.0];
            // Across the machine, outward, round the axis: the hand of all other plates.
            places.push(Placement::new(back, [0.0, 1.0, 0.0], out, side));
        }
        let wing = FlatPattern::new(Contour::rectangle([0.0, 0.0], [body.face, reach]));
        shop.plate(Draft {
            item: base + 2,
            id: &format!("{id}.wing"),
            code: "WING",
            name: piece("wing"),
            thickness: rim,
            flat: wing,
            placements: places,
            hand: Hand::Neutral,
            sources: &sources,
            remarks: "edges rounded; turned over all after welding".into(),
        });
        rolled(shop, base + 3, &format!("{id}.core"), piece("core drum"), core - rim, body, rim, &sources);
        shop.fillet(id, say!("{pulley}: wings to core drum", pulley = name), 2.0 * WINGS as f64 * body.face, rim, false);
    } else {
        rolled(shop, base + 3, &format!("{id}.rim"), piece("rim"), inner, body, rim, &sources);
    }
    let hub_mass = mass::tube_kg(hub, shaft, hub_length, mass::STEEL_KG_PER_M3);
    let key = keyways::of_job(shop.us(), shaft).map_or_else(
        || "keyway by the maker".into(),
        |k| match k.standard {
            // Millimetres by the standard, whatever the sheets are in.
            Standard::Din6885 => say!("keyway {width} P9 × {depth} deep, DIN 6885", width = n(k.width_mm, 2), depth = n(k.hub_depth_mm, 2)),
            Standard::AsmeB171 => say!(
                "keyway {width} wide, {depth} deep, {standard}",
                width = amount(k.width_mm, Unit::Mm, 4),
                depth = amount(k.hub_depth_mm, Unit::Mm, 3),
                standard = named(k.standard.name()),
            ),
        },
    );
    shop.fitting(Fitting {
        item: base + 5,
        id: &format!("{id}.hub"),
        name: piece("hub"),
        kind: Kind::Turned,
        material: Statement::named(shop.spec.casing.material.value.as_str()),
        dimension: say!("⌀{hub} / ⌀{bore} H7 × {length}", hub = size(hub, 2), bore = size(shaft, 2), length = size(hub_length, 2)),
        mass_kg: Some(hub_mass),
        paint_m2: PI * hub * hub_length * 1e-6,
        centres: [-1.0, 1.0].map(|s| [centre[0], s * spacing / 2.0, centre[2]]).to_vec(),
        sources: &sources,
        remarks: key,
    });
    shop.fillet(id, say!("{pulley}: discs to rim and hubs", pulley = name), 2.0 * (TAU * disc_radius * 2.0 + PI * hub * 2.0), disc.min(rim), false);
}

/// A closed ring rolled from plate, developed on its neutral line.
#[allow(clippy::too_many_arguments)]
fn rolled(shop: &mut Shop, item: u32, id: &str, name: Statement, inside: f64, body: &PulleyBody, thickness: f64, sources: &[&str]) {
    let length = TAU * (inside + thickness / 2.0);
    let half = body.face / 2.0;
    let mut flat = FlatPattern::new(Contour::rectangle([0.0, -half], [length, half]));
    flat.bends = vec![Bend { start: 0.0, flat_length: length, angle_deg: 360.0, side: BendSide::Down, inside_radius: inside, rolled: true }];
    // Begins at the lowest point, back face inside, running toward the up side; seen from outside.
    let place = Placement::new([body.centre.x, 0.0, body.centre.z - inside], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, -1.0]);
    shop.plate(Draft {
        item,
        id,
        code: "RIM",
        name: name.clone(),
        thickness,
        flat,
        placements: vec![place],
        hand: Hand::Neutral,
        sources,
        remarks: "rolled to a ring, seam butt welded, turned over all".into(),
    });
    shop.butt(id, say!("{part}: seam", part = name), 2.0 * half, thickness);
}
