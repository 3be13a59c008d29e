//! What parts that are not plates look like: the sizes that their list text, mass and body all come from.
//!
//! In: sizes in mm. Out: a body in the part's own right-handed frame, symmetrical about its plane x = 0, so that it stands
//! in a machine of either hand. Threads are smooth, castings are their envelopes.

use super::flat::{Contour, FlatPattern, Xy};
use super::turned::{Keyway, Shaft};
use crate::geometry::{Edge, point};
use crate::solid::brep::{FLAT, Frame};
use crate::solid::build::{Fold, Section, bored, extrude, folded, keyed, revolved};
use crate::solid::plane::{Loop, area, reversed};
use crate::solid::{Brep, Refusal};
use crate::tables::fits::Fit;
use kurbo::Point;
use serde::Serialize;
use std::f64::consts::{PI, TAU};

/// What a ring spanner on a bolt's head is wide, as a share of the bolt's hole (ISO 4017 heads and ISO 273 medium holes, from memory: 1.75
/// across the corners of the head).
const HEAD: f64 = 2.1;

/// What a bearing unit is bolted on with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mount {
    /// A square flange across the shaft.
    Square,
    /// A flange with round ends across the shaft.
    Oval,
    /// A base beside the shaft.
    Base,
    /// A frame across the shaft that its block slides in, with ears for bolts above and below.
    Frame,
}

/// A bearing unit: its envelope.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Unit {
    /// What it is bolted on with.
    pub mount: Mount,
    /// Flange: across and up; base: from the base to the far side over the shaft, along the base; mm.
    pub size: Xy,
    /// Along the shaft, mm.
    pub depth: f64,
    /// How far the block of a frame stands off the face that the frame is bolted to, mm; 0 for others.
    pub off: f64,
    /// From the base to the shaft, mm; 0 for flanges.
    pub height: f64,
    /// Shaft, mm.
    pub bore: f64,
    /// Thickness of flange or base, mm.
    pub foot: f64,
    /// What its bolts are for, as the holes of the plate under it say.
    pub bolted: &'static str,
    /// Holes in a flange from the shaft, in a base along it and along the shaft, mm.
    pub holes: Vec<Xy>,
    /// Their diameter, mm.
    pub hole: f64,
}

/// What a part looks like.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// A turned shaft.
    Shaft(Box<Shaft>),
    /// A hub along z, its middle at z = 0; the keyway opens toward y.
    Hub {
        /// Outside, mm.
        diameter: f64,
        /// Bore, mm.
        bore: f64,
        /// How the bore is finished.
        fit: Fit,
        /// Length, mm.
        length: f64,
        /// Keyway over its whole length.
        keyway: Option<Keyway>,
    },
    /// A flat ring along z, its middle at z = 0, cut to fit.
    Ring {
        /// Outside, mm.
        diameter: f64,
        /// Inside, mm.
        bore: f64,
        /// Thickness, mm.
        length: f64,
    },
    /// A threaded rod along z, its middle at z = 0, reckoned and built as the full bar; its ends are chamfered down to the root
    /// of the thread.
    Rod {
        /// Diameter, mm.
        diameter: f64,
        /// Root of its thread, mm.
        root: f64,
        /// Length, mm.
        length: f64,
    },
    /// A hexagon nut along z from z = 0.
    Nut {
        /// Across flats, mm.
        flats: f64,
        /// Bore, mm.
        bore: f64,
        /// Height, mm.
        height: f64,
    },
    /// A parallel key along y, its middle at y = 0, from z = 0.
    Key {
        /// Width, mm.
        width: f64,
        /// Height, mm.
        height: f64,
        /// Length, mm.
        length: f64,
        /// Whether its ends are round.
        round: bool,
    },
    /// A bearing unit on a shaft along z; a flange stands on z = 0, a base is upright to y and its middle at z = 0.
    Unit(Unit),
    /// A sheet about x = 0 from z = 0, its middle at y = 0.
    Sheet {
        /// Across and up, mm.
        size: Xy,
        /// Thickness, mm.
        thickness: f64,
    },
    /// A mesh of round wires about x = 0, its middle at y = 0: its wires' steel spread into a sheet that ends at z = 0.
    Mesh {
        /// Across and up, mm.
        size: Xy,
        /// Clear opening between two wires, mm.
        opening: f64,
        /// Diameter of a wire, mm.
        wire: f64,
    },
    /// A gasket from z = 0, the middle of its outline at x = y = 0.
    Gasket(Gasket),
    /// What of an anchor bolt stands out of the floor, along z from z = 0.
    Anchor(Anchor),
    /// A grip of square bar: its bow along x, standing out to y from two legs on y = 0, from z = 0.
    Grip {
        /// Over both legs, mm.
        bow: f64,
        /// How far it stands out, mm.
        out: f64,
        /// The bar's side, mm.
        bar: f64,
    },
}

