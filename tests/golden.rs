//! `out/` is what the program makes of the starter specs, byte for byte.
//!
//! Texts (SVG, CSV, JSON, TXT, HTML) are committed themselves, so that a difference can be read. DXF and PDF are
//! committed by their SHA-256 in `out/<set>/hashes.txt`, a line a file as `sha256sum` writes it.
//! `FOOTWELL_ACCEPT=1 cargo test --test golden` takes what the program makes now as right, and leaves the whole sets in
//! `out/`; look at the sheets before committing them.

#![allow(clippy::unwrap_used)]

use footwell::cli::{self, Console};
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

const STARTERS: [&str; 5] = ["grain_intake", "tall_bend", "pellets", "us_units", "survey"];

/// Where the hashes of a set stand.
const HASHES: &str = "hashes.txt";

/// Whether a file is committed by its hash only.
fn hashed(name: &str) -> bool {
    name.ends_with(".dxf") || name.ends_with(".pdf")
}

/// The lines of `hashes.txt` for the files of a set.
fn hashes(set: &BTreeMap<String, Vec<u8>>) -> String {
    let of = |bytes: &[u8]| Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect::<String>();
    set.iter().filter(|(name, _)| hashed(name)).map(|(name, bytes)| format!("{}  {name}\n", of(bytes))).collect()
}

/// What of a set is committed: texts as they are, the hashes of all else.
fn committed_form(mut set: BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    let lines = hashes(&set);
    set.retain(|name, _| !hashed(name));
    set.insert(HASHES.into(), lines.into_bytes());
    set
}

/// Lines of `hashes.txt` by file, so that a difference names its file.
fn by_file(lines: &[u8]) -> BTreeMap<String, String> {
    String::from_utf8_lossy(lines).lines().filter_map(|l| l.split_once("  ")).map(|(hash, name)| (name.to_string(), hash.to_string())).collect()
}

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
    // What was checked out over an accepted set counts as changed since it was drawn.
    let arguments = ["footwell".into(), "draw".into(), spec.as_os_str().to_owned(), "-o".into(), into.as_os_str().to_owned(), "--replace".into()];
    let outcome = cli::run(arguments, &mut Console::new(&mut out, &mut err, false));
    let said = String::from_utf8_lossy(&err).into_owned();
    assert!(outcome.code() <= 1, "{}: {said}", spec.display());
    assert!(!said.contains("defect of the program"), "{}: {said}", spec.display());
}

/// The answer for "abc" is that of FIPS 180-4.
#[test]
fn drawings_are_held_by_their_hash() {
    let set = |dxf: &str| BTreeMap::from([("sheets/ga.dxf".to_string(), dxf.as_bytes().to_vec()), ("report.txt".to_string(), b"text".to_vec())]);
    let one = committed_form(set("abc"));
    assert_eq!(one.keys().collect::<Vec<_>>(), [HASHES, "report.txt"]);
    assert_eq!(one[HASHES], b"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  sheets/ga.dxf\n");
    assert_ne!(one, committed_form(set("abd")));
    assert_eq!(by_file(&one[HASHES]).len(), 1);
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
            std::fs::write(committed.join(HASHES), hashes(&files(&committed))).unwrap();
            continue;
        }
        let fresh = tempfile::tempdir().unwrap();
        let folder = fresh.path().join(name);
        draw(&spec, &folder);
        let now = committed_form(files(&folder));
        // DXF and PDF that an accepted run left here are not committed and prove nothing.
        let mut then = files(&committed);
        then.retain(|name, _| !hashed(name));
        let names: BTreeSet<&String> = now.keys().chain(then.keys()).collect();
        let texts = names.into_iter().filter(|n| *n != HASHES && now.get(*n) != then.get(*n)).cloned();
        let (new, old) = (by_file(&now[HASHES]), then.get(HASHES).map_or_else(BTreeMap::new, |h| by_file(h)));
        let drawings = new.keys().chain(old.keys()).collect::<BTreeSet<_>>().into_iter().filter(|n| new.get(*n) != old.get(*n)).cloned();
        wrong.extend(texts.chain(drawings).map(|n| format!("out/{name}/{n}")));
    }
    assert!(wrong.is_empty(), "these files differ from what is committed: {wrong:#?}");
}
