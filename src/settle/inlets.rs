//! Settles `[inlet.up]` and `[inlet.down]`.
//!
//! In: what was asked, product, duty, bucket, levels of the shaft. Out: the inlets with throats wide and high enough by
//! rule. The up-side sill stands on the shaft centreline with the take-up at its highest, where the buckets can hold what they get.

use super::PRACTICE;
use super::bucket::rows_length;
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Ask, Lifted, Sides, Standing};
use super::stopping;
use crate::formulas::down_face::DownFace;
use crate::formulas::flow;
use crate::formulas::foot_heights::{ABOVE_BUCKET_PATH, BEND_ROOM};
use crate::formulas::impact;
use crate::formulas::plugging::RESERVE;
use crate::say;
use crate::say::Statement;
use crate::sizing::flange_room;
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::casing::Bottom;
use crate::spec::inlets::{AskedInlet, FedBy, Inlet};
use crate::spec::product::{Product, ProductKind};
use crate::spec::reader::{Chosen, Leaf};
use crate::units::{Angle, Length, Unit};

const SILL: Source = Source::practice("buckets hold material only from the shaft's height upward");
/// Slowest stream that a throat is sized for, m/s: what comes to rest is not helped by a larger one.
const SLOWEST: f64 = 0.3;
/// Seal between flanges, and the widest flange that is chosen, mm.
const SEAL: f64 = 5.0;
const WIDEST_FLANGE: f64 = 120.0;
/// Kept in hand of a flange's width, mm: the plates run a little shorter when they are cut.
const IN_HAND: f64 = 3.0;
/// From the upper end of a rolled bottom to a sill, mm: the bend, the throat's plate and its weld.
const OVER_SHOULDER: f64 = 25.0;

/// Decides which inlets there are: those that the spec speaks of, else the up side alone.
pub(super) fn fitted(asked: &AskedSpec) -> Sides {
    let (up, down) = (asked.inlet_up.span.is_some(), asked.inlet_down.span.is_some());
    let only_down = down && !up;
    Sides {
        up: Chosen::or(
            &asked.inlet_up.fitted,
            !only_down || asked.inlet_down.fitted.value() == Some(false),
            PRACTICE,
            if only_down { "the spec speaks of the down-side inlet only" } else { "the up side fills the buckets with the least churning" },
        ),
        down: Chosen::or(&asked.inlet_down.fitted, down, PRACTICE, if down { "the spec speaks of it" } else { "not asked for" }),
    }
}

/// Settles the up-side inlet.
pub(super) fn up(so_far: &Standing<'_>) -> Inlet {
    let throat = Throat::decide(so_far, &so_far.asked.inlet_up);
    let (rounding, high) = (so_far.rounding, so_far.levels.shaft_high);
    let why = say!("on the shaft centreline with the take-up at its highest, {height} above the base", height = say::mm(high));
    let usual = rounding.up(high, Step::Fine);
    let more = stopping::raised(so_far, usual);
    let sill = if more > 0.0 {
        let why = say!(
            "{more} over the shaft centreline with the take-up at its highest, so that the foot takes what runs in until the quickest probe and gate have stopped the feed",
            more = say::mm(more)
        );
        Chosen::or(&throat.a.sill, mm(rounding.up(usual + more, Step::Fine)), RESERVE, why)
    } else {
        Chosen::or(&throat.a.sill, mm(usual), SILL, why)
    };
    let reach = throat.usual_reach();
    throat.inlet(so_far.sides.up.clone(), sill, reach)
}

/// Settles the down-side inlet: clear of the bend in its end plate, and with the reach that a leaning plate asks for.
pub(super) fn down(so_far: &Standing<'_>) -> Inlet {
    let throat = Throat::decide(so_far, &so_far.asked.inlet_down);
    let sill = throat.down_sill();
    let leaning = so_far.down_face.filter(|face| sill.value.value() > face.lower_z);
    let reach = leaning.and_then(|face| throat.reach_on_incline(&face)).unwrap_or_else(|| throat.usual_reach());
    throat.inlet(so_far.sides.down.clone(), sill, reach)
}

/// An inlet's throat, wherever its sill comes to lie.
struct Throat<'a> {
    so_far: &'a Standing<'a>,
    a: &'a AskedInlet,
    width: Chosen<Length>,
    slope: Chosen<Angle>,
    height: Chosen<Length>,
}

