//! What a sheet author writes: one view, in real millimetres of its own plane.
//!
//! A [`Draft`] collects strokes, hatches, notes, balloons, levels and dimension requests. It says
//! *what* is shown; the layout decides *where* texts, dimension lines and leaders stand on paper.
//! Dimensions carry the key of the feature they measure and always print the drawn distance.
//! A draft promises nothing about space: whatever is asked for is placed, or reported as a defect.

use super::mark::{PlanePoint, Shape, Vertex};
use super::shown::Shown;
use super::style::Pen;
use crate::say::Statement;

pub use super::request::{Chain, DimensionRequest, Quantity, Side};

/// The scale of a view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ViewScale {
    /// The main scale of the sheet.
    Main,
    /// Real mm per paper mm, fixed: 5.0 is 1:5, 0.5 is 2:1.
    Ratio(f64),
    /// The largest standard scale at which the view keeps within this width and height, paper mm; printed under its title.
    Within {
        /// Largest width on paper, mm.
        width: f64,
        /// Largest height on paper, mm.
        height: f64,
    },
    /// A picture without a scale (isometric): as [`ViewScale::Within`], but nothing is printed.
    Picture {
        /// Largest width on paper, mm.
        width: f64,
        /// Largest height on paper, mm.
        height: f64,
    },
}

/// What a cut region is made of; decides the hatch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Material {
    /// Steel: 45° lines; plates too thin for lines are filled.
    Metal,
    /// Steel of a neighbouring part: 135° lines.
    MetalOther,
    /// Concrete: wide lines in two spacings.
    Concrete,
    /// Lean concrete under a slab.
    LeanConcrete,
    /// Soil behind and under walls.
    Earth,
    /// Belt and rubber: filled.
    Belt,
    /// Timber, plastics: lines at 60°, wide.
    Other,
    /// Bulk material: sparse lines at 30°.
    Product,
    /// Solid black.
    Solid,
}

/// One thing shown in a view, in the view's own plane, real mm.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// A stroke.
    Stroke {
        /// What is drawn.
        shape: Shape<PlanePoint>,
        /// With which pen.
        pen: Pen,
    },
    /// A cut region.
    Hatch {
        /// Outer loop first, then holes.
        loops: Vec<Shape<PlanePoint>>,
        /// What it is made of.
        material: Material,
        /// Mean width of the widest region of the same part, real mm; 0 where it stands alone.
        widest: f64,
    },
    /// Centre cross of a circle; the layout lets it overshoot 3 paper mm.
    Cross {
        /// Its centre.
        centre: PlanePoint,
        /// Radius of the circle, real mm.
        radius: f64,
    },
    /// A centre line; the layout lets it overshoot 3 paper mm at both ends.
    Axis {
        /// One end on the outline.
        from: PlanePoint,
        /// Other end on the outline.
        to: PlanePoint,
    },
    /// Lettering inside the view, centred on a point (moved a little if a line is in the way).
    Label {
        /// Wanted centre.
        at: PlanePoint,
        /// What it says.
        text: String,
    },
    /// A short tag beside a point (hole tag); the layout finds a free spot next to it.
    Tag {
        /// The point.
        at: PlanePoint,
        /// Radius of the feature around the point that the tag must clear, real mm.
        clear: f64,
        /// What it says.
        text: String,
    },
    /// A note on a leader, in a column beside the view.
    Leader {
        /// Where the leader points.
        at: PlanePoint,
        /// What it says; long notes are wrapped, `\n` breaks a line.
        text: String,
        /// Wanted side, or `None`.
        side: Option<Side>,
    },
    /// An item number in a circle on a leader.
    Balloon {
        /// Where the leader points.
        at: PlanePoint,
        /// Item number of the parts list.
        item: String,
        /// Wanted side, or `None`.
        side: Option<Side>,
    },
    /// A weld sign on a leader.
    Weld {
        /// The joint.
        at: PlanePoint,
        /// The weld.
        weld: Weld,
        /// Wanted side, or `None`.
        side: Option<Side>,
    },
    /// A sign that stands on the outline: surface texture, tolerance of run-out, datum.
    Sign {
        /// The point of the outline.
        at: PlanePoint,
        /// How far it may stand off that point to both sides of it along a level outline, real mm.
        slide: f64,
        /// What it says.
        sign: Sign,
        /// To which side of the outline it stands.
        side: Side,
    },
    /// A level mark beside the view.
    Level {
        /// A point at that level, where the level line begins.
        at: PlanePoint,
        /// Level above the plant floor ±0.000, real mm.
        level: f64,
        /// A few words after the number, may be empty.
        text: String,
        /// Left or right; `None` is right.
        side: Option<Side>,
    },
    /// An arrow of material flow.
    Flow {
        /// Its tail.
        from: PlanePoint,
        /// Its head.
        to: PlanePoint,
        /// Open arrows are return or air flow.
        filled: bool,
    },
    /// A cutting plane with letters and arrows at both ends.
    Cut {
        /// Section letter.
        letter: String,
        /// One end.
        from: PlanePoint,
        /// Other end.
        to: PlanePoint,
        /// The arrows point to this side of the line.
        look: Side,
    },
    /// A reference arrow: from where another view looks, with that view's letter (ISO 128-3, from memory).
    Arrow {
        /// The view's letter.
        letter: String,
        /// A point at the height, or above or below which it stands beside the outline.
        at: PlanePoint,
        /// The side of the view that it stands on; it points inward.
        side: Side,
    },
    /// The circle around an enlarged detail, with its letter.
    DetailCircle {
        /// Detail letter.
        letter: String,
        /// Its centre.
        centre: PlanePoint,
        /// Its radius, real mm.
        radius: f64,
    },
    /// A north arrow in the corner of the view.
    North {
        /// Direction of north from +x in the view, degrees.
        angle: f64,
    },
    /// The marked origin of ordinates (hole tables): two arrows and a dot.
    Origin {
        /// Where it is.
        at: PlanePoint,
    },
}

