//! Boxes and weights of a gravity take-up.
//!
//! In: what was asked, belt pulls, what slides besides. Out: sizes of the boxes and the weights in them, by the pull that the foot needs
//! and what the guides' friction holds back.

use super::PRACTICE;
use super::pulleys::bend_angle_for_sizes;
use super::rounding::{Step, mm};
use super::so_far::Turning;
use crate::formulas::gravity_take_up::{self, BOXES, OFF_MIDDLE, PACKED_KG_PER_M3, filling_height_mm, friction_share, mass_needed_kg, mass_with_friction_kg};
use crate::formulas::mass;
use crate::say;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::{sliding_plate, weight_box};
use crate::spec::reader::{Chosen, Leaf};
use crate::units::{Length, Mass, Unit};

/// Room that the filling of a weight box is given, over what it needs.
const SPARE: f64 = 1.2;
/// Section of a web between bar and box, mm² (estimate).
const WEB: f64 = 800.0;
/// Highest weight box, mm.
const HIGHEST_BOX: f64 = 2000.0;
/// Guided length over the height of the sliding plate, where its end may hang below the casing (estimate).
const GUIDED: f64 = 0.85;
/// How far a weight box stands out as a share of its height.
const OUT_BY_UP: f64 = 0.7;
/// From the edge of the sliding plate to the outer edge of a guide, mm, in metric stock.
const GUIDE: f64 = 31.0;

/// What the take-up has to pull up, N.
pub(super) fn pull_up(so_far: &Turning<'_>) -> f64 {
    so_far.pulls.up_on_foot(if *so_far.bend.fitted { bend_angle_for_sizes(so_far).to_radians() } else { 0.0 })
}

/// Frame, weights and box of a gravity take-up.
pub(super) struct GravityParts {
    pub frame_mass: Chosen<Option<Mass>>,
    pub weights: Chosen<Mass>,
    pub box_length: Chosen<Length>,
    pub box_width: Chosen<Length>,
    pub box_height: Chosen<Length>,
}

/// What slides in the guides of a gravity take-up.
pub(super) struct Slides {
    /// Its mass without boxes and weights, kg.
    pub dead: f64,
    /// Travel, mm.
    pub travel: f64,
    /// Friction coefficient in the guides.
    pub friction: f64,
    /// Back of a weight box from the side plate, mm.
    pub back: f64,
}

impl Slides {
    /// What the guides hold back of boxes so wide and long, mm, and of their weights, as a share.
    fn share(&self, so_far: &Turning<'_>, [length, width, _]: [f64; 3]) -> f64 {
        let shaft = &so_far.shaft;
        let unit = bearing_unit(*so_far.bearings.kind, shaft.journal.value.value(), so_far.rounding.us);
        let half = sliding_plate::half_height(self.travel, shaft.diameter.value.value(), unit.up, so_far.rounding.stock());
        let out = so_far.widths.outside / 2.0 + self.back + width / 2.0 - shaft.bearing_centres.value.value() / 2.0;
        friction_share(out, OFF_MIDDLE * length, 2.0 * half * GUIDED, self.friction).min(0.8)
    }
}

/// Boxes, weights and what holds them, where they are used.
pub(super) fn gravity(so_far: &Turning<'_>, used: bool, slides: &Slides) -> GravityParts {
    let a = &so_far.asked.take_up;
    let unused = "not used by a screw take-up";
    let (pull, dead) = (pull_up(so_far), slides.dead);
    let room = BoxRoom::of(so_far, slides.travel);
    // Boxes that carry all of the wanted mass are larger, and heavier, than those that carry what they themselves leave of it.
    let wanted = |frame: f64, size: [f64; 3]| mass_with_friction_kg(pull, dead + frame, frame, slides.share(so_far, size)).max(0.0);
    let frame = |size: [f64; 3]| if used { room.mass_kg(size).round() } else { 0.0 };
    let first = room.size(so_far, mass_needed_kg(pull, dead).max(0.0));
    let carried = wanted(frame(first), first);
    let size = room.size(so_far, a.weights.value().map_or(carried, |m| m.value().max(carried)));
    let asked = |asked: &Leaf<Length>, or: f64| asked.value().map_or(or, |l| l.value());
    let [length, width, height] = size;
    let size = [asked(&a.box_length, length), asked(&a.box_width, width), asked(&a.box_height, height)];
    let frame = frame(size);
    let frame_mass = Chosen::or(&a.frame_mass, None, PRACTICE, if used { "the drawn boxes and what holds them are weighed" } else { unused });
    let boxes = frame_mass.value.map_or(frame, |m| m.value());
    let (hanging, share) = (dead + boxes, slides.share(so_far, size));
    let mass = wanted(boxes, size);
    // As heavy as plates of whole sizes make them.
    let plates = weight_box::Weights::of(mass / BOXES, weight_box::inside(size, room.plate), so_far.rounding.stock());
    let mass = plates.map_or((mass / 10.0).ceil() * 10.0, |p| (BOXES * p.total_kg() * 10.0).round() / 10.0);
    let weights = Chosen::or(
        &a.weights,
        Mass::kg(if used { mass } else { 0.0 }),
        gravity_take_up::MASS,
        if used {
            say!(
                "{pull} of belt pull on the foot pulley, with {share} of boxes and weights held back by the guides; pulley, shaft, bearings and empty boxes already hang with about {mass}",
                pull = say::amount(pull / 1000.0, Unit::Kn, 1),
                share = say::amount(share * 100.0, Unit::Percent, 0),
                mass = say::amount(hanging, Unit::Kg, 0)
            )
        } else {
            unused.into()
        },
    );
    let boxed = if used {
        say!("two boxes hold {mass} of weights with a fifth to spare", mass = say::amount(weights.value.value(), Unit::Kg, 0))
    } else {
        unused.into()
    };
    GravityParts {
        box_length: Chosen::or(
            &a.box_length,
            mm(length),
            PRACTICE,
            if used { say!("no longer than the guides are apart, so that nothing stands behind a box") } else { unused.into() },
        ),
        box_width: Chosen::or(&a.box_width, mm(width), PRACTICE, boxed.clone()),
        box_height: Chosen::or(&a.box_height, mm(height), PRACTICE, boxed),
        frame_mass,
        weights,
    }
}

