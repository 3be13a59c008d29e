//! `footwell explain`: what a rule, a key, a table of keys or a product preset is, and where it comes from.

use super::spec_paths::{plain_path, spec_tables};
use super::{Console, Outcome, reference, starters};
use crate::formulas;
use crate::job::Job;
use crate::rules::{self, Rule, deviations};
use crate::spec::reader::{Key, Origin, did_you_mean};
use crate::spec::{keys, synonyms};
use crate::tables;
use crate::tables::products::{self, Product};
use crate::units::plain_number;
use clap::Args;

/// Explain a rule, a key, a table, or the product presets.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  footwell explain                        everything that can be explained
  footwell explain inlet-up-sill          one rule: what, why, source, what would pass
  footwell explain rules                  all rules
  footwell explain inlet.up.sill          one key: what, range, how it is decided when left out
  footwell explain pit                    all keys of a table
  footwell explain product                all product presets
  footwell explain sources                what the formulas and tables rest on
  footwell explain maize                  one product preset
  footwell explain --page > keys.html     everything, as one page to read in a browser")]
pub struct Explain {
    /// A rule (inlet-up-sill), a key (inlet.up.sill), a table (pit), "rules", "product", "sources", or a preset
    what: Vec<String>,

    /// Print the reference of all keys, rules and presets as one HTML page
    #[arg(long, conflicts_with = "what")]
    page: bool,

    /// Print a picture of a foot with the words for its parts as SVG
    #[arg(long, conflicts_with_all = ["what", "page"])]
    words: bool,
}

impl Explain {
    /// Runs it.
    pub fn run(self, console: &mut Console<'_>) -> Outcome {
        let what = self.what.join(" ");
        let text = match (self.page, self.words) {
            (true, _) => reference::page(),
            (_, true) => reference::words(),
            _ => explanation(what.trim()),
        };
        match text {
            Ok(text) => {
                console.say(text.trim_end());
                Outcome::Fine
            }
            Err(why) => {
                console.tell(why);
                Outcome::CannotRun
            }
        }
    }
}

/// The text of an explanation.
///
/// # Errors
/// A plain sentence with the nearest names when nothing has this name.
pub fn explanation(what: &str) -> Result<String, String> {
    if what.is_empty() {
        return Ok(contents());
    }
    if matches!(what, "product" | "products" | "presets" | "product.preset") {
        return Ok(all_products());
    }
    if matches!(what, "rule" | "rules") {
        return Ok(all_rules());
    }
    if matches!(what, "source" | "sources") {
        return Ok(all_sources());
    }
    if let Some(rule) = rules::find(&what.to_lowercase()) {
        return Ok(one_rule(rule));
    }
    let path = plain_path(what);
    let all = keys();
    if let Some(key) = all.iter().find(|k| plain_path(&k.path) == path) {
        return Ok(one_key(key));
    }
    let table: Vec<&Key> = all.iter().filter(|k| plain_path(&k.path).strip_prefix(&path).is_some_and(|rest| rest.starts_with('.'))).collect();
    if !table.is_empty() {
        return Ok(table_of(&path, &table));
    }
    if let Some(product) = products::find(what) {
        return Ok(one_product(product));
    }
    if let Some(synonym) = synonyms::meant("", what) {
        let meant = synonym.path;
        let word = synonym.choice.map_or_else(String::new, |choice| format!(" = \"{choice}\""));
        return Ok(format!("\"{what}\" is {meant}{word} here.\n\n{}", explanation(meant)?));
    }
    let mut names: Vec<String> = all.iter().map(|k| plain_path(&k.path)).collect();
    names.extend(spec_tables(&all));
    names.extend(products::ALL.iter().map(|p| p.name.to_string()));
    names.extend(rules::ALL.iter().map(|r| r.id.to_string()));
    let last = what.rsplit('.').next().unwrap_or(what);
    let same_end: Vec<&str> = names.iter().map(String::as_str).filter(|n| n.rsplit('.').next() == Some(last)).collect();
    let near = did_you_mean(&path, names.iter().map(String::as_str));
    Err(match (near, same_end.is_empty()) {
        (_, false) => format!("nothing is called \"{what}\"; did you mean {}?", same_end.join(", ")),
        (Some(near), true) => format!("nothing is called \"{what}\"; did you mean {near}?"),
        (None, true) => format!("nothing is called \"{what}\";  footwell explain  lists what can be explained"),
    })
}

