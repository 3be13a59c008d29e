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
    /// How far it stands out from the plate, mm.
    pub depth: f64,
    /// Thickness of its flange or base at the bolts, mm.
    pub foot: f64,
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

/// The unit from the tables for this bore, with inch bolts in US jobs; a bore between sizes takes the next larger unit.
pub fn bearing_unit(kind: BearingKind, journal: f64, us: bool) -> BearingUnit {
    let insert = bearings::by_inch_bore_mm(journal).or_else(|| bearings::ALL.iter().find(|b| b.bore_mm + 0.5 >= journal)).or_else(|| bearings::ALL.last());
    let (number, rating) = insert.map_or((0, 0.0), |b| (b.number, b.dynamic_kn * 1000.0));
    let scale = insert.map_or(1.0, |b| (journal / b.bore_mm).max(1.0));
    let spread = |half_x: f64, half_z: f64| vec![[-half_x, -half_z], [half_x, -half_z], [half_x, half_z], [-half_x, half_z]];
    let (across, up, depth, bolts, bolt): (f64, f64, f64, Vec<[f64; 2]>, &str) = match kind {
        BearingKind::TwoBoltFlange => housings::two_bolt_flange(number).map_or((0.0, 0.0, 0.0, Vec::new(), ""), |h| {
            let half = h.bolt_spacing_mm / 2.0;
            (h.width_mm, h.length_mm, h.projection_mm, vec![[0.0, -half], [0.0, half]], h.bolt)
        }),
        BearingKind::FourBoltFlange => housings::four_bolt_flange(number).map_or((0.0, 0.0, 0.0, Vec::new(), ""), |h| {
            let half = h.bolt_spacing_mm / 2.0;
            (h.side_mm, h.side_mm, h.projection_mm, spread(half, half), h.bolt)
        }),
        BearingKind::PillowBlock => housings::pillow_block(number).map_or((0.0, 0.0, 0.0, Vec::new(), ""), |h| {
            // Stands on a bracket with its base upright, down side of the shaft: bolts above and below the shaft.
            let half = h.bolt_spacing_mm / 2.0;
            (2.0 * h.centre_height_mm.max(h.height_mm - h.centre_height_mm), h.length_mm, h.width_mm, vec![[0.0, -half], [0.0, half]], h.bolt)
        }),
        BearingKind::TakeUpFrame => housings::take_up_frame(number).map_or((0.0, 0.0, 0.0, Vec::new(), ""), |h| {
            let half = h.guide_distance_mm / 2.0;
            (h.height_mm, h.length_mm, h.slot_mm * 3.0, spread(half, half), "M16")
        }),
    };
    // Larger than the tables: drawn in proportion, so that the sheets stay usable; the rule on bearings says so.
    let bolts = bolts.into_iter().map(|[x, z]| [x * scale, z * scale]).collect();
    let bolt = threads::of_job(bolt, us);
    let base = housings::pillow_block(number).filter(|_| kind == BearingKind::PillowBlock);
    BearingUnit {
        kind,
        number,
        across: across * scale,
        up: up * scale,
        depth: depth * scale,
        foot: base.map_or(FOOT_OF_CASTING * depth, |b| b.foot_mm) * scale,
        bolts,
        bolt_hole: bolt.map_or(0.0, |t| t.hole_mm(threads::Fit::Medium)),
        bolt: bolt.map_or_else(String::new, |t| t.name.into()),
        table_rating: rating,
    }
}
