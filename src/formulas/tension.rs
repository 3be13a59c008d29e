//! Belt tensions from the head pulley down to the foot.
//!
//! In: line masses in kg/m, lift in m, dredging force in N, belt speed in m/s, friction and wrap at the
//! head. Out: forces in N. Steady running, and a belt that stands while the head pulls; starting and braking are not
//! covered, nor is friction in the foot bearings (small against the rest).

use crate::formulas::capacity::run_weight_n;
use crate::sources::Source;

/// Euler–Eytelwein with the centrifugal term.
pub const EULER_EYTELWEIN: Source = Source::book("Shigley, Mechanical Engineering Design, eq. 17-7");
/// Wrap factor Cw = 1/(e^{μα} − 1).
pub const WRAP_FACTOR: Source = Source::book("CEMA, Belt Conveyors for Bulk Materials").remark("the same as Euler–Eytelwein").from_memory();
/// Tension of a moving belt from its own inertia.
pub const CENTRIFUGAL: Source = Source::physics("momentum flow through a bend: Fc = m'·v²");
/// The chain from head to foot.
pub const CHAIN: Source = Source::physics("statics of two hanging runs and the grip at the head");
/// A blocked foot.
pub const BLOCKED: Source =
    Source::physics("a belt that stands has no centrifugal part: slack side × (e^{μα} − 1) or the stalling drive, whichever is less, pulls at the foot");
/// Pull of a stalled drive.
pub const STALL: Source = Source::practice("pull-out torque of a squirrel-cage motor over its rated torque");
/// Effective pull of a stalling drive as a multiple of the running one. Source: [`STALL`].
pub const STALL_PULL: f64 = 2.5;
/// Pull of a starting drive.
pub const STARTING: Source = Source::practice("controlled start; a direct start pulls harder");
/// Effective pull in starting as a multiple of the running one. Source: [`STARTING`].
pub const START_PULL: f64 = 1.5;
/// What a drive pulls that buckets overload.
pub const OVERLOAD: Source = Source::practice("a motor is chosen with half of the duty in hand at most, and trips where more is asked of it for long");
/// Effective pull of an overloaded drive in running as a multiple of the duty's. Source: [`OVERLOAD`].
pub const OVERLOADED: f64 = 1.5;

/// What lets through no more than a drive is set to.
pub const LIMITED: Source = Source::practice("a converter or a filled coupling lets through so many times the pull of the duty: running, starting and stalled");
/// Effective pull that a limited drive is customarily set to, as a multiple of the duty's: full buckets still start. Source: [`LIMITED`].
pub const LIMITED_PULL: f64 = 1.5;

/// What the drive pulls at the most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drive {
    /// Effective pull that it is limited to as a multiple of the duty's; `None` where nothing but the motor limits it.
    pub limit: Option<f64>,
}

impl Drive {
    /// Most effective pull in running with full buckets, as a multiple of the duty's.
    ///
    /// ```
    /// use footwell::formulas::tension::Drive;
    /// assert_eq!([None, Some(1.2), Some(2.0)].map(|limit| Drive { limit }.overloaded()), [1.5, 1.2, 1.5]);
    /// ```
    pub fn overloaded(&self) -> f64 {
        self.limit.map_or(OVERLOADED, |l| l.min(OVERLOADED))
    }
    /// Effective pull in starting as a multiple of the one in running with full buckets, which is so many times the duty's; 1 at least.
    pub fn start_over_running(&self, full_over_duty: f64) -> f64 {
        self.limit.map_or(START_PULL, |l| (l / full_over_duty).clamp(1.0, START_PULL))
    }
    /// Effective pull at which it stalls, N, from those of the duty and of full buckets.
    pub fn stall_n(&self, duty_n: f64, full_n: f64) -> f64 {
        let motor = STALL_PULL * full_n;
        self.limit.map_or(motor, |l| (l * duty_n).max(full_n).min(motor))
    }
}

