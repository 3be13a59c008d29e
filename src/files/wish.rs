//! What the user wants drawn, and how.

use crate::export::{self, Exporter};
use crate::paper::own_block::OwnBlock;
use crate::sheets::SheetSet;

/// A format that the user may ask for.
#[derive(Debug, Clone, Copy)]
pub enum Format {
    /// Of the drawings.
    Drawings(&'static dyn Exporter),
    /// A STEP file of all bodies.
    Model,
}

impl Format {
    /// Every format, in the order they are listed to the user.
    pub fn all() -> impl Iterator<Item = Self> {
        export::ALL.into_iter().map(Self::Drawings).chain([Self::Model])
    }
    /// Word by which it is asked for.
    pub fn id(&self) -> &'static str {
        match self {
            Self::Drawings(format) => format.id(),
            Self::Model => "step",
        }
    }
    /// File name extension without the dot.
    pub fn extension(&self) -> &'static str {
        match self {
            Self::Drawings(format) => format.extension(),
            Self::Model => self.id(),
        }
    }
    /// What it is and for whom, one sentence.
    pub fn about(&self) -> &'static str {
        match self {
            Self::Drawings(format) => format.about(),
            Self::Model => {
                "the foot's bodies as one assembly in mm, for a 3D model of the plant: x from the foot shaft toward the up side, z up from the underside of the base, y right-handed with both from the belt's middle (toward the near side where the sheets show the up side on the left)"
            }
        }
    }
}

/// What the user wants drawn, and how.
#[derive(Clone)]
pub struct Wish {
    /// The whole set or a part of it.
    pub set: SheetSet,
    /// Formats of the drawings, each once.
    pub formats: Vec<&'static dyn Exporter>,
    /// Whether the bodies are wanted as a model.
    pub model: bool,
    /// How they are written; the title of the set comes from the spec.
    pub options: export::Options,
    /// The user's title block.
    pub own_block: Option<OwnBlock>,
}
