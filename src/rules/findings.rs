//! All rules applied to one machine: the findings in a fixed order, their counts, the stamp, `checks.json`.
//!
//! In: settled spec, model, results, parts. Out: [`Findings`]. The order is worst first, then as in
//! [`ALL`](super::ALL), then by spec path; nothing depends on time or on addresses.

use super::finding::{Change, Finding, Verdict};
use super::{ALL, Case, Wanted};
use crate::analysis::Results;
use crate::model::Foot;
use crate::parts::Parts;
use crate::say;
use crate::say::{Amount, Statement, Voice, joined};
use crate::sources::Source;
use crate::spec::Spec;
use crate::spec::project::Status;
use serde::Serialize;
use std::cmp::Reverse;

/// How many findings of each verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Counts {
    /// As it should be.
    pub pass: usize,
    /// Worth knowing.
    pub note: usize,
    /// Will cost something.
    pub warn: usize,
    /// Must not be built like this.
    pub fail: usize,
}

/// What may be done with sheets of a machine with these findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Release {
    /// No rule fails or warns.
    NoObjection,
    /// Warnings are open; somebody has to accept them.
    OpenWarnings,
    /// A rule fails.
    NotForFabrication,
}

impl Release {
    /// As stamped, to be said by a voice. No release is an approval: the program never signs.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NoObjection => "NO RULE OBJECTS - TO BE APPROVED",
            Self::OpenWarnings => "WARNINGS OPEN - TO BE APPROVED",
            Self::NotForFabrication => "NOT FOR FABRICATION",
        }
    }
}

/// Everything that the rules found.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings {
    /// Findings, worst first.
    pub items: Vec<Finding>,
    /// How many of each verdict.
    pub counts: Counts,
    /// Ids of the rules that fail, each once, in the order of [`ALL`](super::ALL).
    pub failed: Vec<&'static str>,
    /// Ids of the rules that have nothing to say about this machine.
    pub not_applicable: Vec<&'static str>,
    /// Whether this is a survey of an existing foot.
    pub survey: bool,
}

/// What a rule says in numbers alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// Id of the rule.
    pub rule: &'static str,
    /// Verdict.
    pub verdict: Verdict,
    /// The value looked at.
    pub value: Option<Amount>,
    /// The limit it is held against.
    pub limit: Option<Amount>,
}

/// What all rules say in numbers alone, in the order of [`ALL`](super::ALL).
#[derive(Debug, Clone, PartialEq)]
pub struct Verdicts {
    /// One for each finding of [`check`].
    pub items: Vec<Judgement>,
    /// Ids of the rules that fail, each once.
    pub failed: Vec<&'static str>,
}

/// Applies every rule for its verdicts alone: no search for what would pass, no sorting. For comparing many variants.
pub fn judge(spec: &Spec, foot: &Foot, results: &Results, parts: &Parts) -> Verdicts {
    let case = Case { spec, foot, results, parts, wanted: Wanted::Verdicts };
    let mut verdicts = Verdicts { items: Vec::with_capacity(ALL.len()), failed: Vec::new() };
    for rule in ALL {
        let before = verdicts.items.len();
        verdicts.items.extend((rule.check)(&case).into_iter().map(|f| Judgement { rule: f.rule, verdict: f.verdict, value: f.value, limit: f.limit }));
        if verdicts.items.iter().skip(before).any(|j| j.verdict == Verdict::Fail) {
            verdicts.failed.push(rule.id);
        }
    }
    verdicts
}

