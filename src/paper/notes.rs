//! Note blocks on a sheet: numbered notes and the boxed cautions.

use super::table::Stand;
use crate::say::Statement;

/// How a block of notes looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NoteKind {
    /// Numbered notes.
    Numbered,
    /// Cautions, in a box with a wide line.
    Caution,
    /// Plain paragraphs.
    Plain,
}

/// A block of notes.
#[derive(Debug, Clone, PartialEq)]
pub struct Notes {
    /// Stable id.
    pub id: String,
    /// Heading.
    pub heading: Statement,
    /// Kind of block.
    pub kind: NoteKind,
    /// The notes; wrapped to `width`.
    pub notes: Vec<String>,
    /// Width of the block, paper mm.
    pub width: f64,
    /// Where it would like to stand.
    pub stand: Stand,
}

impl Notes {
    /// Numbered notes, 120 mm wide.
    pub fn numbered<S: Into<String>>(id: impl Into<String>, notes: impl IntoIterator<Item = S>) -> Self {
        Self::block(id, "NOTES", NoteKind::Numbered, notes)
    }

    /// Boxed cautions, 120 mm wide.
    pub fn cautions<S: Into<String>>(id: impl Into<String>, notes: impl IntoIterator<Item = S>) -> Self {
        Self::block(id, "CAUTION", NoteKind::Caution, notes)
    }

    /// Plain paragraphs under a heading, 120 mm wide.
    pub fn plain<S: Into<String>>(id: impl Into<String>, heading: impl Into<Statement>, notes: impl IntoIterator<Item = S>) -> Self {
        Self::block(id, heading, NoteKind::Plain, notes)
    }

    fn block<S: Into<String>>(id: impl Into<String>, heading: impl Into<Statement>, kind: NoteKind, notes: impl IntoIterator<Item = S>) -> Self {
        Self { id: id.into(), heading: heading.into(), kind, notes: notes.into_iter().map(Into::into).collect(), width: 120.0, stand: Stand::OverTitleBlock }
    }
}
