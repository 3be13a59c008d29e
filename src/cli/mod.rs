//! The command line: one file per command; the only place that reads and writes files.

pub mod starters;
