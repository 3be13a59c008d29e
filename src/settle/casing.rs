//! Settles `[casing]`: plates and clearances first, the feet once the take-up is known, the height once the openings are.
//!
//! In: what has been settled. Out: the pieces of the casing, and the casing from them. Room for people and plates is by
//! custom; clearances may be anything the spec says, even nothing, so that a survey can be entered.

use super::PRACTICE;
use super::levels::{moving, shaft_low, shaft_over_feet, swept};
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Opened, Plates, Running, Turning};
use crate::formulas::foot_heights;
use crate::formulas::foot_widths::{self, Gap};
use crate::say;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::rod_holder::RodHolder;
use crate::sizing::{frame, sliding_plate};
use crate::sources::Source;
use crate::spec::casing::{Bottom, Casing, Trunk};
use crate::spec::inlets::Inlet;
use crate::spec::openings::Wall;
use crate::spec::reader::Chosen;
use crate::spec::sheet::Language;
use crate::tables::plates;
use crate::units::Length;

const NEAR_WHITE: Source = Source::standard("SSPC-SP 10/NACE No. 2").remark("near-white blast cleaning").from_memory();
const SA_2_5: Source = Source::standard("ISO 8501-1").remark("preparation grade Sa 2½").from_memory();

/// The usual finish in the job's terms and language, and what names the blasting. Both grades are near-white; 60 µm are 2.4 mils.
fn finish(so_far: &Running<'_>) -> (&'static str, Source) {
    match (so_far.rounding.us, so_far.asked.sheet.language.value()) {
        (true, Some(Language::German)) => ("SSPC-SP 10, Grundierung 2,5 mil, Deckschicht 2,5 mil", NEAR_WHITE),
        (true, _) => ("SSPC-SP 10, primer 2.5 mils, top coat 2.5 mils", NEAR_WHITE),
        (false, Some(Language::German)) => ("gestrahlt Sa 2½, Grundierung 60 µm, Deckbeschichtung 60 µm", SA_2_5),
        (false, _) => ("blasted Sa 2½, primer 60 µm, top coat 60 µm", SA_2_5),
    }
}

/// Inward from a side plate, mm: a lifting lug with its seams.
const LUG_ZONE: f64 = 75.0;
/// Between a frame and the zone of a lug, mm.
const BESIDE_LUG: f64 = 10.0;

/// Decides plates and clearances.
pub(super) fn plates(so_far: &Running<'_>) -> Plates {
    let (a, rounding) = (&so_far.asked.casing, so_far.rounding);
    let head = so_far.head_pulley.diameter.value.value();
    let big = head >= 600.0;
    let bottom_plate = Chosen::or(&a.bottom_plate, mm(rounding.or_inch(6.0, 0.3125)), PRACTICE, "a wear bottom, one step thicker than the sides");
    let (usual_finish, blasting) = finish(so_far);
    let plate = Chosen::or(&a.plate, mm(rounding.or_inch(5.0, 0.25)), plates::LEAST_FOOT, say!("a stock thickness not under {least}", least = say::mm(4.8)));
    let [usual_end, usual_side] = [rounding.or_inch(60.0, 2.5), rounding.or_inch(50.0, 2.0)];
    let end = whole(rounding, usual_end, plate.value.value(), swept(so_far, so_far.foot_pulley.diameter.value.value()).tip);
    Plates {
        bottom_clearance: bottom_clearance(so_far, &bottom_plate),
        bottom_plate,
        bottom: Chosen::or(&a.bottom, Bottom::Flat, PRACTICE, "flat unless asked otherwise: simple to build and to clean out"),
        up_clearance: Chosen::or(
            &a.up_clearance,
            end,
            PRACTICE,
            say!("bucket tips to the end plate: {usual}, and what makes the casing's outside whole", usual = say::mm(usual_end)),
        ),
        down_clearance: Chosen::or(
            &a.down_clearance,
            end,
            PRACTICE,
            say!("bucket tips to the end plate: {usual}, and what makes the casing's outside whole", usual = say::mm(usual_end)),
        ),
        side_clearance: Chosen::or(
            &a.side_clearance,
            whole(rounding, usual_side, plate.value.value(), foot_widths::widest(&moving(so_far)) / 2.0),
            PRACTICE,
            say!("the widest of belt, pulley and bucket to the side plate: {usual}, and what makes the casing's outside whole", usual = say::mm(usual_side)),
        ),
        plate,
        trunk: Chosen::or(
            &a.trunk,
            if big { Trunk::TwoLegs } else { Trunk::Single },
            PRACTICE,
            say!(
                "head pulley {diameter}: {why}",
                diameter = say::mm(head),
                why = if big { "one leg for each run saves plate" } else { "one casing round both runs is smaller" }
            ),
        ),
        flange: Chosen::or(
            &a.flange,
            mm(rounding.or_inch(50.0, 2.0)),
            PRACTICE,
            say!("angle flanges for bolts up to {bolt}", bolt = say::name(if rounding.us { "1/2-13" } else { "M12" })),
        ),
        material: Chosen::or(&a.material, if rounding.us { "ASTM A36" } else { "S235JR" }.to_string(), PRACTICE, "ordinary structural steel"),
        finish: Chosen::or(&a.finish, usual_finish.to_string(), blasting, "for a dry indoor place; the surroundings decide"),
    }
}

