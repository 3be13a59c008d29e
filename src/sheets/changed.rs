//! Whether what the newest revision names as changed is marked on the sheets.
//!
//! In: a subject, the plans of its sheets and the text of its spec. Out: a warning for every path of `changed` that belongs to no dimension, with
//! its place in the text and what to type. A path may name a key, a table, or a drawn size that is no key.

use super::spec_lengths::{self, general};
use super::{Subject, set_data};
use crate::diagnostics::{Code, Diagnostic};
use crate::paper::layout::changes::Change;
use crate::paper::sheet::SheetPlan;
use crate::spec::reader::did_you_mean;
use std::collections::BTreeSet;

/// A warning for every path that marks nothing.
pub fn unmarked(subject: &Subject<'_>, plans: &[SheetPlan], text: &str) -> Vec<Diagnostic> {
    let changes = set_data(subject).changes;
    let (Some(newest), Some(row)) = (subject.spec.revisions.last(), subject.spec.revisions.len().checked_sub(1)) else { return Vec::new() };
    let Some(span) = newest.changed.span().filter(|_| !changes.is_empty()) else { return Vec::new() };
    let drawn: BTreeSet<String> = plans.iter().flat_map(|p| &p.views).flat_map(|v| &v.draft.dimensions).map(|d| d.key.clone()).collect();
    let mut from = span.start;
    let mut out = Vec::new();
    for change in &changes {
        // The path itself, behind those before it; the whole value where it is written with escapes.
        let rest = text.get(from..span.end).unwrap_or_default();
        let place = rest.find(&change.path).map_or(span.clone(), |at| from + at..from + at + change.path.len());
        from = if place == span { from } else { place.end };
        if drawn.iter().any(|key| change.concerns(key)) {
            continue;
        }
        let (code, message, hint) = told(subject, change, &drawn);
        out.push(Diagnostic::error(code, format!("revision[{}].changed", row + 1), Some(place), message, hint).as_warning());
    }
    out
}

fn told(subject: &Subject<'_>, change: &Change, drawn: &BTreeSet<String>) -> (Code, String, String) {
    let (path, index) = (&change.path, &change.index);
    let mut known: BTreeSet<String> = BTreeSet::new();
    for line in subject.spec.settled_lines() {
        known.extend(line.path.match_indices('.').map(|(i, _)| line.path[..i].to_string()));
        known.insert(line.path);
    }
    if !known.contains(path) {
        let hint = did_you_mean(path, known.iter().chain(drawn).map(String::as_str))
            .map_or_else(|| "write a key or a table of the spec, e.g. \"inlet.up.sill\" or \"door[1]\"".into(), |near| format!("did you mean \"{near}\"?"));
        return (Code::UnknownWord, format!("revision {index}: nothing is called \"{path}\", so no dimension is marked as changed"), hint);
    }
    let why = spec_lengths::reason(path).map_or_else(String::new, |why| format!(" ({why})"));
    let alike = drawn.iter().find(|key| general(key) == general(path));
    let neighbour = drawn.iter().find(|key| key.split_once('.').map(|k| k.0) == path.split_once('.').map(|p| p.0));
    let hint = match (alike, neighbour) {
        (Some(twin), _) => format!("it is dimensioned as \"{twin}\"; write that"),
        (_, Some(near)) => format!("leave it out and say it in text, or write a dimensioned size, e.g. \"{near}\""),
        _ => "leave it out and say it in text; only dimensioned sizes can be marked, e.g. \"inlet.up.sill\"".into(),
    };
    (Code::Contradiction, format!("revision {index}: no sheet dimensions \"{path}\"{why}, so nothing is marked as changed"), hint)
}
