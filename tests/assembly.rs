//! The assembled casing over all starters: everything that is welded or bolted on is located by its item, the tables print
//! the edges of the bodies, and scribed lines lie where one body touches another.
#![allow(clippy::unwrap_used, missing_docs)]

mod support;

use footwell::job::Job;
use footwell::parts::flat::Tells;
use footwell::sheets::places::{self, Place, on_casing, view};
use footwell::sheets::views::Look;
use footwell::sheets::views::bodies::{Picture, Piece};
use footwell::spec::openings::Wall;
use footwell::spec::sheet::Hand;
use std::collections::BTreeSet;

const SHEET: &str = "assembly";
/// What the rest is set on.
const CASING: [&str; 3] = ["side_plate", "end_plate", "bottom"];

fn starters() -> impl Iterator<Item = (String, Job)> {
    support::templates().into_iter().map(|(name, text)| (name, support::run(&text).unwrap()))
}

/// Box of a piece in the view of a wall as drawn: left, right, lower, upper.
fn edges(job: &Job, piece: &Piece<'_>, wall: Wall) -> [f64; 4] {
    let right = view(wall).right;
    let (a, b) = (piece.low.dot(right), piece.high.dot(right));
    let (left, right) = (a.min(b), a.max(b));
    let [left, right] = if job.spec().sheet.hand.value == Hand::Left { [-right, -left] } else { [left, right] };
    [left, right, piece.low.z, piece.high.z]
}

/// How far the middle of what closes an opening stands off the wall beyond its frame at most, mm: gasket, leaf, grip.
const STANDS_OFF: f64 = 60.0;

/// Whether a place is that of a piece: the edges of its body; of what leans off its wall a part of them, of what closes an
/// opening the same middle.
fn fits(job: &Job, place: &Place, piece: &Piece<'_>) -> bool {
    let box_of = edges(job, piece, place.wall);
    let told = [place.across[0], place.across[1], place.up[0], place.up[1]];
    let closes = job.foot().openings.iter().any(|o| piece.of(&o.id));
    let whole = told.iter().zip(&box_of).all(|(a, b)| (a - b).abs() < 0.02);
    let within = told[0] > box_of[0] - 0.1 && told[1] < box_of[1] + 0.1 && told[2] > box_of[2] - 0.1 && told[3] < box_of[3] + 0.1;
    // What closes an opening in a plate that leans stands off it, and so a little lower or higher than its frame.
    let face = |z: f64| job.foot().casing.down_x(z);
    let lean = if place.wall == Wall::DownEnd { ((face(told[2]) - face(told[3])) / (told[3] - told[2])).abs() } else { 0.0 };
    let off = 0.5 + 2.0 * STANDS_OFF * lean;
    let middle = (told[0] + told[1] - box_of[0] - box_of[1]).abs() < 0.02 && (told[2] + told[3] - box_of[2] - box_of[3]).abs() < off;
    let seated = job.parts().seats.iter().any(|s| s.part == piece.body.id);
    whole || seated && within || closes && middle
}

/// Pieces without a place, and places without a piece.
fn misplaced(job: &Job, places: &[Place]) -> Vec<String> {
    let picture = Picture::new(job.machine(), Look::Elevation);
    let pieces: Vec<Piece<'_>> = picture.pieces().filter(|p| on_casing(p) && !p.of_any(&CASING)).collect();
    let item = |p: &Piece<'_>| p.body.item.unwrap();
    let lost = pieces.iter().filter(|piece| !places.iter().any(|p| p.items.contains(&item(piece)) && fits(job, p, piece)));
    let mut out: Vec<String> = lost.map(|p| format!("{} {} has no place", item(p), p.body.id)).collect();
    for place in places {
        let mut own = pieces.iter().filter(|p| place.items.contains(&item(p))).peekable();
        if own.peek().is_some() && !own.any(|piece| fits(job, place, piece)) {
            out.push(format!("nothing stands at {place:?}"));
        }
    }
    out
}

#[test]
fn every_part_on_the_casing_is_located_where_its_body_is() {
    for (name, job) in starters() {
        let places = places::places(&job.subject());
        assert_eq!(misplaced(&job, &places), Vec::<String>::new(), "{name}");
        assert!(places.len() > 20, "{name}: only {} places", places.len());
        // Parts without a body: bought ones on the casing.
        for part in job.parts().items.iter().filter(|p| p.id.ends_with(".grip")) {
            assert!(places.iter().any(|p| p.items.contains(&part.item)), "{name}: {}", part.id);
        }
    }
}

