//! Belt pulls for choosing sizes: how hard the belt pulls at the head and in the foot.
//!
//! In: duty, bucket, head pulley, feed side, belt. Out: pulls in N, from the same formulas that
//! `analysis` applies to the finished model. Only for defaults: the head wrap is taken as 180°.

use super::bucket::rows_length;
use super::pulleys;
use super::so_far::{Lifted, Pulls};
use crate::formulas::capacity::{capacity_t_per_h, run_weight_n};
use crate::formulas::gravity_take_up::belt_pull_up_n;
use crate::formulas::power::{FeedSide, LOSSES_AT_SHAFT, dredging_force_n, dredging_lift_m};
use crate::formulas::screw::{GREASED, LEAST_LET_GO_NM, LET_GO_STEP_NM, UNEVEN_RODS};
use crate::formulas::tension::{Blocked, ChainInput, Drive, full_over_duty, tension_chain, tension_ratio};
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use std::f64::consts::PI;

/// The lift is that of a new belt; the take-up adds to it.
const LIFT_IN_HAND: f64 = 1.02;

/// Belt and empty buckets, kg/m.
fn empty_line(belt_kg_per_m2: f64, width_mm: f64, bucket: &Bucket) -> f64 {
    belt_kg_per_m2 * width_mm / 1000.0 + f64::from(*bucket.rows) * bucket.mass.value.value() / (bucket.spacing.value.value() / 1000.0)
}

/// What buckets full to water level carry, t/h.
fn full_t_per_h(so_far: &Lifted<'_>) -> f64 {
    let (bucket, duty) = (&so_far.bucket, &so_far.duty);
    let spacing = bucket.spacing.value.value();
    capacity_t_per_h(bucket.volume.value.value(), *bucket.rows, spacing, duty.belt_speed.value.value(), so_far.product.density.value.value(), 1.0)
}

/// The most that both rods put on the foot shaft when the spanner lets go, N, before the rods are chosen: what turning one of them takes with a
/// tenth in hand and one step more, or the least at which a spanner lets go, on greased threads.
pub(super) fn overtightened_n(load: f64) -> f64 {
    // The thinnest rod gives most force for its torque.
    const N_PER_NM: f64 = 290.0;
    let taken = load * UNEVEN_RODS * 1.1 / GREASED;
    (taken + 2.0 * LET_GO_STEP_NM * N_PER_NM).max(2.0 * LEAST_LET_GO_NM * N_PER_NM + load)
}

impl Pulls {
    /// First estimate, with a fabric belt of 10 kg/m² that tracks at 5 N/mm.
    pub(super) fn estimate(so_far: &Lifted<'_>) -> Self {
        let head = so_far.head_pulley.diameter.value.value();
        let usual = if *pulleys::bend_fitted(so_far) { pulleys::BESIDE_BEND * head } else { head };
        Self::with_foot_pulley(so_far, so_far.asked.foot_pulley.diameter.value().map_or(usual, |d| d.value()))
    }

    /// The same for choosing the head pulley, which does not follow from the foot pulley: with one as large as itself.
    pub(super) fn for_head(so_far: &Lifted<'_>) -> Self {
        Self::with_foot_pulley(so_far, so_far.head_pulley.diameter.value.value())
    }

    fn with_foot_pulley(so_far: &Lifted<'_>, foot_diameter: f64) -> Self {
        let (asked, duty, bucket) = (so_far.asked, &so_far.duty, &so_far.bucket);
        let width = asked.belt.width.value().map_or(rows_length(bucket) + 50.0, |w| w.value());
        let side = if so_far.sides.down.value { FeedSide::Down } else { FeedSide::Up };
        let speed = duty.belt_speed.value.value();
        let load = duty.capacity.value.value() / 3.6 / speed;
        let lift = LIFT_IN_HAND * duty.lift.value.value() / 1000.0;
        let dredging = dredging_force_n(load, dredging_lift_m(side, foot_diameter));
        let drive = Drive { limit: so_far.head_pulley.limit() };
        let full = full_over_duty(full_t_per_h(so_far), duty.capacity.value.value(), drive.overloaded());
        let input = ChainInput {
            empty_line_kg_per_m: empty_line(10.0, width, bucket),
            load_line_kg_per_m: load,
            lift_m: lift,
            dredging_n: dredging + LOSSES_AT_SHAFT * (dredging + run_weight_n(load, lift)),
            full_over_duty: full,
            start_over_running: drive.start_over_running(full),
            speed_m_per_s: speed,
            friction: so_far.head_pulley.friction.value.value(),
            wrap_rad: PI,
            tracking_n: 5.0 * width,
        };
        Self { input, drive, dredging, chain: tension_chain(&input) }
    }

    /// The same with this belt.
    pub(super) fn with_belt(&self, belt: &Belt, bucket: &Bucket) -> Self {
        let width = belt.width.value.value();
        let input = ChainInput {
            empty_line_kg_per_m: empty_line(belt.mass.value.value(), width, bucket),
            tracking_n: belt.tracking_tension.value.value() * width,
            ..self.input
        };
        Self { input, drive: self.drive, dredging: self.dredging, chain: tension_chain(&input) }
    }

    /// What grip at the head needs in each run at the foot, and what tracking needs, N.
    pub(super) fn for_grip_and_tracking(&self) -> [f64; 2] {
        [self.chain.foot_for_grip_n, self.input.tracking_n]
    }

    /// Pull of both runs on a blocked foot pulley, the up run empty, N.
    pub(super) fn on_blocked_foot(&self) -> f64 {
        let (c, i) = (&self.chain, &self.input);
        let blocked = Blocked {
            foot_down_n: c.foot_down_n,
            down_run_weight_n: c.down_run_weight_n,
            ratio_limit: tension_ratio(i.friction, i.wrap_rad),
            stall_n: self.drive.stall_n(c.effective_pull_n, c.full_pull_n),
        };
        blocked.foot_up_n(0.0) + c.foot_down_n
    }

    /// Upward pull of both runs on the foot pulley, the down run leaning so far (rad), with nothing in hand, N: what a take-up has to give.
    pub(super) fn up_on_foot(&self, lean: f64) -> f64 {
        belt_pull_up_n(self.chain.foot_down_n + self.dredging, self.chain.foot_down_n, lean)
    }

    /// Pull of both runs on the foot pulley, N, with the losses in hand.
    pub(super) fn on_foot(&self) -> f64 {
        self.chain.foot_up_n + self.chain.foot_down_n
    }
}
