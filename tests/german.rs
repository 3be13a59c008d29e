//! What the results say stands in German as well: names of quantities, load cases, rows of the comparison and prose
//! sources. A text that the tables lack would be printed in English.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::say::{Statement, Words};
use std::collections::BTreeSet;
use support::{random_spec, run, templates};

#[test]
fn results_speak_german() {
    let german = Words::of("de");
    let mut lacks: BTreeSet<&str> = BTreeSet::new();
    let mut told = 0;
    for text in templates().into_iter().map(|(_, text)| text).chain((0..100).map(random_spec::wild)) {
        let job = run(&text).unwrap();
        for quantity in job.quantities() {
            lacks.extend(german.missing(&quantity.name));
            lacks.extend(german.missing(&quantity.source.said()));
            told += 1;
        }
        let cases = job.results().loads.cases.iter().map(|case| case.name);
        let rows = job.comparison().into_iter().flat_map(|c| &c.rows).map(|row| row.name);
        lacks.extend(cases.chain(rows).flat_map(|words| german.missing(&Statement::from(words))));
    }
    assert!(lacks.is_empty(), "{lacks:#?}");
    assert!(told > 10_000, "{told}");
}