impl<'a> Throat<'a> {
    fn decide(so_far: &'a Standing<'a>, a: &'a AskedInlet) -> Self {
        let least_slope = so_far.product.chute_slope.value.value();
        let slope = Chosen::or(&a.slope, Angle::deg(usual_slope(&so_far.product)), PRACTICE, slides(least_slope, &so_far.product));
        let width = width(so_far, a);
        let height = height(so_far, a, width.value.value(), slope.value.value());
        Self { so_far, a, width, slope, height }
    }

    /// The sill on the down side: low, but on one side of a bend in the end plate.
    fn down_sill(&self) -> Chosen<Length> {
        let (levels, rounding) = (&self.so_far.levels, self.so_far.rounding);
        let third = levels.shaft_low - levels.radius / 3.0;
        let least = levels.shaft_low - levels.tip_radius + ABOVE_BUCKET_PATH;
        // A rolled bottom goes on to the end plate; the inlet is cut above it, as the model builds it.
        let rolled = *self.so_far.plates.bottom == Bottom::Curved;
        let shoulder = if rolled { levels.rolled().shoulder + OVER_SHOULDER } else { 0.0 };
        let low = rounding.up(third.max(least).max(shoulder), Step::Fine);
        let crossed = |face: &DownFace| low + self.height.value.value() + BEND_ROOM > face.lower_z && low < face.lower_z + BEND_ROOM;
        if let Some(face) = self.so_far.down_face.filter(crossed) {
            let above = rounding.up(face.lower_z + BEND_ROOM, Step::Fine);
            let why = say!("above the bend of the end plate at {bend}, which no opening may cross", bend = say::mm(face.lower_z));
            return Chosen::or(&self.a.sill, mm(above), PRACTICE, why);
        }
        let why = say!(
            "top of the lowest third of the foot pulley, take-up at its lowest, and {over} over the bucket path's bottom",
            over = say::mm(ABOVE_BUCKET_PATH)
        );
        Chosen::or(&self.a.sill, mm(low), PRACTICE, why)
    }

    fn usual_reach(&self) -> Chosen<Length> {
        let why = if *self.so_far.product.fragile {
            "short, so that what breaks gains little speed; room for a flange and its bolts"
        } else {
            "room for a flange, its bolts and a hand"
        };
        Chosen::or(&self.a.reach, mm(usual_reach(self.so_far.rounding, &self.so_far.product)), PRACTICE, why)
    }

    /// The reach on the inclined part of the down-side plate, where that asks for more than usual.
    ///
    /// The plate leans out over the throat by h tan β: what is left of the reach L must not let the roof, which rises L tan α with
    /// the floor, come nearer to the plate than 8°: L tan α ≤ (L − h tan β) tan(82° − β).
    fn reach_on_incline(&self, face: &DownFace) -> Option<Chosen<Length>> {
        let lean = ((face.lower_x - face.upper_x) / (face.upper_z - face.lower_z)).atan();
        let steepest = (82.0_f64.to_radians() - lean).tan();
        let slope = self.slope.value.value().to_radians().tan();
        let over = self.height.value.value() * lean.tan();
        let need = if steepest > slope + 0.05 { steepest * over / (steepest - slope) + 20.0 } else { 0.0 };
        (need > usual_reach(self.so_far.rounding, &self.so_far.product)).then(|| {
            let why = say!("roof and floor end beside each other on a plate that leans {lean} outward", lean = say::amount(lean.to_degrees(), Unit::Degree, 0));
            Chosen::or(&self.a.reach, mm(self.so_far.rounding.up(need, Step::Coarse).min(3000.0)), PRACTICE, why)
        })
    }

    /// The rectangle that a transition leads from, and its length; nothing when the spout has the throat's own size.
    fn transition(&self) -> Transition {
        let (a, rounding) = (self.a, self.so_far.rounding);
        let given = |leaf: &Leaf<Option<Length>>| leaf.value().flatten().map(|l| l.value());
        let (width, height) = (self.width.value.value(), self.height.value.value());
        let (w, h) = (given(&a.from_width), given(&a.from_height));
        if w.is_none() && h.is_none() {
            let none = |leaf: &Leaf<Option<Length>>| Chosen::or(leaf, None, PRACTICE, "the spout has the size of the throat's flange");
            return Transition { width: none(&a.from_width), height: none(&a.from_height), length: none(&a.from_length) };
        }
        let (w, h) = (w.unwrap_or(width), h.unwrap_or(height));
        let flare = ((w - width) / 2.0).abs().max((h - height).abs());
        let length = rounding.up((2.0 * flare).max(rounding.or_inch(300.0, 12.0)), Step::Coarse).min(3000.0);
        let why = say!("walls that turn by not more than 1 in 2 over a difference of {flare}", flare = say::mm(flare));
        Transition {
            width: Chosen::or(&a.from_width, Some(mm(w)), PRACTICE, "the throat's width"),
            height: Chosen::or(&a.from_height, Some(mm(h)), PRACTICE, "the throat's height"),
            length: Chosen::or(&a.from_length, Some(mm(length)), PRACTICE, why),
        }
    }

