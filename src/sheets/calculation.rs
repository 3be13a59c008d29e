//! Calculation and rule sheet: what was computed and from what, and what every rule found.
//!
//! Tables only; figures come from the results and findings as they are, with their sources.

use super::{Subject, notes};
use crate::paper::mark::Align;
use crate::paper::notes::Notes;
use crate::paper::sheet::SheetPlan;
use crate::paper::table::Table;
use crate::rules::{Finding, Standing, Verdict};
use crate::say;
use crate::say::{Amount, name, number};
use crate::units::Unit;

/// Quantities that stand in tables of other sheets.
const ELSEWHERE: [&str; 4] = ["path.", "clearance", "loads.", "pit."];

/// Sources cited on the sheet, numbered as they come.
#[derive(Default)]
struct Sources {
    labels: Vec<String>,
}

impl Sources {
    /// The number of a source in brackets.
    fn number(&mut self, label: String) -> String {
        let at = self.labels.iter().position(|l| *l == label).unwrap_or_else(|| {
            self.labels.push(label);
            self.labels.len() - 1
        });
        format!("[{}]", at + 1)
    }
}

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Computed quantities with their sources and the outcome of every rule.");
    let mut cited = Sources::default();
    sheet.table(findings(subject, &mut cited));
    sheet.table(quantities(subject, &mut cited));
    let mut sources = Table::new("sources", "SOURCES").column("No.", Align::Left, 14.0).column("Source", Align::Left, 150.0);
    for (i, label) in cited.labels.iter().enumerate() {
        sources.row([format!("[{}]", i + 1), label.clone()]);
    }
    sheet.table(sources);
    let lines = vec![subject.say("[law] regulation, [std] standard, [book] handbook, [physics] derived here, common practice: no published source. \"From memory\" was not read again; check before relying on it.")];
    let mut about = Notes::plain("sources-note", "ON SOURCES", lines);
    about.width = 160.0;
    sheet.note(about);
    sheet.note(notes::cautions(subject));
    sheet.notes.extend(notes::deviations(subject));
    sheet
}

fn amount(subject: &Subject<'_>, a: Option<Amount>) -> String {
    match a {
        None => "–".into(),
        Some(a) if a.unit == Unit::Degree => number::angle(a.value, None, subject.style()),
        Some(a) => figure(subject, a.value, a.unit),
    }
}

fn figure(subject: &Subject<'_>, value: f64, unit: Unit) -> String {
    if unit == Unit::Mm {
        return subject.mm(value);
    }
    let decimals = match value.abs() {
        v if v >= 100.0 || v == 0.0 => 0,
        v if v >= 10.0 => 1,
        v if v >= 0.1 => 2,
        // Slopes of a shaft and the like: three figures that count.
        v => (2.0 - v.log10().floor()).clamp(2.0, 8.0) as usize,
    };
    match unit {
        _ if subject.us() && unit.customary().is_some() => subject.voice().amount(say::amount(value, unit, 0)),
        Unit::One => subject.number(value, decimals),
        _ => format!("{} {}", subject.number(value, decimals), unit.symbol()),
    }
}

/// How a finding counts; behind what is accepted stands what its rule says.
fn standing(subject: &Subject<'_>, f: &Finding) -> String {
    match f.standing() {
        Standing::Accepted => subject.say(say!("{standing} ({verdict})", standing = Standing::Accepted.word(), verdict = f.verdict.word())),
        other => subject.say(other.word()),
    }
}

/// Every rule; several passes of one rule share a row, anything else has its own.
fn findings(subject: &Subject<'_>, cited: &mut Sources) -> Table {
    let mut t = Table::new("findings", "RULES")
        .column("Rule", Align::Left, 44.0)
        .column("Verdict", Align::Left, 20.0)
        .column("Value", Align::Right, 24.0)
        .column("Limit", Align::Right, 24.0)
        .column("Finding", Align::Left, 150.0)
        .column("Source", Align::Left, 18.0);
    let mut passed: Vec<&str> = Vec::new();
    for f in &subject.findings.items {
        let mut message = subject.said(&f.message);
        if f.verdict == Verdict::Pass {
            if passed.contains(&f.rule) {
                continue;
            }
            passed.push(f.rule);
            let alike = subject.findings.items.iter().filter(|o| o.rule == f.rule && o.verdict == Verdict::Pass).count();
            if alike > 1 {
                message = format!("{message} {}", subject.say(say!("(and {alike} more)", alike = name((alike - 1).to_string()))));
            }
        }
        let changes: Vec<String> = f.would_pass.iter().map(|c| c.line_for(subject.voice())).collect();
        if !changes.is_empty() {
            message = format!("{message}; {}", subject.say(say!("would pass: {join}", join = name(changes.join(", ")))));
        }
        if let Some(accepted) = &f.accepted {
            message = format!("{message}; {}", subject.say(accepted.said()));
        }
        t.row([
            f.rule.to_string(),
            standing(subject, f),
            amount(subject, f.value),
            amount(subject, f.limit),
            message,
            cited.number(subject.say(f.source.said())),
        ]);
    }
    t
}

/// The computed quantities that no other sheet tabulates.
fn quantities(subject: &Subject<'_>, cited: &mut Sources) -> Table {
    let mut t =
        Table::new("quantities", "RESULTS").column("Quantity", Align::Left, 110.0).column("Value", Align::Right, 30.0).column("Source", Align::Left, 18.0);
    for q in subject.quantities.iter().filter(|q| !ELSEWHERE.iter().any(|e| q.id.starts_with(e))) {
        t.row([subject.said(&q.name), figure(subject, q.value, q.unit), cited.number(subject.say(q.source.said()))]);
    }
    t
}
