//! Openings: inspection doors with their mesh, sensor panels, clean-out doors, shovel pocket.
//!
//! Alike openings are drawn once; the table says where each one is and how far its mesh stands from what moves.

use super::Subject;
use super::views::bodies::{Picture, Show};
use super::views::{Look, elevation, signs};
use crate::machine::removal;
use crate::model::frame::ModelPoint;
use crate::model::inlets::PocketBody;
use crate::model::openings::{Opening, OpeningKind};
use crate::paper::mark::{Align, PlanePoint};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, Side, ViewScale};
use crate::parts::Part;
use crate::parts::flat::{FlatPattern, Hole};
use crate::parts::placement::Placement as Seat;
use crate::parts::shop::gasket;
use crate::say;
use crate::solid::project::View;
use crate::spec::inlets::Side as Flank;
use crate::spec::openings::Wall;
use crate::tables::threads;
use crate::units::Unit;
use glam::DVec3;
use kurbo::Rect;

const FRONT: ViewScale = ViewScale::Within { width: 95.0, height: 95.0 };
/// Whether there is anything to open.
pub fn applies(subject: &Subject<'_>) -> bool {
    !subject.foot.openings.is_empty() || subject.foot.pocket.is_some()
}

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Inspection doors with mesh, sensor panels, clean-out doors and shovel pocket.");
    sheet.tolerance = subject.tolerance();
    sheet.material = subject.spec.casing.material.value.clone();
    sheet.finish = subject.spec.casing.finish.value.clone();
    let mut drawn: Vec<&Opening> = Vec::new();
    // One that has no place on its wall is not made; a rule says so.
    let is_made = |o: &&Opening| made(subject, o, "frame").is_some() && made(subject, o, "leaf").is_some();
    for o in subject.foot.openings.iter().filter(is_made) {
        if drawn.iter().any(|d| alike(d, o)) {
            continue;
        }
        drawn.push(o);
        let place = if drawn.len() == 1 { Placement::Main } else { Placement::Free };
        sheet.view(place, front(subject, o));
        sheet.view(Placement::Free, edge(subject, o));
    }
    if let Some(p) = &subject.foot.pocket {
        sheet.view(if drawn.is_empty() { Placement::Main } else { Placement::Free }, subject.face(pocket(subject, p)));
    }
    sheet.table(list(subject));
    sheet.note(notes(subject));
    let steps = removal::steps(subject.spec, subject.foot, subject.parts);
    if !steps.is_empty() {
        let said = steps.iter().zip(1..).map(|(step, number)| format!("{number}. {}", subject.say(step.said.clone())));
        let mut order = Notes::plain("taking_out", "TAKING OUT THE FOOT PULLEY", said);
        order.width = 170.0;
        sheet.note(order);
    }
    sheet
}

/// Whether two openings are built alike and stand as far from what moves: they are drawn once.
fn alike(a: &Opening, b: &Opening) -> bool {
    let as_far = !matches!(a.kind, OpeningKind::Door { .. }) || (a.depth_to_moving - b.depth_to_moving).abs() < 0.05;
    as_far && a.kind == b.kind && (a.across.size() - b.across.size()).abs() < 0.01 && (a.up.size() - b.up.size()).abs() < 0.01
}

fn title(o: &Opening) -> &'static str {
    match o.kind {
        OpeningKind::Door { .. } => "INSPECTION DOOR",
        OpeningKind::SensorPanel => "SENSOR PANEL",
        OpeningKind::CleanOut => "CLEAN-OUT DOOR",
        OpeningKind::Removal => "REMOVAL PANEL",
    }
}

/// Short name of an opening: D1 a door, S2 a sensor panel, C1 a clean-out door, R1 the removal panel.
pub fn tag(subject: &Subject<'_>, o: &Opening) -> String {
    subject.voice().tag(&o.id).to_string()
}

/// What an opening is, in words.
pub fn name(subject: &Subject<'_>, o: &Opening) -> String {
    subject.say(match o.kind {
        OpeningKind::Door { .. } => "inspection door",
        OpeningKind::SensorPanel => "sensor panel",
        OpeningKind::CleanOut => "clean-out door",
        OpeningKind::Removal => "removal panel",
    })
}

