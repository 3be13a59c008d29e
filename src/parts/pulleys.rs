//! Pulleys of the foot: drum or winged foot pulley, drum bend pulley; rims, discs, wings, hubs.
//!
//! The foot pulley stands at its lowest position. Wall and disc thicknesses follow the diameter by
//! common practice (`sizing::pulley`).

use super::flat::{Bend, BendSide, Contour, FlatPattern};
use super::placement::Placement;
use super::shape::Shape;
use super::shop::{Butt, Draft, Fitting, Form, Shop};
use super::turned::Keyway;
use super::{Hand, Kind, Lay, piece_of};
use crate::model::Foot;
use crate::model::pulleys::PulleyBody;
use crate::say;
use crate::say::{Statement, amount, n, name as named, size};
use crate::sizing::pulley::{disc, hub_diameter, hub_length, rim};
use crate::spec::pulleys::PulleyStyle;
use crate::tables::fits;
use crate::tables::keyways::{self, Standard};
use crate::tables::plates::Stock;
use crate::tables::surfaces;
use crate::units::Unit;
use std::f64::consts::{PI, TAU};

/// Gap that the discs are fitted up with, at the rim and at the hub, before their seams are welded, mm (common practice, no source).
const FIT_UP: f64 = 0.5;
/// Wings of a winged pulley.
const WINGS: usize = 10;

/// Adds the pulleys.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let (spec, spacings) = (shop.spec, spacings(foot, shop.stock()));
    let winged = spec.foot_pulley.style.value == PulleyStyle::Winged;
    let shaft = foot.rotating.shaft_diameter;
    pulley(shop, &Pulley { body: &foot.pulleys.foot, spacing: spacings[0], shaft, item: 600, id: "foot_pulley", name: "foot pulley", winged });
    if let Some(bend) = &foot.pulleys.bend {
        let shaft = spec.bend_pulley.shaft.value();
        pulley(shop, &Pulley { body: bend, spacing: spacings[1], shaft, item: 620, id: "bend_pulley", name: "bend pulley", winged: false });
    }
}

/// Distance between the middles of the hubs, which are those of the end discs, of the foot and of the bend pulley, mm.
pub fn spacings(foot: &Foot, stock: Stock) -> [f64; 2] {
    let p = &foot.pulleys;
    let within = |body: &PulleyBody, wanted: f64| wanted.min(body.face - 2.0 * disc(stock, body.diameter) - 10.0);
    [within(&p.foot, p.hub_spacing), p.bend.as_ref().map_or(0.0, |bend| within(bend, bend.face - 60.0))]
}

/// A pulley to be made.
struct Pulley<'a> {
    body: &'a PulleyBody,
    /// Distance of the end discs, mm.
    spacing: f64,
    /// Diameter of the shaft in the hubs, mm.
    shaft: f64,
    /// Item number that its parts count from.
    item: u32,
    id: &'static str,
    name: &'static str,
    winged: bool,
}

impl Pulley<'_> {
    fn sources(&self) -> [String; 2] {
        ["diameter", "face"].map(|key| format!("{}.{key}", self.id))
    }
    fn centre(&self) -> [f64; 3] {
        [self.body.centre.x, 0.0, self.body.centre.z]
    }
    fn piece(&self, what: &'static str) -> Statement {
        piece_of(&self.name.into(), what)
    }
}

