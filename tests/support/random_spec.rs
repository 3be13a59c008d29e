//! Random specs: TOML text from a seed, realistic in size, valid for settling by construction.
//!
//! [`sound`] draws what a careful drafter would write; [`wild`] adds values that rules object to (a low
//! sill, thin plates, no mesh, a short pit, …) but that no contradiction forbids. The same seed gives
//! the same text. Metric and US, all product kinds, bend pulleys, gravity take-ups, rows of buckets.
//!
//! [`least`] gives required keys only, over the whole range that the program takes: what else a machine is, its defaults say.

#![allow(clippy::unwrap_used)]

use footwell::tables::belt_speeds;
use footwell::tables::products::{self, Kind, Product};
use std::fmt::Write;

/// A spec that a careful drafter could have written.
pub fn sound(seed: u64) -> String {
    text(seed, false)
}

/// A spec with some values that rules object to.
pub fn wild(seed: u64) -> String {
    text(seed, true)
}

/// What must be given, and no more: product, jurisdiction, lift, bucket and head pulley from a seed, the capacity left to the caller,
/// who knows what such an elevator carries.
///
/// The three required things suit each other, as a person would choose them: a bucket of customary shape, a head pulley that its belt bears
/// and that throws at a speed which the product bears.
pub struct Least {
    text: String,
    /// Share of what the elevator carries that is asked for, 0.3–0.95.
    pub share: f64,
    /// Whether the spec is in US units, under US rules.
    pub us: bool,
}

impl Least {
    /// The spec with a capacity in t/h.
    pub fn with_capacity(&self, t_per_h: f64) -> String {
        // To three figures, downward, as a person writes it.
        let figure = if self.us { t_per_h / 0.907_184_74 } else { t_per_h };
        let step = 10f64.powf(figure.log10().floor() - 2.0);
        let capacity = ((figure / step).floor() * step * 1000.0).round() / 1000.0;
        self.text.replace("CAPACITY", &format!("{capacity} {}", if self.us { "st/h" } else { "t/h" }))
    }
}

/// A spec of required keys only.
pub fn least(seed: u64) -> Least {
    let mut d = Dice(seed ^ 0x6c65_6173_7400);
    let us = d.chance(0.35);
    let mut s = Sheet { out: format!("# least spec, seed {seed}\n"), us };
    if us {
        s.table("project");
        s.word("jurisdiction", "us");
    }
    let product = &products::ALL[(d.next() % products::ALL.len() as u64) as usize];
    s.table("product");
    s.word("preset", product.name);
    // Small buckets are as frequent as large ones. A twentieth are as wide as can be.
    // A sixteenth of an inch under 1200 mm, because US lengths are rounded up.
    let length = if d.chance(0.05) { if us { 1198.5 } else { 1200.0 } } else { 60.0 * 20f64.powf(d.between(0.0, 1.0)) };
    // Buckets are four lumps long at least, and three deep.
    let length = length.max(4.0 * product.particle_mm);
    let length = if length > 1190.0 { length } else { stepped(length, if length < 150.0 { 5.0 } else { 10.0 }) };
    let projection = stepped(length * d.between(0.42, 0.83), 5.0).clamp((3.0 * product.particle_mm).max(50.0), 90.0 + 0.35 * length);
    // A pulley of three projections is not larger than the fastest belt still throws from.
    let projection = stepped(projection.min(1.2 * largest(product) / 3.0), 5.0);
    let height = stepped(projection * d.between(0.85, 1.2), 5.0).clamp(40.0, 595.0);
    // Three and more projections, what a belt of so many plies bears (100 mm a ply), and no larger than its fastest belt still throws from.
    let plies = [80.0, 130.0, 170.0, 215.0].iter().filter(|p| projection + MM_PER_SIXTEENTH > **p).count() as f64 + 2.0;
    let least = (3.0 * projection).max(100.0 * plies) + 20.0;
    let most = largest(product).max(least);
    let head = stepped(least * (most / least).powf(d.between(0.0, 1.0)), 10.0).clamp(least, 3000.0);
    // What the strongest belts carry: full buckets an eighth apart, with as much again for belt and buckets, at six tenths of 390 N/mm.
    let line = 0.5 * projection * length * 1e-3 * product.density_t_per_m3 / 1.125;
    let highest = (0.6 * 390.0 * length / (2.0 * line * 9.81e-3)).min(150_000.0);
    let lowest = (2.0 * head + 1000.0).max(2000.0).min(highest);
    let lift = lowest * (highest / lowest).powf(d.between(0.0, 1.0));
    s.table("duty");
    s.word("capacity", "CAPACITY");
    s.length("lift", stepped(lift, 100.0).min(149_990.0));
    s.table("bucket");
    s.length("length", length);
    s.length("projection", projection);
    s.length("height", height);
    s.table("head_pulley");
    s.length("diameter", head);
    Least { text: s.out, share: d.between(0.3, 0.95), us }
}

