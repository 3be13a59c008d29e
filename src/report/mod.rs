//! One document for people: inputs, defaults with reasons, results, checks, cautions, what was not checked.
//!
//! [`Report::build`] collects it from finished values; `html` and `text` write it. It computes
//! nothing and judges nothing, and it prints the source of every number it shows, in the language and units of the
//! job; what would pass stays as it is written into a spec.

pub mod first_page;
pub mod html;
pub mod text;

use crate::analysis::Quantity;
use crate::rules::{Counts, Finding, Findings, Release, Rule, Standing, Verdict};
use crate::say;
use crate::say::{Statement, Voice};
use crate::sources::{Reading, Source};
use crate::spec::Spec;
use crate::spec::reader::{Origin, SettledLine};
use crate::tables::cautions::{self, Caution};
use serde::Serialize;

/// A group of results under one heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// First part of the ids, e.g. `tension`.
    pub id: String,
    /// Heading.
    pub title: &'static str,
    /// Results in the order computed.
    pub quantities: Vec<Quantity>,
}

/// A key of the spec with its value, and why it has it.
#[derive(Debug, Clone, Serialize)]
pub struct Line {
    /// Spec path.
    pub path: String,
    /// Value in the units of the job.
    pub value: String,
    /// Whether the value stands as it is written in a spec: a choice, a name, a list.
    pub as_written: bool,
    /// Why, for a default; empty for what was given.
    pub why: String,
    /// What stands behind the rule; empty for what was given.
    pub source: String,
}

impl Line {
    fn of(line: &SettledLine, voice: &Voice) -> Self {
        let (why, source) = match &line.origin {
            Origin::Given(_) => (String::new(), String::new()),
            Origin::Default { reason, source } => (voice.say(reason), voice.say(&source.said())),
        };
        Self { path: line.path.clone(), value: line.shown(voice), as_written: line.amount.is_none(), why, source }
    }
}