/// Tags of all openings that are built like this one: `D1, D2`.
fn tags_alike(subject: &Subject<'_>, o: &Opening) -> String {
    subject.foot.openings.iter().filter(|other| alike(other, o)).map(|other| tag(subject, other)).collect::<Vec<String>>().join(", ")
}

/// A plate of an opening: `frame`, `mesh_frame`, `leaf`.
fn made<'a>(subject: &Subject<'a>, o: &Opening, what: &str) -> Option<&'a Part> {
    let id = format!("{}.{what}", o.id);
    subject.parts.items.iter().find(|p| p.id == id)
}

/// Seen from outside, its middle at the origin; bolts where the leaf has its holes.
fn front(subject: &Subject<'_>, o: &Opening) -> Draft {
    let (w, h) = (o.across.size(), o.up.size());
    let mut d = Draft::new(format!("{}.front", o.id), say!("{tags} {title}", tags = say::name(tags_alike(subject, o)), title = title(o))).at_scale(FRONT);
    let (x, y) = (w / 2.0, h / 2.0);
    let Some((flat, place)) = made(subject, o, "leaf").and_then(plate) else { return d };
    let picture = Picture::toward(subject.machine, View { right: place.right.into(), up: place.up.into(), toward: place.toward.into() });
    let frame = format!("{}.frame", o.id);
    picture.draw(&mut d, |p| match () {
        // For the opening in it.
        () if p.of(&frame) => Some(Show::Behind),
        () => p.of(&o.id).then_some(Show::Seen),
    });
    let size = flat.size();
    let middle = picture.point(place.point(size[0] / 2.0, size[1] / 2.0, 0.0));
    let at = |x: f64, y: f64| PlanePoint::new(middle.x + x, middle.y + y);
    if let OpeningKind::Door { mesh: Some(m) } = o.kind {
        mesh_patch(&mut d, middle, [x, y], m);
        d.leader(at(x - 6.0, y * 0.6), subject.say(say!("mesh {m} behind the leaf, here broken away", m = say::size(m, 1))), Side::Right);
    }
    let hole = |h: &Hole| at(h.at[0] - size[0] / 2.0, h.at[1] - size[1] / 2.0);
    flat.holes.iter().for_each(|h| d.centre_cross(hole(h), h.diameter / 2.0));
    if let Some(low) = flat.holes.iter().min_by(|a, b| (a.at[1] - a.at[0]).total_cmp(&(b.at[1] - b.at[0]))) {
        d.leader(
            hole(low),
            subject.say(say!(
                "{holes} × ⌀{diameter} for {thread}, gasket under the leaf",
                holes = say::name(flat.holes.len().to_string()),
                diameter = say::size(low.diameter, 1),
                thread = say::name(thread(subject, o))
            )),
            Side::Right,
        );
    }
    let grip = format!("{}.grip", o.id);
    if let Some((low, high)) = picture.reach(|p| p.of(&grip)) {
        let (a, b) = (picture.point(model(low)), picture.point(model(high)));
        d.leader(PlanePoint::new(a.x.min(b.x) + 4.0, (a.y + b.y) / 2.0), subject.say("grip handle, in the middle"), Side::Left);
    }
    d.dimension(Side::Below, format!("{}.width", o.id), at(-x, -y), at(x, -y));
    // On a wall that leans the frame's opening is longer than it is high; the height stands in the table.
    let opening = made(subject, o, "frame").and_then(plate).and_then(|(frame, _)| frame.openings.first());
    let along = opening.map_or(h, |o| o.contour.bounds().1[1] - o.contour.bounds().0[1]);
    if (along - h).abs() > 0.05 {
        d.dimension(Side::Left, format!("{}.opening", o.id), at(-x, -along / 2.0), at(-x, along / 2.0))
            .suffix(subject.say(say!(" along the wall, {height} upright", height = say::size(h, 1))));
    } else {
        d.dimension(Side::Left, format!("{}.height", o.id), at(-x, -y), at(-x, y));
    }
    d
}

