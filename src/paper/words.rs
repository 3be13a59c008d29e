//! Fixed words of the sheets in other languages, from plain tables anybody can add to.
//!
//! `templates/words.de.toml` maps English to German. A word that a table lacks stays English.
//! Texts that come from the spec are never translated.

use std::collections::BTreeMap;

/// The tables, by language code; a new language is one file and one line here.
const TABLES: &[(&str, &str)] = &[("de", include_str!("../../templates/words.de.toml"))];

/// The words of one language.
#[derive(Debug, Clone, Default)]
pub struct Words {
    table: BTreeMap<String, String>,
}

/// Languages there are, `en` first.
pub fn languages() -> Vec<&'static str> {
    std::iter::once("en").chain(TABLES.iter().map(|t| t.0)).collect()
}

impl Words {
    /// The words of a language; an unknown one is English.
    pub fn of(language: &str) -> Self {
        let table = TABLES.iter().find(|t| t.0 == language).and_then(|t| toml::from_str(t.1).ok()).unwrap_or_default();
        Self { table }
    }

    /// The word in this language. `SECTION A–A` is looked up whole, then without its last part.
    pub fn say(&self, english: &str) -> String {
        if let Some(w) = self.table.get(english) {
            return w.clone();
        }
        if let Some((head, tail)) = english.rsplit_once(' ')
            && let Some(w) = self.table.get(head)
        {
            return format!("{w} {tail}");
        }
        english.to_string()
    }

    /// Names and remarks put together from known phrases: the longest that the table has at each word, other words as they are.
    pub fn piecewise(&self, english: &str) -> String {
        if let Some(whole) = self.table.get(english) {
            return whole.clone();
        }
        let part_of_word = |c: char| c.is_alphanumeric() || c == '-' || c == '\'';
        let mut out = String::with_capacity(english.len());
        let mut rest = english;
        while let Some(c) = rest.chars().next() {
            if !part_of_word(c) {
                out.push(c);
                rest = rest.get(c.len_utf8()..).unwrap_or_default();
                continue;
            }
            // Ends of words from here on, the farthest first.
            let ends: Vec<usize> = rest
                .char_indices()
                .zip(rest.chars().skip(1).map(Some).chain(std::iter::once(None)))
                .filter(|((_, a), b)| part_of_word(*a) && !b.is_some_and(part_of_word))
                .map(|((i, a), _)| i + a.len_utf8())
                .collect();
            let known = ends.iter().rev().find_map(|end| rest.get(..*end).and_then(|phrase| self.table.get(phrase)).map(|w| (*end, w.as_str())));
            let (end, word) = known.unwrap_or_else(|| {
                let end = ends.first().copied().unwrap_or(c.len_utf8());
                (end, rest.get(..end).unwrap_or_default())
            });
            out.push_str(word);
            rest = rest.get(end..).unwrap_or_default();
        }
        out
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn every_table_parses_and_says_something() {
        for (code, text) in TABLES {
            let table: BTreeMap<String, String> = toml::from_str(text).unwrap();
            assert!(table.len() > 20, "{code}");
            assert!(table.values().all(|v| !v.is_empty()), "{code}");
        }
        assert_eq!(Words::of("de").say("SECTION A–A"), "SCHNITT A–A");
        assert_eq!(Words::of("en").say("SECTION A–A"), "SECTION A–A");
        assert_eq!(Words::of("de").piecewise("inspection door 2, frame"), "Kontrolltür 2, Rahmen");
        assert_eq!(Words::of("de").piecewise("side plate, near to end plates"), "Seitenblech, vorn an Stirnbleche");
        assert_eq!(Words::of("en").piecewise("foot pad"), "foot pad");
    }
}
