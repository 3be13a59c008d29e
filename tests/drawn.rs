//! Drawn is cut is reckoned: over starters, odd machines and random specs
//! - every row of a list tells its bodies: pieces, masses, totals, cutting manifest, pieces in the STEP file;
//! - every flat pattern with its thickness is its body;
//! - every dimension that refers to a body ends on it, or stands in [`LOOSE`] with its reason.
//!
//! `FOOTWELL_RANDOM=300 cargo test --test drawn` takes that many random specs, `FOOTWELL_SEEDS=81,239` those alone. Volumes of the bodies are OCP's to 1e-6 in
//! tests/outside/step_bodies.py; that a printed number is the drawn distance is judged in tests/outside/random_sheets.py.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

#[path = "support/ends.rs"]
mod ends;
#[path = "support/pictures.rs"]
#[allow(dead_code)]
mod pictures;
mod support;

use ends::End::{Base, Body, Middle, Other, Tips, Within};
use ends::{End, Ends, NEAR};
use footwell::files::model;
use footwell::job::Job;
use footwell::lists::{self, Cell, List};
use footwell::machine::Machine;
use footwell::paper::request::{DimensionRequest, Quantity};
use footwell::paper::sheet::SheetPlan;
use footwell::parts::flat::{Contour, FlatPattern};
use footwell::parts::{Part, Parts};
use footwell::solid::brep::Brep;
use footwell::solid::mass::mass;
use std::collections::{BTreeMap, BTreeSet};
use support::random_spec;

/// Density of steel, kg/mm³ (EN 10025-1: 7850 kg/m³, from memory).
const STEEL: f64 = 7.85e-6;
/// How far bent plates may differ from area × thickness: the neutral line lies off the middle (DIN 6935).
const BENT: f64 = 0.003;

/// Dimensions that end on something else than an edge of a body that their view shows: view, key (`*` is anything), where
/// first and second end stand, why.
const LOOSE: &[(&str, &str, [End; 2], &str)] = &[
    ("ga/elevation", "belt.run_distance", [Middle("belt"); 2], "neutral line, in the middle of the belt"),
    ("belt/foot", "belt.run_distance", [Middle("belt"); 2], "neutral line, in the middle of the belt"),
    ("belt/foot", "*.neutral_radius", [Middle("belt"); 2], "neutral line, in the middle of the belt"),
    ("belt/foot", "bend_pulley.height", [Base, Body], "from the base, whose feet are not shown here"),
    ("belt/foot", "bucket.tip_radius", [Tips; 2], "circle of the bucket tips"),
    ("belt/foot", "casing.bottom_clearance", [Body, Tips], "to the circle of the bucket tips"),
    ("belt/foot", "casing.down_clearance", [Body, Tips], "to the circle of the bucket tips"),
    ("belt/foot", "clearance.down", [Body, Tips], "to the circle of the bucket tips"),
    ("belt/foot", "casing.up_clearance", [Tips, Body], "to the circle of the bucket tips"),
    ("belt/foot", "take_up.travel", [Middle("shaft"), Other], "from the axis to its highest place, where there are crosses"),
    ("*", "shaft.bearing_centres", [Within("bearing"); 2], "middle plane of the insert, inside its housing"),
    ("rotating/shaft", "shaft.projection", [Body, Within("bearing")], "to the middle plane of the insert, inside its housing"),
    ("rotating/shaft", "shaft.keyway.spacing", [Middle("shaft"); 2], "middles of the keyways"),
    ("rotating/shaft_section", "foot_pulley.hub_spacing", [Middle("foot_pulley.hub"); 2], "middles of the hubs"),
    ("openings/*.section", "*.mesh_distance", [Other, Body], "to the nearest moving part, a line that the rule reckons"),
    ("openings/pocket", "shovel_pocket.lip", [Base, Body], "from the floor"),
    ("openings/pocket", "shovel_pocket.sill", [Base, Body], "from the floor"),
    ("rotating/take_up_side", "shaft.projection", [Body, Within("bearing")], "to the middle plane of the insert, inside its housing"),
    ("rotating/take_up_side", "bearings.plane_from_wall", [Within("bearing"), Body], "from the middle plane of the insert"),
    ("turned/*", "*shaft.zone*", [Other; 2], "zones of fits, longer than the seats that need them"),
    ("turned/*", "*shaft.plane*", [Body, Other], "to the middle planes of hubs and bearings, which have centre lines"),
    ("turned/*", "*shaft.projection", [Body, Other], "to the middle plane of the insert"),
    ("turned/tapped_end", "shaft.thread", [Other; 2], "threads are smooth in the body"),
    ("turned/tapped_end", "shaft.thread_depth", [Body, Other], "threads are smooth in the body"),
    ("turned/foot_pulley.section", "foot_pulley.disc_spacing", [Middle("foot_pulley.disc"); 2], "middles of the discs"),
    ("turned/bend_pulley.section", "bend_pulley.disc_spacing", [Middle("bend_pulley.disc"); 2], "middles of the discs"),
    ("assembly/up_end", "assembly.near_edge", [Body, Middle("end_plate.up")], "to the middle of the machine"),
    ("assembly/up_end", "assembly.far_edge", [Middle("end_plate.up"), Body], "from the middle of the machine"),
    ("pit/plan", "pit.down_space", [Other, Body], "from the pit's wall"),
    ("pit/plan", "pit.up_space", [Body, Other], "to the pit's wall"),
    ("pit/plan", "pit.near_space", [Body, Other], "to the pit's wall"),
    ("pit/plan", "pit.far_space", [Other, Body], "from the pit's wall"),
    ("pit/plan", "pit.x_down", [Other, Body], "from the pit's wall"),
    ("pit/plan", "pit.x_up", [Body, Other], "to the pit's wall"),
    ("pit/plan", "pit.y_far", [Other, Middle("shaft")], "from the pit's wall to the middle of the machine"),
    ("pit/plan", "pit.y_near", [Middle("shaft"), Other], "from the middle of the machine to the pit's wall"),
    ("pit/along", "pit.feed_distance", [Body, Other], "to what others bring"),
    ("pit/along", "pit.feed_slope_built", [Other; 2], "of what others bring"),
    ("pit/*", "pit.*", [Other; 2], "concrete, rails and sump, no bodies of the machine"),
    ("belt/foot", "bend_pulley.angle", [Other; 2], "of the run with the take-up in the middle, as the figure says"),
    ("compare/*", "*.pit.*", [Other; 2], "concrete"),
];

