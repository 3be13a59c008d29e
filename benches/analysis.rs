//! How long one spec takes, step by step. Ratios matter, not the machine's microseconds.
#![allow(missing_docs, clippy::unwrap_used)]

use divan::Bencher;
use footwell::analysis::capacity::Capacity;
use footwell::analysis::retained::Retained;
use footwell::job::Job;

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

/// The part of the analysis that was dearest: both curves of retained fill and the values at the sill.
#[divan::bench(args = NAMES)]
fn retained_fill(bencher: Bencher, name: &str) {
    let job = job(name);
    let (spec, foot) = (job.spec(), job.foot());
    let capacity = Capacity::compute(spec, foot);
    bencher.bench_local(|| Retained::compute(divan::black_box(spec), divan::black_box(foot), divan::black_box(&capacity)));
}

#[divan::bench(args = NAMES)]
fn rules(bencher: Bencher, name: &str) {
    bencher
        .with_inputs(|| {
            let job = job(name);
            job.results();
            job
        })
        .bench_local_refs(|job| {
            divan::black_box(job.findings());
        });
}
