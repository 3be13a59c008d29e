//! What closes the openings: tapped frames on the walls, mesh guards, door leaves, panels, clean-out covers.
//!
//! All of one opening's plates take their holes from one ring, 15 mm outside the clear opening. The
//! frame is welded to the wall and tapped, so that nothing has to be held inside. The mesh guard keeps
//! its place by countersunk screws of its own when the leaf is off: it needs a tool.

use super::bolts::{self, Held, PITCH};
use super::down_profile::{DownProfile, away};
use super::flat::{Contour, FlatPattern, Xy};
use super::goods;
use super::placement::Placement;
use super::shape::Shape;
use super::shop::{Draft, Fitting, Form, Shop, gasket};
use super::{Hand, Kind, Lay, piece_of};
use crate::formulas::mass::STEEL_KG_PER_M3;
use crate::model::frame::Extent;
use crate::model::openings::{Opening, OpeningKind};
use crate::say;
use crate::say::{Statement, amount, size};
use crate::spec::openings::Wall;
use crate::tables::threads::Thread;
use crate::units::Unit;

/// Corner radius of openings, mm.
pub const CORNER: f64 = 5.0;
/// Least radius of inner corners, mm (common practice for cutting).
pub const INNER: f64 = 2.0;
const MESH_FRAME: f64 = 3.0;
/// Countersunk screws that may hold it, the thickest first: the head lies in it, so that the leaf closes over it.
const MESH_SCREWS: [&str; 3] = ["M8", "M6", "M5"];
/// Least thickness of the frame round a removal panel, mm (common practice, no source).
const REMOVAL_FRAME: f64 = 12.0;
/// Ribs on a removal panel stand no further apart than so many of its thicknesses (common practice, no source).
const RIB_PITCH: f64 = 60.0;
/// How far ribs stand out, mm, and how far their ends stay off the panel's opening.
const RIB: [f64; 2] = [40.0, 5.0];
/// Corners cut off ribs, mm.
const RIB_CORNER: f64 = 15.0;
/// Length of a bead of a rib's staggered seam, and from one to the next, mm (common practice, no source).
const RIB_BEAD: f64 = 75.0;
/// How far the guard's frame stands into the clear opening to hold the mesh, mm.
const MESH_EDGE: f64 = 10.0;
/// From the mesh to the frame that it lies in, mm.
const MESH_PLAY: f64 = 2.0;

/// The opening as cut in its wall, and the placement of a plate on the wall's outer face in the same coordinates.
fn on_wall(shop: &Shop, o: &Opening) -> Option<(Extent, Extent, Placement)> {
    let c = &shop.foot.casing;
    let outer = c.width.high + c.plate;
    Some(match o.wall {
        Wall::Near => (o.across, o.up, Placement::near(outer)),
        Wall::Far => (Extent::new(-o.across.high, -o.across.low), o.up, Placement::far(-outer)),
        Wall::UpEnd => (Extent::new(-o.across.high, -o.across.low), o.up, Placement::up_end(c.up_face + c.plate)),
        Wall::DownEnd => {
            let profile = DownProfile::of(shop);
            let (a, i) = profile.at_height(o.up.low)?;
            let (b, _) = profile.at_height(o.up.high)?;
            let s = profile.straights.get(i)?;
            let n = away(s);
            let place = Placement::new(
                [s.from[0] + n[0] * c.plate, 0.0, s.from[1] + n[1] * c.plate],
                [0.0, 1.0, 0.0],
                [s.along[0], 0.0, s.along[1]],
                [n[0], 0.0, n[1]],
            );
            (o.across, Extent::new(a - s.start, b - s.start), place)
        }
    })
}

/// Adds the closures of every opening that is cut.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    let (mut doors, mut panels, mut cleans) = (0_u32, 0_u32, 0_u32);
    for o in &foot.openings {
        if !shop.is_cut(&format!("{}.width", o.id)) {
            continue;
        }
        let (item, code, what) = match o.kind {
            OpeningKind::Door { .. } => {
                doors += 1;
                (if doors < 10 { 300 + 10 * doors } else { 600 + 10 * doors }, "DR", numbered("inspection door", doors))
            }
            OpeningKind::SensorPanel => {
                panels += 1;
                (400 + 10 * panels, "SP", numbered("sensor panel", panels))
            }
            OpeningKind::CleanOut => {
                cleans += 1;
                (470 + 10 * cleans, "CO", if o.wall == Wall::UpEnd { say!("clean-out up") } else { say!("clean-out down") })
            }
            OpeningKind::Removal => (460, "RP", say!("removal panel")),
        };
        closure(shop, o, item, code, &what);
    }
}

