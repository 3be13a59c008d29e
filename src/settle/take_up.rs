//! Settles `[take_up]`: travel, rod, stop; boxes and weights in `weights`.
//!
//! In: what was asked, belt, pulleys, pulls. Out: the take-up. Travel takes out the stretch of the whole belt and one closing step;
//! the rod is chosen by its core stress, the weights by the pull that the foot needs.

use super::levels::neutral_radii;
use super::pulleys::bend_angle_for_sizes;
use super::rotating::{BLOCKED_IN_HAND, word};
use super::rounding::{Step, mm};
use super::so_far::Turning;
use super::weights::{BoxRoom, Slides, gravity, pull_up};
use super::{PRACTICE, pulleys};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::formulas::belt_path::{Pulleys, belt_path};
use crate::formulas::gravity_take_up::{self, mass_needed_kg};
use crate::formulas::screw::{self, BUCKLING_SAFETY, BY_HAND_NM, Ends, LEAST_LET_GO_NM, LET_GO_STEP_NM, Screw, UNEVEN_RODS, core_stress_mpa, critical_load_n};
use crate::formulas::stretch::{self, extra_length_mm, travel_for_mm};
use crate::formulas::{foot_heights, mass, strength};
use crate::say;
use crate::say::Statement;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::rod_holder::{Around, Held, RodHolder, sliding_thickness};
use crate::sizing::take_up_stop::Stop;
use crate::sizing::weight_box;
use crate::sources::Source;
use crate::spec::reader::{Chosen, Leaf};
use crate::spec::rotating::{AskedTakeUp, RodAction, TakeUp, TakeUpKind};
use crate::tables::plates::Stock;
use crate::tables::power_threads::{self, Family, PowerThread};
use crate::tables::steels::MODULUS_MPA;
use crate::units::{GRAVITY, Length, Quantity as _, Ratio, Stress, Torque, Unit};

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
/// What hangs on a side in a gravity take-up over half of the belt's pull: friction in the guides, whole plates (estimate).
const HANGING: f64 = 1.4;
/// Boxes over the weights that are asked for and what slides besides (estimate).
const HEAVIER: f64 = 1.15;
/// Friction coefficient of sliding plates in their guides: steel on steel with felt, dusty (common practice).
const GUIDE_FRICTION: f64 = 0.25;
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
    let (travel, rods) = roomy(so_far, travel, rods);
    let kind = kind(so_far, &rods);
    let (rod, torque, holder) = if *kind == TakeUpKind::Gravity { hung(so_far, &rods) } else { screw(so_far, &rods) };
    let guide_friction = Chosen::or(&a.guide_friction, Ratio::of_one(GUIDE_FRICTION), PRACTICE, "steel in dusty guides with felt");
    let slides = Slides { dead, travel: travel.value.value(), friction: guide_friction.value.value(), back: holder.back };
    let gravity = gravity(so_far, *kind == TakeUpKind::Gravity, &slides);
    TakeUp {
        rod,
        lug: holder.lug,
        shelf: holder.shelf,
        gusset: holder.gusset,
        stop_gap: holder.stop_gap,
        buffer: holder.buffer,
        guide_friction,
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

/// A gravity take-up that is asked for gets as much more travel as the bars of its boxes need above the bearing, where nobody said how much.
fn roomy(so_far: &Turning<'_>, travel: Chosen<Length>, rods: Rods) -> (Chosen<Length>, Rods) {
    let asked = so_far.asked.take_up.kind.value() == Some(TakeUpKind::Gravity);
    let leaf = &so_far.asked.take_up.travel;
    let stands = |free: f64| {
        let rods = Rods { free, ..rods };
        Loaded::of(so_far, &rods).hung(so_far, &rods).stands
    };
    if !asked || leaf.value().is_some() || stands(rods.free) {
        return (travel, rods);
    }
    let step = so_far.rounding.or_inch(25.0, 1.0);
    let more = (1..=MORE_TRAVEL).map(|i| so_far.rounding.up(rods.free + step * f64::from(i), Step::Coarse)).find(|free| stands(*free));
    let Some(free) = more else { return (travel, rods) };
    let travel = Chosen::or(leaf, mm(free), PRACTICE, "as much as the weight boxes need above the bearing");
    (travel, Rods { free, ..rods })
}

/// Steps by which the travel may grow for the bars of weight boxes.
const MORE_TRAVEL: u32 = 16;

/// What a rod has to do.
#[derive(Clone, Copy)]
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
    if torque <= BY_HAND_NM || !BoxRoom::of(so_far, rods.free).holds(so_far, weights) || !loaded.hung(so_far, rods).stands {
        return Chosen::or(a, TakeUpKind::Screw, PRACTICE, "a screw take-up unless asked otherwise");
    }
    let why = say!(
        "weights: a rod would take {torque} to turn, a person turns {most}",
        torque = say::amount(torque, Unit::Nm, 0),
        most = say::amount(BY_HAND_NM, Unit::Nm, 0)
    );
    Chosen::or(a, TakeUpKind::Gravity, screw::TORQUE, why)
}