/// Known defects that are not mended yet: view, key, how far off an end may stand until then (mm), what is wrong.
const OPEN: &[(&str, &str, f64, &str)] = &[
    ("*", "inlet.down.reach", 0.1, "a wall that is bent leaves the corner line of the model by its radii"),
    ("rotating/shaft_section", "foot_pulley.diameter", 0.05, "the corners of wings lie on the circle, the section shows their flat edge between"),
    ("turned/foot_pulley.section", "foot_pulley.diameter", 0.05, "the corners of wings lie on the circle, the section shows their flat edge between"),
];

/// How far off an end may stand, mm.
fn most(view: &str, key: &str) -> f64 {
    OPEN.iter().find(|(v, k, ..)| like(v, view) && like(k, key)).map_or(NEAR, |open| open.2)
}

/// Views that are drawn without bodies, and why their dimensions are not judged here.
const BODILESS: &[(&str, &str)] = &[
    ("belt/buckets", "two buckets on a straight piece of belt: sizes compared with the body in `sizes`"),
    ("belt/head", "the head is not part of the foot"),
    ("belt/retained", "a chart"),
    ("pit/cover", "the cover's beams and plates and the rail, of others"),
    ("pit/detail-*", "concrete and anchors in detail: the pad compared with the body in `sizes`"),
    ("pit-loads/*", "arrows"),
    ("rotating/tapped_end", "a centre hole as its standard has it: drill compared with the body in `sizes`"),
];

/// Whether a text has the form of a pattern in which `*` is anything.
fn like(pattern: &str, text: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == text,
        Some((before, after)) => {
            text.strip_prefix(before).is_some_and(|rest| after.is_empty() || (0..=rest.len()).any(|i| rest.get(i..).is_some_and(|tail| like(after, tail))))
        }
    }
}

