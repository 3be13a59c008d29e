//! What the parts of the foot weigh, by group, with the middle of each group: taken from the bodies, once.
//!
//! In: the parts. Out: kg, mm of the model. A part whose mass only its maker knows counts nothing here. Bolts have no place of
//! their own; they are counted with the casing.

use crate::machine::moves::{Moves, of_part};
use crate::parts::{Part, Parts, centres};

/// A mass and where it acts, in the frame of the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MassAt {
    /// kg.
    pub kg: f64,
    /// Along the machine, mm from the foot shaft's vertical.
    pub x_mm: f64,
    /// Across the machine, mm from the belt's middle.
    pub y_mm: f64,
}

/// Masses of the parts by group.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weights {
    /// Everything that stands still and is in no other group, and all bolts.
    pub casing: MassAt,
    /// Throats and transitions.
    pub inlets: MassAt,
    /// Shovel pocket.
    pub pocket: MassAt,
    /// Foot pulley.
    pub foot_pulley: MassAt,
    /// Foot shaft with its keys.
    pub shaft: MassAt,
    /// What goes up and down with the shaft besides: sliding plates, brackets, lugs, rods.
    pub slides: MassAt,
    /// Boxes of a gravity take-up and what holds them.
    pub frame: MassAt,
    /// Loose weights in them, as drawn.
    pub loose: MassAt,
    /// Bend pulley.
    pub bend_pulley: MassAt,
    /// Shaft of the bend pulley with its keys, and the plates of its bearings.
    pub bend_shaft: MassAt,
}

/// Whether a part belongs to a group.
type Choose = fn(&Part) -> bool;

fn of(part: &Part, families: &[&str]) -> bool {
    families.iter().any(|f| part.id.strip_prefix(f).is_some_and(|rest| rest.is_empty() || rest.starts_with('.')))
}

impl Weights {
    /// Sums them.
    pub fn of(parts: &Parts) -> Self {
        // A part belongs to the first that holds it.
        let groups: [Choose; 9] = [
            |p| of(p, &["throat", "transition"]),
            |p| of(p, &["pocket"]),
            |p| of(p, &["foot_pulley"]),
            |p| of(p, &["shaft", "key"]),
            |p| of(p, &["weight_box"]),
            |p| of(p, &["bend_pulley"]),
            |p| p.id.starts_with("bend_"),
            |p| of(p, &["weight"]),
            |p| of_part(&p.id) == Moves::TakeUp,
        ];
        let group = |index: usize| {
            let first = |p: &&Part| groups.iter().position(|holds| holds(p)).unwrap_or(groups.len()) == index;
            sum(parts.items.iter().filter(first).map(mass_at))
        };
        let bolts: f64 = parts.joints.iter().map(|j| j.mass_kg * f64::from(j.quantity)).sum();
        let still = group(groups.len());
        Self {
            casing: MassAt { kg: still.kg + bolts, ..still },
            inlets: group(0),
            pocket: group(1),
            foot_pulley: group(2),
            shaft: group(3),
            frame: group(4),
            bend_pulley: group(5),
            bend_shaft: group(6),
            loose: group(7),
            slides: group(8),
        }
    }

    /// All of it, kg: the mass of parts and bolts of the lists.
    pub fn total_kg(&self) -> f64 {
        let foot = [self.casing, self.inlets, self.pocket, self.foot_pulley, self.shaft, self.bend_pulley, self.bend_shaft];
        let all = foot.into_iter().chain([self.slides, self.frame, self.loose]);
        all.map(|m| m.kg).sum()
    }
}

/// All pieces of a part at their middle.
fn mass_at(part: &Part) -> MassAt {
    let Some(kg) = part.total_kg() else { return NONE };
    let places = centres(part);
    let middle = |axis: usize| if places.is_empty() { 0.0 } else { places.iter().map(|c| c[axis]).sum::<f64>() / places.len() as f64 };
    MassAt { kg, x_mm: middle(0), y_mm: middle(1) }
}

/// Nothing.
pub(super) const NONE: MassAt = MassAt { kg: 0.0, x_mm: 0.0, y_mm: 0.0 };

/// Masses at their common centre.
pub fn sum(all: impl IntoIterator<Item = MassAt>) -> MassAt {
    let total = all.into_iter().fold(NONE, |t, m| MassAt { kg: t.kg + m.kg, x_mm: t.x_mm + m.kg * m.x_mm, y_mm: t.y_mm + m.kg * m.y_mm });
    if total.kg > 0.0 { MassAt { kg: total.kg, x_mm: total.x_mm / total.kg, y_mm: total.y_mm / total.kg } } else { NONE }
}