/// Lug, shelf and gussets as decided, and the stop.
struct Holder {
    lug: Chosen<Length>,
    shelf: Chosen<Length>,
    gusset: Chosen<Length>,
    stop_gap: Chosen<Length>,
    buffer: Chosen<Length>,
    /// Back of a weight box from the side plate, mm.
    back: f64,
}

/// Rod, stop and holder of a gravity take-up.
struct Hung {
    rod: &'static PowerThread,
    holder: RodHolder,
    /// What the stop catches on a side, N.
    caught: f64,
    /// Whether all of it holds, and bars of the boxes have room beside it.
    stands: bool,
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

    /// Rod, stop and holder of a gravity take-up: the widest gap whose catch a ring, a rod and what holds it bear.
    fn hung(&self, so_far: &Turning<'_>, rods: &Rods) -> Hung {
        let a = &so_far.asked.take_up;
        let [gap, ring] = [&a.stop_gap, &a.buffer].map(|l| l.value().map(|l| l.value()));
        let asked = |leaf: &Leaf<Length>, or: f64| leaf.value().map_or(or, |l| l.value());
        let asked_for = a.weights.value().map_or(0.0, |m| (m.value() + WITH_PLATES * rods.dead) * GRAVITY);
        let weight = (HANGING * self.up.max(WITH_PLATES * rods.dead * GRAVITY)).max(HEAVIER * asked_for) / 2.0;
        let family = Family::of_job(so_far.rounding.us);
        let named = a.rod.value().and_then(|name| power_threads::find(&name));
        let up = (self.blocked - weight).max(0.0);
        let room = BoxRoom::of(so_far, rods.free).height;
        let with = |rod: &'static PowerThread, stop: Stop| {
            let caught = stop.catch(weight);
            let loads = [(caught, strength::RARE), (up, strength::RARE)];
            let least = RodHolder::new(self.stock, rod.diameter_mm, &self.around, RodHolder::customary(self.stock)).stopped(Some(stop)).strengthened(&loads);
            let holder = least.with([asked(&a.lug, least.lug), asked(&a.shelf, least.shelf), asked(&a.gusset, least.gusset)]);
            let holds = Held::ALL.iter().all(|held| holder.holds(*held, &loads));
            let strong = core_stress_mpa(caught.max(up), rod.root_mm()) * strength::RARE <= rods.yield_mpa;
            let bars = room - holder.rod_under() - weight_box::UNDER_ROD >= weight_box::LEAST_BAR;
            let fair = strong && stop.bears(weight);
            (fair, Hung { rod, holder, caught, stands: holds && fair && bars })
        };
        let threads: Vec<&'static PowerThread> = match named {
            Some(rod) => vec![rod],
            None => family.all().filter(|r| r.diameter_mm >= LEAST_ROD).collect(),
        };
        let stops = |rod: &'static PowerThread| {
            let asked = move |s: Stop| Stop::new(ring.unwrap_or(s.ring), gap.unwrap_or(s.gap), rod.diameter_mm, self.stock);
            Stop::tried(rod.diameter_mm, self.stock).map(asked)
        };
        // Wide gaps first, then thin rods.
        let mut gaps: Vec<f64> = threads.first().map(|rod| stops(rod).map(|s| s.gap).collect()).unwrap_or_default();
        gaps.dedup();
        let tried = gaps.iter().flat_map(|gap| threads.iter().flat_map(|rod| stops(rod).filter(|s| s.gap == *gap).map(|s| with(rod, s))));
        let (mut fair, mut last) = (None, None);
        for (holds, hung) in tried {
            if hung.stands {
                return hung;
            }
            if holds && fair.is_none() {
                fair = Some(hung);
            } else {
                last = Some(hung);
            }
        }
        // Where nothing holds, at least ring and rod.
        fair.or(last).unwrap_or_else(|| {
            let rod = power_threads::find("Tr30x6").unwrap_or(&power_threads::ALL[0]);
            with(rod, Stop::new(100.0, 20.0, rod.diameter_mm, self.stock)).1
        })
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
fn screw(so_far: &Turning<'_>, rods: &Rods) -> (Chosen<String>, Chosen<Torque>, Holder) {
    let a = &so_far.asked.take_up;
    let loaded = Loaded::of(so_far, rods);
    let (load, blocked) = (loaded.pull, loaded.blocked);
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
        Torque::nm(thread.map_or(LEAST_LET_GO_NM, |rod| loaded.lets_go_nm(so_far, rod, rods))),
        screw::OVERTIGHTENED,
        say!(
            "tightening takes about {torque}; a spanner that lets go a little above it, not under {least}, so that nobody overtightens the belt",
            torque = say::amount(thread.map_or(0.0, |rod| loaded.tighten_nm(rod, rods)), Unit::Nm, 0),
            least = say::amount(LEAST_LET_GO_NM, Unit::Nm, 0)
        ),
    );
    let most = thread.map_or(blocked, |rod| blocked.max(loaded.overtightened(so_far, rod, rods)));
    let strong = say!("holds the {most} that press a rod when the foot blocks or the spanner lets go", most = say::amount(most / 1000.0, Unit::Kn, 1));
    let unused = "not used by a screw take-up";
    let stop = Stop::tried(LEAST_ROD, loaded.stock).next();
    let [gap, ring] = stop.map_or([20.0, 60.0], |s| [s.gap, s.ring]);
    let [lug, shelf, gusset] = decided(a, loaded.stock, sizes, &strong);
    let stop_gap = Chosen::or(&a.stop_gap, mm(gap), PRACTICE, unused);
    (rod, torque, Holder { lug, shelf, gusset, stop_gap, buffer: Chosen::or(&a.buffer, mm(ring), PRACTICE, unused), back: 0.0 })
}

