//! `footwell draw`: everything that the program makes of a spec, into one folder.

use super::drawings::{DrawingOptions, Only};
use super::spec_file::SpecFile;
use super::{Console, Outcome, folder, messages};
use crate::job::Job;
use crate::say;
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
        let job = match Job::of(&file.text) {
            Ok(job) => job,
            Err(problems) => {
                console.tell(messages::render(&problems, &file.name, &file.text, console.colour));
                return Outcome::Fails;
            }
        };
        if !job.warnings().items.is_empty() {
            console.tell(messages::render(job.warnings(), &file.name, &file.text, console.colour));
        }
        let stem = self.spec.file_stem().map_or_else(|| "drawings".into(), |s| s.to_string_lossy().into_owned());
        let made = self.drawing.wish(&stem).and_then(|wish| job.files(&wish));
        let written = made.and_then(|made| {
            made.defects.iter().for_each(|defect| console.tell(defect));
            folder::write(&folder, &made.files).map(|()| made.files.len())
        });
        match written {
            Ok(count) => {
                let voice = job.voice();
                let wrote = say!("wrote {count} files to {folder}", count = count, folder = say::name(folder.display()));
                console.say(format_args!("{}\n{}", voice.say(&wrote), voice.say(&job.findings().stamp())));
                Outcome::of(job.findings())
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        }
    }
}