/// Everything the report says.
#[derive(Debug, Clone)]
pub struct Report {
    /// Prints its statements.
    pub voice: Voice,
    /// Code of its language, e.g. `de`.
    pub language: String,
    /// Title of the drawings.
    pub title: String,
    /// Owner, number, site, date, creator.
    pub head: Vec<(&'static str, String)>,
    /// First characters of the spec's hash.
    pub spec_hash: String,
    /// What the user gave.
    pub inputs: Vec<Line>,
    /// What was decided by rule.
    pub defaults: Vec<Line>,
    /// Results by group.
    pub groups: Vec<Group>,
    /// What may be done with the sheets.
    pub release: Release,
    /// How many findings of each standing.
    pub counts: Counts,
    /// Findings, worst first, then as the rules stand in their list.
    pub findings: Vec<Finding>,
    /// What is accepted as a deviation, a line each.
    pub deviations: Vec<Statement>,
    /// Ids of rules that had nothing to say about this machine.
    pub silent_rules: Vec<(&'static str, &'static str)>,
    /// Cautions that apply.
    pub cautions: Vec<Caution>,
    /// Every source used whose value was written from memory.
    pub from_memory: Vec<Source>,
}

/// What the program does not check, in plain words; printed in every report.
pub const NOT_CHECKED: &[&str] = &[
    "Strength of casing plates, flanges, base and trunking; wind, seismic and silo loads.",
    "Head pulley, head shaft, drive, backstop, gear box and motor.",
    "Explosion venting, suppression and isolation; zones; earthing in detail.",
    "Concrete structure and reinforcement, soil bearing pressure, waterproofing.",
    "Electrical installation, sensors beyond their place and set points.",
    "Noise, dust extraction, product hygiene, wear life.",
];

/// Fixed words of the page by the name that its template has for them.
const WORDS: &[(&str, &str)] = &[
    ("cautions", "Cautions"),
    ("sheets", "Sheets"),
    ("checks", "Checks"),
    ("deviations", "Accepted deviations"),
    ("verdict", "Verdict"),
    ("rule", "Rule"),
    ("found", "What was found"),
    ("value", "Value"),
    ("limit", "Limit"),
    ("would_pass", "Would pass"),
    ("source", "Source"),
    ("results", "Results"),
    ("quantity", "Quantity"),
    ("unit", "Unit"),
    ("from", "From"),
    ("given", "Given in the spec"),
    ("key", "Key"),
    ("keys", "Keys of the spec"),
    ("decided", "Decided by rule"),
    ("decide_otherwise", "Write the key into the spec to decide otherwise."),
    ("why", "Why"),
    ("memory", "Values from memory or practice"),
    ("confirm", "Confirm these where they matter."),
    ("not_checked", "Not checked"),
    ("at_a_glance", "At a glance"),
    ("open_first", "What is open, heaviest first"),
    ("nothing_open", "No rule fails or warns."),
    ("assumed", "What was assumed"),
    ("chain", "What comes through"),
    ("files", "Files"),
    ("contents", "Contents"),
    ("sources", "Sources"),
];

/// Headings of result groups; ids are the first part of a quantity's id. A group without a heading here prints its id.
const HEADINGS: &[(&str, &str)] = &[
    ("capacity", "Capacity and filling"),
    ("discharge", "Discharge at the head"),
    ("retained", "What a bucket holds in the foot"),
    ("path", "Belt path"),
    ("assumed", "Assumptions"),
    ("stretch", "Belt length and take-up travel"),
    ("net", "Net capacity"),
    ("tension", "Belt tensions"),
    ("cases", "Load cases of the foot"),
    ("power", "Power"),
    ("bend", "Bend pulley"),
    ("shaft", "Foot shaft"),
    ("bearing", "Bearings"),
    ("screw", "Screw take-up"),
    ("gravity", "Gravity take-up"),
    ("throat", "Throat and chute"),
    ("plugging", "Time to plug"),
    ("residue", "Under the bucket tips"),
    ("motion", "Speeds to watch"),
    ("clearances", "Clearances"),
    ("masses", "Masses"),
    ("lifting", "Lifting"),
    ("loads", "Support loads, unfactored"),
    ("pit", "Pit"),
];

/// Tables of the spec that the civil engineer reads.
const PIT_KEYS: &[&str] = &["pit.", "project.", "duty.", "product.name", "product.density", "inlet."];
/// Groups of results that the civil engineer reads.
const PIT_GROUPS: &[&str] = &["pit", "loads", "masses", "assumed"];

impl Report {
    /// Collects the report. `rules` is the list of all rules, `found` what they said.
    pub fn build(spec: &Spec, voice: Voice, spec_hash: &str, quantities: &[Quantity], found: &Findings, rules: &[Rule]) -> Self {
        let findings = &found.items;
        let (given, decided): (Vec<_>, Vec<_>) = spec.settled_lines().into_iter().partition(|l| matches!(l.origin, Origin::Given(_)));
        let told = |lines: &[SettledLine]| lines.iter().map(|l| Line::of(l, &voice)).collect();
        let silent_rules = rules.iter().filter(|r| findings.iter().all(|f| f.rule != r.id)).map(|r| (r.id, r.title)).collect();
        let mut from_memory: Vec<Source> = decided
            .iter()
            .filter_map(|l| match &l.origin {
                Origin::Default { source, .. } => Some(*source),
                Origin::Given(_) => None,
            })
            .chain(quantities.iter().map(|q| q.source))
            .chain(findings.iter().map(|f| f.source))
            .filter(|s| s.reading == Reading::Memory && !s.cite.is_empty())
            .collect();
        from_memory.sort();
        from_memory.dedup();
        let project = &spec.project;
        Self {
            language: spec.language().into(),
            title: project.title.value.clone(),
            head: [
                ("Owner", project.owner.value.clone()),
                ("Number", project.number.value.clone()),
                ("Revision", spec.revisions.last().map(|r| r.index.value.clone()).unwrap_or_default()),
                ("Site", project.site.value.clone()),
                ("Date", project.date.value.map_or_else(|| spec.voice().word("not given").to_string(), |d| d.to_string())),
                ("Creator", project.creator.value.clone()),
                ("Product", spec.product.name.value.clone()),
            ]
            .into_iter()
            .filter(|(name, value)| *name != "Revision" || !value.is_empty())
            .collect(),
            spec_hash: spec_hash.into(),
            inputs: told(&given),
            defaults: told(&decided),
            groups: group(quantities),
            release: found.release(),
            voice,
            counts: found.counts,
            findings: findings.clone(),
            deviations: found.deviations(),
            silent_rules,
            cautions: cautions::applying(spec.product.combustible.value),
            from_memory,
        }
    }

