//! Lifting lugs: four plates square to the end plates under the top flange, beside the side plates.
//!
//! A lug stands as near to the corner as its seams and the nut of a flange bolt let it, so that the side plate holds the wall behind it. Its pattern
//! has x out from the end plate and y up.

use super::flat::{Contour, FlatPattern, Node};
use super::placement::Placement;
use super::shop::{Draft, Shop};
use super::{Hand, Lay, top_flange};
use crate::model::frame::Extent;
use crate::model::lifting::Lug;
use crate::say;
use crate::say::{Statement, mm};
use crate::sizing::flange_room;
use crate::spec::openings::Wall;

/// What the hole of a lug is for.
pub const HOLE: &str = "lifting.shackle";
/// How far a lug gives way to a nut, in steps of whole sizes.
const STEPS: u32 = 80;
/// A washer over the width across flats of its nut (ISO 7089 and ISO 4032, from memory: at most).
const WASHER: f64 = 1.35;
/// A wall that leans by less over the height of a lug is upright, mm.
const UPRIGHT: f64 = 0.05;

/// The middles of the lugs from the belt's middle plane, on the up and on the down side; none where no flange bolts leave room for it.
fn places(shop: &Shop, lug: &Lug) -> Option<[f64; 2]> {
    let c = &shop.foot.casing;
    let outside = c.width.high + c.plate;
    let washer = flange_room::bolt(c.flange, shop.us()).map_or(0.0, |b| b.across_flats_mm * WASHER);
    let bolts: Vec<[f64; 2]> = top_flange::rings(shop).into_iter().flat_map(|r| r.2).collect();
    let apart = lug.thickness / 2.0 + lug.from_bolt(washer);
    let step = shop.stock().step_mm();
    let [up, down] = [(c.up_face + c.plate, 1.0), (c.down_outer_x(c.top), -1.0)].map(|(face, out)| {
        let clear = |y: f64| bolts.iter().all(|b| out * (b[0] - face) < 0.0 || (b[1].abs() - y).abs() >= apart);
        let at = |i: u32| outside - lug.inset() - lug.thickness / 2.0 - f64::from(i) * step;
        (0..STEPS).map(at).take_while(|y| *y > apart).find(|y| clear(*y))
    });
    up.zip(down).map(|(up, down)| [up, down])
}

/// Takes the room of the lugs on both end plates.
pub fn claim(shop: &mut Shop) {
    let Some(lug) = shop.foot.lug else { return };
    let top = shop.foot.casing.top;
    let Some(places) = places(shop, &lug) else { return };
    for (y, wall) in places.into_iter().zip([Wall::UpEnd, Wall::DownEnd]) {
        for side in [1.0, -1.0] {
            shop.zones.take(wall, "a lifting lug", Extent::about(side * y, 2.0 * lug.half_zone()), Extent::new(top - lug.room(), top));
        }
    }
}

/// Its outline with its hole: x out from the end plate, y up from the underside of the flange.
fn pattern(lug: &Lug) -> FlatPattern {
    let n = |at: [f64; 2], bulge: f64| Node { at, bulge };
    let (cut, [y, z]) = (lug.corner(), lug.eye());
    let (tangent, turn) = lug.tangent();
    let mut flat = FlatPattern::new(Contour::Path(vec![
        n([cut, 0.0], 0.0),
        n([0.0, -cut], 0.0),
        n([0.0, -lug.height], 0.0),
        n([lug.blunt(), -lug.height], 0.0),
        n(tangent, (turn / 4.0).tan()),
        n([y, 0.0], 0.0),
    ]));
    flat.round(lug.hole(), HOLE, [[y, z]]);
    flat
}

/// Adds the lugs.
pub fn build(shop: &mut Shop) {
    let Some(lug) = shop.foot.lug else { return };
    let c = &shop.foot.casing;
    let under = c.top - lug.bar();
    let half = lug.thickness / 2.0;
    if (c.down_x(c.top - lug.room()) - c.down_x(c.top)).abs() > UPRIGHT {
        shop.defect(
            142,
            "casing.height",
            say!("the down-side end plate bends behind a lifting lug, {height} under the top; give casing.height more", height = mm(lug.room())),
        );
    }
    let Some([up, down]) = places(shop, &lug) else {
        let what = say!("no flange bolts leave room for a lifting lug of {thickness} beside them; give lifting.thickness less", thickness = mm(lug.thickness));
        return shop.defect(142, "lifting.thickness", what);
    };
    let mut all = Vec::new();
    for side in [1.0, -1.0] {
        // The marked face looks to the near side on the up end, to the far side on the down end: so the pattern is the same.
        all.push(Placement::new([c.up_face + c.plate, side * up - half, under], [1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, 1.0, 0.0]));
        all.push(Placement::new([c.down_outer_x(c.top), side * down + half, under], [-1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]));
    }
    shop.plate(Draft {
        item: 142,
        id: "lifting_lug",
        code: "LUGL",
        name: "lifting lug".into(),
        thickness: lug.thickness,
        flat: pattern(&lug),
        placements: all,
        hand: Hand::Neutral,
        sources: &["lifting.thickness", "lifting.height"],
        remarks: Statement::default(),
    });
    let thin = c.plate.min(lug.thickness);
    shop.fillet("lifting_lug", "lifting lugs to end plates", [&["lifting_lug"], &["end_plate"]], Lay::Every, thin, false);
    shop.fillet(
        "lifting_lug",
        "lifting lugs to top flange bars",
        [&["lifting_lug"], &["top_flange.up", "top_flange.down"]],
        Lay::Every,
        lug.bar().min(lug.thickness),
        false,
    );
}
