//! What rules and results say stands in German as well: sentences, what a rule says of itself, names, load cases,
//! rows of the comparison. A text that the tables lack would be printed in English.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::rules::ALL;
use footwell::say::{Statement, Words};
use std::collections::BTreeSet;
use support::{random_spec, run, templates};

fn specs() -> impl Iterator<Item = String> {
    templates().into_iter().map(|(_, text)| text).chain((0..100).map(random_spec::wild))
}

fn missing<'a>(all: impl IntoIterator<Item = &'a Statement>) -> BTreeSet<&'static str> {
    let german = Words::of("de");
    all.into_iter().flat_map(|said| german.missing(said)).collect()
}

#[test]
fn rules() {
    let own: Vec<Statement> = ALL.iter().flat_map(|r| [r.title, r.what, r.why, r.remedy]).map(Statement::from).collect();
    let mut lacks = missing(&own);
    for text in specs() {
        let job = run(&text).unwrap();
        let findings = job.findings();
        lacks.extend(missing(findings.items.iter().map(|f| &f.message).chain([&findings.stamp()])));
    }
    assert!(lacks.is_empty(), "{lacks:#?}");
}

#[test]
fn results() {
    let mut lacks = BTreeSet::new();
    for text in specs() {
        let job = run(&text).unwrap();
        let results = job.results();
        lacks.extend(missing(results.quantities.iter().map(|q| &q.name)));
        let cases: Vec<Statement> = results.loads.cases.iter().map(|c| Statement::from(c.name)).collect();
        lacks.extend(missing(&cases));
    }
    assert!(lacks.is_empty(), "{lacks:#?}");
}
