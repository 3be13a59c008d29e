//! Load cases of the foot: what the belt pulls with, and which case asks most of a part.
//!
//! In: tensions, wrap, masses. Out: pulls in N at the foot, their resultant on the shaft, what a rod gets. The take-up stands in
//! the middle. A blocked foot is held by product at the bottom of the pulley: both runs pull at the shaft. What wedges itself
//! in on the down side would add to that, on the up side take off.

use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::gravity_take_up::belt_pull_up_n;
use crate::formulas::screw::UNEVEN_RODS;
use crate::formulas::strength;
use crate::formulas::tension::{BEND_RESULTANT, BLOCKED, CHAIN, pulley_resultant_n};
use crate::say;
use crate::sources::Source;
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
}

impl BeltCase {
    /// What is wanted in hand of yield strength.
    pub fn in_hand(&self) -> f64 {
        if self.rare { strength::RARE } else { strength::LASTING }
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

/// All load cases, from mild to hard; never empty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cases(pub [BeltCase; 6]);

impl Cases {
    /// Computes them.
    pub fn compute(path: &Path, tension: &Tension, masses: &Masses) -> Self {
        let (wrap, lean) = (path.middle.foot_wrap_deg.to_radians(), path.middle.foot_run_deg.to_radians());
        let weight = (masses.foot_pulley_kg + masses.shaft_kg) * GRAVITY;
        let sliding = masses.hanging_kg * GRAVITY;
        let case = |id, name, rare, up_n: f64, down_n: f64| {
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
            }
        };
        let (set, up, down) = (tension.foot_set_n, tension.foot_up_n, tension.foot_down_n);
        let full = tension.foot_up_full_n;
        let starting = full + (tension.start_n - tension.largest_n).max(0.0);
        Self([
            case("empty", "empty and tensioned", false, set, set),
            case("running", "running at the duty", false, up, down),
            case("full", "running with full buckets", false, full, down),
            case("starting", "starting with full buckets", true, starting, down),
            case("blocked_loaded", "foot blocked, up run loaded", true, tension.blocked_loaded_n, down),
            case("blocked_empty", "foot blocked, up run empty", true, tension.blocked_empty_n, down),
        ])
    }

    /// The case that takes the largest share of what may be; the limit may differ between cases. The milder of equals.
    pub fn worst(&self, of: impl Fn(&BeltCase) -> (f64, f64)) -> Worst {
        let all = self.0.map(|case| {
            let (value, limit) = of(&case);
            Worst { case, value, limit }
        });
        all[1..].iter().fold(all[0], |worst, next| if next.value * worst.limit > worst.value * next.limit { *next } else { worst })
    }

    /// The hardest of the blocked ones: up run empty.
    pub const fn blocked_empty(&self) -> &BeltCase {
        &self.0[5]
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("cases", out);
        for c in &self.0 {
            let inputs: &[&str] = match c.id {
                "empty" => &["tension.foot_set"],
                "running" => &["tension.foot_up", "tension.foot_down"],
                "full" => &["tension.foot_up_full", "tension.foot_down"],
                "starting" => &["tension.foot_up_full", "tension.start", "tension.largest"],
                "blocked_loaded" => &["tension.blocked_loaded", "tension.foot_down"],
                _ => &["tension.blocked_empty", "tension.foot_down"],
            };
            let source = if c.id.starts_with("blocked") { BLOCKED } else { CHAIN };
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
            let [empty, running, full, starting, loaded, blocked] = r.cases.0;
            assert!(empty.up_n <= running.up_n && running.up_n <= full.up_n && full.up_n < starting.up_n && loaded.up_n < blocked.up_n, "{name}");
            let product = r.capacity.product_kg_per_m * GRAVITY * r.path.shaft_height_mm / 1000.0;
            assert!((blocked.up_n - loaded.up_n - product).abs() < 1e-6 || (loaded.up_n - loaded.down_n).abs() < 1e-6, "{name}");
            // The foot pulley hangs between the two runs: statics of the shaft without its own weight.
            let t = &r.tension;
            assert!((blocked.up_n - (t.blocked_empty_n)).abs() < 1e-9 && blocked.down_n == t.foot_down_n);
            assert!(blocked.rod_n < (blocked.up_n + blocked.down_n) / 2.0 && blocked.rare && !running.rare);
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