    /// Width of the flange: like the casing's, wider where a transition's walls rise from it so steeply that bolt heads need the room.
    fn flange(&self, from: &Transition) -> Chosen<Length> {
        let (a, rounding) = (self.a, self.so_far.rounding);
        let usual = rounding.or_inch(50.0, 2.0);
        let wall = self.so_far.plates.plate.value.value();
        let length = |leaf: &Chosen<Option<Length>>| leaf.value.map(|l| l.value());
        let (Some(w), Some(h), Some(run)) = (length(&from.width), length(&from.height), length(&from.length)) else {
            return Chosen::or(&a.flange, mm(usual), PRACTICE, "like the casing's flanges");
        };
        let Some(bolt) = flange_room::bolt(usual - wall, rounding.us) else {
            return Chosen::or(&a.flange, mm(usual), PRACTICE, "like the casing's flanges");
        };
        // Both flanges and a seal take their part of the run.
        let plates = (run - 2.0 * flange_room::tapped_thickness(usual, wall, rounding.us) - SEAL).max(20.0);
        let rise = run * self.slope.value.value().to_radians().tan();
        // The roof leans over the bolts of the throat's flange, the floor over those of the spout's.
        let (roof, floor) = (rise + h - self.height.value.value(), rise);
        let steepest = roof.max(floor).max((w - self.width.value.value()) / 2.0).max(0.0).atan2(plates);
        let least = flange_room::least_width(steepest, wall, bolt, rounding.stock()) + IN_HAND;
        if least <= usual {
            return Chosen::or(&a.flange, mm(usual), PRACTICE, "like the casing's flanges");
        }
        let why = say!("bolt heads beside a transition that rises at {slope}", slope = say::amount(steepest.to_degrees(), Unit::Degree, 0));
        Chosen::or(&a.flange, mm(rounding.up(least, Step::Fine).min(WIDEST_FLANGE)), PRACTICE, why)
    }

    /// The whole inlet.
    fn inlet(self, fitted: Chosen<bool>, sill: Chosen<Length>, reach: Chosen<Length>) -> Inlet {
        let a = self.a;
        let from = self.transition();
        Inlet {
            drop: Chosen::or(&a.drop, mm(usual_drop(self.so_far.rounding, &self.so_far.product)), PRACTICE, "short fall from the spout or conveyor"),
            flange: self.flange(&from),
            fed_by: Chosen::or(&a.fed_by, FedBy::Spout, PRACTICE, "a spout unless asked otherwise"),
            from_width: from.width,
            from_height: from.height,
            from_length: from.length,
            width: self.width,
            height: self.height,
            slope: self.slope,
            fitted,
            sill,
            reach,
        }
    }
}

/// Where a transition begins, and how long it is; nothing where there is none.
struct Transition {
    width: Chosen<Option<Length>>,
    height: Chosen<Option<Length>>,
    length: Chosen<Option<Length>>,
}

/// Why a chute has its slope.
pub(super) fn slides(least_deg: f64, product: &Product) -> Statement {
    say!("not under the {least} at which {product} slides", least = say::amount(least_deg, Unit::Degree, 1), product = say::name(&*product.name))
}

/// Reach of a throat on an upright end plate, mm: short for what breaks, because every length of floor adds to its speed.
fn usual_reach(rounding: Rounding, product: &Product) -> f64 {
    if *product.fragile { rounding.or_inch(250.0, 10.0) } else { rounding.or_inch(400.0, 16.0) }
}

/// Free fall onto the throat's floor, mm: hardly any for what breaks.
fn usual_drop(rounding: Rounding, product: &Product) -> f64 {
    if *product.fragile { rounding.or_inch(50.0, 2.0) } else { rounding.or_inch(500.0, 20.0) }
}

/// Slope of a throat's floor, or of a spout, unless asked otherwise, degrees.
pub(super) fn usual_slope(product: &Product) -> f64 {
    (product.chute_slope.value.value() / 5.0).ceil() * 5.0
}

