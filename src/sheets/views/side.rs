//! The foot from the up side: width, shaft, bearings, take-up, throat flange, pocket in profile.
//!
//! The far side lies on the right (u = −y). Bearings, sliding plates and take-up are alike on both
//! sides; they stand at the lowest position, the highest is phantom.

use super::Look;
use super::elevation;
use super::transition;
use super::window::Window;
use crate::model::Foot;
use crate::model::frame::{Extent, ModelPoint};
use crate::model::inlets::{FeedSide, InletBody};
use crate::model::openings::{Opening, OpeningKind};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side};
use crate::spec::inlets::Side as Flank;
use crate::spec::openings::Wall;
use crate::spec::rotating::TakeUpKind;

/// Everything that is drawn; no dimensions.
pub fn machine(d: &mut Draft, foot: &Foot) {
    shell(d, foot);
    let mut before = Vec::new();
    if let Some(inlet) = foot.inlet(FeedSide::Up) {
        let (half, flange) = (inlet.width.size() / 2.0, inlet.flange);
        let (low, high) = (inlet.flange_sill, inlet.flange_sill + inlet.opening.size());
        match &inlet.transition {
            Some(tr) => transition::from_outside(d, foot, inlet, tr),
            None => throat_flange(d, inlet, low, high),
        }
        let cheek = half + foot.casing.plate;
        before.push(Window { u: Extent::about(0.0, 2.0 * (half + flange)), z: Extent::new(low - flange, high + flange) });
        before.push(Window { u: Extent::about(0.0, 2.0 * cheek), z: Extent::new(inlet.sill - foot.casing.plate, high + flange) });
        if inlet.sill < low - flange - 1.0 {
            // Cheeks and floor of the throat below its flange.
            d.polyline(
                Pen::FineEdge,
                [(-cheek, low - flange), (-cheek, inlet.sill - foot.casing.plate), (cheek, inlet.sill - foot.casing.plate), (cheek, low - flange)],
            );
        }
    }
    if let Some((inlet, tr)) = foot.inlet(FeedSide::Down).and_then(|i| i.transition.as_ref().map(|tr| (i, tr))) {
        transition::beyond_casing(d, inlet, tr, foot.casing.width.size() / 2.0 + foot.casing.plate);
    }
    for opening in &foot.openings {
        opening_seen(d, foot, opening, &before);
    }
    for flank in [1.0, -1.0] {
        bearing_and_take_up(d, foot, flank);
    }
    shaft(d, foot);
    pocket(d, foot);
}

/// The flange of a throat that the spout is bolted to, and the way through it.
fn throat_flange(d: &mut Draft, inlet: &InletBody, low: f64, high: f64) {
    let (half, flange) = (inlet.width.size() / 2.0, inlet.flange);
    d.rectangle(Pen::Edge, (-half - flange, low - flange), (half + flange, high + flange));
    d.rectangle(Pen::Edge, (-half, low), (half, high));
    if inlet.opening.high > low + 1.0 && inlet.opening.high < high {
        d.line(Pen::FineEdge, (-half, inlet.opening.high), (half, inlet.opening.high));
    }
}

fn shell(d: &mut Draft, foot: &Foot) {
    let casing = &foot.casing;
    let (w, t, top) = (casing.width.size() / 2.0 + casing.plate, casing.plate, casing.top);
    let flange = casing.flange;
    d.rectangle(Pen::Edge, (-w, casing.feet), (w, top - t));
    d.rectangle(Pen::Edge, (-w - flange, top - t), (w + flange, top));
    d.line(Pen::FineEdge, (-w, casing.bottom_face), (w, casing.bottom_face));
    for pad in foot.base.pads.iter().filter(|p| p.x.middle() > 0.0) {
        let u = Extent::new(-pad.y.low, -pad.y.high);
        let thick = foot.base.thickness;
        let out = u.middle().signum();
        d.rectangle(Pen::Edge, (u.low, 0.0), (u.high, thick));
        // The foot below the bottom plate, and the gusset that stiffens the pad.
        d.rectangle(Pen::Edge, (out * (w - 2.0 * t), thick), (out * w, casing.feet.max(thick)));
        d.line(Pen::FineEdge, (out * w, thick + u.size()), (out * (w + u.size()), thick));
        d.centre_line((-pad.anchor.y, 0.0), (-pad.anchor.y, thick));
    }
    let end = elevation::broken_off(foot);
    let inner = casing.width.size() / 2.0;
    for flank in [1.0, -1.0] {
        d.line(Pen::Phantom, (flank * (inner + t), top + t), (flank * (inner + t), end));
        d.polyline(Pen::Phantom, [(flank * inner, top + t), (flank * (w + flange), top + t), (flank * (w + flange), top)]);
    }
    elevation::break_line(d, -w - 60.0, w + 60.0, end);
    d.centre_line((0.0, 0.0), (0.0, end));
}

