//! What a rule is, and everything that it may look at.
//!
//! In: spec, model, results, parts. Out: findings, made by [`Rule::finds`](Rule) with the rule's own source.

use super::finding::{Finding, Verdict};
use crate::analysis::Results;
use crate::model::Foot;
use crate::parts::Parts;
use crate::say::Statement;
use crate::sources::Source;
use crate::spec::Spec;
use crate::tables::access::{self, Access};
use crate::tables::grain_handling;

/// Everything a rule may look at.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The settled spec.
    pub spec: &'a Spec,
    /// The model.
    pub foot: &'a Foot,
    /// The results.
    pub results: &'a Results,
    /// The parts, with what cannot be made.
    pub parts: &'a Parts,
    /// What the rules are asked for.
    pub wanted: Wanted,
}

/// What the rules are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// Verdict, value and limit; changes that have to be searched for may be left out.
    Verdicts,
    /// What would pass as well.
    Changes,
}

impl Case<'_> {
    /// Adds the changes that a search finds. Nothing is searched for when the finding passes as it is, or when nobody wants changes.
    pub(super) fn mend(&self, finding: Finding, search: impl FnOnce(Finding) -> Finding) -> Finding {
        if self.wanted == Wanted::Changes && finding.verdict > Verdict::Note { search(finding) } else { finding }
    }
    /// Whether the product's dust can burn or explode.
    pub fn combustible(&self) -> bool {
        self.spec.product.combustible.value
    }
    /// A verdict that a combustible dust raises to `Fail`.
    pub fn warn_or_fail_for_dust(&self) -> Verdict {
        if self.combustible() { Verdict::Fail } else { Verdict::Warn }
    }
    /// Whether US federal regulations are applied.
    pub fn us(&self) -> bool {
        self.spec.us()
    }
    /// A clause of US law on grain handling where it is law, else what it stands for.
    pub fn grain_law(&self, clause: Source) -> Source {
        grain_handling::source(clause, self.us(), self.spec.product.is_grain())
    }
    /// The access limits of the jurisdiction.
    pub fn access(&self) -> &'static Access {
        access::access(self.us())
    }
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

impl Rule {
    /// A finding of this rule about a spec path, with the rule's own source.
    pub(super) fn finds(&self, verdict: Verdict, path: impl Into<String>, message: impl Into<Statement>) -> Finding {
        Finding {
            rule: self.id,
            verdict,
            message: message.into(),
            value: None,
            limit: None,
            would_pass: Vec::new(),
            path: path.into(),
            source: self.source,
            accepted: None,
        }
    }
}