/// An anchor bolt over the floor, with washer, nut and lock nut on the pad that it holds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Anchor {
    /// Diameter, mm.
    pub diameter: f64,
    /// Thickness of the pad, mm.
    pub pad: f64,
    /// Diameter and thickness of the washer, mm.
    pub washer: Xy,
    /// Across flats and height of a nut, mm.
    pub nut: Xy,
    /// Its end over the floor, mm.
    pub end: f64,
}

impl Anchor {
    fn body(&self) -> Result<Brep, Refusal> {
        let [across, thick] = self.washer;
        let [flats, high] = self.nut;
        let top = self.pad + thick + 2.0 * high;
        let disc = |diameter: f64| vec![circle(Point::ZERO, diameter)];
        let pieces = [(0.0, self.pad, disc(self.diameter)), (self.pad, self.pad + thick, disc(across)), (self.pad + thick, top, vec![hexagon(flats)])];
        let end = (top, self.end.max(top + 1.0), disc(self.diameter));
        keyed(&pieces.into_iter().chain([end]).map(|(from, to, region)| Section::straight(from, to, region)).collect::<Vec<_>>(), &FLAT)
    }
}

/// A frame cut from sheet, pressed between two bolted plates.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gasket {
    /// Outside, across and up, mm.
    pub outer: Xy,
    /// Its opening, mm.
    pub inner: Xy,
    /// Radius of the corners, mm; 0 for sharp ones.
    pub corner: f64,
    /// Bolt holes from the middle, alike on both sides of x = 0, mm.
    pub holes: Vec<Xy>,
    /// Their diameter, mm.
    pub hole: f64,
    /// Thickness as pressed, mm.
    pub thickness: f64,
}

impl Gasket {
    fn body(&self) -> Result<Brep, Refusal> {
        let frame = |[a, b]: Xy| {
            let (low, high) = ([-a / 2.0, -b / 2.0], [a / 2.0, b / 2.0]);
            if self.corner > 0.0 { Contour::rounded(low, high, self.corner) } else { Contour::rectangle(low, high) }
        };
        let holes = self.holes.iter().map(|at| reversed(&circle(point(*at), self.hole)));
        let region: Vec<Loop> = [frame(self.outer).edges(), reversed(&frame(self.inner).edges())].into_iter().chain(holes).collect();
        extrude(&region, self.thickness, &FLAT)
    }
}

