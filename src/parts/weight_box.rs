//! The weight box of a gravity take-up: five plates welded to an open box, and the bars it hangs by.
//!
//! The box hangs below nothing in the model (it moves with the shaft), so its plates have no place there.

use super::Hand;
use super::flat::{Contour, FlatPattern};
use super::shop::{Draft, Shop};
use crate::say;
use crate::say::Statement;

/// Adds the box, if there is one.
pub fn build(shop: &mut Shop) {
    let Some([length, width, height]) = shop.foot.rotating.weight_box else { return };
    let t = shop.foot.casing.plate.max(shop.stock().plate_mm(6.0));
    let tf = shop.frame_thickness();
    let plates = [
        (531, "weight_box.bottom", "WBOT", "bottom", 1_u32, length, width),
        (532, "weight_box.side", "WSID", "long side", 2, length, height - t),
        (533, "weight_box.end", "WEND", "end", 2, width - 2.0 * t, height - t),
    ];
    for (item, id, code, piece, pieces, a, b) in plates {
        if a < 20.0 || b < 20.0 {
            shop.defect(item, "take_up.box_height", say!("the weight box is too small for this plate: {plate}", plate = piece));
            return;
        }
        let flat = FlatPattern::new(Contour::rectangle([0.0, 0.0], [a, b]));
        shop.plate(Draft {
            item,
            id,
            code,
            name: Statement::all(vec![say!("weight box"), piece.into()]),
            thickness: t,
            flat,
            placements: Vec::new(),
            hand: Hand::Neutral,
            sources: &["take_up.box_length"],
            remarks: "outside sizes of the box by the spec".into(),
        });
        shop.pieces(pieces);
    }
    // Hangers from the box up to both sliding plates: holes for M16 at each end.
    let r = &shop.foot.rotating;
    let stock = shop.stock();
    let long = stock.up_mm(r.sliding_plate.z.size() / 2.0 + height + 100.0);
    let (wide, apart, thick) = (stock.up_mm(60.0), stock.width_mm(100.0), tf.max(stock.plate_mm(10.0)));
    if let Some(bolt) = shop.bolt("M16") {
        let mut bar = FlatPattern::new(Contour::rounded([0.0, 0.0], [wide, long], stock.fine_mm(8.0)));
        bar.clear(bolt, "hanger of the weight box", [[wide / 2.0, wide / 2.0], [wide / 2.0, long - wide / 2.0], [wide / 2.0, long - apart]]);
        shop.plate(Draft {
            item: 534,
            id: "weight_box.hanger",
            code: "WHNG",
            name: "hanger bar of the weight box".into(),
            thickness: thick,
            flat: bar,
            placements: Vec::new(),
            hand: Hand::Neutral,
            sources: &["take_up.box_length"],
            remarks: "two a side".into(),
        });
        shop.pieces(4);
        shop.joint("hangers of the weight box", "hanger of the weight box", bolt, 12, thick + t, super::bolts::Held::Nut);
    }
    shop.fillet("weight_box", "weight box", [&["weight_box"], &["weight_box"]], 2.0 * (length + width) + 4.0 * height, t, false);
}
