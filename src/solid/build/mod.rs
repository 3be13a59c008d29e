//! Builders of bodies: prisms, turned and keyed bodies, folded plates; keyways milled into them.
//!
//! In: plane regions with lines and arcs, profiles, flat patterns. Out: a closed body with true planes, cylinders and
//! cones, or why it cannot be made. The edges of neighbouring faces are shared. Nothing here looks for regions that
//! cross themselves: such a region makes a body that `check` finds fault with.

mod chaining;
pub mod folded;
mod joining;
pub mod keyed;
mod maker;
pub mod milled;
pub mod prism;
pub mod revolved;
mod strips;
pub mod turned;

pub use folded::{Fold, folded};
pub use keyed::{Section, keyed};
pub use milled::{Slot, bored, slotted};
pub use prism::extrude;
pub use revolved::revolved;
pub use turned::{Segment, turned};

use std::fmt;

/// Why a body cannot be built.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// There is no outline, or no segment.
    Empty,
    /// A thickness, length, radius or angle that must be positive is not.
    NotPositive,
    /// Segments or bends do not follow one another.
    Disordered,
    /// The bore is as wide as the body, or ends in a point.
    NoWall,
    /// Two neighbouring cross-sections lie back to back along an edge, so that the body would hang on that edge.
    BackToBack,
    /// Two neighbouring cross-sections cross where neither has a corner.
    Crossing,
    /// A section tapers but has other edges than full circles about one centre, as many at both ends.
    Taper,
    /// An arc, a round hole or a slanted edge lies in a bend or a rolled zone.
    InBend,
    /// A ring rolled to a full turn that is not a plain rectangle.
    Ring,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "there is nothing to build from",
            Self::NotPositive => "a length, radius or angle is not positive",
            Self::Disordered => "segments or bends do not follow one another",
            Self::NoWall => "no wall is left between bore and outside",
            Self::BackToBack => "two cross-sections lie back to back along an edge",
            Self::Crossing => "two cross-sections cross where neither has a corner",
            Self::Taper => "only full circles can taper",
            Self::InBend => "an arc, a round hole or a slanted edge lies in a bend",
            Self::Ring => "a closed ring must be rolled from a plain rectangle",
        })
    }
}

impl std::error::Error for Refusal {}
