//! Settles `[shovel_pocket]`.
//!
//! In: what was asked, product, casing, levels, sensor panels. Out: the pocket, as large as there is a place
//! for on its side plate; the model builds it there. Where there is none, no pocket is fitted unless asked for.

use super::PRACTICE;
use super::rounding::{Rounding, Step, mm};
use super::so_far::Standing;
use crate::formulas::foot_heights;
use crate::formulas::pocket_place::{Around, FLATTEST_DEG, LIP, POCKET_PLACE, REACH, under_panel};
use crate::formulas::rolled_bottom;
use crate::say;
use crate::sizing::pocket_lid;
use crate::sizing::sliding_plate::{self, pad_length};
use crate::spec::casing::Bottom;
use crate::spec::inlets::{ShovelPocket, Side};
use crate::spec::openings::SensorPanels;
use crate::spec::reader::Chosen;
use crate::units::{Angle, Unit};

/// Least clear width and height that a shovel passes, mm.
const LEAST: f64 = 150.0;
/// Steepest floor that is chosen, degrees.
const STEEPEST: f64 = 70.0;

/// Settles the shovel pocket.
pub(super) fn pocket(so_far: &Standing<'_>, panels: &SensorPanels) -> ShovelPocket {
    let (a, rounding, levels) = (&so_far.asked.shovel_pocket, so_far.rounding, &so_far.levels);
    let side = Chosen::or(&a.side, Side::Near, PRACTICE, "the near side has the working space");
    let panelled = match *side {
        Side::Near => *panels.near,
        Side::Far => *panels.far,
    };
    let panel = if panelled { levels.shaft_middle() - panels.size.value.value() / 2.0 } else { f64::INFINITY };
    let lips = lip_heights(rounding);
    let wish = Wish::of(so_far, panel);
    let found = wish.largest(so_far, panel);
    let shape = found.unwrap_or_else(|| wish.least());
    ShovelPocket {
        fitted: Chosen::or(
            &a.fitted,
            found.is_some(),
            if found.is_some() { PRACTICE } else { POCKET_PLACE },
            if found.is_some() {
                "a plugged elevator must be emptied and the spill brought back"
            } else {
                "there is no place for one between the guides of the sliding plate and the up-side end, under the sensor panel"
            },
        ),
        side,
        width: Chosen::or(
            &a.width,
            mm(shape.width),
            POCKET_PLACE,
            say!("wider than a shovel where there is room: {room} between sliding plate and up-side end", room = say::mm(levels.up_end - levels.slide)),
        ),
        height: Chosen::or(&a.height, mm(shape.height), POCKET_PLACE, "a shovel's load passes under its upper edge; it ends under the sensor panel"),
        slope: Chosen::or(
            &a.slope,
            Angle::deg(shape.slope),
            PRACTICE,
            say!(
                "the product's chute slope, at least {least}; steeper where the opening must lie under a low sensor panel",
                least = say::amount(FLATTEST_DEG, Unit::Degree, 0)
            ),
        ),
        lip: Chosen::or(
            &a.lip,
            mm(shape.lip),
            PRACTICE,
            say!("a height to shovel over, {low} to {high}, with the opening under the sensor panel", low = say::mm(lips[0]), high = say::mm(lips[2])),
        ),
    }
}

/// Heights over which people shovel: lowest, usual, highest, mm.
fn lip_heights(rounding: Rounding) -> [f64; 3] {
    [rounding.or_inch(LIP[0], 28.0), rounding.or_inch(800.0, 32.0), rounding.or_inch(LIP[1], 36.0)]
}

/// A pocket: clear width and height, mm; slope of its floor, degrees; lip above the base, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Shape {
    width: f64,
    height: f64,
    slope: f64,
    lip: f64,
}

/// What a pocket would be like if there were room.
struct Wish {
    shape: Shape,
    /// What may be chosen instead, best first; a value that was asked for stands alone.
    widths: Vec<f64>,
    heights: Vec<f64>,
    slopes: Vec<f64>,
    lips: Vec<f64>,
}