/// Applies every rule.
pub fn check(spec: &Spec, foot: &Foot, results: &Results, parts: &Parts) -> Findings {
    let case = Case { spec, foot, results, parts, wanted: Wanted::Changes };
    let mut items: Vec<(usize, Finding)> = Vec::new();
    let mut not_applicable = Vec::new();
    for (order, rule) in ALL.iter().enumerate() {
        let found = (rule.check)(&case);
        if found.is_empty() {
            not_applicable.push(rule.id);
        }
        items.extend(found.into_iter().map(|f| (order, f)));
    }
    items.sort_by(|(i, a), (j, b)| (Reverse(a.verdict), i, &a.path).cmp(&(Reverse(b.verdict), j, &b.path)));
    let items: Vec<Finding> = items.into_iter().map(|(_, f)| f).collect();
    let count = |v: Verdict| items.iter().filter(|f| f.verdict == v).count();
    let counts = Counts { pass: count(Verdict::Pass), note: count(Verdict::Note), warn: count(Verdict::Warn), fail: count(Verdict::Fail) };
    let failed = ALL.iter().map(|r| r.id).filter(|id| items.iter().any(|f| f.rule == *id && f.verdict == Verdict::Fail)).collect();
    Findings { items, counts, failed, not_applicable, survey: spec.project.status.value == Status::Survey }
}

impl Findings {
    /// The worst verdict; `Pass` when nothing was found.
    pub fn worst(&self) -> Verdict {
        self.items.iter().map(|f| f.verdict).max().unwrap_or(Verdict::Pass)
    }

    /// What may be done with the sheets.
    pub fn release(&self) -> Release {
        match self.worst() {
            Verdict::Fail => Release::NotForFabrication,
            Verdict::Warn => Release::OpenWarnings,
            Verdict::Note | Verdict::Pass => Release::NoObjection,
        }
    }

    /// The line for the stamp, e.g. `NOT FOR FABRICATION: 2 fail, 3 warn, 7 note (inlet-up-sill, door-mesh)`. What passes
    /// is not counted, so that a rule that passes changes no stamp.
    pub fn stamp(&self) -> Statement {
        let Counts { note, warn, fail, .. } = self.counts;
        let release = self.release().words();
        let stamp = if self.failed.is_empty() {
            say!("{release}: {fail} fail, {warn} warn, {note} note", release = release, fail = fail, warn = warn, note = note)
        } else {
            let failed = joined(self.failed.iter().map(|id| Statement::named(*id)));
            say!("{release}: {fail} fail, {warn} warn, {note} note ({failed})", release = release, fail = fail, warn = warn, note = note, failed = failed)
        };
        if self.survey { say!("EXISTING FOOT AS MEASURED - {stamp}", stamp = stamp) } else { stamp }
    }

    /// Findings of one rule.
    pub fn of<'a>(&'a self, id: &'a str) -> impl Iterator<Item = &'a Finding> {
        self.items.iter().filter(move |f| f.rule == id)
    }

    /// As data: release, stamp, counts, failed rules, every finding with its text in this voice and its values with
    /// metric units, rules that do not apply.
    pub fn told<'a>(&'a self, voice: &Voice) -> Told<'a> {
        let told = |f: &'a Finding| ToldFinding {
            rule: f.rule,
            verdict: f.verdict,
            path: &f.path,
            text: voice.say(&f.message),
            says: &f.message,
            value: f.value,
            limit: f.limit,
            would_pass: &f.would_pass,
            source: f.source,
        };
        Told {
            release: self.release(),
            stamp: voice.say(&self.stamp()),
            items: self.items.iter().map(told).collect(),
            counts: self.counts,
            failed: &self.failed,
            not_applicable: &self.not_applicable,
            survey: self.survey,
        }
    }

    /// `checks.json`.
    ///
    /// # Errors
    /// When a number cannot be written as JSON, which the serialiser alone decides.
    pub fn to_json(&self, voice: &Voice) -> Result<String, serde_json::Error> {
        let mut text = serde_json::to_string_pretty(&self.told(voice))?;
        text.push('\n');
        Ok(text)
    }
}

/// Findings as `checks.json` and `check --json` tell them.
#[derive(Debug, Serialize)]
pub struct Told<'a> {
    release: Release,
    stamp: String,
    items: Vec<ToldFinding<'a>>,
    counts: Counts,
    failed: &'a [&'static str],
    not_applicable: &'a [&'static str],
    survey: bool,
}

#[derive(Debug, Serialize)]
struct ToldFinding<'a> {
    rule: &'static str,
    verdict: Verdict,
    path: &'a str,
    text: String,
    says: &'a Statement,
    value: Option<Amount>,
    limit: Option<Amount>,
    would_pass: &'a [Change],
    source: Source,
}
