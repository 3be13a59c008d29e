//! Settles `[duty]`, and `bucket.spacing`, which follows from it.
//!
//! In: product, feed side, head pulley, bucket. Out: the duty; the spacing. Speed follows the discharge at the head unless given;
//! spacing follows the capacity unless given. Whether capacity is reached is a rule's business.

use super::bucket::Size;
use super::inlets;
use super::needed;
use super::rounding::{Step, mm};
use super::so_far::Ask;
use crate::diagnostics::Diagnostics;
use crate::formulas::head_discharge::{back_share, past_head};
use crate::formulas::pole::omega_rad_per_s;
use crate::formulas::retained_fill::{BucketSection, Wheel};
use crate::say;
use crate::sources::Source;
use crate::spec::duty::Duty;
use crate::spec::product::{Product, ProductKind};
use crate::spec::pulleys::HeadPulley;
use crate::spec::reader::Chosen;
use crate::tables::products;
use crate::units::{GRAVITY, Length, MassFlow, Ratio, Speed, Unit};

const POLE: Source = Source::physics("pole of the head pulley: v² = k g R");
const CAPACITY: Source = Source::physics("Q = 3.6 (V/a) v rho fill");
/// Least share of the usual speed that a gentle belt runs at (common practice).
const LEAST_OF_USUAL: f64 = 0.8;
/// Thickness of a belt that is not decided yet, mm.
const BELT: f64 = 9.0;
/// Share of capacity kept in hand when spacing or speed is chosen.
const IN_HAND: f64 = 1.1;

/// How far above the critical speed a head pulley turns: v²/(g R).
const fn speed_number(kind: ProductKind, fragile: bool) -> f64 {
    match (kind, fragile) {
        (_, true) => 1.1,
        (ProductKind::Grain, false) => 1.7,
        (ProductKind::Meal, false) => 1.4,
        (ProductKind::Pellets | ProductKind::Mineral, false) => 1.2,
    }
}

/// What carries the product.
pub(super) struct Carrying<'a> {
    pub ask: Ask<'a>,
    pub product: &'a Product,
    /// Whether it is fed on the down side.
    pub down_side: bool,
    pub head: &'a HeadPulley,
    pub size: &'a Size,
}

