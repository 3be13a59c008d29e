//! Lists for the civil engineer: actions, support loads, quantities of the pit, the bend-pulley comparison.
//!
//! In: model and results. Out: lists of typed cells; exact values, not rounded beyond a tenth of the last figure that
//! the sheets print.

use super::list::{Cell, Head, List, unit_cell};
use crate::analysis::Quantity;
use crate::analysis::loads::{Loads, Standing};
use crate::comparison::{Comparison, Row};
use crate::model::Foot;
use crate::say;
use crate::say::{amount, mm};
use crate::units::Unit;

/// Every action on every elevator, unfactored: its resultant with a point of its line of action, then what each pad gets of it.
pub fn actions(foot: &Foot, loads: &Loads) -> List {
    let (count, pitch) = foot.pit.as_ref().map_or((1, 0.0), |p| (p.elevators, p.pitch));
    let kn = |value: f64| Cell::from(amount(value, Unit::KnOnBuilding, 3));
    let mut rows = Vec::new();
    for action in &loads.actions {
        for elevator in 0..count {
            let row_y = -f64::from(elevator) * pitch;
            let standing = action.standing.map_or("any", Standing::word);
            let head = || {
                vec![
                    Cell::Name(action.id.to_string()),
                    Cell::Name(action.code.into()),
                    action.name.into(),
                    action.kind.word().into(),
                    standing.into(),
                    (elevator + 1).into(),
                ]
            };
            let [x, y, z] = action.at;
            let whole = [
                "resultant".into(),
                mm(x).into(),
                mm(y + row_y).into(),
                mm(z).into(),
                kn(action.vertical_kn),
                kn(action.horizontal_kn),
                kn(action.any_direction_kn),
                mm(action.any_height_mm).into(),
            ];
            rows.push(head().into_iter().chain(whole).collect());
            for load in &action.pads {
                let Some(pad) = foot.base.pads.iter().find(|p| p.name == load.pad) else { continue };
                let own = [
                    Cell::Name(load.pad.to_string()),
                    mm(pad.anchor.x).into(),
                    mm(pad.anchor.y + row_y).into(),
                    mm(0.0).into(),
                    kn(load.vertical_kn),
                    kn(load.horizontal_kn),
                    Cell::Blank,
                    Cell::Blank,
                ];
                rows.push(head().into_iter().chain(own).collect());
            }
        }
    }
    let heads = vec![
        Head::words("action"),
        Head::words("short"),
        Head::words("words"),
        Head::words("kind"),
        Head::words("standing"),
        Head::words("elevator"),
        Head::words("at"),
        Head::new("x mm", say!("x {unit}", unit = Unit::Mm)),
        Head::new("y mm", say!("y {unit}", unit = Unit::Mm)),
        Head::new("z mm", say!("z {unit}", unit = Unit::Mm)),
        Head::new("vertical kN (+ down)", say!("vertical {unit} (+ down)", unit = Unit::KnOnBuilding)),
        Head::new("horizontal kN (+ toward up side)", say!("horizontal {unit} (+ toward up side)", unit = Unit::KnOnBuilding)),
        Head::new("horizontal in any direction kN", say!("horizontal in any direction {unit}", unit = Unit::KnOnBuilding)),
        Head::new("its height mm", say!("its height {unit}", unit = Unit::Mm)),
    ];
    List { id: "actions", title: "Actions".into(), heads, rows, metric: false }
}

/// Every case on every pad of every elevator, and its sum; positions from the setting-out point.
pub fn loads(foot: &Foot, loads: &Loads) -> List {
    let (count, pitch) = foot.pit.as_ref().map_or((1, 0.0), |p| (p.elevators, p.pitch));
    let kn = |value: f64| Cell::from(amount(value, Unit::KnOnBuilding, 3));
    let mut rows = Vec::new();
    for case in &loads.cases {
        for elevator in 0..count {
            let row = |pad: Cell, place: [Cell; 2], vertical: f64, horizontal: f64, [any, tilt]: [Cell; 2]| {
                let [x, y] = place;
                vec![Cell::Name(case.id.to_string()), case.name.into(), (elevator + 1).into(), pad, x, y, kn(vertical), kn(horizontal), any, tilt]
            };
            for load in &case.pads {
                let Some(pad) = foot.base.pads.iter().find(|p| p.name == load.pad) else { continue };
                let place = [mm(pad.anchor.x).into(), mm(pad.anchor.y - f64::from(elevator) * pitch).into()];
                rows.push(row(Cell::Name(load.pad.to_string()), place, load.vertical_kn, load.horizontal_kn, [Cell::Blank, kn(case.any_pad_kn)]));
            }
            rows.push(row("sum".into(), [Cell::Blank, Cell::Blank], case.vertical_kn, case.horizontal_kn, [kn(case.any_direction_kn), Cell::Blank]));
        }
    }
    let heads = vec![
        Head::words("case"),
        Head::words("words"),
        Head::words("elevator"),
        Head::words("pad"),
        Head::new("x mm", say!("x {unit}", unit = Unit::Mm)),
        Head::new("y mm", say!("y {unit}", unit = Unit::Mm)),
        Head::new("vertical kN (+ down)", say!("vertical {unit} (+ down)", unit = Unit::KnOnBuilding)),
        Head::new("horizontal kN (+ toward up side)", say!("horizontal {unit} (+ toward up side)", unit = Unit::KnOnBuilding)),
        Head::new("horizontal in any direction kN", say!("horizontal in any direction {unit}", unit = Unit::KnOnBuilding)),
        Head::new("from it on a pad kN (±)", say!("from it on a pad {unit} (±)", unit = Unit::KnOnBuilding)),
    ];
    List { id: "loads", title: "Loads".into(), heads, rows, metric: false }
}

/// The pit's numbers with what they come from; `None` without a pit.
pub fn quantities(foot: &Foot, all: &[Quantity]) -> Option<List> {
    foot.pit.as_ref()?;
    let row = |q: &Quantity| {
        let value = amount(q.value, q.unit, 4).into();
        vec![Cell::Name(q.id.clone()), q.name.clone().into(), value, unit_cell(q.unit), q.source.said().into(), Cell::Name(q.inputs.join(" "))]
    };
    let rows = all.iter().filter(|q| q.id.starts_with("pit.")).map(row).collect();
    let heads = ["id", "what", "value", "unit", "measured by", "from"].map(Head::words).to_vec();
    Some(List { id: "quantities", title: "Quantities".into(), heads, rows, metric: false })
}

/// Numbers of the foot with and without a bend pulley.
pub fn comparison(comparison: &Comparison) -> List {
    let row = |r: &Row| {
        let shown = |v: Option<f64>| v.map_or(Cell::Blank, |v| amount(v, r.unit, 4).into());
        let (without, with, difference) = (shown(r.without_bend), shown(r.with_bend), shown(r.difference()));
        vec![Cell::Name(r.id.to_string()), r.name.into(), unit_cell(r.unit), without, with, difference, r.source.said().into()]
    };
    let heads = ["id", "what", "unit", "without bend pulley", "with bend pulley", "difference", "source"].map(Head::words).to_vec();
    List { id: "comparison", title: "Comparison".into(), heads, rows: comparison.rows.iter().map(row).collect(), metric: false }
}
