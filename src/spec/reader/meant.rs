//! The quantity that was meant by a number without a unit, or with a wrong one.
//!
//! In: what was written, and the range of the key. Out: the same number with a unit that fits, to be typed instead. It is a
//! guess: the unit that was written where the key takes it, else the first that brings the number into the key's range.

use crate::units::Quantity;
use toml::de::DeValue;

/// Share of a range's upper end below which a unit is not thought to be meant: a sill of 0.9 is not one of 0.9 mm.
const TINY: f64 = 0.001;

/// The number that was written as this quantity, between `least` and `most` in base units.
pub(super) fn meant<Q: Quantity>(written: &DeValue<'_>, least: Option<f64>, most: Option<f64>) -> Option<String> {
    let text = match written {
        DeValue::String(text) => text.trim().to_string(),
        DeValue::Integer(number) => number.as_str().replace('_', ""),
        DeValue::Float(number) => number.as_str().replace('_', ""),
        _ => return None,
    };
    let (number, unit) = number_and_unit(&text)?;
    let value: f64 = number.parse().ok()?;
    let fits = |value: f64| least.is_none_or(|l| value >= l) && most.is_none_or(|m| value <= m);
    let typed = |name: &str| format!("\"{number} {name}\"");
    if let Some((name, _)) = Q::UNITS.iter().find(|(name, factor)| name.eq_ignore_ascii_case(unit) && fits(value * factor)) {
        return Some(typed(name));
    }
    if Q::BARE && fits(value) {
        return Some(number);
    }
    let likely = |value: f64| value == 0.0 || most.is_none_or(|m| value.abs() >= TINY * m.abs());
    let all = || Q::UNITS.iter().filter(|(_, factor)| fits(value * factor));
    all().find(|(_, factor)| likely(value * factor)).or_else(|| all().next()).map(|(name, _)| typed(name))
}

/// One number, a point for its decimal comma, and what stands behind it; nothing for sums and slopes such as `1:1`.
fn number_and_unit(text: &str) -> Option<(String, &str)> {
    let text = text.strip_prefix('+').unwrap_or(text);
    let body = text.strip_prefix(['-', '−']).unwrap_or(text);
    let sign = if body.len() < text.len() { "-" } else { "" };
    let end = body.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(body.len());
    let (number, unit) = body.split_at(end);
    let unit = unit.trim();
    let one_word = unit.is_empty() || unit.starts_with(|c: char| c.is_alphabetic() || c == '°' || c == '%');
    (one_word && !unit.contains(' ')).then(|| (format!("{sign}{}", number.replace(',', ".")), unit))
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
        ] {
            assert_eq!(hint(table, line), format!("write it like {meant}"), "{line}");
        }
    }

    /// Where nothing can be guessed an example stands.
    #[test]
    fn without_a_number_there_is_an_example() {
        for line in ["sill = \"1:1\"", "sill = \"high\"", "sill = \"1 ft 6 kg\"", "sill = true"] {
            assert_eq!(hint("inlet.up", line), "write it like \"450 mm\"", "{line}");
        }
    }
}
