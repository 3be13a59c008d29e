//! Sentences of rules and parts, written in metric units, as a sheet in other units says them.
//!
//! In: English text with figures such as `304.8 mm`, `3 m/s`, `14.5 kN`. Out: the same text with each figure in
//! the sheet's unit and decimal sign. Only a figure with a unit behind it is touched, and those joined to one
//! (`700 to 900 mm`); names such as `M10`, `ISO 13857` or `1910.217` stay. Lengths come out as the sheet writes
//! them, decimal inches or feet and fractions, which is why the sheets do not take the report's sentences.

use super::drafting::{SheetStyle, Unit};
use super::number;
use crate::units;

/// Metric units that a sentence may use; longest first.
const UNITS: [&str; 24] = [
    "kg/m³", "kg/m²", "m³/h", "t/m³", "t/m3", "kg/m", "N/mm", "N·m", "MPa", "m/s", "t/h", "cm²", "1/s", "1/min", "deg", "kN", "kW", "kg", "mm", "m³", "m²",
    "N", "l", "m",
];

/// Words that join a figure without a unit to the next one that has it.
const JOINTS: [&str; 6] = [" to ", " by ", " × ", " x ", " and ", " or "];

/// The text in the sheet's unit and decimal sign.
pub fn sentence(text: &str, style: &SheetStyle) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut before = ' ';
    while let Some(c) = rest.chars().next() {
        if starts_figure(c, before, rest)
            && let Some(figure) = figure(rest)
            && let Some((unit, own)) = unit_of(rest.get(figure.len()..).unwrap_or_default())
        {
            let value: f64 = figure.replace('−', "-").parse().unwrap_or(0.0);
            out += &written(value, decimals_of(figure), unit, own.is_some(), style);
            let used = figure.len() + own.map_or(0, str::len);
            before = 'x';
            rest = rest.get(used..).unwrap_or_default();
            continue;
        }
        out.push(c);
        before = c;
        rest = rest.get(c.len_utf8()..).unwrap_or_default();
    }
    out
}

/// Main dimensions of a part: figures without a unit are millimetres.
pub fn dimension(text: &str, style: &SheetStyle) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut before = ' ';
    while let Some(c) = rest.chars().next() {
        if (starts_figure(c, before, rest) || c.is_ascii_digit() && matches!(before, '=' | '⌀' | 'Ø'))
            && let Some(figure) = figure(rest)
        {
            let after = rest.get(figure.len()..).unwrap_or_default();
            let own = if style.unit == Unit::Mm { 0 } else { after.strip_prefix(" mm").map_or(0, |_| 3) };
            // `3/4-10`, `2x`, `16 P9` and the `1 1/8-5` of a thread are no lengths.
            let bare = !mixed(after) && !after.starts_with(['/', '-', '.']) && !after.starts_with(|c: char| c.is_alphabetic()) && !after.starts_with(" P");
            let value = figure.parse().unwrap_or(0.0);
            out += &match (bare, style.unit) {
                (true, Unit::Mm) => number::decimal(value, decimals_of(figure), style),
                (true, _) => number::length(value, style),
                (false, _) => figure.to_string(),
            };
            before = '0';
            rest = rest.get(figure.len() + if bare { own } else { 0 }..).unwrap_or_default();
            continue;
        }
        out.push(c);
        before = c;
        rest = rest.get(c.len_utf8()..).unwrap_or_default();
    }
    out
}

fn starts_figure(c: char, before: char, rest: &str) -> bool {
    let free = matches!(before, ' ' | '(' | ':' | ',');
    let signed = matches!(c, '-' | '−') && rest.chars().nth(1).is_some_and(|d| d.is_ascii_digit());
    free && (c.is_ascii_digit() || signed)
}

/// The figure at the beginning of the text.
fn figure(text: &str) -> Option<&str> {
    let body = text.strip_prefix(['-', '−']).unwrap_or(text);
    let sign = text.len() - body.len();
    let mut end = 0;
    let mut dot = false;
    for (i, c) in body.char_indices() {
        let decimal = c == '.' && !dot && body.get(i + 1..).is_some_and(|r| r.starts_with(|d: char| d.is_ascii_digit()));
        if !(c.is_ascii_digit() || decimal) {
            break;
        }
        dot = dot || decimal;
        end = i + 1;
    }
    (end > 0).then(|| text.get(..sign + end)).flatten()
}

