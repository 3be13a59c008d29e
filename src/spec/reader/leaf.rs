//! A key of the spec as asked, and as settled.
//!
//! In: what stands behind the key, and the default with its reason. Out: a value that says where it came from.

use crate::diagnostics::Span;
use crate::say::Statement;
use crate::sources::Source;
use std::ops::Deref;

/// What stands behind a key in the spec as the user wrote it.
#[derive(Debug, Clone, Default, PartialEq)]
pub enum Leaf<T> {
    /// The key is not there.
    #[default]
    Absent,
    /// It is there and cannot be used; a message has been written.
    Bad(Span),
    /// A value, and where it stands.
    Given(T, Span),
}

impl<T: Clone> Leaf<T> {
    /// The value, if there is one.
    pub fn value(&self) -> Option<T> {
        match self {
            Leaf::Given(v, _) => Some(v.clone()),
            _ => None,
        }
    }
    /// Where it stands, good or bad.
    pub fn span(&self) -> Option<Span> {
        match self {
            Leaf::Absent => None,
            Leaf::Bad(s) | Leaf::Given(_, s) => Some(s.clone()),
        }
    }
    /// Whether the key is not there at all.
    pub fn is_absent(&self) -> bool {
        matches!(self, Leaf::Absent)
    }
}

/// Where a settled value came from.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// From the spec, at this place.
    Given(Span),
    /// Decided by rule.
    Default {
        /// Why this value, in one sentence with its numbers.
        reason: Statement,
        /// What stands behind the rule.
        source: Source,
    },
}

/// A settled value: use it like the value itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen<T> {
    /// The value.
    pub value: T,
    /// Where it came from.
    pub origin: Origin,
}

impl<T> Deref for Chosen<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T: Clone> Chosen<T> {
    /// The asked value, or the default with its reason.
    pub fn or(asked: &Leaf<T>, default: T, source: Source, reason: impl Into<Statement>) -> Self {
        match asked {
            Leaf::Given(v, s) => Self { value: v.clone(), origin: Origin::Given(s.clone()) },
            _ => Self { value: default, origin: Origin::Default { reason: reason.into(), source } },
        }
    }
    /// Whether the user gave it.
    pub fn is_given(&self) -> bool {
        matches!(self.origin, Origin::Given(_))
    }
    /// Where it stands in the spec, if it was given.
    pub fn span(&self) -> Option<Span> {
        match &self.origin {
            Origin::Given(s) => Some(s.clone()),
            Origin::Default { .. } => None,
        }
    }
}