/// An opening with its leaf; `before` lies in front of the up-side end plate and hides what is behind it.
fn opening_seen(d: &mut Draft, foot: &Foot, o: &Opening, before: &[Window]) {
    let half = foot.casing.width.size() / 2.0 + foot.casing.plate;
    match o.wall {
        Wall::UpEnd => {
            let u = Extent::new(-o.across.low, -o.across.high);
            let (leaf, high) = (u.grown(foot.lap), o.up.grown(foot.lap));
            for (a, b) in (Window { u: leaf, z: high }).sides() {
                partly_hidden(d, a, b, before);
            }
            d.rectangle(Pen::Hidden, (u.low, o.up.low), (u.high, o.up.high));
        }
        Wall::DownEnd => {}
        Wall::Near | Wall::Far => {
            let out = if o.wall == Wall::Near { -1.0 } else { 1.0 };
            let thick = if matches!(o.kind, OpeningKind::Door { .. }) { foot.casing.plate + 15.0 } else { foot.casing.plate + 6.0 };
            d.rectangle(Pen::FineEdge, (out * half, o.up.low - foot.lap), (out * (half + thick), o.up.high + foot.lap));
        }
    }
}

/// An edge, dashed where something lies before it.
fn partly_hidden(d: &mut Draft, from: [f64; 2], to: [f64; 2], before: &[Window]) {
    let mut seen = vec![(from, to)];
    for window in before {
        seen.iter().flat_map(|(p, q)| window.within(*p, *q)).for_each(|(p, q)| d.line(Pen::Hidden, p, q));
        seen = seen.into_iter().flat_map(|(p, q)| window.outside(p, q)).collect();
    }
    seen.into_iter().for_each(|(p, q)| d.line(Pen::Edge, p, q));
}

/// Sliding plate, bearing unit, rod and bracket on one side; `flank` is +1 on the right (far side).
fn bearing_and_take_up(d: &mut Draft, foot: &Foot, flank: f64) {
    let r = &foot.rotating;
    let outside = foot.casing.width.size() / 2.0 + foot.casing.plate;
    let plate = &r.sliding_plate;
    let on_plate = outside + plate.thickness;
    let z = foot.shaft_lowest;
    d.rectangle(Pen::Edge, (flank * outside, plate.z.low), (flank * on_plate, plate.z.high));
    let base = r.unit.depth * 0.25;
    d.rectangle(Pen::Edge, (flank * on_plate, z - r.unit.up / 2.0), (flank * (on_plate + base), z + r.unit.up / 2.0));
    d.rectangle(Pen::Edge, (flank * (on_plate + base), z - r.unit.up * 0.3), (flank * (on_plate + r.unit.depth), z + r.unit.up * 0.3));
    let travel = r.travel;
    d.rectangle(Pen::Phantom, (flank * on_plate, z + travel - r.unit.up / 2.0), (flank * (on_plate + base), z + travel + r.unit.up / 2.0));
    if r.take_up == TakeUpKind::Screw {
        let (axis, rod) = (outside + r.rod_out, r.rod_diameter / 2.0);
        let (shelf, nut) = (r.bracket_z + r.shelf_thickness, 1.6 * rod);
        let end = shelf + 2.0 * nut;
        let lug = Extent::new(plate.z.high - 10.0 - r.lug_thickness, plate.z.high - 10.0);
        d.rectangle(Pen::Edge, (flank * on_plate, lug.low), (flank * (on_plate + r.lug_reach), lug.high));
        d.rectangle(Pen::FineEdge, (flank * (axis - nut), lug.low - nut), (flank * (axis + nut), lug.low));
        d.rectangle(Pen::FineEdge, (flank * (axis - nut), lug.high), (flank * (axis + nut), lug.high + nut));
        d.rectangle(Pen::Edge, (flank * (axis - rod), lug.high + nut), (flank * (axis + rod), r.bracket_z));
        d.rectangle(Pen::Edge, (flank * (axis - rod), lug.low - 2.0 * nut), (flank * (axis + rod), lug.low - nut));
        d.rectangle(Pen::Edge, (flank * outside, r.bracket_z), (flank * (outside + r.shelf_depth), shelf));
        d.rectangle(Pen::FineEdge, (flank * (axis - nut), shelf), (flank * (axis + nut), shelf + nut));
        d.rectangle(Pen::Edge, (flank * (axis - rod), shelf + nut), (flank * (axis + rod), end));
        d.centre_line((flank * axis, lug.low - 2.0 * nut), (flank * axis, end));
    }
}

