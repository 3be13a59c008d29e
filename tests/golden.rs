//! `out/` is what the program makes of the starter specs, byte for byte.
//!
//! `FOOTWELL_ACCEPT=1 cargo test --test golden` takes what the program makes now as right; look at the
//! sheets before committing them.

#![allow(clippy::unwrap_used)]

use footwell::cli::{self, Console};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

const STARTERS: [&str; 5] = ["grain_intake", "tall_bend", "pellets", "us_units", "survey"];

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(dir) = open.pop() {
        let Ok(entries) = std::fs::read_dir(&dir) else { continue };
        for entry in entries {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                found.insert(path.strip_prefix(folder).unwrap().to_string_lossy().replace('\\', "/"), std::fs::read(&path).unwrap());
            }
        }
    }
    found
}

fn draw(spec: &Path, into: &Path) {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let arguments = ["footwell".into(), "draw".into(), spec.as_os_str().to_owned(), "-o".into(), into.as_os_str().to_owned()];
    let outcome = cli::run(arguments, &mut Console { out: &mut out, err: &mut err, colour: false });
    let said = String::from_utf8_lossy(&err).into_owned();
    assert!(outcome.code() <= 1, "{}: {said}", spec.display());
    assert!(!said.contains("defect of the program"), "{}: {said}", spec.display());
}

#[test]
fn the_committed_sets_are_what_the_program_draws() {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let accept = std::env::var_os("FOOTWELL_ACCEPT").is_some();
    let mut wrong = Vec::new();
    for name in STARTERS {
        let spec = root.join("templates").join(format!("{name}.toml"));
        let committed = root.join("out").join(name);
        if accept {
            draw(&spec, &committed);
            continue;
        }
        let fresh = tempfile::tempdir().unwrap();
        let folder = fresh.path().join(name);
        draw(&spec, &folder);
        let (now, then) = (files(&folder), files(&committed));
        let names: std::collections::BTreeSet<&String> = now.keys().chain(then.keys()).collect();
        wrong.extend(names.into_iter().filter(|n| now.get(*n) != then.get(*n)).map(|n| format!("out/{name}/{n}")));
    }
    assert!(wrong.is_empty(), "these files differ from what is committed: {wrong:#?}");
}
