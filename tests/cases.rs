//! `tests/cases/<name>/spec.toml` gives `expected.txt`: the messages exactly as a user sees them.
//! Run with FOOTWELL_ACCEPT=1 to write the expected files anew, then read the difference.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::cli::messages;
use footwell::job::Job;
use std::path::Path;

#[test]
fn messages_are_as_expected() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases");
    let accept = std::env::var_os("FOOTWELL_ACCEPT").is_some();
    let mut cases: Vec<_> = std::fs::read_dir(&root).unwrap().map(|e| e.unwrap().path()).filter(|p| p.is_dir()).collect();
    cases.sort();
    assert!(cases.len() >= 10, "cases are missing");
    let mut wrong = Vec::new();
    for case in cases {
        let text = std::fs::read_to_string(case.join("spec.toml")).unwrap();
        let problems = match Job::of(&text) {
            Ok(job) => job.warnings().clone(),
            Err(problems) => problems,
        };
        for one in &problems.items {
            assert!(!one.hint.is_empty(), "{}: \"{}\" has no hint", case.display(), one.message);
        }
        let found = messages::render(&problems, "spec.toml", &text, false);
        let path = case.join("expected.txt");
        if accept {
            std::fs::write(&path, &found).unwrap();
        } else if std::fs::read_to_string(&path).unwrap_or_default() != found {
            wrong.push(format!("{}:\n{found}", case.file_name().unwrap().display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
