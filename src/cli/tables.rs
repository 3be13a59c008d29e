//! Tables of the README, printed from the registries so that they cannot go stale.
//!
//! In: nothing. Out: Markdown. `tests/readme.rs` holds the README against them.

use super::starters;

fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\n', " ")
}

/// Every starter spec.
pub fn starter_table() -> String {
    let mut out = String::from("| starter | scenario |\n|---|---|\n");
    for starter in starters::ALL {
        out.push_str(&format!("| `{}` | {} |\n", starter.name, cell(starter.about)));
    }
    out
}

/// A table with the name of its marker in the README.
pub type MarkedTable = (&'static str, fn() -> String);

/// All tables.
pub const ALL: &[MarkedTable] = &[("starters", starter_table)];
