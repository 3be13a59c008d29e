//! Bearing housings of the 200 and 300 series: pillow block, four-bolt flange, two-bolt flange, take-up frame.
//!
//! In: a housing kind and a series number. Out: the sizes that fix bolt pattern, slot and drawn
//! outline, in mm. All from memory of the usual boundary sizes, not checked against ISO 3228;
//! an order must be checked against the sheet of the unit that is bought.

use crate::sources::Source;

/// Bolt patterns and outlines of pillow blocks and flanges.
pub const SOURCE: Source = Source::standard("JIS B 1559 type UCP/UCF/UCFL 200, 300").remark("boundary sizes; not checked against ISO 3228").from_memory();
/// Sizes marked weak: projection, block height and base, all of the take-up frame.
pub const WEAK: Source = Source::standard("JIS B 1559 type 200").remark("not checked against the standard, confirm before use").from_memory();

/// Pillow block sizes, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PillowBlock {
    /// Series number.
    pub number: u16,
    /// Base to shaft centre.
    pub centre_height_mm: f64,
    /// Bolt spacing along the base.
    pub bolt_spacing_mm: f64,
    /// Overall length of the base.
    pub length_mm: f64,
    /// Width of the base along the shaft.
    pub width_mm: f64,
    /// Overall height (weak memory).
    pub height_mm: f64,
    /// Thickness of the base at its bolts (weak memory).
    pub foot_mm: f64,
    /// Bolt size.
    pub bolt: &'static str,
}

/// Four-bolt flange sizes, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FourBoltFlange {
    /// Series number.
    pub number: u16,
    /// Overall side of the square.
    pub side_mm: f64,
    /// Bolt spacing, both ways.
    pub bolt_spacing_mm: f64,
    /// Bolt size.
    pub bolt: &'static str,
    /// Mounting face to the end of the inner ring (weak memory).
    pub projection_mm: f64,
}

/// Two-bolt flange sizes, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoBoltFlange {
    /// Series number.
    pub number: u16,
    /// Overall length of the oval.
    pub length_mm: f64,
    /// Bolt spacing along the length.
    pub bolt_spacing_mm: f64,
    /// Width of the oval.
    pub width_mm: f64,
    /// Bolt size.
    pub bolt: &'static str,
    /// Mounting face to the end of the inner ring (weak memory).
    pub projection_mm: f64,
}

/// Take-up frame sizes, mm; all weak memory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TakeUpFrame {
    /// Series number.
    pub number: u16,
    /// Width of the guide slot in the housing, along the shaft.
    pub slot_mm: f64,
    /// Distance between the guide faces.
    pub guide_distance_mm: f64,
    /// Overall size across the guides.
    pub height_mm: f64,
    /// Overall length along the travel.
    pub length_mm: f64,
}

/// Pillow block of a series number.
pub fn pillow_block(number: u16) -> Option<&'static PillowBlock> {
    PILLOW_BLOCKS.iter().find(|h| h.number == number)
}
/// Four-bolt flange of a series number.
pub fn four_bolt_flange(number: u16) -> Option<&'static FourBoltFlange> {
    FOUR_BOLT_FLANGES.iter().find(|h| h.number == number)
}
/// Two-bolt flange of a series number.
pub fn two_bolt_flange(number: u16) -> Option<&'static TwoBoltFlange> {
    TWO_BOLT_FLANGES.iter().find(|h| h.number == number)
}
/// Take-up frame of a series number.
pub fn take_up_frame(number: u16) -> Option<&'static TakeUpFrame> {
    TAKE_UP_FRAMES.iter().find(|h| h.number == number)
}

const fn p(number: u16, h: f64, j: f64, l: f64, a: f64, [height, foot]: [f64; 2], bolt: &'static str) -> PillowBlock {
    PillowBlock { number, centre_height_mm: h, bolt_spacing_mm: j, length_mm: l, width_mm: a, height_mm: height, foot_mm: foot, bolt }
}
const fn f(number: u16, side: f64, j: f64, bolt: &'static str, projection: f64) -> FourBoltFlange {
    FourBoltFlange { number, side_mm: side, bolt_spacing_mm: j, bolt, projection_mm: projection }
}
const fn o(number: u16, l: f64, j: f64, w: f64, bolt: &'static str, projection: f64) -> TwoBoltFlange {
    TwoBoltFlange { number, length_mm: l, bolt_spacing_mm: j, width_mm: w, bolt, projection_mm: projection }
}
const fn t(number: u16, slot: f64, guides: f64, height: f64, length: f64) -> TakeUpFrame {
    TakeUpFrame { number, slot_mm: slot, guide_distance_mm: guides, height_mm: height, length_mm: length }
}