impl Carrying<'_> {
    /// Decides the duty.
    pub(super) fn duty(&self, out: &mut Diagnostics) -> Duty {
        let a = &self.ask.asked.duty;
        let capacity = needed(&a.capacity, "duty.capacity", "\"120 t/h\"", MassFlow::t_per_h(100.0), out);
        let lift = needed(&a.lift, "duty.lift", "\"28 m\"", mm(25_000.0), out);
        let fill = self.fill();
        let belt_speed = self.belt_speed(capacity.value.value(), fill.value);
        Duty { capacity, lift, belt_speed, fill }
    }

    fn fill(&self) -> Chosen<Ratio> {
        let preset = self.product.preset.value.as_deref().and_then(products::find);
        let (share, side) = match (preset, self.down_side) {
            (Some(p), false) => (p.fill_up_side, "up-side feed"),
            (Some(p), true) => (p.fill_down_side, "down-side feed"),
            (None, down) => match (*self.product.kind, down) {
                (ProductKind::Meal, true) => (0.65, "meal, down-side feed"),
                (ProductKind::Meal, false) => (0.7, "meal, up-side feed"),
                (ProductKind::Grain, _) => (0.75, "grain"),
                (_, true) => (0.65, "down-side feed"),
                (_, false) => (0.7, "up-side feed"),
            },
        };
        Chosen::or(
            &self.ask.asked.duty.fill,
            Ratio::of_one(share),
            products::FILL,
            say!("{share} for {product}, {side}", share = say::n(share, 2), product = say::name(&*self.product.name), side = side),
        )
    }

    /// What is lifted at 1 m/s with buckets every metre, t/h.
    fn unit(&self, fill: Ratio) -> f64 {
        3.6 * f64::from(*self.size.rows) * self.size.volume.value.value() * self.product.density.value.value() * fill.value()
    }

    fn belt_speed(&self, wanted: f64, fill: Ratio) -> Chosen<Speed> {
        let asked = self.ask.asked;
        let radius = self.head.diameter.value.value() / 2000.0;
        let k = speed_number(*self.product.kind, *self.product.fragile);
        // What breaks is met gently where the throat allows it; a long fall that is asked for does not make the belt crawl.
        let usual = self.product.usual_speed();
        let limit = inlets::gentle_belt(&self.ask, self.product).map_or(usual, |gentle| gentle.clamp(LEAST_OF_USUAL * usual, usual));
        let by_pole = (k * GRAVITY * radius).sqrt().min(limit);
        let step = if self.ask.rounding.us { 0.0254 } else { 0.05 };
        let spacing_asked = asked.bucket.spacing.value().map(|s| s.value() / 1000.0);
        let needed_speed = spacing_asked.map_or(0.0, |s| wanted * s / self.unit(fill));
        let (v, why) = if needed_speed > by_pole && needed_speed <= by_pole * 1.2 {
            (
                ((needed_speed / step - 1e-6).ceil() * step).min(6.0),
                say!(
                    "needed for {capacity} at the spacing given; up to a fifth over the {speed} of the head pulley's pole",
                    capacity = say::amount(wanted, Unit::TPerH, 1),
                    speed = say::amount(by_pole, Unit::MPerS, 2)
                ),
            )
        } else {
            (
                (by_pole / step).round().min((limit / step + 1e-9).floor()).max(1.0) * step,
                say!(
                    "v = √({k} g R) with R = {radius} of the head pulley, at most {limit}: {discharge}",
                    k = say::n(k, 1),
                    radius = say::mm(radius * 1000.0),
                    limit = say::amount(limit, Unit::MPerS, 1),
                    discharge = if k > 1.3 { "centrifugal discharge" } else { "gentle discharge" }
                ),
            )
        };
        Chosen::or(&asked.duty.belt_speed, Speed::m_per_s((v * 10_000.0).round() / 10_000.0), POLE, why)
    }

    /// Share of the load that is carried past the head at a belt speed, at most.
    fn back(&self, speed: f64, fill: Ratio) -> f64 {
        let radius = self.head.diameter.value.value() / 2.0;
        let wheel = Wheel { radius_mm: radius + BELT, omega_rad_per_s: omega_rad_per_s(speed, radius + BELT / 2.0) };
        let stays = |section: BucketSection| past_head(&section, &wheel, self.product.internal_friction.value.value().to_radians());
        back_share(self.size.section().map_or(0.0, stays), fill.value())
    }

    /// Decides the spacing of the buckets.
    pub(super) fn spacing(&self, duty: &Duty) -> Chosen<Length> {
        let rounding = self.ask.rounding;
        let (wanted, speed, fill) = (duty.capacity.value.value(), duty.belt_speed.value.value(), duty.fill.value);
        let h = self.size.height.value.value();
        let least = rounding.up(h * 1.1, Step::Middle);
        let most = rounding.down(h * 3.0, Step::Middle).max(least);
        let back = self.back(speed, fill);
        let wish = self.unit(fill) * speed * (1.0 - back) / (wanted * IN_HAND) * 1000.0;
        let why = say!(
            "{capacity} with a tenth in hand at {speed} and fill {fill}: {spacing}",
            capacity = say::amount(wanted, Unit::TPerH, 1),
            speed = say::amount(speed, Unit::MPerS, 2),
            fill = say::n(fill.value(), 2),
            spacing = say::mm(wish)
        );
        let why = if back >= 0.005 {
            say!("{why}; up to {back} of the load falls back at the head", why = why, back = say::amount(back * 100.0, Unit::Percent, 0))
        } else {
            why
        };
        let why = if wish < least {
            say!("{why}; but not closer than {least} for buckets {height} high", why = why, least = say::mm(least), height = say::mm(h))
        } else if wish > most {
            say!("{why}; but not wider than three bucket heights, {most}", why = why, most = say::mm(most))
        } else {
            why
        };
        Chosen::or(&self.ask.asked.bucket.spacing, mm(rounding.down(wish, Step::Middle).clamp(least, most)), CAPACITY, why)
    }
}
