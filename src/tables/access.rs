//! What people need around and into a pit: widths, headroom, rails, ladders, stairs, exits.
//!
//! In: a jurisdiction. Out: each limit in mm (or N, degrees) with its own source. Local codes govern;
//! these are the figures of the named texts, not a survey of the law at a site.

use crate::sources::Source;

/// Platforms and walkways.
pub const SOURCE: Source = Source::standard("ISO 14122-2:2001");
const RAILS_ISO: Source = Source::standard("ISO 14122-3").from_memory();
const LADDERS_ISO: Source = Source::standard("ISO 14122-4").from_memory();
const DUTY_OSHA: Source = Source::law("OSHA 29 CFR 1910.28(b)(1)(i)");
const RAILS_OSHA: Source = Source::law("OSHA 29 CFR 1910.29(b)");
const RAIL_GAP_OSHA: Source = Source::law("OSHA 29 CFR 1910.29(b)(2)").from_memory();
const TOE_OSHA: Source = Source::law("OSHA 29 CFR 1910.29(k)");
const LADDERS_OSHA: Source = Source::law("OSHA 29 CFR 1910.23").from_memory();
const LADDER_TOP_OSHA: Source = Source::law("OSHA 29 CFR 1910.23(d)(4)");
const LADDER_FALL_OSHA: Source = Source::law("OSHA 29 CFR 1910.28(b)(9)");
const EXIT_OSHA: Source = Source::practice("as high and wide as an exit route has to be (OSHA 29 CFR 1910.36(g))");
const STAIRS_OSHA: Source = Source::law("OSHA 29 CFR 1910.25").from_memory();
const OPENINGS: Source = Source::standard("EN 547-1, EN 547-2").remark("not checked against the standard").from_memory();
const LADDER_THROUGH: Source = Source::practice("as wide as the way through the sides of a ladder has to be (OSHA 29 CFR 1910.23(d)(4))");
const LADDER_CLEAR: Source = Source::practice("600 by 600 mm for a person on a ladder");
const SERVICE: Source = Source::practice("service space round a foot");

/// Every source of this table.
pub const SOURCES: &[Source] = &[
    SOURCE,
    RAILS_ISO,
    LADDERS_ISO,
    DUTY_OSHA,
    RAILS_OSHA,
    RAIL_GAP_OSHA,
    TOE_OSHA,
    LADDERS_OSHA,
    LADDER_TOP_OSHA,
    LADDER_FALL_OSHA,
    EXIT_OSHA,
    STAIRS_OSHA,
    OPENINGS,
    LADDER_THROUGH,
    LADDER_CLEAR,
    SERVICE,
    STAIR_STEP,
];

/// A limit and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// The value; the field's name says the unit.
    pub value: f64,
    /// The source.
    pub source: Source,
}

const fn l(value: f64, source: Source) -> Limit {
    Limit { value, source }
}

/// The limits of one jurisdiction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Access {
    /// Least clear height over a walkway, mm.
    pub headroom_mm: Limit,
    /// Least clear width of a walkway, mm.
    pub clear_width_mm: Limit,
    /// Width that the text prefers, mm.
    pub clear_width_preferred_mm: Limit,
    /// A guard rail is needed from this height of fall, mm.
    pub rail_from_fall_mm: Limit,
    /// Least height of the top rail, mm.
    pub rail_height_min_mm: Limit,
    /// Largest height of the top rail, mm (no limit: infinity).
    pub rail_height_max_mm: Limit,
    /// Largest clear gap between rails, mm.
    pub rail_gap_mm: Limit,
    /// Least height of the toe board, mm.
    pub toe_board_mm: Limit,
    /// Largest gap under the toe board, mm.
    pub toe_board_gap_mm: Limit,
    /// Load on the top rail, N (OSHA: anywhere on the rail; ISO: per metre of post spacing).
    pub rail_load_n: Limit,
    /// Least distance of ladder rungs, mm.
    pub rung_pitch_min_mm: Limit,
    /// Largest distance of ladder rungs, mm.
    pub rung_pitch_max_mm: Limit,
    /// Least clear width between ladder rails, mm.
    pub ladder_width_min_mm: Limit,
    /// Clear depth on the climbing side, mm.
    pub ladder_front_mm: Limit,
    /// Clear depth behind the rungs, mm.
    pub ladder_behind_mm: Limit,
    /// How far the side rails reach above the landing, mm.
    pub ladder_above_landing_mm: Limit,
    /// Fall protection on a ladder is needed above this height, mm.
    pub ladder_fall_protection_mm: Limit,
    /// Least clear width of a stair, mm.
    pub stair_width_mm: Limit,
    /// Flattest stair, degrees.
    pub stair_min_deg: Limit,
    /// Steepest stair, degrees.
    pub stair_max_deg: Limit,
    /// Least headroom over a stair, mm.
    pub stair_headroom_mm: Limit,
}

