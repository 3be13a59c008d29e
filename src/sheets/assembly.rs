//! The assembled casing from outside, side by side: what is welded and bolted on, and where.
//!
//! Drawn from the bodies without shaft, pulleys and what the take-up moves. Every piece has its item number beside it and
//! a row in the table of its wall; the outlines and axes are those that are scribed on the plates.

use super::Subject;
use super::places::{self, Place, on_casing, view};
use super::views::Look;
use super::views::bodies::{BOLT_HOLES, Picture, Show};
use super::views::seen::{self, Seen};
use crate::paper::mark::Align;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::table::{Stand, Table};
use crate::paper::view::{Draft, Side};
use crate::parts::Kind;
use crate::say;
use crate::say::{Statement, amount, mm, name};
use crate::spec::openings::Wall;
use crate::tables::cautions;
use crate::units::Unit;
use std::collections::BTreeSet;

/// A wall with the title of its view, the id of its view and the title of its table.
const WALLS: [(Wall, &str, &str, &str); 4] = [
    (Wall::Near, "NEAR SIDE, FROM OUTSIDE", "near_side", "PLACES, NEAR SIDE"),
    (Wall::UpEnd, "UP END, FROM OUTSIDE", "up_end", "PLACES, UP END"),
    (Wall::DownEnd, "DOWN END, FROM OUTSIDE", "down_end", "PLACES, DOWN END"),
    (Wall::Far, "FAR SIDE, FROM OUTSIDE", "far_side", "PLACES, FAR SIDE"),
];

/// Letter of the view of the far side.
const FROM_FAR: &str = "Q";

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("The assembled casing from outside: where each part is welded or bolted on.");
    sheet.coarsest_scale = if subject.foot.casing.top < 3000.0 { 10.0 } else { 20.0 };
    sheet.material = subject.spec.casing.material.value.clone();
    sheet.finish = subject.spec.casing.finish.value.clone();
    sheet.tolerance = subject.tolerance();
    let mass = mass(subject);
    sheet.mass_kg = Some(mass);
    let places = places::places(subject);
    let of_wall = |wall: Wall| -> Vec<&Place> { places.iter().filter(|p| p.wall == wall).collect() };
    let titled = |(wall, title, id, _): &(Wall, &'static str, &str, &str)| match wall {
        // The back has no place in projection beside the front.
        Wall::Far => Draft::new(*id, Statement::all(vec![say!("VIEW {letter}", letter = name(FROM_FAR)), (*title).into()])),
        _ => Draft::new(*id, *title),
    };
    let mut views: Vec<(Draft, Vec<Seen>)> = WALLS.iter().map(|wall| drawn(subject, titled(wall), wall.0, &of_wall(wall.0))).collect();
    let mut shell: BTreeSet<u32> = subject.parts.items.iter().filter(|p| places::is_shell(&p.id)).map(|p| p.item).collect();
    let mut shown: Vec<(&mut Draft, Vec<Seen>)> = views.iter_mut().map(|(d, seen)| (d, std::mem::take(seen))).collect();
    seen::balloons(&mut shown, &mut shell, 0.0);
    for ((wall, _, id, heading), (mut d, _)) in WALLS.into_iter().zip(views) {
        let own = of_wall(wall);
        match wall {
            Wall::Near => {
                near(subject, &mut d);
                sheet.view(Placement::Main, subject.face(d));
            }
            Wall::UpEnd => {
                up_end(subject, &mut d);
                sheet.view(subject.place(Placement::FromRight), subject.face(d));
            }
            Wall::DownEnd => sheet.view(subject.place(Placement::FromLeft), subject.face(d)),
            Wall::Far => sheet.view(Placement::Free, subject.face(d)),
        }
        if !own.is_empty() {
            sheet.table(table(subject, id, heading, &own));
        }
    }
    sheet.note(notes(subject, mass));
    sheet
}

/// Mass of what is shown, kg; bolts and what only its maker knows are left out.
fn mass(subject: &Subject<'_>) -> f64 {
    let picture = Picture::new(subject.machine, Look::Elevation);
    picture.pieces().filter(on_casing).filter_map(|p| subject.parts.part(&p.body.id).filter(|part| part.kind != Kind::Bought)?.mass_kg).sum()
}

