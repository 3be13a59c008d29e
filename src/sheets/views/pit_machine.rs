//! The foot as a neighbouring part on the pit sheet: outlines in phantom line, pads and anchors.

use super::Look;
use super::outline::{Corner, offset_left};
use crate::model::Foot;
use crate::model::frame::{Extent, ModelPoint};
use crate::paper::mark::PlanePoint;
use crate::paper::style::Pen;
use crate::paper::view::Draft;
use crate::spec::inlets::Side as Flank;

/// Offsets across the machine of the elevators that share the pit; the first is the one drawn on the other sheets.
pub fn rows(foot: &Foot) -> Vec<f64> {
    let (count, pitch) = foot.pit.as_ref().map_or((1, 0.0), |p| (p.elevators, p.pitch));
    (0..count).map(|i| -f64::from(i) * pitch).collect()
}

/// Seen from the near side.
pub fn elevation(d: &mut Draft, foot: &Foot) {
    let c = &foot.casing;
    let outer = down_outside(foot);
    let mut outline: Vec<[f64; 2]> = vec![[c.up_face + c.plate, c.feet], [c.up_face + c.plate, c.top]];
    outline.extend(outer.iter().rev());
    outline.push([c.down_x(c.bottom_face) - c.plate, c.feet]);
    d.polygon(Pen::Phantom, outline);
    for pad in foot.base.pads.iter().filter(|p| p.y.middle() > 0.0) {
        d.rectangle(Pen::Phantom, (pad.x.low, 0.0), (pad.x.high, c.feet.max(foot.base.thickness)));
    }
    for i in &foot.inlets {
        let rise = i.flange_sill - i.sill;
        let h = i.opening.size();
        d.polyline(Pen::Phantom, [(i.outside, i.sill), (i.flange_face, i.sill + rise), (i.flange_face, i.sill + rise + h), (i.outside, i.sill + h)]);
    }
    let p = &foot.pulleys.foot;
    d.circle(Pen::Phantom, (0.0, foot.shaft_lowest), p.radius());
    d.centre_cross((0.0, foot.shaft_lowest), p.radius());
    if let Some(b) = &foot.pulleys.bend {
        d.circle(Pen::Phantom, Look::Elevation.point(b.centre), b.radius());
        d.centre_cross(Look::Elevation.point(b.centre), b.radius());
    }
}

/// Seen from the up side; one for each elevator in the pit.
pub fn from_up(d: &mut Draft, foot: &Foot) {
    let c = &foot.casing;
    for row in rows(foot) {
        let u = |y: f64| -(y + row);
        let w = c.width.grown(c.plate);
        d.rectangle(Pen::Phantom, (u(w.high), c.feet), (u(w.low), c.top));
        d.line(Pen::Phantom, (u(foot.rotating.shaft_ends.high), foot.shaft_lowest), (u(foot.rotating.shaft_ends.low), foot.shaft_lowest));
        if let Some(p) = &foot.pocket {
            let (wall, out) = if p.side == Flank::Near { (w.high, 1.0) } else { (w.low, -1.0) };
            d.polyline(Pen::Phantom, [(u(wall), p.z.low), (u(wall + out * p.reach), p.lip), (u(wall), p.z.high)]);
        }
        for pad in foot.base.pads.iter().filter(|p| p.x.middle() > 0.0) {
            d.rectangle(Pen::Phantom, (u(pad.y.high), 0.0), (u(pad.y.low), foot.base.thickness));
        }
        d.centre_line((u(0.0), 0.0), (u(0.0), c.top));
    }
}

/// Seen from above; one for each elevator in the pit.
pub fn from_above(d: &mut Draft, foot: &Foot) {
    let c = &foot.casing;
    for row in rows(foot) {
        let v = |y: f64| -(y + row);
        let x = Extent::new(c.down_outermost() - c.plate, c.up_face + c.plate);
        let w = c.width.grown(c.plate);
        d.rectangle(Pen::Phantom, (x.low, v(w.high)), (x.high, v(w.low)));
        for i in &foot.inlets {
            d.rectangle(Pen::Phantom, (i.outside, v(i.width.high)), (i.flange_face, v(i.width.low)));
        }
        let half = foot.rotating.shaft_diameter / 2.0;
        d.rectangle(Pen::Phantom, (-half, v(foot.rotating.shaft_ends.high)), (half, v(foot.rotating.shaft_ends.low)));
        if let Some(p) = &foot.pocket {
            let (wall, out) = if p.side == Flank::Near { (w.high, 1.0) } else { (w.low, -1.0) };
            d.rectangle(Pen::Phantom, (p.x.low, v(wall)), (p.x.high, v(wall + out * p.reach)));
        }
        for pad in &foot.base.pads {
            d.rectangle(Pen::Phantom, (pad.x.low, v(pad.y.high)), (pad.x.high, v(pad.y.low)));
            d.hole(Pen::Edge, Look::FromAbove.point(ModelPoint { y: pad.anchor.y + row, ..pad.anchor }), foot.base.hole / 2.0);
        }
        d.centre_line((x.low, v(0.0)), (x.high, v(0.0)));
    }
    let all = rows(foot).last().copied().unwrap_or(0.0);
    d.centre_line(PlanePoint::new(0.0, -foot.rotating.shaft_ends.high - 200.0), PlanePoint::new(0.0, -(all + foot.rotating.shaft_ends.low) + 200.0));
}

/// Outer face of the down-side end plate, upward.
fn down_outside(foot: &Foot) -> Vec<Corner> {
    let casing = &foot.casing;
    let mut inner = casing.down_face.clone();
    if let Some(first) = inner.first_mut() {
        first[1] = casing.down_shoulder.min(casing.top);
    }
    offset_left(&inner, casing.plate)
}
