//! Settles `[bucket]` and `[duty]`: size, contents, speed and spacing, which depend on each other.
//!
//! In: what was asked, product, feed sides, head pulley. Out: both tables. Speed follows the discharge
//! at the head unless given; spacing follows the capacity unless given. Whether capacity is reached is a rule's business.

use super::habit::{Habit, Step, mm};
use super::inlets::Sides;
use super::{PRACTICE, decide, later, needed, outline};
use crate::diagnostics::Diagnostics;
use crate::formulas::mass::{STEEL_KG_PER_M3, plate_kg};
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::bucket::{AskedBucket, Bucket};
use crate::spec::duty::Duty;
use crate::spec::product::{Product, ProductKind};
use crate::spec::pulleys::HeadPulley;
use crate::spec::reader::{Chosen, Outline};
use crate::tables::products;
use crate::units::{GRAVITY, Mass, MassFlow, Ratio, Speed, Volume, plain_number};

const POLE: Source = Source::physics("pole of the head pulley: v² = k g R");
const CAPACITY: Source = Source::physics("Q = 3.6 (V/a) v rho fill");
const CONTENTS: Source = Source::physics("section under the lip's level x length x 0.95 for walls and rounded ends");
/// Share of bucket length that counts, walls and rounded ends taken off; common practice.
const INNER_LENGTH: f64 = 0.95;
/// Share of capacity kept in hand when spacing or speed is chosen.
const IN_HAND: f64 = 1.1;

/// Settles everything about the bucket but its spacing.
pub(super) fn size(a: &AskedBucket, habit: Habit, out: &mut Diagnostics) -> Bucket {
    let length = needed(&a.length, "bucket.length", "\"280 mm\"", mm(280.0), out);
    let projection = needed(&a.projection, "bucket.projection", "\"165 mm\"", mm(165.0), out);
    let height = needed(&a.height, "bucket.height", "\"180 mm\"", mm(180.0), out);
    let (l, p, h) = (length.value.value(), projection.value.value(), height.value.value());
    let plain: Vec<[crate::units::Length; 2]> = outline::plain(p, h).into_iter().map(|[x, y]| [mm(x), mm(y)]).collect();
    let section =
        Chosen::or(&a.outline, Outline(plain), PRACTICE, format!("a plain bucket {} out and {} high, lip at 0.7 of the height", habit.say(p), habit.say(h)));
    let corners = corners(&section.value);
    let litres = outline::water_level_area(&corners) * l * INNER_LENGTH / 1e6;
    let litres = (litres * 100.0).round().max(10.0) / 100.0;
    let thickness = match l {
        l if l <= 250.0 => 2.0,
        l if l <= 400.0 => 2.5,
        _ => 3.0,
    };
    let steel = outline::sheet_length(&corners) * l + 2.0 * outline::water_level_area(&corners);
    let mass = (plate_kg(steel, thickness, STEEL_KG_PER_M3) * 1.1 * 10.0).round().max(1.0) / 10.0;
    Bucket {
        volume: Chosen::or(
            &a.volume,
            Volume::l(litres),
            CONTENTS,
            format!("water level of the section, {} mm², by {} of length", plain_number(outline::water_level_area(&corners), 0), habit.say(l * INNER_LENGTH)),
        ),
        mass: Chosen::or(&a.mass, Mass::kg(mass), PRACTICE, format!("a pressed steel bucket of {thickness} mm with a tenth for lip and bolts")),
        rows: Chosen::or(&a.rows, 1, PRACTICE, "one row unless asked otherwise"),
        row_gap: Chosen::or(&a.row_gap, mm(habit.or_inch(50.0, 2.0)), PRACTICE, "customary gap between rows"),
        spacing: later(&a.spacing, mm(h * 1.5)),
        outline: section,
        length,
        projection,
        height,
    }
}

/// Corners of an outline in mm.
pub(super) fn corners(outline: &Outline) -> Vec<outline::Corner> {
    outline.0.iter().map(|[x, y]| [x.value(), y.value()]).collect()
}

/// Length of all rows with their gaps, mm.
pub(super) fn total_length(b: &Bucket) -> f64 {
    let rows = f64::from(*b.rows);
    rows * b.length.value.value() + (rows - 1.0) * b.row_gap.value.value()
}

