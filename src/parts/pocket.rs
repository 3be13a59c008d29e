//! The shovel pocket: floor, two cheeks, top frame and bolted lid.
//!
//! Worked out in (d, z): d is the distance from the side plate's outer face. The floor runs from the
//! opening's lower edge up to the lip; the frame lies in the plane from lip to wall.

use super::bolts::{self, Held, PITCH};
use super::flat::{Contour, FlatPattern, Xy};
use super::goods;
use super::placement::Placement;
use super::shop::{Draft, Shop, gasket};
use super::{Hand, Lay};
use crate::formulas::pocket_place::{PANEL_OUT, UNDER_LID};
use crate::model::frame::Extent;
use crate::model::inlets::PocketBody;
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::Statement;
use crate::sizing::pocket_lid;
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;

/// Height at which the frame meets the wall: the lip's, but over the opening and under the sensor panels beside it.
pub fn top_at_wall(shop: &Shop, p: &PocketBody) -> f64 {
    let least = p.z.high + UNDER_LID;
    let wall = if p.side == Side::Near { Wall::Near } else { Wall::Far };
    let lap = shop.foot.lap;
    let panels = shop.foot.openings.iter().filter(|o| o.wall == wall && o.kind == OpeningKind::SensorPanel && o.across.grown(2.0 * lap + 8.0).overlaps(&p.x));
    let ceiling = panels.map(|o| o.up.low).fold(f64::INFINITY, f64::min) - lap - pocket_lid::AIR;
    // The lower it meets the wall, the more a lid that rises outward stands over that edge.
    let top = (0..4).fold(p.lip, |top, _| p.lip.min(ceiling - over_wall(shop, p, top)));
    top.max(least)
}

/// How far the lid and its bolts reach over the edge at the wall where the frame meets it at that height, mm: a lid that rises outward as
/// far out as a sensor panel stands.
pub fn over_wall(shop: &Shop, p: &PocketBody, top: f64) -> f64 {
    let slope = (p.lip - top) / p.reach;
    pocket_lid::stack(shop.foot.casing.plate, shop.stock()) * slope.hypot(1.0) + slope.max(0.0) * PANEL_OUT
}

/// Adds the pocket.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let Some(p) = &foot.pocket else { return };
    if !shop.is_cut("shovel_pocket.width") {
        return;
    }
    let c = &foot.casing;
    let t = c.plate;
    let near = p.side == Side::Near;
    let hand = if near { Hand::Near } else { Hand::Far };
    let s = if near { 1.0 } else { -1.0 };
    let wall = s * (c.width.high + t);
    let theta = ((p.lip - p.z.low) / p.reach).atan();
    let top = top_at_wall(shop, p);
    // Positive when the lid falls outward, negative when it rises to the lip.
    let alpha = ((top - p.lip) / p.reach).atan();
    if theta + alpha > 1.5 || theta + alpha < 0.25 {
        shop.defect(
            261,
            "shovel_pocket.slope",
            "the shovel pocket's floor and lid do not enclose a hopper; give shovel_pocket.slope or shovel_pocket.lip another value",
        );
        return;
    }
    let width = p.x.size();
    let add = |shop: &mut Shop, item, [id, code]: [&str; 2], name, flat, places| plate(shop, hand, (item, id, code, name), t, flat, places);
    // Seen from inside the hopper: pattern x against the machine on the near side.
    let right = [-s, 0.0, 0.0];
    let floor_length = (p.lip - p.z.low).hypot(p.reach);
    let up = [0.0, s * theta.cos(), theta.sin()];
    let toward = [0.0, -s * theta.sin(), theta.cos()];
    let floor = FlatPattern::new(Contour::rectangle([-width / 2.0, 0.0], [width / 2.0, floor_length]));
    let origin = [p.x.middle(), wall - toward[1] * t, p.z.low - toward[2] * t];
    add(shop, 261, ["pocket.floor", "PKFL"], "pocket floor", floor, vec![Placement::new(origin, right, up, toward)]);
    // Cheeks: from the floor's lower face to the frame.
    let drop = t / theta.cos();
    let tip = (top - p.z.low + drop) / (theta.tan() + alpha.tan());
    let cheek = FlatPattern::new(Contour::polygon([[0.0, p.z.low - drop], [tip, top - tip * alpha.tan()], [0.0, top]]));
    let cheek_at = |x: f64| Placement::new([x, wall, 0.0], [0.0, s, 0.0], [0.0, 0.0, 1.0], [-s, 0.0, 0.0]);
    let backs = if near { [p.x.high + t, p.x.low] } else { [p.x.high, p.x.low - t] };
    add(shop, 262, ["pocket.cheek", "PKCH"], "pocket cheek", cheek, backs.map(cheek_at).to_vec());
    let hopper = Hopper { p, hand, s, wall, top, alpha };
    if !hopper.frame_and_lid(shop) {
        return;
    }
    shop.fillet(
        "pocket",
        "pocket: floor and cheeks to side plate, frame and each other",
        [&["pocket.floor", "pocket.cheek"], &["side_plate", "pocket.frame", "pocket.floor", "pocket.cheek"]],
        Lay::Every,
        t,
        true,
    );
}

