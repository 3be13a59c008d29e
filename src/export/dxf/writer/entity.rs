//! The entities of a drawing: lines, circles, arcs, polylines, hatches, texts, dimensions.
//!
//! In: points in drawing units, angles in radians, names of layers and styles. Out: entities in the
//! drawing, everything by layer. Each call fails on a name that does not exist or a number that is not
//! finite, and leaves the drawing as it was.

use super::super::text;
use super::{CadVersion, Drawing, Form, WriteError, Written, angle, library, ratio};
use acadrust::entities::{
    Arc, BoundaryEdge, BoundaryPath, BoundaryPathFlags, Circle, Dimension, DimensionAngular2Ln, DimensionAngular3Pt, DimensionBase, DimensionDiameter,
    DimensionLinear, DimensionRadius, EntityCommon, EntityType, Hatch, HatchPattern, HatchPatternLine, HatchPatternType, Line, LwPolyline, LwVertex,
    PolylineEdge, Solid, Text, TextHorizontalAlignment,
};
use acadrust::tables::BlockRecord;
use acadrust::types::{Color, Handle, Vector2};

/// Where an entity goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Model space.
    Model,
    /// A block made by [`Drawing::block`].
    Block(BlockId),
}

/// A block of this drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BlockId(Handle);

impl BlockId {
    pub(super) fn of(record: &BlockRecord) -> Self {
        Self(record.handle)
    }
}

/// A point in drawing units.
pub type Xy = (f64, f64);

/// Horizontal alignment of a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Left end.
    Left,
    /// Middle of the base line.
    Centre,
    /// Right end.
    Right,
}

/// A line of text as the file holds it.
#[derive(Debug, Clone, PartialEq)]
pub struct TextLine<'a> {
    /// Already encoded content.
    pub content: &'a str,
    /// Left end of the base line.
    pub left: Xy,
    /// The reference point named by `anchor`, on the base line.
    pub at: Xy,
    /// Height of capitals, drawing units.
    pub height: f64,
    /// Direction of the base line, radians.
    pub angle: f64,
    /// What `at` is.
    pub anchor: Anchor,
    /// Name of the text style.
    pub style: &'a str,
}

/// What a dimension measures, in drawing units and radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measured {
    /// Along a direction.
    Linear {
        /// First point.
        first: Xy,
        /// Second point.
        second: Xy,
        /// Point on the dimension line.
        line: Xy,
        /// Direction of the dimension line.
        angle: f64,
    },
    /// Across a circle.
    Diameter {
        /// One end.
        near: Xy,
        /// Other end.
        far: Xy,
    },
    /// From the centre of an arc.
    Radius {
        /// Centre.
        centre: Xy,
        /// On the arc.
        on: Xy,
    },
    /// Between two lines, counter-clockwise.
    Angle {
        /// Where they meet.
        corner: Xy,
        /// On the first.
        first: Xy,
        /// On the second.
        second: Xy,
        /// On the dimension arc.
        arc: Xy,
    },
}

/// A dimension entity.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionEntity<'a> {
    /// What it measures.
    pub measured: Measured,
    /// Encoded text, or none to show the measurement.
    pub text: Option<&'a str>,
    /// Middle of the text.
    pub text_middle: Xy,
    /// Name of the dimension style.
    pub style: &'a str,
    /// The value shown: drawing units, or radians.
    pub value: f64,
    /// Block with its strokes.
    pub block: BlockId,
}

impl Drawing {
    /// A straight line.
    ///
    /// # Errors
    /// As for every entity: a layer that does not exist or a number that is not finite.
    pub fn line(&mut self, place: Place, layer: &str, from: Xy, to: Xy) -> Written {
        let mut e = Line::new();
        e.start = self.point(from)?;
        e.end = self.point(to)?;
        e.common = self.common(place, layer)?;
        self.add(EntityType::Line(e))
    }

    /// A full circle.
    ///
    /// # Errors
    /// See [`Drawing::line`].
    pub fn circle(&mut self, place: Place, layer: &str, centre: Xy, radius: f64) -> Written {
        let mut e = Circle::new();
        e.center = self.point(centre)?;
        e.radius = self.number(radius)?;
        e.common = self.common(place, layer)?;
        self.add(EntityType::Circle(e))
    }

