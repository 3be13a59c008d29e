//! How the foot pulley is taken out: the moves in their order, each with what is moved, in which direction and how far.
//!
//! In: spec, model, parts, take-up at its lowest. Out: steps in words with the bodies that they are about. The shaft is drawn along its
//! axis through the slot on the side where the pit has room for it; the bare pulley goes through the panel. That nothing is in the way
//! is shown by the proof of removal, not here.

use super::moves::is_of;
use crate::formulas::removal::{LEAST, PAST};
use crate::model::Foot;
use crate::model::openings::{Opening, OpeningKind};
use crate::parts::Parts;
use crate::parts::shape::Shape;
use crate::say;
use crate::say::{Amount, Statement, amount, mm, name};
use crate::spec::Spec;
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;
use crate::spec::rotating::TakeUpKind;
use crate::units::Unit;
use glam::DVec3;

/// How far a cover is lifted off before it is swung aside, mm.
pub(super) const COVER: f64 = 150.0;
/// A lift of no more than this is not spoken of, mm: the pulley lies on timber.
const SMALL: f64 = 10.0;

/// Bodies by family, of one side of the machine alone where it is said: near or far.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Families by their ids.
    pub families: Vec<String>,
    /// Pieces on the near side (1), on the far side (−1), or all (0).
    pub side: f64,
}

impl Group {
    pub(super) fn all(families: &[&str]) -> Self {
        Self { families: families.iter().map(|f| (*f).to_string()).collect(), side: 0.0 }
    }
    pub(super) fn on(side: f64, families: &[&str]) -> Self {
        Self { side, ..Self::all(families) }
    }
    /// Whether a piece whose middle is so far from the belt's middle plane belongs to it.
    pub fn takes(&self, id: &str, y: f64) -> bool {
        self.families.iter().any(|f| is_of(id, f)) && self.side * y >= 0.0
    }
}

/// A straight move of bodies together.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// What is moved.
    pub group: Group,
    /// Way, mm.
    pub by: DVec3,
}

/// A step of taking apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is done.
    pub said: Statement,
    /// What is undone before: bolts, nuts, what is soft or flexible. It is gone from here on.
    pub undone: Group,
    /// The moves, one after the other.
    pub moves: Vec<Move>,
    /// Whether what is moved is gone afterwards.
    pub off: bool,
}

/// Bolts, nuts and washers of the joints with these purposes.
pub(super) fn fasteners(parts: &Parts, features: &[&str]) -> Vec<String> {
    let of = parts.joints.iter().enumerate().filter(|(_, j)| features.contains(&j.feature.as_str())).map(|(n, _)| n + 1);
    of.flat_map(|n| ["bolt", "nut", "washer"].map(|what| format!("{what}.{n}"))).collect()
}

/// Items of some families by number, and the mass of their pieces on one side (0 all), kg: `items 461, 464`.
pub(super) fn items(parts: &Parts, families: &[&str], side: f64) -> (Statement, f64) {
    let own = parts.items.iter().filter(|p| families.iter().any(|f| is_of(&p.id, f)));
    let (mut numbers, mut mass) = (Vec::new(), 0.0);
    for part in own {
        let pieces = part.placements.iter().filter(|place| side * place.origin[1] >= 0.0).count();
        if pieces > 0 || part.placements.is_empty() {
            numbers.push(part.item.to_string());
            mass += part.mass_kg.map_or(0.0, |kg| kg * pieces as f64);
        }
    }
    let said = name(numbers.join(", "));
    (if numbers.len() == 1 { say!("item {numbers}", numbers = said) } else { say!("items {numbers}", numbers = said) }, mass)
}

/// A mass as it is lifted.
pub(super) fn kg(mass: f64) -> Amount {
    amount(mass, Unit::Kg, u8::from(mass < 100.0))
}

/// What a way out is worked out from.
#[derive(Clone, Copy)]
pub(super) struct Out<'a> {
    pub(super) foot: &'a Foot,
    pub(super) parts: &'a Parts,
    /// Toward the side that the shaft is drawn to: 1 near, −1 far.
    pub(super) side: f64,
    /// That side in words.
    pub(super) to: &'static str,
}

/// Both sides in words, by what they are in numbers.
pub(super) const SIDES: [(f64, &str); 2] = [(1.0, "near side"), (-1.0, "far side")];

/// The panel through which the pulley comes out.
pub(super) fn panel(foot: &Foot) -> Option<&Opening> {
    foot.openings.iter().find(|o| o.kind == OpeningKind::Removal)
}

