//! Quantities and how people write them; the only conversion factors of the program.
//!
//! A quantity is a number in one fixed base unit (lengths in mm, speeds in m/s, …) wrapped in a
//! type of its own, so that a length never passes for an angle. [`Quantity::parse`] reads what a
//! person writes (`"450 mm"`, `"1 ft 6 in"`, `"120 t/h"`), and [`Quantity::write`] gives it back
//! in the base unit. Nothing here knows what a value is for, nor whether it is sensible.
//!
//! Factors: NIST SP 811 (2008) appendix B.8, from memory; the inch, the pound and the US bushel
//! volume are exact by definition.

pub mod unit;

pub use unit::Unit;

use std::fmt;

/// A number with one fixed base unit.
pub trait Quantity: Copy + PartialEq + PartialOrd + fmt::Debug + Sized {
    /// What the quantity is called in a message, e.g. `length`.
    const NAME: &'static str;
    /// A value as a person would type it.
    const EXAMPLE: &'static str;
    /// Name of the base unit as printed.
    const BASE: &'static str;
    /// The base unit in the list of printed units.
    const UNIT: Unit;
    /// Unit names with the factor to the base unit.
    const UNITS: &'static [(&'static str, f64)];
    /// Whether a bare number (no unit) is understood as the base unit.
    const BARE: bool;
    /// Wraps a number given in the base unit.
    fn from_base(value: f64) -> Self;
    /// The number in the base unit.
    fn base(self) -> f64;

    /// Reads what a person writes. Terms add up (`"1 ft 6 in"`), fractions are understood
    /// (`"1 1/2 in"`), a sign may stand in front.
    ///
    /// # Errors
    /// A plain sentence that says what is wrong and which units there are.
    fn parse(text: &str) -> Result<Self, String> {
        parse_sum(text, Self::UNITS, Self::BARE)
            .map(Self::from_base)
            .map_err(|why| format!("{why} (units of {}: {})", with_article(Self::NAME), unit_list(Self::UNITS)))
    }

    /// The value in its base unit with at most `decimals` decimals, trailing zeros dropped.
    fn write(self, decimals: usize) -> String {
        let number = plain_number(self.base(), decimals);
        if Self::BASE.is_empty() { number } else { format!("{number} {}", Self::BASE) }
    }
}

/// `a length`, `an angle`.
pub fn with_article(word: &str) -> String {
    let vowel = word.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {word}", if vowel { "an" } else { "a" })
}

/// A number with at most `decimals` decimals, without trailing zeros and without `-0`.
pub fn plain_number(value: f64, decimals: usize) -> String {
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".into() } else { text }
}

fn unit_list(units: &[(&str, f64)]) -> String {
    let mut names: Vec<&str> = units.iter().map(|u| u.0).filter(|n| !n.is_empty()).collect();
    names.dedup();
    names.join(", ")
}

/// Sum of `number unit` terms in base units.
fn parse_sum(text: &str, units: &[(&str, f64)], bare: bool) -> Result<f64, String> {
    let clean = text.trim().replace('−', "-").replace('³', "3").replace('²', "2").replace('″', "\"").replace('′', "'");
    if clean.is_empty() {
        return Err("nothing is written here".into());
    }
    let (sign, mut rest) = match clean.strip_prefix('-') {
        Some(r) => (-1.0, r.trim_start()),
        None => (1.0, clean.strip_prefix('+').unwrap_or(&clean).trim_start()),
    };
    let mut sum = 0.0;
    let mut terms = 0;
    while !rest.is_empty() {
        let (number, after) = take_number(rest)?;
        let after = after.trim_start();
        let end = after.char_indices().find(|(_, c)| c.is_ascii_digit() && !unit_goes_on(after, units)).map_or(after.len(), |(i, _)| i);
        let (unit, next) = split_unit(after, end, units);
        let unit = unit.trim().trim_end_matches('-').trim();
        if unit.is_empty() {
            if bare && terms == 0 && next.trim().is_empty() {
                return Ok(sign * number);
            }
            return Err("the unit is missing".into());
        }
        let factor = units
            .iter()
            .find(|(name, _)| name.eq_ignore_ascii_case(unit))
            .map(|(_, f)| *f)
            .ok_or_else(|| format!("\"{unit}\" is not a unit that fits here"))?;
        sum += number * factor;
        terms += 1;
        rest = next.trim_start().trim_start_matches('-').trim_start();
    }
    Ok(sign * sum)
}

