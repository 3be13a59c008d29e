//! The quantity that was meant by a number without a unit, or with a wrong one, as a sentence with what to type.
//!
//! In: what was written, and the range of the key. Out: the user's own number with a unit that fits. Where the text itself says what
//! may be meant (a comma between thousands or decimals, a ton), the readings that the range allows are named, both where it allows both. Else it is a
//! guess: the unit that was written where the key takes it, or the first that brings the number into the key's range.

use crate::units::{Quantity, plain_number};
use toml::de::DeValue;

/// Share of a range's upper end below which a unit is not thought to be meant: a sill of 0.9 is not one of 0.9 mm.
const TINY: f64 = 0.001;

/// What a key takes, in base units.
#[derive(Debug, Clone, Copy)]
struct Range {
    least: Option<f64>,
    most: Option<f64>,
}

impl Range {
    fn holds(self, value: f64) -> bool {
        self.least.is_none_or(|l| value >= l) && self.most.is_none_or(|m| value <= m)
    }
}

/// What to type for what was written as this quantity, between `least` and `most` in base units.
pub(super) fn meant<Q: Quantity>(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> {
    let range = Range { least, most };
    let text = match written {
        DeValue::String(text) => text.trim().to_string(),
        DeValue::Integer(number) => number.as_str().replace('_', ""),
        DeValue::Float(number) => number.as_str().replace('_', ""),
        _ => return None,
    };
    let instead = Q::parse(&text).err().map_or_else(Vec::new, |misread| misread.instead);
    if instead.is_empty() {
        return guess::<Q>(&text, range).map(|typed| format!("write it like {typed}"));
    }
    let fits = |(text, _): &&(String, &'static str)| Q::parse(text).is_ok_and(|q| range.holds(q.base()));
    let reads = |(text, _): &&(String, &'static str)| Q::parse(text).is_ok();
    let mut told: Vec<&(String, &'static str)> = instead.iter().filter(fits).collect();
    if told.is_empty() {
        told = instead.iter().filter(reads).collect();
    }
    match told[..] {
        [] => instead.first().and_then(|(text, _)| guess::<Q>(text, range)).map(|typed| format!("write it like {typed}")),
        [(text, _)] => Some(format!("write it like {}", quoted::<Q>(text))),
        _ => Some(format!("write {}", told.iter().map(|(text, when)| format!("{} {when}", quoted::<Q>(text))).collect::<Vec<_>>().join(", "))),
    }
}

fn quoted<Q: Quantity>(text: &str) -> String {
    if Q::BARE && text.parse::<f64>().is_ok() { text.into() } else { format!("\"{text}\"") }
}

/// The number that was written, with the unit that was meant.
fn guess<Q: Quantity>(text: &str, range: Range) -> Option<String> {
    let (number, unit) = number_and_unit(text)?;
    let value: f64 = number.parse().ok()?;
    let typed = |name: &str| format!("\"{number} {name}\"");
    if Q::factor(unit).is_some_and(|factor| range.holds(value * factor)) {
        return Some(typed(unit));
    }
    if Q::BARE && range.holds(value) {
        return Some(number);
    }
    let likely = |value: f64| value == 0.0 || range.most.is_none_or(|m| value.abs() >= TINY * m.abs());
    let all = || Q::UNITS.iter().filter(|(_, factor)| range.holds(value * factor));
    all().find(|(_, factor)| likely(value * factor)).or_else(|| all().next()).map(|(name, _)| typed(name))
}

/// One number and what stands behind it; nothing for sums, for slopes such as `1:1`, and where commas are.
fn number_and_unit(text: &str) -> Option<(String, &str)> {
    let text = text.strip_prefix('+').unwrap_or(text);
    let body = text.strip_prefix(['-', '−']).unwrap_or(text);
    let sign = if body.len() < text.len() { "-" } else { "" };
    let end = body.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(body.len());
    let (number, unit) = body.split_at(end);
    let unit = unit.trim();
    let one_unit =
        unit.is_empty() || (unit.starts_with(|c: char| c.is_alphabetic() || c == '°' || c == '%') && !(unit.contains(' ') && unit.contains(char::is_numeric)));
    one_unit.then(|| (format!("{sign}{number}"), unit))
}

/// "from … to …" in the unit that was written, where it is one; no wider than the range is.
pub(super) fn range_as_written<Q: Quantity>(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> {
    let DeValue::String(text) = written else { return None };
    let (least, most) = (least?, most?);
    let unit: String = text.trim().chars().skip_while(|c| !(c.is_alphabetic() || *c == '°' || *c == '%')).collect();
    let factor = Q::factor(&unit).filter(|f| *f != 1.0)?;
    // Four figures, up at the lower end and down at the upper one.
    let bound = |value: f64, up: bool| {
        let value = value / factor;
        let step = if value == 0.0 { 1.0 } else { 10_f64.powi(value.abs().log10().floor() as i32 - 3) };
        let steps = value / step;
        let whole = if (steps - steps.round()).abs() < 1e-6 {
            steps.round()
        } else if up {
            steps.ceil()
        } else {
            steps.floor()
        };
        plain_number(whole * step, 6)
    };
    Some(format!("from \"{} {unit}\" to \"{} {unit}\"", bound(least, true), bound(most, false)))
}

#[cfg(test)]
mod tests {
    use crate::spec::load;

    /// What the program says to type for a value of a key.
    fn hint(table: &str, line: &str) -> String {
        let (_, problems) = load(&format!("[{table}]\n{line}\n"));
        assert_eq!(problems.items.len(), 1, "{line}: {problems:#?}");
        problems.items[0].hint.clone()
    }

    #[test]
    fn the_hint_keeps_the_number_and_takes_a_unit_that_fits() {
        for (table, line, meant) in [
            ("duty", "lift = 95", "\"95 m\""),
            ("duty", "lift = 28.5", "\"28.5 m\""),
            ("duty", "lift = \"95\"", "\"95 m\""),
            ("duty", "lift = \"95 kg\"", "\"95 m\""),
            ("duty", "capacity = \"120 t\"", "\"120 t/h\""),
            ("duty", "belt_speed = 2.6", "\"2.6 m/s\""),
            ("duty", "fill = \"75 kg\"", "\"75 %\""),
            ("belt", "width = 330", "\"330 mm\""),
            ("casing", "plate = 5", "\"5 mm\""),
            ("casing", "up_clearance = \"0,06 m\"", "\"0.06 m\""),
            ("inlet.up", "sill = 0.9", "\"0.9 m\""),
            ("pit", "feed_level = -500", "\"-500 mm\""),
            ("product", "density = \"0.75 kg/m2\"", "\"0.75 t/m3\""),
            ("product", "repose = 28", "\"28 deg\""),
            ("pit", "feed_slope = \"5 %\"", "\"2.86 deg\""),
            ("product", "density = \"7.5 kN/m3\"", "\"0.764787 t/m3\""),
            // What the range leaves of two readings.
            ("bearings", "life = \"40,000 h\"", "\"40000 h\""),
            ("duty", "capacity = \"1,000 kg\"", "\"1000 t/h\""),
            ("duty", "lift = \"1,250 in\"", "\"1250 in\""),
            ("shaft", "diameter = \"0,090 m\"", "\"0.090 m\""),
        ] {
            assert_eq!(hint(table, line), format!("write it like {meant}"), "{line}");
        }
    }

    /// Where both readings are possible both are named, the larger first.
    #[test]
    fn who_writes_two_things_is_asked() {
        for (line, said) in [
            ("capacity = \"1,000 t/h\"", "write \"1000 t/h\" if the comma parts thousands, \"1 t/h\" if it parts decimals"),
            ("capacity = \"120 tph\"", "write \"120 t/h\" for tonnes of 1000 kg, \"120 st/h\" for short tons of 2000 lb"),
            ("capacity = \"120 tons/hr\"", "write \"120 t/h\" for tonnes of 1000 kg, \"120 st/h\" for short tons of 2000 lb"),
        ] {
            assert_eq!(hint("duty", line), said);
        }
        assert_eq!(hint("pit", "feed_slope = \"1:2\""), "write \"26.57 deg\" for rise to run, \"63.43 deg\" for run to rise");
    }

    /// A range is told in the unit that was written, and what it names is inside it.
    #[test]
    fn ranges_in_the_users_unit() {
        for (table, line, said) in [
            ("duty", "lift = \"3 ft\"", "from \"6.562 ft\" to \"492.1 ft\""),
            ("duty", "lift = \"1 ft 6 in\"", "from \"2000 mm\" to \"150000 mm\""),
            ("duty", "lift = \"1000 mm\"", "from \"2000 mm\" to \"150000 mm\""),
            ("bearings", "life = \"10 h\"", "from \"1000 h\" to \"500000 h\""),
        ] {
            assert_eq!(hint(table, line), format!("write a value {said}"), "{line}");
        }
        let (_, problems) = load("[duty]\nlift = \"492.1 ft\"\nbelt_speed = \"59.06 ft/min\"\n");
        assert!(problems.items.is_empty(), "{problems:?}");
    }

    /// Where nothing can be guessed an example stands.
    #[test]
    fn without_a_number_there_is_an_example() {
        for line in ["sill = \"1:1\"", "sill = \"high\"", "sill = \"1 ft 6 kg\"", "sill = true"] {
            assert_eq!(hint("inlet.up", line), "write it like \"450 mm\"", "{line}");
        }
    }
}