/// Room for a weight box on a sliding plate.
pub(super) struct BoxRoom {
    /// Along the machine, mm.
    length: f64,
    /// Sliding plate above the underside of the box, mm.
    pub height: f64,
    /// Thickness of its plates, mm.
    plate: f64,
    /// Width and thickness of the bars that hold it, mm.
    bar: [f64; 2],
}

impl BoxRoom {
    pub(super) fn of(so_far: &Turning<'_>, travel: f64) -> Self {
        let (stock, shaft, bearings) = (so_far.rounding.stock(), so_far.shaft.diameter.value.value(), &so_far.bearings);
        let unit = bearing_unit(*bearings.kind, so_far.shaft.journal.value.value(), so_far.rounding.us);
        let over_guides = sliding_plate::half_width(shaft, &unit, stock) + GUIDE + sliding_plate::wider(stock) / 2.0;
        Self {
            length: so_far.rounding.down(2.0 * over_guides, Step::Middle),
            height: sliding_plate::half_height(travel, shaft, unit.up, stock) - weight_box::above_shaft(&unit, shaft, stock),
            plate: weight_box::plate(so_far.plates.plate.value.value(), stock),
            bar: weight_box::bar(stock),
        }
    }

    /// Whether boxes of customary size hold a mass of weights, kg.
    pub(super) fn holds(&self, so_far: &Turning<'_>, weights: f64) -> bool {
        let [length, width, height] = weight_box::inside(self.size(so_far, weights), self.plate);
        filling_height_mm(weights / BOXES, PACKED_KG_PER_M3, length, width) <= height
    }

    /// Outside sizes of a box that holds half of a mass of weights, kg: rather high than far out.
    fn size(&self, so_far: &Turning<'_>, weights: f64) -> [f64; 3] {
        let rounding = so_far.rounding;
        let [clear, ..] = weight_box::inside([self.length, 0.0, 0.0], self.plate);
        let filled = |width: f64| filling_height_mm(weights / BOXES, PACKED_KG_PER_M3, clear, width) * SPARE;
        let width = (filled(1.0) * OUT_BY_UP).sqrt() + 2.0 * self.plate;
        let wide = |most: f64| rounding.up(width, Step::Middle).clamp(rounding.or_inch(150.0, 6.0), most);
        let needed = |width: f64| filled(width - 2.0 * self.plate) + self.plate;
        // Further out only where it would be too high.
        let (usual, most) = (wide(rounding.or_inch(500.0, 20.0)), HIGHEST_BOX);
        let width = if needed(usual) > most { wide(rounding.or_inch(800.0, 32.0)) } else { usual };
        [self.length, width, rounding.up(needed(width).max(rounding.or_inch(200.0, 8.0)), Step::Middle).min(most)]
    }

    /// Mass of both boxes with their bars, kg.
    fn mass_kg(&self, size: [f64; 3]) -> f64 {
        let bars = 2.0 * (self.bar[0] * self.bar[1] + WEB) * size[2].min(self.height);
        BOXES * (weight_box::area(size) * self.plate + bars) * mass::STEEL_KG_PER_M3 * 1e-9
    }
}
