//! The foot as a neighbouring part on the pit sheet: its outer bodies in phantom line, anchors.

use super::Look;
use super::bodies::{BOLT_HOLES, Picture, Piece, Show};
use crate::model::Foot;
use crate::model::frame::ModelPoint;
use crate::paper::mark::PlanePoint;
use crate::paper::style::Pen;
use crate::paper::view::Draft;
use crate::sheets::Subject;

/// What stands outermost.
const OUTSIDE: [&str; 8] = ["side_plate", "end_plate", "top_flange", "foot", "throat", "transition", "pocket", "weight_box"];
/// What turns inside.
const PULLEYS: [&str; 2] = ["foot_pulley", "bend_pulley"];

/// Offsets across the machine of the elevators that share the pit; the first is the one drawn on the other sheets.
pub fn rows(foot: &Foot) -> Vec<f64> {
    let (count, pitch) = foot.pit.as_ref().map_or((1, 0.0), |p| (p.elevators, p.pitch));
    (0..count).map(|i| -f64::from(i) * pitch).collect()
}

/// What stands outermost of this foot: the doors, whose leaves come off, as well.
fn outside<'a>(subject: &'a Subject<'_>) -> impl Fn(&Piece<'_>) -> bool + 'a {
    move |p| p.of_any(&OUTSIDE) || subject.foot.openings.iter().any(|o| p.of(&o.id))
}

fn phantom<'a>(subject: &Subject<'a>, look: Look) -> Picture<'a> {
    Picture::new(subject.machine, look).without_holes(BOLT_HOLES).phantom(0.0)
}

/// Seen from the near side.
pub fn elevation(d: &mut Draft, subject: &Subject<'_>) {
    let foot = subject.foot;
    let picture = phantom(subject, Look::Elevation);
    let outside = outside(subject);
    picture.draw(d, |p| outside(p).then_some(Show::Seen));
    PULLEYS.iter().for_each(|pulley| picture.draw(d, |p| p.of(pulley).then_some(Show::Seen)));
    for pulley in [Some(&foot.pulleys.foot), foot.pulleys.bend.as_ref()].into_iter().flatten() {
        d.centre_cross(Look::Elevation.point(pulley.centre), pulley.radius());
    }
}

/// Seen from the up side; one for each elevator in the pit.
pub fn from_up(d: &mut Draft, subject: &Subject<'_>) {
    let foot = subject.foot;
    for row in rows(foot) {
        let outside = outside(subject);
        phantom(subject, Look::FromUp).beside(row).draw(d, |p| (outside(p) || p.of("shaft")).then_some(Show::Seen));
        d.centre_line((-row, 0.0), (-row, foot.casing.top));
    }
}

/// Seen from above; one for each elevator in the pit.
pub fn from_above(d: &mut Draft, subject: &Subject<'_>) {
    let foot = subject.foot;
    let c = &foot.casing;
    for row in rows(foot) {
        let outside = outside(subject);
        phantom(subject, Look::FromAbove).beside(row).draw(d, |p| (outside(p) || p.of("shaft")).then_some(Show::Seen));
        for pad in &foot.base.pads {
            d.hole(Pen::Edge, Look::FromAbove.point(ModelPoint { y: pad.anchor.y + row, ..pad.anchor }), foot.base.hole / 2.0);
        }
        d.centre_line((c.down_outermost() - c.plate, -row), (c.up_face + c.plate, -row));
    }
    let all = rows(foot).last().copied().unwrap_or(0.0);
    d.centre_line(PlanePoint::new(0.0, -foot.rotating.shaft_ends.high - 200.0), PlanePoint::new(0.0, -(all + foot.rotating.shaft_ends.low) + 200.0));
}
