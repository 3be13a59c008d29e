//! Quantities and how people write them; the only conversion factors of the program.
//!
//! A quantity is a number in one fixed base unit (lengths in mm, speeds in m/s, …) wrapped in a
//! type of its own, so that a length never passes for an angle. [`Quantity::parse`] reads what a
//! person writes (`"450 mm"`, `"1 ft 6 in"`, `"120 t/h"`), and [`Quantity::write`] gives it back
//! in the base unit. Nothing here knows what a value is for, nor whether it is sensible.
//!
//! Factors: NIST SP 811 (2008) appendix B.8, from memory; the inch, the pound and the US bushel
//! volume are exact by definition.

mod gauge;
mod number;
mod spelled;
pub mod unit;
mod written;

pub use number::{MM_PER_INCH, plain_number};
pub use unit::Unit;
use written::{Form, Tables};
pub use written::{Misread, Refused};

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
    /// Reads a text with the tables of the quantity; [`Quantity::parse`] adds which units there are.
    ///
    /// # Errors
    /// What is wrong, and what may be meant.
    fn read_written(text: &str) -> Result<f64, Misread>;
    /// Factor of a unit as somebody spells it, the refused ones left out.
    fn factor(unit: &str) -> Option<f64>;
    /// Wraps a number given in the base unit.
    fn from_base(value: f64) -> Self;
    /// The number in the base unit.
    fn base(self) -> f64;

    /// Reads what a person writes. Terms add up (`"1 ft 6 in"`), fractions are understood
    /// (`"1 1/2 in"`), a sign may stand in front; units in their usual spellings (`feet`, `lbs/cu ft`).
    ///
    /// # Errors
    /// A plain sentence that says what is wrong and which units there are, and what may be meant.
    fn parse(text: &str) -> Result<Self, Misread> {
        Self::read_written(text)
            .map(Self::from_base)
            .map_err(|wrong| Misread { why: format!("{} (units of {}: {})", wrong.why, with_article(Self::NAME), unit_list(Self::UNITS)), ..wrong })
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

fn unit_list(units: &[(&str, f64)]) -> String {
    let names: Vec<&str> = units.iter().map(|u| u.0).filter(|n| !n.is_empty()).collect();
    names.join(", ")
}

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $getter:ident, $word:literal, $example:literal, $base:literal, $printed:ident, us $customary:literal, bare $bare:literal, [$(($unit:literal, $factor:expr)),+ $(,)?],
     also [$(($other:literal, $other_factor:expr)),* $(,)?], refused $refused:expr, $form:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);
        impl $name {
            #[doc = concat!("Wraps a number given in the base unit (", $base, ").")]
            pub const fn $getter(value: f64) -> Self { Self(value) }
            #[doc = concat!("The number in the base unit (", $base, ").")]
            pub const fn value(self) -> f64 { self.0 }
            const TABLES: Tables = Tables {
                units: <Self as Quantity>::UNITS,
                also: &[$(($other, $other_factor)),*],
                refused: $refused,
                bare: $bare,
                form: Form::$form,
            };
        }
        impl Quantity for $name {
            const NAME: &'static str = $word;
            const EXAMPLE: &'static str = $example;
            const BASE: &'static str = $base;
            const CUSTOMARY: &'static str = $customary;
            const UNIT: Unit = Unit::$printed;
            const UNITS: &'static [(&'static str, f64)] = &[$(($unit, $factor)),+];
            const BARE: bool = $bare;
            fn read_written(text: &str) -> Result<f64, Misread> { Self::TABLES.read(text) }
            fn factor(unit: &str) -> Option<f64> { Self::TABLES.factor(unit) }
            fn from_base(value: f64) -> Self { Self(value) }
            fn base(self) -> f64 { self.0 }
        }
    };
}

/// Kilograms in a pound, exact.
pub const KG_PER_POUND: f64 = 0.453_592_37;
/// Standard gravity in m/s², exact by definition.
pub const GRAVITY: f64 = 9.806_65;
/// Newtons in a pound-force.
pub const N_PER_POUND_FORCE: f64 = KG_PER_POUND * GRAVITY;
const FT3_M3: f64 = 0.028_316_846_592;
const BUSHEL_M3: f64 = 0.035_239_070_166_88;
const US_GALLON_L: f64 = 3.785_411_784;
const GALLON_L: f64 = 4.546_09;

const TON: &str = "a ton may be 1000 kg or 2000 lb";
const METRIC: &str = "for tonnes of 1000 kg";
const SHORT: &str = "for short tons of 2000 lb";
const TONS_PER_HOUR: &[(&str, f64, &str)] = &[("t/h", 1.0, METRIC), ("st/h", 1.0, SHORT)];
const GALLON: &str = "a gallon may be the US or the imperial one";
const US_GALLONS: &str = "for US gallons";
const GALLONS: &str = "for imperial gallons";

