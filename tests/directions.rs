//! What-ifs: which way, and how far at least, every answer goes when one key changes and everything else is given.
//!
//! In: a small elevator whose sizes are all given, so that no default follows the change. A direction is mechanics that anybody can argue
//! without the program: more pull bends more, a thicker shaft bends less, a heap that is steeper leaves less room.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use std::collections::BTreeMap;
use toml::Table;

const BASE: &str = r#"
[product]
preset = "barley"
[duty]
capacity = "60 t/h"
lift = "25 m"
belt_speed = "2.4 m/s"
[bucket]
length = "280 mm"
projection = "165 mm"
height = "180 mm"
spacing = "220 mm"
mass = "2 kg"
[belt]
width = "330 mm"
stretch = "0.8 %"
tracking_tension = "7 N/mm"
[head_pulley]
diameter = "800 mm"
pull_limit = 5.0
[foot_pulley]
diameter = "800 mm"
[shaft]
diameter = "50 mm"
journal = "50 mm"
bearing_centres = "700 mm"
[take_up]
travel = "400 mm"
rod = "Tr30x6"
lug = "20 mm"
shelf = "15 mm"
gusset = "50 mm"
torque = "24 N·m"
[casing]
plate = "5 mm"
height = "2600 mm"
[inlet.up]
sill = "1050 mm"
width = "230 mm"
height = "250 mm"
slope = "50 deg"
[monitoring]
delay = "1 s"
feeder_run_on = "1 s"
"#;

#[derive(Debug, Clone, Copy, PartialEq)]
enum Goes {
    Up,
    Down,
    /// Not by a hundredth: what is stronger weighs a little more.
    Stays,
}
use Goes::{Down, Stays, Up};

