//! Belt tensions from head to foot, and what the take-up must give.
//!
//! In: line masses, lift, dredging, grip at the head, tracking tension, take-up. Out: forces in N. Losses
//! count as effective pull at the head. Steady running but for two bounds: starting, and a blocked foot
//! where either the motor stalls or the standing belt slips at the head.

use super::assumed::LOSSES_AT_SHAFT;
use super::capacity::Capacity;
use super::masses::Masses;
use super::path::Path;
use super::power::Power;
use super::{Group, Quantity};
use crate::formulas::gravity_take_up;
use crate::formulas::tension::{self, BLOCKED, Blocked, CENTRIFUGAL, CHAIN, Chain, ChainInput, Drive, EULER_EYTELWEIN, Governs};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::spec::rotating::TakeUpKind;
use crate::units::Unit;

/// Bound of starting.
pub const BOUNDS: Source = Source::practice("multiple of the effective pull");
/// Working stress of the belt.
pub const BELT_LOAD: Source = Source::physics("largest tension over belt width");

/// Tensions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tension {
    /// The chain as needed: least tensions that grip and track.
    pub chain: Chain,
    /// Tracking minimum in the foot, per run, N.
    pub tracking_n: f64,
    /// Largest ratio of tight to slack side that the head grips.
    pub ratio_limit: f64,
    /// Ratio of tight to slack side as needed.
    pub ratio: f64,
    /// Tension in each run at the foot that the take-up gives: the weight's for gravity, what is needed for a screw, N.
    pub foot_set_n: f64,
    /// Down run at the foot, larger of needed and set, N.
    pub foot_down_n: f64,
    /// Up run at the foot, the same, N.
    pub foot_up_n: f64,
    /// Up run at the foot with full buckets, N.
    pub foot_up_full_n: f64,
    /// Largest tension of the belt in running, with full buckets, N.
    pub largest_n: f64,
    /// The same over the belt's width, N/mm.
    pub largest_n_per_mm: f64,
    /// Allowed working tension over the largest one.
    pub belt_reserve: f64,
    /// Largest tension in starting with full buckets, N.
    pub start_n: f64,
    /// Up run at a blocked foot with empty buckets on it, N: the worse of the two.
    pub blocked_empty_n: f64,
    /// The same with the duty's product in them, which hangs on the head instead of pulling at the foot, N.
    pub blocked_loaded_n: f64,
    /// Whether the belt slips at the head before the motor stalls.
    pub blocked_slips: bool,
}

impl Tension {
    /// Computes it, take-up in the middle.
    pub fn compute(spec: &Spec, foot: &Foot, capacity: &Capacity, path: &Path, power: &Power, masses: &Masses) -> Self {
        let height_m = path.shaft_height_mm / 1000.0;
        let width = spec.belt.width.value();
        let lift_n = capacity.product_kg_per_m * crate::units::GRAVITY * height_m;
        let losses_n = (lift_n + power.dredging_force_n) * LOSSES_AT_SHAFT.value;
        let wrap_rad = path.middle.head_wrap_deg.to_radians();
        let friction = spec.head_pulley.friction.value();
        let tracking_n = spec.belt.tracking_tension.value() * width;
        let drive = Drive { limit: spec.head_pulley.limit() };
        let mut chain = tension::tension_chain(&ChainInput {
            empty_line_kg_per_m: capacity.empty_kg_per_m,
            load_line_kg_per_m: capacity.product_kg_per_m,
            lift_m: height_m,
            dredging_n: power.dredging_force_n + losses_n,
            full_over_duty: capacity.full_over_duty(),
            start_over_running: drive.start_over_running(capacity.full_over_duty()),
            speed_m_per_s: spec.duty.belt_speed.value(),
            friction,
            wrap_rad,
            tracking_n,
        });
        // Losses act along the way, most of them at the head; the foot feels dredging only.
        chain.foot_up_n = chain.foot_down_n + power.dredging_force_n;
        let lean = path.middle.foot_run_deg.to_radians();
        let foot_set_n = match foot.rotating.take_up {
            TakeUpKind::Screw => chain.foot_down_n,
            TakeUpKind::Gravity => {
                let hanging = gravity_take_up::vertical_resultant_n(spec.take_up.weights.value(), masses.hanging_kg);
                // up run = down run + dredging; both pull up, the down run by its lean.
                ((hanging - power.dredging_force_n) / (1.0 + lean.cos())).max(0.0)
            }
        };
        let foot_down_n = chain.foot_down_n.max(foot_set_n);
        let largest_n = chain.head_full_n + (foot_down_n - chain.foot_down_n);
        let slack_n = chain.head_slack_n + (foot_down_n - chain.foot_down_n);
        let ratio_limit = tension::tension_ratio(friction, wrap_rad);
        let stall_n = drive.stall_n(chain.effective_pull_n, chain.full_pull_n);
        let blocked = Blocked { foot_down_n, down_run_weight_n: chain.down_run_weight_n, ratio_limit, stall_n };
        Self {
            tracking_n,
            ratio_limit,
            ratio: chain.head_tight_n / chain.head_slack_n,
            foot_set_n,
            foot_down_n,
            foot_up_n: foot_down_n + power.dredging_force_n,
            foot_up_full_n: foot_down_n + power.dredging_force_n * capacity.full_over_duty(),
            largest_n,
            largest_n_per_mm: largest_n / width,
            belt_reserve: spec.belt.strength.value() * width / largest_n,
            start_n: slack_n + chain.start_pull_n,
            blocked_empty_n: blocked.foot_up_n(0.0),
            blocked_loaded_n: blocked.foot_up_n(lift_n),
            blocked_slips: blocked.slip_n() < blocked.stall_n,
            chain,
        }
    }

