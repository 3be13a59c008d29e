//! Pulleys as drawn: rim cut at the middle, disc, hub and shaft.
//!
//! The spec gives diameter, face and hub distance; rim, disc and hub are drawn in usual proportions
//! (common practice, no source) and are not dimensioned unless the parts say otherwise.

use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material};
use crate::spec::pulleys::PulleyStyle;
use std::f64::consts::TAU;

/// Rim thickness as drawn, mm.
pub fn rim(diameter: f64) -> f64 {
    (diameter / 80.0).clamp(8.0, 25.0)
}

/// Hub diameter as drawn, mm.
pub fn hub(shaft: f64) -> f64 {
    shaft * 1.7
}

/// A pulley cut at its middle: rim and shaft in section, hub disc behind.
pub fn section(d: &mut Draft, centre: PlanePoint, diameter: f64, shaft: f64, style: PulleyStyle) {
    let (outer, inner) = (diameter / 2.0, diameter / 2.0 - rim(diameter));
    match style {
        PulleyStyle::Drum => {
            let ring = |r: f64| Shape::Circle { centre, radius: r };
            d.hatch(Material::Metal, vec![ring(outer), ring(inner)]);
            d.circle(Pen::Edge, centre, outer);
            d.circle(Pen::Edge, centre, inner);
        }
        PulleyStyle::Winged => wings(d, centre, outer, hub(shaft) / 2.0),
    }
    d.circle(Pen::Edge, centre, hub(shaft) / 2.0);
    let bar = Shape::Circle { centre, radius: shaft / 2.0 };
    d.hatch(Material::MetalOther, vec![bar]);
    d.circle(Pen::Edge, centre, shaft / 2.0);
    d.centre_cross(centre, outer);
}

/// Wings from the hub with a bar on each outer edge.
fn wings(d: &mut Draft, centre: PlanePoint, outer: f64, inner: f64) {
    let count = ((TAU * outer / 220.0).round() as usize).clamp(8, 16);
    let bar = (outer / 12.0).max(15.0);
    for i in 0..count {
        let angle = TAU * (i as f64 + 0.5) / count as f64;
        let (cos, sin) = (angle.cos(), angle.sin());
        let at = |r: f64, s: f64| PlanePoint::new(centre.x + r * cos - s * sin, centre.y + r * sin + s * cos);
        let root = outer - 8.0;
        d.line(Pen::Edge, at(inner, 0.0), at(root, 0.0));
        d.polygon(Pen::Edge, [at(root, -bar), at(outer - 1.0, -bar), at(outer - 1.0, bar), at(root, bar)]);
    }
    d.circle(Pen::Centre, centre, outer);
}

/// An extreme position: rim and shaft in phantom line.
pub fn phantom(d: &mut Draft, centre: PlanePoint, diameter: f64, shaft: f64) {
    d.circle(Pen::Phantom, centre, diameter / 2.0);
    d.circle(Pen::Phantom, centre, shaft / 2.0);
}
