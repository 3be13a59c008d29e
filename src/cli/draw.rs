//! `footwell draw`: everything that the program makes of a spec, into one folder.

use super::check::JSON_VERSION;
use super::drawings::{DrawingOptions, Only};
use super::spec_file::SpecFile;
use super::{Console, Outcome, folder, messages};
use crate::job::Job;
use crate::say;
use clap::Args;
use serde_json::json;
use std::path::{Path, PathBuf};

/// Draw everything into a folder: sheets, report, results.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell draw grain_intake.toml                 into the folder grain_intake
  footwell draw grain_intake.toml -o out/intake
  footwell draw grain_intake.toml --only pit      for the civil engineer: pit, its checks, loads, quantities

The folder is written whole or not at all. If it exists it must be the program's own: files that the
program made before are replaced, all others are left alone. Files of an earlier set that were changed since,
and whole kinds of them that this set does not have (another --formats or --only), go only with --replace.
Sheets of a spec whose rules fail are drawn too, stamped NOT FOR FABRICATION.

Exit codes: 0 no rule fails, 1 the spec has errors or a rule fails, 2 could not run.")]
pub struct Draw {
    /// The spec (TOML); "-" reads it from standard input
    spec: PathBuf,
    /// Folder to write [default: the spec's name without its extension, with _pit for --only pit]
    #[arg(short, long, value_name = "DIR")]
    output: Option<PathBuf>,
    /// Let files go that were changed since they were drawn, and kinds of files that this set does not have
    #[arg(long)]
    replace: bool,
    /// Count warnings, of the spec and of the rules, as failures (the set is drawn all the same)
    #[arg(long)]
    strict: bool,
    /// Print no results, only what is wrong
    #[arg(short, long)]
    quiet: bool,
    /// Print what was written as JSON
    #[arg(long, conflicts_with = "quiet")]
    json: bool,
    #[command(flatten)]
    drawing: DrawingOptions,
}

impl Draw {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        let folder = match self.folder() {
            Ok(folder) => folder,
            Err(why) => {
                console.tell(why);
                return Outcome::CannotRun;
            }
        };
        match folder::recover(&folder, self.replace) {
            Ok(None) => {}
            Ok(Some(ended)) => console.tell(ended),
            Err(why) => {
                console.tell(why);
                return Outcome::CannotRun;
            }
        }
        let (outcome, spec_hash) = self.into_folder(&folder, console);
        if outcome != Outcome::CannotRun && spec_hash.is_some() {
            return outcome;
        }
        // Nothing was drawn, and what lies there looks as if it had been.
        if let Some(standing) = folder::standing(&folder).filter(|standing| standing.is_none() || *standing != spec_hash) {
            let of = standing.map_or_else(String::new, |hash| format!(" (spec {hash})"));
            console.tell(format_args!("nothing was drawn: {} still holds the set of an older spec{of}, with the stamp of then", folder.display()));
        }
        outcome
    }

    /// The folder to write.
    fn folder(&self) -> Result<PathBuf, String> {
        // A part of the set never takes the place of the whole one unasked.
        let end = if self.drawing.only == Some(Only::Pit) { "_pit" } else { "" };
        match &self.output {
            Some(folder) if folder == Path::new("-") => Err("a set is a folder of files and cannot go to standard output; give a folder with -o".into()),
            Some(folder) => Ok(folder.clone()),
            None if self.spec == Path::new("-") => Err("a spec from standard input has no name; give a folder with -o".into()),
            None => self.spec.file_stem().map(|stem| PathBuf::from(format!("{}{end}", stem.to_string_lossy()))).ok_or_else(|| "give a folder with -o".into()),
        }
    }

    /// Draws into a folder; with the hash of the spec once it can be drawn.
    fn into_folder(self, folder: &Path, console: &mut Console<'_>) -> (Outcome, Option<String>) {
        let file = match SpecFile::read(&self.spec) {
            Ok(file) => file,
            Err(why) => {
                console.tell(why);
                return (Outcome::CannotRun, None);
            }
        };
        let job = match Job::of(&file.text) {
            Ok(job) => job,
            Err(problems) => {
                console.tell_drawn(&format!("{}\n", messages::render(&problems, &file.name, &file.text, console.colour)));
                return (Outcome::Fails, None);
            }
        };
        if !job.warnings().items.is_empty() {
            console.tell_drawn(&format!("{}\n", messages::render(job.warnings(), &file.name, &file.text, console.colour)));
        }
        let spec_hash = job.spec_hash();
        let made = self.drawing.wish(&self.stem()).and_then(|wish| job.files(&wish));
        let written = made.and_then(|made| {
            made.defects.iter().for_each(|defect| console.tell(defect));
            let set = folder::Set { files: &made.files, spec_hash: &spec_hash };
            folder::write(folder, &set, self.replace).map(|written| (made.files.len(), written))
        });
        let outcome = match written {
            Ok((count, written)) => {
                for (names, what) in
                    [(&written.gone, "taken away, this set has no such files"), (&written.left, "changed by somebody and left, this set has no such files")]
                {
                    if !names.is_empty() {
                        console.tell(format_args!("{what}: {}", folder::named(names)));
                    }
                }
                self.tell_written(console, (folder, &job, &file), count);
                if self.strict { Outcome::strict(job.findings(), job.warnings()) } else { Outcome::of(job.findings()) }
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        };
        (outcome, Some(spec_hash))
    }

    /// Says what was written where.
    fn tell_written(&self, console: &mut Console<'_>, (folder, job, file): (&Path, &Job, &SpecFile), count: usize) {
        let voice = job.voice();
        let stamp = voice.say(&job.findings().stamp());
        if self.json {
            let messages = messages::placed(job.warnings(), &file.text);
            let value = json!({
                "version": JSON_VERSION, "spec": file.name, "spec_hash": job.spec_hash(), "folder": folder.display().to_string(), "files": count,
                "stamp": stamp, "counts": job.findings().counts, "failed": job.findings().failed, "messages": messages,
            });
            console.say(serde_json::to_string_pretty(&value).unwrap_or_default());
        } else if !self.quiet {
            let wrote = say!("wrote {count} files to {folder}", count = count, folder = say::name(folder.display()));
            console.say(format_args!("{}\n{stamp}", voice.say(&wrote)));
        }
    }

    /// What files of the whole set are named by.
    fn stem(&self) -> String {
        let stem = self.spec.file_stem().filter(|stem| *stem != "-");
        stem.map_or_else(|| "drawings".into(), |s| s.to_string_lossy().chars().map(|c| if c.is_control() { '_' } else { c }).collect())
    }
}
