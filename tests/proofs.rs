//! Nothing overlaps and nothing hangs in the air: the proofs over the bodies of starters, odd machines and random specs; what is
//! known to be wrong and waits for a larger change stands in [`SHARED`] and [`HANGING`] with its reason, and is met.
//!
//! `FOOTWELL_RANDOM=300 cargo test --test proofs` takes that many random specs. That the proof of overlaps sees what an exact
//! boolean sees is judged in tests/outside/interference.py.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::machine::Machine;
use footwell::parts::Parts;
use footwell::parts::shape::Shape;
use footwell::proofs::held::{Loose, loose};
use footwell::proofs::overlaps::{Overlap, overlaps};
use std::collections::BTreeSet;
use support::random_spec;

/// Bodies that share space and wait for a larger change: both families, how deep at most (mm), the rule that says so of the
/// machines in question, if one does, why.
const SHARED: &[(&str, &str, f64, Option<&str>, &str)] = &[
    ("foot_pulley.*", "bend_pulley.*", f64::INFINITY, Some("bend-clearance"), "a bend pulley that the spec puts too low"),
    ("weld.*", "bend_pulley.*", f64::INFINITY, Some("bend-clearance"), "a bend pulley that the spec puts too low"),
    ("weld.*", "foot_pulley.*", f64::INFINITY, Some("bend-clearance"), "a bend pulley that the spec puts too low"),
];

/// Seeds of machines that have what others have not: a bend pulley too low, a panel beside the pocket, a seam under a bearing, a joint
/// of the belt just above the pulley.
const ONCE_WRONG: [u64; 6] = [30, 112, 142, 168, 186, 228];

/// What hangs in the air and waits for a larger change: its kind and id or purpose, why.
const HANGING: &[(&str, &str, &str)] = &[];

/// Whether a text is of a pattern in which one `*` is anything.
fn like(pattern: &str, text: &str) -> bool {
    pattern.split_once('*').map_or(pattern == text, |(before, after)| text.strip_prefix(before).is_some_and(|rest| rest.ends_with(after)))
}

fn known_overlap(o: &Overlap, failed: &[&str]) -> Option<usize> {
    let [a, b] = &o.ids;
    let both = |one: &str, other: &str| like(one, a) && like(other, b) || like(one, b) && like(other, a);
    SHARED.iter().position(|(one, other, most, rule, _)| both(one, other) && o.deep <= *most && rule.is_none_or(|rule| failed.contains(&rule)))
}

/// What hangs, by kind and what tells it.
fn sort(l: &Loose) -> (&'static str, &str) {
    match l {
        Loose::Alone { id, .. } => ("alone", id),
        Loose::Hole { feature, .. } => ("hole", feature),
        Loose::Clamps { feature, .. } => ("clamps", feature),
        Loose::NoEnd { id, .. } => ("no end", id),
        Loose::Nowhere { feature, .. } => ("nowhere", feature),
    }
}

fn known_loose(l: &Loose) -> Option<usize> {
    let (kind, what) = sort(l);
    HANGING.iter().position(|(k, pattern, _)| *k == kind && like(pattern, what))
}

fn said(o: &Overlap) -> String {
    let side = |i: usize| format!("{} {}", o.items[i].map_or_else(|| "-".into(), |item| item.to_string()), o.ids[i]);
    let at = o.at.map(|c| c.round());
    let size = o.size.map(|c| (c * 10.0).round() / 10.0);
    format!("{} and {}: {:.2} mm deep at {at:?}, {size:?} large, {:?}, {} times", side(0), side(1), o.deep, o.position, o.times)
}

