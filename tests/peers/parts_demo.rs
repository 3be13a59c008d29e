//! Writes cutting files, lists and `parts.json` for the outside checks; the program proper has its own command.
//!
//! `parts_demo SPEC|STARTER FOLDER [all]` writes one set. `parts_demo --random FROM TO FOLDER [all]` writes
//! one set for each seed FROM ≤ seed < TO of the random specs, into FOLDER/0000 and so on, with its `spec.toml`.
//! `all` writes the plates in all three profiles, else in the default one only.

// `wild` serves the tests of the rules only.
#[allow(dead_code)]
#[path = "../support/random_spec.rs"]
mod random_spec;

use footwell::cli::starters;
use footwell::export;
use footwell::job::Job;
use footwell::lists;
use footwell::lists::cutting;
use footwell::paper::cut_plate::CutFormat;
use footwell::say::Voice;
use footwell::sheets::places;
use serde::Serialize;
use std::error::Error;
use std::path::Path;

#[derive(Serialize)]
struct Out<'a> {
    parts: &'a footwell::parts::Parts,
    files: Vec<(u32, String)>,
    belt: Vec<Vec<[f64; 2]>>,
    buckets: Vec<Vec<[f64; 2]>>,
    belt_width: f64,
    bucket_width: f64,
    down_face: Vec<[f64; 2]>,
    mass_kg: f64,
    centre: [f64; 3],
}

fn main() -> Result<(), Box<dyn Error>> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    match args.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["--random", from, to, folder, rest @ ..] => {
            for seed in from.parse::<u64>()?..to.parse()? {
                let dir = Path::new(folder).join(format!("{seed:04}"));
                std::fs::create_dir_all(&dir)?;
                let text = random_spec::sound(seed);
                std::fs::write(dir.join("spec.toml"), &text)?;
                write(&format!("seed {seed}"), &text, &dir, !rest.is_empty())?;
            }
            Ok(())
        }
        [name, folder, rest @ ..] => {
            let text = match starters::find(name) {
                Some(s) => s.text.to_string(),
                None => std::fs::read_to_string(name)?,
            };
            write(name, &text, Path::new(folder), !rest.is_empty())
        }
        _ => Err("usage: parts_demo SPEC|STARTER FOLDER [all], or parts_demo --random FROM TO FOLDER [all]".into()),
    }
}

/// What the tables of the assembled casing print, a line an item: wall, item, edges in mm.
fn placed(job: &Job) -> String {
    let mut out = String::from("wall,item,left,right,lower,upper,held\n");
    for p in places::places(&job.subject()) {
        for item in &p.items {
            let held = if p.welded { "weld" } else { "bolts" };
            out += &format!("{},{item},{:.4},{:.4},{:.4},{:.4},{held}\n", p.wall.word(), p.across[0], p.across[1], p.up[0], p.up[1]);
        }
    }
    out
}

fn write(name: &str, text: &str, dir: &Path, all: bool) -> Result<(), Box<dyn Error>> {
    let job = Job::of(text).map_err(|problems| format!("{name}: {problems:?}"))?;
    let (foot, parts) = (job.foot(), job.parts());
    let plates = cutting::cut_plates(parts, &Voice::plain());
    let formats: &[(CutFormat, &str)] = &[(CutFormat::Polylines, "cut"), (CutFormat::LinesAndArcs, "cut_lines"), (CutFormat::R12, "cut_r12")];
    for (format, sub) in formats.iter().take(if all { 3 } else { 1 }) {
        let sub = dir.join(sub);
        std::fs::create_dir_all(&sub)?;
        for file in export::cutting::files(&plates, *format)? {
            std::fs::write(sub.join(&file.name), &file.bytes)?;
        }
    }
    for list in lists::all(parts) {
        let printed = list.printed_for_programs(&Voice::plain());
        let file = export::csv::table(list.id, &printed.heads, &printed.rows)?;
        std::fs::write(dir.join(&file.name), &file.bytes)?;
    }
    // Belt and buckets as outlines in (x, z) at both ends of the take-up, for collision checks.
    let mut belt = Vec::new();
    let mut buckets = Vec::new();
    for path in [&foot.belt.lowest, &foot.belt.highest] {
        let n = 400;
        belt.push(
            (0..n)
                .filter_map(|i| foot.belt.place(path, path.length_mm * f64::from(i) / f64::from(n)))
                .filter(|p| p.at[1] < foot.casing.top)
                .map(|p| p.at)
                .collect(),
        );
        for k in 0..8 {
            buckets.extend(foot.belt.buckets_below(path, &foot.bucket, foot.bucket.spacing * f64::from(k) / 8.0, foot.casing.top));
        }
    }
    let (mass_kg, centre) = parts.mass_and_centre();
    let files = lists::plates(parts).map(|(p, _)| (p.item, lists::file_stem(p, parts))).collect();
    let out = Out {
        parts,
        files,
        belt,
        buckets,
        belt_width: foot.belt.width,
        bucket_width: foot.bucket.overall_length,
        down_face: foot.casing.down_face.clone(),
        mass_kg,
        centre,
    };
    std::fs::write(dir.join("places.csv"), placed(&job))?;
    let file = export::json::value("parts", &out)?;
    std::fs::write(dir.join(&file.name), &file.bytes)?;
    println!("{}: {} items, {} plates, {:.0} kg, {} defects", name, parts.items.len(), plates.len(), mass_kg, parts.defects.len());
    for d in &parts.defects {
        println!("  defect {}: {}", d.item, d.what.plainly());
    }
    Ok(())
}
