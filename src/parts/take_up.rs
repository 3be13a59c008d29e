//! Take-up: sliding plates, guides, brackets, rods; and the plates that hold the bend pulley's bearings.
//!
//! Everything on one side is placed with the take-up at its lowest. Both sides are alike.

use super::bolts::{self, Held, PITCH};
use super::flat::{Contour, FlatPattern, Xy};
use super::goods;
use super::placement::Placement;
use super::shape::Shape;
use super::shop::{Draft, Fitting, Form, Shop};
use super::{Hand, Kind, Lay, weight_box};
use crate::model::frame::Extent;
use crate::model::rotating::PLAY;
use crate::say;
use crate::say::{Statement, amount, name, size};
use crate::sizing::bearing_unit::{BearingUnit, bearing_unit};
use crate::sizing::rod_holder::LUG_BELOW;
use crate::sizing::sliding_plate;
use crate::spec::rotating::BearingKind;
use crate::tables::power_threads::{self, PowerThread};
use crate::tables::threads::Thread;
use crate::units::Unit;
use std::f64::consts::PI;

const RETAINER: f64 = 6.0;
/// Root of a thread that no table has, as a share of the rod's diameter (estimate).
const ROOT: f64 = 0.92;

/// Thickness of the retaining bars, mm.
pub fn retainer(shop: &Shop) -> f64 {
    shop.stock().plate_mm(RETAINER)
}

/// Play of the sliding plate to its guides, mm.
fn play(shop: &Shop) -> f64 {
    shop.stock().fine_mm(PLAY)
}

/// Thickness of the plates that carry the bend pulley's bearings, mm.
pub fn bend_plate(shop: &Shop) -> f64 {
    shop.frame_thickness().max(shop.stock().plate_mm(10.0))
}

/// Guide bolts.
pub fn guide_bolt(shop: &Shop) -> Option<&'static Thread> {
    shop.bolt("M10")
}

/// Thickness of the spacer bar beside the sliding plate, mm: the plate's and the play.
pub fn spacer(shop: &Shop) -> f64 {
    shop.foot.rotating.sliding_plate.thickness + play(shop)
}

/// What sliding plate and guides take up on a side wall.
pub fn guide_zone(shop: &Shop) -> (Extent, Extent) {
    let out = shop.foot.rotating.guides.x.high;
    (Extent::about(0.0, 2.0 * out), shop.foot.rotating.guides.z.joined(&shop.foot.rotating.sliding_plate.z))
}

/// Guide bolt holes in the side plate, (x, z).
pub fn guide_holes(shop: &Shop) -> Vec<Xy> {
    let x = shop.foot.rotating.guides.x.middle();
    let rows = bolts::row(shop.foot.rotating.guides.z.grown(-shop.stock().width_mm(20.0)), PITCH, shop.stock());
    [-x, x].into_iter().flat_map(|x| rows.iter().map(move |&z| [x, z])).collect()
}

/// What the fixed bracket takes up on a side wall.
pub fn bracket_zone(shop: &Shop) -> (Extent, Extent) {
    let r = &shop.foot.rotating;
    (Extent::about(0.0, 150.0), Extent::new(r.bracket_z - r.holder.gusset - 40.0, r.bracket_z + shop.foot.rotating.shelf_thickness + 10.0))
}

/// Half side of the bend pulley's bearing plate, mm.
pub fn bend_support_half(shop: &Shop) -> f64 {
    let unit = bend_unit(shop);
    shop.stock().up_mm((unit.across.max(unit.up) / 2.0 + 10.0).max(shop.spec.bend_pulley.shaft.value() / 2.0 + 40.0))
}

/// The bend pulley's bearing unit: a four-bolt flange.
pub fn bend_unit(shop: &Shop) -> BearingUnit {
    bearing_unit(BearingKind::FourBoltFlange, shop.spec.bend_pulley.shaft.value(), shop.us())
}

/// Shaft hole, bolt and bolt holes (from the shaft centre) of the bend pulley's bearing.
pub fn bend_support(shop: &Shop) -> (f64, Option<&'static Thread>, Vec<Xy>) {
    let unit = bend_unit(shop);
    (shop.stock().fine_mm(shop.spec.bend_pulley.shaft.value() + 20.0), shop.bolt(&unit.bolt), unit.bolts.clone())
}