/// The limits of a job: OSHA 29 CFR 1910 where US federal rules apply, else ISO 14122 (also EN).
pub const fn access(us: bool) -> &'static Access {
    if us { &OSHA } else { &ISO }
}

/// ISO 14122. Stair slopes follow from 600 ≤ going + 2 × rise ≤ 660 and are those of part 3.
pub const ISO: Access = Access {
    headroom_mm: l(2100.0, SOURCE),
    clear_width_mm: l(600.0, SOURCE),
    clear_width_preferred_mm: l(800.0, SOURCE),
    rail_from_fall_mm: l(500.0, RAILS_ISO),
    rail_height_min_mm: l(1100.0, RAILS_ISO),
    rail_height_max_mm: l(f64::INFINITY, RAILS_ISO),
    rail_gap_mm: l(500.0, RAILS_ISO),
    toe_board_mm: l(100.0, RAILS_ISO),
    toe_board_gap_mm: l(12.0, RAILS_ISO),
    rail_load_n: l(300.0, RAILS_ISO),
    rung_pitch_min_mm: l(225.0, LADDERS_ISO),
    rung_pitch_max_mm: l(300.0, LADDERS_ISO),
    ladder_width_min_mm: l(400.0, LADDERS_ISO),
    ladder_front_mm: l(650.0, LADDERS_ISO),
    ladder_behind_mm: l(200.0, LADDERS_ISO),
    ladder_above_landing_mm: l(1100.0, LADDERS_ISO),
    ladder_fall_protection_mm: l(3000.0, LADDERS_ISO),
    stair_width_mm: l(600.0, RAILS_ISO),
    stair_min_deg: l(20.0, RAILS_ISO),
    stair_max_deg: l(45.0, RAILS_ISO),
    stair_headroom_mm: l(2300.0, RAILS_ISO),
};

/// OSHA 29 CFR 1910; inches and feet turned into mm.
pub const OSHA: Access = Access {
    headroom_mm: l(2286.0, EXIT_OSHA),
    clear_width_mm: l(711.2, EXIT_OSHA),
    clear_width_preferred_mm: l(914.4, SERVICE),
    rail_from_fall_mm: l(1219.2, DUTY_OSHA),
    rail_height_min_mm: l(990.6, RAILS_OSHA),
    rail_height_max_mm: l(1143.0, RAILS_OSHA),
    rail_gap_mm: l(482.6, RAIL_GAP_OSHA),
    toe_board_mm: l(88.9, TOE_OSHA),
    toe_board_gap_mm: l(6.35, TOE_OSHA),
    rail_load_n: l(890.0, RAILS_OSHA),
    rung_pitch_min_mm: l(254.0, LADDERS_OSHA),
    rung_pitch_max_mm: l(355.6, LADDERS_OSHA),
    ladder_width_min_mm: l(406.4, LADDERS_OSHA),
    ladder_front_mm: l(762.0, LADDERS_OSHA),
    ladder_behind_mm: l(177.8, LADDERS_OSHA),
    ladder_above_landing_mm: l(1066.8, LADDER_TOP_OSHA),
    ladder_fall_protection_mm: l(7315.2, LADDER_FALL_OSHA),
    stair_width_mm: l(558.8, STAIRS_OSHA),
    stair_min_deg: l(30.0, STAIRS_OSHA),
    stair_max_deg: l(50.0, STAIRS_OSHA),
    stair_headroom_mm: l(2032.0, STAIRS_OSHA),
};