/// A weld sign: ISO 2553 system A, in US jobs AWS A2.4 (both from memory).
#[derive(Debug, Clone, PartialEq)]
pub struct Weld {
    /// Kind of joint preparation.
    pub kind: WeldKind,
    /// Size as the sign has it: `a3` (throat, ISO), `3/16"` (leg, US).
    pub size: String,
    /// Drawn as US shops read it: no identification line, the weld of the arrow side below the line.
    pub us: bool,
    /// On which side of the joint the weld lies.
    pub side: WeldSide,
    /// Beads of an intermittent weld, behind the symbol: `24×75`, in US jobs `3-6`, length and pitch; may be empty.
    pub beads: String,
    /// What is open between them, after the beads: `(75)`; may be empty.
    pub gap: String,
    /// All round.
    pub all_round: bool,
    /// The direction from which its arrow comes, of unit length, where the leader would else run along an edge; none elsewhere.
    pub from: Option<[f64; 2]>,
    /// Numbers in the weld list that it stands for.
    pub seams: Vec<u32>,
    /// The same in words, e.g. `seam 12`; the first of the tail, may be empty.
    pub reference: String,
    /// Tail note, e.g. `dust tight`, may be empty.
    pub tail: String,
}

/// On which side of a joint a weld lies, seen from where its sign points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WeldSide {
    /// Where the arrow points.
    Arrow,
    /// Behind the joint: the symbol hangs from the identification line, in US jobs it stands above the reference line.
    Other,
    /// On both sides.
    Both,
    /// On both sides in turns: intermittent and staggered.
    Staggered,
}

/// Kind of weld.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WeldKind {
    /// Fillet weld.
    Fillet,
    /// Square butt weld.
    SquareButt,
    /// Single-V butt weld.
    VButt,
}

impl Weld {
    /// All that stands in the tail.
    pub fn whole_tail(&self) -> String {
        let both = if self.reference.is_empty() || self.tail.is_empty() { "" } else { ", " };
        format!("{}{both}{}", self.reference, self.tail)
    }

    /// A fillet weld with its size as written, e.g. `a3`, drawn as on ISO sheets.
    pub fn fillet(size: impl Into<String>) -> Self {
        Self {
            kind: WeldKind::Fillet,
            size: size.into(),
            us: false,
            side: WeldSide::Arrow,
            beads: String::new(),
            gap: String::new(),
            all_round: false,
            from: None,
            seams: Vec::new(),
            reference: String::new(),
            tail: String::new(),
        }
    }
}

