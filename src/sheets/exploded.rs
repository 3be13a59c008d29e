//! Exploded views: the parts of each assembly moved apart in the way in which they come off, with their item numbers.
//!
//! In: the bodies. Out: a picture of each assembly, two of the casing with its openings from both corners, one of each pulley
//! with its shaft; every item of the parts list has its balloon in one of them. Bolts are left out.

use super::Subject;
use super::views::apart::{self, InRow, Step, Way};
use super::views::bodies::{BOLT_HOLES, Picture, Piece, Show};
use super::views::isometric::{RISE, seen_from};
use super::views::seen::{self, Seen};
use crate::machine::Material;
use crate::model::frame::ModelPoint;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::view::{Draft, Item, ViewScale};
use glam::DVec3;
use std::collections::BTreeSet;

const fn step(family: &'static str, along: f64, across: f64, up: f64) -> Step {
    Step { family, way: Way::Steps(along, across, up) }
}
const fn off(family: &'static str, steps: f64) -> Step {
    Step { family, way: Way::Off(steps) }
}

/// The welded casing with its feet.
const CASING: &[Step] = &[
    step("side_plate", 0.0, 5.0, 0.0),
    step("end_plate", 4.0, 0.0, 0.0),
    step("bottom", 0.0, 0.0, -3.0),
    step("top_cover", 0.0, 0.0, 1.5),
    step("top_flange.strip", 0.0, 0.0, 4.0),
    step("top_flange", 0.0, 0.0, 3.0),
    step("stiffener", 0.0, 6.0, 0.0),
    step("lifting_lug", 0.0, 7.0, 2.0),
    step("bend_support", 0.0, 6.0, 0.0),
    step("foot.leg", 0.0, 6.0, 0.0),
    step("foot.gusset", 0.0, 7.0, 0.0),
    step("foot.pad", 0.0, 6.5, -1.0),
    step("foot.anchor", 0.0, 6.5, -2.0),
    step("earthing_boss", 0.0, 6.5, 0.0),
    step("nameplate", 0.0, 5.5, 0.0),
];

/// What closes the openings: along the walls' own way outward.
const OPENINGS: &[Step] =
    &[off(".frame", 1.0), off(".mesh_frame", 2.2), off(".mesh", 3.0), off(".gasket", 3.7), off(".leaf", 4.5), off(".grip", 5.3), off(".rib", 5.3)];

/// An inlet: throat and transition.
const INLET: &[Step] = &[
    step(".inner_flange", 1.0, 0.0, 0.0),
    step(".outer_flange", 4.0, 0.0, 0.0),
    step(".strip", 2.5, 0.0, 0.0),
    step(".flange", 1.5, 0.0, 0.0),
    step(".cheek", 0.0, 1.5, 0.0),
    step(".roof", 0.0, 0.0, 1.0),
    step(".floor", 0.0, 0.0, -1.0),
];

/// The shovel pocket.
const POCKET: &[Step] = &[
    step("pocket.floor", 0.0, 0.0, -1.5),
    step("pocket.cheek", 1.5, 0.0, 0.0),
    step("pocket.frame", 0.0, 0.0, 1.5),
    step("pocket.gasket", 0.0, 0.0, 2.3),
    step("pocket.lid", 0.0, 0.0, 3.1),
    step("pocket.grip", 0.0, 0.0, 4.0),
];

/// The box that loads a gravity take-up.
const WEIGHT_BOX: &[Step] = &[
    step("weight_box.bar", 0.0, -3.0, 0.0),
    step("weight_box.web", 0.5, -1.5, 0.0),
    step("weight", 0.0, 0.0, 2.0),
    step("weight_box.back", 0.0, 1.2, 0.0),
    step("weight_box.bottom", 0.0, 0.0, -1.5),
    step("weight_box.end", 1.5, 0.0, 0.0),
    step("weight_box.front", 0.0, 1.5, 0.0),
];

/// Bearings and take-up, with what guides and loads them.
const TAKE_UP: &[Step] = &[
    step("guide.spacer", 0.0, 0.0, 0.0),
    step("sliding_plate", 0.0, 1.5, 0.0),
    step("guide.retainer", 0.0, 3.0, 0.0),
    step("shaft_felt", 0.0, 3.5, 0.0),
    step("rod_lug", 0.0, 3.0, 0.0),
    step("bearing_bracket", 0.0, 3.0, 0.0),
    step("bearing", 0.0, 4.5, 0.0),
    step("bracket.shelf", 0.0, 1.5, 1.5),
    step("bracket.gusset", 0.0, 1.5, 0.8),
    step("take_up.rod", 0.0, 3.0, 3.0),
    step("take_up.nut", 0.0, 3.0, 3.0),
    step("take_up.buffer", 0.0, 1.5, 2.0),
    step("take_up.disc", 0.0, 1.5, 2.5),
];