/// Head pulley that the fastest usual belt still throws from, mm: g R² / v² = R is where the pole lies on it.
fn largest(product: &Product) -> f64 {
    let v = if product.fragile {
        // Slower than it may be at the most, because it meets the stream.
        0.9 * belt_speeds::FRAGILE
    } else {
        match product.kind {
            Kind::Grain => belt_speeds::GRAIN,
            Kind::Meal | Kind::Pellets => belt_speeds::MEAL,
            Kind::Mineral => belt_speeds::MINERAL,
        }
    };
    2000.0 * v * v / 9.81
}

/// What US lengths may be rounded up by, mm.
const MM_PER_SIXTEENTH: f64 = 25.4 / 16.0;

fn stepped(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// SplitMix64 (Steele, Lea, Flood 2014): small, and the same on every machine.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }
    /// In [low, high).
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
    /// A multiple of `step` in [low, high].
    fn step(&mut self, low: f64, high: f64, step: f64) -> f64 {
        ((self.between(low, high) / step).round() * step).clamp(low, high)
    }
    fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }
    fn pick<'a, T: ?Sized>(&mut self, from: &[&'a T]) -> &'a T {
        from[(self.next() % from.len() as u64) as usize]
    }
}

/// A TOML text under way.
struct Sheet {
    out: String,
    us: bool,
}

impl Sheet {
    fn table(&mut self, name: &str) {
        writeln!(self.out, "\n[{name}]").unwrap();
    }
    fn word(&mut self, key: &str, value: &str) {
        writeln!(self.out, "{key} = \"{value}\"").unwrap();
    }
    fn plain(&mut self, key: &str, value: impl std::fmt::Display) {
        writeln!(self.out, "{key} = {value}").unwrap();
    }
    /// A length, in inches to a sixteenth for US jobs. Rounded up, so that what had to fit still fits.
    fn length(&mut self, key: &str, mm: f64) {
        if self.us {
            let sixteenths = (mm / 25.4 * 16.0 - 1e-9).ceil();
            writeln!(self.out, "{key} = \"{} in\"", sixteenths / 16.0).unwrap();
        } else {
            writeln!(self.out, "{key} = \"{} mm\"", (mm * 10.0).round() / 10.0).unwrap();
        }
    }
    fn quantity(&mut self, key: &str, value: f64, unit: &str) {
        writeln!(self.out, "{key} = \"{} {unit}\"", (value * 1000.0).round() / 1000.0).unwrap();
    }
}

const PRESETS: [&str; 10] = ["wheat", "barley", "maize", "oats", "soybean", "feed-pellets", "wood-pellets", "sand", "cement", "urea"];

