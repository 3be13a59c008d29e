//! Bought goods by the metre and by the piece, as a metric or a US shop orders them: gaskets, grips, felt.
//!
//! In: which shop, where a gasket or grip goes. Out: parts, and words with sizes for the lists. Inch goods are the usual ones next
//! in size (common practice, no source).

use super::flat::Xy;
use super::placement::Placement;
use super::shape::{Gasket, Shape};
use super::shop::{Fitting, Form, Shop, gasket};
use super::{Kind, Lay, bolts};
use crate::model::frame::Extent;
use crate::say;
use crate::say::{Amount, Statement, size};
use crate::tables::plates::Stock;
use crate::tables::threads::Thread;

/// Width of a strip round a flange, mm, in metric stock.
const STRIP: f64 = 30.0;
/// Thickness of gaskets before they are pressed, mm, in metric stock.
const FREE: f64 = 4.0;
/// Bow of a grip over its legs, how far it stands out, its square bar, mm, in metric stock.
const GRIP: [f64; 3] = [120.0, 45.0, 12.0];

/// What comes off in service and is heavier than this has a place for a sling, kg (common practice, no source).
pub const BY_HAND_KG: f64 = 25.0;
/// What the holes are for in which it hangs.
pub const SLING: &str = "sling";

/// Hole for the hook of a sling, mm: a hook or the pin of a small shackle.
pub fn sling_hole(stock: Stock) -> f64 {
    stock.fine_mm(14.0)
}

/// A size of metric or of inch goods, the latter in sixteenths of an inch.
fn of_shop(us: bool, metric_mm: f64, sixteenths: f64) -> Amount {
    size(if us { sixteenths / 16.0 * crate::units::MM_PER_INCH } else { metric_mm }, 1)
}

/// Felt in the guides of the sliding plates.
pub fn guide_felt(us: bool) -> Statement {
    say!("felt strip {wide} × {thick} in the guides", wide = of_shop(us, 20.0, 12.0), thick = of_shop(us, 10.0, 6.0))
}

/// Where a gasket lies: the plate below it, in whose pattern all sizes are, and its holes for these bolts.
pub struct Bed<'a> {
    /// Outline and opening, across and up.
    pub frame: [(Extent, Extent); 2],
    /// Radius of its corners, mm.
    pub corner: f64,
    /// Holes.
    pub holes: &'a [Xy],
    /// Their bolts.
    pub bolt: &'a Thread,
    /// Pattern of the plate, its h = 0 where the gasket begins.
    pub place: Placement,
}

/// Adds a gasket: a frame cut from sheet, pressed to the gap that is kept for it.
pub fn sheet_gasket(shop: &mut Shop, item: u32, id: &str, name: Statement, bed: &Bed<'_>, feature: &str) {
    let [(x, y), (u, v)] = bed.frame;
    let middle = [x.middle(), y.middle()];
    let thickness = gasket(shop.spec);
    let shape = Gasket {
        outer: [x.size(), y.size()],
        inner: [u.size(), v.size()],
        corner: bed.corner,
        holes: bed.holes.iter().map(|h| [h[0] - middle[0], h[1] - middle[1]]).collect(),
        hole: bolts::hole(bed.bolt),
        thickness,
    };
    let decimals = shop.decimals().max(1);
    shop.fitting(Fitting {
        item,
        id,
        name,
        kind: Kind::Bought,
        material: "EPDM".into(),
        dimension: say!(
            "{width} × {height}, {wide} wide, {free} thick, pressed to {thick}",
            width = size(x.size(), decimals),
            height = size(y.size(), decimals),
            wide = size((x.size() - u.size()) / 2.0, decimals),
            free = of_shop(shop.us(), FREE, 3.0),
            thick = size(thickness, decimals),
        ),
        form: Form(Shape::Gasket(shape), false, vec![bed.place.at(middle[0], middle[1])]),
        paint_m2: 0.0,
        sources: &[feature],
        remarks: Statement::default(),
    });
}

/// Outline and opening of a strip whose middle runs along a ring of bolts round a clear opening, `off` mm outside it.
pub fn strip_round(shop: &Shop, (x, y): (Extent, Extent), off: f64) -> [(Extent, Extent); 2] {
    let half = shop.stock().width_mm(STRIP) / 2.0;
    [off + half, off - half].map(|by| (x.grown(by), y.grown(by)))
}

/// Adds a grip on the outer face of a leaf: `place` is the leaf's, `on` its outer face over the back one, `at` the grip's middle.
pub fn grip(shop: &mut Shop, item: u32, id: &str, name: Statement, (place, on, at): (Placement, f64, Xy), feature: &str) {
    let stock = shop.stock();
    let [bow, out, bar] = [stock.width_mm(GRIP[0]), stock.width_mm(GRIP[1]), stock.fine_mm(GRIP[2])];
    let foot = place.point(at[0], at[1] + bar / 2.0, on);
    let down = place.up.map(|d| 0.0 - d);
    shop.fitting(Fitting {
        item,
        id,
        name,
        kind: Kind::Bought,
        material: "steel, black".into(),
        dimension: say!("bow {bow}, {out} high, of square bar {bar}", bow = size(bow, 2), out = size(out, 2), bar = size(bar, 2)),
        paint_m2: 0.0,
        form: Form(Shape::Grip { bow, out, bar }, true, vec![Placement::new([foot.x, foot.y, foot.z], place.right, place.toward, down)]),
        sources: &[feature],
        remarks: "welded on".into(),
    });
    let opening = id.rsplit_once('.').map_or(id, |(opening, _)| opening);
    shop.fillet(id, "grip handle to its leaf", [&[id], &[&format!("{opening}.leaf"), &format!("{opening}.lid")]], Lay::Every, bar.min(4.0), false);
}
