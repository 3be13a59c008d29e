//! Choices that are typed as a word, and the word that was meant.
//!
//! In: what the user typed. Out: the choice, or the nearest word there is.

/// Declares an enum of words as they are typed in the spec.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$vdoc])* $variant),+ }
        impl $name {
            /// All choices.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// As typed in the spec.
            pub const fn word(self) -> &'static str { match self { $(Self::$variant => $word),+ } }
        }
        impl $crate::spec::reader::ReadValue for $name {
            fn kind() -> String {
                let words: Vec<String> = Self::ALL.iter().map(|w| format!("\"{}\"", w.word())).collect();
                words.join(" or ")
            }
            fn read(value: &toml::de::DeValue<'_>) -> Result<Self, ($crate::diagnostics::Code, String, String)> {
                use $crate::diagnostics::Code;
                let toml::de::DeValue::String(text) = value else {
                    return Err((Code::WrongKind, "a word in quotes belongs here".into(), format!("write {}", Self::kind())));
                };
                use $crate::spec::synonyms::{meant_choice, plain};
                let typed = plain(text);
                Self::ALL.iter().copied().find(|w| plain(w.word()) == typed).ok_or_else(|| (
                    Code::UnknownWord,
                    format!("\"{text}\" is not among the choices"),
                    meant_choice(text, |choice| Self::ALL.iter().any(|w| w.word() == choice)).or_else(|| $crate::spec::reader::did_you_mean(text, Self::ALL.iter().map(|w| w.word()))).map_or_else(
                        || format!("write {}", Self::kind()),
                        |near| format!("did you mean \"{near}\"? The choices are {}", Self::kind()),
                    ),
                ))
            }
            fn choice(&self) -> Option<&'static str> { Some($name::word(*self)) }
            fn show(&self) -> String { format!("\"{}\"", $name::word(*self)) }
        }
    };
}
pub(crate) use words;

/// The nearest word, if it is near enough to be meant.
pub fn did_you_mean<'a>(typed: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known.map(|word| (strsim::damerau_levenshtein(typed, word), word)).filter(|(distance, word)| *distance <= 2.max(word.len() / 3)).min().map(|(_, word)| word)
}
