//! The bend-pulley question: one duty, two feet, side by side.
//!
//! In: the spec as asked and its model. Out: a [`Question`] with the spec of the counterpart; once that is built, its
//! answer sets both machines and rows of numbers side by side. Only for a foot with a bend pulley or a head pulley
//! of 2.1 m and more. The counterpart keeps duty, product, bucket, take-up travel, all that the spec says of
//! the belt, and the incoming feed; what hangs on the foot pulley is decided anew by rule. It is a sketch to decide by, not a checked design.

use crate::analysis::Results;
use crate::analysis::pit::{Pit, Uplift};
use crate::diagnostics::{Code, Diagnostic, Diagnostics, Severity, Span};
use crate::formulas::foot_heights::{LARGE, LARGE_HEAD};
use crate::formulas::quantities::CONVENTION;
use crate::machine::Machine;
use crate::model::Foot;
use crate::model::inlets::{FeedSide, InletBody};
use crate::sources::Source;
use crate::spec::reader::Leaf;
use crate::spec::{AskedSpec, Spec};
use crate::units::{Length, Unit};

/// Heights, levels, speeds and ratios of the rows.
pub const GEOMETRY: Source = Source::physics("the two models built from one spec, the feed held");
/// Speed of the bucket tips.
pub const TIP_SPEED: Source = Source::physics("turning about one centre, speeds are as radii: swept radius over the belt's neutral line");
/// Bending of the belt.
pub const FLEXING: Source = Source::physics("every pulley bends the belt once a turn; its bending strain is as thickness over diameter");

/// One of the two machines.
#[derive(Debug, Clone, PartialEq)]
pub struct Variant {
    /// Settled spec.
    pub spec: Spec,
    /// Model.
    pub foot: Foot,
    /// Results.
    pub results: Results,
    /// Its bodies.
    pub machine: Machine,
    /// Ids of the rules that fail, and of those that only warn.
    pub objections: [Vec<&'static str>; 2],
}

/// What both machines share.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Held {
    /// The level of the incoming feed, given or taken by rule.
    FeedLevel,
    /// The level of the inlet flange, because the spec gives the pit's depth.
    FlangeLevel,
}

/// Which machine the spec asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Asked {
    /// The one without a bend pulley.
    WithoutBend,
    /// The one with a bend pulley.
    WithBend,
}

/// One line of the comparison.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Stable id, e.g. `pit_depth`.
    pub id: &'static str,
    /// In plain words.
    pub name: &'static str,
    /// Metric unit. Lengths are in mm.
    pub unit: Unit,
    /// Decimals worth printing.
    pub decimals: usize,
    /// Without a bend pulley; `None` when the machine has no such thing.
    pub without_bend: Option<f64>,
    /// With a bend pulley.
    pub with_bend: Option<f64>,
    /// Where the number comes from.
    pub source: Source,
}

impl Row {
    /// What the bend pulley changes, + more; `None` unless both have a value.
    pub fn difference(&self) -> Option<f64> {
        Some(self.with_bend? - self.without_bend?)
    }
}

/// Both machines and the lines that set them side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Foot pulley like the head pulley, no bend pulley (or as large as the spec asks for).
    pub without_bend: Variant,
    /// Small foot pulley and bend pulley.
    pub with_bend: Variant,
    /// Which of them is the machine of the other sheets.
    pub asked: Asked,
    /// What is equal.
    pub held: Held,
    /// The numbers, in a fixed order.
    pub rows: Vec<Row>,
}

/// The question as it arises for one machine, before its counterpart is built.
#[derive(Debug, Clone)]
pub struct Question {
    /// What the counterpart is built from.
    pub counterpart: AskedSpec,
    asked: Asked,
    held: Held,
    /// Where the spec gives the pit's depth.
    depth_at: Span,
}

impl Question {
    /// The question for a machine; `None` when it does not arise.
    pub fn of(asked: &AskedSpec, foot: &Foot) -> Option<Self> {
        let bent = foot.pulleys.bend.is_some();
        (bent || foot.pulleys.head.diameter >= LARGE_HEAD).then(|| Self {
            counterpart: counterpart(asked, !bent),
            asked: if bent { Asked::WithBend } else { Asked::WithoutBend },
            held: if asked.pit.depth.is_absent() { Held::FeedLevel } else { Held::FlangeLevel },
            depth_at: asked.pit.depth.span().unwrap_or_default(),
        })
    }

