//! Actions on the supports of the foot, each by itself and unfactored: what a structural program combines.
//!
//! In: masses, belt pulls, pads. Out: for each action its resultant in kN with the point that it goes through, and what each pad gets of
//! it. Signs: vertical + down, horizontal + toward the up side. Weights bring a horizontal force in any direction besides. Factors that
//! are in the values already (starting, stalling drive, share of the weights) are assumptions with names of their own. A rigid base on
//! four pads is assumed; combinations and their factors are the engineer's.

use super::assumed::HORIZONTAL_SHARE;
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::weights::{MassAt, sum};
use crate::model::Foot;
use crate::model::base::Pad;
use crate::sources::Source;
use crate::units::GRAVITY;

/// Share of each pad.
pub const PADS: Source = Source::physics("rigid base on four pads: V/4 ± V·ex/(2·Lx) ± V·ey/(2·Ly), and H·h/(2·Lx) of what pushes at a height");

/// What kind of action it is: codes give each its own factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Self weight.
    Permanent,
    /// Weight of product: variable.
    Product,
    /// Pull of the belt in running: variable.
    Belt,
    /// What starting adds: variable, short.
    Starting,
    /// Foot pulley blocked while the drive pulls: accidental.
    Accidental,
}

impl Kind {
    /// In words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Permanent => "permanent",
            Self::Product => "variable, product",
            Self::Belt => "variable, belt pull",
            Self::Starting => "variable, starting",
            Self::Accidental => "accidental",
        }
    }
}

/// What stands on the foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Trunking and head stand on the foot and are only guided above.
    OnFoot,
    /// The building carries trunking and head.
    OnBuilding,
}

impl Standing {
    /// In words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::OnFoot => "head on the foot",
            Self::OnBuilding => "head on the building",
        }
    }
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

/// One action.
#[derive(Debug, Clone, PartialEq)]
pub struct Action {
    /// Stable id.
    pub id: &'static str,
    /// Short name on sheets, e.g. `G1`.
    pub code: &'static str,
    /// In plain words.
    pub name: &'static str,
    /// What kind it is.
    pub kind: Kind,
    /// The way of standing that it belongs to; `None` for both.
    pub standing: Option<Standing>,
    /// Vertical of the resultant, + down, kN.
    pub vertical_kn: f64,
    /// Horizontal of the resultant along the machine, + toward the up side, kN.
    pub horizontal_kn: f64,
    /// A point of its line of action, mm of the model; its height is that of the horizontal.
    pub at: [f64; 3],
    /// Horizontal in any direction that the weight brings besides, kN.
    pub any_direction_kn: f64,
    /// Height at which that attacks, above the underside of the base, mm.
    pub any_height_mm: f64,
    /// What each pad gets, without the horizontal in any direction.
    pub pads: Vec<PadLoad>,
}

/// A force at a point: down and toward the up side in kN, at x, y, z in mm.
#[derive(Debug, Clone, Copy)]
struct Force {
    down: f64,
    along: f64,
    at: [f64; 3],
}

impl Force {
    fn weight(m: &MassAt, z: f64) -> Self {
        Self { down: m.kg * GRAVITY / 1000.0, along: 0.0, at: [m.x_mm, m.y_mm, z] }
    }
}

/// How the four pads share loads: middle and sum of squared distances along x and y, mm.
struct Shares {
    middle: [f64; 2],
    square: [f64; 2],
    count: f64,
}

impl Shares {
    fn of(pads: &[Pad]) -> Self {
        let count = (pads.len() as f64).max(1.0);
        let along: [fn(&Pad) -> f64; 2] = [|p| p.anchor.x, |p| p.anchor.y];
        let middle = along.map(|of| pads.iter().map(of).sum::<f64>() / count);
        let off = |of: fn(&Pad) -> f64, middle: f64| pads.iter().map(|p| (of(p) - middle).powi(2)).sum::<f64>();
        Self { middle, square: [off(along[0], middle[0]), off(along[1], middle[1])], count }
    }
    /// A pad's arm over the squares, along x and y, 1/mm.
    fn arms(&self, pad: &Pad) -> [f64; 2] {
        let share = |arm: f64, square: f64| if square > 0.0 { arm / square } else { 0.0 };
        [share(pad.anchor.x - self.middle[0], self.square[0]), share(pad.anchor.y - self.middle[1], self.square[1])]
    }
}

/// The most that a horizontal force of 1 kN at 1 mm height presses or lifts one pad by, in whichever direction it acts, kN.
pub(super) fn overturning(foot: &Foot) -> f64 {
    let shares = Shares::of(&foot.base.pads);
    foot.base.pads.iter().map(|p| shares.arms(p)).map(|[x, y]| x.hypot(y)).fold(0.0, f64::max)
}