fn model(p: DVec3) -> ModelPoint {
    ModelPoint::new(p.x, p.y, p.z)
}

/// Flat pattern and place of a plate.
fn plate(part: &Part) -> Option<(&FlatPattern, &Seat)> {
    part.flat.as_ref().zip(part.placements.first())
}

/// A corner of the mesh where the leaf is broken away.
fn mesh_patch(d: &mut Draft, middle: PlanePoint, [x, y]: [f64; 2], opening: f64) {
    let pitch = opening + (opening / 5.0).max(1.5);
    let (left, low) = (middle.x + x * 0.15, middle.y + y * 0.3);
    let (right, high) = (middle.x + x - 4.0, middle.y + y - 4.0);
    let mut u = left;
    while u <= right {
        d.line(Pen::FineEdge, (u, low), (u, high));
        u += pitch;
    }
    let mut v = low;
    while v <= high {
        d.line(Pen::FineEdge, (left, v), (right, v));
        v += pitch;
    }
    d.rectangle(Pen::FineEdge, (left, low), (right, high));
}

/// The lower edge cut upright through a bolt and enlarged, the inside of the casing on the left.
fn edge(subject: &Subject<'_>, o: &Opening) -> Draft {
    let t = subject.foot.casing.plate;
    let (lap, gasket) = (subject.foot.lap, gasket(subject.spec));
    let thick = |what: &str| made(subject, o, what).map_or(0.0, |p| p.thickness);
    let (frame, guard, leaf) = (thick("frame"), thick("mesh_frame"), thick("leaf"));
    let (below, above) = (-lap - 22.0, 60.0);
    let tags = say::name(tags_alike(subject, o));
    let lower = made(subject, o, "frame").and_then(plate);
    // A wall that leans is drawn upright, which is told.
    let lean = lower.map_or(0.0, |(_, place)| place.toward[2].abs().asin().to_degrees());
    let title = if lean > 0.05 {
        say!("{tags} LOWER EDGE, SECTION, TURNED {lean}", tags = tags, lean = say::amount(lean, Unit::Degree, 1))
    } else {
        say!("{tags} LOWER EDGE, SECTION", tags = tags)
    };
    let mut d = Draft::new(format!("{}.section", o.id), title).at_scale(ViewScale::Within { width: 85.0, height: 75.0 });
    let Some((flat, place)) = lower else { return d };
    let walls: &[&str] = if matches!(o.wall, Wall::Near | Wall::Far) { &["side_plate"] } else { &["end_plate", "bottom"] };
    let Some(bolt) = lower_middle(flat) else { return d };
    let outward = DVec3::from_array(place.toward);
    let view = View { right: outward, up: place.up.into(), toward: -DVec3::from_array(place.right) };
    let cut = place.point(bolt, lap, 0.0);
    let picture = Picture::toward(subject.machine, view).cut_at(cut.x, cut.y, cut.z);
    // From the wall's outer face and the opening's lower edge.
    let origin = picture.point(cut);
    let at = |x: f64, z: f64| PlanePoint::new(origin.x + x, origin.y + z);
    let outside = frame + guard + gasket + leaf;
    let bolts = subject.parts.joints.iter().position(|j| j.feature == o.id).map(|i| ["bolt", "washer"].map(|what| format!("{what}.{}", i + 1)));
    picture.within(Rect::new(origin.x - t - 12.0, origin.y + below, origin.x + outside + 20.0, origin.y + above)).draw(&mut d, |p| {
        let wall = p.of_any(walls) && p.body.item.is_some();
        (wall || p.of(&o.id) || bolts.as_ref().is_some_and(|ids| ids.iter().any(|id| p.of(id)))).then_some(Show::Seen)
    });
    let mut x = frame;
    if guard > 0.0 {
        let words = "mesh on its own bolted frame, stays in place when the leaf is off";
        d.leader(at(x - 1.0, above * 0.75), subject.say(words), Side::Right);
        x += guard;
    }
    let z = -lap / 2.0;
    d.leader(at(x + gasket / 2.0, -lap * 0.8), subject.say(say!("gasket {gasket}, dust tight", gasket = say::size(gasket, 1))), Side::Right);
    d.centre_line(at(-2.0, z), at(outside + 6.0, z));
    d.leader(at(outside + 5.3, z), subject.say(say!("{thread} into the tapped frame", thread = say::name(threads::tapped(&thread(subject, o))))), Side::Right);
    elevation::break_line(&mut d, origin.x - t - 8.0, origin.x + outside + 8.0, origin.y + above);
    let seam = |o: &Opening| subject.seam(&format!("{}.frame", o.id));
    let numbers: Vec<u32> = subject.foot.openings.iter().filter(|other| alike(other, o)).filter_map(seam).map(|w| w.number).collect();
    if let Some(weld) = seam(o) {
        signs::at_cut_of(subject, &mut d, &picture, (weld, &numbers), at(0.0, -lap));
    }
    d.dimension(Side::Below, format!("{}.frame", o.id), at(0.0, -lap), at(frame, -lap)).prefix("t=");
    d.dimension(Side::Right, format!("{}.lap", o.id), at(outside, -lap), at(frame, 0.0));
    if let OpeningKind::Door { .. } = o.kind
        && o.depth_to_moving > 0.5
    {
        let near = -t - o.depth_to_moving;
        d.line(Pen::Phantom, at(near, below), at(near, above));
        d.leader(at(near, above * 0.8), subject.say("nearest moving part"), Side::Left);
        d.dimension(Side::Above, format!("{}.mesh_distance", o.id), at(near, above), at(-t, above));
    }
    d
}

