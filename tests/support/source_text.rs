//! The source as text: its files, and their code without comments and tests.
#![allow(dead_code, clippy::unwrap_used)]

use std::fs;
use std::path::{Path, PathBuf};

/// The folder of the source.
pub fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// All Rust files in a folder and below, in order.
pub fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(rust_files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            all.push(path);
        }
    }
    all.sort();
    all
}

/// Files that are compiled for tests only: `#[cfg(test)] mod name;` in the `mod.rs` beside them.
pub fn ships(path: &Path) -> bool {
    let stem = path.file_stem().unwrap().to_str().unwrap();
    let Ok(list) = fs::read_to_string(path.with_file_name("mod.rs")) else { return true };
    !list.contains(&format!("#[cfg(test)]\nmod {stem};"))
}

/// The code without comments and without its tests, so that only what ships is judged.
pub fn code_of(text: &str) -> String {
    let ships = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    ships.lines().map(|l| l.split("//").next().unwrap_or_default()).collect::<Vec<_>>().join("\n")
}
