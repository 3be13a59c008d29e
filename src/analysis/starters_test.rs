//! The five starter specs analysed: every number finite, named once, plausible, traceable.
#![allow(clippy::unwrap_used)]

use super::*;
use crate::job::Job;
use crate::model::inlets::FeedSide;
use std::collections::BTreeSet;

pub(super) const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../../templates/grain_intake.toml")),
    ("tall_bend", include_str!("../../templates/tall_bend.toml")),
    ("pellets", include_str!("../../templates/pellets.toml")),
    ("us_units", include_str!("../../templates/us_units.toml")),
    ("survey", include_str!("../../templates/survey.toml")),
];

/// Spec, model and results of a text with lines added.
pub(super) fn job(text: &str) -> (Spec, Foot, Results) {
    let job = Job::of(text).unwrap();
    (job.spec().clone(), job.foot().clone(), job.results().clone())
}

pub(super) fn starter(name: &str) -> (Spec, Foot, Results) {
    job(STARTERS.iter().find(|s| s.0 == name).unwrap().1)
}

/// `cargo test --lib analysis::starters_test::print -- --ignored --nocapture`
#[test]
#[ignore = "prints all quantities for reading"]
fn print() {
    for (name, text) in STARTERS {
        println!("\n=== {name}");
        let (_, _, r) = job(text);
        println!("limit {:?} discharge {:?} feed {:?}", r.net.limit, r.discharge.kind, r.power.feed);
        for q in &r.quantities() {
            println!("{:<42} {:>14.4} {:<8} {}", q.id, q.value, q.unit.symbol(), q.name.plainly());
        }
    }
}

#[test]
fn every_number_is_finite_and_named_once() {
    for (name, text) in STARTERS {
        let (_, _, r) = job(text);
        let mut ids = BTreeSet::new();
        for q in &r.quantities() {
            assert!(q.value.is_finite(), "{name}: {} is {}", q.id, q.value);
            assert!(ids.insert(q.id.clone()), "{name}: {} twice", q.id);
            assert!(q.id.contains('.') && q.name.plainly().len() > 3 && q.source.cite.len() > 5, "{name}: {q:?}");
        }
        assert!(ids.len() > 150, "{name}: only {}", ids.len());
    }
}

/// Inputs are spec keys or other quantities: nothing points nowhere.
#[test]
fn inputs_exist() {
    let keys: BTreeSet<String> = crate::spec::keys().into_iter().map(|k| k.path).collect();
    let mut ids = BTreeSet::new();
    let all: Vec<Results> = STARTERS.iter().map(|s| job(s.1).2).collect();
    all.iter().for_each(|r| ids.extend(r.quantities().into_iter().map(|q| q.id)));
    for q in all.iter().flat_map(Results::quantities) {
        for input in &q.inputs {
            assert!(keys.contains(input) || ids.contains(input), "{} has the input {input}, which is neither key nor quantity", q.id);
        }
        assert!(!keys.contains(&q.id), "{} is also a spec key: inputs would be ambiguous", q.id);
        assert!(!q.inputs.is_empty() || q.id.starts_with("assumed."), "{} has no inputs", q.id);
    }
}

#[test]
fn json_lists_all() {
    let (_, _, r) = starter("grain_intake");
    let json: serde_json::Value = serde_json::to_value(r.quantities()).unwrap();
    assert_eq!(json.as_array().unwrap().len(), r.quantities().len());
    assert_eq!(json[0]["id"], "capacity.required");
    assert_eq!(json[0]["unit"], "t/h");
    assert!(json.as_array().unwrap().iter().all(|q| q["value"].is_number()));
}

fn near(value: f64, wanted: f64, relative: f64) {
    assert!((value - wanted).abs() <= relative * wanted.abs(), "{value} is not {wanted}");
}