/// Adds both sides.
pub fn build(shop: &mut Shop) {
    sliding_plate(shop);
    guides(shop);
    bracket(shop);
    lug(shop);
    rod(shop);
    stop(shop);
    bend(shop);
}

fn both_sides(shop: &Shop, h: f64) -> [Placement; 2] {
    let outer = shop.foot.casing.width.high + shop.foot.casing.plate;
    [Placement::near(outer + h), Placement::far(-outer - h)]
}

fn sliding_plate(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let plate = &r.sliding_plate;
    if plate.z.low < 5.0 {
        shop.defect(
            501,
            "take_up.travel",
            say!(
                "the sliding plate would reach {below} below the base; shorten take_up.travel or raise casing.feet",
                below = amount(5.0 - plate.z.low, Unit::Mm, 0)
            ),
        );
    }
    let low = foot.pulleys.foot.centre.z;
    let mut flat = FlatPattern::new(Contour::rectangle([plate.x.low, plate.z.low], [plate.x.high, plate.z.high]));
    flat.round(r.slot_width, "shaft.journal", [[0.0, low]]);
    let bolt = shop.bolt(&r.unit.bolt);
    let flanged = matches!(r.unit.kind, BearingKind::TwoBoltFlange | BearingKind::FourBoltFlange | BearingKind::TakeUpFrame);
    if let (Some(b), true) = (bolt, flanged) {
        flat.tapped(b, "foot bearing", r.unit.bolts.iter().map(|p| [p[0], p[1] + low]));
        shop.joint("foot bearings to the sliding plates", "foot bearing", b, 2 * r.unit.bolts.len(), r.unit.foot + plate.thickness, Held::Tapped);
    }
    if let Some((bolt, holes)) = weight_box::bolts(shop) {
        flat.tapped(bolt, weight_box::HELD, holes);
    }
    let draft = |item: u32, id: &'static str, name: Statement, placements: Vec<Placement>, hand: Hand| Draft {
        item,
        id,
        code: "SLID",
        name,
        thickness: plate.thickness,
        flat: flat.clone(),
        placements,
        hand,
        sources: &["take_up.plate_width", "take_up.plate_height"],
        remarks: "covers the shaft slot in every position; inner face flat and free of weld spatter".into(),
    };
    let [near, far] = both_sides(shop, 0.0);
    if r.unit.kind == BearingKind::PillowBlock {
        // Cut alike, but the brackets stand to the left on the one and to the right on the other: their lines are scribed.
        let named = |side: Statement| Statement::all(vec![say!("sliding bearing plate"), side]);
        shop.plate(draft(501, "sliding_plate.near", named(say!("near")), vec![near], Hand::Near));
        shop.plate(draft(508, "sliding_plate.far", named(say!("far")), vec![far], Hand::Far));
        pillow_bracket(shop, bolt);
    } else {
        shop.plate(draft(501, "sliding_plate", say!("sliding bearing plate"), vec![near, far], Hand::Neutral));
    }
    shop.seal("sliding plates", goods::guide_felt(shop.us()), 4.0 * plate.z.size());
    // The plate's hole is wider than the shaft by the play of the slot.
    shaft_felt(shop);
}

/// The felt that fills the sliding plate's hole round the shaft.
fn shaft_felt(shop: &mut Shop) {
    let r = &shop.foot.rotating;
    let (thick, low) = (r.sliding_plate.thickness, shop.foot.pulleys.foot.centre.z);
    // Where the shaft steps down before the plate, its journal passes there.
    let bore = if r.shoulder(shop.foot.pulleys.hub_spacing, shop.stock()) <= shop.foot.casing.width.high + shop.foot.casing.plate {
        r.journal
    } else {
        r.shaft_diameter
    };
    let shape = Shape::Ring { diameter: r.slot_width, bore, length: thick };
    let decimals = shop.decimals();
    let dimension =
        say!("ring ⌀{outer} / ⌀{inner} × {thick}", outer = size(r.slot_width, decimals), inner = size(bore, decimals), thick = size(thick, decimals));
    let places = both_sides(shop, thick / 2.0).map(|p| p.moved([0.0, 0.0, low])).to_vec();
    shop.fitting(Fitting {
        item: 506,
        id: "shaft_felt",
        name: "felt ring of the shaft".into(),
        kind: Kind::Bought,
        material: "felt".into(),
        dimension,
        form: Form(shape, false, places),
        paint_m2: 0.0,
        sources: &["take_up.slot_width"],
        remarks: "packed into the sliding plate round the shaft, slit for mounting".into(),
    });
}

