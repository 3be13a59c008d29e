//! Which file of the source names which other one, by the paths in its code.
//!
//! A path leads to the file that defines what it names: names that a `mod.rs` only imports or re-exports are followed to their home,
//! declaring a module or re-exporting from it is no use of it.
#![allow(dead_code, clippy::unwrap_used)]

use super::source_text::{code_of, rust_files, ships, source};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// A module by its path from the crate: `["rules", "finding"]`; a `mod.rs` is its folder.
type Module = Vec<String>;

/// For each file the files that it names, with the text that names them.
pub struct Graph(BTreeMap<Module, BTreeMap<Module, String>>);

/// Code and what its `use` items name.
struct Text {
    /// Paths of all `use` items, groups spelled out; whether they are re-exports.
    imports: Vec<(Vec<String>, bool)>,
    /// Everything but the `use` items.
    body: String,
}

impl Graph {
    /// Of all files that ship.
    pub fn of_source() -> Self {
        let files = rust_files(&source()).into_iter().filter(|p| ships(p));
        Self::of(files.map(|p| (module(p.strip_prefix(source()).unwrap().to_str().unwrap()), code_of(&fs::read_to_string(&p).unwrap()))))
    }

    /// Of these modules and their code.
    pub fn of(texts: impl Iterator<Item = (Module, String)>) -> Self {
        let texts: BTreeMap<Module, Text> = texts.map(|(m, code)| (m, Text::of(&code))).collect();
        let mut edges: BTreeMap<Module, BTreeMap<Module, String>> = BTreeMap::new();
        for (here, text) in &texts {
            let imported = text.imports.iter().filter(|(_, again)| !again).map(|(path, _)| path.clone());
            let named = imported.chain(paths(&text.body));
            let out = edges.entry(here.clone()).or_default();
            for path in named {
                if let Some(there) = home(&texts, here, &path).filter(|there| there != here) {
                    out.entry(there).or_insert_with(|| path.join("::"));
                }
            }
        }
        Self(edges)
    }

    /// The circles: files that reach each other, each with what leads on inside the circle.
    pub fn circles(&self) -> Vec<String> {
        let reached: BTreeMap<&Module, BTreeSet<&Module>> = self.0.keys().map(|m| (m, self.reach(m))).collect();
        let mut seen: BTreeSet<&Module> = BTreeSet::new();
        let mut found = Vec::new();
        for m in self.0.keys() {
            let circle: Vec<&Module> = reached[m].iter().copied().filter(|other| reached.get(other).is_some_and(|r| r.contains(m))).collect();
            if circle.is_empty() || !seen.insert(m) {
                continue;
            }
            seen.extend(&circle);
            let mut lines = String::from("circle:");
            for from in &circle {
                for (to, why) in self.0[*from].iter().filter(|(to, _)| circle.contains(to)) {
                    lines.push_str(&format!("\n  {} names {} ({why})", from.join("/"), to.join("/")));
                }
            }
            found.push(lines);
        }
        found
    }

    fn reach(&self, from: &Module) -> BTreeSet<&Module> {
        let mut reached = BTreeSet::new();
        let mut open: Vec<&Module> = self.0[from].keys().collect();
        while let Some(m) = open.pop() {
            if reached.insert(m) {
                open.extend(self.0.get(m).into_iter().flat_map(BTreeMap::keys));
            }
        }
        reached
    }
}

impl Text {
    fn of(code: &str) -> Self {
        // `pub(in crate::spec)` says who may see, not what is used.
        let code = without_scopes(code);
        let (mut imports, mut body) = (Vec::new(), String::new());
        let mut rest = code.as_str();
        while let Some(at) = find_use(rest) {
            let before = &rest[..at];
            let again = before.trim_end().ends_with("pub") || before.trim_end().ends_with("pub()");
            body.push_str(before);
            let after = &rest[at + 4..];
            let end = after.find(';').unwrap_or(after.len());
            spell_out(&after[..end], &[], &mut |path| imports.push((path, again)));
            rest = after.get(end + 1..).unwrap_or_default();
        }
        body.push_str(rest);
        Self { imports, body }
    }
}

/// The module of a file below `src`.
pub fn module(file: &str) -> Module {
    let mut parts: Module = file.trim_end_matches(".rs").split('/').map(str::to_string).collect();
    if parts.last().is_some_and(|l| l == "mod") {
        parts.pop();
    }
    parts
}

/// `pub(crate)`, `pub(in …)` as `pub()`.
fn without_scopes(code: &str) -> String {
    let mut out = String::new();
    let mut rest = code;
    while let Some(at) = rest.find("pub(") {
        let end = rest[at..].find(')').map_or(rest.len(), |e| at + e);
        out.push_str(&rest[..at + 4]);
        rest = &rest[end..];
    }
    out.push_str(rest);
    out
}

/// Where the word `use` begins an item.
fn find_use(code: &str) -> Option<usize> {
    code.match_indices("use ").map(|(at, _)| at).find(|at| {
        let line = code[..*at].rfind('\n').map_or(0, |n| n + 1);
        matches!(code[line..*at].trim(), "" | "pub" | "pub()")
    })
}

/// Calls `each` with every path of a `use` item, groups spelled out, names after `as` left out.
fn spell_out(text: &str, before: &[String], each: &mut dyn FnMut(Vec<String>)) {
    let text = text.trim();
    let names = |path: &str| path.split("::").map(|p| p.trim().to_string()).filter(|p| !p.is_empty()).collect::<Vec<_>>();
    let Some(open) = text.find('{') else {
        let path = text.split(" as ").next().unwrap_or_default();
        if !path.is_empty() {
            each([before, &names(path)].concat());
        }
        return;
    };
    let stem = [before, &names(&text[..open])].concat();
    let inner = &text[open + 1..text.rfind('}').unwrap_or(text.len())];
    let (mut depth, mut start) = (0, 0);
    for (i, c) in inner.char_indices().chain([(inner.len(), ',')]) {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                spell_out(&inner[start..i], &stem, each);
                start = i + 1;
            }
            _ => {}
        }
    }
}

/// Paths of two or more names in code.
fn paths(body: &str) -> Vec<Vec<String>> {
    body.split(|c: char| !c.is_alphanumeric() && c != '_' && c != ':')
        .map(|word| word.split("::").map(str::to_string).collect::<Vec<_>>())
        .filter(|path| path.len() > 1 && path.iter().all(|p| !p.is_empty() && !p.contains(':')))
        .collect()
}

/// The file that defines what a path names, seen from a module; `None` when it leads out of the crate.
fn home(texts: &BTreeMap<Module, Text>, here: &Module, path: &[String]) -> Option<Module> {
    let mut at: Module = here.clone();
    let mut names = path.iter().peekable();
    match names.peek()?.as_str() {
        "crate" => {
            at.clear();
            names.next();
        }
        "self" => {
            names.next();
        }
        "super" => {
            while names.next_if(|n| *n == "super").is_some() {
                at.pop();
            }
        }
        first => {
            at.push(first.to_string());
            if !texts.contains_key(&at) {
                return None;
            }
            names.next();
        }
    }
    while let Some(name) = names.peek() {
        at.push((*name).clone());
        if !texts.contains_key(&at) {
            at.pop();
            break;
        }
        names.next();
    }
    let text = texts.get(&at)?;
    // What the module only passes on has its home elsewhere.
    if let Some(name) = names.next()
        && at != *here
        && let Some((onward, _)) = text.imports.iter().find(|(p, _)| p.last() == Some(name))
    {
        return home(texts, &at, onward).or(Some(at));
    }
    Some(at)
}
