//! Settles `[shovel_pocket]`.
//!
//! In: what was asked, product, casing, levels, sensor panels. Out: the pocket, as large as there is a place
//! for on its side plate; the model builds it there. Where there is none, no pocket is fitted unless asked for.

use super::PRACTICE;
use super::casing::Levels;
use super::habit::{Habit, Step, mm};
use crate::formulas::foot_heights;
use crate::formulas::pocket_place::{Around, FLATTEST_DEG, LIP, POCKET_PLACE, REACH, UNDER_PANEL};
use crate::formulas::rolled_bottom;
use crate::spec::casing::{Bottom, Casing};
use crate::spec::inlets::{AskedShovelPocket, ShovelPocket, Side};
use crate::spec::openings::SensorPanels;
use crate::spec::product::Product;
use crate::spec::reader::Chosen;
use crate::spec::slide::{self, pad_length};
use crate::units::Angle;

/// Least clear width and height that a shovel passes, mm.
const LEAST: f64 = 150.0;
/// Steepest floor that is chosen, degrees.
const STEEPEST: f64 = 70.0;

/// Settles the shovel pocket.
pub(super) fn pocket(a: &AskedShovelPocket, product: &Product, casing: &Casing, levels: &Levels, panels: &SensorPanels, habit: Habit) -> ShovelPocket {
    let side = Chosen::or(&a.side, Side::Near, PRACTICE, "the near side has the working space");
    let panelled = match *side {
        Side::Near => *panels.near,
        Side::Far => *panels.far,
    };
    let panel = if panelled { (levels.shaft_low + levels.shaft_high) / 2.0 - panels.size.value.value() / 2.0 } else { f64::INFINITY };
    let height = a.height.value().map_or(habit.or_inch(250.0, 10.0), |h| h.value());
    let width = a.width.value().map_or(habit.or_inch(400.0, 16.0), |w| w.value());
    let (low, usual, high) = (habit.or_inch(LIP[0], 28.0), habit.or_inch(800.0, 32.0), habit.or_inch(LIP[1], 36.0));
    // A small foot has its panel low: a steeper floor brings the opening under it.
    let ceiling = panel - UNDER_PANEL;
    let for_panel = ((low - (ceiling - height)) / REACH).atan().to_degrees();
    let first = product.chute_slope.value.value().max((for_panel / 5.0).ceil() * 5.0).clamp(FLATTEST_DEG, STEEPEST);
    let slopes = a.slope.value().map_or_else(|| preferring(first, first, STEEPEST, 5.0), |s| vec![s.value()]);
    let rise = |slope: f64| REACH * slope.to_radians().tan();
    // The opening's lower edge lies one rise under the lip, but not under the bottom's edge.
    let wish = usual.min(ceiling - height + rise(first)).min(ceiling).max(levels.bottom + 60.0 + rise(first).min(high - low));
    let wish = habit.near(wish.clamp(low, high), Step::Middle);
    let lips = a.lip.value().map_or_else(|| preferring(wish, low, high, habit.or_inch(50.0, 2.0)), |l| vec![l.value()]);
    let around = |slope: f64, lip: f64| Around { lip, slope: slope.to_radians(), ..surroundings(casing, levels, panel, habit) };
    let sizes = |wish: f64, given: bool| -> Vec<f64> {
        let wish = if given { wish } else { habit.down(wish, Step::Middle) };
        let step = habit.or_inch(10.0, 0.5);
        if given { vec![wish] } else { (0..).map(|i| wish - step * f64::from(i)).take_while(|s| *s >= LEAST - 1e-6).collect() }
    };
    let (widths, heights) = (sizes(width, !a.width.is_absent()), sizes(height, !a.height.is_absent()));
    let mut best: Option<(f64, [f64; 4])> = None;
    for (slope, lip) in slopes.iter().flat_map(|s| lips.iter().map(move |l| (*s, *l))) {
        let here = around(slope, lip);
        for w in &widths {
            // The highest that has a place at this width.
            if let Some(h) = heights.iter().find(|h| here.place(*w, **h).is_some())
                && best.is_none_or(|b| w * h > b.0 + 1e-6)
            {
                best = Some((w * h, [*w, *h, slope, lip]));
            }
        }
        if best.is_some() {
            break;
        }
    }
    let found = best.is_some();
    let [w, h, slope, lip] = best.map_or([width.min(LEAST), height.min(LEAST), first, wish], |b| b.1);
    let none = "there is no place for one between the guides of the sliding plate and the up-side end, under the sensor panel";
    ShovelPocket {
        fitted: Chosen::or(
            &a.fitted,
            found,
            if found { PRACTICE } else { POCKET_PLACE },
            if found { "a plugged elevator must be emptied and the spill brought back" } else { none },
        ),
        side,
        width: Chosen::or(
            &a.width,
            mm(w),
            POCKET_PLACE,
            format!("wider than a shovel where there is room: {} between sliding plate and up-side end", habit.say(levels.up_end - levels.slide)),
        ),
        height: Chosen::or(&a.height, mm(h), POCKET_PLACE, "a shovel's load passes under its upper edge; it ends under the sensor panel"),
        slope: Chosen::or(
            &a.slope,
            Angle::deg(slope),
            PRACTICE,
            "the product's chute slope, at least 45°; steeper where the opening must lie under a low sensor panel",
        ),
        lip: Chosen::or(&a.lip, mm(lip), PRACTICE, "a height to shovel over, 700 to 900 mm, with the opening under the sensor panel"),
    }
}

/// Values from `low` to `high`, the wish first, then the others in steps.
fn preferring(wish: f64, low: f64, high: f64, step: f64) -> Vec<f64> {
    let others = (0..).map(|i| low + step * f64::from(i)).take_while(|v| *v <= high + 1e-6).filter(|v| (v - wish).abs() > 1e-6);
    std::iter::once(wish).chain(others).collect()
}

/// What stands round the pocket, but for its own slope and lip.
fn surroundings(casing: &Casing, levels: &Levels, panel: f64, habit: Habit) -> Around {
    let plate = casing.plate.value.value();
    let rolled = (*casing.bottom == Bottom::Curved).then(|| {
        let radius = levels.shaft_low - levels.bottom;
        (radius, rolled_bottom::end(levels.shaft_low, radius, levels.up_end, f64::INFINITY).0)
    });
    let length = pad_length(habit.stock());
    let pad = foot_heights::pad_middle(levels.up_end + plate, length, habit.or_inch(5.0, 0.25));
    let under_leg = rolled.map_or(0.0, |(radius, angle)| rolled_bottom::rise(radius, angle, pad));
    Around {
        slide: levels.slide + slide::wider(habit.stock()),
        end: levels.up_end,
        bottom: levels.bottom,
        rolled,
        foot: [pad - length / 2.0, foot_heights::leg_top(levels.bottom + under_leg)],
        panel,
        lip: 0.0,
        slope: 0.0,
    }
}
