//! The report as one self-contained HTML page: prints well, follows dark mode on screen, needs no network.
//!
//! Verdicts are told apart by word and mark, not by colour alone. Sheets are linked, not repeated.

use super::{NOT_CHECKED, Report, verdict_word};
use crate::rules::{Finding, Verdict};
use crate::say::{Amount, Voice, measured};
use crate::spec::reader::{Origin, SettledLine};
use std::fmt::Write as _;

const STYLE: &str = include_str!("../../templates/report.css");

/// A drawing that belongs to the report: title and file name beside the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetLink {
    /// Title of the sheet.
    pub title: String,
    /// SVG file, relative to the page.
    pub file: String,
}

/// Writes the page.
pub fn page(report: &Report, sheets: &[SheetLink], version: &str) -> String {
    let mut o = String::new();
    let _ = write!(
        o,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{0}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<header>\n<h1>{0}</h1>\n<dl>\n",
        escape(&report.title)
    );
    for (name, value) in &report.head {
        let _ = writeln!(o, "<div><dt>{name}</dt><dd>{}</dd></div>", escape(value));
    }
    let _ = writeln!(o, "<div><dt>Spec hash</dt><dd>{}</dd></div>\n<div><dt>Program</dt><dd>footwell {version}</dd></div>\n</dl>", escape(&report.spec_hash));
    summary(&mut o, report);
    o.push_str("</header>\n<main>\n");
    cautions(&mut o, report);
    if !sheets.is_empty() {
        o.push_str("<section id=\"sheets\"><h2>Sheets</h2>\n<ul class=\"sheets\">\n");
        for s in sheets {
            let _ =
                writeln!(o, "<li><a href=\"{0}\"><img src=\"{0}\" alt=\"{1}\" loading=\"lazy\"><span>{1}</span></a></li>", escape(&s.file), escape(&s.title));
        }
        o.push_str("</ul></section>\n");
    }
    findings(&mut o, report);
    results(&mut o, report);
    given(&mut o, &report.inputs);
    decided(&mut o, &report.defaults, &report.voice);
    memory(&mut o, report);
    not_checked(&mut o, report);
    o.push_str("</main>\n</body>\n</html>\n");
    o
}

fn summary(o: &mut String, report: &Report) {
    let fails = report.count(Verdict::Fail);
    let word = report.voice.word(report.release.words());
    let class = if fails > 0 { "fail" } else { "pass" };
    let _ = writeln!(
        o,
        "<p class=\"stamp {class}\"><strong>{word}</strong> {fails} fail · {} warn · {} note · {} pass. Approval is left to a person.</p>",
        report.count(Verdict::Warn),
        report.count(Verdict::Note),
        report.count(Verdict::Pass)
    );
}

fn cautions(o: &mut String, report: &Report) {
    o.push_str("<section id=\"cautions\" class=\"cautions\"><h2>Cautions</h2>\n<ul>\n");
    for c in &report.cautions {
        let _ = writeln!(o, "<li>{}</li>", escape(c.text));
    }
    o.push_str("</ul></section>\n");
}

fn findings(o: &mut String, report: &Report) {
    o.push_str("<section id=\"checks\"><h2>Checks</h2>\n<table>\n<thead><tr><th>Verdict</th><th>Rule</th><th>What was found</th><th>Value</th><th>Limit</th><th>Would pass</th><th>Source</th></tr></thead>\n<tbody>\n");
    for f in &report.findings {
        let amount = |a: Option<Amount>| a.map_or_else(String::new, |a| report.voice.amount(a));
        let _ = writeln!(
            o,
            "<tr class=\"{}\"><td><span class=\"verdict\">{} {}</span></td><td><code>{}</code></td><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td>{}</td><td class=\"source\">{}</td></tr>",
            verdict_word(f.verdict).to_lowercase(),
            mark(f.verdict),
            verdict_word(f.verdict),
            escape(f.rule),
            escape(&report.voice.say(&f.message)),
            escape(&amount(f.value)),
            escape(&amount(f.limit)),
            changes(f),
            escape(&f.source.label())
        );
    }
    o.push_str("</tbody></table></section>\n");
}

