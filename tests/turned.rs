//! What the sheets of turned parts and of rotating parts dimension is what the bodies are: over starters and variants.
//!
//! The bodies are read here by their edges and faces alone; where a thing has no edge (the end of a thread, a seat on a plain
//! shaft) its table or place in the machine is asked. A planted shift is found.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::machine::Body;
use footwell::solid::brep::{Curve, Surface};
use footwell::tables::{bearings, threads};
use std::f64::consts::PI;
use support::{run, set, templates};

/// A dimension: key and drawn value, mm.
type Shown = (String, f64);

/// What a body about its own z is, by its edges and faces.
struct Round {
    /// Places and diameters of its circles about z.
    circles: Vec<(f64, f64)>,
    /// Milled slots: beginning and end along z, width.
    slots: Vec<[f64; 3]>,
    /// Heights over the axis of the plane faces that lie square to y.
    levels: Vec<f64>,
    /// Places across of the plane faces that lie square to x.
    sides: Vec<f64>,
}

impl Round {
    fn of(body: &Body) -> Self {
        let mut round = Self { circles: Vec::new(), slots: Vec::new(), levels: Vec::new(), sides: Vec::new() };
        let mut ends: Vec<(f64, f64)> = Vec::new();
        for edge in &body.brep.edges {
            match edge.curve {
                Curve::Circle(f, r) if f.axis.z.abs() > 0.999 && f.origin.truncate().length() < 1e-6 => round.circles.push((f.origin.z, 2.0 * r)),
                Curve::Saddle(s) => ends.push((s.at(PI / 2.0).z, 2.0 * s.mill)),
                _ => {}
            }
        }
        ends.sort_by(|a, b| a.0.total_cmp(&b.0));
        round.slots = ends.chunks_exact(2).map(|pair| [pair[0].0, pair[1].0, pair[0].1]).collect();
        for face in &body.brep.faces {
            if let Surface::Plane(f) = face.surface {
                if f.axis.y.abs() > 0.999 {
                    round.levels.push(f.origin.y);
                }
                if f.axis.x.abs() > 0.999 {
                    round.sides.push(f.origin.x);
                }
            }
        }
        round
    }
    fn ends(&self) -> [f64; 2] {
        let along = self.circles.iter().map(|c| c.0);
        [along.clone().fold(f64::INFINITY, f64::min), along.fold(f64::NEG_INFINITY, f64::max)]
    }
    fn length(&self) -> f64 {
        self.ends()[1] - self.ends()[0]
    }
    fn largest(&self) -> f64 {
        self.circles.iter().map(|c| c.1).fold(0.0, f64::max)
    }
    fn least(&self) -> f64 {
        self.circles.iter().map(|c| c.1).fold(f64::INFINITY, f64::min)
    }
    /// Distances of its circles from an end face.
    fn from(&self, end: f64) -> Vec<f64> {
        self.circles.iter().map(|c| (c.0 - end).abs()).collect()
    }
    fn diameters(&self) -> Vec<f64> {
        self.circles.iter().map(|c| c.1).collect()
    }
}

fn body<'a>(job: &'a Job, id: &str) -> Option<&'a Body> {
    job.machine().bodies.iter().find(|b| b.id == id)
}

/// What a dimension of a shaft may be, mm.
fn of_shaft(job: &Job, (id, hub, bearing): (&str, &str, &str), what: &str) -> Option<Vec<f64>> {
    let shaft = body(job, id)?;
    let (round, [_, y, _]) = (Round::of(shaft), shaft.places[0].origin);
    let [begin, end] = round.ends();
    let places = |id: &str| -> Vec<f64> { body(job, id).map(|b| b.places.iter().map(|p| p.origin[1] - y).collect()).unwrap_or_default() };
    let unit = if id == "shaft" { job.foot().rotating.unit.clone() } else { unit_of_bend(job) };
    let planes: Vec<f64> = if id == "shaft" {
        let planes = &job.foot().rotating.bearing_planes;
        vec![planes.low, planes.high]
    } else {
        places(bearing).iter().map(|at| at + at.signum() * unit.depth / 2.0).collect()
    };
    Some(match what {
        "length" => vec![round.length()],
        "diameter" => vec![round.largest()],
        "journal" => round.diameters(),
        "shoulder" => round.from(end),
        "projection" => planes.iter().map(|at| end - at).collect(),
        "plane" => planes.iter().chain(&places(hub)).map(|at| end - at).collect(),
        "zone" => vec![bearings::by_number(unit.number)?.inner_ring_mm, Round::of(body(job, hub)?).length()],
        "keyway.from" => round.slots.iter().map(|s| end - s[1]).collect(),
        "keyway.length" => round.slots.iter().map(|s| s[1] - s[0]).collect(),
        "keyway.width" => round.slots.iter().map(|s| s[2]).collect(),
        "keyway.floor" => round.levels.iter().map(|floor| floor + round.largest() / 2.0).collect(),
        "sink" | "tap_drill" => round.diameters(),
        "thread" => vec![threads::find(&job.spec().shaft.thread.value)?.diameter_mm],
        "pilot_depth" | "drill_depth" => round.from(end).into_iter().chain(round.from(begin)).collect(),
        // The end of the thread is no edge of the body: the spec's own depth.
        "thread_depth" => vec![job.spec().shaft.thread_depth.value.value()],
        "bearing_centres" => vec![planes.iter().map(|p| p.abs()).sum()],
        _ => return None,
    })
}

