//! Transitions: from an inlet's flange to a spout or outlet of another size, four plates and two flanges.
//!
//! The two openings lie in parallel upright planes with parallel edges, so each wall is a plane trapezoid and
//! its pattern is exact. Walls are inner faces; they meet corner to corner along the hips, where the weld
//! fills the corner from outside. Worked out in (u, y, z): u is the distance outward from the inlet's flange.

use super::bolts::Held;
use super::flat::{Contour, FlatPattern, Xy};
use super::goods;
use super::placement::Placement;
use super::shop::{Draft, Joins, Shop, gasket};
use super::throats::{self, Ring};
use super::{Hand, Lay};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::model::inlets::{FeedSide, InletBody, Transition};
use crate::say;
use crate::say::{Statement, amount, name};
use crate::spec::Spec;
use crate::tables::threads::Thread;
use crate::units::Unit;

/// Adds the transitions of both sides.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    for inlet in &foot.inlets {
        if let Some(t) = &inlet.transition
            && shop.is_cut(&format!("inlet.{}.width", inlet.side.key()))
        {
            transition(shop, inlet, t);
        }
    }
}

/// One wall in section: from its inner face at the first flange along the slope to the second.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Wall {
    /// Angle to the machine's length, rad.
    angle: f64,
    /// Length of the inner face between the flanges, mm.
    length: f64,
    /// Cut back at the first and at the second flange so that the outer face does not run into it, mm.
    cut: [f64; 2],
}

impl Wall {
    /// A wall that moves by `away` (outward positive) over `run`.
    fn new(run: f64, away: f64, thickness: f64) -> Self {
        let angle = (away / run).atan();
        let back = thickness * angle.abs().tan();
        Self { angle, length: run / angle.cos(), cut: if angle > 0.0 { [back, 0.0] } else { [0.0, back] } }
    }
    /// Both ends of the plate, mm along the wall, with the share of the way that they are at.
    fn ends(&self) -> [(f64, f64); 2] {
        [self.cut[0], self.length - self.cut[1]].map(|s| (s, s / self.length))
    }
}

/// Least length of plates between the flanges, mm (common practice, no source).
const SHORTEST: f64 = 80.0;

