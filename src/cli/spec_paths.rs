//! Paths of the spec as people look them up.

use crate::spec::reader::Key;

/// A path as it is looked up: lower case, without row numbers and brackets of tables.
pub fn plain_path(path: &str) -> String {
    let mut out = String::new();
    let mut skip = false;
    let path = path.trim().trim_start_matches('[').trim_end_matches("]]");
    for c in path.chars() {
        match c {
            '[' => skip = true,
            ']' => skip = false,
            _ if !skip => out.push(c.to_ascii_lowercase()),
            _ => {}
        }
    }
    out
}

/// Names of all tables of the spec in order.
pub fn spec_tables(all: &[Key]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for key in all {
        if let Some((table, _)) = key.path.rsplit_once('.') {
            let table = plain_path(table);
            if names.last() != Some(&table) {
                names.push(table);
            }
        }
    }
    names
}
