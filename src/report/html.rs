//! The report as one self-contained HTML page: prints well, follows dark mode on screen, needs no network.
//!
//! The page is `templates/report.html`; here its texts are said in the job's voice and handed over. Its first part is what
//! `first_page` chooses, the rest is folded. Verdicts are told apart by word and mark, not by colour alone. Sheets are linked and
//! shown in part, not repeated; a source is said once, in a list at the end, and named by its number.

use super::first_page::{self, Of};
use super::{Line, NOT_CHECKED, Report, WORDS, standing};
use crate::rules::{Release, Standing};
use crate::say;
use minijinja::{AutoEscape, Environment};
use serde::Serialize;
use std::borrow::Cow;
use std::collections::BTreeMap;

const PAGE: &str = include_str!("../../templates/report.html");
const STYLE: &str = include_str!("../../templates/report.css");

/// A drawing that belongs to the report: title, file names beside the page, where its views stand.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetLink {
    /// Id of the sheet.
    pub id: String,
    /// Title of the sheet.
    pub title: String,
    /// SVG file, relative to the page.
    pub file: String,
    /// DXF file, relative to the page, where one was made.
    pub dxf: Option<String>,
    /// Views of the sheet.
    pub views: Vec<ViewBox>,
}

/// Where a view stands on a sheet's SVG, mm from the upper left corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ViewBox {
    /// Id of the view.
    pub id: String,
    /// Title of the view.
    pub title: String,
    /// Left edge, upper edge, width, height.
    pub at: [f64; 4],
}

/// What stands beside the page in the output folder.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Beside {
    /// The sheets, when SVG files of them were made.
    pub sheets: Vec<SheetLink>,
    /// Other files that people open, relative to the page.
    pub files: Vec<String>,
}

#[derive(Serialize)]
struct Page<'a> {
    language: &'a str,
    title: &'a str,
    style: &'a str,
    paper: &'static str,
    running: String,
    head: Vec<Field>,
    stamp: Stamp,
    words: BTreeMap<&'static str, Cow<'static, str>>,
    headlines: Vec<Field>,
    open: Vec<Finding<'a>>,
    decided_count: String,
    assumed: Vec<&'a Line>,
    chain: Vec<Step>,
    figures: Vec<Figure<'a>>,
    cautions: Vec<Cow<'static, str>>,
    sheets: &'a [SheetLink],
    files: &'a [String],
    findings: Vec<Finding<'a>>,
    deviations: Vec<String>,
    groups: Vec<Group>,
    given: &'a [Line],
    decided: Vec<Decided<'a>>,
    sources: Vec<String>,
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

/// A step of the chain of capacities: how much it lets through, percent of the largest for the length of its bar.
#[derive(Serialize)]
struct Step {
    name: Cow<'static, str>,
    value: String,
    share: f64,
    least: bool,
}

#[derive(Serialize)]
struct Figure<'a> {
    title: &'a str,
    sheet: &'a str,
    file: &'a str,
    at: [f64; 4],
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
    source: usize,
}

#[derive(Serialize)]
struct Group {
    id: String,
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
    source: usize,
}

#[derive(Serialize)]
struct Decided<'a> {
    line: &'a Line,
    source: usize,
}

/// Sources in the order in which they are first named, each with its number from 1.
#[derive(Default)]
struct Sources(Vec<String>);

impl Sources {
    fn number(&mut self, said: String) -> usize {
        let at = self.0.iter().position(|known| *known == said).unwrap_or_else(|| {
            self.0.push(said);
            self.0.len() - 1
        });
        at + 1
    }
}