/// One of several alike.
fn numbered(thing: &'static str, number: u32) -> Statement {
    say!("{thing} {number}", thing = thing, number = number)
}

/// What closes an opening: a frame on the wall, a mesh guard, a leaf or cover.
struct Closure<'a> {
    o: &'a Opening,
    item: u32,
    code: &'a str,
    what: &'a Statement,
    across: Extent,
    up: Extent,
    /// The wall's outer face.
    wall: Placement,
    hand: Hand,
    bolt: &'static Thread,
    /// Of the mesh guard.
    screw: &'static Thread,
    lap: f64,
    /// Of the leaf or cover.
    holes: Vec<Xy>,
    /// Of the mesh guard.
    screws: Vec<Xy>,
    feature: String,
}

fn closure(shop: &mut Shop, o: &Opening, item: u32, code: &str, what: &Statement) {
    let Some((across, up, wall)) = on_wall(shop, o) else { return };
    let sinks = |t: &&Thread| t.countersunk().is_some_and(|head| head.head_mm <= shop.stock().plate_mm(MESH_FRAME));
    let Some((bolt, screw)) = shop.bolt("M8").zip(MESH_SCREWS.into_iter().filter_map(|m| shop.bolt(m)).find(sinks)) else { return };
    let lap = shop.foot.lap;
    let hand = match o.wall {
        Wall::Near => Hand::Near,
        Wall::Far => Hand::Far,
        _ => Hand::Neutral,
    };
    let holes = bolts::ring(across.grown(lap / 2.0), up.grown(lap / 2.0), PITCH, shop.stock());
    let mesh = match o.kind {
        OpeningKind::Door { mesh } => mesh,
        _ => None,
    };
    let screws = if mesh.is_some() { mesh_screws(&holes) } else { Vec::new() };
    let feature = format!("{}.width", o.id);
    let closure = Closure { o, item, code, what, across, up, wall, hand, bolt, screw, lap, holes, screws, feature };
    let mut height = closure.frame(shop);
    if let Some(opening) = mesh {
        height += closure.guard(shop, opening, height);
    }
    closure.gasket(shop, height);
    height += gasket(shop.spec);
    height += closure.leaf(shop, height, mesh.is_some());
    if o.kind == OpeningKind::Removal {
        closure.ribs(shop, height);
    }
    if o.kind != OpeningKind::SensorPanel {
        closure.grip(shop, height);
    }
}

