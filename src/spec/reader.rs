//! How one TOML table becomes a struct: leaves with spans, unknown keys caught, units read, ranges kept.
//!
//! [`spec_table!`] declares a table once; from it come the struct *as asked* (every key may be absent),
//! the struct *as settled* (every key has a value and says where it came from), the reader, and the
//! registry of keys that README and help print. A leaf that cannot be read becomes [`Leaf::Bad`] and a
//! message, so that all messages of a spec are reported together. Nothing here knows the machine.

use crate::diagnostics::{Code, Diagnostic, Diagnostics, Span};
use crate::say::{Amount, Statement, Voice};
use crate::sources::Source;
use crate::units::Quantity;
use std::ops::Deref;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// What stands behind a key in the spec as the user wrote it.
#[derive(Debug, Clone, Default, PartialEq)]
pub enum Leaf<T> {
    /// The key is not there.
    #[default]
    Absent,
    /// It is there and cannot be used; a message has been written.
    Bad(Span),
    /// A value, and where it stands.
    Given(T, Span),
}

impl<T: Clone> Leaf<T> {
    /// The value, if there is one.
    pub fn value(&self) -> Option<T> {
        match self {
            Leaf::Given(v, _) => Some(v.clone()),
            _ => None,
        }
    }
    /// Where it stands, good or bad.
    pub fn span(&self) -> Option<Span> {
        match self {
            Leaf::Absent => None,
            Leaf::Bad(s) | Leaf::Given(_, s) => Some(s.clone()),
        }
    }
    /// Whether the key is not there at all.
    pub fn is_absent(&self) -> bool {
        matches!(self, Leaf::Absent)
    }
}

/// Where a settled value came from.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// From the spec, at this place.
    Given(Span),
    /// Decided by rule.
    Default {
        /// Why this value, in one sentence with its numbers.
        reason: Statement,
        /// What stands behind the rule.
        source: Source,
    },
}

/// A settled value: use it like the value itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen<T> {
    /// The value.
    pub value: T,
    /// Where it came from.
    pub origin: Origin,
}

impl<T> Deref for Chosen<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T: Clone> Chosen<T> {
    /// The asked value, or the default with its reason.
    pub fn or(asked: &Leaf<T>, default: T, source: Source, reason: impl Into<Statement>) -> Self {
        match asked {
            Leaf::Given(v, s) => Self { value: v.clone(), origin: Origin::Given(s.clone()) },
            _ => Self { value: default, origin: Origin::Default { reason: reason.into(), source } },
        }
    }
    /// Whether the user gave it.
    pub fn is_given(&self) -> bool {
        matches!(self.origin, Origin::Given(_))
    }
    /// Where it stands in the spec, if it was given.
    pub fn span(&self) -> Option<Span> {
        match &self.origin {
            Origin::Given(s) => Some(s.clone()),
            Origin::Default { .. } => None,
        }
    }
}

/// A value that can stand behind a key.
pub trait ReadValue: Sized + Clone {
    /// What kind of value, for the key table.
    fn kind() -> String;
    /// Reads it; the error says the sort of problem, what is wrong, and what to type.
    ///
    /// # Errors
    /// Code, message and hint when the value is of another kind, unit or word.
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)>;
    /// As it would be written in a spec.
    fn show(&self) -> String;
    /// As a number in base units, for ranges.
    fn number(&self) -> Option<f64> {
        None
    }
    /// As a quantity that a report prints in the job's units; `None` for what is no quantity.
    fn amount(&self) -> Option<Amount> {
        None
    }
    /// A number in base units as it would be written, for range messages.
    fn show_number(number: f64) -> String {
        crate::units::plain_number(number, 4)
    }
}

fn what_stands(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(s) => format!("the text \"{s}\""),
        DeValue::Integer(i) => format!("the number {i}"),
        DeValue::Float(f) => format!("the number {f}"),
        DeValue::Boolean(b) => format!("{b}"),
        DeValue::Datetime(d) => format!("the date {d}"),
        DeValue::Array(_) => "a list".into(),
        DeValue::Table(_) => "a table".into(),
    }
}