fn transition(shop: &mut Shop, inlet: &InletBody, tr: &Transition) {
    let (t, tf) = (shop.foot.casing.plate, shop.frame_thickness());
    let up = inlet.side == FeedSide::Up;
    let (out, key) = (inlet.side.outward(), inlet.side.key());
    let base: u32 = if up { 205 } else { 225 };
    let of_side = |up: &'static str, down: &'static str| throats::of_side(inlet.side, up, down);
    let whole = (tr.face - inlet.flange_face).abs();
    let gasket = gasket(shop.spec);
    let thick = throats::ring_thickness(shop, inlet.flange);
    let (from, run) = (gasket + tf, whole - gasket - tf - thick);
    if run < SHORTEST {
        return too_short(shop, inlet, base, gasket + tf + thick + SHORTEST);
    }
    let a = (inlet.width, Extent::new(inlet.flange_sill, inlet.flange_sill + inlet.opening.size()));
    let b = (tr.width, tr.opening);
    let names = ["width", "height", "length"].map(|n| format!("inlet.{key}.from_{n}"));
    let sources: Vec<&str> = names.iter().map(String::as_str).collect();
    let assembly = format!("transition.{key}");
    let mut plates = Vec::new();
    let mut add =
        |id: &'static str, what: &'static str, code: &'static str, thickness: f64, flat: FlatPattern, placements: Vec<Placement>, remarks: &'static str| {
            plates.push((id, Statement::all(vec![what.into(), of_side("up side", "down side")]), code, thickness, flat, placements, remarks));
        };
    let between = |p: f64, q: f64, share: f64| p + (q - p) * share;
    let x = inlet.flange_face + out * from;
    // Floor and roof: pattern x across the machine, y along the wall, marked on the upper face.
    let floor = Wall::new(run, a.1.low - b.1.low, t);
    let roof = Wall::new(run, b.1.high - a.1.high, t);
    room_for_heads(shop, inlet, base, steepest(inlet, tr, run));
    let across = |wall: &Wall| {
        let [(s0, i), (s1, j)] = wall.ends();
        let half = |share: f64| between(a.0.size(), b.0.size(), share) / 2.0;
        FlatPattern::new(Contour::polygon([[-half(i), s0], [half(i), s0], [half(j), s1], [-half(j), s1]]))
    };
    let lying = |slope: f64, z: f64, below: f64| {
        let (sin, cos) = slope.sin_cos();
        let toward = [-out * sin, 0.0, cos];
        let right = [0.0, if up { 1.0 } else { -1.0 }, 0.0];
        Placement::new([x - toward[0] * below, 0.0, z - toward[2] * below], right, [out * cos, 0.0, sin], toward)
    };
    let remarks = "exact inner face; corner welded from outside";
    add("floor", "transition floor", "TRFL", t, across(&floor), vec![lying(-floor.angle, a.1.low, t)], remarks);
    add("roof", "transition roof", "TRRF", t, across(&roof), vec![lying(roof.angle, a.1.high, 0.0)], remarks);
    // Cheeks: pattern x along the wall, y up.
    let cheek = Wall::new(run, (b.0.size() - a.0.size()) / 2.0, t);
    let [(s0, i), (s1, j)] = cheek.ends();
    let (low, high) = (|share: f64| between(a.1.low, b.1.low, share), |share: f64| between(a.1.high, b.1.high, share));
    let flat = FlatPattern::new(Contour::polygon([[s0, low(i)], [s1, low(j)], [s1, high(j)], [s0, high(i)]]));
    let standing = |side: f64| {
        let right = [out * cheek.angle.cos(), side * cheek.angle.sin(), 0.0];
        let toward = [-right[1], right[0], 0.0];
        // The marked face is outside on one cheek and inside on the other: the plate is the same.
        let back = if side * out > 0.0 { 0.0 } else { t };
        Placement::new([x - toward[0] * back, side * a.0.size() / 2.0 - toward[1] * back, 0.0], right, [0.0, 0.0, 1.0], toward)
    };
    add("cheek", "transition cheek", "TRCH", t, flat, vec![standing(1.0), standing(-1.0)], remarks);
    let feature = format!("inlet.{key}.from_width");
    let inner = throats::flange(shop, inlet.flange, a, Ring::Clear, [&feature, &format!("{key}-side inlet flange")]);
    let outer = throats::flange(shop, inlet.flange, b, Ring::Tapped, [&feature, &format!("{key}-side spout flange")]);
    let (Some((inner, _, _)), Some((outer, bolt, _))) = (inner, outer) else { return };
    let outer_holes: Vec<Xy> = outer.holes.iter().map(|h| h.at).collect();
    let upright = |back: f64| if up { Placement::up_end(back) } else { Placement::down_end(back) };
    add("inner_flange", "transition inner flange", "TRFI", tf, inner, vec![upright(inlet.flange_face + out * gasket)], "bolt ring of the throat's flange");
    add("outer_flange", "transition outer flange", "TRFO", thick, outer, vec![upright(tr.face - out * thick)], "bolt ring for the spout's flange, tapped");
    for (item, (id, name, code, thickness, flat, placements, remarks)) in (base..).zip(plates) {
        let (id, remarks) = (format!("{assembly}.{id}"), remarks.into());
        shop.plate(Draft { item, id: &id, code, name, thickness, flat, placements, hand: Hand::Neutral, sources: &sources, remarks });
    }
    joined(shop, inlet, tr, (bolt, &outer_holes));
}

/// Least width of an inlet's flange at whose bolts a spanner turns beside the walls of its transition, mm; none where there is no transition,
/// or where the flange is as wide.
pub fn narrower_than_spanners(spec: &Spec, foot: &Foot, inlet: &InletBody) -> Option<f64> {
    let shop = Shop::new(spec, foot);
    let tr = inlet.transition.as_ref()?;
    let run = (tr.face - inlet.flange_face).abs() - gasket(spec) - shop.frame_thickness() - throats::ring_thickness(&shop, inlet.flange);
    (run >= SHORTEST).then(|| steepest(inlet, tr, run)).and_then(|slope| throats::too_narrow_for_spanners(&shop, inlet.flange, slope))
}

