//! Earthing bosses: a tapped boss low on each side plate, beside a foot, for the bond to protective earth and lightning protection.
//!
//! The first place that is free beside a foot of the up side, then of the down side, from the foot inward and from the bottom up; on a
//! small foot with less room round it, or over the foot. One side is enough where the other has no place.

use super::placement::Placement;
use super::shape::Shape;
use super::shop::{Fitting, Form, Shop};
use super::{Kind, Lay};
use crate::model::frame::Extent;
use crate::say;
use crate::say::{name, size};
use crate::spec::openings::Wall;

/// Diameter and length, mm, in metric stock (common practice, no source).
const SIZE: [f64; 2] = [30.0, 20.0];
/// Its thread.
const THREAD: &str = "M10";
/// Room round its middle for its seam, a cable lug and a spanner, mm; on a small foot the lug stands out past what is beside it.
const AROUND: [f64; 2] = [35.0, 22.0];
/// From one place that is tried to the next, and how many, mm.
const STEP: f64 = 10.0;
const STEPS: u32 = 40;

/// Its middle on a wall, (x, z), with so much room round it.
fn place(shop: &mut Shop, wall: Wall, around: f64) -> Option<[f64; 2]> {
    let c = &shop.foot.casing;
    // From each foot toward the shaft.
    let pads = shop.foot.base.pads.iter();
    let beside = pads.clone().map(|p| if p.x.middle() > 0.0 { [p.x.low - around, -1.0] } else { [p.x.high + around, 1.0] });
    let over = pads.map(|p| [p.x.middle(), -p.x.middle().signum()]);
    let mut starts: Vec<[f64; 2]> = beside.chain(over).filter(|s| s[0] * s[1] < 0.0).collect();
    starts.sort_by(|a, b| a[1].total_cmp(&b[1]));
    starts.dedup();
    let rows = |x: f64| (0..STEPS).map(move |i| c.lower_edge(x.abs() + around) + around + 5.0 + f64::from(i) * STEP);
    let all = starts.into_iter().flat_map(|[from, inward]| (0..STEPS).map(move |i| from + inward * f64::from(i) * STEP).take_while(move |x| x * inward < 0.0));
    let stock = shop.stock();
    let places: Vec<[f64; 2]> = all.flat_map(|x| rows(x).map(move |z| [x, z])).map(|at| at.map(|v| stock.up_mm(v))).collect();
    places.into_iter().find(|[x, z]| shop.zones.claim(wall, "an earthing boss", Extent::about(*x, 2.0 * around), Extent::about(*z, 2.0 * around)).is_ok())
}

/// Adds them, after everything that is cut into the walls.
pub fn build(shop: &mut Shop) {
    let Some(thread) = shop.bolt(THREAD) else { return };
    let c = &shop.foot.casing;
    let (outer, stock) = (c.width.high + c.plate, shop.stock());
    let [diameter, length] = [stock.width_mm(SIZE[0]), stock.width_mm(SIZE[1])];
    let out = outer + length / 2.0;
    let mut all = Vec::new();
    for (wall, on) in [(Wall::Near, Placement::near(out)), (Wall::Far, Placement::far(-out))] {
        if let Some([x, z]) = AROUND.into_iter().find_map(|around| place(shop, wall, around)) {
            all.push(on.moved([x, 0.0, z]));
        }
    }
    if all.is_empty() {
        return shop.defect(143, "casing.feet", "no side plate has room for its earthing boss beside a foot");
    }
    let decimals = shop.decimals();
    shop.fitting(Fitting {
        item: 143,
        id: "earthing_boss",
        name: "earthing boss".into(),
        kind: Kind::Bought,
        material: "stainless steel".into(),
        dimension: say!(
            "⌀{diameter} × {length}, {thread} tapped through",
            diameter = size(diameter, decimals),
            length = size(length, decimals),
            thread = name(thread.tapped())
        ),
        form: Form(Shape::Ring { diameter, bore: thread.tap_drill_mm, length }, true, all),
        paint_m2: 0.0,
        sources: &["casing.feet"],
        remarks: "end face and thread left bare of paint".into(),
    });
    shop.fillet("earthing_boss", "earthing bosses to side plates", [&["earthing_boss"], &["side_plate"]], Lay::Every, c.plate, false);
}
