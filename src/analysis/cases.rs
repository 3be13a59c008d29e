//! Load cases of the foot: what the belt pulls with, and which case asks most of a part.
//!
//! In: tensions, wrap, masses, rods. Out: pulls in N at the foot, their resultant on the shaft, what a rod gets, the largest pull in the
//! belt. The take-up stands in the middle. A blocked foot is held by product at the bottom of the pulley: both runs pull at the shaft. What wedges itself
//! in on the down side would add to that, on the up side take off.

use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::gravity_take_up::belt_pull_up_n;
use crate::formulas::screw::{OVERTIGHTENED, Screw as Thread, UNEVEN_RODS};
use crate::formulas::strength;
use crate::formulas::tension::{BEND_RESULTANT, BLOCKED, CHAIN, pulley_resultant_n};
use crate::say;
use crate::sources::Source;
use crate::spec::Spec;
use crate::spec::rotating::{TakeUp, TakeUpKind};
use crate::tables::power_threads::{self, PowerThread};
use crate::units::{GRAVITY, Unit};

/// Load of a rod.
pub const ROD_LOAD: Source =
    Source::physics("half of (belt pull up less what slides, or what slides with a slack belt), times the factor for uneven turning where somebody turns it");

/// One load case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeltCase {
    /// Stable id, e.g. `blocked_empty`.
    pub id: &'static str,
    /// In plain words.
    pub name: &'static str,
    /// Whether it has to be survived now and then, not borne for years.
    pub rare: bool,
    /// Up run at the foot, N.
    pub up_n: f64,
    /// Down run at the foot, N.
    pub down_n: f64,
    /// Larger of belt alone, belt less the weight of pulley and shaft, and that weight with a slack belt; N on both hubs together.
    pub shaft_n: f64,
    /// Along one take-up rod, N; turned alone where the case lasts.
    pub rod_n: f64,
    /// Largest pull in the belt, at the head, N; `None` where the belt's strength is not asked for.
    pub belt_n: Option<f64>,
}

/// A take-up rod as it is turned in service; `None` for a gravity take-up or an unknown thread.
pub fn rod_of(take_up: &TakeUp) -> Option<(&'static PowerThread, Thread)> {
    let row = power_threads::find(&take_up.rod.value).filter(|_| take_up.kind.value == TakeUpKind::Screw)?;
    Some((row, turned_in(row, take_up)))
}

/// The take-up's rod with this thread, as it is turned in service.
pub fn turned_in(row: &PowerThread, take_up: &TakeUp) -> Thread {
    Thread::rod(row.diameter_mm, row.pitch_diameter_mm(), row.pitch_mm, row.flank_rad(), take_up.friction.value())
}

impl BeltCase {
    /// What is wanted in hand of yield strength.
    pub fn in_hand(&self) -> f64 {
        if self.rare { strength::RARE } else { strength::LASTING }
    }

    /// Whether somebody turns a rod as hard as the spanner lets him.
    pub fn overtightened(&self) -> bool {
        self.id == "overtightened"
    }
}

/// How much of what a part can bear its worst load case takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// The case.
    pub case: BeltCase,
    /// What it brings, in the unit of the limit.
    pub value: f64,
    /// What may be.
    pub limit: f64,
}

/// All load cases; never empty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cases {
    /// What comes to every foot, from mild to hard.
    every: [BeltCase; 6],
    /// Where rods are turned by hand: both turned until the spanner lets go, the belt running with full buckets.
    overtightened: Option<BeltCase>,
}

