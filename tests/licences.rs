//! THIRD_PARTY.md names every crate that is linked into the program, and no other.
//!
//! `python3 tests/outside/notices.py` writes it anew.
#![allow(clippy::unwrap_used, missing_docs)]

use std::collections::BTreeSet;
use std::path::Path;
use toml::{Table, Value};

/// A crate: name and version.
type Crate = (String, String);

/// In the lock file for who builds the crates below the program, not in the program: they find a C compiler, ask for the
/// version of Rust, or read a description of DXF while `dxf` is compiled.
const ONLY_BUILD: [&str; 7] = ["autocfg", "cc", "find-msvc-tools", "rustversion", "shlex", "xml-rs", "xmltree"];

fn read(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

fn word(table: &Table, key: &str) -> String {
    table[key].as_str().unwrap().to_string()
}

/// Crates of the lock file that the program needs, by its `[dependencies]` and theirs.
fn needed() -> BTreeSet<Crate> {
    let manifest: Table = read("Cargo.toml").parse().unwrap();
    let lock: Table = read("Cargo.lock").parse().unwrap();
    let packages: Vec<&Table> = lock["package"].as_array().unwrap().iter().map(|p| p.as_table().unwrap()).collect();
    let mut seen = BTreeSet::new();
    let mut waiting: Vec<String> = manifest["dependencies"].as_table().unwrap().keys().cloned().collect();
    while let Some(wanted) = waiting.pop() {
        // "name", or "name version" where there are several.
        let (name, version) = wanted.split_once(' ').map_or((wanted.as_str(), None), |(n, v)| (n, Some(v)));
        let found: Vec<&&Table> = packages.iter().filter(|p| word(p, "name") == name && version.is_none_or(|v| word(p, "version") == v)).collect();
        assert_eq!(found.len(), 1, "{wanted} stands {} times in Cargo.lock", found.len());
        if seen.insert((name.to_string(), word(found[0], "version"))) {
            waiting.extend(found[0].get("dependencies").and_then(Value::as_array).into_iter().flatten().map(|d| d.as_str().unwrap().to_string()));
        }
    }
    seen
}

#[test]
fn every_crate_in_the_program_is_named() {
    let needed = needed();
    for name in ONLY_BUILD {
        assert!(needed.iter().any(|c| c.0 == name), "{name} is in no build any more");
    }
    let linked: BTreeSet<Crate> = needed.into_iter().filter(|c| !ONLY_BUILD.contains(&c.0.as_str())).collect();
    let text = read("THIRD_PARTY.md");
    let mut named = BTreeSet::new();
    for row in text.lines().skip_while(|l| !l.starts_with("|---")).skip(1).take_while(|l| l.starts_with('|')) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        assert!(cells.len() == 3 && cells.iter().all(|c| !c.is_empty()), "{row}");
        assert!(named.insert((cells[0].to_string(), cells[1].to_string())), "{row} stands twice");
        // A licence that asks for the source has a section that says where it is.
        if cells[2].contains("MPL") {
            assert!(text.contains(&format!("crates.io/crates/{}/{}", cells[0], cells[1])), "{row}: no place of its source");
        }
    }
    let missing: Vec<&Crate> = linked.difference(&named).collect();
    let strange: Vec<&Crate> = named.difference(&linked).collect();
    assert!(missing.is_empty() && strange.is_empty(), "run tests/outside/notices.py; missing {missing:?}, not in the program {strange:?}");
    for wanted in ["Bitstream Vera Fonts Copyright", "DejaVu Sans Condensed"] {
        assert!(text.contains(wanted), "{wanted}");
    }
}

#[test]
fn the_project_has_both_of_its_own() {
    let manifest: Table = read("Cargo.toml").parse().unwrap();
    assert_eq!(manifest["package"]["license"].as_str(), Some("MIT OR Apache-2.0"));
    for (file, title) in [("LICENSE-MIT", "MIT License"), ("LICENSE-APACHE", "Apache License")] {
        let text = read(file);
        assert!(text.contains(title) && text.contains("the footwell authors"), "{file}");
    }
}