    /// A counter-clockwise arc from `start` to `end`, radians.
    ///
    /// # Errors
    /// See [`Drawing::line`].
    pub fn arc(&mut self, place: Place, layer: &str, centre: Xy, radius: f64, start: f64, end: f64) -> Written {
        let mut e = Arc::new();
        e.center = self.point(centre)?;
        e.radius = self.number(radius)?;
        e.start_angle = angle(start)?.rem_euclid(std::f64::consts::TAU);
        e.end_angle = angle(end)?.rem_euclid(std::f64::consts::TAU);
        e.common = self.common(place, layer)?;
        self.add(EntityType::Arc(e))
    }

    /// A light-weight polyline of corners with bulges.
    ///
    /// # Errors
    /// See [`Drawing::line`].
    pub fn polyline(&mut self, place: Place, layer: &str, corners: &[(Xy, f64)], closed: bool) -> Written {
        let mut e = LwPolyline::new();
        for (at, bulge) in corners {
            let p = self.point(*at)?;
            e.vertices.push(LwVertex::with_bulge(Vector2::new(p.x, p.y), ratio(*bulge)?));
        }
        e.is_closed = closed;
        e.plinegen = true;
        e.common = self.common(place, layer)?;
        self.add(EntityType::LwPolyline(e))
    }

    /// A filled triangle.
    ///
    /// # Errors
    /// See [`Drawing::line`].
    pub fn triangle(&mut self, place: Place, layer: &str, corners: [Xy; 3]) -> Written {
        let [a, b, c] = corners;
        let (a, b, c) = (self.point(a)?, self.point(b)?, self.point(c)?);
        let mut e = Solid::new(a, b, c, c);
        e.common = self.common(place, layer)?;
        self.add(EntityType::Solid(e))
    }

    /// A hatch: outer loop first, then holes, each as corners with bulges. `lines` is direction (radians)
    /// and distance (drawing units) of its lines, or none for a solid fill.
    ///
    /// # Errors
    /// See [`Drawing::line`].
    pub fn hatch(&mut self, place: Place, layer: &str, loops: &[Vec<(Xy, f64)>], lines: Option<(f64, f64)>) -> Written {
        let mut e = match lines {
            None => Hatch::solid(),
            Some((direction, distance)) => {
                let (direction, distance) = (angle(direction)?, self.number(distance)?);
                let (sin, cos) = direction.sin_cos();
                // Named ANSI31, lines at 45° and 3.175 mm or 1/8 in apart, with the angle and scale that turn it into ours: readers
                // that take the lines from the file and readers that look the name up draw the same.
                let mut pattern = HatchPattern::new("ANSI31");
                pattern.add_line(HatchPatternLine {
                    angle: direction,
                    base_point: Vector2::new(0.0, 0.0),
                    offset: Vector2::new(self.number(-sin * distance)?, self.number(cos * distance)?),
                    dash_lengths: Vec::new(),
                });
                let mut hatch = Hatch::with_pattern(pattern);
                hatch.pattern_type = HatchPatternType::Predefined;
                hatch.pattern_angle = angle((direction - std::f64::consts::FRAC_PI_4).rem_euclid(std::f64::consts::TAU))?;
                hatch.pattern_scale = self.number(distance / self.ansi31)?;
                hatch
            }
        };
        for (i, corners) in loops.iter().enumerate() {
            let mut edge = PolylineEdge::new(Vec::new(), true);
            for (at, bulge) in corners {
                let p = self.point(*at)?;
                edge.add_vertex(Vector2::new(p.x, p.y), ratio(*bulge)?);
            }
            let mut path = BoundaryPath::with_flags(if i == 0 { BoundaryPathFlags::EXTERNAL } else { BoundaryPathFlags::DEFAULT });
            path.add_edge(BoundaryEdge::Polyline(edge));
            e.add_path(path);
        }
        e.common = self.common(place, layer)?;
        self.add(EntityType::Hatch(Box::new(e)))
    }

    /// Text as this form and version of the file hold it.
    fn encoded(&self, content: &str) -> String {
        if self.form == Form::Binary && self.version <= CadVersion::R2000 { text::single_byte(content) } else { content.to_owned() }
    }

