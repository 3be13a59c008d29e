//! What a bucket can hold against height in the foot, and what a low sill costs.
//!
//! In: the bucket's section, foot pulley, belt speed, product, sill. Out: the share of the water-level
//! fill that can stay, without friction and with the product's internal friction, from the bottom of
//! the pulley to above the shaft; the same at the up-side sill; the capacity lost there: at most, if all product enters at the
//! sill, and as the best estimate, with the product spread over the opening's height.

use super::capacity::Capacity;
use super::discharge::section_of;
use super::{Group, Quantity};
use crate::formulas::filling::{self, FILLING};
use crate::formulas::pole;
use crate::formulas::retained_fill::{BucketSection, RETAINED_FILL, Retained as Point, Wheel, retained_curve, retained_share_at_height};
use crate::model::Foot;
use crate::model::inlets::FeedSide;
use crate::say::Statement;
use crate::sources::Source;
use crate::spec::Spec;
use crate::units::Unit;

/// Capacity lost at a low sill.
pub const LOW_SILL: Source = Source::physics("buckets that pass the sill on the pulley carry at most what they can hold there: min(fill, retained share)");

/// Points of the curve on the pulley: every 5°; the surface is costly to find and the curve is smooth.
const STEPS: usize = 18;

/// Retained fill where the up-side sill stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtSill {
    /// Sill above the foot shaft, mm; negative below it.
    pub above_shaft_mm: f64,
    /// Share of the water-level fill that can stay, with the product's friction.
    pub share: f64,
    /// The same without friction.
    pub frictionless_share: f64,
    /// Capacity with what stays of a stream spread over the opening's height, t/h.
    pub capacity_t_per_h: f64,
    /// Capacity lost against the rated one then, the best estimate, t/h.
    pub lost_t_per_h: f64,
    /// Capacity lost at most: if everything enters at the sill, t/h.
    pub most_lost_t_per_h: f64,
}

/// Retained fill.
#[derive(Debug, Clone, PartialEq)]
pub struct Retained {
    /// Area of the water-level fill, mm²; 0 when the section holds nothing.
    pub water_level_area_mm2: f64,
    /// Volume of the section at water level times the bucket's length, l: to compare with `bucket.volume`.
    pub section_volume_l: f64,
    /// At the up-side sill, take-up at its lowest; `None` without an up-side inlet.
    pub sill_lowest: Option<AtSill>,
    /// The same at its highest.
    pub sill_highest: Option<AtSill>,
    solver: Option<Solver>,
}

#[derive(Debug, Clone, PartialEq)]
struct Solver {
    section: BucketSection,
    wheel: Wheel,
    friction_rad: f64,
    /// Height above the shaft up to which the curves are drawn, mm.
    top_mm: f64,
}

/// Retained fill against height, from the bottom of the pulley upward; empty when the section holds nothing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Curves {
    /// Without friction.
    pub frictionless: Vec<Point>,
    /// With the product's angle of internal friction.
    pub with_friction: Vec<Point>,
}

impl Retained {
    /// Computes the values at the sill.
    pub fn compute(spec: &Spec, foot: &Foot, capacity: &Capacity) -> Self {
        let radius_mm = foot.pulleys.foot.radius() + foot.belt.thickness;
        let omega_rad_per_s = pole::omega_rad_per_s(spec.duty.belt_speed.value(), foot.pulleys.foot.radius() + foot.belt.thickness / 2.0);
        let solver = section_of(foot).map(|section| Solver {
            section,
            wheel: Wheel { radius_mm, omega_rad_per_s },
            friction_rad: spec.product.internal_friction.value().to_radians(),
            top_mm: foot.tip_radius + foot.bucket.height,
        });
        let opening = foot.inlet(FeedSide::Up).map(|i| i.opening);
        let at = |shaft: f64| {
            let (opening, s) = (opening?, solver.as_ref()?);
            let above_shaft_mm = opening.low - shaft;
            let stays = |above: f64| retained_share_at_height(&s.section, &s.wheel, s.friction_rad, above).share;
            let share = stays(above_shaft_mm);
            let fill = spec.duty.fill.value();
            let least = (share / fill).min(1.0) * capacity.rated_t_per_h;
            // Never less than if everything entered at the sill, since buckets hold more the higher they are.
            let over_height = filling::kept(fill, [above_shaft_mm, opening.high - shaft], stays) * capacity.rated_t_per_h;
            let kept = over_height.max(least);
            Some(AtSill {
                above_shaft_mm,
                share,
                frictionless_share: retained_share_at_height(&s.section, &s.wheel, 0.0, above_shaft_mm).share,
                capacity_t_per_h: kept,
                lost_t_per_h: capacity.rated_t_per_h - kept,
                most_lost_t_per_h: capacity.rated_t_per_h - least,
            })
        };
        let area = solver.as_ref().map_or(0.0, |s| s.section.water_level_area_mm2());
        Self {
            water_level_area_mm2: area,
            section_volume_l: area * foot.bucket.length / 1e6,
            sill_lowest: at(foot.shaft_lowest),
            sill_highest: at(foot.shaft_highest),
            solver,
        }
    }

