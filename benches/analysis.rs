//! How long one spec takes: settle, model, analysis. Ratios matter, not the machine's microseconds.
#![allow(missing_docs, clippy::unwrap_used)]

use divan::Bencher;
use footwell::analysis::analyse;
use footwell::model::{Foot, build_model};
use footwell::spec::{Spec, load, settle::settle};

const JOBS: [(&str, &str); 2] = [("grain_intake", include_str!("../templates/grain_intake.toml")), ("tall_bend", include_str!("../templates/tall_bend.toml"))];

fn main() {
    divan::main();
}

fn job(name: &str) -> (Spec, Foot) {
    let text = JOBS.iter().find(|j| j.0 == name).unwrap().1;
    let (spec, _) = settle(&load(text).0);
    let foot = build_model(&spec).unwrap();
    (spec, foot)
}

#[divan::bench(args = ["grain_intake", "tall_bend"])]
fn analysis(bencher: Bencher, name: &str) {
    let (spec, foot) = job(name);
    bencher.bench(|| analyse(divan::black_box(&spec), divan::black_box(&foot)));
}

#[divan::bench(args = ["grain_intake", "tall_bend"])]
fn settle_and_model(bencher: Bencher, name: &str) {
    let text = JOBS.iter().find(|j| j.0 == name).unwrap().1;
    bencher.bench(|| build_model(&settle(&load(divan::black_box(text)).0).0));
}
