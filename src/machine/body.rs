//! What a body of the machine is.

use crate::formulas::mass::STEEL_KG_PER_M3;
use crate::parts::placement::Placement;
use crate::parts::shape::Shape;
use crate::parts::{Kind, Part};
use crate::say;
use crate::say::{Statement, name};
use crate::solid::mass::mass;
use crate::solid::{Brep, Refusal};

use super::moves::{Moves, Uncut};

/// What a body is made of, as far as a picture tells materials apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Material {
    /// Painted plate.
    Plate,
    /// Bright turned steel.
    Turned,
    /// Castings and other goods that are bought.
    Bought,
    /// Gaskets and felt.
    Seal,
    /// Wires, mostly air.
    Mesh,
    /// Bolts and nuts.
    Fastener,
    /// The belt.
    Belt,
    /// Buckets.
    Bucket,
}

impl Material {
    /// Of a part of the list.
    pub(super) fn of(part: &Part) -> Self {
        match part.kind {
            _ if is_seal(part) => Self::Seal,
            _ if matches!(part.shape, Some(Shape::Mesh { .. })) => Self::Mesh,
            _ if matches!(part.shape, Some(Shape::Anchor(_))) => Self::Fastener,
            Kind::Plate => Self::Plate,
            Kind::Turned => Self::Turned,
            Kind::Bought => Self::Bought,
        }
    }
}

/// Whether a part closes a gap and is soft.
fn is_seal(part: &Part) -> bool {
    matches!(part.shape, Some(Shape::Gasket(_))) || part.id == "shaft_felt"
}

/// A body and its pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// Item number of the parts list; `None` for what has none there: bolts, nuts, belt, buckets.
    pub item: Option<u32>,
    /// Stable id, e.g. `side_plate.near`.
    pub id: String,
    /// What it is.
    pub name: Statement,
    /// What it is made of.
    pub material: Material,
    /// What its pieces move with.
    pub moves: Moves,
    /// When a section shows it whole.
    pub uncut: Uncut,
    /// Whether its mass is reckoned from it, in steel.
    pub of_steel: bool,
    /// Where its pieces stand, model mm: its own x is `right`, its y is `up`, its z is `toward`.
    pub places: Vec<Placement>,
    /// The body in its own right-handed frame, mm.
    pub brep: Brep,
}

impl Body {
    /// Item and what it is; the id where the list has no item. No two bodies share one.
    pub fn title(&self) -> Statement {
        let mark = self.item.map_or_else(|| name(&self.id), name);
        say!("{item} {part}", item = mark, part = self.name.clone())
    }
    /// Mass of one piece, kg; `None` when only its maker knows.
    pub fn mass_kg(&self) -> Option<f64> {
        self.of_steel.then(|| mass(&self.brep).volume * STEEL_KG_PER_M3 * 1e-9)
    }
}

/// Something of the machine that no body could be built of: a defect of the program.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bodiless {
    /// Its id.
    pub id: String,
    /// Why.
    pub why: Refusal,
}

/// The bodies of a machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    /// Parts by item number, then belt, buckets, bolts.
    pub bodies: Vec<Body>,
    /// What stands otherwise, and not merely higher, with the take-up at its highest, by the id of its body: the belt.
    pub highest: Vec<Body>,
    /// What has none.
    pub bodiless: Vec<Bodiless>,
    /// Whether the up side is on the viewer's left, as the sheets show it.
    pub left: bool,
}

impl Machine {
    /// A point or direction of the model in a right-handed frame: x along the machine, z up; y toward the far side, or toward
    /// the near side of a machine whose up side is on the left.
    pub fn right_handed(&self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        [x, if self.left { y } else { 0.0 - y }, z]
    }
    /// The third direction of a placement in this machine.
    pub(super) fn third(&self, a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
        let cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
        if self.left { cross } else { cross.map(|c| 0.0 - c) }
    }
}
