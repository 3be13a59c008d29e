//! All rules applied to one machine: the findings in a fixed order, their counts, the stamp, `checks.json`.
//!
//! In: settled spec, model, results, parts. Out: [`Findings`]. The order is worst first, then as in
//! [`ALL`](super::ALL), then by spec path; nothing depends on time or on addresses.

use super::finding::{Accepted, Change, Finding, Standing, Verdict};
use super::{ALL, Case, Wanted, deviations};
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

/// How many findings of each standing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Counts {
    /// As it should be.
    pub pass: usize,
    /// Worth knowing.
    pub note: usize,
    /// Failures and warnings that a deviation accepts; counted here alone.
    pub accepted: usize,
    /// Will cost something.
    pub warn: usize,
    /// Must not be built like this.
    pub fail: usize,
}

impl Counts {
    /// Counts findings.
    pub fn of(items: &[Finding]) -> Self {
        let count = |standing: Standing| items.iter().filter(|f| f.standing() == standing).count();
        Self {
            pass: count(Standing::Pass),
            note: count(Standing::Note),
            accepted: count(Standing::Accepted),
            warn: count(Standing::Warn),
            fail: count(Standing::Fail),
        }
    }
}

/// What may be done with sheets of a machine with these findings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Release {
    /// No rule fails or warns.
    NoObjection,
    /// What fails or warns is accepted in the spec; somebody has to approve that too.
    DeviationsAccepted,
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
            Self::DeviationsAccepted => "DEVIATIONS ACCEPTED - TO BE APPROVED",
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
    /// How many of each standing.
    pub counts: Counts,
    /// Ids of the rules that fail, each once, in the order of [`ALL`](super::ALL).
    pub failed: Vec<&'static str>,
    /// Ids of the rules that warn, likewise.
    pub warned: Vec<&'static str>,
    /// Ids of the rules whose failures or warnings are accepted, likewise.
    pub accepted: Vec<&'static str>,
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
        let mut found = (rule.check)(&case);
        deviations::accept(&mut found, &spec.deviations);
        if found.iter().any(|f| f.standing() == Standing::Fail) {
            verdicts.failed.push(rule.id);
        }
        verdicts.items.extend(found.into_iter().map(|f| Judgement { rule: f.rule, verdict: f.verdict, value: f.value, limit: f.limit }));
    }
    verdicts
}

/// Applies every rule.
pub fn check(spec: &Spec, foot: &Foot, results: &Results, parts: &Parts) -> Findings {
    let case = Case { spec, foot, results, parts, wanted: Wanted::Changes };
    let mut items: Vec<(usize, Finding)> = Vec::new();
    let mut not_applicable = Vec::new();
    for (order, rule) in ALL.iter().enumerate() {
        let mut found = (rule.check)(&case);
        if found.is_empty() {
            not_applicable.push(rule.id);
        }
        deviations::accept(&mut found, &spec.deviations);
        items.extend(found.into_iter().map(|f| (order, f)));
    }
    items.sort_by(|(i, a), (j, b)| (Reverse(a.standing()), Reverse(a.verdict), i, &a.path).cmp(&(Reverse(b.standing()), Reverse(b.verdict), j, &b.path)));
    let items: Vec<Finding> = items.into_iter().map(|(_, f)| f).collect();
    Findings::counted(items, not_applicable, spec.project.status.value == Status::Survey)
}

impl Findings {
    /// Findings, worst first, with their counts and the rules that they are of.
    pub fn counted(items: Vec<Finding>, not_applicable: Vec<&'static str>, survey: bool) -> Self {
        let of = |standing: Standing| ALL.iter().map(|r| r.id).filter(|id| items.iter().any(|f| f.rule == *id && f.standing() == standing)).collect();
        Self {
            counts: Counts::of(&items),
            failed: of(Standing::Fail),
            warned: of(Standing::Warn),
            accepted: of(Standing::Accepted),
            not_applicable,
            survey,
            items,
        }
    }

    /// The worst standing; `Pass` when nothing was found.
    pub fn worst(&self) -> Standing {
        self.items.iter().map(Finding::standing).max().unwrap_or(Standing::Pass)
    }

    /// What may be done with the sheets.
    pub fn release(&self) -> Release {
        match self.worst() {
            Standing::Fail => Release::NotForFabrication,
            Standing::Warn => Release::OpenWarnings,
            Standing::Accepted => Release::DeviationsAccepted,
            Standing::Note | Standing::Pass => Release::NoObjection,
        }
    }

    /// Counts with the rules that fail, warn or are accepted, e.g. `1 fail (door-mesh), 0 warn, 7 note`. What passes is not counted, so that
    /// a rule that passes changes no stamp.
    pub fn tally(&self) -> Statement {
        let Counts { note, warn, fail, accepted, .. } = self.counts;
        let rules = |ids: &[&'static str]| joined(ids.iter().map(|id| Statement::named(*id)));
        let mut parts = vec![
            if fail == 0 { say!("{fail} fail", fail = fail) } else { say!("{fail} fail ({rules})", fail = fail, rules = rules(&self.failed)) },
            if warn == 0 { say!("{warn} warn", warn = warn) } else { say!("{warn} warn ({rules})", warn = warn, rules = rules(&self.warned)) },
            say!("{note} note", note = note),
        ];
        if accepted > 0 {
            parts.push(say!("{accepted} accepted ({rules})", accepted = accepted, rules = rules(&self.accepted)));
        }
        Statement::all(parts)
    }

    /// The line for the stamp, e.g. `NOT FOR FABRICATION: 2 fail (inlet-up-sill, door-mesh), 1 warn (belt-speed), 7 note`.
    pub fn stamp(&self) -> Statement {
        let stamp = say!("{release}: {tally}", release = self.release().words(), tally = self.tally());
        if self.survey { say!("EXISTING FOOT AS MEASURED - {stamp}", stamp = stamp) } else { stamp }
    }

    /// What is accepted as a deviation, a line each: rule, verdict, finding, by whom and why.
    pub fn deviations(&self) -> Vec<Statement> {
        let line = |f: &Finding| {
            f.accepted.as_ref().map(|a| {
                say!(
                    "{rule} ({verdict}): {found}; {accepted}",
                    rule = say::name(f.rule),
                    verdict = f.verdict.word(),
                    found = f.message.clone(),
                    accepted = a.said()
                )
            })
        };
        self.items.iter().filter_map(line).collect()
    }

    /// Findings of one rule.
    pub fn of<'a>(&'a self, id: &'a str) -> impl Iterator<Item = &'a Finding> {
        self.items.iter().filter(move |f| f.rule == id)
    }

    /// As data: release, stamp, counts, rules by standing, every finding with its text in this voice and its values with
    /// metric units, rules that do not apply.
    pub fn told<'a>(&'a self, voice: &Voice) -> Told<'a> {
        let told = |f: &'a Finding| ToldFinding {
            rule: f.rule,
            verdict: f.verdict,
            accepted: f.accepted.as_ref(),
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
            warned: &self.warned,
            accepted: &self.accepted,
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
    warned: &'a [&'static str],
    accepted: &'a [&'static str],
    not_applicable: &'a [&'static str],
    survey: bool,
}

#[derive(Debug, Serialize)]
struct ToldFinding<'a> {
    rule: &'static str,
    verdict: Verdict,
    #[serde(skip_serializing_if = "Option::is_none")]
    accepted: Option<&'a Accepted>,
    path: &'a str,
    text: String,
    says: &'a Statement,
    value: Option<Amount>,
    limit: Option<Amount>,
    would_pass: &'a [Change],
    source: Source,
}