/// What does not hold of the dimensions, a line each; which kinds of loose ends have their view drawn, and which are met.
fn loose_ends(job: &Job, plans: &[SheetPlan], machine: &Machine) -> (Vec<String>, BTreeSet<(usize, bool)>) {
    let (mut out, mut met) = (Vec::new(), BTreeSet::new());
    each_dimension(job, plans, machine, |view, d, ends, kind| {
        met.extend(kind.map(|kind| (kind, true)));
        met.extend(LOOSE.iter().enumerate().filter(|(_, l)| like(l.0, view)).map(|(kind, _)| (kind, false)));
        let kinds = kind.map_or([Body; 2], |kind| LOOSE[kind].2);
        let off = ends.off(d, kinds);
        if off.iter().any(|o| *o > most(view, &d.key)) {
            out.push(format!("{view}: {} = {:.3} stands {:.3} and {:.3} mm off, {:?}", d.key, d.value(), off[0], off[1], d.quantity));
        }
    });
    (out, met)
}

/// Calls with every dimension that is judged, what its view has to end on, and its kind among [`LOOSE`].
fn each_dimension(job: &Job, plans: &[SheetPlan], own: &Machine, mut call: impl FnMut(&str, &DimensionRequest, &Ends, Option<usize>)) {
    for plan in plans {
        for draft in plan.views.iter().map(|v| &v.draft).filter(|d| !d.dimensions.is_empty()) {
            let view = format!("{}/{}", plan.id, draft.id);
            let ends = match plate_of(job.parts(), &draft.id) {
                Some((_, flat, body)) => Ends::of_plate(flat, &body),
                None if draft.shown.is_empty() => continue,
                None if plan.id == "compare" => Ends::of_draft(draft, pictures::machine(job, &plan.id, &draft.id)),
                None => Ends::of_draft(draft, own),
            };
            for d in &draft.dimensions {
                call(&view, d, &ends, LOOSE.iter().position(|(v, key, ..)| like(v, &view) && like(key, &d.key)));
            }
        }
    }
}

/// Views with dimensions and without bodies of which nobody says why.
fn bodiless(plans: &[SheetPlan], parts: &Parts) -> Vec<String> {
    let views = plans.iter().flat_map(|p| p.views.iter().map(move |v| (format!("{}/{}", p.id, v.draft.id), &v.draft)));
    let bare = views.filter(|(_, d)| d.shown.is_empty() && !d.dimensions.is_empty() && plate_of(parts, &d.id).is_none());
    bare.filter(|(view, _)| !BODILESS.iter().any(|(v, _)| like(v, view))).map(|(view, _)| format!("{view} is drawn without bodies")).collect()
}

/// The plate that a view draws as it is cut.
fn plate_of<'a>(parts: &'a Parts, view: &str) -> Option<(&'a Part, &'a FlatPattern, Brep)> {
    let (_, id) = view.strip_prefix("plate.")?.split_once('.')?;
    let part = parts.part(id)?;
    Some((part, part.flat.as_ref()?, part.body()?.ok()?))
}

/// Least and greatest coordinates of a body's corners, each way.
fn reach(brep: &Brep) -> [[f64; 2]; 3] {
    [0, 1, 2].map(|i| brep.vertices.iter().map(|v| v[i]).fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], c| [a.min(c), b.max(c)]))
}

/// Dimensions of views that are not drawn from bodies, against the bodies all the same.
fn sizes(plans: &[SheetPlan], parts: &Parts, machine: &Machine) -> Vec<String> {
    let bodies = pictures::by_id(machine);
    let across = |id: &str, i: usize| bodies.get(id).map(|b| reach(&b.brep)[i]).map(|[a, b]| b - a);
    let hole = parts.part("shaft").and_then(|p| match &p.shape {
        Some(footwell::parts::shape::Shape::Shaft(s)) => s.holes.iter().flatten().next().copied(),
        _ => None,
    });
    let wanted = [
        ("belt/buckets", "bucket.projection", across("bucket", 0)),
        ("belt/buckets", "bucket.height", across("bucket", 1)),
        ("pit/detail-anchor", "base.pad.length", across("foot.pad", 0)),
        ("rotating/tapped_end", "shaft.tap_drill", hole.map(|h| h.diameter)),
        ("rotating/tapped_end", "shaft.drill_depth", hole.map(|h| h.depth)),
    ];
    let mut out = Vec::new();
    for plan in plans {
        for (draft, d) in plan.views.iter().flat_map(|v| v.draft.dimensions.iter().map(move |d| (&v.draft, d))) {
            let view = format!("{}/{}", plan.id, draft.id);
            let Some((.., is)) = wanted.iter().find(|(v, key, _)| *v == view && *key == d.key) else { continue };
            if is.is_none_or(|is| (is - d.value()).abs() > most(&view, &d.key)) {
                out.push(format!("{view}: {} is drawn as {:.3}, its body has {is:?}", d.key, d.value()));
            }
        }
    }
    out
}

