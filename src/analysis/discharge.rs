//! The pole at head and foot, and the kind of discharge at the head.
//!
//! In: belt speed, pulleys, bucket, product. Out: pole distances and the radii they are held against: the belt's
//! outer face (the bucket's back) as inner radius, the swept tip as outer one. Books differ in the radii. And how much of the load can
//! still be in the buckets where they pass the head shaft on the down side.

use super::{Group, Quantity};
use crate::formulas::head_discharge::{PAST_HEAD, back_share, past_head};
use crate::formulas::pole::{self, CRITICAL_SPEED, DISCHARGE, Discharge as Kind, POLE};
use crate::formulas::retained_fill::{BucketSection, Wheel};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::units::Unit;

/// Swept radius of the bucket corners.
pub const TIP: Source = Source::physics("the largest √((D/2 + t + u)² + (w − b/2)²) of the section's corners, bucket's back tangent at mid-height");

/// Poles and discharge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Discharge {
    /// Pole distance above the head shaft, mm.
    pub head_pole_mm: f64,
    /// Radius to the buckets' backs at the head, mm.
    pub head_inner_mm: f64,
    /// Radius swept by the bucket corners at the head, mm.
    pub head_tip_mm: f64,
    /// Kind of discharge.
    pub kind: Kind,
    /// Belt speed at which the pole reaches the buckets' backs: centrifugal discharge above it, m/s.
    pub centrifugal_above_m_per_s: f64,
    /// Belt speed at which the pole reaches the swept tip: gravity discharge below it, m/s.
    pub gravity_below_m_per_s: f64,
    /// Share of the load that is carried past the head and falls back down the leg, at most.
    pub back_share: f64,
    /// Pole distance above the foot shaft, mm.
    pub foot_pole_mm: f64,
    /// Radius swept by the bucket corners in the foot, mm.
    pub foot_tip_mm: f64,
    /// Speed of the bucket tips round the foot pulley, m/s.
    pub foot_tip_speed_m_per_s: f64,
}

/// The bucket's section as the pole construction wants it: lip first, heights from the bolts; `None` when it holds nothing.
pub fn section_of(foot: &Foot) -> Option<BucketSection> {
    let half = foot.bucket.height / 2.0;
    BucketSection::new(foot.bucket.section.iter().rev().map(|[u, w]| kurbo::Point::new(*u, w - half)).collect()).ok()
}

/// Share of the load that is carried past the head at a belt speed in m/s, at most.
pub fn back(spec: &Spec, foot: &Foot, belt_speed: f64) -> f64 {
    let (radius, thickness) = (foot.pulleys.head.radius(), foot.belt.thickness);
    let wheel = Wheel { radius_mm: radius + thickness, omega_rad_per_s: pole::omega_rad_per_s(belt_speed, radius + thickness / 2.0) };
    let stays = |section: BucketSection| past_head(&section, &wheel, spec.product.internal_friction.value().to_radians());
    back_share(section_of(foot).map_or(0.0, stays), spec.duty.fill.value())
}

impl Discharge {
    /// Computes it.
    pub fn compute(spec: &Spec, foot: &Foot) -> Self {
        let v = spec.duty.belt_speed.value();
        let t = foot.belt.thickness;
        let neutral = |radius: f64| radius + t / 2.0;
        let (head, low) = (foot.pulleys.head.radius(), foot.pulleys.foot.radius());
        let head_pole_mm = pole::pole_distance_mm(pole::omega_rad_per_s(v, neutral(head)));
        let head_inner_mm = head + t;
        let head_tip_mm = foot.bucket.tip_radius(head + t);
        // The pole lies at radius r when ω²·r = g; the belt then runs at ω times the neutral radius.
        let belt_speed = |r: f64| pole::critical_speed_m_per_s(r) / r * neutral(head);
        let omega_foot = pole::omega_rad_per_s(v, neutral(low));
        Self {
            head_pole_mm,
            head_inner_mm,
            head_tip_mm,
            kind: pole::discharge(head_pole_mm, head_inner_mm, head_tip_mm),
            centrifugal_above_m_per_s: belt_speed(head_inner_mm),
            gravity_below_m_per_s: belt_speed(head_tip_mm),
            back_share: back(spec, foot, v),
            foot_pole_mm: pole::pole_distance_mm(omega_foot),
            foot_tip_mm: foot.tip_radius,
            foot_tip_speed_m_per_s: omega_foot * foot.tip_radius / 1000.0,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("discharge", out);
        const HEAD: &[&str] = &["duty.belt_speed", "head_pulley.diameter", "belt.thickness"];
        const FOOT: &[&str] = &["duty.belt_speed", "foot_pulley.diameter", "belt.thickness"];
        const BUCKET: &[&str] = &["head_pulley.diameter", "belt.thickness", "bucket.outline", "bucket.height"];
        g.put("head_pole", "pole above the head shaft", self.head_pole_mm, Unit::Mm, HEAD, POLE);
        g.put("head_inner", "radius to the buckets' backs at the head", self.head_inner_mm, Unit::Mm, HEAD, DISCHARGE);
        g.put("head_tip", "radius swept by the bucket corners at the head", self.head_tip_mm, Unit::Mm, BUCKET, TIP);
        g.put("centrifugal_above", "belt speed above which discharge is centrifugal", self.centrifugal_above_m_per_s, Unit::MPerS, BUCKET, CRITICAL_SPEED);
        g.put("gravity_below", "belt speed below which discharge is by gravity", self.gravity_below_m_per_s, Unit::MPerS, BUCKET, CRITICAL_SPEED);
        g.put(
            "back",
            "share of the load that is carried past the head and falls back, at most",
            self.back_share,
            Unit::One,
            &["duty.belt_speed", "duty.fill", "head_pulley.diameter", "bucket.outline", "product.internal_friction"],
            PAST_HEAD,
        );
        g.put("foot_pole", "pole above the foot shaft", self.foot_pole_mm, Unit::Mm, FOOT, POLE);
        g.put(
            "foot_tip",
            "radius swept by the bucket corners in the foot",
            self.foot_tip_mm,
            Unit::Mm,
            &["foot_pulley.diameter", "belt.thickness", "bucket.outline", "bucket.height"],
            TIP,
        );
        g.put("foot_tip_speed", "speed of the bucket tips in the foot", self.foot_tip_speed_m_per_s, Unit::MPerS, FOOT, POLE);
    }
}
