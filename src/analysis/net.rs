//! Net capacity: the least of what the links of the chain let through.
//!
//! In: buckets, sill, throats, head. Out: t/h and the link that limits. Speed and fill stand in what the buckets carry; the head takes off
//! what they carry past it, at most.

use super::capacity::{BucketLimit, Capacity};
use super::discharge::Discharge;
use super::retained::Retained;
use super::throat::Throat;
use super::{Group, Quantity};
use crate::sources::Source;
use crate::units::Unit;

/// The weakest link.
pub const CHAIN: Source = Source::physics("the least of what buckets, sill, throats and head let through");

/// What limits the capacity of the foot as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// The buckets at their fill in service; fuller buckets would carry more.
    Fill,
    /// The buckets even when full: speed, spacing or size.
    Speed,
    /// Buckets that pass a low sill cannot hold their fill there.
    Sill,
    /// The throats pass less than the buckets carry.
    Throat,
    /// The buckets carry part of their load past the head.
    Head,
}

impl Limit {
    /// In plain words.
    pub const fn named(self) -> &'static str {
        match self {
            Self::Fill => "the buckets at their fill in service",
            Self::Speed => "the buckets, even when full",
            Self::Sill => "what stays in the buckets past a low sill",
            Self::Throat => "the throats",
            Self::Head => "the head, which lets part of the load fall back",
        }
    }
}

/// Net capacity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Net {
    /// What stays in the buckets past the up-side sill, take-up at its lowest, t/h; `None` without an up-side inlet.
    pub past_sill_t_per_h: Option<f64>,
    /// What all throats pass together, t/h; `None` without an inlet.
    pub throats_t_per_h: Option<f64>,
    /// What the buckets carry less what falls back at the head, t/h.
    pub past_head_t_per_h: f64,
    /// The least of these and of what the buckets carry, t/h.
    pub t_per_h: f64,
    /// Which of them it is.
    pub limit: Limit,
}

impl Net {
    /// Finds it.
    pub fn compute(capacity: &Capacity, retained: &Retained, throats: &[Throat], discharge: &Discharge) -> Self {
        let past_sill_t_per_h = retained.sill_lowest.map(|s| s.capacity_t_per_h);
        let throats_t_per_h = (!throats.is_empty()).then(|| throats.iter().map(|t| t.capacity_t_per_h).sum());
        let buckets = if capacity.limit == BucketLimit::Speed { Limit::Speed } else { Limit::Fill };
        let past_head_t_per_h = capacity.rated_t_per_h * (1.0 - discharge.back_share);
        let links = [(past_sill_t_per_h, Limit::Sill), (throats_t_per_h, Limit::Throat), (Some(past_head_t_per_h), Limit::Head)];
        let (t_per_h, limit) = links
            .into_iter()
            .filter_map(|(t, limit)| Some((t?, limit)))
            .fold((capacity.rated_t_per_h, buckets), |least, link| if link.0 < least.0 - 1e-9 { link } else { least });
        Self { past_sill_t_per_h, throats_t_per_h, past_head_t_per_h, t_per_h, limit }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("net", out);
        let mut inputs = vec!["capacity.rated"];
        if let Some(t) = self.past_sill_t_per_h {
            g.put("past_sill", "what stays in the buckets past the up-side sill", t, Unit::TPerH, &["capacity.rated", "retained.sill_lost_lowest"], CHAIN);
            inputs.push("net.past_sill");
        }
        if let Some(t) = self.throats_t_per_h {
            g.put("throats", "what all throats pass together", t, Unit::TPerH, &["throat.stream_up", "throat.stream_down"], CHAIN);
            inputs.push("net.throats");
        }
        g.put(
            "past_head",
            "what the head throws out of the buckets, at least",
            self.past_head_t_per_h,
            Unit::TPerH,
            &["capacity.rated", "discharge.back"],
            CHAIN,
        );
        inputs.push("net.past_head");
        g.put("capacity", "net capacity: the least of buckets, sill, throats and head", self.t_per_h, Unit::TPerH, &inputs, CHAIN);
    }
}
