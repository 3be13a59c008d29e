//! The keys of the spec with their ranges, and the settled values, as lists that help, README and reports print.
//!
//! In: the declared tables. Out: lines of text and quantities. Nothing here reads a spec.

use super::leaf::Origin;
use super::value::ReadValue;
use crate::say::{Amount, Voice, amount};
use crate::units::Unit;

/// One key of the spec, for help and README.
#[derive(Debug, Clone)]
pub struct Key {
    /// Full path, e.g. `inlet.up.sill`.
    pub path: String,
    /// Kind of value.
    pub kind: String,
    /// Smallest sensible value in base units.
    pub least: Option<f64>,
    /// Largest sensible value in base units.
    pub most: Option<f64>,
    /// The range as it would be written.
    pub range: String,
    /// What it is.
    pub about: String,
}

/// One settled value, for the list of inputs and defaults.
#[derive(Debug, Clone)]
pub struct SettledLine {
    /// Full path.
    pub path: String,
    /// The value as it would be written.
    pub value: String,
    /// The value as it would be written in US customary units.
    pub customary: String,
    /// The value as a quantity, where it is one.
    pub amount: Option<Amount>,
    /// Where it came from.
    pub origin: Origin,
}

impl SettledLine {
    /// The value as a report prints it: quantities in the units of the job, all else as it would be written.
    pub fn shown(&self, voice: &Voice) -> String {
        // A life of 144,000,000 s is one of 40,000 h.
        let long = |a: Amount| if a.unit == Unit::S && a.value >= 3600.0 { amount(a.value / 3600.0, Unit::H, 1) } else { a };
        let written = if voice.customary() { &self.customary } else { &self.value };
        self.amount.map_or_else(|| written.clone(), |amount| voice.amount(long(amount)))
    }
}

/// "from … to …" as it would be written.
pub fn range_text<T: ReadValue>(least: Option<f64>, most: Option<f64>) -> String {
    match (least, most) {
        (Some(l), Some(m)) => format!("from {} to {}", T::show_number(l), T::show_number(m)),
        (Some(l), None) => format!("of {} or more", T::show_number(l)),
        (None, Some(m)) => format!("of {} or less", T::show_number(m)),
        (None, None) => String::new(),
    }
}