impl Closure<'_> {
    fn outer(&self) -> Contour {
        Contour::rounded([self.across.low - self.lap, self.up.low - self.lap], [self.across.high + self.lap, self.up.high + self.lap], CORNER)
    }
    fn inner(&self) -> Contour {
        Contour::rounded([self.across.low, self.up.low], [self.across.high, self.up.high], CORNER)
    }
    /// A plate's place `height` off the wall.
    fn outward(&self, height: f64) -> Placement {
        self.wall.moved(self.wall.toward.map(|d| d * height))
    }

    /// Thickness of the frame, mm: the bar round a removal panel carries what the plate carried that is cut out there.
    fn frame_thickness(&self, shop: &Shop) -> f64 {
        if self.o.kind == OpeningKind::Removal { shop.stock().at_least_mm(shop.frame_thickness().max(REMOVAL_FRAME)) } else { shop.frame_thickness() }
    }

    /// The frame, tapped for leaf and guard. Out: its thickness, mm.
    fn frame(&self, shop: &mut Shop) -> f64 {
        let tf = self.frame_thickness(shop);
        let mut frame = FlatPattern::new(self.outer());
        frame.open(&self.feature, self.inner());
        frame.tapped(self.bolt, &self.o.id, self.holes.iter().copied());
        frame.tapped(self.screw, &format!("{} mesh", self.o.id), self.screws.iter().copied());
        shop.plate(Draft {
            item: self.item + 1,
            id: &format!("{}.frame", self.o.id),
            code: &format!("{}FR", self.code),
            name: piece_of(self.what, "frame"),
            thickness: tf,
            flat: frame,
            placements: vec![self.outward(0.0)],
            hand: self.hand,
            sources: &[&self.feature],
            remarks: "welded to the wall, tapped".into(),
        });
        tf
    }

    /// The fixed guard of wire mesh. Out: its thickness, mm.
    fn guard(&self, shop: &mut Shop, opening: f64, height: f64) -> f64 {
        let (tf, guard_t) = (shop.frame_thickness(), shop.stock().plate_mm(MESH_FRAME));
        let mut guard = FlatPattern::new(self.outer());
        // It covers the edge of the mesh, which lies behind it within the frame.
        let (across, up) = (self.across.grown(-MESH_EDGE), self.up.grown(-MESH_EDGE));
        guard.open(&self.feature, Contour::rounded([across.low, up.low], [across.high, up.high], CORNER));
        guard.clear(self.bolt, &self.o.id, self.holes.iter().copied());
        guard.countersunk(self.screw, &format!("{} mesh", self.o.id), self.screws.iter().copied());
        shop.plate(Draft {
            item: self.item + 2,
            id: &format!("{}.mesh_frame", self.o.id),
            code: &format!("{}MF", self.code),
            name: piece_of(self.what, "mesh guard frame"),
            thickness: guard_t,
            flat: guard,
            placements: vec![self.outward(height)],
            hand: self.hand,
            sources: &[&self.feature],
            remarks: "mesh welded on all round; fixed guard, screws countersunk".into(),
        });
        let mesh = [self.across.size() - 2.0 * MESH_PLAY, self.up.size() - 2.0 * MESH_PLAY];
        let area = mesh[0] * mesh[1] * 1e-6;
        let shape = Shape::Mesh { size: mesh, opening, wire: mesh_wire(opening) };
        let place = self.outward(height).at(self.across.middle(), self.up.middle());
        shop.fitting(Fitting {
            item: self.item + 3,
            id: &format!("{}.mesh", self.o.id),
            name: piece_of(self.what, "wire mesh"),
            kind: Kind::Bought,
            material: "steel wire".into(),
            dimension: say!(
                "square opening {opening}, {width} × {height}",
                opening = amount(opening, Unit::Mm, shop.decimals().max(1)),
                width = size(mesh[0], shop.decimals()),
                height = size(mesh[1], shop.decimals()),
            ),
            form: Form(shape, true, vec![place]),
            paint_m2: 2.0 * area,
            sources: &[&self.feature],
            remarks: "opening not larger than given: safety distance".into(),
        });
        shop.joint(
            say!("{opening}: mesh guard to frame", opening = self.what.clone()),
            &format!("{} mesh", self.o.id),
            self.screw,
            self.screws.len(),
            guard_t + tf,
            Held::Countersunk,
        );
        let [mesh, frame] = ["mesh", "mesh_frame"].map(|piece| format!("{}.{piece}", self.o.id));
        shop.fillet(&mesh, "wire mesh to its guard frame", [&[&mesh], &[&frame]], Lay::First, mesh_wire(opening), false);
        guard_t
    }

    /// Leaf or cover, its bolts, gasket and the frame's seam. Out: its thickness, mm.
    fn leaf(&self, shop: &mut Shop, height: f64, guarded: bool) -> f64 {
        let leaf_t = shop.stock().plate_mm(shop.foot.casing.plate.clamp(4.0, 6.5));
        let mut leaf = FlatPattern::new(self.outer());
        leaf.clear(self.bolt, &self.o.id, self.holes.iter().copied());
        shop.plate(Draft {
            item: self.item + 4,
            id: &format!("{}.leaf", self.o.id),
            code: &format!("{}LF", self.code),
            name: piece_of(self.what, if matches!(self.o.kind, OpeningKind::Door { .. }) { "leaf" } else { "cover" }),
            thickness: leaf_t,
            flat: leaf,
            placements: vec![self.outward(height)],
            hand: self.hand,
            sources: &[&self.feature],
            remarks: if self.o.kind == OpeningKind::SensorPanel { say!("sensor hole to be drilled for the sensor bought") } else { Statement::default() },
        });
        let clamped = leaf_t + height;
        let opening = self.what.clone();
        let joined =
            if guarded { say!("{opening}: leaf and mesh guard to frame", opening = opening) } else { say!("{opening}: cover to frame", opening = opening) };
        shop.joint(joined, &self.o.id, self.bolt, self.holes.len(), clamped, Held::Tapped);
        shop.fillet(
            format!("{}.frame", self.o.id),
            say!("{opening}: frame to the wall", opening = self.what.clone()),
            [&[&format!("{}.frame", self.o.id)], &["side_plate", "end_plate", "bottom"]],
            Lay::Every,
            shop.foot.casing.plate,
            true,
        );
        leaf_t
    }

    /// What lies under leaf or cover, `height` off the wall.
    fn gasket(&self, shop: &mut Shop, height: f64) {
        let bed = goods::Bed {
            frame: [(self.across.grown(self.lap), self.up.grown(self.lap)), (self.across, self.up)],
            corner: CORNER,
            holes: &self.holes,
            bolt: self.bolt,
            place: self.outward(height),
        };
        goods::sheet_gasket(shop, self.item + 6, &format!("{}.gasket", self.o.id), piece_of(self.what, "gasket"), &bed, &self.feature);
    }

    /// Flat bars across a large panel, `height` off the wall: an even number, so that its middle stays free for the grip.
    fn ribs(&self, shop: &mut Shop, height: f64) {
        let (stock, tf) = (shop.stock(), shop.frame_thickness());
        let leaf = stock.plate_mm(shop.foot.casing.plate.clamp(4.0, 6.5));
        let pairs = ((self.up.size() / (RIB_PITCH * leaf) - 1.0) / 2.0).ceil().max(1.0);
        let count = 2 * pairs as u32;
        let [depth, off] = RIB.map(|mm| stock.width_mm(mm));
        let (length, cut) = (stock.step_mm() * ((self.across.size() - 2.0 * off) / stock.step_mm() + 1e-6).floor(), stock.width_mm(RIB_CORNER));
        let half = length / 2.0;
        let mut flat = FlatPattern::new(Contour::polygon([
            [-half, 0.0],
            [half, 0.0],
            [half, depth - cut],
            [half - cut, depth],
            [cut - half, depth],
            [-half, depth - cut],
        ]));
        let cover = (self.across.size() + 2.0 * self.lap) * (self.up.size() + 2.0 * self.lap) * leaf * STEEL_KG_PER_M3 * 1e-9;
        let slung = cover > goods::BY_HAND_KG;
        if slung {
            flat.round(goods::sling_hole(stock), goods::SLING, [-0.25, 0.25].map(|share| [share * length, depth / 2.0]));
        }
        let pitch = self.up.size() / f64::from(count + 1);
        let face = self.outward(height);
        let down = face.up.map(|d| 0.0 - d);
        let placements = (1..=count).map(|n| {
            let foot = face.at(self.across.middle(), self.up.low + f64::from(n) * pitch + tf / 2.0).origin;
            Placement::new(foot, face.right, face.toward, down)
        });
        let id = format!("{}.rib", self.o.id);
        shop.plate(Draft {
            item: self.item + 7,
            id: &id,
            code: &format!("{}RB", self.code),
            name: piece_of(self.what, "rib"),
            thickness: tf,
            flat,
            placements: placements.collect(),
            hand: Hand::Neutral,
            sources: &[&self.feature],
            remarks: if slung { say!("on edge across the cover, welded on; holes for slings") } else { say!("on edge across the cover, welded on") },
        });
        let bead = stock.width_mm(RIB_BEAD);
        let lay = Lay::Staggered { bead, gap: bead };
        shop.fillet(&id, "ribs to their cover", [&[&id], &[&format!("{}.leaf", self.o.id)]], lay, leaf, false);
    }

    fn grip(&self, shop: &mut Shop, height: f64) {
        let id = format!("{}.grip", self.o.id);
        let on = (self.outward(height), 0.0, [self.across.middle(), self.up.middle()]);
        goods::grip(shop, self.item + 5, &id, piece_of(self.what, "grip handle"), on, &self.feature);
    }
}

/// Midway between the first and the last two leaf holes of the lower and the upper row.
fn mesh_screws(ring: &[Xy]) -> Vec<Xy> {
    let low = ring.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
    let high = ring.iter().map(|p| p[1]).fold(f64::NEG_INFINITY, f64::max);
    let mut out: Vec<Xy> = Vec::new();
    for z in [low, high] {
        let mut row: Vec<f64> = ring.iter().filter(|p| (p[1] - z).abs() < 1e-6).map(|p| p[0]).collect();
        row.sort_by(f64::total_cmp);
        let mut middles: Vec<f64> = row.windows(2).map(|w| w.iter().sum::<f64>() / 2.0).collect();
        if middles.len() > 2 {
            middles = [middles.first(), middles.last()].into_iter().flatten().copied().collect();
        }
        out.extend(middles.into_iter().map(|x| [x, z]));
    }
    out
}

/// Wire of a mesh, mm: a sixth of its opening, at least 1.5 mm (common practice, no source).
fn mesh_wire(opening: f64) -> f64 {
    (opening / 6.0).max(1.5)
}