/// The casing on one wall, its datum lines, and the item numbers of what stands there; what is seen of each item.
fn drawn(subject: &Subject<'_>, mut d: Draft, wall: Wall, own: &[&Place]) -> (Draft, Vec<Seen>) {
    let foot = subject.foot;
    let picture = Picture::toward(subject.machine, view(wall)).without_holes(BOLT_HOLES);
    let seen = picture.draw_seen(&mut d, |p| on_casing(p).then_some(Show::Seen));
    picture.axes(&mut d, |p| p.of("bend_bearing") && p.axis().dot(view(wall).toward) > 0.999);
    let Some((low, high)) = picture.reach(on_casing) else { return (d, seen) };
    let right = view(wall).right;
    let (a, b) = (low.dot(right), high.dot(right));
    d.line(Pen::FineEdge, (a.min(b), 0.0), (a.max(b), 0.0));
    d.centre_line((0.0, 0.0), (0.0, high.z));
    if matches!(wall, Wall::Near | Wall::Far) {
        for z in [foot.shaft_lowest, foot.shaft_highest] {
            d.centre_cross((0.0, z), foot.rotating.slot_width / 2.0);
        }
    }
    let mut pointed = BTreeSet::new();
    for place in own {
        match place.items.first() {
            // Bars alike are pointed at once.
            Some(item) if place.is_slender() && pointed.insert(*item) => d.leader(place.mark, item.to_string(), None),
            Some(_) if place.is_slender() => {}
            Some(item) => d.tag(place.mark, 0.0, item.to_string()),
            None => {}
        }
    }
    (d, seen)
}

/// Outline, base and shaft of the near side.
fn near(subject: &Subject<'_>, d: &mut Draft) {
    let foot = subject.foot;
    let look = Look::Elevation;
    look.chain(d, foot, Side::Left, "shaft", &["foot.shaft.lowest", "take_up.travel"]);
    if let Some(height) = look.dimension(d, foot, Side::Left, "casing.height") {
        height.overall();
    }
    let c = &foot.casing;
    // A rolled bottom is lowest under the shaft.
    let under = if c.bottom_radius.is_some() { 0.0 } else { c.up_face };
    let underside = c.bottom_face - c.bottom_plate;
    d.dimension(Side::Right, "casing.feet", (under, 0.0), (under, underside)).chain("base");
    d.dimension(Side::Right, "casing.bottom_plate", (under, underside), (under, c.bottom_face)).chain("base");
    let picture = Picture::new(subject.machine, look);
    if let Some((low, high)) = picture.reach(|p| p.of("side_plate.near")) {
        d.dimension(Side::Below, "assembly.down_edge", (low.x, c.top), (0.0, low.z)).chain("axis");
        d.dimension(Side::Below, "assembly.up_edge", (0.0, low.z), (high.x, low.z)).chain("axis");
        d.dimension(Side::Below, "assembly.length", (low.x, c.top), (high.x, low.z)).overall().reference();
    }
    d.leader((0.0, foot.shaft_lowest), subject.say("foot shaft axis, take-up lowest"), Side::Right);
    d.leader((foot.casing.up_face, 0.0), subject.say("underside of the base"), Side::Right);
}

/// Widths over the side plates, from the belt's middle plane.
fn up_end(subject: &Subject<'_>, d: &mut Draft) {
    let picture = Picture::new(subject.machine, Look::FromUp);
    let Some((low, high)) = picture.reach(|p| p.of("side_plate")) else { return };
    d.dimension(Side::Below, "assembly.near_edge", (-high.y, low.z), (0.0, low.z)).chain("axis");
    d.dimension(Side::Below, "assembly.far_edge", (0.0, low.z), (-low.y, low.z)).chain("axis");
    d.dimension(Side::Below, "assembly.width", (-high.y, low.z), (-low.y, low.z)).overall().reference();
    d.leader((0.0, high.z * 0.9), subject.say("belt's middle plane"), Side::Right);
    // The far side is on the right.
    d.view_arrow(FROM_FAR, (-low.y, high.z * 0.55), Side::Right);
}

