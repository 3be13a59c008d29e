//! Tables of actions and load cases on the supports, imposed loads, and the notes that go with them.
//!
//! In: results. Out: tables in the sheet's units. Every action stands by itself, unfactored, with the point that its resultant goes
//! through; what is combined with which factor is the engineer's. Factors that are in the values already are named.

use super::Subject;
use super::pit_tables::in_sheet_unit;
use crate::analysis::assumed::{BLOCKED_PULL, HORIZONTAL_SHARE, START_PULL};
use crate::analysis::loads::{LoadCase, Standing};
use crate::model::pit_keep_clear::Use;
use crate::paper::mark::Align;
use crate::paper::table::Table;
use crate::say;
use crate::say::{Value, name, size};
use crate::tables::imposed_loads::imposed;
use crate::units::{GRAVITY, MM_PER_INCH};

/// A force in the sheet's unit with one decimal.
fn force(subject: &Subject<'_>, kn: f64) -> String {
    let value = in_sheet_unit(subject, kn, "kN").0;
    // Minus nought is nought.
    subject.number(if value.abs() < 0.05 { 0.0 } else { value }, 1)
}

fn pads(subject: &Subject<'_>, table: Table) -> Table {
    subject.foot.base.pads.iter().fold(table, |table, pad| table.column(say!("V {pad}", pad = name(pad.name)), Align::Right, 14.0))
}

/// Actions, one row each: each pad, the resultant and a point of its line of action.
pub fn actions(subject: &Subject<'_>) -> Table {
    let unit = in_sheet_unit(subject, 0.0, "kN").1;
    let mut table = Table::new("actions", say!("ACTIONS ON EACH FOOT, UNFACTORED, {unit}", unit = name(unit)))
        .column("", Align::Left, 10.0)
        .column("Action", Align::Left, 60.0)
        .column("Kind", Align::Left, 34.0);
    table = pads(subject, table).column("Sum V", Align::Right, 16.0).column("Sum H", Align::Right, 16.0);
    for axis in ["x", "y", "z"] {
        table = table.column(axis, Align::Right, 20.0);
    }
    table = table.column("H any way", Align::Right, 18.0).column("at height", Align::Right, 20.0);
    for action in &subject.results.loads.actions {
        let mut cells = vec![action.code.to_string(), subject.say(action.name), subject.say(action.kind.word())];
        cells.extend(action.pads.iter().map(|p| force(subject, p.vertical_kn)));
        cells.extend([force(subject, action.vertical_kn), force(subject, action.horizontal_kn)]);
        cells.extend(action.at.iter().map(|at| subject.mm(at.round())));
        let any = action.any_direction_kn.abs() > 0.0;
        cells.extend([
            if any { force(subject, action.any_direction_kn) } else { "–".into() },
            if any { subject.mm(action.any_height_mm.round()) } else { "–".into() },
        ]);
        table.row(cells);
    }
    table
}

/// Load cases, one row each: which actions act together, each pad, the sum, horizontal forces.
pub fn loads(subject: &Subject<'_>) -> Table {
    let unit = in_sheet_unit(subject, 0.0, "kN").1;
    let mut table = Table::new("loads", say!("LOADS ON EACH FOOT, UNFACTORED, {unit}", unit = name(unit))).column("Load case", Align::Left, 78.0).column(
        "Actions",
        Align::Left,
        34.0,
    );
    table = pads(subject, table).column("Sum V", Align::Right, 16.0).column("Sum H", Align::Right, 16.0).column("H any way", Align::Right, 18.0).column(
        "± on a pad",
        Align::Right,
        18.0,
    );
    for case in &subject.results.loads.cases {
        let mut cells = vec![subject.say(case.name), together(subject, case)];
        cells.extend(case.pads.iter().map(|p| force(subject, p.vertical_kn)));
        cells.extend([case.vertical_kn, case.horizontal_kn, case.any_direction_kn, case.any_pad_kn].map(|kn| force(subject, kn)));
        table.row(cells);
    }
    table
}

/// Short names of the actions of a case.
fn together(subject: &Subject<'_>, case: &LoadCase) -> String {
    let code = |id: &str| subject.results.loads.actions.iter().find(|a| a.id == id).map_or("", |a| a.code);
    case.actions.iter().map(|id| code(id)).collect::<Vec<_>>().join(" + ")
}

