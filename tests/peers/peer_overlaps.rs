//! Writes STEP files, and beside each which bodies share space, for tests/outside/interference.py.
//!
//! `peer_overlaps FOLDER` writes one for every starter, `peer_overlaps FOLDER FIRST COUNT` for random specs from a seed on.
#![allow(clippy::unwrap_used)]

// `wild` serves the tests of the rules only.
#[allow(dead_code)]
#[path = "../support/random_spec.rs"]
mod random_spec;

use footwell::cli::starters;
use footwell::files::model;
use footwell::job::Job;
use footwell::proofs::overlaps::sharing;
use footwell::proofs::standing::Position;
use serde_json::json;
use std::error::Error;
use std::path::Path;

fn write(folder: &Path, name: &str, text: &str) -> Result<(), Box<dyn Error>> {
    let job = Job::of(text).map_err(|problems| format!("{name}: {problems:?}"))?;
    let voice = job.voice();
    let file = model::file(job.machine(), &voice, name)?;
    std::fs::write(folder.join(format!("{name}.step")), file.bytes)?;
    let title = |id: &str| job.machine().bodies.iter().find(|b| b.id == id).map(|b| voice.say(&b.title()));
    // The file shows the take-up at its lowest, and no seams.
    let shares = sharing(job.machine(), job.parts(), 0.0, &[Position::Lowest]).into_iter().filter_map(|o| {
        let [a, b] = [title(&o.ids[0])?, title(&o.ids[1])?];
        Some(json!({ "names": [a, b], "deep": o.deep, "allowed": o.allowed.map(|a| a.why) }))
    });
    std::fs::write(folder.join(format!("{name}.json")), json!({ "shares": shares.collect::<Vec<_>>() }).to_string())?;
    Ok(())
}

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let folder = Path::new(arguments.first().ok_or("give a folder")?);
    std::fs::create_dir_all(folder)?;
    let Some((first, count)) = arguments.get(1).zip(arguments.get(2)) else {
        return starters::ALL.iter().try_for_each(|starter| write(folder, starter.name, starter.text));
    };
    let first: u64 = first.parse()?;
    (first..first + count.parse::<u64>()?).try_for_each(|seed| write(folder, &format!("random_{seed:04}"), &random_spec::sound(seed)))
}