fn unit_of_bend(job: &Job) -> footwell::sizing::bearing_unit::BearingUnit {
    let kind = footwell::spec::rotating::BearingKind::FourBoltFlange;
    footwell::sizing::bearing_unit::bearing_unit(kind, job.spec().bend_pulley.shaft.value(), job.spec().us())
}

/// What a dimension of a pulley may be, mm.
fn of_pulley(job: &Job, id: &str, what: &str) -> Option<Vec<f64>> {
    let hub = body(job, &format!("{id}.hub"))?;
    let round = Round::of(hub);
    let spacing = hub.places.iter().map(|p| p.origin[1]).fold(0.0, |sum: f64, y| sum + y.abs());
    let carries = |b: &&Body| ["rim", "wing"].iter().any(|piece| b.id.starts_with(&format!("{id}.{piece}")));
    Some(match what {
        "face" => {
            let rim = job.machine().bodies.iter().find(carries)?;
            let place = &rim.places[0];
            let across: Vec<f64> = rim.brep.vertices.iter().map(|v| place.point(v.x, v.y, v.z).y).collect();
            vec![across.iter().copied().fold(f64::NEG_INFINITY, f64::max) - across.iter().copied().fold(f64::INFINITY, f64::min)]
        }
        "diameter" => {
            let c = hub.places[0].origin;
            let reach = job.machine().bodies.iter().filter(carries).flat_map(|rim| {
                let place = rim.places[0];
                rim.brep.vertices.iter().map(move |v| place.point(v.x, v.y, v.z)).map(|p| (p.x - c[0]).hypot(p.z - c[2]))
            });
            vec![2.0 * reach.fold(0.0, f64::max)]
        }
        "wing_height" | "wing_pitch" | "core" => of_wings(job, id, what)?,
        "disc_spacing" | "hub_spacing" => vec![spacing],
        "disc_place" => vec![farthest(job, &carries) - farthest(job, &|b| b.id == format!("{id}.disc"))],
        "hub_place" => vec![farthest(job, &|b| b.id == hub.id) - farthest(job, &|b| b.id == format!("{id}.disc"))],
        "hub_length" => vec![round.length()],
        "hub" => vec![round.largest()],
        "bore" => vec![round.least().min(2.0 * round_bore(hub))],
        "hub.keyway.width" => vec![round.sides.iter().copied().fold(0.0, f64::max) - round.sides.iter().copied().fold(0.0, f64::min)],
        "hub.keyway.roof" => vec![round.levels.iter().copied().fold(0.0, f64::max) + round_bore(hub)],
        _ => return None,
    })
}

/// How far from the belt's middle the chosen bodies reach, mm.
fn farthest(job: &Job, choose: &dyn Fn(&&Body) -> bool) -> f64 {
    let bodies = job.machine().bodies.iter().filter(choose);
    bodies.flat_map(|b| b.places.iter().flat_map(|place| b.brep.vertices.iter().map(|v| place.point(v.x, v.y, v.z).y.abs()))).fold(0.0, f64::max)
}

/// What a dimension of wings may be, mm or degrees: by the faces of the drum and the corners of the wings.
fn of_wings(job: &Job, id: &str, what: &str) -> Option<Vec<f64>> {
    let (wing, core) = (body(job, &format!("{id}.wing"))?, body(job, &format!("{id}.core"))?);
    let radii = core.brep.faces.iter().filter_map(|f| if let Surface::Cylinder(_, r) = f.surface { Some(r) } else { None });
    let drum = radii.fold(0.0, f64::max);
    let size = |axis: fn(&glam::DVec3) -> f64| {
        let all = || wing.brep.vertices.iter().map(axis);
        all().fold(f64::NEG_INFINITY, f64::max) - all().fold(f64::INFINITY, f64::min)
    };
    Some(match what {
        "wing_height" => vec![size(|v| v.y)],
        "core" => vec![2.0 * drum],
        _ => vec![360.0 / wing.places.len() as f64],
    })
}

/// Radius of the bore of a hub, whose circle its keyway opens.
fn round_bore(hub: &Body) -> f64 {
    let inner = hub.brep.faces.iter().filter_map(|f| if let Surface::Cylinder(_, r) = f.surface { Some(r).filter(|_| !f.outward) } else { None });
    inner.fold(f64::INFINITY, f64::min)
}

