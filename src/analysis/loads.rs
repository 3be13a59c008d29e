//! Support loads of the base, unfactored, for the civil engineer.
//!
//! In: masses, belt pulls, pads. Out: kN on each pad by load case. Signs: vertical + down on the pad
//! (− lifts off), horizontal + toward the up side. Two ways of standing: the foot carries trunking and
//! head (belt pull stays inside the machine), or the building carries them (the belt lifts the foot).
//! A rigid base on four pads is assumed. Wind, earthquake, pipes and platforms are not covered.

use super::assumed::HORIZONTAL_SHARE;
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::weights::{MassAt, NONE, sum};
use super::{Group, Quantity};
use crate::model::Foot;
use crate::say;
use crate::say::name;
use crate::sources::Source;
use crate::units::{GRAVITY, Unit};

/// Share of each pad.
pub const PADS: Source = Source::physics("rigid base on four pads: V/4 ± V·ex/(2·Lx) ± V·ey/(2·Ly)");

/// What stands on the foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Trunking and head stand on the foot and are only guided above.
    OnFoot,
    /// The building carries trunking and head.
    OnBuilding,
}

/// Load on one pad.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PadLoad {
    /// Name of the pad (`A` near/up, `B` near/down, `C` far/up, `D` far/down).
    pub pad: &'static str,
    /// Vertical, + down, kN.
    pub vertical_kn: f64,
    /// Along the machine, + toward the up side, kN.
    pub horizontal_kn: f64,
}

/// One load case.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCase {
    /// Stable id, e.g. `on_foot_running`.
    pub id: &'static str,
    /// In plain words.
    pub name: &'static str,
    /// What stands on the foot.
    pub standing: Standing,
    /// Sum of the verticals, + down, kN.
    pub vertical_kn: f64,
    /// Sum of the horizontals along the machine, + toward the up side, kN.
    pub horizontal_kn: f64,
    /// Horizontal force to be taken in any direction besides, kN.
    pub any_direction_kn: f64,
    /// On each pad.
    pub pads: Vec<PadLoad>,
}

/// All load cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Loads {
    /// In a fixed order; never empty.
    pub cases: Vec<LoadCase>,
    /// Largest vertical on one pad, kN.
    pub largest_pad_kn: f64,
    /// Largest lift on one pad, kN; 0 when no pad lifts.
    pub largest_uplift_kn: f64,
}

impl Loads {
    /// Computes the cases.
    pub fn compute(foot: &Foot, path: &Path, tension: &Tension, masses: &Masses) -> Self {
        let own = sum([masses.casing, masses.inlets, masses.pocket, masses.foot_pulley_set, masses.take_up, masses.bend_pulley_set]);
        let belt = MassAt { kg: masses.belt_kg, x_mm: foot.pulleys.head.centre.x, y_mm: 0.0 };
        let above = sum([masses.trunk, masses.head, belt]);
        let up_x = foot.pulleys.foot.radius() + foot.belt.thickness / 2.0;
        let product_up = MassAt { kg: masses.product_on_belt_kg, x_mm: up_x, y_mm: 0.0 };
        let empty = sum([own, above]);
        // Belt pulls as negative masses where the runs leave the foot; with a bend pulley both leave vertically.
        let lean = if foot.pulleys.bend.is_some() { 0.0 } else { path.middle.foot_run_deg.to_radians() };
        let down_x = foot.pulleys.bend.as_ref().map_or(-up_x, |b| b.centre.x - b.radius() - foot.belt.thickness / 2.0);
        let pulled = |up_n: f64, down_n: f64| {
            [MassAt { kg: -up_n / GRAVITY, x_mm: up_x, y_mm: 0.0 }, MassAt { kg: -down_n * lean.cos() / GRAVITY, x_mm: down_x, y_mm: 0.0 }]
        };
        // The down run pulls the foot toward the side it leans to on its way up: −x when the head is larger.
        let sideways = |down_n: f64| 0.0 - down_n * lean.sin() / 1000.0;
        let start_up = tension.foot_up_full_n + (tension.start_n - tension.largest_n).max(0.0);
        let (running, flooded) = (masses.product_running, masses.product_flooded);
        let (up, down) = (tension.foot_up_n, tension.foot_down_n);
        let held = |product: MassAt, up_n: f64, down_n: f64| [own, product, pulled(up_n, down_n)[0], pulled(up_n, down_n)[1]].to_vec();
        use Standing::{OnBuilding, OnFoot};
        let cases: Vec<LoadCase> = [
            ("on_foot_empty", "trunking and head on the foot, empty", OnFoot, vec![empty], 0.0),
            ("on_foot_running", "trunking and head on the foot, running full", OnFoot, vec![empty, product_up, running], 0.0),
            ("on_foot_flooded", "trunking and head on the foot, foot flooded", OnFoot, vec![empty, product_up, flooded], 0.0),
            ("held_dismantled", "building carries the head, belt off, foot empty", OnBuilding, vec![own], 0.0),
            ("held_running", "building carries the head, running full", OnBuilding, held(running, up, down), sideways(down)),
            ("held_starting", "building carries the head, starting full", OnBuilding, held(running, start_up, down), sideways(down)),
            ("held_flooded", "building carries the head, foot flooded, belt slack", OnBuilding, vec![own, flooded], 0.0),
            (
                "held_blocked",
                "building carries the head, foot pulley blocked, drive pulls",
                OnBuilding,
                // Empty buckets leave all of the drive's pull to the foot, and an empty foot weighs nothing against it.
                held(NONE, tension.blocked_empty_n, down),
                sideways(down),
            ),
        ]
        .into_iter()
        .map(|(id, name, standing, parts, horizontal_kn)| case(foot, id, name, standing, &parts, horizontal_kn))
        .collect();
        let verticals = || cases.iter().flat_map(|c| c.pads.iter().map(|p| p.vertical_kn));
        let (largest_pad_kn, largest_uplift_kn) = (verticals().fold(0.0, f64::max), 0.0 - verticals().fold(0.0, f64::min));
        Self { cases, largest_pad_kn, largest_uplift_kn }
    }

