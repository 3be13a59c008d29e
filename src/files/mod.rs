//! What stands in an output folder: which sheets, tables, lists and texts, under which paths.
//!
//! In: a subject, its finished sheets in the formats asked for, its report. Out: files as bytes with their paths, and
//! what cannot be drawn or made as asked, one sentence each. Nothing here touches a disk.

pub mod civil;
pub mod drawings;
pub mod fabrication;
pub mod model;
pub mod output_file;
pub mod wish;

use crate::export::{self, File};
use crate::machine::Machine;
use crate::paper::sheet::Sheet;
use crate::report::{self, Report};
use crate::say;
use crate::sheets::{SheetSet, Subject};
pub use output_file::OutputFile;
pub use wish::{Format, Wish};

/// The files of an output folder.
#[derive(Debug)]
pub struct Files {
    /// The files, in no particular order.
    pub files: Vec<OutputFile>,
    /// Conflicts that the layout could not avoid and what cannot be made as the spec asks: defects of the program, or formats asked for that are too small.
    pub defects: Vec<String>,
}

/// All files of a set; `drawings` are the sheets as exported, `machine` its bodies where a model is wanted.
///
/// # Errors
/// A plain sentence when a file cannot be made, which is a defect of the program, or when there is nothing to draw.
pub fn all(subject: &Subject<'_>, report: &Report, wish: &Wish, sheets: &[Sheet], drawings: Vec<File>, machine: Option<&Machine>) -> Result<Files, String> {
    if wish.set == SheetSet::Civil && subject.foot.pit.is_none() {
        return Err("there is no pit to draw: the foot stands on the floor (pit.fitted = true asks for one)".into());
    }
    let mut defects = drawings::defects(sheets);
    let mut files: Vec<OutputFile> = drawings.into_iter().map(|f| OutputFile { path: format!("sheets/{}", f.name), bytes: f.bytes }).collect();
    files.extend(civil::files(subject)?);
    if wish.set == SheetSet::Civil {
        files.push(civil::checks(subject)?);
        let words = texts(&report.about_pit(), sheets, &files, wish)?;
        files.extend(words);
        return Ok(Files { files, defects });
    }
    if let Some(machine) = machine {
        files.push(model::file(machine, subject.voice(), &wish.options.set_stem)?);
        defects.extend(machine.bodiless.iter().map(|b| format!("defect of the program: {} has no body: {}", b.id, b.why)));
    }
    let (made, cannot_be_made) = fabrication::files(subject)?;
    files.extend(made);
    defects.extend(cannot_be_made.into_iter().map(|what| subject.say(say!("cannot be made as the spec asks: {what}", what = say::name(what)))));
    let checks = subject.findings.to_json(subject.voice()).map_err(|why| format!("checks.json: {why}"))?;
    let results = export::json::value("results", &subject.quantities).map_err(|why| why.to_string())?;
    let words = texts(report, sheets, &files, wish)?;
    files.extend(words);
    files.extend([text("checks.json", checks), OutputFile { path: results.name, bytes: results.bytes }]);
    Ok(Files { files, defects })
}

fn text(path: &str, text: String) -> OutputFile {
    OutputFile { path: path.into(), bytes: text.into_bytes() }
}

/// The report as a page and as text.
fn texts(report: &Report, sheets: &[Sheet], files: &[OutputFile], wish: &Wish) -> Result<[OutputFile; 2], String> {
    let beside = report::html::Beside { sheets: drawings::links(sheets, wish), files: drawings::to_open(files) };
    let page = report::html::page(report, &beside, env!("CARGO_PKG_VERSION"))?;
    Ok([text("report.html", page), text("report.txt", report::text::whole(report))])
}