fn text(seed: u64, wild: bool) -> String {
    let mut d = Dice(seed);
    let us = d.chance(0.25);
    let mut s = Sheet { out: format!("# random spec, seed {seed}\n"), us };
    project(&mut d, &mut s, wild);
    product(&mut d, &mut s);

    // Bucket first: everything else is sized after it.
    let projection = d.step(110.0, 300.0, 5.0);
    let height = d.step(projection * 0.85, projection * 1.2, 5.0);
    let rows = if d.chance(0.15) { 2.0 } else { 1.0 };
    let length = d.step(projection * 1.2, (projection * 2.4).min(650.0), 10.0);
    let bend = d.chance(0.3);
    let head = if bend { d.step(1200.0, 2600.0, 50.0) } else { d.step((projection * 3.2).max(400.0), (projection * 7.0).min(2000.0), 10.0) };
    let lift = d.step(8_000.0, if bend { 70_000.0 } else { 45_000.0 }, 500.0);
    // Water level is about half of the box; buckets pass at v/a; fill 0.75.
    let volume = 0.5 * projection * height * length * 1e-6;
    let speed = (d.between(1.0, 1.8) * 9.81 * head / 2000.0).sqrt().clamp(1.0, 4.0);
    let spacing = d.step(height * 1.15, height * 2.0, 10.0).max(height + 10.0);
    let litres_per_s = rows * volume * speed / (spacing / 1000.0);
    let density = 0.65;
    let capacity = 3.6 * litres_per_s * density * 0.75 * if wild { d.between(0.5, 1.3) } else { d.between(0.5, 0.75) };

    s.table("duty");
    if us {
        s.quantity("capacity", capacity / 0.907_184_74, "st/h")
    } else {
        s.quantity("capacity", capacity, "t/h")
    }
    s.length("lift", lift);
    if d.chance(0.5) {
        if us { s.quantity("belt_speed", (speed / 0.00508).round(), "ft/min") } else { s.quantity("belt_speed", speed, "m/s") }
    }
    if wild && d.chance(0.15) {
        s.plain("fill", d.step(0.6, 1.1, 0.05));
    }

    s.table("bucket");
    s.length("length", length);
    s.length("projection", projection);
    s.length("height", height);
    s.plain("rows", rows);
    s.quantity("volume", volume, "l");
    if d.chance(0.5) {
        s.length("spacing", spacing);
    }

    s.table("belt");
    let steel = bend && d.chance(0.4);
    s.word("carcass", if steel { "steel cord" } else { "fabric" });
    s.quantity("stretch", if steel { 0.1 } else { d.between(0.3, 1.2) }, "%");
    if wild && d.chance(0.3) {
        s.plain("conductive", d.chance(0.5));
    }
    if wild && d.chance(0.2) {
        s.quantity("strength", d.between(8.0, 40.0), "N/mm");
    }

    pulleys(&mut d, &mut s, head, bend, wild);
    rotating(&mut d, &mut s, wild);
    casing(&mut d, &mut s, wild);
    // Drawn apart, so that what follows stays as it was.
    let mut spout = Dice(seed ^ 0x5350_4f55_5431);
    inlets(&mut d, &mut s, &mut spout, head, projection, length * rows, wild);
    openings(&mut d, &mut s, wild);
    pit(&mut d, &mut s, wild);
    s.out
}

fn project(d: &mut Dice, s: &mut Sheet, wild: bool) {
    s.table("project");
    s.word("number", "T-1");
    s.word("jurisdiction", if s.us { "us" } else { "iso" });
    if wild && d.chance(0.2) {
        s.word("status", "survey");
    }
    s.table("sheet");
    s.word("unit", if s.us { d.pick(&["inch", "feet-inch"]) } else { "mm" });
    s.word("standard", if s.us { "ansi" } else { "iso" });
}

fn product(d: &mut Dice, s: &mut Sheet) {
    s.table("product");
    if d.chance(0.8) {
        s.word("preset", d.pick(&PRESETS));
        return;
    }
    s.word("name", "test material");
    s.word("kind", d.pick(&["grain", "meal", "pellets", "mineral"]));
    let density = d.between(0.4, 1.6);
    if s.us {
        s.quantity("density", density / 0.016_018_463, "lb/ft3")
    } else {
        s.quantity("density", density, "t/m3")
    }
    s.quantity("density_for_loads", density * 1.2, "t/m3");
    s.quantity("repose", d.step(22.0, 45.0, 1.0), "deg");
    s.quantity("chute_slope", d.step(38.0, 62.0, 1.0), "deg");
    s.length("lump", d.step(1.0, 30.0, 1.0));
    s.plain("fragile", d.chance(0.3));
    s.plain("combustible", d.chance(0.5));
}

