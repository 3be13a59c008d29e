//! The build rules of the source as tests: who may use whom, everything in its list, no long files.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

#[path = "support/file_graph.rs"]
mod file_graph;
#[path = "support/source_text.rs"]
mod source_text;

use file_graph::Graph;
use source_text::{code_of, rust_files, ships, source};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Module and what it may use, besides itself and the standard and published libraries.
const MAY_USE: &[(&str, &[&str])] = &[
    ("sources", &["say"]),
    ("units", &[]),
    ("diagnostics", &[]),
    ("geometry", &[]),
    ("say", &["units"]),
    ("solid", &["geometry"]),
    ("formulas", &["units", "geometry", "sources"]),
    ("tables", &["units", "sources", "say"]),
    ("paper", &["units", "geometry", "tables", "say"]),
    ("spec", &["units", "say", "sources", "diagnostics", "tables"]),
    ("sizing", &["units", "tables", "formulas", "spec"]),
    ("settle", &["units", "geometry", "say", "sources", "diagnostics", "tables", "formulas", "spec", "sizing"]),
    ("model", &["units", "say", "sources", "diagnostics", "tables", "formulas", "spec", "sizing"]),
    ("analysis", &["units", "geometry", "say", "sources", "diagnostics", "tables", "formulas", "spec", "model", "parts", "machine"]),
    ("parts", &["units", "geometry", "say", "sources", "diagnostics", "tables", "formulas", "spec", "sizing", "model", "solid"]),
    ("machine", &["units", "geometry", "say", "tables", "formulas", "spec", "model", "parts", "solid"]),
    ("proofs", &["geometry", "say", "tables", "formulas", "machine", "parts", "solid"]),
    ("rules", &["units", "say", "sources", "diagnostics", "tables", "formulas", "spec", "model", "analysis", "parts"]),
    ("comparison", &["units", "say", "sources", "diagnostics", "formulas", "spec", "model", "machine", "analysis"]),
    ("lists", &["units", "geometry", "say", "sources", "tables", "paper", "spec", "model", "analysis", "parts", "comparison"]),
    ("report", &["units", "say", "sources", "diagnostics", "tables", "formulas", "spec", "model", "analysis", "parts", "rules"]),
    (
        "sheets",
        &[
            "units",
            "geometry",
            "say",
            "sources",
            "diagnostics",
            "tables",
            "formulas",
            "paper",
            "spec",
            "model",
            "analysis",
            "parts",
            "machine",
            "solid",
            "rules",
            "comparison",
            "lists",
        ],
    ),
    ("export", &["units", "geometry", "say", "paper", "solid"]),
    ("files", &["say", "paper", "spec", "parts", "machine", "rules", "lists", "sheets", "export", "report"]),
    (
        "job",
        &[
            "diagnostics",
            "say",
            "spec",
            "settle",
            "model",
            "analysis",
            "parts",
            "machine",
            "proofs",
            "solid",
            "rules",
            "comparison",
            "paper",
            "sheets",
            "export",
            "report",
            "files",
        ],
    ),
    ("cli", &["*"]),
    ("main", &["*"]),
    ("lib", &["*"]),
];

/// The longest file, lines.
const LONGEST: usize = 600;

fn module_of(path: &Path) -> String {
    let inner = path.strip_prefix(source()).unwrap();
    inner.components().next().unwrap().as_os_str().to_str().unwrap().trim_end_matches(".rs").to_string()
}

/// Modules of this crate that a text names, by `crate::name` or `crate::{name, …}`.
fn used(code: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for (at, _) in code.match_indices("crate::") {
        let before = code[..at].chars().next_back();
        if before.is_some_and(|c| c.is_alphanumeric() || c == '_' || c == '$') && !code[..at].ends_with('$') {
            continue;
        }
        let rest = &code[at + 7..];
        if let Some(group) = rest.strip_prefix('{') {
            let mut depth = 0;
            let mut name = String::new();
            for c in group.chars() {
                match c {
                    '{' => depth += 1,
                    '}' if depth == 0 => break,
                    '}' => depth -= 1,
                    ',' if depth == 0 => {
                        found.insert(first_name(&name));
                        name.clear();
                    }
                    _ if depth == 0 => name.push(c),
                    _ => {}
                }
            }
            found.insert(first_name(&name));
        } else {
            found.insert(first_name(rest));
        }
    }
    found.remove("");
    found
}

