//! Openings: inspection doors with their mesh, sensor panels, clean-out doors, shovel pocket.
//!
//! Alike openings are drawn once; the table says where each one is and how far its mesh stands from what moves.

use super::Subject;
use super::views::elevation;
use crate::model::inlets::PocketBody;
use crate::model::openings::{Opening, OpeningKind};
use crate::paper::mark::{Align, PlanePoint};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::table::Table;
use crate::paper::view::{Draft, Material, Side, ViewScale, Weld, rectangle};
use crate::parts::Part;
use crate::parts::flat::Hole;
use crate::parts::shop::gasket;
use crate::say;
use crate::spec::inlets::Side as Flank;

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
    for o in &subject.foot.openings {
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
    sheet
}

fn alike(a: &Opening, b: &Opening) -> bool {
    a.kind == b.kind && (a.across.size() - b.across.size()).abs() < 0.01 && (a.up.size() - b.up.size()).abs() < 0.01
}

fn title(o: &Opening) -> &'static str {
    match o.kind {
        OpeningKind::Door { .. } => "INSPECTION DOOR",
        OpeningKind::SensorPanel => "SENSOR PANEL",
        OpeningKind::CleanOut => "CLEAN-OUT DOOR",
    }
}

/// Short name of an opening: D1 a door, S2 a sensor panel, C1 a clean-out door.
pub fn tag(subject: &Subject<'_>, o: &Opening) -> String {
    subject.voice().tag(&o.id).to_string()
}

