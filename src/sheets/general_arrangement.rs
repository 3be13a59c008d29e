//! General arrangement: section along the machine, view from the up side, plan, picture, lists.

use super::views::bodies::Picture;
use super::views::seen::{self, Seen};
use super::views::{Look, elevation, isometric, plan, side};
use super::{Subject, belt_path, notes, openings, parts_list};
use crate::model::inlets::{FeedSide, InletBody};
use crate::model::openings::{Opening, OpeningKind};
use crate::paper::mark::Align;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::table::Table;
use crate::paper::view::{Draft, Side};
use crate::say;
use crate::say::number;
use crate::say::{name, size};
use crate::spec::inlets::Side as Flank;
use crate::spec::openings::Wall;
use std::collections::BTreeSet;

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Foot of the bucket elevator: section, view from the up side, plan, picture, parts list.");
    // A small foot deserves 1:10; a tall one goes to 1:20 before it takes a larger sheet.
    sheet.coarsest_scale = if subject.foot.casing.top < 3000.0 { 10.0 } else { 20.0 };
    sheet.material = subject.spec.casing.material.value.clone();
    sheet.finish = subject.spec.casing.finish.value.clone();
    sheet.tolerance = subject.tolerance();
    sheet.mass_kg = Some(subject.parts.mass_and_centre().0);
    let [mut section, mut from_up, mut from_above] = [section(subject), from_up(subject), from_above(subject)];
    let all: BTreeSet<u32> = subject.parts.items.iter().map(|p| p.item).collect();
    let mut without = all.clone();
    let least = (LEAST_SEEN * sheet.coarsest_scale).powi(2);
    let mut views = [&mut section, &mut from_up, &mut from_above].map(|(draft, seen)| (draft, std::mem::take(seen)));
    seen::balloons(&mut views, &mut without, least);
    sheet.view(Placement::Main, subject.face(section.0));
    sheet.view(subject.place(Placement::FromRight), subject.face(from_up.0));
    sheet.view(Placement::FromAbove, subject.face(from_above.0));
    sheet.view(Placement::Free, subject.face(isometric::picture(subject, "ISOMETRIC PICTURE, NEAR SIDE PLATE TAKEN AWAY", 150.0, 170.0)));
    sheet.table(parts_list::shown(subject, &all.difference(&without).copied().collect()));
    sheet.table(openings_and_levels(subject));
    sheet.note(notes::general(subject));
    sheet.note(notes::cautions(subject));
    sheet.notes.extend(notes::deviations(subject));
    sheet
}

/// An item of which less is seen than a square with this side gets its balloon on the exploded views, paper mm.
const LEAST_SEEN: f64 = 12.0;

/// Where things come in and where one gets in: size, height above the base, level.
fn openings_and_levels(subject: &Subject<'_>) -> Table {
    let foot = subject.foot;
    let mut t = Table::new("openings", "OPENINGS AND LEVELS")
        .column("Tag", Align::Left, 12.0)
        .column("Opening", Align::Left, 64.0)
        .column("Wall", Align::Left, 44.0)
        .column("Width × height", Align::Right, 44.0)
        .column("Above base", Align::Right, 34.0)
        .column("Level", Align::Right, 38.0);
    let level = |z: f64| number::level(foot.pit.as_ref().map_or(z, |p| p.level(z)), subject.style());
    let size = |w: f64, h: f64| format!("{} × {}", subject.mm(w), subject.mm(h));
    for (i, inlet) in foot.inlets.iter().enumerate() {
        let wall = if inlet.side == FeedSide::Up { Wall::UpEnd } else { Wall::DownEnd };
        t.row([
            format!("I{}", i + 1),
            subject.say("inlet, sill"),
            subject.say(wall.word()),
            size(inlet.width.size(), inlet.opening.size()),
            subject.mm(inlet.sill),
            level(inlet.sill),
        ]);
    }
    for o in &foot.openings {
        t.row([
            openings::tag(subject, o),
            openings::name(subject, o),
            subject.say(o.wall.word()),
            size(o.across.size(), o.up.size()),
            subject.mm(o.up.low),
            level(o.up.low),
        ]);
    }
    if let Some(p) = &foot.pocket {
        let wall = if p.side == Flank::Near { Wall::Near } else { Wall::Far };
        t.row(["P1".into(), subject.say("shovel pocket, lip"), subject.say(wall.word()), size(p.x.size(), p.z.size()), subject.mm(p.lip), level(p.lip)]);
    }
    for (what, z) in [("foot shaft, take-up lowest", foot.shaft_lowest), ("foot shaft, take-up highest", foot.shaft_highest), ("top flange", foot.casing.top)] {
        t.row([String::new(), subject.say(what), String::new(), String::new(), subject.mm(z), level(z)]);
    }
    t
}

