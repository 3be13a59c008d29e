//! The take-up screws: load, stress, thread pressure, buckling, torque.
//!
//! In: belt pull on the foot shaft, masses that slide with it, rod. Out: only for a screw take-up whose
//! thread the tables know. One rod each side; while one is turned alone it carries more than its half.

use super::assumed::{LASTING_RESERVE, NUT_LENGTH, RARE_RESERVE, STEEL_MODULUS, UNEVEN_RODS};
use super::cases::{Cases, ROD_LOAD, Worst, rod_of};
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::gravity_take_up::belt_pull_up_n;
use crate::formulas::screw::{self, COLUMN, Ends, PRESSURE, Screw as Thread, TORQUE, TURNED_SAFETY};
use crate::formulas::strength::{BENDING, IN_HAND, SEAM, SEAM_STRENGTH};
use crate::model::Foot;
use crate::model::rotating::Held;
use crate::say;
use crate::spec::Spec;
use crate::spec::rotating::RodAction;
use crate::units::{GRAVITY, Unit};

/// One take-up screw in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    /// Belt pull up on the foot shaft, N.
    pub belt_pull_n: f64,
    /// Weight of what slides, N.
    pub sliding_weight_n: f64,
    /// Load of one rod, N.
    pub rod_n: f64,
    /// Normal stress in the core, MPa.
    pub stress_mpa: f64,
    /// Equivalent stress with the torque of turning, MPa.
    pub equivalent_mpa: f64,
    /// Yield strength of the rod over the equivalent stress.
    pub yield_safety: f64,
    /// Load case that takes most of what the core may bear, MPa: half the yield strength while it is turned as it should be, the yield
    /// strength with a reserve in rare cases, turned too hard among them.
    pub worst: Worst,
    /// Pressure on the flanks, MPa.
    pub pressure_mpa: f64,
    /// Torque to turn one rod, tightening or with a slack belt, N·m.
    pub torque_nm: f64,
    /// Torque to tighten one rod turned alone, against the belt's pull less what slides, N·m; 0 where that is heavier.
    pub tighten_nm: f64,
    /// Whether the thread holds by itself.
    pub self_locking: bool,
    /// Largest free length, mm.
    pub free_length_mm: f64,
    /// Critical load of a pushed rod, N; `None` for a pulled one.
    pub critical_n: Option<f64>,
    /// Load case that presses the rod most, and the critical load of a pushed rod, N; `None` for a pulled one.
    pub worst_buckling: Option<Worst>,
    /// Critical load over the rod's load in that case; `None` for a pulled one.
    pub buckling_safety: Option<f64>,
    /// What holds the rod, in the order of [`Held::ALL`]: worst load case, stress and what may be, MPa.
    pub held: [Worst; 5],
}

impl Screw {
    /// Computes it; `None` for a gravity take-up or an unknown thread.
    pub fn compute(spec: &Spec, foot: &Foot, path: &Path, (tension, cases): (&Tension, &Cases), masses: &Masses) -> Option<Self> {
        let (row, thread) = rod_of(&spec.take_up)?;
        let lean = path.middle.foot_run_deg.to_radians();
        let belt_pull_n = belt_pull_up_n(tension.foot_up_n, tension.foot_down_n, lean);
        let sliding_weight_n = masses.hanging_kg * GRAVITY;
        let rod_n = (belt_pull_n - sliding_weight_n).abs().max(sliding_weight_n) / 2.0 * UNEVEN_RODS.value;
        let torque_nmm = thread.raise_nmm(rod_n);
        let stress_mpa = screw::core_stress_mpa(rod_n, row.root_mm());
        let turned = |thread: Thread, force: f64| thread.turned_mpa(force, row.root_mm());
        let equivalent_mpa = turned(thread, rod_n);
        let free_length_mm = foot.rotating.rod_length;
        let critical_n = (spec.take_up.action.value == RodAction::Push)
            .then(|| screw::critical_load_n(row.root_mm(), free_length_mm, Ends::PinnedPinned.design(), STEEL_MODULUS.value, spec.take_up.rod_yield.value()));
        let strong = spec.take_up.rod_yield.value();
        let core = |force: f64| screw::core_stress_mpa(force, row.root_mm());
        let worst = cases.worst(|c| match c.rare {
            true if c.overtightened() => (turned(thread.greased(), c.rod_n), strong / RARE_RESERVE.value),
            true => (core(c.rod_n), strong / RARE_RESERVE.value),
            false => (turned(thread, c.rod_n), strong / TURNED_SAFETY),
        });
        let worst_buckling = critical_n.map(|critical| cases.worst(|c| (c.rod_n, critical)));
        let hand = |rare: bool| if rare { RARE_RESERVE.value } else { LASTING_RESERVE.value };
        let holder = &foot.rotating.holder;
        let held = Held::ALL.map(|held| cases.worst(|c| (holder.mpa(held, c.rod_n), held.strength_mpa() / hand(c.rare))));
        Some(Self {
            worst,
            worst_buckling,
            held,
            belt_pull_n,
            sliding_weight_n,
            rod_n,
            stress_mpa,
            equivalent_mpa,
            yield_safety: spec.take_up.rod_yield.value() / equivalent_mpa,
            pressure_mpa: screw::thread_pressure_mpa(rod_n, row.pitch_diameter_mm(), row.flank_height_mm(), row.pitch_mm, NUT_LENGTH.value * row.diameter_mm),
            torque_nm: torque_nmm / 1000.0,
            tighten_nm: thread.raise_nmm((belt_pull_n - sliding_weight_n).max(0.0) / 2.0 * UNEVEN_RODS.value) / 1000.0,
            self_locking: Thread { collar_friction: 0.0, ..thread }.self_locking(),
            free_length_mm,
            critical_n,
            buckling_safety: worst_buckling.map(|w| w.limit / w.value),
        })
    }

