//! The weight boxes of a gravity take-up, one on each sliding plate: five plates welded to an open box, two webs with their bars
//! between box and sliding plate, and the loose weights in it.
//!
//! Everything is placed with the take-up at its lowest; both sides are alike. Stop and lock stand with the take-up's rod. Lids are not built.

use super::bolts::Held;
use super::flat::{Contour, FlatPattern, Xy};
use super::placement::Placement;
use super::shop::{Draft, Joins, Shop};
use super::{Hand, Lay, goods};
use crate::model::rotating::{WeightBox, Weights};
use crate::say;
use crate::say::{Statement, mm};
use crate::sizing::weight_box::{BOLT_IN, HAND_HOLE, hand_hole_in};
use crate::tables::threads::Thread;

/// The plates of the boxes that are welded to each other.
const BOX: Joins<'_> = [&["weight_box.bottom", "weight_box.end"], &["weight_box.back", "weight_box.front", "weight_box.end"]];
/// What holds them off the sliding plates.
const WEBS: Joins<'_> = [&["weight_box.web"], &["weight_box.bar", "weight_box.back"]];
/// What the holes of the boxes' bolts are for.
pub const HELD: &str = "weight box";
/// Thinnest sliding plate that M16 is tapped into, mm; a thinner one takes M12.
const TAPS_M16: f64 = 14.0;
/// From the upper edge of a box to its holes for slings, mm.
const SLING_IN: f64 = 20.0;
/// How far bolts stand off the middle for the seam of a web, mm.
const OFF_SEAM: f64 = 1.5;
/// Two bolts are no nearer than so many of their diameters.
const APART: f64 = 2.3;

/// Thread of the bolts that hold the boxes, and where they stand on a sliding plate, (x, z); none without a box, or where the
/// bars are too short for two bolts each.
pub fn bolts(shop: &Shop) -> Option<(&'static Thread, Vec<Xy>)> {
    let r = &shop.foot.rotating;
    let b = r.weight_box.as_ref()?;
    let rows = [b.bar_z.low + BOLT_IN, b.bar_z.high - BOLT_IN];
    let thread = shop.bolt(if r.sliding_plate.thickness >= TAPS_M16 { "M16" } else { "M12" })?;
    let fits = rows[1] - rows[0] >= APART * thread.diameter_mm && b.bar_x > b.bar[0] / 2.0 + 4.0;
    let x = bolt_x(b);
    fits.then(|| (thread, rows.into_iter().flat_map(|z| [[-x, z], [x, z]]).collect()))
}

/// Bolts of a bar from x = 0, mm: in the middle of what its web leaves, which stands along its inner edge, and off the leg of the web's seam.
fn bolt_x(b: &WeightBox) -> f64 {
    b.bar_x + b.web / 2.0 + OFF_SEAM
}

/// Adds the boxes, if there are any.
pub fn build(shop: &mut Shop) {
    let Some(b) = shop.foot.rotating.weight_box else { return };
    let Some((bolt, holes)) = bolts(shop) else {
        shop.defect(534, "take_up.travel", "above the bearing the sliding plate has no room for the bolts of a weight box; give take_up.travel more");
        return;
    };
    let (t, [length, width, height]) = (b.plate, b.size());
    if width - 2.0 * t < 20.0 || length - 2.0 * t < 20.0 || height - t < 20.0 {
        shop.defect(
            531,
            "take_up.box_height",
            say!("a weight box of {length} × {width} × {height} holds nothing", length = mm(length), width = mm(width), height = mm(height)),
        );
        return;
    }
    plates(shop, &b);
    bars(shop, &b, bolt, &holes);
    if let Some(w) = &b.weights {
        weights(shop, &b, w);
    }
    let clamped = b.bar[1] + shop.foot.rotating.sliding_plate.thickness;
    shop.joint("weight boxes to the sliding plates", HELD, bolt, 2 * holes.len(), clamped, Held::Tapped);
    shop.fillet("weight_box", "weight boxes", BOX, Lay::Every, t, false);
    shop.fillet("weight_box", "webs of the weight boxes", WEBS, Lay::Every, t, false);
}

/// Bottom, back, front and ends of both boxes; the sides stand on the bottom, the ends between back and front.
fn plates(shop: &mut Shop, b: &WeightBox) {
    let (t, [length, width, height]) = (b.plate, b.size());
    let foot = b.z.low + t;
    let bottom = [1.0, -1.0].map(|s| Placement::plan(b.z.low).moved([0.0, s * b.y.middle(), 0.0])).to_vec();
    plate(shop, (531, "bottom", "WBOT"), t, FlatPattern::new(Contour::rectangle([-length / 2.0, -width / 2.0], [length / 2.0, width / 2.0])), bottom);
    let side = || FlatPattern::new(Contour::rectangle([-length / 2.0, 0.0], [length / 2.0, height - t]));
    let both = |y: f64| [Placement::near(y), Placement::far(-y)].map(|p| p.moved([0.0, 0.0, foot])).to_vec();
    plate(shop, (532, "back", "WBCK"), t, side(), both(b.y.low));
    plate(shop, (533, "front", "WFRT"), t, side(), both(b.y.high - t));
    let mut end = FlatPattern::new(Contour::rectangle([0.0, 0.0], [width - 2.0 * t, height - t]));
    // By both ends over the middle: an empty box with its webs is no load for one person.
    end.round(goods::sling_hole(shop.stock()), goods::SLING, [[width / 2.0 - t, height - t - SLING_IN]]);
    let ends = upright(b, t, b.y.low + t, foot, length / 2.0 - t);
    plate(shop, (534, "end", "WEND"), t, end, ends);
}

