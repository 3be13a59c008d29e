//! The report as plain text for the terminal: checks first, then results; defaults and inputs on request.

use super::{NOT_CHECKED, Report, verdict_word};
use crate::rules::{Finding, Verdict};
use crate::say::{Voice, measured};
use crate::spec::reader::Origin;
use std::fmt::Write as _;

/// The findings only: worst first, one block each.
pub fn checks(report: &Report) -> String {
    let mut out = String::new();
    for f in &report.findings {
        if f.verdict != Verdict::Pass {
            finding(&mut out, f, &report.voice);
        }
    }
    let passed: Vec<&str> = report.findings.iter().filter(|f| f.verdict == Verdict::Pass).map(|f| f.rule).collect();
    if !passed.is_empty() {
        let mut unique = passed.clone();
        unique.dedup();
        let _ = writeln!(out, "PASS  {}", wrap(&unique.join(", "), 92, "      "));
    }
    let _ = writeln!(
        out,
        "\n{} fail, {} warn, {} note, {} pass",
        report.count(Verdict::Fail),
        report.count(Verdict::Warn),
        report.count(Verdict::Note),
        report.count(Verdict::Pass)
    );
    out
}

fn finding(out: &mut String, f: &Finding, voice: &Voice) {
    let _ = writeln!(out, "{}  {}  [{}]", verdict_word(f.verdict), f.rule, f.path);
    let _ = writeln!(out, "      {}", wrap(&voice.say(&f.message), 92, "      "));
    for change in &f.would_pass {
        let _ = writeln!(out, "      would pass: {} = {}", change.path, change.value);
    }
    let _ = writeln!(out, "      source: {}\n", f.source.label());
}

/// The whole report.
pub fn whole(report: &Report) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}\n{}\n", report.title, "=".repeat(report.title.chars().count()));
    for (name, value) in &report.head {
        let _ = writeln!(out, "{name:<10} {value}");
    }
    let _ = writeln!(out, "{:<10} {}\n", "Spec hash", report.spec_hash);
    heading(&mut out, "Checks");
    out.push_str(&checks(report));
    for group in &report.groups {
        heading(&mut out, &group.title);
        for q in &group.quantities {
            let (figure, unit) = report.voice.figure_and_unit(measured(q.value, q.unit));
            let value = format!("{figure} {unit}");
            let _ = writeln!(out, "{:<58} {:>16}   {}", report.voice.say(&q.name), value.trim_end(), q.source.label());
        }
    }
    heading(&mut out, "Given in the spec");
    for line in &report.inputs {
        let _ = writeln!(out, "{:<32} {}", line.path, line.value);
    }
    heading(&mut out, "Decided by rule");
    for line in &report.defaults {
        if let Origin::Default { reason, source } = &line.origin {
            let _ = writeln!(out, "{:<32} {}", line.path, line.value);
            let _ = writeln!(out, "      {} — {}", wrap(&report.voice.say(reason), 92, "      "), source.label());
        }
    }
    heading(&mut out, "Cautions");
    for c in &report.cautions {
        let _ = writeln!(out, "- {}", wrap(c.text, 92, "  "));
    }
    heading(&mut out, "Not checked");
    for line in NOT_CHECKED {
        let _ = writeln!(out, "- {line}");
    }
    for (id, title) in &report.silent_rules {
        let _ = writeln!(out, "- rule {id} ({title}) does not apply here");
    }
    out
}

fn heading(out: &mut String, text: &str) {
    let _ = writeln!(out, "\n{text}\n{}", "-".repeat(text.chars().count()));
}

/// Breaks a text into lines of at most `width` characters; later lines begin with `indent`.
fn wrap(text: &str, width: usize, indent: &str) -> String {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let full = lines.last().is_some_and(|l| !l.is_empty() && l.chars().count() + 1 + word.chars().count() > width);
        if full {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines.join(&format!("\n{indent}"))
}
