//! Statements as data: what is said of a machine, as words and typed values; sentences are made at the very edge.
//!
//! A finding, a default's reason, the name of a part, a remark: each is a [`Statement`], a fixed text with named
//! places and the [`Value`]s that stand in them. The [`say!`](crate::say!) macro makes one and lets the compiler
//! hold names and places together:
//!
//! ```
//! use footwell::{say, say::{mm, Voice}};
//! let finding = say!("the sill at {sill} is {over} above the lowest shaft centre", sill = mm(900.0), over = mm(35.5));
//! assert_eq!(Voice::plain().say(&finding), "the sill at 900 mm is 35.5 mm above the lowest shaft centre");
//! ```
//!
//! The English text is the id of the words; `templates/words/de.*.toml` map it to another language's text with the
//! same places. A [`Voice`] knows language, units, decimal sign and the tags of openings, and prints. No text is ever
//! taken apart: a unit stands in a value, never in the words, so that it can be printed in feet as well.

pub mod figures;
pub mod number;
pub mod statement;
pub mod voice;
pub mod words;

pub use figures::{DecimalSign, Figures, LengthUnit};
pub use statement::{Amount, Statement, Value, amount, count, joined, measured, mm, n, name, opening, size};
pub use voice::Voice;
pub use words::Words;

/// A [`Statement`](crate::say::Statement): a text with named places, then each place with its value.
///
/// The compiler refuses a place without a value and a value without a place. A brace that is meant is doubled.
#[macro_export]
macro_rules! say {
    ($words:literal $(, $name:ident = $value:expr)* $(,)?) => {{
        // Never called: here format_args! compares names and places.
        const _: fn() = || {
            $(let $name = "";)*
            let _ = ::std::format_args!($words $(, $name = $name)*);
        };
        $crate::say::Statement::new($words, ::std::vec![$((::std::stringify!($name), $crate::say::Value::from($value))),*])
    }};
}