    /// What of it concerns the pit: its keys with those of job and feed, its numbers and the loads on it, findings about it. The stamp is
    /// that of the whole machine.
    pub fn about_pit(&self) -> Self {
        let key = |path: &str| PIT_KEYS.iter().any(|table| path.starts_with(table));
        let lines = |all: &[Line]| all.iter().filter(|l| key(&l.path)).cloned().collect::<Vec<_>>();
        let groups: Vec<Group> = self.groups.iter().filter(|g| PIT_GROUPS.contains(&g.id.as_str())).cloned().collect();
        let findings: Vec<Finding> = self.findings.iter().filter(|f| f.about_pit()).cloned().collect();
        let sources: Vec<Source> = groups.iter().flat_map(|g| &g.quantities).map(|q| q.source).chain(findings.iter().map(|f| f.source)).collect();
        let defaults = lines(&self.defaults);
        let stands = |s: &Source| sources.contains(s) || defaults.iter().any(|l| l.source == self.voice.say(&s.said()));
        let from_memory = self.from_memory.iter().copied().filter(stands).collect();
        let silent_rules = self.silent_rules.iter().copied().filter(|(id, _)| id.starts_with("pit-")).collect();
        let counts = Counts::of(&findings);
        Self { inputs: lines(&self.inputs), defaults, groups, counts, findings, silent_rules, from_memory, ..self.clone() }
    }

    /// How many findings of each standing, in words.
    pub fn counted(&self) -> Statement {
        let Counts { pass, note, accepted, warn, fail } = self.counts;
        say!(
            "{fails} fail, {warns} warn, {accepted} accepted, {notes} note, {passes} pass",
            fails = fail,
            warns = warn,
            accepted = accepted,
            notes = note,
            passes = pass
        )
    }
}

fn group(quantities: &[Quantity]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for q in quantities {
        let id = q.id.split('.').next().unwrap_or_default();
        match groups.iter_mut().find(|g| g.id == id) {
            Some(g) => g.quantities.push(q.clone()),
            None => {
                groups.push(Group { id: id.into(), title: HEADINGS.iter().find(|h| h.0 == id).map_or("Further results", |h| h.1), quantities: vec![q.clone()] })
            }
        }
    }
    groups
}

/// How a finding counts, as printed; behind what is accepted stands what its rule says, e.g. `ACCEPTED (FAIL)`.
pub fn standing(finding: &Finding) -> Statement {
    match (finding.standing(), finding.verdict) {
        (Standing::Pass, _) => "PASS".into(),
        (Standing::Note, _) => "NOTE".into(),
        (Standing::Warn, _) => "WARN".into(),
        (Standing::Fail, _) => "FAIL".into(),
        (Standing::Accepted, Verdict::Fail) => "ACCEPTED (FAIL)".into(),
        (Standing::Accepted, _) => "ACCEPTED (WARN)".into(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::job::Job;
    use std::collections::BTreeSet;

    /// Each heading has a quantity in some starter, and each quantity of a starter has a heading.
    #[test]
    fn headings_are_those_of_the_quantities() {
        let starters = [
            include_str!("../../templates/grain_intake.toml"),
            include_str!("../../templates/tall_bend.toml"),
            include_str!("../../templates/pellets.toml"),
            include_str!("../../templates/us_units.toml"),
            include_str!("../../templates/survey.toml"),
        ];
        let groups: BTreeSet<String> = starters.iter().flat_map(|text| Job::of(text).unwrap().report().groups).map(|g| g.id).collect();
        let headings: BTreeSet<String> = HEADINGS.iter().map(|h| h.0.to_string()).collect();
        assert_eq!(groups, headings);
        assert_eq!(headings.len(), HEADINGS.len(), "a heading stands twice");
    }
}
