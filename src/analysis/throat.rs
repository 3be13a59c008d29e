//! The throats: stream speed, area, slope, impact on the buckets.
//!
//! In: inlets, product, duty. Out: one set of numbers for each inlet. The stream falls onto the throat's
//! floor, keeps the part of its speed along it, and slides to the sill with wall friction; where it is
//! slowest it must fit into half the throat. More than runs out of a flooded slot never passes.

use super::{Group, Quantity};
use crate::formulas::flow::{self, CHUTE_SPEED, LARGEST_FILLING, SLOT, Slide, THROAT};
use crate::formulas::impact::{self, IMPACT};
use crate::model::Foot;
use crate::model::inlets::{FeedSide, InletBody};
use crate::say;
use crate::sources::Source;
use crate::spec::Spec;
use crate::units::Unit;

/// Slope margin.
pub const SLOPE: Source = Source::practice("slope of the throat's floor less the product's least chute slope");

/// One throat in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Throat {
    /// Which side.
    pub side: FeedSide,
    /// Speed along the floor where the stream lands, m/s.
    pub entry_m_per_s: f64,
    /// Speed at the sill, m/s; 0 when it comes to rest on the way.
    pub sill_m_per_s: f64,
    /// Speed that the area is judged by, m/s: at the sill when the stream slows down, where it lands when it gains speed.
    pub slowest_m_per_s: f64,
    /// Clear area square to the floor, mm².
    pub area_mm2: f64,
    /// Area that the stream needs at most half full, mm²; `None` when it comes to rest.
    pub area_needed_mm2: Option<f64>,
    /// What the throat passes half full, t/h; 0 when the stream comes to rest.
    pub stream_t_per_h: f64,
    /// What the throat passes when it is flooded, t/h; `None` where the formula does not hold (lumps too large, powder).
    pub flooded_t_per_h: Option<f64>,
    /// What the throat passes: the smaller of the two, t/h; 0 when the stream comes to rest.
    pub capacity_t_per_h: f64,
    /// Floor slope less the product's least chute slope, degrees.
    pub slope_margin_deg: f64,
    /// Floor slope less the slope at which the product just slides (atan μ), degrees.
    pub sliding_margin_deg: f64,
    /// Speed at which stream and bucket meet, m/s.
    pub impact_m_per_s: f64,
    /// Speed of the bucket tips through product that rests in the foot, m/s; what down-side feed goes through.
    pub digging_m_per_s: f64,
    /// Smaller clear side over the largest lump.
    pub lumps: f64,
}

impl Throat {
    /// Computes it for one inlet.
    pub fn compute(spec: &Spec, foot: &Foot, inlet: &InletBody) -> Self {
        let asked = match inlet.side {
            FeedSide::Up => &spec.inlet_up,
            FeedSide::Down => &spec.inlet_down,
        };
        Self::after_fall(spec, foot, inlet, asked.drop.value())
    }

