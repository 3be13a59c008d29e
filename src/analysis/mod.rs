//! Formulas applied to spec and model; every result keeps its name, value, unit, inputs and source.
//!
//! One file a topic: a struct with the numbers that rules and sheets use, and a `record` function
//! that lists them as [`Quantity`]s for `results.json` and the report. Nothing here judges.

use crate::sources::Source;
use serde::Serialize;

/// One computed quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Quantity {
    /// Stable id, e.g. `capacity.rated`.
    pub id: String,
    /// What it is, in plain words.
    pub name: String,
    /// Its value in `unit`.
    pub value: f64,
    /// Unit as printed, empty for a ratio.
    pub unit: &'static str,
    /// What it was computed from: spec paths or ids of other quantities.
    pub inputs: Vec<String>,
    /// Where the formula comes from.
    pub source: Source,
}
