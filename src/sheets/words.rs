//! The picture of the words: what the parts of a foot are called, for readers who meet them for the first time. It belongs to no set.
//!
//! In: a subject. Out: one plan with two views from the bodies, a section along the belt and a picture from outside.

use super::Subject;
use super::views::bodies::{BOLT_HOLES, Picture, Show};
use super::views::elevation;
use super::views::isometric::{RISE, seen_from};
use super::views::seen::Seen;
use crate::paper::mark::PlanePoint;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::view::{Draft, Side, ViewScale};
use crate::say::Statement;

/// Id of the sheet and of its views.
pub const SHEET: &str = "words";
/// Id of the section.
const SECTION: &str = "section";
/// Id of the picture from outside.
const OUTSIDE: &str = "outside";

/// Parts by their id or its beginning, with the word for them, in the section: from the left the down side, from the right the up side.
const INSIDE: &[(&str, &str, Side)] = &[
    ("bend_pulley.rim", "bend pulley (only where the foot pulley is smaller than the head pulley)", Side::Left),
    ("foot_pulley.rim", "foot pulley, with wings or a drum", Side::Left),
    ("clean_out.down", "clean-out door", Side::Left),
    ("bottom", "bottom plate", Side::Left),
    ("end_plate.up", "end plate", Side::Right),
    ("throat.up.floor", "throat, or inlet leg", Side::Right),
];

/// The same from outside.
const OUTWARD: &[(&str, &str, Side)] = &[
    ("side_plate.near", "side plate, near side", Side::Left),
    ("bearing", "bearing of the foot shaft", Side::Left),
    ("sliding_plate", "sliding plate: carries the bearing, moves with the take-up", Side::Left),
    ("take_up.rod", "take-up rod: sets the belt's tension", Side::Left),
    ("door", "inspection door, mesh behind it", Side::Left),
    ("sensor_panels", "sensor panel", Side::Left),
    ("pocket.lid", "shovel pocket: fed by hand, its front edge is the lip", Side::Right),
    ("throat.up.flange", "inlet flange", Side::Right),
    ("lifting_lug", "lifting lug", Side::Right),
    ("foot.pad", "foot with its anchor", Side::Right),
];

/// The plan.
pub fn plan(subject: &Subject<'_>) -> SheetPlan {
    let mut sheet = SheetPlan::new(SHEET, "THE FOOT AND ITS WORDS", "Picture");
    sheet.description = subject.say("What the parts of a bucket elevator's foot are called.");
    sheet.view(Placement::Main, section(subject));
    sheet.view(Placement::Free, outside(subject));
    sheet
}

/// A leader to each part that is seen.
fn name_parts(subject: &Subject<'_>, d: &mut Draft, seen: &[Seen], words: &[(&str, &'static str, Side)]) {
    for (id, word, side) in words {
        let belongs = |other: &str| other.strip_prefix(id).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']));
        let of = |s: &&Seen| subject.parts.items.iter().any(|p| p.item == s.item && belongs(&p.id));
        if let Some(best) = seen.iter().filter(of).max_by(|a, b| a.worth.total_cmp(&b.worth)) {
            d.leader(best.at, subject.say(*word), *side);
        }
    }
}

fn section(subject: &Subject<'_>) -> Draft {
    let foot = subject.foot;
    let mut d = Draft::new(SECTION, Statement::from("CUT ALONG THE BELT")).at_scale(ViewScale::Picture { width: 170.0, height: 215.0 });
    let seen = elevation::machine(subject, &mut d);
    elevation::flow(&mut d, foot);
    name_parts(subject, &mut d, &seen, INSIDE);
    let top = elevation::broken_off(foot);
    for (x, word) in [(foot.casing.up_face, "UP SIDE"), (foot.casing.down_x(top), "DOWN SIDE")] {
        d.label(PlanePoint::new(x * 0.55, top + 120.0), subject.say(word));
    }
    for inlet in &foot.inlets {
        let side = if inlet.side.outward() > 0.0 { Side::Right } else { Side::Left };
        d.leader((inlet.face, inlet.sill), subject.say("sill: lower edge of the inlet, not below the foot shaft on the up side"), side);
    }
    let r = foot.pulleys.foot.radius();
    d.leader((r + foot.belt.thickness, foot.casing.top - 150.0), subject.say("belt with its buckets, running up"), Side::Right);
    d.leader((0.0, (foot.casing.bottom_face + foot.shaft_lowest - foot.tip_radius) / 2.0), subject.say("bottom clearance"), Side::Left);
    d.leader((0.0, foot.shaft_lowest), subject.say("foot shaft, take-up at its lowest"), Side::Left);
    d.leader((r * 0.3, foot.shaft_highest + r * 0.954), subject.say("highest position of the take-up"), Side::Left);
    let (x, z) = (foot.casing.down_outermost() - 100.0, 0.0);
    elevation::ground(&mut d, x, foot.inlets.iter().map(|i| i.flange_face).fold(foot.casing.up_face, f64::max) + 100.0);
    d.leader((x + 60.0, z), subject.say(if foot.pit.is_some() { "pit floor" } else { "floor" }), Side::Left);
    d
}

fn outside(subject: &Subject<'_>) -> Draft {
    let mut d = Draft::new(OUTSIDE, Statement::from("FROM THE UP SIDE AND THE NEAR SIDE")).at_scale(ViewScale::Picture { width: 170.0, height: 215.0 });
    let picture = Picture::toward(subject.machine, seen_from(45.0, RISE)).without_holes(BOLT_HOLES).fine();
    let seen = picture.draw_seen(&mut d, |p| (!p.of("belt") && !p.is_small()).then_some(Show::Seen));
    name_parts(subject, &mut d, &seen, OUTWARD);
    d
}
