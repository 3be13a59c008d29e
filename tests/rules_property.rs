//! What would pass does pass: every change that a rule proposes, written into the spec, satisfies that rule; what one finding
//! proposes satisfies that finding alone, and no change writes what the spec says already.
//!
//! Over random specs and all rules. Runs the whole pipeline twice for each rule that objects.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::job::Job;
use footwell::rules::{ALL, Finding, Verdict};
use footwell::spec::reader::{Origin, SettledLine};
use proptest::prelude::*;
use std::collections::BTreeMap;
use support::{changed, random_spec, run};

/// What is wrong with the proposals of each rule on one spec: rule and explanation.
fn broken_proposals(text: &str) -> Vec<(&'static str, String)> {
    let before = match run(text) {
        Ok(machine) => machine,
        Err(why) => return vec![("random spec", format!("{why}\n{text}"))],
    };
    let mut broken = alone(text, &before);
    for rule in ALL {
        let open: Vec<_> = before.findings().of(rule.id).filter(|f| f.verdict > Verdict::Pass).collect();
        // Without a proposal for each open finding the rule does not promise anything.
        if open.is_empty() || open.iter().any(|f| f.would_pass.is_empty()) {
            continue;
        }
        let changes: Vec<_> = open.iter().flat_map(|f| &f.would_pass).collect();
        let lines: Vec<String> = changes.iter().map(|c| c.line()).collect();
        let mended = changed(text, changes.iter().copied());
        match run(&mended) {
            Err(why) => broken.push((rule.id, format!("{lines:#?}\n{why}"))),
            Ok(after) => {
                if after.verdicts().items.iter().all(|j| j.rule != rule.id || j.verdict == Verdict::Pass) {
                    continue;
                }
                let left: Vec<_> = after.findings().of(rule.id).filter(|f| f.verdict > Verdict::Pass).collect();
                if !left.is_empty() {
                    broken.push((rule.id, format!("{lines:#?}\nstill {left:#?}")));
                }
            }
        }
    }
    broken
}

/// The open findings of a rule about a path.
fn open<'a>(job: &'a Job, rule: &'a str, path: &'a str) -> impl Iterator<Item = &'a Finding> {
    job.findings().of(rule).filter(move |f| f.path == path && f.verdict > Verdict::Pass)
}

/// What is wrong with the proposals of single findings.
fn alone(text: &str, before: &Job) -> Vec<(&'static str, String)> {
    let present: BTreeMap<String, SettledLine> = before.spec().settled_lines().into_iter().map(|l| (l.path.clone(), l)).collect();
    let mut broken = Vec::new();
    for finding in before.findings().items.iter().filter(|f| !f.would_pass.is_empty()) {
        let lines: Vec<String> = finding.would_pass.iter().map(|c| c.line()).collect();
        for change in &finding.would_pass {
            // A default may be held with other changes, because it would move with them.
            let idle = present.get(&change.path).is_some_and(|l| l.value == change.value && (matches!(l.origin, Origin::Given(_)) || lines.len() == 1));
            if idle {
                broken.push((finding.rule, format!("{}: {} changes nothing", finding.path, change.line())));
            }
        }
        // One open finding of a rule is tried with the whole rule.
        if before.findings().of(finding.rule).filter(|f| f.verdict > Verdict::Pass).count() == 1 {
            continue;
        }
        let alike = open(before, finding.rule, &finding.path).filter(|f| f.would_pass == finding.would_pass).count();
        let were = open(before, finding.rule, &finding.path).count();
        match run(&changed(text, &finding.would_pass)) {
            Err(why) => broken.push((finding.rule, format!("{} alone: {lines:#?}\n{why}", finding.path))),
            Ok(after) => {
                // Verdicts need no parts; findings, which do, are asked where it is not clear.
                let all = |job: &Job| job.verdicts().items.iter().filter(|j| j.rule == finding.rule && j.verdict > Verdict::Pass).count();
                if all(&after) + alike <= all(before) {
                    continue;
                }
                let left: Vec<_> = open(&after, finding.rule, &finding.path).collect();
                if left.len() + alike > were {
                    broken.push((finding.rule, format!("{} alone: {lines:#?}\nstill {left:#?}", finding.path)));
                }
            }
        }
    }
    broken
}

/// Seeds of the fixed sweep; `RULES_SWEEP=5000` looks longer.
fn sweep() -> u64 {
    std::env::var("RULES_SWEEP").ok().and_then(|n| n.parse().ok()).unwrap_or(150)
}

/// A fixed sweep that names every rule at fault at once.
#[test]
fn proposals_pass_over_a_fixed_sweep() {
    let mut faults = std::collections::BTreeMap::new();
    for seed in 0..sweep() {
        for (rule, why) in broken_proposals(&random_spec::wild(seed)) {
            let entry = faults.entry(rule).or_insert((0, format!("seed {seed}: {why}")));
            entry.0 += 1;
        }
    }
    let report: Vec<String> = faults.iter().map(|(rule, (count, first))| format!("{rule} ({count} times), first {first}")).collect();
    assert!(report.is_empty(), "{}", report.join("\n\n"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, rng_seed: proptest::test_runner::RngSeed::Fixed(7), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn sound_specs_settle(seed in any::<u64>()) {
        let text = random_spec::sound(seed);
        let machine = run(&text).map_err(|why| TestCaseError::fail(format!("{why}\n{text}")))?;
        prop_assert!(!machine.findings().items.is_empty());
    }

    #[test]
    fn what_would_pass_does_pass(seed in any::<u64>()) {
        let broken = broken_proposals(&random_spec::wild(seed));
        prop_assert!(broken.is_empty(), "{broken:#?}");
    }
}
