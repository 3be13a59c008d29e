//! What lies under the bucket tips, take-up at its lowest and its highest, and what of it no clean-out reaches.
//!
//! In: casing, tips, take-up, clean-outs, angle of repose. Out: heights in mm, volumes in litres. A new belt is short: with it the take-up
//! stands at its highest, and most lies under the buckets. The leaning part of a down-side end plate is not counted.

use super::{Group, Quantity};
use crate::formulas::residue::{RAKED, RESIDUE, UnderTips};
use crate::model::Foot;
use crate::model::openings::OpeningKind;
use crate::say::Statement;
use crate::spec::Spec;
use crate::units::Unit;

/// Under the tips with the take-up in one position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lying {
    /// Tips above the lowest line of the bottom, mm.
    pub tips_mm: f64,
    /// Product under them, l.
    pub litres: f64,
}

/// What the buckets leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residue {
    /// Take-up at its lowest.
    pub lowest: Lying,
    /// Take-up at its highest.
    pub highest: Lying,
    /// Lowest edge of a clean-out above the lowest line of the bottom, mm; `None` without a clean-out.
    pub edge_mm: Option<f64>,
    /// What lies below that edge with the take-up at its highest, l; all of it without a clean-out.
    pub below_edge_l: f64,
}

impl Residue {
    /// Computes it.
    pub fn compute(spec: &Spec, foot: &Foot) -> Self {
        let casing = &foot.casing;
        let down = casing.down_face.first().map_or(-casing.up_face, |p| p[0]);
        let under = |shaft: f64| UnderTips { shaft, tip_radius: foot.tip_radius, repose: spec.product.repose.value().to_radians() };
        let litres = |shaft: f64, most: f64| under(shaft).area_mm2([down, casing.up_face], most, |x| casing.lower_edge(x)) * casing.width.size() / 1e6;
        let lying = |shaft: f64| Lying { tips_mm: shaft - foot.tip_radius - casing.bottom_face, litres: litres(shaft, f64::INFINITY) };
        let clean_outs = foot.openings.iter().filter(|o| o.kind == OpeningKind::CleanOut).map(|o| o.up.low);
        let edge = clean_outs.min_by(f64::total_cmp);
        Self {
            lowest: lying(foot.shaft_lowest),
            highest: lying(foot.shaft_highest),
            edge_mm: edge.map(|z| z - casing.bottom_face),
            below_edge_l: litres(foot.shaft_highest, edge.unwrap_or(f64::INFINITY)),
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("residue", out);
        const TIPS: &[&str] = &["foot_pulley.diameter", "bucket.projection", "casing.bottom_clearance", "take_up.travel"];
        const LYING: &[&str] = &["foot_pulley.diameter", "bucket.projection", "casing.bottom", "casing.bottom_clearance", "take_up.travel", "product.repose"];
        for (key, words, lying) in [("lowest", "take-up at its lowest", &self.lowest), ("highest", "take-up at its highest", &self.highest)] {
            let said = |what: &'static str| Statement::all(vec![what.into(), words.into()]);
            g.put(&format!("tips_{key}"), said("bucket tips above the bottom"), lying.tips_mm, Unit::Mm, TIPS, RESIDUE);
            g.put(&format!("under_tips_{key}"), said("product that lies under the bucket tips"), lying.litres, Unit::L, LYING, RESIDUE);
        }
        g.put(
            "below_clean_outs",
            "of it below the clean-outs' lower edge, take-up at its highest",
            self.below_edge_l,
            Unit::L,
            &["residue.under_tips_highest", "clean_out.up", "clean_out.down", "casing.bottom"],
            RAKED,
        );
    }
}