/// A sign on the outline of a turned part (ISO 21920-1 and ASME Y14.36; ISO 1101, ISO 5459 and ASME Y14.5; from memory).
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sign {
    /// Surface texture, material removed: `Ra 0.8` under the line, in US jobs the roughness beside the hook.
    Texture {
        /// As written.
        text: String,
        /// Drawn as US shops read it.
        us: bool,
    },
    /// Circular run-out in a tolerance frame.
    RunOut {
        /// As written.
        tolerance: String,
        /// Letters of the datums, e.g. `A–B`.
        datums: String,
    },
    /// A datum by its letter.
    Datum(String),
}

/// One view as its author describes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// Stable id, e.g. `elevation`.
    pub id: String,
    /// Title above the view in English (translated through the word table), e.g. `SECTION A–A`; may be empty.
    pub title: Statement,
    /// Scale of the view.
    pub scale: ViewScale,
    /// What is shown.
    pub items: Vec<Item>,
    /// What is dimensioned.
    pub dimensions: Vec<DimensionRequest>,
    /// Which bodies it was drawn from, a picture each.
    pub shown: Vec<Shown>,
}

impl Draft {
    /// An empty view at the sheet's main scale.
    pub fn new(id: impl Into<String>, title: impl Into<Statement>) -> Self {
        Self { id: id.into(), title: title.into(), scale: ViewScale::Main, items: Vec::new(), dimensions: Vec::new(), shown: Vec::new() }
    }

    /// The same view at a scale of its own.
    pub fn at_scale(mut self, scale: ViewScale) -> Self {
        self.scale = scale;
        self
    }

    /// Any stroke.
    pub fn stroke(&mut self, pen: Pen, shape: Shape<PlanePoint>) {
        self.items.push(Item::Stroke { shape, pen });
    }

    /// A straight line.
    pub fn line(&mut self, pen: Pen, from: impl Into<PlanePoint>, to: impl Into<PlanePoint>) {
        self.stroke(pen, Shape::Line { from: from.into(), to: to.into() });
    }

    /// A circle without centre lines.
    pub fn circle(&mut self, pen: Pen, centre: impl Into<PlanePoint>, radius: f64) {
        self.stroke(pen, Shape::Circle { centre: centre.into(), radius });
    }

    /// A circle with its centre cross: a hole, a pulley, a shaft.
    pub fn hole(&mut self, pen: Pen, centre: impl Into<PlanePoint>, radius: f64) {
        let centre = centre.into();
        self.circle(pen, centre, radius);
        self.centre_cross(centre, radius);
    }

    /// An arc from `start` over `sweep`, both in degrees, positive counter-clockwise.
    pub fn arc(&mut self, pen: Pen, centre: impl Into<PlanePoint>, radius: f64, start: f64, sweep: f64) {
        self.stroke(pen, Shape::Arc { centre: centre.into(), radius, start: start.to_radians(), sweep: sweep.to_radians() });
    }

    /// A closed polygon.
    pub fn polygon<P: Into<PlanePoint>>(&mut self, pen: Pen, corners: impl IntoIterator<Item = P>) {
        self.stroke(pen, Shape::polygon(corners.into_iter().map(Into::into)));
    }

    /// An open chain of straight lines.
    pub fn polyline<P: Into<PlanePoint>>(&mut self, pen: Pen, corners: impl IntoIterator<Item = P>) {
        self.stroke(pen, Shape::chain(corners.into_iter().map(Into::into)));
    }

    /// An upright rectangle between two opposite corners.
    pub fn rectangle(&mut self, pen: Pen, low: impl Into<PlanePoint>, high: impl Into<PlanePoint>) {
        self.stroke(pen, rectangle(low.into(), high.into()));
    }

    /// A closed contour of straight edges and arcs (bulge = tan(sweep/4)).
    pub fn contour(&mut self, pen: Pen, vertices: Vec<Vertex<PlanePoint>>) {
        self.stroke(pen, Shape::Polyline { vertices, closed: true });
    }

