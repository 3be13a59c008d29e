//! Files for the civil engineer: support loads, quantities, the bend-pulley comparison, checks of the pit.
//!
//! In: a subject. Out: CSV tables in the language and units of the job, with a decimal point, and `checks.json` with the
//! findings about the pit. Values are not rounded beyond a tenth of the last figure that the sheets print.

use super::OutputFile;
use crate::export;
use crate::lists::{List, civil};
use crate::rules::Findings;
use crate::sheets::Subject;

/// `loads.csv` and `actions.csv`, `quantities.csv` where there is a pit, `comparison.csv` where the question arises.
///
/// # Errors
/// A plain sentence when a table cannot be written.
pub fn files(subject: &Subject<'_>) -> Result<Vec<OutputFile>, String> {
    let written = |list: List| -> Result<OutputFile, String> {
        let printed = list.printed_for_programs(subject.voice());
        let file = export::csv::table(list.id, &printed.heads, &printed.rows).map_err(|why| why.to_string())?;
        Ok(OutputFile { path: file.name, bytes: file.bytes })
    };
    let (foot, loads) = (subject.foot, &subject.results.loads);
    let lists = [
        Some(civil::loads(foot, loads)),
        Some(civil::actions(foot, loads)),
        civil::quantities(foot, subject.quantities),
        subject.comparison.map(civil::comparison),
    ];
    lists.into_iter().flatten().map(written).collect()
}

/// `checks.json` of the pit alone: findings about keys of `[pit]` or by rules of the pit.
///
/// # Errors
/// A plain sentence when it cannot be written as JSON.
pub fn checks(subject: &Subject<'_>) -> Result<OutputFile, String> {
    let items: Vec<_> = subject.findings.items.iter().filter(|f| f.about_pit()).cloned().collect();
    let not_applicable = subject.findings.not_applicable.iter().copied().filter(|id| id.starts_with("pit-")).collect();
    let about_pit = Findings::counted(items, not_applicable, subject.findings.survey);
    let json = about_pit.to_json(subject.voice()).map_err(|why| format!("checks.json: {why}"))?;
    Ok(OutputFile { path: "checks.json".into(), bytes: json.into_bytes() })
}
