//! How long one spec takes, step by step. Ratios matter, not the machine's microseconds.
#![allow(missing_docs, clippy::unwrap_used)]

use divan::Bencher;
use footwell::analysis::analyse;
use footwell::analysis::capacity::Capacity;
use footwell::analysis::retained::Retained;
use footwell::model::{Foot, build_model};
use footwell::rules::check;
use footwell::settle::settle;
use footwell::spec::{Spec, load};

const NAMES: [&str; 2] = ["grain_intake", "tall_bend"];
const JOBS: [(&str, &str); 2] = [(NAMES[0], include_str!("../templates/grain_intake.toml")), (NAMES[1], include_str!("../templates/tall_bend.toml"))];

fn main() {
    divan::main();
}

fn text(name: &str) -> &'static str {
    JOBS.iter().find(|j| j.0 == name).unwrap().1
}

fn job(name: &str) -> (Spec, Foot) {
    let (spec, _) = settle(&load(text(name)).0);
    let foot = build_model(&spec).unwrap();
    (spec, foot)
}

#[divan::bench(args = NAMES)]
fn settle_and_model(bencher: Bencher, name: &str) {
    bencher.bench(|| build_model(&settle(&load(divan::black_box(text(name))).0).0));
}

#[divan::bench(args = NAMES)]
fn analysis(bencher: Bencher, name: &str) {
    let (spec, foot) = job(name);
    bencher.bench(|| analyse(divan::black_box(&spec), divan::black_box(&foot)));
}

/// The part of the analysis that was dearest: both curves of retained fill and the values at the sill.
#[divan::bench(args = NAMES)]
fn retained_fill(bencher: Bencher, name: &str) {
    let (spec, foot) = job(name);
    let capacity = Capacity::compute(&spec, &foot);
    bencher.bench(|| Retained::compute(divan::black_box(&spec), divan::black_box(&foot), divan::black_box(&capacity)));
}

#[divan::bench(args = NAMES)]
fn rules(bencher: Bencher, name: &str) {
    let (spec, foot) = job(name);
    let results = analyse(&spec, &foot);
    bencher.bench(|| check(divan::black_box(&spec), divan::black_box(&foot), divan::black_box(&results)));
}
