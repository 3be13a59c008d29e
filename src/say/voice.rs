//! Prints statements in the language, units and figures of one job.
//!
//! In: a [`Statement`] or an [`Amount`]. Out: text for console, sheet, report, CSV and JSON alike; all of them ask the
//! same voice, so a length is written the same way everywhere.

use super::figures::{DecimalSign, Figures, LengthUnit};
use super::number;
use super::statement::{Amount, Statement, Value};
use super::words::Words;
use crate::units::{MM_PER_INCH, Unit};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// Language, figures and tags of a job.
#[derive(Debug, Clone, Default)]
pub struct Voice {
    /// Fixed words.
    pub words: Words,
    /// Units and decimal sign.
    pub figures: Figures,
    /// Tag of each opening by its path in the spec; an opening without one is printed as its path.
    tags: BTreeMap<String, String>,
}

impl Voice {
    /// Whether it writes US customary units.
    pub fn customary(&self) -> bool {
        self.figures.customary()
    }

    /// A voice without tags, in the language of a tag: `en`, `en-US`, `de`.
    pub fn new(language: &str, figures: Figures) -> Self {
        let words = Words::of(language);
        let words = if figures.customary() { words.customary() } else { words };
        Self { words, figures, tags: BTreeMap::new() }
    }

    /// English, millimetres, decimal point.
    pub fn plain() -> Self {
        Self::default()
    }

    /// The same voice with the tags of the openings.
    pub fn with_tags(mut self, tags: impl IntoIterator<Item = (String, String)>) -> Self {
        self.tags = tags.into_iter().collect();
        self
    }

    /// The tag of an opening; its path in the spec where it has none.
    pub fn tag<'a>(&'a self, path: &'a str) -> &'a str {
        self.tags.get(path).map_or(path, String::as_str)
    }

    /// The same voice in millimetres and the other metric units, whatever the job writes.
    pub fn metric(&self) -> Self {
        Self { figures: Figures { unit: LengthUnit::Mm, ..self.figures }, ..self.clone() }
    }

    /// The same voice with decimal points: for files that programs read.
    pub fn pointed(&self) -> Self {
        Self { figures: Figures { decimal: DecimalSign::Point, ..self.figures }, ..self.clone() }
    }

    /// A statement as text.
    pub fn say(&self, said: &Statement) -> String {
        let mut out = String::new();
        self.write(said, &mut out);
        out
    }

    /// A fixed text.
    pub fn word(&self, english: &'static str) -> Cow<'static, str> {
        self.words.text(english)
    }

    fn write(&self, said: &Statement, out: &mut String) {
        let text = self.words.text(said.words);
        let mut rest: &str = &text;
        while let Some(at) = rest.find(['{', '}']) {
            let (before, from) = rest.split_at(at);
            out.push_str(before);
            // A doubled brace is one that is meant.
            if let Some(after) = from.strip_prefix("{{").or(from.strip_prefix("}}")) {
                out.push_str(&from[..1]);
                rest = after;
                continue;
            }
            let Some((place, after)) = from.strip_prefix('{').and_then(|f| f.split_once('}')) else {
                out.push_str(&from[..1]);
                rest = &from[1..];
                continue;
            };
            match said.value(place) {
                Some(value) => self.write_value(value, out),
                None => out.push_str(place),
            }
            rest = after;
        }
        out.push_str(rest);
    }

    fn write_value(&self, value: &Value, out: &mut String) {
        match value {
            Value::Amount(amount) => out.push_str(&self.amount(*amount)),
            Value::Count(n) => out.push_str(&n.to_string()),
            Value::Name(text) => out.push_str(text),
            Value::Opening(path) => out.push_str(self.tag(path)),
            Value::Said(said) => self.write(said, out),
            Value::All(all) => {
                for (i, one) in all.iter().enumerate() {
                    if i > 0 {
                        out.push_str(", ");
                    }
                    self.write(one, out);
                }
            }
            Value::Unit(unit) => out.push_str(self.unit(*unit)),
        }
    }

    /// A unit as the job writes it.
    pub fn unit(&self, unit: Unit) -> &'static str {
        match unit.customary() {
            Some((_, symbol)) if self.figures.customary() => symbol,
            _ => unit.symbol(),
        }
    }

    /// A quantity in the units of the job.
    pub fn amount(&self, amount: Amount) -> String {
        let (figure, unit) = self.figure_and_unit(amount);
        with_unit(figure, unit)
    }

    /// A length in inches: in fractions, unless they would hide a good part of a small one.
    fn length(&self, mm: f64) -> String {
        let read = number::as_read(mm, &self.figures, number::Written::default());
        if self.figures.unit == LengthUnit::InchFraction && (read - mm).abs() > HIDDEN * mm.abs() {
            return format!("{}\"", number::trimmed(mm / MM_PER_INCH, 4, &self.figures));
        }
        number::length(mm, &self.figures)
    }