/// Rise and going of a stair.
pub const STAIR_STEP: Source = Source::standard("ISO 14122-3").remark("going and two rises together").from_memory();
/// Least and largest going plus two risers, mm. Source: [`STAIR_STEP`].
pub const STAIR_STEP_MM: [f64; 2] = [600.0, 660.0];
/// Largest rise and least going under OSHA 29 CFR 1910.25 (9.5 in each), mm.
pub const STAIR_STEP_OSHA_MM: Limit = l(241.3, STAIRS_OSHA);
/// Going plus two risers that walks best, mm: the middle of the range. Source: [`STAIR_STEP`].
pub const STAIR_STEP_WISH_MM: f64 = f64::midpoint(STAIR_STEP_MM[0], STAIR_STEP_MM[1]);
/// Going that US stairs have at the least when they are chosen here, mm: 10 in, over the law's 9.5 in (common practice).
pub const STAIR_GOING_US_MM: f64 = 255.0;
/// Top rail that the law names, from which it may differ by 3 in, mm: 42 in.
pub const RAIL_HEIGHT_OSHA_MM: Limit = l(1066.8, RAILS_OSHA);
/// Clear width for a person on a ladder in a US job, mm: 24 in, which OSHA asks between the side rails of a through ladder above its landing.
pub const LADDER_CLEAR_OSHA_MM: Limit = l(609.6, LADDER_THROUGH);
/// Clear width for a person on a ladder elsewhere, mm.
pub const LADDER_CLEAR_MM: Limit = l(600.0, LADDER_CLEAR);
/// Least and largest fall of a pit floor that drains and can be stood on, share (common practice).
pub const FLOOR_FALL: [f64; 2] = [0.01, 0.05];
/// Side and depth of a sump that takes a small pump, mm (common practice).
pub const SUMP_MM: f64 = 400.0;
/// Clear space all round a foot, mm (the width of ISO 14122-2).
pub const SERVICE_ALL_ROUND_MM: Limit = l(600.0, SOURCE);
/// Clear space in front of doors and of the take-up, mm.
pub const SERVICE_AT_DOORS_MM: Limit = l(800.0, SERVICE);
/// Clear space on the side where people shovel, mm.
pub const SERVICE_SHOVEL_SIDE_MM: Limit = l(1000.0, SERVICE);
/// What shaft withdrawal needs beyond the shaft's length, mm.
pub const SERVICE_SHAFT_EXTRA_MM: Limit = l(200.0, SERVICE);
/// Least opening for a person crawling, width, mm (weak memory).
pub const MANHOLE_WIDTH_MM: Limit = l(400.0, OPENINGS);
/// Least opening for a person crawling, length, mm (weak memory).
pub const MANHOLE_LENGTH_MM: Limit = l(600.0, OPENINGS);

#[cfg(test)]
mod tests {
    use super::*;

    /// Figures as printed in the regulations: 42 ± 3 in, 4 ft, 3.5 in, 24 ft, 42 in above the landing.
    #[test]
    fn osha_inches() {
        let a = access(true);
        assert!((a.rail_height_min_mm.value - 39.0 * 25.4).abs() < 1e-9);
        assert!((a.rail_height_max_mm.value - 45.0 * 25.4).abs() < 1e-9);
        assert!((a.rail_from_fall_mm.value - 4.0 * 304.8).abs() < 1e-9);
        assert!((a.toe_board_mm.value - 3.5 * 25.4).abs() < 1e-9);
        assert!((a.ladder_fall_protection_mm.value - 24.0 * 304.8).abs() < 1e-9);
        assert!((a.ladder_above_landing_mm.value - 42.0 * 25.4).abs() < 1e-9);
        assert!((a.rail_gap_mm.value - 19.0 * 25.4).abs() < 1e-9);
        assert!((a.ladder_behind_mm.value - 7.0 * 25.4).abs() < 1e-9);
        assert!((a.rung_pitch_min_mm.value - 254.0).abs() < 1e-9 && (a.rung_pitch_max_mm.value - 14.0 * 25.4).abs() < 1e-9);
        assert!((a.headroom_mm.value - 7.5 * 304.8).abs() < 1e-9 && (a.clear_width_mm.value - 28.0 * 25.4).abs() < 1e-9);
        assert!((a.stair_headroom_mm.value - 80.0 * 25.4).abs() < 1e-9 && (a.stair_width_mm.value - 22.0 * 25.4).abs() < 1e-9);
        assert!((a.ladder_width_min_mm.value - 16.0 * 25.4).abs() < 1e-9 && (a.ladder_front_mm.value - 30.0 * 25.4).abs() < 1e-9);
    }

    /// ISO 14122-2 (2001 digest as read) and ISO 14122-3 rail figures seen on a drawing note.
    #[test]
    fn iso_figures() {
        let a = access(false);
        assert_eq!((a.headroom_mm.value, a.clear_width_mm.value, a.clear_width_preferred_mm.value), (2100.0, 600.0, 800.0));
        assert_eq!((a.rail_height_min_mm.value, a.rail_gap_mm.value, a.rail_from_fall_mm.value), (1100.0, 500.0, 500.0));
    }

    #[test]
    fn limits_are_ordered() {
        for a in [&ISO, &OSHA] {
            assert!(a.clear_width_mm.value < a.clear_width_preferred_mm.value);
            assert!(a.rail_height_min_mm.value < a.rail_height_max_mm.value);
            assert!(a.rung_pitch_min_mm.value < a.rung_pitch_max_mm.value);
            assert!(a.stair_min_deg.value < a.stair_max_deg.value);
            assert!(a.ladder_behind_mm.value < a.ladder_front_mm.value);
        }
    }
}
