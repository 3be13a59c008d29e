//! What the shop hands over: parts, joints, welds, seals, and what cannot be made.

use super::flat::{FlatPattern, Stretch};
use super::placement::Placement;
use super::shape::{self, Shape};
use crate::formulas::mass::STEEL_KG_PER_M3;
use crate::model::frame::ModelPoint;
use crate::say;
use crate::say::{Statement, Value};
use crate::solid::brep::FLAT;
use crate::solid::mass::{Mass, mass, prism};
use crate::solid::touch::Run;
use crate::solid::{Brep, Refusal};
use crate::tables::butt_joints::Preparation;
use serde::Serialize;

/// How a part comes to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Cut from plate; has a flat pattern and a cutting file.
    Plate,
    /// Turned or sawn from round bar or tube.
    Turned,
    /// Bought; made by others.
    Bought,
}

impl Kind {
    /// Word on lists.
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Plate => "cut",
            Kind::Turned => "turned",
            Kind::Bought => "bought",
        }
    }
}

/// Which side a part belongs to, where that makes a difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hand {
    /// Fits on either side.
    Neutral,
    /// Near side only.
    Near,
    /// Far side only.
    Far,
}

impl Hand {
    /// Word on lists; `-` when it makes no difference.
    pub const fn word(self) -> &'static str {
        match self {
            Hand::Neutral => "-",
            Hand::Near => "near",
            Hand::Far => "far",
        }
    }
}

/// One line of the parts list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// Item number: the same on parts list, balloon and cutting file; stable for a family of parts.
    pub item: u32,
    /// Stable id, e.g. `side_plate.near`.
    pub id: String,
    /// Up to four capitals for the file name.
    pub code: String,
    /// What it is: a noun, then what tells it from others of its kind, each a statement of its own
    /// (`inspection door 1`, `frame`).
    pub name: Statement,
    /// How it comes to be.
    pub kind: Kind,
    /// Steel by its name, or another material in words.
    pub material: Statement,
    /// Plate thickness, mm; 0 for parts that are not plates.
    pub thickness: f64,
    /// Main dimensions as written on a parts list.
    pub dimension: Statement,
    /// Pieces.
    pub quantity: u32,
    /// Which side.
    pub hand: Hand,
    /// Flat pattern of a plate.
    pub flat: Option<FlatPattern>,
    /// Mass of one piece, kg; `None` when only its maker knows.
    pub mass_kg: Option<f64>,
    /// Painted surface of one piece, m².
    pub paint_m2: f64,
    /// Ids of the model features or spec tables it comes from.
    pub sources: Vec<String>,
    /// What a part that is not a plate looks like.
    pub shape: Option<Shape>,
    /// Whether its mass is that of its body in steel; else only its maker knows it.
    pub of_steel: bool,
    /// Where each piece of a plate or of a part with a shape stands, one a piece.
    pub placements: Vec<Placement>,
    /// Centre of gravity of a piece with a body, in its own frame: pattern's x and y and height over the back face, mm.
    pub centre: [f64; 3],
    /// Standard, finish, what else the list should say.
    pub remarks: Statement,
}

impl Part {
    /// The pieces of its name that stand between commas.
    pub fn name_pieces(&self) -> Vec<Statement> {
        pieces(&self.name)
    }
    /// Name of its steel; `None` for a material in words.
    pub fn steel(&self) -> Option<&str> {
        match self.material.value("name") {
            Some(Value::Name(steel)) => Some(steel),
            _ => None,
        }
    }
    /// Its body in its own frame, right-handed: pattern's x and y and height over the back face, or as its shape says; `None`
    /// where neither is known.
    pub fn body(&self) -> Option<Result<Brep, Refusal>> {
        let of_plate = self.flat.as_ref().map(|flat| shape::plate(flat, self.thickness));
        of_plate.or_else(|| self.shape.as_ref().map(Shape::body))
    }
    /// Takes mass and centre of gravity from its body; a body that cannot be built leaves them.
    pub(super) fn weigh(&mut self) {
        let weighed: Option<Mass> = match &self.flat {
            // What the body of a flat plate would say, without building it.
            Some(flat) if flat.bends.is_empty() => Some(prism(&shape::region(flat), self.thickness, &FLAT)),
            _ => self.body().and_then(Result::ok).map(|body| mass(&body)),
        };
        let Some(weighed) = weighed else { return };
        self.centre = weighed.centroid.to_array();
        self.mass_kg = self.of_steel.then_some(weighed.volume * STEEL_KG_PER_M3 * 1e-9);
    }
    /// Mass of all pieces, kg.
    pub fn total_kg(&self) -> Option<f64> {
        self.mass_kg.map(|m| m * f64::from(self.quantity))
    }
}

