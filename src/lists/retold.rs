//! Sentences of rules and parts, written in metric units, as a sheet in other units says them.
//!
//! In: English text with figures such as `304.8 mm`, `3 m/s`, `14.5 kN`. Out: the same text with each figure in
//! the sheet's unit and decimal sign. Only a figure with a unit behind it is touched, and those joined to one
//! (`700 to 900 mm`); names such as `M10`, `ISO 13857` or `1910.217` stay. Lengths come out as the sheet writes
//! them, decimal inches or feet and fractions, which is why the sheets do not take the report's sentences.

use crate::lists::List;
use crate::paper::drafting::SheetStyle;
use crate::say::LengthUnit;
use crate::say::number;
use crate::units::{self, figure_at, plain_number, rewritten, starts_figure};

/// The text in the sheet's unit and decimal sign.
pub fn sentence(text: &str, style: &SheetStyle) -> String {
    rewritten(text, |f| written(f.value, f.decimals(), f.unit, f.with_unit, style))
}

/// Main dimensions of a part: figures without a unit are millimetres.
pub fn dimension(text: &str, style: &SheetStyle) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut before = ' ';
    while let Some(c) = rest.chars().next() {
        if (starts_figure(c, before, rest) || c.is_ascii_digit() && matches!(before, '=' | '⌀' | 'Ø'))
            && let Some(figure) = figure_at(rest)
        {
            let after = rest.get(figure.len()..).unwrap_or_default();
            let own = if style.unit == LengthUnit::Mm { 0 } else { after.strip_prefix(" mm").map_or(0, |_| 3) };
            // `3/4-10`, `2x`, `16 P9`, the `1 1/8-5` of a thread, a series and its number are no lengths.
            let named = after.starts_with(" series") || out.ends_with("size ") || after.starts_with('"');
            let bare =
                !named && !mixed(after) && !after.starts_with(['/', '-', '.']) && !after.starts_with(|c: char| c.is_alphabetic()) && !after.starts_with(" P");
            let value = figure.parse().unwrap_or(0.0);
            out += &match (bare, style.unit) {
                (true, LengthUnit::Mm) => number::decimal(value, figure.split_once('.').map_or(0, |(_, d)| d.len()), style),
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

/// Whether a fraction follows: ` 1/8`.
fn mixed(after: &str) -> bool {
    let fraction = after.strip_prefix(' ').and_then(|a| a.split_once('/'));
    fraction.is_some_and(|(top, bottom)| !top.is_empty() && top.bytes().all(|b| b.is_ascii_digit()) && bottom.starts_with(|c: char| c.is_ascii_digit()))
}

fn written(value: f64, decimals: usize, unit: &str, with_unit: bool, style: &SheetStyle) -> String {
    let tail = |name: &str| if with_unit { format!(" {name}") } else { String::new() };
    if style.unit == LengthUnit::Mm {
        return format!("{}{}", number::decimal(value, decimals, style), tail(unit));
    }
    if unit == "mm" {
        return number::length(value, style);
    }
    let (converted, name) = units::customary(value, unit);
    let figures = if name == unit { number::decimal(value, decimals, style) } else { three_figures(converted, style) };
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

/// Columns whose unit changes: the head in metric units, that unit, the head in US ones, decimals.
const COLUMNS: [(&str, &str, &str, usize); 6] = [
    ("thickness mm", "mm", "thickness in", 4),
    ("size mm", "mm", "size", 3),
    ("length m", "m", "length ft", 2),
    ("kg each", "kg", "lb each", 2),
    ("kg total", "kg", "lb total", 2),
    ("paint m2 each", "m²", "paint ft2 each", 2),
];

/// More decimals that [`list`] wants of the metric figures, so that what it rounds was not rounded before; none for sheets in mm.
pub fn finer(style: &SheetStyle) -> usize {
    match style.unit {
        LengthUnit::Mm => 0,
        _ => 4,
    }
}

/// A list of the shop in the sheet's unit: heads, figures and texts; as it is for sheets in mm.
///
/// The cutting manifest stays in mm everywhere, for so are the files that it lists.
pub fn list(list: List, style: &SheetStyle) -> List {
    if style.unit == LengthUnit::Mm || list.heads.first() == Some(&"file") {
        return list;
    }
    let columns: Vec<_> = list.heads.iter().map(|head| COLUMNS.iter().find(|c| c.0 == *head)).collect();
    let heads = list.heads.iter().zip(&columns).map(|(head, column)| column.map_or(*head, |c| c.2)).collect();
    let value_of = |cell: &str, unit: &str, decimals: usize| -> String {
        // `a 4.5` and `s 6.3` have the letter of the weld before them.
        let (letter, figure) = cell.rsplit_once(' ').map_or(("", cell), |(l, f)| (l, f));
        match figure.parse::<f64>() {
            Ok(value) if !letter.is_empty() => format!("{letter} {}", number::length(value, style)),
            Ok(value) => plain_number(units::customary(value, unit).0, decimals),
            Err(_) => cell.to_string(),
        }
    };
    let cell = |i: usize, row: &[String], text: &str| -> String {
        let head = list.heads.get(i).copied().unwrap_or_default();
        match (columns.get(i).copied().flatten(), head) {
            (Some(column), _) => value_of(text, column.1, column.3),
            (None, "dimension") => dimension(text, style),
            (None, "value") => {
                let unit = row.last().map_or("", String::as_str).replace("m2", "m²");
                if units::customary(1.0, &unit).1 == unit { text.to_string() } else { value_of(text, &unit, 1) }
            }
            (None, "unit") => units::customary(0.0, &text.replace("m2", "m²")).1.replace('²', "2"),
            (None, "qty") => sentence(text, style),
            (None, "remarks" | "note" | "material" | "what") => sentence(text, style),
            _ => text.to_string(),
        }
    };
    let rows = list.rows.iter().map(|row| row.iter().enumerate().map(|(i, text)| cell(i, row, text)).collect()).collect();
    List { title: list.title, heads, rows }
}

/// A value in the sheet's unit, with its unit.
pub fn amount(value: f64, decimals: usize, unit: &str, style: &SheetStyle) -> String {
    if unit.is_empty() { number::decimal(value, decimals, style) } else { written(value, decimals, unit, true, style) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::DecimalSign;

    #[test]
    fn us_sentences() {
        let us = SheetStyle { figures: crate::say::Figures { unit: LengthUnit::InchDecimal, ..crate::say::Figures::us() }, ..SheetStyle::us() };
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
        let comma = SheetStyle { figures: crate::say::Figures { decimal: DecimalSign::Comma, ..crate::say::Figures::default() }, ..SheetStyle::default() };
        assert_eq!(sentence("7.5 N/mm after 1910.217", &comma), "7,5 N/mm after 1910.217");
    }

    #[test]
    fn us_dimensions() {
        let us = SheetStyle { figures: crate::say::Figures { unit: LengthUnit::InchFraction, ..crate::say::Figures::us() }, ..SheetStyle::us() };
        assert_eq!(dimension("t=6.35 × 304.8 × 609.6", &us), "t=1/4\" × 1'-0\" × 2'-0\"");
        assert_eq!(dimension("⌀50.8 × 304.8", &us), "⌀2\" × 1'-0\"");
        assert_eq!(dimension("Acme 1 1/8-5 × 508", &us), "Acme 1 1/8-5 × 1'-8\"");
        assert_eq!(dimension("Acme 1-5 × 609.6", &us), "Acme 1-5 × 2'-0\"");
        assert_eq!(dimension("Tr24x5 × 508, M16", &us), "Tr24x5 × 1'-8\", M16");
        let comma = SheetStyle { figures: crate::say::Figures { decimal: DecimalSign::Comma, ..crate::say::Figures::default() }, ..SheetStyle::default() };
        assert_eq!(dimension("t=5 × 1328.8, opening 12.7 mm, 3/4-10, M16", &comma), "t=5 × 1328,8, opening 12,7 mm, 3/4-10, M16");
        assert_eq!(dimension("square opening 12.7 mm, 254 × 508", &us), "square opening 1/2\", 10\" × 1'-8\"");
        assert_eq!(dimension("200 series, size 212, bore ⌀61.9125", &us), "200 series, size 212, bore ⌀2 7/16\"");
        assert_eq!(dimension("EPDM strip 1 1/4\" × 1/8\", self-adhesive", &us), "EPDM strip 1 1/4\" × 1/8\", self-adhesive");
        assert_eq!(sentence("journals ⌀50.8 mm h7; 2 keyways 12.7 mm wide, 6.35 mm deep", &us), "journals ⌀2\" h7; 2 keyways 1/2\" wide, 1/4\" deep");
    }

    /// 6.35 mm is 1/4 in, 10 kg are 22.05 lb, 3.048 m are 10 ft.
    #[test]
    fn us_lists() {
        let us = SheetStyle { figures: crate::say::Figures { unit: LengthUnit::InchFraction, ..crate::say::Figures::us() }, ..SheetStyle::us() };
        let made = |heads: Vec<&'static str>, row: &[&str]| List { title: "Parts list", heads, rows: vec![row.iter().map(|c| (*c).to_string()).collect()] };
        let metric = made(vec!["thickness mm", "dimension", "kg each", "length m", "size mm"], &["6.35", "t=6.35 × 254", "10", "3.048", "a 6.35"]);
        let told = list(metric.clone(), &us);
        assert_eq!(told.heads, ["thickness in", "dimension", "lb each", "length ft", "size"]);
        assert_eq!(told.rows, [["0.25", "t=1/4\" × 10\"", "22.05", "10", "a 1/4\""]]);
        assert_eq!(list(metric.clone(), &SheetStyle::default()), metric);
        let manifest = made(vec!["file", "thickness mm"], &["x.dxf", "6.35"]);
        assert_eq!(list(manifest.clone(), &us), manifest);
        assert_eq!(list(made(vec!["what", "value", "unit"], &["mass", "10", "kg"]), &us).rows, [["mass", "22", "lb"]]);
    }
}
