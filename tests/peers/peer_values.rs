//! Prints seeded random cases of the formulas as JSON: inputs with the values that this crate gives.
//!
//! `tests/outside/formulas_peer.py` reads them and works each out again by other means. The cases come
//! from a small linear congruential generator, so that every run prints the same bytes.

use footwell::formulas::belt_path::{Bend, Pulley, Pulleys, belt_path};
use footwell::formulas::retained_fill::{BucketSection, Position, Wheel, retained_share};
use footwell::formulas::shaft::TwoLoads;
use footwell::formulas::tension::{ChainInput, Governs, tension_chain};
use kurbo::Point;
use serde_json::{Value, json};
use std::error::Error;

/// Linear congruential generator with the constants of Knuth's MMIX.
struct Lcg(u64);

impl Lcg {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1u64 << 53) as f64)
    }
}

/// 200 paths: 67 bases at low, middle and high take-up; two of three have a bend pulley, and some of
/// those stand so far inside that the belt passes them.
fn belt_paths(random: &mut Lcg) -> Result<Vec<Value>, Box<dyn Error>> {
    let mut cases = Vec::new();
    for base in 0..67 {
        let head_radius = random.between(200.0, 1250.0);
        let with_bend = base % 3 != 0;
        let foot_radius = if with_bend { head_radius * random.between(0.35, 0.9) } else { head_radius * random.between(0.6, 1.1) };
        let travel = random.between(225.0, 600.0);
        let head_z = random.between(6000.0, 60_000.0);
        let bend_radius = foot_radius * random.between(0.4, 0.9);
        let bend_z = foot_radius + bend_radius + random.between(600.0, 2500.0);
        let inset = random.between(0.0, 1.0);
        for take_up in [0.0, 0.5, 1.0] {
            if cases.len() == 200 {
                break;
            }
            let mut pulleys = Pulleys::usual(foot_radius, take_up * travel, head_radius, head_z, with_bend.then_some((bend_radius, bend_z)));
            if let Some(bend) = pulleys.bend.as_mut().filter(|_| base % 6 == 5) {
                bend.centre.x += 2.0 * (head_radius - foot_radius) + 0.8 * inset * (foot_radius - bend_radius);
            }
            let path = belt_path(&pulleys)?;
            let circle = |c: footwell::formulas::belt_path::Circle| json!([c.centre.x, c.centre.y, c.radius_mm]);
            cases.push(json!({
                "foot": circle(pulleys.foot), "head": circle(pulleys.head), "bend": pulleys.bend.map(circle), "take_up": take_up,
                "length": path.length_mm,
                "wraps": [path.wrap_rad(Pulley::Foot), path.wrap_rad(Pulley::Head), path.wrap_rad(Pulley::Bend)],
                "length_per_lowering": path.length_per_lowering,
                "length_per_shift": path.length_per_shift,
                "touched": matches!(path.bend, Bend::Touched { .. }),
                "gap": if let Bend::Clear { gap_mm } = path.bend { Some(gap_mm) } else { None },
            }));
        }
    }
    Ok(cases)
}

/// 100 buckets on a foot pulley, every second one with friction.
fn retained(random: &mut Lcg) -> Result<Vec<Value>, Box<dyn Error>> {
    (0..100)
        .map(|i| {
            let projection = random.between(100.0, 300.0);
            let lip = random.between(10.0, 80.0);
            let depth = random.between(40.0, 120.0);
            let corners = vec![
                Point::new(projection, lip),
                Point::new(projection * random.between(0.65, 0.85), -depth * random.between(0.1, 0.5)),
                Point::new(projection * random.between(0.35, 0.6), -depth * random.between(0.7, 0.95)),
                Point::new(projection * random.between(0.05, 0.2), -depth),
                Point::new(0.0, -depth * random.between(0.6, 0.95)),
                Point::new(0.0, lip + random.between(-5.0, 60.0)),
            ];
            let section = BucketSection::new(corners.clone())?;
            let radius_mm = random.between(200.0, 1200.0);
            let wheel = Wheel { radius_mm, omega_rad_per_s: 1000.0 * random.between(0.25, 3.2) / radius_mm };
            let friction = if i % 2 == 0 { 0.0 } else { random.between(0.15, 0.75) };
            let angle = random.between(0.0, std::f64::consts::FRAC_PI_2);
            Ok(json!({
                "outline": corners.iter().map(|p| [p.x, p.y]).collect::<Vec<_>>(),
                "radius": radius_mm, "omega": wheel.omega_rad_per_s, "friction": friction, "angle": angle,
                "share": retained_share(&section, &wheel, friction, Position::OnPulley(angle)),
            }))
        })
        .collect()
}

fn tensions(random: &mut Lcg) -> Vec<Value> {
    (0..100)
        .map(|_| {
            let input = ChainInput {
                empty_line_kg_per_m: random.between(8.0, 90.0),
                load_line_kg_per_m: random.between(2.0, 80.0),
                lift_m: random.between(5.0, 60.0),
                dredging_n: random.between(100.0, 4000.0),
                full_over_duty: random.between(1.0, 1.8),
                start_over_running: random.between(1.0, 2.0),
                speed_m_per_s: random.between(1.0, 4.0),
                friction: random.between(0.05, 0.45),
                wrap_rad: random.between(2.9, 3.4),
                tracking_n: random.between(200.0, 4000.0),
            };
            let c = tension_chain(&input);
            json!({
                "empty": input.empty_line_kg_per_m, "load": input.load_line_kg_per_m, "lift": input.lift_m, "dredging": input.dredging_n,
                "speed": input.speed_m_per_s, "friction": input.friction, "wrap": input.wrap_rad, "tracking": input.tracking_n, "full": input.full_over_duty, "start": input.start_over_running,
                "foot_down": c.foot_down_n, "foot_up": c.foot_up_n, "head_slack": c.head_slack_n, "head_tight": c.head_tight_n, "head_full": c.head_full_n,
                "grip_governs": c.governs == Governs::Grip,
            })
        })
        .collect()
}

fn shafts(random: &mut Lcg) -> Vec<Value> {
    (0..100)
        .map(|_| {
            let span_mm = random.between(400.0, 1800.0);
            let s = TwoLoads { resultant_n: random.between(2000.0, 90_000.0), span_mm, arm_mm: span_mm * random.between(0.08, 0.45) };
            let (d, e) = (random.between(40.0, 120.0), random.between(200_000.0, 212_000.0));
            json!({
                "resultant": s.resultant_n, "span": s.span_mm, "arm": s.arm_mm, "diameter": d, "modulus": e,
                "moment": s.moment_nmm(), "stress": s.stress_mpa(d), "deflection": s.deflection_mm(d, e), "hub_deflection": s.hub_deflection_mm(d, e),
                "hub_slope": s.hub_slope_rad(d, e), "bearing_slope": s.bearing_slope_rad(d, e),
                "diameter_for_slope": s.diameter_for_hub_slope_mm(0.0023, e),
            })
        })
        .collect()
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut random = Lcg(2024);
    let all = json!({
        "belt_paths": belt_paths(&mut random)?,
        "retained": retained(&mut random)?,
        "tensions": tensions(&mut random),
        "shafts": shafts(&mut random),
    });
    println!("{all}");
    Ok(())
}
