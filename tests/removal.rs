//! What wears comes out without cutting steel, inside the pit: the proof of removal over starters, odd machines and random specs, held
//! against the rules, with planted faults.
//!
//! `FOOTWELL_RANDOM=300 cargo test --test removal` takes that many random specs.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::parts::Parts;
use footwell::proofs::removal::in_the_way;
use footwell::rules::Verdict;
use support::random_spec;

/// Ids that meet on the way out, with how deep.
fn met(job: &Job) -> Vec<String> {
    job.in_the_way().iter().map(|w| format!("step {}: {} and {}, {:.2} mm deep at {:?}", w.step, w.ids[0], w.ids[1], w.deep, w.at.map(f64::round))).collect()
}

fn worst(job: &Job) -> Option<Verdict> {
    job.findings().items.iter().filter(|f| f.rule == "pulley-comes-out" && f.path.starts_with("removal")).map(|f| f.verdict).max()
}

/// Where a panel is made and the rule passes, nothing is in the way; where there is none, no step is said.
#[test]
fn the_pulley_comes_out() {
    let random = std::env::var("FOOTWELL_RANDOM").map_or(15, |n| n.parse().unwrap());
    let texts = support::templates().into_iter().chain(support::odd()).chain((0..random).map(|seed| (format!("random {seed}"), random_spec::sound(seed))));
    let (mut wrong, mut out, mut all) = (Vec::new(), 0, 0);
    for (name, text) in texts {
        let job = Job::of(&text).unwrap_or_else(|why| panic!("{name}: {why:#?}"));
        all += 1;
        if job.taking_out().is_empty() {
            assert!(worst(&job) > Some(Verdict::Pass), "{name}: no way out, and no rule says so");
            continue;
        }
        out += 1;
        if worst(&job) == Some(Verdict::Pass) {
            wrong.extend(met(&job).into_iter().map(|w| format!("{name}: {w}")));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(2 * out >= all, "only {out} of {all} machines have a panel");
}

fn passes(job: &Job, rules: &[&str]) -> bool {
    job.findings().items.iter().all(|f| !rules.contains(&f.rule) || f.verdict <= Verdict::Note)
}

/// Everything that wears or is opened has its way where the rules pass: bearings one side at a time, weights, doors and their mesh, covers, the
/// lid of the pocket, the bend pulley after the foot pulley.
#[test]
fn everything_comes_off() {
    let random = std::env::var("FOOTWELL_RANDOM").map_or(15, |n| n.parse().unwrap());
    let texts = support::templates().into_iter().chain(support::odd()).chain((0..random).map(|seed| (format!("random {seed}"), random_spec::sound(seed))));
    let (mut wrong, mut seen) = (Vec::new(), std::collections::BTreeMap::new());
    for (name, text) in texts {
        let job = Job::of(&text).unwrap_or_else(|why| panic!("{name}: {why:#?}"));
        // A pit that is too narrow, a bend pulley or an opening in the wrong place are said by their rules.
        let said = ["pulley-comes-out", "wear-parts-come-out", "pit-shaft-pull", "pit-clearance", "bend-clearance", "openings-overlap", "can-be-made"];
        if !passes(&job, &said) {
            continue;
        }
        for way in job.coming_off() {
            let kind = way.id.split(['.', '[']).next().unwrap_or_default().to_string();
            *seen.entry(kind).or_insert(0) += 1;
            let met = job.kept_in(&way);
            wrong.extend(
                met.iter()
                    .map(|w| format!("{name}: {}, step {}: {} and {}, {:.2} mm at {:?}", way.id, w.step, w.ids[0], w.ids[1], w.deep, w.at.map(f64::round))),
            );
        }
        let bend = job.foot().pulleys.bend.is_some();
        let has = |id: &str| job.coming_off().iter().any(|w| w.id == id);
        assert!(!bend || !has("foot_pulley") || has("bend_pulley"), "{name}: the bend pulley stays in and no rule says so");
    }
    assert!(wrong.is_empty(), "{} findings\n{}", wrong.len(), wrong.join("\n"));
    for kind in ["foot_pulley", "bend_pulley", "bearing", "bend_bearing", "weights", "door", "sensor_panels", "clean_out", "pocket"] {
        assert!(seen.contains_key(kind), "no machine takes out {kind}: {seen:?}");
    }
}

/// A planted fault of each kind: a post before a bearing, a bar across a door, a pit as narrow as the foot, a panel lower than the bend pulley.
#[test]
fn faults_of_the_ways_are_found() {
    let job = starter("tall_bend", "");
    let ways = job.coming_off();
    let of = |id: &str| ways.iter().find(|w| w.id == id).unwrap_or_else(|| panic!("no way for {id}")).steps.clone();
    let with = |way: &str, id: &str, to: &str, by: [f64; 3]| {
        let mut machine = job.machine().clone();
        let target = machine.bodies.iter().find(|b| b.id == to).unwrap().places[0].origin;
        let body = machine.bodies.iter_mut().find(|b| b.id == id).unwrap();
        body.places.iter_mut().for_each(|p| p.origin = [0, 1, 2].map(|i| target[i] + by[i]));
        in_the_way(&machine, job.parts(), &of(way), None).into_iter().map(|w| w.ids.join(" ")).collect::<Vec<_>>()
    };
    let out = job.machine().bodies.iter().find(|b| b.id == "bearing").unwrap().places.iter().find(|p| p.origin[1] > 0.0).unwrap().origin[1];
    let far = job.machine().bodies.iter().find(|b| b.id == "bearing").unwrap().places[0].origin[1];
    let near = with("bearing.near", "foot.gusset", "bearing", [-50.0, out - far + 90.0, -100.0]);
    assert!(near.iter().any(|ids| ids == "bearing foot.gusset"), "{near:?}");
    let place = job.parts().part("door[1].leaf").unwrap().placements[0];
    let before = [0, 1, 2].map(|i| 80.0 * place.toward[i] + 60.0 * (place.right[i] + place.up[i]));
    let leaf = with("door[1]", "nameplate", "door[1].leaf", before);
    assert!(!leaf.is_empty(), "{leaf:?}");
    let bend = with("bend_pulley", "foot.gusset", "bend_pulley.hub", [300.0, 0.0, 0.0]);
    assert!(bend.iter().any(|ids| ids.starts_with("bend_pulley")), "{bend:?}");
    let tight = footwell::solid::within::Bounds { low: glam::DVec3::splat(-900.0), high: glam::DVec3::new(900.0, 900.0, 3000.0) };
    let walls = in_the_way(job.machine(), job.parts(), &of("foot_pulley"), Some(tight));
    assert!(walls.iter().any(|w| w.ids[1] == footwell::proofs::removal::PIT && w.ids[0] == "shaft"), "{walls:?}");
}

fn starter(name: &str, more: &str) -> Job {
    let text = support::templates().into_iter().find(|(n, _)| n.starts_with(name)).unwrap().1;
    Job::of_contradicting(&format!("{text}\n{more}")).unwrap()
}

/// A panel one pitch of its bolts too low, and an opening so low that the pulley would stand in the bottom: the proof names the end
/// plate, the rule fails and says what passes, and that passes.
#[test]
fn faults_of_the_opening() {
    for fault in ["height = \"750 mm\"", "sill = \"60 mm\""] {
        let job = starter("grain_intake", &format!("[removal]\n{fault}\n"));
        assert!(job.in_the_way().iter().any(|w| w.ids[0].starts_with("foot_pulley") && w.ids[1].starts_with("end_plate")), "{fault}: {:?}", met(&job));
        assert_eq!(worst(&job), Some(Verdict::Fail), "{fault}");
        let finding = job.findings().items.iter().find(|f| f.rule == "pulley-comes-out" && f.verdict == Verdict::Fail).unwrap();
        let lines: Vec<String> = finding.would_pass.iter().map(|c| c.line().replace("removal.", "")).collect();
        let mended = starter("grain_intake", &format!("[removal]\n{}\n", lines.join("\n")));
        assert_eq!((worst(&mended), met(&mended)), (Some(Verdict::Pass), Vec::new()), "{fault}: {lines:?}");
    }
}

/// What stands in the way is found: a bar before the panel, a shelf inside, a plate beside the shaft, a cover that is not taken off.
#[test]
fn bodies_in_the_way_are_found() {
    let job = starter("grain_intake", "");
    let steps = job.taking_out();
    let with = |id: &str, by: [f64; 3]| {
        let mut machine = job.machine().clone();
        let body = machine.bodies.iter_mut().find(|b| b.id == id).unwrap();
        body.places.iter_mut().for_each(|p| p.origin = [0, 1, 2].map(|i| p.origin[i] + by[i]));
        in_the_way(&machine, job.parts(), &steps, None).into_iter().map(|w| w.ids.concat()).collect::<Vec<_>>()
    };
    assert!(with("clean_out.down.leaf", [-100.0, 0.0, 400.0]).iter().any(|ids| ids.ends_with("clean_out.down.leaf")));
    assert!(with("bottom", [0.0, 0.0, 350.0]).iter().any(|ids| ids == "foot_pulley.rimbottom"));
    assert!(with("foot.gusset", [-560.0, -20.0, 700.0]).iter().any(|ids| ids == "shaftfoot.gusset"), "beside the shaft");
    // Without its first two steps the pulley runs into the cover.
    let late = in_the_way(job.machine(), job.parts(), &steps[2..], None);
    assert!(late.iter().any(|w| w.ids[1] == "removal.leaf"));
    // The collar on the side of the shaft stays: the keys do not pass it.
    let mut kept = steps.clone();
    kept[3].undone.families.retain(|f| f != "collar");
    assert!(in_the_way(job.machine(), job.parts(), &kept, None).iter().any(|w| w.ids == ["key".to_string(), "collar".to_string()]));
}

/// The order is written on the sheet of the openings, with the masses of what is lifted.
#[test]
fn the_order_is_on_a_sheet() {
    let job = starter("tall_bend", "");
    let plan = job.plans().iter().find(|p| p.id == "openings").unwrap();
    let block = plan.notes.iter().find(|n| n.id == "taking_out").unwrap();
    assert_eq!(block.notes.len(), job.taking_out().len());
    assert!(block.notes.iter().filter(|n| n.contains(" kg")).count() >= 4, "{:#?}", block.notes);
    let made = |parts: &Parts, id: &str| parts.part(id).is_some();
    assert!(["frame", "leaf", "rib", "gasket", "grip"].iter().all(|piece| made(job.parts(), &format!("removal.{piece}"))));
}