/// Writes the page.
///
/// # Errors
/// What the template engine objects to, which would be a defect of the template.
pub fn page(report: &Report, beside: &Beside, version: &str) -> Result<String, String> {
    let voice = &report.voice;
    let mut head: Vec<Field> = report.head.iter().map(|(name, value)| Field { name: voice.word(name), value: value.clone() }).collect();
    head.push(Field { name: voice.word("Spec hash"), value: report.spec_hash.clone() });
    head.push(Field { name: voice.word("Program"), value: format!("footwell {version}") });
    let mut sources = Sources::default();
    let open = first_page::open(&report.findings).into_iter().map(|f| finding(report, f, &mut sources)).collect();
    let findings = report.findings.iter().map(|f| finding(report, f, &mut sources)).collect();
    let groups = groups(report, &mut sources);
    let decided = report.defaults.iter().map(|line| Decided { line, source: sources.number(line.source.clone()) }).collect();
    let page = Page {
        language: &report.language,
        title: &report.title,
        style: STYLE,
        paper: if voice.customary() { "letter" } else { "A4" },
        running: css_text(&running(report)),
        head,
        stamp: stamp(report),
        words: WORDS.iter().map(|(key, english)| (*key, voice.word(english))).collect(),
        headlines: headlines(report),
        open,
        decided_count: voice.say(&say!(
            "{given} keys are given, {decided} were decided by rule. Of those that much hangs on:",
            given = report.inputs.len(),
            decided = report.defaults.len()
        )),
        assumed: first_page::assumed(&report.defaults),
        chain: chain(report),
        figures: figures(beside),
        cautions: report.cautions.iter().map(|c| voice.word(c.text)).collect(),
        sheets: &beside.sheets,
        files: &beside.files,
        findings,
        deviations: report.deviations.iter().map(|d| voice.say(d)).collect(),
        groups,
        given: &report.inputs,
        decided,
        sources: sources.0,
        memory: report.from_memory.iter().map(|s| voice.say(&s.said())).collect(),
        not_checked: not_checked(report),
    };
    let mut engine = Environment::new();
    engine.set_auto_escape_callback(|_| AutoEscape::Html);
    engine.set_keep_trailing_newline(true);
    engine.render_str(PAGE, page).map_err(|why| format!("report.html: {why}"))
}

/// What stands at the foot of every printed page: title, number, revision, date, hash, stamp.
fn running(report: &Report) -> String {
    let field = |name: &str| report.head.iter().find(|h| h.0 == name).map(|h| h.1.clone()).unwrap_or_default();
    let stamp = report.voice.word(report.release.words());
    let parts = [report.title.clone(), field("Number"), field("Revision"), field("Date"), report.spec_hash.clone(), stamp.into()];
    parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// A text as the inside of a string of a style sheet: all but letters and digits as their code points.
fn css_text(text: &str) -> String {
    text.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_string() } else { format!("\\{:06x}", u32::from(c)) }).collect()
}

fn headlines(report: &Report) -> Vec<Field> {
    let voice = &report.voice;
    let value = |of: Of| match of {
        Of::Result(id) => first_page::result(&report.groups, id).map(|q| voice.amount(say::measured(q.value, q.unit))),
        Of::Key(path) => report.inputs.iter().chain(&report.defaults).find(|l| l.path == path).map(|l| l.value.clone()),
    };
    first_page::HEADLINES.iter().filter_map(|(of, name)| Some(Field { name: voice.word(name), value: value(*of)? })).collect()
}

fn chain(report: &Report) -> Vec<Step> {
    let found: Vec<_> = first_page::CHAIN.iter().filter_map(|(id, name)| Some((first_page::result(&report.groups, id)?, *name))).collect();
    let most = found.iter().map(|(q, _)| q.value).fold(1e-9, f64::max);
    let least = found.iter().map(|(q, _)| q.value).fold(f64::INFINITY, f64::min);
    let step = |(q, name): &(&crate::analysis::Quantity, &'static str)| Step {
        name: report.voice.word(name),
        value: report.voice.amount(say::measured(q.value, q.unit)),
        share: (q.value / most * 1000.0).round() / 10.0,
        least: q.value <= least,
    };
    found.iter().map(step).collect()
}