fn changes(f: &Finding) -> String {
    let list: Vec<String> = f.would_pass.iter().map(|c| format!("<code>{} = {}</code>", escape(&c.path), escape(&c.value))).collect();
    list.join("<br>")
}

const fn mark(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "✓",
        Verdict::Note => "·",
        Verdict::Warn => "!",
        Verdict::Fail => "✗",
    }
}

fn results(o: &mut String, report: &Report) {
    o.push_str("<section id=\"results\"><h2>Results</h2>\n");
    for group in &report.groups {
        let _ = write!(
            o,
            "<h3>{}</h3>\n<table>\n<thead><tr><th>Quantity</th><th>Value</th><th>Unit</th><th>From</th><th>Source</th></tr></thead>\n<tbody>\n",
            escape(&group.title)
        );
        for q in &group.quantities {
            let (figure, unit) = report.voice.figure_and_unit(measured(q.value, q.unit));
            let _ = writeln!(
                o,
                "<tr id=\"{}\"><td>{}</td><td class=\"n\">{}</td><td>{}</td><td class=\"from\">{}</td><td class=\"source\">{}</td></tr>",
                escape(&q.id),
                escape(&report.voice.say(&q.name)),
                escape(&figure),
                escape(unit),
                escape(&q.inputs.join(", ")),
                escape(&q.source.label())
            );
        }
        o.push_str("</tbody></table>\n");
    }
    o.push_str("</section>\n");
}

fn given(o: &mut String, lines: &[SettledLine]) {
    o.push_str("<section id=\"inputs\"><h2>Given in the spec</h2>\n<table>\n<thead><tr><th>Key</th><th>Value</th></tr></thead>\n<tbody>\n");
    for line in lines {
        let _ = writeln!(o, "<tr><td><code>{}</code></td><td>{}</td></tr>", escape(&line.path), escape(&line.value));
    }
    o.push_str("</tbody></table></section>\n");
}

fn decided(o: &mut String, lines: &[SettledLine], voice: &Voice) {
    o.push_str("<section id=\"defaults\"><h2>Decided by rule</h2>\n<p>Write the key into the spec to decide otherwise.</p>\n<table>\n<thead><tr><th>Key</th><th>Value</th><th>Why</th><th>Source</th></tr></thead>\n<tbody>\n");
    for line in lines {
        if let Origin::Default { reason, source } = &line.origin {
            let _ = writeln!(
                o,
                "<tr><td><code>{}</code></td><td>{}</td><td>{}</td><td class=\"source\">{}</td></tr>",
                escape(&line.path),
                escape(&line.value),
                escape(&voice.say(reason)),
                escape(&source.label())
            );
        }
    }
    o.push_str("</tbody></table></section>\n");
}

fn memory(o: &mut String, report: &Report) {
    o.push_str("<section id=\"memory\"><h2>Values from memory or practice</h2>\n<p>Confirm these where they matter.</p>\n<ul>\n");
    for s in &report.from_memory {
        let _ = writeln!(o, "<li>{}</li>", escape(&s.label()));
    }
    o.push_str("</ul></section>\n");
}

fn not_checked(o: &mut String, report: &Report) {
    o.push_str("<section id=\"not-checked\"><h2>Not checked</h2>\n<ul>\n");
    for line in NOT_CHECKED {
        let _ = writeln!(o, "<li>{}</li>", escape(line));
    }
    for (id, title) in &report.silent_rules {
        let _ = writeln!(o, "<li>Rule <code>{}</code> ({}) does not apply here.</li>", escape(id), escape(title));
    }
    o.push_str("</ul></section>\n");
}

/// Escapes text for HTML bodies and attributes.
fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
