//! How everything that wears, or that is opened, comes off: an order of straight moves for each.
//!
//! In: spec, model, parts, take-up at its lowest. Out: ways, each with its steps. Foot pulley and shaft have theirs in
//! [`removal`](super::removal); the bend pulley goes out after them, through the same panel. Wear plates there are none.

use super::removal::{COVER, Group, Move, Out, SIDES, Step, fasteners, items, kg, panel, steps};
use crate::formulas::removal::{LEAST, PAST};
use crate::model::Foot;
use crate::model::openings::{Opening, OpeningKind};
use crate::model::pulleys::PulleyBody;
use crate::parts::Parts;
use crate::parts::shape::Shape;
use crate::say;
use crate::say::mm;
use crate::spec::Spec;
use crate::spec::rotating::TakeUpKind;
use glam::DVec3;

/// How something comes off.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// What: `foot_pulley`, `bend_pulley`, `bearing.near`, the id of an opening.
    pub id: String,
    /// Its steps, one after the other.
    pub steps: Vec<Step>,
    /// Other steps that do as well, where something stands before it.
    pub otherwise: Vec<Vec<Step>>,
}

fn way(id: impl Into<String>, steps: Vec<Step>) -> Way {
    Way { id: id.into(), steps, otherwise: Vec::new() }
}

/// All ways of a machine.
pub fn ways(spec: &Spec, foot: &Foot, parts: &Parts) -> Vec<Way> {
    let out = Out::new(spec, foot, parts);
    let mut all = Vec::new();
    let pulley = steps(spec, foot, parts);
    if let Some(panel) = panel(foot).filter(|_| !pulley.is_empty()) {
        if let Some(bend) = foot.pulleys.bend.as_ref().filter(|bend| passes(panel, bend)) {
            let steps = pulley.iter().cloned().chain(out.bend_pulley(panel, bend)).collect();
            all.push(way("bend_pulley", steps));
        }
        all.push(way("foot_pulley", pulley));
    }
    for ((side, to), id) in SIDES.into_iter().zip(["near", "far"]) {
        let here = Out { side, to, ..out };
        all.push(way(format!("bearing.{id}"), vec![here.one_bearing()]));
        if foot.rotating.take_up == TakeUpKind::Gravity {
            all.push(way(format!("weights.{id}"), vec![here.weights()]));
        }
        if foot.pulleys.bend.is_some() {
            all.push(way(format!("bend_bearing.{id}"), vec![here.bend_bearing()]));
        }
    }
    let closed = foot.openings.iter().filter(|o| o.kind != OpeningKind::Removal && parts.part(&format!("{}.leaf", o.id)).is_some());
    all.extend(closed.map(|o| out.opening(&o.id)));
    if parts.part("pocket.lid").is_some() {
        all.push(way("pocket", vec![out.lid()]));
    }
    all
}

/// Whether a bare pulley goes through a panel's opening.
fn passes(panel: &Opening, pulley: &PulleyBody) -> bool {
    panel.up.size() >= pulley.diameter + 2.0 * LEAST && panel.across.size() >= pulley.face + 2.0 * LEAST
}

/// How far a cover is lifted off before it is moved aside, mm.
const OFF: f64 = 35.0;