/// How far above the critical speed a head pulley turns: v²/(g R).
const fn speed_number(kind: ProductKind, fragile: bool) -> f64 {
    match (kind, fragile) {
        (_, true) => 1.1,
        (ProductKind::Grain, false) => 1.7,
        (ProductKind::Meal, false) => 1.4,
        (ProductKind::Pellets | ProductKind::Mineral, false) => 1.2,
    }
}

/// Settles the duty, and with it the spacing of the buckets.
pub(super) fn duty(asked: &AskedSpec, product: &Product, sides: &Sides, head: &HeadPulley, bucket: &mut Bucket, habit: Habit, out: &mut Diagnostics) -> Duty {
    let a = &asked.duty;
    let capacity = needed(&a.capacity, "duty.capacity", "\"120 t/h\"", MassFlow::t_per_h(100.0), out);
    let lift = needed(&a.lift, "duty.lift", "\"28 m\"", mm(25_000.0), out);
    let preset = product.preset.value.as_deref().and_then(products::find);
    let (share, side) = match (preset, sides.down.value) {
        (Some(p), false) => (p.fill_up_side, "up-side feed"),
        (Some(p), true) => (p.fill_down_side, "down-side feed"),
        (None, down) => match (*product.kind, down) {
            (ProductKind::Meal, true) => (0.65, "meal, down-side feed"),
            (ProductKind::Meal, false) => (0.7, "meal, up-side feed"),
            (ProductKind::Grain, _) => (0.75, "grain"),
            (_, true) => (0.65, "down-side feed"),
            (_, false) => (0.7, "up-side feed"),
        },
    };
    let fill = Chosen::or(&a.fill, Ratio::of_one(share), products::FILL, format!("{} for {}, {side}", share, *product.name));
    // t/h at 1 m/s with buckets every metre
    let unit = 3.6 * f64::from(*bucket.rows) * bucket.volume.value.value() * product.density.value.value() * fill.value.value();
    let wanted = capacity.value.value();
    let radius = head.diameter.value.value() / 2000.0;
    let k = speed_number(*product.kind, *product.fragile);
    let limit = product.usual_speed();
    let by_pole = (k * GRAVITY * radius).sqrt().min(limit);
    let step = if habit.us { 0.0254 } else { 0.05 };
    let spacing_asked = asked.bucket.spacing.value().map(|s| s.value() / 1000.0);
    let needed_speed = spacing_asked.map_or(0.0, |s| wanted * s / unit);
    let (v, why) = if needed_speed > by_pole && needed_speed <= by_pole * 1.2 {
        (
            ((needed_speed / step - 1e-6).ceil() * step).min(6.0),
            format!("needed for {} t/h at the spacing given; up to a fifth over the {:.2} m/s of the head pulley's pole", plain_number(wanted, 1), by_pole),
        )
    } else {
        (
            (by_pole / step).round().min((limit / step + 1e-9).floor()).max(1.0) * step,
            format!(
                "v = √({k} g R) with R = {} mm of the head pulley, at most {limit} m/s: {} discharge",
                plain_number(radius * 1000.0, 0),
                if k > 1.3 { "centrifugal" } else { "gentle" }
            ),
        )
    };
    let belt_speed = Chosen::or(&a.belt_speed, Speed::m_per_s((v * 10_000.0).round() / 10_000.0), POLE, why);
    let h = bucket.height.value.value();
    let least = habit.up(h * 1.1, Step::Middle);
    let most = habit.down(h * 3.0, Step::Middle).max(least);
    let wish = unit * belt_speed.value.value() / (wanted * IN_HAND) * 1000.0;
    let spacing = habit.down(wish, Step::Middle).clamp(least, most);
    let bound = if wish < least {
        format!("; but not closer than {} for buckets {} high", habit.say(least), habit.say(h))
    } else if wish > most {
        format!("; but not wider than three bucket heights, {}", habit.say(most))
    } else {
        String::new()
    };
    decide(
        &mut bucket.spacing,
        mm(spacing),
        CAPACITY,
        format!(
            "{} t/h with a tenth in hand at {:.2} m/s and fill {}: {}{bound}",
            plain_number(wanted, 1),
            belt_speed.value.value(),
            fill.value.value(),
            habit.say(wish)
        ),
    );
    Duty { capacity, lift, belt_speed, fill }
}