fn section(subject: &Subject<'_>) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let mut d = Draft::new("elevation", say!("SECTION {letters}", letters = name("A–A")));
    let seen = elevation::machine(subject, &mut d);
    elevation::flow(&mut d, foot);
    floor_and_levels(subject, &mut d);
    elevation::dimensions(&mut d, foot);
    for o in foot.openings.iter().filter(|o| matches!(o.kind, OpeningKind::Door { .. }) && matches!(o.wall, Wall::Near | Wall::Far)) {
        let side = if o.across.middle() >= 0.0 { Side::Right } else { Side::Left };
        let _ = Look::Elevation.dimension(&mut d, foot, side, &format!("{}.sill", o.id));
    }
    leaders(subject, &mut d);
    (d, seen)
}

/// The floor that the foot stands on and the levels above plant floor.
fn floor_and_levels(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let level = |z: f64| foot.pit.as_ref().map_or(z, |p| p.level(z));
    let up = foot.inlets.iter().map(InletBody::outer_face).fold(foot.casing.up_face + foot.casing.flange, f64::max) + 120.0;
    let down = foot.inlets.iter().map(InletBody::outer_face).fold(foot.casing.down_outermost() - foot.casing.flange, f64::min) - 120.0;
    elevation::ground(d, down, up);
    d.level((up, 0.0), level(0.0), subject.say(if foot.pit.is_some() { "pit floor" } else { "floor" }), Side::Right);
    d.level((foot.casing.up_face, foot.shaft_lowest), level(foot.shaft_lowest), subject.say("shaft, lowest"), Side::Right);
    for i in &foot.inlets {
        let side = if i.side == FeedSide::Up { Side::Right } else { Side::Left };
        d.level((i.face, i.sill), level(i.sill), subject.say("sill"), side);
    }
    d.level((foot.casing.up_face + foot.casing.flange, foot.casing.top), level(foot.casing.top), subject.say("top flange"), Side::Right);
}

fn leaders(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let r = foot.pulleys.foot.radius();
    let head = subject.say(say!(
        "to head pulley ⌀{diameter}; head shaft {lift} above foot shaft (take-up highest)",
        diameter = size(foot.pulleys.head.diameter, 1),
        lift = size(subject.spec.duty.lift.value(), 1)
    ));
    d.leader((r + foot.belt.thickness, elevation::broken_off(foot) - 20.0), head, Side::Right);
    if let Some((low, high)) = Picture::new(subject.machine, Look::Elevation).reach(|p| p.of("belt_joint")) {
        d.leader((high.x, f64::midpoint(low.z, high.z)), subject.say(belt_path::JOINT), Side::Right);
    }
    gaps(subject, d);
    d.leader((r * 0.3, foot.shaft_highest + r * 0.954), subject.say("highest position of the take-up"), Side::Left);
    side_openings(subject, d);
    end_openings(subject, d);
    if let Some(p) = &foot.pocket {
        d.leader(
            (p.x.middle(), p.z.high),
            subject.say(say!(
                "P1  shovel pocket {size} × {size_2} ({side} side)",
                size = size(p.x.size(), 1),
                size_2 = size(p.z.size(), 1),
                side = p.side.word()
            )),
            Side::Left,
        );
    }
}

/// What is left between the buckets and the casing.
fn gaps(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let z = foot.shaft_lowest;
    // The gaps are the least ones along the path; beside an inclined run the end plate is nearest where it stands upright.
    let gaps = &subject.results.clearances.lowest;
    let upright = foot.casing.down_face.get(1).map_or(z, |p| p[1]).min(z);
    let tip_x = -(foot.tip_radius.powi(2) - (z - upright).powi(2)).max(0.0).sqrt();
    let clearances = [
        ((foot.casing.up_face + foot.tip_radius) / 2.0, z, say!("bucket tips to up-side end plate {gap}", gap = size(gaps.up_mm, 1)), Side::Right),
        ((foot.casing.down_x(upright) + tip_x) / 2.0, upright, say!("bucket tips to down-side end plate {gap}", gap = size(gaps.down_mm, 1)), Side::Left),
        (
            0.0,
            (foot.casing.bottom_face + z - foot.tip_radius) / 2.0,
            say!("bucket tips to bottom {gap} (take-up lowest)", gap = size(gaps.bottom_mm, 1)),
            Side::Left,
        ),
    ];
    for (x, at, words, side) in clearances {
        d.leader((x, at), subject.say(words), side);
    }
}

