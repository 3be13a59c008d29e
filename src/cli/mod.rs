//! The command line: one file per command; the only place that reads and writes files.
//!
//! In: arguments. Out: text on two streams, files, an [`Outcome`] that is the exit code: 0 fine, 1 the
//! spec has errors or a rule fails, 2 the command could not run.

pub mod check;
pub mod draw;
pub mod drawings;
pub mod explain;
pub mod folder;
pub mod licences;
pub mod messages;
pub mod spec_file;
pub mod start;
pub mod starters;
pub mod tables;

use crate::rules::Findings;
use clap::{Parser, Subcommand};
use std::ffi::OsString;
use std::fmt;
use std::io::Write;

/// Where a command writes to.
pub struct Console<'a> {
    /// Results.
    pub out: &'a mut dyn Write,
    /// Messages.
    pub err: &'a mut dyn Write,
    /// Whether messages may be coloured.
    pub colour: bool,
}

impl Console<'_> {
    /// Writes a line of results; a closed pipe is not an error.
    fn say(&mut self, text: impl fmt::Display) {
        let _ = writeln!(self.out, "{text}");
    }
    /// Writes a line of messages.
    fn tell(&mut self, text: impl fmt::Display) {
        let _ = writeln!(self.err, "{text}");
    }
}

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Done, nothing wrong.
    Fine,
    /// Done, but the spec has errors or a rule fails.
    Fails,
    /// The command could not run: wrong arguments, a file that cannot be read or written.
    CannotRun,
}

impl Outcome {
    /// The outcome that findings call for.
    pub fn of(findings: &Findings) -> Self {
        if findings.failed.is_empty() { Self::Fine } else { Self::Fails }
    }
    /// Exit code.
    pub const fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Fails => 1,
            Self::CannotRun => 2,
        }
    }
}

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
}

/// Runs a command.
pub fn run(arguments: impl IntoIterator<Item = OsString>, console: &mut Console<'_>) -> Outcome {
    match Arguments::try_parse_from(arguments) {
        Ok(found) => match found.command {
            Command::Draw(c) => c.run(console),
            Command::Check(c) => c.run(console),
            Command::Start(c) => c.run(console),
            Command::Explain(c) => c.run(console),
            Command::Licences(c) => c.run(console),
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