/// Effective pull with buckets as full as nothing but the drive keeps them, over the duty's: from 1 to what a drive pulls overloaded.
///
/// ```
/// use footwell::formulas::tension::{OVERLOADED, full_over_duty};
/// assert_eq!([120.0, 80.0, 300.0].map(|full| full_over_duty(full, 100.0, OVERLOADED)), [1.2, 1.0, 1.5]);
/// ```
pub fn full_over_duty(full_t_per_h: f64, duty_t_per_h: f64, overloaded: f64) -> f64 {
    (full_t_per_h / duty_t_per_h).clamp(1.0, overloaded)
}

/// What a belt bears for a short while.
pub const BRIEF: Source = Source::book("CEMA, Belt Conveyors for Bulk Materials").remark("starting tension up to 150 % of the belt's rating").from_memory();
/// Belt tension that may come for a short while, as a multiple of the allowed working tension. Source: [`BRIEF`].
pub const BRIEF_BELT_PULL: f64 = 1.5;

/// Bend pulley resultant.
pub const BEND_RESULTANT: Source = Source::physics("vector sum of two equal belt forces: 2·T·sin(β/2)");

/// Largest ratio of tight to slack side: e^{μα}, α in radians. Source: [`EULER_EYTELWEIN`].
pub fn tension_ratio(friction: f64, wrap_rad: f64) -> f64 {
    (friction * wrap_rad).exp()
}

/// Wrap factor Cw = T2/Te = 1/(e^{μα} − 1). Source: [`WRAP_FACTOR`].
///
/// ```
/// let cw = footwell::formulas::tension::wrap_factor(0.35, std::f64::consts::PI);
/// assert!((cw - 0.4993).abs() < 5e-5);
/// ```
pub fn wrap_factor(friction: f64, wrap_rad: f64) -> f64 {
    1.0 / (tension_ratio(friction, wrap_rad) - 1.0)
}

/// Centrifugal belt tension in N: Fc = m'·v², line mass in kg/m, speed in m/s. Source: [`CENTRIFUGAL`].
pub fn centrifugal_n(line_mass_kg_per_m: f64, speed_m_per_s: f64) -> f64 {
    line_mass_kg_per_m * speed_m_per_s * speed_m_per_s
}

/// Slack side tension in N that transmits an effective pull without slip: T2 = Cw·Te + Fc.
pub fn slack_side_n(effective_pull_n: f64, wrap_factor: f64, centrifugal_n: f64) -> f64 {
    wrap_factor * effective_pull_n + centrifugal_n
}

/// Resultant on a pulley of two belt forces with a wrap β between them, N; Te may differ.
/// √(T1² + T2² − 2·T1·T2·cos β): for 180° the sum, for equal forces 2·T·sin(β/2). Source: [`BEND_RESULTANT`].
///
/// ```
/// let r = footwell::formulas::tension::pulley_resultant_n(1000.0, 1000.0, 30f64.to_radians());
/// assert!((r - 2000.0 * 15f64.to_radians().sin()).abs() < 1e-9);
/// ```
pub fn pulley_resultant_n(one_n: f64, other_n: f64, wrap_rad: f64) -> f64 {
    (one_n * one_n + other_n * other_n - 2.0 * one_n * other_n * wrap_rad.cos()).max(0.0).sqrt()
}

/// What the chain needs to know.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChainInput {
    /// Belt and empty buckets, kg/m.
    pub empty_line_kg_per_m: f64,
    /// Product on the up run, kg/m.
    pub load_line_kg_per_m: f64,
    /// Height between the shafts, m.
    pub lift_m: f64,
    /// Force that dredging in the foot puts on the belt, N.
    pub dredging_n: f64,
    /// The hardest running over that of the duty: effective pull with buckets full to water level, which they are where nothing limits
    /// the feed; 1 or more.
    pub full_over_duty: f64,
    /// Effective pull in starting over that in running.
    pub start_over_running: f64,
    /// Belt speed, m/s.
    pub speed_m_per_s: f64,
    /// Friction between belt and head pulley.
    pub friction: f64,
    /// Wrap at the head, rad.
    pub wrap_rad: f64,
    /// Tension per run that keeps the belt on the foot pulley (tracking), N.
    pub tracking_n: f64,
}

