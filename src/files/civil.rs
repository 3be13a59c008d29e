//! Files for the civil engineer: support loads, quantities, the bend-pulley comparison, checks of the pit.
//!
//! In: a subject. Out: CSV tables in the language and units of the job, with a decimal point, and `checks.json` with the
//! findings about the pit. Values are not rounded beyond a tenth of the last figure that the sheets print.

use super::OutputFile;
use crate::analysis::Quantity;
use crate::comparison::Row;
use crate::export;
use crate::lists::list::{Cell, Head, List, unit_cell};
use crate::rules::{Counts, Findings, Verdict};
use crate::say;
use crate::say::{amount, mm};
use crate::sheets::Subject;
use crate::units::Unit;

/// `loads.csv`, `quantities.csv` where there is a pit, `comparison.csv` where the question arises.
///
/// # Errors
/// A plain sentence when a table cannot be written.
pub fn files(subject: &Subject<'_>) -> Result<Vec<OutputFile>, String> {
    let written = |list: List| -> Result<OutputFile, String> {
        let printed = list.printed_for_programs(subject.voice());
        let file = export::csv::table(list.id, &printed.heads, &printed.rows).map_err(|why| why.to_string())?;
        Ok(OutputFile { path: file.name, bytes: file.bytes })
    };
    [Some(loads(subject)), quantities(subject), comparison(subject)].into_iter().flatten().map(written).collect()
}

/// Every case on every pad of every elevator, and its sum; positions from the setting-out point.
fn loads(subject: &Subject<'_>) -> List {
    let (count, pitch) = subject.foot.pit.as_ref().map_or((1, 0.0), |p| (p.elevators, p.pitch));
    let kn = |value: f64| Cell::from(amount(value, Unit::Kn, 3));
    let mut rows = Vec::new();
    for case in &subject.results.loads.cases {
        for elevator in 0..count {
            let row = |pad: Cell, place: [Cell; 2], vertical: f64, horizontal: f64, any: Cell| {
                let [x, y] = place;
                vec![Cell::Name(case.id.to_string()), case.name.into(), (elevator + 1).into(), pad, x, y, kn(vertical), kn(horizontal), any]
            };
            for load in &case.pads {
                let Some(pad) = subject.foot.base.pads.iter().find(|p| p.name == load.pad) else { continue };
                let place = [mm(pad.anchor.x).into(), mm(pad.anchor.y - f64::from(elevator) * pitch).into()];
                rows.push(row(Cell::Name(load.pad.to_string()), place, load.vertical_kn, load.horizontal_kn, Cell::Blank));
            }
            rows.push(row("sum".into(), [Cell::Blank, Cell::Blank], case.vertical_kn, case.horizontal_kn, kn(case.any_direction_kn)));
        }
    }
    let heads = vec![
        Head::words("case"),
        Head::words("words"),
        Head::words("elevator"),
        Head::words("pad"),
        Head::new("x mm", say!("x {unit}", unit = Unit::Mm)),
        Head::new("y mm", say!("y {unit}", unit = Unit::Mm)),
        Head::new("vertical kN (+ down)", say!("vertical {unit} (+ down)", unit = Unit::Kn)),
        Head::new("horizontal kN (+ toward up side)", say!("horizontal {unit} (+ toward up side)", unit = Unit::Kn)),
        Head::new("horizontal in any direction kN", say!("horizontal in any direction {unit}", unit = Unit::Kn)),
    ];
    List { id: "loads", title: "Loads".into(), heads, rows, metric: false }
}

/// The pit's numbers with what they come from.
fn quantities(subject: &Subject<'_>) -> Option<List> {
    subject.foot.pit.as_ref()?;
    let row = |q: &Quantity| {
        let value = amount(q.value, q.unit, 4).into();
        vec![Cell::Name(q.id.clone()), q.name.clone().into(), value, unit_cell(q.unit), q.source.said().into(), Cell::Name(q.inputs.join(" "))]
    };
    let rows = subject.quantities.iter().filter(|q| q.id.starts_with("pit.")).map(row).collect();
    let heads = ["id", "what", "value", "unit", "measured by", "from"].map(Head::words).to_vec();
    Some(List { id: "quantities", title: "Quantities".into(), heads, rows, metric: false })
}

fn comparison(subject: &Subject<'_>) -> Option<List> {
    let comparison = subject.comparison?;
    let row = |r: &Row| {
        let shown = |v: Option<f64>| v.map_or(Cell::Blank, |v| amount(v, r.unit, 4).into());
        let (without, with, difference) = (shown(r.without_bend), shown(r.with_bend), shown(r.difference()));
        vec![Cell::Name(r.id.to_string()), r.name.into(), unit_cell(r.unit), without, with, difference, r.source.said().into()]
    };
    let heads = ["id", "what", "unit", "without bend pulley", "with bend pulley", "difference", "source"].map(Head::words).to_vec();
    Some(List { id: "comparison", title: "Comparison".into(), heads, rows: comparison.rows.iter().map(row).collect(), metric: false })
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
