//! Where families of parts put what they make: plates, bought parts, joints, welds, seals, defects.
//!
//! In: drafts in model coordinates. Out: collected parts, not yet tagged, marked or checked (see
//! `finish`). It also keeps the [`Zones`] that openings and fittings claim on the walls.

use super::bolts::{self, Held};
use super::flat::{Contour, FlatPattern, Hole, HoleMade, Opening, Sunk, Xy};
use super::placement::Placement;
use super::shape::Shape;
use super::zones::Zones;
use super::{Defect, Hand, Joint, Kind, Lay, Part, Seal, Weld};
use crate::formulas::{bend_allowance, fillet_weld};
use crate::model::Foot;
use crate::say;
use crate::say::{Statement, size};
use crate::sizing::frame;
use crate::spec::Spec;
use crate::tables::butt_joints;
use crate::tables::plates::{self, Stock};
use crate::tables::steels;
use crate::tables::threads::Thread;

/// Thickness of a gasket between bolted plates, mm.
pub fn gasket(spec: &Spec) -> f64 {
    spec.stock().fine_mm(3.0)
}

/// Main dimensions of a plate: thickness, then both sizes of its pattern.
pub fn plate_dimension(thickness: f64, [width, height]: Xy, decimals: u8) -> Statement {
    say!("t={t} × {width} × {height}", t = size(thickness, decimals), width = size(width, decimals), height = size(height, decimals))
}

/// Collects parts.
pub struct Shop<'a> {
    /// The settled spec.
    pub spec: &'a Spec,
    /// The model.
    pub foot: &'a Foot,
    /// Claimed rectangles on the walls.
    pub zones: Zones,
    pub(super) parts: Vec<Part>,
    pub(super) joints: Vec<Joint>,
    pub(super) welds: Vec<Weld>,
    pub(super) seals: Vec<Seal>,
    pub(super) defects: Vec<Defect>,
}

/// A plate as a family hands it over: flat pattern in any origin, placements for that same origin.
pub struct Draft<'a> {
    /// Item number.
    pub item: u32,
    /// Stable id.
    pub id: &'a str,
    /// Up to four capitals.
    pub code: &'a str,
    /// What it is.
    pub name: Statement,
    /// Thickness, mm.
    pub thickness: f64,
    /// Flat pattern.
    pub flat: FlatPattern,
    /// One for each piece; they hold for the pattern's own (0, 0).
    pub placements: Vec<Placement>,
    /// Which side.
    pub hand: Hand,
    /// Features or spec tables it comes from.
    pub sources: &'a [&'a str],
    /// What the list should add; nothing for most.
    pub remarks: Statement,
}

/// A turned or bought part as a family hands it over.
pub struct Fitting<'a> {
    /// Item number.
    pub item: u32,
    /// Stable id.
    pub id: &'a str,
    /// What it is.
    pub name: Statement,
    /// How it comes to be.
    pub kind: Kind,
    /// Steel by its name, or another material in words.
    pub material: Statement,
    /// Main dimensions.
    pub dimension: Statement,
    /// What it looks like, and where.
    pub form: Form,
    /// Painted surface of one piece, m².
    pub paint_m2: f64,
    /// Features or spec tables it comes from.
    pub sources: &'a [&'a str],
    /// What the list should add.
    pub remarks: Statement,
}

/// What is asked of a butt weld.
#[derive(Debug, Clone, Copy)]
pub struct Butt {
    /// Whether it closes the casing.
    pub tight: bool,
    /// Whether it is ground flush: something slides or lies on it.
    pub ground: bool,
}

impl Butt {
    /// It closes the casing.
    pub const TIGHT: Self = Self { tight: true, ground: false };
    /// Something lies on it.
    pub const FLUSH: Self = Self { tight: false, ground: true };
}