/// Whether the text begins with a unit name that itself has a digit in it (`t/m3`).
fn unit_goes_on(text: &str, units: &[(&str, f64)]) -> bool {
    longest_unit(text, units).is_some_and(|n| n.chars().any(|c| c.is_ascii_digit()))
}

fn longest_unit<'a>(text: &str, units: &[(&'a str, f64)]) -> Option<&'a str> {
    units.iter().map(|u| u.0).filter(|n| !n.is_empty() && text.get(..n.len()).is_some_and(|t| t.eq_ignore_ascii_case(n))).max_by_key(|n| n.len())
}

fn split_unit<'a>(after: &'a str, end: usize, units: &[(&str, f64)]) -> (&'a str, &'a str) {
    match longest_unit(after, units) {
        Some(name) if after[name.len()..].chars().next().is_none_or(|c| !c.is_alphanumeric() && c != '/') => after.split_at(name.len()),
        _ => after.split_at(end),
    }
}

/// A decimal number, optionally followed by a fraction (`1 1/2`) or being one (`3/4`).
fn take_number(text: &str) -> Result<(f64, &str), String> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    if digits.is_empty() {
        return Err(format!("\"{text}\" does not begin with a number"));
    }
    if let Some(after) = rest.strip_prefix(',')
        && after.starts_with(|c: char| c.is_ascii_digit())
    {
        return Err("a decimal comma is not understood in the spec; write a point".into());
    }
    let number: f64 = digits.parse().map_err(|_| format!("\"{digits}\" is not a number"))?;
    if let Some(bottom) = rest.strip_prefix('/') {
        let (den, tail) = take_whole(bottom)?;
        return Ok((number / den, tail));
    }
    let spaced = rest.trim_start();
    let gap = spaced.strip_prefix('-').unwrap_or(spaced);
    let top_end = gap.find(|c: char| !c.is_ascii_digit()).unwrap_or(gap.len());
    if top_end > 0 && gap[top_end..].starts_with('/') && gap[top_end + 1..].starts_with(|c: char| c.is_ascii_digit()) {
        let top: f64 = gap[..top_end].parse().map_err(|_| format!("\"{gap}\" is not a fraction"))?;
        let (den, tail) = take_whole(&gap[top_end + 1..])?;
        return Ok((number + top / den, tail));
    }
    Ok((number, rest))
}

fn take_whole(text: &str) -> Result<(f64, &str), String> {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let den: f64 = text[..end].parse().map_err(|_| "the fraction has no lower number".to_string())?;
    if den == 0.0 {
        return Err("the fraction divides by zero".into());
    }
    Ok((den, &text[end..]))
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $getter:ident, $word:literal, $example:literal, $base:literal, $printed:ident, bare $bare:literal, [$(($unit:literal, $factor:expr)),+ $(,)?]) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);
        impl $name {
            #[doc = concat!("Wraps a number given in the base unit (", $base, ").")]
            pub const fn $getter(value: f64) -> Self { Self(value) }
            #[doc = concat!("The number in the base unit (", $base, ").")]
            pub const fn value(self) -> f64 { self.0 }
        }
        impl Quantity for $name {
            const NAME: &'static str = $word;
            const EXAMPLE: &'static str = $example;
            const BASE: &'static str = $base;
            const UNIT: Unit = Unit::$printed;
            const UNITS: &'static [(&'static str, f64)] = &[$(($unit, $factor)),+];
            const BARE: bool = $bare;
            fn from_base(value: f64) -> Self { Self(value) }
            fn base(self) -> f64 { self.0 }
        }
    };
}

/// Millimetres in an inch, exact.
pub const MM_PER_INCH: f64 = 25.4;
/// Kilograms in a pound, exact.
pub const KG_PER_POUND: f64 = 0.453_592_37;
/// Standard gravity in m/s², exact by definition.
pub const GRAVITY: f64 = 9.806_65;
/// Newtons in a pound-force.
pub const N_PER_POUND_FORCE: f64 = KG_PER_POUND * GRAVITY;
const FT3_M3: f64 = 0.028_316_846_592;
const BUSHEL_M3: f64 = 0.035_239_070_166_88;

