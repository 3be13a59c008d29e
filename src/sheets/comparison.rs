//! The bend-pulley question on one sheet: both feet in their pits at one scale, and the numbers.
//!
//! In: the comparison of the analysis. Both sections stand on one line of plant floor, so that the eye sees
//! which pit is deeper. The machine of the other sheets is named; its counterpart is a sketch by rule.

use super::views::{Look, elevation, pit_section, shift};
use super::{Subject, notes, pit_tables};
use crate::comparison::{Asked, Comparison, Held, Row, Variant, fed};
use crate::model::inlets::FeedSide;
use crate::paper::drafting::Projection;
use crate::paper::mark::Align;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::table::Table;
use crate::paper::view::{Draft, Side};
use crate::say;
use crate::say::number;
use crate::say::{name, size};
use crate::units::Unit;

/// Whether there is something to compare.
pub fn applies(subject: &Subject<'_>) -> bool {
    subject.comparison.is_some()
}

/// The sheet; empty without a comparison.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description =
        subject.say("The same duty with a foot pulley like the head pulley and with a small one and a bend pulley: sections in the pit and numbers.");
    sheet.coarsest_scale = 50.0;
    let Some(comparison) = subject.comparison else { return sheet };
    sheet.view(Placement::Main, subject.face(section(subject, &comparison.without_bend, "plain", "WITHOUT BEND PULLEY")));
    // Not a projection of the first: it stands on its right whatever the method, on the same heights.
    let right = if subject.style().projection == Projection::First { Placement::FromLeft } else { Placement::FromRight };
    sheet.view(right, subject.face(section(subject, &comparison.with_bend, "bend", "WITH BEND PULLEY")));
    sheet.table(numbers(subject, comparison));
    sheet.note(basis(subject, comparison));
    sheet.note(notes::cautions(subject));
    sheet
}

/// How far the ground beside the pit is drawn here, mm.
const BESIDE: f64 = 300.0;

/// One machine in its pit, plant floor at height 0.
fn section(subject: &Subject<'_>, variant: &Variant, id: &str, title: &'static str) -> Draft {
    let foot = &variant.foot;
    let own = Subject { spec: &variant.spec, foot, results: &variant.results, machine: &variant.machine, ..subject.clone() };
    let mut d = Draft::new(id, title);
    let _ = elevation::machine(&own, &mut d);
    let floor = foot.pit.as_ref().map_or(0.0, |p| p.depth);
    let right = foot.inlets.iter().map(|i| i.flange_face).fold(foot.casing.up_face, f64::max) + 150.0;
    let left = foot.inlets.iter().map(|i| i.flange_face).fold(foot.casing.down_outermost(), f64::min) - 150.0;
    match &foot.pit {
        Some(pit) => {
            pit_section::concrete_beside(&mut d, pit, pit.x, &pit.feed_openings, BESIDE);
            d.level((pit.x.high + pit.wall + BESIDE, pit.depth), 0.0, subject.say("plant floor"), Side::Right);
            d.level((pit.x.high, 0.0), pit.level(0.0), subject.say("pit floor"), Side::Right);
            d.level((pit.x.high + pit.wall + pit.toe, -pit.slab), pit.level(-pit.slab), subject.say("slab"), Side::Right);
            d.dimension(Side::Left, format!("{id}.pit.depth"), (pit.x.low, 0.0), (pit.x.low, pit.depth));
            d.dimension(Side::Below, format!("{id}.pit.length"), (pit.x.low, -pit.slab), (pit.x.high, -pit.slab));
        }
        None => {
            elevation::ground(&mut d, left, right);
            d.level((right, 0.0), 0.0, subject.say("floor"), Side::Right);
        }
    }
    let shaft = Look::Elevation.point(foot.pulleys.foot.centre);
    if let Some(i) = fed(foot) {
        let side = if i.side == FeedSide::Up { Side::Right } else { Side::Left };
        d.level((i.outside, i.sill), i.sill - floor, subject.say("sill"), side);
        let out = i.side.outward();
        d.dimension(if out > 0.0 { Side::Right } else { Side::Left }, format!("{id}.sill"), (i.outside, 0.0), (i.outside, i.sill)).chain("heights");
        d.flow_arrow(
            (i.flange_face + out * 320.0, i.flange_sill + i.opening.middle() - i.sill),
            (i.flange_face + out * 40.0, i.flange_sill + i.opening.middle() - i.sill),
        );
    }
    d.dimension(Side::Left, format!("{id}.shaft_height"), (foot.casing.down_outermost(), 0.0), (0.0, shaft.y));
    d.level((foot.casing.up_face + foot.casing.plate, shaft.y), shaft.y - floor, subject.say("foot shaft"), Side::Right);
    d.diameter(format!("{id}.foot_pulley.diameter"), shaft, foot.pulleys.foot.radius()).prefer(Side::Left);
    let path = &variant.results.path.middle;
    let wrap = |degrees: f64| subject.say(say!("wrap {degrees}°", degrees = name(subject.number(degrees, 1))));
    let reach = 0.8 * foot.pulleys.foot.radius();
    d.leader((shaft.x - 0.6 * reach, shaft.y - 0.6 * reach), wrap(path.foot_wrap_deg), Side::Left);
    if let Some(bend) = &foot.pulleys.bend {
        let centre = Look::Elevation.point(bend.centre);
        d.diameter(format!("{id}.bend_pulley.diameter"), centre, bend.radius()).prefer(Side::Left);
        if let Some(b) = &variant.results.bend {
            d.leader((centre.x - 0.5 * bend.radius(), centre.y + 0.4 * bend.radius()), wrap(b.wrap_deg[1]), Side::Left);
        }
    }
    shift::draft(d, -floor)
}