/// Edges of everything on a wall.
fn table(subject: &Subject<'_>, id: &str, heading: &'static str, own: &[&Place]) -> Table {
    let mut t = Table::new(format!("places-{id}"), heading)
        .column("Item", Align::Left, 26.0)
        .column("Part", Align::Left, 58.0)
        .column("Left edge", Align::Right, 34.0)
        .column("Right edge", Align::Right, 34.0)
        .column("Lower edge", Align::Right, 34.0)
        .column("Upper edge", Align::Right, 34.0)
        .column("Held by", Align::Left, 26.0);
    for p in own {
        let [left, right, low, high] = [p.across[0], p.across[1], p.up[0], p.up[1]].map(|v| subject.mm(v));
        t.row([
            places::items(&p.items),
            subject.said(&p.name),
            left,
            right,
            low,
            high,
            subject.say(match (p.welded, p.items.len()) {
                (false, _) if p.bolted => "bolts",
                (false, _) => "adhesive",
                (true, 1) => "weld",
                // A frame is welded, what closes it is bolted on.
                (true, _) => "weld, bolts",
            }),
        ]);
    }
    t
}

/// How it hangs on its lugs, if it has any.
fn hung(subject: &Subject<'_>) -> Option<Statement> {
    let (lifting, lugs) = (&subject.results.lifting, subject.results.lifting.lugs.as_ref()?);
    let item = subject.parts.part("lifting_lug")?.item;
    let up = |least: f64| mm(subject.spec.stock().step_up_mm(least, 10.0));
    let x = lifting.lifted.x_mm;
    Some(say!(
        "Lifting points: {number} lugs, item {item}, for bow shackles of {limit} working load limit. On the hook {mass} with its bearings, without belt, product and loose weights; centre of gravity {centre} from the foot shaft axis toward the {side}. Slings at least {angle} to the horizontal: hook over the centre of gravity, {hook} or more above the eyes; legs then {legs_up} from the up side, {legs_down} from the down side. Two legs carry all.",
        number = name(lugs.number),
        item = name(item),
        limit = amount(lugs.lug.shackle.limit_kg, Unit::Kg, 0),
        mass = name(subject.mass(lifting.lifted.kg)),
        centre = mm(x.abs().round()),
        side = if x >= 0.0 { "up side" } else { "down side" },
        angle = amount(subject.spec.lifting.angle.value(), Unit::Degree, 0),
        hook = up(lugs.hook_mm),
        legs_up = up(lugs.legs_mm[0]),
        legs_down = up(lugs.legs_mm[1])
    ))
}

fn notes(subject: &Subject<'_>, mass: f64) -> Notes {
    let mut all = vec![
        subject.say("Left and right edges from the foot shaft axis, on the ends from the belt's middle plane, + to the right as drawn; lower and upper edges above the underside of the base, upright also on inclined plates."),
        subject.say("Edges are those of the face that is set on the wall, a plate that slopes touches it along one edge; of a part that touches no wall, those of the whole part. The item number stands at the middle of the upper edge, of a slender or inclined part at its middle."),
        subject.say("Outlines, item by item, and both axes are scribed on the outer faces of the plates; where a line is missing the table holds."),
        subject.say(say!("General tolerances {tolerance}.", tolerance = name(subject.tolerance()))),
        subject.say("Shafts, pulleys, foot bearings and sliding plates are not shown."),
    ];
    let lifting = cautions::applying(false).into_iter().find(|c| c.text.starts_with("LIFTING"));
    all.extend(lifting.map(|c| subject.say(c.text)));
    all.push(subject.say(say!("Mass of what is shown {mass}, without bolts and bought parts.", mass = name(subject.mass(mass)))));
    all.extend(hung(subject).map(|said| subject.say(said)));
    let mut notes = Notes::numbered("notes", all);
    notes.width = 140.0;
    notes.stand = Stand::OverTitleBlock;
    notes
}
