//! The belt path in numbers: lengths, wraps and angles at the ends and in the middle of the take-up travel.
//!
//! In: the model's belt paths. Out: lengths in mm, wraps in degrees, the belt's angle to the vertical
//! below the bend pulley, the change of length over the travel.

use super::Quantity;
use crate::formulas::belt_path::{BELT_PATH, BeltPath, LENGTH_DERIVATIVE, Pulley};
use crate::model::Foot;
use crate::say::Statement;
use crate::units::Unit;

/// The path at one take-up position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathAt {
    /// Belt length along the neutral line, mm.
    pub length_mm: f64,
    /// Wrap on the foot pulley, degrees.
    pub foot_wrap_deg: f64,
    /// Wrap on the head pulley, degrees.
    pub head_wrap_deg: f64,
    /// Wrap on the bend pulley, degrees; 0 without one or when the belt passes clear of it.
    pub bend_wrap_deg: f64,
    /// Angle of the run that reaches the foot pulley to the vertical, degrees.
    pub foot_run_deg: f64,
    /// Change of belt length per lowering of the foot pulley, mm/mm.
    pub length_per_lowering: f64,
}

impl PathAt {
    fn of(path: &BeltPath) -> Self {
        Self {
            length_mm: path.length_mm,
            foot_wrap_deg: path.wrap_rad(Pulley::Foot).to_degrees(),
            head_wrap_deg: path.wrap_rad(Pulley::Head).to_degrees(),
            bend_wrap_deg: path.wrap_rad(Pulley::Bend).to_degrees(),
            foot_run_deg: path.foot_run_angle_rad().to_degrees(),
            length_per_lowering: path.length_per_lowering,
        }
    }
}

/// The path over the take-up travel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Path {
    /// Take-up at its lowest (longest belt).
    pub lowest: PathAt,
    /// Take-up in the middle.
    pub middle: PathAt,
    /// Take-up at its highest (a new belt).
    pub highest: PathAt,
    /// Belt length that the travel takes up: lowest minus highest, mm.
    pub taken_up_mm: f64,
    /// Height from foot shaft to head shaft, take-up in the middle, mm.
    pub shaft_height_mm: f64,
}

impl Path {
    /// Reads the model's paths.
    pub fn compute(foot: &Foot) -> Self {
        let middle_shaft = (foot.shaft_lowest + foot.shaft_highest) / 2.0;
        Self {
            lowest: PathAt::of(&foot.belt.lowest),
            middle: PathAt::of(&foot.belt.middle),
            highest: PathAt::of(&foot.belt.highest),
            taken_up_mm: foot.belt.lowest.length_mm - foot.belt.highest.length_mm,
            shaft_height_mm: foot.pulleys.head.centre.z - middle_shaft,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        const FROM: &[&str] =
            &["duty.lift", "head_pulley.diameter", "foot_pulley.diameter", "bend_pulley.diameter", "bend_pulley.height", "belt.thickness", "take_up.travel"];
        for (key, words, at) in [
            ("lowest", "take-up at its lowest", &self.lowest),
            ("middle", "take-up in the middle", &self.middle),
            ("highest", "take-up at its highest", &self.highest),
        ] {
            let mut put = |id: &str, name: &'static str, value: f64, unit: Unit, source| {
                out.push(Quantity::new(format!("path.{id}_{key}"), Statement::all(vec![name.into(), words.into()]), value, unit, FROM, source));
            };
            put("length", "belt length along the neutral line", at.length_mm, Unit::Mm, BELT_PATH);
            put("foot_wrap", "wrap on the foot pulley", at.foot_wrap_deg, Unit::Degree, BELT_PATH);
            put("head_wrap", "wrap on the head pulley", at.head_wrap_deg, Unit::Degree, BELT_PATH);
            if self.middle.bend_wrap_deg > 0.0 {
                put("bend_wrap", "wrap on the bend pulley", at.bend_wrap_deg, Unit::Degree, BELT_PATH);
            }
            put("foot_run", "angle of the run to the foot pulley from the vertical", at.foot_run_deg, Unit::Degree, BELT_PATH);
            put("length_rate", "belt length gained per lowering of the foot shaft", at.length_per_lowering, Unit::MmPerMm, LENGTH_DERIVATIVE);
        }
        out.push(Quantity::new(
            "path.taken_up",
            "belt length that the take-up travel takes in",
            self.taken_up_mm,
            Unit::Mm,
            &["path.length_lowest", "path.length_highest"],
            BELT_PATH,
        ));
        out.push(Quantity::new(
            "path.shaft_height",
            "foot shaft to head shaft, take-up in the middle",
            self.shaft_height_mm,
            Unit::Mm,
            &["duty.lift", "take_up.travel"],
            BELT_PATH,
        ));
    }
}
