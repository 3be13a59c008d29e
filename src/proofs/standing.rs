//! The pieces of a machine where they stand in a position of the take-up with its shafts turned, and which of them come near each other.
//!
//! In: bodies. Out: pieces with the boxes round them, pairs whose boxes meet, and the whole machine as it stands then.

use crate::machine::moves::{Moves, WITH_SHAFT, is_of, rises};
use crate::machine::{Body, Machine};
use crate::parts::placement::Placement;
use crate::solid::overlap::Stood;
use crate::solid::within::{Bounds, Within};
use glam::{DAffine3, DMat3, DVec3};

/// A position of the take-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Position {
    /// As the bodies stand.
    Lowest,
    /// Half way up.
    Middle,
    /// All the way up.
    Highest,
}

impl Position {
    /// All of them, from below.
    pub const ALL: [Self; 3] = [Self::Lowest, Self::Middle, Self::Highest];

    /// How far up, as a share of the travel.
    pub const fn share(self) -> f64 {
        match self {
            Self::Lowest => 0.0,
            Self::Middle => 0.5,
            Self::Highest => 1.0,
        }
    }
}

/// How a machine stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// Position of the take-up.
    pub position: Position,
    /// How far the shafts are turned with what is on them, degrees; belt and buckets are left out of a machine whose shafts are turned.
    pub turned: f64,
}

/// How far shafts are turned besides as they are drawn, degrees: shares of a turn that no number of wings divides.
const TURNS: [f64; 2] = [17.0, 101.0];

impl Stance {
    /// As the shafts are drawn.
    pub const fn at(position: Position) -> Self {
        Self { position, turned: 0.0 }
    }
    /// Every position, shafts as they are drawn and turned; the first as the bodies stand.
    pub fn all() -> Vec<Self> {
        let turned = |turned: f64| Position::ALL.map(|position| Self { position, turned });
        [0.0].into_iter().chain(TURNS).flat_map(turned).collect()
    }
    /// Where a body of the machine has gone to in this stance; none where it is not shown.
    fn way(self, body: &Body, highest: bool, travel: f64, axes: &Axes) -> Option<DAffine3> {
        let shown = match self.position {
            Position::Lowest => !highest,
            Position::Middle => !highest && !runs(body),
            Position::Highest => highest || !runs(body),
        };
        let turns = axes.of(body);
        let up = DAffine3::from_translation(DVec3::Z * if rises(&body.id, body.moves) { travel * self.position.share() } else { 0.0 });
        let round = turns.filter(|_| self.turned != 0.0).map_or(DAffine3::IDENTITY, |axis| {
            DAffine3::from_translation(axis) * DAffine3::from_rotation_y(self.turned.to_radians()) * DAffine3::from_translation(-axis)
        });
        (shown && !(self.turned != 0.0 && runs(body))).then_some(up * round)
    }
}

/// On the axes of both shafts, as the bodies stand; both lie across the machine.
#[derive(Debug, Clone, Copy)]
struct Axes {
    foot: Option<DVec3>,
    bend: Option<DVec3>,
}

impl Axes {
    fn new(machine: &Machine) -> Self {
        let of = |id: &str| machine.bodies.iter().find(|b| b.id == id).and_then(|b| b.places.first()).map(|p| DVec3::from_array(p.origin));
        Self { foot: of("shaft"), bend: of("bend_shaft") }
    }
    /// The one that a body turns about.
    fn of(&self, body: &Body) -> Option<DVec3> {
        let turns = body.moves == Moves::Shaft && body.item.is_some();
        if turns { if WITH_SHAFT.iter().any(|f| is_of(&body.id, f)) { self.foot } else { self.bend } } else { None }
    }
}