impl Wish {
    /// For a sensor panel whose lower edge is at `panel`.
    fn of(so_far: &Standing<'_>, panel: f64) -> Self {
        let (a, rounding) = (&so_far.asked.shovel_pocket, so_far.rounding);
        let width = a.width.value().map_or(rounding.or_inch(400.0, 16.0), |w| w.value());
        let height = a.height.value().map_or(rounding.or_inch(250.0, 10.0), |h| h.value());
        let [low, usual, high] = lip_heights(rounding);
        // A small foot has its panel low: a steeper floor brings the opening under it.
        let ceiling = panel - below(so_far);
        let reach = rounding.or_inch(REACH[0], REACH[1]);
        let for_panel = ((low - (ceiling - height)) / reach).atan().to_degrees();
        let slope = so_far.product.chute_slope.value.value().max((for_panel / 5.0).ceil() * 5.0).clamp(FLATTEST_DEG, STEEPEST);
        let rise = reach * slope.to_radians().tan();
        // The opening's lower edge lies one rise under the lip, but not under the bottom's edge.
        let lip = usual.min(ceiling - height + rise).min(ceiling).max(so_far.levels.bottom + 60.0 + rise.min(high - low));
        let lip = rounding.near(lip.clamp(low, high), Step::Middle);
        let sizes = |wish: f64, given: bool| -> Vec<f64> {
            if given {
                return vec![wish];
            }
            let (wish, step) = (rounding.down(wish, Step::Middle), rounding.or_inch(10.0, 0.5));
            (0..).map(|i| wish - step * f64::from(i)).take_while(|s| *s >= LEAST - 1e-6).collect()
        };
        Self {
            shape: Shape { width, height, slope, lip },
            widths: sizes(width, !a.width.is_absent()),
            heights: sizes(height, !a.height.is_absent()),
            slopes: a.slope.value().map_or_else(|| preferring(slope, slope, STEEPEST, 5.0), |s| vec![s.value()]),
            lips: a.lip.value().map_or_else(|| preferring(lip, low, high, rounding.or_inch(50.0, 2.0)), |l| vec![l.value()]),
        }
    }

    /// The largest pocket that has a place, with the first slope and lip that give one.
    fn largest(&self, so_far: &Standing<'_>, panel: f64) -> Option<Shape> {
        let ground = surroundings(so_far, panel);
        self.slopes.iter().flat_map(|slope| self.lips.iter().map(move |lip| (*slope, *lip))).find_map(|(slope, lip)| {
            let around = Around { lip, slope: slope.to_radians(), ..ground };
            let mut best: Option<Shape> = None;
            for width in self.widths.iter().copied() {
                // The highest that has a place at this width.
                let Some(height) = self.heights.iter().copied().find(|h| around.place(width, *h).is_some()) else { continue };
                if best.is_none_or(|b| width * height > b.width * b.height + 1e-6) {
                    best = Some(Shape { width, height, slope, lip });
                }
            }
            best
        })
    }

    /// What stands in the spec where there is no place.
    fn least(&self) -> Shape {
        Shape { width: self.shape.width.min(LEAST), height: self.shape.height.min(LEAST), ..self.shape }
    }
}

/// Values from `low` to `high`, the wish first, then the others in steps.
fn preferring(wish: f64, low: f64, high: f64, step: f64) -> Vec<f64> {
    let others = (0..).map(|i| low + step * f64::from(i)).take_while(|v| *v <= high + 1e-6).filter(|v| (v - wish).abs() > 1e-6);
    std::iter::once(wish).chain(others).collect()
}

/// What its opening keeps from a sensor panel above it, mm.
fn below(so_far: &Standing<'_>) -> f64 {
    let stock = so_far.rounding.stock();
    under_panel(pocket_lid::stack(so_far.plates.plate.value.value(), stock) + pocket_lid::AIR, stock.width_mm(foot_heights::LAP))
}

/// What stands round the pocket, but for its own slope and lip.
fn surroundings(so_far: &Standing<'_>, panel: f64) -> Around {
    let (plates, levels, rounding) = (&so_far.plates, &so_far.levels, so_far.rounding);
    let rolled = (*plates.bottom == Bottom::Curved).then(|| levels.rolled()).map(|rolled| (rolled.radius, rolled.angle));
    let length = pad_length(rounding.stock());
    let pad = foot_heights::pad_middle(levels.up_end + plates.plate.value.value(), length, rounding.or_inch(5.0, 0.25));
    let under_leg = rolled.map_or(0.0, |(radius, angle)| rolled_bottom::rise(radius, angle, pad));
    Around {
        slide: levels.slide + sliding_plate::wider(rounding.stock()),
        end: levels.up_end,
        bottom: levels.bottom,
        rolled,
        foot: [pad - length / 2.0, foot_heights::leg_top(levels.bottom + under_leg)],
        panel,
        under_panel: below(so_far),
        lip: 0.0,
        slope: 0.0,
        step: rounding.stock().step_mm(),
        reach: rounding.or_inch(REACH[0], REACH[1]),
    }
}
