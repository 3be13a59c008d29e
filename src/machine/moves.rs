//! What moves with what, and what sections show whole.
//!
//! In: ids and shapes of parts. Out: answers by family; a new family stands still and is cut until it is named here.

use crate::parts::Part;
use crate::parts::shape::Shape;

/// What the pieces of a body move with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Moves {
    /// Nothing: the casing and what is bolted to it.
    Fixed,
    /// The take-up: up and down.
    TakeUp,
    /// A shaft: it turns, the foot shaft with the take-up besides.
    Shaft,
    /// The leaf of an opening: it comes off.
    Leaf,
}

/// Families that turn, by the beginnings of their ids.
const TURN: [&str; 8] = ["foot_pulley", "bend_pulley", "bend_shaft", "bend_key", "bend_collar", "shaft", "key", "collar"];
/// Families that go up and down with the take-up.
const RISE: [&str; 9] = ["sliding_plate", "shaft_felt", "bearing", "bearing_bracket", "rod_lug", "take_up.rod", "take_up.nut", "weight_box", "weight"];
/// What turns with the foot shaft, and goes up and down with it.
pub const WITH_SHAFT: [&str; 4] = ["foot_pulley", "shaft", "key", "collar"];
/// Last words of what comes off an opening.
const LEAVES: [&str; 6] = ["leaf", "grip", "gasket", "mesh", "mesh_frame", "rib"];

/// Whether an id is of a family: it is the family's, or goes on after it with a point.
pub fn is_of(id: &str, family: &str) -> bool {
    id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

/// Whether something goes up and down with the take-up.
pub fn rises(id: &str, moves: Moves) -> bool {
    match moves {
        Moves::TakeUp => true,
        Moves::Shaft => WITH_SHAFT.iter().any(|f| is_of(id, f)),
        Moves::Fixed | Moves::Leaf => false,
    }
}

/// What a part moves with.
pub fn of_part(id: &str) -> Moves {
    if TURN.iter().any(|f| is_of(id, f)) {
        Moves::Shaft
    } else if RISE.iter().any(|f| is_of(id, f)) {
        Moves::TakeUp
    } else if id == "pocket.lid" || id.rsplit('.').next().is_some_and(|last| LEAVES.contains(&last)) {
        Moves::Leaf
    } else {
        Moves::Fixed
    }
}

/// When a section shows a body whole (ISO 128-3, from memory: what gains nothing by being cut lengthwise).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Uncut {
    /// Never: it is cut and hatched.
    Never,
    /// By a plane along its own z: shafts, rods, keys, bolts, nuts and washers.
    AlongAxis,
    /// By a plane along its faces, which its own z is square to: ribs, webs, wings.
    AlongFaces,
}

impl Uncut {
    /// In a section whose plane is so far from square to the body's own z: the cosine between that and the view's direction.
    pub fn whole(self, cosine: f64) -> bool {
        match self {
            Self::Never => false,
            Self::AlongAxis => cosine.abs() < LENGTHWISE,
            Self::AlongFaces => cosine.abs() > LENGTHWISE,
        }
    }
}

/// A plane nearer than this to a direction cuts along it: cosine of 45°.
const LENGTHWISE: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Plates that stand on edge to stiffen others.
const RIBS: [&str; 5] = ["foot.gusset", "bracket.gusset", "stiffener", "foot_pulley.wing", "removal.rib"];

/// When a section shows a part whole.
pub(super) fn uncut(part: &Part) -> Uncut {
    match &part.shape {
        Some(Shape::Shaft(_) | Shape::Rod { .. } | Shape::Nut { .. } | Shape::Key { .. } | Shape::Anchor(_)) => Uncut::AlongAxis,
        _ if RIBS.iter().any(|f| is_of(&part.id, f)) => Uncut::AlongFaces,
        _ => Uncut::Never,
    }
}