    /// A cut region: outer loop first, then holes; closed polylines or circles.
    pub fn hatch(&mut self, material: Material, loops: Vec<Shape<PlanePoint>>) {
        self.hatch_like(material, loops, 0.0);
    }

    /// The same of a part whose widest region is so wide, real mm: all regions of one part look alike, filled or hatched.
    pub fn hatch_like(&mut self, material: Material, loops: Vec<Shape<PlanePoint>>, widest: f64) {
        self.items.push(Item::Hatch { loops, material, widest });
    }

    /// A centre line between two points of the outline; overshoots 3 mm on paper.
    pub fn centre_line(&mut self, from: impl Into<PlanePoint>, to: impl Into<PlanePoint>) {
        self.items.push(Item::Axis { from: from.into(), to: to.into() });
    }

    /// The centre cross of a circle; overshoots 3 mm on paper.
    pub fn centre_cross(&mut self, centre: impl Into<PlanePoint>, radius: f64) {
        self.items.push(Item::Cross { centre: centre.into(), radius });
    }

    /// Lettering inside the view, about this point.
    pub fn label(&mut self, at: impl Into<PlanePoint>, text: impl Into<String>) {
        self.items.push(Item::Label { at: at.into(), text: text.into() });
    }

    /// A short tag beside a feature of radius `clear` (real mm), e.g. a hole tag.
    pub fn tag(&mut self, at: impl Into<PlanePoint>, clear: f64, text: impl Into<String>) {
        self.items.push(Item::Tag { at: at.into(), clear, text: text.into() });
    }

    /// A note on a leader.
    pub fn leader(&mut self, at: impl Into<PlanePoint>, text: impl Into<String>, side: impl Into<Option<Side>>) {
        self.items.push(Item::Leader { at: at.into(), text: text.into(), side: side.into() });
    }

    /// An item balloon.
    pub fn balloon(&mut self, at: impl Into<PlanePoint>, item: impl ToString, side: impl Into<Option<Side>>) {
        self.items.push(Item::Balloon { at: at.into(), item: item.to_string(), side: side.into() });
    }

    /// A weld sign on a leader.
    pub fn weld(&mut self, at: impl Into<PlanePoint>, weld: Weld, side: impl Into<Option<Side>>) {
        self.items.push(Item::Weld { at: at.into(), weld, side: side.into() });
    }

    /// A sign on the outline, just there.
    pub fn sign(&mut self, at: impl Into<PlanePoint>, sign: Sign, side: Side) {
        self.sign_about(at, 0.0, sign, side);
    }

    /// A sign on a level outline, there or up to `slide` real mm beside it.
    pub fn sign_about(&mut self, at: impl Into<PlanePoint>, slide: f64, sign: Sign, side: Side) {
        self.items.push(Item::Sign { at: at.into(), slide, sign, side });
    }

    /// A level mark; `level` is real mm above ±0.000.
    pub fn level(&mut self, at: impl Into<PlanePoint>, level: f64, text: impl Into<String>, side: impl Into<Option<Side>>) {
        self.items.push(Item::Level { at: at.into(), level, text: text.into(), side: side.into() });
    }

    /// An arrow of material flow.
    pub fn flow_arrow(&mut self, from: impl Into<PlanePoint>, to: impl Into<PlanePoint>) {
        self.items.push(Item::Flow { from: from.into(), to: to.into(), filled: true });
    }

    /// A cutting plane; its arrows point to `look`.
    pub fn cutting_plane(&mut self, letter: impl Into<String>, from: impl Into<PlanePoint>, to: impl Into<PlanePoint>, look: Side) {
        self.items.push(Item::Cut { letter: letter.into(), from: from.into(), to: to.into(), look });
    }

    /// A reference arrow on a side of this view, toward it: from there another view looks, whose title has the letter.
    pub fn view_arrow(&mut self, letter: impl Into<String>, at: impl Into<PlanePoint>, side: Side) {
        self.items.push(Item::Arrow { letter: letter.into(), at: at.into(), side });
    }

    /// The circle around an enlarged detail.
    pub fn detail_circle(&mut self, letter: impl Into<String>, centre: impl Into<PlanePoint>, radius: f64) {
        self.items.push(Item::DetailCircle { letter: letter.into(), centre: centre.into(), radius });
    }

