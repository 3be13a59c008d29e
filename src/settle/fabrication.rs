//! Settles `[fabrication]`: process, bending, stock sheet, kind of cutting file.
//!
//! In: what was asked. Out: a settled table. The shop that cuts may object to each of these values;
//! none of them changes the machine, only how its plates are made.

use super::PRACTICE;
use super::rounding::mm;
use super::so_far::Ask;
use crate::formulas::bend_allowance;
use crate::spec::fabrication::{CutProfile, Fabrication, Process};
use crate::spec::reader::{Chosen, Leaf};
use crate::tables::plates::{SHEET_MM, SHEET_US_IN, SHEETS};

/// Settles the table.
pub(super) fn fabrication(ask: &Ask<'_>) -> Fabrication {
    let (a, rounding) = (&ask.asked.fabrication, ask.rounding);
    let given = match &a.k_factor {
        Leaf::Given(v, _) => *v,
        _ => None,
    };
    Fabrication {
        process: Chosen::or(&a.process, Process::Laser, PRACTICE, "plates of this thickness are laser cut"),
        k_factor: Chosen::or(&a.k_factor, given, bend_allowance::DIN_6935, "by DIN 6935 from inside radius and thickness"),
        stock_length: Chosen::or(&a.stock_length, mm(rounding.or_inch(SHEET_MM[1], SHEET_US_IN[1])), SHEETS, "a usual stock sheet"),
        stock_width: Chosen::or(&a.stock_width, mm(rounding.or_inch(SHEET_MM[0], SHEET_US_IN[0])), SHEETS, "a usual stock sheet"),
        profile: Chosen::or(&a.profile, CutProfile::Polylines, PRACTICE, "read by most cutting programs"),
    }
}