/// Decides what is left under the bucket tips: the usual, and what brings the shaft to a whole height over the bottom plate.
fn bottom_clearance(so_far: &Running<'_>, bottom_plate: &Chosen<Length>) -> Chosen<Length> {
    let rounding = so_far.rounding;
    let usual = rounding.or_inch(40.0, 1.5);
    let shaft = shaft_over_feet(so_far, bottom_plate.value.value(), usual);
    let whole = usual + rounding.up(shaft, Step::Whole) - shaft;
    Chosen::or(
        &so_far.asked.casing.bottom_clearance,
        mm(whole),
        PRACTICE,
        say!("bucket tips to the bottom, take-up at its lowest: {usual}, and what brings the shaft to a whole height", usual = say::mm(usual)),
    )
}

/// A clearance of its usual size to what reaches so far out, and what brings the outside of a plate so thick to a whole distance.
fn whole(rounding: Rounding, usual: f64, plate: f64, reach: f64) -> Length {
    mm(Gap { clearance: usual, plate, step: Some(outline_step(rounding)) }.face(reach) - reach)
}

/// Step of free outlines, mm.
fn outline_step(rounding: Rounding) -> f64 {
    rounding.or_inch(5.0, 0.25)
}

impl Plates {
    /// What the down-side end plate keeps from what moves: exactly the clearance that was asked for, or at least the usual one.
    pub(super) fn down_gap(&self, rounding: Rounding) -> Gap {
        let step = (!self.down_clearance.is_given()).then(|| outline_step(rounding));
        Gap { clearance: self.down_clearance.value.value(), plate: self.plate.value.value(), step }
    }
    /// The whole casing.
    pub(super) fn stood(self, feet: Chosen<Length>, height: Chosen<Length>) -> Casing {
        Casing {
            plate: self.plate,
            bottom_plate: self.bottom_plate,
            bottom: self.bottom,
            bottom_clearance: self.bottom_clearance,
            up_clearance: self.up_clearance,
            down_clearance: self.down_clearance,
            side_clearance: self.side_clearance,
            trunk: self.trunk,
            flange: self.flange,
            material: self.material,
            finish: self.finish,
            feet,
            height,
        }
    }
}

/// Decides the feet: room under the bottom, and for the sliding plate, which covers the slot in every position.
pub(super) fn feet(so_far: &Turning<'_>, travel: f64) -> Chosen<Length> {
    let (a, rounding) = (&so_far.asked.casing.feet, so_far.rounding);
    let usual = rounding.or_inch(100.0, 4.0);
    let half = sliding_plate::half_height(travel, so_far.shaft.diameter.value.value(), 0.0, rounding.stock());
    let need = half + foot_heights::SLIDE_ABOVE_FLOOR - shaft_low(so_far, 0.0);
    if need <= usual {
        return Chosen::or(a, mm(usual), PRACTICE, "room to grout, bolt and sweep under the bottom");
    }
    let why =
        say!("so that the sliding plate, {half} under the shaft to cover the slot with the take-up at its highest, ends above the floor", half = say::mm(half));
    Chosen::or(a, mm(rounding.up(need, Step::Fine).min(1000.0)), foot_heights::SLIDING_PLATE, why)
}