fn contents() -> String {
    let all = keys();
    let mut out = String::from("Tables of the spec (footwell explain TABLE, footwell explain TABLE.KEY):\n");
    for table in spec_tables(&all) {
        let names: Vec<String> =
            all.iter().filter_map(|k| k.path.rsplit_once('.').filter(|(t, _)| plain_path(t) == table).map(|(_, key)| key.to_string())).collect();
        out.push_str(&wrapped(&format!("  {table}: "), &names.join(", ")));
    }
    out.push_str("\nRules (footwell explain RULE):\n");
    let names: Vec<&str> = rules::ALL.iter().map(|r| r.id).collect();
    out.push_str(&wrapped("  ", &names.join(", ")));
    out.push_str("\nSources of formulas and tables: footwell explain sources\n");
    out.push_str("\nProduct presets (footwell explain product):\n");
    let names: Vec<&str> = products::ALL.iter().map(|p| p.name).collect();
    out.push_str(&wrapped("  ", &names.join(", ")));
    out
}

fn table_of(path: &str, rows: &[&Key]) -> String {
    let mut out = String::new();
    let mut heading = "";
    for key in rows {
        let (table, name) = key.path.rsplit_once('.').unwrap_or((path, &key.path));
        if table != heading {
            heading = table;
            let shown = table.strip_suffix("[n]").map_or_else(|| format!("[{table}]"), |list| format!("[[{list}]] (a block for each)"));
            out.push_str(&format!("{shown}\n"));
        }
        let range = if key.range.is_empty() { String::new() } else { format!(", {}", key.range) };
        out.push_str(&wrapped(&format!("  {name}: "), &format!("{} ({}{range})", key.about, key.kind)));
    }
    out
}

fn one_key(key: &Key) -> String {
    let path = plain_path(&key.path);
    let mut out = format!("{path}\n");
    out.push_str(&wrapped("  what: ", &key.about));
    out.push_str(&wrapped("  kind: ", &key.kind));
    if !key.range.is_empty() {
        out.push_str(&wrapped("  range: ", &key.range));
    }
    out.push_str("  in the starter specs:\n");
    for starter in starters::ALL {
        let Ok(job) = Job::of(starter.text) else { continue };
        for line in job.spec().settled_lines().iter().filter(|l| plain_path(&l.path) == path) {
            let why = match &line.origin {
                Origin::Given(_) => "given".to_string(),
                Origin::Default { reason, source } => format!("{}. Source: {}", job.voice().say(reason), job.voice().say(&source.said())),
            };
            out.push_str(&wrapped(&format!("    {}: ", starter.name), &format!("{} — {why}", line.value)));
        }
    }
    out
}

fn all_rules() -> String {
    rules::ALL.iter().map(|r| wrapped(&format!("{:<24} ", r.id), &format!("{}. {}", r.title.trim_end_matches('.'), r.what))).collect()
}

fn one_rule(rule: &Rule) -> String {
    let mut out = format!("{}: {}\n", rule.id, rule.title);
    for (what, text) in [("what", rule.what), ("why", rule.why), ("what would pass", rule.remedy)] {
        out.push_str(&wrapped(&format!("  {what}: "), text));
    }
    out.push_str(&wrapped("  source: ", &rule.source.said().plainly()));
    out.push_str(&wrapped("  deviation: ", &deviation(rule)));
    out.push_str("  in the starter specs:\n");
    for starter in starters::ALL {
        let Ok(job) = Job::of(starter.text) else { continue };
        let voice = job.voice();
        for finding in job.findings().of(rule.id) {
            let verdict = crate::report::standing(finding).plainly();
            let pass: Vec<String> = finding.would_pass.iter().map(|c| c.line_for(&voice)).collect();
            let pass = if pass.is_empty() { String::new() } else { format!(" Would pass: {}", pass.join(", ")) };
            out.push_str(&wrapped(&format!("    {}: ", starter.name), &format!("{verdict} {}{pass}", voice.say(&finding.message))));
        }
    }
    out
}

