//! The gravity take-up: mass wanted in the boxes, whether it fits, what friction in the guides leaves and adds, what its stop catches.
//!
//! In: belt pull needed at the foot, masses that hang on the shaft, boxes, guides, stop. Out: only for a gravity take-up. The guides
//! are pressed by what hangs beside the bearings; friction acts against the motion, so the belt's pull lies in a band.

use super::assumed::{RARE_RESERVE, STEEL_DENSITY};
use super::cases::Cases;
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity, guides};
use crate::formulas::gravity_take_up::{
    BOXES, CATCH, GUIDE_FRICTION, GUIDED, MASS, PACKED, PACKED_KG_PER_M3, PRESSED, RING, belt_pull_up_n, filling_height_mm, mass_with_friction_kg, volume_mm3,
};
use crate::formulas::screw::core_stress_mpa;
use crate::formulas::strength::{BENDING, IN_HAND, SEAM, SEAM_STRENGTH};
use crate::model::Foot;
use crate::model::rotating::{Held, Weights};
use crate::say;
use crate::spec::Spec;
use crate::tables::power_threads;
use crate::units::{GRAVITY, Unit};

/// The gravity take-up in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gravity {
    /// Belt pull up on the foot shaft that is needed, N.
    pub pull_needed_n: f64,
    /// Mass that hangs on the shaft without weights, kg.
    pub own_kg: f64,
    /// Mass of weights needed, kg; negative: what hangs already pulls harder than needed.
    pub needed_kg: f64,
    /// Mass of weights given, kg.
    pub given_kg: f64,
    /// Volume of the given weights, l.
    pub volume_l: f64,
    /// Volume of both boxes, l.
    pub box_l: f64,
    /// Height that the given weights take in the boxes, half of them in each, mm.
    pub filling_height_mm: f64,
    /// Clear height of a box, mm.
    pub box_height_mm: f64,
    /// Height that the needed weights would take, mm.
    pub needed_height_mm: f64,
    /// Length over which a sliding plate is guided at least, mm.
    pub guided_mm: f64,
    /// Distance between the guides of a side, mm.
    pub apart_mm: f64,
    /// Friction of both sides in their guides, N.
    pub friction_n: f64,
    /// Belt pull up on the foot shaft while the take-up goes down and while it is pulled up, N.
    pub band_n: [f64; 2],
    /// Tension in the down run at the foot in both, N.
    pub tension_n: [f64; 2],
    /// What the stops bear.
    pub stop: Stopped,
}

/// What the stop of a side bears.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stopped {
    /// What hangs on a side, N.
    pub weight_n: f64,
    /// Force with which the stop catches it when the belt parts, N.
    pub caught_n: f64,
    /// Force of a side when the foot blocks and the belt pulls it up against the bracket, N.
    pub blocked_n: f64,
    /// Share of its thickness by which the ring is pressed.
    pub pressed: f64,
    /// Stress in the core of the rod, MPa; `None` for a thread that the tables do not know.
    pub rod_mpa: Option<f64>,
    /// What may be, MPa.
    pub rod_limit_mpa: f64,
    /// Stress in what holds the rod, in the order of [`Held::ALL`], and what may be, MPa.
    pub held_mpa: [[f64; 2]; 5],
}

impl Stopped {
    /// The larger of both forces, N.
    pub const fn largest_n(&self) -> f64 {
        self.caught_n.max(self.blocked_n)
    }

    fn compute(spec: &Spec, foot: &Foot, cases: &Cases, hanging_kg: f64, weights_kg: f64) -> Self {
        let holder = &foot.rotating.holder;
        let weight_n = (hanging_kg + weights_kg) * GRAVITY / 2.0;
        let (caught_n, pressed) = holder.stop.map_or((weight_n, 0.0), |s| (s.catch(weight_n), s.pressed(weight_n)));
        // Of the side's share the weights have not been taken off.
        let blocked_n = (cases.blocked_empty().rod_n - weights_kg * GRAVITY / 2.0).max(0.0);
        let force = caught_n.max(blocked_n);
        Self {
            weight_n,
            caught_n,
            blocked_n,
            pressed,
            rod_mpa: power_threads::find(&spec.take_up.rod.value).map(|row| core_stress_mpa(force, row.root_mm())),
            rod_limit_mpa: spec.take_up.rod_yield.value() / RARE_RESERVE.value,
            held_mpa: Held::ALL.map(|held| [holder.mpa(held, force), held.strength_mpa() / RARE_RESERVE.value]),
        }
    }
}

