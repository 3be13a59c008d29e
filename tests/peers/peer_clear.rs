//! Prints 300 random pits with raw sizes of foot, way down and inlets, and what the rules say of their clear spaces, as JSON.
//!
//! In: nothing; the pits are drawn from a fixed seed. Every third has a stair along the wall that the shaft is pulled to with too little
//! room for both. `tests/outside/pit_clear.py` builds the spaces again from the sizes alone and looks for what meets at three levels.
#![allow(clippy::unwrap_used, clippy::panic)]

use footwell::job::Job;
use footwell::model::inlets::FeedSide;
use footwell::model::openings::OpeningKind;
use footwell::model::pit_keep_clear::Use;
use footwell::rules::Verdict;
use footwell::spec::openings::Wall;
use serde_json::{Value, json};

/// A small multiplicative generator; good enough to spread sizes, the same everywhere.
struct Dice(u64);

impl Dice {
    fn pick<'a>(&mut self, from: &[&'a str]) -> &'a str {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from[((self.0 >> 33) as usize) % from.len()]
    }
}

fn spec(seed: u64) -> String {
    let mut d = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) + 1);
    let planted = seed.is_multiple_of(3);
    let mut text = format!(
        "[product]\npreset = \"wheat\"\n[duty]\ncapacity = \"{} t/h\"\nlift = \"{} m\"\n[bucket]\nlength = \"{} mm\"\nprojection = \"180 mm\"\nheight = \"200 mm\"\n[head_pulley]\ndiameter = \"{} mm\"\n",
        d.pick(&["60", "90", "120"]),
        d.pick(&["18", "28", "40"]),
        d.pick(&["250", "300", "400", "600"]),
        d.pick(&["630", "800", "1000", "1250", "2400"]),
    );
    text += &format!("[inlet.up]\nfitted = {}\n[inlet.down]\nfitted = {}\n", true, d.pick(&["true", "false"]));
    text += &format!("[pit]\nfitted = true\ndepth = \"{} mm\"\nelevators = {}\n", d.pick(&["1200", "1800", "2400", "2600", "3200"]), d.pick(&["1", "1", "2"]));
    if planted {
        let side = d.pick(&["near", "far"]);
        text +=
            &format!("access = \"stair\"\naccess_side = \"{side}\"\nshaft_pull = \"{side}\"\n{side}_space = \"{} mm\"\n", d.pick(&["1000", "1200", "1400"]));
    } else {
        text += &format!("access = \"{}\"\n", d.pick(&["stair", "ladder"]));
        let side = d.pick(&["", "", "down", "near", "far"]);
        if !side.is_empty() {
            text += &format!("access_side = \"{side}\"\n");
        }
    }
    text
}

fn pit(seed: u64) -> Value {
    let text = spec(seed);
    let job = Job::of_contradicting(&text).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"));
    let (spec, foot) = (job.spec(), job.foot());
    let body = foot.pit.as_ref().unwrap();
    let verdict = |rule: &str| job.findings().of(rule).map(|f| f.verdict).max();
    let area = |a: &footwell::model::pit_fittings::Area| json!([a.x.low, a.y.low, a.x.high, a.y.high]);
    let panel = foot.openings.iter().find(|o| o.kind == OpeningKind::Removal).map(|o| {
        let face = if o.wall == Wall::UpEnd { foot.casing.up_face + foot.casing.plate } else { foot.casing.down_outer_x(o.up.high) };
        json!({ "up_end": o.wall == Wall::UpEnd, "face": face, "z": [o.up.low, o.up.high] })
    });
    json!({
        "seed": seed, "planted": seed.is_multiple_of(3),
        "floor": area(&body.floor()), "depth": body.depth, "elevators": body.elevators, "pitch": body.pitch,
        "stair": *spec.pit.access == footwell::spec::pit::Access::Stair, "wall": format!("{:?}", body.access_side).to_lowercase(),
        "way": [body.way.x.low, body.way.y.low, body.way.x.high, body.way.y.high], "steps": body.way.steps, "rise": body.way.rise,
        "landing": area(&body.fittings.landing), "sump": body.sump.map(|s| json!([s.x.low, s.y.low, s.x.high, s.y.high])),
        "pull_near": format!("{:?}", *spec.pit.shaft_pull).to_lowercase() == "near",
        "casing_y": foot.casing.width.high + foot.casing.plate, "casing_x": [foot.casing.down_outermost() - foot.casing.plate, foot.casing.up_face + foot.casing.plate],
        "shaft": [foot.rotating.shaft_ends.size(), foot.rotating.shaft_diameter, foot.shaft_lowest],
        "pulley": [foot.pulleys.foot.diameter, foot.pulleys.foot.face], "panel": panel,
        "inlets": foot.inlets.iter().map(|i| json!({
            "up": i.side == FeedSide::Up, "outside": i.outside, "flange_face": i.flange_face, "flange_sill": i.flange_sill, "sill": i.sill,
            "half": i.width.high, "height": i.opening.size(),
        })).collect::<Vec<_>>(),
        "feed": [spec.pit.feed_distance.value(), spec.pit.feed_slope.value()],
        "hoists": body.keeps_clear.iter().filter(|s| s.purpose == Use::Hoist).map(|s| area(&s.area)).collect::<Vec<_>>(),
        "passes": verdict("pit-keep-clear") == Some(Verdict::Pass), "pull_passes": verdict("pit-shaft-pull") == Some(Verdict::Pass),
    })
}

fn main() {
    let all: Vec<Value> = (0..300).map(pit).collect();
    println!("{}", Value::from(all));
}
