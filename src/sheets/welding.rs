//! Welded parts: each weldment from as many sides as its seams need, each seam with its sign and its number in the list.
//!
//! In: the bodies, the weld list and where the bodies touch. Out: views and the list. Parts that some seam joins to each
//! other, directly or by way of others, are one weldment; what is bolted on is left out.

use super::Subject;
use super::parts_list;
use super::views::bodies::{BOLT_HOLES, Picture, Piece, Show};
use super::views::signs::{self, Stretch};
use crate::lists;
use crate::machine::seams::{self, Seam};
use crate::paper::notes::Notes;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::view::{Draft, ViewScale};
use crate::parts::{Weld, piece_of, pieces};
use crate::say::Statement;
use crate::solid::project::View;
use glam::DVec3;
use std::collections::BTreeSet;

/// A side from which a weldment is seen.
struct Side {
    id: &'static str,
    title: &'static str,
    view: View,
    /// Cut through the middle of the weldment.
    cut: bool,
}

const fn side(id: &'static str, title: &'static str, right: DVec3, up: DVec3, toward: DVec3, cut: bool) -> Side {
    Side { id, title, view: View { right, up, toward }, cut }
}

/// The sides, in the order in which they are preferred.
const SIDES: [Side; 8] = [
    side("near", "from the near side", DVec3::X, DVec3::Z, DVec3::Y, false),
    side("up", "from the up side", DVec3::NEG_Y, DVec3::Z, DVec3::X, false),
    side("far", "from the far side", DVec3::NEG_X, DVec3::Z, DVec3::NEG_Y, false),
    side("down", "from the down side", DVec3::Y, DVec3::Z, DVec3::NEG_X, false),
    side("above", "from above", DVec3::X, DVec3::NEG_Y, DVec3::Z, false),
    side("below", "from below", DVec3::X, DVec3::Y, DVec3::NEG_Z, false),
    side("cut_near", "cut lengthwise", DVec3::X, DVec3::Z, DVec3::Y, true),
    side("cut_up", "cut across", DVec3::NEG_Y, DVec3::Z, DVec3::X, true),
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
    for (n, group) in weldments(subject).iter().enumerate() {
        for draft in views(subject, group, n == 0) {
            sheet.view(Placement::Free, subject.face(draft));
        }
    }
    sheet.table(parts_list::printed(subject, &lists::welds(subject.parts)));
    sheet.note(Notes::numbered(
        "notes",
        [
            subject.say("What is bolted on is left out. Signs point at one stretch of a seam; its length stands in the list of welds, equal seams of equal parts together."),
            subject.say("Inner seams continuous and dust tight; weld sizes see list of welds."),
        ],
    ));
    sheet
}

/// The welds of each weldment, that with the most first.
fn weldments<'a>(subject: &Subject<'a>) -> Vec<Vec<&'a Weld>> {
    let mut out: Vec<Vec<&Weld>> = Vec::new();
    for weld in &subject.parts.welds {
        let shared = |other: &&Weld| subject.machine.bodies.iter().any(|b| seams::joins(weld, b) && seams::joins(other, b));
        let (with, without): (Vec<_>, Vec<_>) = out.into_iter().partition(|group: &Vec<&Weld>| group.iter().any(shared));
        out = without;
        out.push(with.into_iter().flatten().chain([weld]).collect());
    }
    out.sort_by_key(|group| (std::cmp::Reverse(group.len()), group.iter().map(|w| w.number).min()));
    out
}

/// What a weldment is called: by the first of its parts in the list, all of it the casing when that is a plate of it.
fn called(subject: &Subject<'_>, group: &[&Weld], largest: bool) -> Statement {
    let first = subject.machine.bodies.iter().find(|b| group.iter().any(|w| seams::joins(w, b)));
    if largest { "welded casing".into() } else { first.and_then(|b| pieces(&b.name).first().cloned()).unwrap_or_default() }
}

/// As few views as show every seam of a weldment.
fn views(subject: &Subject<'_>, group: &[&Weld], largest: bool) -> Vec<Draft> {
    let of_group = |p: &Piece<'_>| group.iter().any(|w| seams::joins(w, p.body)).then_some(Show::Seen);
    let runs: Vec<Seam> = subject.seams().iter().filter(|s| group.iter().any(|w| w.number == s.number)).cloned().collect();
    let whole = |side: &Side| {
        let picture = Picture::toward(subject.machine, side.view).without_holes(BOLT_HOLES);
        let middle = picture.reach(|p| of_group(p).is_some()).map_or(DVec3::ZERO, |(low, high)| low.midpoint(high));
        if side.cut { picture.cut_at(middle.x, middle.y, middle.z) } else { picture }
    };
    let seen: Vec<Vec<Stretch>> = SIDES.iter().map(|s| signs::shown(&whole(s), of_group, &runs)).collect();
    let mut drafts: Vec<(Draft, Vec<Stretch>)> = Vec::new();
    for n in chosen(&seen) {
        let (Some(side), Some(stretches)) = (SIDES.get(n), seen.get(n)) else { continue };
        let title = piece_of(&called(subject, group, largest), side.title);
        let scale = if largest { ViewScale::Main } else { ViewScale::Within { width: 120.0, height: 110.0 } };
        let number = group.iter().map(|w| w.number).min().unwrap_or_default();
        let mut d = Draft::new(format!("weldment.{number}.{}", side.id), title).at_scale(scale);
        whole(side).draw(&mut d, of_group);
        drafts.push((d, stretches.clone()));
    }
    let mut without: BTreeSet<u32> = group.iter().map(|w| w.number).collect();
    let mut views: Vec<(&mut Draft, Vec<Stretch>)> = drafts.iter_mut().map(|(d, s)| (d, std::mem::take(s))).collect();
    signs::place(subject, &mut views, &mut without);
    drafts.into_iter().map(|(d, _)| d).collect()
}

/// The sides that are drawn: always the one that shows most seams that no other chosen one shows well.
fn chosen(seen: &[Vec<Stretch>]) -> Vec<usize> {
    let best = |number: u32| seen.iter().flatten().filter(|s| s.number == number).map(|s| s.length).fold(0.0, f64::max);
    let well = |s: &&Stretch| s.length * BETTER >= best(s.number);
    let mut left: BTreeSet<u32> = seen.iter().flatten().map(|s| s.number).collect();
    let mut out = Vec::new();
    while !left.is_empty() {
        let gain = |side: &Vec<Stretch>| side.iter().filter(well).filter(|s| left.contains(&s.number)).count();
        let Some((n, side)) = seen.iter().enumerate().rev().max_by_key(|(_, side)| gain(side)) else { break };
        side.iter().filter(well).for_each(|s| {
            left.remove(&s.number);
        });
        out.push(n);
    }
    out.sort_unstable();
    out
}
