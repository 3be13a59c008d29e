//! Writes STEP files, and beside each what its bodies should be.
//!
//! `peer_bodies FOLDER` writes one for every starter, `peer_bodies FOLDER FIRST COUNT` for random specs from a seed on.
#![allow(clippy::unwrap_used)]

// `wild` serves the tests of the rules only.
#[allow(dead_code)]
#[path = "../support/random_spec.rs"]
mod random_spec;

use footwell::cli::starters;
use footwell::files::model;
use footwell::job::Job;
use footwell::solid::mass::mass;
use serde::Serialize;
use std::error::Error;
use std::path::Path;

#[derive(Serialize)]
struct Wanted {
    id: String,
    name: String,
    material: String,
    volume_mm3: f64,
    surface_mm2: f64,
    centroid: [f64; 3],
    count: usize,
}

fn write(folder: &Path, name: &str, text: &str) -> Result<(), Box<dyn Error>> {
    let job = Job::of(text).map_err(|problems| format!("{name}: {problems:?}"))?;
    let voice = job.voice();
    let file = model::file(job.machine(), &voice, name)?;
    std::fs::write(folder.join(format!("{name}.step")), file.bytes)?;
    // A body without a place is in no group.
    let standing = job.machine().bodies.iter().filter(|b| !b.places.is_empty());
    let wanted = standing.map(|body| {
        let m = mass(&body.brep);
        Wanted {
            id: body.id.clone(),
            name: voice.say(&body.title()),
            material: format!("{:?}", body.material),
            volume_mm3: m.volume,
            surface_mm2: m.surface,
            centroid: m.centroid.to_array(),
            count: body.places.len(),
        }
    });
    std::fs::write(folder.join(format!("{name}.json")), serde_json::to_string_pretty(&wanted.collect::<Vec<_>>())?)?;
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