/// The fastest belt that an up-side stream still meets gently, m/s: for what breaks, where there is such a stream.
pub(super) fn gentle_belt(ask: &Ask<'_>, product: &Product) -> Option<f64> {
    if !*product.fragile || !fitted(ask.asked).up.value {
        return None;
    }
    let (a, rounding) = (&ask.asked.inlet_up, ask.rounding);
    let angle = a.slope.value().map_or_else(|| usual_slope(product), |s| s.value()).to_radians();
    let reach = a.reach.value().map_or_else(|| usual_reach(rounding, product), |r| r.value());
    let drop = a.drop.value().map_or_else(|| usual_drop(rounding, product), |d| d.value());
    let stream = flow::slide(drop, reach / angle.cos().max(0.05), angle, product.wall_friction.value.value()).sill_m_per_s;
    Some(impact::belt_for_up_side_m_per_s(impact::GENTLE, stream, angle))
}

/// Clear width: of the buckets' length, narrow for what is fragile or sluggish.
fn width(so_far: &Lifted<'_>, a: &AskedInlet) -> Chosen<Length> {
    let rounding = so_far.rounding;
    let narrow = *so_far.product.fragile || *so_far.product.kind == ProductKind::Meal;
    let across = rows_length(&so_far.bucket);
    // Of short buckets a fifth.
    let less = rounding.or_inch(50.0, 2.0).min(across / 5.0);
    let (w, why) = if narrow {
        (
            flow::NARROW_THROAT * across,
            say!(
                "{share} of the {across} of buckets, so that the stream goes straight into them",
                share = say::n(flow::NARROW_THROAT, 1),
                across = say::mm(across)
            ),
        )
    } else {
        (across - less, say!("{across} of buckets less {less}", across = say::mm(across), less = say::mm(less)))
    };
    // Lumps want three of theirs, as far as the buckets are so long.
    let step = if across < 250.0 { Step::Fine } else { Step::Middle };
    let lumps = rounding.up(flow::THROAT_LUMPS * so_far.product.lump.value.value(), step).min(across);
    Chosen::or(&a.width, mm(rounding.down(w, step).max(lumps)), PRACTICE, why)
}

/// Of what runs out of a flooded throat, kept in hand when its height is chosen.
const IN_HAND_FLOODED: f64 = 1.01;

/// Clear height: for the stream through this clear width, and for lumps.
fn height(so_far: &Lifted<'_>, a: &AskedInlet, width: f64, slope_deg: f64) -> Chosen<Length> {
    let (product, rounding, capacity) = (&so_far.product, so_far.rounding, so_far.duty.capacity.value.value());
    let reach = a.reach.value().map_or_else(|| usual_reach(rounding, product), |r| r.value());
    let angle = slope_deg.to_radians();
    let (length, mu) = (reach / angle.cos().max(0.05), product.wall_friction.value.value());
    // As if it started from rest half way up, and not faster than it is after its fall.
    let drop = a.drop.value().map_or_else(|| usual_drop(rounding, product), |d| d.value());
    let v = flow::chute_speed_m_per_s(0.0, length / 2.0, angle, mu).max(flow::BEGUN).min(flow::slide(drop, length, angle, mu).slowest_m_per_s.max(SLOWEST));
    let (density, lump) = (product.density.value.value(), product.lump.value.value());
    let area = flow::throat_area_mm2(capacity, density, v, flow::LARGEST_FILLING);
    // The stream's depth is measured square to the floor, the opening up the end plate.
    let square = angle.cos().max(0.05);
    let by_flow = area / width / square;
    let by_lump = 5.0 * lump;
    // A small foot has a small throat.
    let usual = rounding.or_inch(200.0, 8.0);
    let least = rounding.up((2.0 * rows_length(&so_far.bucket)).min(usual), Step::Fine);
    let step = if least < usual { Step::Fine } else { Step::Coarse };
    let wanted = rounding.up(by_flow.max(by_lump).max(least), step);
    let choked =
        |height: f64| flow::slot_t_per_h(density, width, height * square, lump, flow::BEVERLOO_K).is_some_and(|most| most < capacity * IN_HAND_FLOODED);
    let open = (0..600).map(|i| wanted + rounding.step(step) * f64::from(i)).find(|height| !choked(*height)).unwrap_or(wanted);
    Chosen::or(
        &a.height,
        mm(open.clamp(50.0, 3000.0)),
        flow::THROAT,
        say!(
            "{by_flow} for {capacity} at {speed} (slid down half the throat), half full, and not more than runs out of it flooded; {by_lump} for lumps; not under {least}",
            by_flow = say::mm(by_flow),
            capacity = say::amount(capacity, Unit::TPerH, 1),
            speed = say::amount(v, Unit::MPerS, 1),
            by_lump = say::mm(by_lump),
            least = say::mm(least)
        ),
    )
}
