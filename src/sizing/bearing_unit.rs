//! The bearing unit that a kind and a journal ask for, from the tables of bearings and housings.
//!
//! In: kind and bore in mm. Out: its sizes and bolt pattern in mm, seen along the shaft. Its maker has the
//! last word; the parts list says so. A bore larger than the tables gets a unit drawn in proportion.

use crate::formulas::foot_heights::PLATE_LAP;
use crate::spec::rotating::BearingKind;
use crate::tables::{bearings, housings, threads};

/// The bearing unit's interface to the plate it is bolted to.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingUnit {
    /// Kind of unit.
    pub kind: BearingKind,
    /// Series and size as `UC 214`-like insert number digits, e.g. 214.
    pub number: u16,
    /// Overall size across (x), mm.
    pub across: f64,
    /// Overall size up (z), mm.
    pub up: f64,
    /// How far its housing reaches along the shaft, mm.
    pub depth: f64,
    /// Thickness of its flange or base at the bolts, mm.
    pub foot: f64,
    /// From the base of a pillow block to the shaft, and to its far side over the shaft, mm; none for what stands across the shaft.
    pub block: Option<[f64; 2]>,
    /// Whether it is larger than the tables, so that its sizes are those of their largest in proportion to the bore: an estimate.
    pub estimated: bool,
    /// Bolt hole centres from the bearing centre as (x, z), mm.
    pub bolts: Vec<[f64; 2]>,
    /// Bolt thread, e.g. `M16` or `5/8-11`.
    pub bolt: String,
    /// Clearance hole for it (medium series), mm.
    pub bolt_hole: f64,
    /// Basic dynamic load rating from the table, N; the spec may override it.
    pub table_rating: f64,
}

/// Thickness of a flange as a share of how far the unit stands out; its maker's is not known (common practice, no source).
const FOOT_OF_CASTING: f64 = 0.3;

impl BearingUnit {
    /// Name of the insert for a bore: the series number names its metric bore, so there is none for an inch bore in the same
    /// housing.
    pub fn insert(&self, bore: f64) -> Option<String> {
        bearings::by_number(self.number).filter(|b| (b.bore_mm - bore).abs() < 0.01).map(|b| format!("UC {}", b.number))
    }

    /// Room that the sliding plate has beside the unit, mm: a pillow block's bracket is welded on there, 15 mm thick, its seam
    /// about as wide, before the guide that laps over the plate's edge by 10 mm.
    pub fn beside(&self) -> f64 {
        if self.kind == BearingKind::PillowBlock { 2.0 * PLATE_LAP } else { PLATE_LAP / 2.0 }
    }
}

/// Ears of a take-up frame above and below its block, and how far its bolts stand from its sides, in diameters of the bolt
/// (common practice, no source).
const EAR: f64 = 2.5;
const FROM_SIDE: f64 = 1.5;

/// The unit from the tables for this bore, with inch bolts in US jobs; a bore between sizes takes the next larger unit.
pub fn bearing_unit(kind: BearingKind, journal: f64, us: bool) -> BearingUnit {
    let made = bearings::by_inch_bore_mm(journal).or_else(|| bearings::ALL.iter().find(|b| b.bore_mm + 0.5 >= journal));
    let insert = made.or_else(|| bearings::ALL.last());
    let (number, rating) = insert.map_or((0, 0.0), |b| (b.number, b.dynamic_kn * 1000.0));
    // An inch bore is made in the housing of the next metric one, whose sizes hold.
    let beyond = if made.is_some() { 1.0 } else { insert.map_or(1.0, |b| journal / b.bore_mm) };
    let Housing { across, up, depth, bolts, bolt, foot, block, of } = housing(kind, number, us);
    // Larger than the tables: drawn in proportion, so that the sheets stay usable; the parts list says so.
    let bore = |number: u16| bearings::by_number(number).map_or(1.0, |b| b.bore_mm);
    let scale = beyond * bore(number) / bore(of);
    let thread = threads::of_job(bolt, us);
    BearingUnit {
        kind,
        number,
        across: across * scale,
        up: up * scale,
        depth: depth * scale,
        foot: foot * scale,
        block: block.map(|sizes| sizes.map(|s| s * scale)),
        estimated: scale > 1.0 + 1e-9,
        bolts: bolts.into_iter().map(|[x, z]| [x * scale, z * scale]).collect(),
        bolt_hole: thread.map_or(0.0, |t| t.hole_mm(threads::Fit::Medium)),
        bolt: thread.map_or_else(String::new, |t| t.name.into()),
        table_rating: rating,
    }
}

