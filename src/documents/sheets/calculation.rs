//! Calculation and rule sheet: what was computed and from what, and what every rule found.
//!
//! Tables only; figures come from the results and findings as they are, with their sources.

use super::{Job, notes};
use crate::documents::mark::Align;
use crate::documents::notes::Notes;
use crate::documents::sheet::SheetPlan;
use crate::documents::table::Table;
use crate::rules::{Amount, Verdict};

/// Quantities that stand in tables of other sheets.
const ELSEWHERE: [&str; 2] = ["path.", "clearance"];

/// The sheet.
pub fn plan(job: &Job<'_>) -> SheetPlan {
    let mut sheet = SheetPlan::new("calc", "CALCULATION AND RULES", "Calculation");
    sheet.description = job.say("Computed quantities with their sources and the outcome of every rule.");
    sheet.table(findings(job));
    sheet.table(quantities(job));
    let mut sources = Notes::plain("sources", "ON SOURCES", [job.say("[law] regulation, [std] standard, [book] handbook, [physics] derived here, common practice: no published source. \"From memory\" was not read again; check before relying on it.")]);
    sources.width = 160.0;
    sheet.note(sources);
    sheet.note(notes::cautions(job));
    sheet
}

fn amount(job: &Job<'_>, a: Option<Amount>) -> String {
    a.map_or_else(|| "–".into(), |a| {
        if a.unit == "mm" { return job.mm(a.value) }
        let decimals = if a.value.abs() >= 100.0 { 0 } else if a.value.abs() >= 10.0 { 1 } else { 2 };
        format!("{} {}", job.number(a.value, decimals), a.unit).trim_end().to_string()
    })
}

/// Every rule; several passes of one rule share a row, anything else has its own.
fn findings(job: &Job<'_>) -> Table {
    let mut t = Table::new("findings", "RULES")
        .column("Rule", Align::Left, 44.0)
        .column("Verdict", Align::Left, 20.0)
        .column("Value", Align::Right, 24.0)
        .column("Limit", Align::Right, 24.0)
        .column("Finding", Align::Left, 120.0)
        .column("Source", Align::Left, 90.0);
    let mut passed: Vec<&str> = Vec::new();
    for f in &job.findings.items {
        let mut message = f.message.clone();
        if f.verdict == Verdict::Pass {
            if passed.contains(&f.rule) {
                continue;
            }
            passed.push(f.rule);
            let alike = job.findings.items.iter().filter(|o| o.rule == f.rule && o.verdict == Verdict::Pass).count();
            if alike > 1 {
                message = format!("{message} {}", job.tell("(and {} more)", &[&(alike - 1).to_string()]));
            }
        }
        let changes: Vec<String> = f.would_pass.iter().map(|c| c.line()).collect();
        if !changes.is_empty() {
            message = format!("{message}; {}", job.tell("would pass: {}", &[&changes.join(", ")]));
        }
        t.row([f.rule.to_string(), job.say(f.verdict.word()), amount(job, f.value), amount(job, f.limit), message, f.source.label()]);
    }
    t
}

/// The computed quantities that no other sheet tabulates.
fn quantities(job: &Job<'_>) -> Table {
    let mut t = Table::new("quantities", "RESULTS").column("Quantity", Align::Left, 90.0).column("Value", Align::Right, 30.0).column("Source", Align::Left, 110.0);
    for q in job.results.quantities.iter().filter(|q| !ELSEWHERE.iter().any(|e| q.id.starts_with(e))) {
        t.row([q.name.clone(), amount(job, Some(Amount { value: q.value, unit: q.unit })), q.source.label()]);
    }
    t
}