/// Area of a pattern by chords of its contours, mm².
fn area(flat: &FlatPattern) -> f64 {
    let of = |c: &Contour| {
        let p = c.points(2e-4);
        let around = p.iter().zip(p.iter().cycle().skip(1));
        around.map(|(a, b)| a.x * b.y - a.y * b.x).sum::<f64>().abs() / 2.0
    };
    let holes = flat.holes.iter().map(|h| Contour::Circle { centre: h.at, diameter: h.diameter });
    of(&flat.outer) - flat.openings.iter().map(|o| o.contour.clone()).chain(holes).map(|c| of(&c)).sum::<f64>()
}

/// What does not hold of the flat patterns.
fn patterns(parts: &Parts, machine: &Machine) -> Vec<String> {
    let bodies = pictures::by_id(machine);
    let mut out = Vec::new();
    for part in &parts.items {
        let Some(flat) = &part.flat else { continue };
        let Some(body) = bodies.get(part.id.as_str()) else {
            out.push(format!("{} is cut and has no body", part.id));
            continue;
        };
        let (volume, cut) = (mass(&body.brep).volume, area(flat) * part.thickness);
        let most = if flat.bends.is_empty() { 1e-7 } else { BENT };
        if (volume / cut - 1.0).abs() > most {
            out.push(format!("{}: {volume:.1} mm³ of body, {cut:.1} mm³ are cut", part.id));
        }
        let [width, height] = flat.size();
        let [x, y, z] = reach(&body.brep);
        let plate = if flat.bends.is_empty() {
            [x[0], x[1] - width, y[0], y[1] - height, z[0], z[1] - part.thickness]
        } else {
            [y[0], y[1] - height, 0.0, 0.0, 0.0, 0.0]
        };
        // Corners of the body say it all but for outlines that bulge beyond theirs.
        let bulges = matches!(flat.outer, Contour::Circle { .. }) || matches!(&flat.outer, Contour::Path(nodes) if nodes.iter().any(|n| n.bulge != 0.0));
        if !bulges && plate.iter().any(|off| off.abs() > 1e-6) {
            out.push(format!("{}: body {x:?} {y:?} {z:?}, pattern {width} × {height} × {}", part.id, part.thickness));
        }
    }
    out
}

/// A cell of a list by its head, in the row of an item.
fn cell<'a>(list: &'a List, row: &'a [Cell], key: &str) -> Option<&'a Cell> {
    row.get(list.heads.iter().position(|h| h.key == key)?)
}

fn figure(list: &List, row: &[Cell], key: &str) -> Option<f64> {
    match cell(list, row, key)? {
        Cell::Amount(a) => Some(a.value),
        Cell::Count(n) => Some(f64::from(*n)),
        _ => None,
    }
}

/// The lists of a job as they go on paper and into files.
fn all_lists(parts: &Parts) -> BTreeMap<&'static str, List> {
    lists::all(parts).into_iter().map(|l| (l.id, l)).collect()
}