/// What stands between the commas of a name.
pub fn pieces(name: &Statement) -> Vec<Statement> {
    match name.value("all") {
        Some(Value::All(pieces)) => pieces.clone(),
        _ => vec![name.clone()],
    }
}

/// A name with one more piece behind it.
pub fn piece_of(whole: &Statement, piece: impl Into<Statement>) -> Statement {
    let mut all = pieces(whole);
    all.push(piece.into());
    Statement::all(all)
}

/// A group of equal bolts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Joint {
    /// What is joined.
    pub what: Statement,
    /// What its holes in the plates are for, as the holes themselves say.
    pub feature: String,
    /// Thread.
    pub thread: String,
    /// Bolt length, mm.
    pub length: f64,
    /// What lies between its head and its nut or the back of the tapped plate, mm.
    pub clamped: f64,
    /// Pieces.
    pub quantity: u32,
    /// Whether a nut holds it (else a tapped plate).
    pub nut: bool,
    /// Whether that nut is welded to its plate: where no hand gets to it.
    pub welded: bool,
    /// Whether the head is countersunk.
    pub countersunk: bool,
    /// Mass of one with nut and washers, kg.
    pub mass_kg: f64,
}

impl Joint {
    /// Washers of one bolt: under its head unless that is sunk, under a nut that is not welded on.
    pub fn washers(&self) -> u32 {
        u32::from(!self.countersunk) + u32::from(self.nut && !self.welded)
    }
}

/// In which of the corners between its parts a fillet is laid.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Lay {
    /// In every one: on both sides of a plate that stands on another, round one that lies on another.
    Every,
    /// Along the edges of the parts on its first side alone.
    First,
    /// In those that open away from the belt's middle plane.
    Outside,
    /// In the notch outside plates that meet corner to corner, away from the corner that they make inside.
    Notch,
    /// On both sides of a plate in turns.
    Staggered {
        /// Length of one bead, mm.
        bead: f64,
        /// From one bead to the next on the same side, mm; no shorter than a bead.
        gap: f64,
    },
}

/// A stretch of a seam.
#[derive(Debug, Clone, PartialEq)]
pub struct Bead {
    /// Where it runs; of a butt weld, one of the edges that meet.
    pub run: Run,
    /// Whether one of the same seam runs on the other side of the plate.
    pub both: bool,
    /// Whether it is part of a ring: the seam goes all round there.
    pub round: bool,
}

/// A weld seam.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Weld {
    /// Stable number.
    pub number: u32,
    /// Id of the part or assembly that it belongs to: `side_plate.near`, `throat.up`, `door[1].frame`.
    pub of: String,
    /// What it joins.
    pub what: Statement,
    /// Ids of the parts on its one side and on its other side: a part, or a family whose ids go on after a point.
    pub joins: [Vec<String>; 2],
    /// Fillet, or butt for splices.
    pub fillet: bool,
    /// How a fillet is laid.
    pub lay: Lay,
    /// Throat a of a fillet (0.7 × the thinner plate), or the depth of a butt weld, mm.
    pub size: f64,
    /// Leg that a US job states of a fillet in place of its throat, mm.
    pub us_leg: Option<f64>,
    /// Length of all its beads together, mm.
    pub length: f64,
    /// How the edges of a butt weld are prepared; none of a fillet.
    pub preparation: Option<Preparation>,
    /// Continuous and dust tight: it closes the casing.
    pub tight: bool,
    /// A butt weld that is ground flush with its plates: something slides or lies on it.
    pub ground: bool,
    /// Where it runs in the model.
    #[serde(skip)]
    pub beads: Vec<Bead>,
    /// Where the faces of what a fillet joins are flush: there the joint is seen from its other side.
    #[serde(skip)]
    pub flush: Vec<Run>,
}

