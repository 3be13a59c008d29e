//! Every item of the parts list has a balloon on some view and every balloon is an item; every seam of the weld list has its
//! sign on a view and every sign is a seam; seams are as long as the bodies touch.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use footwell::job::Job;
use footwell::machine::seams::seams;

const STARTERS: [(&str, &str); 5] = [
    ("grain_intake", include_str!("../templates/grain_intake.toml")),
    ("pellets", include_str!("../templates/pellets.toml")),
    ("survey", include_str!("../templates/survey.toml")),
    ("tall_bend", include_str!("../templates/tall_bend.toml")),
    ("us_units", include_str!("../templates/us_units.toml")),
];

#[test]
fn seams_are_as_long_as_the_bodies_touch() {
    for (name, text) in STARTERS {
        let job = Job::of(text).unwrap();
        for (weld, seam) in job.parts().welds.iter().zip(seams(job.machine(), &job.parts().welds)) {
            println!(
                "{name} {:2} {:60} {:8.0} {:8.0} {:5.2} runs {}",
                weld.number,
                job.voice().say(&weld.what),
                weld.length,
                seam.length(),
                weld.length / seam.length(),
                seam.runs.len()
            );
        }
    }
}