/// Pillow blocks by rising size.
pub const PILLOW_BLOCKS: &[PillowBlock] = &[
    p(205, 36.5, 105.0, 140.0, 38.0, [71.0, 15.0], "M10"),
    p(206, 42.9, 121.0, 165.0, 48.0, [84.0, 17.0], "M14"),
    p(207, 47.6, 127.0, 167.0, 48.0, [93.0, 18.0], "M14"),
    p(208, 49.2, 137.0, 184.0, 54.0, [98.0, 18.0], "M14"),
    p(209, 54.0, 146.0, 190.0, 54.0, [106.0, 20.0], "M14"),
    p(210, 57.2, 159.0, 206.0, 60.0, [114.0, 21.0], "M16"),
    p(211, 63.5, 171.0, 219.0, 60.0, [126.0, 23.0], "M16"),
    p(212, 69.8, 184.0, 241.0, 70.0, [138.0, 25.0], "M16"),
    p(213, 76.2, 203.0, 265.0, 70.0, [151.0, 27.0], "M20"),
    p(214, 79.4, 210.0, 266.0, 72.0, [157.0, 27.0], "M20"),
    p(215, 82.6, 217.0, 275.0, 74.0, [163.0, 28.0], "M20"),
    p(216, 88.9, 232.0, 292.0, 78.0, [174.0, 30.0], "M20"),
    p(217, 95.2, 247.0, 310.0, 83.0, [185.0, 32.0], "M20"),
    p(218, 101.6, 262.0, 327.0, 88.0, [198.0, 34.0], "M22"),
    p(320, 140.0, 380.0, 490.0, 120.0, [275.0, 48.0], "M30"),
    p(322, 150.0, 400.0, 520.0, 140.0, [300.0, 52.0], "M33"),
    p(324, 160.0, 450.0, 570.0, 140.0, [320.0, 56.0], "M33"),
    p(326, 180.0, 480.0, 600.0, 140.0, [355.0, 60.0], "M33"),
    p(328, 200.0, 500.0, 620.0, 140.0, [390.0, 65.0], "M33"),
];
/// Four-bolt flanges by rising size.
pub const FOUR_BOLT_FLANGES: &[FourBoltFlange] = &[
    f(205, 95.0, 70.0, "M10", 35.8),
    f(206, 108.0, 83.0, "M10", 40.2),
    f(207, 117.0, 92.0, "M12", 44.4),
    f(208, 130.0, 102.0, "M14", 51.2),
    f(209, 137.0, 105.0, "M14", 52.2),
    f(210, 143.0, 111.0, "M14", 54.6),
    f(211, 162.0, 130.0, "M16", 58.4),
    f(212, 175.0, 143.0, "M16", 68.7),
    f(213, 187.0, 149.0, "M16", 69.7),
    f(214, 193.0, 152.0, "M16", 75.4),
    f(215, 200.0, 159.0, "M16", 78.5),
    f(216, 208.0, 165.0, "M20", 83.3),
    f(217, 220.0, 175.0, "M20", 87.6),
    f(218, 235.0, 187.0, "M20", 96.3),
    f(320, 310.0, 242.0, "M33", 112.0),
    f(322, 340.0, 266.0, "M36", 121.0),
    f(324, 370.0, 290.0, "M36", 130.0),
    f(326, 410.0, 320.0, "M36", 139.0),
    f(328, 450.0, 350.0, "M36", 149.0),
];
/// Two-bolt flanges by rising size.
pub const TWO_BOLT_FLANGES: &[TwoBoltFlange] = &[
    o(205, 130.0, 99.0, 68.0, "M14", 35.8),
    o(206, 148.0, 117.0, 80.0, "M14", 40.2),
    o(207, 161.0, 130.0, 90.0, "M14", 44.4),
    o(208, 175.0, 144.0, 100.0, "M14", 51.2),
    o(209, 188.0, 148.0, 108.0, "M16", 52.2),
    o(210, 197.0, 157.0, 115.0, "M16", 54.6),
    o(211, 224.0, 184.0, 130.0, "M16", 58.4),
    o(212, 250.0, 202.0, 140.0, "M20", 68.7),
    o(213, 258.0, 210.0, 155.0, "M20", 69.7),
    o(214, 265.0, 216.0, 160.0, "M20", 75.4),
    o(215, 275.0, 225.0, 165.0, "M20", 78.5),
    o(216, 290.0, 233.0, 180.0, "M22", 83.3),
    o(217, 305.0, 248.0, 190.0, "M22", 87.6),
    o(218, 320.0, 265.0, 205.0, "M22", 96.3),
    o(320, 440.0, 360.0, 270.0, "M36", 112.0),
    o(322, 470.0, 390.0, 300.0, "M36", 121.0),
    o(324, 520.0, 430.0, 330.0, "M39", 130.0),
    o(326, 550.0, 460.0, 360.0, "M39", 139.0),
    o(328, 600.0, 500.0, 400.0, "M42", 149.0),
];
/// Take-up frames by rising size.
pub const TAKE_UP_FRAMES: &[TakeUpFrame] = &[
    t(205, 12.0, 76.0, 89.0, 97.0),
    t(206, 12.0, 89.0, 102.0, 113.0),
    t(207, 12.0, 89.0, 102.0, 129.0),
    t(208, 16.0, 102.0, 114.0, 144.0),
    t(209, 16.0, 102.0, 117.0, 144.0),
    t(210, 16.0, 102.0, 117.0, 149.0),
    t(211, 22.0, 130.0, 146.0, 171.0),
    t(212, 22.0, 130.0, 146.0, 194.0),
    t(213, 26.0, 151.0, 167.0, 224.0),
    t(214, 26.0, 151.0, 167.0, 224.0),
    t(215, 26.0, 151.0, 167.0, 232.0),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::tables::{bearings, threads};

    #[test]
    fn bolts_bearings_and_outlines_agree() {
        for h in PILLOW_BLOCKS {
            let bolt = threads::find(h.bolt).unwrap();
            let bearing = bearings::by_number(h.number).unwrap();
            assert!(h.length_mm > h.bolt_spacing_mm + bolt.across_flats_mm, "{}", h.number);
            assert!(h.height_mm > h.centre_height_mm + bearing.outer_mm / 2.0 && h.centre_height_mm > bearing.outer_mm / 2.0);
        }
        for h in FOUR_BOLT_FLANGES {
            let bolt = threads::find(h.bolt).unwrap();
            let bearing = bearings::by_number(h.number).unwrap();
            assert!(h.side_mm > h.bolt_spacing_mm + bolt.diameter_mm, "{}", h.number);
            assert!(h.bolt_spacing_mm * 2f64.sqrt() > bearing.outer_mm + bolt.across_flats_mm, "{}: bolts clear the ring", h.number);
            assert!(h.projection_mm < bearing.inner_ring_mm + 6.0);
        }
        for h in TWO_BOLT_FLANGES {
            let bolt = threads::find(h.bolt).unwrap();
            let bearing = bearings::by_number(h.number).unwrap();
            assert!(h.length_mm > h.bolt_spacing_mm + bolt.diameter_mm && h.width_mm > bearing.outer_mm, "{}", h.number);
        }
        for h in TAKE_UP_FRAMES {
            let bearing = bearings::by_number(h.number).unwrap();
            assert!(h.height_mm > h.guide_distance_mm && h.guide_distance_mm > bearing.outer_mm, "{}", h.number);
        }
    }

    /// Rows of the 200 series as written down from memory of JIS B 1559.
    #[test]
    fn rows() {
        assert_eq!(pillow_block(208).unwrap().centre_height_mm, 49.2);
        assert_eq!(four_bolt_flange(212).unwrap().bolt_spacing_mm, 143.0);
        assert_eq!(two_bolt_flange(210).unwrap().bolt_spacing_mm, 157.0);
        assert_eq!((take_up_frame(211).unwrap().slot_mm, take_up_frame(211).unwrap().guide_distance_mm), (22.0, 130.0));
        assert!(pillow_block(219).is_none() && four_bolt_flange(204).is_none() && two_bolt_flange(1).is_none() && take_up_frame(218).is_none());
    }

    #[test]
    fn sizes_rise() {
        assert!(PILLOW_BLOCKS.windows(2).all(|w| w[0].bolt_spacing_mm < w[1].bolt_spacing_mm && w[0].centre_height_mm < w[1].centre_height_mm));
        assert!(FOUR_BOLT_FLANGES.windows(2).all(|w| w[0].bolt_spacing_mm < w[1].bolt_spacing_mm));
        assert!(TWO_BOLT_FLANGES.windows(2).all(|w| w[0].bolt_spacing_mm < w[1].bolt_spacing_mm));
    }
}