/// Ids of the parts on the two sides of a seam.
pub type Joins<'a> = [&'a [&'a str]; 2];

fn owned(joins: Joins<'_>) -> [Vec<String>; 2] {
    joins.map(|side| side.iter().map(|id| (*id).to_string()).collect())
}

/// What a fitting looks like and where its pieces stand: its shape, whether it is steel all through ([`Part::of_steel`]), and a
/// placement a piece.
pub struct Form(pub Shape, pub bool, pub Vec<Placement>);

impl<'a> Shop<'a> {
    /// An empty shop.
    pub fn new(spec: &'a Spec, foot: &'a Foot) -> Self {
        Self { spec, foot, zones: Zones::new(foot), parts: Vec::new(), joints: Vec::new(), welds: Vec::new(), seals: Vec::new(), defects: Vec::new() }
    }
    /// Whether inch bolts are used.
    pub fn us(&self) -> bool {
        self.spec.us()
    }
    /// Plates and bars that the shop buys.
    pub fn stock(&self) -> Stock {
        self.spec.stock()
    }
    /// Decimals of a length in mm that a parts list keeps: none, or as many as a fraction of an inch needs.
    pub fn decimals(&self) -> u8 {
        if self.us() { 2 } else { 0 }
    }
    /// A bolt by its metric name.
    pub fn bolt(&self, metric: &str) -> Option<&'static Thread> {
        bolts::bolt(metric, self.us())
    }
    /// Thickness of flange and frame bars that take bolts, mm: 8, and at least the wall's.
    pub fn frame_thickness(&self) -> f64 {
        frame::thickness(self.foot.casing.plate, self.stock())
    }
    /// Inside radius of a press-brake bend, mm: least by DIN 6935 for the steel, else the thickness.
    pub fn bend_radius(&self, thickness: f64) -> f64 {
        let tensile = steels::find(&self.spec.casing.material.value).map_or(490.0, |s| s.tensile_mpa);
        plates::least_bend_radius_mm(thickness, tensile).or_else(|| plates::least_bend_radius_mm(thickness, 490.0)).unwrap_or(2.5 * thickness)
    }
    /// Neutral line in a bend as a share of the thickness.
    pub fn k_factor(&self, radius: f64, thickness: f64) -> f64 {
        self.spec.fabrication.k_factor.value.map_or_else(|| bend_allowance::k_factor(radius, thickness), |k| k.value())
    }

    /// Takes a plate.
    pub fn plate(&mut self, draft: Draft<'_>) {
        let (low, high) = draft.flat.outer.bounds();
        let flat = draft.flat.mapped(false, |p: Xy| [p[0] - low[0], p[1] - low[1]]);
        let [width, height] = [high[0] - low[0], high[1] - low[1]];
        let area = flat.area();
        let digits = self.decimals() + 1;
        self.parts.push(Part {
            item: draft.item,
            id: draft.id.into(),
            code: draft.code.into(),
            name: draft.name,
            kind: Kind::Plate,
            material: Statement::named(self.spec.casing.material.value.as_str()),
            thickness: draft.thickness,
            dimension: plate_dimension(draft.thickness, [width, height], digits),
            quantity: u32::try_from(draft.placements.len()).unwrap_or(1).max(1),
            hand: draft.hand,
            mass_kg: None,
            paint_m2: 2.0 * area * 1e-6,
            flat: Some(flat),
            shape: None,
            of_steel: true,
            sources: draft.sources.iter().map(|s| (*s).to_string()).collect(),
            placements: draft.placements.iter().map(|p| p.at(low[0], low[1])).collect(),
            centre: [0.0; 3],
            remarks: draft.remarks,
        });
    }

    /// Takes a part that is not a plate.
    pub fn fitting(&mut self, fitting: Fitting<'_>) {
        let Form(shape, of_steel, placements) = fitting.form;
        self.parts.push(Part {
            item: fitting.item,
            id: fitting.id.into(),
            code: String::new(),
            name: fitting.name,
            kind: fitting.kind,
            material: fitting.material,
            thickness: 0.0,
            dimension: fitting.dimension,
            quantity: u32::try_from(placements.len()).unwrap_or(1).max(1),
            hand: Hand::Neutral,
            flat: None,
            shape: Some(shape),
            of_steel,
            mass_kg: None,
            paint_m2: fitting.paint_m2,
            sources: fitting.sources.iter().map(|s| (*s).to_string()).collect(),
            placements,
            centre: [0.0; 3],
            remarks: fitting.remarks,
        });
    }

    /// Counts bolts of a joint that clamps `clamped` mm, through the holes for `feature`.
    pub fn joint(&mut self, what: impl Into<Statement>, feature: &str, thread: &Thread, quantity: usize, clamped: f64, held: Held) {
        if quantity == 0 {
            return;
        }
        let length = bolts::length(thread, clamped, held);
        self.joints.push(Joint {
            what: what.into(),
            feature: feature.into(),
            thread: thread.name.into(),
            length,
            clamped,
            quantity: u32::try_from(quantity).unwrap_or(u32::MAX),
            nut: matches!(held, Held::Nut | Held::WeldNut),
            welded: held == Held::WeldNut,
            countersunk: held == Held::Countersunk,
            mass_kg: bolts::mass(thread, length, held),
        });
    }
    /// A fillet weld of the part or assembly with this id, between the parts of its two sides, the thinner `thin` mm thick. Where it
    /// runs and how long it is follows from their bodies.
    pub fn fillet(&mut self, of: impl Into<String>, what: impl Into<Statement>, joins: Joins<'_>, lay: Lay, thin: f64, tight: bool) {
        let number = u32::try_from(self.welds.len()).unwrap_or(0) + 1;
        let size = fillet_weld::throat_mm(thin);
        let us_leg = self.us().then(|| fillet_weld::shop_leg_mm(size));
        let (of, what, joins) = (of.into(), what.into(), owned(joins));
        self.welds.push(Weld {
            number,
            of,
            what,
            joins,
            fillet: true,
            lay,
            size,
            us_leg,
            length: 0.0,
            preparation: None,
            tight,
            ground: false,
            beads: Vec::new(),
            flush: Vec::new(),
        });
    }
    /// A seal.
    pub fn seal(&mut self, what: impl Into<Statement>, material: impl Into<Statement>, length: f64) {
        self.seals.push(Seal { what: what.into(), material: material.into(), length });
    }
    /// Something that cannot be made, and the spec path of what asks for it.
    pub fn defect(&mut self, item: u32, path: impl Into<String>, what: impl Into<Statement>) {
        self.defects.push(Defect { item, path: path.into(), what: what.into() });
    }
}

