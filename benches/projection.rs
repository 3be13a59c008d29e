//! How long the bodies of a machine take, and how long all pictures of them: hidden lines and sections of every view.
//! Ratios matter: `benches/hidden_lines.py` asks OCP for the same views on the same machine.
#![allow(missing_docs, clippy::unwrap_used)]

#[path = "../tests/support/pictures.rs"]
#[allow(dead_code)]
mod pictures;

use divan::Bencher;
use divan::counter::ItemsCount;
use footwell::job::Job;
use footwell::machine::bodies;
use footwell::paper::shown::Shown;

const NAMES: [&str; 2] = ["grain_intake", "tall_bend"];
const TEXTS: [&str; 2] = [include_str!("../templates/grain_intake.toml"), include_str!("../templates/tall_bend.toml")];

fn main() {
    divan::main();
}

fn job(name: &str) -> Job {
    Job::of(TEXTS[NAMES.iter().position(|n| *n == name).unwrap()]).unwrap()
}

/// Every body and where its pieces stand, from the parts.
#[divan::bench(args = NAMES)]
fn build_bodies(bencher: Bencher, name: &str) {
    let job = job(name);
    let parts = job.parts();
    bencher.bench_local(|| bodies(divan::black_box(job.spec()), divan::black_box(job.foot()), parts));
}

/// All pictures of all sheets: lines seen and hidden as the sheets ask, sections; counted by the edges of the bodies in them.
#[divan::bench(args = NAMES, sample_count = 20)]
fn project_all_views(bencher: Bencher, name: &str) {
    let job = job(name);
    let bodies = pictures::by_id(job.machine());
    let drafts = job.plans().iter().filter(|p| p.id != "compare").flat_map(|p| &p.views).flat_map(|v| &v.draft.shown);
    let shown: Vec<&Shown> = drafts.collect();
    let edges: usize = shown.iter().flat_map(|s| &s.pieces).map(|p| bodies[p.body.as_str()].brep.edges.len()).sum();
    bencher
        .counter(ItemsCount::new(edges))
        .bench_local(|| shown.iter().map(|s| pictures::lines(divan::black_box(s), &bodies, false).lines.len()).sum::<usize>());
}

/// What overlaps, in three positions of the take-up, and what hangs in the air.
#[divan::bench(args = NAMES, sample_count = 20)]
fn prove_bodies(bencher: Bencher, name: &str) {
    let job = job(name);
    job.machine();
    bencher.bench_local(|| divan::black_box(&job).overlaps().len() + job.loose().len());
}