impl Action {
    /// From its forces; weights bring a horizontal besides.
    fn of(foot: &Foot, ([id, code, name], kind, standing): ([&'static str; 3], Kind, Option<Standing>), forces: &[Force], any_height_mm: f64) -> Self {
        let shares = Shares::of(&foot.base.pads);
        let total = |f: fn(&Force) -> f64| forces.iter().map(f).sum::<f64>();
        let (vertical_kn, horizontal_kn) = (total(|f| f.down), total(|f| f.along));
        // Moments about the axes through the middle of the pads on the underside of the base, so that pulls and weights may cancel.
        let [x0, y0] = shares.middle;
        let about_y: f64 = forces.iter().map(|f| f.down * (f.at[0] - x0) + f.along * f.at[2]).sum();
        let about_x: f64 = forces.iter().map(|f| f.down * (f.at[1] - y0)).sum();
        // The line of action at the height of its horizontal.
        let z = if horizontal_kn.abs() > 1e-9 { total(|f| f.along * f.at[2]) / horizontal_kn } else { any_height_mm };
        let at = if vertical_kn.abs() > 1e-9 { [x0 + (about_y - horizontal_kn * z) / vertical_kn, y0 + about_x / vertical_kn, z] } else { [x0, y0, z] };
        let weight = matches!(kind, Kind::Permanent | Kind::Product);
        let pads = foot.base.pads.iter().map(|p| {
            let [x, y] = shares.arms(p);
            PadLoad { pad: p.name, vertical_kn: vertical_kn / shares.count + about_y * x + about_x * y, horizontal_kn: horizontal_kn / shares.count }
        });
        Self {
            id,
            code,
            name,
            kind,
            standing,
            vertical_kn,
            horizontal_kn,
            at,
            any_direction_kn: if weight { vertical_kn * HORIZONTAL_SHARE.value } else { 0.0 },
            any_height_mm,
            pads: pads.collect(),
        }
    }

    /// All actions of one foot, in a fixed order.
    pub(super) fn all(foot: &Foot, path: &Path, tension: &Tension, masses: &Masses) -> Vec<Self> {
        use Kind::{Accidental, Belt, Permanent, Product, Starting};
        use Standing::{OnBuilding, OnFoot};
        let shaft = f64::midpoint(foot.shaft_lowest, foot.shaft_highest);
        let own = sum([masses.casing, masses.inlets, masses.pocket, masses.foot_pulley_set, masses.take_up, masses.bend_pulley_set]);
        let radius = foot.pulleys.foot.radius() + foot.belt.thickness / 2.0;
        let belt = MassAt { kg: masses.belt_kg, x_mm: foot.pulleys.head.centre.x, y_mm: 0.0 };
        let on_belt = MassAt { kg: masses.product_on_belt_kg, x_mm: radius, y_mm: 0.0 };
        let above = sum([masses.trunk, masses.head, belt]);
        // The runs leave the foot: the up run upright, the down run as it leans; from a bend pulley both stand upright.
        let lean = if foot.pulleys.bend.is_some() { 0.0 } else { path.middle.foot_run_deg.to_radians() };
        let down_at = foot
            .pulleys
            .bend
            .as_ref()
            .map_or([-radius * lean.cos(), 0.0, shaft - radius * lean.sin()], |b| [b.centre.x - b.radius() - foot.belt.thickness / 2.0, 0.0, b.centre.z]);
        let pulls = |up_n: f64, down_n: f64| {
            let (up, down) = (up_n / 1000.0, down_n / 1000.0);
            [
                Force { down: -up, along: 0.0, at: [radius, 0.0, shaft] },
                // Toward the side that it leans to on its way up: the down side where the head is larger.
                Force { down: -down * lean.cos(), along: 0.0 - down * lean.sin(), at: down_at },
            ]
        };
        let (up, down) = (tension.foot_up_n, tension.foot_down_n);
        let starting = tension.foot_up_full_n + (tension.start_n - tension.largest_n).max(0.0);
        let weight = |names, kind, standing, m: &MassAt, z: f64| Self::of(foot, (names, kind, standing), &[Force::weight(m, z)], z);
        let pull = |names, kind, forces: &[Force]| Self::of(foot, (names, kind, Some(OnBuilding)), forces, shaft);
        vec![
            weight(["g_foot", "G1", "self weight of the foot"], Permanent, None, &own, shaft),
            weight(["g_above", "G2", "self weight of trunking, head and belt"], Permanent, Some(OnFoot), &above, foot.casing.top),
            weight(["q_foot", "Q1", "product in the foot, running"], Product, None, &masses.product_running, shaft),
            weight(["q_belt", "Q2", "product on the belt"], Product, Some(OnFoot), &on_belt, foot.casing.top),
            weight(["q_flooded", "Q3", "product, foot flooded, in place of running"], Product, None, &masses.product_flooded, shaft),
            pull(["b_running", "B1", "belt pull, running"], Belt, &pulls(up, down)),
            pull(["b_starting", "B2", "belt pull, what starting adds"], Starting, &pulls(starting - up, 0.0)),
            // Empty buckets leave all of the drive's pull to the foot.
            pull(["a_blocked", "A1", "belt pull, foot pulley blocked, in place of running"], Accidental, &pulls(tension.blocked_empty_n, down)),
        ]
    }
}