impl Gravity {
    /// Computes it; `None` for a screw take-up.
    pub fn compute(spec: &Spec, foot: &Foot, path: &Path, (tension, cases, dredging_n): (&Tension, &Cases, f64), masses: &Masses) -> Option<Self> {
        let r = &foot.rotating;
        let own = r.weight_box.as_ref()?;
        let clear = own.clear();
        let [length, width, height] = clear;
        let lean = path.middle.foot_run_deg.to_radians();
        let pull_needed_n = belt_pull_up_n(tension.chain.foot_up_n, tension.chain.foot_down_n, lean);
        let given_kg = spec.take_up.weights.value();
        let share = guides::share(spec, foot);
        let needed_kg = mass_with_friction_kg(pull_needed_n, masses.hanging_kg, masses.boxes_kg, share);
        let high = |kg: f64| {
            let packed = filling_height_mm(kg.max(0.0) / BOXES, PACKED_KG_PER_M3, length, width);
            Weights::of(kg / BOXES, clear, spec.stock()).map_or(packed, |w| w.height())
        };
        let band_n = guides::band(spec, foot, masses)?;
        Some(Self {
            pull_needed_n,
            own_kg: masses.hanging_kg,
            needed_kg,
            given_kg,
            volume_l: volume_mm3(given_kg, STEEL_DENSITY.value) / 1e6,
            box_l: BOXES * length * width * height / 1e6,
            filling_height_mm: high(given_kg),
            box_height_mm: height,
            needed_height_mm: high(needed_kg),
            guided_mm: r.guides.guided(&r.sliding_plate, r.travel),
            apart_mm: r.guides.apart(),
            friction_n: share * (given_kg + masses.boxes_kg) * GRAVITY,
            tension_n: band_n.map(|pull| ((pull - dredging_n) / (1.0 + lean.cos())).max(0.0)),
            band_n,
            stop: Stopped::compute(spec, foot, cases, masses.hanging_kg, given_kg),
        })
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("gravity", out);
        const BOX: &[&str] = &["take_up.box_length", "take_up.box_width", "take_up.box_height"];
        g.put(
            "pull_needed",
            "belt pull up on the foot shaft that is needed",
            self.pull_needed_n,
            Unit::N,
            &["tension.foot_needed", "power.dredging_force"],
            MASS,
        );
        g.put("own_mass", "mass that hangs on the shaft without weights", self.own_kg, Unit::Kg, &["masses.hanging"], MASS);
        let needed = ["gravity.pull_needed", "gravity.own_mass", "gravity.friction"];
        g.put("mass_needed", "weights needed against friction in the guides; negative: none", self.needed_kg, Unit::Kg, &needed, GUIDE_FRICTION);
        g.put("mass_given", "weights given", self.given_kg, Unit::Kg, &["take_up.weights"], MASS);
        g.put("volume", "volume of the weights given", self.volume_l, Unit::L, &["take_up.weights", "assumed.steel_density"], MASS);
        g.put("box_volume", "volume of both weight boxes", self.box_l, Unit::L, BOX, MASS);
        let laid = ["take_up.weights", "take_up.box_length", "take_up.box_width"];
        g.put("filling_height", "height that the weights given take in the boxes", self.filling_height_mm, Unit::Mm, &laid, PACKED);
        let laid = ["gravity.mass_needed", "take_up.box_length", "take_up.box_width"];
        g.put("needed_height", "height that the weights needed would take", self.needed_height_mm, Unit::Mm, &laid, PACKED);
        self.record_guides(&mut g);
        self.stop.record(&mut g);
    }

