//! Flat-bar stiffeners, upright on the side plates, where nothing else is.

use super::flat::{Contour, FlatPattern};
use super::placement::Placement;
use super::shop::{Draft, Shop};
use super::take_up;
use super::{Hand, Lay};
use crate::model::frame::Extent;
use crate::spec::openings::Wall;

const DEPTH: f64 = 50.0;
/// Corners cut off at the ends, mm.
const CORNER: f64 = 15.0;
/// Length of a bead of the staggered seams and from one to the next, mm (common practice, no source).
const BEAD: f64 = 75.0;
/// Free panel beyond which a wall is stiffened, as a multiple of its thickness (common practice, no source).
const PANEL: f64 = 60.0;
/// What stiffeners keep from what else is on the wall, mm: room for the torch to the seams of frames and guides, where there is that much
/// (common practice, no source); else they come after those, with room for their own seams.
const APART: [f64; 2] = [35.0, 10.0];

/// Where a stiffener has so much room on a wall: from the middle of a panel outward, alternating; with that room.
fn place(shop: &Shop, wall: Wall, panel: Extent, room: f64, span: Extent) -> Option<(f64, f64)> {
    let steps = (panel.size() / 20.0).floor() as i32;
    let at = |i: i32| panel.middle() + f64::from((i + 1) / 2) * 10.0 * if i % 2 == 0 { 1.0 } else { -1.0 };
    (0..=steps).map(at).find(|x| shop.zones.free(wall, Extent::about(*x, room), span)).map(|x| (x, room))
}

/// Adds the stiffeners.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let c = &foot.casing;
    let tf = shop.frame_thickness();
    let guides = take_up::guide_zone(shop).0.high;
    let down = -c.down_x(c.down_shoulder);
    let halves = [Extent::new(guides + 25.0, c.up_face - 25.0), Extent::new(-down + 25.0, -guides - 25.0)];
    let low = c.bottom_shoulder + 20.0;
    let span = Extent::new(low, c.top - tf - 20.0);
    if span.size() < 300.0 {
        return;
    }
    let mut places = Vec::new();
    for half in halves {
        if half.size() < PANEL * c.plate / 2.0 {
            continue;
        }
        for wall in [Wall::Near, Wall::Far] {
            if let Some((x, room)) = APART.into_iter().find_map(|apart| place(shop, wall, half, tf + 2.0 * apart, span)) {
                shop.zones.take(wall, "a stiffener", Extent::about(x, room), span);
                places.push((wall, x));
            }
        }
    }
    if places.is_empty() {
        return;
    }
    let stock = shop.stock();
    let (depth, cut) = (stock.width_mm(DEPTH), stock.width_mm(CORNER));
    let flat = FlatPattern::new(Contour::polygon([
        [0.0, span.low],
        [depth - cut, span.low],
        [depth, span.low + cut],
        [depth, span.high - cut],
        [depth - cut, span.high],
        [0.0, span.high],
    ]));
    let outer = c.width.high + c.plate;
    let placements = places
        .iter()
        .map(|(wall, x)| {
            if *wall == Wall::Near {
                Placement::new([x + tf / 2.0, outer, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0])
            } else {
                Placement::new([x - tf / 2.0, -outer, 0.0], [0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0])
            }
        })
        .collect();
    shop.plate(Draft {
        item: 141,
        id: "stiffener",
        code: "STIF",
        name: "stiffener".into(),
        thickness: tf,
        flat,
        placements,
        hand: Hand::Neutral,
        sources: &["casing.height"],
        remarks: "welded on after the frames beside it".into(),
    });
    let lay = Lay::Staggered { bead: stock.width_mm(BEAD), gap: stock.width_mm(BEAD) };
    shop.fillet("stiffener", "stiffeners to side plates", [&["stiffener"], &["side_plate"]], lay, c.plate, false);
}