/// What does not hold of the lists.
fn rows(parts: &Parts, lists: &BTreeMap<&str, List>, machine: &Machine) -> Vec<String> {
    let bodies = pictures::by_id(machine);
    let (list, manifest) = (&lists["parts_list"], &lists["cutting_manifest"]);
    let mut out = Vec::new();
    let mut differ = |what: String, is: Option<f64>, wanted: f64| {
        if is.is_none_or(|is| (is - wanted).abs() > 1e-6 * wanted.abs().max(1e-3)) {
            out.push(format!("{what} is {is:?}, the bodies say {wanted}"));
        }
    };
    let (mut kg, mut unknown) = (0.0, 0.0);
    for (part, row) in parts.items.iter().zip(&list.rows) {
        let id = &part.id;
        differ(format!("{id}: item"), figure(list, row, "item"), f64::from(part.item));
        let quantity = figure(list, row, "qty").unwrap_or(f64::NAN);
        match bodies.get(id.as_str()) {
            Some(body) => {
                if !body.places.is_empty() {
                    differ(format!("{id}: quantity"), Some(quantity), body.places.len() as f64);
                }
                if body.of_steel {
                    let each = mass(&body.brep).volume * STEEL;
                    differ(format!("{id}: mass"), figure(list, row, "kg each"), each);
                    differ(format!("{id}: mass of all"), figure(list, row, "kg total"), each * quantity);
                    kg += each * quantity;
                } else {
                    unknown += quantity;
                }
            }
            None => unknown += quantity,
        }
    }
    differ("rows of the parts list".into(), Some(list.rows.len() as f64), parts.items.len() as f64);
    let bolts: f64 = parts.joints.iter().map(|j| j.mass_kg * f64::from(j.quantity)).sum();
    let total = |what: &str| {
        let named = |row: &&Vec<Cell>| matches!(row.first(), Some(Cell::Said(said)) if said.plainly() == what);
        lists["totals"].rows.iter().find(named).and_then(|row| figure(&lists["totals"], row, "value"))
    };
    differ("total mass".into(), total("mass of parts and bolts"), kg + bolts);
    differ("pieces without a mass".into(), total("pieces whose mass only their maker knows, not in it"), unknown);
    let plates: Vec<_> = parts.items.iter().filter_map(|p| p.flat.as_ref().map(|f| (p, f))).collect();
    differ("rows of the cutting manifest".into(), Some(manifest.rows.len() as f64), plates.len() as f64);
    for ((part, flat), row) in plates.into_iter().zip(&manifest.rows) {
        let places = bodies.get(part.id.as_str()).map_or(0, |b| b.places.len());
        differ(format!("{}: manifest's item", part.id), figure(manifest, row, "item"), f64::from(part.item));
        differ(format!("{}: manifest's quantity", part.id), figure(manifest, row, "qty"), if places == 0 { f64::from(part.quantity) } else { places as f64 });
        differ(format!("{}: manifest's thickness", part.id), figure(manifest, row, "thickness mm"), part.thickness);
        differ(format!("{}: manifest's area", part.id), figure(manifest, row, "area mm2"), area(flat));
        if let Some(body) = bodies.get(part.id.as_str()) {
            differ(format!("{}: manifest's mass", part.id), figure(manifest, row, "kg each"), mass(&body.brep).volume * STEEL);
        }
    }
    let pieces: f64 = lists["fasteners"].rows.iter().filter_map(|row| figure(&lists["fasteners"], row, "qty")).sum();
    // A bolt, its washers, and a nut where there is one.
    let wanted = |j: &footwell::parts::Joint| j.quantity * (1 + u32::from(j.nut) + j.washers());
    differ("fasteners".into(), Some(pieces), parts.joints.iter().map(wanted).sum::<u32>().into());
    for (number, joint) in parts.joints.iter().enumerate() {
        if let Some(body) = bodies.get(format!("bolt.{}", number + 1).as_str()) {
            differ(format!("bolts of {}", joint.feature), Some(body.places.len() as f64), f64::from(joint.quantity));
        }
    }
    out
}

/// What does not hold of the STEP file's count of bodies and pieces.
fn pieces_in_step(text: &str, machine: &Machine) -> Vec<String> {
    let standing: Vec<usize> = machine.bodies.iter().map(|b| b.places.len()).filter(|n| *n > 0).collect();
    // The four groups are placed as well.
    let wanted = [("MANIFOLD_SOLID_BREP(", standing.len()), ("NEXT_ASSEMBLY_USAGE_OCCURRENCE(", standing.iter().sum::<usize>() + 4)];
    wanted
        .iter()
        .map(|(tag, n)| (tag, text.matches(tag).count(), n))
        .filter(|(_, is, n)| is != *n)
        .map(|(tag, is, n)| format!("{tag} {is} times instead of {n}"))
        .collect()
}