    fn record_guides(&self, g: &mut Group<'_>) {
        const HELD_BACK: &[&str] = &["take_up.weights", "take_up.guide_friction", "gravity.guided", "take_up.box_width", "assumed.off_middle"];
        g.put("guided", "length over which a sliding plate is guided at least", self.guided_mm, Unit::Mm, &["take_up.travel"], GUIDED);
        g.put("guides_apart", "distance between the guides of a side", self.apart_mm, Unit::Mm, &["bearings.kind", "shaft.journal"], GUIDED);
        g.put("friction", "friction of both sides in their guides", self.friction_n, Unit::N, HELD_BACK, GUIDE_FRICTION);
        let [low, high] = self.band_n;
        let from = ["gravity.own_mass", "take_up.weights", "gravity.friction"];
        g.put("pull_low", "belt pull up on the foot shaft while the take-up goes down", low, Unit::N, &from, GUIDE_FRICTION);
        g.put("pull_high", "belt pull up on the foot shaft while the take-up is pulled up", high, Unit::N, &from, GUIDE_FRICTION);
        let [low, high] = self.tension_n;
        g.put("tension_low", "down run at the foot while the take-up goes down", low, Unit::N, &["gravity.pull_low", "power.dredging_force"], GUIDE_FRICTION);
        g.put(
            "tension_high",
            "down run at the foot while the take-up is pulled up",
            high,
            Unit::N,
            &["gravity.pull_high", "power.dredging_force"],
            GUIDE_FRICTION,
        );
    }
}

impl Stopped {
    fn record(&self, g: &mut Group<'_>) {
        const FALL: &[&str] = &["gravity.stop_weight", "take_up.stop_gap", "take_up.buffer", "assumed.buffer_modulus"];
        const FORCE: &[&str] = &["gravity.stop_caught", "gravity.stop_blocked"];
        g.put("stop_weight", "what hangs on a side", self.weight_n, Unit::N, &["gravity.own_mass", "take_up.weights"], MASS);
        g.put("stop_caught", "force with which the stop of a side catches it when the belt parts", self.caught_n, Unit::N, FALL, CATCH);
        g.put(
            "stop_blocked",
            "force of a side on its bracket when the foot blocks and the belt pulls the take-up up",
            self.blocked_n,
            Unit::N,
            &["cases.blocked_empty.side", "take_up.weights"],
            CATCH,
        );
        g.put("stop_pressed", "buffer ring pressed, share of its thickness", self.pressed, Unit::One, FALL, RING);
        if let Some(mpa) = self.rod_mpa {
            g.put("stop_rod", "stress in the core of the stop's rod", mpa, Unit::Mpa, &[FORCE, &["take_up.rod"]].concat(), PRESSED);
            g.put("stop_rod_allowed", "allowed in the stop's rod", self.rod_limit_mpa, Unit::Mpa, &["take_up.rod_yield", "assumed.rare_reserve"], IN_HAND);
        }
        for (held, [mpa, limit]) in Held::ALL.iter().zip(self.held_mpa) {
            let (id, name, key, source) = match held {
                Held::Lug => ("lug", "lug at its root", "take_up.lug", BENDING),
                Held::LugSeam => ("lug_seam", "seam of the lug", "take_up.lug", SEAM),
                Held::Shelf => ("shelf", "shelf between its gussets", "take_up.shelf", BENDING),
                Held::Gusset => ("gusset", "gussets at the wall", "take_up.gusset", SEAM),
                Held::BracketSeam => ("bracket_seam", "seam of the bracket", "take_up.gusset", SEAM),
            };
            let inputs = [FORCE, &[key, "casing.plate"]].concat();
            g.put(&format!("stop_{id}"), say!("stress under the stop, {part}", part = name), mpa, Unit::Mpa, &inputs, source);
            g.put(
                &format!("stop_{id}_allowed"),
                say!("allowed under the stop, {part}", part = name),
                limit,
                Unit::Mpa,
                &["assumed.rare_reserve"],
                SEAM_STRENGTH,
            );
        }
    }
}