fn first_name(text: &str) -> String {
    text.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

#[test]
fn no_stage_reaches_back() {
    let mut wrong = Vec::new();
    for path in rust_files(&source()).into_iter().filter(|p| ships(p)) {
        let module = module_of(&path);
        let Some((_, allowed)) = MAY_USE.iter().find(|(m, _)| *m == module) else {
            wrong.push(format!("`{module}` is not in the import table of tests/architecture.rs"));
            continue;
        };
        let code = code_of(&fs::read_to_string(&path).unwrap());
        for name in used(&code) {
            let known = MAY_USE.iter().any(|(m, _)| *m == name);
            if known && name != module && !allowed.contains(&"*") && !allowed.contains(&name.as_str()) {
                wrong.push(format!("`{module}` may not use `{name}` ({})", path.strip_prefix(source()).unwrap().display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A row that stands for nothing would let a room of that name do as it likes.
#[test]
fn every_row_is_a_room() {
    let rooms: BTreeSet<String> = rust_files(&source()).iter().map(|p| module_of(p)).collect();
    let listed: BTreeSet<String> = MAY_USE.iter().map(|(m, _)| (*m).to_string()).collect();
    assert_eq!(rooms, listed);
}

/// The scanner itself: a table that is never violated proves nothing.
#[test]
fn the_scanner_sees_all_ways_to_import() {
    let names = |code: &str| used(&code_of(code)).into_iter().collect::<Vec<_>>();
    assert_eq!(names("use crate::spec::Spec;"), ["spec"]);
    assert_eq!(names("use crate::{model::Foot, rules::{A, B}, units};"), ["model", "rules", "units"]);
    assert_eq!(names("fn f() { let x = crate::export::ALL; }"), ["export"]);
    assert_eq!(names("// crate::spec\nfn f() {}\n#[cfg(test)]\nmod tests { use crate::cli; }"), Vec::<String>::new());
}

/// Folders with code that runs the program, and what stands in them that may call a stage: its own definition.
const CALLERS: [&str; 3] = ["src", "tests", "benches"];

/// Stages that a spec passes through in `src/job.rs` alone, as their names are written where they are called or imported.
const STAGES: [(&str, &str); 5] = [
    ("settle(", "src/settle/mod.rs"),
    ("settle::settle", "src/settle/mod.rs"),
    ("build_model", "src/model/mod.rs"),
    ("analyse", "src/analysis/mod.rs"),
    ("build_parts", "src/parts/mod.rs"),
];

/// Stages named in a text as whole words, comments apart.
fn stages(text: &str) -> Vec<&'static str> {
    let code = text.lines().map(|l| l.split("//").next().unwrap_or_default()).collect::<Vec<_>>().join("\n");
    let part_of_word = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
    STAGES
        .iter()
        .map(|(word, _)| *word)
        .filter(|word| {
            code.match_indices(word).any(|(at, _)| {
                let after = code[at + word.len()..].chars().next();
                !part_of_word(code[..at].chars().next_back()) && (word.ends_with('(') || !part_of_word(after))
            })
        })
        .collect()
}

/// The program, its tests and its benches take the same way through the stages: a [`footwell::job::Job`].
#[test]
fn one_front_door() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut wrong = Vec::new();
    for path in CALLERS.iter().map(|folder| root.join(folder)).filter(|f| f.is_dir()).flat_map(|f| rust_files(&f)) {
        let name = path.strip_prefix(root).unwrap().to_str().unwrap().replace('\\', "/");
        let called = stages(&fs::read_to_string(&path).unwrap());
        // Here the words are what is looked for.
        if name == "tests/architecture.rs" {
            continue;
        }
        if name == "src/job.rs" {
            assert_eq!(called, ["settle(", "settle::settle", "build_model", "analyse", "build_parts"], "job.rs calls the stages");
            continue;
        }
        let by_hand = called.into_iter().filter(|stage| !STAGES.contains(&(stage, name.as_str())));
        wrong.extend(by_hand.map(|stage| format!("{name} names {stage}: take a Job")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_scanner_sees_stages() {
    assert_eq!(stages("use crate::model::{Foot, build_model};\nlet x = settle(&asked);"), ["settle(", "build_model"]);
    assert_eq!(stages("use footwell::settle::settle;"), ["settle::settle"]);
    assert_eq!(stages("// analyse(a)\nfn analysed() { settled(); unsettle(); }"), Vec::<&str>::new());
}

#[test]
fn no_circle_of_files() {
    let circles = Graph::of_source().circles();
    assert!(circles.is_empty(), "{}", circles.join("\n"));
}

/// The scanner itself: lists and re-exports are no circle, a type that stands in the list is one.
#[test]
fn the_scanner_sees_circles() {
    let circles = |files: &[(&str, &str)]| Graph::of(files.iter().map(|(f, code)| (file_graph::module(f), (*code).to_string()))).circles().len();
    let list = "mod one;\nmod rule;\npub use rule::Rule;\npub const ALL: &[Rule] = &[one::RULE];";
    assert_eq!(
        circles(&[("rules/mod.rs", list), ("rules/rule.rs", "pub struct Rule;"), ("rules/one.rs", "use super::Rule;\npub const RULE: Rule = Rule;")]),
        0
    );
    let own = "mod one;\npub struct Rule;\npub const ALL: &[Rule] = &[one::RULE];";
    assert_eq!(circles(&[("rules/mod.rs", own), ("rules/one.rs", "use super::Rule;\npub const RULE: Rule = Rule;")]), 1);
    assert_eq!(circles(&[("a.rs", "use crate::{b::{self, B}, c};"), ("b.rs", "fn f() { crate::a::g() }"), ("c.rs", "")]), 1);
    assert_eq!(circles(&[("a.rs", "use crate::b;"), ("b.rs", "pub(in crate::a) fn f() {}")]), 0);
}

/// The longest function, lines.
const LONGEST_FUNCTION: usize = 80;

/// Functions that are longer still; to be emptied.
const LONG_FUNCTIONS: &[&str] = &[];

/// Functions of a text: name, first line, number of lines.
fn functions(code: &str) -> Vec<(String, usize, usize)> {
    let lines: Vec<&str> = code.lines().collect();
    let begins = |line: &str| {
        let words: Vec<&str> = line.split_whitespace().collect();
        words.iter().position(|w| *w == "fn").filter(|i| words[..*i].iter().all(|w| w.starts_with("pub") || *w == "const")).map(|i| first_name(words[i + 1]))
    };
    let indent = |line: &str| line.len() - line.trim_start().len();
    let mut found = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        let Some(name) = begins(line) else { continue };
        // rustfmt ends a function with a brace under its first letter.
        let end = lines[i..].iter().position(|l| l.trim_end() == format!("{}}}", " ".repeat(indent(line))) || (l.trim_end().ends_with('}') && *l == *line));
        found.push((name, i + 1, end.map_or(1, |e| e + 1)));
    }
    found
}

#[test]
fn no_function_is_too_long() {
    let long: Vec<String> = rust_files(&source())
        .iter()
        .flat_map(|p| functions(&code_of(&fs::read_to_string(p).unwrap())).into_iter().map(move |f| (p, f)))
        .filter(|(_, (name, _, lines))| *lines > LONGEST_FUNCTION && !LONG_FUNCTIONS.contains(&name.as_str()))
        .map(|(p, (name, at, lines))| format!("{name} ({}:{at}) has {lines} lines, {LONGEST_FUNCTION} at most", p.strip_prefix(source()).unwrap().display()))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
    assert_eq!(
        functions("pub const fn a() -> f64 {\n    1.0\n}\n    fn b(\n    ) {\n        x\n    }\nfn c() {}\n"),
        [("a".into(), 1, 3), ("b".into(), 4, 4), ("c".into(), 8, 1)]
    );
}

/// An exception from a lint stands with its reason: `expect(lint, reason = "…")`. Test modules may unwrap as a whole.
#[test]
fn every_lint_exception_has_a_reason() {
    let mut bare = Vec::new();
    for path in rust_files(&source()) {
        let code = code_of(&fs::read_to_string(&path).unwrap());
        for (i, line) in code.lines().enumerate() {
            let allowed = line.contains("#[allow(") || line.contains("#![allow(");
            if allowed && ships(&path) && !line.contains("reason = ") {
                bare.push(format!("{}:{}: {}", path.strip_prefix(source()).unwrap().display(), i + 1, line.trim()));
            }
        }
    }
    assert!(bare.is_empty(), "{}", bare.join("\n"));
}

/// Pens that a part of the machine is drawn with, as they are written.
const PART_PENS: [&str; 6] = ["Edge", "FineEdge", "Hidden", "Phantom", "Bucket", "Belt"];

/// Where sheets use these pens themselves, how often, and for what: nothing that has a body. What has one is drawn by `Picture`.
const DRAWN_BY_HAND: [(&str, usize, &str); 18] = [
    ("assembly.rs", 1, "the level of the base's underside"),
    ("belt_path.rs", 7, "tags of tangent points, head pulley and belt on it (neighbours), curves"),
    ("openings.rs", 4, "the mesh's texture where the leaf is broken away, the nearest moving part"),
    ("pit.rs", 4, "the feed's chute and its trench, neighbours"),
    ("pit_details.rs", 20, "concrete, anchor, grating, rails, cover with its beam: the civil engineer's"),
    ("pit_plan.rs", 13, "concrete, stair or ladder with its arrow, spaces for shaft and hoist"),
    ("pit_tables.rs", 2, "sketch of the signs of loads"),
    ("views/bodies.rs", 7, "the bodies"),
    ("views/chart.rs", 3, "axes of diagrams"),
    ("views/elevation.rs", 4, "trunking above the flange (a neighbour), break lines"),
    ("views/pit_fittings.rs", 15, "landing, sleeves, cover with beams and cut-outs, hatch, rail: the civil engineer's"),
    ("views/pit_machine.rs", 1, "holes for anchors in the concrete"),
    ("views/pit_section.rs", 15, "concrete, rails, stairs with handrails, ladders, beams of the cover"),
    ("views/plate.rs", 3, "flat patterns of the cutting files"),
    ("views/scribed.rs", 3, "lines scribed on a flat pattern, its axes"),
    ("views/side.rs", 2, "trunking above the flange, a neighbour"),
    ("views/turned_shaft.rs", 3, "threads by convention (ISO 6410) on the bodies that have them smooth"),
    ("welding.rs", 1, "the seam of a rim rolled of one piece, along the bead: the body has no edge there"),
];

/// How often a text names a pen of parts.
fn part_pens(code: &str) -> usize {
    let word = |rest: &str| rest.chars().take_while(char::is_ascii_alphanumeric).collect::<String>();
    code.match_indices("Pen::").filter(|(at, _)| PART_PENS.contains(&word(&code[at + 5..]).as_str())).count()
}

/// No view draws a part of the machine by numbers of its own: a new line in one of these pens has to be a body, or to be
/// written down above with what it is.
#[test]
fn sheets_draw_parts_from_bodies() {
    let sheets = source().join("sheets");
    let found: BTreeSet<(String, usize)> = rust_files(&sheets)
        .iter()
        .filter(|p| ships(p))
        .map(|p| (p.strip_prefix(&sheets).unwrap().to_str().unwrap().to_string(), part_pens(&code_of(&fs::read_to_string(p).unwrap()))))
        .filter(|(_, count)| *count > 0)
        .collect();
    let listed: BTreeSet<(String, usize)> = DRAWN_BY_HAND.iter().map(|(file, count, _)| ((*file).to_string(), *count)).collect();
    let more: Vec<_> = found.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(more.is_empty() && gone.is_empty(), "drawn by hand {more:?}, written down {gone:?}: draw bodies, or say what it is");
    assert_eq!(part_pens("d.line(Pen::Edge, a); d.circle(Pen::FineEdge, b); d.line(Pen::Centre, c); Pen::EdgeOfNothing"), 2);
}

#[test]
fn no_file_is_too_long() {
    let long: Vec<String> = rust_files(&source())
        .into_iter()
        .filter_map(|p| {
            let lines = fs::read_to_string(&p).unwrap().lines().count();
            (lines > LONGEST).then(|| format!("{} has {lines} lines, {LONGEST} at most", p.strip_prefix(source()).unwrap().display()))
        })
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn every_module_says_what_it_is() {
    let silent: Vec<String> = rust_files(&source())
        .into_iter()
        .filter(|p| !fs::read_to_string(p).unwrap().trim_start().starts_with("//!"))
        .map(|p| p.strip_prefix(source()).unwrap().display().to_string())
        .collect();
    assert!(silent.is_empty(), "no //! at the top of {}", silent.join(", "));
}

/// Files of a folder whose names are in no line of code of its `mod.rs`.
fn unlisted(folder: &str) -> Vec<String> {
    let place = source().join(folder);
    if !place.is_dir() {
        return Vec::new();
    }
    let list = code_of(&fs::read_to_string(place.join("mod.rs")).unwrap());
    let words: BTreeSet<&str> = list.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
    fs::read_dir(&place)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.file_name().is_some_and(|n| n != "mod.rs"))
        .filter_map(|p| p.file_stem().and_then(|s| s.to_str()).map(str::to_string))
        .filter(|name| !words.contains(name.as_str()))
        .map(|name| format!("{folder}/{name}"))
        .collect()
}

#[test]
fn everything_is_in_its_list() {
    let mut missing = Vec::new();
    for folder in [
        "formulas",
        "tables",
        "paper",
        "paper/layout",
        "spec",
        "spec/reader",
        "sizing",
        "settle",
        "model",
        "analysis",
        "rules",
        "parts",
        "machine",
        "solid",
        "solid/build",
        "lists",
        "sheets",
        "sheets/views",
        "export",
        "report",
        "files",
        "cli",
    ] {
        missing.extend(unlisted(folder));
    }
    assert!(missing.is_empty(), "not in the mod.rs beside it: {}", missing.join(", "));
}

#[test]
fn every_starter_file_is_in_the_registry() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
    let specs: BTreeSet<String> = fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .filter_map(|p| p.file_stem().and_then(|s| s.to_str()).map(str::to_string))
        // layers.*, words.*: tables of layer names and words
        .filter(|name| !name.contains('.'))
        .collect();
    let listed: BTreeSet<String> = footwell::cli::starters::ALL.iter().map(|s| s.name.to_string()).collect();
    assert_eq!(specs, listed);
}