/// Grain intake by hand: 120 t/h wheat over 28 m (28.175 m with the take-up in the middle), 2.6 m/s,
/// pulleys 800 mm, belt 11 mm, 5.7 l at 230 mm, wheat 0.77 t/m³ at fill 0.75, rubber lagging.
#[test]
fn grain_intake_by_hand() {
    let (_, foot, r) = starter("grain_intake");
    assert_eq!((foot.belt.thickness, foot.belt.width), (11.0, 380.0));
    // 3.6·5.7/0.23·2.6·0.77·0.75
    near(r.capacity.rated_t_per_h, 133.96, 1e-3);
    // 2.6/(2π·0.4055) per second
    near(r.motion.foot_rpm, 61.228, 1e-4);
    near(r.motion.stop_rpm, 0.8 * 61.228, 1e-4);
    // 9.80665/(2.6/0.4055)²
    near(r.discharge.head_pole_mm, 238.54, 1e-4);
    // 2·28.175 m + π·0.811 m
    near(r.path.middle.length_mm, 56_350.0 + std::f64::consts::PI * 811.0, 1e-9);
    // 120·9.80665·28.175/3600 and 120·9.80665·(6·0.8)/3600
    near(r.power.lift_kw, 9.2100, 1e-4);
    near(r.power.up_side_kw, 1.5691, 1e-4);
    near(r.power.down_side_kw, 2.0 * 1.5691, 1e-4);
    near(r.power.motor_kw, (9.2100 + 1.5691) * 1.1 / 0.93, 1e-3);
    // 12.8205 kg/m: lift 3542.3 N, dredging 603.5 N, 10 % losses
    near(r.tension.chain.effective_pull_n, 1.1 * (3542.3 + 603.5), 1e-3);
    near(r.tension.ratio_limit, (0.35 * std::f64::consts::PI).exp(), 1e-9);
    // 7.5 N/mm·380 mm tracking against no need from grip: 23.05 kg/m·28.175 m of own weight
    near(r.tension.foot_down_n, 7.5 * 380.0, 1e-9);
    assert!(r.tension.tracking_governs());
    near(r.tension.chain.down_run_weight_n, 6368.0, 1e-3);
    // 0.8 % of 58.548 m and a splice of 230 mm, halved
    near(r.stretch.travel_needed_mm, (0.008 * 58_547.8 + 230.0) / 2.0, 1e-4);
    // 33.33 kg/s at 770 kg/m³ is 43.29 l/s
    let p = &r.plugging;
    near(p.time_s.unwrap(), (p.inlets[0].heaped_volume_l - 0.5 * p.inlets[0].volume_l) / 43.29, 1e-3);
    near(p.reaction_volume_l, 43.29 * p.reaction_s, 1e-3);
}

/// Free volume of the grain foot from closed forms: box less circular segment, belt and buckets below the sill.
#[test]
fn free_volume_in_closed_form() {
    let (_, foot, r) = starter("grain_intake");
    let inlet = &foot.inlets[0];
    let c = &foot.casing;
    let over = inlet.sill - foot.shaft_lowest;
    let casing = (c.up_face - c.down_face[0][0]) * (inlet.sill - c.bottom_face) * c.width.size();
    let radius = foot.pulleys.foot.radius();
    assert!(over < radius && c.bottom_radius.is_none());
    let angle = (-over / radius).acos();
    let pulley = radius * radius * (angle + (over / radius) * (1.0 - (over / radius).powi(2)).sqrt()) * foot.pulleys.foot.face;
    let belt = std::f64::consts::PI * 405.5 + 2.0 * over;
    let solid = pulley + belt * (11.0 * 380.0 + section::ring_area(&foot.bucket.section) * foot.bucket.length / foot.bucket.spacing);
    near(r.plugging.inlets[0].volume_l, (casing - solid) / 1e6, 2e-3);
    assert!(r.plugging.inlets[0].heaped_volume_l < r.plugging.inlets[0].volume_l);
}

