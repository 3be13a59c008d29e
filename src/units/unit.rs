//! Units in which quantities are printed: the metric one that the program computes in, and the US customary one beside it.
//!
//! [`Unit`] is the list of all of them. Nothing here reads what a user writes (see the quantities of
//! [`units`](super)), and nothing here rounds.

use super::{GRAVITY, KG_PER_POUND, MM_PER_INCH};
use serde::{Serialize, Serializer};

/// Newtons in a pound-force.
const POUND_FORCE: f64 = KG_PER_POUND * GRAVITY;
/// Metres in a foot.
const FOOT_M: f64 = 12.0 * MM_PER_INCH / 1000.0;
/// Kilowatts in a mechanical horsepower: 550 ft·lbf/s.
const HORSEPOWER_KW: f64 = 0.550 * FOOT_M * POUND_FORCE;
/// MPa in a pound-force per square inch.
const PSI_MPA: f64 = POUND_FORCE / (MM_PER_INCH * MM_PER_INCH);

macro_rules! units {
    ($($(#[$doc:meta])* $name:ident = $symbol:literal $(, $size:expr => $customary:literal)?;)+) => {
        /// Unit of a printed quantity.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Unit {
            $($(#[$doc])* $name,)+
        }
        impl Unit {
            /// All units.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// As printed behind a figure; empty for a plain number.
            pub const fn symbol(self) -> &'static str {
                match self { $(Self::$name => $symbol,)+ }
            }

            /// The US customary unit that takes its place, as the size of one metric unit in it and its symbol; `None` for
            /// units that both systems share (degrees, seconds, turns) and for shares. Factors: NIST SP 811 (2008) appendix
            /// B.8, from memory; inch, pound and standard gravity are exact by definition.
            pub const fn customary(self) -> Option<(f64, &'static str)> {
                match self {
                    $($(Self::$name => Some(($size, $customary)),)?)+
                    #[allow(unreachable_patterns, reason = "units without a counterpart")]
                    _ => None,
                }
            }
        }
    };
}

units! {
    /// A plain number, a share, a coefficient.
    One = "";
    /// Per cent.
    Percent = "%";
    /// Degrees of an angle.
    Degree = "°";
    /// Radians.
    Rad = "rad";
    /// Millimetres.
    Mm = "mm", 1.0 / MM_PER_INCH => "in";
    /// Millimetres of one length a millimetre of another.
    MmPerMm = "mm/mm", 1.0 => "in/in";
    /// Metres. In US jobs lengths are inches in figures and feet with inches in words, however long; feet with decimals stand nowhere.
    M = "m", 1000.0 / MM_PER_INCH => "in";
    /// Square millimetres.
    Mm2 = "mm²", 1.0 / (MM_PER_INCH * MM_PER_INCH) => "in²";
    /// Square centimetres.
    Cm2 = "cm²", 100.0 / (MM_PER_INCH * MM_PER_INCH) => "in²";
    /// Square metres.
    M2 = "m²", 1.0 / (FOOT_M * FOOT_M) => "ft²";
    /// Litres.
    L = "l", 0.001 / (FOOT_M * FOOT_M * FOOT_M) => "ft³";
    /// Cubic metres of concrete and soil.
    M3 = "m³", 1.0 / (27.0 * FOOT_M * FOOT_M * FOOT_M) => "yd³";
    /// Cubic metres an hour.
    M3PerH = "m³/h", 1.0 / (FOOT_M * FOOT_M * FOOT_M) => "ft³/h";
    /// Metres a second.
    MPerS = "m/s", 60.0 / FOOT_M => "ft/min";
    /// Tonnes an hour.
    TPerH = "t/h", 1000.0 / (2000.0 * KG_PER_POUND) => "st/h";
    /// Tonnes a cubic metre.
    TPerM3 = "t/m³", 1000.0 * FOOT_M * FOOT_M * FOOT_M / KG_PER_POUND => "lb/ft³";
    /// Kilograms a cubic metre.
    KgPerM3 = "kg/m³", FOOT_M * FOOT_M * FOOT_M / KG_PER_POUND => "lb/ft³";
    /// Kilonewtons a cubic metre.
    KnPerM3 = "kN/m³", 1000.0 * FOOT_M * FOOT_M * FOOT_M / POUND_FORCE => "lbf/ft³";
    /// Kilograms.
    Kg = "kg", 1.0 / KG_PER_POUND => "lb";
    /// Kilograms a metre.
    KgPerM = "kg/m", FOOT_M / KG_PER_POUND => "lb/ft";
    /// Kilograms a square metre.
    KgPerM2 = "kg/m²", FOOT_M * FOOT_M / KG_PER_POUND => "lb/ft²";
    /// Kilograms a square millimetre.
    KgPerMm2 = "kg/mm²", MM_PER_INCH * MM_PER_INCH / KG_PER_POUND => "lb/in²";
    /// Kilograms a kilowatt.
    KgPerKw = "kg/kW", HORSEPOWER_KW / KG_PER_POUND => "lb/hp";
    /// Kilograms a square metre and a millimetre of thickness.
    KgPerM2Mm = "kg/m²/mm", FOOT_M * FOOT_M / KG_PER_POUND * MM_PER_INCH => "lb/ft²/in";
    /// Newtons.
    N = "N", 1.0 / POUND_FORCE => "lbf";
    /// Kilonewtons.
    Kn = "kN", 1000.0 / POUND_FORCE => "lbf";
    /// Kilonewtons that a building carries.
    KnOnBuilding = "kN", 1.0 / POUND_FORCE => "kip";
    /// Newtons a millimetre.
    NPerMm = "N/mm", MM_PER_INCH / POUND_FORCE => "lbf/in";
    /// Newton metres.
    Nm = "N·m", 1.0 / (FOOT_M * POUND_FORCE) => "lbf·ft";
    /// Megapascals.
    Mpa = "MPa", 1.0 / PSI_MPA => "psi";
    /// Kilowatts.
    Kw = "kW", 1.0 / HORSEPOWER_KW => "hp";
    /// Seconds.
    S = "s";
    /// Hours.
    H = "h";
    /// Turns a minute.
    PerMin = "1/min", 1.0 => "rpm";
    /// Pulses a minute.
    PulsesPerMin = "1/min";
    /// Times an hour.
    PerH = "1/h";
    /// Times a second.
    PerS = "1/s";
}

impl Unit {
    /// The unit with this symbol, the more general one where two share it.
    pub fn of_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|u| u.symbol() == symbol)
    }
}

