//! Feet: a pad with an anchor hole, a leg on the side plate, a gusset between them, at each corner.

use super::flat::{Contour, FlatPattern};
use super::placement::Placement;
use super::shape::{Anchor, Shape};
use super::shop::{Draft, Fitting, Form, Shop};
use super::{Hand, Lay};
use crate::say;
use crate::say::Statement;

/// How far a leg's ends lie in from those of its pad, mm: seams of clean-outs' frames run round the casing's corners there.
const IN: f64 = 15.0;

/// From the end of a leg to the gusset on it, mm: room for its seam.
const GUSSET_IN: f64 = 2.0;

/// Adds the feet.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let c = &foot.casing;
    let base = &foot.base;
    let t = shop.frame_thickness();
    let Some(first) = base.pads.first() else { return };
    let (px, py) = (first.x.size(), first.y.size());
    let mut pad = FlatPattern::new(Contour::rectangle([-px / 2.0, -py / 2.0], [px / 2.0, py / 2.0]));
    pad.round(base.hole, "base.anchors_x", [[0.0, 0.0]]);
    // Turned on the far side, so that the leg stands on the same edge of every pad.
    let turned = Placement::new([0.0; 3], [-1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]);
    let pads = base.pads.iter().map(|p| if p.y.middle() > 0.0 { Placement::plan(0.0) } else { turned }.moved([p.x.middle(), p.y.middle(), 0.0])).collect();
    shop.plate(Draft {
        item: 121,
        id: "foot.pad",
        code: "PAD",
        name: "foot pad".into(),
        thickness: base.thickness,
        flat: pad,
        placements: pads,
        hand: Hand::Neutral,
        sources: &["base.anchors_x", "base.anchors_y"],
        remarks: Statement::default(),
    });
    let alike = base.pads.iter().all(|p| (p.leg_top - first.leg_top).abs() < 1e-6);
    let sides: &[Option<bool>] = if alike { &[None] } else { &[Some(true), Some(false)] };
    for side in sides {
        legs_and_gussets(shop, *side);
    }
    shop.fillet(
        "foot",
        "feet: legs to side plates, pads and gussets",
        [&["foot.leg", "foot.gusset"], &["side_plate", "foot"]],
        Lay::Every,
        t.min(c.plate),
        false,
    );
    let anchor = &base.anchor;
    shop.fitting(Fitting {
        item: 129,
        id: "foot.anchor",
        name: "anchor bolt with washer, nut and lock nut".into(),
        kind: super::Kind::Bought,
        material: "by the civil engineer".into(),
        dimension: Statement::named(base.bolt),
        paint_m2: 0.0,
        form: Form(
            Shape::Anchor(Anchor { diameter: anchor.diameter, pad: base.thickness, washer: anchor.washer, nut: anchor.nut, end: anchor.projection }),
            false,
            base.pads.iter().map(|p| Placement::plan(p.anchor.z).moved([p.anchor.x, p.anchor.y, 0.0])).collect(),
        ),
        sources: &["base.anchors_x"],
        remarks: "size to be confirmed from the load table".into(),
    });
}

/// Legs and gussets of the two feet on the up side or on the down side, or of all four where all are alike.
fn legs_and_gussets(shop: &mut Shop, up: Option<bool>) {
    let (c, base) = (&shop.foot.casing, &shop.foot.base);
    let t = shop.frame_thickness();
    let group: Vec<_> = base.pads.iter().filter(|p| up.is_none_or(|up| (p.x.middle() > 0.0) == up)).collect();
    let Some(pad) = group.first() else { return };
    let (px, py) = (pad.x.size(), pad.y.size());
    let top = pad.leg_top;
    let half = px / 2.0 - shop.stock().fine_mm(IN);
    let leg = FlatPattern::new(Contour::rectangle([-half, 0.0], [half, top - base.thickness]));
    let out = c.width.high + c.plate;
    let legs = group
        .iter()
        .map(|p| {
            let at = if p.y.middle() > 0.0 { Placement::near(out) } else { Placement::far(-out) };
            at.moved([p.x.middle(), 0.0, base.thickness])
        })
        .collect();
    let named = |what: Statement| {
        let side = up.map(|up| Statement::from(if up { "up side" } else { "down side" }));
        Statement::all([Some(what), side].into_iter().flatten().collect())
    };
    let (item, id) = match up {
        None => (122, "foot.leg"),
        Some(true) => (122, "foot.leg.up"),
        Some(false) => (123, "foot.leg.down"),
    };
    shop.plate(Draft {
        item,
        id,
        code: "LEG",
        name: named(say!("foot leg")),
        thickness: t,
        flat: leg,
        placements: legs,
        hand: Hand::Neutral,
        sources: &["casing.feet"],
        remarks: Statement::default(),
    });
    // Gusset: upright, across the machine, clear of the anchor's nut beside it.
    let stock = shop.stock();
    let reach = stock.fine_mm(py - t - 8.0);
    let height = stock.fine_mm((top - base.thickness - 20.0).clamp(20.0, stock.width_mm(150.0)));
    let tip = stock.width_mm(15.0).min(height / 2.0);
    let gusset = Contour::polygon([[0.0, 0.0], [reach, 0.0], [reach, tip], [tip, height], [0.0, height]]);
    let placements = group
        .iter()
        .map(|p| {
            let near = p.y.middle() > 0.0;
            let y = if near { out + t } else { -out - t };
            // Each on the left seen from outside: legs and pads are cut alike, and so the line is that all their pieces carry.
            let inward = stock.fine_mm(GUSSET_IN) + t / 2.0 - half;
            let x = p.x.middle() + if near { inward } else { -inward };
            // Back face toward the middle of the pad when near, else the plate is turned.
            let (right, toward, back) = if near { ([0.0, 1.0, 0.0], [-1.0, 0.0, 0.0], x + t / 2.0) } else { ([0.0, -1.0, 0.0], [1.0, 0.0, 0.0], x - t / 2.0) };
            Placement::new([back, y, base.thickness], right, [0.0, 0.0, 1.0], toward)
        })
        .collect();
    let (item, id) = match up {
        None => (124, "foot.gusset"),
        Some(true) => (124, "foot.gusset.up"),
        Some(false) => (125, "foot.gusset.down"),
    };
    shop.plate(Draft {
        item,
        id,
        code: "GUSS",
        name: named(say!("foot gusset")),
        thickness: t,
        flat: FlatPattern::new(gusset),
        placements,
        hand: Hand::Neutral,
        sources: &["casing.feet"],
        remarks: Statement::default(),
    });
}