/// Where along a frame the bolt of its lower row stands that is nearest to the middle.
fn lower_middle(flat: &FlatPattern) -> Option<f64> {
    let low = flat.holes.iter().map(|h| h.at[1]).fold(f64::INFINITY, f64::min);
    let middle = flat.size()[0] / 2.0;
    let bolts = flat.holes.iter().filter(|h| h.at[1] < low + 1.0 && !h.feature.ends_with(" mesh")).map(|h| h.at[0]);
    bolts.min_by(|a, b| (a - middle).abs().total_cmp(&(b - middle).abs()))
}

/// Thread of the leaf's bolts, as tapped into the frame.
fn thread(subject: &Subject<'_>, o: &Opening) -> String {
    let frame = made(subject, o, "frame").and_then(|p| p.flat.as_ref());
    let own = |h: &&Hole| h.feature == o.id;
    frame.and_then(|f| f.holes.iter().filter(own).find_map(|h| h.thread.clone())).unwrap_or_default()
}

/// The shovel pocket in profile, cut through its middle, seen from the up side.
fn pocket(subject: &Subject<'_>, p: &PocketBody) -> Draft {
    let t = subject.foot.casing.plate;
    let (out, plate) = if p.side == Flank::Near { (-1.0, "side_plate.near") } else { (1.0, "side_plate.far") };
    let mut d = Draft::new("pocket", "SHOVEL POCKET, SECTION").at_scale(ViewScale::Within { width: 120.0, height: 130.0 });
    let wall = subject.foot.casing.width.high + t;
    // Outward from the side plate's outer face, upward from the base.
    let at = |x: f64, z: f64| PlanePoint::new(out * (wall + x), z);
    let upright = t / p.slope_deg.to_radians().cos();
    let picture = Picture::new(subject.machine, Look::FromUp).cut_at(p.x.middle(), 0.0, 0.0);
    let top = picture.reach(|piece| piece.of("pocket")).map_or(p.z.high, |(_, high)| high.z.max(p.z.high));
    let ends = [at(-t - 20.0, 0.0).x, at(2.0 * p.reach, 0.0).x];
    let window = Rect::new(ends[0], p.z.low - 150.0, ends[1], top + 150.0).abs();
    picture.within(window).draw(&mut d, |piece| piece.of_any(&["pocket", plate]).then_some(Show::Seen));
    d.line(Pen::Concrete, at(-200.0, 0.0), at(p.reach + 200.0, 0.0));
    let (side, other) = if out < 0.0 { (Side::Left, Side::Right) } else { (Side::Right, Side::Left) };
    d.dimension(side, "shovel_pocket.lip", at(p.reach, 0.0), at(p.reach, p.lip));
    d.dimension(other, "shovel_pocket.sill", at(0.0, 0.0), at(0.0, p.z.low)).chain("opening");
    d.dimension(other, "shovel_pocket.height", at(0.0, p.z.low), at(0.0, p.z.high)).chain("opening");
    d.dimension(Side::Below, "shovel_pocket.reach", at(0.0, p.z.low), at(p.reach, p.lip - upright));
    let (corner, level, floor) = (at(0.0, p.z.low), at(p.reach, p.z.low), at(p.reach, p.lip));
    if out > 0.0 {
        d.angle("shovel_pocket.slope", corner, level, floor);
    } else {
        d.angle("shovel_pocket.slope", corner, floor, level);
    }
    if let Some((low, high)) = picture.reach(|piece| piece.of("pocket.lid")) {
        let lid = (low + high) / 2.0;
        d.leader(
            picture.point(model(lid)),
            subject.say(say!("bolted cover, gasketed; clear width of the pocket {size}", size = say::size(p.x.size(), 1))),
            side,
        );
    }
    signs::at_cut(subject, &mut d, &picture, subject.seam("pocket"), at(0.0, p.z.low - upright));
    d
}

