//! What somebody answers for: failures and warnings that the spec accepts in `[[deviation]]`, and those that nobody can accept.
//!
//! In: the deviations of a spec, findings. Out: the findings, each with who accepts it; and what is wrong with a deviation, as
//! located problems. What law asks for, what keeps people from harm, and what cannot be made stays as its rule says.

use super::finding::{Accepted, Finding, Verdict};
use super::{ALL, find};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::sources::Authority;
use crate::spec::project::{AskedDeviation, Deviation};
use crate::spec::reader::{Leaf, did_you_mean};

/// Why nobody can accept what a rule objects to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// A regulation asks for it.
    Law,
    /// It keeps people from moving parts, from falling, from a falling load or from an explosion, or it is their way out.
    Guard,
    /// No shop can make it.
    CannotBeMade,
}

impl Refusal {
    /// In a few words, behind "it cannot be accepted:".
    pub const fn why(self) -> &'static str {
        match self {
            Self::Law => "law asks for it",
            Self::Guard => "it keeps people from harm",
            Self::CannotBeMade => "what cannot be made is not made by accepting it",
        }
    }
}

/// Rules about guards, safety distances, ways in and out, and sparks in dust: whatever they object to stays.
const GUARDS: [&str; 11] = [
    "belt-conductive",
    "door-mesh",
    "mesh-distance",
    "pit-access",
    "pit-hatch",
    "pit-ladder",
    "pit-rail",
    "pit-rail-height",
    "pit-stair",
    "pit-way-room",
    "shaft-end-guard",
];

/// Rules whose failures alone are about people: nobody gets past the foot, a lug lets it fall. Their warnings can be accepted.
const GUARDS_THAT_FAIL: [&str; 2] = ["pit-clearance", "lifting-points"];

/// Standards about guards and access, by the beginning of their titles: a finding that rests on one stays.
const GUARD_STANDARDS: [&str; 4] = ["ISO 13854", "ISO 13857", "ISO 14120", "ISO 14122"];

/// Why nothing that this rule says can be accepted; `None` where it depends on the finding or nothing is against it.
pub fn never(rule: &str) -> Option<Refusal> {
    match rule {
        "can-be-made" => Some(Refusal::CannotBeMade),
        _ => GUARDS.contains(&rule).then_some(Refusal::Guard),
    }
}

/// Why this finding cannot be accepted.
fn refused(finding: &Finding) -> Option<Refusal> {
    let source = &finding.source;
    let guard = GUARDS_THAT_FAIL.contains(&finding.rule) && finding.verdict == Verdict::Fail
        || source.authority == Authority::Standard && GUARD_STANDARDS.iter().any(|title| source.cite.starts_with(title));
    let law = (source.authority == Authority::Law).then_some(Refusal::Law);
    never(finding.rule).or(law).or(guard.then_some(Refusal::Guard))
}

/// Whether a finding objects to something.
fn objects(finding: &Finding) -> bool {
    finding.verdict > Verdict::Note
}

/// Marks the failures and warnings that the deviations accept.
pub(super) fn accept(findings: &mut [Finding], deviations: &[Deviation]) {
    for finding in findings.iter_mut().filter(|f| objects(f)) {
        let named = deviations.iter().find(|d| d.rule.value == finding.rule);
        if let Some(d) = named.filter(|_| refused(finding).is_none()) {
            finding.accepted = Some(Accepted { reason: d.reason.value.clone(), by: d.by.value.clone(), date: d.date.value.map(|date| date.to_string()) });
        }
    }
}

/// Deviations that name no rule, one that cannot be accepted, or one that another deviation names: errors.
pub fn misnamed(asked: &[AskedDeviation]) -> Diagnostics {
    let mut out = Diagnostics::default();
    for (row, deviation) in asked.iter().enumerate() {
        let Leaf::Given(rule, span) = &deviation.rule else { continue };
        let path = format!("deviation[{}].rule", row + 1);
        let wrong = |code, message: String, hint: String| Diagnostic::error(code, path.as_str(), Some(span.clone()), message, hint);
        if rule.trim().is_empty() {
            continue;
        }
        if find(rule).is_none() {
            let near = did_you_mean(&rule.to_lowercase(), ALL.iter().map(|r| r.id)).map(|near| format!("did you mean \"{near}\"?  "));
            let hint = format!("{}footwell explain rules  lists them", near.unwrap_or_default());
            out.push(wrong(Code::UnknownWord, format!("there is no rule \"{rule}\""), hint));
        } else if let Some(refusal) = never(rule) {
            let hint = "take the deviation out, and mend what the rule finds".to_string();
            out.push(wrong(Code::Refused, format!("what {rule} finds cannot be accepted: {}", refusal.why()), hint));
        } else if let Some(first) = asked.iter().take(row).find(|d| d.rule.value().as_ref() == Some(rule)) {
            let twice = wrong(Code::TwiceGiven, format!("{rule} is accepted twice"), "keep one of them and delete the other".into());
            out.push(twice.also(first.rule.span(), "the first"));
        }
    }
    out
}

/// Deviations that accept nothing, or not all that their rule objects to: warnings.
pub fn idle(deviations: &[Deviation], findings: &[Finding]) -> Diagnostics {
    let mut out = Diagnostics::default();
    for (row, deviation) in deviations.iter().enumerate() {
        let rule = deviation.rule.value.as_str();
        let path = format!("deviation[{}].rule", row + 1);
        let mut warn =
            |message: String, hint: String| out.push(Diagnostic::error(Code::Refused, path.as_str(), deviation.rule.span(), message, hint).as_warning());
        let objections: Vec<&Finding> = findings.iter().filter(|f| f.rule == rule && objects(f)).collect();
        let open: Vec<&Finding> = objections.iter().copied().filter(|f| f.accepted.is_none()).collect();
        if objections.is_empty() {
            warn(format!("this deviation is not needed: {rule} objects to nothing"), "take it out".into());
        } else if let Some(refusal) = open.iter().find_map(|f| refused(f)) {
            let which: Vec<&str> = open.iter().map(|f| f.path.as_str()).collect();
            let message = format!("what {rule} finds about {} cannot be accepted and stays open: {}", which.join(", "), refusal.why());
            warn(message, "mend it".into());
        }
    }
    out
}