    /// Whether tracking and not grip decides the tension in the foot.
    pub fn tracking_governs(&self) -> bool {
        self.chain.governs == Governs::Tracking
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("tension", out);
        const GRIP: &[&str] = &["head_pulley.friction", "path.head_wrap_middle"];
        const WEIGHT: &[&str] = &["capacity.empty_line_mass", "path.shaft_height"];
        let c = &self.chain;
        g.put(
            "effective_pull",
            "effective pull at the head",
            c.effective_pull_n,
            Unit::N,
            &["capacity.product_line_load", "path.shaft_height", "power.dredging_force", "assumed.losses_at_shaft"],
            CHAIN,
        );
        g.put(
            "full_pull",
            "effective pull with full buckets, as far as a drive pulls them",
            c.full_pull_n,
            Unit::N,
            &["tension.effective_pull", "capacity.full", "capacity.required", "assumed.overloaded", "head_pulley.pull_limit"],
            CHAIN,
        );
        g.put(
            "start_pull",
            "effective pull in starting with full buckets",
            c.start_pull_n,
            Unit::N,
            &["tension.full_pull", "assumed.start_pull", "head_pulley.pull_limit"],
            BOUNDS,
        );
        g.put("ratio_limit", "tight over slack side that the head grips", self.ratio_limit, Unit::One, GRIP, EULER_EYTELWEIN);
        g.put("ratio", "tight over slack side", self.ratio, Unit::One, &["tension.head_tight", "tension.head_slack"], CHAIN);
        g.put("centrifugal", "tension from the belt's own inertia", c.centrifugal_n, Unit::N, &["capacity.empty_line_mass", "duty.belt_speed"], CENTRIFUGAL);
        g.put(
            "slack_needed",
            "slack side that grip needs, running or starting with full buckets",
            c.slack_needed_n,
            Unit::N,
            &["tension.full_pull", "tension.start_pull", "tension.ratio_limit"],
            EULER_EYTELWEIN,
        );
        g.put("own_weight", "weight of belt and buckets of the down run", c.down_run_weight_n, Unit::N, WEIGHT, CHAIN);
        g.put(
            "own_weight_share",
            "share of the needed slack side that this weight gives",
            c.own_weight_share,
            Unit::One,
            &["tension.own_weight", "tension.slack_needed"],
            CHAIN,
        );
        g.put(
            "foot_for_grip",
            "tension that grip needs in the foot; negative: none",
            c.foot_for_grip_n,
            Unit::N,
            &["tension.slack_needed", "tension.own_weight"],
            CHAIN,
        );
        g.put(
            "tracking",
            "tracking minimum in the foot, each run",
            self.tracking_n,
            Unit::N,
            &["belt.tracking_tension", "belt.width"],
            Source::spec("belt.tracking_tension"),
        );
        self.record_set(&mut g);
    }

    /// Lists what the take-up gives and what follows from it.
    fn record_set(&self, g: &mut Group<'_>) {
        let c = &self.chain;
        g.put("foot_needed", "tension needed in the down run at the foot", c.foot_down_n, Unit::N, &["tension.foot_for_grip", "tension.tracking"], CHAIN);
        g.put("foot_set", "tension that the take-up gives, each run", self.foot_set_n, Unit::N, &["take_up.kind", "take_up.weights"], CHAIN);
        g.put("foot_down", "down run at the foot", self.foot_down_n, Unit::N, &["tension.foot_needed", "tension.foot_set"], CHAIN);
        g.put("foot_up", "up run at the foot", self.foot_up_n, Unit::N, &["tension.foot_down", "power.dredging_force"], CHAIN);
        g.put(
            "foot_up_full",
            "up run at the foot, buckets full",
            self.foot_up_full_n,
            Unit::N,
            &["tension.foot_down", "power.dredging_force", "capacity.full", "capacity.required", "assumed.overloaded"],
            CHAIN,
        );
        g.put("head_slack", "slack side at the head, as needed", c.head_slack_n, Unit::N, &["tension.foot_needed", "tension.own_weight"], CHAIN);
        g.put("head_tight", "tight side at the head, as needed", c.head_tight_n, Unit::N, &["tension.head_slack", "tension.effective_pull"], CHAIN);
        g.put(
            "largest",
            "largest tension in running, buckets full",
            self.largest_n,
            Unit::N,
            &["tension.head_slack", "tension.full_pull", "tension.foot_set"],
            CHAIN,
        );
        g.put("largest_per_width", "largest tension over belt width", self.largest_n_per_mm, Unit::NPerMm, &["tension.largest", "belt.width"], BELT_LOAD);
        g.put("belt_reserve", "allowed over largest working tension", self.belt_reserve, Unit::One, &["belt.strength", "tension.largest_per_width"], BELT_LOAD);
        g.put("start", "largest tension in starting, buckets full", self.start_n, Unit::N, &["tension.head_slack", "tension.start_pull"], BOUNDS);
        const HELD: &[&str] =
            &["tension.foot_down", "tension.own_weight", "tension.full_pull", "tension.ratio_limit", "assumed.blocked_pull", "head_pulley.pull_limit"];
        g.put("blocked_empty", "up run at a blocked foot, buckets empty", self.blocked_empty_n, Unit::N, HELD, BLOCKED);
        g.put("blocked_loaded", "up run at a blocked foot, buckets loaded", self.blocked_loaded_n, Unit::N, HELD, BLOCKED);
    }
}
