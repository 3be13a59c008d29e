//! Problems as data: what is wrong, where in the spec, and what to type instead.
//!
//! A stage collects [`Diagnostic`]s in a [`Diagnostics`] list and goes on; nothing is thrown one by
//! one. The command line renders them with source line, column and caret; the same data is written
//! as JSON. A diagnostic is about the *spec*; what the trade's rules say about the machine is a
//! finding (see `rules`).

use serde::Serialize;
use std::ops::Range;

/// A piece of the spec text, in bytes.
pub type Span = Range<usize>;

/// How bad it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Worth knowing; the run goes on.
    Warning,
    /// The spec cannot be used as it is.
    Error,
}

/// What sort of problem it is; stable, so that tests and tools can rely on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Code {
    /// The text is not TOML.
    Syntax,
    /// A key or table that does not exist.
    UnknownKey,
    /// The same key twice.
    TwiceGiven,
    /// A value of the wrong kind (a number where a text belongs, …).
    WrongKind,
    /// A unit that does not fit, or none.
    WrongUnit,
    /// A word that is not among the choices.
    UnknownWord,
    /// Outside the range that makes sense.
    OutOfRange,
    /// Needed and not given.
    Missing,
    /// Two values that cannot both be true.
    Contradiction,
    /// What no spec can ask for, or asks for in vain.
    Refused,
}

/// A place in the spec that the message points at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// Where, in bytes of the spec text.
    pub span: Span,
    /// What stands there, in a few words.
    pub text: String,
}

/// One problem.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Diagnostic {
    /// Error or warning.
    pub severity: Severity,
    /// Sort of problem.
    pub code: Code,
    /// Spec path, e.g. `inlet.up.sill`; empty for the whole file.
    pub path: String,
    /// One plain sentence: what is wrong.
    pub message: String,
    /// Places in the spec, the main one first; empty when the place does not exist (a missing key).
    pub labels: Vec<Label>,
    /// What to type instead.
    pub hint: String,
}

/// A list of problems.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Diagnostics {
    /// In the order found; [`Diagnostics::sort`] puts them in the order of the file.
    pub items: Vec<Diagnostic>,
}

impl Diagnostic {
    /// An error at a place in the spec.
    pub fn error(code: Code, path: impl Into<String>, span: Option<Span>, message: impl Into<String>, hint: impl Into<String>) -> Self {
        Self {
            severity: Severity::Error,
            code,
            path: path.into(),
            message: message.into(),
            labels: span.map(|span| Label { span, text: "here".into() }).into_iter().collect(),
            hint: hint.into(),
        }
    }
    /// The same, as a warning.
    pub fn as_warning(mut self) -> Self {
        self.severity = Severity::Warning;
        self
    }
    /// Adds a second place, e.g. the other half of a contradiction.
    pub fn also(mut self, span: Option<Span>, text: impl Into<String>) -> Self {
        if let Some(span) = span {
            self.labels.push(Label { span, text: text.into() });
        }
        self
    }
}

impl Diagnostics {
    /// Adds one.
    pub fn push(&mut self, one: Diagnostic) {
        self.items.push(one);
    }
    /// Whether any is an error.
    pub fn has_errors(&self) -> bool {
        self.items.iter().any(|d| d.severity == Severity::Error)
    }
    /// Sorts by place in the file; those without a place come last.
    pub fn sort(&mut self) {
        self.items.sort_by_cached_key(|d| (d.labels.first().map_or(usize::MAX, |l| l.span.start), d.path.clone()));
    }
}

/// Whether a character steers a terminal: control characters (ISO/IEC 6429) and those that turn the direction of writing (Unicode, UAX 9).
pub fn steers(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || (c.is_control() && c != '\n' && c != '\t')
}

/// Lines and columns of many places in one text, quick where they are asked for in the order of the text.
#[derive(Debug)]
pub struct Places<'a> {
    text: &'a str,
    /// The place asked for last, in bytes, with its line and column.
    at: (usize, usize, usize),
}

impl<'a> Places<'a> {
    /// The places of a text.
    pub fn of(text: &'a str) -> Self {
        Self { text, at: (0, 1, 1) }
    }

    /// Line and column of a byte, both from 1; columns count characters.
    pub fn line_column(&mut self, byte: usize) -> (usize, usize) {
        let mut byte = byte.min(self.text.len());
        while !self.text.is_char_boundary(byte) {
            byte -= 1;
        }
        if byte < self.at.0 {
            self.at = (0, 1, 1);
        }
        let (from, mut line, mut column) = self.at;
        let between = &self.text[from..byte];
        line += between.matches('\n').count();
        column = between.rfind('\n').map_or(column + between.chars().count(), |end| between[end + 1..].chars().count() + 1);
        self.at = (byte, line, column);
        (line, column)
    }
}
