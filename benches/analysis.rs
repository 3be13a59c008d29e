//! How long one spec takes, step by step. Ratios matter, not the machine's microseconds.
#![allow(missing_docs, clippy::unwrap_used)]

use divan::Bencher;
use footwell::analysis::capacity::Capacity;
use footwell::analysis::retained::Retained;
use footwell::job::Job;
use footwell::rules::check;

const NAMES: [&str; 2] = ["grain_intake", "tall_bend"];
const JOBS: [(&str, &str); 2] = [(NAMES[0], include_str!("../templates/grain_intake.toml")), (NAMES[1], include_str!("../templates/tall_bend.toml"))];

fn main() {
    divan::main();
}

fn text(name: &str) -> &'static str {
    JOBS.iter().find(|j| j.0 == name).unwrap().1
}

fn job(name: &str) -> Job {
    Job::of(text(name)).unwrap()
}

#[divan::bench(args = NAMES)]
fn settle_and_model(bencher: Bencher, name: &str) {
    bencher.bench(|| Job::of(divan::black_box(text(name))));
}

// A job makes each thing once: every round takes a fresh one, whose making is not timed.
#[divan::bench(args = NAMES)]
fn analysis(bencher: Bencher, name: &str) {
    bencher.with_inputs(|| job(name)).bench_local_refs(|job| {
        divan::black_box(job.results());
    });
}

/// The part of the analysis that depends on the bucket's section: what stays at the sill.
#[divan::bench(args = NAMES)]
fn retained_fill(bencher: Bencher, name: &str) {
    let job = job(name);
    let (spec, foot) = (job.spec(), job.foot());
    let capacity = Capacity::compute(spec, foot);
    bencher.bench_local(|| Retained::compute(divan::black_box(spec), divan::black_box(foot), divan::black_box(&capacity)));
}

/// Both curves of retained fill, for the sheet and the report.
#[divan::bench(args = NAMES)]
fn retained_curves(bencher: Bencher, name: &str) {
    let job = job(name);
    bencher.bench_local(|| divan::black_box(job.results()).retained.curves());
}

/// Every number with its name and source, for the report and `results.json`.
#[divan::bench(args = NAMES)]
fn quantities(bencher: Bencher, name: &str) {
    let job = job(name);
    bencher.bench_local(|| divan::black_box(job.results()).quantities());
}

/// What is made and bought, which the rules ask for.
#[divan::bench(args = NAMES)]
fn parts(bencher: Bencher, name: &str) {
    bencher.with_inputs(|| job(name)).bench_local_refs(|job| {
        divan::black_box(job.parts());
    });
}

/// Verdict, value and limit of every rule.
#[divan::bench(args = NAMES)]
fn verdicts(bencher: Bencher, name: &str) {
    let job = job(name);
    job.results();
    bencher.bench_local(|| divan::black_box(&job).verdicts());
}

/// The same with statements and with what would pass.
#[divan::bench(args = NAMES)]
fn findings(bencher: Bencher, name: &str) {
    let job = job(name);
    let (spec, foot, results, parts) = (job.spec(), job.foot(), job.results(), job.parts());
    bencher.bench_local(|| check(divan::black_box(spec), divan::black_box(foot), divan::black_box(results), parts));
}
