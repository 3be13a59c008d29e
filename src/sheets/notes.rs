//! Notes and cautions that several sheets share.
//!
//! Cautions always print (trade practice, OSHA 29 CFR 1910.146, 1910.147 and 1910.272, ISO 12100 in spirit);
//! they are short and name what kills: dust, confined space, stored energy, nip points, lifting.

use super::Subject;
use crate::paper::notes::Notes;
use crate::say;
use crate::say::{Statement, name, size};
use crate::spec::Spec;
use crate::spec::inlets::FedBy;
use crate::spec::rotating::TappedEnd;
use crate::spec::sheet::{Projection, SheetStandard};
use crate::tables::{cautions, threads};
use crate::units::{Density, MassFlow, Speed, Volume};

/// What the machine is for and how it is built, in numbered notes.
pub fn general(subject: &Subject<'_>) -> Notes {
    let s = subject.spec;
    let mut all = vec![
        subject.say(say!(
            "Product: {product}, bulk density {density}. Duty {capacity}, belt speed {speed}.",
            product = name(s.product.name.value.as_str()),
            density = name(subject.amount::<Density>(s.product.density.value.value(), "t/m3", "lb/ft3", if subject.us() { 0 } else { 2 })),
            capacity = name(subject.amount::<MassFlow>(s.duty.capacity.value.value(), "t/h", "st/h", 0)),
            speed = name(subject.amount::<Speed>(s.duty.belt_speed.value.value(), "m/s", "ft/min", if subject.us() { 0 } else { 2 }))
        )),
        subject.say(say!(
            "Buckets {length} × {projection} × {height} (length × projection × height), spacing {spacing}, {rows} row(s), {volume} each.",
            length = size(subject.foot.bucket.length, 1),
            projection = size(subject.foot.bucket.projection, 1),
            height = size(subject.foot.bucket.height, 1),
            spacing = size(subject.foot.bucket.spacing, 1),
            rows = name(subject.foot.bucket.rows),
            volume = name(subject.amount::<Volume>(s.bucket.volume.value.value(), "l", "in3", if subject.us() { 0 } else { 2 }))
        )),
        subject.say("Up side: belt running up with full buckets. Near side: toward the viewer of the section."),
        subject.say(say!(
            "Casing plate {plate}, bottom {bottom_plate}. Inner seams continuous and dust tight.",
            plate = size(subject.foot.casing.plate, 1),
            bottom_plate = size(subject.foot.casing.bottom_plate, 1)
        )),
        subject.say("Thin double-dot lines: highest position of the take-up, neighbouring parts, and openings in the near side plate."),
    ];
    if let Some(end) = match s.shaft.tapped_end.value {
        TappedEnd::Near => Some("near end"),
        TappedEnd::Far => Some("far end"),
        TappedEnd::Both => Some("both ends"),
        TappedEnd::None => None,
    } {
        all.push(subject.say(say!(
            "Foot shaft drilled and tapped {thread} at the {end} for the motion sensor's target.",
            thread = name(threads::tapped(&s.shaft.thread.value)),
            end = end
        )));
    }
    if let Some(boss) = subject.parts.part("earthing_boss") {
        all.push(subject.say(say!(
            "Earthing points: item {item}, low on the side plates; bond to the plant's protective earth and lightning protection, across bearings and flanges as the local code asks.",
            item = name(boss.item)
        )));
    }
    if subject.foot.inlets.iter().any(|i| i.fed_by == FedBy::Spout) {
        all.push(subject.say("Arrows show the way of the material."));
    }
    if s.us() {
        all.push(subject.say(drawing_practice(s)));
    }
    let mut notes = Notes::numbered("notes", all);
    notes.width = 160.0;
    notes
}

/// The standards of drawing practice that a US set follows, and no other; the ASME sheets and weld symbols from memory.
fn drawing_practice(spec: &Spec) -> Statement {
    const WELDS: &str = "weld symbols AWS A2.4, fillets by their leg";
    match (*spec.sheet.standard, *spec.sheet.projection) {
        (SheetStandard::Ansi, Projection::Third) => say!("Sheets ASME Y14.1, third-angle projection ASME Y14.3, {welds}.", welds = WELDS),
        (SheetStandard::Ansi, Projection::First) => say!("Sheets ASME Y14.1, first-angle projection, {welds}.", welds = WELDS),
        (SheetStandard::Iso, Projection::Third) => say!("Third-angle projection ASME Y14.3, {welds}.", welds = WELDS),
        (SheetStandard::Iso, Projection::First) => say!("First-angle projection, {welds}.", welds = WELDS),
    }
}

/// What is accepted as a deviation, on general arrangement, pit sheet and calculation sheet; nothing where nothing is.
pub fn deviations(subject: &Subject<'_>) -> Option<Notes> {
    let all: Vec<String> = subject.findings.deviations().iter().map(|d| subject.said(d)).collect();
    let mut notes = Notes::plain("deviations", "DEVIATIONS", all);
    notes.width = 160.0;
    (!notes.notes.is_empty()).then_some(notes)
}

/// The cautions that print on every general arrangement, pit sheet and calculation sheet.
pub fn cautions(subject: &Subject<'_>) -> Notes {
    let all = cautions::applying(subject.spec.product.combustible.value).into_iter().map(|c| subject.say(c.text));
    let mut notes = Notes::cautions("cautions", all);
    notes.width = 160.0;
    notes
}
