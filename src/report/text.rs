//! The report as plain text for the terminal: checks first, then results; defaults and inputs on request.

use super::html::not_checked;
use super::{Report, standing};
use crate::rules::{Finding, Verdict};
use crate::say;
use crate::say::Voice;
use std::fmt::Write as _;

/// The findings only: worst first, one block each.
pub fn checks(report: &Report) -> String {
    let mut out = String::new();
    for f in &report.findings {
        if f.verdict != Verdict::Pass {
            finding(&mut out, f, &report.voice);
        }
    }
    let mut passed: Vec<&str> = report.findings.iter().filter(|f| f.verdict == Verdict::Pass).map(|f| f.rule).collect();
    passed.dedup();
    if !passed.is_empty() {
        let _ = writeln!(out, "{}  {}", report.voice.word("PASS"), wrap(&passed.join(", "), 92, "      "));
    }
    let _ = writeln!(out, "\n{}", report.voice.say(&report.counted()));
    out
}

fn finding(out: &mut String, f: &Finding, voice: &Voice) {
    let _ = writeln!(out, "{}  {}  [{}]", voice.say(&standing(f)), f.rule, f.path);
    let _ = writeln!(out, "      {}", wrap(&voice.say(&f.message), 92, "      "));
    if let Some(accepted) = &f.accepted {
        let _ = writeln!(out, "      {}", wrap(&voice.say(&accepted.said()), 92, "      "));
    }
    for (i, change) in f.would_pass.iter().enumerate() {
        let line = say::name(change.line_for(voice));
        let said = if i == 0 { say!("would pass: {change}", change = line) } else { say!("together with: {change}", change = line) };
        let _ = writeln!(out, "      {}", voice.say(&said));
    }
    let _ = writeln!(out, "      {}\n", voice.say(&say!("source: {source}", source = f.source.said())));
}

/// The whole report.
pub fn whole(report: &Report) -> String {
    let voice = &report.voice;
    let mut out = String::new();
    let _ = writeln!(out, "{}\n{}\n", report.title, "=".repeat(report.title.chars().count()));
    for (name, value) in &report.head {
        let _ = writeln!(out, "{:<10} {value}", voice.word(name));
    }
    let _ = writeln!(out, "{:<10} {}\n", voice.word("Spec hash"), report.spec_hash);
    let _ = writeln!(out, "{}", voice.word(report.release.words()));
    heading(&mut out, &voice.word("Checks"));
    out.push_str(&checks(report));
    if !report.deviations.is_empty() {
        heading(&mut out, &voice.word("Accepted deviations"));
        for line in &report.deviations {
            let _ = writeln!(out, "- {}", wrap(&voice.say(line), 92, "  "));
        }
    }
    for group in &report.groups {
        heading(&mut out, &voice.word(group.title));
        for q in &group.quantities {
            let value = voice.amount(say::measured(q.value, q.unit));
            let _ = writeln!(out, "{:<58} {:>16}   {}", voice.say(&q.name), value, voice.say(&q.source.said()));
        }
    }
    heading(&mut out, &voice.word("Given in the spec"));
    for line in &report.inputs {
        let _ = writeln!(out, "{:<32} {}", line.path, line.value);
    }
    heading(&mut out, &voice.word("Decided by rule"));
    for line in &report.defaults {
        let _ = writeln!(out, "{:<32} {}", line.path, line.value);
        let _ = writeln!(out, "      {} — {}", wrap(&line.why, 92, "      "), line.source);
    }
    heading(&mut out, &voice.word("Cautions"));
    for c in &report.cautions {
        let _ = writeln!(out, "- {}", wrap(&voice.word(c.text), 92, "  "));
    }
    heading(&mut out, &voice.word("Not checked"));
    for line in not_checked(report) {
        let _ = writeln!(out, "- {line}");
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
