//! Flat-bar stiffeners, upright on the side plates, where nothing else is.

use super::flat::{Contour, FlatPattern};
use super::placement::Placement;
use super::shop::{Draft, Shop};
use super::take_up;
use super::{Hand, Lay};
use crate::model::frame::Extent;
use crate::say::Statement;
use crate::spec::openings::Wall;

const DEPTH: f64 = 50.0;
/// Corners cut off at the ends, mm.
const CORNER: f64 = 15.0;
/// Length of a bead of the staggered seams and from one to the next, mm (common practice, no source).
const BEAD: f64 = 75.0;
/// Free panel beyond which a wall is stiffened, as a multiple of its thickness (common practice, no source).
const PANEL: f64 = 60.0;

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
            let mut found = None;
            let steps = (half.size() / 20.0).floor() as i32;
            for i in 0..=steps {
                // From the middle outward, alternating.
                let off = f64::from((i + 1) / 2) * 10.0 * if i % 2 == 0 { 1.0 } else { -1.0 };
                let x = half.middle() + off;
                if shop.zones.free(wall, Extent::about(x, tf + 20.0), span) {
                    found = Some(x);
                    break;
                }
            }
            if let Some(x) = found {
                shop.zones.take(wall, "a stiffener", Extent::about(x, tf + 20.0), span);
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
        remarks: Statement::default(),
    });
    let lay = Lay::Staggered { bead: stock.width_mm(BEAD), gap: stock.width_mm(BEAD) };
    shop.fillet("stiffener", "stiffeners to side plates", [&["stiffener"], &["side_plate"]], lay, c.plate, false);
}
