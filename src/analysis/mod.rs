//! Formulas applied to spec and model; every result keeps its name, value, unit, inputs and source.
//!
//! One file a topic: a struct with the numbers that rules and sheets use, and a `record` function
//! that lists them as [`Quantity`]s for `results.json` and the report. What no spec key says stands in
//! [`assumed`]. Nothing here judges.

pub mod assumed;
pub mod capacity;
pub mod clearances;
pub mod masses;
pub mod path;
pub mod plugging;
pub mod section;

use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
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

impl Quantity {
    /// A quantity; `inputs` are spec paths or ids of other quantities.
    pub fn new(id: impl Into<String>, name: impl Into<String>, value: f64, unit: &'static str, inputs: &[&str], source: Source) -> Self {
        Self { id: id.into(), name: name.into(), value, unit, inputs: inputs.iter().map(|i| (*i).to_string()).collect(), source }
    }
}

/// Everything computed for one foot.
#[derive(Debug, Clone, PartialEq)]
pub struct Results {
    /// What the buckets carry against what is wanted.
    pub capacity: capacity::Capacity,
    /// Belt path: lengths, wraps, angles.
    pub path: path::Path,
    /// Gaps between what moves and what stands.
    pub clearances: clearances::Clearances,
    /// Free volume of the foot and the time that fills it.
    pub plugging: plugging::Plugging,
    /// Estimated masses.
    pub masses: masses::Masses,
    /// Every number above and every assumption, in the order of the topics.
    pub quantities: Vec<Quantity>,
}

impl Results {
    /// A quantity by its id.
    pub fn quantity(&self, id: &str) -> Option<&Quantity> {
        self.quantities.iter().find(|q| q.id == id)
    }
}

/// Computes everything. It cannot fail: where a result does not exist for a machine (no bend pulley,
/// no pit) its field is `None` and it records nothing.
pub fn analyse(spec: &Spec, foot: &Foot) -> Results {
    let mut quantities = Vec::new();
    let capacity = capacity::Capacity::compute(spec, foot);
    capacity.record(&mut quantities);
    let path = path::Path::compute(spec, foot);
    path.record(&mut quantities);
    let clearances = clearances::Clearances::compute(foot);
    clearances.record(&mut quantities);
    let plugging = plugging::Plugging::compute(spec, foot);
    plugging.record(&mut quantities);
    let masses = masses::Masses::compute(spec, foot, &capacity, &path);
    masses.record(&mut quantities);
    quantities.extend(assumed::ALL.iter().map(assumed::Assumption::quantity));
    Results { capacity, path, clearances, plugging, masses, quantities }
}

/// The quantities as JSON text, one object each, in their order; a number that is not finite becomes `null`.
pub fn to_json(results: &Results) -> String {
    serde_json::to_string_pretty(&results.quantities).unwrap_or_default()
}
