//! `footwell draw`: everything that the program makes of a spec, into one folder.

use super::folder::{self, OutputFile};
use super::job::{Job, SpecFile};
use super::{Console, Outcome, messages};
use clap::Args;
use std::path::PathBuf;

/// Draw everything into a folder: sheets, lists, loads, results.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell draw grain_intake.toml                 into the folder grain_intake
  footwell draw grain_intake.toml -o out/intake

The folder is written whole or not at all. If it exists it must be the program's own: files that the
program made before are replaced, all others are kept.")]
pub struct Draw {
    /// The spec (TOML)
    spec: PathBuf,
    /// Folder to write [default: the spec's name without its extension]
    #[arg(short, long, value_name = "DIR")]
    output: Option<PathBuf>,
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
        let folder = match self.output.or_else(|| self.spec.file_stem().map(PathBuf::from)) {
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
        let files = files_of(&job);
        match folder::write(&folder, &files) {
            Ok(()) => {
                console.say(format_args!("wrote {} files to {}", files.len(), folder.display()));
                Outcome::Fine
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        }
    }
}

/// The files of a job.
fn files_of(job: &Job) -> Vec<OutputFile> {
    let mut results = crate::analysis::to_json(&job.results);
    results.push('\n');
    vec![OutputFile { path: "results.json".into(), bytes: results.into_bytes() }]
}
