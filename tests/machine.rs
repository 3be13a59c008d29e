//! The bodies of the machine are those of the list: every part with a mass has a body of that mass, as many pieces stand as the
//! list counts, every body is sound; over starters and random specs.
#![allow(clippy::unwrap_used, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::machine::Machine;
use footwell::parts::Parts;
use footwell::solid::check::check;
use std::collections::BTreeMap;
use support::random_spec;

/// Families whose pieces have no place in the model yet: the box of a gravity take-up.
const NOWHERE: &str = "weight_box";

/// What does not hold of the bodies, a line each.
fn findings(parts: &Parts, machine: &Machine) -> Vec<String> {
    let mut out: Vec<String> = machine.bodiless.iter().map(|b| format!("{} has no body: {}", b.id, b.why)).collect();
    let bodies: BTreeMap<&str, _> = machine.bodies.iter().map(|b| (b.id.as_str(), b)).collect();
    if bodies.len() != machine.bodies.len() {
        out.push("ids are not unique".into());
    }
    for part in &parts.items {
        let Some(body) = bodies.get(part.id.as_str()) else {
            if part.mass_kg.is_some() {
                out.push(format!("{} weighs {:?} kg but has no body", part.id, part.mass_kg));
            }
            continue;
        };
        match (part.mass_kg, body.mass_kg()) {
            (None, None) => {}
            (Some(a), Some(b)) if (a - b).abs() <= 1e-6 * a => {}
            (a, b) => out.push(format!("{} weighs {a:?} kg on the list, its body {b:?}", part.id)),
        }
        if body.places.len() != part.quantity as usize && !part.id.starts_with(NOWHERE) {
            out.push(format!("{}: {} pieces, {} places", part.id, part.quantity, body.places.len()));
        }
    }
    for body in &machine.bodies {
        out.extend(check(&body.brep).first().map(|f| format!("{}: {f}", body.id)));
        let hand = if machine.left { 1.0 } else { -1.0 };
        if body.places.iter().any(|p| (p.handedness() - hand).abs() > 1e-9) {
            out.push(format!("{} is turned inside out", body.id));
        }
    }
    out
}

fn texts() -> impl Iterator<Item = (String, String)> {
    support::templates().into_iter().chain((0..40).map(|seed| (format!("random {seed}"), random_spec::wild(seed))))
}

#[test]
fn every_body_is_the_part_that_the_list_counts_and_weighs() {
    let mut wrong = Vec::new();
    for (name, text) in texts() {
        let job = support::run(&text).unwrap();
        wrong.extend(findings(job.parts(), job.machine()).into_iter().map(|f| format!("{name}: {f}")));
    }
    assert!(wrong.is_empty(), "{} findings:\n{}", wrong.len(), wrong.join("\n"));
}

/// The comparing function itself.
#[test]
fn a_planted_fault_is_found() {
    let job: Job = support::run(&support::templates()[0].1).unwrap();
    let sound = job.machine();
    let planted = |fault: &dyn Fn(&mut Machine)| {
        let mut machine = sound.clone();
        fault(&mut machine);
        findings(job.parts(), &machine).len()
    };
    assert_eq!(planted(&|_| {}), 0);
    assert_eq!(planted(&|m| drop(m.bodies.remove(0))), 1);
    assert_eq!(planted(&|m| m.bodies[0].brep = m.bodies.last().unwrap().brep.clone()), 1);
    assert_eq!(planted(&|m| m.bodies[0].places.truncate(0)), 1);
    assert_eq!(planted(&|m| m.bodies[0].brep.vertices[0].x += 0.01), 1);
    assert_eq!(planted(&|m| m.bodies[0].places[0].right = m.bodies[0].places[0].right.map(|d| -d)), 1);
}

/// Bolts stand where their holes are: of the joints of the starters that have plates on both sides most are found.
#[test]
fn most_bolts_have_their_place() {
    for (name, text) in support::templates() {
        let job = support::run(&text).unwrap();
        let counted: u32 = job.parts().joints.iter().map(|j| j.quantity).sum();
        let standing: usize = job.machine().bodies.iter().filter(|b| b.id.starts_with("bolt.")).map(|b| b.places.len()).sum();
        let found: Vec<&str> = job.machine().bodies.iter().map(|b| b.id.as_str()).collect();
        let lost: Vec<String> = (job.parts().joints.iter().enumerate())
            .filter(|(i, _)| !found.contains(&format!("bolt.{}", i + 1).as_str()))
            .map(|(_, j)| format!("{} ({})", j.feature, j.quantity))
            .collect();
        println!("{name}: {standing} of {counted} bolts stand; not found: {lost:?}");
        assert!(standing * 10 >= counted as usize * 8, "{name}: {standing} of {counted}; not found: {lost:?}");
    }
}