fn shaft(d: &mut Draft, foot: &Foot) {
    let r = &foot.rotating;
    let (z, half) = (foot.shaft_lowest, r.journal / 2.0);
    let unit_end = foot.casing.width.size() / 2.0 + foot.casing.plate + r.sliding_plate.thickness + r.unit.depth;
    for (flank, end) in [(1.0, -r.shaft_ends.low), (-1.0, r.shaft_ends.high)] {
        if end > unit_end {
            d.rectangle(Pen::Edge, (flank * unit_end, z - half), (flank * end, z + half));
        }
    }
    d.centre_line((-r.shaft_ends.high, z), (-r.shaft_ends.low, z));
    // The pulley behind the end plate.
    let p = &foot.pulleys.foot;
    d.rectangle(Pen::Hidden, (-p.face / 2.0, z - p.radius()), (p.face / 2.0, z + p.radius()));
}

fn pocket(d: &mut Draft, foot: &Foot) {
    let Some(p) = &foot.pocket else { return };
    let out = if p.side == Flank::Near { -1.0 } else { 1.0 };
    let wall = foot.casing.width.size() / 2.0 + foot.casing.plate;
    let t = foot.casing.plate;
    let u = |reach: f64| out * (wall + reach);
    let roof = p.z.high.max(p.lip + 120.0);
    d.polygon(Pen::Edge, [(u(0.0), p.z.low - t), (u(p.reach), p.lip - t), (u(p.reach), p.lip + 25.0), (u(0.0), roof)]);
    d.line(Pen::Hidden, (u(0.0), p.z.low), (u(p.reach), p.lip));
    d.line(Pen::FineEdge, (u(p.reach + 25.0), p.lip + 25.0), (u(0.0), roof + 25.0));
}

/// Widths, the shaft and the pocket.
pub fn dimensions(d: &mut Draft, foot: &Foot) {
    let look = Look::FromUp;
    look.each(d, foot, Side::Below, &["casing.width", "shaft.bearing_centres"]);
    if let Some(r) = look.dimension(d, foot, Side::Below, "shaft.length") {
        r.overall();
    }
    if let Some(i) = foot.inlet(FeedSide::Up) {
        let at = |y: f64| look.point(ModelPoint::new(i.flange_face, y, i.flange_sill + i.opening.size() + i.flange));
        d.dimension(Side::Above, "inlet.up.width", at(i.width.low), at(i.width.high));
    }
    if let Some(p) = &foot.pocket {
        let side = if p.side == Flank::Near { Side::Left } else { Side::Right };
        look.each(d, foot, side, &["shovel_pocket.sill", "shovel_pocket.lip"]);
        look.each(d, foot, Side::Above, &["shovel_pocket.reach"]);
    }
    for o in foot.openings.iter().filter(|o| o.wall == Wall::UpEnd) {
        let height = match o.kind {
            OpeningKind::CleanOut => Side::Left,
            _ => Side::Right,
        };
        let _ = look.dimension(d, foot, height, &format!("{}.height", o.id));
        if matches!(o.kind, OpeningKind::Door { .. }) {
            let _ = look.dimension(d, foot, height, &format!("{}.sill", o.id));
        }
    }
}
