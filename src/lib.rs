//! `footwell`: from one spec to the checked drawings of a bucket elevator foot and its pit.

pub mod analysis;
pub mod formulas;
pub mod model;
pub mod rules;
pub mod sources;
pub mod spec;
pub mod tables;
pub mod units;
pub mod diagnostics;
pub mod documents;
pub mod export;
