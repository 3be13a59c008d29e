//! What the program decides breaks none of its own rules: specs of required keys only, over the whole range that it takes, through to findings.
//!
//! The capacity is what the elevator carries and throws out at the head at its customary speed with buckets as close as they go, times 0.3–0.95: a duty that is too large,
//! a head pulley that the belt does not bear and a product that is thrown too fast are the user's own, and are not drawn.
//! `FOOTWELL_RANDOM=2000 cargo test --test defaults` takes that many, `FOOTWELL_SEEDS=81,239` those alone.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::rules::Verdict;
use footwell::spec::reader::Origin;
use std::collections::BTreeMap;
use support::random_spec;

/// The spec of a seed, with a duty that it can carry.
fn spec(seed: u64) -> String {
    let least = random_spec::least(seed);
    // With far too much asked for, the buckets stand as close as they go.
    let crowded = Job::of_contradicting(&least.with_capacity(4000.0)).unwrap_or_else(|why| panic!("seed {seed}: {why:#?}"));
    least.with_capacity(crowded.results().net.past_head_t_per_h * least.share)
}

/// What is wrong with the defaults of a spec: rule and explanation.
fn objections(text: &str) -> Vec<(String, String)> {
    let job = match Job::of(text) {
        Ok(job) => job,
        Err(why) => return vec![("settling".into(), format!("{why:#?}\n{text}"))],
    };
    let given: Vec<String> = job.spec().settled_lines().into_iter().filter(|l| matches!(l.origin, Origin::Given(_))).map(|l| l.path).collect();
    let mut all: Vec<_> = job.warnings().items.iter().map(|w| ("settling".to_string(), format!("{w:?}\n{text}"))).collect();
    for f in job.findings().items.iter().filter(|f| f.verdict > Verdict::Note) {
        let changes: Vec<String> = f.would_pass.iter().map(|c| c.line()).collect();
        let of_given = !f.would_pass.is_empty() && f.would_pass.iter().all(|c| given.contains(&c.path));
        if f.verdict == Verdict::Fail || !of_given {
            all.push((format!("{} {}", f.verdict.word(), f.rule), format!("{}: {} {changes:?}\n{text}", f.path, f.message.plainly())));
        }
    }
    all
}

#[test]
fn defaults_break_no_rule() {
    let seeds: Vec<u64> = match std::env::var("FOOTWELL_SEEDS") {
        Ok(list) => list.split(',').map(|s| s.trim().parse().unwrap()).collect(),
        Err(_) => (0..std::env::var("FOOTWELL_RANDOM").map_or(60, |n| n.parse().unwrap())).collect(),
    };
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(4);
    let of = &|thread: usize| -> Vec<_> {
        seeds.iter().skip(thread).step_by(threads).flat_map(|seed| objections(&spec(*seed)).into_iter().map(|(rule, why)| (rule, *seed, why))).collect()
    };
    let mut found: Vec<(String, u64, String)> = std::thread::scope(|scope| {
        let running: Vec<_> = (0..threads).map(|t| scope.spawn(move || of(t))).collect();
        running.into_iter().flat_map(|r| r.join().unwrap()).collect()
    });
    found.sort();
    let mut by_rule: BTreeMap<&str, Vec<(u64, &str)>> = BTreeMap::new();
    for (rule, seed, why) in &found {
        by_rule.entry(rule).or_default().push((*seed, why));
    }
    let report: Vec<String> = by_rule
        .iter()
        .map(|(rule, all)| {
            let seeds: Vec<u64> = all.iter().map(|(seed, _)| *seed).collect();
            format!("{rule}: {} of {} specs, seeds {:?}\nfirst {}", all.len(), seeds.len(), &seeds, all[0].1)
        })
        .collect();
    assert!(report.is_empty(), "{}", report.join("\n\n"));
}

/// A foot for trials: small in every size that nobody asked for.
#[test]
fn a_laboratory_foot_is_small() {
    for us in [false, true] {
        let text = format!(
            "[duty]\ncapacity = \"1 t/h\"\nlift = \"2.6 m\"\n[bucket]\nlength = \"80 mm\"\nprojection = \"60 mm\"\nheight = \"60 mm\"\n\
             [head_pulley]\ndiameter = \"250 mm\"\n[product]\npreset = \"wheat\"\n[project]\njurisdiction = \"{}\"\n",
            if us { "us" } else { "iso" }
        );
        assert_eq!(objections(&text), Vec::new());
        let job = Job::of(&text).unwrap();
        let spec = job.spec();
        let most = |what: &str, mm: f64, most: f64| assert!(mm <= most + 1e-6, "{what} of {mm} mm");
        most("shaft", spec.shaft.diameter.value(), 30.0);
        most("bearing unit", job.foot().rotating.unit.up, 110.0);
        most("throat", spec.inlet_up.height.value(), 166.0);
        most("throat, wide", spec.inlet_up.width.value(), 80.0);
        for door in &spec.doors {
            most("door", door.height.value(), 305.0);
        }
    }
}
