//! Three sheets of plates: casing sides, casing ends with bottom and inlets, and all smaller plates.
//!
//! Every plate with a cutting file stands on exactly one of them, drawn as it is cut.

use super::Subject;
use super::views::{inlet, plate};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::table::Stand;
use crate::paper::view::ViewScale;
use crate::parts::Part;
use crate::parts::flat::FlatPattern;
use crate::say;
use crate::say::name;
use crate::spec::fabrication::Process;
use crate::tables::cutting_quality;

/// Which sheet shows a plate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    Sides,
    Ends,
    Small,
}

fn group(part: &Part) -> Group {
    let starts = |with: &[&str]| with.iter().any(|w| part.id.starts_with(w));
    if starts(&["side_plate"]) {
        Group::Sides
    } else if starts(&["end_plate", "bottom", "top_", "throat", "removal"]) {
        Group::Ends
    } else {
        Group::Small
    }
}

/// Plates of a sheet, by item number; those cut alike stand together and are drawn once.
fn members<'a>(subject: &Subject<'a>, wanted: Group) -> Vec<(Vec<&'a Part>, &'a FlatPattern)> {
    let mut all: Vec<(Vec<&Part>, &FlatPattern)> = Vec::new();
    for part in subject.parts.items.iter().filter(|p| group(p) == wanted) {
        let Some(flat) = &part.flat else { continue };
        match all.iter_mut().find(|(parts, known)| parts.first().is_some_and(|p| same_stock(p, part)) && plate::alike(known, flat)) {
            Some((parts, _)) => parts.push(part),
            None => all.push((vec![part], flat)),
        }
    }
    all
}

fn same_stock(a: &Part, b: &Part) -> bool {
    a.material == b.material && (a.thickness - b.thickness).abs() < 0.01
}

fn filled(mut sheet: SheetPlan, subject: &Subject<'_>, wanted: Group, about: &'static str) -> SheetPlan {
    sheet.description = subject.say(about);
    sheet.material = subject.spec.casing.material.value.clone();
    sheet.finish = subject.spec.casing.finish.value.clone();
    sheet.tolerance = subject.tolerance();
    sheet.in_rows = wanted != Group::Sides;
    for (i, (parts, flat)) in members(subject, wanted).into_iter().enumerate() {
        let scale = match wanted {
            Group::Sides => ViewScale::Main,
            Group::Ends => ViewScale::Within { width: 150.0, height: 215.0 },
            Group::Small => ViewScale::Within { width: 70.0, height: 70.0 },
        };
        let view = plate::draft(subject, &parts, flat, scale);
        if let Some(t) = plate::table(subject, &parts, flat) {
            sheet.table(t.beside(view.id.clone()));
        }
        sheet.view(if i == 0 { Placement::Main } else { Placement::Free }, view);
    }
    sheet.note(notes(subject));
    sheet
}

/// Both side plates.
pub fn sides(subject: &Subject<'_>, sheet: SheetPlan) -> SheetPlan {
    let mut plan = filled(sheet, subject, Group::Sides, "Side plates near and far as cut, with hole tables.");
    plan.coarsest_scale = if subject.foot.casing.top < 3000.0 { 10.0 } else { 20.0 };
    plan
}

/// End plates with the removal panel, bottom, top flange and inlet throats.
pub fn ends(subject: &Subject<'_>, sheet: SheetPlan) -> SheetPlan {
    let mut plan = filled(sheet, subject, Group::Ends, "End plates with the removal panel, bottom, top flange and inlet throats as cut; inlets in section.");
    for (inlet, letter) in subject.foot.inlets.iter().zip(["B", "C"]) {
        let [lengthwise, upright] = inlet::sections(subject, inlet, letter);
        plan.view(Placement::Free, subject.face(lengthwise));
        plan.view_with_last(subject.face(upright));
    }
    plan
}

/// All other plates.
pub fn small(subject: &Subject<'_>, sheet: SheetPlan) -> SheetPlan {
    filled(sheet, subject, Group::Small, "Feet, doors, covers, take-up and pulley plates as cut.")
}

fn notes(subject: &Subject<'_>) -> Notes {
    // Where the holes are drilled, contours may be cut either way.
    let cut = match *subject.spec.fabrication.process {
        Process::Laser => cutting_quality::LASER,
        Process::Plasma | Process::Drill => cutting_quality::PLASMA,
    };
    let mut notes = Notes::numbered(
        "notes",
        [
            subject.say("Plates are drawn with the marked face toward the viewer, as in their cutting files; x and y from the marked origin to the middle of the hole or opening."),
            subject.say(say!("Thermal cut {class}, edges deburred. Holes marked for drilling are not cut.", class = name(if subject.spec.us() { cut.us_designation } else { cut.designation }))),
            subject.say("Number before the name: item of the parts list. Side plates are handed: near and far seen from outside."),
            subject.say("Narrow lines inside a plate are scribed: outlines of the parts that are set there, with their item numbers; axes are dash-dotted."),
            subject.say("Inner seams continuous and dust tight; weld sizes see list of welds."),
        ],
    );
    notes.width = 140.0;
    notes.stand = Stand::OverTitleBlock;
    notes
}
