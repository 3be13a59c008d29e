//! The casing cut lengthwise: end plates, bottom, top flange, throats.
//!
//! In: the model. Out: strokes and hatches in the plane of the elevation. Plates stand at their true
//! thickness; bolts and stiffeners belong to the plate sheets.

use super::outline::{Corner, offset_left, plate_strips};
use crate::model::Foot;
use crate::model::base::Pad;
use crate::model::frame::Extent;
use crate::model::inlets::{FeedSide, InletBody};
use crate::model::openings::Opening;
use crate::paper::mark::{PlanePoint, Shape, Vertex};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material};
use crate::spec::openings::Wall;

/// A cut plate: outline and hatch.
pub fn cut(d: &mut Draft, corners: &[Corner]) {
    let shape = Shape::polygon(corners.iter().map(|c| PlanePoint::new(c[0], c[1])));
    d.hatch(Material::Metal, vec![shape.clone()]);
    d.stroke(Pen::Edge, shape);
}

/// A cut upright rectangle.
pub fn cut_rectangle(d: &mut Draft, x: Extent, z: Extent) {
    cut(d, &[[x.low, z.low], [x.high, z.low], [x.high, z.high], [x.low, z.high]]);
}

/// Inner and outer face of the down-side end plate, upward.
pub fn down_faces(foot: &Foot) -> (Vec<Corner>, Vec<Corner>) {
    let casing = &foot.casing;
    let mut inner = casing.down_face.clone();
    if let Some(first) = inner.first_mut() {
        first[1] = casing.down_shoulder.min(casing.top);
    }
    let outer = offset_left(&inner, casing.plate);
    let inner = offset_left(&inner, 0.0);
    (inner, outer)
}

/// Heights at which an end plate is open on the belt's middle plane.
fn gaps(foot: &Foot, side: FeedSide) -> Vec<Extent> {
    let wall = match side {
        FeedSide::Up => Wall::UpEnd,
        FeedSide::Down => Wall::DownEnd,
    };
    let cut_by = |o: &&Opening| o.wall == wall && o.across.low < 0.0 && o.across.high > 0.0;
    let mut all: Vec<Extent> = foot.openings.iter().filter(cut_by).map(|o| o.up).collect();
    all.extend(foot.inlet(side).map(|i| i.opening));
    all
}

/// End plates, bottom plate, feet and top flange in section.
pub fn section(d: &mut Draft, foot: &Foot) {
    let casing = &foot.casing;
    let t = casing.plate;
    let up_inner = [[casing.up_face, casing.up_shoulder], [casing.up_face, casing.top]];
    let up_outer = [[casing.up_face + t, casing.up_shoulder], [casing.up_face + t, casing.top]];
    let (down_inner, down_outer) = down_faces(foot);
    for piece in plate_strips(&up_inner, &up_outer, &gaps(foot, FeedSide::Up)) {
        cut(d, &piece);
    }
    for piece in plate_strips(&down_inner, &down_outer, &gaps(foot, FeedSide::Down)) {
        cut(d, &piece);
    }
    bottom(d, foot);
    top_flange(d, foot);
    feet(d, foot);
}

/// The bottom plate cut lengthwise as a closed band.
pub fn bottom_band(foot: &Foot) -> Vec<Vertex<PlanePoint>> {
    let casing = &foot.casing;
    let corner = |x: f64, y: f64, bulge: f64| Vertex { at: PlanePoint::new(x, y), bulge };
    let (Some(radius), Some([up, down])) = (casing.bottom_radius, casing.bottom_arc) else {
        let (left, right) = (casing.down_x(casing.bottom_face) - casing.plate, casing.up_face + casing.plate);
        return [(left, casing.feet), (right, casing.feet), (right, casing.bottom_face), (left, casing.bottom_face)].map(|(x, y)| corner(x, y, 0.0)).to_vec();
    };
    // Arc about the lowest shaft; beyond its ends the plate runs straight on to the end plates.
    let centre = casing.bottom_face + radius;
    let arc = |r: f64, angle: f64, sense: f64| (sense * r * angle.sin(), centre - r * angle.cos());
    let bulge = ((up + down) / 4.0).tan();
    let t = casing.bottom_plate;
    let shift = |(x, y): (f64, f64), angle: f64, sense: f64| (x + sense * t * angle.sin(), y - t * angle.cos());
    let (down_end, up_end) = ((casing.down_x(casing.down_shoulder), casing.down_shoulder), (casing.up_face, casing.up_shoulder));
    let (a, b) = (arc(radius, down, -1.0), arc(radius, up, 1.0));
    let (c, e) = (shift(up_end, up, 1.0), shift(down_end, down, -1.0));
    let (f, g) = (arc(radius + t, up, 1.0), arc(radius + t, down, -1.0));
    [(down_end, 0.0), (a, bulge), (b, 0.0), (up_end, 0.0), (c, 0.0), (f, -bulge), (g, 0.0), (e, 0.0)].map(|((x, y), bulge)| corner(x, y, bulge)).to_vec()
}

