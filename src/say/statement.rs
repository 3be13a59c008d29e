//! A statement and the values that stand in its places.
//!
//! In: words known when the program is built, numbers with their units, names. Out: data that can be compared,
//! listed as JSON and printed by a [`Voice`](super::Voice). Nothing here formats.

use crate::units::Unit;
use serde::{Serialize, Serializer};

/// A text with named places, and the value of each.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Statement {
    /// English text with places such as `{sill}`; the id of the words.
    pub words: &'static str,
    /// Values by the name of their place.
    pub values: Vec<(&'static str, Value)>,
}

/// A number with its unit, and with how many decimals at most it is said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// The number, in `unit`.
    pub value: f64,
    /// Metric unit.
    pub unit: Unit,
    /// Decimals at most; zeros at the end are left out.
    pub decimals: u8,
    /// Whether a length in mm goes without its unit, as in main dimensions (`t=5 × 1328.8`).
    pub bare: bool,
}

/// What stands in a place of a statement.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A quantity.
    Amount(Amount),
    /// A count.
    Count(i64),
    /// A name that no language changes: of the user, of a standard, a key of the spec, a thread.
    Name(String),
    /// An opening by its path in the spec (`door[1]`, `inlet.up`), printed as the tag that the sheets give it.
    Opening(String),
    /// Something said within.
    Said(Box<Statement>),
    /// Several things said, with commas between.
    All(Vec<Statement>),
    /// A unit by itself, as in the head of a column: the metric one or its US counterpart.
    Unit(Unit),
}

impl Statement {
    /// Words with their values; [`say!`](crate::say!) checks that they fit.
    pub const fn new(words: &'static str, values: Vec<(&'static str, Value)>) -> Self {
        Self { words, values }
    }
    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }
    /// A name that is the whole statement.
    pub fn named(text: impl Into<String>) -> Self {
        Self::new("{name}", vec![("name", Value::Name(text.into()))])
    }
    /// Several statements one after the other, with commas between.
    pub fn all(parts: Vec<Statement>) -> Self {
        Self::new("{all}", vec![("all", Value::All(parts))])
    }
    /// The value in a place.
    pub fn value(&self, place: &str) -> Option<&Value> {
        self.values.iter().find(|v| v.0 == place).map(|v| &v.1)
    }
}

impl From<&'static str> for Statement {
    fn from(words: &'static str) -> Self {
        Self::new(words, Vec::new())
    }
}

impl From<Amount> for Value {
    fn from(amount: Amount) -> Self {
        Self::Amount(amount)
    }
}
impl From<Unit> for Value {
    fn from(unit: Unit) -> Self {
        Self::Unit(unit)
    }
}
impl From<Statement> for Value {
    fn from(said: Statement) -> Self {
        Self::Said(Box::new(said))
    }
}
/// Fixed words, which other languages may say otherwise; a name is made with [`name`].
impl From<&'static str> for Value {
    fn from(words: &'static str) -> Self {
        Self::Said(Box::new(Statement::from(words)))
    }
}
macro_rules! count_from {
    ($($t:ty),+) => {$(impl From<$t> for Value { fn from(n: $t) -> Self { Self::Count(i64::from(n)) } })+};
}
count_from!(u8, u16, u32, i32, i64);
impl From<usize> for Value {
    fn from(n: usize) -> Self {
        Self::Count(i64::try_from(n).unwrap_or(i64::MAX))
    }
}

/// A length in mm, said with at most one decimal.
pub const fn mm(value: f64) -> Amount {
    amount(value, Unit::Mm, 1)
}
/// A length in mm of a main dimension: without its unit where millimetres are written, with at most this many decimals.
pub const fn size(value: f64, decimals: u8) -> Amount {
    Amount { value, unit: Unit::Mm, decimals, bare: true }
}
/// A quantity with at most this many decimals.
pub const fn amount(value: f64, unit: Unit, decimals: u8) -> Amount {
    Amount { value, unit, decimals, bare: false }
}
/// A measured or computed quantity, with about four figures that count.
pub fn measured(value: f64, unit: Unit) -> Amount {
    amount(value, unit, figures_that_count(value))
}
/// Decimals that leave about four figures that count; thousands are kept whole.
fn figures_that_count(value: f64) -> u8 {
    match value.abs() {
        v if v == 0.0 || v >= 1000.0 => 0,
        v if v >= 100.0 => 1,
        v if v >= 1.0 => 2,
        v if v >= 0.1 => 3,
        v if v >= 0.001 => 5,
        _ => 7,
    }
}
/// A plain number with at most this many decimals.
pub const fn n(value: f64, decimals: u8) -> Amount {
    amount(value, Unit::One, decimals)
}
/// A name that no language changes.
pub fn name(text: impl ToString) -> Value {
    Value::Name(text.to_string())
}
/// A count of anything.
pub fn count(number: usize) -> Value {
    Value::from(number)
}
/// An opening, by its path in the spec.
pub fn opening(path: impl Into<String>) -> Value {
    Value::Opening(path.into())
}
/// Several things said, with commas between.
pub fn joined(parts: impl IntoIterator<Item = Statement>) -> Value {
    Value::All(parts.into_iter().collect())
}

impl Serialize for Amount {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        #[derive(Serialize)]
        struct Plain {
            value: f64,
            unit: Unit,
        }
        Plain { value: self.value, unit: self.unit }.serialize(out)
    }
}

impl Serialize for Value {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Amount(amount) => amount.serialize(out),
            Self::Count(n) => out.serialize_i64(*n),
            Self::Name(text) | Self::Opening(text) => out.serialize_str(text),
            Self::Said(said) => said.serialize(out),
            Self::All(all) => all.serialize(out),
            Self::Unit(unit) => unit.serialize(out),
        }
    }
}

impl Serialize for Statement {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeMap;
        let mut map = out.serialize_map(Some(2))?;
        map.serialize_entry("words", self.words)?;
        let values: std::collections::BTreeMap<_, _> = self.values.iter().map(|(place, value)| (*place, value)).collect();
        map.serialize_entry("values", &values)?;
        map.end()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_and_values() {
        let s = crate::say!("{count} rungs at {pitch}", count = 9_u32, pitch = mm(280.0));
        assert_eq!(s.value("count"), Some(&Value::Count(9)));
        assert_eq!(serde_json::to_string(&s).unwrap(), r#"{"words":"{count} rungs at {pitch}","values":{"count":9,"pitch":{"value":280.0,"unit":"mm"}}}"#);
    }
}