pub(super) fn wrong_kind<T>(value: &DeValue<'_>, wanted: &str, hint: &str) -> Result<T, (Code, String, String)> {
    Err((Code::WrongKind, format!("{} stands where {wanted} belongs", what_stands(value)), hint.into()))
}

macro_rules! read_quantity {
    ($($t:ty),+ $(,)?) => {$(
        impl ReadValue for $t {
            fn kind() -> String { <$t as Quantity>::NAME.into() }
            fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
                let hint = format!("write it like \"{}\"", <$t as Quantity>::EXAMPLE);
                match value {
                    DeValue::String(s) => <$t as Quantity>::parse(s).map_err(|why| (Code::WrongUnit, why, hint)),
                    DeValue::Integer(i) if <$t as Quantity>::BARE => i.as_str().parse().map(<$t as Quantity>::from_base).map_err(|_| (Code::WrongKind, "not a decimal number".into(), hint)),
                    DeValue::Float(f) if <$t as Quantity>::BARE => f.as_str().parse().map(<$t as Quantity>::from_base).map_err(|_| (Code::WrongKind, "not a decimal number".into(), hint)),
                    DeValue::Integer(_) | DeValue::Float(_) => Err((Code::WrongUnit, format!("{} has no unit; {} needs one", what_stands(value), crate::units::with_article(<$t as Quantity>::NAME)), hint)),
                    other => wrong_kind(other, "a quantity", &hint),
                }
            }
            fn show(&self) -> String {
                let text = Quantity::write(*self, 4);
                if <$t as Quantity>::BARE { text } else { format!("\"{text}\"") }
            }
            fn number(&self) -> Option<f64> { Some(self.base()) }
            fn amount(&self) -> Option<Amount> { Some(crate::say::amount(self.base(), <$t as Quantity>::UNIT, 4)) }
            fn show_number(number: f64) -> String { <$t as Quantity>::from_base(number).show() }
        }
    )+};
}
use crate::units::{Angle, AreaMass, Density, Force, Length, LineForce, Mass, MassFlow, Ratio, Speed, Stress, Time, Volume};
read_quantity!(Length, Angle, MassFlow, Density, Speed, Volume, Mass, AreaMass, Force, LineForce, Stress, Time, Ratio);

impl ReadValue for bool {
    fn kind() -> String {
        "true or false".into()
    }
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
        match value {
            DeValue::Boolean(b) => Ok(*b),
            other => wrong_kind(other, "true or false", "write true or false, without quotes"),
        }
    }
    fn show(&self) -> String {
        self.to_string()
    }
}

impl ReadValue for u32 {
    fn kind() -> String {
        "whole number".into()
    }
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
        match value {
            DeValue::Integer(i) => {
                i.as_str().parse().map_err(|_| (Code::WrongKind, format!("{i} is not a whole number from 0 up"), "write a whole number, without quotes".into()))
            }
            other => wrong_kind(other, "a whole number", "write a whole number, without quotes"),
        }
    }
    fn show(&self) -> String {
        self.to_string()
    }
    fn number(&self) -> Option<f64> {
        Some(f64::from(*self))
    }
}

impl ReadValue for String {
    fn kind() -> String {
        "text".into()
    }
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
        match value {
            DeValue::String(s) => Ok(s.to_string()),
            other => wrong_kind(other, "a text", "write it in quotes"),
        }
    }
    fn show(&self) -> String {
        toml::Value::String(self.clone()).to_string()
    }
}

impl<T: ReadValue> ReadValue for Option<T> {
    fn kind() -> String {
        T::kind()
    }
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
        T::read(value).map(Some)
    }
    fn show(&self) -> String {
        self.as_ref().map_or_else(|| "none".into(), T::show)
    }
    fn amount(&self) -> Option<Amount> {
        self.as_ref().and_then(ReadValue::amount)
    }
    fn number(&self) -> Option<f64> {
        self.as_ref().and_then(T::number)
    }
    fn show_number(number: f64) -> String {
        T::show_number(number)
    }
}