quantity!(
    /// A length in mm.
    Length, mm, "length", "450 mm", "mm", Mm, bare false,
    [("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("in", MM_PER_INCH), ("inch", MM_PER_INCH), ("\"", MM_PER_INCH), ("ft", 304.8), ("'", 304.8)]
);
quantity!(
    /// An angle in degrees.
    Angle, deg, "angle", "45 deg", "deg", Degree, bare false,
    [("deg", 1.0), ("°", 1.0), ("rad", 57.295_779_513_082_32)]
);
quantity!(
    /// A mass flow in t/h.
    MassFlow, t_per_h, "mass flow", "120 t/h", "t/h", TPerH, bare false,
    [("t/h", 1.0), ("kg/h", 0.001), ("kg/s", 3.6), ("st/h", 0.907_184_74), ("lb/h", 0.000_453_592_37), ("lb/min", 0.027_215_542_2)]
);
quantity!(
    /// A bulk density in t/m³.
    Density, t_per_m3, "density", "0.65 t/m3", "t/m3", TPerM3, bare false,
    [("t/m3", 1.0), ("kg/m3", 0.001), ("kg/l", 1.0), ("lb/ft3", KG_PER_POUND / FT3_M3 / 1000.0), ("lb/bu", KG_PER_POUND / BUSHEL_M3 / 1000.0)]
);
quantity!(
    /// A speed in m/s.
    Speed, m_per_s, "speed", "2.6 m/s", "m/s", MPerS, bare false,
    [("m/s", 1.0), ("m/min", 1.0 / 60.0), ("ft/min", 0.005_08), ("fpm", 0.005_08), ("ft/s", 0.3048)]
);
quantity!(
    /// A volume in litres.
    Volume, l, "volume", "3.2 l", "l", L, bare false,
    [("l", 1.0), ("dm3", 1.0), ("cm3", 0.001), ("m3", 1000.0), ("in3", 0.016_387_064), ("ft3", 28.316_846_592)]
);
quantity!(
    /// A mass in kg.
    Mass, kg, "mass", "1.8 kg", "kg", Kg, bare false,
    [("kg", 1.0), ("g", 0.001), ("t", 1000.0), ("lb", KG_PER_POUND), ("oz", KG_PER_POUND / 16.0)]
);
quantity!(
    /// A mass per area in kg/m².
    AreaMass, kg_per_m2, "mass per area", "11 kg/m2", "kg/m2", KgPerM2, bare false,
    [("kg/m2", 1.0), ("lb/ft2", 4.882_427_636_383_05)]
);
quantity!(
    /// A force in N.
    Force, n, "force", "12 kN", "N", N, bare false,
    [("N", 1.0), ("kN", 1000.0), ("lbf", N_PER_POUND_FORCE)]
);
quantity!(
    /// A force per belt width in N/mm.
    LineForce, n_per_mm, "force per width", "3 N/mm", "N/mm", NPerMm, bare false,
    [("N/mm", 1.0), ("kN/m", 1.0), ("lbf/in", N_PER_POUND_FORCE / MM_PER_INCH)]
);
quantity!(
    /// A stress in MPa.
    Stress, mpa, "stress", "355 MPa", "MPa", Mpa, bare false,
    [("MPa", 1.0), ("N/mm2", 1.0), ("kPa", 0.001), ("psi", 0.006_894_757_293_168), ("ksi", 6.894_757_293_168)]
);
quantity!(
    /// A time in s.
    Time, s, "time", "3 s", "s", S, bare false,
    [("s", 1.0), ("min", 60.0), ("h", 3600.0)]
);
quantity!(
    /// A share or a coefficient; 1 = 100 %.
    Ratio, of_one, "ratio", "75 %", "", One, bare true,
    [("%", 0.01)]
);