impl Cases {
    /// Computes them.
    pub fn compute(spec: &Spec, path: &Path, tension: &Tension, masses: &Masses) -> Self {
        let (wrap, lean) = (path.middle.foot_wrap_deg.to_radians(), path.middle.foot_run_deg.to_radians());
        let weight = (masses.foot_pulley_kg + masses.shaft_kg) * GRAVITY;
        let sliding = masses.hanging_kg * GRAVITY;
        let case = |id, name, rare, up_n: f64, down_n: f64, belt_n| {
            let (vertical, sideways) = (belt_pull_up_n(up_n, down_n, lean), down_n * lean.sin());
            let net = (vertical - sliding).abs();
            BeltCase {
                id,
                name,
                rare,
                up_n,
                down_n,
                shaft_n: pulley_resultant_n(up_n, down_n, wrap).max((vertical - weight).hypot(sideways)).max(weight),
                rod_n: if rare { net } else { net.max(sliding) * UNEVEN_RODS } / 2.0,
                belt_n,
            }
        };
        let (set, up, down) = (tension.foot_set_n, tension.foot_up_n, tension.foot_down_n);
        let full = tension.foot_up_full_n;
        let starting = full + (tension.start_n - tension.largest_n).max(0.0);
        let (run, duty) = (tension.chain.down_run_weight_n, tension.largest_n - tension.chain.full_pull_n + tension.chain.effective_pull_n);
        let overtightened = rod_of(&spec.take_up).map(|(_, rod)| {
            // Both rods press, and what slides hangs on the belt besides; a tighter belt is tighter all round.
            let pressed = 2.0 * rod.greased().force_n(spec.take_up.torque.value() * 1000.0) + sliding;
            let each = (pressed / belt_pull_up_n(1.0, 1.0, lean)).max(set);
            case("overtightened", "overtightened by hand", true, each, each, Some(tension.largest_n + each - down))
        });
        let every = [
            case("empty", "empty and tensioned", false, set, set, Some(set + run)),
            case("running", "running at the duty", false, up, down, Some(duty)),
            case("full", "running with full buckets", false, full, down, Some(tension.largest_n)),
            case("starting", "starting with full buckets", true, starting, down, Some(tension.start_n)),
            case("blocked_loaded", "foot blocked, up run loaded", true, tension.blocked_loaded_n, down, None),
            case("blocked_empty", "foot blocked, up run empty", true, tension.blocked_empty_n, down, None),
        ];
        Self { every, overtightened }
    }

    /// Each of them.
    pub fn iter(&self) -> impl Iterator<Item = &BeltCase> {
        self.every.iter().chain(&self.overtightened)
    }

    /// The case that takes the largest share of what may be; the limit may differ between cases. The milder of equals.
    pub fn worst(&self, of: impl Fn(&BeltCase) -> (f64, f64)) -> Worst {
        let share = |case: &BeltCase| {
            let (value, limit) = of(case);
            Worst { case: *case, value, limit }
        };
        let [first, ..] = &self.every;
        self.iter().skip(1).map(share).fold(share(first), |worst, next| if next.value * worst.limit > worst.value * next.limit { next } else { worst })
    }

    /// The most of something in the rare cases.
    pub fn most_rare(&self, of: impl Fn(&BeltCase) -> f64) -> f64 {
        self.iter().filter(|c| c.rare).map(of).fold(0.0, f64::max)
    }

    /// The hardest of the blocked ones: up run empty.
    pub const fn blocked_empty(&self) -> &BeltCase {
        &self.every[5]
    }

