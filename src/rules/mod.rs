//! The trade's rules: one file each, all of them in [`ALL`].
//!
//! A rule looks at spec, model, results and parts and returns findings: verdict, value, limit, what would
//! pass, source, spec path. It changes nothing. A rule that has nothing to say about a machine
//! (no bend pulley, no pit) returns no finding. All changes that one finding
//! proposes, written into the spec together, make that finding pass, and all of one rule make that rule pass; they may make
//! another rule object.

mod alignment_monitor;
mod back_legging;
mod bearing_bore;
mod bearing_centres;
mod bearing_life;
mod bearing_location;
mod bearing_static;
mod belt_conductive;
mod belt_pulley_face;
mod belt_speed;
mod belt_strength;
mod belt_width;
mod bend_angle;
mod bend_clearance;
mod bend_pulley_diameter;
mod bend_shaft;
mod bend_touches;
mod boot_access;
mod bucket_clearance;
mod bucket_spacing;
mod bucket_volume;
mod can_be_made;
mod capacity_fill;
mod capacity_net;
mod capacity_rated;
mod casing_flange;
mod casing_height;
mod clean_out;
pub mod deviations;
mod discharge_kind;
mod door_mesh;
mod door_view;
mod dust_explosion;
mod empties_clean;
pub mod finding;
pub mod findings;
mod foot_pulley_deep_pit;
mod foot_pulley_minimum;
mod foot_pulley_size;
mod foot_tension;
mod gravity_box;
mod gravity_guides;
mod gravity_mass;
mod gravity_stop;
mod inlet_down_sill;
mod inlet_none;
mod inlet_opening;
mod inlet_side;
mod inlet_up_sill;
mod inlet_up_sill_highest;
mod lifting_points;
mod mesh_distance;
mod motion_sensor;
mod motion_slip;
mod openings_overlap;
mod pit_access;
mod pit_cast_in;
mod pit_clearance;
mod pit_confined_space;
mod pit_depth_from_feed;
mod pit_feed_opening;
mod pit_feed_slope;
mod pit_floor_fall;
mod pit_hatch;
mod pit_headroom;
mod pit_keep_clear;
mod pit_ladder;
mod pit_rail;
mod pit_rail_height;
mod pit_shaft_pull;
mod pit_stair;
mod pit_sump;
mod pit_uplift;
mod pit_way_room;
mod plate_thickness;
mod pulley_comes_out;
mod rule;
mod screw_buckling;
mod screw_holders;
mod screw_self_locking;
mod screw_stress;
mod screw_torque;
mod sensor_panels;
mod shaft_end_guard;
mod shaft_slope;
mod shaft_stress;
mod shovel_pocket;
mod shovel_pocket_shape;
mod slide_above_floor;
mod take_up_covers;
mod take_up_travel;
mod tapped_shaft_end;
mod throat_flow;
mod throat_impact;
mod throat_lump;
mod throat_room;
mod throat_slope;
mod throat_width;
mod time_to_plug;
mod tools_reach;
#[cfg(test)]
mod trial;
mod wall_patches;
mod wear_parts_come_out;

pub use finding::{Accepted, Change, Finding, Standing, Verdict};
pub use findings::{Counts, Findings, Judgement, Release, Verdicts, check, judge};
pub use rule::{Case, Rule, Wanted};

/// Every rule, by topic: inlets, bucket and belt, pulleys, shaft, take-up, casing and openings, monitoring, pit, cautions.
pub const ALL: &[Rule] = &[
    inlet_none::RULE,
    inlet_up_sill::RULE,
    inlet_up_sill_highest::RULE,
    inlet_down_sill::RULE,
    inlet_side::RULE,
    inlet_opening::RULE,
    throat_width::RULE,
    throat_flow::RULE,
    throat_slope::RULE,
    throat_lump::RULE,
    throat_room::RULE,
    throat_impact::RULE,
    shovel_pocket::RULE,
    shovel_pocket_shape::RULE,
    capacity_rated::RULE,
    capacity_fill::RULE,
    capacity_net::RULE,
    discharge_kind::RULE,
    back_legging::RULE,
    belt_speed::RULE,
    bucket_spacing::RULE,
    bucket_volume::RULE,
    bucket_clearance::RULE,
    belt_width::RULE,
    belt_strength::RULE,
    belt_conductive::RULE,
    belt_pulley_face::RULE,
    foot_pulley_minimum::RULE,
    foot_pulley_size::RULE,
    foot_pulley_deep_pit::RULE,
    bend_pulley_diameter::RULE,
    bend_angle::RULE,
    bend_touches::RULE,
    bend_clearance::RULE,
    bend_shaft::RULE,
    foot_tension::RULE,
    take_up_travel::RULE,
    take_up_covers::RULE,
    slide_above_floor::RULE,
    shaft_stress::RULE,
    shaft_slope::RULE,
    bearing_life::RULE,
    bearing_static::RULE,
    bearing_bore::RULE,
    bearing_location::RULE,
    bearing_centres::RULE,
    screw_stress::RULE,
    screw_buckling::RULE,
    screw_holders::RULE,
    screw_self_locking::RULE,
    screw_torque::RULE,
    gravity_mass::RULE,
    gravity_box::RULE,
    gravity_guides::RULE,
    gravity_stop::RULE,
    casing_height::RULE,
    plate_thickness::RULE,
    casing_flange::RULE,
    boot_access::RULE,
    door_mesh::RULE,
    door_view::RULE,
    mesh_distance::RULE,
    openings_overlap::RULE,
    can_be_made::RULE,
    clean_out::RULE,
    empties_clean::RULE,
    pulley_comes_out::RULE,
    wear_parts_come_out::RULE,
    tools_reach::RULE,
    lifting_points::RULE,
    sensor_panels::RULE,
    alignment_monitor::RULE,
    motion_sensor::RULE,
    motion_slip::RULE,
    tapped_shaft_end::RULE,
    shaft_end_guard::RULE,
    time_to_plug::RULE,
    pit_clearance::RULE,
    pit_shaft_pull::RULE,
    pit_keep_clear::RULE,
    pit_headroom::RULE,
    pit_depth_from_feed::RULE,
    pit_feed_slope::RULE,
    pit_feed_opening::RULE,
    pit_cast_in::RULE,
    pit_sump::RULE,
    pit_floor_fall::RULE,
    pit_access::RULE,
    pit_ladder::RULE,
    pit_stair::RULE,
    pit_way_room::RULE,
    pit_rail::RULE,
    pit_rail_height::RULE,
    pit_hatch::RULE,
    pit_uplift::RULE,
    pit_confined_space::RULE,
    dust_explosion::RULE,
];

/// The rule with this id.
pub fn find(id: &str) -> Option<&'static Rule> {
    ALL.iter().find(|r| r.id == id)
}
