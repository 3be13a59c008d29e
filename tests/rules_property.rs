//! What would pass does pass: every change that a rule proposes, written into the spec, satisfies that rule.
//!
//! Over random specs and all rules. Runs the whole pipeline twice for each rule that objects.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod support;

use footwell::rules::{ALL, Verdict};
use proptest::prelude::*;
use support::{changed, random_spec, run};

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn sound_specs_settle(seed in any::<u64>()) {
        let text = random_spec::sound(seed);
        let machine = run(&text).map_err(|why| TestCaseError::fail(format!("{why}\n{text}")))?;
        prop_assert!(!machine.findings.items.is_empty());
    }

    #[test]
    fn what_would_pass_does_pass(seed in any::<u64>()) {
        let text = random_spec::wild(seed);
        let before = run(&text).map_err(|why| TestCaseError::fail(format!("{why}\n{text}")))?;
        for rule in ALL {
            let open: Vec<_> = before.findings.of(rule.id).filter(|f| f.verdict > Verdict::Pass).collect();
            let changes: Vec<_> = open.iter().flat_map(|f| &f.would_pass).collect();
            // Without a proposal for each open finding the rule does not promise anything.
            if open.is_empty() || open.iter().any(|f| f.would_pass.is_empty()) {
                continue;
            }
            let mended = changed(&text, changes.iter().copied());
            let after = run(&mended).map_err(|why| TestCaseError::fail(format!("{}: {changes:?}\n{why}\n{mended}", rule.id)))?;
            let left: Vec<_> = after.findings.of(rule.id).filter(|f| f.verdict > Verdict::Pass).collect();
            prop_assert!(left.is_empty(), "{}: before {open:#?}\nafter {left:#?}\n{mended}", rule.id);
        }
    }
}
