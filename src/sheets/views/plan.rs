//! The foot from above: casing and trunk openings, throats, bearings, pocket.
//!
//! The near side lies at the bottom (v = −y). Through the trunk openings the two runs of the belt
//! are seen cut, with a bucket on each.

use super::Look;
use super::bodies::{BOLT_HOLES, Picture, Show};
use super::elevation::ANCHOR;
use super::seen::Seen;
use crate::model::Foot;
use crate::paper::mark::PlanePoint;
use crate::paper::view::{Draft, Side};
use crate::sheets::Subject;
use crate::spec::inlets::Side as Flank;

/// Everything that is drawn, no dimensions; what is seen of each item. Belt and buckets are cut at the casing's top, or above an
/// inlet that stands higher; bolts are left to the plates.
pub fn machine(subject: &Subject<'_>, d: &mut Draft) -> Vec<Seen> {
    let foot = subject.foot;
    let from_above = Picture::new(subject.machine, Look::FromAbove).without_holes(BOLT_HOLES);
    let inlets = from_above.reach(|p| !p.is_small() && p.of_any(&["throat", "transition"])).map_or(0.0, |(_, high)| high.z);
    let all = from_above.cut_at(0.0, 0.0, foot.casing.top.max(inlets));
    let seen = all.draw_seen(d, |p| match () {
        () if p.is_small() && !p.of(ANCHOR) => None,
        // The clear width under the lid.
        () if p.of("pocket.cheek") => Some(Show::Hidden),
        () => Some(Show::Seen),
    });
    all.axes(d, |p| p.of_any(&["shaft", "bend_shaft"]));
    d.centre_line((foot.casing.down_outermost() - foot.casing.plate, 0.0), (foot.casing.up_face + foot.casing.plate, 0.0));
    seen
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
