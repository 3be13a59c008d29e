//! What a rule says about a machine: verdict, value, limit, and the changes of the spec that would pass.
//!
//! In: numbers from spec, model and results. Out: a [`Finding`]. Its message is a [`Statement`] with typed
//! values; nothing here knows languages, paper or any rule.

use crate::say;
use crate::say::{Amount, Statement, Voice, measured, name};
use crate::sources::Source;
use crate::spec::reader::ReadValue;
use crate::units::Unit;
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

impl Verdict {
    /// All, from good to bad.
    pub const ALL: [Self; 4] = [Self::Pass, Self::Note, Self::Warn, Self::Fail];

    /// As printed: `pass`, `note`, `warn`, `fail`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Note => "note",
            Self::Warn => "warn",
            Self::Fail => "fail",
        }
    }
}

/// How a finding counts: as its rule says, or as accepted by somebody who answers for it; the order is from good to bad.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// As it should be.
    Pass,
    /// Worth knowing.
    Note,
    /// A failure or warning that a `[[deviation]]` of the spec accepts.
    Accepted,
    /// An open warning.
    Warn,
    /// An open failure.
    Fail,
}

impl Standing {
    /// As printed: `pass`, `note`, `accepted`, `warn`, `fail`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Note => "note",
            Self::Accepted => "accepted",
            Self::Warn => "warn",
            Self::Fail => "fail",
        }
    }
}

/// Who answers for a failure or warning that stays as it is, from the spec's `[[deviation]]`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Accepted {
    /// Why it may stay.
    pub reason: String,
    /// A role or a name.
    pub by: String,
    /// Day of the decision (ISO 8601), if the spec names one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
}

impl Accepted {
    /// As said behind the finding, e.g. `accepted by plant manager, 2026-11-25: dust is drawn off`.
    pub fn said(&self) -> Statement {
        let (by, reason) = (name(&self.by), name(&self.reason));
        match &self.date {
            Some(date) => say!("accepted by {by}, {date}: {reason}", by = by, date = name(date), reason = reason),
            None => say!("accepted by {by}: {reason}", by = by, reason = reason),
        }
    }
}

/// A change of the spec; all changes of one finding together make it pass, and all of one rule make the rule pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Change {
    /// Spec path, e.g. `inlet.up.sill`.
    pub path: String,
    /// The TOML value to write there, e.g. `"905 mm"` (quotes included) or `true`.
    pub value: String,
    /// The same in US customary units.
    #[serde(skip)]
    pub customary: String,
}

impl Change {
    /// The key at `path` gets this value.
    pub fn to<T: ReadValue>(path: impl Into<String>, value: &T) -> Self {
        Self { path: path.into(), value: value.show(), customary: value.show_customary() }
    }
    /// As a line of a spec, e.g. `inlet.up.sill = "905 mm"`.
    pub fn line(&self) -> String {
        format!("{} = {}", self.path, self.value)
    }
    /// The line in the units that this voice writes.
    pub fn line_for(&self, voice: &Voice) -> String {
        if voice.customary() { format!("{} = {}", self.path, self.customary) } else { self.line() }
    }
}

/// What a rule found.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Id of the rule.
    pub rule: &'static str,
    /// Verdict.
    pub verdict: Verdict,
    /// One or two plain sentences with the numbers, as data.
    pub message: Statement,
    /// The value looked at.
    pub value: Option<Amount>,
    /// The limit it is held against.
    pub limit: Option<Amount>,
    /// What would pass, all of it together; no change writes what the spec says already. Empty when it passes, is only noted, or no single
    /// value can mend it (the rule's remedy says what can).
    pub would_pass: Vec<Change>,
    /// Spec path that the finding is about.
    pub path: String,
    /// Source of the limit.
    pub source: Source,
    /// Who answers for it, where the spec accepts it.
    pub accepted: Option<Accepted>,
}

impl Finding {
    /// Whether it is about the pit: by its rule or by the key that it is about.
    pub fn about_pit(&self) -> bool {
        self.rule.starts_with("pit-") || self.path.starts_with("pit.")
    }

