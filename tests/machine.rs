//! The bodies of the machine are those of the list: every part has a body of its mass, as many pieces stand
//! as the list counts, every body is sound; bolts stand where their holes are; buckets stand one spacing apart; over starters,
//! a gravity take-up and random specs.
#![allow(clippy::unwrap_used, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::machine::Machine;
use footwell::parts::Parts;
use footwell::solid::check::check;
use std::collections::BTreeMap;
use support::random_spec;

/// What does not hold of the bodies, a line each.
fn findings(parts: &Parts, machine: &Machine) -> Vec<String> {
    let mut out: Vec<String> = machine.bodiless.iter().map(|b| format!("{} has no body: {}", b.id, b.why)).collect();
    let bodies: BTreeMap<&str, _> = machine.bodies.iter().map(|b| (b.id.as_str(), b)).collect();
    if bodies.len() != machine.bodies.len() {
        out.push("ids are not unique".into());
    }
    for part in &parts.items {
        let Some(body) = bodies.get(part.id.as_str()) else {
            out.push(format!("{} ({:?} kg) has no body", part.id, part.mass_kg));
            continue;
        };
        match (part.mass_kg, body.mass_kg()) {
            (None, None) => {}
            (Some(a), Some(b)) if (a - b).abs() <= 1e-6 * a => {}
            (a, b) => out.push(format!("{} weighs {a:?} kg on the list, its body {b:?}", part.id)),
        }
        if body.places.len() != part.quantity as usize {
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

/// The starters, and some of them with other kinds of take-up, bearing and inlet.
fn kinds() -> Vec<(String, String)> {
    let mut out = support::templates();
    let of = |name: &str| out.iter().find(|(file, _)| file == &format!("{name}.toml")).unwrap().1.clone();
    let (grain, inch) = (of("grain_intake"), of("us_units"));
    let gravity = |text: &str| {
        assert!(text.contains("kind = \"screw\"") || !text.contains("[take_up]"), "{text}");
        if text.contains("[take_up]") { text.replace("kind = \"screw\"", "kind = \"gravity\"") } else { format!("[take_up]\nkind = \"gravity\"\n{text}") }
    };
    let heavy = gravity(&grain).replace("kind = \"gravity\"", "kind = \"gravity\"\nweights = \"900 kg\"") + "\n[bearings]\nkind = \"pillow block\"\n";
    let wide = grain.replace("[inlet.up]\n", "[inlet.up]\nfrom_width = \"400 mm\"\nfrom_height = \"400 mm\"\nfrom_length = \"300 mm\"\n");
    assert_ne!(wide, grain);
    out.extend([
        ("weights".into(), gravity(&grain)),
        ("weights in inches".into(), gravity(&inch)),
        ("heavy weights, pillow blocks".into(), heavy),
        ("transition".into(), wide),
    ]);
    out
}

fn texts() -> impl Iterator<Item = (String, String)> {
    kinds().into_iter().chain((0..40).map(|seed| (format!("random {seed}"), random_spec::wild(seed))))
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

/// What the bolts of every joint, its nuts and its washers lack.
fn lost_bolts(parts: &Parts, machine: &Machine) -> Vec<String> {
    let standing = |id: String| machine.bodies.iter().find(|b| b.id == id).map_or(0, |b| b.places.len());
    let mut lost = Vec::new();
    for (i, joint) in parts.joints.iter().enumerate() {
        let [bolts, nuts, washers] = ["bolt", "nut", "washer"].map(|what| standing(format!("{what}.{}", i + 1)));
        let under = joint.washers() as usize;
        if bolts != joint.quantity as usize || joint.nut && nuts != bolts || washers != under * bolts {
            lost.push(format!("{} × {}: {bolts} bolts, {nuts} nuts and {washers} washers stand", joint.quantity, joint.feature));
        }
    }
    lost
}

/// Bolts stand where their holes are, as many as the list counts.
#[test]
fn every_bolt_has_its_place() {
    let mut wrong = Vec::new();
    for (name, text) in kinds() {
        let job = support::run(&text).unwrap();
        wrong.extend(lost_bolts(job.parts(), job.machine()).into_iter().map(|l| format!("{name}: {l}")));
    }
    assert!(wrong.is_empty(), "{} joints:\n{}", wrong.len(), wrong.join("\n"));
    let job = support::run(&support::templates()[0].1).unwrap();
    let mut machine = job.machine().clone();
    machine.bodies.iter_mut().find(|b| b.id.starts_with("washer.")).unwrap().places.pop();
    assert_eq!(lost_bolts(job.parts(), &machine).len(), 1, "a lost washer is found");
}

/// What holds a weight box holds it: each of its bolts goes through a bar and a box's back into a tapped sliding plate.
#[test]
fn bolts_of_weight_boxes_go_through_bars_into_the_plates() {
    for (name, text) in kinds().into_iter().filter(|(name, _)| name.contains("weights")) {
        let job = support::run(&text).unwrap();
        let at = |id: &str| -> Vec<[f64; 3]> {
            // A sliding plate of pillow blocks is one of its own on each side.
            let parts = job.parts().items.iter().filter(|p| p.id.strip_prefix(id).is_some_and(|rest| ["", ".near", ".far"].contains(&rest)));
            let points = parts.flat_map(|part| {
                let holes = part.flat.iter().flat_map(|f| &f.holes).filter(|h| h.feature == "weight box");
                holes.flat_map(|h| part.placements.iter().map(|p| p.point(h.at[0], h.at[1], 0.0)))
            });
            points.map(|p| [p.x, p.y.signum(), p.z]).collect()
        };
        let [plate, bar] = ["sliding_plate", "weight_box.bar"].map(at);
        assert_eq!([plate.len(), bar.len()], [8, 8], "{name}");
        let meets = |a: &[f64; 3], b: &[f64; 3]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-6);
        for hole in &bar {
            assert!(plate.iter().any(|p| meets(p, hole)), "{name}: {hole:?}");
        }
        // Held in front of the sliding plate, and of the top flange and the rod's bracket, which it passes.
        let foot = job.foot();
        let held = foot.rotating.weight_box.unwrap();
        assert!(held.y.low > foot.casing.width.high + foot.casing.plate + foot.rotating.sliding_plate.thickness);
        let before = foot.casing.flange.max(foot.rotating.holder.shelf_depth());
        assert!(held.y.low > foot.casing.width.high + foot.casing.plate + before, "{name}");
    }
}

/// Buckets stand one spacing apart along the belt wherever two of them follow each other in the picture.
#[test]
fn buckets_stand_at_one_pitch() {
    for (name, text) in kinds() {
        let job = support::run(&text).unwrap();
        let (foot, machine) = (job.foot(), job.machine());
        let body = machine.bodies.iter().find(|b| b.id == "bucket").unwrap();
        let path = &foot.belt.lowest;
        let steps = 20_000;
        // Along the belt, by search: where its outer face comes nearest to the bolts.
        let along = |at: [f64; 3]| {
            let distance = |i: i32| path.length_mm * f64::from(i) / f64::from(steps);
            let off = |i: &i32| foot.belt.place(path, distance(*i)).map_or(f64::INFINITY, |p| (p.at[0] - at[0]).hypot(p.at[1] - at[2]));
            distance((0..steps).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap())
        };
        let mut places: Vec<f64> = body.places.iter().map(|p| along(p.origin)).collect();
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() < 1.0);
        let step = path.length_mm / f64::from(steps);
        let gaps: Vec<f64> = places.iter().zip(places.iter().skip(1)).map(|(a, b)| b - a).collect();
        let uneven: Vec<&f64> = gaps.iter().filter(|g| (**g - foot.bucket.spacing).abs() > 2.0 * step).collect();
        // One gap is the way over the head.
        assert!(gaps.len() >= 6 && uneven.len() == 1 && *uneven[0] > path.length_mm / 2.0, "{name}: {uneven:?}");
    }
}
