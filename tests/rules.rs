//! The rules as a whole: their list, their files, the starter specs, `checks.json`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::rules::Verdict;
use support::{run, templates};

#[test]
fn show() {
    for (name, text) in templates() {
        let m = run(&text).unwrap();
        println!("== {name}\n{}", m.findings.stamp());
        for f in m.findings.items.iter().filter(|f| f.verdict > Verdict::Pass) {
            println!("{:?} {} [{}] {} -> {:?}", f.verdict, f.rule, f.path, f.message, f.would_pass.iter().map(|c| c.line()).collect::<Vec<_>>());
        }
        println!("n/a {:?}", m.findings.not_applicable);
    }
}