/// The casing is built from the clearances, so the sweep must find them again.
#[test]
fn clearances_come_back() {
    for (name, text) in STARTERS {
        let (spec, _, r) = job(text);
        let c = &r.clearances;
        near(c.lowest.bottom_mm, spec.casing.bottom_clearance.value(), 1e-3);
        near(c.least.up_mm, spec.casing.up_clearance.value(), 1e-3);
        assert!(
            c.least.down_mm >= spec.casing.down_clearance.value() - 0.05 && c.least.down_mm < spec.casing.down_clearance.value() + 60.0,
            "{name}: {}",
            c.least.down_mm
        );
        near(c.side_mm, spec.casing.side_clearance.value(), 1e-9);
        assert!(c.highest.bottom_mm > c.lowest.bottom_mm);
        assert_eq!(c.bend.is_some(), name == "tall_bend");
    }
    // A curved bottom, the pulley lifted right out of it: still a distance, and the least one at the lowest position.
    let lifted = STARTERS[2].1.replace("[take_up]", "[take_up]\ntravel = \"1200 mm\"");
    let (spec, _, r) = job(&lifted);
    assert_eq!(spec.casing.bottom.value, crate::spec::casing::Bottom::Curved);
    near(r.clearances.lowest.bottom_mm, spec.casing.bottom_clearance.value(), 1e-3);
    assert!(r.clearances.highest.bottom_mm > 600.0 && r.clearances.highest.bottom_mm.is_finite());
    let text = STARTERS[4]
        .1
        .replace("down_clearance   = \"25 mm\"", "down_clearance = \"-10 mm\"")
        .replace("bottom_clearance = \"12 mm\"", "bottom_clearance = \"-3 mm\"");
    let (_, _, r) = job(&text);
    near(r.clearances.least.down_mm, -10.0, 1e-2);
    near(r.clearances.least.bottom_mm, -3.0, 1e-3);
}

/// Statics: tensions close round the loop, wraps add to 360°, pads carry the whole load and its moment.
#[test]
fn statics_close() {
    for (name, text) in STARTERS {
        let (_, foot, r) = job(text);
        for p in [&r.path.lowest, &r.path.middle, &r.path.highest] {
            near(p.foot_wrap_deg + p.head_wrap_deg + p.bend_wrap_deg, 360.0, 1e-9);
        }
        let t = &r.tension;
        near(t.chain.head_tight_n - t.chain.head_slack_n, t.chain.effective_pull_n, 1e-9);
        assert!(t.ratio < t.ratio_limit, "{name}");
        assert!(t.foot_up_n > t.foot_down_n && t.largest_n > t.foot_up_n && t.start_n >= t.largest_n - 1e-6, "{name}");
        for case in &r.loads.cases {
            near(case.pads.iter().map(|p| p.vertical_kn).sum::<f64>(), case.vertical_kn, 1e-9);
        }
        // running: weights where they act, against the pads, about the foot shaft
        let case = r.loads.case("on_foot_empty").unwrap();
        let m = &r.masses;
        let g = 9.80665e-3;
        let belt = weights::MassAt { kg: m.belt_kg, x_mm: foot.pulleys.head.centre.x, y_mm: 0.0 };
        let parts = [m.casing, m.inlets, m.pocket, m.foot_pulley_set, m.take_up, m.bend_pulley_set, m.trunk, m.head, belt];
        let moment: f64 = parts.iter().map(|p| p.kg * g * p.x_mm).sum();
        let carried: f64 = case.pads.iter().zip(&foot.base.pads).map(|(l, p)| l.vertical_kn * p.anchor.x).sum();
        assert!((moment - carried).abs() < 1e-6 * moment.abs().max(1000.0), "{name}: {moment} {carried}");
        near(case.vertical_kn, parts.iter().map(|p| p.kg * g).sum(), 1e-9);
    }
}