/// Doors and sensor panels of the side plates.
fn side_openings(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let panels: Vec<_> = foot.openings.iter().filter(|o| o.kind == OpeningKind::SensorPanel).collect();
    let first_panel = |o: &Opening| panels.first().is_some_and(|p| p.id == o.id);
    for o in foot.openings.iter().filter(|o| matches!(o.wall, Wall::Near | Wall::Far)) {
        let words = match o.kind {
            OpeningKind::Door { mesh: Some(m) } => subject.say(say!(
                "inspection door {across} × {up}, mesh {m} behind it ({wall})",
                across = size(o.across.size(), 1),
                up = size(o.up.size(), 1),
                m = size(m, 1),
                wall = o.wall.word()
            )),
            OpeningKind::Door { mesh: None } => subject.say(say!(
                "door {across} × {up} without mesh ({wall})",
                across = size(o.across.size(), 1),
                up = size(o.up.size(), 1),
                wall = o.wall.word()
            )),
            OpeningKind::SensorPanel if first_panel(o) => subject.say(say!(
                "sensor panels {across} × {up}, {panels} in all",
                across = size(o.across.size(), 1),
                up = size(o.up.size(), 1),
                panels = name(panels.len().to_string())
            )),
            _ => continue,
        };
        let side = if o.across.middle() >= 0.0 { Side::Right } else { Side::Left };
        let tags = if o.kind == OpeningKind::SensorPanel { panel_tags(subject, &panels) } else { openings::tag(subject, o) };
        d.leader((o.across.middle(), o.up.high), format!("{tags}  {words}"), side);
    }
}

/// Doors of the end plates.
fn end_openings(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    for o in foot.openings.iter().filter(|o| matches!(o.wall, Wall::UpEnd | Wall::DownEnd)) {
        let (x, side) = if o.wall == Wall::UpEnd { (foot.casing.up_face, Side::Right) } else { (foot.casing.down_x(o.up.middle()), Side::Left) };
        let out = if side == Side::Right { 1.0 } else { -1.0 };
        let words = match o.kind {
            OpeningKind::Door { mesh: Some(m) } => subject.say(say!(
                "inspection door {across} × {up}, mesh {m} behind it",
                across = size(o.across.size(), 1),
                up = size(o.up.size(), 1),
                m = size(m, 1)
            )),
            OpeningKind::Door { mesh: None } => {
                subject.say(say!("door {across} × {up} without mesh", across = size(o.across.size(), 1), up = size(o.up.size(), 1)))
            }
            OpeningKind::Removal => {
                subject.say(say!("removal panel {across} × {up}: the foot pulley comes out here", across = size(o.across.size(), 1), up = size(o.up.size(), 1)))
            }
            _ => subject.say(say!("clean-out door {across} × {up}", across = size(o.across.size(), 1), up = size(o.up.size(), 1))),
        };
        d.leader((x + out * (2.0 * foot.casing.plate + 6.0), o.up.middle()), format!("{}  {words}", openings::tag(subject, o)), side);
    }
}

/// `S1–S4`.
fn panel_tags(subject: &Subject<'_>, panels: &[&Opening]) -> String {
    match (panels.first(), panels.last()) {
        (Some(a), Some(b)) if a.id != b.id => format!("{}–{}", openings::tag(subject, a), openings::tag(subject, b)),
        (Some(a), _) => openings::tag(subject, a),
        _ => String::new(),
    }
}

fn from_up(subject: &Subject<'_>) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let mut d = Draft::new("side", "SIDE VIEW");
    let seen = side::machine(subject, &mut d);
    elevation::ground(&mut d, -foot.rotating.shaft_ends.high - 150.0, -foot.rotating.shaft_ends.low + 150.0);
    side::dimensions(&mut d, foot);
    (d, seen)
}

fn from_above(subject: &Subject<'_>) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let mut d = Draft::new("plan", "PLAN");
    let seen = plan::machine(subject, &mut d);
    plan::flow(&mut d, foot);
    plan::dimensions(&mut d, foot);
    d.cutting_plane("A", (foot.casing.down_outermost(), 0.0), (foot.casing.up_face, 0.0), Side::Above);
    (d, seen)
}
