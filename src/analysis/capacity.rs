//! What the buckets carry against what is wanted, and what each key would have to be.
//!
//! In: duty, bucket, product, belt lengths. Out: rated capacity at the spec's fill factor, the fill,
//! speed, spacing and volume that the duty needs, line loads, bucket counts. Whether the throat can
//! feed that much stands in `throat`.

use super::Quantity;
use crate::formulas::capacity::{self as formula, BUCKETS, CAPACITY, LINE_LOAD};
use crate::formulas::tension::{Drive, full_over_duty};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::units::Unit;

/// What keeps the buckets from carrying more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BucketLimit {
    /// The duty is met at the spec's fill.
    Met,
    /// Fuller buckets would carry the duty at this speed.
    Fill,
    /// Even full to water level the buckets carry less than the duty: speed, spacing or bucket must change.
    Speed,
}

/// Capacity of the bucket line.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacity {
    /// Wanted, t/h.
    pub required_t_per_h: f64,
    /// Carried at the spec's fill, t/h.
    pub rated_t_per_h: f64,
    /// Carried with buckets full to water level, t/h.
    pub full_t_per_h: f64,
    /// Rated over required.
    pub reserve: f64,
    /// Fill that the duty needs, share of the water-level volume; above 1 it cannot be reached.
    pub fill_needed: f64,
    /// Belt speed that the duty needs at the spec's fill, m/s.
    pub speed_needed_m_per_s: f64,
    /// Largest spacing that meets the duty, mm.
    pub spacing_needed_mm: f64,
    /// Bucket volume that meets the duty, l.
    pub volume_needed_l: f64,
    /// What keeps the buckets from carrying more.
    pub limit: BucketLimit,
    /// Volume flow at the required capacity, m³/h.
    pub required_m3_per_h: f64,
    /// Buckets passing a point, all rows, per second.
    pub bucket_rate_per_s: f64,
    /// Buckets in one row of the belt, take-up in the middle.
    pub buckets_per_row: u32,
    /// Buckets on the belt.
    pub buckets_total: u32,
    /// Product on the up run at the required capacity, kg/m.
    pub product_kg_per_m: f64,
    /// Belt with empty buckets, kg/m.
    pub empty_kg_per_m: f64,
    /// Belt alone, kg/m.
    pub belt_kg_per_m: f64,
    /// Most effective pull in running as a multiple of the duty's.
    pub overloaded: f64,
}

impl Capacity {
    /// Computes it from spec and belt.
    pub fn compute(spec: &Spec, foot: &Foot) -> Self {
        let required = spec.duty.capacity.value();
        let volume = spec.bucket.volume.value();
        let rows = spec.bucket.rows.value;
        let spacing = spec.bucket.spacing.value();
        let speed = spec.duty.belt_speed.value();
        let density = spec.product.density.value();
        let fill = spec.duty.fill.value();
        let rated = formula::capacity_t_per_h(volume, rows, spacing, speed, density, fill);
        let full = formula::capacity_t_per_h(volume, rows, spacing, speed, density, 1.0);
        let belt_kg_per_m = spec.belt.mass.value() * spec.belt.width.value() / 1000.0;
        let buckets_per_row = formula::buckets_per_row(foot.belt.middle.length_mm, spacing);
        Self {
            required_t_per_h: required,
            rated_t_per_h: rated,
            full_t_per_h: full,
            reserve: rated / required,
            fill_needed: formula::fill_needed(required, volume, rows, spacing, speed, density),
            speed_needed_m_per_s: formula::speed_needed_m_per_s(required, volume, rows, spacing, density, fill),
            spacing_needed_mm: formula::spacing_needed_mm(required, volume, rows, speed, density, fill),
            volume_needed_l: formula::volume_needed_l(required, rows, spacing, speed, density, fill),
            limit: if rated >= required {
                BucketLimit::Met
            } else if full >= required {
                BucketLimit::Fill
            } else {
                BucketLimit::Speed
            },
            required_m3_per_h: required / density,
            bucket_rate_per_s: speed / (spacing / 1000.0) * f64::from(rows),
            buckets_per_row,
            buckets_total: buckets_per_row * rows,
            product_kg_per_m: formula::line_load_kg_per_m(required, speed),
            empty_kg_per_m: formula::empty_line_mass_kg_per_m(belt_kg_per_m, spec.bucket.mass.value(), rows, spacing),
            belt_kg_per_m,
            overloaded: Drive { limit: spec.head_pulley.limit() }.overloaded(),
        }
    }

