//! Parts list (ISO 7573) with the list of fasteners.

use super::Subject;
use crate::lists::{self, List};
use crate::paper::mark::Align;
use crate::paper::sheet::SheetPlan;
use crate::paper::table::Table;
use crate::say;
use crate::say::{Statement, name, size};
use crate::units::MM_PER_INCH;
use std::collections::BTreeSet;

/// Square metres in a square foot.
const M2_PER_FT2: f64 = (12.0 * MM_PER_INCH / 1000.0) * (12.0 * MM_PER_INCH / 1000.0);

/// The sheet with all lists.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("All parts with material, size and mass; fasteners.");
    let (mass, centre) = subject.parts.mass_and_centre();
    sheet.mass_kg = Some(mass);
    sheet.table(table(subject));
    sheet.table(printed(subject, &lists::fasteners(subject.parts)));
    let mut lifting = crate::paper::notes::Notes::plain(
        "lifting",
        "LIFTING",
        [subject.say(say!("Mass {mass}, centre of gravity x {centre} (from the foot shaft, + toward the up side), y {centre_2} (+ toward the near side), z {centre_3} (above the base); parts whose mass only their maker knows are not counted.", mass = name(subject.mass(mass)), centre = size(centre[0], 1), centre_2 = size(centre[1], 1), centre_3 = size(centre[2], 1)))],
    );
    lifting.width = 140.0;
    sheet.note(lifting);
    sheet
}

/// A list as a table of a sheet.
pub fn printed(subject: &Subject<'_>, list: &List) -> Table {
    let printed = list.printed(subject.voice());
    let mut t = Table::new(format!("list.{}", list.id), list.title.clone());
    for (head, words) in list.heads.iter().zip(printed.heads) {
        let width = match head.key {
            "what" | "joint" | "name" | "remarks" => 80.0,
            // One line a row.
            "note" | "grade" => 42.0,
            _ => 26.0,
        };
        t = t.column(Statement::named(words), Align::Left, width);
    }
    for row in printed.rows {
        t.row(row);
    }
    t
}

/// The parts that have a balloon on a sheet; all others stand on the sheet of the parts list.
pub fn shown(subject: &Subject<'_>, items: &BTreeSet<u32>) -> Table {
    let mut t = Table::new("parts", "PARTS LIST (PARTS SHOWN)")
        .column("Item", Align::Right, 12.0)
        .column("Qty", Align::Right, 10.0)
        .column("Part", Align::Left, 70.0)
        .column("Material", Align::Left, 38.0)
        .column("Mass", Align::Right, 24.0);
    for p in subject.parts.items.iter().filter(|p| items.contains(&p.item)) {
        let mass = p.total_kg().map_or_else(|| subject.say("by maker"), |m| subject.mass(m));
        t.row([p.item.to_string(), p.quantity.to_string(), subject.said(&p.name), subject.said(&p.material), mass]);
    }
    t
}

fn table(subject: &Subject<'_>) -> Table {
    let mut t = Table::new("parts", "PARTS LIST")
        .column("Item", Align::Right, 12.0)
        .column("Qty", Align::Right, 10.0)
        .column("Part", Align::Left, 70.0)
        .column("Made", Align::Left, 20.0)
        .column("Material", Align::Left, 38.0)
        .column("Dimension", Align::Left, 56.0)
        .column("Mass each", Align::Right, 24.0)
        .column("Mass", Align::Right, 24.0)
        .column("Paint each", Align::Right, 24.0)
        .column("Hand", Align::Left, 14.0)
        .column("Remarks", Align::Left, 84.0);
    for p in &subject.parts.items {
        let mass = |m: Option<f64>| m.map_or_else(|| subject.say("by maker"), |m| subject.mass(m));
        let paint = match p.paint_m2 {
            none if none <= 0.0 => "–".to_string(),
            m2 if subject.us() => format!("{} ft²", subject.number(m2 / M2_PER_FT2, 1)),
            m2 => format!("{} m²", subject.number(m2, 2)),
        };
        t.row([
            p.item.to_string(),
            p.quantity.to_string(),
            subject.said(&p.name),
            subject.say(p.kind.word()),
            subject.said(&p.material),
            subject.said(&p.dimension),
            mass(p.mass_kg),
            mass(p.total_kg()),
            paint,
            subject.say(p.hand.word()),
            subject.said(&p.remarks),
        ]);
    }
    t
}