/// A plate of the pocket: item number, id, code, name.
fn plate(shop: &mut Shop, hand: Hand, (item, id, code, name): (u32, &str, &str, &'static str), thickness: f64, flat: FlatPattern, placements: Vec<Placement>) {
    let sources = ["shovel_pocket.width", "shovel_pocket.lip", "shovel_pocket.slope"];
    shop.plate(Draft { item, id, code, name: name.into(), thickness, flat, placements, hand, sources: &sources, remarks: Statement::default() });
}

/// What frame and lid need to know of the hopper below them.
struct Hopper<'a> {
    p: &'a PocketBody,
    hand: Hand,
    /// 1 on the near side, -1 on the far side.
    s: f64,
    /// The wall's outer face, across the machine, mm.
    wall: f64,
    /// Height of frame and lid at the wall, mm.
    top: f64,
    /// How far the lid falls outward, rad.
    alpha: f64,
}

impl Hopper<'_> {
    /// From wall to lip in the plane of the lid, mm.
    fn slant(&self) -> f64 {
        (self.top - self.p.lip).hypot(self.p.reach)
    }

    /// Frame and lid in the plane from wall to lip; `false` when there is no bolt for them.
    fn frame_and_lid(&self, shop: &mut Shop) -> bool {
        let &Self { p, s, wall, top, alpha, .. } = self;
        let (t, tf) = (shop.foot.casing.plate, shop.frame_thickness());
        let (lap, gasket) = (shop.foot.lap, gasket(shop.spec));
        let (width, slant, right) = (p.x.size(), self.slant(), [-s, 0.0, 0.0]);
        let g = [0.0, s * alpha.cos(), -alpha.sin()];
        let m = [0.0, s * alpha.sin(), alpha.cos()];
        // A lid that rises outward leans over its lower edge: frame and lid stand off the wall by that much.
        let lean = (-alpha).max(0.0).tan();
        // Its bolts lean with it: so much more that a spanner turns them beside the wall.
        let off = lean * (tf + gasket + t + pocket_lid::SPANNER);
        let fx = Extent::about(0.0, width + 2.0 * lap);
        let clear = (Extent::about(0.0, width), Extent::new(lap + off, slant));
        let Some(bolt) = pocket_lid::bolt(shop.stock()) else { return false };
        let holes: Vec<Xy> = bolts::ring(clear.0.grown(lap / 2.0), clear.1.grown(lap / 2.0), PITCH, shop.stock());
        let plane = |h: f64| Placement::new([p.x.middle(), wall + m[1] * h, top + m[2] * h], right, g, m);
        let outline = |low: f64| Contour::rectangle([fx.low, low], [fx.high, slant + lap]);
        if clear.1.size() > 80.0 {
            let mut frame = FlatPattern::new(outline(lean * tf));
            frame.open("shovel_pocket.width", Contour::rounded([clear.0.low, clear.1.low], [clear.0.high, clear.1.high], super::doors::CORNER));
            frame.tapped(bolt, "pocket lid", holes.iter().copied());
            plate(shop, self.hand, (263, "pocket.frame", "PKFR", "pocket top frame"), tf, frame, vec![plane(0.0)]);
            let mut lid = FlatPattern::new(outline(off));
            lid.clear(bolt, "pocket lid", holes.iter().copied());
            plate(shop, self.hand, (264, "pocket.lid", "PKLD", "pocket lid"), t, lid, vec![plane(tf + gasket)]);
            shop.joint("pocket lid", "pocket lid", bolt, holes.len(), t + gasket + tf, Held::Tapped);
            let up = |low: f64| Extent::new(low, slant + lap);
            // Where a lid leans over its lower edge, the gasket begins with it.
            let bed = goods::Bed { frame: [(fx, up(off)), clear], corner: 0.0, holes: &holes, bolt, place: plane(tf) };
            goods::sheet_gasket(shop, 266, "pocket.gasket", Statement::all(vec![say!("pocket lid"), say!("gasket")]), &bed, "shovel_pocket.width");
            goods::grip(shop, 265, "pocket.grip", say!("grip handle"), (plane(tf + gasket + t), 0.0, [0.0, slant / 2.0]), "shovel_pocket.width");
        } else {
            shop.defect(263, "shovel_pocket.width", "the shovel pocket is too small for a top frame");
        }
        true
    }
}
