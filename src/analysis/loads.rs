//! Support loads of the base, unfactored, for the civil engineer: actions and the cases in which they act together.
//!
//! In: masses, belt pulls, pads. Out: kN on each pad by load case, each the sum of its actions. Signs: vertical + down on the pad
//! (− lifts off), horizontal + toward the up side. Two ways of standing: the foot carries trunking and
//! head (belt pull stays inside the machine), or the building carries them (the belt lifts the foot).
//! Wind, earthquake, pipes and platforms are not covered.

pub use super::actions::{Action, Kind, PadLoad, Standing};
use super::actions::{PADS, overturning};
use super::assumed::HORIZONTAL_SHARE;
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::model::Foot;
use crate::say;
use crate::say::name;
use crate::units::Unit;

/// One load case.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCase {
    /// Stable id, e.g. `on_foot_running`.
    pub id: &'static str,
    /// In plain words.
    pub name: &'static str,
    /// What stands on the foot.
    pub standing: Standing,
    /// Whether it is an accident.
    pub accidental: bool,
    /// Ids of the actions that act together, each once.
    pub actions: &'static [&'static str],
    /// Sum of the verticals, + down, kN.
    pub vertical_kn: f64,
    /// Sum of the horizontals along the machine, + toward the up side, kN.
    pub horizontal_kn: f64,
    /// Horizontal force to be taken in any direction besides, kN.
    pub any_direction_kn: f64,
    /// What that presses or lifts one pad by at the most, kN.
    pub any_pad_kn: f64,
    /// On each pad.
    pub pads: Vec<PadLoad>,
}

/// All actions and load cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Loads {
    /// Actions in a fixed order; never empty.
    pub actions: Vec<Action>,
    /// In a fixed order; never empty.
    pub cases: Vec<LoadCase>,
    /// Largest vertical on one pad, the horizontal in any direction counted, kN.
    pub largest_pad_kn: f64,
    /// Largest lift on one pad, the same, kN; 0 when no pad lifts.
    pub largest_uplift_kn: f64,
}

/// A case: id, words, what stands on the foot, the actions that act together.
type Combined = (&'static str, &'static str, Standing, &'static [&'static str]);

const CASES: &[Combined] = &[
    ("on_foot_empty", "trunking and head on the foot, empty", Standing::OnFoot, &["g_foot", "g_above"]),
    ("on_foot_running", "trunking and head on the foot, running full", Standing::OnFoot, &["g_foot", "g_above", "q_foot", "q_belt"]),
    ("on_foot_flooded", "trunking and head on the foot, foot flooded", Standing::OnFoot, &["g_foot", "g_above", "q_flooded", "q_belt"]),
    ("held_dismantled", "building carries the head, belt off, foot empty", Standing::OnBuilding, &["g_foot"]),
    ("held_running", "building carries the head, running full", Standing::OnBuilding, &["g_foot", "q_foot", "b_running"]),
    ("held_starting", "building carries the head, starting full", Standing::OnBuilding, &["g_foot", "q_foot", "b_running", "b_starting"]),
    ("held_flooded", "building carries the head, foot flooded, belt slack", Standing::OnBuilding, &["g_foot", "q_flooded"]),
    // An empty foot weighs nothing against the pull.
    ("held_blocked", "building carries the head, foot pulley blocked, drive pulls", Standing::OnBuilding, &["g_foot", "a_blocked"]),
];

impl Loads {
    /// Computes the actions and their cases.
    pub fn compute(foot: &Foot, path: &Path, tension: &Tension, masses: &Masses) -> Self {
        let actions = Action::all(foot, path, tension, masses);
        let tilt = overturning(foot);
        let cases: Vec<LoadCase> = CASES.iter().map(|case| LoadCase::of(case, &actions, tilt)).collect();
        let pads = || cases.iter().flat_map(|c| c.pads.iter().map(|p| (p.vertical_kn, c.any_pad_kn)));
        let largest_pad_kn = pads().map(|(v, any)| v + any).fold(0.0, f64::max);
        let largest_uplift_kn = pads().map(|(v, any)| any - v).fold(0.0, f64::max);
        Self { actions, cases, largest_pad_kn, largest_uplift_kn }
    }

