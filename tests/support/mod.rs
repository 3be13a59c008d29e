//! What integration tests share: a text as a job, changes applied to a text, random specs.

#![allow(dead_code, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

pub mod random_spec;

use footwell::job::Job;
use footwell::rules::Change;
use toml::{Table, Value};

/// The job of a text; every problem of the spec as text when there is one.
pub fn run(text: &str) -> Result<Job, String> {
    Job::of(text).map_err(|problems| format!("{problems:#?}"))
}

/// Writes a value at a path such as `inlet.up.sill` or `door[2].mesh`, making tables on the way.
pub fn set(spec: &mut Table, path: &str, value: &str) {
    let value = format!("x = {value}").parse::<Table>().unwrap().remove("x").unwrap();
    let (tables, key) = path.rsplit_once('.').unwrap();
    let mut here = spec;
    for part in tables.split('.') {
        let Some((name, number)) = part.strip_suffix(']').and_then(|p| p.split_once('[')) else {
            here = here.entry(part).or_insert_with(|| Value::Table(Table::new())).as_table_mut().unwrap();
            continue;
        };
        let number: usize = number.parse().unwrap();
        let list = here.entry(name).or_insert_with(|| Value::Array(Vec::new())).as_array_mut().unwrap();
        while list.len() < number {
            list.push(Value::Table(Table::new()));
        }
        here = list[number - 1].as_table_mut().unwrap();
    }
    here.insert(key.to_string(), value);
}

/// The text with changes applied.
pub fn changed<'a>(text: &str, changes: impl IntoIterator<Item = &'a Change>) -> String {
    let mut table: Table = text.parse().unwrap();
    for change in changes {
        set(&mut table, &change.path, &change.value);
    }
    toml::to_string(&table).unwrap()
}

/// The starter specs by file name.
pub fn templates() -> Vec<(String, String)> {
    let dir = concat!(env!("CARGO_MANIFEST_DIR"), "/templates");
    let mut all: Vec<(String, String)> = std::fs::read_dir(dir)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|x| x == "toml"))
        .map(|p| (p.file_name().unwrap().to_string_lossy().into_owned(), std::fs::read_to_string(&p).unwrap()))
        // Word lists and layer tables live beside the specs; a spec has a duty.
        .filter(|(_, text)| text.lines().any(|line| line.trim() == "[duty]"))
        .collect();
    all.sort();
    all
}

/// Starters with changes that make odd machines of them.
pub fn odd() -> Vec<(String, String)> {
    let starter = |name: &str| templates().into_iter().find(|(n, _)| n.starts_with(name)).unwrap().1;
    let with = |name: &str, changes: &[(&str, &str)]| {
        let mut table: toml::Table = starter(name).parse().unwrap();
        changes.iter().for_each(|(path, value)| set(&mut table, path, value));
        (format!("{name} with {changes:?}"), toml::to_string(&table).unwrap())
    };
    let least = |duty: &str, lift: &str, bucket: [u32; 3], head: u32, more: &str| {
        let [length, projection, height] = bucket;
        let text = format!(
            "[duty]\ncapacity = \"{duty}\"\nlift = \"{lift}\"\n[bucket]\nlength = \"{length} mm\"\nprojection = \"{projection} mm\"\nheight = \"{height} mm\"\n{more}[head_pulley]\ndiameter = \"{head} mm\"\n"
        );
        (format!("{duty} over {lift}"), text)
    };
    vec![
        with("grain_intake", &[("foot_pulley.style", "\"winged\""), ("foot_pulley.diameter", "\"600 mm\"")]),
        with("grain_intake", &[("foot_pulley.style", "\"drum\""), ("sheet.hand", "\"up side left\""), ("bearings.kind", "\"pillow block\"")]),
        with("tall_bend", &[("sheet.hand", "\"up side left\""), ("sheet.projection", "\"third\"")]),
        with("tall_bend", &[("take_up.kind", "\"gravity\"")]),
        with("us_units", &[("sheet.hand", "\"up side left\""), ("bearings.kind", "\"take-up frame\"")]),
        least("6 t/h", "6 m", [90, 70, 75], 250, ""),
        least("900 t/h", "60 m", [400, 260, 270], 1600, "rows = 4\n"),
    ]
}