    /// A north arrow; `angle` is the direction of north from +x, degrees.
    pub fn north(&mut self, angle: f64) {
        self.items.push(Item::North { angle });
    }

    /// The marked origin of a hole table.
    pub fn origin(&mut self, at: impl Into<PlanePoint>) {
        self.items.push(Item::Origin { at: at.into() });
    }

    /// A dimension beside the view; returns it for refinement, e.g. `.prefix("⌀")`, `.reference()`.
    ///
    /// `Above` and `Below` measure horizontally, `Left` and `Right` vertically, whatever the points' other coordinate.
    pub fn dimension(&mut self, side: Side, key: impl Into<String>, first: impl Into<PlanePoint>, second: impl Into<PlanePoint>) -> &mut DimensionRequest {
        self.request(DimensionRequest::new(key, Quantity::Linear { side, first: first.into(), second: second.into() }))
    }

    /// The true distance of two points, dimension line parallel to them.
    pub fn aligned(&mut self, key: impl Into<String>, first: impl Into<PlanePoint>, second: impl Into<PlanePoint>) -> &mut DimensionRequest {
        self.request(DimensionRequest::new(key, Quantity::Aligned { first: first.into(), second: second.into() }))
    }

    /// Several dimensions in one line: from `start` to the first point, on to the next, …; each with its key.
    pub fn chain<K: Into<String>, P: Into<PlanePoint>>(&mut self, side: Side, id: &str, start: impl Into<PlanePoint>, steps: impl IntoIterator<Item = (K, P)>) {
        let mut last = start.into();
        for (key, to) in steps {
            let to = to.into();
            self.dimension(side, key, last, to).chain(id);
            last = to;
        }
    }

    /// `count` equal pitches from `first` to `last`: written `8 × 100 = 800`.
    pub fn rows(
        &mut self,
        side: Side,
        key: impl Into<String>,
        first: impl Into<PlanePoint>,
        last: impl Into<PlanePoint>,
        count: usize,
    ) -> &mut DimensionRequest {
        self.dimension(side, key, first, last).pitches(count)
    }

    /// The diameter of a circle, on a leader that points at its centre.
    pub fn diameter(&mut self, key: impl Into<String>, centre: impl Into<PlanePoint>, radius: f64) -> &mut DimensionRequest {
        self.request(DimensionRequest::new(key, Quantity::Diameter { centre: centre.into(), radius }))
    }

    /// The radius of an arc; `on` is a point of the arc to point at.
    pub fn radius(&mut self, key: impl Into<String>, centre: impl Into<PlanePoint>, on: impl Into<PlanePoint>) -> &mut DimensionRequest {
        self.request(DimensionRequest::new(key, Quantity::Radius { centre: centre.into(), on: on.into() }))
    }

    /// The angle at `corner` from `first` counter-clockwise to `second`.
    pub fn angle(
        &mut self,
        key: impl Into<String>,
        corner: impl Into<PlanePoint>,
        first: impl Into<PlanePoint>,
        second: impl Into<PlanePoint>,
    ) -> &mut DimensionRequest {
        self.request(DimensionRequest::new(key, Quantity::Angle { corner: corner.into(), first: first.into(), second: second.into() }))
    }

    fn request(&mut self, request: DimensionRequest) -> &mut DimensionRequest {
        self.dimensions.push_mut(request)
    }
}

/// An upright rectangle between two opposite corners.
pub fn rectangle(low: PlanePoint, high: PlanePoint) -> Shape<PlanePoint> {
    Shape::polygon([low, PlanePoint::new(high.x, low.y), high, PlanePoint::new(low.x, high.y)])
}

impl From<(f64, f64)> for PlanePoint {
    fn from((x, y): (f64, f64)) -> Self {
        Self { x, y }
    }
}

impl From<[f64; 2]> for PlanePoint {
    fn from([x, y]: [f64; 2]) -> Self {
        Self { x, y }
    }
}

impl From<kurbo::Point> for PlanePoint {
    fn from(p: kurbo::Point) -> Self {
        Self { x: p.x, y: p.y }
    }
}