    /// A case by its id.
    #[cfg(test)]
    pub(crate) fn case(&self, id: &str) -> Option<&LoadCase> {
        self.cases.iter().find(|c| c.id == id)
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("loads", out);
        const FROM: &[&str] =
            &["masses.foot_empty", "masses.trunk", "masses.head", "masses.product_running", "masses.product_flooded", "tension.foot_up", "tension.foot_down"];
        for c in &self.cases {
            g.put(&format!("{}.vertical", c.id), say!("{case}: vertical, + down", case = c.name), c.vertical_kn, Unit::KnOnBuilding, FROM, PADS);
            g.put(
                &format!("{}.horizontal", c.id),
                say!("{case}: along the machine, + toward the up side", case = c.name),
                c.horizontal_kn,
                Unit::KnOnBuilding,
                &["tension.foot_down", "path.foot_run_middle"],
                PADS,
            );
            g.put(
                &format!("{}.any_direction", c.id),
                say!("{case}: horizontal in any direction", case = c.name),
                c.any_direction_kn,
                Unit::KnOnBuilding,
                &["assumed.horizontal_share"],
                HORIZONTAL_SHARE.source,
            );
            for p in &c.pads {
                g.put(
                    &format!("{}.{}", c.id, p.pad),
                    say!("{case}: vertical on pad {pad}, + down", case = c.name, pad = name(p.pad)),
                    p.vertical_kn,
                    Unit::KnOnBuilding,
                    FROM,
                    PADS,
                );
            }
        }
        g.put("largest_pad", "largest vertical on one pad", self.largest_pad_kn, Unit::KnOnBuilding, FROM, PADS);
        g.put("largest_uplift", "largest lift on one pad", self.largest_uplift_kn, Unit::KnOnBuilding, FROM, PADS);
    }
}

fn case(foot: &Foot, id: &'static str, name: &'static str, standing: Standing, parts: &[MassAt], horizontal_kn: f64) -> LoadCase {
    let kn = |kg: f64| kg * GRAVITY / 1000.0;
    let pads = &foot.base.pads;
    let count = (pads.len() as f64).max(1.0);
    let middle = |f: fn(&crate::model::base::Pad) -> f64| pads.iter().map(f).sum::<f64>() / count;
    let (x0, y0) = (middle(|p| p.anchor.x), middle(|p| p.anchor.y));
    let (sxx, syy) = (pads.iter().map(|p| (p.anchor.x - x0).powi(2)).sum::<f64>(), pads.iter().map(|p| (p.anchor.y - y0).powi(2)).sum::<f64>());
    // Moments about the middle of the pads, so that pulls and weights may cancel.
    let (mut v, mut mx, mut my, mut down) = (0.0, 0.0, 0.0, 0.0);
    for m in parts {
        v += kn(m.kg);
        mx += kn(m.kg) * (m.x_mm - x0);
        my += kn(m.kg) * (m.y_mm - y0);
        down += kn(m.kg.max(0.0));
    }
    let share = |moment: f64, arm: f64, square: f64| if square > 0.0 { moment * arm / square } else { 0.0 };
    LoadCase {
        id,
        name,
        standing,
        vertical_kn: v,
        horizontal_kn,
        any_direction_kn: down * HORIZONTAL_SHARE.value,
        pads: pads
            .iter()
            .map(|p| PadLoad {
                pad: p.name,
                vertical_kn: v / count + share(mx, p.anchor.x - x0, sxx) + share(my, p.anchor.y - y0, syy),
                horizontal_kn: horizontal_kn / count,
            })
            .collect(),
    }
}
