//! Settles `[take_up]`: travel, rod, weights.
//!
//! In: what was asked, belt, pulleys, pulls. Out: the take-up. Travel takes out the stretch of the whole belt and one closing step;
//! the rod is chosen by its core stress, the weights by the pull that the foot needs.

use super::levels::neutral_radii;
use super::pulleys::bend_angle_for_sizes;
use super::rotating::{BLOCKED_IN_HAND, word};
use super::rounding::{Step, mm};
use super::so_far::Turning;
use super::{PRACTICE, pulleys};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::formulas::belt_path::{Pulleys, belt_path};
use crate::formulas::gravity_take_up::{self, BOXES, PACKED_KG_PER_M3, filling_height_mm, mass_needed_kg};
use crate::formulas::screw::{self, BUCKLING_SAFETY, BY_HAND_NM, Ends, LEAST_LET_GO_NM, LET_GO_STEP_NM, Screw, UNEVEN_RODS, core_stress_mpa, critical_load_n};
use crate::formulas::stretch::{self, extra_length_mm, travel_for_mm};
use crate::formulas::{foot_heights, mass, strength};
use crate::say;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::rod_holder::{Around, RodHolder, sliding_thickness};
use crate::sizing::{sliding_plate, weight_box};
use crate::sources::Source;
use crate::spec::reader::{Chosen, Leaf};
use crate::spec::rotating::{RodAction, TakeUp, TakeUpKind};
use crate::tables::plates::Stock;
use crate::tables::power_threads::{self, Family, PowerThread};
use crate::tables::steels::MODULUS_MPA;
use crate::units::{GRAVITY, Length, Mass, Quantity as _, Ratio, Stress, Torque, Unit};

/// Smallest rod that is chosen: thinner ones are bent with a spanner (common practice).
const LEAST_ROD: f64 = 24.0;
/// Pulley and shaft with bearings and sliding plates, which are settled later, over pulley and shaft.
const WITH_PLATES: f64 = 1.25;
/// Core stress up to which a rod is chosen, MPa; low, because the rod is turned under load.
const ROD_STRESS: f64 = 40.0;
/// What the spanner gives over what tightening takes (common practice).
const TIGHTENING_IN_HAND: f64 = 1.1;
/// Step of its torque in a US job.
const US_LET_GO_STEP: &str = "2.5 lbf·ft";
/// Room that the filling of a weight box is given, over what it needs.
const SPARE: f64 = 1.2;
/// Highest weight box, mm.
const HIGHEST_BOX: f64 = 2000.0;
/// How far a weight box stands out as a share of its height.
const OUT_BY_UP: f64 = 0.7;
/// From the edge of the sliding plate to the outer edge of a guide, mm, in metric stock.
const GUIDE: f64 = 31.0;
/// Yield strength of cold-drawn C1018, 54 ksi, MPa.
const US_ROD_YIELD: f64 = 372.0;
const US_ROD: Source = Source::book("Shigley, Mechanical Engineering Design, Table A-20").remark("SAE 1018 cold drawn").from_memory();

/// Reports a rod thread that the table does not have, or that is named without its pitch.
fn known_rod(rod: &Leaf<String>, out: &mut Diagnostics) {
    let Leaf::Given(name, span) = rod else { return };
    if power_threads::find(name).is_some() {
        return;
    }
    match power_threads::of_diameter(name) {
        Some(thread) => out.push(Diagnostic::error(
            Code::UnknownWord,
            "take_up.rod",
            Some(span.clone()),
            format!("\"{name}\" is a thread without its pitch"),
            format!("write  rod = \"{}\"", thread.name),
        )),
        None => {
            let names: Vec<&str> = power_threads::ALL.iter().map(|r| r.name).collect();
            word("take_up.rod", "take-up rod thread", rod, &names, out);
        }
    }
}

