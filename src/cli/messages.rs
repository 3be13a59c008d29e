//! Diagnostics as people read them: file, line, column, the line itself with a mark under it, and what to type.
//!
//! In: diagnostics and the spec text. Out: text, or data with lines and columns for JSON. In the order of the file; as text the first
//! [`SHOWN`] and how many more there are. Of a very long line the part about the place is shown.

use super::plain::plain;
use crate::diagnostics::{Diagnostic, Diagnostics, Label, Places, Severity, Span};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use serde::Serialize;
use std::fmt;

/// How many messages are shown as text.
pub const SHOWN: usize = 20;

/// Columns of a message.
const WIDTH: usize = 100;

/// The longest line that is shown whole, bytes; the rendering library ends at 65,535 columns.
const LONGEST_LINE: usize = 1000;

/// What is shown of a longer line on both sides of the place, bytes.
const ABOUT: usize = 60;

/// A piece of the text with the place where it begins.
#[derive(Debug)]
struct Source<'a> {
    name: &'a str,
    text: &'a str,
    line: usize,
    column: usize,
}

impl SourceCode for Source<'_> {
    fn read_span<'b>(&'b self, span: &SourceSpan, before: usize, after: usize) -> Result<Box<dyn SpanContents<'b> + 'b>, MietteError> {
        let inner = self.text.read_span(span, before, after)?;
        // The place itself, for the head of the message: columns count characters.
        let column = if before == 0 && after == 0 {
            let from_line = self.text.get(..span.offset()).and_then(|t| t.rsplit('\n').next()).unwrap_or_default();
            from_line.chars().count() + if inner.line() == 0 { self.column } else { 0 }
        } else {
            inner.column()
        };
        Ok(Box::new(MietteSpanContents::new_named(self.name.to_string(), inner.data(), *inner.span(), inner.line() + self.line, column, inner.line_count())))
    }
}

/// A diagnostic beside its source, as the rendering library wants it.
#[derive(Debug)]
struct Shown<'a> {
    one: &'a Diagnostic,
    message: String,
    hint: String,
    source: Source<'a>,
    labels: Vec<Label>,
}

impl fmt::Display for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Shown<'_> {}

impl miette::Diagnostic for Shown<'_> {
    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.one.severity {
            Severity::Warning => miette::Severity::Warning,
            Severity::Error => miette::Severity::Error,
        })
    }
    fn help<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        (!self.hint.is_empty()).then(|| Box::new(&self.hint) as Box<dyn fmt::Display>)
    }
    fn source_code(&self) -> Option<&dyn SourceCode> {
        (!self.labels.is_empty()).then_some(&self.source as &dyn SourceCode)
    }
    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        if self.labels.is_empty() {
            return None;
        }
        Some(Box::new(self.labels.iter().map(|l| LabeledSpan::new_with_span(Some(plain(&l.text).into_owned()), l.span.clone()))))
    }
}

/// Diagnostics as text, the first [`SHOWN`] of them.
pub fn render(problems: &Diagnostics, file: &str, text: &str, colour: bool) -> String {
    let (file, text) = (plain(file), plain(text));
    let theme = if colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme).with_width(WIDTH).with_context_lines(1).with_links(false);
    let mut out = String::new();
    for one in problems.items.iter().take(SHOWN) {
        let shown = shown(one, &file, &text);
        let mut block = String::new();
        if handler.render_report(&mut block, &shown).is_err() {
            block = format!("  × {}\n  help: {}\n", shown.message, shown.hint);
        }
        out.push_str(block.trim_start_matches('\n'));
        out.push('\n');
    }
    let errors = problems.items.iter().filter(|d| d.severity == Severity::Error).count();
    let warnings = problems.items.len() - errors;
    if let Some(more) = problems.items.len().checked_sub(SHOWN).filter(|more| *more > 0) {
        out.push_str(&format!("and {} more\n\n", thousands(more)));
    }
    if errors + warnings > 0 {
        out.push_str(&format!(
            "{file}: {}{}\n",
            count(errors, "error"),
            if warnings > 0 { format!(", {}", count(warnings, "warning")) } else { String::new() }
        ));
    }
    out
}

fn shown<'a>(one: &'a Diagnostic, file: &'a str, text: &'a str) -> Shown<'a> {
    let (message, hint) = (plain(&one.message).into_owned(), plain(&one.hint).into_owned());
    let whole = Source { name: file, text, line: 0, column: 0 };
    let (source, labels) = match one.labels.iter().find(|l| !short_lines(text, &l.span)) {
        None => (whole, one.labels.clone()),
        Some(_) => one.labels.first().map_or((whole, Vec::new()), |first| {
            let (window, line, column) = about(text, &first.span);
            let inside = |l: &&Label| l.span.start >= window.start && l.span.start <= window.end;
            let moved =
                |l: &Label| Label { span: l.span.start - window.start..l.span.end.clamp(l.span.start, window.end) - window.start, text: l.text.clone() };
            (Source { name: file, text: &text[window.clone()], line, column }, one.labels.iter().filter(inside).map(moved).collect())
        }),
    };
    Shown { one, message, hint, source, labels }
}

/// Whether the lines of a place, and those before and after it, are short enough to be shown whole.
fn short_lines(text: &str, span: &Span) -> bool {
    let (before, after) = (text.get(..span.start).unwrap_or(text), text.get(span.end..).unwrap_or_default());
    let last_two = before.rsplit('\n').take(2).all(|line| line.len() <= LONGEST_LINE);
    let next_two = after.split('\n').take(2).all(|line| line.len() <= LONGEST_LINE);
    last_two && next_two && span.len() <= LONGEST_LINE
}