impl Serialize for Unit {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.serialize_str(self.symbol())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Factors of NIST SP 811, Appendix B.
    #[test]
    fn customary_units() {
        for (metric, us) in [
            (Unit::M, 39.370_08),
            (Unit::M3, 1.307_951),
            (Unit::L, 0.035_314_67),
            (Unit::M2, 10.763_91),
            (Unit::Cm2, 0.155_000_3),
            (Unit::MPerS, 196.850_4),
            (Unit::TPerH, 1.102_311),
            (Unit::TPerM3, 62.427_96),
            (Unit::KnPerM3, 6.365_88),
            (Unit::Kg, 2.204_623),
            (Unit::KgPerM, 0.671_969),
            (Unit::KgPerM2, 0.204_816_1),
            (Unit::Kn, 224.808_9),
            (Unit::KnOnBuilding, 0.224_808_9),
            (Unit::NPerMm, 5.710_147),
            (Unit::Nm, 0.737_562_1),
            (Unit::Mpa, 145.037_7),
            (Unit::Kw, 1.341_022),
        ] {
            let (got, _) = metric.customary().unwrap();
            assert!((got / us - 1.0).abs() < 2e-6, "{metric:?}: {got} against {us}");
        }
        assert_eq!(Unit::Degree.customary(), None);
    }

    #[test]
    fn a_symbol_names_one_unit() {
        // Kinds of a unit that the US tells apart.
        let kinds = [(Unit::KnOnBuilding, Unit::Kn), (Unit::PulsesPerMin, Unit::PerMin)];
        for unit in Unit::ALL {
            let general = kinds.iter().find(|k| k.0 == *unit).map_or(*unit, |k| k.1);
            assert_eq!(Unit::of_symbol(unit.symbol()), Some(general));
        }
    }
}