/// What does not hold of a job, and which of the known defects it has.
fn findings(job: &Job) -> (Vec<String>, BTreeSet<(bool, usize)>) {
    let (mut out, mut met) = (Vec::new(), BTreeSet::new());
    for o in job.overlaps() {
        match known_overlap(&o, &job.findings().failed) {
            Some(known) => drop(met.insert((true, known))),
            None => out.push(said(&o)),
        }
    }
    for l in job.loose() {
        match known_loose(&l) {
            Some(known) => drop(met.insert((false, known))),
            None => out.push(format!("{l:?}")),
        }
    }
    (out, met)
}

#[test]
fn nothing_overlaps_and_nothing_hangs() {
    let random = std::env::var("FOOTWELL_RANDOM").map_or(15, |n| n.parse().unwrap());
    let texts: Vec<(String, String)> = support::templates()
        .into_iter()
        .chain(support::odd())
        .chain((0..random).chain(ONCE_WRONG).map(|seed| (format!("random {seed}"), random_spec::sound(seed))))
        .collect();
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(4);
    let of = |thread: usize| {
        let (mut wrong, mut met) = (Vec::new(), BTreeSet::new());
        for (name, text) in texts.iter().skip(thread).step_by(threads) {
            let (found, known) = findings(&Job::of(text).unwrap_or_else(|why| panic!("{name}: {why:#?}")));
            wrong.extend(found.into_iter().map(|f| format!("{name}: {f}")));
            met.extend(known);
        }
        (wrong, met)
    };
    let (mut wrong, mut met) = (Vec::new(), BTreeSet::new());
    std::thread::scope(|scope| {
        let running: Vec<_> = (0..threads).map(|t| scope.spawn(move || of(t))).collect();
        for (found, known) in running.into_iter().map(|r| r.join().unwrap()) {
            wrong.extend(found);
            met.extend(known);
        }
    });
    assert!(wrong.is_empty(), "{} findings in {} machines:\n{}", wrong.len(), texts.len(), wrong.join("\n"));
    let idle = |overlap: bool, n: usize| (0..n).filter(|i| !met.contains(&(overlap, *i))).collect::<Vec<_>>();
    // What a rule says is met by the specs that break it.
    let mended: Vec<&str> = idle(true, SHARED.len())
        .into_iter()
        .filter(|i| SHARED[*i].3.is_none())
        .map(|i| SHARED[i].0)
        .chain(idle(false, HANGING.len()).into_iter().map(|i| HANGING[i].1))
        .collect();
    assert!(mended.is_empty(), "no machine has these known defects any more: {mended:?}");
}

fn starter(name: &str) -> Job {
    Job::of(&support::templates().into_iter().find(|(n, _)| n.starts_with(name)).unwrap().1).unwrap()
}

/// A job with how many pieces overlap and how many things hang in it.
struct Sound {
    job: Job,
    count: [usize; 2],
}

fn count(machine: &Machine, parts: &Parts, travel: f64) -> [usize; 2] {
    let pieces = |l: &Loose| match l {
        Loose::Alone { pieces: n, .. } | Loose::Hole { holes: n, .. } | Loose::Clamps { bolts: n, .. } | Loose::NoEnd { bolts: n, .. } => *n,
        Loose::Nowhere { wanted, stand, .. } => wanted.abs_diff(*stand),
    };
    [overlaps(machine, parts, travel).iter().map(|o| o.times).sum(), loose(machine, parts).iter().map(pieces).sum()]
}

impl Sound {
    fn starter(name: &str) -> Self {
        let job = starter(name);
        let count = count(job.machine(), job.parts(), job.foot().rotating.travel);
        Self { job, count }
    }
    /// How many more findings a fault makes.
    fn planted(&self, fault: impl FnOnce(&mut Machine, &mut Parts)) -> [usize; 2] {
        let (mut machine, mut parts) = (self.job.machine().clone(), self.job.parts().clone());
        fault(&mut machine, &mut parts);
        let after = count(&machine, &parts, self.job.foot().rotating.travel);
        [0, 1].map(|i| after[i].saturating_sub(self.count[i]))
    }
}

