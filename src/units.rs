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
    /// The unit of [`Self::UNITS`] that a US job writes it in.
    const CUSTOMARY: &'static str;
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

    /// The value in its US customary unit, with as many decimals as read back to it within a millionth.
    fn write_customary(self) -> String {
        match Self::UNITS.iter().find(|unit| unit.0 == Self::CUSTOMARY) {
            Some((unit, factor)) => format!("{} {unit}", plain_number(self.base() / factor, 6)),
            None => self.write(4),
        }
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
    ($(#[$doc:meta])* $name:ident, $getter:ident, $word:literal, $example:literal, $base:literal, $printed:ident, us $customary:literal, bare $bare:literal, [$(($unit:literal, $factor:expr)),+ $(,)?]) => {
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
            const CUSTOMARY: &'static str = $customary;
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
    Length, mm, "length", "450 mm", "mm", Mm, us "in", bare false,
    [("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("in", MM_PER_INCH), ("inch", MM_PER_INCH), ("\"", MM_PER_INCH), ("ft", 304.8), ("'", 304.8)]
);
quantity!(
    /// An angle in degrees.
    Angle, deg, "angle", "45 deg", "deg", Degree, us "deg", bare false,
    [("deg", 1.0), ("°", 1.0), ("rad", 57.295_779_513_082_32)]
);
quantity!(
    /// A mass flow in t/h.
    MassFlow, t_per_h, "mass flow", "120 t/h", "t/h", TPerH, us "st/h", bare false,
    [("t/h", 1.0), ("kg/h", 0.001), ("kg/s", 3.6), ("st/h", 0.907_184_74), ("lb/h", 0.000_453_592_37), ("lb/min", 0.027_215_542_2)]
);
quantity!(
    /// A bulk density in t/m³.
    Density, t_per_m3, "density", "0.65 t/m3", "t/m3", TPerM3, us "lb/ft3", bare false,
    [("t/m3", 1.0), ("kg/m3", 0.001), ("kg/l", 1.0), ("lb/ft3", KG_PER_POUND / FT3_M3 / 1000.0), ("lb/bu", KG_PER_POUND / BUSHEL_M3 / 1000.0)]
);
quantity!(
    /// A speed in m/s.
    Speed, m_per_s, "speed", "2.6 m/s", "m/s", MPerS, us "ft/min", bare false,
    [("m/s", 1.0), ("m/min", 1.0 / 60.0), ("ft/min", 0.005_08), ("fpm", 0.005_08), ("ft/s", 0.3048)]
);
quantity!(
    /// A volume in litres.
    Volume, l, "volume", "3.2 l", "l", L, us "in3", bare false,
    [("l", 1.0), ("dm3", 1.0), ("cm3", 0.001), ("m3", 1000.0), ("in3", 0.016_387_064), ("ft3", 28.316_846_592)]
);
quantity!(
    /// A mass in kg.
    Mass, kg, "mass", "1.8 kg", "kg", Kg, us "lb", bare false,
    [("kg", 1.0), ("g", 0.001), ("t", 1000.0), ("lb", KG_PER_POUND), ("oz", KG_PER_POUND / 16.0)]
);
quantity!(
    /// A mass per area in kg/m².
    AreaMass, kg_per_m2, "mass per area", "11 kg/m2", "kg/m2", KgPerM2, us "lb/ft2", bare false,
    [("kg/m2", 1.0), ("lb/ft2", 4.882_427_636_383_05)]
);
quantity!(
    /// A force in N.
    Force, n, "force", "12 kN", "N", N, us "lbf", bare false,
    [("N", 1.0), ("kN", 1000.0), ("lbf", N_PER_POUND_FORCE)]
);
quantity!(
    /// A torque in N·m.
    Torque, nm, "torque", "60 N·m", "N·m", Nm, us "lbf·ft", bare false,
    [("N·m", 1.0), ("Nm", 1.0), ("lbf·ft", N_PER_POUND_FORCE * 0.3048), ("lbf-ft", N_PER_POUND_FORCE * 0.3048), ("ft-lbf", N_PER_POUND_FORCE * 0.3048)]
);
quantity!(
    /// A force per belt width in N/mm.
    LineForce, n_per_mm, "force per width", "3 N/mm", "N/mm", NPerMm, us "lbf/in", bare false,
    [("N/mm", 1.0), ("kN/m", 1.0), ("lbf/in", N_PER_POUND_FORCE / MM_PER_INCH)]
);
quantity!(
    /// A stress in MPa.
    Stress, mpa, "stress", "355 MPa", "MPa", Mpa, us "psi", bare false,
    [("MPa", 1.0), ("N/mm2", 1.0), ("kPa", 0.001), ("psi", 0.006_894_757_293_168), ("ksi", 6.894_757_293_168)]
);
quantity!(
    /// A time in s.
    Time, s, "time", "3 s", "s", S, us "s", bare false,
    [("s", 1.0), ("min", 60.0), ("h", 3600.0)]
);
quantity!(
    /// A share or a coefficient; 1 = 100 %.
    Ratio, of_one, "ratio", "75 %", "", One, us "", bare true,
    [("%", 0.01)]
);

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

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
        assert_eq!(["60 N·m", "60 Nm", "60 nm"].map(|t| Torque::parse(t).unwrap().value()), [60.0; 3]);
        // NIST SP 811: 1 lbf·ft = 1.355 818 N·m.
        assert!(["1 lbf·ft", "1 lbf-ft", "1 ft-lbf"].iter().all(|t| (Torque::parse(t).unwrap().value() - 1.355_818).abs() < 1e-6));
        assert_eq!(Torque::parse(&Torque::nm(20.0).write_customary()).map(|t| (t.value() * 1e4).round()), Ok(200_000.0));
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
