//! Advice names keys that the spec has: whatever looks like a path in a message, a hint, a finding or a defect is one.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::job::Job;
use footwell::spec;
use std::collections::BTreeSet;
use support::{random_spec, templates};

/// All paths of keys and of the tables that hold them, rows of lists as `door[n]`.
fn known() -> BTreeSet<String> {
    let keys: Vec<String> = spec::keys().into_iter().map(|k| k.path).collect();
    let tables = keys.iter().filter_map(|k| k.rsplit_once('.')).map(|(table, _)| table.to_string());
    // `inlet` holds only tables.
    tables.clone().chain(["inlet".to_string()]).chain(keys.iter().cloned()).collect()
}

/// A path with the number of a row written as `n`.
fn of_any_row(path: &str) -> String {
    match (path.find('['), path.find(']')) {
        (Some(open), Some(close)) if open < close => format!("{}[n]{}", &path[..open], &path[close + 1..]),
        _ => path.to_string(),
    }
}

/// What looks like a path of the spec in a sentence: small words joined by points, the first the name of a table.
fn paths(text: &str) -> Vec<String> {
    let first: BTreeSet<String> = known().iter().map(|k| k.split(['.', '[']).next().unwrap().to_string()).collect();
    text.split(|c: char| c.is_whitespace() || "\",;:()=`".contains(c))
        .map(|w| w.trim_end_matches('.'))
        .filter(|w| w.contains('.') && first.contains(w.split(['.', '[']).next().unwrap()))
        .map(of_any_row)
        .collect()
}

#[test]
fn messages_name_real_keys() {
    let known = known();
    let mut wrong: BTreeSet<String> = BTreeSet::new();
    let mut read = 0;
    let mut look = |text: &str, at: &str| {
        for path in paths(text) {
            read += 1;
            if !known.contains(&path) {
                wrong.insert(format!("{path}: {at}: {text}"));
            }
        }
    };
    for rule in footwell::rules::ALL {
        [rule.what, rule.why, rule.remedy].into_iter().for_each(|text| look(text, rule.id));
    }
    let cases = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cases")).unwrap();
    let cases = cases.map(|c| c.unwrap().path().join("spec.toml")).filter_map(|p| std::fs::read_to_string(p).ok());
    let all: Vec<String> = cases.chain(templates().into_iter().map(|t| t.1)).chain((0..40).map(random_spec::wild)).collect();
    for text in &all {
        let problems = match Job::of(text) {
            Ok(job) => {
                for finding in &job.findings().items {
                    look(&finding.path, finding.rule);
                    look(&job.voice().say(&finding.message), finding.rule);
                    finding.would_pass.iter().for_each(|change| look(&change.path, finding.rule));
                }
                for defect in &job.parts().defects {
                    look(&defect.path, "defect");
                    look(&job.voice().say(&defect.said()), "defect");
                }
                job.warnings().clone()
            }
            Err(problems) => problems,
        };
        for problem in &problems.items {
            look(&problem.hint, "hint");
            // What was mistyped is quoted in the message.
            if problem.code != footwell::diagnostics::Code::UnknownKey {
                look(&problem.path, "problem");
                look(&problem.message, "message");
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(read > 500, "{read}");
}

/// The sieve itself: a planted key that is none, and a row of a list.
#[test]
fn planted_paths_are_seen() {
    let found = paths("give sensor_panels.near.up.width more, or door[2].width; see casing.plate = \"5 mm\".");
    assert_eq!(found, ["sensor_panels.near.up.width", "door[n].width", "casing.plate"]);
    let known = known();
    assert_eq!(found.iter().map(|p| known.contains(p)).collect::<Vec<_>>(), [false, true, true]);
}