    /// The curves over the height of the foot. Computed when asked: verdicts need the sill alone.
    pub fn curves(&self) -> Curves {
        let Some(s) = &self.solver else { return Curves::default() };
        let curve = |friction_rad: f64| retained_curve(&s.section, &s.wheel, friction_rad, s.top_mm, STEPS);
        Curves { frictionless: curve(0.0), with_friction: curve(s.friction_rad) }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("retained", out);
        g.put(
            "section_volume",
            "volume of the bucket's section at water level",
            self.section_volume_l,
            Unit::L,
            &["bucket.outline", "bucket.length"],
            RETAINED_FILL,
        );
        self.record_curves(&mut g);
        self.record_sills(&mut g);
    }

    fn record_curves(&self, g: &mut Group<'_>) {
        const SECTION: &[&str] = &["bucket.outline", "duty.belt_speed", "foot_pulley.diameter", "belt.thickness"];
        let level = |curve: &[Point], share: f64| curve.iter().filter(|p| p.share <= share).map(|p| p.above_shaft_mm).fold(f64::NEG_INFINITY, f64::max);
        let curves = self.curves();
        for (key, words, curve) in
            [("frictionless", "without friction", &curves.frictionless), ("friction", "with the product's friction", &curves.with_friction)]
        {
            if let Some(first) = curve.first() {
                g.put(
                    &format!("bottom_{key}"),
                    Statement::all(vec!["share that stays at the bottom of the pulley".into(), words.into()]),
                    first.share,
                    Unit::One,
                    SECTION,
                    RETAINED_FILL,
                );
            }
            if let Some(last) = curve.iter().rfind(|p| p.above_shaft_mm <= 0.0 && p.share < 1.0) {
                g.put(
                    &format!("shaft_{key}"),
                    Statement::all(vec!["share that stays just before the belt leaves the pulley".into(), words.into()]),
                    last.share,
                    Unit::One,
                    SECTION,
                    RETAINED_FILL,
                );
            }
            let half = level(curve, 0.5);
            if half.is_finite() {
                g.put(
                    &format!("half_{key}"),
                    Statement::all(vec!["height above the shaft up to which less than half stays".into(), words.into()]),
                    half,
                    Unit::Mm,
                    SECTION,
                    RETAINED_FILL,
                );
            }
        }
    }

    fn record_sills(&self, g: &mut Group<'_>) {
        const SILL: &[&str] = &["bucket.outline", "duty.belt_speed", "foot_pulley.diameter", "product.internal_friction", "inlet.up.sill", "take_up.travel"];
        for (key, words, at) in [("lowest", "take-up at its lowest", &self.sill_lowest), ("highest", "take-up at its highest", &self.sill_highest)] {
            if let Some(a) = at {
                g.put(
                    &format!("sill_above_shaft_{key}"),
                    Statement::all(vec!["up-side sill above the foot shaft".into(), words.into()]),
                    a.above_shaft_mm,
                    Unit::Mm,
                    SILL,
                    RETAINED_FILL,
                );
                g.put(
                    &format!("sill_share_{key}"),
                    Statement::all(vec!["share that stays at the up-side sill".into(), words.into()]),
                    a.share,
                    Unit::One,
                    SILL,
                    RETAINED_FILL,
                );
                g.put(
                    &format!("sill_share_frictionless_{key}"),
                    Statement::all(vec!["the same without friction".into(), words.into()]),
                    a.frictionless_share,
                    Unit::One,
                    SILL,
                    RETAINED_FILL,
                );
                g.put(
                    &format!("sill_lost_{key}"),
                    Statement::all(vec!["capacity that the sill costs, best estimate".into(), words.into()]),
                    a.lost_t_per_h,
                    Unit::TPerH,
                    &["capacity.rated", "duty.fill", "inlet.up.sill", "inlet.up.height"],
                    FILLING,
                );
                g.put(
                    &format!("sill_lost_most_{key}"),
                    Statement::all(vec!["capacity that the sill costs at most".into(), words.into()]),
                    a.most_lost_t_per_h,
                    Unit::TPerH,
                    &["capacity.rated", "duty.fill", "inlet.up.sill"],
                    LOW_SILL,
                );
            }
        }
    }
}