    fn record_worst(&self, g: &mut Group<'_>) {
        const SIDES: &[&str] = &["cases.full.side", "cases.blocked_empty.side", "cases.overtightened.side"];
        let w = &self.worst;
        if let Some(b) = &self.worst_buckling {
            g.put("worst_load", say!("largest load of one rod: {case}", case = b.case.name), b.value, Unit::N, SIDES, ROD_LOAD);
        }
        let from = &["cases.full.side", "cases.blocked_empty.side", "cases.overtightened.side", "take_up.rod", "take_up.rod_yield", "assumed.rare_reserve"];
        g.put("worst_stress", say!("stress in the core in the worst case: {case}", case = w.case.name), w.value, Unit::Mpa, from, TORQUE);
        g.put("worst_allowed", say!("allowed then: {case}", case = w.case.name), w.limit, Unit::Mpa, from, IN_HAND);
        for (held, worst) in Held::ALL.iter().zip(&self.held) {
            let (id, name, key, source) = match held {
                Held::Lug => ("lug", "lug at its root", "take_up.lug", BENDING),
                Held::LugSeam => ("lug_seam", "seam of the lug", "take_up.lug", SEAM),
                Held::Shelf => ("shelf", "shelf between its gussets", "take_up.shelf", BENDING),
                Held::Gusset => ("gusset", "gussets at the wall", "take_up.gusset", SEAM),
                Held::BracketSeam => ("bracket_seam", "seam of the bracket", "take_up.gusset", SEAM),
            };
            let inputs = ["cases.full.side", "cases.blocked_empty.side", "cases.overtightened.side", "take_up.rod", key, "casing.plate"];
            g.put(id, say!("stress, {part}: {case}", part = name, case = worst.case.name), worst.value, Unit::Mpa, &inputs, source);
            g.put(
                &format!("{id}_allowed"),
                say!("allowed, {part}: {case}", part = name, case = worst.case.name),
                worst.limit,
                Unit::Mpa,
                &inputs,
                SEAM_STRENGTH,
            );
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("screw", out);
        g.put(
            "belt_pull",
            "belt pull up on the foot shaft",
            self.belt_pull_n,
            Unit::N,
            &["tension.foot_up", "tension.foot_down", "path.foot_run_middle"],
            ROD_LOAD,
        );
        g.put("sliding_weight", "weight of what slides", self.sliding_weight_n, Unit::N, &["masses.hanging"], ROD_LOAD);
        g.put("rod_load", "load of one rod", self.rod_n, Unit::N, &["screw.belt_pull", "screw.sliding_weight", "assumed.uneven_rods"], ROD_LOAD);
        g.put("stress", "normal stress in the core", self.stress_mpa, Unit::Mpa, &["screw.rod_load", "take_up.rod"], TORQUE);
        g.put("equivalent", "equivalent stress while turning", self.equivalent_mpa, Unit::Mpa, &["screw.stress", "screw.torque"], TORQUE);
        g.put("yield_safety", "yield strength over equivalent stress", self.yield_safety, Unit::One, &["take_up.rod_yield", "screw.equivalent"], TORQUE);
        g.put("pressure", "pressure on the flanks", self.pressure_mpa, Unit::Mpa, &["screw.rod_load", "take_up.rod", "assumed.nut_length"], PRESSURE);
        g.put(
            "tighten",
            "torque to tighten one rod against the belt, less what slides",
            self.tighten_nm,
            Unit::Nm,
            &["screw.belt_pull", "screw.sliding_weight", "take_up.rod", "take_up.friction"],
            TORQUE,
        );
        g.put(
            "torque",
            "torque to turn one rod, tightening or with a slack belt",
            self.torque_nm,
            Unit::Nm,
            &["screw.rod_load", "take_up.rod", "take_up.friction"],
            TORQUE,
        );
        g.put("free_length", "largest free length", self.free_length_mm, Unit::Mm, &["take_up.travel"], COLUMN);
        if let (Some(critical), Some(safety)) = (self.critical_n, self.buckling_safety) {
            g.put("critical", "critical load", critical, Unit::N, &["take_up.rod", "screw.free_length", "take_up.rod_yield"], COLUMN);
            g.put(
                "buckling_safety",
                "critical load over the largest rod load of all load cases",
                safety,
                Unit::One,
                &["screw.critical", "screw.worst_load"],
                COLUMN,
            );
        }
        self.record_worst(&mut g);
    }
}