#[test]
fn a_planted_shift_is_found() {
    for (name, job) in starters() {
        let sound = places::places(&job.subject());
        for (i, place) in sound.iter().enumerate() {
            let mut shifted = sound.clone();
            shifted[i].across = place.across.map(|x| x + 1.0);
            shifted[i].up = place.up.map(|z| z + 40.0);
            let bodiless = place.items.iter().all(|item| job.machine().bodies.iter().all(|b| b.item != Some(*item)));
            assert!(bodiless || !misplaced(&job, &shifted).is_empty(), "{name}: {place:?}");
        }
    }
}

#[test]
fn the_sheet_prints_each_place_and_shows_its_number() {
    for (name, job) in starters() {
        let subject = job.subject();
        let plan = job.plans().iter().find(|p| p.id == SHEET).unwrap();
        let rows: BTreeSet<Vec<String>> = plan.tables.iter().flat_map(|t| t.rows.clone()).collect();
        for p in places::places(&subject) {
            let mut row = vec![places::items(&p.items), subject.said(&p.name)];
            row.extend([p.across[0], p.across[1], p.up[0], p.up[1]].map(|v| subject.mm(v)));
            row.push(subject.say(match (p.welded, p.items.len()) {
                (false, _) if p.items.first() == Some(&660) => "adhesive",
                (false, _) => "bolts",
                (true, 1) => "weld",
                (true, _) => "weld, bolts",
            }));
            assert!(rows.contains(&row), "{name}: {row:?}");
        }
        let tags: BTreeSet<String> = plan.views.iter().flat_map(|v| &v.draft.items).filter_map(tag).collect();
        for p in places::places(&subject) {
            assert!(tags.contains(&p.items[0].to_string()), "{name}: {:?}", p.items);
        }
    }
}

fn tag(item: &footwell::paper::view::Item) -> Option<String> {
    use footwell::paper::view::Item;
    if let Item::Tag { text, .. } | Item::Leader { text, .. } = item { Some(text.clone()) } else { None }
}

/// Scribed outlines agree with the printed edges: what runs upright or level along an outline lies on one of them.
#[test]
fn scribed_lines_lie_where_the_body_touches() {
    for (name, job) in starters() {
        let all = places::places(&job.subject());
        let mut seen = 0;
        for (part, flat) in footwell::lists::plates(job.parts()) {
            let Some(wall) = wall(&part.id) else { continue };
            for s in &flat.scribed {
                let Tells::Item(item) = s.tells else { continue };
                let own: Vec<&Place> = all.iter().filter(|p| p.wall == wall && p.items.contains(&item)).collect();
                let place = &part.placements[0];
                let ends = [s.line.from, s.line.to].map(|p| {
                    let p = place.folded(&flat.bends, part.thickness, p[0], p[1], part.thickness);
                    let v = view(wall).right;
                    let across = p.x * v.x + p.y * v.y;
                    [if job.spec().sheet.hand.value == Hand::Left { -across } else { across }, p.z]
                });
                let on = |p: &&Place| {
                    let near = |a: f64, b: f64| (a - b).abs() < 0.05;
                    let upright = near(ends[0][0], ends[1][0]);
                    let level = near(ends[0][1], ends[1][1]);
                    let inside = ends.iter().all(|e| e[0] > p.across[0] - 0.05 && e[0] < p.across[1] + 0.05 && e[1] > p.up[0] - 0.05 && e[1] < p.up[1] + 0.05);
                    inside
                        && (!upright || s.line.bulge != 0.0 || p.across.iter().any(|x| near(*x, ends[0][0])))
                        && (!level || s.line.bulge != 0.0 || p.up.iter().any(|z| near(*z, ends[0][1])))
                };
                assert!(own.iter().any(on), "{name}: {item} on {}: {ends:?} {own:?}", part.id);
                seen += 1;
            }
        }
        assert!(seen > 20, "{name}: only {seen} lines");
    }
}

fn wall(id: &str) -> Option<Wall> {
    [("side_plate.near", Wall::Near), ("side_plate.far", Wall::Far), ("end_plate.up", Wall::UpEnd), ("end_plate.down", Wall::DownEnd)]
        .into_iter()
        .find(|(family, _)| id.starts_with(family))
        .map(|w| w.1)
}

/// The datum that everything is measured from is on the plates.
#[test]
fn both_axes_are_scribed_on_the_side_plates() {
    for (name, job) in starters() {
        for side in ["side_plate.near", "side_plate.far"] {
            let told: Vec<Tells> =
                footwell::lists::plates(job.parts()).filter(|(p, _)| p.id.starts_with(side)).flat_map(|(_, f)| f.scribed.iter().map(|s| s.tells)).collect();
            assert!(told.contains(&Tells::ShaftAxis) && told.contains(&Tells::LowestShaft), "{name}: {side}");
        }
    }
}
