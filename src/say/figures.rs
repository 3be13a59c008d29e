//! How figures are written: unit of lengths, decimal sign, how finely.
//!
//! Chosen once a job, from the spec; `number` and the voice ask it.

/// In which unit lengths are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LengthUnit {
    /// Millimetres.
    Mm,
    /// Decimal inches.
    InchDecimal,
    /// Feet and inches with fractions, e.g. `7'-6 1/2"`.
    InchFraction,
}

/// The sign between whole and decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DecimalSign {
    /// `12.5`
    Point,
    /// `12,5`
    Comma,
}

/// Everything that decides how a figure looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figures {
    /// Unit of lengths.
    pub unit: LengthUnit,
    /// Decimal sign.
    pub decimal: DecimalSign,
    /// Decimals of lengths in mm (uniform on a whole set), normally 0 or 1.
    pub decimals_mm: usize,
    /// Decimals of lengths in decimal inches, normally 2 or 3.
    pub decimals_inch: usize,
    /// Smallest fraction of an inch, as denominator: 16 writes sixteenths.
    pub fraction: u32,
}

impl Default for Figures {
    fn default() -> Self {
        Self { unit: LengthUnit::Mm, decimal: DecimalSign::Point, decimals_mm: 0, decimals_inch: 2, fraction: 16 }
    }
}

impl Figures {
    /// Feet, inches and fractions.
    pub fn us() -> Self {
        Self { unit: LengthUnit::InchFraction, ..Self::default() }
    }
    /// Whether US customary units are written.
    pub fn customary(&self) -> bool {
        self.unit != LengthUnit::Mm
    }
}