    /// Whether the flange floor has to be brought to its level by [`Self::hold_flange`].
    pub fn holds_flange(&self) -> bool {
        self.held == Held::FlangeLevel
    }

    /// Gives the counterpart the depth that leaves the flange floor of the fed inlet on the level that it has in the
    /// machine of `spec` and `foot`; `first` is the counterpart with that machine's depth.
    pub fn hold_flange(&mut self, spec: &Spec, foot: &Foot, first: &Foot) {
        let sill = |foot: &Foot| fed(foot).map_or(0.0, |i| i.flange_sill);
        let depth = spec.pit.depth.value() + sill(first) - sill(foot);
        self.counterpart.pit.depth = Leaf::Given(Length::mm((depth.max(0.0) * 10.0).round() / 10.0), self.depth_at.clone());
    }

    /// Sets the machine and its finished counterpart side by side.
    pub fn answer(&self, own: Variant, other: Variant) -> Comparison {
        let (without_bend, with_bend) = match self.asked {
            Asked::WithBend => (other, own),
            Asked::WithoutBend => (own, other),
        };
        let rows = rows(&without_bend, &with_bend);
        Comparison { without_bend, with_bend, asked: self.asked, held: self.held, rows }
    }
}

/// Why the machine stands alone: its counterpart with or without a bend pulley cannot be built from the same spec.
pub fn none_because(why: &Diagnostics) -> Diagnostic {
    let first = why.items.iter().find(|d| d.severity == Severity::Error).or(why.items.first());
    let (message, hint, span) =
        first.map_or((String::new(), String::new(), None), |d| (d.message.clone(), d.hint.clone(), d.labels.first().map(|l| l.span.clone())));
    Diagnostic::error(
        Code::Contradiction,
        "bend_pulley.fitted",
        span,
        format!("feet with and without a bend pulley cannot be compared, the other one cannot be built: {message}"),
        if hint.is_empty() { "leave the comparison out; the machine itself is drawn".to_string() } else { format!("to compare, {hint}") },
    )
    .as_warning()
}

impl Comparison {
    /// A row by its id.
    #[cfg(test)]
    fn row(&self, id: &str) -> Option<&Row> {
        self.rows.iter().find(|r| r.id == id)
    }
}

/// The same spec with or without a bend pulley; all that hangs on the foot pulley is left to the rules.
fn counterpart(asked: &AskedSpec, bend: bool) -> AskedSpec {
    let mut other = asked.clone();
    let at = asked.bend_pulley.fitted.span().or(asked.bend_pulley.span.clone()).unwrap_or_default();
    other.bend_pulley = Default::default();
    other.bend_pulley.fitted = Leaf::Given(bend, at);
    // Wings or drum is a choice of the product, not of the size.
    other.foot_pulley = Default::default();
    other.foot_pulley.style = asked.foot_pulley.style.clone();
    other.shaft = Default::default();
    other.shaft.steel = asked.shaft.steel.clone();
    other.shaft.tapped_end = asked.shaft.tapped_end.clone();
    other.bearings.rating = Leaf::Absent;
    other.take_up.rod = Leaf::Absent;
    other.take_up.weights = Leaf::Absent;
    other.take_up.box_length = Leaf::Absent;
    other.take_up.box_width = Leaf::Absent;
    other.take_up.box_height = Leaf::Absent;
    other.casing.height = Leaf::Absent;
    other.inlet_up.sill = Leaf::Absent;
    other.inlet_down.sill = Leaf::Absent;
    for door in &mut other.doors {
        door.sill = Leaf::Absent;
        door.offset = Leaf::Absent;
    }
    // Depth and feed level follow from the held level; where both are given the depth speaks.
    if !asked.pit.depth.is_absent() {
        other.pit.feed_level = Leaf::Absent;
    }
    other
}

