//! Diagnostics as people read them: file, line, column, the line itself with a mark under it, and what to type.
//!
//! In: diagnostics and the spec text. Out: text, or data with lines and columns for JSON. All of them at once, in the order of the file.

use crate::diagnostics::{Diagnostic, Diagnostics, Severity, line_column};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode};
use serde::Serialize;
use std::fmt;

/// A diagnostic beside its source, as the rendering library wants it.
#[derive(Debug)]
struct Shown<'a> {
    one: &'a Diagnostic,
    source: &'a NamedSource<String>,
}

impl fmt::Display for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.one.message)
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
        (!self.one.hint.is_empty()).then(|| Box::new(&self.one.hint) as Box<dyn fmt::Display>)
    }
    fn source_code(&self) -> Option<&dyn SourceCode> {
        (!self.one.labels.is_empty()).then_some(self.source as &dyn SourceCode)
    }
    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        if self.one.labels.is_empty() {
            return None;
        }
        Some(Box::new(self.one.labels.iter().map(|l| LabeledSpan::new_with_span(Some(l.text.clone()), l.span.clone()))))
    }
}

/// All diagnostics as text.
pub fn render(problems: &Diagnostics, file: &str, text: &str, colour: bool) -> String {
    let source = NamedSource::new(file, text.to_string()).with_language("toml");
    let theme = if colour { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme).with_width(100).with_context_lines(1).with_links(false);
    let mut out = String::new();
    for one in &problems.items {
        let shown = Shown { one, source: &source };
        let mut block = String::new();
        if handler.render_report(&mut block, &shown).is_err() {
            block = format!("{}\n  help: {}\n", one.message, one.hint);
        }
        out.push_str(block.trim_start_matches('\n'));
        out.push('\n');
    }
    let errors = problems.items.iter().filter(|d| d.severity == Severity::Error).count();
    let warnings = problems.items.len() - errors;
    if errors + warnings > 0 {
        out.push_str(&format!(
            "{file}: {}{}\n",
            count(errors, "error"),
            if warnings > 0 { format!(", {}", count(warnings, "warning")) } else { String::new() }
        ));
    }
    out
}

fn count(n: usize, word: &str) -> String {
    format!("{n} {word}{}", if n == 1 { "" } else { "s" })
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
    problems
        .items
        .iter()
        .map(|one| {
            let place = one.labels.first().map(|l| line_column(text, l.span.start));
            Placed { one, line: place.map(|p| p.0), column: place.map(|p| p.1) }
        })
        .collect()
}