    /// The same after a free fall of another height, mm.
    pub fn after_fall(spec: &Spec, foot: &Foot, inlet: &InletBody, drop_mm: f64) -> Self {
        let slope = inlet.slope_deg.to_radians();
        let mu = spec.product.wall_friction.value();
        let density = spec.product.density.value();
        let v_belt = spec.duty.belt_speed.value();
        let length = (inlet.flange_face - inlet.outside).abs() / slope.cos();
        let Slide { entry_m_per_s: entry, sill_m_per_s: sill, slowest_m_per_s: slowest } = flow::slide(drop_mm, length, slope, mu);
        let area = inlet.throat_area();
        let square = inlet.opening.size() * slope.cos();
        let lump = spec.product.lump.value();
        let stream = flow::throat_capacity_t_per_h(area, density, slowest, LARGEST_FILLING);
        let flooded = flow::slot_t_per_h(density, inlet.width.size(), square, lump, flow::BEVERLOO_K);
        let neutral = foot.pulleys.foot.radius() + foot.belt.thickness / 2.0;
        Self {
            side: inlet.side,
            entry_m_per_s: entry,
            sill_m_per_s: sill,
            slowest_m_per_s: slowest,
            area_mm2: area,
            area_needed_mm2: (slowest > 0.0).then(|| flow::throat_area_mm2(spec.duty.capacity.value(), density, slowest, LARGEST_FILLING)),
            stream_t_per_h: stream,
            flooded_t_per_h: flooded,
            capacity_t_per_h: flow::throat_passes_t_per_h(stream, flooded),
            slope_margin_deg: inlet.slope_deg - spec.product.chute_slope.value(),
            sliding_margin_deg: inlet.slope_deg - flow::sliding_slope_rad(mu).to_degrees(),
            impact_m_per_s: match inlet.side {
                FeedSide::Up => impact::up_side_m_per_s(sill, slope, v_belt),
                FeedSide::Down => impact::down_side_first_m_per_s(sill, slope, v_belt),
            },
            digging_m_per_s: impact::digging_m_per_s(v_belt, neutral, foot.tip_radius),
            lumps: inlet.width.size().min(square) / lump,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let key = self.side.key();
        let path = |k: &str| format!("inlet.{key}.{k}");
        let (slope, reach, drop, width, height) = (path("slope"), path("reach"), path("drop"), path("width"), path("height"));
        let stream: Vec<&str> = vec![&slope, &reach, &drop, "product.wall_friction"];
        let size: Vec<&str> = vec![&width, &height, &slope];
        let mut g = Group::new("throat", out);
        let side = self.side.adjective();
        let words = |what: &'static str| say!("{side} throat, {what}", side = side, what = what);
        g.put(&format!("entry_speed_{key}"), words("speed along the floor where the stream lands"), self.entry_m_per_s, Unit::MPerS, &stream, CHUTE_SPEED);
        g.put(&format!("sill_speed_{key}"), words("speed at the sill"), self.sill_m_per_s, Unit::MPerS, &stream, CHUTE_SPEED);
        g.put(&format!("slowest_speed_{key}"), words("speed that its area is judged by"), self.slowest_m_per_s, Unit::MPerS, &stream, CHUTE_SPEED);
        g.put(&format!("area_{key}"), words("clear area square to the floor"), self.area_mm2, Unit::Mm2, &size, THROAT);
        if let Some(a) = self.area_needed_mm2 {
            g.put(
                &format!("area_needed_{key}"),
                words("area that the stream needs"),
                a,
                Unit::Mm2,
                &["duty.capacity", "product.density", &format!("throat.slowest_speed_{key}")],
                THROAT,
            );
        }
        g.put(
            &format!("stream_{key}"),
            words("what passes half full"),
            self.stream_t_per_h,
            Unit::TPerH,
            &[&format!("throat.area_{key}"), &format!("throat.slowest_speed_{key}"), "product.density"],
            THROAT,
        );
        if let Some(q) = self.flooded_t_per_h {
            g.put(&format!("flooded_{key}"), words("what passes flooded"), q, Unit::TPerH, &[&width, &height, "product.lump", "product.density"], SLOT);
        }
        g.put(
            &format!("slope_margin_{key}"),
            words("floor over the product's least slope"),
            self.slope_margin_deg,
            Unit::Degree,
            &[&slope, "product.chute_slope"],
            SLOPE,
        );
        g.put(
            &format!("sliding_margin_{key}"),
            words("floor over the slope at which the product just slides"),
            self.sliding_margin_deg,
            Unit::Degree,
            &[&slope, "product.wall_friction"],
            CHUTE_SPEED,
        );
        g.put(
            &format!("impact_{key}"),
            words("speed at which stream and bucket meet"),
            self.impact_m_per_s,
            Unit::MPerS,
            &[&format!("throat.sill_speed_{key}"), "duty.belt_speed"],
            IMPACT,
        );
        g.put(
            &format!("digging_{key}"),
            words("bucket tips through resting product"),
            self.digging_m_per_s,
            Unit::MPerS,
            &["duty.belt_speed", "discharge.foot_tip"],
            IMPACT,
        );
        g.put(&format!("lumps_{key}"), words("smaller clear side over the largest lump"), self.lumps, Unit::One, &[&width, &height, "product.lump"], THROAT);
    }
}
