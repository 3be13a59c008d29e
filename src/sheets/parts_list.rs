//! Parts list (ISO 7573) with the lists of fasteners and welds, and where balloons point on the general arrangement.

use super::Subject;
use super::views::{Look, elevation};
use crate::lists;
use crate::model::frame::ModelPoint;
use crate::paper::mark::Align;
use crate::paper::sheet::SheetPlan;
use crate::paper::table::Table;
use crate::paper::view::Draft;
use crate::parts::{Part, centres};
use crate::say;
use crate::say::{Statement, name, size};
use crate::units::MM_PER_INCH;
use std::collections::BTreeSet;

/// Square metres in a square foot.
const M2_PER_FT2: f64 = (12.0 * MM_PER_INCH / 1000.0) * (12.0 * MM_PER_INCH / 1000.0);

/// The sheet with all lists.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("All parts with material, size and mass; fasteners; welds.");
    let (mass, centre) = subject.parts.mass_and_centre();
    sheet.mass_kg = Some(mass);
    sheet.table(table(subject));
    for list in [lists::fasteners(subject.parts), lists::welds(subject.parts)] {
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
        sheet.table(t);
    }
    let mut lifting = crate::paper::notes::Notes::plain(
        "lifting",
        "LIFTING",
        [subject.say(say!("Mass {mass}, centre of gravity x {centre} (from the foot shaft, + toward the up side), y {centre_2} (+ toward the near side), z {centre_3} (above the base); parts whose mass only their maker knows are not counted.", mass = name(subject.mass(mass)), centre = size(centre[0], 1), centre_2 = size(centre[1], 1), centre_3 = size(centre[2], 1)))],
    );
    lifting.width = 140.0;
    sheet.note(lifting);
    sheet
}

/// The parts that have a balloon on a sheet; all others stand on the sheet of the parts list.
pub fn shown(subject: &Subject<'_>, items: &BTreeSet<String>) -> Table {
    let mut t = Table::new("parts", "PARTS LIST (PARTS SHOWN)")
        .column("Item", Align::Right, 12.0)
        .column("Qty", Align::Right, 10.0)
        .column("Part", Align::Left, 70.0)
        .column("Material", Align::Left, 38.0)
        .column("Mass", Align::Right, 24.0);
    for p in subject.parts.items.iter().filter(|p| items.contains(&p.item.to_string())) {
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

/// Parts that get a balloon in the section, by the beginning of their id.
const IN_SECTION: &[&str] = &[
    "end_plate.",
    "bottom",
    "top_cover",
    "throat.up.floor",
    "throat.up.flange",
    "throat.down.floor",
    "throat.down.flange",
    "transition.up.floor",
    "transition.up.outer_flange",
    "transition.down.floor",
    "transition.down.outer_flange",
    "foot_pulley.rim",
    "bend_pulley.rim",
    "clean_out.up.leaf",
    "clean_out.down.leaf",
];
/// Parts that get a balloon in the view from the up side.
const IN_SIDE_VIEW: &[&str] =
    &["foot.pad", "foot.gusset.up", "sliding_plate", "bearing", "bracket.shelf", "take_up.rod", "top_flange.near", "top_flange.far", "pocket.floor", "shaft"];
/// Parts that get a balloon in the plan.
const IN_PLAN: &[&str] = &[
    "side_plate.near",
    "side_plate.far",
    "pocket.lid",
    "top_flange.up",
    "top_flange.down",
    "throat.up.roof",
    "throat.down.roof",
    "transition.up.roof",
    "transition.up.cheek",
    "transition.down.roof",
    "transition.down.cheek",
];

/// The middle of a part's first piece in the model.
fn middle(part: &Part) -> Option<ModelPoint> {
    if let (Some(flat), Some(place)) = (&part.flat, part.placements.first()) {
        let c = flat.centroid();
        let rolled = flat.bends.iter().any(|b| b.rolled);
        return Some(if rolled { place.folded(&flat.bends, part.thickness, c[0], c[1], 0.0) } else { place.point(c[0], c[1], part.thickness / 2.0) });
    }
    centres(part).first().map(|c| ModelPoint::new(c[0], c[1], c[2]))
}

/// Adds the balloons of a view of the general arrangement.
pub fn balloons(subject: &Subject<'_>, d: &mut Draft, look: Look) {
    let foot = subject.foot;
    let wanted = match look {
        Look::Elevation => IN_SECTION,
        Look::FromUp => IN_SIDE_VIEW,
        Look::FromAbove => IN_PLAN,
    };
    let mut seen: Vec<u32> = Vec::new();
    for part in subject.parts.items.iter().filter(|p| wanted.iter().any(|w| p.id == *w || (w.ends_with('.') && p.id.starts_with(w)))) {
        if seen.contains(&part.item) {
            continue;
        }
        seen.push(part.item);
        let Some(mut at) = middle(part) else { continue };
        match part.id.as_str() {
            // Away from openings: near the upper end of the plate.
            "end_plate.up" => at = ModelPoint::elevation(foot.casing.up_face + foot.casing.plate / 2.0, foot.casing.top - 60.0),
            "end_plate.down" => at = ModelPoint::elevation(foot.casing.down_x(foot.casing.top - 60.0) - foot.casing.plate / 2.0, foot.casing.top - 60.0),
            "bottom" => at = ModelPoint::elevation(foot.casing.up_face * 0.5, elevation::bottom_height(foot, foot.casing.up_face * 0.5)),
            "foot_pulley.rim" => {
                at = ModelPoint::elevation(-foot.pulleys.foot.radius() * 0.6 + 3.0, foot.shaft_lowest + foot.pulleys.foot.radius() * 0.8 - 3.0)
            }
            "side_plate.near" => at = ModelPoint::new(0.0, foot.casing.width.high + foot.casing.plate / 2.0, 0.0),
            "side_plate.far" => at = ModelPoint::new(0.0, foot.casing.width.low - foot.casing.plate / 2.0, 0.0),
            "shaft" => at = ModelPoint::new(0.0, foot.rotating.shaft_ends.low + 8.0, foot.shaft_lowest),
            _ => {}
        }
        d.balloon(look.point(at), part.item, None);
    }
}