/// US customary units for what messages and results print: metric unit, its size in the US unit, the US unit.
const CUSTOMARY: &[(&str, f64, &str)] = &[
    ("mm", 1.0 / MM_PER_INCH, "in"),
    ("m", 1000.0 / MM_PER_INCH / 12.0, "ft"),
    ("mm²", 1.0 / (MM_PER_INCH * MM_PER_INCH), "in²"),
    ("cm²", 100.0 / (MM_PER_INCH * MM_PER_INCH), "in²"),
    ("m²", 1e6 / (144.0 * MM_PER_INCH * MM_PER_INCH), "ft²"),
    ("l", 0.001 / FT3_M3, "ft³"),
    ("m³", 1.0 / FT3_M3, "ft³"),
    ("m³/h", 1.0 / FT3_M3, "ft³/h"),
    ("m/s", 60_000.0 / MM_PER_INCH / 12.0, "ft/min"),
    ("t/h", 1000.0 / (2000.0 * KG_PER_POUND), "st/h"),
    ("t/m³", 1000.0 * FT3_M3 / KG_PER_POUND, "lb/ft³"),
    ("kg/m³", FT3_M3 / KG_PER_POUND, "lb/ft³"),
    ("kN/m³", 1000.0 * FT3_M3 / N_PER_POUND_FORCE, "lbf/ft³"),
    ("kg", 1.0 / KG_PER_POUND, "lb"),
    ("kg/m", MM_PER_INCH * 0.012 / KG_PER_POUND, "lb/ft"),
    ("kg/m²", 144.0e-6 * MM_PER_INCH * MM_PER_INCH / KG_PER_POUND, "lb/ft²"),
    ("kg/mm²", MM_PER_INCH * MM_PER_INCH / KG_PER_POUND, "lb/in²"),
    ("kg/kW", KW_PER_HORSEPOWER / KG_PER_POUND, "lb/hp"),
    ("N", 1.0 / N_PER_POUND_FORCE, "lbf"),
    ("kN", 1000.0 / N_PER_POUND_FORCE, "lbf"),
    ("N/mm", MM_PER_INCH / N_PER_POUND_FORCE, "lbf/in"),
    ("N·m", 1000.0 / (12.0 * MM_PER_INCH * N_PER_POUND_FORCE), "lbf·ft"),
    ("MPa", 1.0 / 0.006_894_757_293_168, "psi"),
    ("kW", 1.0 / KW_PER_HORSEPOWER, "hp"),
];
/// Kilowatts in a mechanical horsepower: 550 ft·lbf/s.
const KW_PER_HORSEPOWER: f64 = 0.550 * 12.0 * MM_PER_INCH / 1000.0 * N_PER_POUND_FORCE;

/// A value in the US customary unit that takes the place of a metric one; itself when there is none (°, %, s, rpm).
///
/// ```
/// let (psi, unit) = footwell::units::customary(1.0, "MPa");
/// assert!((psi - 145.04).abs() < 0.01 && unit == "psi");
/// ```
pub fn customary(value: f64, unit: &str) -> (f64, &str) {
    CUSTOMARY.iter().find(|u| u.0 == unit).map_or((value, unit), |u| (value * u.1, u.2))
}

/// A figure with a unit, as [`rewritten`] finds it in a sentence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure<'a> {
    /// As it stands in the sentence, without its unit.
    pub text: &'a str,
    /// Its value.
    pub value: f64,
    /// Metric unit, spelled as `m³`.
    pub unit: &'static str,
    /// Whether the unit stands behind it; not with the first figure of `700 to 900 mm`.
    pub with_unit: bool,
}

impl Figure<'_> {
    /// Decimals that it is written with.
    pub fn decimals(&self) -> usize {
        self.text.split_once('.').map_or(0, |(_, d)| d.len())
    }
}

/// Metric units that a sentence may use, as written and as spelled; longest first.
const WRITTEN: [(&str, &str); 30] = [
    ("kg/mm²", "kg/mm²"),
    ("kg/m³", "kg/m³"),
    ("kg/m²", "kg/m²"),
    ("kN/m³", "kN/m³"),
    ("kg/kW", "kg/kW"),
    ("kg/m3", "kg/m³"),
    ("kg/m2", "kg/m²"),
    ("1/min", "1/min"),
    ("m³/h", "m³/h"),
    ("t/m³", "t/m³"),
    ("t/m3", "t/m³"),
    ("kg/m", "kg/m"),
    ("N/mm", "N/mm"),
    ("N·m", "N·m"),
    ("MPa", "MPa"),
    ("m/s", "m/s"),
    ("t/h", "t/h"),
    ("cm²", "cm²"),
    ("mm²", "mm²"),
    ("1/s", "1/s"),
    ("deg", "deg"),
    ("kN", "kN"),
    ("kW", "kW"),
    ("kg", "kg"),
    ("mm", "mm"),
    ("m³", "m³"),
    ("m²", "m²"),
    ("N", "N"),
    ("l", "l"),
    ("m", "m"),
];