/// Key, its new value, quantity, which way, by which share at least.
type WhatIf = (&'static str, &'static str, &'static str, Goes, f64);

const WHAT_IFS: &[WhatIf] = &[
    // Blocked foot: the drive's stall or the grip, whichever is less; what the empty up run leaves to the foot.
    // The drive that stalls is chosen for full buckets, or for half more than the duty where they hold more than that.
    ("duty.capacity", "\"80 t/h\"", "tension.blocked_empty", Up, 0.05),
    ("bucket.volume", "\"3 l\"", "tension.blocked_empty", Down, 0.1),
    ("bucket.volume", "\"3 l\"", "power.motor_full", Down, 0.1),
    ("bucket.volume", "\"3 l\"", "power.motor", Stays, 0.0),
    ("bucket.volume", "\"3 l\"", "tension.largest", Down, 0.02),
    ("bucket.volume", "\"3 l\"", "cases.full.shaft", Down, 0.001),
    ("duty.lift", "\"40 m\"", "tension.blocked_empty", Up, 0.2),
    // A head that grips badly asks for a tighter belt to start with, and that pulls at a blocked foot.
    ("head_pulley.friction", "0.08", "tension.foot_set", Up, 0.5),
    ("head_pulley.friction", "0.08", "tension.blocked_empty", Up, 0.5),
    ("head_pulley.friction", "0.5", "tension.blocked_empty", Stays, 0.0),
    ("belt.tracking_tension", "\"14 N/mm\"", "cases.blocked_empty.shaft", Up, 0.2),
    ("belt.tracking_tension", "\"14 N/mm\"", "cases.running.shaft", Up, 0.8),
    ("duty.lift", "\"40 m\"", "cases.blocked_empty.side", Up, 0.2),
    ("duty.lift", "\"40 m\"", "loads.largest_uplift", Up, 0.1),
    ("shaft.diameter", "\"60 mm\"", "shaft.worst_stress", Down, 0.4),
    ("shaft.bearing_centres", "\"800 mm\"", "shaft.worst_stress", Up, 0.1),
    ("shaft.diameter", "\"60 mm\"", "shaft.hub_slope", Down, 0.5),
    ("bearings.static_rating", "\"40 kN\"", "bearing.static_safety", Up, 0.5),
    ("bearings.static_rating", "\"40 kN\"", "bearing.life", Stays, 0.0),
    ("belt.tracking_tension", "\"14 N/mm\"", "bearing.static_safety", Down, 0.15),
    ("belt.tracking_tension", "\"14 N/mm\"", "bearing.life", Down, 0.8),
    ("take_up.rod", "\"Tr36x6\"", "screw.equivalent", Down, 0.2),
    ("take_up.rod", "\"Tr36x6\"", "screw.buckling_safety", Up, 0.5),
    ("take_up.travel", "\"700 mm\"", "screw.buckling_safety", Down, 0.3),
    ("take_up.rod_yield", "\"500 MPa\"", "screw.worst_allowed", Up, 0.3),
    ("take_up.lug", "\"30 mm\"", "screw.lug", Down, 0.5),
    ("take_up.lug", "\"30 mm\"", "screw.lug_seam", Down, 0.3),
    ("take_up.lug", "\"30 mm\"", "screw.shelf", Stays, 0.0),
    ("take_up.shelf", "\"20 mm\"", "screw.shelf", Down, 0.4),
    ("take_up.gusset", "\"80 mm\"", "screw.bracket_seam", Down, 0.4),
    ("take_up.gusset", "\"80 mm\"", "screw.gusset", Down, 0.4),
    ("take_up.gusset", "\"80 mm\"", "screw.free_length", Up, 0.05),
    ("casing.plate", "\"8 mm\"", "screw.bracket_seam", Down, 0.2),
    // What one person turns until the spanner lets go, and what stands against it.
    ("take_up.torque", "\"80 N·m\"", "cases.overtightened.side", Up, 0.99),
    ("take_up.torque", "\"80 N·m\"", "cases.overtightened.shaft", Up, 0.7),
    ("take_up.torque", "\"80 N·m\"", "cases.overtightened.belt", Up, 0.2),
    ("take_up.torque", "\"80 N·m\"", "tension.foot_set", Stays, 0.0),
    ("take_up.rod", "\"Tr36x6\"", "cases.overtightened.side", Down, 0.1),
    ("take_up.friction", "0.2", "cases.overtightened.side", Down, 0.15),
    ("take_up.friction", "0.2", "screw.torque", Up, 0.2),
    ("belt.tracking_tension", "\"14 N/mm\"", "screw.tighten", Up, 0.9),
    // A drive that is limited pulls less in starting and at a blocked foot.
    ("head_pulley.pull_limit", "1.2", "tension.blocked_empty", Down, 0.2),
    ("head_pulley.pull_limit", "1.2", "tension.start", Down, 0.1),
    ("head_pulley.pull_limit", "1.2", "tension.effective_pull", Stays, 0.0),
    ("head_pulley.pull_limit", "3.9", "tension.start", Stays, 0.0),
    // Under the bucket tips.
    ("take_up.travel", "\"700 mm\"", "residue.under_tips_highest", Up, 0.3),
    ("take_up.travel", "\"700 mm\"", "residue.under_tips_lowest", Stays, 0.0),
    ("casing.bottom_clearance", "\"140 mm\"", "residue.under_tips_lowest", Up, 0.2),
    ("product.repose", "\"40 deg\"", "residue.under_tips_highest", Up, 0.02),
    ("casing.bottom", "\"curved\"", "residue.under_tips_lowest", Down, 0.3),
    ("casing.bottom", "\"curved\"", "residue.below_clean_outs", Up, 0.3),
    ("casing.side_clearance", "\"150 mm\"", "residue.under_tips_lowest", Up, 0.3),
    // What falls back at the head.
    ("duty.belt_speed", "\"1.4 m/s\"", "discharge.back", Up, 0.1),
    ("product.internal_friction", "\"42 deg\"", "net.past_head", Down, 0.001),
    ("duty.belt_speed", "\"1.4 m/s\"", "net.past_head", Down, 0.4),
    ("head_pulley.diameter", "\"1600 mm\"", "discharge.back", Up, 0.1),
    // Throats and sill.
    ("inlet.up.slope", "\"8 deg\"", "net.throats", Down, 0.9),
    ("inlet.up.drop", "\"200 mm\"", "throat.slowest_speed_up", Down, 0.3),
    ("inlet.up.width", "\"200 mm\"", "net.throats", Down, 0.1),
    ("inlet.up.height", "\"350 mm\"", "throat.stream_up", Up, 0.3),
    ("inlet.up.sill", "\"550 mm\"", "net.capacity", Down, 0.05),
    ("inlet.up.sill", "\"550 mm\"", "net.past_sill", Down, 0.05),
    ("inlet.up.sill", "\"1150 mm\"", "net.past_sill", Stays, 0.0),
    ("duty.fill", "0.6", "capacity.rated", Down, 0.1),
    // Time to plug.
    ("duty.capacity", "\"80 t/h\"", "plugging.time_up", Down, 0.2),
    ("monitoring.delay", "\"3 s\"", "plugging.reaction", Up, 0.9),
    ("monitoring.delay", "\"3 s\"", "plugging.time_up", Stays, 0.0),
    ("inlet.up.sill", "\"1250 mm\"", "plugging.left_up", Up, 0.1),
    ("casing.side_clearance", "\"150 mm\"", "plugging.left_up", Up, 0.3),
    ("casing.up_clearance", "\"200 mm\"", "plugging.left_up", Up, 0.05),
    ("product.repose", "\"40 deg\"", "plugging.left_up", Down, 0.1),
    ("product.repose", "\"40 deg\"", "plugging.volume_up", Stays, 0.0),
    ("product.density", "\"0.8 t/m3\"", "plugging.time_up", Up, 0.1),
    ("foot_pulley.style", "\"winged\"", "plugging.volume_up", Up, 0.1),
    ("inlet.down.fitted", "true", "plugging.lying", Up, 0.05),
    ("inlet.down.fitted", "true", "masses.product_running", Up, 0.05),
    ("inlet.down.fitted", "true", "plugging.left_up", Down, 0.05),
    ("inlet.down.fitted", "true", "power.motor", Up, 0.05),
    ("duty.belt_speed", "\"2.8 m/s\"", "capacity.rated", Up, 0.15),
    ("duty.belt_speed", "\"2.8 m/s\"", "tension.centrifugal", Up, 0.3),
    ("bucket.mass", "\"3 kg\"", "tension.own_weight", Up, 0.2),
];

fn results(text: &str) -> BTreeMap<String, f64> {
    let job = Job::of_contradicting(text).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"));
    job.results().quantities().into_iter().map(|q| (q.id, q.value)).collect()
}

#[test]
fn every_answer_goes_its_way() {
    let before = results(BASE);
    let mut wrong = Vec::new();
    for (key, value, quantity, goes, least) in WHAT_IFS {
        let mut table: Table = BASE.parse().unwrap();
        support::set(&mut table, key, value);
        let after = results(&toml::to_string(&table).unwrap());
        let (Some(a), Some(b)) = (before.get(*quantity), after.get(*quantity)) else {
            wrong.push(format!("{key} = {value}: no {quantity}"));
            continue;
        };
        let share = (b - a) / a.abs().max(1e-9);
        let right = match goes {
            Up => share >= *least && share > 1e-3,
            Down => share <= -*least && share < -1e-3,
            Stays => share.abs() <= 1e-2,
        };
        if !right {
            wrong.push(format!("{key} = {value}: {quantity} {a:.4} -> {b:.4} ({:+.1} %), wanted {goes:?} by {:.0} % at least", share * 100.0, least * 100.0));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(WHAT_IFS.len() >= 30);
}