impl FlatPattern {
    /// Adds clearance holes for a bolt.
    pub fn clear(&mut self, thread: &Thread, feature: &str, at: impl IntoIterator<Item = Xy>) {
        let diameter = bolts::hole(thread);
        self.round(diameter, feature, at);
    }
    /// Adds clearance holes for a countersunk screw, sunk on the marked face; plain ones where the screw has no such head.
    pub fn countersunk(&mut self, thread: &Thread, feature: &str, at: impl IntoIterator<Item = Xy>) {
        let known = self.holes.len();
        self.clear(thread, feature, at);
        let sunk = thread.countersunk().map(|head| Sunk { diameter: head.diameter_mm, angle_deg: head.angle_deg });
        self.holes.iter_mut().skip(known).for_each(|hole| hole.sunk = sunk);
    }
    /// Adds tapped holes.
    pub fn tapped(&mut self, thread: &Thread, feature: &str, at: impl IntoIterator<Item = Xy>) {
        self.holes.extend(at.into_iter().map(|at| Hole {
            tag: String::new(),
            at,
            diameter: thread.tap_drill_mm,
            thread: Some(thread.name.into()),
            sunk: None,
            made: HoleMade::Drilled,
            feature: feature.into(),
        }));
    }
    /// Adds round holes.
    pub fn round(&mut self, diameter: f64, feature: &str, at: impl IntoIterator<Item = Xy>) {
        self.holes.extend(at.into_iter().map(|at| Hole {
            tag: String::new(),
            at,
            diameter,
            thread: None,
            sunk: None,
            made: HoleMade::Cut,
            feature: feature.into(),
        }));
    }
    /// Adds an opening.
    pub fn open(&mut self, feature: &str, contour: Contour) {
        self.openings.push(Opening { feature: feature.into(), contour });
    }
}

impl Shop<'_> {
    /// Whether some plate has an opening for this feature, i.e. whether it could be cut.
    pub fn is_cut(&self, feature: &str) -> bool {
        self.parts.iter().filter_map(|p| p.flat.as_ref()).any(|f| f.openings.iter().any(|o| o.feature == feature))
            || self.parts.iter().any(|p| p.id.starts_with("end_plate") && p.sources.iter().any(|s| s == feature))
    }
}

impl Shop<'_> {
    /// A butt weld of a part through its whole thickness: its pieces to each other, or its own ends; its length and thickness, mm,
    /// and what is done.
    pub fn butt(&mut self, of: impl Into<String>, what: impl Into<Statement>, joins: Joins<'_>, (length, thickness): (f64, f64), butt: Butt) {
        let number = u32::try_from(self.welds.len()).unwrap_or(0) + 1;
        let (of, joins) = (of.into(), owned(joins));
        let (what, size) = (what.into(), thickness);
        let lay = Lay::Every;
        self.welds.push(Weld {
            number,
            of,
            what,
            joins,
            fillet: false,
            lay,
            size,
            us_leg: None,
            length,
            preparation: Some(butt_joints::of(thickness, self.us())),
            tight: butt.tight,
            ground: butt.ground,
            beads: Vec::new(),
            flush: Vec::new(),
        });
    }
}
