//! The report as one self-contained HTML page: prints well, follows dark mode on screen, needs no network.
//!
//! The page is `templates/report.html`; here its texts are said in the job's voice and handed over. Verdicts are told
//! apart by word and mark, not by colour alone. Sheets are linked, not repeated.

use super::{Line, NOT_CHECKED, Report, WORDS, standing};
use crate::rules::{Release, Standing};
use crate::say;
use minijinja::{AutoEscape, Environment};
use serde::Serialize;
use std::borrow::Cow;
use std::collections::BTreeMap;

const PAGE: &str = include_str!("../../templates/report.html");
const STYLE: &str = include_str!("../../templates/report.css");

/// A drawing that belongs to the report: title and file name beside the page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SheetLink {
    /// Title of the sheet.
    pub title: String,
    /// SVG file, relative to the page.
    pub file: String,
}

#[derive(Serialize)]
struct Page<'a> {
    language: &'a str,
    title: &'a str,
    style: &'a str,
    head: Vec<Field>,
    stamp: Stamp,
    words: BTreeMap<&'static str, Cow<'static, str>>,
    cautions: Vec<Cow<'static, str>>,
    sheets: &'a [SheetLink],
    findings: Vec<Finding<'a>>,
    deviations: Vec<String>,
    groups: Vec<Group>,
    given: &'a [Line],
    decided: &'a [Line],
    memory: Vec<String>,
    not_checked: Vec<String>,
}

#[derive(Serialize)]
struct Field {
    name: Cow<'static, str>,
    value: String,
}

#[derive(Serialize)]
struct Stamp {
    class: &'static str,
    word: Cow<'static, str>,
    counts: String,
}

#[derive(Serialize)]
struct Finding<'a> {
    class: &'static str,
    mark: &'static str,
    verdict: String,
    rule: &'a str,
    text: String,
    value: String,
    limit: String,
    changes: Vec<String>,
    source: String,
}

#[derive(Serialize)]
struct Group {
    title: Cow<'static, str>,
    quantities: Vec<Quantity>,
}

#[derive(Serialize)]
struct Quantity {
    id: String,
    name: String,
    value: String,
    unit: &'static str,
    inputs: String,
    source: String,
}

/// Writes the page.
///
/// # Errors
/// What the template engine objects to, which would be a defect of the template.
pub fn page(report: &Report, sheets: &[SheetLink], version: &str) -> Result<String, String> {
    let voice = &report.voice;
    let mut head: Vec<Field> = report.head.iter().map(|(name, value)| Field { name: voice.word(name), value: value.clone() }).collect();
    head.push(Field { name: voice.word("Spec hash"), value: report.spec_hash.clone() });
    head.push(Field { name: voice.word("Program"), value: format!("footwell {version}") });
    let page = Page {
        language: &report.language,
        title: &report.title,
        style: STYLE,
        head,
        stamp: stamp(report),
        words: WORDS.iter().map(|(key, english)| (*key, voice.word(english))).collect(),
        cautions: report.cautions.iter().map(|c| voice.word(c.text)).collect(),
        sheets,
        findings: findings(report),
        deviations: report.deviations.iter().map(|d| voice.say(d)).collect(),
        groups: groups(report),
        given: &report.inputs,
        decided: &report.defaults,
        memory: report.from_memory.iter().map(|s| voice.say(&s.said())).collect(),
        not_checked: not_checked(report),
    };
    let mut engine = Environment::new();
    engine.set_auto_escape_callback(|_| AutoEscape::Html);
    engine.set_keep_trailing_newline(true);
    engine.render_str(PAGE, page).map_err(|why| format!("report.html: {why}"))
}

fn stamp(report: &Report) -> Stamp {
    let class = match report.release {
        Release::NotForFabrication => "fail",
        Release::OpenWarnings => "warn",
        Release::DeviationsAccepted => "accepted",
        Release::NoObjection => "pass",
    };
    let counts = say!("{counts}. Approval is left to a person.", counts = report.counted());
    Stamp { class, word: report.voice.word(report.release.words()), counts: report.voice.say(&counts) }
}

fn findings(report: &Report) -> Vec<Finding<'_>> {
    let voice = &report.voice;
    let amount = |a: Option<say::Amount>| a.map_or_else(String::new, |a| voice.amount(a));
    let one = |f| {
        let f: &crate::rules::Finding = f;
        Finding {
            class: f.standing().word(),
            mark: mark(f.standing()),
            verdict: voice.say(&standing(f)),
            rule: f.rule,
            text: match &f.accepted {
                Some(accepted) => voice.say(&say!("{found}; {accepted}", found = f.message.clone(), accepted = accepted.said())),
                None => voice.say(&f.message),
            },
            value: amount(f.value),
            limit: amount(f.limit),
            changes: f.would_pass.iter().map(|c| c.line_for(voice)).collect(),
            source: voice.say(&f.source.said()),
        }
    };
    report.findings.iter().map(one).collect()
}

const fn mark(standing: Standing) -> &'static str {
    match standing {
        Standing::Pass => "✓",
        Standing::Note => "·",
        Standing::Accepted => "±",
        Standing::Warn => "!",
        Standing::Fail => "✗",
    }
}

fn groups(report: &Report) -> Vec<Group> {
    let voice = &report.voice;
    let one = |q: &crate::analysis::Quantity| {
        let (value, unit) = voice.figure_and_unit(say::measured(q.value, q.unit));
        Quantity { id: q.id.clone(), name: voice.say(&q.name), value, unit, inputs: q.inputs.join(", "), source: voice.say(&q.source.said()) }
    };
    report.groups.iter().map(|g| Group { title: voice.word(g.title), quantities: g.quantities.iter().map(one).collect() }).collect()
}

/// What the program does not check, then the rules that had nothing to say.
pub(super) fn not_checked(report: &Report) -> Vec<String> {
    let voice = &report.voice;
    let silent =
        report.silent_rules.iter().map(|(id, title)| voice.say(&say!("Rule {rule} ({title}) does not apply here.", rule = say::name(id), title = *title)));
    NOT_CHECKED.iter().map(|line| voice.word(line).to_string()).chain(silent).collect()
}
