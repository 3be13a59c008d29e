//! Where a view shows an item of the parts list best, and the balloons that follow from it.
//!
//! In: what is seen of each piece of a picture: free patches and strokes. Out: for each item a point on the body itself and
//! how much of it is seen; balloons, each on the view that shows its item best. No view names the items that it shows.

use crate::geometry::Edge;
use crate::paper::mark::PlanePoint;
use crate::paper::view::Draft;
use crate::solid::project::Spot;
use std::collections::BTreeSet;

/// A free patch narrower than this about its middle is pointed at by an edge of the body, mm: a plate seen on edge.
const NARROW: f64 = 6.0;
/// What a millimetre of seen line counts for, mm² of seen surface.
const LINE: f64 = 8.0;

/// What is seen of an item in a picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Item number of the parts list.
    pub item: u32,
    /// The point to point at, in the view plane.
    pub at: PlanePoint,
    /// How much of the item is seen: surface and lines together, mm² in the view plane.
    pub worth: f64,
}

/// What is seen of each item, by its number: the piece of which most is seen. Items of the pieces, then spots and seen strokes
/// with the numbers of their pieces.
pub(super) fn items(pieces: &[Option<u32>], spots: &[Spot], strokes: &[(usize, Edge)]) -> Vec<Seen> {
    let mut out: Vec<Seen> = Vec::new();
    for (id, item) in pieces.iter().enumerate() {
        let Some(item) = *item else { continue };
        let spot = spots.iter().find(|s| s.body == id);
        let own = || strokes.iter().filter(|(body, _)| *body == id).map(|(_, edge)| edge);
        let longest = own().max_by(|a, b| a.length().total_cmp(&b.length()));
        let at = match (spot, longest) {
            (Some(spot), _) if spot.room >= NARROW => spot.at,
            (_, Some(edge)) => edge.middle(),
            (Some(spot), None) => spot.at,
            (None, None) => continue,
        };
        let worth = spot.map_or(0.0, |s| s.area) + LINE * own().map(Edge::length).sum::<f64>();
        let seen = Seen { item, at: PlanePoint::new(at.x, at.y), worth };
        match out.iter_mut().find(|s| s.item == item) {
            Some(old) if old.worth >= seen.worth => {}
            Some(old) => *old = seen,
            None => out.push(seen),
        }
    }
    out.sort_by_key(|s| s.item);
    out
}

/// Balloons on several views: each item that is still without one gets it on the view that shows it best, if it shows at
/// least `least` of it, mm² in the view plane. Items that get one are taken off the list.
pub fn balloons(views: &mut [(&mut Draft, Vec<Seen>)], without: &mut BTreeSet<u32>, least: f64) {
    for item in without.clone() {
        let mut best: Option<(usize, Seen)> = None;
        for (n, (_, seen)) in views.iter().enumerate() {
            let Some(here) = seen.iter().find(|s| s.item == item && s.worth >= least) else { continue };
            if best.is_none_or(|(_, b)| here.worth > b.worth) {
                best = Some((n, *here));
            }
        }
        if let Some((n, here)) = best
            && let Some((draft, _)) = views.get_mut(n)
        {
            draft.balloon(here.at, item, None);
            without.remove(&item);
        }
    }
}
