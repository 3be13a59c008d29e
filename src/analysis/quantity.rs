//! A computed number as it is listed: name, value, unit, what it came from, source.

use crate::say::Statement;
use crate::sources::Source;
use crate::units::Unit;
use serde::{Serialize, Serializer};

/// One computed quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Quantity {
    /// Stable id, e.g. `capacity.rated`.
    pub id: String,
    /// What it is; as JSON its English text, so that a reader finds the same words in every job.
    #[serde(serialize_with = "in_plain_words")]
    pub name: Statement,
    /// Its value in `unit`.
    pub value: f64,
    /// Metric unit.
    pub unit: Unit,
    /// What it was computed from: spec paths or ids of other quantities.
    pub inputs: Vec<String>,
    /// Where the formula comes from.
    pub source: Source,
}

impl Quantity {
    /// A quantity; `inputs` are spec paths or ids of other quantities.
    pub fn new(id: impl Into<String>, name: impl Into<Statement>, value: f64, unit: Unit, inputs: &[&str], source: Source) -> Self {
        Self { id: id.into(), name: name.into(), value, unit, inputs: inputs.iter().map(|i| (*i).to_string()).collect(), source }
    }
}

fn in_plain_words<S: Serializer>(name: &Statement, out: S) -> Result<S::Ok, S::Error> {
    out.serialize_str(&name.plainly())
}

/// Writes quantities of one topic.
pub(crate) struct Group<'a> {
    name: &'static str,
    out: &'a mut Vec<Quantity>,
}

impl<'a> Group<'a> {
    pub(crate) fn new(name: &'static str, out: &'a mut Vec<Quantity>) -> Self {
        Self { name, out }
    }
    pub(crate) fn put(&mut self, id: &str, name: impl Into<Statement>, value: f64, unit: Unit, inputs: &[&str], source: Source) {
        self.out.push(Quantity::new(format!("{}.{id}", self.name), name, value, unit, inputs, source));
    }
}