/// The unit behind a figure, and the text that it takes (with its blank); or the unit of the figure it is joined to.
fn unit_of(after: &str) -> Option<(&'static str, Option<&str>)> {
    if let Some(rest) = after.strip_prefix(' ') {
        for unit in UNITS {
            if rest.strip_prefix(unit).is_some_and(|r| !r.starts_with(|c: char| c.is_alphanumeric() || c == '/' || c == '³' || c == '²')) {
                return Some((unit, after.get(..1 + unit.len())));
            }
        }
    }
    for joint in JOINTS {
        if let Some(next) = after.strip_prefix(joint)
            && let Some(figure) = figure(next)
            && let Some((unit, _)) = unit_of(next.get(figure.len()..).unwrap_or_default())
        {
            return Some((unit, None));
        }
    }
    None
}

/// Whether a fraction follows: ` 1/8`.
fn mixed(after: &str) -> bool {
    let fraction = after.strip_prefix(' ').and_then(|a| a.split_once('/'));
    fraction.is_some_and(|(top, bottom)| !top.is_empty() && top.bytes().all(|b| b.is_ascii_digit()) && bottom.starts_with(|c: char| c.is_ascii_digit()))
}

fn decimals_of(figure: &str) -> usize {
    figure.split_once('.').map_or(0, |(_, d)| d.len())
}

fn written(value: f64, decimals: usize, unit: &str, with_unit: bool, style: &SheetStyle) -> String {
    let tail = |name: &str| if with_unit { format!(" {name}") } else { String::new() };
    if style.unit == Unit::Mm {
        return format!("{}{}", number::decimal(value, decimals, style), tail(unit));
    }
    if unit == "mm" {
        return number::length(value, style);
    }
    let metric = unit.replace("m3", "m³");
    let (converted, name) = units::customary(value, &metric);
    let figures = if name == metric { number::decimal(value, decimals, style) } else { three_figures(converted, style) };
    format!("{figures}{}", tail(name))
}

fn three_figures(value: f64, style: &SheetStyle) -> String {
    let decimals = match value.abs() {
        v if v >= 100.0 || v == 0.0 => 0,
        v if v >= 10.0 => 1,
        _ => 2,
    };
    number::decimal(value, decimals, style)
}

/// A value in the sheet's unit, with its unit.
pub fn amount(value: f64, decimals: usize, unit: &str, style: &SheetStyle) -> String {
    if unit.is_empty() { number::decimal(value, decimals, style) } else { written(value, decimals, unit, true, style) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::drafting::DecimalSign;

    #[test]
    fn us_sentences() {
        let us = SheetStyle { unit: Unit::InchDecimal, ..SheetStyle::us() };
        let say = |t: &str| sentence(t, &us);
        assert_eq!(say("the throat is 304.8 mm wide, the casing 558.8 mm inside"), "the throat is 12.00\" wide, the casing 22.00\" inside");
        assert_eq!(say("usual 700 to 900 mm"), "usual 27.56\" to 35.43\"");
        // 1 m/s = 196.85 ft/min; 100 t/h = 110.23 short tons an hour; 1 MPa = 145.04 psi (NIST SP 811).
        assert_eq!(say("runs 3 m/s with 100 t/h at 1 MPa"), "runs 591 ft/min with 110 st/h at 145 psi");
        assert_eq!(say("M10 after ISO 13857 and 1910.217, 3/4-10 in 2 pieces"), "M10 after ISO 13857 and 1910.217, 3/4-10 in 2 pieces");
        assert_eq!(say("7 kN on a belt of 7.5 N/mm"), "1574 lbf on a belt of 42.8 lbf/in");
    }

    #[test]
    fn decimal_comma_only_before_units() {
        let comma = SheetStyle { decimal: DecimalSign::Comma, ..SheetStyle::default() };
        assert_eq!(sentence("7.5 N/mm after 1910.217", &comma), "7,5 N/mm after 1910.217");
    }

    #[test]
    fn us_dimensions() {
        let us = SheetStyle { unit: Unit::InchFraction, ..SheetStyle::us() };
        assert_eq!(dimension("t=6.35 × 304.8 × 609.6", &us), "t=1/4\" × 1'-0\" × 2'-0\"");
        assert_eq!(dimension("⌀50.8 × 304.8", &us), "⌀2\" × 1'-0\"");
        assert_eq!(dimension("Acme 1 1/8-5 × 508", &us), "Acme 1 1/8-5 × 1'-8\"");
        assert_eq!(dimension("Acme 1-5 × 609.6", &us), "Acme 1-5 × 2'-0\"");
        assert_eq!(dimension("Tr24x5 × 508, M16", &us), "Tr24x5 × 1'-8\", M16");
        let comma = SheetStyle { decimal: DecimalSign::Comma, ..SheetStyle::default() };
        assert_eq!(dimension("t=5 × 1328.8, opening 12.7 mm, 3/4-10, M16", &comma), "t=5 × 1328,8, opening 12,7 mm, 3/4-10, M16");
        assert_eq!(dimension("square opening 12.7 mm, 254 × 508", &us), "square opening 1/2\", 10\" × 1'-8\"");
    }
}
