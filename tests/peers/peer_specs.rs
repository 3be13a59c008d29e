//! Prints 100 random specs, settled, with what the analysis makes of them, as JSON.
//!
//! `tests/outside/specs_peer.py` reads them and works out retained fill, belt tensions and foot shaft again
//! from the settled keys and the places of the pulleys alone. The specs are those of the property tests: every
//! second one holds values that rules object to (low sills among them), half have a slippery head pulley.
#![allow(clippy::unwrap_used)]
#![recursion_limit = "256"] // json! takes a step a key

use footwell::analysis::Results;
use footwell::analysis::cases::rod_of;
use footwell::job::Job;
use footwell::model::Foot;
use footwell::model::inlets::FeedSide;
use footwell::spec::Spec;
use footwell::spec::rotating::TakeUpKind;
use serde_json::{Value, json};
use std::error::Error;

#[allow(dead_code)]
#[path = "../support/random_spec.rs"]
mod random_spec;

/// What Python starts from: keys of the settled spec, places of the pulleys, masses that hang on the foot shaft.
fn given(spec: &Spec, foot: &Foot, results: &Results) -> Value {
    let circle = |b: &footwell::model::pulleys::PulleyBody| json!([b.centre.x, b.centre.z, b.diameter]);
    json!({
        "capacity": spec.duty.capacity.value(), "speed": spec.duty.belt_speed.value(), "fill": spec.duty.fill.value(),
        "density": spec.product.density.value(), "internal_friction_deg": spec.product.internal_friction.value(),
        "bucket_volume": spec.bucket.volume.value(), "bucket_rows": spec.bucket.rows.value, "bucket_spacing": spec.bucket.spacing.value(),
        "bucket_mass": spec.bucket.mass.value(), "bucket_height": foot.bucket.height, "bucket_section": foot.bucket.section,
        "belt_mass": spec.belt.mass.value(), "belt_width": spec.belt.width.value(), "belt_thickness": spec.belt.thickness.value(),
        "tracking_tension": spec.belt.tracking_tension.value(), "head_friction": spec.head_pulley.friction.value(),
        "foot": circle(&foot.pulleys.foot), "head": circle(&foot.pulleys.head), "bend": foot.pulleys.bend.as_ref().map(circle),
        "shaft_lowest": foot.shaft_lowest, "shaft_highest": foot.shaft_highest,
        "fed_down": foot.inlet(FeedSide::Down).is_some(), "up_sill": foot.inlet(FeedSide::Up).map(|i| i.sill), "up_brim": foot.inlet(FeedSide::Up).map(|i| i.opening.high),
        "gravity": foot.rotating.take_up == TakeUpKind::Gravity, "weights": spec.take_up.weights.value(), "hanging": results.masses.hanging_kg,
        "boxes": results.masses.boxes_kg, "guide_friction": spec.take_up.guide_friction.value(),
        "guides": [foot.rotating.guides.z.low, foot.rotating.guides.z.high], "slide": [foot.rotating.sliding_plate.z.low, foot.rotating.sliding_plate.z.high],
        "travel": foot.rotating.travel, "bearing_plane": foot.rotating.bearing_planes.high,
        "box": foot.rotating.weight_box.map(|b| json!({ "length": b.x.size(), "out": [b.y.low, b.y.high] })),
        "pulley_mass": results.masses.foot_pulley_kg, "shaft_mass": results.masses.shaft_kg,
        "pull_limit": spec.head_pulley.limit(), "repose_deg": spec.product.repose.value(), "tip_radius": foot.tip_radius,
        "casing": foot.casing.inner_outline(), "bottom_radius": foot.casing.bottom_radius, "bottom_arc": foot.casing.bottom_arc,
        "ends": [foot.casing.down_face[0][0], foot.casing.up_face], "inside_width": foot.casing.width.size(),
        "torque": spec.take_up.torque.value(), "rod_friction": spec.take_up.friction.value(),
        "rod": rod_of(&spec.take_up).map(|(row, _)| json!([row.diameter_mm, row.pitch_mm, row.flank_rad()])),
        "bearing_centres": spec.shaft.bearing_centres.value(), "hub_spacing": foot.pulleys.hub_spacing, "shaft_diameter": foot.rotating.shaft_diameter,
    })
}

/// What Python must arrive at.
fn wanted(results: &Results) -> Value {
    let curve = |points: &[footwell::formulas::retained_fill::Retained]| points.iter().map(|p| [p.above_shaft_mm, p.share]).collect::<Vec<_>>();
    let sill = |at: &Option<footwell::analysis::retained::AtSill>| {
        at.map(|a| json!([a.above_shaft_mm, a.share, a.frictionless_share, a.most_lost_t_per_h, a.lost_t_per_h]))
    };
    let (r, t, s) = (&results.retained, &results.tension, &results.shaft);
    let curves = r.curves();
    json!({
        "frictionless": curve(&curves.frictionless), "with_friction": curve(&curves.with_friction),
        "sill_lowest": sill(&r.sill_lowest), "sill_highest": sill(&r.sill_highest), "water_level_area": r.water_level_area_mm2,
        "foot_down": t.foot_down_n, "foot_up": t.foot_up_n, "needed_down": t.chain.foot_down_n,
        "head_slack": t.chain.head_slack_n, "head_tight": t.chain.head_tight_n, "largest": t.largest_n, "grip_governs": !t.tracking_governs(),
        "under_tips": [results.residue.lowest.litres, results.residue.highest.litres], "back": results.discharge.back_share,
        "overtightened": results.cases.overtightened().map(|c| json!([c.rod_n, c.up_n, c.belt_n])),
        "resultant": s.belt_resultant_n, "design": s.design_n, "moment": s.moment_nm, "stress": s.stress_mpa,
        "hub_slope": s.hub_slope_rad, "bearing_slope": s.bearing_slope_rad, "deflection": s.deflection_mm,
    })
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut cases = Vec::new();
    for seed in 0..100 {
        let mut text = if seed % 2 == 0 { random_spec::sound(seed) } else { random_spec::wild(seed) };
        if seed % 4 > 1 {
            // Wet bare steel, so that grip and not tracking decides the tension in the foot.
            text = text.replace("[head_pulley]\n", "[head_pulley]\nfriction = 0.08\n");
        }
        let job = Job::of(&text).map_err(|why| format!("seed {seed}: {why:?}"))?;
        let results = job.results();
        cases.push(json!({ "seed": seed, "given": given(job.spec(), job.foot(), results), "wanted": wanted(results) }));
    }
    println!("{}", Value::from(cases));
    Ok(())
}