/// What is shown about a place in a long line, with the line and the column where it begins, from 0.
fn about(text: &str, span: &Span) -> (Span, usize, usize) {
    let boundary = |mut at: usize| {
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = boundary(span.start.min(text.len()));
    let line_start = text[..start].rfind('\n').map_or(0, |i| i + 1);
    let line_end = text[start..].find('\n').map_or(text.len(), |i| start + i);
    let from = boundary(start.saturating_sub(ABOUT).max(line_start)).max(line_start);
    let to = boundary((start + ABOUT).max(span.end.min(start + 2 * ABOUT)).min(line_end));
    (from..to, text[..line_start].matches('\n').count(), text[line_start..from].chars().count())
}

fn count(n: usize, word: &str) -> String {
    format!("{} {word}{}", thousands(n), if n == 1 { "" } else { "s" })
}

/// A count with a comma between thousands.
fn thousands(n: usize) -> String {
    let digits = n.to_string();
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// A diagnostic with its place in lines and columns, for JSON.
#[derive(Debug, Serialize)]
pub struct Placed<'a> {
    #[serde(flatten)]
    one: &'a Diagnostic,
    /// Line from 1; `None` when the message has no place.
    line: Option<usize>,
    /// Column from 1, in characters.
    column: Option<usize>,
}

/// All diagnostics with their places.
pub fn placed<'a>(problems: &'a Diagnostics, text: &str) -> Vec<Placed<'a>> {
    let mut places = Places::of(text);
    problems
        .items
        .iter()
        .map(|one| {
            let place = one.labels.first().map(|l| places.line_column(l.span.start));
            Placed { one, line: place.map(|p| p.0), column: place.map(|p| p.1) }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::diagnostics::Code;
    use crate::spec::load;

    fn at(span: Span) -> Diagnostics {
        let mut all = Diagnostics::default();
        all.push(Diagnostic::error(Code::UnknownKey, "a", Some(span), "wrong", "right"));
        all
    }

    /// A place beyond the last column that the rendering library knows, among characters of two bytes.
    #[test]
    fn places_far_to_the_right() {
        for before in [0, 900, 1100, 65_534, 65_536, 300_000] {
            let text = format!("first = 1\nx = \"{}\"; bad = 2 # {}\nlast = 3\n", "é".repeat(before), "y".repeat(before));
            let place = text.find("bad").unwrap();
            let shown = render(&at(place..place + 3), "spec.toml", &text, false);
            assert!(shown.contains(&format!("spec.toml:2:{}]", before + 9)), "{before}: {shown}");
            assert!(shown.contains("bad = 2") && shown.contains("here") && shown.len() < 12_000, "{before}: {shown}");
        }
    }

    /// Any place in any text has a message: also at the very end, in nothing, and over lines.
    #[test]
    fn places_anywhere() {
        for text in ["", "\n", "a", "a\n", "\n\n\n", &"x".repeat(70_000), &"é\n".repeat(40_000)] {
            for (from, to) in [(0, 0), (0, text.len()), (text.len(), text.len()), (text.len() / 2, text.len())] {
                if text.is_char_boundary(from) {
                    let shown = render(&at(from..to), "spec.toml", text, false);
                    assert!(shown.contains("wrong") && shown.contains("right"), "{}: {shown}", text.len());
                }
            }
        }
    }

    #[test]
    fn more_than_twenty() {
        let text: String = (0..1234).map(|i| format!("k{i} = 1\n")).collect();
        let shown = render(&load(&text).1, "spec.toml", &text, false);
        assert_eq!(shown.matches("has no table or key").count(), SHOWN);
        assert!(shown.contains("and 1,214 more\n") && shown.contains("1,234 errors"), "{shown}");
    }

    /// What a spec holds never steers the terminal; the caret stays under its place.
    #[test]
    fn a_hostile_spec() {
        let text = "[project]\ntitel\u{1b}[2J = \"\u{1b}]0;x\u{7}\u{202e}\"\n\"\\u001b[31m\" = 1\r\n";
        for colour in [false, true] {
            let shown = render(&load(text).1, "a\u{1b}b.toml", text, colour);
            let bare: String = shown.split("\u{1b}[").map(|part| part.split_once('m').map_or(part, |(_, rest)| rest)).collect();
            let kept = if colour { bare } else { shown };
            assert!(kept.chars().all(|c| !crate::diagnostics::steers(c)), "{kept:?}");
        }
    }

    #[test]
    fn lines_and_columns_of_many() {
        let text: String = (0..200).map(|i| format!("[é{i}]; ä = 1; b = 2\n")).collect();
        let mut all = Diagnostics::default();
        for (place, _) in text.match_indices(['ä', 'b']).collect::<Vec<_>>().into_iter().rev() {
            all.push(Diagnostic::error(Code::UnknownKey, "a", Some(place..place + 1), "", ""));
        }
        for (one, found) in all.items.iter().zip(placed(&all, &text)) {
            let before = &text[..one.labels[0].span.start];
            let line = before.matches('\n').count() + 1;
            let column = before.rsplit('\n').next().unwrap().chars().count() + 1;
            assert_eq!((found.line, found.column), (Some(line), Some(column)));
        }
    }
}
