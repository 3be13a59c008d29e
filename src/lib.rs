//! `footwell`: from one spec to the checked drawings of a bucket elevator foot and its pit.

pub mod sources;
pub mod units;
pub mod diagnostics;
pub mod formulas;
pub mod tables;
pub mod spec;
pub mod model;
pub mod parts;
pub mod analysis;
pub mod rules;
pub mod report;
pub mod documents;
pub mod export;
pub mod cli;
