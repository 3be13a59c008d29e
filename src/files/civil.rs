//! Files for the civil engineer: support loads, quantities, the bend-pulley comparison, checks of the pit.
//!
//! In: a subject. Out: CSV tables in SI units and `checks.json` with the findings about the pit.
//! Values are not rounded beyond a tenth of the last figure that the sheets print.

use super::OutputFile;
use crate::export::{self, ExportError, File};
use crate::rules::{Counts, Findings, Verdict};
use crate::sheets::Subject;

/// `loads.csv`, `quantities.csv` where there is a pit, `comparison.csv` where the question arises.
///
/// # Errors
/// A plain sentence when a table cannot be written.
pub fn files(subject: &Subject<'_>) -> Result<Vec<OutputFile>, String> {
    let mut all = vec![loads(subject)];
    all.extend(quantities(subject));
    all.extend(comparison(subject));
    all.into_iter().map(|f| f.map(|f| OutputFile { path: f.name, bytes: f.bytes }).map_err(|why| why.to_string())).collect()
}

fn text(value: f64, decimals: usize) -> String {
    let shown = format!("{value:.decimals$}");
    // Minus nought is nought.
    if shown.trim_start_matches('-').chars().all(|c| matches!(c, '0' | '.')) { shown.trim_start_matches('-').to_string() } else { shown }
}

/// Every case on every pad of every elevator, and its sum; positions from the setting-out point.
fn loads(subject: &Subject<'_>) -> Result<File, ExportError> {
    let heading =
        ["case", "words", "elevator", "pad", "x mm", "y mm", "vertical kN (+ down)", "horizontal kN (+ toward up side)", "horizontal in any direction kN"];
    let (count, pitch) = subject.foot.pit.as_ref().map_or((1, 0.0), |p| (p.elevators, p.pitch));
    let mut rows = Vec::new();
    let voice = subject.voice();
    for case in &subject.results.loads.cases {
        for elevator in 0..count {
            let number = (elevator + 1).to_string();
            for load in &case.pads {
                let Some(pad) = subject.foot.base.pads.iter().find(|p| p.name == load.pad) else { continue };
                let y = pad.anchor.y - f64::from(elevator) * pitch;
                rows.push(vec![
                    case.id.to_string(),
                    voice.word(case.name).to_string(),
                    number.clone(),
                    load.pad.to_string(),
                    text(pad.anchor.x, 1),
                    text(y, 1),
                    text(load.vertical_kn, 3),
                    text(load.horizontal_kn, 3),
                    String::new(),
                ]);
            }
            rows.push(vec![
                case.id.to_string(),
                voice.word(case.name).to_string(),
                number,
                "sum".to_string(),
                String::new(),
                String::new(),
                text(case.vertical_kn, 3),
                text(case.horizontal_kn, 3),
                text(case.any_direction_kn, 3),
            ]);
        }
    }
    export::csv::table("loads", &heading, &rows)
}

/// The pit's numbers with what they come from.
fn quantities(subject: &Subject<'_>) -> Option<Result<File, ExportError>> {
    subject.foot.pit.as_ref()?;
    let voice = subject.voice();
    let rows: Vec<Vec<String>> = subject
        .quantities
        .iter()
        .filter(|q| q.id.starts_with("pit."))
        .map(|q| vec![q.id.clone(), voice.say(&q.name), text(q.value, 4), q.unit.symbol().to_string(), voice.say(&q.source.said()), q.inputs.join(" ")])
        .collect();
    Some(export::csv::table("quantities", &["id", "what", "value", "unit", "measured by", "from"], &rows))
}

fn comparison(subject: &Subject<'_>) -> Option<Result<File, ExportError>> {
    let comparison = subject.comparison?;
    let voice = subject.voice();
    let shown = |v: Option<f64>| v.map_or_else(String::new, |v| text(v, 4));
    let rows: Vec<Vec<String>> = comparison
        .rows
        .iter()
        .map(|r| {
            vec![
                r.id.to_string(),
                voice.word(r.name).to_string(),
                r.unit.symbol().to_string(),
                shown(r.without_bend),
                shown(r.with_bend),
                shown(r.difference()),
                voice.say(&r.source.said()),
            ]
        })
        .collect();
    Some(export::csv::table("comparison", &["id", "what", "unit", "without bend pulley", "with bend pulley", "difference", "source"], &rows))
}

/// `checks.json` of the pit alone: findings about keys of `[pit]` or by rules of the pit.
///
/// # Errors
/// A plain sentence when it cannot be written as JSON.
pub fn checks(subject: &Subject<'_>) -> Result<OutputFile, String> {
    let items: Vec<_> = subject.findings.items.iter().filter(|f| f.rule.starts_with("pit-") || f.path.starts_with("pit.")).cloned().collect();
    let count = |v: Verdict| items.iter().filter(|f| f.verdict == v).count();
    let about_pit = Findings {
        counts: Counts { pass: count(Verdict::Pass), note: count(Verdict::Note), warn: count(Verdict::Warn), fail: count(Verdict::Fail) },
        failed: subject.findings.failed.iter().copied().filter(|id| items.iter().any(|f| f.rule == *id && f.verdict == Verdict::Fail)).collect(),
        not_applicable: subject.findings.not_applicable.iter().copied().filter(|id| id.starts_with("pit-")).collect(),
        survey: subject.findings.survey,
        items,
    };
    let json = about_pit.to_json(&subject.spec.voice()).map_err(|why| format!("checks.json: {why}"))?;
    Ok(OutputFile { path: "checks.json".into(), bytes: json.into_bytes() })
}
