//! Engineering formulas: pure functions, one file a topic, each citing its source. They know no machine.
//!
//! Units stand in the names (mm, N, MPa, kg, m/s, t/h, rad). [`ALL`] lists every file with all of its
//! sources. A formula does not check that its input is sensible unless it says so; the spec does that.

use crate::sources::Source;

pub mod bearing_life;
pub mod bearing_static;
pub mod belt_path;
pub mod bend_allowance;
pub mod capacity;
pub mod down_face;
pub mod fillet_weld;
pub mod filling;
pub mod flow;
pub mod foot_heights;
pub mod foot_widths;
pub mod gravity_take_up;
pub mod head_discharge;
pub mod impact;
pub mod lifting;
pub mod look;
pub mod mass;
pub mod plugging;
pub mod pocket_place;
pub mod pole;
pub mod power;
pub mod quantities;
pub mod removal;
pub mod residue;
pub mod retained_fill;
pub mod rolled_bottom;
pub mod screw;
pub mod shaft;
pub mod speed;
pub mod strength;
pub mod stretch;
pub mod tension;
pub mod uplift;

/// Every topic by the name of its file, with every source that it uses.
pub const ALL: &[(&str, &[Source])] = &[
    ("bearing_life", &[bearing_life::LIFE]),
    ("bearing_static", &[bearing_static::STATIC, bearing_static::LEAST]),
    ("belt_path", &[belt_path::BELT_PATH, belt_path::LENGTH_DERIVATIVE]),
    ("bend_allowance", &[bend_allowance::DIN_6935, bend_allowance::K_FACTOR]),
    ("capacity", &[capacity::CAPACITY, capacity::LINE_LOAD, capacity::BUCKETS]),
    ("down_face", &[down_face::DOWN_FACE]),
    ("fillet_weld", &[fillet_weld::LEG]),
    ("filling", &[filling::FILLING]),
    ("flow", &[flow::CHUTE_SPEED, flow::THROAT, flow::SPOUT_FILLING, flow::SLOT]),
    ("foot_heights", &[foot_heights::SHAFT_HEIGHT, foot_heights::BEND_PLACE, foot_heights::SLIDING_PLATE, foot_heights::LARGE]),
    ("foot_widths", &[foot_widths::INNER_WIDTH]),
    ("gravity_take_up", &[gravity_take_up::MASS, gravity_take_up::PACKED]),
    ("head_discharge", &[head_discharge::PAST_HEAD, head_discharge::BACK_LEGGING, head_discharge::TOO_FAST]),
    ("impact", &[impact::IMPACT]),
    ("lifting", &[lifting::SLING, lifting::EYE, lifting::DESIGN, lifting::SEAMS]),
    ("look", &[look::ROOM]),
    ("mass", &[mass::MASS, mass::STEEL]),
    ("plugging", &[plugging::TIME_TO_PLUG, plugging::LYING, plugging::RESERVE, plugging::FREE]),
    ("pocket_place", &[pocket_place::POCKET_PLACE, pocket_place::SHAPE]),
    ("pole", &[pole::POLE, pole::DISCHARGE, pole::CRITICAL_SPEED]),
    ("power", &[power::LIFT, power::DREDGING, power::LOSSES, power::LOSSES_SHARE]),
    ("quantities", &[quantities::VOLUMES, quantities::CONVENTION, quantities::WORKING_SPACE]),
    ("removal", &[removal::OPENING]),
    ("residue", &[residue::RESIDUE, residue::RAKED]),
    ("retained_fill", &[retained_fill::RETAINED_FILL]),
    ("rolled_bottom", &[rolled_bottom::ROLLED_BOTTOM]),
    ("screw", &[screw::TORQUE, screw::COLUMN, screw::PRESSURE, screw::BY_HAND, screw::OVERTIGHTENED, screw::GREASE]),
    ("shaft", &[shaft::BEAM, shaft::HUB_SLOPE, shaft::FATIGUE]),
    ("speed", &[speed::SHAFT_SPEED, speed::STOP, speed::ALARM]),
    ("strength", &[strength::BENDING, strength::SEAM, strength::SEAM_STRENGTH, strength::IN_HAND]),
    ("stretch", &[stretch::STRETCH, stretch::TRAVEL, stretch::LEAST, stretch::SHORTENED]),
    (
        "tension",
        &[
            tension::EULER_EYTELWEIN,
            tension::WRAP_FACTOR,
            tension::CENTRIFUGAL,
            tension::CHAIN,
            tension::BLOCKED,
            tension::STALL,
            tension::STARTING,
            tension::OVERLOAD,
            tension::LIMITED,
            tension::BRIEF,
            tension::BEND_RESULTANT,
        ],
    ),
    ("uplift", &[uplift::UPLIFT, uplift::EN_1997, uplift::ACI_350, uplift::ACCIDENTAL]),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn every_file_is_listed_and_every_source_says_what_it_is() {
        let dir = concat!(env!("CARGO_MANIFEST_DIR"), "/src/formulas");
        let mut files: Vec<String> = std::fs::read_dir(dir)
            .unwrap()
            .map(|e| e.unwrap().file_name().into_string().unwrap())
            .filter(|n| n != "mod.rs")
            .map(|n| n.trim_end_matches(".rs").to_string())
            .collect();
        files.sort();
        let listed: Vec<&str> = ALL.iter().map(|t| t.0).collect();
        assert_eq!(files, listed);
        for (name, sources) in ALL {
            assert!(!sources.is_empty(), "{name} has no source");
            assert!(sources.iter().all(|s| s.cite.len() > 5), "{name} has an empty citation");
        }
    }
}
