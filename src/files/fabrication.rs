//! What the fabricator gets: a cutting file for each plate, the lists as CSV, the manifest as JSON too.
//!
//! In: a subject. Out: files for the folders `plates/` and `lists/`, and what cannot be made as the
//! spec asks, one sentence each.

use super::OutputFile;
use crate::export;
use crate::lists;
use crate::lists::{cutting, retold};
use crate::paper::cut_plate::CutFormat;
use crate::sheets::Subject;
use crate::spec::fabrication::CutProfile;
use serde_json::{Map, Value};

/// Cutting files and lists of a job, with the defects found on the way.
///
/// # Errors
/// A plain sentence when a file cannot be written truthfully, which is a defect of the program.
pub fn files(subject: &Subject<'_>) -> Result<(Vec<OutputFile>, Vec<String>), String> {
    let parts = subject.parts;
    let format = match subject.spec.fabrication.profile.value {
        CutProfile::Polylines => CutFormat::Polylines,
        CutProfile::LinesAndArcs => CutFormat::LinesAndArcs,
        CutProfile::R12 => CutFormat::R12,
    };
    let plates = export::cutting::files(&cutting::cut_plates(parts), format).map_err(|why| format!("cutting files: {why}"))?;
    let mut files: Vec<OutputFile> = plates.into_iter().map(|f| OutputFile { path: format!("plates/{}", f.name), bytes: f.bytes }).collect();
    let style = subject.style();
    for list in lists::all_to(parts, retold::finer(style)) {
        let list = retold::list(list, style);
        let stem = list.title.to_lowercase().replace(' ', "_");
        let csv = export::csv::table(&stem, &list.heads, &list.rows).map_err(|why| why.to_string())?;
        files.push(OutputFile { path: format!("lists/{}", csv.name), bytes: csv.bytes });
    }
    let manifest = lists::manifest(parts);
    let rows: Vec<Map<String, Value>> = manifest
        .rows
        .iter()
        .map(|row| manifest.heads.iter().zip(row).map(|(head, cell)| ((*head).to_string(), Value::String(cell.clone()))).collect())
        .collect();
    let json = export::json::value("cutting_manifest", &rows).map_err(|why| why.to_string())?;
    files.push(OutputFile { path: format!("lists/{}", json.name), bytes: json.bytes });
    let defects = parts.defects.iter().map(|d| if d.item == 0 { d.what.clone() } else { format!("item {}: {}", d.item, d.what) }).collect();
    Ok((files, defects))
}