fn pulleys(d: &mut Dice, s: &mut Sheet, head: f64, bend: bool, wild: bool) {
    s.table("head_pulley");
    s.length("diameter", head);
    s.word("lagging", d.pick(&["bare", "rubber", "ceramic"]));
    if bend && wild && d.chance(0.15) {
        // A foot as large as the head, and the deep pit that goes with it.
        s.table("foot_pulley");
        s.length("diameter", head);
        s.table("bend_pulley");
        s.plain("fitted", false);
    } else if bend {
        if d.chance(0.5) {
            s.table("foot_pulley");
            s.length("diameter", (head * d.between(0.5, 0.75) / 50.0).round() * 50.0);
        }
        s.table("bend_pulley");
        s.plain("fitted", true);
        if d.chance(0.6) {
            s.quantity("angle", if wild { d.step(8.0, 42.0, 1.0) } else { d.step(15.0, 30.0, 1.0) }, "deg");
        }
    } else if wild && d.chance(0.2) {
        s.table("foot_pulley");
        s.length("diameter", (head * d.between(0.75, 1.0) / 10.0).floor() * 10.0);
    }
}

fn rotating(d: &mut Dice, s: &mut Sheet, wild: bool) {
    s.table("bearings");
    s.word("kind", d.pick(&["two-bolt flange", "four-bolt flange", "pillow block", "take-up frame"]));
    if wild && d.chance(0.2) {
        s.plain("outside", d.chance(0.5));
    }
    if wild && d.chance(0.2) {
        s.quantity("rating", d.between(5.0, 60.0), "kN");
    }
    if wild && d.chance(0.3) {
        s.table("shaft");
        s.length("diameter", d.step(40.0, 110.0, 10.0));
        if d.chance(0.3) {
            s.word("tapped_end", d.pick(&["near", "far", "both", "none"]));
        }
    }
    s.table("take_up");
    let gravity = d.chance(0.3);
    s.word("kind", if gravity { "gravity" } else { "screw" });
    if wild && d.chance(0.3) {
        s.length("travel", d.step(120.0, 600.0, 10.0));
    }
    if gravity && wild && d.chance(0.4) {
        s.quantity("weights", d.step(0.0, 1500.0, 10.0), "kg");
    }
    if !gravity && d.chance(0.3) {
        s.word("action", d.pick(&["pull", "push"]));
        if wild {
            s.word("rod", d.pick(&["Tr16x4", "Tr20x4", "Tr30x6", "Tr44x7", "Acme 3/4-6", "Acme 1 1/4-5"]));
        }
    }
}

fn casing(d: &mut Dice, s: &mut Sheet, wild: bool) {
    s.table("casing");
    s.word("bottom", d.pick(&["flat", "curved"]));
    s.word("trunk", d.pick(&["single", "two legs"]));
    if wild {
        for key in ["bottom_clearance", "up_clearance", "down_clearance", "side_clearance"] {
            if d.chance(0.25) {
                s.length(key, d.step(5.0, 80.0, 1.0));
            }
        }
        if d.chance(0.3) {
            s.length("plate", d.step(3.0, 8.0, 1.0));
        }
        if d.chance(0.2) {
            s.length("flange", d.step(25.0, 60.0, 5.0));
        }
    }
}