/// Rod and stop of a gravity take-up, and what holds them.
fn hung(so_far: &Turning<'_>, rods: &Rods) -> (Chosen<String>, Chosen<Torque>, Holder) {
    let a = &so_far.asked.take_up;
    let loaded = Loaded::of(so_far, rods);
    let hung = loaded.hung(so_far, rods);
    let caught = || say::amount(hung.caught / 1000.0, Unit::Kn, 1);
    let rod = Chosen::or(
        &a.rod,
        hung.rod.name.to_string(),
        Family::of_job(so_far.rounding.us).source(),
        say!("bears the {caught} with which the stop of a side catches what hangs when the belt parts", caught = caught()),
    );
    let strong = say!("holds the {caught} with which the stop catches what hangs", caught = caught());
    let [lug, shelf, gusset] = decided(a, loaded.stock, Some(hung.holder), &strong);
    let stop = hung.holder.stop;
    let [gap, ring] = stop.map_or([20.0, 60.0], |s| [s.gap, s.ring]);
    let stop_gap =
        Chosen::or(&a.stop_gap, mm(gap), gravity_take_up::CATCH, "what hangs falls by no more when the belt parts; the nut is set anew as the belt stretches");
    let why = say!(
        "pressed by no more than {share} of its thickness by {caught}",
        share = say::amount(100.0 * gravity_take_up::MOST_PRESSED, Unit::Percent, 0),
        caught = caught()
    );
    let buffer = Chosen::or(&a.buffer, mm(ring), gravity_take_up::PRESSED, why);
    let torque = Chosen::or(&a.torque, Torque::nm(LEAST_LET_GO_NM), screw::OVERTIGHTENED, "not used by a gravity take-up");
    (rod, torque, Holder { lug, shelf, gusset, stop_gap, buffer, back: hung.holder.box_back() })
}

/// Lug, shelf and gusset: customary sizes, or those that are strong enough, with the reason.
fn decided(a: &AskedTakeUp, stock: Stock, sizes: Option<RodHolder>, strong: &Statement) -> [Chosen<Length>; 3] {
    let [lug, shelf, gusset] = RodHolder::customary(stock);
    let decided = |leaf: &Leaf<Length>, size: Option<f64>, customary: f64| match size {
        Some(size) if size > customary => Chosen::or(leaf, mm(size), strength::BENDING, strong.clone()),
        size => Chosen::or(leaf, mm(size.unwrap_or(customary)), PRACTICE, "the customary size is strong enough"),
    };
    [decided(&a.lug, sizes.map(|s| s.lug), lug), decided(&a.shelf, sizes.map(|s| s.shelf), shelf), decided(&a.gusset, sizes.map(|s| s.gusset), gusset)]
}