/// What the trade expects of each starter, in size.
#[test]
fn sizes_are_plausible() {
    for (name, text) in STARTERS {
        let (spec, foot, r) = job(text);
        let within = |what: &str, value: f64, low: f64, high: f64| assert!(value >= low && value <= high, "{name}: {what} {value} not in {low}..{high}");
        within("section volume over stated", r.retained.section_volume_l / spec.bucket.volume.value(), 0.9, 1.15);
        within("motor per ideal lift", r.power.motor_kw / r.power.lift_kw, 1.15, 1.8);
        within("belt pull N/mm", r.tension.largest_n_per_mm, 5.0, 120.0);
        within("shaft stress", r.shaft.stress_mpa, 5.0, 60.0);
        within("bearing life", r.bearing.life_h, 4e4, 5e6);
        within("foot kg per m of casing height and width", r.masses.foot_empty_kg / (foot.casing.top * foot.casing.width.size() / 1e6), 150.0, 1500.0);
        within("time to plug", r.plugging.time_s.unwrap(), 0.3, 60.0);
        within("impact", r.throats[0].impact_m_per_s, 1.0, 10.0);
        within("retained at the bottom", r.retained.curves().with_friction[0].share, 0.0, 0.1);
    }
}

/// Up-side sill above the shaft costs nothing; the survey's sill below it costs capacity, more at the highest take-up.
#[test]
fn a_low_sill_costs() {
    let (_, _, good) = starter("grain_intake");
    assert_eq!(good.retained.sill_highest.unwrap().lost_t_per_h, 0.0);
    let (_, _, bad) = starter("survey");
    let (low, high) = (bad.retained.sill_lowest.unwrap(), bad.retained.sill_highest.unwrap());
    assert!(low.above_shaft_mm < 0.0 && low.lost_t_per_h > 0.0 && high.lost_t_per_h > low.lost_t_per_h);
    assert!(low.frictionless_share <= low.share);
    // A best estimate within its bound; the opening that reaches over the shaft lets in what stays.
    assert!(low.lost_t_per_h <= low.most_lost_t_per_h && low.lost_t_per_h < bad.capacity.rated_t_per_h);
    assert!(bad.net.limit == net::Limit::Sill && bad.net.t_per_h == low.capacity_t_per_h);
    // The sill lies between two points of the curve.
    let curve = bad.retained.curves().with_friction;
    let above = curve.iter().position(|p| p.above_shaft_mm > low.above_shaft_mm).unwrap();
    assert!(curve[above - 1].share <= low.share && low.share <= curve[above].share && curve[above].share > curve[above - 1].share);
}

#[test]
fn take_up_kinds_exclude_each_other() {
    let (spec, _, screw) = starter("grain_intake");
    let s = screw.screw.unwrap();
    assert!(screw.gravity.is_none() && s.self_locking && s.buckling_safety.unwrap() > 3.0);
    near(s.rod_n, 0.75 * (s.belt_pull_n - s.sliding_weight_n), 1e-9);
    assert!(s.yield_safety > 3.0 && spec.take_up.rod.value.starts_with("Tr"));
    let (_, _, pulled) = job(&STARTERS[0].1.replace("kind = \"screw\"", "kind = \"screw\"\naction = \"pull\""));
    assert!(pulled.screw.unwrap().critical_n.is_none());
    let (pellets, foot, gravity) = starter("pellets");
    let g = gravity.gravity.unwrap();
    assert!(gravity.screw.is_none() && g.filling_height_mm <= g.box_height_mm);
    // The weights given pull at least as hard as needed, and the tension set says so.
    near((g.given_kg + g.own_kg) * 9.80665 + g.friction_n, gravity.tension.foot_down_n + gravity.tension.foot_up_n, 1e-9);
    near(g.band_n[1] - g.band_n[0], 2.0 * g.friction_n, 1e-9);
    // Going down it pulls as hard as needed, with the weights that are given and hardly with less.
    assert!(g.given_kg >= g.needed_kg && g.band_n[0] >= g.pull_needed_n && g.friction_n > 0.05 * g.pull_needed_n);
    near(g.pull_needed_n - g.band_n[0], (g.needed_kg - g.given_kg) * 9.80665 * (1.0 - guides::share(&pellets, &foot)), 1e-6);
}

