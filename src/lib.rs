//! `footwell`: from one spec to the checked drawings of a bucket elevator foot and its pit.

pub mod analysis;
pub mod cli;
pub mod diagnostics;
pub mod documents;
pub mod export;
pub mod formulas;
pub mod model;
pub mod parts;
pub mod report;
pub mod rules;
pub mod sources;
pub mod spec;
pub mod tables;
pub mod units;