fn list(subject: &Subject<'_>) -> Table {
    let mut t = Table::new("openings", "OPENINGS")
        .column("Tag", Align::Left, 12.0)
        .column("Opening", Align::Left, 64.0)
        .column("Wall", Align::Left, 44.0)
        .column("Width", Align::Right, 30.0)
        .column("Height", Align::Right, 30.0)
        .column("Lowest edge", Align::Right, 26.0)
        .column("Middle from axis", Align::Right, 34.0)
        .column("Mesh", Align::Right, 16.0)
        .column("To moving part", Align::Right, 30.0);
    for o in &subject.foot.openings {
        let mesh = match o.kind {
            OpeningKind::Door { mesh: Some(m) } => subject.mm(m),
            OpeningKind::Door { mesh: None } => subject.say("none"),
            _ => "–".into(),
        };
        t.row([
            tag(subject, o),
            name(subject, o),
            subject.say(o.wall.word()),
            subject.mm(o.across.size()),
            subject.mm(o.up.size()),
            subject.mm(o.up.low),
            subject.mm(o.across.middle()),
            mesh,
            subject.mm(o.depth_to_moving),
        ]);
    }
    if let Some(p) = &subject.foot.pocket {
        t.row([
            "P1".into(),
            subject.say("shovel pocket"),
            subject.say(if p.side == Flank::Near { "near side" } else { "far side" }),
            subject.mm(p.x.size()),
            subject.mm(p.z.size()),
            subject.mm(p.z.low),
            subject.mm(p.x.middle()),
            "–".into(),
            "–".into(),
        ]);
    }
    t
}

fn notes(subject: &Subject<'_>) -> Notes {
    let mut notes = Notes::numbered(
        "notes",
        [
            subject.say("Middle from axis: side plates from the foot shaft, + toward the up side; end plates from the belt's middle, + toward the near side. Lowest edge from the underside of the base."),
            subject.say("Distance to moving parts from the inner face of the wall; the mesh stands further out by wall and frame."),
            subject.say("Mesh opening against its distance to moving parts after ISO 13857 table 4 or OSHA 1910.217 table O-10, see the rule sheet."),
            subject.say("Doors, panels and covers close dust tight and are bonded to the casing. Their bolts press a gasket; they engage at least 0.8 diameters in the frame, behind which the wall leaves no room for longer ones."),
            subject.say("Lock out and wait for standstill before opening."),
        ],
    );
    notes.width = 140.0;
    notes
}
