//! The foot from above: casing and trunk openings, throats, bearings, pocket.
//!
//! The near side lies at the bottom (v = −y). Through the trunk openings the two runs of the belt
//! are seen cut at the casing's top, with a bucket on each.

use super::{Look, transition};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::model::inlets::InletBody;
use crate::model::openings::OpeningKind;
use crate::paper::mark::PlanePoint;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material, Side, rectangle};
use crate::spec::inlets::Side as Flank;
use crate::spec::openings::Wall;

fn rect(d: &mut Draft, pen: Pen, x: Extent, v: Extent) {
    d.rectangle(pen, (x.low, v.low), (x.high, v.high));
}

/// Everything that is drawn; no dimensions.
pub fn machine(d: &mut Draft, foot: &Foot) {
    let casing = &foot.casing;
    let x = Extent::new(casing.down_x(casing.top) - casing.plate, casing.up_face + casing.plate);
    let v = casing.width.grown(casing.plate);
    rect(d, Pen::Edge, x.grown(casing.flange), v.grown(casing.flange));
    let outermost = Extent::new(casing.down_outermost() - casing.plate, x.high);
    if outermost.low < x.low - 1.0 {
        rect(d, Pen::Hidden, outermost, v);
    }
    for t in &casing.trunk {
        rect(d, Pen::Edge, t.x, t.y);
    }
    belt(d, foot);
    for inlet in &foot.inlets {
        throat(d, foot, inlet);
    }
    for flank in [1.0, -1.0] {
        bearing(d, foot, flank);
    }
    pocket(d, foot);
    for o in &foot.openings {
        let thick = if matches!(o.kind, OpeningKind::Door { .. }) { casing.plate + 15.0 } else { casing.plate + 6.0 };
        let along = o.across.grown(foot.lap);
        match o.wall {
            Wall::Near => d.rectangle(Pen::Hidden, (along.low, v.low - thick), (along.high, v.low)),
            Wall::Far => d.rectangle(Pen::Hidden, (along.low, v.high), (along.high, v.high + thick)),
            Wall::UpEnd | Wall::DownEnd => {}
        }
    }
    d.centre_line((outermost.low, 0.0), (x.high, 0.0));
    d.centre_line((0.0, -foot.rotating.shaft_ends.high), (0.0, -foot.rotating.shaft_ends.low));
}

/// The runs of the belt at the casing's top, in section, each with a bucket row.
fn belt(d: &mut Draft, foot: &Foot) {
    let top = foot.casing.top;
    let (t, p) = (foot.belt.thickness, foot.bucket.projection);
    let up = foot.pulleys.foot.radius();
    let line = super::outline::belt_line(&foot.belt.lowest, foot.belt.thickness / 2.0, top);
    let down = line.first().map_or(-up - t, |l| l.at.x);
    for (face, out) in [(up + t, 1.0), (down, -1.0)] {
        let band = rectangle(PlanePoint::new(face - out * t, -foot.belt.width / 2.0), PlanePoint::new(face, foot.belt.width / 2.0));
        d.hatch(Material::Belt, vec![band.clone()]);
        d.stroke(Pen::Bucket, band);
        let b = &foot.bucket;
        let gap = if b.rows > 1 { (b.overall_length - f64::from(b.rows) * b.length) / f64::from(b.rows - 1) } else { 0.0 };
        for row in 0..b.rows {
            let low = -b.overall_length / 2.0 + f64::from(row) * (b.length + gap);
            d.rectangle(Pen::Bucket, (face, low), (face + out * p, low + b.length));
        }
    }
}

