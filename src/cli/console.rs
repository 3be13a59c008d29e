//! Where a command writes to, and how it ends.

use crate::rules::Findings;
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
    pub(super) fn say(&mut self, text: impl fmt::Display) {
        let _ = writeln!(self.out, "{text}");
    }
    /// Writes a line of messages.
    pub(super) fn tell(&mut self, text: impl fmt::Display) {
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
