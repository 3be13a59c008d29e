//! The trade's rules: one file each, all of them in [`ALL`].
//!
//! A rule looks at spec, model and results and returns findings: verdict, value, limit, what would
//! pass, source, spec path. It changes nothing. A rule that has nothing to say about a machine
//! (no bend pulley, no pit) returns no finding. All changes that one rule proposes, written into the
//! spec together, make that rule pass; they may make another rule object.

pub mod finding;
pub mod findings;
#[cfg(test)]
mod trial;

pub use finding::{Amount, Change, Finding, Verdict};
pub use findings::{Counts, Findings, Release, check};

use crate::analysis::Results;
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::tables::access::{self, Access};

/// Declares the rules: `file` holds `RULE`, whose id is the file's name with hyphens.
macro_rules! rules {
    ($($file:ident),+ $(,)?) => {
        $(mod $file;)+

        /// Every rule, by topic: inlets, bucket and belt, pulleys, shaft, take-up, casing and openings, monitoring, pit, cautions.
        pub const ALL: &[Rule] = &[$($file::RULE),+];
    };
}

rules!(
    inlet_none,
    inlet_up_sill,
    inlet_up_sill_highest,
    inlet_down_sill,
    inlet_side,
    inlet_opening,
    throat_width,
    throat_flow,
    throat_slope,
    throat_lump,
    throat_impact,
    shovel_pocket,
    shovel_pocket_shape,
    capacity_rated,
    capacity_fill,
    discharge_kind,
    belt_speed,
    bucket_spacing,
    bucket_clearance,
    belt_width,
    belt_strength,
    belt_conductive,
    belt_pulley_face,
    foot_pulley_minimum,
    foot_pulley_size,
    foot_pulley_deep_pit,
    bend_pulley_diameter,
    bend_angle,
    bend_touches,
    bend_clearance,
    bend_shaft,
    foot_tension,
    take_up_travel,
    slide_above_floor,
    shaft_stress,
    shaft_slope,
    bearing_life,
    bearing_bore,
    bearing_location,
    bearing_centres,
    screw_stress,
    screw_buckling,
    screw_self_locking,
    screw_torque,
    gravity_mass,
    gravity_box,
    casing_height,
    plate_thickness,
    casing_flange,
    boot_access,
    door_mesh,
    mesh_distance,
    openings_overlap,
    clean_out,
    sensor_panels,
    alignment_monitor,
    motion_sensor,
    motion_slip,
    tapped_shaft_end,
    shaft_end_guard,
    time_to_plug,
    pit_clearance,
    pit_shaft_pull,
    pit_headroom,
    pit_depth_from_feed,
    pit_feed_slope,
    pit_feed_opening,
    pit_sump,
    pit_floor_fall,
    pit_access,
    pit_ladder,
    pit_stair,
    pit_way_room,
    pit_rail,
    pit_rail_height,
    pit_hatch,
    pit_uplift,
    pit_confined_space,
    dust_explosion,
);

/// Everything a rule may look at.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The settled spec.
    pub spec: &'a Spec,
    /// The model.
    pub foot: &'a Foot,
    /// The results.
    pub results: &'a Results,
}

impl Case<'_> {
    /// Whether the product's dust can burn or explode.
    pub fn combustible(&self) -> bool {
        self.spec.product.combustible.value
    }
    /// A verdict that a combustible dust raises to `Fail`.
    pub fn warn_or_fail_for_dust(&self) -> Verdict {
        if self.combustible() { Verdict::Fail } else { Verdict::Warn }
    }
    /// Whether US federal regulations are applied.
    pub fn us(&self) -> bool {
        self.spec.us()
    }
    /// The access limits of the jurisdiction.
    pub fn access(&self) -> &'static Access {
        access::access(if self.us() { access::Jurisdiction::Osha } else { access::Jurisdiction::Iso })
    }
}

/// A rule of the trade.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Stable id: topic and subject in lower case with a hyphen, e.g. `inlet-up-sill`.
    pub id: &'static str,
    /// Title in a few words.
    pub title: &'static str,
    /// What is looked at.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What would pass, in words.
    pub remedy: &'static str,
    /// Where it comes from.
    pub source: Source,
    /// Looks at a machine.
    pub check: fn(&Case<'_>) -> Vec<Finding>,
}

impl Rule {
    /// A finding of this rule about a spec path, with the rule's own source.
    fn finds(&self, verdict: Verdict, path: impl Into<String>, message: impl Into<String>) -> Finding {
        Finding { rule: self.id, verdict, message: message.into(), value: None, limit: None, would_pass: Vec::new(), path: path.into(), source: self.source }
    }
}

/// The rule with this id.
pub fn find(id: &str) -> Option<&'static Rule> {
    ALL.iter().find(|r| r.id == id)
}