/// What decides the tension in the foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Governs {
    /// Grip at the head: the belt would slip with less.
    Grip,
    /// Tracking in the foot: the weight of the down run grips enough by itself.
    Tracking,
}

/// Forces along the belt, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chain {
    /// Effective pull at the head: lift and dredging.
    pub effective_pull_n: f64,
    /// The same with buckets full to water level.
    pub full_pull_n: f64,
    /// The same in starting with full buckets.
    pub start_pull_n: f64,
    /// Whether starting asks for more slack side tension than running.
    pub starting_asks_more: bool,
    /// Centrifugal part contained in every tension.
    pub centrifugal_n: f64,
    /// Slack side at the head that grip needs: running with full buckets or starting with them, whichever needs more. What the take-up
    /// gives must do for both, a screw cannot follow.
    pub slack_needed_n: f64,
    /// Weight of belt and buckets of the down run.
    pub down_run_weight_n: f64,
    /// Tension that grip needs in the foot; negative when the belt's own weight is more than enough.
    pub foot_for_grip_n: f64,
    /// Tension in the down run where it reaches the foot pulley.
    pub foot_down_n: f64,
    /// Tension in the up run where it leaves the foot pulley.
    pub foot_up_n: f64,
    /// Slack side at the head.
    pub head_slack_n: f64,
    /// Tight side at the head at the duty.
    pub head_tight_n: f64,
    /// Tight side at the head with full buckets, the largest tension of the belt in running.
    pub head_full_n: f64,
    /// What decides.
    pub governs: Governs,
    /// Share of the needed slack side tension that the weight of the down run gives, 0 to 1.
    pub own_weight_share: f64,
}

/// The tension chain, source [`CHAIN`]:
/// Te = q·g·H + dredging; T2 needed = larger of Cw·Te + Fc with full buckets and Cw·Te in starting, when nothing flies yet;
/// down run weight = m'·g·H;
/// foot = max(tracking, T2 needed − weight); T2 = foot + weight; T1 = T2 + Te;
/// up side of the foot = foot + dredging (so that T1 = that + (m' + q)·g·H, the same).
pub fn tension_chain(input: &ChainInput) -> Chain {
    let effective_pull_n = run_weight_n(input.load_line_kg_per_m, input.lift_m) + input.dredging_n;
    let centrifugal = centrifugal_n(input.empty_line_kg_per_m, input.speed_m_per_s);
    let full_pull_n = effective_pull_n * input.full_over_duty;
    let start_pull_n = full_pull_n * input.start_over_running;
    let factor = wrap_factor(input.friction, input.wrap_rad);
    let (running, starting) = (slack_side_n(full_pull_n, factor, centrifugal), slack_side_n(start_pull_n, factor, 0.0));
    let slack_needed_n = running.max(starting);
    let down_run_weight_n = run_weight_n(input.empty_line_kg_per_m, input.lift_m);
    let foot_for_grip_n = slack_needed_n - down_run_weight_n;
    let (foot_down_n, governs) = if foot_for_grip_n > input.tracking_n { (foot_for_grip_n, Governs::Grip) } else { (input.tracking_n, Governs::Tracking) };
    let head_slack_n = foot_down_n + down_run_weight_n;
    Chain {
        effective_pull_n,
        full_pull_n,
        start_pull_n,
        starting_asks_more: starting > running,
        centrifugal_n: centrifugal,
        slack_needed_n,
        down_run_weight_n,
        foot_for_grip_n,
        foot_down_n,
        foot_up_n: foot_down_n + input.dredging_n,
        head_slack_n,
        head_tight_n: head_slack_n + effective_pull_n,
        head_full_n: head_slack_n + full_pull_n,
        governs,
        own_weight_share: if slack_needed_n > 0.0 { (down_run_weight_n / slack_needed_n).min(1.0) } else { 1.0 },
    }
}

