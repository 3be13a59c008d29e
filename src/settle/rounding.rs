//! What defaults are rounded to: whole millimetres or fractions of an inch.
//!
//! In: the asked sheet and project. Out: rounding steps and customary values. A given value is never rounded.

use crate::spec::AskedSpec;
use crate::spec::project::Jurisdiction;
use crate::spec::sheet::{LengthUnit, SheetStandard};
use crate::tables::plates::Stock;
use crate::units::{Length, MM_PER_INCH};

/// How the job rounds its defaults.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rounding {
    /// US rules and US stock sizes.
    pub us: bool,
    /// Lengths in inches.
    pub inch: bool,
}

/// How finely a default is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    /// 1 mm or 1/16 in.
    Whole,
    /// 5 mm or 1/4 in.
    Fine,
    /// 10 mm or 1/2 in.
    Middle,
    /// 50 mm or 2 in.
    Coarse,
}

impl Rounding {
    /// US when the jurisdiction is, inches when the sheet's unit is; each follows the other when only one is given.
    pub(super) fn of(asked: &AskedSpec) -> Self {
        let unit = asked.sheet.unit.value();
        let ansi = asked.sheet.standard.value() == Some(SheetStandard::Ansi);
        let us = match asked.project.jurisdiction.value() {
            Some(j) => j == Jurisdiction::Us,
            None => ansi || unit.is_some_and(|u| u != LengthUnit::Mm),
        };
        Self { us, inch: unit.map_or(us, |u| u != LengthUnit::Mm) }
    }

    /// Plates and bars that the job's shop buys.
    pub(super) fn stock(self) -> Stock {
        Stock::of(self.us)
    }

    /// Such a step, mm.
    pub(super) fn step(self, step: Step) -> f64 {
        match (step, self.inch) {
            (Step::Whole, false) => 1.0,
            (Step::Whole, true) => MM_PER_INCH / 16.0,
            (Step::Fine, false) => 5.0,
            (Step::Middle, false) => 10.0,
            (Step::Coarse, false) => 50.0,
            (Step::Fine, true) => MM_PER_INCH / 4.0,
            (Step::Middle, true) => MM_PER_INCH / 2.0,
            (Step::Coarse, true) => MM_PER_INCH * 2.0,
        }
    }

    /// Rounded up, mm.
    pub(super) fn up(self, mm: f64, step: Step) -> f64 {
        let s = self.step(step);
        (mm / s - 1e-6).ceil() * s
    }

    /// Rounded down, mm.
    pub(super) fn down(self, mm: f64, step: Step) -> f64 {
        let s = self.step(step);
        (mm / s + 1e-6).floor() * s
    }

    /// Rounded to the nearest step, mm.
    pub(super) fn near(self, mm: f64, step: Step) -> f64 {
        let s = self.step(step);
        (mm / s).round() * s
    }

    /// One of two customary values, mm: the metric one or the one in inches.
    pub(super) fn or_inch(self, mm: f64, inches: f64) -> f64 {
        if self.inch { inches * MM_PER_INCH } else { mm }
    }
}

/// A length in mm, short.
pub(super) fn mm(value: f64) -> Length {
    Length::mm(value)
}
