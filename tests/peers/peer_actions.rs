//! Prints 100 random specs with masses, belt pulls and anchors, and the actions and load cases that the program makes of them, as JSON.
//!
//! `tests/outside/actions_peer.py` works resultants, pad loads and cases out again.
#![allow(clippy::unwrap_used)]

use footwell::analysis::weights::MassAt;
use footwell::job::Job;
use serde_json::{Value, json};
use std::error::Error;

#[allow(dead_code)]
#[path = "../support/random_spec.rs"]
mod random_spec;

fn of(seed: u64) -> Result<Value, Box<dyn Error>> {
    let text = if seed.is_multiple_of(2) { random_spec::sound(seed) } else { random_spec::wild(seed) };
    let job = Job::of(&text).map_err(|why| format!("seed {seed}: {why:?}"))?;
    let (foot, results) = (job.foot(), job.results());
    let (m, t, p) = (&results.masses, &results.tension, &foot.pulleys);
    let mass = |m: &MassAt| json!([m.kg, m.x_mm, m.y_mm]);
    let circle = |b: &footwell::model::pulleys::PulleyBody| json!([b.centre.x, b.centre.z, b.diameter]);
    let loads = &results.loads;
    Ok(json!({
        "seed": seed,
        "anchors": foot.base.pads.iter().map(|p| json!([p.name, p.anchor.x, p.anchor.y])).collect::<Vec<_>>(),
        "own": [mass(&m.casing), mass(&m.inlets), mass(&m.pocket), mass(&m.foot_pulley_set), mass(&m.take_up), mass(&m.bend_pulley_set)],
        "above": [mass(&m.trunk), mass(&m.head), json!([m.belt_kg, p.head.centre.x, 0.0])],
        "running": mass(&m.product_running), "flooded": mass(&m.product_flooded), "on_belt": m.product_on_belt_kg,
        "up": t.foot_up_n, "down": t.foot_down_n, "up_full": t.foot_up_full_n, "start": t.start_n, "largest": t.largest_n, "blocked": t.blocked_empty_n,
        "foot": circle(&p.foot), "head": circle(&p.head), "bend": p.bend.as_ref().map(circle), "belt": foot.belt.thickness,
        "shaft": [foot.shaft_lowest, foot.shaft_highest], "top": foot.casing.top,
        "actions": loads.actions.iter().map(|a| json!({
            "id": a.id, "v": a.vertical_kn, "h": a.horizontal_kn, "at": a.at, "any": a.any_direction_kn, "height": a.any_height_mm,
            "pads": a.pads.iter().map(|p| json!([p.pad, p.vertical_kn, p.horizontal_kn])).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "cases": loads.cases.iter().map(|c| json!({
            "id": c.id, "actions": c.actions, "v": c.vertical_kn, "h": c.horizontal_kn, "any": c.any_direction_kn, "any_pad": c.any_pad_kn,
            "pads": c.pads.iter().map(|p| json!([p.pad, p.vertical_kn, p.horizontal_kn])).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "largest_pad": loads.largest_pad_kn, "largest_uplift": loads.largest_uplift_kn,
    }))
}

fn main() -> Result<(), Box<dyn Error>> {
    let all = (0..100).map(of).collect::<Result<Vec<_>, _>>()?;
    println!("{}", Value::from(all));
    Ok(())
}