/// A foot that something holds while the head goes on pulling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blocked {
    /// Down run at the foot as the take-up has set it, N. It is kept; a head that slips pulls belt over and slackens it.
    pub foot_down_n: f64,
    /// Weight of belt and buckets of the down run, N.
    pub down_run_weight_n: f64,
    /// Most that the head grips of tight over slack side.
    pub ratio_limit: f64,
    /// Effective pull at which the drive stalls, N.
    pub stall_n: f64,
}

impl Blocked {
    /// Effective pull at which the standing belt slips at the head, N.
    pub fn slip_n(&self) -> f64 {
        (self.foot_down_n + self.down_run_weight_n) * (self.ratio_limit - 1.0)
    }
    /// Up run at the foot, N, with this weight of product in its buckets: what hangs on the head does not pull at the foot. Source: [`BLOCKED`].
    ///
    /// ```
    /// use footwell::formulas::tension::Blocked;
    /// // 5 kN of slack side at e^{μα} = 3 slips at 10 kN, before the drive stalls
    /// let b = Blocked { foot_down_n: 2000.0, down_run_weight_n: 3000.0, ratio_limit: 3.0, stall_n: 15_000.0 };
    /// assert_eq!((b.foot_up_n(0.0), b.foot_up_n(4000.0)), (12_000.0, 8000.0));
    /// ```
    pub fn foot_up_n(&self, product_n: f64) -> f64 {
        self.foot_down_n + (self.stall_n.min(self.slip_n()) - product_n).max(0.0)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::approx_constant)] // 1.4427 is e^{0.1·210°}, by chance near log2(e)
    use super::*;

    /// Computed table of e^{μα} at 150° … 210° and Cw at 180°.
    #[test]
    fn ratio_table() {
        for (mu, row, cw) in [
            (0.10, [1.2993, 1.3221, 1.3454, 1.3691, 1.3932, 1.4177, 1.4427], 2.7092),
            (0.20, [1.6881, 1.7481, 1.8102, 1.8745, 1.9410, 2.0100, 2.0814], 1.1436),
            (0.25, [1.9242, 2.0100, 2.0996, 2.1933, 2.2911, 2.3933, 2.5000], 0.8380),
            (0.30, [2.1933, 2.3112, 2.4354, 2.5663, 2.7043, 2.8497, 3.0028], 0.6384),
            (0.35, [2.5000, 2.6575, 2.8249, 3.0028, 3.1920, 3.3931, 3.6068], 0.4993),
            (0.40, [2.8497, 3.0557, 3.2767, 3.5136, 3.7676, 4.0401, 4.3322], 0.3978),
            (0.45, [3.2482, 3.5136, 3.8007, 4.1112, 4.4471, 4.8105, 5.2035], 0.3214),
            (0.50, [3.7025, 4.0401, 4.4085, 4.8105, 5.2491, 5.7278, 6.2501], 0.2624),
        ] {
            for (i, want) in row.into_iter().enumerate() {
                let wrap = (150.0 + 10.0 * i as f64).to_radians();
                assert!((tension_ratio(mu, wrap) - want).abs() < 1e-4, "{mu} {i}");
            }
            assert!((wrap_factor(mu, std::f64::consts::PI) - cw).abs() < 1e-4);
        }
    }

    /// Shigley 10e Prob. 17-1 on Ex. 17-2 (lbf): θ 3.037, f 0.80: 11.35; Fc 73.4, ΔF 664: F1 802, F2 138.
    #[test]
    fn shigley_17_1() {
        assert!((tension_ratio(0.80, 3.037) - 11.35).abs() < 0.02);
        let f2 = slack_side_n(664.0, wrap_factor(0.80, 3.037), 73.4);
        assert!((f2 / 137.53 - 1.0).abs() < 2e-3 && ((f2 + 664.0) / 801.53 - 1.0).abs() < 2e-3);
    }

    /// Momentum flow: 4 kg/m turning back at 2.5 m/s, 10 kg/s times 2.5 m/s in each run.
    #[test]
    fn inertia() {
        assert!((centrifugal_n(4.0, 2.5) - 25.0).abs() < 1e-12);
    }

    /// The grip of the standing belt by walking round the head pulley: every element takes μ·T·dα.
    #[test]
    fn blocked_by_walking_round_the_head() {
        let (friction, wrap, slack) = (0.3, std::f64::consts::PI, 9200.0);
        let steps = 200_000;
        let tight = (0..steps).fold(slack, |t, _| t * (1.0 + friction * wrap / f64::from(steps)));
        let b = Blocked { foot_down_n: 2850.0, down_run_weight_n: slack - 2850.0, ratio_limit: tension_ratio(friction, wrap), stall_n: 1e9 };
        assert!((b.slip_n() / (tight - slack) - 1.0).abs() < 1e-5);
        // Going down the empty up run, which weighs what the down run weighs.
        assert!((b.foot_up_n(0.0) / (tight - (slack - 2850.0)) - 1.0).abs() < 1e-5);
        // A drive that stalls first limits it, product in the buckets takes its weight off, never more than there is.
        let weak = Blocked { stall_n: 4000.0, ..b };
        assert_eq!([weak.foot_up_n(0.0), weak.foot_up_n(1500.0), weak.foot_up_n(1e6)], [6850.0, 5350.0, 2850.0]);
    }

    /// By hand, duty 10 kN, full buckets a quarter more: a motor alone starts with 1.5 and stalls at 2.5 times 12.5 kN, a limit of 1.5 holds both
    /// at 15 kN.
    #[test]
    fn a_limited_drive() {
        let (free, held, low) = (Drive { limit: None }, Drive { limit: Some(1.5) }, Drive { limit: Some(1.1) });
        assert_eq!((free.start_over_running(1.25), free.stall_n(10_000.0, 12_500.0)), (1.5, 31_250.0));
        assert!((held.start_over_running(1.25) * 12_500.0 - 15_000.0).abs() < 1e-9 && held.stall_n(10_000.0, 12_500.0) == 15_000.0);
        // It starts what it runs with.
        assert_eq!((low.overloaded(), low.start_over_running(1.1), low.stall_n(10_000.0, 11_000.0)), (1.1, 1.0, 11_000.0));
    }

    /// Capstan of a textbook: 2.5 turns, μ 0.25, 2000 N: about 51, about 40 N (39.4 computed).
    #[test]
    fn capstan() {
        let ratio = tension_ratio(0.25, 5.0 * std::f64::consts::PI);
        assert!((ratio - 51.0).abs() < 0.8);
        assert!((2000.0 / ratio - 39.4).abs() < 0.05);
    }

    fn input() -> ChainInput {
        ChainInput {
            empty_line_kg_per_m: 17.9,
            load_line_kg_per_m: 11.0,
            lift_m: 28.0,
            dredging_n: 540.0,
            full_over_duty: 1.0,
            start_over_running: 1.0,
            speed_m_per_s: 2.8,
            friction: 0.35,
            wrap_rad: std::f64::consts::PI,
            tracking_n: 600.0,
        }
    }

    /// Statics: going up the loaded run from the foot arrives at the same tight side.
    #[test]
    fn the_chain_closes() {
        for i in [input(), ChainInput { friction: 0.1, lift_m: 6.0, ..input() }] {
            let c = tension_chain(&i);
            let up = c.foot_up_n + run_weight_n(i.empty_line_kg_per_m + i.load_line_kg_per_m, i.lift_m);
            assert!((up - c.head_tight_n).abs() < 1e-9);
            let ratio = (c.head_tight_n - c.centrifugal_n) / (c.head_slack_n - c.centrifugal_n);
            assert!(ratio <= tension_ratio(i.friction, i.wrap_rad) + 1e-9);
        }
    }

    #[test]
    fn tall_belts_grip_by_their_own_weight() {
        let tall = tension_chain(&input());
        assert_eq!(tall.governs, Governs::Tracking);
        assert_eq!((tall.foot_down_n, tall.foot_up_n, tall.own_weight_share), (600.0, 1140.0, 1.0));
        let slick = tension_chain(&ChainInput { friction: 0.1, ..input() });
        assert_eq!(slick.governs, Governs::Grip);
        assert!((slick.foot_down_n - slick.foot_for_grip_n).abs() < 1e-9 && slick.foot_for_grip_n > 600.0);
        assert!((slick.own_weight_share - slick.down_run_weight_n / slick.slack_needed_n).abs() < 1e-12 && slick.own_weight_share < 1.0);
        // on the limit of slip exactly
        let ratio = (slick.head_tight_n - slick.centrifugal_n) / (slick.head_slack_n - slick.centrifugal_n);
        assert!((ratio - tension_ratio(0.1, std::f64::consts::PI)).abs() < 1e-9);
        let idle = tension_chain(&ChainInput { load_line_kg_per_m: 0.0, dredging_n: 0.0, speed_m_per_s: 0.0, ..input() });
        assert_eq!(idle.own_weight_share, 1.0);
    }

    /// Full buckets and starting, by hand: Cw(0.1, 180°) = 1/(e^{0.31416} − 1) = 2.709236; Te = 11 · 9.80665 · 28 + 540 = 3560.448 N.
    #[test]
    fn full_buckets_and_starting_need_their_slack_side() {
        let slick = ChainInput { friction: 0.1, full_over_duty: 1.25, ..input() };
        let full = tension_chain(&slick);
        let te = 3_560.448_2;
        assert!((full.full_pull_n - 1.25 * te).abs() < 1e-3 && !full.starting_asks_more);
        // Running: 2.709236 · 1.25 · Te and the belt's own inertia, 17.9 · 2.8².
        assert!((full.slack_needed_n - (2.709_236 * 1.25 * te + 17.9 * 2.8 * 2.8)).abs() < 0.1);
        assert!((full.head_full_n - full.head_slack_n - 1.25 * te).abs() < 1e-3);
        let start = tension_chain(&ChainInput { start_over_running: 1.5, ..slick });
        assert!(start.starting_asks_more && (start.slack_needed_n - 2.709_236 * 1.25 * 1.5 * te).abs() < 0.1);
        // At the limit of slip in starting: tight over slack side is e^{0.1 π} = 1.369108.
        assert!(((start.head_slack_n + start.start_pull_n) / start.head_slack_n - 1.369_108).abs() < 1e-4);
    }

    /// CEMA exercise (lbf): T2 = larger of 1167.8 and 2567.7; T1 = T2 + Te = 17 165.9, Te about 14 598, Cw 0.08.
    #[test]
    fn cema_exercise() {
        let te: f64 = 17_165.9 - 2_567.7;
        assert!((slack_side_n(te, 0.08, 0.0) - 1167.8).abs() < 0.1);
        // T0 + Tb − Tyr
        let t2 = slack_side_n(te, 0.08, 0.0).max(1856.2 + 1256.0 - 544.5);
        assert!((t2 - 2567.7).abs() < 0.01 && (t2 + te - 17_165.9).abs() < 0.1);
    }

    #[test]
    fn resultants() {
        assert!((pulley_resultant_n(700.0, 500.0, std::f64::consts::PI) - 1200.0).abs() < 1e-9);
        assert!(pulley_resultant_n(700.0, 700.0, 0.0) < 1e-6);
        assert!((pulley_resultant_n(300.0, 400.0, std::f64::consts::FRAC_PI_2) - 500.0).abs() < 1e-9);
    }
}
