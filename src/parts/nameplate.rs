//! The nameplate: on the near side plate under the top flange, where nothing else is.

use super::Kind;
use super::placement::Placement;
use super::shape::Shape;
use super::shop::{Fitting, Form, Shop};
use crate::model::frame::Extent;
use crate::say;
use crate::say::size;
use crate::spec::openings::Wall;

/// Width, height, thickness, mm, in metric stock.
const SIZE: [f64; 3] = [100.0, 60.0, 1.0];
/// Its middle under the casing's upper edge, mm, where that is free.
const BELOW: f64 = 60.0;
/// Left free round it for seams and fingers, mm.
const AROUND: f64 = 15.0;
/// Places are tried so far apart, mm.
const STEP: f64 = 20.0;

/// Adds it, after everything that takes up room on the walls.
pub fn build(shop: &mut Shop) {
    let c = &shop.foot.casing;
    let stock = shop.stock();
    let [wide, high, thick] = [stock.width_mm(SIZE[0]), stock.width_mm(SIZE[1]), stock.fine_mm(SIZE[2])];
    let outer = c.width.high + c.plate;
    let (top, reach) = (c.top - BELOW, c.up_face.max(-c.down_face.first().map_or(-c.up_face, |p| p[0])));
    // From the top down, in each height from the middle outward.
    let heights = (0..).map(|i| top - f64::from(i) * STEP).take_while(|z| *z > top / 2.0);
    let across = || (0..).map(|i| f64::from(i) * STEP).take_while(|x| *x < reach).flat_map(|x| [x, -x]);
    let mut places = heights.flat_map(|z| across().map(move |x| [x, z]));
    let free = |zones: &mut super::zones::Zones, [x, z]: [f64; 2]| {
        zones.claim(Wall::Near, "the nameplate", Extent::about(x, wide + 2.0 * AROUND), Extent::about(z, high + 2.0 * AROUND)).is_ok()
    };
    let at = places.find(|at| free(&mut shop.zones, *at)).unwrap_or([0.0, top]);
    shop.fitting(Fitting {
        item: 660,
        id: "nameplate",
        name: "nameplate".into(),
        kind: Kind::Bought,
        material: "stainless steel".into(),
        dimension: say!("{width} × {height} × {t}", width = size(wide, 3), height = size(high, 3), t = size(thick, 4)),
        form: Form(Shape::Sheet { size: [wide, high], thickness: thick }, true, vec![Placement::near(outer).moved([at[0], 0.0, at[1]])]),
        paint_m2: 0.0,
        sources: &["project"],
        remarks: "self-adhesive; number, year, belt speed, capacity".into(),
    });
}
