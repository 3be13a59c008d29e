//! Writes the STEP file of every starter, and beside each what its bodies should be: `peer_bodies FOLDER`.

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
    volume_mm3: f64,
    surface_mm2: f64,
    centroid: [f64; 3],
    count: usize,
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("give a folder")?;
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder)?;
    for starter in starters::ALL {
        let job = Job::of(starter.text).map_err(|problems| format!("{}: {problems:?}", starter.name))?;
        let voice = job.voice();
        let file = model::file(job.machine(), &voice, starter.name)?;
        std::fs::write(folder.join(format!("{}.step", starter.name)), file.bytes)?;
        // A body without a place is in no group.
        let standing = job.machine().bodies.iter().filter(|b| !b.places.is_empty());
        let wanted = standing.map(|body| {
            let m = mass(&body.brep);
            let name = voice.say(&body.title());
            Wanted { id: body.id.clone(), name, volume_mm3: m.volume, surface_mm2: m.surface, centroid: m.centroid.to_array(), count: body.places.len() }
        });
        std::fs::write(folder.join(format!("{}.json", starter.name)), serde_json::to_string_pretty(&wanted.collect::<Vec<_>>())?)?;
    }
    Ok(())
}