/// A section outline: corners as pairs of lengths, in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline(pub Vec<[Length; 2]>);

impl ReadValue for Outline {
    fn kind() -> String {
        "list of [length, length]".into()
    }
    fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
        let hint = "write corners like [[\"0 mm\", \"0 mm\"], [\"120 mm\", \"40 mm\"], …]";
        let DeValue::Array(rows) = value else { return wrong_kind(value, "a list of corners", hint) };
        let mut corners = Vec::new();
        for row in rows.iter() {
            let pair = match row.get_ref() {
                DeValue::Array(pair) => pair,
                other => return wrong_kind(other, "a pair of lengths", hint),
            };
            let mut pair = pair.iter();
            match (pair.next(), pair.next(), pair.next()) {
                (Some(a), Some(b), None) => corners.push([Length::read(a.get_ref())?, Length::read(b.get_ref())?]),
                _ => return Err((Code::WrongKind, "a corner has two lengths".into(), hint.into())),
            }
        }
        if corners.len() < 3 {
            return Err((Code::WrongKind, "an outline needs three corners or more".into(), hint.into()));
        }
        Ok(Self(corners))
    }
    fn show(&self) -> String {
        let rows: Vec<String> = self.0.iter().map(|[a, b]| format!("[{}, {}]", a.show(), b.show())).collect();
        format!("[{}]", rows.join(", "))
    }
}

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
                Self::ALL.iter().copied().find(|w| w.word() == text.as_ref()).ok_or_else(|| (
                    Code::UnknownWord,
                    format!("\"{text}\" is not among the choices"),
                    $crate::spec::reader::did_you_mean(text, Self::ALL.iter().map(|w| w.word())).map_or_else(
                        || format!("write {}", Self::kind()),
                        |near| format!("did you mean \"{near}\"? The choices are {}", Self::kind()),
                    ),
                ))
            }
            fn show(&self) -> String { format!("\"{}\"", self.word()) }
        }
    };
}
pub(crate) use words;

/// The nearest word, if it is near enough to be meant.
pub fn did_you_mean<'a>(typed: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known.map(|word| (strsim::damerau_levenshtein(typed, word), word)).filter(|(distance, word)| *distance <= 2.max(word.len() / 3)).min().map(|(_, word)| word)
}

/// One key of the spec, for help and README.
#[derive(Debug, Clone)]
pub struct Key {
    /// Full path, e.g. `inlet.up.sill`.
    pub path: String,
    /// Kind of value.
    pub kind: String,
    /// Smallest sensible value in base units.
    pub least: Option<f64>,
    /// Largest sensible value in base units.
    pub most: Option<f64>,
    /// The range as it would be written.
    pub range: String,
    /// What it is.
    pub about: String,
}

/// One settled value, for the list of inputs and defaults.
#[derive(Debug, Clone)]
pub struct SettledLine {
    /// Full path.
    pub path: String,
    /// The value as it would be written.
    pub value: String,
    /// The value as a quantity, where it is one.
    pub amount: Option<Amount>,
    /// Where it came from.
    pub origin: Origin,
}