impl Out<'_> {
    /// A bearing of the foot shaft by itself, the other one stays; the felt ring behind it is slit.
    fn one_bearing(&self) -> Step {
        let (items, _) = self.here(&["bearing"]);
        Step {
            said: say!(
                "On the {side}: hold the foot pulley on timber or in slings, take guard and speed target off the shaft's end, loosen the set screws, unbolt the bearing and draw it off the shaft ({items}); behind it the felt ring, which is slit, comes out of the sliding plate.",
                side = self.to,
                items = items
            ),
            undone: self.undone(&["foot bearing"], &["shaft_felt"]),
            moves: vec![Move { group: Group::on(self.side, &["bearing"]), by: self.outward(self.stub() + PAST) }],
            off: true,
        }
    }

    /// Ends of the bend pulley's shaft from the belt's middle, mm.
    fn bend_ends(&self) -> [f64; 2] {
        match self.parts.part("bend_shaft").and_then(|p| p.shape.as_ref()) {
            Some(Shape::Shaft(shaft)) => shaft.seats.iter().fold([0.0, 0.0], |[low, high], s| [s.from.min(low), s.to.max(high)]),
            _ => [0.0, 0.0],
        }
    }

    /// How far the bend pulley's shaft stands out of the casing, mm.
    fn bend_stub(&self) -> f64 {
        self.bend_ends()[1] - self.foot.casing.width.high - self.foot.casing.plate
    }

    fn bend_bearing(&self) -> Step {
        let (items, _) = self.here(&["bend_bearing"]);
        Step {
            said: say!(
                "On the {side}: hold the bend pulley in slings from above, loosen its set screws, unbolt its bearing there and draw it off the shaft ({items}).",
                side = self.to,
                items = items
            ),
            undone: self.undone(&["bend pulley bearing"], &[]),
            moves: vec![Move { group: Group::on(self.side, &["bend_bearing"]), by: self.outward(self.bend_stub() + PAST) }],
            off: true,
        }
    }

    /// The bend pulley once the foot pulley is out.
    fn bend_pulley(&self, panel: &Opening, bend: &PulleyBody) -> [Step; 3] {
        let bearing = self.bend_bearing();
        let (said, mass) = items(self.parts, &["bend_shaft", "bend_key"], 0.0);
        let [low, high] = self.bend_ends();
        let by = high - low - self.bend_stub() + PAST;
        let shaft = Step {
            said: say!(
                "Take the halves of both collars off, which neither keys nor panel let pass; press the bend pulley's shaft with its keys out of the hubs and draw it out to the {side} by {by} ({items}: {mass}).",
                side = self.to,
                by = mm(by),
                items = said,
                mass = kg(mass)
            ),
            undone: Group::all(&["bend_collar"]),
            moves: vec![Move { group: Group::all(&["bend_shaft", "bend_key"]), by: self.outward(by) }],
            off: true,
        };
        let (said, mass) = items(self.parts, &["bend_pulley"], 0.0);
        let (end, words, wall) = self.end(panel);
        let level = panel.up.middle().max(self.foot.casing.bottom_face + bend.radius() + LEAST);
        let moved = |by: DVec3| Move { group: Group::all(&["bend_pulley"]), by };
        let pulley = Step {
            said: say!(
                "Bring the bare bend pulley over the place of the foot pulley, lower it by {down} and take it out through the panel in the {end} ({items}: {mass}).",
                down = mm(bend.centre.z - level),
                end = words,
                items = said,
                mass = kg(mass)
            ),
            undone: Group::all(&[]),
            moves: vec![moved(DVec3::X * -bend.centre.x), moved(DVec3::Z * (level - bend.centre.z)), moved(DVec3::X * end * (wall + bend.radius() + PAST))],
            off: true,
        };
        [bearing, shaft, pulley]
    }

    /// What closes an opening: its leaf or cover, then the guard behind it. Straight off its wall, or a little and then aside.
    fn opening(&self, id: &str) -> Way {
        let Some(place) = self.parts.part(&format!("{id}.leaf")).and_then(|p| p.placements.first()) else { return way(id, Vec::new()) };
        let [out, up, right] = [place.toward, place.up, place.right].map(DVec3::from_array);
        let steps = |moves: &[DVec3]| {
            let mut steps = vec![self.taken_off(&["leaf", "gasket", "grip"].map(|piece| format!("{id}.{piece}")), id, moves)];
            if self.parts.part(&format!("{id}.mesh_frame")).is_some() {
                let guard = self.taken_off(&["mesh_frame", "mesh"].map(|piece| format!("{id}.{piece}")), &format!("{id} mesh"), moves);
                steps.push(guard);
            }
            steps
        };
        let aside = [up, right, -right, -up].map(|way| steps(&[out * OFF, way * COVER]));
        Way { id: id.into(), steps: steps(&[out * COVER]), otherwise: aside.into() }
    }

    /// The lid of the shovel pocket is drawn outward in its own plane: over it a sensor panel stands out of the wall.
    fn lid(&self) -> Step {
        let along = self.parts.part("pocket.lid").and_then(|p| p.placements.first()).map_or(DVec3::ZERO, |p| DVec3::from_array(p.up));
        let reach = self.foot.pocket.as_ref().map_or(0.0, |p| p.reach);
        self.taken_off(&["lid", "gasket", "grip"].map(|piece| format!("pocket.{piece}")), "pocket lid", &[along * (reach + COVER)])
    }

    /// Something by its bolts, moved one way after the other.
    fn taken_off(&self, families: &[String], bolts: &str, moves: &[DVec3]) -> Step {
        let refs: Vec<&str> = families.iter().map(String::as_str).collect();
        let (said, mass) = items(self.parts, &refs, 0.0);
        let mut undone = Group::all(&[]);
        undone.families = fasteners(self.parts, &[bolts]);
        Step {
            said: say!("Take the bolts out and lift it off ({items}: {mass}).", items = said, mass = kg(mass)),
            undone,
            moves: moves.iter().map(|by| Move { group: Group::all(&refs), by: *by }).collect(),
            off: true,
        }
    }
}
