//! Where a command writes to, and how it ends.

use super::plain::plain;
use crate::diagnostics::Diagnostics;
use crate::rules::Findings;
use std::fmt;
use std::io::{self, Write};

/// Where a command writes to. Nothing that could steer a terminal passes, whatever a spec or a file name holds.
pub struct Console<'a> {
    /// Results.
    out: &'a mut dyn Write,
    /// Messages.
    err: &'a mut dyn Write,
    /// Whether messages may be coloured.
    pub colour: bool,
    /// Why results could not be written.
    broken: Option<io::Error>,
}

impl<'a> Console<'a> {
    /// Results to one stream, messages to another.
    pub fn new(out: &'a mut dyn Write, err: &'a mut dyn Write, colour: bool) -> Self {
        Self { out, err, colour, broken: None }
    }

    /// Writes a line of results.
    pub(super) fn say(&mut self, text: impl fmt::Display) {
        let line = format!("{text}\n");
        self.say_bytes(plain(&line).as_bytes());
    }

    /// Writes results as they are.
    pub(super) fn say_bytes(&mut self, bytes: &[u8]) {
        if self.broken.is_none() {
            self.broken = self.out.write_all(bytes).err();
        }
    }

    /// Writes a line of messages.
    pub(super) fn tell(&mut self, text: impl fmt::Display) {
        let line = format!("{text}\n");
        self.tell_drawn(&plain(&line));
    }

    /// Writes messages that were made plain before they were coloured.
    pub(super) fn tell_drawn(&mut self, text: &str) {
        // Where messages cannot be written nobody can be told.
        let _ = self.err.write_all(text.as_bytes());
    }

    /// How the command ends: results that could not be written are none. A closed pipe (`footwell explain | head`) is no reason to complain.
    pub(super) fn end(&mut self, outcome: Outcome) -> Outcome {
        let flushed = self.out.flush().err();
        match self.broken.take().or(flushed) {
            Some(why) if why.kind() != io::ErrorKind::BrokenPipe => {
                self.tell(format_args!("cannot write the results: {why}"));
                Outcome::CannotRun
            }
            _ => outcome,
        }
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
    /// The same where warnings count as failures.
    pub fn strict(findings: &Findings, warnings: &Diagnostics) -> Self {
        if findings.counts.warn > 0 || !warnings.items.is_empty() { Self::Fails } else { Self::of(findings) }
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// A stream that takes so many bytes and then fails.
    struct Full(usize, io::ErrorKind);
    impl Write for Full {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let taken = bytes.len().min(self.0);
            self.0 -= taken;
            if taken == 0 { Err(self.1.into()) } else { Ok(taken) }
        }
        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn results_that_are_lost_are_told() {
        for (room, kind, ended) in [
            (100, io::ErrorKind::StorageFull, Outcome::Fine),
            (4, io::ErrorKind::StorageFull, Outcome::CannotRun),
            (4, io::ErrorKind::BrokenPipe, Outcome::Fine),
        ] {
            let (mut out, mut err) = (Full(room, kind), Vec::new());
            let mut console = Console::new(&mut out, &mut err, false);
            console.say("some results");
            console.say("more of them");
            assert_eq!(console.end(Outcome::Fine), ended);
            assert_eq!(err.is_empty(), ended == Outcome::Fine);
        }
    }

    #[test]
    fn nothing_steers_the_terminal() {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut console = Console::new(&mut out, &mut err, true);
        console.say("a\u{1b}[31mb");
        console.tell("c\u{9b}2Jd");
        assert_eq!((String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap()), ("a?[31mb\n".into(), "c¿2Jd\n".into()));
    }
}