/// A value of a row as printed, in the sheet's unit.
fn cell(subject: &Subject<'_>, row: &Row, value: Option<f64>) -> String {
    let Some(value) = value else { return "–".into() };
    match row.unit {
        Unit::Mm if row.id == "sill_level" => number::level(value, subject.style()),
        Unit::Mm => subject.mm(value.round()),
        // A life is not known to the hour.
        Unit::H => subject.number((value / 1000.0).round() * 1000.0, 0),
        unit => subject.number(pit_tables::in_sheet_unit(subject, value, unit.symbol()).0, row.decimals),
    }
}

fn numbers(subject: &Subject<'_>, comparison: &Comparison) -> Table {
    let mut table = Table::new("comparison", "COMPARISON")
        .column("What", Align::Left, 100.0)
        .column("Unit", Align::Left, 22.0)
        .column("Without bend pulley", Align::Right, 36.0)
        .column("With bend pulley", Align::Right, 36.0)
        .column("Difference", Align::Right, 22.0);
    for row in &comparison.rows {
        let unit = if row.id == "sill_level" { "m".to_string() } else { pit_tables::in_sheet_unit(subject, 0.0, row.unit.symbol()).1.to_string() };
        let difference = row.difference().map_or_else(
            || "–".into(),
            |d| {
                let sign = if d > 0.0 {
                    "+"
                } else if d < 0.0 {
                    "−"
                } else {
                    ""
                };
                let text = if row.unit == Unit::Mm {
                    subject.mm(d.abs().round())
                } else if row.unit == Unit::H {
                    subject.number((d.abs() / 1000.0).round() * 1000.0, 0)
                } else {
                    subject.number(pit_tables::in_sheet_unit(subject, d.abs(), row.unit.symbol()).0, row.decimals)
                };
                // What rounds to nothing has no sign.
                let sign = if text.chars().any(|c| c.is_ascii_digit() && c != '0') { sign } else { "" };
                format!("{sign}{text}")
            },
        );
        table.row([subject.say(row.name), unit, cell(subject, row, row.without_bend), cell(subject, row, row.with_bend), difference]);
    }
    table
}

fn basis(subject: &Subject<'_>, comparison: &Comparison) -> Notes {
    let words = match comparison.asked {
        Asked::WithBend => "The machine with the bend pulley is that of the other sheets; the one without is decided by rule from the same spec.",
        Asked::WithoutBend => "The machine without a bend pulley is that of the other sheets; the one with it is decided by rule from the same spec.",
    };
    let held = match comparison.held {
        Held::FeedLevel => "Both are fed from the same level over the same distance; each pit's depth follows from it, rounded up.",
        Held::FlangeLevel => "The floor of the inlet flange lies on one level in both, as the given pit depth asks.",
    };
    let mut all = vec![subject.say(words), subject.say(held)];
    all.push(subject.say("Duty, product, buckets and take-up travel are the same. Shaft, bearings, casing height, sill and pit are chosen anew."));
    let bend = &comparison.with_bend.spec.bend_pulley;
    let centres = comparison.with_bend.spec.shaft.bearing_centres.value();
    all.push(subject.say(say!("The bend pulley adds: 1 bend pulley ⌀{diameter} × {face}, {mass}; 1 shaft ⌀{shaft} for bearings {centres} apart; 2 bearings with their seats on the side plates.", diameter = size(bend.diameter.value.value(), 1), face = size(bend.face.value.value(), 1), mass = name(subject.mass(comparison.with_bend.results.masses.bend_pulley_kg)), shaft = size(bend.shaft.value.value(), 1), centres = size(centres, 1))));
    all.push(subject.say("Wraps, belt length and speeds with the take-up in the middle of its travel. Groundwater and its uplift: see the pit sheets."));
    let listed = |ids: &[&str]| name(if ids.is_empty() { "–".to_string() } else { ids.join(", ") });
    let [failed, warned] = &comparison.without_bend.objections;
    all.push(subject.say(say!(
        "Open without a bend pulley: rules that fail {failed}; rules that warn {warned}.",
        failed = listed(failed),
        warned = listed(warned)
    )));
    let [failed, warned] = &comparison.with_bend.objections;
    all.push(subject.say(say!(
        "Open with a bend pulley: rules that fail {failed}; rules that warn {warned}.",
        failed = listed(failed),
        warned = listed(warned)
    )));
    all.push(subject.say("The counterpart is a sketch to decide by, not a checked design."));
    let mut notes = Notes::numbered("notes", all);
    notes.width = 160.0;
    notes
}