quantity!(
    /// A length in mm.
    Length, mm, "length", "450 mm", "mm", Mm, us "in", bare false,
    [("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("in", MM_PER_INCH), ("\"", MM_PER_INCH), ("ft", 304.8), ("'", 304.8)],
    also [("yd", 914.4)],
    refused &[],
    Gauge
);
quantity!(
    /// An angle in degrees.
    Angle, deg, "angle", "45 deg", "deg", Degree, us "deg", bare false,
    [("deg", 1.0), ("°", 1.0), ("rad", 57.295_779_513_082_32)],
    also [("'", 1.0 / 60.0), ("\"", 1.0 / 3600.0)],
    refused &[],
    Slope
);
quantity!(
    /// A mass flow in t/h.
    MassFlow, t_per_h, "mass flow", "120 t/h", "t/h", TPerH, us "st/h", bare false,
    [("t/h", 1.0), ("kg/h", 0.001), ("kg/s", 3.6), ("st/h", 0.907_184_74), ("lb/h", 0.000_453_592_37), ("lb/min", 0.027_215_542_2)],
    also [("kg/min", 0.06), ("g/s", 0.0036), ("t/min", 60.0), ("t/d", 1.0 / 24.0), ("st/min", 54.431_084_4), ("st/d", 0.907_184_74 / 24.0), ("lt/h", 1.016_046_908_8), ("lb/s", 1.632_932_532)],
    refused &[("ton/h", TON, TONS_PER_HOUR), ("ton/d", TON, &[("t/d", 1.0, METRIC), ("st/d", 1.0, SHORT)])],
    Sum
);
quantity!(
    /// A bulk density in t/m³.
    Density, t_per_m3, "density", "0.65 t/m3", "t/m3", TPerM3, us "lb/ft3", bare false,
    [("t/m3", 1.0), ("kg/m3", 0.001), ("kg/l", 1.0), ("lb/ft3", KG_PER_POUND / FT3_M3 / 1000.0), ("lb/bu", KG_PER_POUND / BUSHEL_M3 / 1000.0)],
    also [("g/l", 0.001), ("g/cm3", 1.0), ("g/ml", 1.0), ("kg/dm3", 1.0), ("kg/hl", 0.01), ("lbf/ft3", KG_PER_POUND / FT3_M3 / 1000.0), ("lb/in3", KG_PER_POUND / FT3_M3 * 1.728), ("lb/yd3", KG_PER_POUND / FT3_M3 / 27_000.0), ("st/yd3", 2.0 * KG_PER_POUND / FT3_M3 / 27.0)],
    refused &[
        ("kn/m3", "a weight; a density is a mass", &[("t/m3", 1.0 / GRAVITY, "")]),
        ("ton/m3", TON, &[("t/m3", 1.0, METRIC), ("t/m3", 0.907_184_74, SHORT)]),
        ("ton/yd3", TON, &[("st/yd3", 1.0, SHORT), ("t/m3", 1.307_950_619, METRIC)]),
        ("lb/gal", GALLON, &[("kg/m3", KG_PER_POUND / US_GALLON_L * 1000.0, US_GALLONS), ("kg/m3", KG_PER_POUND / GALLON_L * 1000.0, GALLONS)]),
    ],
    Sum
);
quantity!(
    /// A speed in m/s.
    Speed, m_per_s, "speed", "2.6 m/s", "m/s", MPerS, us "ft/min", bare false,
    [("m/s", 1.0), ("m/min", 1.0 / 60.0), ("ft/min", 0.005_08), ("ft/s", 0.3048)],
    also [("mm/s", 0.001), ("cm/s", 0.01), ("in/s", 0.0254), ("in/min", 0.0254 / 60.0), ("km/h", 1.0 / 3.6), ("m/h", 1.0 / 3600.0)],
    refused &[],
    Sum
);
quantity!(
    /// A volume in litres.
    Volume, l, "volume", "3.2 l", "l", L, us "in3", bare false,
    [("l", 1.0), ("dm3", 1.0), ("cm3", 0.001), ("m3", 1000.0), ("in3", 0.016_387_064), ("ft3", 28.316_846_592)],
    also [("ml", 0.001), ("cl", 0.01), ("dl", 0.1), ("hl", 100.0), ("bu", BUSHEL_M3 * 1000.0), ("yd3", FT3_M3 * 27_000.0)],
    refused &[("gal", GALLON, &[("l", US_GALLON_L, US_GALLONS), ("l", GALLON_L, GALLONS)])],
    Sum
);
quantity!(
    /// A mass in kg.
    Mass, kg, "mass", "1.8 kg", "kg", Kg, us "lb", bare false,
    [("kg", 1.0), ("g", 0.001), ("t", 1000.0), ("lb", KG_PER_POUND), ("oz", KG_PER_POUND / 16.0)],
    also [("st", 907.184_74)],
    refused &[("ton", TON, &[("t", 1.0, METRIC), ("st", 1.0, SHORT)]), ("kn", "a force; a mass is asked for", &[("kg", 1000.0 / GRAVITY, "for the mass of that weight")])],
    Sum
);
quantity!(
    /// A mass per area in kg/m².
    AreaMass, kg_per_m2, "mass per area", "11 kg/m2", "kg/m2", KgPerM2, us "lb/ft2", bare false,
    [("kg/m2", 1.0), ("lb/ft2", 4.882_427_636_383_05)],
    also [("g/m2", 0.001), ("oz/yd2", KG_PER_POUND / 16.0 / 0.836_127_36), ("lb/yd2", KG_PER_POUND / 0.836_127_36)],
    refused &[],
    Sum
);
quantity!(
    /// A force in N.
    Force, n, "force", "12 kN", "N", N, us "lbf", bare false,
    [("N", 1.0), ("kN", 1000.0), ("lbf", N_PER_POUND_FORCE)],
    also [("lb", N_PER_POUND_FORCE), ("kip", 1000.0 * N_PER_POUND_FORCE), ("kgf", GRAVITY), ("kp", GRAVITY), ("dan", 10.0)],
    refused &[("kg", "a mass; a force is asked for", &[("N", GRAVITY, "for the weight of that mass")]), ("t", "a mass; a force is asked for", &[("kN", GRAVITY, "for the weight of that mass")])],
    Sum
);
quantity!(
    /// A torque in N·m.
    Torque, nm, "torque", "60 N·m", "N·m", Nm, us "lbf·ft", bare false,
    [("N·m", 1.0), ("Nm", 1.0), ("lbf·ft", N_PER_POUND_FORCE * 0.3048), ("lbf-ft", N_PER_POUND_FORCE * 0.3048), ("ft-lbf", N_PER_POUND_FORCE * 0.3048)],
    also [("knm", 1000.0), ("lbfft", N_PER_POUND_FORCE * 0.3048), ("ft-lb", N_PER_POUND_FORCE * 0.3048), ("lb-ft", N_PER_POUND_FORCE * 0.3048), ("in-lbf", N_PER_POUND_FORCE * 0.0254)],
    refused &[],
    Sum
);
quantity!(
    /// A force per belt width in N/mm.
    LineForce, n_per_mm, "force per width", "3 N/mm", "N/mm", NPerMm, us "lbf/in", bare false,
    [("N/mm", 1.0), ("kN/m", 1.0), ("lbf/in", N_PER_POUND_FORCE / MM_PER_INCH)],
    also [("lb/in", N_PER_POUND_FORCE / MM_PER_INCH), ("N/m", 0.001), ("N/cm", 0.1), ("kgf/cm", GRAVITY / 10.0)],
    refused &[],
    Sum
);
quantity!(
    /// A stress in MPa.
    Stress, mpa, "stress", "355 MPa", "MPa", Mpa, us "psi", bare false,
    [("MPa", 1.0), ("N/mm2", 1.0), ("kPa", 0.001), ("psi", 0.006_894_757_293_168), ("ksi", 6.894_757_293_168)],
    also [("Pa", 1e-6), ("GPa", 1000.0), ("bar", 0.1), ("kN/m2", 0.001), ("kN/cm2", 10.0), ("lb/in2", 0.006_894_757_293_168), ("kgf/cm2", GRAVITY / 100.0), ("kgf/mm2", GRAVITY)],
    refused &[],
    Sum
);
quantity!(
    /// A time in s.
    Time, s, "time", "3 s", "s", S, us "s", bare false,
    [("s", 1.0), ("min", 60.0), ("h", 3600.0)],
    also [("ms", 0.001), ("d", 86_400.0)],
    refused &[("year", "years have not the same running hours everywhere; write hours", &[("h", 8760.0, "for running day and night")])],
    Sum
);
quantity!(
    /// A share or a coefficient; 1 = 100 %.
    Ratio, of_one, "ratio", "75 %", "", One, us "", bare true,
    [("%", 0.01)],
    also [("‰", 0.001)],
    refused &[],
    Share
);