/// Settles the take-up.
pub(super) fn take_up(so_far: &Turning<'_>, out: &mut Diagnostics) -> TakeUp {
    let (a, rounding) = (&so_far.asked.take_up, so_far.rounding);
    let splice = Chosen::or(&a.splice, so_far.bucket.spacing.value, PRACTICE, "the belt is closed in steps of one bucket spacing");
    let travel = travel(so_far, splice.value.value());
    let shaft = &so_far.shaft;
    let shaft_mass = mass::round_kg(shaft.diameter.value.value(), shaft.length(), mass::STEEL_KG_PER_M3);
    let dead = pulleys::foot_kg(&so_far.foot_pulley, rounding) + shaft_mass + 20.0;
    let rod_yield = Chosen::or(
        &a.rod_yield,
        if rounding.us { Stress::mpa(US_ROD_YIELD) } else { Stress::mpa(355.0) },
        if rounding.us { US_ROD } else { Source::standard("EN 10025-2").remark("S355J2 in the thinnest range; common for rods").from_memory() },
        if rounding.us {
            say!("rod of cold-drawn {steel} or better, {least}", steel = say::name("C1018"), least = say::amount(US_ROD_YIELD, Unit::Mpa, 0))
        } else {
            say!("rod of {steel} or better", steel = say::name("S355J2"))
        },
    );
    known_rod(&a.rod, out);
    let friction = Chosen::or(
        &a.friction,
        Ratio::of_one(0.15),
        Source::book("Shigley, Mechanical Engineering Design").remark("power screws, oiled but dirty").from_memory(),
        "greased and dusty thread",
    );
    let rods = Rods { free: travel.value.value(), dead, yield_mpa: rod_yield.value.value(), friction: friction.value.value() };
    let kind = kind(so_far, &rods);
    let (rod, torque, holder) = rod(so_far, &rods, *kind == TakeUpKind::Screw);
    let gravity = gravity(so_far, *kind == TakeUpKind::Gravity, dead, travel.value.value());
    TakeUp {
        rod,
        lug: holder.lug,
        shelf: holder.shelf,
        gusset: holder.gusset,
        action: Chosen::or(&a.action, RodAction::Push, PRACTICE, "the bracket stands above the sliding plate and holds it down"),
        rod_yield,
        friction,
        torque,
        box_length: gravity.box_length,
        box_width: gravity.box_width,
        box_height: gravity.box_height,
        frame_mass: gravity.frame_mass,
        weights: gravity.weights,
        kind,
        travel,
        splice,
    }
}

/// Travel that takes out the stretch of the whole belt and one splice, as far as is customary; a belt that stretches more is shortened.
fn travel(so_far: &Turning<'_>, splice: f64) -> Chosen<Length> {
    let (belt, rounding) = (&so_far.belt, so_far.rounding);
    let lift = so_far.duty.lift.value.value();
    let [r_foot, r_head, r_bend] = neutral_radii(so_far);
    let round = Pulleys::usual(r_foot, 0.0, r_head, lift, None);
    let length = belt_path(&round).map_or(2.0 * lift, |p| p.length_mm);
    let stretched = extra_length_mm(length, belt.stretch.value.value());
    let takes_out = |extra: f64| {
        let pulleys = if *so_far.bend.fitted {
            let above = foot_heights::bend_pulley_above_shaft(bend_angle_for_sizes(so_far), r_foot, r_head, r_bend) - extra / 4.0;
            Pulleys::usual(r_foot, 0.0, r_head, lift, Some((r_bend, above)))
        } else {
            round
        };
        travel_for_mm(&pulleys, extra).unwrap_or(extra / 2.0)
    };
    let need = takes_out(stretched + splice);
    let [custom, most] = [rounding.or_inch(300.0, 12.0), rounding.or_inch(400.0, 16.0)];
    // One closing step must fit, with a twentieth in hand for the real path.
    let closing = takes_out(splice) * 1.05;
    let travel = rounding.up(need.clamp(custom, most).max(closing).max(stretch::LEAST_TRAVEL), Step::Coarse).min(3000.0);
    let (source, why) = if need > travel {
        (
            stretch::SHORTENED,
            say!(
                "not over {most} but for one closing step of {splice}: {belt} of belt stretch {stretch}, which would need {travel}; it is shortened in between",
                most = say::mm(most),
                splice = say::mm(splice),
                belt = say::amount(length / 1000.0, Unit::M, 1),
                stretch = say::amount(belt.stretch.value.value() * 100.0, Unit::Percent, 2),
                travel = say::mm(need)
            ),
        )
    } else if need > custom {
        (
            stretch::TRAVEL,
            say!(
                "{belt} of belt stretch {stretch}, and {splice} of splice: {travel} of travel needed",
                belt = say::amount(length / 1000.0, Unit::M, 1),
                stretch = say::amount(belt.stretch.value.value() * 100.0, Unit::Percent, 2),
                splice = say::mm(splice),
                travel = say::mm(need)
            ),
        )
    } else {
        (
            stretch::LEAST,
            say!(
                "{usual} is customary, not under {least}; stretch and splice need {need}",
                usual = say::mm(custom),
                least = say::mm(stretch::LEAST_TRAVEL),
                need = say::mm(need)
            ),
        )
    };
    Chosen::or(&so_far.asked.take_up.travel, mm(travel), source, why)
}