const fn row(families: &'static [&'static str], near: Option<bool>) -> InRow {
    InRow { families, near, lifted: 0.0 }
}

/// The foot pulley and what turns with it, from the far side on.
const FOOT_PULLEY: &[InRow] = &[
    row(&["collar"], Some(false)),
    row(&["foot_pulley.hub"], Some(false)),
    row(&["foot_pulley.disc"], Some(false)),
    row(&["foot_pulley.rim", "foot_pulley.wing", "foot_pulley.core"], None),
    row(&["foot_pulley.disc"], Some(true)),
    row(&["foot_pulley.hub"], Some(true)),
    row(&["collar"], Some(true)),
    row(&["shaft"], None),
    InRow { families: &["key"], near: None, lifted: 1.0 },
];

/// The bend pulley and its shaft.
const BEND_PULLEY: &[InRow] = &[
    row(&["bend_bearing"], Some(false)),
    row(&["bend_collar"], Some(false)),
    row(&["bend_pulley.hub"], Some(false)),
    row(&["bend_pulley.disc"], Some(false)),
    row(&["bend_pulley.rim"], None),
    row(&["bend_pulley.disc"], Some(true)),
    row(&["bend_pulley.hub"], Some(true)),
    row(&["bend_collar"], Some(true)),
    row(&["bend_bearing"], Some(true)),
    row(&["bend_shaft"], None),
    InRow { families: &["bend_key"], near: None, lifted: 1.0 },
];

/// Parts of one picture that are moved apart.
struct Assembly {
    id: &'static str,
    title: &'static str,
    /// Whose steps are taken first; what is of none of them stays, or is none of the picture.
    steps: &'static [Step],
    /// Beginnings of the ids that belong to it; empty for all that belong to no other assembly.
    families: &'static [&'static str],
    /// Moved outward from its own middle rather than from that of the machine.
    own_middle: bool,
    /// Turn and rise of the viewer, degrees.
    from: (f64, f64),
    /// Largest width and height, paper mm.
    size: (f64, f64),
    /// Of what is alike on both sides only the near one is shown.
    near_alone: bool,
}

