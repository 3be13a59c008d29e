//! A list as data: heads with their units, rows of typed cells; printed at the edge.
//!
//! In: what [`super`] puts together. Out: text for paper and CSV in the language and units of a [`Voice`], numbers and
//! words for JSON. Every cell is exact until it is printed, so nothing is rounded twice.

use crate::say::{Amount, Statement, Voice, number};
use crate::units::{Unit, plain_number};
use serde_json::{Map, Value};

/// A list: column heads, then rows.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Stem of its files, e.g. `parts_list`.
    pub id: &'static str,
    /// Title as on paper.
    pub title: Statement,
    /// Column heads.
    pub heads: Vec<Head>,
    /// Rows, as many cells as heads.
    pub rows: Vec<Vec<Cell>>,
    /// Whether it stays in metric units in every job, as the cutting files that it tells of do.
    pub metric: bool,
}

/// The head of a column.
#[derive(Debug, Clone, PartialEq)]
pub struct Head {
    /// Stable name for programs: English words and the metric unit, e.g. `kg each`.
    pub key: &'static str,
    /// Words, with the unit of the figures below.
    pub said: Statement,
    /// Words where lengths are written with the signs of feet and inches and need no unit above them.
    pub over_inches: Option<Statement>,
    /// Whether that is so on paper only: figures of their own for programs keep the unit in the head.
    pub on_paper_only: bool,
}

impl Head {
    /// Words alone; the key is the same.
    pub fn words(words: &'static str) -> Self {
        Self::new(words, Statement::from(words))
    }
    /// Words with a unit.
    pub const fn new(key: &'static str, said: Statement) -> Self {
        Self { key, said, over_inches: None, on_paper_only: false }
    }
    /// Other words over lengths with the signs of feet and inches.
    pub fn over_inches(mut self, words: &'static str) -> Self {
        self.over_inches = Some(words.into());
        self
    }
    /// Other words over long lengths, which have the signs of feet and inches on paper only.
    pub fn over_feet(self, words: &'static str) -> Self {
        Self { on_paper_only: true, ..self.over_inches(words) }
    }
}

/// One cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Words, a size, a name within words.
    Said(Statement),
    /// A quantity; its unit stands in the head, or in a column of its own.
    Amount(Amount),
    /// A count or a number that counts nothing, such as an item's.
    Count(u32),
    /// A name that no language changes.
    Name(String),
    /// Does not apply; a dash in print.
    Dash,
    /// Nothing to say.
    Blank,
}

impl From<Statement> for Cell {
    fn from(said: Statement) -> Self {
        if said.is_empty() { Self::Blank } else { Self::Said(said) }
    }
}
impl From<&'static str> for Cell {
    fn from(words: &'static str) -> Self {
        Self::Said(words.into())
    }
}
impl From<Amount> for Cell {
    fn from(amount: Amount) -> Self {
        Self::Amount(amount)
    }
}
impl From<u32> for Cell {
    fn from(count: u32) -> Self {
        Self::Count(count)
    }
}

/// Heads and rows as text.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// Column heads.
    pub heads: Vec<String>,
    /// Rows, as many cells as heads.
    pub rows: Vec<Vec<String>>,
}

impl List {
    /// For paper: everything as the voice says it.
    pub fn printed(&self, voice: &Voice) -> Printed {
        let own = self.own_voice(voice);
        self.print(&own, true, |amount| match amount.unit {
            Unit::M if own.customary() => own.amount(amount),
            _ => {
                let (value, decimals) = in_units_of(&own, amount);
                number::trimmed(value, decimals, &own.figures)
            }
        })
    }

    /// For files that programs read: language and units of the voice, but decimal points and plain minus signs.
    pub fn printed_for_programs(&self, voice: &Voice) -> Printed {
        let own = self.own_voice(voice).pointed();
        self.print(&own, false, |amount| {
            let (value, decimals) = in_units_of(&own, amount);
            plain_number(value, decimals)
        })
    }

    fn own_voice(&self, voice: &Voice) -> Voice {
        if self.metric { voice.metric() } else { voice.clone() }
    }

    fn print(&self, voice: &Voice, paper: bool, figure: impl Fn(Amount) -> String) -> Printed {
        let inches = voice.figures.customary();
        let head = |h: &Head| voice.say(h.over_inches.as_ref().filter(|_| inches && (paper || !h.on_paper_only)).unwrap_or(&h.said));
        let cell = |c: &Cell| match c {
            Cell::Said(said) => voice.say(said),
            Cell::Amount(amount) => figure(*amount),
            Cell::Count(n) => n.to_string(),
            Cell::Name(name) => name.clone(),
            Cell::Dash => "-".into(),
            Cell::Blank => String::new(),
        };
        Printed { heads: self.heads.iter().map(head).collect(), rows: self.rows.iter().map(|row| row.iter().map(cell).collect()).collect() }
    }

    /// For programs: an object a row by the keys of the heads. Numbers are numbers in metric units, rounded as the list
    /// asks; words are in the language of the voice; what does not apply is `null`.
    pub fn objects(&self, voice: &Voice) -> Vec<Map<String, Value>> {
        let voice = voice.metric().pointed();
        let cell = |c: &Cell| match c {
            Cell::Said(said) => Value::String(voice.say(said)),
            // The same figure as in print.
            Cell::Amount(amount) => Value::from(plain_number(amount.value, usize::from(amount.decimals)).parse().unwrap_or(amount.value)),
            Cell::Count(n) => Value::from(*n),
            Cell::Name(name) => Value::String(name.clone()),
            Cell::Dash | Cell::Blank => Value::Null,
        };
        self.rows.iter().map(|row| self.heads.iter().zip(row).map(|(head, c)| (head.key.to_string(), cell(c))).collect()).collect()
    }
}

