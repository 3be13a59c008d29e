//! Turned parts: shafts, take-up rods, pulleys in section, hubs, so that a machine shop can make them from this sheet alone.
//!
//! Drawn from the bodies. Lengths from one datum face; fits, limits, texture and run-out from their tables.

use super::Subject;
use super::views::turned_pulley::{self, Drawn};
use super::views::turned_shaft::{self, Turned, deviations};
use crate::model::pulleys::PulleyBody;
use crate::paper::mark::Align;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::table::Table;
use crate::parts::Part;
use crate::parts::flat::Contour;
use crate::parts::shape::Shape;
use crate::say;
use crate::say::{Statement, name};
use crate::tables::fits::Fit;
use crate::tables::surfaces::Use;
use crate::units::MM_PER_INCH;
use std::collections::BTreeMap;

/// How much smaller a hub's bore is before it is welded in, mm (common practice, no source).
const MACHINED: f64 = 4.0;

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Shafts, take-up rods, pulleys and hubs with their fits, keyways, threads, surfaces and run-out.");
    sheet.tolerance = subject.machined_tolerance();
    sheet.coarsest_scale = 10.0;
    let foot = subject.foot;
    let shafts = [turned(subject, "shaft", "shaft", "D", ["A", "B"]), turned(subject, "bend_shaft", "bend_shaft", "E", ["C", "G"])];
    let mut first = true;
    for t in shafts.into_iter().flatten() {
        let title = if t.key == "shaft" { titled("FOOT SHAFT", t.part) } else { titled("BEND PULLEY SHAFT", t.part) };
        let placement = if first { Placement::Main } else { Placement::Free };
        sheet.view(placement, subject.face(turned_shaft::whole(subject, &t, title)));
        first = false;
        for view in [turned_shaft::keyway(subject, &t), turned_shaft::tapped_end(subject, &t)].into_iter().flatten() {
            sheet.view_with_last(subject.face(view));
        }
    }
    if let Some(rod) = subject.parts.part("take_up.rod").and_then(|p| turned_shaft::rod(subject, p, titled("TAKE-UP ROD", p))) {
        sheet.view(Placement::Free, rod);
    }
    let pulleys = [drawn(subject, "foot_pulley", &foot.pulleys.foot), foot.pulleys.bend.as_ref().and_then(|b| drawn(subject, "bend_pulley", b))];
    for p in pulleys.into_iter().flatten() {
        let (whole, part, hub) = if p.id == "foot_pulley" {
            ("FOOT PULLEY, WELDED", "FOOT PULLEY", "HUB OF THE FOOT PULLEY")
        } else {
            ("BEND PULLEY, WELDED", "BEND PULLEY", "HUB OF THE BEND PULLEY")
        };
        let views = [turned_pulley::end(subject, &p, whole.into()), turned_pulley::section(subject, &p, part)];
        for (i, view) in views.into_iter().flatten().enumerate() {
            let view = subject.face(view);
            if i == 0 { sheet.view(Placement::Free, view) } else { sheet.view_with_last(view) }
        }
        for (i, view) in turned_pulley::hub(subject, &p, titled(hub, p.hub)).into_iter().enumerate() {
            let view = subject.face(view);
            if i == 0 { sheet.view(Placement::Free, view) } else { sheet.view_with_last(view) }
        }
    }
    sheet.table(list(subject));
    let limits = limits(subject);
    if !limits.rows.is_empty() {
        sheet.table(limits);
    }
    sheet.note(notes(subject));
    sheet
}

/// A view's title with the item that it shows.
fn titled(what: &'static str, part: &Part) -> Statement {
    say!("{part}, ITEM {item}", part = what, item = name(part.item))
}

