//! The reference of keys, rules, product presets and title block texts as one HTML page, printed from the registries so that it cannot go
//! stale: `footwell explain --page`. The one of this version stands in `out/reference.html`; `tests/readme.rs` holds it.

use super::spec_paths::{plain_path, spec_tables};
use super::starters;
use crate::files::Format;
use crate::formulas;
use crate::job::Job;
use crate::paper::own_block;
use crate::rules;
use crate::spec::keys;
use crate::tables;
use crate::tables::products;
use crate::units::plain_number;
use minijinja::{AutoEscape, Environment};
use serde::Serialize;

const PAGE: &str = include_str!("../../templates/reference.html");
const STYLE: &str = include_str!("../../templates/report.css");

#[derive(Serialize)]
struct Page {
    style: &'static str,
    version: &'static str,
    starters: Vec<[&'static str; 2]>,
    formats: Vec<[&'static str; 2]>,
    tables: Vec<Table>,
    rules: Vec<Rule>,
    products: Vec<Product>,
    title_block: Vec<[&'static str; 2]>,
    rests: Vec<Rest>,
}

#[derive(Serialize)]
struct Table {
    name: String,
    keys: Vec<Key>,
}

#[derive(Serialize)]
struct Key {
    path: String,
    kind: String,
    range: String,
    about: String,
}

#[derive(Serialize)]
struct Rule {
    id: &'static str,
    title: &'static str,
    what: &'static str,
    why: &'static str,
    remedy: &'static str,
    source: String,
}

#[derive(Serialize)]
struct Product {
    name: &'static str,
    kind: &'static str,
    density: String,
    repose: String,
    slope: String,
    fragile: bool,
    burns: bool,
}

/// What the formulas or the tables on one topic rest on.
#[derive(Serialize)]
struct Rest {
    topic: String,
    sources: Vec<String>,
}

/// Writes the page.
///
/// # Errors
/// What the template engine objects to, which would be a defect of the template.
pub fn page() -> Result<String, String> {
    let page = Page {
        style: STYLE,
        version: env!("CARGO_PKG_VERSION"),
        starters: starters::ALL.iter().map(|s| [s.name, s.about]).collect(),
        formats: Format::all().map(|f| [f.extension(), f.about()]).collect(),
        tables: key_tables(),
        rules: rules::ALL.iter().map(rule).collect(),
        products: products::ALL.iter().map(product).collect(),
        title_block: own_block::FIELDS.iter().map(|(name, about)| [*name, *about]).collect(),
        rests: [formulas::ALL, tables::ALL].into_iter().flatten().map(rest).collect(),
    };
    let mut engine = Environment::new();
    engine.set_auto_escape_callback(|_| AutoEscape::Html);
    engine.set_keep_trailing_newline(true);
    engine.render_str(PAGE, page).map_err(|why| format!("reference.html: {why}"))
}

/// The starter whose foot has the most parts.
const PICTURED: &str = "tall_bend";

/// The picture of a foot with the words for its parts, as SVG; the one of this version stands in `out/words.svg`.
///
/// # Errors
/// A plain sentence when it cannot be drawn, which is a defect of the program.
pub fn words() -> Result<String, String> {
    let starter = starters::ALL.iter().find(|s| s.name == PICTURED).ok_or("defect of the program: no starter to picture")?;
    let job = Job::of(starter.text).map_err(|_| "defect of the program: the pictured starter cannot be read")?;
    job.words()
}

fn key_tables() -> Vec<Table> {
    let all = keys();
    let of = |name: &str| -> Vec<Key> {
        let mine = all.iter().filter(|k| k.path.rsplit_once('.').is_some_and(|(table, _)| plain_path(table) == name));
        mine.map(|k| Key { path: k.path.clone(), kind: k.kind.clone(), range: k.range.clone(), about: k.about.clone() }).collect()
    };
    spec_tables(&all).into_iter().map(|name| Table { keys: of(&name), name }).collect()
}

fn rule(rule: &rules::Rule) -> Rule {
    Rule { id: rule.id, title: rule.title, what: rule.what, why: rule.why, remedy: rule.remedy, source: rule.source.said().plainly() }
}

fn product(p: &products::Product) -> Product {
    Product {
        name: p.name,
        kind: p.kind.word(),
        density: plain_number(p.density_t_per_m3, 2),
        repose: plain_number(p.repose_deg, 0),
        slope: plain_number(p.min_chute_slope_deg, 0),
        fragile: p.fragile,
        burns: p.combustible,
    }
}

fn rest((topic, sources): &(&str, &[crate::sources::Source])) -> Rest {
    Rest { topic: topic.replace('_', " "), sources: sources.iter().map(|s| s.said().plainly()).collect() }
}
