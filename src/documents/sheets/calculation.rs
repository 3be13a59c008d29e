//! Calculation and rule sheet: what was computed and from what, and what every rule found.
//!
//! Tables only; figures come from the results and findings as they are, with their sources.

use super::{Job, notes};
use crate::documents::mark::Align;
use crate::documents::notes::Notes;
use crate::documents::sheet::SheetPlan;
use crate::documents::table::Table;
use crate::rules::finding::Amount;

/// Rows of one table before it is continued beside or below.
const ROWS: usize = 24;

/// The sheet.
pub fn plan(job: &Job<'_>) -> SheetPlan {
    let mut sheet = SheetPlan::new("calc", "CALCULATION AND RULES", "Calculation");
    sheet.description = job.say("Computed quantities with their sources and the outcome of every rule.");
    for t in findings(job) {
        sheet.table(t);
    }
    for t in quantities(job) {
        sheet.table(t);
    }
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

fn findings(job: &Job<'_>) -> Vec<Table> {
    let all = &job.findings.items;
    let pieces = all.chunks(ROWS).enumerate();
    pieces
        .map(|(i, part)| {
            let mut t = Table::new(format!("findings-{}", i + 1), if i == 0 { "RULES" } else { "RULES, CONTINUED" })
                .column("Rule", Align::Left, 40.0)
                .column("Verdict", Align::Left, 16.0)
                .column("Value", Align::Right, 24.0)
                .column("Limit", Align::Right, 24.0)
                .column("Finding", Align::Left, 120.0)
                .column("Would pass", Align::Left, 52.0)
                .column("Source", Align::Left, 60.0);
            for f in part {
                let change: Vec<String> = f.would_pass.iter().map(|c| c.line()).collect();
                t.row([f.rule.to_string(), job.say(f.verdict.word()), amount(job, f.value), amount(job, f.limit), f.message.clone(), change.join("; "), f.source.label()]);
            }
            t
        })
        .collect()
}

fn quantities(job: &Job<'_>) -> Vec<Table> {
    job.results
        .quantities
        .chunks(ROWS + ROWS / 2)
        .enumerate()
        .map(|(i, part)| {
            let mut t = Table::new(format!("quantities-{}", i + 1), if i == 0 { "RESULTS" } else { "RESULTS, CONTINUED" })
                .column("Quantity", Align::Left, 90.0)
                .column("Value", Align::Right, 34.0)
                .column("Source", Align::Left, 90.0);
            for q in part {
                t.row([q.name.clone(), amount(job, Some(Amount { value: q.value, unit: q.unit })), q.source.label()]);
            }
            t
        })
        .collect()
}
