//! Prints 100 random pits with the program's quantities as JSON, for an independent solid computation.
//!
//! In: nothing; the pits are drawn from a fixed seed. Out: one JSON list on standard output; each pit with
//! its outline in mm and the quantities of `analysis::pit`.
#![allow(clippy::unwrap_used, clippy::panic)]

use footwell::job::Job;
use serde_json::{Value, json};

/// A small multiplicative generator; good enough to spread sizes, the same everywhere.
struct Dice(u64);

impl Dice {
    fn step(&mut self, low: f64, high: f64, step: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let share = (self.0 >> 33) as f64 / f64::from(1_u32 << 31);
        low + (share * ((high - low) / step + 1.0)).floor().min((high - low) / step) * step
    }
}

fn pit(seed: u64) -> Value {
    let mut d = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) + 1);
    let feed = if seed.is_multiple_of(2) {
        format!("feed_level = \"{} mm\"\nfeed_distance = \"{} mm\"\nfeed_slope = \"45 deg\"\n", d.step(-2500.0, 400.0, 50.0), d.step(300.0, 2500.0, 50.0))
    } else {
        format!("depth = \"{} mm\"\n", d.step(600.0, 4500.0, 50.0))
    };
    let text = format!(
        "[product]\npreset = \"wheat\"\n[duty]\ncapacity = \"120 t/h\"\nlift = \"28 m\"\n[bucket]\nlength = \"{}\"\nprojection = \"180 mm\"\nheight = \"200 mm\"\n[head_pulley]\ndiameter = \"{} mm\"\n[pit]\nfitted = true\n{feed}wall = \"{} mm\"\nslab = \"{} mm\"\nlean = \"{} mm\"\ntoe = \"{} mm\"\nsump = \"{} mm\"\nsump_depth = \"{} mm\"\nup_space = \"{} mm\"\ndown_space = \"{} mm\"\nnear_space = \"{} mm\"\nfar_space = \"{} mm\"\nworking_space = \"{} mm\"\nbatter = \"{} deg\"\nelevators = {}\ngroundwater = \"{} mm\"\n",
        ["900 mm", "400 mm", "300 mm", "400 mm"][(seed % 4) as usize],
        d.step(500.0, 1200.0, 10.0),
        d.step(150.0, 700.0, 10.0),
        d.step(150.0, 800.0, 10.0),
        d.step(0.0, 150.0, 10.0),
        d.step(0.0, 800.0, 50.0),
        d.step(0.0, 1000.0, 50.0),
        d.step(100.0, 900.0, 50.0),
        d.step(600.0, 2500.0, 10.0),
        d.step(600.0, 2500.0, 10.0),
        d.step(600.0, 3000.0, 10.0),
        d.step(600.0, 3000.0, 10.0),
        d.step(100.0, 1000.0, 50.0),
        d.step(30.0, 90.0, 5.0),
        d.step(1.0, 3.0, 1.0),
        d.step(0.0, 3000.0, 50.0),
    );
    let job = Job::of(&text).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"));
    let (spec, foot, results) = (job.spec(), job.foot(), job.results());
    let (body, numbers) = (foot.pit.as_ref().unwrap(), results.pit.as_ref().unwrap());
    let uplift = numbers.uplift.as_ref().unwrap();
    json!({
        "x": [body.x.low, body.x.high], "y": [body.y.low, body.y.high], "depth": body.depth,
        "wall": body.wall, "slab": body.slab, "lean": body.lean, "toe": body.toe,
        "sump": body.sump.map(|s| json!({ "x": [s.x.low, s.x.high], "y": [s.y.low, s.y.high], "depth": s.depth })),
        "openings": body.feed_openings.iter().map(|o| json!({ "side": o.side.key(), "y": [o.y.low, o.y.high], "z": [o.z.low, o.z.high] })).collect::<Vec<_>>(),
        "elevators": body.elevators, "pitch": body.pitch,
        "working_space": spec.pit.working_space.value(), "batter_deg": spec.pit.batter.value(), "groundwater": spec.pit.groundwater.value.map(|w| w.value()),
        "soil_t_per_m3": [spec.pit.soil_density.value(), spec.pit.soil_density_wet.value()],
        "concrete_m3": numbers.concrete_m3, "lean_m3": numbers.lean_m3, "formwork_m2": numbers.formwork_m2,
        "excavation_m3": numbers.excavation_m3, "backfill_m3": numbers.backfill_m3,
        "uplift_kn": uplift.concrete.uplift_kn, "weight_kn": uplift.concrete.weight_kn, "weight_with_soil_kn": uplift.with_soil.weight_kn,
    })
}

fn main() {
    let all: Vec<Value> = (0..100).map(pit).collect();
    println!("{}", serde_json::to_string_pretty(&all).unwrap());
}
