//! Settles `[lifting]`: the lugs by which the foot is lifted, as strong as its mass asks.
//!
//! In: what has been settled. Out: the lugs, and the height of the casing with room for them. The mass is an estimate on the heavy side, from plates, pulleys and
//! shafts; the analysis sums it from the bodies, and a rule holds the lugs against that.

use super::rounding::mm;
use super::so_far::Opened;
use super::{PRACTICE, casing};
use crate::formulas::lifting::{DESIGN, LEAST_ANGLE_DEG, Pull, SLING, level_n, upright_n};
use crate::formulas::mass::{STEEL_KG_PER_M3, round_kg};
use crate::say;
use crate::sizing::lifting_lug::Lug;
use crate::sizing::pulley::drum_kg;
use crate::spec::lifting::Lifting;
use crate::spec::project::Status;
use crate::spec::reader::Chosen;
use crate::spec::rotating::TakeUpKind;
use crate::tables::shackles::{self, Shackle};
use crate::units::{Angle, Length, Mass, Unit};

/// Flanges, stiffeners and frames on the bare plates of the casing; factor (fitted to the machines of the starter specs, heavy side).
const ON_PLATES: f64 = 1.25;
/// Doors, panels, feet, throats, pocket and take-up, which grow little with the foot, kg (fitted likewise).
const BESIDES_KG: f64 = 220.0;
/// Hubs, keys, bearings, collars over drums and shafts; factor (fitted likewise).
const ON_SHAFTS: f64 = 1.3;
/// Share of the mass on the lug that carries most: the centre of gravity is not in the middle (fitted likewise).
const SHARE: f64 = 0.6;
/// Room that is kept round an estimate of how far slings lean across the machine; factor (estimate, heavy side).
const ACROSS: f64 = 1.05;
/// Least angles of slings that are tried, degrees.
const ANGLES: [f64; 3] = [LEAST_ANGLE_DEG, 70.0, 80.0];
/// The strongest that is tried: thickness, height, mm.
const STRONGEST: [f64; 2] = [60.0, 400.0];
/// A higher casing is heavier, its lugs may be one step higher, mm.
const MORE: f64 = 15.0;
/// A lug where the mass asks for no more: thickness, height, mm.
const LIGHT: [f64; 2] = [10.0, 80.0];

/// From end plate to end plate at the top, mm: both runs of the belt, the down one as far out as the head pulley leads it.
fn length(so_far: &Opened<'_>) -> f64 {
    2.0 * so_far.levels.up_end + (so_far.head_pulley.diameter.value.value() - so_far.foot_pulley.diameter.value.value()).max(0.0)
}

/// What the foot weighs as it is lifted, kg, rather too much than too little.
fn estimate_kg(so_far: &Opened<'_>, height: f64) -> f64 {
    let (plates, stock) = (&so_far.plates, so_far.rounding.stock());
    let foot = &so_far.foot_pulley;
    let long = length(so_far);
    let wide = so_far.widths.outside;
    let high = height - so_far.feet.value.value();
    let steel = STEEL_KG_PER_M3 * 1e-9;
    let walls = 2.0 * (long + wide) * high * plates.plate.value.value();
    let shell = (walls + long * wide * plates.bottom_plate.value.value()) * steel * ON_PLATES;
    let shaft = |diameter: f64| round_kg(diameter, 1.6 * wide, STEEL_KG_PER_M3);
    let drum = |diameter: f64, face: f64, given: Option<Mass>| given.map_or(drum_kg(stock, diameter, face), |m| m.value());
    let mut turning = drum(foot.diameter.value.value(), foot.face.value.value(), foot.mass.value) + shaft(so_far.shaft.diameter.value.value());
    if *so_far.bend.fitted {
        let bend = &so_far.bend;
        turning += drum(bend.diameter.value.value(), bend.face.value.value(), bend.mass.value) + shaft(bend.shaft.value.value());
    }
    let frame = match *so_far.take_up.kind {
        TakeUpKind::Gravity => so_far.take_up.frame_mass.value.map_or(0.15 * turning + 60.0, |m| m.value()),
        TakeUpKind::Screw => 0.0,
    };
    shell + BESIDES_KG + turning * ON_SHAFTS + frame
}

/// Height of the casing and the lugs under its top: each asks something of the other, so the height is decided again with room for them.
pub(super) fn under_flange(so_far: &Opened<'_>) -> (Chosen<Length>, Lifting) {
    let low = casing::height(so_far, 0.0);
    let lugs = lifting(so_far, low.value.value());
    if !*lugs.lugs {
        return (low, lugs);
    }
    let (plates, stock) = (&so_far.plates, so_far.rounding.stock());
    let room = Lug::of(&lugs, plates.plate.value.value(), plates.flange.value.value(), stock).map_or(0.0, |lug| lug.room());
    let height = casing::height(so_far, room + MORE);
    let lugs = lifting(so_far, height.value.value());
    (height, lugs)
}

/// The lugs.
fn lifting(so_far: &Opened<'_>, height: f64) -> Lifting {
    let (a, rounding) = (&so_far.asked.lifting, so_far.rounding);
    let stock = rounding.stock();
    let survey = so_far.asked.project.status.value() == Some(Status::Survey);
    let (fitted, why) = if survey { (false, "an existing foot has the lugs that were found on it") } else { (true, "nobody carries a foot by hand") };
    let mass = estimate_kg(so_far, height);
    let up = upright_n(mass, SHARE);
    let (long, wide) = (length(so_far), so_far.widths.outside);
    let pull = |angle: f64| {
        let level = level_n(up, angle.to_radians());
        Pull { up, along: level * (ACROSS * wide / long.hypot(wide)).min(1.0), toward: level }
    };
    let plates = &so_far.plates;
    let size = |[thickness, height]: [f64; 2]| [stock.plate_mm(thickness), stock.width_mm(height)];
    let lug = |shackle: Shackle, sizes: [f64; 2]| Lug::new(stock, shackle, size(sizes), plates.plate.value.value(), plates.flange.value.value());
    let found = |angle: f64| shackles::all().next().and_then(|least| lug(least, LIGHT).for_pull(&pull(angle)));
    let asked = a.angle.value().map(|angle| angle.value());
    // Steeper slings where a heavy and wide foot would bend its lugs sideways.
    let steep = asked.map_or_else(|| ANGLES.to_vec(), |angle| vec![angle]).into_iter().find_map(|angle| found(angle).map(|l| (angle, l)));
    let degrees = steep.map_or(asked.unwrap_or(LEAST_ANGLE_DEG), |(angle, _)| angle);
    let angle = Chosen::or(&a.angle, Angle::deg(degrees), PRACTICE, "a flatter sling pulls more sideways than it need");
    let (shackle, [thick, high]) = steep.map_or((shackles::GREATEST, size(STRONGEST)), |(_, l)| (l.shackle, [l.thickness, l.height]));
    let about = say::amount(mass, Unit::Kg, 0);
    let reason =
        say!("about {mass} on two of four legs, {upright} upright on the one that carries more", mass = about, upright = say::amount(up / 1000.0, Unit::Kn, 1));
    Lifting {
        lugs: Chosen::or(&a.lugs, fitted, PRACTICE, why),
        thickness: Chosen::or(&a.thickness, mm(thick), DESIGN, reason.clone()),
        height: Chosen::or(&a.height, mm(high), DESIGN, reason.clone()),
        shackle: Chosen::or(&a.shackle, Mass::kg(shackle.limit_kg), SLING, reason),
        angle,
    }
}
