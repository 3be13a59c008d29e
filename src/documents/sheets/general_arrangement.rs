//! General arrangement: section along the machine, view from the up side, plan, picture, lists.

use super::views::{Look, elevation, isometric, plan, side};
use super::{Job, notes, parts_list};
use crate::documents::sheet::{Placement, SheetPlan};
use crate::documents::view::{Draft, Side};
use crate::model::inlets::FeedSide;
use crate::model::openings::{Opening, OpeningKind};
use crate::spec::openings::Wall;

/// The sheet.
pub fn plan(job: &Job<'_>) -> SheetPlan {
    let mut sheet = SheetPlan::new("ga", "GENERAL ARRANGEMENT", "General arrangement");
    sheet.description = job.say("Foot of the bucket elevator: section, view from the up side, plan, picture, parts list.");
    // A small foot deserves 1:10; a tall one goes to 1:20 before it takes a larger sheet.
    sheet.coarsest_scale = if job.foot.casing.top < 3000.0 { 10.0 } else { 20.0 };
    sheet.material = job.spec.casing.material.value.clone();
    sheet.finish = job.spec.casing.finish.value.clone();
    sheet.tolerance = job.tolerance();
    sheet.mass_kg = Some(job.parts.mass_and_centre().0);
    sheet.view(Placement::Main, job.face(section(job)));
    sheet.view(job.place(Placement::FromRight), job.face(from_up(job)));
    sheet.view(Placement::FromAbove, job.face(from_above(job)));
    sheet.view(Placement::Free, job.face(isometric::picture(job.foot, "ISOMETRIC PICTURE", 150.0, 170.0)));
    sheet.note(notes::general(job));
    sheet.note(notes::cautions(job));
    sheet
}

fn section(job: &Job<'_>) -> Draft {
    let foot = job.foot;
    let mut d = Draft::new("elevation", "SECTION A–A");
    elevation::machine(job, &mut d);
    elevation::flow(&mut d, foot);
    floor_and_levels(job, &mut d);
    elevation::dimensions(&mut d, foot);
    parts_list::balloons(job, &mut d, Look::Elevation);
    for o in foot.openings.iter().filter(|o| matches!(o.kind, OpeningKind::Door { .. }) && matches!(o.wall, Wall::Near | Wall::Far)) {
        let side = if o.across.middle() >= 0.0 { Side::Right } else { Side::Left };
        let _ = Look::Elevation.dimension(&mut d, foot, side, &format!("{}.sill", o.id));
    }
    leaders(job, &mut d);
    d
}

/// The floor that the foot stands on and the levels above plant floor.
fn floor_and_levels(job: &Job<'_>, d: &mut Draft) {
    let foot = job.foot;
    let level = |z: f64| foot.pit.as_ref().map_or(z, |p| p.level(z));
    let up = foot.inlets.iter().map(|i| i.flange_face).fold(foot.casing.up_face + foot.casing.flange, f64::max) + 120.0;
    let down = foot.inlets.iter().map(|i| i.flange_face).fold(foot.casing.down_outermost() - foot.casing.flange, f64::min) - 120.0;
    elevation::ground(d, down, up);
    d.level((up, 0.0), level(0.0), job.say(if foot.pit.is_some() { "pit floor" } else { "floor" }), Side::Right);
    d.level((foot.casing.up_face, foot.shaft_lowest), level(foot.shaft_lowest), job.say("shaft, lowest"), Side::Right);
    for i in &foot.inlets {
        let side = if i.side == FeedSide::Up { Side::Right } else { Side::Left };
        d.level((i.face, i.sill), level(i.sill), job.say("sill"), side);
    }
    d.level((foot.casing.up_face + foot.casing.flange, foot.casing.top), level(foot.casing.top), job.say("top flange"), Side::Right);
}