/// What turns in the way of the belt: all of it is one band with its buckets.
const BELT: [&str; 4] = ["belt", "belt_joint", "bucket", "bucket_bolt"];
/// What goes out with the pulley.
const PULLEY: [&str; 2] = ["foot_pulley", "collar"];

/// The steps; none where the machine has no panel for it.
pub fn steps(spec: &Spec, foot: &Foot, parts: &Parts) -> Vec<Step> {
    let Some(panel) = panel(foot) else { return Vec::new() };
    let out = Out::new(spec, foot, parts);
    let mut all = vec![out.belt(), out.cover()];
    if foot.rotating.take_up == TakeUpKind::Gravity {
        all.push(out.weights());
    }
    all.extend([out.rod(), out.bearing(), out.slide(), out.shaft(), out.pulley(panel)]);
    all
}

impl<'a> Out<'a> {
    /// Toward the side that the spec wants the shaft drawn to.
    pub(super) fn new(spec: &Spec, foot: &'a Foot, parts: &'a Parts) -> Self {
        let (side, to) = SIDES[usize::from(spec.pit.shaft_pull.value == Side::Far)];
        Self { foot, parts, side, to }
    }
    /// Undone bolts of the side that the shaft is drawn to.
    pub(super) fn undone(&self, features: &[&str], more: &[&str]) -> Group {
        let mut group = Group::on(self.side, more);
        group.families.extend(fasteners(self.parts, features));
        group
    }
    /// Items of the side that the shaft is drawn to, and their mass, kg.
    pub(super) fn here(&self, families: &[&str]) -> (Statement, f64) {
        items(self.parts, families, self.side)
    }
    pub(super) fn outward(&self, by: f64) -> DVec3 {
        DVec3::Y * self.side * by
    }
    /// From the outer face of the side plate to the end of the shaft, mm.
    pub(super) fn stub(&self) -> f64 {
        self.foot.rotating.shaft_ends.high - self.foot.casing.width.high - self.foot.casing.plate
    }

    fn belt(&self) -> Step {
        let mut undone = Group::all(&BELT);
        undone.families.push("bucket_nut".into());
        Step {
            said: say!("Empty the foot, lock the drive out, bring the take-up to its lowest. Open the belt at its joint and draw it out of the foot."),
            undone,
            moves: Vec::new(),
            off: true,
        }
    }

    /// The panel's cover with what is on it.
    pub(super) fn cover(&self) -> Step {
        let families = ["removal.leaf", "removal.gasket", "removal.grip", "removal.rib"];
        let (items, mass) = items(self.parts, &families, 0.0);
        let leaf = self.parts.part("removal.leaf").and_then(|p| p.placements.first());
        let out = leaf.map_or(DVec3::ZERO, |p| DVec3::from_array(p.toward));
        let mut undone = Group::all(&[]);
        undone.families = fasteners(self.parts, &["removal"]);
        Step {
            said: say!(
                "Sling the cover of the removal panel ({items}: {mass}) so that it cannot swing, take out its bolts, two of the upper edge last, and lift it off.",
                items = items,
                mass = kg(mass)
            ),
            undone,
            moves: vec![Move { group: Group::all(&families), by: out * COVER }],
            off: true,
        }
    }

    fn rod(&self) -> Step {
        let (items, _) = self.here(&["take_up.rod"]);
        let low = self.parts.part("take_up.rod").and_then(|p| match p.shape {
            Some(Shape::Rod { length, .. }) => p.placements.first().map(|at| at.origin[2] - length / 2.0),
            _ => None,
        });
        // Clear of the sliding plate's edge, which stands over its lug.
        let by = low.map_or(0.0, |low| (self.foot.rotating.sliding_plate.z.high - low + PAST).ceil());
        // The nuts at the lug come off; the rod is turned up through those at the bracket.
        let moved = Move { group: Group::on(self.side, &["take_up.rod"]), by: DVec3::Z * by };
        Step {
            said: say!(
                "On the {side}: hold the foot pulley on timber or in slings; take the nuts off the lug and turn the rod up out of it by {by} ({items}).",
                side = self.to,
                by = mm(by),
                items = items
            ),
            undone: Group::on(self.side, &["take_up.nut", "take_up.buffer", "take_up.disc"]),
            moves: vec![moved],
            off: false,
        }
    }

    pub(super) fn weights(&self) -> Step {
        let (items, mass) = self.here(&["weight_box"]);
        let own = self.foot.rotating.weight_box;
        let by = own.map_or(0.0, |b| b.y.high - self.foot.casing.width.high - self.foot.casing.plate + PAST);
        Step {
            said: say!(
                "Lock the take-up: turn the nuts over and under the shelf against it on both sides. On the {side}: empty the weight boxes and take that one off, slung by the holes in its ends ({items}: {mass}).",
                side = self.to,
                items = items,
                mass = kg(mass)
            ),
            undone: self.undone(&["weight box"], &["weight"]),
            moves: vec![Move { group: Group::on(self.side, &["weight_box"]), by: self.outward(by) }],
            off: true,
        }
    }