fn pulley(shop: &mut Shop, p: &Pulley<'_>) {
    let stock = shop.stock();
    let (rim, disc) = (rim(stock, p.body.diameter), disc(stock, p.body.diameter));
    let hub = hub_diameter(stock, p.shaft);
    let inner = p.body.diameter / 2.0 - rim;
    let sources = p.sources();
    let sources = [sources[0].as_str(), sources[1].as_str()];
    let spacing = p.spacing;
    if inner < hub / 2.0 + 20.0 || spacing < disc + 10.0 {
        shop.defect(p.item + 1, sources[0], say!("the {pulley} is too small for rim, discs and hubs", pulley = p.name));
        return;
    }
    // The discs of a winged pulley fit into its core drum.
    let core = inner * 0.6;
    let gap = stock.fit_up_mm(FIT_UP);
    let disc_radius = if p.winged { core - rim } else { inner } - gap;
    let mut plate = FlatPattern::new(Contour::Circle { centre: [0.0, 0.0], diameter: 2.0 * disc_radius });
    plate.open(sources[0], Contour::Circle { centre: [0.0, 0.0], diameter: hub + 2.0 * gap });
    let disc_at = |y: f64| Placement::near(y - disc / 2.0).moved(p.centre());
    shop.plate(Draft {
        item: p.item + 1,
        id: &format!("{}.disc", p.id),
        code: "DISC",
        name: p.piece("end disc"),
        thickness: disc,
        flat: plate,
        placements: vec![disc_at(-spacing / 2.0), disc_at(spacing / 2.0)],
        hand: Hand::Neutral,
        sources: &sources,
        remarks: Statement::default(),
    });
    let ring = |id: &str, what: &'static str, inside: f64| Ring { item: p.item + 3, id: format!("{}.{id}", p.id), name: p.piece(what), inside, thickness: rim };
    let part = |piece: &str| format!("{}.{piece}", p.id);
    if p.winged {
        wings(shop, p, core, rim);
        rolled(shop, ring("core", "core drum", core - rim), p.body, &sources);
        shop.fillet(p.id, say!("{pulley}: wings to core drum", pulley = p.name), [&[&part("wing")], &[&part("core")]], Lay::Every, rim, false);
    } else {
        rolled(shop, ring("rim", "rim", inner), p.body, &sources);
    }
    hubs(shop, p, hub, spacing);
    shop.fillet(
        p.id,
        if p.winged {
            say!("{pulley}: discs to core drum and hubs, from outside", pulley = p.name)
        } else {
            say!("{pulley}: discs to rim and hubs, from outside", pulley = p.name)
        },
        [&[&part("disc")], &[&part("rim"), &part("core"), &part("hub")]],
        Lay::Outside,
        disc.min(rim),
        false,
    );
}

/// Wings stand radially between core drum and rim circle: they carry the belt on their edges, whose corners lie on that circle.
fn wings(shop: &mut Shop, p: &Pulley<'_>, core: f64, thickness: f64) {
    let (centre, sources) = (p.centre(), p.sources());
    let reach = (p.body.radius().powi(2) - (thickness / 2.0).powi(2)).sqrt() - core;
    let mut places = Vec::new();
    for i in 0..WINGS {
        // One stands at the top and one at the bottom, where sections show the diameter.
        let a = TAU * (0.25 + i as f64 / WINGS as f64);
        let (cos, sin) = (a.cos(), a.sin());
        let out = [cos, 0.0, sin];
        let side = [-sin, 0.0, cos];
        let back = [centre[0] + out[0] * core - side[0] * thickness / 2.0, -p.body.face / 2.0, centre[2] + out[2] * core - side[2] * thickness / 2.0];
        // Across the machine, outward, round the axis: the hand of all other plates.
        places.push(Placement::new(back, [0.0, 1.0, 0.0], out, side));
    }
    shop.plate(Draft {
        item: p.item + 2,
        id: &format!("{}.wing", p.id),
        code: "WING",
        name: p.piece("wing"),
        thickness,
        flat: FlatPattern::new(Contour::rectangle([0.0, 0.0], [p.body.face, reach])),
        placements: places,
        hand: Hand::Neutral,
        sources: &[&sources[0], &sources[1]],
        remarks: run_out_remark("all alike apart round the core drum, edges rounded", shop.stock(), p.body),
    });
}

