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
    }
}
