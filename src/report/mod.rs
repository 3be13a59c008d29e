//! One document for people: inputs, defaults with reasons, results, checks, cautions, what was not checked.
//!
//! [`Report::build`] collects it from finished values; `html` and `text` write it. It computes
//! nothing and judges nothing, and it prints the source of every number it shows. A job drawn in inches
//! is reported in US customary units; what would pass stays as it is written into a spec.

pub mod html;
pub mod text;

use crate::analysis::Quantity;
use crate::rules::{Finding, Findings, Release, Rule, Verdict};
use crate::say::Voice;
use crate::sources::{Reading, Source};
use crate::spec::Spec;
use crate::spec::reader::{Origin, SettledLine};
use crate::spec::sheet::LengthUnit;
use crate::tables::cautions::{self, Caution};
use crate::units;

/// A group of results under one heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// First part of the ids, e.g. `tension`.
    pub id: String,
    /// Heading.
    pub title: String,
    /// Results in the order computed.
    pub quantities: Vec<Quantity>,
}

/// Everything the report says.
#[derive(Debug, Clone)]
pub struct Report {
    /// Prints its statements.
    pub voice: Voice,
    /// Title of the drawings.
    pub title: String,
    /// Owner, number, site, date, creator.
    pub head: Vec<(&'static str, String)>,
    /// First characters of the spec's hash.
    pub spec_hash: String,
    /// What the user gave.
    pub inputs: Vec<SettledLine>,
    /// What was decided by rule.
    pub defaults: Vec<SettledLine>,
    /// Results by group.
    pub groups: Vec<Group>,
    /// What may be done with the sheets.
    pub release: Release,
    /// Findings, worst first.
    pub findings: Vec<Finding>,
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

/// Headings of result groups; ids are the first part of a quantity's id. A group without a heading here prints its id.
const HEADINGS: &[(&str, &str)] = &[
    ("capacity", "Capacity and filling"),
    ("discharge", "Discharge at the head"),
    ("retained", "What a bucket holds in the foot"),
    ("path", "Belt path"),
    ("assumed", "Assumptions"),
    ("stretch", "Belt length and take-up travel"),
    ("tension", "Belt tensions"),
    ("power", "Power"),
    ("bend", "Bend pulley"),
    ("shaft", "Foot shaft"),
    ("bearing", "Bearings"),
    ("screw", "Screw take-up"),
    ("gravity", "Gravity take-up"),
    ("throat", "Throat and chute"),
    ("impact", "Impact on the buckets"),
    ("plugging", "Time to plug"),
    ("motion", "Speeds to watch"),
    ("clearance", "Clearances"),
    ("clearances", "Clearances"),
    ("mass", "Masses"),
    ("masses", "Masses"),
    ("loads", "Support loads, unfactored"),
    ("pit", "Pit"),
];

impl Report {
    /// Collects the report. `rules` is the list of all rules, `found` what they said.
    pub fn build(spec: &Spec, spec_hash: &str, quantities: &[Quantity], found: &Findings, rules: &[Rule]) -> Self {
        let findings = &found.items;
        let customary = spec.sheet.unit.value != LengthUnit::Mm;
        let mut lines = spec.settled_lines();
        let mut sorted = findings.clone();
        if customary {
            for line in &mut lines {
                line.value = units::customary_text(&line.value);
            }
        }
        let (inputs, defaults): (Vec<_>, Vec<_>) = lines.into_iter().partition(|l| matches!(l.origin, Origin::Given(_)));
        sorted.sort_by(|a, b| b.verdict.cmp(&a.verdict).then_with(|| a.rule.cmp(b.rule)));
        let silent_rules = rules.iter().filter(|r| findings.iter().all(|f| f.rule != r.id)).map(|r| (r.id, r.title)).collect();
        let mut from_memory: Vec<Source> = defaults
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
            voice: spec.voice(),
            title: project.title.value.clone(),
            head: vec![
                ("Owner", project.owner.value.clone()),
                ("Number", project.number.value.clone()),
                ("Site", project.site.value.clone()),
                ("Date", project.date.value.map_or_else(|| spec.voice().word("not given").to_string(), |d| d.to_string())),
                ("Creator", project.creator.value.clone()),
                ("Product", spec.product.name.value.clone()),
            ],
            spec_hash: spec_hash.into(),
            inputs,
            defaults,
            groups: group(quantities),
            release: found.release(),
            findings: sorted,
            silent_rules,
            cautions: cautions::applying(spec.product.combustible.value, spec.pit.fitted.value),
            from_memory,
        }
    }

    /// How many findings have this verdict.
    pub fn count(&self, verdict: Verdict) -> usize {
        self.findings.iter().filter(|f| f.verdict == verdict).count()
    }
}

fn group(quantities: &[Quantity]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for q in quantities {
        let id = q.id.split('.').next().unwrap_or_default();
        match groups.iter_mut().find(|g| g.id == id) {
            Some(g) => g.quantities.push(q.clone()),
            None => groups.push(Group {
                id: id.into(),
                title: HEADINGS.iter().find(|h| h.0 == id).map_or_else(|| id.to_string(), |h| h.1.into()),
                quantities: vec![q.clone()],
            }),
        }
    }
    groups
}

/// Word for a verdict as printed.
pub const fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "PASS",
        Verdict::Note => "NOTE",
        Verdict::Warn => "WARN",
        Verdict::Fail => "FAIL",
    }
}
