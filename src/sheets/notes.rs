//! Notes and cautions that several sheets share.
//!
//! Cautions always print (trade practice, OSHA 29 CFR 1910.146, 1910.147 and 1910.272, ISO 12100 in spirit);
//! they are short and name what kills: dust, confined space, stored energy, nip points, lifting.

use super::Job;
use crate::paper::notes::Notes;
use crate::spec::inlets::FedBy;
use crate::spec::rotating::TappedEnd;
use crate::units::{Density, MassFlow, Speed, Volume};

/// What the machine is for and how it is built, in numbered notes.
pub fn general(job: &Job<'_>) -> Notes {
    let s = job.spec;
    let mut all = vec![
        job.tell(
            "Product: {}, bulk density {}. Duty {}, belt speed {}.",
            &[
                s.product.name.value.as_str(),
                &job.amount::<Density>(s.product.density.value.value(), "t/m3", "lb/ft3", if job.us() { 0 } else { 2 }),
                &job.amount::<MassFlow>(s.duty.capacity.value.value(), "t/h", "st/h", 0),
                &job.amount::<Speed>(s.duty.belt_speed.value.value(), "m/s", "ft/min", if job.us() { 0 } else { 2 }),
            ],
        ),
        job.tell(
            "Buckets {} × {} × {} (length × projection × height), spacing {}, {} row(s), {} each.",
            &[
                &job.mm(job.foot.bucket.length),
                &job.mm(job.foot.bucket.projection),
                &job.mm(job.foot.bucket.height),
                &job.mm(job.foot.bucket.spacing),
                &job.foot.bucket.rows.to_string(),
                &job.amount::<Volume>(s.bucket.volume.value.value(), "l", "in3", if job.us() { 0 } else { 2 }),
            ],
        ),
        job.say("Up side: belt running up with full buckets. Near side: toward the viewer of the section."),
        job.tell(
            "Casing plate {}, bottom {}. Inner seams continuous and dust tight.",
            &[&job.mm(job.foot.casing.plate), &job.mm(job.foot.casing.bottom_plate)],
        ),
        job.say("Thin double-dot lines: highest position of the take-up, neighbouring parts, and openings in the near side plate."),
    ];
    if let Some(end) = match s.shaft.tapped_end.value {
        TappedEnd::Near => Some("near end"),
        TappedEnd::Far => Some("far end"),
        TappedEnd::Both => Some("both ends"),
        TappedEnd::None => None,
    } {
        all.push(job.tell("Foot shaft drilled and tapped {} at the {} for the motion sensor's target.", &[s.shaft.thread.value.as_str(), &job.say(end)]));
    }
    if job.foot.inlets.iter().any(|i| i.fed_by == FedBy::Spout) {
        all.push(job.say("Arrows show the way of the material."));
    }
    let mut notes = Notes::numbered("notes", all);
    notes.width = 160.0;
    notes
}

/// The cautions that print on every general arrangement, pit sheet and calculation sheet.
pub fn cautions(job: &Job<'_>) -> Notes {
    let mut all = Vec::new();
    if job.spec.product.combustible.value {
        all.push(job.say("DUST EXPLOSION: the product's dust can explode. Keep the foot clean, watch belt alignment, speed and bearings; protect as the risk assessment says."));
    }
    all.push(job.say("CONFINED SPACE: pit and casing may lack air or hold gas. Enter only with a permit, tested air and a second person outside."));
    all.push(job.say("LOCK OUT and wait for standstill before any door, panel or cover is opened. A loaded belt can run back."));
    all.push(job.say("GUARDS: mesh behind doors stays bolted in place; shaft ends and nip points stay guarded."));
    all.push(job.say("LIFTING: lift only by rated points; see the masses on the parts list."));
    all.push(job.say("Local codes and licensed practice govern. This drawing approves nothing by itself."));
    let mut notes = Notes::cautions("cautions", all);
    notes.width = 160.0;
    notes
}