fn throat(d: &mut Draft, foot: &Foot, i: &InletBody) {
    let out = i.side.outward();
    let t = foot.casing.plate;
    let half = i.width.size() / 2.0;
    let top_edge = match i.side {
        crate::model::inlets::FeedSide::Up => foot.casing.up_face + t,
        crate::model::inlets::FeedSide::Down => foot.casing.down_x(i.opening.high) - t,
    };
    let end = i.flange_face - out * t;
    // Below the casing's top flange the throat is hidden.
    let flange_edge = match i.side {
        crate::model::inlets::FeedSide::Up => foot.casing.up_face + t + foot.casing.flange,
        crate::model::inlets::FeedSide::Down => foot.casing.down_x(foot.casing.top) - t - foot.casing.flange,
    };
    for v in [half + t, -half - t] {
        if (end - flange_edge) * out > 0.0 {
            d.line(Pen::Edge, (flange_edge, v), (end, v));
            d.line(Pen::Hidden, (top_edge, v), (flange_edge, v));
        } else {
            d.line(Pen::Hidden, (top_edge, v), (end, v));
        }
        let inner = v.signum() * half;
        d.line(Pen::Hidden, (top_edge, inner), (i.flange_face, inner));
    }
    d.rectangle(Pen::Edge, (end, -half - i.flange), (i.flange_face, half + i.flange));
    if let Some(tr) = &i.transition {
        transition::from_above(d, foot, i, tr, flange_edge);
    }
}

fn bearing(d: &mut Draft, foot: &Foot, flank: f64) {
    let r = &foot.rotating;
    let outside = foot.casing.width.size() / 2.0 + foot.casing.plate;
    let on_plate = outside + r.sliding_plate.thickness;
    let base = r.unit.depth * 0.25;
    let half = r.unit.across / 2.0;
    d.rectangle(Pen::Edge, (r.sliding_plate.x.low, flank * outside), (r.sliding_plate.x.high, flank * on_plate));
    d.rectangle(Pen::Edge, (-half, flank * on_plate), (half, flank * (on_plate + base)));
    d.rectangle(Pen::Edge, (-half * 0.6, flank * (on_plate + base)), (half * 0.6, flank * (on_plate + r.unit.depth)));
    let end = if flank > 0.0 { -r.shaft_ends.low } else { r.shaft_ends.high };
    let unit_end = on_plate + r.unit.depth;
    if end > unit_end {
        d.rectangle(Pen::Edge, (-r.journal / 2.0, flank * unit_end), (r.journal / 2.0, flank * end));
    }
}

fn pocket(d: &mut Draft, foot: &Foot) {
    let Some(p) = &foot.pocket else { return };
    let flank = if p.side == Flank::Near { -1.0 } else { 1.0 };
    let wall = foot.casing.width.size() / 2.0 + foot.casing.plate;
    let t = foot.casing.plate;
    d.rectangle(Pen::Edge, (p.x.low - t, flank * wall), (p.x.high + t, flank * (wall + p.reach)));
    d.line(Pen::FineEdge, (p.x.low - t, flank * (wall + p.reach - 25.0)), (p.x.high + t, flank * (wall + p.reach - 25.0)));
}

/// Arrows of the material's way into the foot.
pub fn flow(d: &mut Draft, foot: &Foot) {
    for i in &foot.inlets {
        let out = i.side.outward();
        d.flow_arrow((i.flange_face, 0.0), (i.outside + out * (i.flange_face - i.outside).abs() * 0.25, 0.0));
    }
}

/// Throat of the down side, pocket, sizes across.
pub fn dimensions(d: &mut Draft, foot: &Foot) {
    let look = Look::FromAbove;
    if let Some(i) = foot.inlet(crate::model::inlets::FeedSide::Down) {
        let at = |y: f64| PlanePoint::new(i.flange_face, -y);
        d.dimension(Side::Left, "inlet.down.width", at(i.width.low), at(i.width.high));
    }
    for i in &foot.inlets {
        let (key, up) = (i.side.key(), i.side == crate::model::inlets::FeedSide::Up);
        let _ = look.dimension(d, foot, if up { Side::Right } else { Side::Left }, &format!("inlet.{key}.from_width"));
        let _ = look.dimension(d, foot, Side::Below, &format!("inlet.{key}.from_length"));
    }
    if let Some(p) = &foot.pocket {
        let side = if p.side == Flank::Near { Side::Below } else { Side::Above };
        let _ = look.dimension(d, foot, side, "shovel_pocket.width");
    }
    let casing = &foot.casing;
    let v = casing.width.grown(casing.plate + casing.flange);
    let x = casing.up_face + casing.plate + casing.flange;
    d.dimension(Side::Right, "casing.top_flange.width", (x, v.low), (x, v.high)).overall();
}