/// How steeply the steepest wall rises from the inlet's flange over so long a run, rad.
fn steepest(inlet: &InletBody, tr: &Transition, run: f64) -> f64 {
    let (low, high) = (inlet.flange_sill, inlet.flange_sill + inlet.opening.size());
    let rises = [tr.opening.high - high, low - tr.opening.low, (tr.width.size() - inlet.width.size()) / 2.0];
    rises.map(|rise| (rise / run).atan()).into_iter().fold(0.0, f64::max)
}

/// Says how wide a flange has to be whose bolts have no room beside walls that rise so steeply.
fn room_for_heads(shop: &mut Shop, inlet: &InletBody, item: u32, steepest: f64) {
    let Some(least) = throats::too_narrow(shop, inlet.flange, steepest) else { return };
    let key = format!("inlet.{}.flange", inlet.side.key());
    let transition = throats::of_side(inlet.side, "the up-side transition", "the down-side transition");
    shop.defect(
        item,
        key.clone(),
        say!(
            "bolts of {transition} have no room beside its walls; give {key} at least {least}, or a longer transition",
            transition = transition,
            key = name(key),
            least = amount(least, Unit::Mm, 0),
        ),
    );
}

/// Says that a transition has to be at least this long, mm.
fn too_short(shop: &mut Shop, inlet: &InletBody, item: u32, least: f64) {
    let key = format!("inlet.{}.from_length", inlet.side.key());
    let transition = throats::of_side(inlet.side, "the up-side transition", "the down-side transition");
    shop.defect(
        item,
        key.clone(),
        say!(
            "{transition} is too short for its flanges; give {key} at least {least}",
            transition = transition,
            key = name(key),
            least = amount(least, Unit::Mm, 0),
        ),
    );
}

/// Bolts to the spout, seal and seams of a transition.
fn joined(shop: &mut Shop, inlet: &InletBody, tr: &Transition, (bolt, holes): (&Thread, &[Xy])) {
    let (t, tf, gasket) = (shop.foot.casing.plate, shop.frame_thickness(), gasket(shop.spec));
    let key = inlet.side.key();
    let of_side = |up: &'static str, down: &'static str| throats::of_side(inlet.side, up, down);
    let to_spout = || of_side("up-side transition to the spout", "down-side transition to the spout");
    shop.joint(to_spout(), &format!("{key}-side spout flange"), bolt, holes.len(), tf + gasket + throats::ring_thickness(shop, inlet.flange), Held::Tapped);
    let frame = goods::strip_round(shop, (tr.width, tr.opening), throats::bolt_line(shop, inlet.flange));
    let up = inlet.side == FeedSide::Up;
    let place = if up { Placement::up_end(tr.face) } else { Placement::down_end(tr.face) };
    let named = Statement::all(vec![to_spout(), say!("gasket")]);
    let bed = goods::Bed { frame, corner: 0.0, holes, bolt, place };
    goods::sheet_gasket(shop, if up { 212 } else { 232 }, &format!("transition.{key}.strip"), named, &bed, &format!("inlet.{key}.from_width"));
    let [roof, floor, cheek, flanges, flange] = ["roof", "floor", "cheek", "inner_flange", "outer_flange"].map(|piece| format!("transition.{key}.{piece}"));
    shop.fillet(
        format!("transition.{key}"),
        of_side("up-side transition: hips", "down-side transition: hips"),
        [&[&roof, &floor], &[&cheek]],
        Lay::Notch,
        t,
        true,
    );
    let ends = of_side("up-side transition to its flanges", "down-side transition to its flanges");
    let sides: Joins<'_> = [&[&roof, &floor, &cheek], &[&flanges, &flange]];
    shop.fillet(format!("transition.{key}"), ends, sides, Lay::Every, t, true);
}