impl SettledLine {
    /// The value as a report prints it: quantities in the units of the job, all else as it would be written.
    pub fn shown(&self, voice: &Voice) -> String {
        self.amount.map_or_else(|| self.value.clone(), |amount| voice.amount(amount))
    }
}

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
                self.out.push(Diagnostic::error(code, &path, Some(span.clone()), format!("{path}: {why}"), hint));
                Leaf::Bad(span)
            }
            Ok(value) => {
                let number = value.number();
                let low = least.zip(number).is_some_and(|(l, n)| n < l);
                let high = most.zip(number).is_some_and(|(m, n)| n > m);
                if low || high || number.is_some_and(|n| !n.is_finite()) {
                    let bounds = range_text::<T>(least, most);
                    self.out.push(Diagnostic::error(
                        Code::OutOfRange,
                        &path,
                        Some(span.clone()),
                        format!("{path} = {} is outside the sensible range", value.show()),
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

/// "from … to …" as it would be written.
pub fn range_text<T: ReadValue>(least: Option<f64>, most: Option<f64>) -> String {
    match (least, most) {
        (Some(l), Some(m)) => format!("from {} to {}", T::show_number(l), T::show_number(m)),
        (Some(l), None) => format!("of {} or more", T::show_number(l)),
        (None, Some(m)) => format!("of {} or less", T::show_number(m)),
        (None, None) => String::new(),
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

/// All tables of a list `[[key]]`.
pub fn table_list<'a, 'i>(parent: &'a DeTable<'i>, key: &str, out: &mut Diagnostics) -> Vec<(&'a DeTable<'i>, Span)> {
    let Some(found) = parent.get(key) else { return Vec::new() };
    let mut list = Vec::new();
    match found.get_ref() {
        DeValue::Array(rows) => {
            for row in rows.iter() {
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

/// Declares one table of the spec: struct as asked, struct as settled, reader, key list.
macro_rules! spec_table {
    ($(#[$doc:meta])* $name:ident, $asked:ident, $path:literal, {
        $($(#[doc = $kdoc:literal])+ $key:ident : $t:ty $(, $least:literal ..= $most:literal)?);+ $(;)?
    }) => {
        $(#[$doc])*
        ///
        /// Settled: every key has a value and says where it came from.
        #[derive(Debug, Clone, PartialEq)]
        pub struct $name { $($(#[doc = $kdoc])+ pub $key: $crate::spec::reader::Chosen<$t>),+ }

        $(#[$doc])*
        ///
        /// As asked: keys may be absent.
        #[derive(Debug, Clone, Default, PartialEq)]
        pub struct $asked {
            /// Where the table stands, if it does.
            pub span: Option<$crate::diagnostics::Span>,
            $($(#[doc = $kdoc])+ pub $key: $crate::spec::reader::Leaf<$t>),+
        }

        impl $asked {
            /// Reads the table.
            pub fn read(found: Option<(&toml::de::DeTable<'_>, $crate::diagnostics::Span)>, path: &str, out: &mut $crate::diagnostics::Diagnostics) -> Self {
                let (table, span) = match found { Some((t, s)) => (Some(t), Some(s)), None => (None, None) };
                let mut reader = $crate::spec::reader::TableReader::new(table, path, out);
                let this = Self {
                    span,
                    $($key: {
                        #[allow(unused_mut, unused_assignments)]
                        let (mut least, mut most): (Option<f64>, Option<f64>) = (None, None);
                        $(least = Some($least); most = Some($most);)?
                        reader.leaf(stringify!($key), least, most)
                    }),+
                };
                reader.finish();
                this
            }

            /// The registry of its keys.
            pub fn keys(path: &str) -> Vec<$crate::spec::reader::Key> {
                use $crate::spec::reader::ReadValue;
                vec![$({
                    #[allow(unused_mut, unused_assignments)]
                    let (mut least, mut most): (Option<f64>, Option<f64>) = (None, None);
                    $(least = Some($least); most = Some($most);)?
                    $crate::spec::reader::Key {
                        path: format!("{path}.{}", stringify!($key)),
                        kind: <$t>::kind(),
                        least,
                        most,
                        range: $crate::spec::reader::range_text::<$t>(least, most),
                        about: [$($kdoc),+].iter().map(|line| line.trim()).collect::<Vec<_>>().join(" "),
                    }
                }),+]
            }
        }

        impl $name {
            /// Every value with its origin, in the order of the keys.
            pub fn settled_lines(&self, path: &str) -> Vec<$crate::spec::reader::SettledLine> {
                use $crate::spec::reader::ReadValue;
                vec![$($crate::spec::reader::SettledLine {
                    path: format!("{path}.{}", stringify!($key)),
                    value: self.$key.value.show(),
                    amount: self.$key.value.amount(),
                    origin: self.$key.origin.clone(),
                }),+]
            }
        }
    };
}
pub(crate) use spec_table;
