//! Fixed words in other languages, from plain tables anybody can add to.
//!
//! `templates/words/de.*.toml` map English to German, a file a room. A text with places such as `{sill}` is mapped whole
//! to one with the same places, in the order that the language wants. A text that a table lacks stays English.
//! Texts that come from the spec are never translated.

use super::statement::{Statement, Value};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The tables: language code, name of the room, text; a new file is one line here.
const TABLES: &[(&str, &str, &str)] = &[
    ("de", "sheets", include_str!("../../templates/words/de.toml")),
    ("de", "assembly", include_str!("../../templates/words/de.assembly.toml")),
    ("de", "results", include_str!("../../templates/words/de.results.toml")),
    ("de", "parts", include_str!("../../templates/words/de.parts.toml")),
    ("de", "rules_a", include_str!("../../templates/words/de.rules_a.toml")),
    ("de", "rules_b", include_str!("../../templates/words/de.rules_b.toml")),
    ("de", "settle", include_str!("../../templates/words/de.settle.toml")),
    ("de", "report", include_str!("../../templates/words/de.report.toml")),
    ("us", "figures in words", include_str!("../../templates/words/us.toml")),
];

/// English where US customary units are written: a table like that of a language, but no language to choose.
const CUSTOMARY: &str = "us";

type Table = BTreeMap<String, String>;

static LANGUAGES: LazyLock<BTreeMap<&str, Table>> = LazyLock::new(|| {
    let mut all: BTreeMap<&str, Table> = BTreeMap::new();
    for (code, _, text) in TABLES {
        let table: Table = toml::from_str(text).unwrap_or_default();
        all.entry(code).or_default().extend(table);
    }
    all
});

/// The words of one language.
#[derive(Debug, Clone, Copy, Default)]
pub struct Words {
    table: Option<&'static Table>,
}

impl Words {
    /// The words of a language; an unknown one is English.
    pub fn of(language: &str) -> Self {
        Self { table: LANGUAGES.get(language) }
    }

    /// English with the figures of US customary units in the few texts that have figures among their words.
    pub fn customary() -> Self {
        Self::of(CUSTOMARY)
    }

    /// The text in this language.
    pub fn text<'a>(&self, english: &'a str) -> &'a str
    where
        'static: 'a,
    {
        self.table.and_then(|t| t.get(english)).map_or(english, String::as_str)
    }

    /// The word in this language. `SECTION A–A` is looked up whole, then without its last part.
    pub fn say(&self, english: &str) -> String {
        let Some(table) = self.table else { return english.to_string() };
        if let Some(w) = table.get(english) {
            return w.clone();
        }
        if let Some((head, tail)) = english.rsplit_once(' ')
            && let Some(w) = table.get(head)
        {
            return format!("{w} {tail}");
        }
        english.to_string()
    }

    /// Fixed texts of a statement that this language lacks; nothing for English.
    pub fn missing(&self, said: &Statement) -> Vec<&'static str> {
        let Some(table) = self.table else { return Vec::new() };
        let own = (!table.contains_key(said.words) && has_words(said.words)).then_some(said.words);
        let within = said.values.iter().flat_map(|(_, value)| match value {
            Value::Said(one) => self.missing(one),
            Value::All(all) => all.iter().flat_map(|one| self.missing(one)).collect(),
            _ => Vec::new(),
        });
        own.into_iter().chain(within).collect()
    }
}

/// Whether a text has letters outside its places.
fn has_words(text: &str) -> bool {
    text.split('{').enumerate().any(|(i, piece)| {
        let outside = if i == 0 { piece } else { piece.split_once('}').map_or("", |p| p.1) };
        outside.contains(char::is_alphabetic)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn places(text: &str) -> BTreeSet<&str> {
        text.split('{').skip(1).filter_map(|t| t.split_once('}')).map(|t| t.0).collect()
    }

    #[test]
    fn every_table_parses_and_keeps_the_places() {
        let mut seen: BTreeMap<(&str, String), &str> = BTreeMap::new();
        for (code, room, text) in TABLES {
            let table: Table = toml::from_str(text).unwrap();
            for (english, own) in table {
                assert!(!own.is_empty(), "{code}.{room}: {english}");
                assert_eq!(places(&english), places(&own), "{code}.{room}: {english}");
                let twice = seen.insert((code, english.clone()), room);
                assert_eq!(twice, None, "{code}.{room}: {english} stands twice");
            }
        }
        assert_eq!(Words::of("de").text("PLAN"), "DRAUFSICHT");
        assert_eq!(Words::of("en").text("PLAN"), "PLAN");
    }
}
