//! `footwell`: from one spec to the checked drawings of a bucket elevator foot and its pit.
//!
//! [`job`] is the front door and shows all stages in their order; below it stand the rooms.

pub mod job;

pub mod analysis;
pub mod cli;
pub mod comparison;
pub mod export;
pub mod files;
pub mod lists;
pub mod machine;
pub mod model;
pub mod parts;
pub mod proofs;
pub mod report;
pub mod rules;
pub mod settle;
pub mod sheets;
pub mod sizing;
pub mod spec;

pub mod diagnostics;
pub mod formulas;
pub mod geometry;
pub mod paper;
pub mod say;
pub mod solid;
pub mod sources;
pub mod tables;
pub mod units;
