//! Writes what the views of the starters show of their bodies, for judges that remove hidden lines themselves.
//!
//! `peer_views FOLDER [--time] [STARTER/SHEET/VIEW …]` (SHEET/VIEW may be `*`) writes STARTER.step and STARTER.views.json for each starter asked for (all without
//! any): of every picture of bodies in every view the directions (model frame), the cutting plane, the pieces by the names of
//! their bodies in the STEP file, and the lines that are seen, mm in the view plane. Alike pictures are written once. `--time` adds the least of five times that the lines
//! took, s.
#![allow(clippy::unwrap_used)]

#[path = "../support/pictures.rs"]
#[allow(dead_code)]
mod pictures;

use footwell::cli::starters;
use footwell::files::model;
use footwell::job::Job;
use footwell::paper::shown::Shown;
use footwell::solid::project::{Kind, Stroke};
use serde_json::{Value, json};
use std::error::Error;
use std::path::Path;
use std::time::Instant;

fn stroke(stroke: &Stroke) -> Value {
    match stroke {
        Stroke::Line(l) => json!([l.p0.x, l.p0.y, l.p1.x, l.p1.y]),
        Stroke::Arc(a) => json!([a.center.x, a.center.y, a.radii.x, a.radii.y, a.start_angle, a.sweep_angle, a.x_rotation]),
    }
}

fn picture(job: &Job, sheet: &str, view: &str, shown: &Shown, timed: bool) -> Value {
    let (machine, voice) = (job.machine(), job.voice());
    let bodies = pictures::by_id(machine);
    let pieces: Vec<Value> = shown
        .pieces
        .iter()
        .map(|piece| {
            let body = bodies[piece.body.as_str()];
            let moved = machine.right_handed(pictures::moved(piece, body).into());
            json!({ "id": piece.body, "name": voice.say(&body.title()), "place": piece.place, "moved": moved, "whole": pictures::whole(shown, piece, body) })
        })
        .collect();
    let drawn = pictures::lines(shown, &bodies, false);
    let time = |_| {
        let begin = Instant::now();
        std::hint::black_box(pictures::lines(shown, &bodies, false));
        begin.elapsed().as_secs_f64()
    };
    let seconds = (0..if timed { 5 } else { 0 }).map(time).reduce(f64::min);
    let lines: Vec<Value> = drawn
        .lines
        .iter()
        .filter(|l| l.seen && l.kind != Kind::Smooth)
        .map(|l| json!({ "piece": l.body, "kind": format!("{:?}", l.kind), "at": stroke(&l.stroke) }))
        .collect();
    json!({
        "sheet": sheet,
        "view": view,
        "right": machine.right_handed(shown.right),
        "up": machine.right_handed(shown.up),
        "toward": machine.right_handed(shown.toward),
        "cut": shown.cut.map(|c| machine.right_handed(c)),
        "pieces": pieces,
        "lines": lines,
        "seconds": seconds,
    })
}

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments.next().ok_or("give a folder")?;
    let folder = Path::new(&folder);
    let (options, asked): (Vec<String>, Vec<String>) = arguments.partition(|a| a.starts_with("--"));
    let timed = options.iter().any(|o| o == "--time");
    std::fs::create_dir_all(folder)?;
    for starter in starters::ALL {
        let wanted = |sheet: &str, view: &str| {
            asked.is_empty() || asked.iter().any(|a| *a == format!("{}/{sheet}/{view}", starter.name) || *a == format!("{}/*", starter.name))
        };
        let job = Job::of(starter.text).map_err(|problems| format!("{}: {problems:?}", starter.name))?;
        if !asked.is_empty() && !asked.iter().any(|a| a.split('/').next() == Some(starter.name)) {
            continue;
        }
        let mut done: Vec<&Shown> = Vec::new();
        let mut out = Vec::new();
        // The sheet that compares shows machines that are not in this file.
        for plan in job.plans().iter().filter(|p| p.id != "compare") {
            for draft in plan.views.iter().map(|v| &v.draft).filter(|d| wanted(&plan.id, &d.id)) {
                for shown in draft.shown.iter().filter(|s| !s.pieces.is_empty()) {
                    if !done.iter().any(|d| d.pieces == shown.pieces && d.toward == shown.toward && d.cut == shown.cut) {
                        done.push(shown);
                        out.push(picture(&job, &plan.id, &draft.id, shown, timed));
                    }
                }
            }
        }
        std::fs::write(folder.join(format!("{}.views.json", starter.name)), serde_json::to_string(&out)?)?;
        let file = model::file(job.machine(), &job.voice(), starter.name)?;
        std::fs::write(folder.join(format!("{}.step", starter.name)), file.bytes)?;
    }
    Ok(())
}
