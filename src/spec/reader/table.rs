//! Reads one table: every key asked for, ranges kept, unknown keys reported.
//!
//! In: a TOML table and the names of its keys. Out: leaves, and messages with their places.

use super::choices::did_you_mean;
use super::leaf::Leaf;
use super::registry::range_text;
use super::value::{ReadValue, as_typed, what_stands};
use crate::diagnostics::{Code, Diagnostic, Diagnostics, Span};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Reads the keys of one table and remembers which were asked for.
pub struct TableReader<'a, 'i> {
    table: Option<&'a DeTable<'i>>,
    path: String,
    known: Vec<&'static str>,
    out: &'a mut Diagnostics,
}

impl<'a, 'i> TableReader<'a, 'i> {
    /// Starts on a table (or on none, when the spec does not have it).
    pub fn new(table: Option<&'a DeTable<'i>>, path: impl Into<String>, out: &'a mut Diagnostics) -> Self {
        Self { table, path: path.into(), known: Vec::new(), out }
    }

    fn full(&self, key: &str) -> String {
        if self.path.is_empty() { key.into() } else { format!("{}.{key}", self.path) }
    }

    /// Reads one leaf and keeps it within its range (base units).
    pub fn leaf<T: ReadValue>(&mut self, key: &'static str, least: Option<f64>, most: Option<f64>) -> Leaf<T> {
        self.known.push(key);
        let Some(found) = self.table.and_then(|t| t.get(key)) else { return Leaf::Absent };
        let span = found.span();
        let path = self.full(key);
        match T::read(found.get_ref()) {
            Err((code, why, hint)) => {
                let meant = T::meant(found.get_ref(), least, most).filter(|_| code == Code::WrongUnit);
                let hint = meant.unwrap_or(hint);
                self.out.push(Diagnostic::error(code, &path, Some(span.clone()), format!("{path}: {why}"), hint));
                Leaf::Bad(span)
            }
            Ok(value) => {
                let number = value.number();
                let low = least.zip(number).is_some_and(|(l, n)| n < l);
                let high = most.zip(number).is_some_and(|(m, n)| n > m);
                if low || high || number.is_some_and(|n| !n.is_finite()) {
                    let bounds = T::range_as_written(found.get_ref(), least, most).unwrap_or_else(|| range_text::<T>(least, most));
                    self.out.push(Diagnostic::error(
                        Code::OutOfRange,
                        &path,
                        Some(span.clone()),
                        format!("{path} = {} is outside the sensible range", as_typed(found.get_ref(), &value)),
                        format!("write a value {bounds}"),
                    ));
                    return Leaf::Bad(span);
                }
                Leaf::Given(value, span)
            }
        }
    }

    /// Reports every key that was not asked for.
    pub fn finish(self) {
        let Some(table) = self.table else { return };
        for (key, _) in table {
            let name: &str = key.get_ref();
            if self.known.contains(&name) {
                continue;
            }
            let hint = did_you_mean(name, self.known.iter().copied())
                .map_or_else(|| format!("the keys here are: {}", self.known.join(", ")), |near| format!("did you mean {near}?"));
            let place = if self.path.is_empty() { "the spec".to_string() } else { format!("[{}]", self.path) };
            let path = self.full(name);
            self.out.push(Diagnostic::error(Code::UnknownKey, path, Some(key.span()), format!("{place} has no key \"{name}\""), hint));
        }
    }
}

/// A sub-table, or a message when something else stands there.
pub fn sub_table<'a, 'i>(parent: Option<&'a DeTable<'i>>, key: &str, path: &str, out: &mut Diagnostics) -> Option<(&'a DeTable<'i>, Span)> {
    let found: &Spanned<DeValue<'_>> = parent?.get(key)?;
    match found.get_ref() {
        DeValue::Table(t) => Some((t, found.span())),
        DeValue::Array(_) => {
            out.push(Diagnostic::error(
                Code::WrongKind,
                path,
                Some(found.span()),
                format!("[[{path}]] is written once, as [{path}]"),
                format!("write [{path}]"),
            ));
            None
        }
        other => {
            let what = what_stands(other);
            out.push(Diagnostic::error(
                Code::WrongKind,
                path,
                Some(found.span()),
                format!("{what} stands where the table [{path}] belongs"),
                format!("write [{path}] on a line of its own, its keys below"),
            ));
            None
        }
    }
}

/// Most rows of a list: more doors than any foot has walls for, more revisions than any drawing carries.
fn most_rows(key: &str) -> usize {
    if key == "door" { 24 } else { 200 }
}

/// All tables of a list `[[key]]`, as many as there may be.
pub fn table_list<'a, 'i>(parent: &'a DeTable<'i>, key: &str, out: &mut Diagnostics) -> Vec<(&'a DeTable<'i>, Span)> {
    let Some(found) = parent.get(key) else { return Vec::new() };
    let mut list = Vec::new();
    match found.get_ref() {
        DeValue::Array(rows) => {
            let most = most_rows(key);
            if let Some(row) = rows.get(most) {
                let message = format!("[[{key}]] stands {} times; {most} times at most", rows.iter().count());
                out.push(Diagnostic::error(Code::OutOfRange, key, Some(row.span()), message, format!("leave {} of them out", rows.iter().count() - most)));
            }
            for row in rows.iter().take(most) {
                match row.get_ref() {
                    DeValue::Table(t) => list.push((t, row.span())),
                    other => out.push(Diagnostic::error(
                        Code::WrongKind,
                        key,
                        Some(row.span()),
                        format!("{} stands where a table belongs", what_stands(other)),
                        format!("write [[{key}]] above each block of keys"),
                    )),
                }
            }
        }
        _ => out.push(Diagnostic::error(
            Code::WrongKind,
            key,
            Some(found.span()),
            format!("[{key}] may stand several times and is written with double brackets"),
            format!("write [[{key}]]"),
        )),
    }
    list
}
