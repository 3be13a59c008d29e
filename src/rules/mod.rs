//! The trade's rules: one file each, all of them in [`ALL`].
//!
//! A rule looks at spec, model and results and returns findings: verdict, value, limit, what would
//! pass, source, spec path. It changes nothing. A rule that has nothing to say about a machine
//! (no bend pulley, no pit) returns no finding.

use crate::analysis::Results;
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use serde::Serialize;

/// What a rule thinks of the machine; the order is from good to bad.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// As it should be.
    Pass,
    /// Worth knowing.
    Note,
    /// Will cost something: capacity, belt life, trouble.
    Warn,
    /// Must not be built (or must be changed) like this.
    Fail,
}

/// A value with its unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Amount {
    /// The number.
    pub value: f64,
    /// Unit as printed, empty for a ratio.
    pub unit: &'static str,
}

/// A change of the spec that makes the rule pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Change {
    /// Spec path, e.g. `inlet.up.sill`.
    pub path: String,
    /// The TOML value to write there, e.g. `"905 mm"` (quotes included) or `true`.
    pub value: String,
}

/// What a rule found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Finding {
    /// Id of the rule.
    pub rule: &'static str,
    /// Verdict.
    pub verdict: Verdict,
    /// One or two plain sentences with the numbers.
    pub message: String,
    /// The value looked at.
    pub value: Option<Amount>,
    /// The limit it is held against.
    pub limit: Option<Amount>,
    /// What would pass; `None` when it passes or no single value can mend it (the message says what can).
    pub would_pass: Vec<Change>,
    /// Spec path that the finding is about.
    pub path: String,
    /// Source of the limit.
    pub source: Source,
}

/// Everything a rule may look at.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The settled spec.
    pub spec: &'a Spec,
    /// The model.
    pub foot: &'a Foot,
    /// The results.
    pub results: &'a Results,
}

/// A rule of the trade.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Stable id: topic and subject in lower case with a hyphen, e.g. `inlet-up-sill`.
    pub id: &'static str,
    /// Title in a few words.
    pub title: &'static str,
    /// What is looked at.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What would pass, in words.
    pub remedy: &'static str,
    /// Where it comes from.
    pub source: Source,
    /// Looks at a machine.
    pub check: fn(&Case<'_>) -> Vec<Finding>,
}
