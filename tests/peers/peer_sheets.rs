//! Draws random valid specs as complete sheet sets, for judges in other languages.
//!
//! Usage: `peer_sheets FIRST COUNT FOLDER`. Each seed gets its own folder with one DXF and one SVG a sheet.
//! Out: one JSON line a seed: the program's own ink defects, what became of each length of the spec, and the
//! seconds taken. The sheet options (projection, hand, language, decimal sign, revisions) vary with the seed.
#![allow(clippy::unwrap_used)]

#[path = "../support/random_spec.rs"]
#[allow(dead_code)]
mod random_spec;

use footwell::export::{self, Exporter, Options};
use footwell::job::Job;
use footwell::sheets::{SheetSet, spec_lengths};
use serde_json::{Value, json};
use std::path::Path;
use std::time::Instant;

/// The random machine with options of its sheets: every seventh first-angle sheet is German, and so on.
fn text(seed: u64) -> String {
    let machine = random_spec::sound(seed);
    let us = machine.contains("jurisdiction = \"us\"");
    let mut options = String::from("[sheet]\n");
    if seed % 3 == 1 {
        options += if us { "projection = \"first\"\n" } else { "projection = \"third\"\n" };
    }
    if seed % 5 == 2 {
        options += "hand = \"up side left\"\n";
    }
    if seed % 7 == 3 {
        options += "language = \"de\"\ndecimal = \"comma\"\n";
    }
    let revisions = if seed.is_multiple_of(4) {
        "\n[[revision]]\nindex = \"A\"\ndate = \"2026-01-12\"\ntext = \"first issue\"\n\n[[revision]]\nindex = \"B\"\ndate = \"2026-02-02\"\ntext = \"sill raised, door moved\"\nchanged = \"inlet.up.sill, door[1]\"\n"
    } else {
        ""
    };
    machine.replacen("[sheet]\n", &options, 1) + revisions
}

fn draw(seed: u64, folder: &Path) -> Value {
    let start = Instant::now();
    let text = text(seed);
    let fail = |why: String| json!({ "seed": seed, "error": why });
    let job = match Job::of(&text) {
        Ok(job) => job,
        Err(why) => return fail(format!("{why:?}")),
    };
    let sheets = job.lay_out(SheetSet::Whole, None);
    let laid_out = start.elapsed().as_secs_f64();
    let folder = folder.join(seed.to_string());
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("spec.toml"), &text).unwrap();
    let formats: Vec<&'static dyn Exporter> = export::ALL.into_iter().filter(|e| matches!(e.id(), "dxf" | "svg")).collect();
    match export::sheets(&sheets, &formats, &Options::default()) {
        Ok(files) => files.into_iter().for_each(|f| std::fs::write(folder.join(f.name), f.bytes).unwrap()),
        Err(why) => return fail(why),
    }
    let lengths: Vec<Value> = spec_lengths::account(&job.subject(), &sheets)
        .into_iter()
        .map(|l| {
            let (state, detail) = match l.shown {
                spec_lengths::Shown::Dimensioned { value, sheet } => {
                    ("dimensioned", json!({ "value": value, "sheet": sheet, "built_larger": spec_lengths::BUILT_LARGER.contains(&l.path.as_str()) }))
                }
                spec_lengths::Shown::Stated(text) => ("stated", json!(text)),
                spec_lengths::Shown::Listed(why) => ("listed", json!(why)),
                spec_lengths::Shown::Absent => ("absent", json!(null)),
                spec_lengths::Shown::Missing => ("missing", json!(null)),
            };
            json!({ "path": l.path, "mm": l.value, "state": state, "detail": detail })
        })
        .collect();
    json!({
        "seed": seed,
        "sheets": sheets.iter().map(|s| json!({ "id": s.id, "size": s.format.name, "scale": s.scale_text, "width_mm": s.width_mm, "height_mm": s.height_mm })).collect::<Vec<_>>(),
        "defects": sheets.iter().flat_map(|s| s.defects.iter().map(move |d| format!("{}: {:?} {} at ({:.0}, {:.0})", s.id, d.kind, d.message, d.x, d.y))).collect::<Vec<_>>(),
        "lengths": lengths,
        "seconds_layout": laid_out,
        "seconds": start.elapsed().as_secs_f64(),
    })
}

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let (Some(first), Some(count), Some(folder)) =
        (arguments.get(1).and_then(|a| a.parse().ok()), arguments.get(2).and_then(|a| a.parse().ok()), arguments.get(3))
    else {
        eprintln!("say: first seed, how many, into which folder");
        std::process::exit(2);
    };
    for seed in (first..).take(count) {
        println!("{}", draw(seed, Path::new(folder)));
    }
}
