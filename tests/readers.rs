//! Nothing is kept for nobody: every table has a reader, every public item a user outside its own tests.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "support/source_text.rs"]
mod source_text;

use source_text::{code_of, rust_files, ships};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Public items that only their own tests name, each with the reason why it stays.
const KEPT: &[(&str, &str)] = &[("of_contradicting", "rules are tried on machines that settling objects to, in unit tests of several rooms")];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// All code that ships, by file.
fn shipped() -> Vec<(PathBuf, String)> {
    rust_files(&root().join("src")).into_iter().filter(|p| ships(p)).map(|p| (p.clone(), code_of(&fs::read_to_string(&p).unwrap()))).collect()
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric() && c != '_').filter(|w| !w.is_empty())
}

/// Names of the public constants, functions, types and traits that a text defines.
fn public(code: &str) -> Vec<String> {
    code.lines()
        .filter_map(|line| {
            let rest = line.trim_start().strip_prefix("pub ")?;
            let kinds = ["const fn ", "fn ", "const ", "static ", "struct ", "enum ", "trait ", "type "];
            let name = kinds.iter().find_map(|kind| rest.strip_prefix(kind))?;
            words(name).next().map(str::to_string)
        })
        .collect()
}

/// Tables that a text imports or names by their path: `tables::name`, `tables::{name, …}`.
fn tables_named(code: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for (at, path) in code.match_indices("tables::") {
        let rest = &code[at + path.len()..];
        let group = rest.strip_prefix('{').and_then(|g| g.split(';').next());
        match group {
            Some(group) => found.extend(words(group).map(str::to_string)),
            None => found.extend(words(rest).next().map(str::to_string)),
        }
    }
    found
}

#[test]
fn every_table_has_a_reader() {
    let tables = root().join("src/tables");
    let read: BTreeSet<String> = shipped().iter().filter(|(p, _)| !p.starts_with(&tables)).flat_map(|(_, code)| tables_named(code)).collect();
    let unread: Vec<String> =
        rust_files(&tables).iter().map(|p| p.file_stem().unwrap().to_str().unwrap().to_string()).filter(|name| name != "mod" && !read.contains(name)).collect();
    assert!(unread.is_empty(), "nobody outside src/tables asks {}", unread.join(", "));
}

/// By name: as many words of a name as it has definitions, and no more, mean that nobody uses it.
#[test]
fn every_public_item_has_a_user() {
    let shipped = shipped();
    let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
    for word in shipped.iter().flat_map(|(_, code)| words(code)) {
        *uses.entry(word).or_default() += 1;
    }
    let outside: Vec<String> = ["tests", "benches"].iter().flat_map(|f| rust_files(&root().join(f))).map(|p| fs::read_to_string(p).unwrap()).collect();
    let outside: BTreeSet<&str> = outside.iter().flat_map(|t| words(t)).collect();
    let defined: Vec<(&Path, String)> = shipped.iter().flat_map(|(p, code)| public(code).into_iter().map(move |name| (p.as_path(), name))).collect();
    let mut definitions: BTreeMap<&str, usize> = BTreeMap::new();
    for (_, name) in &defined {
        *definitions.entry(name).or_default() += 1;
    }
    let kept = |name: &str| KEPT.iter().any(|(k, _)| *k == name);
    let idle: Vec<String> = defined
        .iter()
        .filter(|(_, name)| uses.get(name.as_str()) == definitions.get(name.as_str()) && !outside.contains(name.as_str()) && !kept(name))
        .map(|(path, name)| format!("{name} ({})", path.strip_prefix(root()).unwrap().display()))
        .collect();
    assert!(idle.is_empty(), "nobody but its own tests uses:\n{}", idle.join("\n"));
    let stale: Vec<&str> = KEPT.iter().map(|(k, _)| *k).filter(|k| !defined.iter().any(|(_, name)| name == k)).collect();
    assert!(stale.is_empty(), "kept but gone: {}", stale.join(", "));
}

/// The scanner itself.
#[test]
fn the_scanner_sees_items_and_tables() {
    let code = code_of("/// pub fn doc() {}\npub const fn a(x: f64) {}\n    pub struct B;\npub(crate) fn c() {}\npub const D: f64 = 1.0;\nfn e() {}\n");
    assert_eq!(public(&code), ["a", "B", "D"]);
    let named = |text: &str| tables_named(text).into_iter().collect::<Vec<_>>();
    assert_eq!(named("use crate::tables::{access, soils::{self, SIDE}};"), ["SIDE", "access", "self", "soils"]);
    assert_eq!(named("let x = crate::tables::sheets::Format::named(\"A\");"), ["sheets"]);
}