fn figures(beside: &Beside) -> Vec<Figure<'_>> {
    let figure = |(sheet, view): &(&str, &str)| {
        let same = |s: &&SheetLink| s.id == *sheet || s.id.strip_prefix(sheet).is_some_and(|rest| rest.starts_with('-'));
        let (link, view) = beside.sheets.iter().filter(same).find_map(|s| Some((s, s.views.iter().find(|v| v.id == *view)?)))?;
        Some(Figure { title: &view.title, sheet: &link.title, file: &link.file, at: view.at })
    };
    first_page::FIGURES.iter().filter_map(figure).collect()
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

fn finding<'a>(report: &Report, f: &'a crate::rules::Finding, sources: &mut Sources) -> Finding<'a> {
    let voice = &report.voice;
    let amount = |a: Option<say::Amount>| a.map_or_else(String::new, |a| voice.amount(a));
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
        source: sources.number(voice.say(&f.source.said())),
    }
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

fn groups(report: &Report, sources: &mut Sources) -> Vec<Group> {
    let voice = &report.voice;
    let mut one = |q: &crate::analysis::Quantity| {
        let (value, unit) = voice.figure_and_unit(say::measured(q.value, q.unit));
        let source = sources.number(voice.say(&q.source.said()));
        Quantity { id: q.id.clone(), name: voice.say(&q.name), value, unit, inputs: q.inputs.join(", "), source }
    };
    report.groups.iter().map(|g| Group { id: g.id.clone(), title: voice.word(g.title), quantities: g.quantities.iter().map(&mut one).collect() }).collect()
}

/// What the program does not check, then the rules that had nothing to say.
pub(super) fn not_checked(report: &Report) -> Vec<String> {
    let voice = &report.voice;
    let silent =
        report.silent_rules.iter().map(|(id, title)| voice.say(&say!("Rule {rule} ({title}) does not apply here.", rule = say::name(id), title = *title)));
    NOT_CHECKED.iter().map(|line| voice.word(line).to_string()).chain(silent).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::job::Job;

    fn of(text: &str) -> String {
        page(&Job::of(text).unwrap().report(), &Beside::default(), "0").unwrap()
    }

    /// What stands after each occurrence of a text, up to a quotation mark.
    fn after<'a>(page: &'a str, text: &str) -> Vec<&'a str> {
        page.match_indices(text).filter_map(|(at, _)| page[at + text.len()..].split('"').next()).collect()
    }

    #[test]
    fn every_link_within_the_page_leads_somewhere() {
        let page = of(include_str!("../../templates/survey.toml"));
        let ids = after(&page, " id=\"");
        let links = after(&page, "href=\"#");
        assert!(links.len() > 500, "{} links", links.len());
        for link in links {
            assert!(ids.contains(&link), "#{link} leads nowhere");
        }
    }

    #[test]
    fn a_source_is_said_once() {
        let page = of(include_str!("../../templates/grain_intake.toml"));
        let list = page.split("<details id=\"sources\"").nth(1).unwrap().split("</details>").next().unwrap();
        let mut said: Vec<&str> = list.lines().filter(|l| l.starts_with("<li")).filter_map(|l| l.split_once('>').map(|(_, said)| said)).collect();
        let all = said.len();
        said.sort_unstable();
        said.dedup();
        assert_eq!(said.len(), all);
    }

    /// Text of the spec becomes neither markup nor style.
    #[test]
    fn a_hostile_title_stays_a_text() {
        let hostile = r#"title = "\";}</style><script>""#;
        let text = include_str!("../../templates/grain_intake.toml");
        let line = text.lines().find(|l| l.trim_start().starts_with("title")).unwrap();
        let page = of(&text.replace(line, hostile));
        assert!(!page.contains("<script"));
        assert_eq!(page.matches("</style>").count(), 1);
        assert_eq!(css_text("a\";}\\<"), "a\\000022\\00003b\\00007d\\00005c\\00003c");
    }
}
