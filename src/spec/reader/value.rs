//! Values that can stand behind a key: quantities, words, numbers, texts, outlines.
//!
//! In: one TOML value. Out: the value, or what is wrong with it and what to type. Ranges are kept by the table's reader.

use crate::diagnostics::{Code, steers};
use crate::say::Amount;
use crate::units::Quantity;
use crate::units::{Angle, AreaMass, Density, Force, Length, LineForce, Mass, MassFlow, Ratio, Speed, Stress, Time, Torque, Volume};
use toml::de::DeValue;

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
    /// As it would be written in a spec in US customary units.
    fn show_customary(&self) -> String {
        self.show()
    }
    /// As a number in base units, for ranges.
    fn number(&self) -> Option<f64> {
        None
    }
    /// As a quantity that a report prints in the job's units; `None` for what is no quantity.
    fn amount(&self) -> Option<Amount> {
        None
    }
    /// As a word that other languages may say otherwise; `None` for what is no choice.
    fn choice(&self) -> Option<&'static str> {
        None
    }
    /// What to type for a number whose unit does not fit, so that it lies between `least` and `most` (base units).
    fn meant(_written: &DeValue<'_>, _least: Option<f64>, _most: Option<f64>) -> Option<String> {
        None
    }
    /// "from … to …" in the unit that was written; `None` where that is not one to be kept.
    fn range_as_written(_written: &DeValue<'_>, _least: Option<f64>, _most: Option<f64>) -> Option<String> {
        None
    }
    /// A number in base units as it would be written, for range messages.
    fn show_number(number: f64) -> String {
        crate::units::plain_number(number, 4)
    }
}

/// A value as the user typed it; in base units as well where it was typed in others.
pub(super) fn as_typed<T: ReadValue>(written: &DeValue<'_>, value: &T) -> String {
    let shown = value.show();
    match written {
        DeValue::String(s) if format!("\"{s}\"") != shown && value.number().is_some() => format!("\"{s}\" ({})", shown.trim_matches('"')),
        _ => shown,
    }
}

pub(super) fn what_stands(value: &DeValue<'_>) -> String {
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

pub(in crate::spec) fn wrong_kind<T>(value: &DeValue<'_>, wanted: &str, hint: &str) -> Result<T, (Code, String, String)> {
    Err((Code::WrongKind, format!("{} stands where {wanted} belongs", what_stands(value)), hint.into()))
}

macro_rules! read_quantity {
    ($($t:ty),+ $(,)?) => {$(
        impl ReadValue for $t {
            fn kind() -> String { <$t as Quantity>::NAME.into() }
            fn read(value: &DeValue<'_>) -> Result<Self, (Code, String, String)> {
                let hint = format!("write it like \"{}\"", <$t as Quantity>::EXAMPLE);
                match value {
                    DeValue::String(s) => <$t as Quantity>::parse(s).map_err(|wrong| (Code::WrongUnit, wrong.why, hint)),
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
            fn show_customary(&self) -> String {
                let text = Quantity::write_customary(*self);
                if <$t as Quantity>::BARE { text } else { format!("\"{text}\"") }
            }
            fn number(&self) -> Option<f64> { Some(self.base()) }
            fn meant(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> { super::meant::meant::<$t>(written, least, most) }
            fn range_as_written(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> { super::meant::range_as_written::<$t>(written, least, most) }
            fn amount(&self) -> Option<Amount> { Some(crate::say::amount(self.base(), <$t as Quantity>::UNIT, 4)) }
            fn show_number(number: f64) -> String { <$t as Quantity>::from_base(number).show() }
        }
    )+};
}
read_quantity!(Length, Angle, MassFlow, Density, Speed, Volume, Mass, AreaMass, Force, LineForce, Stress, Time, Torque, Ratio);

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
            DeValue::String(s) => match s.chars().position(|c| steers(c) || c.is_control()) {
                None => Ok(s.to_string()),
                Some(at) => {
                    let what = s.chars().nth(at).map_or(0, u32::from);
                    Err((
                        Code::WrongKind,
                        format!("its character {} is a control character (U+{what:04X}), which no sheet shows", at + 1),
                        "write it on one line, without it".into(),
                    ))
                }
            },
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
    fn show_customary(&self) -> String {
        self.as_ref().map_or_else(|| "none".into(), T::show_customary)
    }
    fn amount(&self) -> Option<Amount> {
        self.as_ref().and_then(ReadValue::amount)
    }
    fn choice(&self) -> Option<&'static str> {
        self.as_ref().and_then(ReadValue::choice)
    }
    fn number(&self) -> Option<f64> {
        self.as_ref().and_then(T::number)
    }
    fn meant(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> {
        T::meant(written, least, most)
    }
    fn range_as_written(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> {
        T::range_as_written(written, least, most)
    }
    fn show_number(number: f64) -> String {
        T::show_number(number)
    }
}

/// A section outline: corners as pairs of lengths, in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline(pub Vec<[Length; 2]>);

impl Outline {
    fn rows(&self, show: impl Fn(&Length) -> String) -> String {
        let rows: Vec<String> = self.0.iter().map(|[a, b]| format!("[{}, {}]", show(a), show(b))).collect();
        format!("[{}]", rows.join(", "))
    }
}

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
        self.rows(Length::show)
    }
    fn show_customary(&self) -> String {
        self.rows(Length::show_customary)
    }
}