fn body<'a>(machine: &'a mut Machine, id: &str) -> &'a mut footwell::machine::Body {
    machine.bodies.iter_mut().find(|b| b.id == id).unwrap_or_else(|| panic!("no {id}"))
}

/// Any body that is moved into its neighbours is found.
#[test]
fn moved_bodies_are_found() {
    let sound = Sound::starter("grain_intake");
    for id in ["end_plate.up", "throat.up.flange", "foot_pulley.hub", "sliding_plate", "shaft", "bracket.shelf", "guide.spacer", "top_flange.near"] {
        let [shared, _] = sound.planted(|m, _| body(m, id).places.iter_mut().for_each(|p| p.origin = p.origin.map(|c| c + 3.7)));
        assert!(shared > 0, "{id} stands elsewhere and nobody sees it");
        let [_, hanging] = sound.planted(|m, _| body(m, id).places.iter_mut().for_each(|p| p.origin[2] += 5000.0));
        assert!(hanging > 0, "{id} floats and nobody sees it");
    }
}

/// A bolt thicker than its hole, a bolt too few, a joint without bolts, a hole too few, a hole too many, a bolt too short, a key too wide.
#[test]
fn faults_of_bolts_and_holes_are_found() {
    let sound = Sound::starter("grain_intake");
    let job = &sound.job;
    let bolt = |feature: &str| format!("bolt.{}", job.parts().joints.iter().position(|j| j.feature == feature).unwrap() + 1);
    let nut = |feature: &str| format!("nut.{}", job.parts().joints.iter().position(|j| j.feature == feature).unwrap() + 1);
    let guide = "guide of the sliding plate";
    assert_eq!(sound.planted(|_, _| {}), [0, 0]);
    let thick = |m: &mut Machine, id: &str, by: f64| {
        // About its own z.
        let b = body(m, id);
        b.brep = Shape::Rod { diameter: by, root: by - 0.4, length: 80.0 }.body().unwrap();
    };
    // M10 in holes of 11; the guides' bolts clear.
    assert!(sound.planted(|m, _| thick(m, &bolt(guide), 11.4))[0] > 0);
    assert!(sound.planted(|m, _| _ = body(m, &bolt(guide)).places.pop())[1] > 0);
    assert!(sound.planted(|m, _| _ = body(m, &nut(guide)).places.pop())[1] > 0);
    assert!(sound.planted(|m, _| m.bodies.retain(|b| b.id != bolt(guide)))[1] > 0);
    // A hole that a plate lost: its body and its pattern.
    let [shared, _] = sound.planted(|m, p| {
        let part = p.items.iter_mut().find(|p| p.id == "guide.retainer").unwrap();
        part.flat.as_mut().unwrap().holes.pop();
        body(m, "guide.retainer").brep = part.body().unwrap().unwrap();
    });
    assert!(shared > 0);
    let [_, hanging] = sound.planted(|m, p| {
        let part = p.items.iter_mut().find(|p| p.id == "guide.retainer").unwrap();
        let flat = part.flat.as_mut().unwrap();
        let mut hole = flat.holes[0].clone();
        hole.at[1] += 30.0;
        flat.holes.push(hole);
        body(m, "guide.retainer").brep = part.body().unwrap().unwrap();
    });
    assert!(hanging > 0);
    // Thicker plates than the joint clamps.
    assert!(sound.planted(|_, p| p.joints.iter_mut().for_each(|j| j.clamped += 2.0))[1] > 0);
    // A tapped hole that is a plain one now.
    assert!(sound.planted(|_, p| p.items.iter_mut().filter_map(|p| p.flat.as_mut()).flat_map(|f| &mut f.holes).for_each(|h| h.thread = None)) != [0, 0]);
    // A key wider than its way, a shaft thicker than its bearing.
    assert!(sound.planted(|m, _| body(m, "key").places.iter_mut().for_each(|p| p.origin[0] += 0.3))[0] > 0);
}
