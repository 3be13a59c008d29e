//! Pens, line types, line widths, lettering heights and hatch patterns of the sheets.
//!
//! A [`Pen`] says what a line *is*; layer name, line type, width and colour follow from it in one
//! table, after ISO 128-2 (line types and two widths in the ratio 2:1) and ISO 3098 (lettering),
//! both from memory. Everything is paper mm. Colours are neutral: sheets print black on white.

/// What a line is; decides its layer, type and width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pen {
    /// Visible edge (01.2).
    Edge,
    /// Visible edge of a lesser detail: bolts, fillets (01.1).
    FineEdge,
    /// Hidden edge (02.1).
    Hidden,
    /// Centre line, pitch circle (04.1).
    Centre,
    /// Ends of a cutting plane (04.2).
    CutPlane,
    /// Extreme position, neighbouring part (05.1).
    Phantom,
    /// The belt.
    Belt,
    /// Buckets.
    Bucket,
    /// Concrete outline in section.
    Concrete,
    /// Ground and water lines.
    Ground,
    /// Dimension, extension line, arrow.
    Dimension,
    /// Leader, balloon.
    Leader,
    /// Hatching.
    Hatch,
    /// Lettering outside dimensions: titles, notes.
    Lettering,
    /// Arrow of material flow, level triangle, north, projection cone, weld sign.
    Symbol,
    /// Sheet frame and centring marks.
    Frame,
    /// Lines of tables and title block.
    Table,
    /// Rule stamp.
    Stamp,
}

/// Line type of a pen, lengths in paper mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LineType {
    /// Unbroken.
    Continuous,
    /// 02.1 dashes.
    Dashed,
    /// 04.1/04.2 long dash, dot.
    LongDashDot,
    /// 05.1 long dash, two dots.
    LongDashDoubleDot,
}

impl LineType {
    /// All of them.
    pub const ALL: [LineType; 4] = [Self::Continuous, Self::Dashed, Self::LongDashDot, Self::LongDashDoubleDot];

    /// Dash lengths in paper mm, positive drawn, negative gap; empty for an unbroken line.
    /// Proportions after ISO 128-2 for a 0.25 mm line (dash 12d, gap 3d, long dash 24d), dots drawn as short strokes; from memory.
    pub const fn pattern(self) -> &'static [f64] {
        match self {
            Self::Continuous => &[],
            Self::Dashed => &[3.0, -0.75],
            Self::LongDashDot => &[6.0, -0.75, 0.25, -0.75],
            Self::LongDashDoubleDot => &[6.0, -0.75, 0.25, -0.75, 0.25, -0.75],
        }
    }

    /// Name in a file that names line types: usual CAD names of about our lengths, because
    /// some programs draw by the name and not by the pattern in the file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Continuous => "Continuous",
            Self::Dashed => "HIDDEN2",
            Self::LongDashDot => "DASHDOT2",
            Self::LongDashDoubleDot => "DIVIDE2",
        }
    }
}

/// Two line widths in the ratio 2:1 (ISO 128-2 groups 0.5 and 0.7, from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineGroup {
    /// 0.5 / 0.25 mm, sheets up to A2.
    G05,
    /// 0.7 / 0.35 mm, larger sheets.
    G07,
}

impl LineGroup {
    /// Width of a wide line, mm.
    pub const fn wide(self) -> f64 {
        match self {
            Self::G05 => 0.5,
            Self::G07 => 0.7,
        }
    }
    /// Width of a narrow line, mm.
    pub const fn narrow(self) -> f64 {
        self.wide() / 2.0
    }
}

impl Pen {
    /// Every pen; the list behind the layer tables.
    pub const ALL: [Pen; 18] = [
        Pen::Edge,
        Pen::FineEdge,
        Pen::Hidden,
        Pen::Centre,
        Pen::CutPlane,
        Pen::Phantom,
        Pen::Belt,
        Pen::Bucket,
        Pen::Concrete,
        Pen::Ground,
        Pen::Dimension,
        Pen::Leader,
        Pen::Hatch,
        Pen::Lettering,
        Pen::Symbol,
        Pen::Frame,
        Pen::Table,
        Pen::Stamp,
    ];

    /// Layer name in our own short scheme.
    pub const fn layer(self) -> &'static str {
        match self {
            Pen::Edge => "EDGE",
            Pen::FineEdge => "EDGE-FINE",
            Pen::Hidden => "HIDDEN",
            Pen::Centre => "CENTRE",
            Pen::CutPlane => "CUT-PLANE",
            Pen::Phantom => "PHANTOM",
            Pen::Belt => "BELT",
            Pen::Bucket => "BUCKET",
            Pen::Concrete => "CONCRETE",
            Pen::Ground => "GROUND",
            Pen::Dimension => "DIMENSION",
            Pen::Leader => "LEADER",
            Pen::Hatch => "HATCHING",
            Pen::Lettering => "LETTERING",
            Pen::Symbol => "SYMBOL",
            Pen::Frame => "FRAME",
            Pen::Table => "TABLE",
            Pen::Stamp => "STAMP",
        }
    }

    /// What the layer holds, in a few words.
    pub const fn about(self) -> &'static str {
        match self {
            Pen::Edge => "visible edges",
            Pen::FineEdge => "visible edges of lesser details",
            Pen::Hidden => "hidden edges",
            Pen::Centre => "centre lines and pitch circles",
            Pen::CutPlane => "cutting planes",
            Pen::Phantom => "extreme positions and neighbouring parts",
            Pen::Belt => "belt",
            Pen::Bucket => "buckets",
            Pen::Concrete => "concrete outlines",
            Pen::Ground => "ground and water",
            Pen::Dimension => "dimensions",
            Pen::Leader => "leaders and balloons",
            Pen::Hatch => "hatching",
            Pen::Lettering => "titles and notes",
            Pen::Symbol => "flow arrows, levels, projection and weld signs",
            Pen::Frame => "frame",
            Pen::Table => "tables and title block",
            Pen::Stamp => "rule stamp",
        }
    }

    /// Line type of the pen.
    pub const fn line_type(self) -> LineType {
        match self {
            Pen::Hidden => LineType::Dashed,
            Pen::Centre | Pen::CutPlane => LineType::LongDashDot,
            Pen::Phantom => LineType::LongDashDoubleDot,
            _ => LineType::Continuous,
        }
    }

    /// Line width on paper in mm for the sheet's line group.
    pub const fn width(self, group: LineGroup) -> f64 {
        match self {
            Pen::Edge | Pen::Concrete | Pen::Belt | Pen::CutPlane | Pen::Stamp => group.wide(),
            Pen::Frame => 0.7,
            _ => group.narrow(),
        }
    }
}

/// Face of lettering; both are DejaVu Sans Condensed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Regular weight.
    Regular,
    /// Bold: titles and the stamp only.
    Bold,
}

/// What fills a region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pattern {
    /// Solid ink: arrow heads, level triangles.
    Solid,
    /// Parallel lines at an angle (degrees) and a distance (paper mm): cut metal is 45° at 2 to 3 mm.
    Lines {
        /// Direction of the lines, degrees.
        angle: f64,
        /// Distance between lines, paper mm.
        spacing: f64,
    },
}