/// The inlet that sets the pit's depth.
pub fn fed(foot: &Foot) -> Option<&InletBody> {
    foot.inlet(FeedSide::Up).or_else(|| foot.inlet(FeedSide::Down))
}

/// A kind of line and how to read it off a machine.
struct Line {
    id: &'static str,
    name: &'static str,
    unit: Unit,
    decimals: usize,
    source: Source,
    value: fn(&Variant) -> Option<f64>,
}

fn pit(v: &Variant, value: fn(&Pit) -> f64) -> Option<f64> {
    v.results.pit.as_ref().map(value)
}

/// A factor of the pit's uplift where water reaches it.
fn uplift(v: &Variant, value: fn(&Uplift) -> f64) -> Option<f64> {
    v.results.pit.as_ref()?.uplift.as_ref().map(value).filter(|factor| factor.is_finite())
}

/// Number of pulleys round which the belt bends.
fn bends(v: &Variant) -> f64 {
    if v.foot.pulleys.bend.is_some() { 3.0 } else { 2.0 }
}

fn smallest_pulley(v: &Variant) -> f64 {
    let p = &v.foot.pulleys;
    p.bend.as_ref().map_or(f64::INFINITY, |b| b.diameter).min(p.foot.diameter).min(p.head.diameter)
}

const LINES: &[Line] = &[
    Line { id: "foot_pulley", name: "foot pulley", unit: Unit::Mm, decimals: 0, source: LARGE, value: |v| Some(v.foot.pulleys.foot.diameter) },
    Line { id: "bend_pulley", name: "bend pulley", unit: Unit::Mm, decimals: 0, source: LARGE, value: |v| v.foot.pulleys.bend.as_ref().map(|b| b.diameter) },
    Line { id: "sill", name: "sill above base", unit: Unit::Mm, decimals: 0, source: GEOMETRY, value: |v| fed(&v.foot).map(|i| i.sill) },
    Line {
        id: "sill_level",
        name: "sill level, from plant floor",
        unit: Unit::Mm,
        decimals: 0,
        source: GEOMETRY,
        value: |v| Some(v.foot.pit.as_ref()?.level(fed(&v.foot)?.sill)),
    },
    Line { id: "shaft_height", name: "foot shaft above base, lowest", unit: Unit::Mm, decimals: 0, source: GEOMETRY, value: |v| Some(v.foot.shaft_lowest) },
    Line { id: "casing_height", name: "height of the casing", unit: Unit::Mm, decimals: 0, source: GEOMETRY, value: |v| Some(v.foot.casing.top) },
    Line { id: "pit_depth", name: "pit depth", unit: Unit::Mm, decimals: 0, source: GEOMETRY, value: |v| pit(v, |p| p.depth_mm) },
    Line { id: "pit_length", name: "pit, clear length", unit: Unit::Mm, decimals: 0, source: GEOMETRY, value: |v| pit(v, |p| p.length_mm) },
    Line { id: "pit_width", name: "pit, clear width", unit: Unit::Mm, decimals: 0, source: GEOMETRY, value: |v| pit(v, |p| p.width_mm) },
    Line { id: "concrete", name: "concrete", unit: Unit::M3, decimals: 1, source: CONVENTION, value: |v| pit(v, |p| p.concrete_m3) },
    Line { id: "formwork", name: "formwork", unit: Unit::M2, decimals: 1, source: CONVENTION, value: |v| pit(v, |p| p.formwork_m2) },
    Line { id: "excavation", name: "excavation, bank volume", unit: Unit::M3, decimals: 1, source: CONVENTION, value: |v| pit(v, |p| p.excavation_m3) },
    Line {
        id: "head_wrap",
        name: "wrap on the head pulley",
        unit: Unit::Degree,
        decimals: 1,
        source: GEOMETRY,
        value: |v| Some(v.results.path.middle.head_wrap_deg),
    },
    Line {
        id: "foot_wrap",
        name: "wrap on the foot pulley",
        unit: Unit::Degree,
        decimals: 1,
        source: GEOMETRY,
        value: |v| Some(v.results.path.middle.foot_wrap_deg),
    },
    Line {
        id: "bend_wrap",
        name: "wrap on the bend pulley",
        unit: Unit::Degree,
        decimals: 1,
        source: GEOMETRY,
        value: |v| v.results.bend.as_ref().map(|b| b.wrap_deg[1]),
    },
    Line {
        id: "foot_rpm",
        name: "foot shaft speed",
        unit: Unit::PerMin,
        decimals: 1,
        source: crate::formulas::speed::SHAFT_SPEED,
        value: |v| Some(v.results.motion.foot_rpm),
    },
    Line {
        id: "belt_speed_ratio",
        name: "foot shaft speed over head shaft speed",
        unit: Unit::One,
        decimals: 2,
        source: crate::formulas::speed::SHAFT_SPEED,
        value: |v| Some((v.foot.pulleys.head.diameter + v.foot.belt.thickness) / (v.foot.pulleys.foot.diameter + v.foot.belt.thickness)),
    },
    Line {
        id: "belt_strength",
        name: "belt, allowed tension per width",
        unit: Unit::NPerMm,
        decimals: 0,
        source: crate::formulas::tension::CHAIN,
        value: |v| Some(v.spec.belt.strength.value()),
    },
    Line { id: "bends", name: "bends of the belt in one turn", unit: Unit::One, decimals: 0, source: FLEXING, value: |v| Some(bends(v)) },
    Line {
        id: "bends_per_hour",
        name: "bends of the belt in an hour",
        unit: Unit::PerH,
        decimals: 0,
        source: FLEXING,
        value: |v| Some(bends(v) * v.spec.duty.belt_speed.value() * 3.6e6 / v.results.path.middle.length_mm),
    },
    Line {
        id: "bend_ratio",
        name: "smallest pulley over belt thickness",
        unit: Unit::One,
        decimals: 0,
        source: FLEXING,
        value: |v| Some(smallest_pulley(v) / v.foot.belt.thickness),
    },
    Line {
        id: "tip_speed",
        name: "bucket tips round the foot over belt speed",
        unit: Unit::One,
        decimals: 2,
        source: TIP_SPEED,
        value: |v| Some(v.foot.tip_radius / (v.foot.pulleys.foot.radius() + v.foot.belt.thickness / 2.0)),
    },
    Line {
        id: "bearing_load",
        name: "load on each foot bearing",
        unit: Unit::Kn,
        decimals: 1,
        source: crate::formulas::shaft::BEAM,
        value: |v| Some(v.results.bearing.load_n / 1000.0),
    },
    Line {
        id: "bearing_life",
        name: "life L10h of the foot bearings",
        unit: Unit::H,
        decimals: 0,
        source: crate::formulas::bearing_life::LIFE,
        value: |v| Some(v.results.bearing.life_h),
    },
    Line {
        id: "shaft",
        name: "foot shaft",
        unit: Unit::Mm,
        decimals: 0,
        source: crate::formulas::shaft::BEAM,
        value: |v| Some(v.foot.rotating.shaft_diameter),
    },
    Line {
        id: "foot_mass",
        name: "mass of the foot, without belt",
        unit: Unit::Kg,
        decimals: 0,
        source: crate::analysis::masses::PARTS,
        value: |v| Some(v.results.masses.foot_empty_kg),
    },
    Line {
        id: "bend_mass",
        name: "of which bend pulley, its shaft and two bearings",
        unit: Unit::Kg,
        decimals: 0,
        source: crate::analysis::masses::PARTS,
        value: |v| v.foot.pulleys.bend.as_ref().map(|_| v.results.masses.bend_pulley_set.kg),
    },
    Line {
        id: "hook_mass",
        name: "foot on the hook of a crane",
        unit: Unit::Kg,
        decimals: 0,
        source: crate::analysis::masses::PARTS,
        value: |v| Some(v.results.lifting.lifted.kg),
    },
    Line {
        id: "pulley_mass",
        name: "foot pulley on the hoist",
        unit: Unit::Kg,
        decimals: 0,
        source: crate::analysis::masses::PARTS,
        value: |v| Some(v.results.masses.foot_pulley_kg),
    },
    Line {
        id: "dredging_power",
        name: "power for dredging",
        unit: Unit::Kw,
        decimals: 1,
        source: crate::formulas::power::DREDGING,
        value: |v| Some(v.results.power.dredging_force_n * v.spec.duty.belt_speed.value() / 1000.0),
    },
    Line {
        id: "time_to_plug",
        name: "time to plug",
        unit: Unit::S,
        decimals: 1,
        source: crate::formulas::plugging::TIME_TO_PLUG,
        value: |v| v.results.plugging.time_s,
    },
    Line {
        id: "largest_pad",
        name: "largest vertical on one pad",
        unit: Unit::KnOnBuilding,
        decimals: 1,
        source: crate::analysis::actions::PADS,
        value: |v| Some(v.results.loads.largest_pad_kn),
    },
    Line {
        id: "largest_uplift",
        name: "largest lift on one pad",
        unit: Unit::KnOnBuilding,
        decimals: 1,
        source: crate::analysis::actions::PADS,
        value: |v| Some(v.results.loads.largest_uplift_kn),
    },
    Line {
        id: "uplift_factor",
        name: "concrete and soil over uplift",
        unit: Unit::One,
        decimals: 2,
        source: crate::formulas::uplift::UPLIFT,
        value: |v| uplift(v, Uplift::factor),
    },
    Line {
        id: "uplift_factor_blocked",
        name: "concrete and soil over uplift and pull of belts, one foot blocked",
        unit: Unit::One,
        decimals: 2,
        source: crate::formulas::uplift::UPLIFT,
        value: |v| uplift(v, Uplift::factor_blocked),
    },
    Line {
        id: "travel_needed",
        name: "take-up travel needed",
        unit: Unit::Mm,
        decimals: 0,
        source: crate::formulas::stretch::TRAVEL,
        value: |v| Some(v.results.stretch.travel_needed_mm),
    },
];

