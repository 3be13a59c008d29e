//! Welded parts: each weldment from as many sides as its seams need, each seam with its sign and its number in the list.
//!
//! In: the bodies, the weld list and where the bodies touch. Out: views and the list. Parts that some seam joins to each
//! other, directly or by way of others, are one weldment; what is bolted on is left out.

use super::Subject;
use super::parts_list;
use super::views::bodies::{BOLT_HOLES, Picture, Piece, Show};
use super::views::signs::{self, Stretch};
use crate::lists;
use crate::model::frame::ModelPoint;
use crate::paper::mark::PlanePoint;
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, ViewScale};
use crate::parts::Weld;
use crate::say::Statement;
use crate::solid::project::View;
use glam::DVec3;
use std::collections::BTreeSet;

/// A side from which a weldment is seen.
struct Side {
    id: &'static str,
    title: &'static str,
    view: View,
    placement: Placement,
    /// Cut through the middle of the weldment.
    cut: bool,
}

const fn side(id: &'static str, title: &'static str, [right, up, toward]: [DVec3; 3], placement: Placement) -> Side {
    Side { id, title, view: View { right, up, toward }, placement, cut: false }
}

const fn cut(id: &'static str, title: &'static str, view: [DVec3; 3]) -> Side {
    Side { cut: true, ..side(id, title, view, Placement::Free) }
}

/// The sides, in the order in which they are preferred.
const SIDES: [Side; 8] = [
    side("near", "FROM THE NEAR SIDE", [DVec3::X, DVec3::Z, DVec3::Y], Placement::Main),
    side("up", "FROM THE UP SIDE", [DVec3::NEG_Y, DVec3::Z, DVec3::X], Placement::FromRight),
    side("far", "FROM THE FAR SIDE", [DVec3::NEG_X, DVec3::Z, DVec3::NEG_Y], Placement::Free),
    side("down", "FROM THE DOWN SIDE", [DVec3::Y, DVec3::Z, DVec3::NEG_X], Placement::FromLeft),
    side("above", "FROM ABOVE", [DVec3::X, DVec3::NEG_Y, DVec3::Z], Placement::FromAbove),
    side("below", "FROM BELOW", [DVec3::X, DVec3::Y, DVec3::NEG_Z], Placement::FromBelow),
    cut("cut_near", "CUT IN THE BELT'S MIDDLE PLANE", [DVec3::X, DVec3::Z, DVec3::Y]),
    cut("cut_up", "CUT ACROSS AT THE FOOT SHAFT", [DVec3::NEG_Y, DVec3::Z, DVec3::X]),
];

/// A seam that is seen this much longer from another side is shown from there.
const BETTER: f64 = 2.5;

/// Whether anything is welded.
pub fn applies(subject: &Subject<'_>) -> bool {
    !subject.parts.welds.is_empty()
}

/// The sheet.
pub fn plan(subject: &Subject<'_>, mut sheet: SheetPlan) -> SheetPlan {
    sheet.description = subject.say("Welded parts with their seams: each with its sign and its number in the list of welds.");
    sheet.material = subject.spec.casing.material.value.clone();
    sheet.tolerance = subject.tolerance();
    sheet.coarsest_scale = 20.0;
    // Two handy sheets rather than one of the largest.
    sheet.sizes = 3;
    let groups = weldments(subject);
    for (n, group) in groups.iter().enumerate() {
        let alike: Vec<u32> = groups.iter().filter(|other| like(group, other)).flatten().map(|w| w.number).collect();
        // Of weldments alike the first is drawn.
        if groups.iter().take(n).any(|other| like(group, other)) {
            continue;
        }
        for (placement, draft) in views(subject, group, n == 0, &alike) {
            sheet.view(subject.place(placement), subject.face(draft));
        }
    }
    sheet.table(parts_list::printed(subject, &lists::welds(subject.parts)));
    sheet.note(Notes::numbered(
        "notes",
        [
            subject.say("What is bolted on is left out. Signs point at one run of a seam; in how many it is laid and its length stand in the list of welds, equal seams of equal parts together."),
            subject.say("Lengths are those of all beads of a seam together, on both sides of a plate where the list says so."),
            subject.say("Inner seams continuous and dust tight; weld sizes see list of welds."),
        ],
    ));
    sheet
}