    /// A line of text.
    ///
    /// # Errors
    /// See [`Drawing::line`]; also a style that does not exist.
    pub fn text(&mut self, place: Place, layer: &str, line: &TextLine) -> Written {
        if !self.document.text_styles.contains(line.style) {
            return Err(WriteError(format!("there is no text style {}", line.style)));
        }
        let mut e = Text::with_value(self.encoded(line.content), self.point(line.left)?).with_height(self.number(line.height)?);
        e.rotation = angle(line.angle)?;
        e.style = line.style.into();
        (e.horizontal_alignment, e.alignment_point) = match line.anchor {
            Anchor::Left => (TextHorizontalAlignment::Left, None),
            Anchor::Centre => (TextHorizontalAlignment::Center, Some(self.point(line.at)?)),
            Anchor::Right => (TextHorizontalAlignment::Right, Some(self.point(line.at)?)),
        };
        e.common = self.common(place, layer)?;
        self.add(EntityType::Text(e))
    }

    /// A dimension in model space.
    ///
    /// # Errors
    /// See [`Drawing::line`]; also a style that does not exist.
    pub fn dimension(&mut self, layer: &str, d: &DimensionEntity) -> Written {
        if !self.document.dim_styles.contains(d.style) {
            return Err(WriteError(format!("there is no dimension style {}", d.style)));
        }
        let Some(block) = self.document.block_records.iter().find(|b| b.handle == d.block.0).map(|b| b.name.clone()) else {
            return Err(WriteError("a dimension's block is not of this drawing".into()));
        };
        let middle = self.point(d.text_middle)?;
        let value = ratio(d.value)?;
        let common = self.common(Place::Model, layer)?;
        let dress = |base: &mut DimensionBase| {
            base.common = common;
            base.block_name = block;
            base.style_name = d.style.into();
            base.text_middle_point = middle;
            base.text_user_positioned = true;
            base.dwg_flags_byte = 0;
            base.actual_measurement = value;
            base.set_text_override(d.text.map(|t| self.encoded(t)));
        };
        let entity = match d.measured {
            Measured::Linear { first, second, line, angle: direction } => {
                let mut e = DimensionLinear::rotated(self.point(first)?, self.point(second)?, angle(direction)?);
                e.definition_point = self.point(line)?;
                e.base.definition_point = e.definition_point;
                dress(&mut e.base);
                Dimension::Linear(e)
            }
            Measured::Diameter { near, far } => {
                let mut e = DimensionDiameter::new(self.point(near)?, self.point(far)?);
                dress(&mut e.base);
                Dimension::Diameter(e)
            }
            Measured::Radius { centre, on } => {
                let mut e = DimensionRadius::new(self.point(centre)?, self.point(on)?);
                e.base.definition_point = e.angle_vertex;
                dress(&mut e.base);
                Dimension::Radius(e)
            }
            // Two lines from the corner: a reader in wide use draws this kind only. It cannot say more than a half turn.
            Measured::Angle { corner, first, second, arc } if d.value < std::f64::consts::PI - 1e-9 => {
                let mut e = DimensionAngular2Ln::new(self.point(corner)?, self.point(first)?, self.point(second)?);
                e.dimension_arc = self.point(arc)?;
                e.base.definition_point = e.definition_point;
                dress(&mut e.base);
                Dimension::Angular2Ln(e)
            }
            Measured::Angle { corner, first, second, arc } => {
                let mut e = DimensionAngular3Pt::new(self.point(corner)?, self.point(first)?, self.point(second)?);
                e.definition_point = self.point(arc)?;
                e.base.definition_point = e.definition_point;
                dress(&mut e.base);
                Dimension::Angular3Pt(e)
            }
        };
        self.add(EntityType::Dimension(Box::new(entity)))
    }

    fn add(&mut self, entity: EntityType) -> Written {
        self.document.add_entity(entity).map(|_| ()).map_err(library)
    }

    /// Everything by layer, on a layer that exists.
    fn common(&self, place: Place, layer: &str) -> Result<EntityCommon, WriteError> {
        if layer == "0" || !self.document.layers.contains(layer) {
            return Err(WriteError(format!("there is no layer {layer} to draw on")));
        }
        let owner_handle = match place {
            Place::Model => self.document.header.model_space_block_handle,
            Place::Block(id) => id.0,
        };
        Ok(EntityCommon { layer: layer.into(), color: Color::ByLayer, owner_handle, ..EntityCommon::new() })
    }
}
