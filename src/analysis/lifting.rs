//! What the foot weighs as it is lifted, where its centre of gravity lies, and what its lugs bear.
//!
//! In: masses of the parts, the lugs where they stand. Out: kg, mm, N, MPa. The foot is lifted with everything that is mounted in it,
//! without belt and product and without the loose weights of a gravity take-up. Two diagonal legs carry all.

use super::masses::{Masses, PARTS};
use super::weights::{MassAt, sum};
use super::{Group, Quantity};
use crate::formulas::lifting::{DESIGN, EYE, Pull, SEAMS, SLING, level_n, upright_n};
use crate::model::Foot;
use crate::model::lifting::{Breaks, Lug};
use crate::parts::{Part, Parts, lifting};
use crate::say;
use crate::spec::Spec;
use crate::spec::rotating::TakeUpKind;
use crate::units::{GRAVITY, Unit};

/// What hangs on the hook, and on what.
#[derive(Debug, Clone, PartialEq)]
pub struct Lifting {
    /// Mass and place of its centre.
    pub lifted: MassAt,
    /// The lugs, if there are any.
    pub lugs: Option<Lugs>,
}

/// The lugs under the pull of their slings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lugs {
    /// Sizes.
    pub lug: Lug,
    /// How many.
    pub number: u32,
    /// Pull on the lug that bears most, N.
    pub pull: Pull,
    /// The most of each part of a pull on any lug, N: what a lug for all of them holds.
    pub most: Pull,
    /// Its share of the mass.
    pub share: f64,
    /// Largest stress of all lugs, in the order of [`Breaks::ALL`], MPa.
    pub mpa: [f64; 7],
    /// Least height of the hook over the eyes, mm.
    pub hook_mm: f64,
    /// Legs to that hook, from the up side and from the down side, mm.
    pub legs_mm: [f64; 2],
}

/// Middles of the eyes of a lug's pieces, model mm.
fn eyes(part: &Part) -> Vec<[f64; 3]> {
    let hole = part.flat.iter().flat_map(|f| &f.holes).find(|h| h.feature == lifting::HOLE);
    let at = |h: &crate::parts::flat::Hole| part.placements.iter().map(|p| p.point(h.at[0], h.at[1], part.thickness / 2.0)).map(|p| [p.x, p.y, p.z]).collect();
    hole.map_or_else(Vec::new, at)
}

/// Share of what hangs between two supports on the one at `here`, from the other at `there`.
fn share(here: f64, there: f64, load: f64) -> f64 {
    if (here - there).abs() < 1e-9 { 0.5 } else { (load - there) / (here - there) }
}

impl Lifting {
    /// Sums the mass and pulls at the lugs.
    pub fn compute(spec: &Spec, foot: &Foot, parts: &Parts, masses: &Masses) -> Self {
        let loose = if foot.rotating.take_up == TakeUpKind::Gravity { spec.take_up.weights.value() } else { 0.0 };
        let weights = MassAt { kg: -loose, x_mm: 0.0, y_mm: 0.0 };
        let lifted = sum([masses.casing, masses.inlets, masses.pocket, masses.foot_pulley_set, masses.take_up, masses.bend_pulley_set, weights]);
        let angle = spec.lifting.angle.value().to_radians();
        let eyes = parts.part("lifting_lug").map(eyes).unwrap_or_default();
        let lugs = foot.lug.filter(|_| !eyes.is_empty()).map(|lug| Lugs::under(lug, &eyes, &lifted, angle));
        Self { lifted, lugs }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("lifting", out);
        let from = ["masses.foot_empty", "take_up.weights"];
        g.put("mass", "foot as it is lifted, without belt, product and loose weights", self.lifted.kg, Unit::Kg, &from, PARTS);
        g.put("centre", "centre of gravity along the machine, + toward the up side", self.lifted.x_mm, Unit::Mm, &["masses.foot_empty"], PARTS);
        let Some(l) = &self.lugs else { return };
        g.put("share", "share of the mass on the lug that bears most", l.share, Unit::One, &["lifting.centre"], SLING);
        g.put("leg", "pull of a sling on the lug that bears most", l.pull.whole(), Unit::N, &["lifting.mass", "lifting.share", "lifting.angle"], SLING);
        g.put("hook", "least height of the hook over the eyes", l.hook_mm, Unit::Mm, &["lifting.centre", "lifting.angle"], SLING);
        g.put("leg_up", "leg of a sling, up side", l.legs_mm[0], Unit::Mm, &["lifting.hook"], SLING);
        g.put("leg_down", "leg of a sling, down side", l.legs_mm[1], Unit::Mm, &["lifting.hook"], SLING);
        for (breaks, mpa) in Breaks::ALL.iter().zip(l.mpa) {
            let (id, source) = match breaks {
                Breaks::Bearing => ("bearing", EYE),
                Breaks::TearOut => ("tear_out", EYE),
                Breaks::Beside => ("beside", EYE),
                Breaks::Beyond => ("beyond", EYE),
                Breaks::Bending => ("bending", EYE),
                Breaks::WallSeam => ("wall_seam", SEAMS),
                Breaks::FlangeSeam => ("flange_seam", SEAMS),
            };
            let inputs = ["lifting.leg", "lifting.thickness", "lifting.height", "lifting.shackle"];
            g.put(id, say!("stress of a lug, {part}", part = breaks.named()), mpa, Unit::Mpa, &inputs, source);
            g.put(
                &format!("{id}_allowed"),
                say!("allowed of a lug, {part}", part = breaks.named()),
                breaks.allowed_mpa(),
                Unit::Mpa,
                &["assumed.lifting_factor"],
                DESIGN,
            );
        }
    }
}

