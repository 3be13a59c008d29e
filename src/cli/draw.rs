//! `footwell draw`: everything that the program makes of a spec, into one folder.

use super::drawings::{DrawingOptions, Only, drawings};
use super::folder::{self, OutputFile};
use super::job::{Job, SpecFile};
use super::{Console, Outcome, civil, fabrication, messages};
use crate::{export, report};
use clap::Args;
use std::path::PathBuf;

/// Draw everything into a folder: sheets, report, results.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell draw grain_intake.toml                 into the folder grain_intake
  footwell draw grain_intake.toml -o out/intake
  footwell draw grain_intake.toml --only pit      for the civil engineer: pit, its checks, loads, quantities

The folder is written whole or not at all. If it exists it must be the program's own: files that the
program made before are replaced, all others are kept. Sheets of a spec whose rules fail are drawn too,
stamped NOT FOR FABRICATION.

Exit codes: 0 no rule fails, 1 the spec has errors or a rule fails, 2 could not run.")]
pub struct Draw {
    /// The spec (TOML)
    spec: PathBuf,
    /// Folder to write [default: the spec's name without its extension, with _pit for --only pit]
    #[arg(short, long, value_name = "DIR")]
    output: Option<PathBuf>,
    #[command(flatten)]
    drawing: DrawingOptions,
}

impl Draw {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        let file = match SpecFile::read(&self.spec) {
            Ok(file) => file,
            Err(why) => {
                console.tell(why);
                return Outcome::CannotRun;
            }
        };
        // A part of the set never takes the place of the whole one unasked.
        let end = if self.drawing.only == Some(Only::Pit) { "_pit" } else { "" };
        let folder = match self.output.or_else(|| self.spec.file_stem().map(|stem| PathBuf::from(format!("{}{end}", stem.to_string_lossy())))) {
            Some(folder) => folder,
            None => {
                console.tell("give a folder with -o");
                return Outcome::CannotRun;
            }
        };
        let job = match Job::prepare(&file.text) {
            Ok(job) => job,
            Err(problems) => {
                console.tell(messages::render(&problems, &file.name, &file.text, console.colour));
                return Outcome::Fails;
            }
        };
        if !job.warnings.items.is_empty() {
            console.tell(messages::render(&job.warnings, &file.name, &file.text, console.colour));
        }
        let stem = self.spec.file_stem().map_or_else(|| "drawings".into(), |s| s.to_string_lossy().into_owned());
        let written = files_of(&job, &stem, &self.drawing, console).and_then(|files| folder::write(&folder, &files).map(|()| files.len()));
        match written {
            Ok(count) => {
                console.say(format_args!("wrote {count} files to {}\n{}", folder.display(), job.findings.stamp()));
                job.outcome()
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        }
    }
}

/// The files of a job.
///
/// # Errors
/// A plain sentence when a file cannot be made, which is a defect of the program.
fn files_of(job: &Job, stem: &str, options: &DrawingOptions, console: &mut Console<'_>) -> Result<Vec<OutputFile>, String> {
    let drawn = drawings(job, stem, options)?;
    for defect in &drawn.defects {
        console.tell(defect);
    }
    if options.only == Some(Only::Pit) {
        if job.foot.pit.is_none() {
            return Err("there is no pit to draw: the foot stands on the floor (pit.fitted = true asks for one)".into());
        }
        let mut files = drawn.files;
        files.extend(civil::files(job)?);
        files.push(civil::checks(job)?);
        return Ok(files);
    }
    let report = job.report();
    let checks = job.findings.to_json(&job.spec.voice()).map_err(|why| format!("checks.json: {why}"))?;
    let results = export::json::value("results", &job.results.quantities).map_err(|why| why.to_string())?;
    let text = |path: &str, text: String| OutputFile { path: path.into(), bytes: text.into_bytes() };
    let mut files = drawn.files;
    files.extend(civil::files(job)?);
    let (made, cannot_be_made) = fabrication::files(job)?;
    for what in cannot_be_made {
        console.tell(format_args!("cannot be made as the spec asks: {what}"));
    }
    files.extend(made);
    files.extend([
        text("checks.json", checks),
        text("report.html", report::html::page(&report, &drawn.links, env!("CARGO_PKG_VERSION"))),
        text("report.txt", report::text::whole(&report)),
        OutputFile { path: results.name, bytes: results.bytes },
    ]);
    Ok(files)
}
