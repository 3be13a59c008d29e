//! `footwell check`: what is wrong with a spec and what the rules find.

use super::spec_file::SpecFile;
use super::{Console, Outcome, messages};
use crate::job::Job;
use crate::report::text;
use clap::Args;
use serde_json::json;
use std::path::PathBuf;

/// Check a spec and print what the rules find.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell check grain_intake.toml
  footwell check survey.toml --json > checks.json
  footwell check my_job.toml --strict -q          for scripts: the exit code alone
  cat my_job.toml | footwell check -

JSON: \"version\" is 1; it rises when a field changes its meaning or goes, not when one is added. The fields are in the README.

Exit codes: 0 no rule fails (with --strict: nor warns), 1 the spec has errors or a rule fails, 2 could not run.")]
pub struct Check {
    /// The spec (TOML); "-" reads it from standard input
    spec: PathBuf,
    /// Print everything as JSON: messages with line and column, findings, verdicts
    #[arg(long)]
    json: bool,
    /// Count warnings, of the spec and of the rules, as failures
    #[arg(long)]
    strict: bool,
    /// Print no results: only what is wrong with the spec, and the exit code
    #[arg(short, long, conflicts_with_all = ["json", "verbose"])]
    quiet: bool,
    /// Print the whole report: what passes with its numbers, inputs, defaults with reasons, results
    #[arg(short, long, conflicts_with = "json")]
    verbose: bool,
}

/// Version of what `--json` prints.
pub(super) const JSON_VERSION: u32 = 1;

impl Check {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        let file = match SpecFile::read(&self.spec) {
            Ok(file) => file,
            Err(why) => {
                console.tell(why);
                return Outcome::CannotRun;
            }
        };
        let prepared = Job::of(&file.text);
        let problems = match &prepared {
            Ok(job) => job.warnings(),
            Err(problems) => problems,
        };
        if self.json {
            let mut value = json!({ "version": JSON_VERSION, "spec": file.name, "messages": messages::placed(problems, &file.text) });
            if let Ok(job) = &prepared {
                value["spec_hash"] = json!(job.spec_hash());
                value["stamp"] = json!(job.voice().say(&job.findings().stamp()));
                value["checks"] = json!(job.findings().told(&job.voice()));
            }
            console.say(serde_json::to_string_pretty(&value).unwrap_or_default());
        } else if !problems.items.is_empty() {
            console.tell_drawn(&format!("{}\n", messages::render(problems, &file.name, &file.text, console.colour)));
        }
        match prepared {
            Ok(job) => {
                if self.verbose {
                    console.say(text::whole(&job.report()).trim_end());
                } else if !self.json && !self.quiet {
                    console.say(text::checks(&job.report()).trim_end());
                    console.say(job.voice().say(&job.findings().stamp()));
                }
                if self.strict { Outcome::strict(job.findings(), job.warnings()) } else { Outcome::of(job.findings()) }
            }
            Err(_) => Outcome::Fails,
        }
    }
}