    /// The same in two parts, for tables with a column each; the unit is empty where the figure says it (`7'-6 1/2"`).
    pub fn figure_and_unit(&self, amount: Amount) -> (String, &'static str) {
        let Amount { value, unit, decimals, bare } = amount;
        if !value.is_finite() {
            return ("–".into(), "");
        }
        let trimmed = |value: f64| number::trimmed(value, usize::from(decimals), &self.figures);
        if self.figures.unit == LengthUnit::Mm {
            return (trimmed(value), if bare { "" } else { unit.symbol() });
        }
        match (unit, unit.customary()) {
            (Unit::Mm, _) => (self.length(value), ""),
            (Unit::M, _) => (self.length(value * 1000.0), ""),
            (_, Some((factor, symbol))) => (number::three_figures(value * factor, &self.figures), symbol),
            (_, None) => (trimmed(value), unit.symbol()),
        }
    }
}

/// Share of a length that fractions of an inch may hide.
const HIDDEN: f64 = 0.1;

fn with_unit(figure: String, symbol: &str) -> String {
    match symbol {
        "" => figure,
        "°" => format!("{figure}°"),
        _ => format!("{figure} {symbol}"),
    }
}

impl Statement {
    /// In English and metric units, without tags: for tests and logs. What people read is printed by a
    /// [`Voice`].
    pub fn plainly(&self) -> String {
        Voice::plain().say(self)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{amount, joined, measured, mm, n, name, opening, size};
    use super::*;
    use crate::say;

    fn voices() -> [Voice; 4] {
        let us = Figures::us();
        [
            Voice::plain(),
            Voice::new("en", us),
            Voice::new("en", Figures { unit: LengthUnit::InchDecimal, ..us }),
            Voice::new("de", Figures { decimal: DecimalSign::Comma, ..Figures::default() }),
        ]
    }

    /// 304.8 mm are a foot, 1 m/s = 196.85 ft/min, 100 t/h = 110.23 short tons an hour, 1 MPa = 145.04 psi (NIST SP 811).
    #[test]
    fn one_statement_in_four_voices() {
        let s = say!(
            "the throat is {width} wide, runs {speed} with {flow} at {stress}, {share} full, M10 after {standard}",
            width = mm(304.8),
            speed = amount(3.0, Unit::MPerS, 2),
            flow = amount(100.0, Unit::TPerH, 1),
            stress = amount(1.5, Unit::Mpa, 1),
            share = amount(75.0, Unit::Percent, 0),
            standard = name("ISO 13857"),
        );
        let said = voices().map(|v| v.say(&s));
        assert_eq!(said[0], "the throat is 304.8 mm wide, runs 3 m/s with 100 t/h at 1.5 MPa, 75 % full, M10 after ISO 13857");
        assert_eq!(said[1], "the throat is 1'-0\" wide, runs 591 ft/min with 110 st/h at 218 psi, 75 % full, M10 after ISO 13857");
        assert_eq!(said[2], "the throat is 12.00\" wide, runs 591 ft/min with 110 st/h at 218 psi, 75 % full, M10 after ISO 13857");
        assert_eq!(said[3], "the throat is 304,8 mm wide, runs 3 m/s with 100 t/h at 1,5 MPa, 75 % full, M10 after ISO 13857");
    }

    #[test]
    fn main_dimensions() {
        let s = say!("t={t} × {length}, {n} × {angle}", t = size(6.35, 2), length = size(1219.2, 1), n = 3_u32, angle = amount(45.0, Unit::Degree, 1));
        let said = voices().map(|v| v.say(&s));
        assert_eq!(said[0], "t=6.35 × 1219.2, 3 × 45°");
        assert_eq!(said[1], "t=1/4\" × 4'-0\", 3 × 45°");
        assert_eq!(said[3], "t=6,35 × 1219,2, 3 × 45°");
    }

    #[test]
    fn tags_lists_and_braces() {
        let s = say!("{door} and {{NUMBER}}: {all} {share}", door = opening("door[1]"), all = joined([say!("PLAN"), say!("ELEVATION")]), share = n(0.5, 3));
        assert_eq!(Voice::plain().say(&s), "door[1] and {NUMBER}: PLAN, ELEVATION 0.5");
        let german = Voice::new("de", Figures::default()).with_tags([("door[1]".into(), "D1".into())]);
        assert_eq!(german.say(&s), "D1 and {NUMBER}: DRAUFSICHT, ANSICHT 0.5");
    }

    #[test]
    fn measured_numbers_are_readable() {
        for (value, text) in [(0.0, "0"), (12_345.6, "12346"), (123.44, "123.4"), (2.6, "2.6"), (0.0023, "0.0023"), (0.753, "0.753"), (-1850.0, "−1850")] {
            assert_eq!(Voice::plain().amount(measured(value, Unit::One)), text);
        }
        assert_eq!(voices()[1].figure_and_unit(measured(2298.7, Unit::Mm)), ("7'-6 1/2\"".into(), ""));
        assert_eq!(voices()[3].figure_and_unit(measured(2.61, Unit::MPerS)), ("2,61".into(), "m/s"));
    }

    #[test]
    fn what_is_not_a_number_is_a_dash() {
        assert_eq!(Voice::plain().amount(mm(f64::INFINITY)), "–");
    }
}