fn leaders(job: &Job<'_>, d: &mut Draft) {
    let foot = job.foot;
    let r = foot.pulleys.foot.radius();
    let z = foot.shaft_lowest;
    let head = job.tell(
        "to head pulley ⌀{}; head shaft {} above foot shaft (take-up highest)",
        &[&job.mm(foot.pulleys.head.diameter), &job.mm(job.spec.duty.lift.value())],
    );
    d.leader((r + foot.belt.thickness, elevation::broken_off(foot) - 20.0), head, Side::Right);
    // The gaps are the least ones along the path; beside an inclined run the end plate is nearest where it stands upright.
    let gaps = &job.results.clearances.lowest;
    let upright = foot.casing.down_face.get(1).map_or(z, |p| p[1]).min(z);
    let tip_x = -(foot.tip_radius.powi(2) - (z - upright).powi(2)).max(0.0).sqrt();
    let clearances = [
        ((foot.casing.up_face + foot.tip_radius) / 2.0, z, gaps.up_mm, "bucket tips to up-side end plate {}", Side::Right),
        ((foot.casing.down_x(upright) + tip_x) / 2.0, upright, gaps.down_mm, "bucket tips to down-side end plate {}", Side::Left),
        (0.0, (foot.casing.bottom_face + z - foot.tip_radius) / 2.0, gaps.bottom_mm, "bucket tips to bottom {} (take-up lowest)", Side::Left),
    ];
    for (x, at, gap, words, side) in clearances {
        d.leader((x, at), job.tell(words, &[&job.mm(gap)]), side);
    }
    d.leader((r * 0.3, foot.shaft_highest + r * 0.954), job.say("highest position of the take-up"), Side::Left);
    let panels: Vec<_> = foot.openings.iter().filter(|o| o.kind == OpeningKind::SensorPanel).collect();
    let first_panel = |o: &Opening| panels.first().is_some_and(|p| p.id == o.id);
    for o in foot.openings.iter().filter(|o| matches!(o.wall, Wall::Near | Wall::Far)) {
        let words = match o.kind {
            OpeningKind::Door { mesh: Some(m) } => job.tell(
                "inspection door {} × {}, mesh {} behind it ({})",
                &[&job.mm(o.across.size()), &job.mm(o.up.size()), &job.mm(m), &job.say(o.wall.word())],
            ),
            OpeningKind::Door { mesh: None } => {
                job.tell("door {} × {} without mesh ({})", &[&job.mm(o.across.size()), &job.mm(o.up.size()), &job.say(o.wall.word())])
            }
            OpeningKind::SensorPanel if first_panel(o) => {
                job.tell("sensor panels {} × {}, {} in all", &[&job.mm(o.across.size()), &job.mm(o.up.size()), &panels.len().to_string()])
            }
            _ => continue,
        };
        let side = if o.across.middle() >= 0.0 { Side::Right } else { Side::Left };
        d.leader((o.across.middle(), o.up.high), words, side);
    }
    for o in foot.openings.iter().filter(|o| matches!(o.wall, Wall::UpEnd | Wall::DownEnd)) {
        let (x, side) = if o.wall == Wall::UpEnd { (foot.casing.up_face, Side::Right) } else { (foot.casing.down_x(o.up.middle()), Side::Left) };
        let out = if side == Side::Right { 1.0 } else { -1.0 };
        let words = match o.kind {
            OpeningKind::Door { mesh: Some(m) } => {
                job.tell("inspection door {} × {}, mesh {} behind it", &[&job.mm(o.across.size()), &job.mm(o.up.size()), &job.mm(m)])
            }
            OpeningKind::Door { mesh: None } => job.tell("door {} × {} without mesh", &[&job.mm(o.across.size()), &job.mm(o.up.size())]),
            _ => job.tell("clean-out door {} × {}", &[&job.mm(o.across.size()), &job.mm(o.up.size())]),
        };
        d.leader((x + out * (2.0 * foot.casing.plate + 6.0), o.up.middle()), words, side);
    }
    if let Some(p) = &foot.pocket {
        d.leader(
            (p.x.middle(), p.z.high),
            job.tell("shovel pocket {} × {} ({} side)", &[&job.mm(p.x.size()), &job.mm(p.z.size()), &job.say(p.side.word())]),
            Side::Left,
        );
    }
}

fn from_up(job: &Job<'_>) -> Draft {
    let foot = job.foot;
    let mut d = Draft::new("side", "SIDE VIEW");
    side::machine(&mut d, foot);
    elevation::ground(&mut d, -foot.rotating.shaft_ends.high - 150.0, -foot.rotating.shaft_ends.low + 150.0);
    side::dimensions(&mut d, foot);
    parts_list::balloons(job, &mut d, Look::FromUp);
    d
}

fn from_above(job: &Job<'_>) -> Draft {
    let foot = job.foot;
    let mut d = Draft::new("plan", "PLAN");
    plan::machine(&mut d, foot);
    plan::flow(&mut d, foot);
    plan::door_swing(&mut d, foot);
    plan::dimensions(&mut d, foot);
    parts_list::balloons(job, &mut d, Look::FromAbove);
    d.cutting_plane("A", (foot.casing.down_outermost(), 0.0), (foot.casing.up_face, 0.0), Side::Above);
    d
}