fn turned<'a>(subject: &Subject<'a>, id: &str, key: &'static str, letter: &'static str, datums: [&'static str; 2]) -> Option<Turned<'a>> {
    turned_shaft::of(subject.parts.part(id)?, key, letter, datums)
}

fn drawn<'a>(subject: &Subject<'a>, id: &'static str, body: &PulleyBody) -> Option<Drawn<'a>> {
    let part = |piece: &str| subject.parts.part(&format!("{id}.{piece}"));
    let foot = id == "foot_pulley";
    Some(Drawn {
        id,
        hub: part("hub")?,
        disc: part("disc")?,
        rim: ["rim", "core"].iter().find_map(|piece| subject.parts.items.iter().find(|p| p.id.starts_with(&format!("{id}.{piece}"))))?,
        wing: part("wing"),
        gap: gap(part("disc")?, part("hub")?)?,
        datums: if foot { "A–B" } else { "C–G" },
        plane: if foot { "M" } else { "N" },
        letter: if foot { "F" } else { "H" },
        diameter: body.diameter,
        face: body.face,
    })
}

/// Half of what a disc's opening is wider than its hub, mm.
fn gap(disc: &Part, hub: &Part) -> Option<f64> {
    let (Some(Contour::Circle { diameter: opening, .. }), Some(Shape::Hub { diameter, .. })) =
        (disc.flat.as_ref().and_then(|f| f.openings.first()).map(|o| &o.contour), &hub.shape)
    else {
        return None;
    };
    Some((opening - diameter) / 2.0)
}

/// Whether a part stands on this sheet.
fn shown(part: &Part) -> bool {
    ["shaft", "bend_shaft", "take_up.rod", "key", "bend_key"].contains(&part.id.as_str())
        || ["foot_pulley.", "bend_pulley."].iter().any(|family| part.id.starts_with(family))
}

fn list(subject: &Subject<'_>) -> Table {
    let mut t = Table::new("turned", "TURNED PARTS")
        .column("Item", Align::Right, 12.0)
        .column("Qty", Align::Right, 10.0)
        .column("Part", Align::Left, 46.0)
        .column("Material", Align::Left, 34.0)
        .column("Dimension", Align::Left, 56.0)
        .column("Mass each", Align::Right, 22.0)
        .column("Remarks", Align::Left, 70.0);
    for p in subject.parts.items.iter().filter(|p| shown(p)) {
        let mass = p.mass_kg.map_or_else(|| subject.say("by maker"), |m| subject.mass(m));
        t.row([
            p.item.to_string(),
            p.quantity.to_string(),
            subject.said(&p.name),
            subject.said(&p.material),
            subject.said(&p.dimension),
            mass,
            subject.said(&p.remarks),
        ]);
    }
    t
}

/// Sizes with a class and their deviations; inch sizes carry theirs with them.
fn limits(subject: &Subject<'_>) -> Table {
    let mut sizes: BTreeMap<(i64, Fit), f64> = BTreeMap::new();
    let mut take = |size: f64, fit: Fit| {
        if fit.class().is_some() {
            sizes.insert(((size * 1000.0).round() as i64, fit), size);
        }
    };
    for shape in subject.parts.items.iter().filter_map(|p| p.shape.as_ref()) {
        match shape {
            Shape::Shaft(s) => {
                s.seats.iter().for_each(|seat| take(seat.diameter, s.fit));
                if let Some((way, _)) = s.keyways.filter(|_| !subject.us()) {
                    take(way.width, Fit::KeywayP9);
                }
            }
            Shape::Hub { bore, fit, .. } => take(*bore, *fit),
            _ => {}
        }
    }
    let mut t = Table::new("limits", "LIMITS OF SIZE").column("Basic size", Align::Right, 22.0).column("Class", Align::Left, 14.0).column(
        "Deviations",
        Align::Right,
        36.0,
    );
    for ((_, fit), size) in &sizes {
        if let (Some(class), Some(limits)) = (fit.class(), fit.limits(*size)) {
            t.row([subject.mm(*size), class.to_string(), deviations(subject, limits)]);
        }
    }
    t
}

fn notes(subject: &Subject<'_>) -> Notes {
    let edges = if subject.us() {
        let edge = name(subject.mm(MM_PER_INCH / 64.0));
        say!("Edges not shown: break {edge} at the most, no burrs.", edge = edge)
    } else {
        let [small, large] = [0.2, 0.5].map(|mm| subject.number(mm, 1));
        say!(
            "Edges not shown: outer {outer}, inner {inner} ({standard}).",
            outer = name(format!("−{small}/−{large}")),
            inner = name(format!("+{small}/+{large}")),
            standard = name("ISO 13715")
        )
    };
    let bar = if subject.us() {
        say!("Shafts from turned, ground and polished bar, those without a step of one size from end to end: bearings and hubs are pushed over the ends.")
    } else {
        say!("Shafts from ground bar, those without a step with one fit from end to end: bearings and hubs are pushed over the ends.")
    };
    let mut texts = vec![
        subject.say("Lengths of shafts from the left face. No heat treatment."),
        subject.say(bar),
        subject
            .say("Lengths of seats are those of the inner rings and hubs that sit there. The set screws of the insert bearings hold the shaft along its axis."),
        subject.say(say!("Hubs are welded in with a bore at least {less} smaller than drawn. After welding both are bored to size and their keyways broached in one setting, keyways in line.", less = say::size(MACHINED, 1))),
        subject.say("Run-out of the rim with the pulley on its shaft."),
        subject.say(edges),
        subject.say("Mask seats, bores, keyways and threads when painting."),
    ];
    let written = |of: Use| {
        let (micrometre, microinch) = of.ra();
        if subject.us() { format!("{microinch} µin") } else { format!("Ra {}", subject.number(micrometre, 1)) }
    };
    texts.push(subject.say(say!(
        "Turned surfaces without a sign: {texture}; sides of keyways {sides}.",
        texture = name(written(Use::Turned)),
        sides = name(written(Use::Flank))
    )));
    let mut notes = Notes::numbered("notes", texts);
    notes.width = 130.0;
    notes
}
