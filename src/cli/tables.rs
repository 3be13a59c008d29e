//! Tables of the README, printed from the registries so that they cannot go stale.
//!
//! In: nothing. Out: Markdown. `tests/readme.rs` holds the README against them.

use super::starters;
use crate::files::Format;
use crate::paper::own_block;
use crate::rules;
use crate::spec::keys;
use crate::tables::products;
use crate::units::plain_number;

fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('\n', " ")
}

/// Every key of the spec.
pub fn key_table() -> String {
    let mut out = String::from("| key | kind | range | what |\n|---|---|---|---|\n");
    for key in keys() {
        out.push_str(&format!("| `{}` | {} | {} | {} |\n", key.path, cell(&key.kind), cell(&key.range), cell(&key.about)));
    }
    out
}

/// Every rule.
pub fn rule_table() -> String {
    let mut out = String::from("| rule | what is looked at | source |\n|---|---|---|\n");
    for rule in rules::ALL {
        out.push_str(&format!("| `{}` | {} | {} |\n", rule.id, cell(rule.what), cell(&rule.source.said().plainly())));
    }
    out
}

/// Every starter spec.
pub fn starter_table() -> String {
    let mut out = String::from("| starter | scenario |\n|---|---|\n");
    for starter in starters::ALL {
        out.push_str(&format!("| `{}` | {} |\n", starter.name, cell(starter.about)));
    }
    out
}

/// Every file format.
pub fn format_table() -> String {
    let mut out = String::from("| format | what for |\n|---|---|\n");
    for format in Format::all() {
        out.push_str(&format!("| `.{}` | {} |\n", format.extension(), cell(format.about())));
    }
    out
}

/// Every product preset.
pub fn product_table() -> String {
    let mut out = String::from("| preset | kind | density t/m³ | repose | chute slope | fragile | dust burns |\n|---|---|---|---|---|---|---|\n");
    let yes = |b: bool| if b { "yes" } else { "" };
    for p in products::ALL {
        out.push_str(&format!(
            "| `{}` | {} | {} | {}° | {}° | {} | {} |\n",
            p.name,
            p.kind.word(),
            plain_number(p.density_t_per_m3, 2),
            plain_number(p.repose_deg, 0),
            plain_number(p.min_chute_slope_deg, 0),
            yes(p.fragile),
            yes(p.combustible)
        ));
    }
    out
}

/// Every name in braces of a user's title block.
pub fn title_block_table() -> String {
    let mut out = String::from("| text | what it becomes |\n|---|---|\n");
    for (name, about) in own_block::FIELDS {
        out.push_str(&format!("| `{{{name}}}` | {} |\n", cell(about)));
    }
    out
}

/// A table with the name of its marker in the README.
pub type MarkedTable = (&'static str, fn() -> String);

/// All tables.
pub const ALL: &[MarkedTable] = &[
    ("starters", starter_table),
    ("formats", format_table),
    ("keys", key_table),
    ("rules", rule_table),
    ("products", product_table),
    ("title-block", title_block_table),
];