impl Shape {
    /// Its body.
    ///
    /// # Errors
    /// Sizes that leave no body.
    pub fn body(&self) -> Result<Brep, Refusal> {
        match self {
            Self::Shaft(shaft) => shaft.body(),
            Self::Hub { diameter, bore, length, keyway, .. } => {
                let inside = keyway.map_or_else(|| circle(Point::ZERO, *bore), |k| notched(*bore, k.width, bore / 2.0 + k.depth));
                keyed(&[Section::straight(-length / 2.0, length / 2.0, vec![circle(Point::ZERO, *diameter), reversed(&inside)])], &FLAT)
            }
            Self::Ring { diameter, bore, length } => {
                keyed(&[Section::straight(-length / 2.0, length / 2.0, vec![circle(Point::ZERO, *diameter), reversed(&circle(Point::ZERO, *bore))])], &FLAT)
            }
            Self::Rod { diameter, root, length } => rod(diameter / 2.0, root / 2.0, length / 2.0),
            Self::Nut { flats, bore, height } => extrude(&[hexagon(*flats), reversed(&circle(Point::ZERO, *bore))], *height, &FLAT),
            Self::Key { width, height, length, round } => {
                let outline = if *round {
                    Contour::upright_slot(0.0, -length / 2.0, length / 2.0, *width)
                } else {
                    Contour::rectangle([-width / 2.0, -length / 2.0], [width / 2.0, length / 2.0])
                };
                extrude(&[outline.edges()], *height, &FLAT)
            }
            Self::Unit(unit) => self::unit(unit),
            Self::Gasket(gasket) => gasket.body(),
            Self::Anchor(anchor) => anchor.body(),
            Self::Grip { bow, out, bar } => {
                let (half, leg) = (bow / 2.0, bow / 2.0 - bar);
                let corners = [[-half, 0.0], [-leg, 0.0], [-leg, out - bar], [leg, out - bar], [leg, 0.0], [half, 0.0], [half, *out], [-half, *out]];
                extrude(&[Contour::polygon(corners).edges()], *bar, &FLAT)
            }
            Self::Sheet { size, thickness } => sheet(*size, *thickness, &FLAT),
            Self::Mesh { size, opening, wire } => {
                // Two layers of wires, each a circle to a square of opening and wire.
                let spread = PI / 2.0 * wire * wire / (opening + wire);
                sheet(*size, spread, &Frame { origin: -spread * FLAT.axis, ..FLAT })
            }
        }
    }
}

fn sheet([a, b]: Xy, thickness: f64, frame: &Frame) -> Result<Brep, Refusal> {
    extrude(&[Contour::rectangle([-a / 2.0, -b / 2.0], [a / 2.0, b / 2.0]).edges()], thickness, frame)
}

fn rod(radius: f64, root: f64, half: f64) -> Result<Brep, Refusal> {
    let chamfer = (radius - root).clamp(0.1, half / 2.0);
    let small = radius - chamfer;
    revolved(&[[0.0, -half], [small, -half], [radius, chamfer - half], [radius, half - chamfer], [small, half], [0.0, half]], &FLAT)
}

fn circle(centre: Point, diameter: f64) -> Loop {
    vec![Edge::circle(centre, diameter / 2.0)]
}

/// A hexagon with two corners on x, by its size across flats, mm.
pub fn hexagon(flats: f64) -> Loop {
    Edge::chain(&[0, 1, 2, 3, 4, 5].map(|i| (Point::ZERO + kurbo::Vec2::from_angle(f64::from(i) * PI / 3.0) * (flats / 3.0_f64.sqrt()), 0.0)), true)
}

/// A circle with a keyway toward y, its floor at that height.
fn notched(diameter: f64, width: f64, floor: f64) -> Loop {
    let (r, half) = (diameter / 2.0, width / 2.0);
    let brim = (r * r - half * half).max(0.0).sqrt();
    let sweep = TAU - 2.0 * (half / r).min(1.0).asin();
    let corner = |x: f64, y: f64, bulge: f64| (Point::new(x, y), bulge);
    Edge::chain(&[corner(-half, brim, (sweep / 4.0).tan()), corner(half, brim, 0.0), corner(half, floor, 0.0), corner(-half, floor, 0.0)], true)
}

fn unit(u: &Unit) -> Result<Brep, Refusal> {
    let bore = reversed(&circle(Point::ZERO, u.bore));
    let [across, up] = u.size;
    let foot = match u.mount {
        Mount::Base => return pillow(u, bore),
        Mount::Frame => return frame(u, bore),
        Mount::Square => Contour::rounded([-across / 2.0, -up / 2.0], [across / 2.0, up / 2.0], across / 10.0),
        Mount::Oval => Contour::upright_slot(0.0, -up / 2.0, up / 2.0, across),
    };
    let holes = u.holes.iter().map(|at| reversed(&circle(point(*at), u.hole)));
    // The housing stands clear of edges and bolts.
    let clear = u.holes.iter().map(|[x, y]| 2.0 * x.hypot(*y) - HEAD * u.hole).fold(across.min(up), f64::min) - 4.0;
    let housing = clear.max(u.bore + 4.0);
    let thick = u.foot;
    let flange = std::iter::once(foot.edges()).chain([bore.clone()]).chain(holes).collect();
    keyed(&[Section::straight(0.0, thick, flange), Section::straight(thick, u.depth, vec![circle(Point::ZERO, housing), bore])], &FLAT)
}