/// The number in the units of the voice, and decimals that are no coarser than those asked for in the metric unit.
fn in_units_of(voice: &Voice, amount: Amount) -> (f64, usize) {
    let asked = usize::from(amount.decimals);
    match amount.unit.customary() {
        Some((factor, _)) if voice.figures.customary() => (amount.value * factor, (f64::from(amount.decimals) - factor.log10()).ceil().max(0.0) as usize),
        _ => (amount.value, asked),
    }
}

/// A unit in a column of its own.
pub fn unit_cell(unit: Unit) -> Cell {
    Cell::Said(crate::say!("{unit}", unit = unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say;
    use crate::say::{DecimalSign, Figures, LengthUnit, amount, name, size};

    fn voices() -> [Voice; 4] {
        let us = Figures::us();
        [
            Voice::plain(),
            Voice::new("en", us),
            Voice::new("en", Figures { unit: LengthUnit::InchDecimal, ..us }),
            Voice::new("de", Figures { decimal: DecimalSign::Comma, ..Figures::default() }),
        ]
    }

    /// 6.35 mm are 1/4 in, 10 kg are 22.05 lb, 3.048 m are 10 ft, 0.9290304 m² are 10 ft².
    fn sample(metric: bool) -> List {
        List {
            id: "sample",
            title: say!("PARTS LIST"),
            heads: vec![
                Head::new("thickness mm", say!("thickness {unit}", unit = Unit::Mm)),
                Head::words("dimension"),
                Head::new("kg each", say!("{unit} each", unit = Unit::Kg)),
                Head::new("length m", say!("length {unit}", unit = Unit::M)).over_feet("length"),
                Head::new("size mm", say!("size {unit}", unit = Unit::Mm)).over_inches("size"),
                Head::new("paint m2", say!("paint {unit} each", unit = Unit::M2)),
            ],
            rows: vec![vec![
                amount(6.35, Unit::Mm, 3).into(),
                say!("t={t} × {width} × {height}", t = size(6.35, 2), width = size(254.0, 1), height = size(1219.2, 1)).into(),
                amount(10.0, Unit::Kg, 2).into(),
                amount(3.048, Unit::M, 2).into(),
                say!("a {size}", size = size(6.35, 1)).into(),
                amount(-0.929_030_4, Unit::M2, 3).into(),
            ]],
            metric,
        }
    }

    #[test]
    fn one_list_in_four_voices() {
        let [metric, feet, inches, german] = voices().map(|v| sample(false).printed(&v));
        assert_eq!(metric.heads, ["thickness mm", "dimension", "kg each", "length m", "size mm", "paint m² each"]);
        assert_eq!(metric.rows, [["6.35", "t=6.35 × 254 × 1219.2", "10", "3.05", "a 6.4", "−0.929"]]);
        assert_eq!(feet.heads, ["thickness in", "dimension", "lb each", "length", "size", "paint ft² each"]);
        assert_eq!(feet.rows, [["0.25", "t=1/4\" × 10\" × 4'-0\"", "22.05", "10'-0\"", "a 1/4\"", "−10"]]);
        assert_eq!(inches.rows, [["0.25", "t=0.25\" × 10.00\" × 48.00\"", "22.05", "120.00\"", "a 0.25\"", "−10"]]);
        let program = sample(false).printed_for_programs(&voices()[1]);
        assert_eq!((program.heads[3].as_str(), program.rows[0][3].as_str()), ("length in", "120"));
        assert_eq!(german.heads, ["Dicke mm", "Abmessung", "kg je Stück", "Länge m", "Maß mm", "Anstrich m² je Stück"]);
        assert_eq!(german.rows, [["6,35", "t=6,35 × 254 × 1219,2", "10", "3,05", "a 6,4", "−0,929"]]);
    }

    #[test]
    fn programs_read_points_and_plain_minus_signs() {
        let german = sample(false).printed_for_programs(&voices()[3]);
        assert_eq!(german.heads.first().map(String::as_str), Some("Dicke mm"));
        assert_eq!(german.rows, [["6.35", "t=6.35 × 254 × 1219.2", "10", "3.05", "a 6.4", "-0.929"]]);
    }

    #[test]
    fn what_tells_of_metric_files_stays_metric() {
        let [metric, feet, ..] = voices().map(|v| sample(true).printed(&v));
        assert_eq!(metric, feet);
        let objects = sample(true).objects(&voices()[1]);
        let first = objects.first().and_then(|o| o.get("thickness mm")).and_then(Value::as_f64);
        assert_eq!(first, Some(6.35));
        assert_eq!(objects.first().and_then(|o| o.get("size mm")).and_then(Value::as_str), Some("a 6.4"));
    }

    /// Names keep their figures: threads, series, inch goods by their designation.
    #[test]
    fn names_are_not_converted() {
        let rod = say!("{thread} × {length}", thread = name("Acme 1 1/8-5"), length = size(508.0, 1));
        assert_eq!(voices().map(|v| v.say(&rod))[1], "Acme 1 1/8-5 × 1'-8\"");
        let bearing = say!("{series} series, size {number}, bore ⌀{bore}", series = 200_u32, number = 212_u32, bore = size(61.9125, 2));
        assert_eq!(voices().map(|v| v.say(&bearing))[1], "200 series, size 212, bore ⌀2 7/16\"");
    }
}