/// Words that join a figure without a unit to the next one that has it.
const JOINTS: [&str; 6] = [" to ", " by ", " × ", " x ", " and ", " or "];

/// A sentence with every figure that has a metric unit, and those joined to one (`700 to 900 mm`), written anew by `write`.
/// Names such as `M10`, `ISO 13857` or `1910.217` stay.
///
/// ```
/// let upper = footwell::units::rewritten("M16 at 20 mm", |f| format!("<{}>", f.value));
/// assert_eq!(upper, "M16 at <20>");
/// ```
pub fn rewritten(text: &str, write: impl Fn(&Figure<'_>) -> String) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut before = ' ';
    while let Some(c) = rest.chars().next() {
        if starts_figure(c, before, rest)
            && let Some(figure) = figure_at(rest)
            && let Some((unit, own)) = unit_of(rest.get(figure.len()..).unwrap_or_default())
        {
            let value = figure.replace('−', "-").parse().unwrap_or(0.0);
            out += &write(&Figure { text: figure, value, unit, with_unit: own.is_some() });
            before = 'x';
            rest = rest.get(figure.len() + own.unwrap_or(0)..).unwrap_or_default();
            continue;
        }
        out.push(c);
        before = c;
        rest = rest.get(c.len_utf8()..).unwrap_or_default();
    }
    out
}

/// Whether a figure begins here: after a blank or an opening sign, with a digit or a sign before one.
pub fn starts_figure(c: char, before: char, rest: &str) -> bool {
    let free = matches!(before, ' ' | '(' | '[' | '"' | ':' | ',' | '⌀');
    let signed = matches!(c, '-' | '−') && rest.chars().nth(1).is_some_and(|d| d.is_ascii_digit());
    free && (c.is_ascii_digit() || signed)
}

/// The figure at the beginning of a text.
pub fn figure_at(text: &str) -> Option<&str> {
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

/// The unit behind a figure and how long it is with its blank; or the unit of the figure it is joined to.
fn unit_of(after: &str) -> Option<(&'static str, Option<usize>)> {
    if let Some(rest) = after.strip_prefix(' ') {
        for (written, unit) in WRITTEN {
            if rest.strip_prefix(written).is_some_and(|r| !r.starts_with(|c: char| c.is_alphanumeric() || c == '/' || c == '³' || c == '²')) {
                return Some((unit, Some(1 + written.len())));
            }
        }
    }
    for joint in JOINTS {
        if let Some(next) = after.strip_prefix(joint)
            && let Some(figure) = figure_at(next)
            && let Some((unit, _)) = unit_of(next.get(figure.len()..).unwrap_or_default())
        {
            return Some((unit, None));
        }
    }
    None
}

/// A sentence with every metric quantity in it written in US customary units, lengths in decimal inches: `900 mm wide` becomes
/// `35.43 in wide`. For the report alone; sheets and lists print values.
///
/// ```
/// assert_eq!(footwell::units::customary_text("700 to 900 mm above the floor."), "27.56 to 35.43 in above the floor.");
/// ```
pub fn customary_text(text: &str) -> String {
    rewritten(text, |f| {
        let (value, unit) = customary(f.value, f.unit);
        let tail = if f.with_unit { format!(" {unit}") } else { String::new() };
        if unit == f.unit {
            return format!("{}{tail}", f.text);
        }
        format!("{}{tail}", plain_number(value, if value.abs() < 100.0 { 2 } else { 0 }))
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// Factors of NIST SP 811, Appendix B.
    #[test]
    fn customary_units() {
        for (metric, unit, us) in [
            (1.0, "m", 3.280_84),
            (1.0, "m³", 35.314_67),
            (1.0, "l", 0.035_314_67),
            (1.0, "m²", 10.763_91),
            (1.0, "cm²", 0.155_000_3),
            (1.0, "m/s", 196.850_4),
            (1.0, "t/h", 1.102_311),
            (1.0, "t/m³", 62.427_96),
            (1.0, "kN/m³", 6.365_88),
            (1.0, "kg", 2.204_623),
            (1.0, "kg/m", 0.671_969),
            (1.0, "kg/m²", 0.204_816_1),
            (1.0, "kN", 224.808_9),
            (1.0, "N/mm", 5.710_147),
            (1.0, "N·m", 0.737_562_1),
            (1.0, "MPa", 145.037_7),
            (1.0, "kW", 1.341_022),
        ] {
            let (got, _) = customary(metric, unit);
            assert!((got / us - 1.0).abs() < 2e-6, "{unit}: {got} against {us}");
        }
        assert_eq!(customary(12.0, "°"), (12.0, "°"));
    }

    #[test]
    fn sentences_in_customary_units() {
        for (metric, us) in [
            ("the sill at 1080 mm is 353 mm above", "the sill at 42.52 in is 13.9 in above"),
            ("asked for are 60 t/h; that takes 2.32 m/s, a spacing", "asked for are 66.14 st/h; that takes 457 ft/min, a spacing"),
            ("(usual 700 to 900 mm)", "(usual 27.56 to 35.43 in)"),
            ("\"304.8 mm\" and \"0.72 t/m3\"", "\"12 in\" and \"44.95 lb/ft³\""),
            ("lies at -1000 mm by", "lies at -39.37 in by"),
            ("hatch 900 mm by 700 mm (0.63 m²); M16, Tr24x5, C45 stay", "hatch 35.43 in by 27.56 in (6.78 ft²); M16, Tr24x5, C45 stay"),
            ("9 rungs, 45°, 10 % slip in 13.6 s", "9 rungs, 45°, 10 % slip in 13.6 s"),
        ] {
            assert_eq!(customary_text(metric), us);
        }
    }

    fn mm(t: &str) -> f64 {
        Length::parse(t).unwrap().value()
    }

    #[test]
    fn lengths_as_people_write_them() {
        assert_eq!(mm("450 mm"), 450.0);
        assert_eq!(mm("18 in"), 457.2);
        assert!((mm("1 ft 6 in") - 457.2).abs() < 1e-9);
        assert!((mm("1'-6\"") - 457.2).abs() < 1e-9);
        assert!((mm("7'-6 1/2\"") - 2298.7).abs() < 1e-9);
        assert!((mm("1 1/2 in") - 38.1).abs() < 1e-9);
        assert!((mm("3/4in") - 19.05).abs() < 1e-9);
        assert_eq!(mm("-1.85 m"), -1850.0);
    }

    #[test]
    fn other_quantities() {
        assert!((Density::parse("40 lb/ft3").unwrap().value() - 0.640_738_54).abs() < 1e-6);
        assert!((Density::parse("60 lb/bu").unwrap().value() - 0.772_29).abs() < 1e-4);
        assert_eq!(Density::parse("0.65 t/m³").unwrap().value(), 0.65);
        assert!((Speed::parse("510 ft/min").unwrap().value() - 2.5908).abs() < 1e-9);
        assert_eq!(Ratio::parse("75 %").unwrap().value(), 0.75);
        assert_eq!(Ratio::parse("0.75").unwrap().value(), 0.75);
        assert_eq!(MassFlow::parse("120 t/h").unwrap().value(), 120.0);
    }

    #[test]
    fn what_is_wrong_is_said() {
        assert!(Length::parse("450").unwrap_err().contains("unit is missing"));
        assert!(Length::parse("450 kg").unwrap_err().contains("\"kg\" is not a unit"));
        assert!(Length::parse("0,45 m").unwrap_err().contains("decimal comma"));
        assert!(Length::parse("").unwrap_err().contains("nothing"));
        assert!(Length::parse("1/0 in").unwrap_err().contains("zero"));
        assert!(Length::parse("mm").unwrap_err().contains("number"));
    }
}