const fn assembly(id: &'static str, title: &'static str, steps: &'static [Step], families: &'static [&'static str]) -> Assembly {
    Assembly { id, title, steps, families, own_middle: true, from: (45.0, RISE), size: (110.0, 110.0), near_alone: false }
}

/// The assemblies, in the order in which they are put together; an item is of the first one that takes its id.
const ASSEMBLIES: &[Assembly] = &[
    Assembly {
        own_middle: false,
        size: (190.0, 190.0),
        ..assembly(
            "casing",
            "CASING AND FEET",
            CASING,
            &["side_plate", "end_plate", "bottom", "top_cover", "top_flange", "stiffener", "lifting_lug", "bend_support", "foot", "earthing_boss", "nameplate"],
        )
    },
    // From steeply above: floors slope as an isometric viewer looks.
    Assembly { from: (60.0, 48.0), ..assembly("inlet_up", "UP-SIDE INLET", INLET, &["throat.up", "transition.up"]) },
    Assembly { from: (120.0, 48.0), ..assembly("inlet_down", "DOWN-SIDE INLET", INLET, &["throat.down", "transition.down"]) },
    Assembly { from: (30.0, 48.0), size: (80.0, 80.0), ..assembly("pocket", "SHOVEL POCKET", POCKET, &["pocket"]) },
    Assembly {
        own_middle: false,
        size: (110.0, 170.0),
        near_alone: true,
        ..assembly(
            "take_up",
            "BEARING AND TAKE-UP, NEAR SIDE",
            TAKE_UP,
            &["guide", "sliding_plate", "shaft_felt", "rod_lug", "bearing_bracket", "bearing", "bracket", "take_up"],
        )
    },
    Assembly { near_alone: true, ..assembly("weight_box", "WEIGHT BOX, NEAR SIDE", WEIGHT_BOX, &["weight_box", "weight"]) },
];

/// Pulleys with their shafts: id, title, order along the shaft.
const SHAFTS: [(&str, &str, &[InRow]); 2] = [("foot_pulley", "FOOT PULLEY AND SHAFT", FOOT_PULLEY), ("bend_pulley", "BEND PULLEY AND SHAFT", BEND_PULLEY)];

/// A part of the far side alone stands so many steps farther out than its fellow, clear of all that comes off with that one.
const BESIDE: f64 = 4.0;

/// What is in no other picture, off the closed casing.
const REST: Assembly = Assembly { own_middle: false, size: (190.0, 190.0), ..assembly("openings", "DOORS AND OPENINGS, FROM NEAR AND UP SIDE", OPENINGS, &[]) };
const REST_BEHIND: Assembly = Assembly { id: "openings_behind", title: "DOORS AND OPENINGS, FROM FAR AND DOWN SIDE", from: (225.0, RISE), ..REST };

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("The parts of each assembly, moved apart in the way in which they come off, with their item numbers.");
    let mut drawn: Vec<(Draft, Vec<Seen>)> = ASSEMBLIES.iter().filter_map(|a| taken_apart(subject, a)).collect();
    let mut openings: Vec<(Draft, Vec<Seen>)> = [&REST, &REST_BEHIND].into_iter().filter_map(|a| taken_apart(subject, a)).collect();
    together(subject, &mut openings);
    drawn.extend(openings);
    drawn.extend(SHAFTS.iter().filter_map(|(id, title, order)| along_shaft(subject, id, title, order)));
    let mut without: BTreeSet<u32> = subject.parts.items.iter().map(|p| p.item).collect();
    let mut views: Vec<(&mut Draft, Vec<Seen>)> = drawn.iter_mut().map(|(draft, seen)| (draft, std::mem::take(seen))).collect();
    seen::balloons(&mut views, &mut without, 0.0);
    for (draft, _) in drawn.into_iter().filter(|(d, _)| d.items.iter().any(|i| matches!(i, Item::Balloon { .. }))) {
        sheet.view(Placement::Free, subject.face(draft));
    }
    sheet.note(Notes::numbered(
        "notes",
        [
            subject.say("Parts are moved apart in the way in which they come off. Bolts and nuts are left out: see the lists."),
            subject.say("Of parts alike on both sides one side is shown, with those of the other side that have a number of their own. Equal parts have one balloon; their count stands in the parts list."),
            subject.say("Pictures without scale."),
        ],
    ));
    sheet
}

impl Assembly {
    /// Whether an id is named by this assembly.
    fn names(&self, id: &str) -> bool {
        self.families.iter().any(|f| apart::is_of(id, f))
    }

    /// Whether an id belongs to it.
    fn takes(&self, id: &str) -> bool {
        let turns = |id: &str| SHAFTS.iter().any(|(_, _, order)| order.iter().any(|r| r.families.iter().any(|f| apart::is_of(id, f))));
        if self.families.is_empty() { !turns(id) && !ASSEMBLIES.iter().any(|a| a.names(id)) } else { self.names(id) }
    }

    /// How far a part is moved that stands at a point with its thickness along an axis, in steps of this many mm.
    fn shift(&self, id: &str, at: DVec3, axis: DVec3, middle: DVec3, step: f64) -> DVec3 {
        apart::way_of(id, self.steps).unwrap_or(Way::Off(2.0)).shift(at, axis, middle, step)
    }
}

/// Leaves the parts of an opening to the picture that shows most of them together, as far as it shows them.
fn together(subject: &Subject<'_>, pictures: &mut [(Draft, Vec<Seen>)]) {
    let of = |item: u32| subject.parts.items.iter().find(|p| p.item == item).and_then(|p| p.id.rsplit_once('.')).map(|(opening, _)| opening);
    let worth = |seen: &[Seen], opening: &str| seen.iter().filter(|s| of(s.item) == Some(opening)).map(|s| s.worth).sum::<f64>();
    let all: Vec<Vec<Seen>> = pictures.iter().map(|(_, seen)| seen.clone()).collect();
    for (n, (_, seen)) in pictures.iter_mut().enumerate() {
        seen.retain(|s| {
            let Some(opening) = of(s.item) else { return true };
            let here = all.get(n).map_or(0.0, |own| worth(own, opening));
            !all.iter().any(|other| worth(other, opening) > here && other.iter().any(|o| o.item == s.item && o.worth > 0.0))
        });
    }
}

/// The middle of the casing.
fn middle(subject: &Subject<'_>) -> DVec3 {
    let c = &subject.foot.casing;
    DVec3::new((c.up_face + c.down_outermost()) / 2.0, 0.0, c.top / 2.0)
}