/// Whether two weldments have one seam each, and the same.
fn like(one: &[&Weld], other: &[&Weld]) -> bool {
    matches!((one, other), ([a], [b]) if a.what == b.what && a.fillet == b.fillet && (a.size - b.size).abs() < 0.01)
}

/// The welds of each weldment, that with the most first.
fn weldments<'a>(subject: &Subject<'a>) -> Vec<Vec<&'a Weld>> {
    let mut out: Vec<Vec<&Weld>> = Vec::new();
    for weld in &subject.parts.welds {
        let shared = |other: &&Weld| subject.machine.bodies.iter().any(|b| weld.takes(&b.id) && other.takes(&b.id));
        let (with, without): (Vec<_>, Vec<_>) = out.into_iter().partition(|group: &Vec<&Weld>| group.iter().any(shared));
        out = without;
        out.push(with.into_iter().flatten().chain([weld]).collect());
    }
    out.sort_by_key(|group| (std::cmp::Reverse(group.len()), group.iter().map(|w| w.number).min()));
    out
}

/// What weldments are called, by what a seam of theirs belongs to: an id, or the end of one.
const CALLED: [(&str, &str); 14] = [
    ("bottom", "WELDED CASING"),
    ("foot_pulley", "FOOT PULLEY"),
    ("bend_pulley", "BEND PULLEY"),
    ("rod_lug", "SLIDING BEARING PLATE"),
    ("bearing_bracket", "SLIDING BEARING PLATE"),
    ("sliding_plate", "SLIDING BEARING PLATE"),
    ("guide.spacer", "GUIDE SPACER BAR"),
    ("guide.retainer", "GUIDE RETAINING BAR"),
    ("weight_box", "WEIGHT BOX"),
    (".mesh", "MESH GUARD"),
    ("removal.rib", "COVER OF THE REMOVAL PANEL"),
    (".grip", "LEAF WITH GRIP HANDLE"),
    ("transition.up", "UP-SIDE TRANSITION"),
    ("transition.down", "DOWN-SIDE TRANSITION"),
];

/// The title of a weldment; one without a name of its own has that of the first of its parts in the list.
fn called(subject: &Subject<'_>, group: &[&Weld]) -> Statement {
    let first = || subject.machine.bodies.iter().find(|b| group.iter().any(|w| w.takes(&b.id)));
    let own =
        CALLED.iter().find(|(of, _)| group.iter().any(|w| w.of == *of || of.starts_with('.') && w.of.ends_with(of))).map(|(_, title)| Statement::from(*title));
    own.or_else(|| first().map(|b| Statement::named(subject.said(&b.name).to_uppercase()))).unwrap_or_default()
}

