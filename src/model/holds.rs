//! What stands on the pit's drawings only by default and somebody has to settle before construction.
//!
//! In: the settled spec. Out: one [`Hold`] for each such value, with who decides it. Keys that the user gave
//! are never on hold, and defaults that nobody but the plant's habits decides (a ladder's width) are not either.

use crate::say;
use crate::say::Statement;
use crate::spec::Spec;
use crate::spec::reader::{Chosen, ReadValue};

/// Who settles a held value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Who {
    /// The licensed engineer who designs the structure.
    Engineer,
    /// The owner, or the supplier of the incoming feed.
    Owner,
}

impl Who {
    /// The word on sheets.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Engineer => "civil engineer",
            Self::Owner => "owner",
        }
    }
}

/// One held value.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// Spec path; empty where the spec has no key for it.
    pub path: &'static str,
    /// What is to be settled, in a few words.
    pub words: &'static str,
    /// The value assumed so far; `None` when there is none.
    pub assumed: Option<Statement>,
    /// Who settles it.
    pub who: Who,
}

/// Whether anything of the incoming feed is only assumed: its openings in the walls are then on hold.
pub fn feed_is_open(spec: &Spec) -> bool {
    let pit = &spec.pit;
    !(pit.feed_level.is_given() && pit.feed_distance.is_given() && pit.feed_slope.is_given())
}

/// Everything on hold; empty without a pit.
pub fn holds(spec: &Spec) -> Vec<Hold> {
    let pit = &spec.pit;
    if !*pit.fitted {
        return Vec::new();
    }
    let mut all = Vec::new();
    fn open<T: ReadValue>(all: &mut Vec<Hold>, value: &Chosen<T>, path: &'static str, words: &'static str, who: Who) {
        if !value.is_given() {
            let amount = value.value.amount().map(|amount| say!("{amount}", amount = amount));
            all.push(Hold { path, words, assumed: amount.or(value.value.choice().map(Statement::from)), who });
        }
    }
    use Who::{Engineer, Owner};
    open(&mut all, &pit.wall, "pit.wall", "wall thickness, by the responsible engineer", Engineer);
    open(&mut all, &pit.slab, "pit.slab", "slab thickness, by the responsible engineer", Engineer);
    open(&mut all, &pit.lean, "pit.lean", "lean concrete", Engineer);
    open(&mut all, &pit.toe, "pit.toe", "toe of the base slab", Engineer);
    open(&mut all, &pit.groundwater, "pit.groundwater", "highest groundwater level", Engineer);
    open(&mut all, &pit.soil_density, "pit.soil_density", "soil data", Engineer);
    open(&mut all, &pit.batter, "pit.batter", "slope of the excavation, shoring", Engineer);
    all.push(Hold { path: "", words: "surcharge beside the pit: vehicles, silos, stored product", assumed: None, who: Engineer });
    all.push(Hold { path: "", words: "live loads of cover, floor, stair and rail: table of imposed loads", assumed: None, who: Engineer });
    if *pit.cover {
        all.push(Hold { path: "", words: "cover: beams, plates and their seats", assumed: None, who: Engineer });
    }
    open(&mut all, &pit.grid, "pit.grid", "place of the setting-out point in the building's grid", Engineer);
    open(&mut all, &pit.site_level, "pit.site_level", "plant floor ±0 above the site's datum", Engineer);
    all.push(Hold { path: "", words: "tolerances of the concrete and of what is cast in", assumed: None, who: Engineer });
    all.push(Hold { path: "", words: "what stands on the foot: head on the foot or on the building", assumed: None, who: Engineer });
    all.push(Hold { path: "", words: "anchor bolts: size, length, edge distance", assumed: None, who: Engineer });
    // Given or not, the depth hangs on the feed; where it is given, wall openings still do.
    open(&mut all, &pit.feed_level, "pit.feed_level", "level of the incoming feed", Owner);
    open(&mut all, &pit.feed_distance, "pit.feed_distance", "distance of the incoming feed from the inlet flange", Owner);
    open(&mut all, &pit.feed_slope, "pit.feed_slope", "slope of the incoming spout", Owner);
    if feed_is_open(spec) {
        open(&mut all, &pit.depth, "pit.depth", "depth of the pit, follows from the feed", Owner);
    }
    if *pit.elevators > 1 {
        open(&mut all, &pit.pitch, "pit.pitch", "distance of the elevators", Owner);
    }
    open(&mut all, &pit.shaft_pull, "pit.shaft_pull", "side to which the shaft is pulled", Owner);
    open(&mut all, &pit.up_side_bearing, "pit.up_side_bearing", "direction of north", Owner);
    open(&mut all, &pit.access_side, "pit.access_side", "side of the way down", Owner);
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Job;
    use crate::spec::keys;

    fn of(text: &str) -> Vec<Hold> {
        holds(Job::of_contradicting(text).unwrap().spec())
    }

    #[test]
    fn a_given_value_is_never_on_hold() {
        let text = include_str!("../../templates/tall_bend.toml");
        let before = of(text);
        for path in ["pit.wall", "pit.slab", "pit.groundwater", "pit.feed_level"] {
            assert!(before.iter().all(|h| h.path != path), "{path}");
        }
        assert!(before.iter().any(|h| h.path == "pit.toe" && h.assumed.is_some()));
        let after = of(&text.replace("[pit]", "[pit]\ntoe = \"300 mm\""));
        assert_eq!(after.len() + 1, before.len());
        assert!(of("[pit]\nfitted = false\n").is_empty());
    }

    #[test]
    fn paths_are_keys() {
        let registry = keys();
        for hold in of("[pit]\nfitted = true\n") {
            assert!(hold.path.is_empty() || registry.iter().any(|k| k.path == hold.path), "{}", hold.path);
            assert!(!hold.words.is_empty());
        }
    }
}
