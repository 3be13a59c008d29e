//! The lugs by which the foot is lifted: their sizes; where they stand follows from the plates.

pub use crate::formulas::lifting::Pull;
pub use crate::sizing::lifting_lug::{Breaks, Lug};

use super::casing::CasingBody;
use crate::spec::Spec;

/// The lug, if there are lugs.
pub(super) fn build(spec: &Spec, casing: &CasingBody) -> Option<Lug> {
    Lug::of(&spec.lifting, casing.plate, casing.flange, spec.stock())
}