quantity!(
    /// A volume flow in m³/h.
    VolumeFlow, m3_per_h, "volume flow", "150 m3/h", "m3/h", M3PerH, us "ft3/h", bare false,
    [("m3/h", 1.0), ("l/h", 0.001), ("ft3/h", FT3_M3), ("bu/h", BUSHEL_M3)],
    also [("m3/min", 60.0), ("m3/s", 3600.0), ("l/min", 0.06), ("l/s", 3.6), ("hl/h", 0.1), ("ft3/min", FT3_M3 * 60.0), ("bu/min", BUSHEL_M3 * 60.0), ("yd3/h", FT3_M3 * 27.0)],
    refused &[],
    Sum
);
quantity!(
    /// Turns in a minute.
    TurnRate, per_min, "speed of rotation", "44 rpm", "rpm", PerMin, us "rpm", bare false,
    [("rpm", 1.0)],
    also [("rps", 60.0)],
    refused &[],
    Sum
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
        assert!(Length::parse("450").unwrap_err().why.contains("unit is missing"));
        assert!(Length::parse("450 kg").unwrap_err().why.contains("\"kg\" is not a unit"));
        assert!(Length::parse("0,45 m").unwrap_err().why.contains("decimal comma"));
        assert!(Length::parse("").unwrap_err().why.contains("nothing"));
        assert!(Length::parse("1/0 in").unwrap_err().why.contains("zero"));
        assert!(Length::parse("mm").unwrap_err().why.contains("number"));
    }
}
