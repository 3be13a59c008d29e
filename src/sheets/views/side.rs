//! The foot from the up side: width, shaft, bearings, take-up, throat flange, pocket in profile.
//!
//! The far side lies on the right (u = −y). Bearings, sliding plates and take-up are alike on both
//! sides; they stand at the lowest position, the highest is phantom.

use super::bodies::{BOLT_HOLES, Picture, Show};
use super::seen::Seen;
use super::{Look, elevation};
use crate::machine::Material;
use crate::model::Foot;
use crate::model::frame::ModelPoint;
use crate::model::inlets::FeedSide;
use crate::model::openings::OpeningKind;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side};
use crate::sheets::Subject;
use crate::spec::inlets::Side as Flank;
use crate::spec::openings::Wall;

/// Everything that is drawn, no dimensions; what is seen of each item. Belt and buckets are left to the section, bolts to the plates.
pub fn machine(subject: &Subject<'_>, d: &mut Draft) -> Vec<Seen> {
    let foot = subject.foot;
    // Openings behind the throat, the pulley behind the end plate, the pocket's floor behind its cheek.
    let mut behind: Vec<String> = foot.openings.iter().filter(|o| o.wall == Wall::UpEnd).map(|o| format!("{}.frame", o.id)).collect();
    behind.extend(["foot_pulley.rim", "foot_pulley.wing", "pocket.floor"].map(String::from));
    let all = Picture::new(subject.machine, Look::FromUp).without_holes(BOLT_HOLES);
    let seen = all.draw_seen(d, |p| match p.body.material {
        Material::Belt | Material::Bucket => None,
        _ if p.is_small() && !p.of(elevation::ANCHOR) || p.of("belt_joint") => None,
        _ if behind.iter().any(|id| p.of(id)) => Some(Show::Hidden),
        _ => Some(Show::Seen),
    });
    all.axes(d, |p| p.of_any(&["shaft", "bend_shaft", "take_up.rod"]));
    for x in [-foot.rotating.bearing_planes.high, foot.rotating.bearing_planes.high] {
        let half = foot.rotating.unit.up / 2.0;
        d.centre_line((x, foot.shaft_lowest - half), (x, foot.shaft_lowest + half));
    }
    for rising in ["bearing", "weight_box"] {
        all.phantom(foot.rotating.travel).draw(d, |p| (p.of(rising) && !p.is_small()).then_some(Show::Seen));
    }
    for pad in foot.base.pads.iter().filter(|p| p.x.middle() > 0.0) {
        d.centre_line((-pad.anchor.y, 0.0), (-pad.anchor.y, foot.base.thickness));
    }
    trunking(d, foot);
    seen
}

/// Trunking above the foot, a neighbouring part.
fn trunking(d: &mut Draft, foot: &Foot) {
    let casing = &foot.casing;
    let (inner, t, top) = (casing.width.size() / 2.0, casing.plate, casing.top);
    let (w, end) = (inner + t, elevation::broken_off(foot));
    for flank in [1.0, -1.0] {
        d.line(Pen::Phantom, (flank * w, top + t), (flank * w, end));
        d.polyline(Pen::Phantom, [(flank * inner, top + t), (flank * (w + casing.flange), top + t), (flank * (w + casing.flange), top)]);
    }
    elevation::break_line(d, -w - 60.0, w + 60.0, end);
    d.centre_line((0.0, 0.0), (0.0, end));
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