/// Both hubs, `diameter` over all, with their keyway.
fn hubs(shop: &mut Shop, p: &Pulley<'_>, diameter: f64, spacing: f64) {
    let (sources, length) = (p.sources(), hub_length(shop.stock(), p.shaft));
    let key = keyways::of_job(shop.us(), p.shaft);
    let keyway = key.map(|k| Keyway { width: k.width_mm, depth: k.depths_mm(p.shaft)[1], length });
    let fit = fits::of_bore(shop.us());
    let remarks = match (key, keyway) {
        (Some(k), Some(Keyway { width, depth, .. })) => match k.standard {
            // Millimetres by the standard, whatever the sheets are in.
            Standard::Din6885 => say!("keyway {width} P9 × {depth} deep, DIN 6885", width = n(width, 2), depth = n(depth, 2)),
            Standard::AsmeB171 => say!("keyway {width} wide, {standard}", width = amount(width, Unit::Mm, 4), standard = named(k.standard.name()),),
        },
        _ => "keyway by the maker".into(),
    };
    let at = |y: f64| Placement::near(y).moved(p.centre());
    shop.fitting(Fitting {
        item: p.item + 5,
        id: &format!("{}.hub", p.id),
        name: p.piece("hub"),
        kind: Kind::Turned,
        material: Statement::named(shop.spec.casing.material.value.as_str()),
        dimension: match fit.class() {
            Some(class) => {
                say!("⌀{hub} / ⌀{bore} {class} × {length}", hub = size(diameter, 2), bore = size(p.shaft, 2), class = named(class), length = size(length, 2))
            }
            None => say!("⌀{hub} / ⌀{bore} × {length}", hub = size(diameter, 2), bore = size(p.shaft, 2), length = size(length, 2)),
        },
        form: Form(Shape::Hub { diameter, bore: p.shaft, fit, length, keyway }, true, vec![at(-spacing / 2.0), at(spacing / 2.0)]),
        paint_m2: PI * diameter * length * 1e-6,
        sources: &[&sources[0], &sources[1]],
        remarks,
    });
}

/// How true a rim of this diameter runs after welding, mm.
pub fn rim_run_out(stock: Stock, diameter: f64) -> f64 {
    stock.fine_mm(surfaces::rim_run_out_mm(diameter))
}

/// How a rim comes about, and how true it runs: it is rolled to its finished size and not turned, so there is no allowance.
fn run_out_remark(made: &'static str, stock: Stock, body: &PulleyBody) -> Statement {
    let most = amount(rim_run_out(stock, body.diameter), Unit::Mm, 2);
    say!("{made}; runs true within {most} after welding, not turned", made = made, most = most)
}

/// How far round from its lowest point toward the up side the seam of a rim lies, degrees: midway between two wings.
const RIM_SEAM_DEG: f64 = 54.0;

/// A ring to be rolled.
struct Ring {
    item: u32,
    id: String,
    name: Statement,
    /// Inside radius, mm.
    inside: f64,
    thickness: f64,
}

/// A closed ring rolled from plate, developed on its neutral line.
fn rolled(shop: &mut Shop, ring: Ring, body: &PulleyBody, sources: &[&str]) {
    let Ring { item, id, name, inside, thickness } = ring;
    let length = TAU * (inside + thickness / 2.0);
    let half = body.face / 2.0;
    let mut flat = FlatPattern::new(Contour::rectangle([0.0, -half], [length, half]));
    flat.bends = vec![Bend { start: 0.0, flat_length: length, angle_deg: 360.0, side: BendSide::Down, inside_radius: inside, rolled: true }];
    // Begins beside the lowest point, so that no section runs along a seam; back face inside, running toward the up side.
    let (sin, cos) = RIM_SEAM_DEG.to_radians().sin_cos();
    let out = [sin, 0.0, -cos];
    let place = Placement::new([body.centre.x + inside * sin, 0.0, body.centre.z - inside * cos], [cos, 0.0, sin], [0.0, 1.0, 0.0], out);
    shop.plate(Draft {
        item,
        id: &id,
        code: "RIM",
        name: name.clone(),
        thickness,
        flat,
        placements: vec![place],
        hand: Hand::Neutral,
        sources,
        remarks: run_out_remark("rolled to its finished diameter, seam butt welded and ground flush", shop.stock(), body),
    });
    let own = id.clone();
    shop.butt(id, say!("{part}: seam, ground flush", part = name), [&[&own], &[&own]], (2.0 * half, thickness), Butt::FLUSH);
}