fn rows(without: &Variant, with: &Variant) -> Vec<Row> {
    LINES
        .iter()
        .map(|l| Row {
            id: l.id,
            name: l.name,
            unit: l.unit,
            decimals: l.decimals,
            without_bend: (l.value)(without),
            with_bend: (l.value)(with),
            source: l.source,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Job;

    const TALL: &str = include_str!("../templates/tall_bend.toml");

    fn compared(text: &str) -> Option<Comparison> {
        let job = Job::of(text).unwrap();
        assert!(!job.warnings().items.iter().any(|d| d.path == "bend_pulley.fitted"), "{:#?}", job.warnings());
        job.comparison().cloned()
    }

    fn at(c: &Comparison, id: &str) -> (f64, f64) {
        let r = c.row(id).unwrap();
        (r.without_bend.unwrap(), r.with_bend.unwrap())
    }

    #[test]
    fn ids_are_unique_and_values_finite() {
        let c = compared(TALL).unwrap();
        for (i, r) in c.rows.iter().enumerate() {
            assert!(c.rows.iter().skip(i + 1).all(|o| o.id != r.id), "{} twice", r.id);
            assert!([r.without_bend, r.with_bend].into_iter().flatten().all(f64::is_finite), "{}", r.id);
            assert!(r.with_bend.is_some(), "{}", r.id);
        }
    }

    /// The asked machine is taken as it is; duty and feed are the same in both.
    #[test]
    fn only_what_hangs_on_the_foot_pulley_differs() {
        let c = compared(TALL).unwrap();
        assert_eq!((c.asked, c.held), (Asked::WithBend, Held::FeedLevel));
        let (a, b) = (&c.without_bend.spec, &c.with_bend.spec);
        assert_eq!((&a.duty, &a.bucket, &a.head_pulley), (&b.duty, &b.bucket, &b.head_pulley));
        // Left out, the belt's class follows from its pull in each machine (take-up force and dredging depend on the
        // foot pulley), so that each carries the belt it would be built with; the row of the table says which.
        assert_eq!((*a.belt.width, *a.belt.thickness), (*b.belt.width, *b.belt.thickness));
        assert_eq!(at(&c, "belt_strength"), (a.belt.strength.value(), b.belt.strength.value()));
        let given = compared(&TALL.replace("carcass   = \"steel cord\"", "carcass   = \"steel cord\"\nstrength = \"800 N/mm\"")).unwrap();
        assert_eq!(at(&given, "belt_strength"), (800.0, 800.0));
        assert_eq!(a.pit.feed_level, b.pit.feed_level);
        assert_eq!(a.take_up.travel, b.take_up.travel);
        assert_eq!(a.foot_pulley.diameter.value(), b.head_pulley.diameter.value());
        assert!(c.without_bend.foot.pulleys.bend.is_none() && c.with_bend.foot.pulleys.bend.is_some());
        // The same feed: the sills lie on one level but for the rounding of the depth to the next 50 mm.
        let (low, high) = at(&c, "sill_level");
        assert!((low - high).abs() <= 50.0, "{low} {high}");
    }

    /// Wraps of a closed belt round inside pulleys add to 360°; parallel runs wrap 180° each.
    #[test]
    fn identities() {
        let c = compared(TALL).unwrap();
        let (head, foot) = (at(&c, "head_wrap"), at(&c, "foot_wrap"));
        assert!((head.0 - 180.0).abs() < 0.01 && (foot.0 - 180.0).abs() < 0.01, "{head:?} {foot:?}");
        let bend = c.row("bend_wrap").unwrap().with_bend.unwrap();
        assert!((head.1 + foot.1 + bend - 360.0).abs() < 1e-6);
        // Speed times neutral circumference is the belt speed in both.
        let v = c.with_bend.spec.duty.belt_speed.value();
        let t = c.with_bend.foot.belt.thickness;
        let (rpm, d) = (at(&c, "foot_rpm"), at(&c, "foot_pulley"));
        for (n, d) in [(rpm.0, d.0), (rpm.1, d.1)] {
            assert!((n / 60.0 * std::f64::consts::PI * (d + t) / 1000.0 - v).abs() < 1e-6);
        }
        // Tips at a corner of projection and half height about a smaller pulley run ahead of the belt more.
        let tips = at(&c, "tip_speed");
        assert!(1.0 < tips.0 && tips.0 < tips.1);
        let depth = c.row("pit_depth").unwrap();
        assert_eq!(depth.difference(), Some(depth.with_bend.unwrap() - depth.without_bend.unwrap()));
    }

    /// The starter: half a metre less pit, less of everything in the ground, more bends.
    #[test]
    fn tall_starter() {
        let c = compared(TALL).unwrap();
        for id in ["sill", "pit_depth", "concrete", "formwork", "excavation", "shaft_height"] {
            let (without, with) = at(&c, id);
            assert!(with < without, "{id}: {with} with, {without} without");
        }
        let (without, with) = at(&c, "pit_depth");
        // Half the difference of the pulleys, 450 mm, but for the rounding to 50 mm and the bucket's corner.
        assert!((without - with - 450.0).abs() <= 60.0, "{without} {with}");
        assert_eq!(at(&c, "bends"), (2.0, 3.0));
        assert!(c.row("bend_pulley").unwrap().without_bend.is_none());
    }

    /// From the other side: a big foot pulley asked for, the bend pulley is the counterpart.
    #[test]
    fn a_large_foot_pulley_asks_too() {
        let text =
            TALL.replace("fitted = true", "fitted = false").replace("angle  = \"25 deg\"", "").replace("diameter = \"1300 mm\"", "diameter = \"2200 mm\"");
        let c = compared(&text).unwrap();
        assert_eq!(c.asked, Asked::WithoutBend);
        assert!(at(&c, "pit_depth").1 < at(&c, "pit_depth").0);
        assert!(compared(include_str!("../templates/grain_intake.toml")).is_none());
    }

    /// With the depth given the flange floors lie on one level exactly.
    #[test]
    fn a_given_depth_holds_the_flange() {
        let text = TALL.replace("feed_level    = \"300 mm\"", "depth = \"2500 mm\"");
        let c = compared(&text).unwrap();
        assert_eq!(c.held, Held::FlangeLevel);
        let level = |v: &Variant| v.foot.pit.as_ref().unwrap().level(fed(&v.foot).unwrap().flange_sill);
        assert!((level(&c.without_bend) - level(&c.with_bend)).abs() <= 0.1);
        assert_eq!(c.with_bend.spec.pit.depth.value(), 2500.0);
    }
}
