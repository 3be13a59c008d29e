//! Openings: inspection doors with their mesh, sensor panels, clean-out doors, shovel pocket.
//!
//! Alike openings are drawn once; the table says where each one is and how far its mesh stands from what moves.

use super::Job;
use super::views::elevation::LAP;
use crate::documents::mark::{Align, PlanePoint};
use crate::documents::notes::Notes;
use crate::documents::sheet::{Placement, SheetPlan};
use crate::documents::style::Pen;
use crate::documents::table::Table;
use crate::documents::view::{Draft, Material, Side, ViewScale, Weld, rectangle};
use crate::model::inlets::PocketBody;
use crate::model::openings::{Opening, OpeningKind};
use crate::spec::inlets::Side as Flank;

const WITHIN: ViewScale = ViewScale::Within { width: 95.0, height: 95.0 };

/// Whether there is anything to open.
pub fn applies(job: &Job<'_>) -> bool {
    !job.foot.openings.is_empty() || job.foot.pocket.is_some()
}

/// The sheet.
pub fn plan(job: &Job<'_>) -> SheetPlan {
    let mut sheet = SheetPlan::new("openings", "DOORS AND OPENINGS", "Assembly");
    sheet.description = job.say("Inspection doors with mesh, sensor panels, clean-out doors and shovel pocket.");
    sheet.tolerance = job.tolerance();
    sheet.material = job.spec.casing.material.value.clone();
    sheet.finish = job.spec.casing.finish.value.clone();
    let mut drawn: Vec<&Opening> = Vec::new();
    for o in &job.foot.openings {
        if drawn.iter().any(|d| alike(d, o)) {
            continue;
        }
        drawn.push(o);
        let place = if drawn.len() == 1 { Placement::Main } else { Placement::Free };
        sheet.view(place, front(job, o));
        sheet.view(Placement::Free, through(job, o));
    }
    if let Some(p) = &job.foot.pocket {
        sheet.view(if drawn.is_empty() { Placement::Main } else { Placement::Free }, job.face(pocket(job, p)));
    }
    sheet.table(list(job));
    sheet.note(notes(job));
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

/// Bolt positions round a leaf, at most 150 mm apart, on the middle of its lap.
fn bolts(width: f64, height: f64) -> Vec<PlanePoint> {
    let (w, h) = (width / 2.0 + LAP / 2.0, height / 2.0 + LAP / 2.0);
    let along = |length: f64| (length / 150.0).ceil().max(1.0);
    let mut all = Vec::new();
    let (nx, ny) = (along(2.0 * w), along(2.0 * h));
    let mut i = 0.0;
    while i <= nx {
        let x = -w + 2.0 * w * i / nx;
        all.extend([PlanePoint::new(x, -h), PlanePoint::new(x, h)]);
        i += 1.0;
    }
    i = 1.0;
    while i < ny {
        let y = -h + 2.0 * h * i / ny;
        all.extend([PlanePoint::new(-w, y), PlanePoint::new(w, y)]);
        i += 1.0;
    }
    all
}

/// Seen from outside, its middle at the origin.
fn front(job: &Job<'_>, o: &Opening) -> Draft {
    let (w, h) = (o.across.size(), o.up.size());
    let mut d = Draft::new(format!("{}.front", o.id), title(o)).at_scale(WITHIN);
    let (x, y) = (w / 2.0, h / 2.0);
    d.rectangle(Pen::Edge, (-x - LAP, -y - LAP), (x + LAP, y + LAP));
    d.rectangle(Pen::Hidden, (-x, -y), (x, y));
    match o.kind {
        OpeningKind::Door { mesh } => {
            for s in [0.55, -0.55] {
                d.rectangle(Pen::Edge, (-x - LAP - 18.0, s * y - 20.0), (-x - LAP + 22.0, s * y + 20.0));
            }
            d.rectangle(Pen::Edge, (x + LAP - 30.0, -25.0), (x + LAP + 14.0, 25.0));
            if let Some(m) = mesh {
                mesh_patch(&mut d, x, y, m);
            }
            d.leader((x + LAP, 0.0), job.say("latch that opens only with a tool"), Side::Right);
            d.leader((-x - LAP - 10.0, 0.55 * y), job.say("hinge"), Side::Left);
        }
        OpeningKind::SensorPanel | OpeningKind::CleanOut => {
            let all = bolts(w, h);
            for at in &all {
                d.hole(Pen::Edge, *at, 5.5);
            }
            if let Some(at) = all.last() {
                d.leader(*at, job.tell("{} × ⌀{} for M10, gasket under the leaf", &[&all.len().to_string(), &job.mm(11.0)]), Side::Right);
            }
        }
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

/// Upright section: inside of the casing on the left, x = 0 the outer face of the wall.
fn through(job: &Job<'_>, o: &Opening) -> Draft {
    let t = job.foot.casing.plate;
    let h = o.up.size();
    let (low, high) = (-h / 2.0, h / 2.0);
    let mut d = Draft::new(format!("{}.section", o.id), format!("{}, SECTION", title(o))).at_scale(WITHIN);
    let cut = |d: &mut Draft, m: Material, a: (f64, f64), b: (f64, f64)| {
        let s = rectangle(a.into(), b.into());
        d.hatch(m, vec![s.clone()]);
        d.stroke(Pen::Edge, s);
    };
    cut(&mut d, Material::Metal, (-t, low - 2.5 * LAP), (0.0, low));
    cut(&mut d, Material::Metal, (-t, high), (0.0, high + 2.5 * LAP));
    for (a, b) in [(low - LAP, low), (high, high + LAP)] {
        cut(&mut d, Material::Solid, (0.0, a), (3.0, b));
    }
    cut(&mut d, Material::MetalOther, (3.0, low - LAP), (3.0 + t, high + LAP));
    if let OpeningKind::Door { mesh } = o.kind {
        let moving = match mesh {
            Some(_) => -t - 6.0,
            None => -t,
        };
        if let Some(m) = mesh {
            cut(&mut d, Material::MetalOther, (-t - 6.0, low - LAP), (-t, low + 5.0));
            cut(&mut d, Material::MetalOther, (-t - 6.0, high - 5.0), (-t, high + LAP));
            d.line(Pen::Hidden, (-t - 3.0, low), (-t - 3.0, high));
            d.leader((-t - 3.0, high * 0.5), job.tell("steel mesh {} square, bolted frame, stays in place when the door is open", &[&job.mm(m)]), Side::Right);
        }
        let near = moving - o.depth_to_moving;
        d.line(Pen::Phantom, (near, low - LAP), (near, high + LAP));
        d.leader((near, low * 0.5), job.say("nearest moving part"), Side::Left);
        if o.depth_to_moving > 0.5 {
            d.dimension(Side::Below, format!("{}.mesh_distance", o.id), (near, low - LAP), (moving, low - LAP));
        }
        d.leader((3.0 + t, high * 0.1), job.say("leaf, gasketed, dust tight"), Side::Right);
    } else {
        d.leader((3.0 + t, 0.0), job.say("bolted leaf, gasketed, dust tight"), Side::Right);
    }
    d
}

/// The shovel pocket in profile: x outward from the outer face of the side plate, z from the base.
fn pocket(job: &Job<'_>, p: &PocketBody) -> Draft {
    let t = job.foot.casing.plate;
    let out = if p.side == Flank::Near { -1.0 } else { 1.0 };
    let mut d = Draft::new("pocket", "SHOVEL POCKET, SECTION").at_scale(ViewScale::Within { width: 120.0, height: 130.0 });
    let at = |x: f64, z: f64| PlanePoint::new(out * x, z);
    let mut cut = |corners: Vec<PlanePoint>| {
        let s = crate::documents::mark::Shape::polygon(corners);
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
    d.leader(at(p.reach * 0.5, (roof + p.lip + 25.0) / 2.0), job.tell("hinged cover, gasketed; clear width of the pocket {}", &[&job.mm(p.x.size())]), side);
    d.weld(at(0.0, p.z.low - upright), Weld { tail: job.say("dust tight"), ..Weld::fillet("a3") }, other);
    d
}

fn list(job: &Job<'_>) -> Table {
    let mut t = Table::new("openings", "OPENINGS")
        .column("Opening", Align::Left, 62.0)
        .column("Wall", Align::Left, 24.0)
        .column("Width", Align::Right, 20.0)
        .column("Height", Align::Right, 20.0)
        .column("Lowest edge", Align::Right, 26.0)
        .column("Middle from axis", Align::Right, 34.0)
        .column("Mesh", Align::Right, 16.0)
        .column("To moving part", Align::Right, 30.0);
    for o in &job.foot.openings {
        let mesh = match o.kind {
            OpeningKind::Door { mesh: Some(m) } => job.mm(m),
            OpeningKind::Door { mesh: None } => job.say("none"),
            _ => "–".into(),
        };
        t.row([
            o.id.clone(),
            job.say(o.wall.word()),
            job.mm(o.across.size()),
            job.mm(o.up.size()),
            job.mm(o.up.low),
            job.mm(o.across.middle()),
            mesh,
            job.mm(o.depth_to_moving),
        ]);
    }
    t
}

fn notes(job: &Job<'_>) -> Notes {
    let mut notes = Notes::numbered(
        "notes",
        [
            job.say("Middle from axis: side plates from the foot shaft, + toward the up side; end plates from the belt's middle, + toward the near side. Lowest edge from the underside of the base."),
            job.say("Mesh opening against its distance to moving parts after ISO 13857 table 4 or OSHA 1910.217 table O-10, see the rule sheet."),
            job.say("Doors, panels and covers close dust tight and are bonded to the casing."),
            job.say("Lock out and wait for standstill before opening."),
        ],
    );
    notes.width = 140.0;
    notes
}
