//! Tools reach and the take-up moves: the proofs over starters, odd machines and random specs, held against the rules, with a planted fault
//! of each kind.
//!
//! `FOOTWELL_RANDOM=300 cargo test --test service` takes that many random specs.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::machine::{Body, Machine};
use footwell::parts::Parts;
use footwell::proofs::tools::{Unreached, What, unreached};
use footwell::proofs::travel::{Gap, gaps};
use footwell::rules::Verdict;
use support::random_spec;

fn jobs() -> impl Iterator<Item = (String, Job)> {
    let random = std::env::var("FOOTWELL_RANDOM").map_or(15, |n| n.parse().unwrap());
    let texts = support::templates().into_iter().chain(support::odd()).chain((0..random).map(|seed| (format!("random {seed}"), random_spec::sound(seed))));
    texts.map(|(name, text)| {
        let job = Job::of(&text).unwrap_or_else(|why| panic!("{name}: {why:#?}"));
        (name, job)
    })
}

fn said(u: &Unreached) -> String {
    format!("{:?} {} ({}) by {}: {:.1} mm at {:?}, {} times", u.what, u.id, u.feature, u.by, u.deep, u.at.map(f64::round), u.times)
}

/// Whether a rule says nothing worse than a note.
fn passes(job: &Job, rules: &[&str]) -> bool {
    job.findings().items.iter().all(|f| !rules.contains(&f.rule) || f.verdict <= Verdict::Note)
}

/// Where openings have their place and parts can be made, every bolt, nut and door is reached.
#[test]
fn tools_reach() {
    let mut wrong = Vec::new();
    for (name, job) in jobs() {
        if passes(&job, &["can-be-made", "openings-overlap", "door-view", "bend-clearance", "tools-reach"]) {
            wrong.extend(job.unreached().iter().map(|u| format!("{name}: {}", said(u))));
        }
    }
    assert!(wrong.is_empty(), "{} findings\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn the_take_up_moves() {
    let mut wrong = Vec::new();
    for (name, job) in jobs() {
        let clear = passes(&job, &["can-be-made", "casing-height", "take-up-covers", "slide-above-floor", "bend-clearance"]);
        wrong.extend(job.gaps().iter().filter(|_| clear).map(|g| format!("{name}: {g:?}")));
    }
    assert!(wrong.is_empty(), "{} findings\n{}", wrong.len(), wrong.join("\n"));
}

fn starter(name: &str) -> Job {
    Job::of(&support::templates().into_iter().find(|(n, _)| n.starts_with(name)).unwrap().1).unwrap()
}

fn body<'a>(machine: &'a mut Machine, id: &str) -> &'a mut Body {
    machine.bodies.iter_mut().find(|b| b.id == id).unwrap_or_else(|| panic!("no {id}"))
}

/// Puts all pieces of a body beside the first piece of another.
fn beside(machine: &mut Machine, id: &str, other: &str, by: [f64; 3]) {
    let at = body(machine, other).places[0].origin;
    body(machine, id).places.iter_mut().for_each(|p| p.origin = [0, 1, 2].map(|i| at[i] + by[i]));
}

fn bolt_of(parts: &Parts, what: &str, feature: &str) -> String {
    format!("{what}.{}", parts.joints.iter().position(|j| j.feature == feature).unwrap() + 1)
}

/// A plate over the heads of a panel.
#[test]
fn faults_of_reach_are_found() {
    let job = starter("grain_intake");
    let travel = job.foot().rotating.travel;
    let after = |fault: &dyn Fn(&mut Machine)| {
        let mut machine = job.machine().clone();
        fault(&mut machine);
        unreached(&machine, job.parts(), travel)
    };
    assert_eq!(after(&|_| ()), Vec::new());
    let panel = bolt_of(job.parts(), "bolt", "sensor_panels.near.up");
    // A side plate just outside the heads of a sensor panel: its inner face a hair over them.
    let thick = |id: &str| job.parts().part(id).unwrap().thickness;
    let lid = after(&|m| {
        let y = body(m, "sensor_panels.near.up.leaf").places[0].origin[1];
        body(m, "side_plate.far").places[0].origin[1] = y + thick("sensor_panels.near.up.leaf") + 1.6 + 5.3 + 0.4 + thick("side_plate.far");
    });
    assert!(
        lid.iter().any(|u| u.what == What::Head && u.id == panel && u.by == "side_plate.far" && u.deep > 0.0),
        "{:?}",
        lid.iter().map(said).collect::<Vec<_>>()
    );
}

/// Seams that are known to be wrong: the webs of a weight box stand too near each other for a torch between them on a narrow sliding plate.
const OPEN: &str = "webs of the weight boxes";

/// Every fillet of every weldment can be laid, in some order.
#[test]
fn a_torch_reaches_every_seam() {
    let mut wrong = Vec::new();
    for (name, job) in jobs() {
        if passes(&job, &["can-be-made", "openings-overlap"]) {
            wrong.extend(
                job.covered()
                    .iter()
                    .filter(|c| c.what.plainly() != OPEN)
                    .map(|c| format!("{name}: weld {} {} by {}: {:.1} mm at {:?}", c.number, c.what.plainly(), c.by, c.deep, c.at.map(f64::round))),
            );
        }
    }
    assert!(wrong.is_empty(), "{} findings\n{}", wrong.len(), wrong.join("\n"));
}

/// Two stiffeners with a gap narrower than a torch between them: whichever stands first, the other's seam in the gap cannot be laid.
#[test]
fn a_gap_too_narrow_for_a_torch_is_found() {
    let job = starter("grain_intake");
    let mut parts = job.parts().clone();
    let stiffener = parts.items.iter_mut().find(|p| p.id == "stiffener").unwrap();
    let mut beside = stiffener.placements[0];
    beside.origin[0] += stiffener.thickness + 14.0;
    stiffener.placements.push(beside);
    let mut machine = job.machine().clone();
    body(&mut machine, "stiffener").places.push(beside);
    let found = footwell::proofs::torch::covered(&machine, &parts.laid());
    assert!(found.iter().any(|c| c.by == "stiffener" && c.deep > 0.0), "{found:?}");
}

/// A bar in the way of the sliding plate half way up, a plate too short for its slot, guides cut short.
#[test]
fn faults_of_the_travel_are_found() {
    let job = starter("grain_intake");
    let travel = job.foot().rotating.travel;
    let after = |fault: &dyn Fn(&mut Machine)| {
        let mut machine = job.machine().clone();
        fault(&mut machine);
        gaps(&machine, job.parts(), travel)
    };
    let met = after(&|m| beside(m, "foot.gusset", "sliding_plate", [60.0, 8.0, 700.0]));
    assert!(met.iter().any(|g| matches!(g, Gap::Met { ids, .. } if ids[1] == "foot.gusset")), "{met:?}");
    let open = after(&|m| body(m, "sliding_plate").places.iter_mut().for_each(|p| p.origin[2] += 30.0));
    assert!(open.iter().any(|g| matches!(g, Gap::Slot { lap, .. } if *lap < 10.0)), "{open:?}");
    let let_go = after(&|m| body(m, "guide.retainer").places.iter_mut().for_each(|p| p.origin[2] += 1500.0));
    assert!(let_go.iter().any(|g| matches!(g, Gap::Guide { .. })), "{let_go:?}");
}