/// Places of plates so thick that stand along y from y and z on, their faces nearer to x = 0 so far from it: two a box.
fn upright(b: &WeightBox, thickness: f64, y: f64, z: f64, inner: f64) -> Vec<Placement> {
    debug_assert!(b.x.high >= inner);
    let mut places = Vec::new();
    for s in [1.0, -1.0] {
        for x in [inner, -inner - thickness] {
            // Material lies from the back face against the marked one, which looks toward −x on the near side.
            let at = if s > 0.0 { x + thickness } else { x };
            places.push(Placement::new([at, s * y, z], [0.0, s, 0.0], [0.0, 0.0, 1.0], [-s, 0.0, 0.0]));
        }
    }
    places
}

/// Bars on the sliding plates and webs on them, two a box.
fn bars(shop: &mut Shop, b: &WeightBox, bolt: &Thread, holes: &[Xy]) {
    let [wide, thick] = b.bar;
    let high = b.bar_z.size();
    let mut flat = FlatPattern::new(Contour::rectangle([-wide / 2.0, 0.0], [wide / 2.0, high]));
    flat.clear(bolt, HELD, holes.iter().filter(|h| h[0] > 0.0).map(|h| [h[0] - b.bar_x, h[1] - b.bar_z.low]));
    let plate_face = shop.foot.casing.width.high + shop.foot.casing.plate + shop.foot.rotating.sliding_plate.thickness;
    // Its web stands along the inner edge; on the other side of the middle it is turned over end for end.
    let mut places = Vec::new();
    for s in [1.0, -1.0] {
        for x in [1.0, -1.0] {
            let outward = s * x > 0.0;
            let y = s * if outward { plate_face } else { plate_face + thick };
            let toward = if outward { s } else { -s };
            places.push(Placement::new([x * b.bar_x, y, b.bar_z.low], [x, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, toward, 0.0]));
        }
    }
    plate(shop, (535, "bar", "WBAR"), thick, flat, places);
    let face = plate_face + thick;
    let web = FlatPattern::new(Contour::rectangle([0.0, 0.0], [b.y.low - face, high]));
    let places = upright(b, b.web, face, b.bar_z.low, b.bar_x - wide / 2.0);
    plate(shop, (536, "web", "WWEB"), b.web, web, places);
}

/// Loose weights, laid from the bottom of the box up, stack beside stack.
fn weights(shop: &mut Shop, b: &WeightBox, w: &Weights) {
    let [long, wide] = w.size;
    let [hole, high] = HAND_HOLE;
    let mut flat = FlatPattern::new(Contour::rectangle([-long / 2.0, -wide / 2.0], [long / 2.0, wide / 2.0]));
    for x in [1.0, -1.0].map(|s| s * (long / 2.0 - hand_hole_in(w.thickness))) {
        flat.open("hand hole", Contour::upright_slot(x, -hole / 2.0, hole / 2.0, high));
    }
    let clear = b.y.size() - 2.0 * b.plate;
    let pitch = clear / f64::from(w.stacks);
    let laid = (0..w.pieces).filter(|i| f64::from(i / w.stacks + 1) * w.thickness <= b.z.size() - b.plate + 1e-6);
    let at = |i: u32, s: f64| {
        let y = b.y.low + b.plate + (f64::from(i % w.stacks) + 0.5) * pitch;
        Placement::plan(b.z.low + b.plate + f64::from(i / w.stacks) * w.thickness).moved([0.0, s * y, 0.0])
    };
    let placements: Vec<Placement> = laid.flat_map(|i| [at(i, 1.0), at(i, -1.0)]).collect();
    if placements.is_empty() {
        return;
    }
    shop.plate(Draft {
        item: 537,
        id: "weight",
        code: "WGHT",
        name: "loose weight".into(),
        thickness: w.thickness,
        flat,
        placements,
        hand: Hand::Neutral,
        sources: &["take_up.weights"],
        remarks: "laid into the weight boxes, as many in each; hand holes burred".into(),
    });
}

/// A plate of the boxes: item number, what it is, code.
fn plate(shop: &mut Shop, (item, piece, code): (u32, &'static str, &str), thickness: f64, flat: FlatPattern, placements: Vec<Placement>) {
    shop.plate(Draft {
        item,
        id: &format!("weight_box.{piece}"),
        code,
        name: Statement::all(vec![say!("weight box"), piece.into()]),
        thickness,
        flat,
        placements,
        hand: Hand::Neutral,
        sources: &["take_up.box_length", "take_up.box_width", "take_up.box_height"],
        remarks: Statement::default(),
    });
}
