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

Exit codes: 0 no rule fails, 1 the spec has errors or a rule fails, 2 could not run.")]
pub struct Check {
    /// The spec (TOML); "-" reads it from standard input
    spec: PathBuf,
    /// Print everything as JSON: messages with line and column, findings, verdicts
    #[arg(long)]
    json: bool,
}

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
            let mut value = json!({ "spec": file.name, "messages": messages::placed(problems, &file.text) });
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
                if !self.json {
                    console.say(text::checks(&job.report()).trim_end());
                    console.say(job.voice().say(&job.findings().stamp()));
                }
                Outcome::of(job.findings())
            }
            Err(_) => Outcome::Fails,
        }
    }
}
