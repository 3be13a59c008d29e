//! Fixed words in other languages, from plain tables anybody can add to.
//!
//! `templates/words/de.*.toml` map English to German, a file a room. A text with places such as `{sill}` is mapped whole
//! to one with the same places, in the order that the language wants. A text that a table lacks stays English.
//! Texts that come from the spec are never translated.
//!
//! English has two tables more, which hold only what differs: `customary.toml` for texts with figures among their words
//! where US customary units are written, `us.toml` for sentences of US jobs; and `us.spelling.toml`, which changes single
//! words in whatever a US job says.

use super::statement::{Statement, Value};
use std::borrow::Cow;
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
    (CUSTOMARY, "figures in words", include_str!("../../templates/words/customary.toml")),
    (AMERICAN, "sentences", include_str!("../../templates/words/us.toml")),
];

/// Tag of English as US jobs write it (BCP 47).
pub const AMERICAN: &str = "en-US";
/// English where US customary units are written: a table like that of a language, but no language to choose.
const CUSTOMARY: &str = "customary";

type Table = BTreeMap<String, String>;

static LANGUAGES: LazyLock<BTreeMap<&str, Table>> = LazyLock::new(|| {
    let mut all: BTreeMap<&str, Table> = BTreeMap::new();
    for (code, _, text) in TABLES {
        let table: Table = toml::from_str(text).unwrap_or_default();
        all.entry(code).or_default().extend(table);
    }
    all
});

/// Words in British spelling or of the European trade, lower case, and what a US office writes; the longest first.
static SPELLING: LazyLock<Vec<(String, String)>> = LazyLock::new(|| {
    let table: Table = toml::from_str(include_str!("../../templates/words/us.spelling.toml")).unwrap_or_default();
    let mut all: Vec<(String, String)> = table.into_iter().collect();
    all.sort_by_key(|(word, _)| std::cmp::Reverse(word.len()));
    all
});

/// The words of one language.
#[derive(Debug, Clone, Copy, Default)]
pub struct Words {
    /// Table of the language, whole.
    table: Option<&'static Table>,
    /// Tables of what English says otherwise, the first that has a text counts.
    other_english: [Option<&'static Table>; 2],
    /// Whether English is spelled as in the US.
    american: bool,
}

impl Words {
    /// The words of a language by its tag; an unknown one is English.
    pub fn of(tag: &str) -> Self {
        match tag {
            AMERICAN => Self { other_english: [LANGUAGES.get(AMERICAN), None], american: true, ..Self::default() },
            _ => Self { table: LANGUAGES.get(tag), ..Self::default() },
        }
    }

    /// The same words with the figures of US customary units in the few English texts that have figures among their words.
    pub fn customary(self) -> Self {
        match self.table {
            None => Self { other_english: [self.other_english[0], LANGUAGES.get(CUSTOMARY)], ..self },
            Some(_) => self,
        }
    }

    /// The text in this language.
    pub fn text<'a>(&self, english: &'a str) -> Cow<'a, str>
    where
        'static: 'a,
    {
        let own = self.table.into_iter().chain(self.other_english.into_iter().flatten()).find_map(|t| t.get(english));
        let text = own.map_or(english, String::as_str);
        if self.american { respelled(text) } else { Cow::Borrowed(text) }
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

/// A text in US spelling. Places in braces and keys of the spec (`shaft.bearing_centres`) stay as they are.
fn respelled(text: &str) -> Cow<'_, str> {
    let part_of_word = |c: char| c.is_alphanumeric() || c == '_';
    let lower = text.to_ascii_lowercase();
    let mut out = String::new();
    let (mut done, mut at, mut before) = (0, 0, ' ');
    while let Some(c) = text[at..].chars().next() {
        let mut next = at + c.len_utf8();
        if c == '{' {
            next = text[at..].find('}').map_or(text.len(), |end| at + end + 1);
        } else if part_of_word(c) && !part_of_word(before) && before != '.' {
            let ends = |word: &str| {
                let mut after = text[at + word.len()..].chars();
                let (first, second) = (after.next(), after.next());
                !(first.is_some_and(part_of_word) || first == Some('.') && second.is_some_and(char::is_alphanumeric))
            };
            if let Some((word, own)) = SPELLING.iter().find(|(word, _)| lower[at..].starts_with(word.as_str()) && ends(word)) {
                next = at + word.len();
                out.push_str(&text[done..at]);
                out.push_str(&in_case_of(&text[at..next], own));
                done = next;
            }
        }
        before = text[..next].chars().next_back().unwrap_or(' ');
        at = next;
    }
    if done == 0 {
        return Cow::Borrowed(text);
    }
    out.push_str(&text[done..]);
    Cow::Owned(out)
}

/// A word in capitals, or with one at its beginning, as another is written.
fn in_case_of(written: &str, word: &str) -> String {
    let mut letters = written.chars().filter(|c| c.is_alphabetic());
    match (letters.next().is_some_and(char::is_uppercase), letters.next().is_none_or(char::is_uppercase)) {
        (true, true) => word.to_uppercase(),
        (true, false) => word[..1].to_uppercase() + &word[1..],
        (false, _) => word.to_string(),
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

    /// Merriam-Webster's spellings; keys and places are no words.
    #[test]
    fn english_of_the_us() {
        let us = Words::of(AMERICAN);
        for (british, american) in [
            ("bearing centres {centres} apart", "bearing centers {centres} apart"),
            ("Centre of the neighbouring part", "Center of the neighboring part"),
            ("CENTRE HOLE", "CENTER HOLE"),
            ("give shaft.bearing_centres more; see centre.", "give shaft.bearing_centres more; see center."),
            ("concentred, ⌀{d}", "concentred, ⌀{d}"),
        ] {
            assert_eq!(us.text(british), american);
            assert_eq!(Words::of("en").text(british), british);
        }
        let figure = "at least 200 mm of concrete over an opening";
        assert_eq!(us.customary().text(figure), "at least 8 in of concrete over an opening");
        assert_eq!(us.text(figure), figure);
    }

    #[test]
    fn spelling_changes_words_of_small_letters() {
        assert!(!SPELLING.is_empty());
        for (word, own) in SPELLING.iter() {
            assert!(!own.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c == ' ' || c == '-'), "{word}");
            assert!(own.is_ascii(), "{own}");
        }
    }
}
