//! Standard tables as data, each with its source; a lookup answers `None` outside the table, never a guess.
//!
//! In: a name or a size. Out: the row, in mm, N, MPa, kg. [`ALL`] lists every table with all of its
//! sources, so that a report can print them and a test can walk them. Values from memory say so.

use crate::sources::Source;

pub mod access;
pub mod bearings;
pub mod belt_speeds;
pub mod butt_joints;
pub mod cautions;
pub mod centre_holes;
pub mod cutting_quality;
pub mod fits;
pub mod friction;
pub mod grain_handling;
pub mod housings;
pub mod imposed_loads;
pub mod keyways;
pub mod plates;
pub mod power_threads;
pub mod products;
pub mod pulley_faces;
pub mod safety_distances;
pub mod scales;
pub mod set_collars;
pub mod shackles;
pub mod sheets;
pub mod soils;
pub mod spanners;
pub mod steels;
pub mod stock_shafts;
pub mod surfaces;
pub mod threads;
pub mod tolerances;
pub mod wire_meshes;

/// Every table by the name of its file, with every source that it uses.
pub const ALL: &[(&str, &[Source])] = &[
    ("access", access::SOURCES),
    ("bearings", &[bearings::SOURCE, bearings::INNER_RING, bearings::INCH_BORES]),
    ("belt_speeds", &[belt_speeds::SOURCE]),
    ("butt_joints", &[butt_joints::SOURCE, butt_joints::US]),
    ("cautions", &[cautions::SOURCE, cautions::LOCK_OUT, cautions::CONFINED_SPACE, cautions::CHOKED_LEG]),
    (
        "centre_holes",
        &[centre_holes::SOURCE, centre_holes::PILOTS, centre_holes::INCH, centre_holes::INCH_PILOTS, centre_holes::PLAIN, centre_holes::INCH_PLAIN],
    ),
    ("cutting_quality", &[cutting_quality::SOURCE, cutting_quality::US, cutting_quality::LEAST_HOLES]),
    ("fits", &[fits::SOURCE, fits::INCH_BORES, fits::INCH_BARS, fits::CHOICE]),
    ("friction", &[friction::SOURCE, friction::DIN_22101]),
    (
        "grain_handling",
        &[grain_handling::BELT, grain_handling::ACCESS, grain_handling::BEARINGS, grain_handling::MOTION, grain_handling::ALIGNMENT, grain_handling::ELSEWHERE],
    ),
    ("housings", &[housings::SOURCE, housings::WEAK]),
    ("imposed_loads", imposed_loads::SOURCES),
    ("keyways", &[keyways::SOURCE, keyways::INCH, keyways::INCH_TOLERANCES, keyways::LENGTHS]),
    ("plates", &[plates::SOURCE, plates::US_GAUGES, plates::US_SIZES, plates::SHEETS, plates::BARS, plates::LEAST_FOOT, plates::BEND_RADII]),
    ("power_threads", &[power_threads::TRAPEZOIDAL, power_threads::CLEARANCE, power_threads::ACME]),
    ("products", products::SOURCES),
    ("pulley_faces", &[pulley_faces::SOURCE]),
    ("safety_distances", &[safety_distances::SOURCE, safety_distances::OSHA_O10]),
    ("scales", &[scales::SOURCE, scales::US]),
    ("set_collars", &[set_collars::SOURCE, set_collars::INCH]),
    ("shackles", &[shackles::SOURCE]),
    ("sheets", &[sheets::SOURCE, sheets::ISO_FRAME, sheets::US]),
    ("soils", &[soils::SWELL, soils::CONCRETE, soils::SIDE.source, soils::SIDE_OSHA.source]),
    ("spanners", &[spanners::OPEN, spanners::SOCKETS, spanners::SWING]),
    ("steels", steels::SOURCES),
    ("stock_shafts", &[stock_shafts::SOURCE]),
    ("surfaces", &[surfaces::SOURCE, surfaces::RUN_OUT]),
    (
        "threads",
        &[
            threads::SOURCE,
            threads::CLEARANCE_HOLES,
            threads::TAP_DRILLS,
            threads::HEXAGONS,
            threads::COUNTERSUNK,
            threads::UNC,
            threads::INCH_HOLES,
            threads::INCH_HEXAGONS,
        ],
    ),
    ("tolerances", &[tolerances::SOURCE, tolerances::WELDED, tolerances::US]),
    ("wire_meshes", &[wire_meshes::SOURCE]),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn every_file_is_listed_and_every_source_says_what_it_is() {
        let dir = concat!(env!("CARGO_MANIFEST_DIR"), "/src/tables");
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