fn inlets(d: &mut Dice, s: &mut Sheet, spout: &mut Dice, head: f64, projection: f64, buckets: f64, wild: bool) {
    let (up, down) = match d.next() % 10 {
        0..=6 => (true, false),
        7 => (false, true),
        _ => (true, true),
    };
    for (side, fitted) in [("up", up), ("down", down)] {
        if !(fitted || side == "up" && down) {
            continue;
        }
        s.table(&format!("inlet.{side}"));
        s.plain("fitted", fitted);
        if !fitted {
            continue;
        }
        s.word("fed_by", d.pick(&["spout", "conveyor"]));
        if spout.chance(0.3) {
            s.length("from_width", spout.step(buckets * 0.5, buckets * 1.4, 10.0));
            if spout.chance(0.7) {
                s.length("from_height", spout.step(150.0, 600.0, 10.0));
            }
            if spout.chance(0.3) {
                s.length("from_length", spout.step(200.0, 800.0, 10.0));
            }
        }
        if wild {
            if d.chance(0.4) {
                // Around the shaft: feet and bottom 106, clearance 40, then the tip radius.
                s.length("sill", 146.0 + (head / 2.0 + projection) * d.between(0.4, 1.5));
            }
            if d.chance(0.4) {
                s.quantity("slope", d.step(30.0, 65.0, 1.0), "deg");
            }
            if d.chance(0.3) {
                s.length("width", buckets * d.between(0.5, 1.05));
            }
            if d.chance(0.3) {
                s.length("height", d.step(60.0, 400.0, 10.0));
            }
        }
    }
    if d.chance(0.3) {
        s.table("shovel_pocket");
        s.plain("fitted", d.chance(0.7));
        s.word("side", d.pick(&["near", "far"]));
        if wild {
            s.length("lip", d.step(500.0, 1100.0, 10.0));
            s.quantity("slope", d.step(35.0, 70.0, 1.0), "deg");
        }
    }
}

fn openings(d: &mut Dice, s: &mut Sheet, wild: bool) {
    if d.chance(0.3) {
        s.out.push_str("\n[[door]]\n");
        s.word("on", d.pick(&["up end", "near side", "far side"]));
        if wild {
            s.plain("mesh", d.chance(0.5));
            if d.chance(0.5) {
                s.length("mesh_opening", d.step(4.0, 40.0, 1.0));
            }
        }
    }
    if !wild {
        return;
    }
    if d.chance(0.3) {
        s.table("sensor_panels");
        s.plain("near", d.chance(0.5));
        s.plain("far", d.chance(0.5));
    }
    if d.chance(0.3) {
        s.table("clean_out");
        s.plain("up", d.chance(0.5));
        s.plain("down", d.chance(0.5));
    }
    if d.chance(0.5) {
        s.table("monitoring");
        s.plain("motion", d.chance(0.6));
        s.plain("alignment", d.chance(0.6));
        let stop = d.step(0.1, 0.4, 0.05);
        s.plain("stop_slip", stop);
        s.plain("bearings", stop > 0.25);
        s.plain("alarm_slip", stop * d.pick(&[&0.5, &1.0]));
        s.quantity("delay", d.step(0.0, 10.0, 1.0), "s");
        s.quantity("feeder_run_on", d.step(0.0, 30.0, 1.0), "s");
    }
}

fn pit(d: &mut Dice, s: &mut Sheet, wild: bool) {
    if d.chance(0.15) {
        s.table("pit");
        s.plain("fitted", false);
        return;
    }
    s.table("pit");
    s.length("feed_level", d.step(0.0, 400.0, 50.0));
    s.length("feed_distance", d.step(300.0, 1500.0, 50.0));
    s.word("access", d.pick(&["ladder", "stair"]));
    s.word("access_side", d.pick(&["up", "down", "near", "far"]));
    s.word("shaft_pull", d.pick(&["near", "far"]));
    if d.chance(0.15) {
        s.plain("elevators", 2);
    }
    if d.chance(0.4) {
        s.length("groundwater", d.step(500.0, 6000.0, 100.0));
    }
    if wild {
        for key in ["up_space", "down_space", "near_space", "far_space"] {
            if d.chance(0.3) {
                s.length(key, d.step(200.0, 1500.0, 50.0));
            }
        }
        if d.chance(0.3) {
            s.length("depth", d.step(300.0, 4500.0, 50.0));
        }
        if d.chance(0.3) {
            s.quantity("feed_slope", d.step(30.0, 60.0, 1.0), "deg");
        }
        if d.chance(0.3) {
            s.length("sump", 0.0);
        }
        if d.chance(0.3) {
            s.plain("rail", d.chance(0.5));
            s.plain("cover", d.chance(0.5));
        }
    }
}
