//! Where every part on the casing stands: from the foot shaft axis or the belt's middle plane, and from the base.
//!
//! In: bodies where they stand, and the seats of welded plates. Out: a [`Place`] for each piece (one for all that closes an
//! opening), seen on its wall from outside. A part that is set on a wall has the edges of its outline there, any other
//! those of its body; one that touches no wall stands in two views, so that it is fixed in all directions.

use super::Subject;
use super::views::Look;
use super::views::bodies::{Picture, Piece};
use crate::machine::Material;
use crate::machine::moves::Moves;
use crate::paper::mark::PlanePoint;
use crate::parts::seats::Welded;
use crate::parts::{Part, Seat};
use crate::say::Statement;
use crate::solid::project::View;
use crate::spec::openings::Wall;
use crate::spec::sheet::Hand;
use glam::DVec3;
use std::collections::BTreeMap;

/// The plates that others are set on, by the beginnings of their ids.
const WALLS: [(&str, Wall); 4] =
    [("side_plate.near", Wall::Near), ("side_plate.far", Wall::Far), ("end_plate.up", Wall::UpEnd), ("end_plate.down", Wall::DownEnd)];
/// What the casing itself is made of; everything else on it is located.
const CASING: [&str; 3] = ["side_plate", "end_plate", "bottom"];
/// A part this many times as high as wide has its number at its middle: bars stand side by side.
const SLENDER: f64 = 8.0;
/// Two edges closer than this are one, mm.
const ONE: f64 = 0.05;

/// Where something stands on the casing, in a view of a wall from outside.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Which wall is looked at.
    pub wall: Wall,
    /// Items of the parts list that stand here, one on the other.
    pub items: Vec<u32>,
    /// What it is.
    pub name: Statement,
    /// Left and right edge from the foot shaft axis, on the ends from the belt's middle plane, + to the right as drawn, mm.
    pub across: [f64; 2],
    /// Lower and upper edge above the underside of the base, mm.
    pub up: [f64; 2],
    /// Welded on.
    pub welded: bool,
    /// Held by bolts: some go through it.
    pub bolted: bool,
    /// The middle of its upper edge, of a slender or inclined part its own middle, in the plane of the view, before that is turned over
    /// for readers who want it so.
    pub mark: PlanePoint,
}

impl Place {
    /// Whether it is much higher than wide, like a bar: its number stands on a leader, since beside it other outlines are near.
    pub fn is_slender(&self) -> bool {
        self.up[1] - self.up[0] > SLENDER * (self.across[1] - self.across[0])
    }
}

/// Directions of the view of a wall from outside.
pub const fn view(wall: Wall) -> View {
    match wall {
        Wall::Near => Look::Elevation.view(),
        Wall::Far => View { right: DVec3::NEG_X, up: DVec3::Z, toward: DVec3::NEG_Y },
        Wall::UpEnd => Look::FromUp.view(),
        Wall::DownEnd => View { right: DVec3::Y, up: DVec3::Z, toward: DVec3::NEG_X },
    }
}

/// Whether a piece belongs to the assembled casing: nothing that turns, rises with the take-up, is bolted
/// through or lies under a flange, and none of the take-up's rod and stop.
pub fn on_casing(piece: &Piece<'_>) -> bool {
    matches!(piece.body.moves, Moves::Fixed | Moves::Leaf) && piece.body.item.is_some() && !piece.is_small() && !piece.of("take_up")
}

/// Whether a part is one of the plates that the casing itself is made of.
pub fn is_shell(id: &str) -> bool {
    CASING.iter().any(|family| id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))
}

/// Item numbers as a list prints them: `311–315, 320`.
pub fn items(all: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for item in all {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == *item => run.1 = *item,
            _ => runs.push((*item, *item)),
        }
    }
    let said = |(from, to): (u32, u32)| match to - from {
        0 => from.to_string(),
        1 => format!("{from}, {to}"),
        _ => format!("{from}–{to}"),
    };
    runs.into_iter().map(said).collect::<Vec<String>>().join(", ")
}

/// The places of everything on the casing, wall by wall, by item number and from left to right.
pub fn places(subject: &Subject<'_>) -> Vec<Place> {
    let mut all: Vec<Place> = Vec::new();
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    let picture = Picture::new(subject.machine, Look::Elevation);
    let bolts: Vec<Piece<'_>> = picture.pieces().filter(|p| p.body.material == Material::Fastener).collect();
    for piece in picture.pieces() {
        let number = seen.entry(piece.body.id.as_str()).or_default();
        let index = *number;
        *number += 1;
        if on_casing(&piece) && !piece.of_any(&CASING) {
            let known = all.len();
            of_piece(subject, &piece, index, &mut all);
            let bolted = bolts.iter().any(|b| b.low.cmple(piece.high).all() && piece.low.cmple(b.high).all());
            all.iter_mut().skip(known).for_each(|place| place.bolted = bolted);
        }
    }
    for place in &mut all {
        place.items.sort_unstable();
        place.items.dedup();
    }
    all.sort_by(|a, b| (a.wall, &a.items).cmp(&(b.wall, &b.items)).then(a.across[0].total_cmp(&b.across[0])).then(a.up[0].total_cmp(&b.up[0])));
    all
}

