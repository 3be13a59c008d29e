//! The title block after ISO 7200 (fields and lengths) in a layout of our own.
//!
//! The approval field is never filled: a person approves.

/// A row of the revision table.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Revision {
    /// Index, e.g. `A`.
    pub index: String,
    /// Date as the spec gives it.
    pub date: String,
    /// What was changed.
    pub change: String,
    /// Who changed it.
    pub by: String,
}

/// The fields that all sheets of a set share.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TitleBlock {
    /// Legal owner.
    pub owner: String,
    /// Identification number, at most 16 characters.
    pub number: String,
    /// Revision index.
    pub revision: String,
    /// Date of issue, from the spec.
    pub date: String,
    /// Who made it.
    pub creator: String,
    /// Project or plant.
    pub project: String,
    /// What the set is about, e.g. `Bucket elevator foot`.
    pub subject: String,
    /// Hash of the spec, short.
    pub spec_hash: String,
    /// Program and version.
    pub program: String,
    /// Revision rows, oldest first.
    pub revisions: Vec<Revision>,
}