/// What a rod has to do.
struct Rods {
    /// Travel, mm.
    free: f64,
    /// Mass of what slides, kg.
    dead: f64,
    /// Yield strength of the rods, MPa.
    yield_mpa: f64,
    /// Friction coefficient of thread and collar.
    friction: f64,
}

/// A screw where one person turns its rods, else weights, if boxes on the sliding plates hold them.
fn kind(so_far: &Turning<'_>, rods: &Rods) -> Chosen<TakeUpKind> {
    let a = &so_far.asked.take_up.kind;
    let loaded = Loaded::of(so_far, rods);
    let rod = so_far.asked.take_up.rod.value().and_then(|name| power_threads::find(&name)).or_else(|| loaded.thinnest(so_far, rods));
    let torque = rod.map_or(0.0, |rod| loaded.torque_nm(rod, rods));
    let weights = mass_needed_kg(pull_up(so_far), rods.dead).max(0.0);
    if torque <= BY_HAND_NM || !BoxRoom::of(so_far, rods.free).holds(so_far, weights) {
        return Chosen::or(a, TakeUpKind::Screw, PRACTICE, "a screw take-up unless asked otherwise");
    }
    let why = say!(
        "weights: a rod would take {torque} to turn, a person turns {most}",
        torque = say::amount(torque, Unit::Nm, 0),
        most = say::amount(BY_HAND_NM, Unit::Nm, 0)
    );
    Chosen::or(a, TakeUpKind::Gravity, screw::TORQUE, why)
}

/// Lug, shelf and gussets as decided.
struct Holder {
    lug: Chosen<Length>,
    shelf: Chosen<Length>,
    gusset: Chosen<Length>,
}

/// What the take-up has to pull up, N.
fn pull_up(so_far: &Turning<'_>) -> f64 {
    so_far.pulls.up_on_foot(if *so_far.bend.fitted { bend_angle_for_sizes(so_far).to_radians() } else { 0.0 })
}

/// Loads of a rod in N, and what is round it.
struct Loaded {
    /// Half of the belt's pull: the weight of the pulley helps the rods, but not while the belt is being pulled off a heap.
    pull: f64,
    /// What both have to give, with nothing in hand.
    up: f64,
    /// While one is turned alone, carrying more than its half.
    turned: f64,
    /// On a blocked foot.
    blocked: f64,
    around: Around,
    stock: Stock,
}

impl Loaded {
    fn of(so_far: &Turning<'_>, rods: &Rods) -> Self {
        let us = so_far.rounding.us;
        let pull = so_far.pulls.on_foot() / 2.0;
        let unit = bearing_unit(*so_far.bearings.kind, so_far.shaft.journal.value.value(), us);
        let (stock, wall) = (Stock::of(us), so_far.plates.plate.value.value());
        Self {
            pull,
            up: pull_up(so_far),
            turned: pull.max(WITH_PLATES * rods.dead * GRAVITY / 2.0) * UNEVEN_RODS,
            blocked: so_far.pulls.on_blocked_foot() / 2.0 * BLOCKED_IN_HAND,
            around: Around { sliding: sliding_thickness(wall, &unit, stock), wall, flange: so_far.plates.flange.value.value() },
            stock,
        }
    }

    /// Lug, shelf and gussets of a rod, as asked or as strong as they have to be.
    fn held(&self, so_far: &Turning<'_>, rod: &PowerThread, rods: &Rods) -> RodHolder {
        let a = &so_far.asked.take_up;
        let asked = |leaf: &Leaf<Length>, or: f64| leaf.value().map_or(or, |l| l.value());
        let loads = [(self.turned, strength::LASTING), (self.blocked.max(self.overtightened(so_far, rod, rods)), strength::RARE)];
        let least = RodHolder::new(self.stock, rod.diameter_mm, &self.around, RodHolder::customary(self.stock)).strengthened(&loads);
        least.with([asked(&a.lug, least.lug), asked(&a.shelf, least.shelf), asked(&a.gusset, least.gusset)])
    }