/// Rows of parts on sheets, by item: quantity and mass as the bodies have them.
fn rows_on_sheets(job: &Job) -> Vec<String> {
    let subject = job.subject();
    let mut out = Vec::new();
    for table in job.plans().iter().flat_map(|p| &p.tables).filter(|t| t.id == "parts") {
        let column = |name: &str| table.columns.iter().position(|c| c.heading.plainly() == name).unwrap();
        let (item, quantity, kg) = (column("Item"), column("Qty"), column("Mass"));
        for row in &table.rows {
            let mut parts = job.parts().items.iter().filter(|p| p.item.to_string() == row[item]);
            let fits = parts.any(|p| {
                let body = job.machine().bodies.iter().find(|b| b.id == p.id);
                let each = body.filter(|b| b.of_steel).map(|b| mass(&b.brep).volume * STEEL);
                let total = each.map_or_else(|| subject.say("by maker"), |each| subject.mass(each * f64::from(p.quantity)));
                row[quantity] == p.quantity.to_string() && row[kg] == total
            });
            if !fits {
                out.push(format!("row {row:?} tells another quantity or mass than the bodies"));
            }
        }
    }
    out
}

/// Everything that does not hold of a job, and the kinds of loose ends as [`loose_ends`] has them.
fn findings(job: &Job) -> (Vec<String>, BTreeSet<(usize, bool)>) {
    let (parts, machine) = (job.parts(), job.machine());
    let (mut out, met) = loose_ends(job, job.plans(), machine);
    out.extend(rows(parts, &all_lists(parts), machine));
    out.extend(rows_on_sheets(job));
    out.extend(bodiless(job.plans(), parts));
    out.extend(patterns(parts, machine));
    out.extend(sizes(job.plans(), parts, machine));
    match model::file(machine, &job.voice(), "model") {
        Ok(file) => out.extend(pieces_in_step(&String::from_utf8(file.bytes).unwrap(), machine)),
        Err(why) => out.push(why),
    }
    (out, met)
}

fn random(seed: u64) -> (String, String) {
    (format!("random {seed}"), random_spec::sound(seed))
}

/// All machines; only random ones by their seeds where these are named.
fn texts() -> Vec<(String, String)> {
    if let Ok(seeds) = std::env::var("FOOTWELL_SEEDS") {
        return seeds.split(',').map(|seed| random(seed.trim().parse().unwrap())).collect();
    }
    let many = std::env::var("FOOTWELL_RANDOM").map_or(15, |n| n.parse().unwrap());
    support::templates().into_iter().chain(support::odd()).chain((0..many).chain(ONCE_WRONG).map(random)).collect()
}

/// Seeds of machines that once showed what others did not: no bucket under the shaft, a pocket that is not cut.
const ONCE_WRONG: [u64; 4] = [81, 239, 241, 263];

#[test]
fn drawn_is_cut_is_reckoned() {
    let texts = texts();
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(4);
    let of = |thread: usize| {
        let (mut wrong, mut met) = (Vec::new(), BTreeSet::new());
        for (name, text) in texts.iter().skip(thread).step_by(threads) {
            let (found, kinds) = findings(&Job::of(text).unwrap_or_else(|why| panic!("{name}: {why:#?}")));
            wrong.extend(found.into_iter().map(|f| format!("{name}: {f}")));
            met.extend(kinds);
        }
        (wrong, met)
    };
    let (mut wrong, mut met) = (Vec::new(), BTreeSet::new());
    std::thread::scope(|scope| {
        let running: Vec<_> = (0..threads).map(|t| scope.spawn(move || of(t))).collect();
        for (found, kinds) in running.into_iter().map(|r| r.join().unwrap()) {
            wrong.extend(found);
            met.extend(kinds);
        }
    });
    assert!(wrong.is_empty(), "{} findings in {} machines:\n{}", wrong.len(), texts.len(), wrong.join("\n"));
    if std::env::var("FOOTWELL_SEEDS").is_ok() {
        return;
    }
    // The circle of the tips is the envelope of the buckets: one may end on it by chance.
    let needed = |i: usize, l: &(&str, &str, [End; 2], &str)| l.2.contains(&Tips) || met.contains(&(i, true));
    let idle: Vec<&str> = LOOSE.iter().enumerate().filter(|(i, l)| met.contains(&(*i, false)) && !needed(*i, l)).map(|(_, l)| l.1).collect();
    assert!(idle.is_empty(), "no dimension has a loose end as {idle:?}");
}