/// An upright plate square to the sliding plate that the pillow block is bolted to.
fn pillow_bracket(shop: &mut Shop, bolt: Option<&'static Thread>) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let c = &foot.casing;
    let low = foot.pulleys.foot.centre.z;
    let t = shop.foot.rotating.shelf_thickness;
    let Some([height, _]) = r.unit.block else { return };
    let face = c.width.high + c.plate + r.sliding_plate.thickness;
    let plane = r.bearing_planes.high;
    let reach = shop.stock().up_mm(plane + r.unit.depth / 2.0 + 10.0 - face);
    if reach < 30.0 {
        shop.defect(502, "shaft.bearing_centres", "the pillow blocks stand too near to the side plates for their brackets; give shaft.bearing_centres more");
        return;
    }
    let half = shop.stock().up_mm(r.unit.up / 2.0 + 10.0);
    let mut flat = FlatPattern::new(Contour::rectangle([0.0, low - half], [reach, low + half]));
    if let Some(b) = bolt {
        flat.clear(b, "foot bearing", r.unit.bolts.iter().map(|p| [plane - face, p[1] + low]));
        shop.joint("pillow blocks to their brackets", "foot bearing", b, 2 * r.unit.bolts.len(), t + r.unit.foot, Held::Nut);
    }
    let x = -height;
    let near = Placement::new([x - t, face, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
    let far = Placement::new([x, -face, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
    let near_flat = flat.mapped(true, |p| [-p[0], p[1]]);
    shop.plate(Draft {
        item: 502,
        id: "bearing_bracket.near",
        code: "BBR",
        name: Statement::all(vec![say!("bearing bracket"), say!("near")]),
        thickness: t,
        flat: near_flat,
        placements: vec![near],
        hand: Hand::Near,
        sources: &["shaft.bearing_centres"],
        remarks: "welded to the sliding plate".into(),
    });
    shop.plate(Draft {
        item: 503,
        id: "bearing_bracket.far",
        code: "BBR",
        name: Statement::all(vec![say!("bearing bracket"), say!("far")]),
        thickness: t,
        flat,
        placements: vec![far.moved([-t, 0.0, 0.0])],
        hand: Hand::Far,
        sources: &["shaft.bearing_centres"],
        remarks: "welded to the sliding plate".into(),
    });
    shop.fillet(
        "bearing_bracket",
        "bearing brackets to sliding plates",
        [&["bearing_bracket"], &["sliding_plate"]],
        Lay::Every,
        r.sliding_plate.thickness.min(t),
        false,
    );
}

fn guides(shop: &mut Shop) {
    let foot = shop.foot;
    let span = shop.foot.rotating.guides.z;
    let Some(bolt) = guide_bolt(shop) else { return };
    let s = spacer(shop);
    let edges = shop.foot.rotating.guides.x;
    let (inner, width) = (edges.low, edges.size());
    let thick = retainer(shop);
    let rows: Vec<Xy> = bolts::row(span.grown(-shop.stock().width_mm(20.0)), PITCH, shop.stock()).into_iter().map(|z| [width / 2.0, z - span.low]).collect();
    let bar = |lap: f64| {
        let mut flat = FlatPattern::new(Contour::rectangle([-lap, 0.0], [width, span.size()]));
        flat.clear(bolt, "guide of the sliding plate", rows.iter().copied());
        flat
    };
    // The bar's own x = 0 is its edge beside the sliding plate; on the other hand it is turned over end for end.
    let places = |h: f64, thick: f64| -> Vec<Placement> {
        let outer = foot.casing.width.high + foot.casing.plate;
        let mut out = Vec::new();
        for side in [1.0, -1.0] {
            for x in [1.0, -1.0] {
                // Marked face outward on one guide of each side, inward on the other: the bar is the same.
                let outward = side * x > 0.0;
                let y = if outward { side * (outer + h) } else { side * (outer + h + thick) };
                let toward = if outward { side } else { -side };
                out.push(Placement::new([x * inner, y, span.low], [x, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, toward, 0.0]));
            }
        }
        out
    };
    let spacers = places(0.0, s);
    let retainers = places(s, thick);
    shop.plate(Draft {
        item: 504,
        id: "guide.spacer",
        code: "GSPC",
        name: "guide spacer bar".into(),
        thickness: s,
        flat: bar(0.0),
        placements: spacers,
        hand: Hand::Neutral,
        sources: &["take_up.slot"],
        remarks: "milled to thickness".into(),
    });
    shop.plate(Draft {
        item: 505,
        id: "guide.retainer",
        code: "GRET",
        name: "guide retaining bar".into(),
        thickness: thick,
        flat: bar(sliding_plate::guide_lap(shop.stock())),
        placements: retainers,
        hand: Hand::Neutral,
        sources: &["take_up.slot"],
        remarks: Statement::default(),
    });
}

/// Shelf and gussets that a rod is held by above.
fn bracket(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let c = &foot.casing;
    let outer = c.width.high + c.plate;
    let stock = shop.stock();
    let (shelf_t, y, depth) = (r.shelf_thickness, r.rod_out, r.holder.shelf_depth());
    let least = r.bracket_z + r.holder.under_flange();
    if least > c.top + 1e-6 {
        shop.defect(
            511,
            "casing.height",
            say!(
                "the take-up bracket at {height} does not fit under the top flange; give casing.height at least {least}",
                height = amount(r.bracket_z, Unit::Mm, 0),
                least = amount(least.ceil(), Unit::Mm, 0),
            ),
        );
    }
    let half = r.holder.shelf_half();
    let mut shelf = FlatPattern::new(Contour::rectangle([-half, 0.0], [half, depth]));
    shelf.round(r.holder.shelf_hole(), "take-up rod", [[0.0, y]]);
    // Seen from below, so that the wall edge is at the bottom of the pattern on either side.
    let shelf_at = |s: f64| Placement::new([0.0, s * outer, r.bracket_z + shelf_t], [s, 0.0, 0.0], [0.0, s, 0.0], [0.0, 0.0, -1.0]);
    shop.plate(Draft {
        item: 511,
        id: "bracket.shelf",
        code: "BSHF",
        name: Statement::all(vec![say!("take-up bracket"), say!("shelf")]),
        thickness: shelf_t,
        flat: shelf,
        placements: vec![shelf_at(1.0), shelf_at(-1.0)],
        hand: Hand::Neutral,
        sources: &["take_up.travel", "take_up.shelf"],
        remarks: Statement::default(),
    });
    let [near, far] = r.holder.gusset_x();
    let tg = r.holder.gusset_thickness();
    let (high, blunt, tip) = (r.holder.gusset, stock.fine_mm(12.0), depth - stock.fine_mm(10.0));
    let gusset = FlatPattern::new(Contour::polygon([[0.0, -high], [blunt, -high], [tip, -blunt], [tip, 0.0], [0.0, 0.0]]));
    let mut places = Vec::new();
    for s in [1.0, -1.0] {
        for x in [-far, near] {
            let (back, toward) = if s > 0.0 { (x + tg, -1.0) } else { (x, 1.0) };
            places.push(Placement::new([back, s * outer, r.bracket_z], [0.0, s, 0.0], [0.0, 0.0, 1.0], [toward, 0.0, 0.0]));
        }
    }
    shop.plate(Draft {
        item: 512,
        id: "bracket.gusset",
        code: "BGUS",
        name: Statement::all(vec![say!("take-up bracket"), say!("gusset")]),
        thickness: tg,
        flat: gusset,
        placements: places,
        hand: Hand::Neutral,
        sources: &["take_up.travel", "take_up.gusset"],
        remarks: Statement::default(),
    });
    shop.fillet("bracket", "take-up brackets", [&["bracket"], &["side_plate", "bracket"]], Lay::Every, c.plate, false);
}

/// Lug on the sliding plate that the rod is held in.
fn lug(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let outer = foot.casing.width.high + foot.casing.plate;
    let (face, y) = (r.sliding_plate.thickness, r.rod_out);
    let (lug_t, beyond) = (r.holder.lug, r.holder.lug_half());
    let mut lug = FlatPattern::new(Contour::rectangle([-beyond, 0.0], [beyond, r.holder.lug_reach()]));
    lug.round(r.holder.lug_hole(), "take-up rod", [[0.0, y - face]]);
    let lug_at = |s: f64| Placement::new([0.0, s * (outer + face), r.sliding_plate.z.high - LUG_BELOW], [s, 0.0, 0.0], [0.0, s, 0.0], [0.0, 0.0, -1.0]);
    shop.plate(Draft {
        item: 513,
        id: "rod_lug",
        code: "RLUG",
        name: "rod lug on the sliding plate".into(),
        thickness: lug_t,
        flat: lug,
        placements: vec![lug_at(1.0), lug_at(-1.0)],
        hand: Hand::Neutral,
        sources: &["take_up.travel"],
        remarks: "welded to the sliding plate".into(),
    });
    shop.fillet("rod_lug", "rod lugs to sliding plates", [&["rod_lug"], &["sliding_plate"]], Lay::Every, r.holder.lug_thin(), false);
}

/// The rod and its nuts.
fn rod(shop: &mut Shop) {
    let foot = shop.foot;
    let r = &foot.rotating;
    let outer = foot.casing.width.high + foot.casing.plate;
    let (stock, d, y, shelf_t) = (shop.stock(), r.rod_diameter, r.rod_out, r.shelf_thickness);
    let (under, over) = (r.holder.rod_under(), r.holder.rod_over());
    let length = stock.step_up_mm(r.rod_length + under + over, 1.0);
    let z = r.sliding_plate.z.high + (r.rod_length + over - under) / 2.0;
    let rod = shop.spec.take_up.rod.value.clone();
    let strength = named_strength(shop);
    shop.fitting(Fitting {
        item: 514,
        id: "take_up.rod",
        name: Statement::all(vec![say!("take-up rod"), say!("threaded all along")]),
        kind: Kind::Turned,
        material: say!("steel, yield {stress}", stress = amount(strength, Unit::Mpa, 0)),
        dimension: say!("{thread} × {length}", thread = name(&rod), length = size(length, 2)),
        form: Form(
            Shape::Rod { diameter: d, root: power_threads::find(&rod).map_or(ROOT * d, PowerThread::root_mm), length },
            true,
            [1.0, -1.0].map(|s| Placement::plan(z).moved([0.0, s * (outer + y), 0.0])).to_vec(),
        ),
        paint_m2: PI * d * length * 1e-6,
        sources: &["take_up.travel"],
        remarks: Statement::default(),
    });
    let lug = r.sliding_plate.z.high - LUG_BELOW;
    let (on_lug, under_lug) = (lug, lug - r.holder.lug - d);
    let (levels, remarks) = match r.holder.stop {
        // Two lock the shelf between them, two the lug.
        None => (vec![r.bracket_z + shelf_t, r.bracket_z - d, on_lug, under_lug], say!("two lock the rod at the bracket, two at the lug")),
        // Two stop over the shelf, two lock the lug, one waits over it for the lock.
        Some(stop) => {
            let over = r.bracket_z + shelf_t + stop.under_nut();
            (
                vec![over, over + d, on_lug, on_lug + d, under_lug],
                say!(
                    "two are the stop over the bracket, locked by each other, two lock the rod at the lug; one waits there: turned up against the shelf, with the stop's down on the disc, it locks the take-up"
                ),
            )
        }
    };
    let nuts = [1.0, -1.0].iter().flat_map(|s| levels.iter().map(move |z| Placement::plan(*z).moved([0.0, s * (outer + y), 0.0]))).collect();
    shop.fitting(Fitting {
        item: 515,
        id: "take_up.nut",
        name: "nut for the take-up rod".into(),
        kind: Kind::Bought,
        material: "steel".into(),
        dimension: Statement::named(rod),
        form: Form(Shape::Nut { flats: 1.5 * d, bore: d, height: d }, false, nuts),
        paint_m2: 0.0,
        sources: &["take_up.travel"],
        remarks,
    });
}

/// Ring and disc of a gravity take-up's stop, on the shelf round the rod.
fn stop(shop: &mut Shop) {
    let r = &shop.foot.rotating;
    let Some(stop) = r.holder.stop else { return };
    let (outer, decimals) = (shop.foot.casing.width.high + shop.foot.casing.plate, shop.decimals());
    let on_shelf = r.bracket_z + r.shelf_thickness;
    let pieces = [
        (516, "take_up.buffer", say!("buffer ring of the stop"), say!("polyurethane, 80 Shore A"), [on_shelf, stop.thick], false, "take_up.buffer"),
        (517, "take_up.disc", say!("disc of the stop"), "steel".into(), [on_shelf + stop.thick, stop.disc], true, "take_up.stop_gap"),
    ];
    for (item, id, name, material, [z, thick], of_steel, source) in pieces {
        let shape = Shape::Ring { diameter: stop.ring, bore: stop.bore, length: thick };
        let dimension =
            say!("ring ⌀{outer} / ⌀{inner} × {thick}", outer = size(stop.ring, decimals), inner = size(stop.bore, decimals), thick = size(thick, decimals));
        let places = [1.0, -1.0].map(|s| Placement::plan(z + thick / 2.0).moved([0.0, s * (outer + r.rod_out), 0.0])).to_vec();
        let remarks =
            if of_steel { say!("the nut is set {gap} over it, anew as the belt stretches", gap = size(stop.gap, decimals)) } else { Statement::default() };
        let kind = if of_steel { Kind::Turned } else { Kind::Bought };
        shop.fitting(Fitting { item, id, name, kind, material, dimension, form: Form(shape, of_steel, places), paint_m2: 0.0, sources: &[source], remarks });
    }
}

/// Yield strength of the rods' steel as steels are named, MPa: in whole MPa, in US jobs in whole ksi.
fn named_strength(shop: &Shop) -> f64 {
    let mpa = shop.spec.take_up.rod_yield.value();
    match Unit::Mpa.customary() {
        Some((psi, _)) if shop.us() => (mpa * psi / 1000.0).round() * 1000.0 / psi,
        _ => mpa.round(),
    }
}

fn bend(shop: &mut Shop) {
    let foot = shop.foot;
    let Some(b) = &foot.pulleys.bend else { return };
    let half = bend_support_half(shop);
    let (hole, bolt, holes) = bend_support(shop);
    let t = bend_plate(shop);
    let mut flat = FlatPattern::new(Contour::rectangle([-half, -half], [half, half]));
    flat.round(hole, "bend_pulley.shaft", [[0.0, 0.0]]);
    if let Some(bolt) = bolt {
        flat.clear(bolt, "bend pulley bearing", holes.iter().copied());
        shop.joint(
            "bend pulley bearings to side plates",
            "bend pulley bearing",
            bolt,
            2 * holes.len(),
            foot.casing.plate + t + bend_unit(shop).foot,
            Held::WeldNut,
        );
    }
    let places = both_sides(shop, 0.0).iter().map(|p| p.moved([b.centre.x, 0.0, b.centre.z])).collect();
    shop.plate(Draft {
        item: 521,
        id: "bend_support",
        code: "BSUP",
        name: "bend pulley bearing plate".into(),
        thickness: t,
        flat,
        placements: places,
        hand: Hand::Neutral,
        sources: &["bend_pulley.height"],
        remarks: Statement::default(),
    });
    shop.fillet("bend_support", "bend pulley bearing plates", [&["bend_support"], &["side_plate"]], Lay::Every, foot.casing.plate, true);
}