#[test]
fn pit_quantities_balance() {
    let (_, foot, r) = starter("tall_bend");
    let (body, p) = (foot.pit.as_ref().unwrap(), r.pit.unwrap());
    let (l, w) = (body.x.size() / 1000.0, body.y.size() / 1000.0);
    let walls = ((l + 0.8) * (w + 0.8) - l * w) * body.depth / 1000.0;
    let base = (l + 0.8 + 2.0 * body.toe / 1000.0) * (w + 0.8 + 2.0 * body.toe / 1000.0) * 0.5;
    let s = body.sump.unwrap();
    let (a, d) = (s.x.size() / 1000.0, s.depth / 1000.0);
    near(p.concrete_m3, walls + base + ((a + 1.0).powi(2) - a * a) * d, 1e-9);
    assert!(p.excavation_m3 > p.backfill_m3 && p.backfill_m3 > 0.0);
    let u = p.uplift.unwrap();
    assert!(u.with_soil.factor() >= u.concrete.factor());
    let (_, _, none) = job(&STARTERS[0].1.replace("[pit]", "[pit]\nfitted = false"));
    assert!(none.pit.is_none() && none.quantities().iter().all(|q| q.id != "pit.concrete"));
}

#[test]
fn throats_against_the_buckets() {
    let (_, _, r) = starter("grain_intake");
    assert_eq!(r.net.limit, net::Limit::Fill);
    assert_eq!(r.net.t_per_h, r.capacity.rated_t_per_h);
    let (spec, _, tight) = job(&STARTERS[0].1.replace("slope  = \"45 deg\"", "slope = \"45 deg\"\nwidth = \"120 mm\"\nheight = \"120 mm\""));
    assert_eq!(tight.net.limit, net::Limit::Throat);
    let t = tight.throat(FeedSide::Up).unwrap();
    assert!(t.area_needed_mm2.unwrap() > t.area_mm2 && tight.throats.iter().map(|t| t.capacity_t_per_h).sum::<f64>() < spec.duty.capacity.value());
    // too flat: the stream comes to rest and nothing is sure to pass
    let (_, _, flat) = job(&STARTERS[0].1.replace("slope  = \"45 deg\"", "slope = \"2 deg\"\nreach = \"2000 mm\""));
    let t = flat.throat(FeedSide::Up).unwrap();
    assert!(t.sill_m_per_s == 0.0 && t.area_needed_mm2.is_none() && t.sliding_margin_deg < 0.0 && t.stream_t_per_h == 0.0 && t.capacity_t_per_h == 0.0);
}

/// The foot weighs what its list weighs, and its groups are all of it; masses of makers come on top.
#[test]
fn the_foot_weighs_what_its_list_weighs() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        let (m, list) = (&job.results().masses, job.parts().mass_and_centre().0);
        assert!((m.listed_kg - list).abs() < 1e-9 * list, "{name}: {} {list}", m.listed_kg);
        let bodies: f64 = job.machine().bodies.iter().filter(|b| b.item.is_some()).filter_map(|b| Some(b.mass_kg()? * b.places.len() as f64)).sum();
        let bolts: f64 = job.parts().joints.iter().map(|j| j.mass_kg * f64::from(j.quantity)).sum();
        assert!((bodies + bolts - list).abs() < 1e-6 * list, "{name}: {} {list}", bodies + bolts);
        // What only makers weigh: the bearings; loose weights are what the spec says, drawn in whole sizes.
        let drawn = job.parts().part("weight").and_then(|w| w.total_kg()).unwrap_or(0.0);
        let by_maker = m.bearings_kg + if job.results().gravity.is_some() { job.spec().take_up.weights.value() - drawn } else { 0.0 };
        let bend = job.spec().bend_pulley.shaft.value();
        let by_maker = by_maker + if job.foot().pulleys.bend.is_some() { 2.0 * assumed::BEARING_MASS.value * bend * bend } else { 0.0 };
        assert!((m.foot_empty_kg - list - by_maker).abs() < 1e-9 * list, "{name}: {} {list} {by_maker}", m.foot_empty_kg);
    }
}
