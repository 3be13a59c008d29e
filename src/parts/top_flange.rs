//! The flange on top: flat bars outside the walls, and for two legs a cover plate between them.
//!
//! Each leg's bolt holes are one ring round its outer faces; bars and cover take the holes that fall on
//! them, so that a leg flanged with the same ring fits.

use super::bolts::{self, Held, PITCH};
use super::down_profile::DownProfile;
use super::flat::{Contour, FlatPattern, Xy};
use super::goods;
use super::placement::Placement;
use super::shop::{Butt, Draft, Joins, Shop, gasket};
use super::{Hand, Lay};
use crate::model::frame::Extent;
use crate::say;
use crate::say::Statement;

/// Bolt rings of the legs standing on the casing, plan (x, y), and the rectangle of each leg's outer faces.
pub fn rings(shop: &Shop) -> Vec<(Extent, Extent, Vec<Xy>)> {
    let c = &shop.foot.casing;
    let t = c.plate;
    c.trunk
        .iter()
        .map(|leg| {
            let (x, y) = (leg.x.grown(t), leg.y.grown(t));
            let f = c.flange / 2.0;
            (x, y, bolts::ring(x.grown(f), y.grown(f), PITCH, shop.stock()))
        })
        .collect()
}

/// Bars and the walls that they are welded to.
const TO_WALLS: Joins<'_> = [&["top_flange.near", "top_flange.far", "top_flange.up", "top_flange.down"], &["side_plate", "end_plate"]];

/// Bars that run over the corners and those between them; a gasket lies across their joints.
const TO_EACH_OTHER: Joins<'_> = [&["top_flange.near", "top_flange.far"], &["top_flange.up", "top_flange.down"]];

/// Adds the top flange.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let c = &foot.casing;
    let (t, f) = (shop.frame_thickness(), c.flange);
    let Some(bolt) = bolts::for_flange(f, shop.us()) else { return };
    let down = DownProfile::of(shop).outer_face_down().first().map_or(-c.up_face, |n| n.at[0]);
    let x = Extent::new(down, c.up_face + c.plate);
    let y = c.width.grown(c.plate);
    let rings = rings(shop);
    let mut seen = 0;
    let mut holes_in = |low: Xy, high: Xy| -> Vec<Xy> {
        let found: Vec<Xy> =
            rings.iter().flat_map(|r| r.2.iter().copied()).filter(|p| p[0] > low[0] && p[0] < high[0] && p[1] > low[1] && p[1] < high[1]).collect();
        seen += found.len();
        found
    };
    let back = c.top - t;
    // Bars: near and far run over the corners, up and down lie between them. Plan patterns have y toward the far side.
    let bars = [
        (131, "top_flange.near", "near", Extent::new(x.low - f, x.high + f), Extent::new(y.high, y.high + f), Hand::Near),
        (132, "top_flange.far", "far", Extent::new(x.low - f, x.high + f), Extent::new(y.low - f, y.low), Hand::Far),
        (133, "top_flange.up", "up side", Extent::new(x.high, x.high + f), y, Hand::Neutral),
        (134, "top_flange.down", "down side", Extent::new(x.low - f, x.low), y, Hand::Neutral),
    ];
    for (item, id, place, bx, by, hand) in bars {
        let mut flat = FlatPattern::new(Contour::rectangle([bx.low, -by.high], [bx.high, -by.low]));
        flat.clear(bolt, "top flange", holes_in([bx.low, by.low], [bx.high, by.high]).into_iter().map(|p| [p[0], -p[1]]));
        shop.plate(Draft {
            item,
            id,
            code: "TFL",
            name: Statement::all(vec![say!("top flange bar"), place.into()]),
            thickness: t,
            flat,
            placements: vec![Placement::plan(back)],
            hand,
            sources: &["casing.height", "casing.width"],
            remarks: Statement::default(),
        });
    }
    if let [up, leg_down] = c.trunk.as_slice() {
        let between = Extent::new(leg_down.x.high, up.x.low);
        let mut flat = FlatPattern::new(Contour::rectangle([between.low, -c.width.high], [between.high, -c.width.low]));
        let inside = holes_in([between.low, c.width.low], [between.high, c.width.high]);
        flat.clear(bolt, "top flange", inside.into_iter().map(|p| [p[0], -p[1]]));
        shop.plate(Draft {
            item: 135,
            id: "top_cover",
            code: "TCOV",
            name: "cover between the legs".into(),
            thickness: t,
            flat,
            placements: vec![Placement::plan(back)],
            hand: Hand::Neutral,
            sources: &["trunk[1].length", "trunk[2].length"],
            remarks: Statement::default(),
        });
        shop.fillet("top_cover", "cover between the legs to side plates", [&["top_cover"], &["side_plate"]], Lay::Every, c.plate, true);
    }
    let wanted: usize = rings.iter().map(|r| r.2.len()).sum();
    if seen != wanted {
        shop.defect(
            131,
            "casing.flange",
            say!("{lost} of {wanted} holes of the trunk flanges find no bar under them", lost = wanted.abs_diff(seen), wanted = wanted),
        );
    }
    shop.joint("top flange to the trunking", "top flange", bolt, wanted, 2.0 * t + gasket(shop.spec), Held::Nut);
    for (i, (x, y, holes)) in rings.iter().enumerate() {
        let number = i + 1;
        let frame = goods::strip_round(shop, (*x, Extent::new(-y.high, -y.low)), f / 2.0);
        let holes: Vec<Xy> = holes.iter().map(|p| [p[0], -p[1]]).collect();
        let bed = goods::Bed { frame, corner: 0.0, holes: &holes, bolt, place: Placement::plan(c.top) };
        let name = Statement::all(vec![say!("gasket of the top flange"), say!("leg {number}", number = number)]);
        goods::sheet_gasket(shop, if i == 0 { 136 } else { 137 }, &format!("top_flange.strip.{number}"), name, &bed, "casing.flange");
    }
    shop.fillet("top_flange", "top flange bars to the walls", TO_WALLS, Lay::Every, c.plate.min(t), true);
    shop.butt("top_flange", "top flange bars to each other at the corners, ground flush", TO_EACH_OTHER, (4.0 * f, t), Butt::FLUSH);
}
