//! The bottom: a flat plate under sides and ends, or a plate rolled round the bucket path.
//!
//! A rolled bottom is developed on its neutral line: straight, arc, straight; it lies outside the lower
//! edge of the side plates over their full outer width.

use super::down_profile::DownProfile;
use super::flat::{Bend, BendSide, Contour, FlatPattern};
use super::placement::Placement;
use super::shop::{Draft, Shop};
use super::{Hand, Lay};
use crate::say;
use crate::say::Statement;

/// Item number.
pub const ITEM: u32 = 105;

/// Adds the bottom.
pub fn build(shop: &mut Shop) {
    let c = &shop.foot.casing;
    let half = c.width.high + c.plate;
    let t = c.bottom_plate;
    let (flat, placement) = match (c.bottom_radius, c.bottom_arc) {
        (Some(r), Some([up, down])) => {
            let tangent = |angle: f64, x: f64, z: f64| (r * angle.sin() - x.abs()).hypot(c.bottom_face + r - r * angle.cos() - z);
            let first = tangent(down, c.down_x(c.down_shoulder), c.down_shoulder);
            let last = tangent(up, c.up_face, c.up_shoulder);
            let k = shop.k_factor(r, t);
            let arc = (up + down) * (r + k * t);
            let mut flat = FlatPattern::new(Contour::rectangle([0.0, -half], [first + arc + last, half]));
            flat.bends =
                vec![Bend { start: first, flat_length: arc, angle_deg: (up + down).to_degrees(), side: BendSide::Down, inside_radius: r, rolled: true }];
            let (cos, sin) = (down.cos(), down.sin());
            let start = [c.down_x(c.down_shoulder), 0.0, c.down_shoulder];
            (flat, Placement::new(start, [cos, 0.0, -sin], [0.0, 1.0, 0.0], [-sin, 0.0, -cos]))
        }
        _ => {
            let down = DownProfile::of(shop).outer_face_down().last().map_or(-c.up_face, |n| n.at[0]);
            let flat = FlatPattern::new(Contour::rectangle([down, -half], [c.up_face + c.plate, half]));
            (flat, Placement::plan(c.bottom_face - t))
        }
    };
    let rolled = c.bottom_radius.is_some();
    shop.plate(Draft {
        item: ITEM,
        id: "bottom",
        code: "BOTT",
        name: if rolled { Statement::all(vec![say!("bottom"), say!("rolled")]) } else { say!("bottom") },
        thickness: t,
        flat,
        placements: vec![placement],
        hand: Hand::Neutral,
        sources: &["casing.length", "casing.width", "casing.bottom"],
        remarks: if rolled { say!("seen from outside, rolled") } else { say!("seen from above") },
    });
    shop.fillet("bottom", "bottom to side plates", [&["bottom"], &["side_plate"]], Lay::Every, c.plate.min(t), true);
    shop.fillet("bottom", "bottom to end plates", [&["bottom"], &["end_plate"]], Lay::Every, c.plate.min(t), true);
}
