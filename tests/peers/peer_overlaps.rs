//! Writes STEP files of machines in three positions of their take-up, in the middle one with their shafts turned, and beside each file which
//! bodies share space in it, for tests/outside/interference.py.
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
use footwell::proofs::standing::{Position, Stance, stood};
use serde_json::json;
use std::error::Error;
use std::path::Path;

/// How a machine stands in each of its files: the end of the name, the take-up, how far the shafts are turned.
const STANCES: [(&str, Position, f64); 3] = [("", Position::Lowest, 0.0), ("_middle", Position::Middle, 17.0), ("_highest", Position::Highest, 0.0)];

fn write(folder: &Path, name: &str, text: &str) -> Result<(), Box<dyn Error>> {
    let job = Job::of(text).map_err(|problems| format!("{name}: {problems:?}"))?;
    let voice = job.voice();
    let travel = job.foot().rotating.travel;
    let title = |id: &str| job.machine().bodies.iter().find(|b| b.id == id).map(|b| voice.say(&b.title()));
    for (end, position, turned) in STANCES {
        let (name, stance) = (format!("{name}{end}"), Stance { position, turned });
        // The file shows no seams.
        let shares = sharing(job.machine(), job.parts(), travel, &[stance]).into_iter().filter_map(|o| {
            let [a, b] = [title(&o.ids[0])?, title(&o.ids[1])?];
            Some(json!({ "names": [a, b], "deep": o.deep, "allowed": o.allowed.map(|a| a.why) }))
        });
        std::fs::write(folder.join(format!("{name}.json")), json!({ "shares": shares.collect::<Vec<_>>() }).to_string())?;
        let file = model::file(&stood(job.machine(), travel, stance), &voice, &name)?;
        std::fs::write(folder.join(format!("{name}.step")), file.bytes)?;
    }
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