fn grain_intake() -> Job {
    Job::of(&support::templates()[0].1).unwrap()
}

/// A wrong quantity, a wrong mass, a lost row, a piece too few, a plate of another thickness: each is found.
#[test]
fn planted_faults_of_lists_and_patterns_are_found() {
    let job = grain_intake();
    let (parts, machine) = (job.parts(), job.machine());
    let listed = |fault: &dyn Fn(&mut Parts)| {
        let mut parts = parts.clone();
        fault(&mut parts);
        rows(&parts, &all_lists(&parts), machine).len() + patterns(&parts, machine).len()
    };
    assert_eq!(listed(&|_| {}), 0);
    assert!(listed(&|p| p.items[0].quantity += 1) > 0);
    assert!(listed(&|p| p.items[0].mass_kg = p.items[0].mass_kg.map(|m| m * 1.000_01)) > 0);
    assert!(listed(&|p| p.items[0].thickness += 0.01) > 0);
    assert!(listed(&|p| p.items[0].flat.as_mut().unwrap().holes[0].diameter += 0.1) > 0);
    assert!(listed(&|p| p.joints[0].quantity += 1) > 0);
    let mut lists = all_lists(parts);
    lists.get_mut("parts_list").unwrap().rows.pop();
    lists.get_mut("totals").unwrap().rows.remove(0);
    assert!(rows(parts, &lists, machine).len() >= 2);
    let standing = |fault: &dyn Fn(&mut Machine)| {
        let mut machine = machine.clone();
        fault(&mut machine);
        let text = String::from_utf8(model::file(&machine, &job.voice(), "model").unwrap().bytes).unwrap();
        rows(parts, &all_lists(parts), &machine).len() + pieces_in_step(&text, job.machine()).len()
    };
    assert_eq!(standing(&|_| {}), 0);
    // Missing in the list's count and in the file.
    assert!(standing(&|m| m.bodies[0].places.truncate(0)) > 1);
}

/// Ends moved by little are found; a body that stands elsewhere than its dimensions say is found.
#[test]
fn planted_faults_of_dimensions_are_found() {
    let job = grain_intake();
    let plans = job.plans();
    assert_eq!(loose_ends(&job, plans, job.machine()).0, Vec::<String>::new());
    // Each judged end on its own.
    let (mut planted, mut found) = (0, 0);
    each_dimension(&job, plans, job.machine(), |_, d, ends, kind| {
        let kinds = kind.map_or([Body; 2], |kind| LOOSE[kind].2);
        for (second, kind) in [(false, kinds[0]), (true, kinds[1])] {
            let mut moved = d.clone();
            match &mut moved.quantity {
                Quantity::Linear { first, second: last, .. } => {
                    let end = if second { last } else { first };
                    (end.x, end.y) = (end.x + 0.37, end.y + 0.37);
                }
                Quantity::Diameter { radius, .. } if !second => *radius += 0.37,
                Quantity::Radius { on, .. } if !second => on.x += 0.37,
                _ => continue,
            }
            if !matches!(kind, Other | Within(_)) {
                planted += 1;
                found += u32::from(ends.off(&moved, kinds).iter().any(|o| *o > NEAR));
            }
        }
    });
    println!("{found} of {planted} moved ends are found");
    assert!(planted > 200 && found * 100 >= planted * 95, "{found} of {planted}");
    for id in ["end_plate.up", "throat.up.flange", "foot_pulley.hub", "sliding_plate", "shaft", "belt", "bucket"] {
        let mut machine = job.machine().clone();
        let body = machine.bodies.iter_mut().find(|b| b.id == id).unwrap();
        body.places.iter_mut().for_each(|p| p.origin = p.origin.map(|c| c + 0.37));
        // The views show it where it stands now.
        let mut plans = plans.to_vec();
        let pieces = plans.iter_mut().flat_map(|p| &mut p.views).flat_map(|v| &mut v.draft.shown).flat_map(|s| &mut s.pieces);
        pieces.filter(|p| p.body == id).for_each(|p| p.at[3] = p.at[3].map(|c| c + 0.37));
        assert!(!loose_ends(&job, &plans, &machine).0.is_empty(), "{id} stands elsewhere and nobody sees it");
    }
}