/// A seal or gasket strip, by the metre.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Seal {
    /// Where it goes.
    pub what: Statement,
    /// What it is.
    pub material: Statement,
    /// Length, mm.
    pub length: f64,
}

/// Something that cannot be made as the spec asks, or offends a rule of the shop.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Defect {
    /// Item number, 0 when no part was made.
    pub item: u32,
    /// Spec path of what asks for it.
    pub path: String,
    /// What is wrong, with its numbers.
    pub what: Statement,
}

impl Defect {
    /// What is wrong, with the item that it is wrong with.
    pub fn said(&self) -> Statement {
        if self.item == 0 { self.what.clone() } else { say!("item {item}: {what}", item = self.item, what = self.what.clone()) }
    }
}

/// Where a piece of a plate is set on the marked face of another.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Seat {
    /// Id of what is set there.
    pub part: String,
    /// Which of its pieces, in the order of its placements.
    pub piece: usize,
    /// Id of the plate that it is set on.
    pub on: String,
    /// Which of that one's pieces.
    pub on_piece: usize,
    /// Its edges on the marked face, in that plate's pattern, mm; not cut off at openings.
    pub outline: Vec<Stretch>,
}

impl Seat {
    /// The box of its outline in the model, lowest and highest corner, mm, given the plate that it is set on; `None` for another plate.
    pub fn reach(&self, on: &Part) -> Option<[[f64; 3]; 2]> {
        let (flat, place) = on.flat.as_ref().filter(|_| on.id == self.on).zip(on.placements.get(self.on_piece))?;
        let points = self.outline.iter().flat_map(|s| s.edge().chords(0.2)).flat_map(|c| [c.p0, c.p1]);
        let points = points.map(|p| place.folded(&flat.bends, on.thickness, p.x, p.y, on.thickness)).map(|p| [p.x, p.y, p.z]);
        let joined = |a: [[f64; 3]; 2], b: [[f64; 3]; 2]| [[0, 1, 2].map(|i| a[0][i].min(b[0][i])), [0, 1, 2].map(|i| a[1][i].max(b[1][i]))];
        points.map(|p| [p, p]).reduce(joined)
    }
}

/// Everything that is made, bought and joined.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Parts {
    /// By item number.
    pub items: Vec<Part>,
    /// Bolted joints.
    pub joints: Vec<Joint>,
    /// Welds.
    pub welds: Vec<Weld>,
    /// Seals.
    pub seals: Vec<Seal>,
    /// Where welded plates are set on others.
    pub seats: Vec<Seat>,
    /// What cannot be made.
    pub defects: Vec<Defect>,
    /// Revision that the files are marked with.
    pub revision: String,
    /// Whether they are made of US stock.
    pub us: bool,
}

impl Parts {
    /// The part with this id.
    pub fn part(&self, id: &str) -> Option<&Part> {
        self.items.iter().find(|p| p.id == id)
    }
    /// Total mass of all parts and bolts whose mass is known, kg, and their centre of gravity (bolts left out of the centre).
    pub fn mass_and_centre(&self) -> (f64, [f64; 3]) {
        let mut mass = 0.0;
        let mut placed = 0.0;
        let mut moment = [0.0; 3];
        for part in &self.items {
            let Some(kg) = part.mass_kg else { continue };
            mass += kg * f64::from(part.quantity);
            for centre in centres(part) {
                placed += kg;
                for i in 0..3 {
                    moment[i] += kg * centre[i];
                }
            }
        }
        mass += self.joints.iter().map(|j| j.mass_kg * f64::from(j.quantity)).sum::<f64>();
        let centre = if placed > 0.0 { moment.map(|m| m / placed) } else { [0.0; 3] };
        (mass, centre)
    }
}

/// Centres of gravity of all placed pieces of a part, model mm.
pub fn centres(part: &Part) -> Vec<[f64; 3]> {
    let [x, y, h] = part.centre;
    part.placements
        .iter()
        .map(|p| {
            let ModelPoint { x, y, z } = p.point(x, y, h);
            [x, y, z]
        })
        .collect()
}