/// A frame on z = 0, open round the shaft as far as its block stands off, closed there.
fn frame(u: &Unit, bore: Loop) -> Result<Brep, Refusal> {
    let [across, up] = u.size;
    let outline = |up: f64| Contour::rectangle([-across / 2.0, -up / 2.0], [across / 2.0, up / 2.0]).edges();
    let between = u.holes.iter().map(|[_, y]| 2.0 * y.abs() - HEAD * u.hole - 4.0).fold(up, f64::min).max(u.bore + 8.0);
    let opening = if u.off > 0.0 { reversed(&circle(Point::ZERO, (OPEN * across.min(between)).max(u.bore + 2.0))) } else { bore.clone() };
    let holes = u.holes.iter().map(|at| reversed(&circle(point(*at), u.hole)));
    let foot = [outline(up), opening.clone()].into_iter().chain(holes).collect();
    let back = if u.off > u.foot + 0.1 { u.off } else { u.foot };
    let mut sections = vec![Section::straight(0.0, u.foot, foot)];
    if back > u.foot {
        sections.push(Section::straight(u.foot, back, vec![outline(between), opening]));
    }
    sections.push(Section::straight(back, u.off + u.depth, vec![outline(between), bore]));
    keyed(&sections, &FLAT)
}

/// Opening of a take-up frame round the shaft as a share of its size (common practice, no source).
const OPEN: f64 = 0.7;

/// A block on a base at y = −height.
fn pillow(u: &Unit, bore: Loop) -> Result<Brep, Refusal> {
    let [over, along] = u.size;
    let r = (over - u.height).max(u.bore / 2.0 + 4.0);
    let half = (along / 2.0).max(r + 5.0);
    let foot = u.foot - u.height;
    let corner = |x: f64, y: f64, bulge: f64| (Point::new(x, y), bulge);
    let outline = [
        corner(-half, -u.height, 0.0),
        corner(half, -u.height, 0.0),
        corner(half, foot, 0.0),
        corner(r, foot, 0.0),
        corner(r, 0.0, 1.0),
        corner(-r, 0.0, 0.0),
        corner(-r, foot, 0.0),
        corner(-half, foot, 0.0),
    ];
    let block = keyed(&[Section::straight(-u.depth / 2.0, u.depth / 2.0, vec![Edge::chain(&outline, true), bore])], &FLAT)?;
    u.holes.iter().try_fold(block, |block, [x, z]| bored(block, [*x, *z], u.hole / 2.0, [-u.height, foot]))
}

/// Outline counter-clockwise, openings and holes clockwise.
pub fn region(flat: &FlatPattern) -> Vec<Loop> {
    let turning = |edges: Loop, ccw: bool| if (area(&edges) > 0.0) == ccw { edges } else { reversed(&edges) };
    let holes = flat.holes.iter().map(|h| Contour::Circle { centre: h.at, diameter: h.diameter });
    let inner = flat.openings.iter().map(|o| o.contour.clone()).chain(holes).map(|c| turning(c.edges(), false));
    std::iter::once(turning(flat.outer.edges(), true)).chain(inner).collect()
}

/// The body of a plate: flat, bent or rolled.
///
/// # Errors
/// A pattern that cannot be folded.
pub fn plate(flat: &FlatPattern, thickness: f64) -> Result<Brep, Refusal> {
    folded(&region(flat), &folds(flat), thickness)
}

fn folds(flat: &FlatPattern) -> Vec<Fold> {
    let fold = |b: &super::flat::Bend| Fold {
        start: b.start,
        flat_length: b.flat_length,
        angle: b.angle_deg.to_radians(),
        up: b.side == super::flat::BendSide::Up,
        inside_radius: b.inside_radius,
    };
    flat.bends.iter().map(fold).collect()
}