    /// Load of buckets full to water level over that of the duty, as far as the drive pulls it.
    pub fn full_over_duty(&self) -> f64 {
        full_over_duty(self.full_t_per_h, self.required_t_per_h, self.overloaded)
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        const LINE: &[&str] = &["bucket.volume", "bucket.rows", "bucket.spacing", "duty.belt_speed", "product.density", "duty.fill"];
        const WANTED: &[&str] = &["duty.capacity", "bucket.volume", "bucket.rows", "bucket.spacing", "duty.belt_speed", "product.density", "duty.fill"];
        let mut put = |id: &str, name: &'static str, value: f64, unit: Unit, inputs: &[&str], source: Source| {
            out.push(Quantity::new(format!("capacity.{id}"), name, value, unit, inputs, source));
        };
        put("required", "capacity wanted", self.required_t_per_h, Unit::TPerH, &["duty.capacity"], Source::spec("duty.capacity"));
        put("rated", "capacity of the buckets at the fill in service", self.rated_t_per_h, Unit::TPerH, LINE, CAPACITY);
        put("full", "capacity with buckets full to water level", self.full_t_per_h, Unit::TPerH, LINE, CAPACITY);
        put("reserve", "rated over wanted capacity", self.reserve, Unit::One, &["capacity.rated", "capacity.required"], CAPACITY);
        put("fill_needed", "fill that the duty needs", self.fill_needed, Unit::One, WANTED, CAPACITY);
        put("speed_needed", "belt speed that the duty needs", self.speed_needed_m_per_s, Unit::MPerS, WANTED, CAPACITY);
        put("spacing_needed", "largest bucket spacing that meets the duty", self.spacing_needed_mm, Unit::Mm, WANTED, CAPACITY);
        put("volume_needed", "bucket volume that meets the duty", self.volume_needed_l, Unit::L, WANTED, CAPACITY);
        put("required_volume", "volume flow wanted", self.required_m3_per_h, Unit::M3PerH, &["duty.capacity", "product.density"], CAPACITY);
        put(
            "bucket_rate",
            "buckets passing a point, all rows",
            self.bucket_rate_per_s,
            Unit::PerS,
            &["duty.belt_speed", "bucket.spacing", "bucket.rows"],
            LINE_LOAD,
        );
        put(
            "buckets_per_row",
            "buckets in one row of the belt",
            f64::from(self.buckets_per_row),
            Unit::One,
            &["path.length_middle", "bucket.spacing"],
            BUCKETS,
        );
        put("buckets_total", "buckets on the belt", f64::from(self.buckets_total), Unit::One, &["capacity.buckets_per_row", "bucket.rows"], BUCKETS);
        put(
            "product_line_load",
            "product on the up run at the wanted capacity",
            self.product_kg_per_m,
            Unit::KgPerM,
            &["duty.capacity", "duty.belt_speed"],
            LINE_LOAD,
        );
        put(
            "empty_line_mass",
            "belt with empty buckets",
            self.empty_kg_per_m,
            Unit::KgPerM,
            &["belt.mass", "belt.width", "bucket.mass", "bucket.rows", "bucket.spacing"],
            LINE_LOAD,
        );
        put("belt_line_mass", "belt alone", self.belt_kg_per_m, Unit::KgPerM, &["belt.mass", "belt.width"], LINE_LOAD);
    }
}