/// The place or the two places of a piece.
fn of_piece(subject: &Subject<'_>, piece: &Piece<'_>, index: usize, all: &mut Vec<Place>) {
    let id = piece.body.id.as_str();
    let Some(part) = subject.parts.part(id) else { return };
    let opening = subject.foot.openings.iter().find(|o| piece.of(&o.id));
    // What closes an opening stands on its frame; ribs stand apart on their cover.
    if opening.is_some() && id.ends_with(".rib") {
        let wall = outside(subject, piece.low.midpoint(piece.high));
        add(subject, all, wall, part, Reach { low: piece.low, high: piece.high, inclined: false });
        return;
    }
    if opening.is_some() && !id.ends_with(".frame") {
        return;
    }
    if let Some((wall, low, high)) = seat(subject, id, index) {
        add(subject, all, wall, part, Reach { low, high, inclined: false });
    } else {
        let wall = outside(subject, piece.low.midpoint(piece.high));
        let inclined = piece.axis().to_array().iter().filter(|d| d.abs() > 0.05).count() > 1;
        let reach = Reach { low: piece.low, high: piece.high, inclined };
        add(subject, all, wall, part, reach);
        if is_welded(subject, part) || piece.of("transition") {
            let middle = (piece.low.x + piece.high.x) / 2.0;
            let other = match wall {
                Wall::UpEnd | Wall::DownEnd => Wall::Near,
                _ if middle > 0.0 => Wall::UpEnd,
                _ => Wall::DownEnd,
            };
            add(subject, all, other, part, reach);
        }
    }
    if let Some((o, place)) = opening.zip(all.last_mut()) {
        let own = |p: &&Part| p.id.strip_prefix(o.id.as_str()).is_some_and(|rest| rest.starts_with('.'));
        place.items.extend(subject.parts.items.iter().filter(own).map(|p| p.item));
        place.name = part.name_pieces().first().cloned().unwrap_or_else(|| part.name.clone());
    }
}

fn is_welded(subject: &Subject<'_>, part: &Part) -> bool {
    Welded::of(&subject.parts.items, &subject.parts.welds).holds(part)
}

/// The box of a piece's outline on the walls that it is set on.
fn seat(subject: &Subject<'_>, id: &str, piece: usize) -> Option<(Wall, DVec3, DVec3)> {
    let on = |s: &Seat| {
        let (_, wall) = WALLS.iter().find(|(wall, _)| s.on.strip_prefix(wall).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))?;
        let [low, high] = s.reach(subject.parts.part(&s.on)?)?.map(DVec3::from_array);
        Some((*wall, low, high))
    };
    let all = subject.parts.seats.iter().filter(|s| s.part == id && s.piece == piece).filter_map(on);
    all.reduce(|a, b| (a.0, a.1.min(b.1), a.2.max(b.2)))
}

/// Outside which wall a point lies; near side for one inside the casing.
fn outside(subject: &Subject<'_>, p: DVec3) -> Wall {
    let c = &subject.foot.casing;
    match p {
        _ if p.y >= c.width.high => Wall::Near,
        _ if p.y <= c.width.low => Wall::Far,
        _ if p.x >= c.up_face => Wall::UpEnd,
        _ if p.x <= c.down_x(p.z) => Wall::DownEnd,
        _ => Wall::Near,
    }
}

/// The box of something on the casing, and whether it leans.
#[derive(Debug, Clone, Copy)]
struct Reach {
    low: DVec3,
    high: DVec3,
    inclined: bool,
}

/// Adds a place, or the item to the place where another stands with the same edges.
fn add(subject: &Subject<'_>, all: &mut Vec<Place>, wall: Wall, part: &Part, Reach { low, high, inclined }: Reach) {
    let right = view(wall).right;
    let (a, b) = (low.dot(right), high.dot(right));
    let (left, right) = (a.min(b), a.max(b));
    let across = match subject.spec.sheet.hand.value {
        Hand::Right => [left, right],
        Hand::Left => [-right, -left],
    };
    let up = [low.z, high.z];
    let same = |p: &&mut Place| p.wall == wall && (0..2).all(|i| (p.across[i] - across[i]).abs() < ONE && (p.up[i] - up[i]).abs() < ONE);
    if let Some(known) = all.iter_mut().find(same) {
        known.items.push(part.item);
        return;
    }
    let slender = high.z - low.z > SLENDER * (right - left);
    let mark = PlanePoint::new((left + right) / 2.0, if inclined || slender { f64::midpoint(low.z, high.z) } else { high.z });
    all.push(Place { wall, items: vec![part.item], name: part.name.clone(), across, up, welded: is_welded(subject, part), bolted: false, mark });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_of_item_numbers_are_one() {
        assert_eq!(items(&[311, 312, 313, 315, 320, 321]), "311–313, 315, 320, 321");
        assert_eq!(items(&[]), "");
    }
}
