//! `footwell licences`: whose software and type the program contains, and under which terms.

use super::{Console, Outcome};
use clap::Args;

/// Written by `tests/outside/notices.py`; a test holds it against `Cargo.lock`.
const THIRD_PARTY: &str = include_str!("../../THIRD_PARTY.md");

/// Print the licences of the program, of the libraries in it and of the font.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell licences
  footwell licences > THIRD_PARTY.md")]
pub struct Licences {}

impl Licences {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        console.say(THIRD_PARTY.trim_end());
        Outcome::Fine
    }
}
