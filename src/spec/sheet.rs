//! `[sheet]`: how the drawings look.

use super::reader::{spec_table, words};
use crate::say::words::AMERICAN;

words!(
    /// Family of sheet formats.
    SheetStandard {
        /// ISO 5457, A4 to A0.
        Iso = "iso",
        /// ASME Y14.1, A to E.
        Ansi = "ansi",
    }
);

words!(
    /// Projection method.
    Projection {
        /// First angle.
        First = "first",
        /// Third angle.
        Third = "third",
    }
);

words!(
    /// Unit of the dimensions.
    LengthUnit {
        /// Millimetres.
        Mm = "mm",
        /// Decimal inches.
        Inch = "inch",
        /// Feet and inches with binary fractions.
        FeetInch = "feet-inch",
    }
);

words!(
    /// Decimal sign on the sheets.
    DecimalSign {
        /// 0.5
        Point = "point",
        /// 0,5
        Comma = "comma",
    }
);

words!(
    /// On which hand the up side lies in the main elevation.
    Hand {
        /// Up side on the right.
        Right = "up side right",
        /// Up side on the left (the elevation is mirrored, never the model).
        Left = "up side left",
    }
);

words!(
    /// Language of titles and notes.
    Language {
        /// English.
        English = "en",
        /// German.
        German = "de",
    }
);

impl Language {
    /// Its tag (BCP 47): English of US jobs is a kind of its own, with US spelling and terms.
    pub fn tag(self, us: bool) -> &'static str {
        match self {
            Self::English if us => AMERICAN,
            _ => self.word(),
        }
    }
}

spec_table!(
    /// How the drawings look.
    SheetSpec, AskedSheetSpec, "sheet", {
        /// Family of formats.
        standard: SheetStandard;
        /// Format of every sheet, e.g. "A1" or "D"; left out, the program chooses for each sheet.
        size: Option<String>;
        /// Projection method.
        projection: Projection;
        /// Unit of the dimensions.
        unit: LengthUnit;
        /// Decimal sign.
        decimal: DecimalSign;
        /// Which hand the up side lies on.
        hand: Hand;
        /// Language.
        language: Language;
    }
);