    /// How it counts.
    pub fn standing(&self) -> Standing {
        match (self.verdict, &self.accepted) {
            (Verdict::Pass, _) => Standing::Pass,
            (Verdict::Note, _) => Standing::Note,
            (Verdict::Warn | Verdict::Fail, Some(_)) => Standing::Accepted,
            (Verdict::Warn, None) => Standing::Warn,
            (Verdict::Fail, None) => Standing::Fail,
        }
    }
    /// With the value looked at.
    pub fn value(mut self, value: f64, unit: Unit) -> Self {
        self.value = Some(measured(value, unit));
        self
    }
    /// With the limit it is held against.
    pub fn limit(mut self, value: f64, unit: Unit) -> Self {
        self.limit = Some(measured(value, unit));
        self
    }
    /// With a change that would pass; dropped when the finding passes as it is, or is only noted: what asks for a change is a warning.
    pub fn change<T: ReadValue>(mut self, path: impl Into<String>, value: &T) -> Self {
        if self.verdict > Verdict::Note {
            self.would_pass.push(Change::to(path, value));
        }
        self
    }
    /// With another source than the rule's own.
    pub fn after(mut self, source: Source) -> Self {
        self.source = source;
        self
    }
}

/// Slack in comparisons as a share of the limit: a value typed as the limit itself passes.
const SLACK: f64 = 1e-6;

fn slack(limit: f64) -> f64 {
    SLACK * limit.abs().max(1e-3)
}

/// Whether a value reaches a lower limit.
pub fn reaches(value: f64, limit: f64) -> bool {
    value >= limit - slack(limit)
}

/// Whether a value stays within an upper limit.
pub fn within(value: f64, limit: f64) -> bool {
    value <= limit + slack(limit)
}

/// `Pass` when it holds, else the verdict given.
pub fn unless(holds: bool, otherwise: Verdict) -> Verdict {
    if holds { Verdict::Pass } else { otherwise }
}

/// Rounded up to a multiple of `step`, so that a suggestion is a value that a shop would use.
pub fn up_to(value: f64, step: f64) -> f64 {
    tidy((value / step - 1e-6).ceil() * step)
}

/// Rounded down to a multiple of `step`.
pub fn down_to(value: f64, step: f64) -> f64 {
    tidy((value / step + 1e-6).floor() * step)
}

fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn rounding_goes_the_safe_way() {
        assert_eq!(up_to(901.2, 5.0), 905.0);
        assert_eq!(up_to(905.0, 5.0), 905.0);
        assert_eq!(down_to(904.9, 5.0), 900.0);
        assert_eq!(down_to(900.0, 5.0), 900.0);
        assert_eq!(up_to(2.61, 0.05), 2.65);
    }

    #[test]
    fn the_limit_itself_passes() {
        assert!(reaches(900.0, 900.0) && within(900.0, 900.0));
        assert!(!reaches(899.99, 900.0) && !within(900.01, 900.0));
        assert!(reaches(-1.0, -1.0) && !reaches(-1.1, -1.0));
        assert!(within(0.0023, 0.0023) && !within(0.002_301, 0.0023));
        assert!(reaches(0.0, 0.0) && !reaches(-1e-6, 0.0));
        // Rounding of a value typed as the limit, a millionth of it, is no difference.
        assert!(reaches(899.9995, 900.0) && within(900.0005, 900.0) && !within(900.002, 900.0));
    }

    #[test]
    fn changes_are_written_as_toml() {
        assert_eq!(Change::to("inlet.up.sill", &Length::mm(905.0)).line(), "inlet.up.sill = \"905 mm\"");
        assert_eq!(Change::to("pit.rail", &true).line(), "pit.rail = true");
    }

    #[test]
    fn what_is_accepted_says_by_whom() {
        let mut accepted = Accepted { reason: "dust is drawn off".into(), by: "plant manager".into(), date: None };
        assert_eq!(accepted.said().plainly(), "accepted by plant manager: dust is drawn off");
        accepted.date = Some("2026-11-25".into());
        assert_eq!(accepted.said().plainly(), "accepted by plant manager, 2026-11-25: dust is drawn off");
    }

    #[test]
    fn words_of_verdicts() {
        assert_eq!(Verdict::ALL.map(Verdict::word), ["pass", "note", "warn", "fail"]);
        assert_eq!((unless(true, Verdict::Fail), unless(false, Verdict::Warn)), (Verdict::Pass, Verdict::Warn));
    }
}