/// A row of the tables of housings, mm.
#[derive(Default)]
struct Housing {
    across: f64,
    up: f64,
    depth: f64,
    bolts: Vec<[f64; 2]>,
    bolt: &'static str,
    foot: f64,
    block: Option<[f64; 2]>,
    /// Series number of the row.
    of: u16,
}

/// The row for a series number, or the last one of a table that ends before it.
fn housing(kind: BearingKind, number: u16, us: bool) -> Housing {
    let spread = |half_x: f64, half_z: f64| vec![[-half_x, -half_z], [half_x, -half_z], [half_x, half_z], [-half_x, half_z]];
    match kind {
        BearingKind::TwoBoltFlange => housings::two_bolt_flange(number).or(housings::TWO_BOLT_FLANGES.last()).map(|h| {
            let half = h.bolt_spacing_mm / 2.0;
            let flange = Housing { across: h.width_mm, up: h.length_mm, depth: h.projection_mm, foot: FOOT_OF_CASTING * h.projection_mm, ..Housing::default() };
            Housing { bolts: vec![[0.0, -half], [0.0, half]], bolt: h.bolt, of: h.number, ..flange }
        }),
        BearingKind::FourBoltFlange => housings::four_bolt_flange(number).or(housings::FOUR_BOLT_FLANGES.last()).map(|h| {
            let half = h.bolt_spacing_mm / 2.0;
            let flange = Housing { across: h.side_mm, up: h.side_mm, depth: h.projection_mm, foot: FOOT_OF_CASTING * h.projection_mm, ..Housing::default() };
            Housing { bolts: spread(half, half), bolt: h.bolt, of: h.number, ..flange }
        }),
        BearingKind::PillowBlock => housings::pillow_block(number).or(housings::PILLOW_BLOCKS.last()).map(|h| {
            // Stands on a bracket with its base upright, down side of the shaft: bolts above and below the shaft.
            let half = h.bolt_spacing_mm / 2.0;
            let across = 2.0 * h.centre_height_mm.max(h.height_mm - h.centre_height_mm);
            let block =
                Housing { across, up: h.length_mm, depth: h.width_mm, foot: h.foot_mm, block: Some([h.centre_height_mm, h.height_mm]), ..Housing::default() };
            Housing { bolts: vec![[0.0, -half], [0.0, half]], bolt: h.bolt, of: h.number, ..block }
        }),
        BearingKind::TakeUpFrame => housings::take_up_frame(number).or(housings::TAKE_UP_FRAMES.last()).map(|h| {
            let d = threads::of_job(FRAME_BOLT, us).map_or(16.0, |t| t.diameter_mm);
            let (depth, up) = (3.0 * h.slot_mm, h.length_mm + 2.0 * EAR * d);
            let frame = Housing { across: h.height_mm, up, depth, foot: FOOT_OF_CASTING * depth, ..Housing::default() };
            Housing { bolts: spread(h.height_mm / 2.0 - FROM_SIDE * d, (up - EAR * d) / 2.0), bolt: FRAME_BOLT, of: h.number, ..frame }
        }),
    }
    .unwrap_or_default()
}

/// What a take-up frame is bolted on with (common practice, no source).
const FRAME_BOLT: &str = "M16";