/// The machine as it stands then, for who wants to see it.
pub fn stood(machine: &Machine, travel: f64, stance: Stance) -> Machine {
    let axes = Axes::new(machine);
    let moved = |body: &Body, highest: bool| {
        let way = stance.way(body, highest, travel, &axes)?;
        let (point, vector) =
            (|p: [f64; 3]| way.transform_point3(DVec3::from_array(p)).to_array(), |v: [f64; 3]| way.transform_vector3(DVec3::from_array(v)).to_array());
        let places = body.places.iter().map(|p| Placement::new(point(p.origin), vector(p.right), vector(p.up), vector(p.toward)));
        Some(Body { places: places.collect(), ..body.clone() })
    };
    let bodies = machine.bodies.iter().map(|b| (b, false)).chain(machine.highest.iter().map(|b| (b, true)));
    Machine { bodies: bodies.filter_map(|(b, highest)| moved(b, highest)).collect(), highest: Vec::new(), bodiless: Vec::new(), left: machine.left }
}

/// What makes up a machine, read once for all positions.
#[derive(Debug)]
pub struct Read<'a> {
    bodies: Vec<(&'a Body, Within<'a>)>,
    /// The bodies that stand otherwise at the highest begin here.
    highest: usize,
    axes: Axes,
}

/// A piece where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Piece<'a> {
    /// What it is a piece of.
    pub body: &'a Body,
    /// Which of its pieces.
    pub place: usize,
    /// Where it is.
    pub stood: Stood<'a>,
    /// Whether the take-up moves it.
    pub rises: bool,
    /// Whether a shaft turns it.
    pub turns: bool,
    /// Whether it stands in this position alone.
    pub alone: bool,
}

/// Where a placement puts a body, in the model.
pub fn pose(place: &Placement) -> DAffine3 {
    let [x, y, z, o] = [place.right, place.up, place.toward, place.origin].map(DVec3::from_array);
    DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o }
}

/// Whether a body runs with the belt: where it is in another position is another question.
fn runs(body: &Body) -> bool {
    body.moves == Moves::Shaft && body.item.is_none()
}

impl<'a> Read<'a> {
    /// Reads the bodies of a machine.
    pub fn new(machine: &'a Machine) -> Self {
        let bodies = machine.bodies.iter().chain(&machine.highest).map(|body| (body, Within::new(&body.brep))).collect();
        Self { bodies, highest: machine.bodies.len(), axes: Axes::new(machine) }
    }

    /// Where a body has gone to in a stance from where it stands.
    pub fn way(&self, body: &Body, stance: Stance, travel: f64) -> DAffine3 {
        stance.way(body, false, travel, &self.axes).unwrap_or(DAffine3::IDENTITY)
    }

    /// All pieces in a stance; belt and buckets where the machine knows where they are.
    pub fn pieces(&self, stance: Stance, travel: f64) -> Vec<Piece<'_>> {
        let those = self.bodies.iter().enumerate();
        let each = those.filter_map(|(index, (body, within))| {
            let way = stance.way(body, index >= self.highest, travel, &self.axes)?;
            Some((index, body, within, way))
        });
        let stands = each.flat_map(|(index, body, within, way)| {
            let (rises, turns) = (rises(&body.id, body.moves), self.axes.of(body).is_some());
            body.places.iter().enumerate().map(move |(place, at)| {
                let stood = Stood::new(within, way * pose(at));
                Piece { body, place, stood, rises, turns, alone: runs(body) || index >= self.highest }
            })
        });
        stands.collect()
    }
}

/// Pairs of boxes that meet, by their indices, the smaller first; in order.
pub fn pairs(boxes: &[Bounds]) -> Vec<(usize, usize)> {
    let all = Bounds::round(boxes.iter().copied());
    let size = (all.high - all.low).to_array();
    let axis = (0..3).max_by(|a, b| size[*a].total_cmp(&size[*b])).unwrap_or(0);
    let mut order: Vec<usize> = (0..boxes.len()).collect();
    order.sort_by(|a, b| boxes[*a].low[axis].total_cmp(&boxes[*b].low[axis]));
    let (mut open, mut out): (Vec<usize>, Vec<(usize, usize)>) = (Vec::new(), Vec::new());
    for index in order {
        let begin = boxes[index].low[axis];
        open.retain(|other| boxes[*other].high[axis] >= begin);
        out.extend(open.iter().filter(|other| boxes[**other].meets(&boxes[index])).map(|other| (index.min(*other), index.max(*other))));
        open.push(index);
    }
    out.sort_unstable();
    out
}