impl Lugs {
    fn under(lug: Lug, eyes: &[[f64; 3]], lifted: &MassAt, angle: f64) -> Self {
        let ends = |axis: usize| eyes.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], e| [low.min(e[axis]), high.max(e[axis])]);
        let (x, y) = (ends(0), ends(1));
        let opposite = |[low, high]: [f64; 2], at: f64| if (at - low).abs() < (at - high).abs() { high } else { low };
        let shared = |e: &[f64; 3]| share(e[0], opposite(x, e[0]), lifted.x_mm).max(share(e[1], opposite(y, e[1]), lifted.y_mm));
        let away = |e: &[f64; 3]| [(e[0] - lifted.x_mm).abs(), (e[1] - lifted.y_mm).abs()];
        let reach = |e: &[f64; 3]| away(e)[0].hypot(away(e)[1]);
        let pull = |e: &[f64; 3]| {
            let up = upright_n(lifted.kg, shared(e));
            let level = level_n(up, angle) / reach(e).max(1e-9);
            // Lugs stand along the machine: across it a sling bends them.
            let [toward, along] = away(e);
            Pull { up, along: level * along, toward: level * toward }
        };
        let worst = eyes.iter().max_by(|a, b| shared(a).total_cmp(&shared(b)));
        let furthest = eyes.iter().map(reach).fold(0.0, f64::max);
        let hook_mm = furthest * angle.tan().min(1e3);
        let leg = |at: f64| eyes.iter().filter(|e| (e[0] - at).abs() < 1.0).map(|e| reach(e).hypot(hook_mm)).fold(0.0, f64::max);
        Self {
            lug,
            number: u32::try_from(eyes.len()).unwrap_or(0),
            pull: worst.map_or(Pull::NONE, pull),
            most: eyes.iter().map(pull).fold(Pull::NONE, |a, b| Pull { up: a.up.max(b.up), along: a.along.max(b.along), toward: a.toward.max(b.toward) }),
            share: worst.map_or(0.0, shared),
            mpa: Breaks::ALL.map(|b| eyes.iter().map(|e| lug.mpa(b, &pull(e))).fold(0.0, f64::max)),
            hook_mm,
            legs_mm: [leg(x[1]), leg(x[0])],
        }
    }
    /// Mass that hangs on the shackle that bears most, kg.
    pub fn on_shackle_kg(&self) -> f64 {
        self.pull.whole() / GRAVITY
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::tables::plates::Stock;
    use crate::tables::shackles;

    /// By hand: 1000 kg, lugs at x 600 and −400, y ±300, centre of gravity at 0: 40 % up side, 60 % down side, so 5884 N upright on
    /// the down side; level 3397 N at 60°, of which 400/500 toward the wall and 300/500 across the lug. The hook is
    /// 600-300-diagonal (671) × tan 60° high.
    #[test]
    fn lugs_by_hand() {
        let eyes = [[600.0, 300.0, 0.0], [600.0, -300.0, 0.0], [-400.0, 300.0, 0.0], [-400.0, -300.0, 0.0]];
        let lug = Lug::new(Stock::Metric, shackles::of_limit(1000.0).unwrap(), [15.0, 120.0], 5.0, 50.0);
        let l = Lugs::under(lug, &eyes, &MassAt { kg: 1000.0, x_mm: 0.0, y_mm: 0.0 }, 60f64.to_radians());
        assert!((l.share - 0.6).abs() < 1e-12 && (l.pull.up - 5884.0).abs() < 0.1);
        assert!((l.pull.toward - 3397.1 * 0.8).abs() < 0.1 && (l.pull.along - 3397.1 * 0.6).abs() < 0.1);
        assert!((l.hook_mm - 670.82 * 3f64.sqrt()).abs() < 0.01);
        assert!((l.legs_mm[0] - 2.0 * 670.82).abs() < 0.01 && (l.legs_mm[1] - 500f64.hypot(l.hook_mm)).abs() < 0.01);
    }
}
