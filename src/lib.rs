//! `footwell`: from one spec to the checked drawings of a bucket elevator foot and its pit.

pub mod formulas;
pub mod sources;
pub mod tables;
pub mod units;
pub mod documents;
pub mod export;
