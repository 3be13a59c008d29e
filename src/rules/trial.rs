//! Test bench of the rules: a spec with a few keys changed, run through the whole pipeline.
//!
//! In: TOML text and `(path, value)` pairs, the value as TOML. Out: the findings of one rule. Settling
//! may object to a deliberately bad value (a contradiction); the rules are asked all the same.

use super::{Case, Finding, Rule, Verdict, Wanted};
use crate::analysis::Results;
use crate::job::Job;
use crate::model::Foot;
use crate::spec::Spec;
use crate::units::Unit;
use toml::{Table, Value};

/// A grain elevator with everything left to the defaults.
pub const SMALL: &str = r#"
[product]
preset = "barley"
[duty]
capacity = "60 t/h"
lift = "25 m"
[bucket]
length = "280 mm"
projection = "165 mm"
height = "180 mm"
[belt]
stretch = "0.8 %"
[head_pulley]
diameter = "800 mm"
"#;

/// A tall one with a bend pulley.
pub const LARGE: &str = r#"
[product]
preset = "maize"
[duty]
capacity = "600 t/h"
lift = "50 m"
[bucket]
length = "500 mm"
projection = "260 mm"
height = "280 mm"
rows = 2
[belt]
stretch = "0.5 %"
[head_pulley]
diameter = "2200 mm"
[bend_pulley]
fitted = true
"#;

/// Writes a value at a path such as `inlet.up.sill` or `door[2].mesh`, making tables on the way.
pub fn set(spec: &mut Table, path: &str, value: &str) {
    let value = format!("x = {value}").parse::<Table>().unwrap().remove("x").unwrap();
    let (tables, key) = path.rsplit_once('.').unwrap();
    let mut here = spec;
    for part in tables.split('.') {
        let Some((name, number)) = part.strip_suffix(']').and_then(|p| p.split_once('[')) else {
            here = here.entry(part).or_insert_with(|| Value::Table(Table::new())).as_table_mut().unwrap();
            continue;
        };
        let number: usize = number.parse().unwrap();
        let list = here.entry(name).or_insert_with(|| Value::Array(Vec::new())).as_array_mut().unwrap();
        while list.len() < number {
            list.push(Value::Table(Table::new()));
        }
        here = list[number - 1].as_table_mut().unwrap();
    }
    here.insert(key.to_string(), value);
}

/// The whole pipeline up to the rules on a spec with changes.
pub fn job(text: &str, changes: &[(&str, &str)]) -> Job {
    let mut table: Table = text.parse().unwrap();
    for (path, value) in changes {
        set(&mut table, path, value);
    }
    let text = toml::to_string(&table).unwrap();
    Job::of_contradicting(&text).unwrap_or_else(|problems| panic!("{problems:#?}\n{text}"))
}

/// Spec, model and results of a spec with changes.
pub fn machine(text: &str, changes: &[(&str, &str)]) -> (Spec, Foot, Results) {
    let job = job(text, changes);
    (job.spec().clone(), job.foot().clone(), job.results().clone())
}

/// Findings of a rule on a spec with changes.
pub fn findings_of(rule: &Rule, text: &str, changes: &[(&str, &str)]) -> Vec<Finding> {
    let job = job(text, changes);
    (rule.check)(&Case { spec: job.spec(), foot: job.foot(), results: job.results(), parts: job.made(), wanted: Wanted::Changes })
}

/// Worst verdict of a rule on a spec with changes; `None` when it has nothing to say.
pub fn worst_of(rule: &Rule, text: &str, changes: &[(&str, &str)]) -> Option<Verdict> {
    findings_of(rule, text, changes).iter().map(|f| f.verdict).max()
}

/// The same on [`SMALL`].
pub fn worst(rule: &Rule, changes: &[(&str, &str)]) -> Option<Verdict> {
    worst_of(rule, SMALL, changes)
}

/// Value and limit of a rule's first finding on [`SMALL`].
pub fn measured(rule: &Rule, changes: &[(&str, &str)]) -> (f64, f64) {
    let found = findings_of(rule, SMALL, changes);
    let first = found.first().unwrap();
    (first.value.unwrap().value, first.limit.unwrap().value)
}

/// The changes that a rule proposes on a spec, as lines of a spec.
pub fn proposed(rule: &Rule, text: &str, changes: &[(&str, &str)]) -> Vec<String> {
    findings_of(rule, text, changes).iter().flat_map(|f| &f.would_pass).map(|c| c.line()).collect()
}

/// Asserts that a rule objects to a spec and proposes changes that satisfy it; the findings after them.
pub fn mended(rule: &Rule, text: &str, changes: &[(&str, &str)]) -> Vec<Finding> {
    let before = findings_of(rule, text, changes);
    assert!(before.iter().any(|f| f.verdict != Verdict::Pass), "{before:#?}");
    let proposed: Vec<(&str, &str)> = before.iter().flat_map(|f| &f.would_pass).map(|c| (c.path.as_str(), c.value.as_str())).collect();
    let after = findings_of(rule, text, &[changes, &proposed].concat());
    assert!(after.iter().all(|f| f.verdict == Verdict::Pass), "{proposed:?}: {after:#?}");
    after
}

/// Asserts that the verdict about `path` turns exactly at its limit: the limit passes, `step` beyond does not.
pub fn turns(rule: &Rule, path: &str, changes: &[(&str, &str)], step: f64) {
    let about = |more: &[(&str, &str)]| {
        let all = [changes, more].concat();
        findings_of(rule, SMALL, &all).into_iter().find(|f| f.path == path).unwrap()
    };
    let limit = about(&[]).limit.unwrap();
    let written = |v: f64| if limit.unit == Unit::One { format!("{v:?}") } else { format!("\"{v:.7} {}\"", limit.unit.symbol()) };
    let at = about(&[(path, &written(limit.value))]);
    assert_eq!(at.verdict, Verdict::Pass, "{at:#?}");
    let beyond = about(&[(path, &written(limit.value + step))]);
    assert_ne!(beyond.verdict, Verdict::Pass, "{beyond:#?}");
}