/// Whether somebody can answer in the spec for what a rule objects to.
fn deviation(rule: &Rule) -> String {
    match deviations::never(rule.id) {
        Some(refusal) => format!("none can be accepted: {}", refusal.why()),
        None => format!("[[deviation]] with rule = \"{}\", reason and by accepts what is no law and no guard", rule.id),
    }
}

/// What every formula and table rests on.
fn all_sources() -> String {
    let mut out = String::new();
    for (what, topics) in [("Formulas", formulas::ALL), ("Tables", tables::ALL)] {
        out.push_str(&format!("{what}:\n"));
        for (topic, sources) in topics {
            let labels: Vec<String> = sources.iter().map(|s| s.said().plainly()).collect();
            out.push_str(&wrapped(&format!("  {}: ", topic.replace('_', " ")), &labels.join("; ")));
        }
    }
    out
}

fn all_products() -> String {
    let mut out = String::from("product         kind     t/m³  repose  chute  fragile  dust burns\n");
    for p in products::ALL {
        out.push_str(&format!(
            "{:<15} {:<8} {:>4}  {:>4}°  {:>4}°  {:<7}  {}\n",
            p.name,
            p.kind.word(),
            plain_number(p.density_t_per_m3, 2),
            plain_number(p.repose_deg, 0),
            plain_number(p.min_chute_slope_deg, 0),
            if p.fragile { "yes" } else { "no" },
            if p.combustible { "yes" } else { "no" }
        ));
    }
    out.push_str("\nEvery value is a default that [product] may replace; footwell explain NAME shows one with its sources.\n");
    out
}

fn one_product(p: &Product) -> String {
    let lines = [
        ("density", format!("{} t/m³, {}", p.density_t_per_m3, p.density_source.said().plainly())),
        (
            "density for loads",
            format!("{} t/m³ ({} kN/m³), {}", plain_number(p.load_density_t_per_m3(), 3), p.load_weight_kn_per_m3, p.load_source.said().plainly()),
        ),
        ("friction", format!("wall {} on smooth steel, internal {}°, {}", p.wall_friction_steel, p.internal_friction_deg, p.friction_source.said().plainly())),
        ("repose", format!("{}°", p.repose_deg)),
        ("chute slope", format!("{}° or more; valleys {}°, {}", p.min_chute_slope_deg, p.min_valley_slope_deg, products::SLOPES.said().plainly())),
        ("particle", format!("{} mm", p.particle_mm)),
        ("fill", format!("{} with up-side feed, {} with down-side feed, {}", p.fill_up_side, p.fill_down_side, products::FILL.said().plainly())),
        ("fragile", if p.fragile { "yes: feed on the up side only, through a narrowed throat".to_string() } else { "no".into() }),
        ("dust burns", if p.combustible { "yes: some rules are stricter".to_string() } else { "no".into() }),
    ];
    let mut out = format!("product preset \"{}\" ({})\n", p.name, p.kind.word());
    for (what, text) in lines {
        out.push_str(&wrapped(&format!("  {what}: "), &text));
    }
    out
}

/// Text after a heading, wrapped at 100 columns and indented under it.
pub(super) fn wrapped(heading: &str, text: &str) -> String {
    let mut out = String::from(heading);
    let mut column = heading.chars().count();
    let indent = heading.chars().take_while(|c| *c == ' ').count() + 4;
    let mut first = true;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if !first && column + 1 + length > 100 {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else if !first {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += length;
        first = false;
    }
    out.push('\n');
    out
}
