//! The weight boxes of a gravity take-up, one on each sliding plate: five plates welded to an open box, and the bars between
//! box and sliding plate.
//!
//! Everything is placed with the take-up at its lowest; both sides are alike. Lids, a lock for the take-up and a stop that
//! catches it when the belt parts are not built.

use super::bolts::Held;
use super::flat::{Contour, FlatPattern, Xy};
use super::placement::Placement;
use super::shop::{Draft, Joins, Shop};
use super::{Hand, Lay};
use crate::model::rotating::WeightBox;
use crate::say;
use crate::say::{Statement, amount, mm};
use crate::tables::threads::Thread;
use crate::units::Unit;

/// The plates of the boxes that are welded to each other.
const BOX: Joins<'_> = [&["weight_box.bottom", "weight_box.end"], &["weight_box.back", "weight_box.front", "weight_box.end"]];
/// What the holes of the boxes' bolts are for.
pub const HELD: &str = "weight box";
/// From the end of a bar to its bolt, mm.
const END: f64 = 25.0;
/// Thinnest sliding plate that M16 is tapped into, mm; a thinner one takes M12.
const TAPS_M16: f64 = 14.0;

/// Thread of the bolts that hold the boxes, and where they stand on a sliding plate, (x, z); none without a box, or where the
/// bars are too short for two bolts each.
pub fn bolts(shop: &Shop) -> Option<(&'static Thread, Vec<Xy>)> {
    let r = &shop.foot.rotating;
    let b = r.weight_box.as_ref()?;
    let rows = [b.bar_z.low + END, b.bar_z.high - END];
    let thread = shop.bolt(if r.sliding_plate.thickness >= TAPS_M16 { "M16" } else { "M12" })?;
    let fits = rows[1] - rows[0] >= 3.0 * thread.diameter_mm && b.bar_x > b.bar[0] / 2.0 + 4.0;
    fits.then(|| (thread, rows.into_iter().flat_map(|z| [[-b.bar_x, z], [b.bar_x, z]]).collect()))
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
    let top = b.z.high + shop.foot.rotating.travel;
    let under = shop.foot.casing.top - shop.frame_thickness() - 20.0;
    if top > under {
        shop.defect(
            532,
            "take_up.box_height",
            say!(
                "with the take-up at its highest the weight boxes reach {above} too high for the top flange; lower take_up.box_height or give casing.height more",
                above = amount(top - under, Unit::Mm, 0)
            ),
        );
    }
    plates(shop, &b, bolt, &holes);
    bars(shop, &b, bolt, &holes);
    let clamped = t + b.bar[1] + shop.foot.rotating.sliding_plate.thickness;
    shop.joint("weight boxes to the sliding plates", HELD, bolt, 2 * holes.len(), clamped, Held::Tapped);
    shop.fillet("weight_box", "weight boxes", BOX, Lay::Every, t, false);
}

/// Bottom, back, front and ends of both boxes; the sides stand on the bottom, the ends between back and front.
fn plates(shop: &mut Shop, b: &WeightBox, bolt: &Thread, holes: &[Xy]) {
    let (t, [length, width, height]) = (b.plate, b.size());
    let foot = b.z.low + t;
    let bottom = [1.0, -1.0].map(|s| Placement::plan(b.z.low).moved([0.0, s * b.y.middle(), 0.0])).to_vec();
    plate(shop, (531, "bottom", "WBOT"), t, FlatPattern::new(Contour::rectangle([-length / 2.0, -width / 2.0], [length / 2.0, width / 2.0])), bottom);
    let side = || FlatPattern::new(Contour::rectangle([-length / 2.0, 0.0], [length / 2.0, height - t]));
    let both = |y: f64| [Placement::near(y), Placement::far(-y)].map(|p| p.moved([0.0, 0.0, foot])).to_vec();
    let mut back = side();
    back.clear(bolt, HELD, holes.iter().map(|[x, z]| [*x, z - foot]));
    plate(shop, (532, "back", "WBCK"), t, back, both(b.y.low));
    plate(shop, (533, "front", "WFRT"), t, side(), both(b.y.high - t));
    let end = FlatPattern::new(Contour::rectangle([0.0, 0.0], [width - 2.0 * t, height - t]));
    let mut ends = Vec::new();
    for s in [1.0, -1.0] {
        for x in [length / 2.0 - t, -length / 2.0] {
            // Material lies from the back face against the marked one, which looks toward −x on the near side.
            let at = if s > 0.0 { x + t } else { x };
            ends.push(Placement::new([at, s * (b.y.low + t), foot], [0.0, s, 0.0], [0.0, 0.0, 1.0], [-s, 0.0, 0.0]));
        }
    }
    plate(shop, (534, "end", "WEND"), t, end, ends);
}

/// The bars, two a box.
fn bars(shop: &mut Shop, b: &WeightBox, bolt: &Thread, holes: &[Xy]) {
    let [wide, thick] = b.bar;
    let mut flat = FlatPattern::new(Contour::rectangle([-wide / 2.0, 0.0], [wide / 2.0, b.bar_z.size()]));
    flat.clear(bolt, HELD, holes.iter().filter(|h| h[0] > 0.0).map(|h| [0.0, h[1] - b.bar_z.low]));
    let face = b.y.low - thick;
    let places = [-b.bar_x, b.bar_x].into_iter().flat_map(|x| [Placement::near(face), Placement::far(-face)].map(|p| p.moved([x, 0.0, b.bar_z.low]))).collect();
    plate(shop, (535, "bar", "WBAR"), thick, flat, places);
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