/// What an opening is, in words.
pub fn name(subject: &Subject<'_>, o: &Opening) -> String {
    subject.say(match o.kind {
        OpeningKind::Door { .. } => "inspection door",
        OpeningKind::SensorPanel => "sensor panel",
        OpeningKind::CleanOut => "clean-out door",
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
    let (x, y, lap) = (w / 2.0, h / 2.0, subject.foot.lap);
    d.rectangle(Pen::Edge, (-x - lap, -y - lap), (x + lap, y + lap));
    d.rectangle(Pen::Hidden, (-x, -y), (x, y));
    if let OpeningKind::Door { mesh: Some(m) } = o.kind {
        mesh_patch(&mut d, x, y, m);
        d.leader((x - 6.0, y * 0.6), subject.say(say!("mesh {m} behind the leaf, here broken away", m = say::size(m, 1))), Side::Right);
    }
    if let Some(flat) = made(subject, o, "leaf").and_then(|p| p.flat.as_ref()) {
        let size = flat.size();
        let at = |h: &Hole| PlanePoint::new(h.at[0] - size[0] / 2.0, h.at[1] - size[1] / 2.0);
        flat.holes.iter().for_each(|h| d.hole(Pen::Edge, at(h), h.diameter / 2.0));
        if let Some(low) = flat.holes.iter().min_by(|a, b| (a.at[1] - a.at[0]).total_cmp(&(b.at[1] - b.at[0]))) {
            d.leader(
                at(low),
                subject.say(say!(
                    "{holes} × ⌀{diameter} for {thread}, gasket under the leaf",
                    holes = say::name(flat.holes.len().to_string()),
                    diameter = say::size(low.diameter, 1),
                    thread = say::name(thread(subject, o))
                )),
                Side::Right,
            );
        }
    }
    if o.kind != OpeningKind::SensorPanel {
        d.rectangle(Pen::Edge, (-60.0, -8.0), (60.0, 8.0));
        d.leader((-56.0, 0.0), subject.say("grip handle"), Side::Left);
    }
    d.dimension(Side::Below, format!("{}.width", o.id), (-x, -y), (x, -y));
    d.dimension(Side::Left, format!("{}.height", o.id), (-x, -y), (-x, y));
    d
}

/// A corner of the mesh where the leaf is broken away.
fn mesh_patch(d: &mut Draft, x: f64, y: f64, opening: f64) {
    let pitch = opening + (opening / 5.0).max(1.5);
    let (left, low) = (x * 0.15, y * 0.3);
    let (right, high) = (x - 4.0, y - 4.0);
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

/// The lower edge cut upright and enlarged: inside of the casing on the left, x = 0 the outer face of the wall, z = 0 the edge.
fn edge(subject: &Subject<'_>, o: &Opening) -> Draft {
    let t = subject.foot.casing.plate;
    let (lap, gasket) = (subject.foot.lap, gasket(subject.spec));
    let thick = |what: &str| made(subject, o, what).map_or(0.0, |p| p.thickness);
    let (frame, guard, leaf) = (thick("frame"), thick("mesh_frame"), thick("leaf"));
    let (below, above) = (-lap - 22.0, 60.0);
    let title = say!("{tags} LOWER EDGE, SECTION", tags = say::name(tags_alike(subject, o)));
    let mut d = Draft::new(format!("{}.section", o.id), title).at_scale(ViewScale::Within { width: 85.0, height: 75.0 });
    let cut = |d: &mut Draft, m: Material, a: (f64, f64), b: (f64, f64)| {
        let s = rectangle(a.into(), b.into());
        d.hatch(m, vec![s.clone()]);
        d.stroke(Pen::Edge, s);
    };
    cut(&mut d, Material::Metal, (-t, below), (0.0, 0.0));
    cut(&mut d, Material::MetalOther, (0.0, -lap), (frame, 0.0));
    let mut x = frame;
    if guard > 0.0 {
        cut(&mut d, Material::Metal, (x, -lap), (x + guard, 0.0));
        d.line(Pen::Hidden, (x + guard / 2.0, 0.0), (x + guard / 2.0, above));
        d.leader((x + guard / 2.0, above * 0.75), subject.say("mesh on its own bolted frame, stays in place when the leaf is off"), Side::Right);
        x += guard;
    }
    cut(&mut d, Material::Solid, (x, -lap), (x + gasket, 0.0));
    d.leader((x + gasket / 2.0, -lap * 0.8), subject.say(say!("gasket {gasket}, dust tight", gasket = say::size(gasket, 1))), Side::Right);
    x += gasket;
    cut(&mut d, Material::MetalOther, (x, -lap), (x + leaf, above));
    d.line(Pen::FineEdge, (0.0, 0.0), (0.0, above));
    d.line(Pen::FineEdge, (-t, 0.0), (-t, above));
    // The bolt through leaf, guard and gasket into the tapped frame.
    let z = -lap / 2.0;
    d.centre_line((-2.0, z), (x + leaf + 6.0, z));
    d.rectangle(Pen::Edge, (x + leaf, z - 6.5), (x + leaf + 5.3, z + 6.5));
    d.leader((x + leaf + 5.3, z), subject.say(say!("{thread} into the tapped frame", thread = say::name(thread(subject, o)))), Side::Right);
    elevation::break_line(&mut d, -t - 8.0, x + leaf + 8.0, above);
    if let Some(weld) = subject.seam(&format!("{}.frame", o.id), subject.say("dust tight")) {
        d.weld((0.0, -lap), Weld { all_round: true, ..weld }, Side::Left);
    }
    d.dimension(Side::Below, format!("{}.frame", o.id), (0.0, -lap), (frame, -lap)).prefix("t=");
    d.dimension(Side::Right, format!("{}.lap", o.id), (x + leaf, -lap), (frame, 0.0));
    if let OpeningKind::Door { .. } = o.kind
        && o.depth_to_moving > 0.5
    {
        let near = -t - o.depth_to_moving;
        d.line(Pen::Phantom, (near, below), (near, above));
        d.leader((near, above * 0.8), subject.say("nearest moving part"), Side::Left);
        d.dimension(Side::Above, format!("{}.mesh_distance", o.id), (near, above), (-t, above));
    }
    d
}

/// Thread of the leaf's bolts, as tapped into the frame.
fn thread(subject: &Subject<'_>, o: &Opening) -> String {
    let frame = made(subject, o, "frame").and_then(|p| p.flat.as_ref());
    frame.and_then(|f| f.holes.iter().find_map(|h| h.thread.clone())).unwrap_or_default()
}

/// The shovel pocket in profile: x outward from the outer face of the side plate, z from the base.
fn pocket(subject: &Subject<'_>, p: &PocketBody) -> Draft {
    let t = subject.foot.casing.plate;
    let out = if p.side == Flank::Near { -1.0 } else { 1.0 };
    let mut d = Draft::new("pocket", "SHOVEL POCKET, SECTION").at_scale(ViewScale::Within { width: 120.0, height: 130.0 });
    let at = |x: f64, z: f64| PlanePoint::new(out * x, z);
    let mut cut = |corners: Vec<PlanePoint>| {
        let s = crate::paper::mark::Shape::polygon(corners);
        d.hatch(Material::Metal, vec![s.clone()]);
        d.stroke(Pen::Edge, s);
    };
    let upright = t / p.slope_deg.to_radians().cos();
    let roof = p.z.high.max(p.lip + 120.0);
    cut(vec![at(-t, p.z.low - 150.0), at(0.0, p.z.low - 150.0), at(0.0, p.z.low), at(-t, p.z.low)]);
    cut(vec![at(-t, p.z.high), at(0.0, p.z.high), at(0.0, roof + 150.0), at(-t, roof + 150.0)]);
    cut(vec![at(0.0, p.z.low), at(p.reach, p.lip), at(p.reach, p.lip - upright), at(0.0, p.z.low - upright)]);
    cut(vec![at(p.reach, p.lip - upright), at(p.reach + t, p.lip - upright), at(p.reach + t, p.lip + 25.0), at(p.reach, p.lip + 25.0)]);
    d.polyline(Pen::Edge, [at(0.0, roof), at(p.reach + 30.0, p.lip + 25.0), at(p.reach + 30.0, p.lip + 20.0)]);
    d.line(Pen::FineEdge, at(0.0, roof - 4.0), at(p.reach + 30.0, p.lip + 21.0));
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
    d.leader(
        at(p.reach * 0.5, (roof + p.lip + 25.0) / 2.0),
        subject.say(say!("bolted cover, gasketed; clear width of the pocket {size}", size = say::size(p.x.size(), 1))),
        side,
    );
    if let Some(weld) = subject.seam("pocket", subject.say("dust tight")) {
        d.weld(at(0.0, p.z.low - upright), weld, other);
    }
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
            subject.say("Doors, panels and covers close dust tight and are bonded to the casing."),
            subject.say("Lock out and wait for standstill before opening."),
        ],
    );
    notes.width = 140.0;
    notes
}
