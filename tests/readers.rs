//! Nothing is kept for nobody, nothing is asked for in vain: every table has a reader, every public item a user outside its own
//! tests, and every path in the code (`inlet.up.sill`) names a key of the spec, a feature of the model, a result or a part.
#![allow(clippy::unwrap_used, missing_docs)]

mod support;

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

/// Lengths that a sheet reckons itself and dimensions under a name of its own: no feature of the model has them.
const NAMED_ON_THE_SHEET: &str = "assembly.down_edge assembly.far_edge assembly.length assembly.near_edge assembly.up_edge assembly.width \
    base.anchor.embedment base.anchor.grout base.anchor.projection base.anchor.recess base.anchors base.pad.length \
    bearings.bolts_across bearings.bolts_up bearings.plane_from_wall bend_pulley.neutral_radius bucket.tip_radius casing.top_flange.width clearance.down \
    door[n].mesh_distance door[n].mesh_opening door[n].offset foot_pulley.neutral_radius head_pulley.neutral_radius holes.pitch_x holes.pitch_y \
    holes.x holes.y inlet.down inlet.up opening.height opening.length opening.x opening.y pit.cover.beam pit.cover.bearing pit.feed_slope_built pit.grating.length pit.rail.gap pit.rail.knee \
    pit.rail.offset pit.rail.toe_board pit.seat.depth pit.seat.width pit.sump.base pit.sump.shell pit.sump_from_wall_x pit.sump_from_wall_y \
    take_up.plate_thickness take_up.rod.length take_up.rod_out";

/// Endings of file names, which have a dot too.
const FILES: [&str; 3] = [".json", ".html", ".txt"];

/// Paths such as `inlet.up.sill` or `door[1].width` that stand as whole literals in a text.
fn paths(code: &str) -> Vec<String> {
    let literals = code.split('"').skip(1).step_by(2);
    let segment =
        |s: &str| s.starts_with(|c: char| c.is_ascii_lowercase()) && s.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || "_[]".contains(c));
    literals.filter(|l| l.contains('.') && !FILES.iter().any(|end| l.ends_with(end)) && l.split('.').all(segment)).map(str::to_string).collect()
}

#[test]
fn every_path_names_a_key_a_feature_or_a_result() {
    let mut known: BTreeSet<String> = footwell::spec::keys().into_iter().map(|key| key.path.replace("[n]", "")).collect();
    for text in support::templates().into_iter().map(|(_, text)| text).chain((0..60).map(support::random_spec::wild)) {
        let job = support::run(&text).unwrap();
        known.extend(job.foot().features.iter().map(|f| f.id.clone()));
        known.extend(job.quantities().iter().map(|q| q.id.to_string()));
        // A family of parts is the beginning of their ids.
        let families = |id: &str| id.match_indices('.').map(|(end, _)| id[..end].to_string()).chain([id.to_string()]).collect::<Vec<_>>();
        known.extend(job.parts().items.iter().flat_map(|p| families(&p.id)));
    }
    let named: BTreeSet<&str> = NAMED_ON_THE_SHEET.split_whitespace().collect();
    let used: Vec<(PathBuf, String)> = shipped().into_iter().flat_map(|(file, code)| paths(&code).into_iter().map(move |path| (file.clone(), path))).collect();
    let unknown: BTreeSet<String> = used
        .iter()
        .filter(|(_, path)| !known.contains(path) && !named.contains(path.as_str()))
        .map(|(file, path)| format!("{path} in {}", file.display()))
        .collect();
    assert!(unknown.is_empty(), "{unknown:#?}");
    let idle: Vec<&&str> = named.iter().filter(|name| known.contains(**name) || !used.iter().any(|(_, path)| path == **name)).collect();
    assert!(idle.is_empty(), "no longer named by a sheet alone: {idle:?}");
}