    /// A case by its id.
    #[cfg(test)]
    pub(crate) fn case(&self, id: &str) -> Option<&LoadCase> {
        self.cases.iter().find(|c| c.id == id)
    }

    /// How hard the belt lifts one foot that the building holds, kN: lasting or in starting, and by accident; 0 where its weight is more.
    pub fn lifts_kn(&self) -> [f64; 2] {
        let most = |accidental: bool| self.cases.iter().filter(|c| c.accidental == accidental).map(|c| -c.vertical_kn).fold(0.0, f64::max);
        [most(false), most(true)]
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("loads", out);
        const FROM: &[&str] =
            &["masses.foot_empty", "masses.trunk", "masses.head", "masses.product_running", "masses.product_flooded", "tension.foot_up", "tension.foot_down"];
        for a in &self.actions {
            g.put(&format!("{}.vertical", a.id), say!("action {action}: vertical, + down", action = a.name), a.vertical_kn, Unit::KnOnBuilding, FROM, PADS);
            g.put(
                &format!("{}.horizontal", a.id),
                say!("action {action}: along the machine, + toward the up side", action = a.name),
                a.horizontal_kn,
                Unit::KnOnBuilding,
                &["tension.foot_down", "path.foot_run_middle"],
                PADS,
            );
        }
        for c in &self.cases {
            g.put(&format!("{}.vertical", c.id), say!("{case}: vertical, + down", case = c.name), c.vertical_kn, Unit::KnOnBuilding, FROM, PADS);
            g.put(
                &format!("{}.horizontal", c.id),
                say!("{case}: along the machine, + toward the up side", case = c.name),
                c.horizontal_kn,
                Unit::KnOnBuilding,
                &["tension.foot_down", "path.foot_run_middle"],
                PADS,
            );
            g.put(
                &format!("{}.any_direction", c.id),
                say!("{case}: horizontal in any direction", case = c.name),
                c.any_direction_kn,
                Unit::KnOnBuilding,
                &["assumed.horizontal_share"],
                HORIZONTAL_SHARE.source,
            );
            for p in &c.pads {
                g.put(
                    &format!("{}.{}", c.id, p.pad),
                    say!("{case}: vertical on pad {pad}, + down", case = c.name, pad = name(p.pad)),
                    p.vertical_kn,
                    Unit::KnOnBuilding,
                    FROM,
                    PADS,
                );
            }
        }
        g.put("largest_pad", "largest vertical on one pad, horizontal in any direction counted", self.largest_pad_kn, Unit::KnOnBuilding, FROM, PADS);
        g.put("largest_uplift", "largest lift on one pad, horizontal in any direction counted", self.largest_uplift_kn, Unit::KnOnBuilding, FROM, PADS);
    }
}

impl LoadCase {
    /// The sum of its actions; `tilt` is what 1 kN at 1 mm height presses one pad by.
    fn of(case: &Combined, actions: &[Action], tilt: f64) -> Self {
        let (id, name, standing, ids) = *case;
        let parts: Vec<&Action> = ids.iter().filter_map(|id| actions.iter().find(|a| a.id == *id)).collect();
        let total = |f: fn(&Action) -> f64| parts.iter().map(|a| f(a)).sum::<f64>();
        let pads = parts.first().map_or(&[][..], |a| a.pads.as_slice()).iter().enumerate().map(|(i, pad)| {
            let of = |f: fn(&PadLoad) -> f64| parts.iter().filter_map(|a| a.pads.get(i)).map(f).sum::<f64>();
            PadLoad { pad: pad.pad, vertical_kn: of(|p| p.vertical_kn), horizontal_kn: of(|p| p.horizontal_kn) }
        });
        Self {
            id,
            name,
            standing,
            accidental: parts.iter().any(|a| a.kind == Kind::Accidental),
            actions: ids,
            vertical_kn: total(|a| a.vertical_kn),
            horizontal_kn: total(|a| a.horizontal_kn),
            any_direction_kn: total(|a| a.any_direction_kn),
            any_pad_kn: total(|a| a.any_direction_kn * a.any_height_mm) * tilt,
            pads: pads.collect(),
        }
    }
}