/// The picture of an assembly; none where the machine has none.
fn taken_apart(subject: &Subject<'_>, a: &Assembly) -> Option<(Draft, Vec<Seen>)> {
    let mut d = Draft::new(a.id, a.title).at_scale(ViewScale::Picture { width: a.size.0, height: a.size.1 });
    let whole = Picture::toward(subject.machine, seen_from(a.from.0, a.from.1)).without_holes(BOLT_HOLES).fine();
    let listed = |p: &Piece<'_>| p.body.item.is_some() && a.takes(&p.body.id);
    let all: Vec<Piece<'_>> = whole.pieces().collect();
    let (low, high) = whole.reach(|p| listed(p) && !(a.near_alone && p.high.y < 0.0))?;
    let casing = a.families.is_empty();
    // What stands alone is moved by its own size, what sits on the casing by that of the casing.
    let (middle, size) = if a.own_middle { (low.midpoint(high), high - low) } else { (middle(subject), DVec3::splat(subject.foot.casing.top)) };
    let step = if a.own_middle { size.max_element() / 5.0 } else { size.x / 14.0 };
    // Of two sides alike the near one is shown; a part that is only on the far side stands beside the near ones.
    let far = |p: &Piece<'_>| a.near_alone && p.high.y < 0.0;
    let alone = |p: &Piece<'_>| !all.iter().any(|other| other.index == p.index && other.high.y > 0.0);
    // What closes an opening comes off as its leaf does.
    let leaf = |p: &Piece<'_>| p.body.id.rsplit_once('.').and_then(|(o, _)| all.iter().find(|q| q.body.id.strip_prefix(o) == Some(".leaf")));
    let moves = apart::moved(subject.machine, all.iter().copied().filter(listed), |p| {
        let at = p.low.midpoint(p.high);
        let near = if far(p) && alone(p) { DVec3::new(0.0, BESIDE * step - 2.0 * at.y, 0.0) } else { DVec3::ZERO };
        near + a.shift(&p.body.id, at + near, leaf(p).map_or(p.axis(), |l| l.axis()), middle, step)
    });
    let picture = whole.apart(&moves);
    let around = |p: &Piece<'_>| casing && p.body.item.is_some() && ASSEMBLIES.first().is_some_and(|c| c.names(&p.body.id));
    let shown = |p: &Piece<'_>| {
        let hidden = a.near_alone && all.iter().any(|o| o.index == p.index && o.place == p.place && far(o) && !alone(o));
        (listed(p) && !hidden || around(p)).then_some(Show::Seen)
    };
    let items = picture.draw_seen(&mut d, shown);
    for p in picture.pieces().filter(|p| listed(p) && all.iter().any(|o| o.index == p.index && o.place == p.place && far(o) && alone(o))) {
        let [low, high] = [p.low, p.high];
        d.leader(picture.point(ModelPoint::new(low.x, high.y, low.z)), subject.say("of the far side"), None);
    }
    let own = |item: u32| subject.parts.items.iter().any(|p| p.item == item && a.takes(&p.id));
    let seen: Vec<Seen> = items.into_iter().filter(|s| own(s.item)).collect();
    Some((d, seen))
}

/// A pulley and its shaft, lined up along their axis.
fn along_shaft(subject: &Subject<'_>, id: &'static str, title: &'static str, order: &[InRow]) -> Option<(Draft, Vec<Seen>)> {
    let mut d = Draft::new(id, title).at_scale(ViewScale::Picture { width: 190.0, height: 90.0 });
    let whole = Picture::toward(subject.machine, seen_from(28.0, 20.0)).fine();
    let of_row = |p: &Piece<'_>| p.body.material != Material::Fastener && order.iter().any(|r| r.families.iter().any(|f| apart::is_of(&p.body.id, f)));
    let pieces: Vec<Piece<'_>> = whole.pieces().filter(of_row).collect();
    let axis = pieces.iter().find(|p| p.of("shaft") || p.of("bend_shaft")).map(|p| p.low.midpoint(p.high))?;
    let moves = apart::in_row(subject.machine, &pieces, order, 0.3 * subject.foot.rotating.shaft_diameter + 60.0);
    let picture = whole.apart(&moves);
    let seen = picture.draw_seen(&mut d, |p| of_row(p).then_some(Show::Seen));
    if let Some((low, high)) = picture.reach(of_row) {
        let at = |y: f64| picture.point(ModelPoint::new(axis.x, y, axis.z));
        d.centre_line(at(low.y), at(high.y));
    }
    Some((d, seen))
}