/// Under the bar of the top flange, mm: nuts with the ends of their bolts, and a spanner between them and what lies below (common practice,
/// no source).
const NUTS_AND_SPANNER: f64 = 40.0;

/// From what is in an end plate to the top, mm: the usual, or what a lifting lug takes up there, where what is in it reaches so far from
/// the middle that it stands under the lug.
fn under_lugs(so_far: &Opened<'_>, half: f64, room: f64) -> f64 {
    const USUAL: f64 = 100.0;
    let meets = half > so_far.widths.inside / 2.0 - LUG_ZONE;
    if meets && room > 0.0 { USUAL.max(foot_heights::LAP + BESIDE_LUG + room) } else { USUAL }
}

/// From an inlet to the top, mm: what its throat rises as far out as the top flange reaches, and under that flange's bar its nuts and a spanner.
fn under_flange(so_far: &Opened<'_>, inlet: &Inlet) -> f64 {
    let (plates, slope) = (&so_far.plates, inlet.slope.value.value().to_radians());
    let (wall, flange) = (plates.plate.value.value(), plates.flange.value.value());
    flange * slope.tan() + wall / slope.cos() + frame::thickness(wall, so_far.rounding.stock()) + NUTS_AND_SPANNER
}

/// Decides the height of the foot: above everything that is in it, with so much room for lifting lugs under the top, mm.
pub(super) fn height(so_far: &Opened<'_>, lugs: f64) -> Chosen<Length> {
    let levels = &so_far.levels;
    let mut tops = vec![(levels.shaft_high + levels.radius + 150.0, "the foot pulley at its highest")];
    let take_up = &so_far.take_up;
    let unit = bearing_unit(*so_far.bearings.kind, so_far.shaft.journal.value.value(), so_far.rounding.us);
    let travel = levels.shaft_high - levels.shaft_low;
    let half = sliding_plate::half_height(travel, so_far.shaft.diameter.value.value(), unit.up, so_far.rounding.stock());
    let plates = &so_far.plates;
    let holder = RodHolder::of(take_up, &unit, plates.plate.value.value(), plates.flange.value.value(), so_far.rounding.stock());
    tops.push((levels.shaft_high + half + holder.rod_beyond() + holder.under_flange(), "the take-up bracket"));
    for (inlet, name) in [(&so_far.inlet_up, "the up-side inlet"), (&so_far.inlet_down, "the down-side inlet")] {
        if *inlet.fitted {
            let half = inlet.width.value.value() / 2.0 + inlet.flange.value.value();
            let above = foot_heights::ABOVE_INLET.max(under_flange(so_far, inlet)).max(under_lugs(so_far, half, lugs));
            tops.push((inlet.sill.value.value() + inlet.height.value.value() + above, name));
        }
    }
    if *so_far.bend.fitted {
        tops.push((so_far.bend_place.height.value.value() + so_far.bend.diameter.value.value() / 2.0 + 250.0, "the bend pulley"));
    }
    for door in &so_far.doors {
        let name = match *door.on {
            Wall::UpEnd | Wall::DownEnd => "an inspection door in an end plate",
            Wall::Near | Wall::Far => "an inspection door in a side plate",
        };
        let half = match *door.on {
            Wall::UpEnd | Wall::DownEnd => door.width.value.value() / 2.0 + door.offset.value.value().abs() + foot_heights::LAP,
            Wall::Near | Wall::Far => 0.0,
        };
        tops.push((door.sill.value.value() + door.height.value.value() + under_lugs(so_far, half, lugs), name));
    }
    if so_far.removal.on.wall().is_some() {
        let removal = &so_far.removal;
        tops.push((removal.sill.value.value() + removal.height.value.value() + under_lugs(so_far, f64::INFINITY, lugs), "the removal panel"));
    }
    let (top, what) = tops.into_iter().fold((0.0, ""), |best, next| if next.0 > best.0 { next } else { best });
    let rounding = so_far.rounding;
    let why = say!("clears {what}, which needs {top}", what = what, top = say::mm(top));
    Chosen::or(&so_far.asked.casing.height, mm(rounding.up(top, Step::Coarse).clamp(300.0, 20_000.0)), PRACTICE, why)
}