/// What a key of these sheets may measure, mm; `None` for what other tests look at.
fn expected(job: &Job, key: &str) -> Option<Vec<f64>> {
    let (family, what) = key.split_once('.')?;
    // Several of a kind are numbered.
    let what = what.split('[').next()?;
    match family {
        "shaft" => of_shaft(job, ("shaft", "foot_pulley.hub", "bearing"), what),
        "bend_shaft" => of_shaft(job, ("bend_shaft", "bend_pulley.hub", "bend_bearing"), what),
        "foot_pulley" | "bend_pulley" => of_pulley(job, family, what),
        "take_up" if what == "rod.length" => Some(vec![Round::of(body(job, "take_up.rod")?).length()]),
        _ => None,
    }
}

/// All dimensions of the two sheets.
fn shown(job: &Job) -> Vec<Shown> {
    let plans = job.plans().iter().filter(|p| ["turned", "rotating"].contains(&p.id.as_str()));
    plans.flat_map(|p| &p.views).flat_map(|v| &v.draft.dimensions).map(|d| (d.key.clone(), d.value())).collect()
}

/// Dimensions that no body bears out; how many were judged.
fn findings(job: &Job, shown: &[Shown]) -> (Vec<String>, usize) {
    let mut judged = 0;
    let mut out = Vec::new();
    for (key, value) in shown {
        let Some(may_be) = expected(job, key) else { continue };
        judged += 1;
        if !may_be.iter().any(|v| (v - value).abs() < 1e-6) {
            out.push(format!("{key} is drawn {value}, the body has {may_be:?}"));
        }
    }
    (out, judged)
}

/// Starters, and what none of them has: pillow blocks, wings, a stepped shaft, both ends tapped.
fn variants() -> Vec<(String, String)> {
    let mut all = templates();
    let (_, first) = all[0].clone();
    let mut add = |name: &str, changes: &[(&str, &str)]| {
        let mut table: toml::Table = first.parse().unwrap();
        changes.iter().for_each(|(path, value)| set(&mut table, path, value));
        all.push((name.into(), toml::to_string(&table).unwrap()));
    };
    add("pillow", &[("bearings.kind", "\"pillow block\"")]);
    add("winged", &[("foot_pulley.style", "\"winged\"")]);
    add("stepped", &[("shaft.diameter", "\"75 mm\""), ("shaft.journal", "\"60 mm\""), ("shaft.tapped_end", "\"both\"")]);
    add("far", &[("shaft.tapped_end", "\"far\""), ("sheet.hand", "\"up side left\"")]);
    all
}

#[test]
fn what_is_dimensioned_is_what_the_bodies_are() {
    let mut wrong = Vec::new();
    for (name, text) in variants() {
        let job = run(&text).unwrap();
        let shown = shown(&job);
        let (found, judged) = findings(&job, &shown);
        wrong.extend(found.into_iter().map(|f| format!("{name}: {f}")));
        assert!(judged >= 25, "{name}: only {judged} of {} judged", shown.len());
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The comparing function itself.
#[test]
fn a_planted_shift_is_found() {
    let job = run(&templates()[0].1).unwrap();
    let mut all = shown(&job);
    assert_eq!(findings(&job, &all).0.len(), 0);
    for key in [
        "shaft.keyway.from[1]",
        "shaft.keyway.floor",
        "shaft.plane[1]",
        "shaft.length",
        "foot_pulley.hub.keyway.roof",
        "foot_pulley.bore",
        "take_up.rod.length",
    ] {
        let at = all.iter().position(|(k, _)| k == key).unwrap_or_else(|| panic!("{key} is not dimensioned"));
        all[at].1 += 0.05;
        assert_eq!(findings(&job, &all).0.len(), 1, "{key}");
        all[at].1 -= 0.05;
    }
}

/// One fit on one plain shaft, whoever prints it; the thread is named with its class and its drill is the thread's.
#[test]
fn a_shaft_has_one_fit() {
    let job = run(&templates()[0].1).unwrap();
    let plans = job.plans();
    let fits: Vec<&str> = plans
        .iter()
        .flat_map(|p| &p.views)
        .flat_map(|v| &v.draft.dimensions)
        .filter(|d| ["shaft.diameter", "shaft.journal"].contains(&d.key.as_str()))
        .map(|d| d.suffix.as_str())
        .collect();
    assert_eq!(fits, [" h6"]);
    let listed = job.voice().say(&job.parts().part("shaft").unwrap().dimension);
    assert!(listed.contains(" h6 "), "{listed}");
    let thread = threads::find(&job.spec().shaft.thread.value).unwrap();
    let drills: Vec<f64> = shown(&job).into_iter().filter(|(k, _)| k == "shaft.tap_drill").map(|(_, v)| v).collect();
    assert!(drills.iter().all(|d| (d - thread.tap_drill_mm).abs() < 1e-9) && !drills.is_empty());
}
