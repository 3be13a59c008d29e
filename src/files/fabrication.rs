//! What the fabricator gets: a cutting file for each plate, the lists as CSV, the manifest as JSON too.
//!
//! In: a subject. Out: files for the folders `plates/` and `lists/`, and what cannot be made as the
//! spec asks, one sentence each.

use super::OutputFile;
use crate::export;
use crate::lists;
use crate::lists::cutting;
use crate::paper::cut_plate::CutFormat;
use crate::parts::Defect;
use crate::say;
use crate::sheets::Subject;
use crate::spec::fabrication::CutProfile;

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
    let voice = subject.voice();
    let plates = export::cutting::files(&cutting::cut_plates(parts, voice), format).map_err(|why| format!("cutting files: {why}"))?;
    let mut files: Vec<OutputFile> = plates.into_iter().map(|f| OutputFile { path: format!("plates/{}", f.name), bytes: f.bytes }).collect();
    for list in lists::all(parts) {
        let printed = list.printed_for_programs(voice);
        let csv = export::csv::table(list.id, &printed.heads, &printed.rows).map_err(|why| why.to_string())?;
        files.push(OutputFile { path: format!("lists/{}", csv.name), bytes: csv.bytes });
    }
    let manifest = lists::manifest(parts);
    let json = export::json::value(manifest.id, &manifest.objects(voice)).map_err(|why| why.to_string())?;
    files.push(OutputFile { path: format!("lists/{}", json.name), bytes: json.bytes });
    let defect = |d: &Defect| if d.item == 0 { d.what.clone() } else { say!("item {item}: {what}", item = d.item, what = d.what.clone()) };
    let defects = parts.defects.iter().map(|d| voice.say(&defect(d))).collect();
    Ok((files, defects))
}