    /// Where rods are turned by hand: both turned until the spanner lets go.
    pub const fn overtightened(&self) -> Option<&BeltCase> {
        self.overtightened.as_ref()
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("cases", out);
        for c in self.iter() {
            let inputs: &[&str] = match c.id {
                "overtightened" => &["take_up.torque", "take_up.rod", "take_up.friction", "masses.hanging", "assumed.greased"],
                "empty" => &["tension.foot_set"],
                "running" => &["tension.foot_up", "tension.foot_down"],
                "full" => &["tension.foot_up_full", "tension.foot_down"],
                "starting" => &["tension.foot_up_full", "tension.start", "tension.largest"],
                "blocked_loaded" => &["tension.blocked_loaded", "tension.foot_down"],
                _ => &["tension.blocked_empty", "tension.foot_down"],
            };
            let source = match c.id {
                "overtightened" => OVERTIGHTENED,
                id if id.starts_with("blocked") => BLOCKED,
                _ => CHAIN,
            };
            g.put(&format!("{}.up", c.id), say!("{case}: up run at the foot", case = c.name), c.up_n, Unit::N, inputs, source);
            g.put(&format!("{}.down", c.id), say!("{case}: down run at the foot", case = c.name), c.down_n, Unit::N, inputs, source);
            g.put(
                &format!("{}.shaft", c.id),
                say!("{case}: on the foot shaft", case = c.name),
                c.shaft_n,
                Unit::N,
                &[&format!("cases.{}.up", c.id), &format!("cases.{}.down", c.id), "masses.foot_pulley", "masses.shaft"],
                BEND_RESULTANT,
            );
            g.put(
                &format!("{}.side", c.id),
                say!("{case}: on each side of the take-up", case = c.name),
                c.rod_n,
                Unit::N,
                &[&format!("cases.{}.up", c.id), &format!("cases.{}.down", c.id), "masses.hanging", "assumed.uneven_rods"],
                ROD_LOAD,
            );
            if let Some(belt_n) = c.belt_n {
                g.put(
                    &format!("{}.belt", c.id),
                    say!("{case}: largest pull in the belt", case = c.name),
                    belt_n,
                    Unit::N,
                    &[&format!("cases.{}.down", c.id), "tension.own_weight", "tension.effective_pull", "tension.full_pull", "tension.start_pull"],
                    CHAIN,
                );
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::starters_test::{STARTERS, job};

    /// A belt pulls more at a blocked foot with an empty up run, and there every case is a bound of the one before it.
    #[test]
    fn blocked_is_the_hardest_and_empty_worse_than_loaded() {
        for (name, text) in STARTERS {
            let (_, _, r) = job(text);
            let [empty, running, full, starting, loaded, blocked] = r.cases.every;
            assert!(empty.up_n <= running.up_n && running.up_n <= full.up_n && full.up_n <= starting.up_n && loaded.up_n < blocked.up_n, "{name}");
            // A limited drive starts full buckets with what it runs them with.
            assert!(full.up_n < starting.up_n || r.tension.start_n <= r.tension.largest_n + 1e-6, "{name}");
            let product = r.capacity.product_kg_per_m * GRAVITY * r.path.shaft_height_mm / 1000.0;
            assert!((blocked.up_n - loaded.up_n - product).abs() < 1e-6 || (loaded.up_n - loaded.down_n).abs() < 1e-6, "{name}");
            // The foot pulley hangs between the two runs: statics of the shaft without its own weight.
            let t = &r.tension;
            assert!((blocked.up_n - (t.blocked_empty_n)).abs() < 1e-9 && blocked.down_n == t.foot_down_n);
            assert!(blocked.rod_n < (blocked.up_n + blocked.down_n) / 2.0 && blocked.rare && !running.rare);
        }
    }

    /// Statics of the pushed pulley: two rods down, what slides down, two runs up; and the torque back from the force.
    #[test]
    fn overtightened_hangs_in_balance() {
        for (name, text) in STARTERS {
            let (spec, _, r) = job(text);
            let Some(over) = r.cases.overtightened() else {
                assert!(spec.take_up.kind.value == TakeUpKind::Gravity, "{name}");
                continue;
            };
            let lean = r.path.middle.foot_run_deg.to_radians();
            let up = over.up_n + over.down_n * lean.cos();
            assert!((up - 2.0 * over.rod_n - r.masses.hanging_kg * GRAVITY).abs() < 1e-6, "{name}");
            let (_, rod) = rod_of(&spec.take_up).unwrap();
            assert!((rod.greased().raise_nmm(over.rod_n) / 1000.0 - spec.take_up.torque.value()).abs() < 1e-6 || over.up_n == r.tension.foot_set_n, "{name}");
            // What it takes in service is less than what the spanner gives, and the belt is never slacker than set.
            assert!(over.up_n >= r.tension.foot_set_n && over.rare && over.belt_n > Some(r.tension.largest_n), "{name}");
        }
    }

    #[test]
    fn the_worst_is_by_share_of_what_may_be() {
        let (_, _, r) = job(STARTERS[0].1);
        assert_eq!(r.cases.worst(|c| (c.up_n, 1.0)).case.id, "blocked_empty");
        assert_eq!(r.cases.worst(|c| (c.up_n, if c.rare { 1e9 } else { 1.0 })).case.id, "full");
        assert_eq!(r.cases.worst(|_| (1.0, 2.0)).case.id, "empty");
    }
}
