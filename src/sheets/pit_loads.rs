//! Second pit sheet: loads on each support with their signs, anchors, quantities, uplift, holds.
//!
//! Loads are primary and unfactored. What nobody has settled yet stands in the table of holds.

use super::{Subject, pit_actions, pit_tables};
use crate::model::holds::{Who, holds};
use crate::model::pit_keep_clear::Use;
use crate::paper::mark::Align;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::table::Table;

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Loads of the bucket elevator foot on each support, anchors, quantities of the pit, uplift, way down, what is on hold.");
    sheet.view(Placement::Free, subject.face(pit_tables::signs(subject)));
    sheet.table(pit_actions::actions(subject));
    sheet.table(pit_actions::loads(subject));
    sheet.table(pit_actions::imposed_loads(subject));
    sheet.table(anchors(subject));
    if let Some(table) = pit_tables::quantities(subject) {
        sheet.table(table);
    }
    if let Some(table) = pit_tables::fittings(subject) {
        sheet.table(table);
    }
    sheet.table(kept_clear(subject));
    sheet.table(holds_table(subject));
    let mut all = vec![
        subject.say("Outline and loads only. Reinforcement, structure, foundation, waterproofing and shoring by the responsible engineer under local codes."),
        subject.say("Anchors: x from the foot shaft, + toward the up side; y from the belt's middle plane, + toward the near side."),
    ];
    all.extend(pit_actions::load_notes(subject));
    all.extend(pit_tables::quantity_notes(subject));
    if subject.spec.pit.cover.value {
        all.push(subject.say("Opening covered flush with plant floor; every loose cover held against sliding and lifting."));
    }
    if subject.spec.pit.rail.value {
        all.push(subject.say("Guard rail with knee rail and toe board all round the opening, self-closing gate at the way down."));
    }
    let mut notes = Notes::numbered("notes", all);
    notes.width = 160.0;
    sheet.note(notes);
    sheet
}

/// Where the anchors of every elevator stand from the setting-out point.
fn anchors(subject: &Subject<'_>) -> Table {
    let base = &subject.foot.base;
    let mut t = Table::new("anchors", "ANCHORS")
        .column("Elevator", Align::Right, 20.0)
        .column("Pad", Align::Left, 12.0)
        .column("x", Align::Right, 26.0)
        .column("y", Align::Right, 26.0)
        .column("Bolt", Align::Left, 40.0)
        .column("Hole", Align::Right, 20.0);
    let Some(pit) = &subject.foot.pit else { return t };
    for (elevator, pad, at) in pit.anchors(base) {
        t.row([
            elevator.to_string(),
            pad.to_string(),
            subject.mm(at.x),
            subject.mm(at.y),
            format!("{} HOLD", base.bolt),
            format!("⌀{}", subject.mm(base.hole)),
        ]);
    }
    t
}

fn holds_table(subject: &Subject<'_>) -> Table {
    let mut table = Table::new("holds", "HOLDS")
        .column("Hold", Align::Left, 52.0)
        .column("To be settled", Align::Left, 90.0)
        .column("Assumed", Align::Left, 24.0)
        .column("By", Align::Left, 30.0);
    for hold in holds(subject.spec) {
        let key = if hold.path.is_empty() { "–" } else { hold.path };
        table.row([
            key.to_string(),
            subject.say(hold.words),
            hold.assumed.map_or_else(|| "–".into(), |assumed| subject.say(assumed)),
            subject.say(hold.who.word()),
        ]);
    }
    let beyond = subject.foot.pit.as_ref().is_some_and(|pit| !pit.feeds_beyond(&subject.foot.inlets, subject.spec).is_empty());
    if beyond {
        table.row(["–".into(), subject.say("trench or tunnel for the incoming feed beyond the wall"), "–".into(), subject.say(Who::Engineer.word())]);
    }
    table
}

/// Spaces for taking out, for people and for work that keep clear of each other.
fn kept_clear(subject: &Subject<'_>) -> Table {
    let mut t = Table::new("kept-clear", "SPACES THAT KEEP CLEAR").column("Space", Align::Left, 62.0).column("Elevator", Align::Right, 18.0);
    for heading in ["x from", "to", "y from", "to", "z from", "to"] {
        t = t.column(heading, Align::Right, 20.0);
    }
    let Some(pit) = &subject.foot.pit else { return t };
    // The treads of a stair are many boxes under one way down, which is drawn; machines and spouts are.
    for space in pit.keeps_clear.iter().filter(|s| !matches!(s.purpose, Use::Way | Use::Machine | Use::Feed)) {
        let elevator = if space.elevator == 0 { "–".into() } else { space.elevator.to_string() };
        let ends = [space.area.x, space.area.y, space.z].into_iter().flat_map(|e| [e.low, e.high]).map(|at| subject.mm(at.round()));
        t.row([subject.say(space.purpose.word()), elevator].into_iter().chain(ends));
    }
    t
}