/// As few views as show every seam of a weldment.
fn views(subject: &Subject<'_>, group: &[&Weld], largest: bool, alike: &[u32]) -> Vec<(Placement, Draft)> {
    let taken = |p: &Piece<'_>| group.iter().any(|w| w.takes(&p.body.id));
    let all = Picture::toward(subject.machine, SIDES[0].view);
    // Of one on both sides of the machine that on the near side, so that it is drawn larger; it has a stretch of every seam.
    let apart = !all.pieces().any(|p| taken(&p) && p.low.y < 0.0 && p.high.y > 0.0);
    let near = apart && group.iter().all(|w| w.beads.iter().any(|bead| bead.run.points.iter().all(|p| p.y > 0.0)));
    let of_group = |p: &Piece<'_>| (taken(p) && !(near && p.high.y < 0.0)).then_some(Show::Seen);
    let reach = all.reach(|p| of_group(p).is_some());
    let middle = reach.map_or(DVec3::ZERO, |(low, high)| low.midpoint(high));
    // The casing in the belt's middle plane and at the foot shaft, whatever stands out on one side.
    let middle = if largest { DVec3::new(0.0, 0.0, middle.z) } else { middle };
    let whole = |side: &Side| {
        let picture = Picture::toward(subject.machine, side.view).without_holes(BOLT_HOLES);
        if side.cut { picture.cut_at(middle.x, middle.y, middle.z) } else { picture }
    };
    // Nothing is pointed at through an opening, on the side that looks away.
    let before = |side: &Side, p: DVec3| !(near && p.y < 0.0) && (side.cut || (p - middle).dot(side.view.toward) > -1.0);
    let seen: Vec<Vec<Stretch>> = SIDES.iter().map(|s| signs::shown(&whole(s), of_group, group, |p| before(s, p))).collect();
    let mut drafts: Vec<(Draft, Placement, Vec<Stretch>)> = Vec::new();
    let large: Vec<i64> =
        SIDES.iter().map(|s| reach.map_or(0, |(low, high)| ((high - low).dot(s.view.right) * (high - low).dot(s.view.up)).abs() as i64)).collect();
    for n in chosen(&seen, &large) {
        let (Some(side), Some(stretches)) = (SIDES.get(n), seen.get(n)) else { continue };
        // What is small is cut anywhere that shows its seams.
        let seen_from = if side.cut && !largest { "CUT" } else { side.title };
        let title = Statement::all(vec![called(subject, group), seen_from.into()]);
        let scale = if largest { ViewScale::Main } else { ViewScale::Within { width: 50.0, height: 50.0 } };
        let number = group.iter().map(|w| w.number).min().unwrap_or_default();
        let mut d = Draft::new(format!("weldment.{number}.{}", side.id), title).at_scale(scale);
        let picture = whole(side);
        picture.draw(&mut d, of_group);
        ring_seams(subject, group, &picture, stretches, &mut d);
        drafts.push((d, if largest { side.placement } else { Placement::Free }, stretches.clone()));
    }
    let mut without: BTreeSet<u32> = group.iter().map(|w| w.number).collect();
    let mut views: Vec<(&mut Draft, Vec<Stretch>)> = drafts.iter_mut().map(|(d, _, s)| (d, std::mem::take(s))).collect();
    signs::place(subject, &mut views, &mut without, alike);
    drafts.into_iter().map(|(d, placement, _)| (placement, d)).collect()
}

/// The lines of butt seams that close a part of one piece, a rolled rim, on itself: its body has no edge there.
fn ring_seams(subject: &Subject<'_>, group: &[&Weld], picture: &Picture<'_>, shown: &[Stretch], d: &mut Draft) {
    let flat = |p: &DVec3| picture.point(ModelPoint::new(p.x, p.y, p.z));
    for weld in group.iter().filter(|w| !w.fillet) {
        let pieces: usize = subject.machine.bodies.iter().filter(|b| weld.takes(&b.id)).map(|b| b.places.len()).sum();
        let Some(stretch) = shown.iter().find(|s| s.number == weld.number && pieces == 1) else { continue };
        let ends = weld.beads.iter().filter_map(|bead| bead.run.points.first().map(flat).zip(bead.run.points.last().map(flat)));
        let off = |(a, b): &(PlanePoint, PlanePoint)| (f64::midpoint(a.x, b.x) - stretch.at.x).hypot(f64::midpoint(a.y, b.y) - stretch.at.y);
        if let Some((from, to)) = ends.min_by(|a, b| off(a).total_cmp(&off(b))) {
            d.line(Pen::Edge, from, to);
        }
    }
}

/// The sides that are drawn: always the one that shows most seams that no other chosen one shows well; of several the one in
/// which the weldment is largest.
fn chosen(seen: &[Vec<Stretch>], large: &[i64]) -> Vec<usize> {
    let best = |number: u32| seen.iter().flatten().filter(|s| s.number == number).map(Stretch::worth).fold(0.0, f64::max);
    let well = |s: &&Stretch| s.worth() * BETTER >= best(s.number);
    let mut left: BTreeSet<u32> = seen.iter().flatten().map(|s| s.number).collect();
    let mut out = Vec::new();
    while !left.is_empty() {
        let gain = |side: &Vec<Stretch>| side.iter().filter(well).filter(|s| left.contains(&s.number)).count();
        let Some((n, side)) = seen.iter().enumerate().rev().max_by_key(|(n, side)| (gain(side), large.get(*n))) else { break };
        side.iter().filter(well).for_each(|s| {
            left.remove(&s.number);
        });
        out.push(n);
    }
    out.sort_unstable();
    out
}
