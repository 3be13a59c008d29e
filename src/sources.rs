//! Where a number comes from.
//!
//! Every formula, table value, default, rule and result of the program carries a [`Source`].
//! It says what kind of authority stands behind the value, which text it is, and whether the
//! value was read in that text or written down from memory. This module promises nothing about
//! the truth of a source; it only makes sure that none is left out.

use crate::say;
use crate::say::{Statement, Value};
use serde::Serialize;

/// The kind of authority behind a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Authority {
    /// A regulation; where it applies it must be followed.
    Law,
    /// A published voluntary standard.
    Standard,
    /// A textbook or handbook.
    Book,
    /// Derived from mechanics; the derivation stands beside the formula.
    Physics,
    /// Common practice of the trade; no published source.
    Practice,
    /// The user's own spec.
    Spec,
}

/// How well the value is known to agree with the source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reading {
    /// Read in a copy or an excerpt of the named source.
    Seen,
    /// Written from memory of the named source; not read again.
    Memory,
    /// Computed here from a formula; nothing to remember.
    Computed,
}

/// A citation: authority, text, and how it was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct Source {
    /// What kind of authority stands behind the value.
    pub authority: Authority,
    /// The text: standard and clause, book and page, key of the spec, or the derivation in a few words.
    pub cite: &'static str,
    /// What the text is cited for, where its title does not say it: words of a statement, empty when there is nothing to
    /// add. Figures with units stand in values, not here.
    #[serde(skip_serializing_if = "str::is_empty")]
    pub remark: &'static str,
    /// Whether the text was read, remembered, or the value computed.
    pub reading: Reading,
}

impl Source {
    const fn new(authority: Authority, cite: &'static str, reading: Reading) -> Self {
        Self { authority, cite, remark: "", reading }
    }
    /// A regulation, read in a copy or excerpt.
    pub const fn law(cite: &'static str) -> Self {
        Self::new(Authority::Law, cite, Reading::Seen)
    }
    /// A standard, read in a copy or excerpt.
    pub const fn standard(cite: &'static str) -> Self {
        Self::new(Authority::Standard, cite, Reading::Seen)
    }
    /// A textbook, read in a copy or excerpt.
    pub const fn book(cite: &'static str) -> Self {
        Self::new(Authority::Book, cite, Reading::Seen)
    }
    /// Mechanics; the text names the derivation.
    pub const fn physics(cite: &'static str) -> Self {
        Self::new(Authority::Physics, cite, Reading::Computed)
    }
    /// Common practice, no published source.
    pub const fn practice(cite: &'static str) -> Self {
        Self::new(Authority::Practice, cite, Reading::Memory)
    }
    /// The user's spec.
    pub const fn spec(cite: &'static str) -> Self {
        Self::new(Authority::Spec, cite, Reading::Seen)
    }
    /// The same source, but the value was written from memory of it.
    pub const fn from_memory(mut self) -> Self {
        self.reading = Reading::Memory;
        self
    }
    /// The same source, with what it is cited for.
    pub const fn remark(mut self, remark: &'static str) -> Self {
        self.remark = remark;
        self
    }
    /// One line for sheets and reports, e.g. `OSHA 29 CFR 1910.272(q)(5) [law]`. Titles of texts and keys of the spec stay as they are in
    /// any language; what is derived here or customary is said.
    pub fn said(&self) -> Statement {
        let memory = self.reading == Reading::Memory;
        let title = || match self.remark {
            "" => say::name(self.cite),
            remark => Value::from(say!("{title} ({remark})", title = say::name(self.cite), remark = remark)),
        };
        match self.authority {
            Authority::Law if memory => say!("{cite} [law, from memory]", cite = title()),
            Authority::Law => say!("{cite} [law]", cite = title()),
            Authority::Standard if memory => say!("{cite} [std, from memory]", cite = title()),
            Authority::Standard => say!("{cite} [std]", cite = title()),
            Authority::Book if memory => say!("{cite} [book, from memory]", cite = title()),
            Authority::Book => say!("{cite} [book]", cite = title()),
            Authority::Physics if memory => say!("{cite} [physics, from memory]", cite = self.cite),
            Authority::Physics => say!("{cite} [physics]", cite = self.cite),
            Authority::Practice if self.cite.is_empty() => say!("common practice, no source"),
            Authority::Practice => say!("{cite} [common practice, no source]", cite = self.cite),
            Authority::Spec if memory => say!("{cite} [spec, from memory]", cite = title()),
            Authority::Spec => say!("{cite} [spec]", cite = title()),
        }
    }
}
