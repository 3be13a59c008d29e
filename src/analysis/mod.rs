//! Formulas applied to spec and model; every result keeps its name, value, unit, inputs and source.
//!
//! One file a topic: a struct with the numbers that rules and sheets use, and a `record` function
//! that lists them as [`Quantity`]s for `results.json` and the report, called by [`Results::quantities`] alone. What no spec key says stands in
//! [`assumed`]. Nothing here judges.

pub mod actions;
pub mod assumed;
pub mod bearing;
pub mod bend;
pub mod capacity;
pub mod cases;
pub mod clearances;
pub mod discharge;
pub mod gravity;
pub mod guides;
pub mod lifting;
pub mod loads;
pub mod masses;
pub mod motion;
pub mod net;
pub mod path;
pub mod pit;
pub mod plugging;
pub mod power;
pub mod quantity;
pub mod residue;
pub mod retained;
pub mod screw;
pub mod section;
pub mod shaft;
pub mod stretch;
pub mod tension;
pub mod throat;
pub mod weights;

#[cfg(test)]
mod starters_test;

use crate::model::Foot;
use crate::parts::Parts;
use crate::spec::Spec;
pub(crate) use quantity::Group;
pub use quantity::Quantity;

/// Everything computed for one foot.
#[derive(Debug, Clone, PartialEq)]
pub struct Results {
    /// What the buckets carry against what is wanted.
    pub capacity: capacity::Capacity,
    /// Belt path: lengths, wraps, angles.
    pub path: path::Path,
    /// Poles and the kind of discharge at the head.
    pub discharge: discharge::Discharge,
    /// What a bucket can hold against height in the foot, and what the sill costs.
    pub retained: retained::Retained,
    /// Gaps between what moves and what stands.
    pub clearances: clearances::Clearances,
    /// Shaft speeds and sensor settings.
    pub motion: motion::Motion,
    /// Free volume of the foot and the time that fills it.
    pub plugging: plugging::Plugging,
    /// What lies under the bucket tips.
    pub residue: residue::Residue,
    /// Throats, up side first; empty without an inlet.
    pub throats: Vec<throat::Throat>,
    /// Power by feed side.
    pub power: power::Power,
    /// Masses.
    pub masses: masses::Masses,
    /// Tensions from head to foot.
    pub tension: tension::Tension,
    /// Stretch and travel.
    pub stretch: stretch::Stretch,
    /// Bend pulley, if there is one.
    pub bend: Option<bend::Bend>,
    /// Belt pulls at the foot by load case.
    pub cases: cases::Cases,
    /// Foot shaft.
    pub shaft: shaft::Shaft,
    /// Foot bearings.
    pub bearing: bearing::Bearing,
    /// Take-up screws, for a screw take-up.
    pub screw: Option<screw::Screw>,
    /// Weights, for a gravity take-up.
    pub gravity: Option<gravity::Gravity>,
    /// Mass on the hook and what the lugs bear.
    pub lifting: lifting::Lifting,
    /// Support loads.
    pub loads: loads::Loads,
    /// Pit, if there is one.
    pub pit: Option<pit::Pit>,
    /// Net capacity and what limits it.
    pub net: net::Net,
}

impl Results {
    /// Every number and every assumption, in the order of the topics. Listed when asked: verdicts need none of it.
    pub fn quantities(&self) -> Vec<Quantity> {
        let mut quantities = Vec::new();
        let out = &mut quantities;
        self.capacity.record(out);
        self.path.record(out);
        self.discharge.record(out);
        self.retained.record(out);
        self.clearances.record(out);
        self.motion.record(out);
        self.plugging.record(out);
        self.residue.record(out);
        self.throats.iter().for_each(|t| t.record(out));
        self.net.record(out);
        self.power.record(out);
        self.tension.record(out);
        self.stretch.record(out);
        if let Some(bend) = &self.bend {
            bend.record(out);
        }
        self.cases.record(out);
        self.shaft.record(out);
        self.bearing.record(out);
        if let Some(screw) = &self.screw {
            screw.record(out);
        }
        if let Some(gravity) = &self.gravity {
            gravity.record(out);
        }
        self.masses.record(out);
        self.lifting.record(out);
        self.loads.record(out);
        if let Some(pit) = &self.pit {
            pit.record(out);
        }
        out.extend(assumed::ALL.iter().map(assumed::Assumption::quantity));
        quantities
    }
    /// The throat of a side, if there is an inlet.
    #[cfg(test)]
    pub(crate) fn throat(&self, side: crate::model::inlets::FeedSide) -> Option<&throat::Throat> {
        self.throats.iter().find(|t| t.side == side)
    }
}

/// Computes everything; the parts give their masses. It cannot fail: where a result does not exist for a machine (no bend pulley,
/// no pit) its field is `None` and it records nothing.
pub fn analyse(spec: &Spec, foot: &Foot, parts: &Parts) -> Results {
    let capacity = capacity::Capacity::compute(spec, foot);
    let path = path::Path::compute(foot);
    let discharge = discharge::Discharge::compute(spec, foot);
    let retained = retained::Retained::compute(spec, foot, &capacity);
    let clearances = clearances::Clearances::compute(foot);
    let motion = motion::Motion::compute(spec, foot);
    let space = section::FreeSpace::of(spec, foot);
    let plugging = plugging::Plugging::compute(spec, foot, &space);
    let throats: Vec<throat::Throat> = foot.inlets.iter().map(|i| throat::Throat::compute(spec, foot, i)).collect();
    let residue = residue::Residue::compute(spec, foot);
    let power = power::Power::compute(spec, foot, &capacity, &path);
    let masses = masses::Masses::compute(spec, foot, &space, (&capacity, &path, &power), &weights::Weights::of(parts));
    let tension = tension::Tension::compute(spec, foot, &capacity, &path, &power, &masses);
    let stretch = stretch::Stretch::compute(spec, foot, &path);
    let bend = bend::Bend::compute(spec, foot, &capacity, &path, &tension);
    let cases = cases::Cases::compute(spec, &path, &tension, &masses);
    let shaft = shaft::Shaft::compute(spec, foot, &path, (&tension, &cases), &masses);
    let bearing = bearing::Bearing::compute(spec, &motion, &shaft, &cases);
    let screw = screw::Screw::compute(spec, foot, &path, (&tension, &cases), &masses);
    let gravity = gravity::Gravity::compute(spec, foot, &path, (&tension, &cases, power.dredging_force_n), &masses);
    let lifting = lifting::Lifting::compute(spec, foot, parts, &masses);
    let loads = loads::Loads::compute(foot, &path, &tension, &masses);
    let pit = pit::Pit::compute(spec, foot, &loads);

    let net = net::Net::compute(&capacity, &retained, &throats, &discharge);
    Results {
        capacity,
        path,
        discharge,
        retained,
        clearances,
        motion,
        plugging,
        residue,
        throats,
        power,
        masses,
        tension,
        stretch,
        bend,
        cases,
        shaft,
        bearing,
        screw,
        gravity,
        lifting,
        loads,
        pit,
        net,
    }
}
