//! One spec on its way through the program: read, settled, built, computed, checked.
//!
//! In: a path. Out: everything that the stages make of it, or all messages of the stages that could run.

use super::Outcome;
use crate::analysis::{Results, analyse};
use crate::comparison::Comparison;
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::model::{Foot, build_model};
use crate::report::Report;
use crate::rules::{self, Findings};
use crate::settle::settle;
use crate::sheets;
use crate::spec::{Spec, load};
use sha2::{Digest, Sha256};
use std::path::Path;

/// A spec file as read.
#[derive(Debug, Clone)]
pub struct SpecFile {
    /// Name as the user gave it.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// A machine ready to be judged and drawn.
#[derive(Debug, Clone)]
pub struct Job {
    /// The settled spec.
    pub spec: Spec,
    /// The model.
    pub foot: Foot,
    /// The numbers.
    pub results: Results,
    /// What the rules say.
    pub findings: Findings,
    /// The bend-pulley question, where it arises and both machines can be built.
    pub comparison: Option<Comparison>,
    /// First twelve hexadecimal digits of the spec text's SHA-256.
    pub spec_hash: String,
    /// Warnings about the spec.
    pub warnings: Diagnostics,
}

impl SpecFile {
    /// Reads a file.
    ///
    /// # Errors
    /// A plain sentence when it cannot be read or is not text.
    pub fn read(path: &Path) -> Result<Self, String> {
        let name = path.display().to_string();
        let bytes = std::fs::read(path).map_err(|why| format!("cannot read {name}: {why}"))?;
        let text = String::from_utf8(bytes).map_err(|why| format!("{name} is not text in UTF-8: byte {} does not fit", why.utf8_error().valid_up_to() + 1))?;
        // A byte order mark would stand before the first key.
        let text = text.strip_prefix('\u{feff}').map_or(text.clone(), str::to_string);
        Ok(Self { name, text })
    }
}

impl Job {
    /// Takes a spec text through load, settle, model and analysis.
    ///
    /// # Errors
    /// All messages of the spec at once. What is missing is only reported when the text is TOML at all.
    pub fn prepare(text: &str) -> Result<Self, Diagnostics> {
        let (asked, mut problems) = load(text);
        if problems.items.iter().any(|d| d.code == Code::Syntax) {
            return Err(problems);
        }
        let (spec, more) = settle(&asked);
        problems.items.extend(more.items);
        problems.sort();
        if problems.has_errors() {
            return Err(problems);
        }
        match build_model(&spec) {
            Ok(foot) => {
                let results = analyse(&spec, &foot);
                let findings = rules::check(&spec, &foot, &results);
                let comparison = match Comparison::build(&asked, &spec, &foot, &results) {
                    Ok(comparison) => comparison,
                    Err(why) => {
                        problems.push(no_comparison(&why));
                        problems.sort();
                        None
                    }
                };
                let mut job = Self { spec, foot, results, findings, comparison, spec_hash: hash(text), warnings: problems };
                let unmarked = job.unmarked(text);
                job.warnings.items.extend(unmarked);
                job.warnings.sort();
                Ok(job)
            }
            Err(more) => {
                problems.items.extend(more.items);
                problems.sort();
                Err(problems)
            }
        }
    }

    /// Changes that the newest revision names and no sheet marks.
    fn unmarked(&self, text: &str) -> Vec<Diagnostic> {
        // Nothing is planned for a spec that names none.
        if self.spec.revisions.last().is_none_or(|r| r.changed.value.is_none()) {
            return Vec::new();
        }
        let parts = crate::parts::build_parts(&self.spec, &self.foot);
        let job = sheets::Subject::new(&self.spec, &self.foot, &self.results, &self.findings, &parts).with_comparison(self.comparison.as_ref());
        sheets::changed::unmarked(&job, text)
    }

    /// Exit code that its findings call for.
    pub fn outcome(&self) -> Outcome {
        if self.findings.failed.is_empty() { Outcome::Fine } else { Outcome::Fails }
    }

    /// The report on it.
    pub fn report(&self) -> Report {
        Report::build(&self.spec, &self.spec_hash, &self.results.quantities(), &self.findings.items, rules::ALL)
    }
}

/// Why the machine stands alone: its counterpart with or without a bend pulley cannot be built from the same spec.
fn no_comparison(why: &Diagnostics) -> Diagnostic {
    let first = why.items.iter().find(|d| d.severity == crate::diagnostics::Severity::Error).or(why.items.first());
    let (message, hint, span) =
        first.map_or((String::new(), String::new(), None), |d| (d.message.clone(), d.hint.clone(), d.labels.first().map(|l| l.span.clone())));
    Diagnostic::error(
        Code::Contradiction,
        "bend_pulley.fitted",
        span,
        format!("feet with and without a bend pulley cannot be compared, the other one cannot be built: {message}"),
        if hint.is_empty() { "leave the comparison out; the machine itself is drawn".to_string() } else { format!("to compare, {hint}") },
    )
    .as_warning()
}

/// Twelve digits are enough to tell two specs of a job apart by eye.
fn hash(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().take(6).map(|b| format!("{b:02x}")).collect()
}