    /// The thinnest rod that holds, or the thickest that there is.
    fn thinnest(&self, so_far: &Turning<'_>, rods: &Rods) -> Option<&'static PowerThread> {
        let straight = |r: &PowerThread| {
            let free = rods.free + self.held(so_far, r, rods).rod_beyond();
            let critical = critical_load_n(r.root_mm(), free, Ends::PinnedPinned.design(), MODULUS_MPA, rods.yield_mpa);
            critical >= BUCKLING_SAFETY * self.turned.max(self.blocked).max(self.overtightened(so_far, r, rods))
        };
        let holds = |r: &&PowerThread| {
            let root = r.root_mm();
            r.diameter_mm >= LEAST_ROD
                && core_stress_mpa(self.pull, root) <= ROD_STRESS
                && core_stress_mpa(self.blocked, root) * strength::RARE <= rods.yield_mpa
                && turned(r, rods).greased().turned_mpa(self.overtightened(so_far, r, rods), root) * strength::RARE <= rods.yield_mpa
                && straight(r)
        };
        let family = Family::of_job(so_far.rounding.us);
        family.all().find(holds).or(family.all().next_back())
    }

    /// Torque that turns a rod while it carries more than its half, N·m; less the weight of what slides, which helps.
    fn torque_nm(&self, rod: &PowerThread, rods: &Rods) -> f64 {
        let weight = rods.dead * GRAVITY;
        let alone = (self.up - weight).max(WITH_PLATES * weight) / 2.0 * UNEVEN_RODS * BLOCKED_IN_HAND;
        turned(rod, rods).raise_nmm(alone) / 1000.0
    }

    /// Torque that tightens a rod turned alone against the belt, N·m.
    fn tighten_nm(&self, rod: &PowerThread, rods: &Rods) -> f64 {
        let alone = (self.up - rods.dead * GRAVITY).max(0.0) / 2.0 * UNEVEN_RODS * BLOCKED_IN_HAND;
        turned(rod, rods).raise_nmm(alone) / 1000.0
    }

    /// Torque at which the spanner lets go, N·m: what tightening takes with something in hand, in whole steps.
    fn lets_go_nm(&self, so_far: &Turning<'_>, rod: &PowerThread, rods: &Rods) -> f64 {
        so_far.asked.take_up.torque.value().map_or_else(
            || {
                let step = if so_far.rounding.us { Torque::parse(US_LET_GO_STEP).map_or(LET_GO_STEP_NM, Torque::value) } else { LET_GO_STEP_NM };
                let taken = self.tighten_nm(rod, rods) * TIGHTENING_IN_HAND;
                (taken.max(LEAST_LET_GO_NM) / step - 1e-6).ceil() * step
            },
            Torque::value,
        )
    }

    /// What that puts on a freshly greased rod, N.
    fn overtightened(&self, so_far: &Turning<'_>, rod: &PowerThread, rods: &Rods) -> f64 {
        turned(rod, rods).greased().force_n(self.lets_go_nm(so_far, rod, rods) * 1000.0)
    }
}

/// A rod with this thread as it is turned in service.
fn turned(rod: &PowerThread, rods: &Rods) -> Screw {
    Screw::rod(rod.diameter_mm, rod.pitch_diameter_mm(), rod.pitch_mm, rod.flank_rad(), rods.friction)
}

/// The thinnest rod that holds, how hard it is turned at most, and what holds it.
fn rod(so_far: &Turning<'_>, rods: &Rods, used: bool) -> (Chosen<String>, Chosen<Torque>, Holder) {
    let a = &so_far.asked.take_up;
    let loaded = Loaded::of(so_far, rods);
    let (load, blocked) = (loaded.pull, loaded.blocked);
    let [lug, shelf, gusset] = RodHolder::customary(loaded.stock);
    let chosen = loaded.thinnest(so_far, rods);
    let family = Family::of_job(so_far.rounding.us);
    let rod = Chosen::or(
        &a.rod,
        chosen.map_or("Tr30x6", |r| r.name).to_string(),
        family.source(),
        say!(
            "core stress not over {stress} at {load} a side, straight at its longest, also under {blocked} of a blocked foot",
            stress = say::amount(ROD_STRESS, Unit::Mpa, 0),
            load = say::amount(load / 1000.0, Unit::Kn, 1),
            blocked = say::amount(blocked / 1000.0, Unit::Kn, 1)
        ),
    );
    let thread = power_threads::find(&rod.value).or(chosen);
    let sizes = thread.map(|rod| loaded.held(so_far, rod, rods));
    let torque = Chosen::or(
        &a.torque,
        Torque::nm(thread.filter(|_| used).map_or(LEAST_LET_GO_NM, |rod| loaded.lets_go_nm(so_far, rod, rods))),
        screw::OVERTIGHTENED,
        match thread.filter(|_| used) {
            None => "not used by a gravity take-up".into(),
            Some(rod) => say!(
                "tightening takes about {torque}; a spanner that lets go a little above it, not under {least}, so that nobody overtightens the belt",
                torque = say::amount(loaded.tighten_nm(rod, rods), Unit::Nm, 0),
                least = say::amount(LEAST_LET_GO_NM, Unit::Nm, 0)
            ),
        },
    );
    let decided = |leaf: &Leaf<Length>, size: Option<f64>, customary: f64| {
        let size = size.filter(|_| used).unwrap_or(customary);
        if !used {
            Chosen::or(leaf, mm(customary), PRACTICE, "not used by a gravity take-up")
        } else if size > customary {
            let most = thread.map_or(blocked, |rod| blocked.max(loaded.overtightened(so_far, rod, rods)));
            let why = say!("holds the {most} that press a rod when the foot blocks or the spanner lets go", most = say::amount(most / 1000.0, Unit::Kn, 1));
            Chosen::or(leaf, mm(size), strength::BENDING, why)
        } else {
            Chosen::or(leaf, mm(size), PRACTICE, "the customary size is strong enough")
        }
    };
    let holder = Holder {
        lug: decided(&a.lug, sizes.map(|s| s.lug), lug),
        shelf: decided(&a.shelf, sizes.map(|s| s.shelf), shelf),
        gusset: decided(&a.gusset, sizes.map(|s| s.gusset), gusset),
    };
    (rod, torque, holder)
}

/// Frame, weights and box of a gravity take-up.
struct GravityParts {
    frame_mass: Chosen<Option<Mass>>,
    weights: Chosen<Mass>,
    box_length: Chosen<Length>,
    box_width: Chosen<Length>,
    box_height: Chosen<Length>,
}

/// Boxes, weights and what holds them, where they are used; `dead` is the mass of what slides besides, kg.
fn gravity(so_far: &Turning<'_>, used: bool, dead: f64, travel: f64) -> GravityParts {
    let a = &so_far.asked.take_up;
    let unused = "not used by a screw take-up";
    let pull = pull_up(so_far);
    let room = BoxRoom::of(so_far, travel);
    // Boxes that carry all of the wanted mass are larger, and heavier, than those that carry what they themselves leave of it.
    let wanted = |frame: f64| mass_needed_kg(pull, dead + frame).max(0.0);
    let frame = |size: [f64; 3]| if used { room.mass_kg(size).round() } else { 0.0 };
    let carried = wanted(frame(room.size(so_far, wanted(0.0))));
    let size = room.size(so_far, a.weights.value().map_or(carried, |m| m.value().max(carried)));
    let asked = |asked: &Leaf<Length>, or: f64| asked.value().map_or(or, |l| l.value());
    let [length, width, height] = size;
    let frame = frame([asked(&a.box_length, length), asked(&a.box_width, width), asked(&a.box_height, height)]);
    let frame_mass = Chosen::or(&a.frame_mass, None, PRACTICE, if used { "the drawn boxes and what holds them are weighed" } else { unused });
    let hanging = dead + frame_mass.value.map_or(frame, |m| m.value());
    let wanted = mass_needed_kg(pull, hanging).max(0.0);
    let weights = Chosen::or(
        &a.weights,
        Mass::kg(if used { (wanted / 10.0).ceil() * 10.0 } else { 0.0 }),
        gravity_take_up::MASS,
        if used {
            say!(
                "{pull} of belt pull on the foot pulley; pulley, shaft, bearings and empty boxes already pull with about {mass}",
                pull = say::amount(pull / 1000.0, Unit::Kn, 1),
                mass = say::amount(hanging, Unit::Kg, 0)
            )
        } else {
            unused.into()
        },
    );
    let boxed = if used {
        say!("two boxes hold {mass} of cast weights with a fifth to spare", mass = say::amount(weights.value.value(), Unit::Kg, 0))
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
struct BoxRoom {
    /// Along the machine, mm.
    length: f64,
    /// Sliding plate above the underside of the box, mm.
    height: f64,
    /// Thickness of its plates, mm.
    plate: f64,
    /// Width and thickness of the bars that hold it, mm.
    bar: [f64; 2],
}

impl BoxRoom {
    fn of(so_far: &Turning<'_>, travel: f64) -> Self {
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
    fn holds(&self, so_far: &Turning<'_>, weights: f64) -> bool {
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
        let bars = 2.0 * self.bar[0] * self.bar[1] * size[2].min(self.height);
        BOXES * (weight_box::area(size) * self.plate + bars) * mass::STEEL_KG_PER_M3 * 1e-9
    }
}