    fn bearing(&self) -> Step {
        let (items, _) = self.here(&["bearing"]);
        Step {
            said: say!(
                "Take guard and speed target off the shaft's end. Loosen the set screws of both bearings and of the collars; take the halves of the collar on the {side} off through the panel, which the keys do not pass; unbolt the bearing there and draw it off the shaft ({items}).",
                side = self.to,
                items = items
            ),
            undone: self.undone(&["foot bearing"], &["shaft_felt", "collar"]),
            moves: vec![Move { group: Group::on(self.side, &["bearing"]), by: self.outward(self.stub() + PAST) }],
            off: true,
        }
    }

    fn slide(&self) -> Step {
        let guides = ["guide.retainer", "guide.spacer"];
        let plate = ["sliding_plate", "rod_lug", "bearing_bracket"];
        let (items, _) = self.here(&[&guides[..], &plate].concat());
        Step {
            said: say!(
                "Take off the guides and the sliding plate of the {side} ({items}; the plate with what is welded to it {mass}, slung at the lug of its rod): the keys pass the slot, not always the plate's hole.",
                side = self.to,
                items = items,
                mass = kg(self.here(&plate).1)
            ),
            undone: self.undone(&["guide of the sliding plate"], &[]),
            moves: vec![
                Move { group: Group::on(self.side, &guides[..1]), by: self.outward(self.stub() + PAST) },
                Move { group: Group::on(self.side, &guides[1..]), by: self.outward(self.stub() + PAST) },
                Move { group: Group::on(self.side, &plate), by: self.outward(self.stub() + PAST) },
            ],
            off: true,
        }
    }

    fn shaft(&self) -> Step {
        let (items, mass) = items(self.parts, &["shaft", "key"], 0.0);
        let ends = self.foot.rotating.shaft_ends;
        let by = ends.high - ends.low - self.stub() + PAST;
        Step {
            said: say!(
                "Press the shaft with its keys out of the hubs, which hold them tight, and draw it out to the {side} by {by} ({items}: {mass}).",
                side = self.to,
                by = mm(by),
                items = items,
                mass = kg(mass)
            ),
            undone: Group::all(&[]),
            moves: vec![Move { group: Group::all(&["shaft", "key"]), by: self.outward(by) }],
            off: true,
        }
    }

    /// Toward the panel's end: its sense along the machine, its word, how far its wall is from the foot shaft, mm.
    pub(super) fn end(&self, panel: &Opening) -> (f64, &'static str, f64) {
        match panel.wall {
            Wall::UpEnd => (1.0, "up end", self.foot.casing.up_face + self.foot.casing.plate),
            _ => (-1.0, "down end", -self.foot.casing.down_outer_x(panel.up.high)),
        }
    }

    fn pulley(&self, panel: &Opening) -> Step {
        let (foot, pulley) = (self.foot, &self.foot.pulleys.foot);
        // One of the two collars came off before.
        let (items, all) = items(self.parts, &PULLEY, 0.0);
        let mass = all - self.here(&["collar"]).1;
        let lowest = foot.casing.bottom_face + pulley.radius() + LEAST;
        let lift = panel.up.middle().max(lowest) - foot.shaft_lowest;
        let (end, words, wall) = self.end(panel);
        let said = if lift.abs() < SMALL {
            say!(
                "Take the bare foot pulley with its other collar out through the panel in the {end} ({items}: {mass}).",
                end = words,
                items = items,
                mass = kg(mass)
            )
        } else if lift > 0.0 {
            say!(
                "Lift the bare foot pulley with its other collar by {lift} and take it out through the panel in the {end} ({items}: {mass}).",
                lift = mm(lift),
                end = words,
                items = items,
                mass = kg(mass)
            )
        } else {
            say!(
                "Lower the bare foot pulley with its other collar by {lift} and take it out through the panel in the {end} ({items}: {mass}).",
                lift = mm(-lift),
                end = words,
                items = items,
                mass = kg(mass)
            )
        };
        let moved = |by: DVec3| Move { group: Group::all(&PULLEY), by };
        Step { said, undone: Group::all(&[]), moves: vec![moved(DVec3::Z * lift), moved(DVec3::X * end * (wall + pulley.radius() + PAST))], off: true }
    }
}
