//! The command line: one file per command; the only place that reads and writes files.
//!
//! In: arguments. Out: text on two streams, files, an [`Outcome`] that is the exit code: 0 fine, 1 the
//! spec has errors or a rule fails, 2 the command could not run.

pub mod check;
pub mod completions;
pub mod console;
pub mod draw;
pub mod drawings;
pub mod explain;
pub mod folder;
mod guard;
mod input;
pub mod licences;
pub mod manual;
pub mod messages;
mod plain;
pub mod reference;
pub mod schema;
pub mod spec_file;
pub mod spec_paths;
pub mod start;
pub mod starters;
pub mod tables;

use clap::{CommandFactory, Parser, Subcommand};
pub use console::{Console, Outcome};
pub use guard::keep_panics_quiet;
use std::ffi::OsString;

/// Checked drawings, lists and report for the foot of a bucket elevator and its pit, from one spec.
#[derive(Debug, Parser)]
#[command(
    name = "footwell",
    version,
    max_term_width = 100,
    after_help = "Examples:
  footwell start grain_intake            write a commented starter spec to grain_intake.toml
  footwell check grain_intake.toml       print what the rules find
  footwell draw grain_intake.toml        draw everything into the folder grain_intake
  footwell explain inlet.up.sill         what a key is, and how it is decided when left out

Exit codes: 0 fine, 1 the spec has errors or a rule fails, 2 could not run.
The program proposes; a qualified person checks and approves. Local codes govern."
)]
pub struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Draw(draw::Draw),
    Check(check::Check),
    Start(start::Start),
    Explain(explain::Explain),
    Licences(licences::Licences),
    Schema(schema::Schema),
    Completions(completions::Completions),
    #[command(name = "man")]
    Manual(manual::Manual),
}

/// Runs a command.
pub fn run(arguments: impl IntoIterator<Item = OsString>, console: &mut Console<'_>) -> Outcome {
    let outcome = match guard::guarded(|| run_command(arguments, console)) {
        Ok(outcome) => outcome,
        Err(why) => {
            console.tell(format_args!("defect of the program: {why}\nNothing more was done. Please report it, with the spec if it may be shown."));
            Outcome::CannotRun
        }
    };
    console.end(outcome)
}

fn run_command(arguments: impl IntoIterator<Item = OsString>, console: &mut Console<'_>) -> Outcome {
    match Arguments::try_parse_from(arguments) {
        Ok(found) => match found.command {
            Command::Draw(c) => c.run(console),
            Command::Check(c) => c.run(console),
            Command::Start(c) => c.run(console),
            Command::Explain(c) => c.run(console),
            Command::Licences(c) => c.run(console),
            Command::Schema(c) => c.run(console),
            Command::Completions(c) => c.run(&mut Arguments::command(), console),
            Command::Manual(c) => c.run(Arguments::command(), console),
        },
        Err(why) if why.use_stderr() => {
            console.tell(why.render());
            Outcome::CannotRun
        }
        // Help and version.
        Err(text) => {
            console.say(text.render());
            Outcome::Fine
        }
    }
}