fn bottom(d: &mut Draft, foot: &Foot) {
    let contour = Shape::Polyline { vertices: bottom_band(foot), closed: true };
    d.hatch(Material::Metal, vec![contour.clone()]);
    d.stroke(Pen::Edge, contour);
}

fn top_flange(d: &mut Draft, foot: &Foot) {
    let casing = &foot.casing;
    let z = Extent::new(casing.top - casing.plate, casing.top);
    let down = casing.down_x(casing.top);
    let t = casing.plate;
    cut_rectangle(d, Extent::new(casing.up_face + t, casing.up_face + t + casing.flange), z);
    cut_rectangle(d, Extent::new(down - t - casing.flange, down - t), z);
    if let [up, low] = casing.trunk.as_slice() {
        cut_rectangle(d, Extent::new(low.x.high, up.x.low), z);
    }
}

/// The far side's feet behind the cut: pads on the floor with their webs.
fn feet(d: &mut Draft, foot: &Foot) {
    for pad in foot.base.pads.iter().filter(|p| p.y.middle() < 0.0) {
        let t = foot.base.thickness;
        d.rectangle(Pen::Edge, (pad.x.low, 0.0), (pad.x.high, t));
        let top = leg_top(foot, pad);
        if top > t {
            let web = pad.x.grown(-pad.x.size() * 0.15);
            d.rectangle(Pen::Edge, (web.low, t), (web.high, top));
        }
        d.centre_line((pad.anchor.x, 0.0), (pad.anchor.x, t));
    }
}

/// Upper end of the web on a pad: under the flat bottom, or up to where a curved one meets its end plate.
pub fn leg_top(foot: &Foot, pad: &Pad) -> f64 {
    let casing = &foot.casing;
    match casing.bottom_arc {
        None => casing.feet,
        Some(_) => {
            if pad.x.middle() > 0.0 {
                casing.up_shoulder
            } else {
                casing.down_shoulder
            }
        }
    }
}

/// A throat cut lengthwise: floor, roof and the outer flange.
pub fn throat(d: &mut Draft, foot: &Foot, inlet: &InletBody) {
    let out = inlet.side.outward();
    let t = foot.casing.plate;
    let slope = inlet.slope_deg.to_radians();
    let (tan, upright) = (slope.tan(), t / slope.cos());
    let start = |z: f64| match inlet.side {
        FeedSide::Up => foot.casing.up_face + t,
        FeedSide::Down => foot.casing.down_x(z) - t,
    };
    let end = inlet.flange_face - out * t;
    let line = |z0: f64, x: f64| z0 + (x - inlet.outside) * out * tan;
    let (floor_x, roof_x) = (start(inlet.opening.low), start(inlet.opening.high));
    for (x, z0, thick) in [(floor_x, inlet.opening.low, -upright), (roof_x, inlet.opening.high, upright)] {
        let (low, high) = (line(z0, x), line(z0, end));
        cut(d, &[[x, low], [end, high], [end, high + thick], [x, low + thick]]);
    }
    let face = Extent::new(end, inlet.flange_face);
    let low = inlet.flange_sill;
    let high = low + inlet.opening.size();
    cut_rectangle(d, face, Extent::new(low - inlet.flange, low));
    cut_rectangle(d, face, Extent::new(high, high + inlet.flange));
    if let Some(tr) = &inlet.transition {
        let (from, to) = (inlet.flange_face + out * t, tr.face - out * t);
        for (a, b, thick) in [(low, tr.opening.low, -upright), (high, tr.opening.high, t)] {
            cut(d, &[[from, a], [to, b], [to, b + thick], [from, a + thick]]);
        }
        for (face, z) in [(Extent::new(inlet.flange_face, from), Extent::new(low, high)), (Extent::new(to, tr.face), tr.opening)] {
            let face = Extent::new(face.low.min(face.high), face.low.max(face.high));
            cut_rectangle(d, face, Extent::new(z.low - inlet.flange, z.low));
            cut_rectangle(d, face, Extent::new(z.high, z.high + inlet.flange));
        }
        d.line(Pen::FineEdge, (to, tr.opening.low), (to, tr.opening.high));
    }
    // Edges of the opening seen behind the cut: cheek at the flange and at the end plate.
    d.line(Pen::FineEdge, (end, low), (end, high));
    d.line(Pen::FineEdge, (roof_x, inlet.opening.high), (floor_x, inlet.opening.low));
}
