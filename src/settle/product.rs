//! Settles `[product]` from the table of products.
//!
//! In: what was asked. Out: every property of the material. A preset fills the keys that are left out; without one, the
//! most ordinary product of the kind does, and the reason says that it was assumed.

use super::{Ask, PRACTICE};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::say;
use crate::spec::product::{Product, ProductKind};
use crate::spec::reader::{Chosen, Leaf, did_you_mean};
use crate::tables::products::{self, HANDLING, Kind};
use crate::units::{Angle, Density, Length, Ratio};

/// First row of the table, looked up when the program is compiled.
const FIRST: &products::Product = &products::ALL[0];

/// What is assumed when nothing is said.
const PLAIN_GRAIN: &str = "wheat";

/// The most ordinary product of a kind.
const fn ordinary(kind: ProductKind) -> &'static str {
    match kind {
        ProductKind::Grain => PLAIN_GRAIN,
        ProductKind::Meal => "feed-meal",
        ProductKind::Pellets => "feed-pellets",
        ProductKind::Mineral => "sand",
    }
}

/// The spec's word for a kind of the table.
const fn kind_of(kind: Kind) -> ProductKind {
    match kind {
        Kind::Grain => ProductKind::Grain,
        Kind::Meal => ProductKind::Meal,
        Kind::Pellets => ProductKind::Pellets,
        Kind::Mineral => ProductKind::Mineral,
    }
}

fn unknown_preset(name: &str, span: &crate::diagnostics::Span) -> Diagnostic {
    let known: Vec<&str> = products::ALL.iter().map(|p| p.name).collect();
    let all_names = products::ALL.iter().flat_map(|p| std::iter::once(p.name).chain(p.aliases.iter().copied()));
    let hint = match did_you_mean(&name.to_lowercase(), all_names) {
        Some(near) => format!("did you mean \"{near}\"? The presets are {}", known.join(", ")),
        None => format!("the presets are {}; or leave preset out and give the values", known.join(", ")),
    };
    Diagnostic::error(Code::UnknownWord, "product.preset", Some(span.clone()), format!("there is no product preset \"{name}\""), hint)
}

/// Settles the product.
pub(super) fn product(ask: &Ask<'_>, out: &mut Diagnostics) -> Product {
    let (a, words) = (&ask.asked.product, ask.words());
    let named = match &a.preset {
        Leaf::Given(Some(name), span) => {
            let found = products::find(name);
            if found.is_none() {
                out.push(unknown_preset(name, span));
            }
            found
        }
        _ => None,
    };
    let assumed = a.kind.value().map_or(PLAIN_GRAIN, ordinary);
    let base = named.or_else(|| products::find(assumed)).unwrap_or(FIRST);
    let from = |what: &'static str| {
        let product = say::name(base.name);
        if named.is_some() {
            say!("{what} of the preset \"{product}\"", what = what, product = product)
        } else {
            say!("{what} of {product}, assumed because no preset and no value was given", what = what, product = product)
        }
    };
    // English keeps the user's own word for the preset.
    let own = words.text(base.name).to_string();
    let name = match a.preset.value().flatten() {
        Some(preset) => {
            if own == base.name {
                preset
            } else {
                own
            }
        }
        None => format!("{own} ({})", words.text("assumed")),
    };
    let density = Chosen::or(&a.density, Density::t_per_m3(base.density_t_per_m3), base.density_source, from("bulk density"));
    let heavier = base.load_density_t_per_m3().max(density.value.value());
    let heavy_reason = if heavier > base.load_density_t_per_m3() { "not less than the density for capacity".into() } else { from("upper bulk weight") };
    Product {
        preset: Chosen::or(&a.preset, None, PRACTICE, "no preset was named"),
        name: Chosen::or(&a.name, name, PRACTICE, "named after the preset"),
        kind: Chosen::or(&a.kind, kind_of(base.kind), products::SLOPES, from("kind")),
        density_for_loads: Chosen::or(&a.density_for_loads, Density::t_per_m3(heavier), base.load_source, heavy_reason),
        density,
        repose: Chosen::or(&a.repose, Angle::deg(base.repose_deg), HANDLING, from("angle of repose")),
        wall_friction: Chosen::or(
            &a.wall_friction,
            Ratio::of_one(base.wall_friction_steel),
            base.friction_source,
            from("friction on a smooth steel wall (type D2)"),
        ),
        internal_friction: Chosen::or(&a.internal_friction, Angle::deg(base.internal_friction_deg), base.friction_source, from("angle of internal friction")),
        chute_slope: Chosen::or(&a.chute_slope, Angle::deg(base.min_chute_slope_deg), products::SLOPES, from("least chute slope")),
        lump: Chosen::or(&a.lump, Length::mm(base.particle_mm), products::SLOPES, from("particle size")),
        fragile: Chosen::or(&a.fragile, base.fragile, products::SLOPES, from("fragility")),
        combustible: Chosen::or(&a.combustible, base.combustible, products::SLOPES, from("combustibility")),
    }
}