/// Cover, floor, stair, rail and hoist.
pub fn imposed_loads(subject: &Subject<'_>) -> Table {
    let [area, line, point] = ["kN/m²", "kN/m", "kN"].map(|unit| in_sheet_unit(subject, 0.0, unit).1);
    let mut table = Table::new("imposed", "IMPOSED LOADS OF THE PIT, ALL HOLD")
        .column("On", Align::Left, 60.0)
        .column(area, Align::Right, 18.0)
        .column(line, Align::Right, 18.0)
        .column(point, Align::Right, 18.0)
        .column("Source", Align::Left, 60.0);
    let value = |value: Option<f64>, unit: &str, decimals: usize| {
        value.map_or_else(|| "–".into(), |v| subject.number(in_sheet_unit(subject, v, unit).0, if subject.us() && unit != "kN" { 0 } else { decimals }))
    };
    for load in imposed(subject.us()) {
        let cells =
            [subject.say(load.what), value(load.area, "kN/m²", 1), value(load.line, "kN/m", 1), value(load.point, "kN", 1), subject.say(load.source.said())];
        table.row(cells);
    }
    if let Some(kn) = hoisted(subject) {
        table.row([
            subject.say("hoist, the foot pulley at rest"),
            "–".into(),
            "–".into(),
            value(Some(kn), "kN", 1),
            subject.say("weight of the part, no dynamic factor"),
        ]);
    }
    table
}

/// What hangs on the hoist, kN; nothing where there is no place for one.
pub fn hoisted(subject: &Subject<'_>) -> Option<f64> {
    let pit = subject.foot.pit.as_ref()?;
    pit.keeps_clear.iter().any(|s| s.purpose == Use::Hoist).then(|| subject.results.masses.foot_pulley_kg * GRAVITY / 1000.0)
}

/// What the tables' signs mean, what is in them already, and what they leave out.
pub fn load_notes(subject: &Subject<'_>) -> Vec<String> {
    let anchor = &subject.foot.base.anchor;
    let mut all = vec![
        subject.say("Actions are primary and unfactored, for one elevator; combinations and their factors are the engineer's. V + presses on the pad, V − lifts it; H + pushes toward the up side, shared by the four pads; H any way acts besides and presses or lifts a pad by ± at the most."),
        subject.say("Points: x from the foot shaft, + toward the up side; y from the belt's middle plane, + toward the near side; z above the pit floor. The resultant goes through the point; H acts at its height."),
        subject.say(say!(
            "In the values already: starting pulls {start} times as hard as running; a stalling drive {stall} times, where the belt does not slip before; H any way {share} % of the weights.",
            start = name(subject.number(START_PULL.value, 2)),
            stall = name(subject.number(BLOCKED_PULL.value, 2)),
            share = name(subject.number(HORIZONTAL_SHARE.value * 100.0, 0))
        )),
        subject.say("Cases on the foot: trunking and head stand on it. Cases held: the building carries them and the belt pulls the foot up. Only one way of standing holds; HOLD until it is settled."),
        subject.say("Not in the tables: wind, earthquake, spouts, platforms, vehicles. Surcharge beside the pit is not given: HOLD, by the responsible engineer."),
    ];
    if !subject.results.loads.cases.iter().any(|c| c.standing == Standing::OnBuilding && c.vertical_kn < 0.0) {
        all.push(subject.say("No case lifts the foot as a whole."));
    }
    all.push(subject.say(say!(
        "Anchors are set in one steel template with the holes of all four pads, held on the axes until the concrete is hard: {between} from bolt to bolt, {axes} to the axes, {level} in level, plumb within {plumb} of {projection}.",
        between = tolerance(subject, 2.0),
        axes = tolerance(subject, 5.0),
        level = tolerance(subject, 5.0),
        plumb = size(whole(subject, 1.0), 2),
        projection = size(anchor.projection, 1)
    )));
    all.push(subject.say(say!(
        "Tolerances of the concrete, HOLD: inner faces {faces}, floor under the pads {floor}, openings {openings}, sleeves {sleeves}, cover seat {seat}.",
        faces = tolerance(subject, 15.0),
        floor = tolerance(subject, 5.0),
        openings = tolerance(subject, 20.0),
        sleeves = tolerance(subject, 20.0),
        seat = tolerance(subject, 5.0)
    )));
    all
}

/// Plus and minus, in whole millimetres or sixteenths of an inch.
fn tolerance(subject: &Subject<'_>, mm: f64) -> Value {
    name(format!("±{}", subject.mm(whole(subject, mm))))
}

/// The same size in whole millimetres, or in sixteenths of an inch where the sheets are in inches, mm.
fn whole(subject: &Subject<'_>, mm: f64) -> f64 {
    const SIXTEENTH: f64 = MM_PER_INCH / 16.0;
    if subject.us() { (mm / SIXTEENTH).round().max(1.0) * SIXTEENTH } else { mm }
}
